package window

import (
	"image"
	"image/color"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/app/look"
)

// Whatever is readable on white is so on dim paper: every grey, and the colours
// that drawings are made of. Nothing on it glares.
func TestPicturesAreReadableOnDimPaper(t *testing.T) {
	at := func(c color.RGBA) color.NRGBA {
		img := image.NewRGBA(image.Rect(0, 0, 1, 1))
		img.SetRGBA(0, 0, c)
		return color.NRGBAModel.Convert(dimmed(img, look.Dark).At(0, 0)).(color.NRGBA)
	}
	white := color.RGBA{255, 255, 255, 255}
	paper := at(white)
	require.Equal(t, look.Dark.Raised, paper)
	require.Equal(t, look.Dark.Text, at(color.RGBA{0, 0, 0, 255}))
	inks := []color.RGBA{{0x9c, 0x38, 0x48, 255}, {0xa3, 0x23, 0x1f, 255}, {0x2f, 0x5f, 0x7a, 255}, {0x2f, 0x6b, 0x4f, 255}}
	for g := range 256 {
		inks = append(inks, color.RGBA{uint8(g), uint8(g), uint8(g), 255})
	}
	for _, ink := range inks {
		before := contrast(color.NRGBAModel.Convert(ink).(color.NRGBA), color.NRGBA{255, 255, 255, 255})
		if before >= 4.5 {
			require.GreaterOrEqual(t, contrast(at(ink), paper), 4.5, "%v", ink)
		}
	}
	red := at(inks[0])
	require.Greater(t, red.R, red.G, "a hue stays")
	require.Greater(t, red.R, red.B)
}

// In a dim room no picture of a page is white.
func TestNoPageGlaresInADimRoom(t *testing.T) {
	w := open(t, true)
	w.setDark(true)
	white := image.NewRGBA(image.Rect(0, 0, 4, 4))
	for i := range white.Pix {
		white.Pix[i] = 255
	}
	require.Equal(t, look.Dark.Raised, color.NRGBAModel.Convert(w.onPaper(white).At(2, 2)))
	w.printPage()
	img := w.win.Canvas().Capture()
	glaring := 0
	for y := 0; y < img.Bounds().Dy(); y += 3 {
		for x := 0; x < img.Bounds().Dx(); x += 3 {
			c := color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA)
			if c.R > 0xf4 && c.G > 0xf4 && c.B > 0xf4 {
				glaring++
			}
		}
	}
	require.Zero(t, glaring, "pixels that are white")
}
