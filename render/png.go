package render

import (
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/rasterizer"
	"truemat/geom"
	"truemat/ops/unit"
)

// maxPixels bounds a picture (about 400 MB of memory).
const maxPixels = 100e6

// WritePNG draws a scene as a picture of dpi pixels an inch, 10 mm of white
// around it.
func WritePNG(w io.Writer, s Scene, dpi float64) error {
	img, err := Picture(s, dpi)
	if err != nil {
		return err
	}
	// The fastest compression: drawings are mostly white.
	enc := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := enc.Encode(w, img); err != nil {
		return fmt.Errorf("writing the picture: %w", err)
	}
	return nil
}

// Picture draws a scene as an image of dpi pixels an inch, 10 mm of white
// around it.
func Picture(s Scene, dpi float64) (*image.RGBA, error) {
	width, height, err := sheetSize(s)
	if err != nil {
		return nil, err
	}
	if !(dpi > 0) {
		return nil, errors.New("a picture needs a number of dots per inch above 0")
	}
	dots := dpi / unit.Inch
	nx, ny := width*dots+0.5, height*dots+0.5
	if nx < 1 || ny < 1 || nx*ny > maxPixels {
		return nil, fmt.Errorf("at %g dots per inch the picture would have %.0f × %.0f pixels; between 1 and %.0f million are possible", dpi, nx, ny, maxPixels/1e6)
	}
	img, r := blank(int(nx), int(ny), dots)
	// The rasterizer measures from the lower edge of the last whole pixel.
	r.shift = geom.Pt(sheetMargin, sheetMargin).Sub(s.Box.Min)
	r.shift.Y += float64(int(ny))/dots - height
	for _, l := range s.Layers {
		r.layer(l)
	}
	return img, nil
}

// PaintLayer paints a layer on a clear ground of width × height pixels, dots
// pixels to a millimetre, with the place low at its lower left.
func PaintLayer(l Layer, low geom.Point, width, height int, dots float64) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, max(width, 1), max(height, 1)))
	r := raster{ras: rasterizer.FromImage(img, canvas.Resolution(dots), canvas.LinearColorSpace{}), shift: low.Mul(-1), tolerance: canvas.PixelTolerance / dots}
	r.layer(l)
	return img
}

// blank returns a white image of so many pixels, dots of them a mm, and what
// draws on it.
func blank(nx, ny int, dots float64) (*image.RGBA, raster) {
	img := image.NewRGBA(image.Rect(0, 0, nx, ny))
	draw.Draw(img, img.Bounds(), image.White, image.Point{}, draw.Src)
	ras := rasterizer.FromImage(img, canvas.Resolution(dots), canvas.LinearColorSpace{})
	return img, raster{ras: ras, tolerance: canvas.PixelTolerance / dots}
}

type raster struct {
	ras       *rasterizer.Rasterizer
	shift     geom.Point
	tolerance float64
}

func (r raster) layer(l Layer) {
	for _, f := range l.Figures {
		r.figure(f)
	}
	for _, t := range l.Labels {
		r.label(t)
	}
}

func (r raster) figure(f Figure) {
	if f.Path.Empty() {
		return
	}
	path := &canvas.Path{}
	r.add(path, f.Path.Segments())
	if f.Path.Closed() {
		path.Close()
	}
	if f.Fill.A > 0 {
		r.fill(path, f.Fill)
	}
	if f.Pen.Width > 0 {
		if len(f.Pen.Dash) > 0 {
			path = path.Dash(0, f.Pen.Dash...)
		}
		r.fill(path.Stroke(f.Pen.Width, canvas.ButtCap, canvas.RoundJoin, r.tolerance), f.Pen.Color)
	}
}

func (r raster) label(l Label) {
	path := &canvas.Path{}
	for _, c := range l.outlines() {
		r.add(path, c)
		path.Close()
	}
	r.fill(path, l.Color)
}

func (r raster) fill(path *canvas.Path, c color.NRGBA) {
	if path.Empty() {
		return
	}
	style := canvas.Style{Fill: canvas.Paint{Color: color.RGBAModel.Convert(c).(color.RGBA)}}
	r.ras.RenderPath(path, style, canvas.Identity)
}

func (r raster) add(path *canvas.Path, segs []geom.Cubic) {
	for i, c := range segs {
		p := [4]geom.Point{}
		for k := range p {
			p[k] = c.P[k].Add(r.shift)
		}
		if i == 0 {
			path.MoveTo(p[0].X, p[0].Y)
		}
		if c.IsStraight() {
			path.LineTo(p[3].X, p[3].Y)
		} else {
			path.CubeTo(p[1].X, p[1].Y, p[2].X, p[2].Y, p[3].X, p[3].Y)
		}
	}
}
