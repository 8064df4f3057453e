package window

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"golang.org/x/image/draw"
)

// photo is a picture that was drawn with dots of its own, shown with those of
// the window. Making it smaller well takes longer than a picture of the window
// may, so that is done away from the window's thread, and a rough one shows
// until then.
type photo struct {
	w      *Window
	of     image.Image
	raster *canvas.Raster
	wanted image.Point // the size in pixels in which it is being made
	fine   *image.RGBA
}

// stretched shows a picture as large as it is laid.
func (w *Window) stretched(of image.Image) *canvas.Raster {
	p := &photo{w: w, of: of}
	p.raster = canvas.NewRaster(p.draw)
	p.raster.ScaleMode = canvas.ImageScalePixels // drawn for the pixels it covers
	return p.raster
}

// contained shows a whole picture in the middle of where it is laid.
func (w *Window) contained(of image.Image) fyne.CanvasObject {
	return container.New(inMiddle{of.Bounds().Size()}, w.stretched(of))
}

func (p *photo) draw(w, h int) image.Image {
	size := image.Pt(w, h)
	if p.wanted != size {
		p.wanted = size
		var fine *image.RGBA
		p.w.away(func() { fine = resized(p.of, size, draw.CatmullRom) }, func() {
			if p.wanted == size {
				p.fine = fine
				p.raster.Refresh()
			}
		})
	}
	if p.fine != nil && p.fine.Rect.Max == size {
		return p.fine
	}
	return resized(p.of, size, draw.ApproxBiLinear)
}

func resized(of image.Image, size image.Point, by draw.Scaler) *image.RGBA {
	to := image.NewRGBA(image.Rectangle{Max: size})
	by.Scale(to, to.Rect, of, of.Bounds(), draw.Src, nil)
	return to
}

// inMiddle lays objects in the middle, as large as there is room for something
// of so many pixels, on whole units.
type inMiddle struct{ of image.Point }

func (l inMiddle) Layout(all []fyne.CanvasObject, size fyne.Size) {
	if l.of.X == 0 || l.of.Y == 0 {
		return
	}
	k := min(size.Width/float32(l.of.X), size.Height/float32(l.of.Y))
	as := fyne.NewSize(down(k*float32(l.of.X)), down(k*float32(l.of.Y)))
	for _, o := range all {
		o.Move(fyne.NewPos(down((size.Width-as.Width)/2), down((size.Height-as.Height)/2)))
		o.Resize(as)
	}
}

func (inMiddle) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }
