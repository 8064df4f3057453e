package window

import (
	"image"
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
)

func TestAPictureIsShownWholeInTheMiddleWithTheDotsOfTheWindow(t *testing.T) {
	w := open(t, false)
	of := image.NewRGBA(image.Rect(0, 0, 400, 200))
	for x := range 400 {
		for y := range 200 {
			of.SetRGBA(x, y, color.RGBA{uint8(x / 2), 0, 0, 255})
		}
	}
	shown := w.contained(of).(*fyne.Container)
	shown.Resize(fyne.NewSize(100, 80))
	r := shown.Objects[0]
	require.Equal(t, fyne.NewSize(100, 50), r.Size())
	require.Equal(t, fyne.NewPos(0, 15), r.Position())
	img := w.stretched(of.SubImage(image.Rect(200, 0, 400, 200))).Generator(100, 50)
	require.Equal(t, image.Rect(0, 0, 100, 50), img.Bounds(), "whatever part of a picture it was")
	red, _, _, _ := img.At(50, 20).RGBA()
	require.InDelta(t, 150, float64(red>>8), 2, "half way along the right half")
}

// BenchmarkPhoto is what the window's thread waits for while a picture of a
// page is made as small as it is shown, and what it waited for before.
func BenchmarkPhoto(b *testing.B) {
	w := laid(b)
	of := image.NewRGBA(image.Rect(0, 0, 2600, 1800))
	b.Run("rough", func(b *testing.B) {
		for b.Loop() {
			p := photo{w: w, of: of, wanted: image.Pt(780, 540)}
			p.draw(780, 540)
		}
	})
	b.Run("fine", func(b *testing.B) {
		for b.Loop() {
			w.stretched(of).Generator(780, 540)
		}
	})
}
