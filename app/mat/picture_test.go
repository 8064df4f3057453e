package mat

import (
	"image"
	"image/png"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
	"truemat/ops/demo"
	"truemat/ops/unit"
)

// goldens are compared with what is drawn now. TRUEMAT_GOLDEN=1 writes them
// anew: look at them before keeping them. TRUEMAT_PICTURES=folder puts all
// pictures there.
func golden(t *testing.T, name string, img image.Image) {
	keep(t, name, img)
	path := "testdata/" + name
	if os.Getenv("TRUEMAT_GOLDEN") != "" {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		f, err := os.Create(path)
		require.NoError(t, err)
		require.NoError(t, png.Encode(f, img))
		require.NoError(t, f.Close())
	}
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	want, err := png.Decode(f)
	require.NoError(t, err)
	require.Equal(t, want.Bounds(), img.Bounds())
	differ := 0
	b := want.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			r, g, bl, _ := want.At(x, y).RGBA()
			r2, g2, bl2, _ := img.At(x, y).RGBA()
			if far(r, r2) || far(g, g2) || far(bl, bl2) {
				differ++
			}
		}
	}
	assert.LessOrEqual(t, differ, 20, "pixels that differ from %s", path)
}

// far leaves room for the rounding of another processor.
func far(a, b uint32) bool { return max(a, b)-min(a, b) > 12*257 }

func TestTernOnTheMat(t *testing.T) {
	m, _, capture := shown(t, 640, 400, 1)
	m.Lay(View{Pieces: tern(t).Pieces})
	golden(t, "tern.png", capture())
}

func TestAlterationInInchesByLamplight(t *testing.T) {
	m, _, capture := shown(t, 640, 400, 1)
	v := busy(t)
	v.Unit = unit.InchFractions
	m.Lay(v)
	m.SetPalette(Dark())
	golden(t, "turning-dark.png", capture())
}

// The picture at scale 2 has twice the pixels, sharp, the same things in the
// same places.
func TestFineScreen(t *testing.T) {
	m, _, capture := shown(t, 640, 400, 2)
	m.Lay(View{Pieces: tern(t).Pieces})
	img := capture()
	require.Equal(t, image.Pt(1280, 800), img.Bounds().Size())
	assert.InDelta(t, 2, m.px, 1e-9)
	// A point on the paper of the band, beside its name.
	band := m.wardrobe.shapes["band"][0]
	at := m.camera.ToScreen(band.piece.Pose.Apply(band.label))
	r, _, _, _ := img.At(int(at.X*2)+70, int(at.Y*2)).RGBA()
	assert.Equal(t, uint32(Light().Paper.R), r>>8)
	m.Lay(busy(t))
	keep(t, "fine.png", capture())
}

func TestPicturesToLookAt(t *testing.T) {
	if os.Getenv("TRUEMAT_PICTURES") == "" {
		t.Skip("TRUEMAT_PICTURES names no folder")
	}
	for _, c := range []struct {
		name string
		w, h float32
		busy bool
		dark bool
	}{
		{"plain-1280.png", 1280, 800, false, false}, {"dark-1280.png", 1280, 800, false, true},
		{"lace-1280.png", 1280, 800, false, false}, {"busy-1920.png", 1920, 1080, true, false}, {"busy-dark-1920.png", 1920, 1080, true, true},
	} {
		m, _, capture := shown(t, c.w, c.h, 1)
		v := View{Pieces: tern(t).Pieces, Selection: tool.Selection{Piece: "band", Edge: "hem", Joint: true}}
		if c.name == "lace-1280.png" {
			run, err := demo.Tern()
			require.NoError(t, err)
			v = View{Pieces: demo.TernInLace().Replay(run)[4].Size.Pattern.Pieces, Unit: unit.InchFractions}
		}
		if c.busy {
			v = busy(t)
		}
		m.Lay(v)
		if c.dark {
			m.SetPalette(Dark())
		}
		keep(t, c.name, capture())
	}
}
