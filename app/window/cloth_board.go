package window

import (
	"fmt"
	"image/color"
	"math"
	"reflect"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"truemat/app/mat"
	"truemat/app/plan"
	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/pattern"
	"truemat/render"
)

// clothBoard shows a length of cloth with the pieces on it, and hands pointer
// and keys to the plan's board. Pictures of the cloth and of each piece are
// painted once and only moved while a piece is dragged.
type clothBoard struct {
	widget.BaseWidget
	w       *Window
	cloth   cloth.Cloth
	pattern pattern.Pattern
	board   *plan.Board
	room    fyne.Size

	turn   geom.Motion // plain cloth is shown with its selvedges up and down
	k      float64     // units to a millimetre
	corner geom.Point  // mm, turned, at the upper left
	ground *canvas.Image
	pieces []*canvas.Image
	looks  []string     // what the pictures show
	low    []geom.Point // mm from where the piece is held to the picture's lower left, turned
	bar    [3]*canvas.Line
	length *canvas.Text
	wide   [2]*canvas.Text // between the selvedges of a plain cloth
	seen   geom.Box        // of the cloth, not turned
	fitted fitted          // what it was fitted for
	ring   *canvas.Rectangle

	down    bool
	pressed time.Time
	pressAt fyne.Position
	told    func()      // the board has changed
	done    func(error) // a piece was let go, or could not be laid
}

var (
	_ fyne.Draggable     = (*clothBoard)(nil)
	_ fyne.Focusable     = (*clothBoard)(nil)
	_ fyne.Shortcutable  = (*clothBoard)(nil)
	_ desktop.Mouseable  = (*clothBoard)(nil)
	_ desktop.Cursorable = (*clothBoard)(nil)
)

// fitted is what a board is fitted to its room for.
type fitted struct {
	cloth   cloth.Cloth
	pattern pattern.Pattern
}

const (
	miniDots    = 4.2 // units to a millimetre of the small drawing
	boardRim    = 6   // units around the cloth
	boardBelow  = 26  // units for the measure below it
	boardBeside = 92  // units for the measure beside it
	boardDouble = 400 * time.Millisecond
	boardMost   = 2.4 // units to a millimetre of cloth
)

func (w *Window) newClothBoard(c cloth.Cloth, p pattern.Pattern, b *plan.Board, room fyne.Size) *clothBoard {
	v := &clothBoard{w: w, cloth: c, pattern: p, room: room, turn: geom.Identity()}
	if c.Lace == nil {
		v.turn = geom.Turn(-90*geom.Degree, geom.Point{})
	}
	v.ring = canvas.NewRectangle(color.Transparent)
	v.ring.StrokeWidth, v.ring.CornerRadius = 2, 6
	v.length = text("", small, true, w.palette.Text)
	for i := range v.wide {
		v.wide[i] = text("", small, i == 0, w.palette.Text)
	}
	for i := range v.bar {
		v.bar[i] = canvas.NewLine(w.palette.Text)
		v.bar[i].StrokeWidth = 1
	}
	v.ExtendBaseWidget(v)
	v.put(b)
	return v
}

// put shows a board, as it was fitted to the room as long as all of it shows so:
// what lies under her hand stays there.
func (v *clothBoard) put(b *plan.Board) {
	v.board = b
	if now := (fitted{v.cloth, v.pattern}); !v.shows() || !reflect.DeepEqual(now, v.fitted) {
		v.fitted = now
		v.fit()
	}
	v.pieces, v.looks, v.low = make([]*canvas.Image, b.Count()), make([]string, b.Count()), make([]geom.Point, b.Count())
	v.refresh()
}

// shows reports whether all that lies on the cloth is seen.
func (v *clothBoard) shows() bool {
	if v.ground == nil {
		return false
	}
	seen := v.seen.Grow(0.1)
	if from, to := v.board.Ends(); from < seen.Min.X || to > seen.Max.X {
		return false
	}
	for i := range v.board.Count() {
		if b := v.board.Piece(i).Outline.Bounds(); b.Min.X < seen.Min.X || b.Max.X > seen.Max.X || b.Max.Y > seen.Max.Y {
			return false
		}
	}
	return true
}

