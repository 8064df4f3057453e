package window

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"truemat/app/mat"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// foundBoard shows the pieces found in a drawing with their corners. A press on
// an outline chooses the edge there, or a corner with the edge that begins at it.
type foundBoard struct {
	widget.BaseWidget
	w      *Window
	room   fyne.Size
	pieces []foundPiece
	fixed  bool         // the drawing says itself where its corners are
	rings  []geom.Point // places to be looked at
	guess  func(foundEdge) bool
	k      float64
	corner geom.Point // mm at the upper left
	at     foundPlace // beneath the pointer
	chosen foundPlace
	ring   *canvas.Rectangle
	tell   func(string)
	choose func()
	change func()
	enter  func() // lists what the edge chosen may be
}

// foundPiece is a piece as it lies on the mat.
type foundPiece struct {
	pattern.Piece
	outline geom.Path
	cut     []geom.Point
	rim     []geom.Point
	joints  []float64 // along the outline, where each edge starts
}

// foundPlace is a place on an outline; a corner when joint is not below 0.
type foundPlace struct {
	piece, joint int
	s            float64
}

var (
	_ fyne.Focusable     = (*foundBoard)(nil)
	_ desktop.Mouseable  = (*foundBoard)(nil)
	_ desktop.Hoverable  = (*foundBoard)(nil)
	_ desktop.Cursorable = (*foundBoard)(nil)
)

const (
	foundRim   = 26 // units around the pieces
	foundReach = 12 // units within which an outline is pressed
	foundMost  = 4  // units to a millimetre
	foundFlat  = 0.1
	apartRing  = 11 // units from the middle of a ring to it
	noJoint    = -1
)

func newFoundBoard(w *Window, p pattern.Pattern, room fyne.Size, fixed bool, rings []geom.Point) *foundBoard {
	f := &foundBoard{w: w, room: room, fixed: fixed, rings: rings, at: foundPlace{piece: noJoint}, chosen: foundPlace{piece: noJoint}, ring: canvas.NewRectangle(color.Transparent)}
	box := geom.NoBox()
	for _, pc := range p.Pieces {
		o, err := pc.Outline()
		if err != nil {
			continue
		}
		at := foundPiece{Piece: pc, outline: o.Transform(pc.Pose)}
		at.rim = at.outline.Flatten(foundFlat)
		box = box.Union(at.outline.Bounds())
		if cut, err := pc.CutLine(); err == nil && cut.Area() > o.Area()+1 {
			cut = cut.Transform(pc.Pose)
			at.cut, box = cut.Flatten(foundFlat), box.Union(cut.Bounds())
		}
		along := 0.0
		for i := range pc.Edges {
			at.joints = append(at.joints, along)
			along += pc.Edges[i].Length()
		}
		f.pieces = append(f.pieces, at)
	}
	f.k = min((float64(room.Width)-2*foundRim)/max(box.Width(), 1), (float64(room.Height)-2*foundRim)/max(box.Height(), 1), foundMost)
	f.corner = geom.Pt(box.Center().X-float64(room.Width)/2/f.k, box.Center().Y+float64(room.Height)/2/f.k)
	f.ring.StrokeWidth, f.ring.CornerRadius = 2, 6
	f.ExtendBaseWidget(f)
	return f
}

// CreateRenderer paints the pieces and writes the names of their edges inside.
func (f *foundBoard) CreateRenderer() fyne.WidgetRenderer {
	picture := canvas.NewRaster(f.paint)
	picture.ScaleMode = canvas.ImageScalePixels
	lay(picture, fyne.Position{}, f.room)
	lay(f.ring, fyne.Position{}, f.room)
	objects := []fyne.CanvasObject{picture}
	taken := f.marked()
	// word writes at the first of some places where nothing is written yet.
	word := func(s string, size float32, bold bool, c color.Color, places ...geom.Point) {
		t := text(s, size, bold, c)
		m := t.MinSize()
		for _, q := range places {
			p := f.position(q)
			at := fyne.NewPos(down(min(max(p.X-m.Width/2, 2), f.room.Width-m.Width-2)), down(p.Y-m.Height/2))
			here := area{at, m}
			if slices.ContainsFunc(taken, here.overlaps) {
				continue
			}
			taken = append(taken, here)
			lay(t, at, m)
			objects = append(objects, t)
			return
		}
	}
	for k, pc := range f.pieces {
		for i := range pc.Edges {
			label := f.label(foundEdge{k, i})
			if f.guess(foundEdge{k, i}) {
				label = pc.Edges[i].Name + " ?"
			}
			word(label, small, false, f.w.palette.Faint, f.beside(pc, i, label)...)
		}
	}
	for _, pc := range f.pieces {
		c := pc.outline.Bounds().Center()
		places := []geom.Point{c}
		for _, up := range []float64{20, -20, 40, -40, 60, -60} {
			places = append(places, c.Add(geom.Pt(0, up/f.k)))
		}
		places = append(places, f.besideArrow(pc, pc.Name)...)
		word(pc.Name, normal, true, f.w.palette.Text, append(f.within(pc, pc.Name, places), places...)...)
		if pc.hasArrow() {
			shows := arrowNames[pc.Arrow.Kind]
			word(shows, small, false, f.w.palette.Faint, f.within(pc, shows, f.besideArrow(pc, shows))...)
		}
	}
	objects = append(objects, f.ring)
	return widget.NewSimpleRenderer(container.New(fixed(f.room), objects...))
}

