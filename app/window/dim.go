package window

import (
	"image"
	"image/color"
	"math"

	"truemat/app/look"
)

// onPaper returns a picture drawn in ink on white as it is seen in this light:
// in a dim room on paper and in ink of the window, lightness turned round and
// hues kept.
func (w *Window) onPaper(img image.Image) image.Image {
	if !w.dark || img == nil {
		return img
	}
	return dimmed(img, w.palette)
}

// inkCurve brings greys nearer to the ink, so that writing that is readable on
// white is so on dim paper.
const inkCurve = 1.7

func dimmed(img image.Image, p look.Palette) *image.RGBA {
	var curve [256]float64
	for i := range curve {
		curve[i] = math.Pow(float64(i)/255, inkCurve)
	}
	turn := func(c color.RGBA) color.RGBA {
		lightness := (299*int(c.R) + 587*int(c.G) + 114*int(c.B)) / 1000
		t := curve[lightness]
		part := func(ink, paper, of uint8) uint8 {
			v := float64(ink) + (float64(paper)-float64(ink))*t + float64(int(of)-lightness)
			return uint8(min(max(v+0.5, 0), 255))
		}
		return color.RGBA{part(p.Text.R, p.Raised.R, c.R), part(p.Text.G, p.Raised.G, c.G), part(p.Text.B, p.Raised.B, c.B), 255}
	}
	b := img.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	var last, made color.RGBA
	for y := range b.Dy() {
		for x := range b.Dx() {
			c := color.RGBAModel.Convert(img.At(b.Min.X+x, b.Min.Y+y)).(color.RGBA)
			if c != last || made.A == 0 {
				last, made = c, turn(c)
			}
			out.SetRGBA(x, y, made)
		}
	}
	return out
}
