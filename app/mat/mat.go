package mat

import (
	"image"
	"math"
	"reflect"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// View is what lies on the mat.
type View struct {
	Pieces    []pattern.Piece
	Ghost     []pattern.Piece   // as they were, drawn faintly below the pieces that are altered
	Preview   map[string]bool   // names of the pieces that are being altered now
	Traced    map[string]bool   // names of the pieces that are drawn as if of tracing paper
	Nested    [][]pattern.Piece // neighbouring sizes, drawn faintly
	Sizes     []string          // what these are called, beside them where there is room; or none
	Selection tool.Selection
	Overlay   tool.Overlay
	Unit      unit.System // of grid and rulers; centimetres when empty
}

// Mat is the widget. It is used from the toolkit's goroutine only.
type Mat struct {
	widget.BaseWidget

	// OnKey and OnRune take the keys that arrive while the mat has the focus.
	OnKey  func(*fyne.KeyEvent)
	OnRune func(rune)
	// OnCamera is called after every change of the view: pan, zoom, resize.
	OnCamera func(Camera)
	// OnPaint is called after the still or the moving pieces were drawn for the
	// display.
	OnPaint func(moving bool)
	// OnFocus is called when the mat gains or loses the focus.
	OnFocus func(bool)

	report  func(tool.Event)
	pointer pointerState
	cover   cover

	view                View
	palette             Palette
	camera              Camera
	perMM               float64 // pixels of the screen to a real mm
	toFit               bool    // as soon as there are a size and pieces
	fitted              bool    // all is shown, and stays so when the size changes
	wardrobe            wardrobe
	still, live, ghosts []laid
	nested              [][]laid

	floats    floats
	lettering lettering

	base, over, moving, top, left, box *canvas.Raster
	markX, markY                       *canvas.Rectangle
	layers                             *fyne.Container
	brushes                            [6]brush
	px                                 float64     // pixels to a unit, as last drawn
	window                             fyne.Canvas // on which it lies
}

// New returns a mat that reports what the pointer does.
func New(pointer func(tool.Event)) *Mat {
	m := &Mat{report: pointer, palette: Light(), perMM: 96 / unit.Inch, px: 1, toFit: true, camera: Camera{Scale: 2}}
	m.pointer.now = defaultClock
	m.base = canvas.NewRaster(m.draw(0, m.drawBase))
	m.moving = canvas.NewRaster(m.draw(1, m.drawMoving))
	m.over = canvas.NewRaster(m.draw(2, m.drawOver))
	m.top = canvas.NewRaster(m.draw(3, func(p *painter) { p.ruler(m.view.Unit, false) }))
	m.left = canvas.NewRaster(m.draw(4, func(p *painter) { p.ruler(m.view.Unit, true) }))
	m.box = canvas.NewRaster(m.draw(5, func(p *painter) { p.cornerBox(m.view.Unit) }))
	for _, r := range []*canvas.Raster{m.base, m.moving, m.over, m.top, m.left, m.box} {
		r.ScaleMode = canvas.ImageScalePixels // drawn for the pixels it covers
	}
	m.markX, m.markY = canvas.NewRectangle(m.palette.Accent), canvas.NewRectangle(m.palette.Accent)
	for _, o := range []fyne.CanvasObject{m.moving, m.over, m.markX, m.markY} {
		o.Hide()
	}
	m.layers = container.NewWithoutLayout(m.base, m.moving, m.over, m.top, m.left, m.box, m.markX, m.markY)
	m.ExtendBaseWidget(m)
	return m
}

// draw makes the function that a raster calls with its size in pixels.
func (m *Mat) draw(i int, f func(*painter)) func(w, h int) image.Image {
	return func(w, h int) image.Image {
		b := &m.brushes[i]
		if w < 1 || h < 1 {
			return image.NewRGBA(image.Rect(0, 0, 1, 1))
		}
		b.begin(w, h)
		p := &painter{brush: b, palette: m.palette, camera: m.camera, px: m.px}
		if i == 0 && m.base.Size().Width > 0 {
			m.px = float64(w) / float64(m.base.Size().Width)
			p.px = m.px
		}
		f(p)
		if m.OnPaint != nil && i < 2 {
			m.OnPaint(i == 1)
		}
		return b.img
	}
}

func (m *Mat) drawBase(p *painter) {
	p.ground(m.view.Unit)
	p.beneath(m.nested)
	p.nested = m.nested
	for _, l := range m.still {
		p.piece(l)
	}
	p.nameSizes(m.nested, m.view.Sizes, append(slices.Clone(m.still), m.live...))
	p.nameBeside(m.still, m.live)
}

func (m *Mat) drawMoving(p *painter) {
	p.clear()
	p.x0, p.y0 = m.pixel(m.moving.Position())
	for _, l := range m.ghosts {
		p.outline(l, p.pen(1.3, m.palette.Faint, 6, 4))
	}
	p.nested = m.nested
	for _, l := range m.live {
		p.piece(l)
	}
	for _, l := range m.ghosts { // seen through the piece that lies on it
		p.outline(l, p.pen(1, fade(m.palette.Faint, 0x90), 6, 4))
	}
}

func (m *Mat) drawOver(p *painter) {
	p.clear()
	p.x0, p.y0 = m.pixel(m.over.Position())
	p.above, p.foot = nil, float64(m.Size().Height-m.cover.height)*m.px
	o := m.overlay()
	if m.floats.px != m.px { // it is told with the first picture how fine the screen is
		m.floats = m.placeFloats(o)
	}
	corner := geom.Pt(p.x0, p.y0)
	f := m.floats.shifted(corner.Mul(-1))
	m.floats.labels = nil
	if l := m.selected(); l != nil {
		var taken []strip
		told := false // a note says more of the edge than its name would
		for i, n := range f.notes {
			taken = append(taken, n.strip)
			told = told || m.view.Selection.Edge != "" && strings.Contains(o.Notes[i].Text, m.view.Selection.Edge+" ")
		}
		for _, s := range f.signs {
			taken = append(taken, s.ground(p.px), strip{mid: s.of, dir: geom.Pt(1, 0), r: signedSpot * p.px})
		}
		onto := p.onto(geom.Identity())
		for _, d := range o.Dots {
			taken = append(taken, strip{mid: onto.apply(d.At), dir: geom.Pt(1, 0), r: toldSpot * p.px})
		}
		still := m.stillLettering(m.onMat())
		for _, s := range still.names {
			s.mid = s.mid.Sub(corner)
			taken = append(taken, s)
		}
		p.marks = nil
		for _, s := range still.marks {
			s.mid = s.mid.Sub(corner)
			p.marks = append(p.marks, s)
		}
		p.aside = slices.DeleteFunc(slices.Concat(m.still, m.live), func(o laid) bool { return o.piece.Name == l.piece.Name })
		for _, s := range p.selection(*l, m.view.Selection, m.view.Unit, told, taken) {
			s.mid = s.mid.Add(corner)
			m.floats.labels = append(m.floats.labels, s)
		}
	}
	p.overlay(o, f)
}

func (m *Mat) pixel(p fyne.Position) (x, y float64) {
	return math.Round(float64(p.X) * m.px), math.Round(float64(p.Y) * m.px)
}

func (m *Mat) selected() *laid { return m.find(m.view.Selection.Piece) }

func (m *Mat) find(piece string) *laid {
	for _, ls := range [][]laid{m.live, m.still} {
		for i := range ls {
			if ls[i].piece.Name == piece {
				return &ls[i]
			}
		}
	}
	return nil
}

// Lay puts a view on the mat. Only what differs from before is drawn again,
// with the next frame.
func (m *Mat) Lay(v View) {
	kept := map[string][]*shape{}
	var still, live []laid
	for _, l := range m.wardrobe.lay(v.Pieces, kept) {
		l.traced = v.Traced[l.piece.Name]
		if v.Preview[l.piece.Name] {
			live = append(live, l)
		} else {
			still = append(still, l)
		}
	}
	ghosts := m.wardrobe.lay(v.Ghost, kept)
	var nested [][]laid
	for _, size := range v.Nested {
		nested = append(nested, m.wardrobe.lay(size, kept))
	}
	sameNested := len(nested) == len(m.nested)
	for i := 0; sameNested && i < len(nested); i++ {
		sameNested = sameLaid(nested[i], m.nested[i])
	}
	baseSame := sameLaid(still, m.still) && sameNested && slices.Equal(v.Sizes, m.view.Sizes)
	liveSame := sameLaid(live, m.live) && sameLaid(ghosts, m.ghosts)
	overSame := baseSame && liveSame && v.Selection == m.view.Selection && reflect.DeepEqual(v.Overlay, m.view.Overlay)
	unitSame := v.Unit == m.view.Unit

	m.wardrobe.shapes = kept
	m.view, m.still, m.live, m.ghosts, m.nested = v, still, live, ghosts, nested
	switch {
	case m.toFit && !m.Size().IsZero():
		m.Fit()
		return
	case !unitSame:
		m.redraw()
		return
	}
	if !baseSame {
		m.again(m.base)
	}
	if !liveSame {
		m.placeMoving()
	}
	if !overSame {
		m.placeOver()
	}
}

// SetPalette changes the colours.
func (m *Mat) SetPalette(p Palette) {
	m.palette = p
	m.markX.FillColor, m.markY.FillColor = p.Accent, p.Accent
	m.redraw()
}

// redraw asks for everything to be drawn again.
func (m *Mat) redraw() {
	for _, r := range []*canvas.Raster{m.base, m.top, m.left, m.box} {
		m.again(r)
	}
	m.placeMoving()
	m.placeOver()
	m.markX.Refresh()
	m.markY.Refresh()
}

func (m *Mat) placeMoving() {
	b := geom.NoBox()
	for _, ls := range [][]laid{m.live, m.ghosts} {
		for _, l := range ls {
			box := l.bounds()
			p, q := m.camera.ToScreen(box.Min), m.camera.ToScreen(box.Max)
			b = b.Union(geom.BoxOf(geom.Pt(float64(p.X), float64(p.Y)), geom.Pt(float64(q.X), float64(q.Y))).Grow(14))
		}
	}
	m.place(m.moving, b)
}

func (m *Mat) placeOver() {
	o := m.overlay()
	m.floats = m.placeFloats(o)
	m.place(m.over, m.overBox(o))
}

// place lays a raster over the part of a box that shows, on whole pixels.
func (m *Mat) place(r *canvas.Raster, b geom.Box) {
	size := m.Size()
	x0, y0 := math.Floor(max(b.Min.X, 0)*m.px), math.Floor(max(b.Min.Y, 0)*m.px)
	x1 := math.Ceil(min(b.Max.X, float64(size.Width)) * m.px)
	y1 := math.Ceil(min(b.Max.Y, float64(size.Height)) * m.px)
	if b.Empty() || x1 <= x0 || y1 <= y0 {
		if r.Visible() {
			r.Hide()
			m.again(r)
		}
		return
	}
	r.Move(fyne.NewPos(float32(x0/m.px), float32(y0/m.px)))
	r.Resize(fyne.NewSize(float32((x1-x0)/m.px), float32((y1-y0)/m.px)))
	r.Show()
	m.again(r)
}

// again asks for a raster to be drawn anew. The toolkit forgets to which
// window an object belongs that was not drawn anew for a minute, and then
// would show its old picture stretched to its new size; so the window that is
// remembered here is asked.
func (m *Mat) again(r *canvas.Raster) {
	if app := fyne.CurrentApp(); m.window == nil && app != nil {
		m.window = app.Driver().CanvasForObject(m)
	}
	if m.window != nil {
		m.window.Refresh(r)
	}
}

// Camera returns the view onto the mat.
func (m *Mat) Camera() Camera { return m.camera }

// SetCamera changes the view onto the mat.
func (m *Mat) SetCamera(c Camera) {
	m.toFit, m.fitted = false, false
	m.setCamera(c)
}

func (m *Mat) setCamera(c Camera) {
	if c == m.camera {
		return
	}
	m.camera = c
	m.redraw()
	if m.OnCamera != nil {
		m.OnCamera(c)
	}
}

// MinSize is small: the mat takes what room there is.
func (m *Mat) MinSize() fyne.Size { return fyne.NewSize(200, 150) }

// CreateRenderer is for the toolkit.
func (m *Mat) CreateRenderer() fyne.WidgetRenderer {
	return &matRenderer{m, container.NewClip(m.layers)}
}

type matRenderer struct {
	m    *Mat
	clip *container.Clip
}

func (r *matRenderer) Layout(size fyne.Size) {
	m := r.m
	before := m.base.Size()
	r.clip.Resize(size)
	m.layers.Resize(size)
	m.base.Resize(size)
	m.top.Move(fyne.NewPos(rulerWidth, 0))
	m.left.Move(fyne.NewPos(0, rulerWidth))
	m.top.Resize(fyne.NewSize(max(size.Width-rulerWidth, 1), rulerWidth))
	m.left.Resize(fyne.NewSize(rulerWidth, max(size.Height-rulerWidth, 1)))
	m.box.Resize(fyne.NewSize(rulerWidth, rulerWidth))
	switch {
	case m.toFit, m.fitted && before != size:
		m.Fit()
	case before != size && !before.IsZero():
		// What was in the middle stays there.
		m.setCamera(m.camera.Panned(float64(size.Width-before.Width)/2, float64(size.Height-before.Height)/2))
	}
}

func (r *matRenderer) MinSize() fyne.Size           { return r.m.MinSize() }
func (r *matRenderer) Refresh()                     { r.m.redraw() }
func (r *matRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.clip} }
func (r *matRenderer) Destroy()                     {}
