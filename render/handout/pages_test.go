package handout_test

import (
	"bytes"
	"fmt"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/render"
	"truemat/render/handout"
)

// pageDots is coarse: it shows how a page is set, not every letter.
const pageDots = 50

// The pages are compared with pictures that were looked at, without the words
// of steps and checks and the plans of cloth. UPDATE_GOLDEN=1 draws them anew:
// look at them before keeping them.
func TestThePagesLookAsTheyDidWhenTheyWereLookedAt(t *testing.T) {
	for _, paper := range []render.Paper{render.A4, render.Letter} {
		pages, err := handout.Pages(tern(t), handout.Wish{Size: "75C", Paper: paper, Without: []handout.Part{handout.Steps, handout.Checks, handout.Sizes, handout.Cutting}})
		require.NoError(t, err)
		for i, page := range pages {
			img, err := render.Picture(page, pageDots)
			require.NoError(t, err)
			path := filepath.Join("testdata", fmt.Sprintf("%s-%d.png", paper.Name, i+1))
			if os.Getenv("UPDATE_GOLDEN") != "" {
				var b bytes.Buffer
				require.NoError(t, png.Encode(&b, img))
				require.NoError(t, os.MkdirAll("testdata", 0o755))
				require.NoError(t, os.WriteFile(path, b.Bytes(), 0o644))
				continue
			}
			f, err := os.ReadFile(path)
			require.NoError(t, err, "UPDATE_GOLDEN=1 draws it")
			want, err := png.Decode(bytes.NewReader(f))
			require.NoError(t, err)
			require.Equal(t, want.Bounds(), img.Bounds(), path)
			differ, all := 0, want.Bounds().Dx()*want.Bounds().Dy()
			for y := range want.Bounds().Dy() {
				for x := range want.Bounds().Dx() {
					a, b := color.GrayModel.Convert(want.At(x, y)).(color.Gray), color.GrayModel.Convert(img.At(x, y)).(color.Gray)
					if max(a.Y, b.Y)-min(a.Y, b.Y) > 24 {
						differ++
					}
				}
			}
			require.LessOrEqual(t, float64(differ)/float64(all), 0.0005, "share of the pixels of %s that differ", path)
		}
	}
}
