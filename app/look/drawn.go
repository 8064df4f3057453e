package look

import (
	"bytes"
	"image"
	"image/color"
	"sync"

	"github.com/fyne-io/oksvg"
	"github.com/srwiley/rasterx"
)

type inking struct {
	name string
	ink  color.NRGBA
	size int
}

var (
	drawing sync.Mutex
	inked   = map[inking]*image.RGBA{}
)

// Drawn returns an icon as wide as so many pixels, see [Icon]. It is drawn once
// and kept: the same few signs stand in every row of a list, and to read one
// takes longer than to lay the row. It is not to be written to.
func Drawn(name string, c color.NRGBA, size int) *image.RGBA {
	drawing.Lock()
	defer drawing.Unlock()
	key := inking{name, c, size}
	img := inked[key]
	if img != nil {
		return img
	}
	img = image.NewRGBA(image.Rect(0, 0, size, size))
	if icon, err := oksvg.ReadIconStream(bytes.NewReader(Icon(name, c).Content())); err == nil { // ours are whole: a test reads them all
		icon.SetTarget(0, 0, float64(size), float64(size))
		icon.Draw(rasterx.NewDasher(size, size, rasterx.NewScannerGV(size, size, img, img.Bounds())), 1)
	}
	inked[key] = img
	return img
}
