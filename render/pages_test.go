package render

import (
	"fmt"
	"image"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The oracle is what poppler makes of the PDF: in every cell of 6 mm there is
// as much ink, whatever the edges of the lines look like.
func TestPagesLookAsTheirPDF(t *testing.T) {
	need(t, "pdftoppm")
	const dots, cell = 4, 24
	for _, doc := range []Print{samplePrint(A4), samplePrint(Letter), {Pattern: "Sample", Sizes: []SizePieces{{"75C", sample()}}, Paper: A3, FoldWhole: true}} {
		plan, err := PlanTiles(doc)
		require.NoError(t, err)
		pages, err := NewPages(doc, plan)
		require.NoError(t, err)
		pdf := saved(t, tiled(t, doc), "a.pdf")
		for n := 1; n <= plan.Pages(); n++ {
			got, err := pages.Page(n, dots)
			require.NoError(t, err)
			want := rasterized(t, pdf, fmt.Sprint(n), "101.6")
			assert.InDelta(t, want.Bounds().Dx(), got.Bounds().Dx(), 1)
			assert.InDelta(t, want.Bounds().Dy(), got.Bounds().Dy(), 1)
			inked := 0
			for y := 0; y+cell < got.Bounds().Dy(); y += cell {
				for x := 0; x+cell < got.Bounds().Dx(); x += cell {
					at := image.Rect(x, y, x+cell, y+cell)
					a, b := ink(got, at), ink(want, at)
					if b > 0.05 {
						inked++
					}
					require.InDelta(t, b, a, 0.07, "page %d of %s at %d, %d", n, doc.Paper.Name, x/dots, y/dots)
				}
			}
			require.Greater(t, inked, 10)
		}
		_, err = pages.Page(plan.Pages()+1, dots)
		require.Error(t, err)
	}
}

// ink is the share of black in a part of an image.
func ink(img image.Image, at image.Rectangle) float64 {
	sum := 0.0
	for y := at.Min.Y; y < at.Max.Y; y++ {
		for x := at.Min.X; x < at.Max.X; x++ {
			r, g, b, _ := img.At(x, y).RGBA()
			sum += 1 - (0.299*float64(r)+0.587*float64(g)+0.114*float64(b))/0xffff
		}
	}
	return sum / float64(at.Dx()*at.Dy())
}