// fit fits the cloth to the room.
func (v *clothBoard) fit() {
	from, to := v.board.Ends()
	low, high := 0.0, v.cloth.Width
	upTo := high
	beyond := max(0.12*(to-from), 30)
	if l := v.cloth.Lace; l != nil {
		low, high = -l.Depth, v.cloth.Width-l.Depth
		beyond = l.Repeat / 2
		from -= beyond
	} else {
		high = v.shown(high)
		if upTo = high; upTo < v.cloth.Width {
			high += render.BrokenOff(upTo)
		}
	}
	to += beyond
	box := geom.BoxOf(v.turn.Apply(geom.Pt(from, low)), v.turn.Apply(geom.Pt(to, high)))
	wide, tall := float64(v.room.Width-2*boardRim), float64(v.room.Height-2*boardRim-boardBelow)
	if v.cloth.Lace == nil {
		wide, tall = wide-2*boardBeside, tall+boardBelow
	}
	v.k = min(wide/box.Width(), tall/box.Height(), boardMost)
	// What is left over shows more of the cloth.
	more := wide/v.k - box.Width()
	if v.cloth.Lace == nil {
		more = tall/v.k - box.Height()
		to += more
	} else {
		from, to = from-more/2, to+more/2
	}
	box = geom.BoxOf(v.turn.Apply(geom.Pt(from, low)), v.turn.Apply(geom.Pt(to, high)))
	v.corner = geom.Pt(box.Min.X-boardRim/v.k, box.Max.Y+boardRim/v.k)
	if v.cloth.Lace == nil {
		v.corner.X = box.Center().X - float64(v.room.Width)/2/v.k
	}
	v.seen = geom.BoxOf(geom.Pt(from, low), geom.Pt(to, upTo))
	v.paintGround(upTo, from, to, box)
	v.tellWide(high, upTo)
}

// tellWide writes how wide the cloth is, a plain one at its other selvedge.
func (v *clothBoard) tellWide(high, upTo float64) {
	if v.cloth.Lace != nil {
		return
	}
	v.wide[0].Text = v.w.roughly(v.cloth.Width) + " wide"
	if v.wide[1].Text = ""; upTo < v.cloth.Width {
		v.wide[1].Text = "not all drawn"
	}
	at := v.toScreen(v.turn.Apply(geom.Pt(v.seen.Center().X, high))).AddXY(8, 0)
	for _, t := range v.wide {
		lay(t, fyne.NewPos(down(at.X), down(at.Y)), t.MinSize())
		at.Y += t.MinSize().Height
	}
}

// shown is how far from the selvedge a plain cloth is shown: as far as pieces
// lie and some way on, where they can be dragged to; the whole width when
// little would be left out.
func (v *clothBoard) shown(width float64) float64 {
	used := 0.0
	for i := range v.board.Count() {
		used = max(used, v.board.Piece(i).Outline.Bounds().Max.Y)
	}
	if used += max(0.3*used, 120); used < 0.85*width {
		return used
	}
	return width
}

// toBoard is the place on the cloth at a position.
func (v *clothBoard) toBoard(p fyne.Position) geom.Point {
	return v.turn.Inverse().Apply(geom.Pt(v.corner.X+float64(p.X)/v.k, v.corner.Y-float64(p.Y)/v.k))
}

// toScreen is the position of a place on the cloth that was turned.
func (v *clothBoard) toScreen(q geom.Point) fyne.Position {
	return fyne.NewPos(float32((q.X-v.corner.X)*v.k), float32((v.corner.Y-q.Y)*v.k))
}

// scale is how many pixels a unit has.
func (v *clothBoard) scale() float64 { return float64(v.w.win.Canvas().Scale()) }

// inks are the colours of the mat, by day or by lamplight.
func (w *Window) inks() mat.Palette {
	if w.dark {
		return mat.Dark()
	}
	return mat.Light()
}

func (v *clothBoard) paintGround(upTo, from, to float64, box geom.Box) {
	l := render.ClothGround(v.cloth, upTo, from, to)
	if v.cloth.Lace != nil {
		var err error
		if l, err = render.LaceGround(v.cloth, 0, from, to); err != nil {
			v.w.complain(err)
			return
		}
	}
	inks := v.w.inks()
	small := render.Miniature(l, v.turn, v.k/miniDots, geom.Point{})
	for i := range small.Figures {
		small.Figures[i].Pen.Color = inks.Sew
	}
	v.ground = v.picture(small, box)
	v.ground.Move(v.toScreen(geom.Pt(box.Min.X, box.Max.Y)))
}

// picture paints a small layer that lies in a box of the turned cloth, in mm.
func (v *clothBoard) picture(l render.Layer, box geom.Box) *canvas.Image {
	w, h := math.Ceil(box.Width()*v.k), math.Ceil(box.Height()*v.k)
	dots := v.scale()
	// The picture is a whole number of units high; it hangs from its top.
	low := geom.Pt(box.Min.X*v.k, box.Max.Y*v.k-h).Mul(1 / miniDots)
	img := canvas.NewImageFromImage(render.PaintLayer(l, low, int(w*dots), int(h*dots), miniDots*dots))
	img.ScaleMode = canvas.ImageScalePixels
	img.Resize(fyne.NewSize(float32(w), float32(h)))
	return img
}

// look says how a piece is to be shown.
func (v *clothBoard) look(i int) string {
	p := v.board.Piece(i)
	how := "plain"
	switch {
	case v.board.Overlapping(i):
		how = "over"
	case i == v.board.Chosen():
		how = "chosen"
	case v.board.Follows(i):
		how = "follows"
	}
	return fmt.Sprint(how, p.Way, p.ByHand)
}