// beside are places for the name of an edge: inside along it, then outside.
func (f *foundBoard) beside(pc foundPiece, i int, label string) (places []geom.Point) {
	e := pc.Edges[i].Path.Transform(pc.Pose)
	wide := float64(fyne.MeasureText(label, small, fyne.TextStyle{}).Width)
	for _, side := range []float64{1, -1} {
		for _, share := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
			l := share * e.Length()
			in := e.TangentAt(l).Perp()
			off := (9 + math.Abs(in.X)*wide/2) / f.k // clear of a line that runs up, too
			if side < 0 && pc.cut != nil {
				off += pc.Edges[i].Allowance
			}
			places = append(places, e.At(l).Add(in.Mul(side*off)))
		}
	}
	return places
}

// area is where something is written.
type area struct {
	at   fyne.Position
	size fyne.Size
}

func (a area) overlaps(b area) bool {
	return a.at.X < b.at.X+b.size.Width && b.at.X < a.at.X+a.size.Width && a.at.Y < b.at.Y+b.size.Height && b.at.Y < a.at.Y+a.size.Height
}

// MinSize is the room it was given.
func (f *foundBoard) MinSize() fyne.Size { return f.room }

func (f *foundBoard) position(p geom.Point) fyne.Position {
	return fyne.NewPos(float32((p.X-f.corner.X)*f.k), float32((f.corner.Y-p.Y)*f.k))
}

func (f *foundBoard) paint(w, h int) image.Image {
	p, px, ink := mat.NewPainter(w, h), float64(w)/float64(f.room.Width), f.w.palette
	to := func(pts []geom.Point) []geom.Point {
		out := make([]geom.Point, len(pts))
		for i, q := range pts {
			at := f.position(q)
			out[i] = geom.Pt(float64(at.X)*px, float64(at.Y)*px)
		}
		return out
	}
	square := func(x, y, r float64) []geom.Point {
		return []geom.Point{geom.Pt(x-r, y), geom.Pt(x, y-r), geom.Pt(x+r, y), geom.Pt(x, y+r), geom.Pt(x-r, y)}
	}
	rim := f.room
	p.Fill([]geom.Point{{}, geom.Pt(float64(rim.Width)*px, 0), geom.Pt(float64(rim.Width)*px, float64(rim.Height)*px), geom.Pt(0, float64(rim.Height)*px)}, ink.Raised)
	for i, pc := range f.pieces {
		if pc.cut != nil {
			p.Fill(to(pc.cut), ink.Soft)
			p.Line(to(pc.cut), px, ink.Faint)
		}
		p.Fill(to(pc.rim), ink.Ground)
		p.Line(to(append(pc.rim, pc.rim[0])), 1.5*px, ink.Text)
		for _, line := range f.marks(pc) {
			p.Line(to(line.pts), line.wide*px, line.ink)
		}
		if on := f.on(f.chosen); on.piece == i {
			p.Line(to(pc.Edges[on.edge].Path.Transform(pc.Pose).Flatten(foundFlat)), 4*px, ink.Accent)
		}
		for j := range pc.joints {
			c := to([]geom.Point{pc.outline.At(pc.joints[j])})[0]
			r := 5.0
			if f.chosen.piece == i && f.chosen.joint == j {
				r = 8
				p.Fill(square(c.X, c.Y, (r+2)*px), ink.Text)
			}
			p.Fill(square(c.X, c.Y, r*px), ink.Accent)
		}
		for _, at := range []foundPlace{f.chosen, f.at} {
			if at.piece == i && (at.joint == noJoint || at == f.at) {
				c := to([]geom.Point{pc.outline.At(at.s)})[0]
				p.Fill(square(c.X, c.Y, 8*px), ink.Accent)
				p.Fill(square(c.X, c.Y, 5*px), ink.Raised)
			}
		}
	}
	for _, at := range f.rings {
		c := to([]geom.Point{at})[0]
		around := make([]geom.Point, 0, 33)
		for i := range 33 {
			around = append(around, c.Add((geom.Angle(i) * 11.25 * geom.Degree).Unit().Mul(apartRing*px)))
		}
		p.Line(around, 2*px, ink.Look)
	}
	return p.Picture()
}