// paintPiece paints a piece anew when it is to look otherwise.
func (v *clothBoard) paintPiece(i int) {
	look := v.look(i)
	if look == v.looks[i] && v.pieces[i] != nil {
		return
	}
	p, inks := v.board.Piece(i), v.w.inks()
	l, err := render.LaidPiece(v.pattern.Piece(p.Piece), p.Motion, p.Outline, p.Name)
	if err != nil {
		v.w.complain(err)
		return
	}
	small := render.Miniature(l, v.turn, v.k/miniDots, geom.Point{})
	for j := range small.Figures {
		f := &small.Figures[j]
		f.Pen.Color = inks.Sew
		if f.Kind != render.CutLine {
			continue
		}
		f.Pen.Color, f.Fill = inks.Cut, faded(inks.Paper, 0xd8)
		switch {
		case v.board.Overlapping(i):
			f.Pen = render.Pen{Width: 0.6, Color: inks.Poor, Dash: []float64{1.6, 0.8}}
		case i == v.board.Chosen():
			f.Pen = render.Pen{Width: 0.6, Color: inks.Accent}
		case v.board.Follows(i):
			f.Pen = render.Pen{Width: 0.45, Color: inks.Accent, Dash: []float64{0.8, 0.6}}
		}
	}
	for j := range small.Labels {
		small.Labels[j].Color = inks.Ink
	}
	if p.ByHand {
		at := p.Held
		if v.cloth.Lace == nil { // off the middle, where its name stands
			at = p.Motion.Apply(v.pattern.Piece(p.Piece).Arrow.From)
		}
		small.Figures = append(small.Figures, pinHead(v.turn.Apply(at).Mul(v.k/miniDots), inks.Accent))
	}
	box := p.Outline.Transform(v.turn).Bounds().Grow(4 / v.k)
	v.pieces[i] = v.picture(small, box)
	v.low[i] = geom.Pt(box.Min.X, box.Max.Y).Sub(v.turn.Apply(p.Held))
	v.looks[i] = look
}

const pinRadius = 0.7 // mm of the small drawing

// pinHead marks a piece that was laid by hand.
func pinHead(at geom.Point, c color.NRGBA) render.Figure {
	return render.Figure{Path: geom.Must(geom.JoinClosed(geom.Must(geom.Arc(at, pinRadius, 0, 360*geom.Degree)))), Fill: c}
}

// refresh shows the board as it is now.
func (v *clothBoard) refresh() {
	for i := range v.pieces {
		v.paintPiece(i)
		v.pieces[i].Move(v.toScreen(v.turn.Apply(v.board.Piece(i).Held).Add(v.low[i])))
	}
	from, to := v.board.Ends()
	side, end := geom.Pt(0, -5), geom.Pt(0, 4)
	y := 0.0
	if v.cloth.Lace != nil {
		y = -v.cloth.Lace.Depth
	} else {
		side, end = geom.Pt(-8, 0), geom.Pt(4, 0)
	}
	at := func(x float64) geom.Point { return v.turn.Apply(geom.Pt(x, y)).Add(side.Mul(2 / v.k)) }
	line := func(i int, a, b geom.Point) { v.bar[i].Position1, v.bar[i].Position2 = v.toScreen(a), v.toScreen(b) }
	line(0, at(from), at(to))
	for i, x := range []float64{from, to} {
		line(i+1, at(x).Sub(end.Mul(1/v.k)), at(x).Add(end.Mul(1/v.k)))
	}
	v.length.Text = v.w.roughly(to - from)
	if v.cloth.Lace != nil {
		v.length.Text += " of a lace " + v.w.roughly(v.cloth.Width) + " wide"
	}
	size := v.length.MinSize()
	mid := v.toScreen(at((from + to) / 2))
	if v.cloth.Lace != nil {
		lay(v.length, fyne.NewPos(down(mid.X-size.Width/2), down(mid.Y+3)), size)
	} else {
		lay(v.length, fyne.NewPos(down(max(mid.X-size.Width-8, 0)), down(mid.Y-size.Height/2)), size)
	}
	v.Refresh()
}

// CreateRenderer lays everything where it was put.
func (v *clothBoard) CreateRenderer() fyne.WidgetRenderer { return &clothBoardView{v} }

type clothBoardView struct{ v *clothBoard }

func (r *clothBoardView) Objects() []fyne.CanvasObject {
	v := r.v
	objects := []fyne.CanvasObject{}
	if v.ground != nil {
		objects = append(objects, v.ground)
	}
	top := v.board.Chosen()
	for i, p := range v.pieces {
		if i != top {
			objects = append(objects, p)
		}
	}
	if top >= 0 {
		objects = append(objects, v.pieces[top])
	}
	for _, b := range v.bar {
		objects = append(objects, b)
	}
	return append(objects, v.length, v.wide[0], v.wide[1], v.ring)
}

func (r *clothBoardView) Layout(fyne.Size) {
	r.v.ring.Move(fyne.NewPos(1, 1))
	r.v.ring.Resize(r.v.room.SubtractWidthHeight(2, 2))
}

func (r *clothBoardView) MinSize() fyne.Size { return r.v.room }
func (r *clothBoardView) Destroy()           {}

func (r *clothBoardView) Refresh() {
	for _, o := range r.Objects() {
		o.Refresh()
	}
	canvas.Refresh(r.v)
}