// near finds the corner or the place of an outline at a position.
func (f *foundBoard) near(pos fyne.Position) foundPlace {
	at := geom.Pt(f.corner.X+float64(pos.X)/f.k, f.corner.Y-float64(pos.Y)/f.k)
	best, least := foundPlace{piece: noJoint}, foundReach/f.k
	for i, pc := range f.pieces {
		if n := pc.outline.Nearest(at); n.Dist <= least {
			best, least = foundPlace{i, noJoint, n.S}, n.Dist
		}
	}
	if best.piece < 0 {
		return best
	}
	least = foundReach / f.k
	for j, s := range f.pieces[best.piece].joints {
		if d := f.pieces[best.piece].outline.At(s).Dist(at); d <= least {
			best.joint, best.s, least = j, s, d
		}
	}
	return best
}

func (f *foundBoard) show(at foundPlace) {
	if at == f.at {
		return
	}
	f.at = at
	f.Refresh()
	f.tell(f.says())
}

// foundEdge is an edge of a piece, by their places; −1 for none.
type foundEdge struct{ piece, edge int }

// on returns the edge that a place is on; at a corner the one that begins there.
func (f *foundBoard) on(at foundPlace) foundEdge {
	if at.piece < 0 || at.piece >= len(f.pieces) {
		return foundEdge{noJoint, noJoint}
	}
	if at.joint >= 0 {
		return foundEdge{at.piece, at.joint}
	}
	joints, i := f.pieces[at.piece].joints, 0
	for i+1 < len(joints) && joints[i+1] <= at.s {
		i++
	}
	return foundEdge{at.piece, i}
}

// label is what stands beside an edge: its name, and its role where that is
// another word, with a question mark while that is guessed.
func (f *foundBoard) label(on foundEdge) string {
	e := &f.pieces[on.piece].Edges[on.edge]
	switch {
	case f.guess(on):
		return e.Name + " (" + e.Role.Word() + "?)"
	case e.Name == e.Role.Word():
		return e.Name
	}
	return e.Name + " (" + e.Role.Word() + ")"
}

// pressAnEdge is told while the pointer is beside all edges: the longest of what is told.
const pressAnEdge = "Press an edge: its name and what it is stand beneath, to be said anew; a question mark tells what is guessed. By keys, with the picture chosen: N and P go from corner to corner, ← and → along the outline, Enter lists what the edge may be, the space bar makes a corner or takes one, Tab goes to the fields, where Enter keeps a name and goes back to the picture."

// says tells what a press does, and with the keys what they do.
func (f *foundBoard) says() string {
	on := f.on(f.at)
	if on.piece < 0 {
		return pressAnEdge
	}
	pc := &f.pieces[on.piece]
	if f.at.joint >= 0 {
		return fmt.Sprintf("A press chooses this corner, with %s of %s, which begins here.", pc.Edges[on.edge].Name, pc.Name)
	}
	from := pc.joints[on.edge]
	return fmt.Sprintf("A press chooses %s of %s, ", pc.Edges[on.edge].Name, pc.Name) +
		unit.Restate(fmt.Sprintf("%s and %s from its ends.", unit.MM(f.at.s-from), unit.MM(from+pc.Edges[on.edge].Length()-f.at.s)), f.w.unit)
}

// pick chooses a place.
func (f *foundBoard) pick(at foundPlace) {
	f.chosen = at
	f.Refresh()
	f.choose()
}

// MouseIn shows what a press would do.
func (f *foundBoard) MouseIn(e *desktop.MouseEvent) { f.show(f.near(e.Position)) }

// MouseMoved shows what a press would do.
func (f *foundBoard) MouseMoved(e *desktop.MouseEvent) { f.show(f.near(e.Position)) }

// MouseOut no longer does.
func (f *foundBoard) MouseOut() { f.show(foundPlace{piece: noJoint}) }

// MouseDown chooses what is there.
func (f *foundBoard) MouseDown(e *desktop.MouseEvent) {
	f.w.win.Canvas().Focus(f)
	if e.Button == desktop.MouseButtonPrimary {
		if at := f.near(e.Position); at.piece >= 0 {
			f.pick(at)
		}
	}
}

// MouseUp is for the toolkit.
func (f *foundBoard) MouseUp(*desktop.MouseEvent) {}

// Cursor is a cross where a press chooses something.
func (f *foundBoard) Cursor() desktop.Cursor {
	if f.at.piece >= 0 {
		return desktop.CrosshairCursor
	}
	return desktop.DefaultCursor
}

// FocusGained shows where the keys go.
func (f *foundBoard) FocusGained() {
	f.ring.StrokeColor = f.w.palette.Accent
	f.ring.Refresh()
}

// FocusLost no longer does.
func (f *foundBoard) FocusLost() {
	f.ring.StrokeColor = color.Transparent
	f.ring.Refresh()
}
