package tool

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// Draw draws a line on a piece.
type Draw struct {
	base
	how   string // one of the ways of drawing
	name  string
	try   trial
	way   way // from spot to spot
	bulge float64

	edge     *Pointing
	distance float64

	piece  string
	points []geom.Point // shares of the box around the piece
	curved bool
	cursor *geom.Point // on the mat, for keys
}

// The ways of drawing.
const (
	drawSpots  = "from spot to spot"
	drawBeside = "beside an edge"
	drawPoints = "through points"
)

var drawWays = []string{drawSpots, drawBeside, drawPoints}

// usualDistance is how far in mm a line runs beside an edge at first: the
// width of a channelling.
const usualDistance = 10

// mostPoints bounds the points of a line.
const mostPoints = 200

// NewDraw returns the tool for a table.
func NewDraw(t Table) Tool {
	return &Draw{base: base{table: t}, how: drawSpots, distance: handy(t, usualDistance)}
}

// Name returns "draw".
func (d *Draw) Name() string { return "draw" }

// on returns the piece that is drawn on.
func (d *Draw) on() *pattern.Piece {
	p := d.pattern()
	switch d.how {
	case drawSpots:
		if from, _ := d.way.ends(p); from != nil {
			return p.Piece(from.Piece)
		}
	case drawBeside:
		if d.edge != nil {
			if pc, e := p.Edge(d.edge.Piece, d.edge.Edge); e != nil {
				return pc
			}
			d.edge = nil
		}
	case drawPoints:
		pc := p.Piece(d.piece)
		if pc == nil {
			d.piece, d.points, d.cursor = "", nil, nil
		}
		return pc
	}
	return nil
}

// Hint says what to do next.
func (d *Draw) Hint() string {
	pc := d.on()
	steps := d.Proposal()
	if len(steps) > 0 {
		res, err := d.try.of(d.table, steps...)
		if err != nil {
			return sentence(err)
		}
		hint := fmt.Sprintf("Enter draws %q on %s, %s long; Escape abandons.", d.called(pc), pc.Name, unit.MM(figure(res, "length")))
		if d.how == drawPoints {
			hint = strings.TrimSuffix(hint, ".") + "; press more points, Delete takes the last away."
		} else if d.how == drawSpots {
			hint += d.way.kept(&d.base)
		}
		return hint
	}
	switch d.how {
	case drawBeside:
		return "Press the edge beside which the line runs; up and down draw it another way."
	case drawPoints:
		if pc != nil {
			return fmt.Sprintf("Press the next point on %s.", pc.Name)
		}
		return "Press the first point of the line on a piece; up and down draw it another way."
	}
	if pc != nil {
		return d.way.onRim(fmt.Sprintf("Press the other end of the line on the outline of %s.", pc.Name))
	}
	if d.way.astray != "" {
		return fmt.Sprintf("From spot to spot a line begins on the outline of %s; for one that begins inside it choose %q.", d.way.astray, drawPoints)
	}
	return d.orAtOnce("Press the spot on an outline where the line begins; up and down draw it another way.")
}

// Pointer takes spots, an edge or points.
func (d *Draw) Pointer(e Event) {
	if !e.At.Finite() {
		return
	}
	switch d.how {
	case drawSpots:
		d.way.pointer(&d.base, e)
	case drawBeside:
		ask := Ask{Kind: OnEdge, Prefer: d.table.Selection().Piece}
		switch e.Act {
		case Hover:
			d.hover(e, ask)
		case Press:
			d.drop()
			if pt, ok := Point(d.pattern(), e.At, e.Reach, ask); ok {
				d.takeEdge(pt)
			}
		}
	case drawPoints:
		ask := Ask{Kind: OnPiece, Only: d.piece, Prefer: d.table.Selection().Piece}
		switch e.Act {
		case Hover:
			d.hover(e, ask)
		case Press:
			d.drop()
			if pt, ok := Point(d.pattern(), e.At, e.Reach, ask); ok {
				d.takePoint(pt.Piece, e.At)
			}
		}
	}
}

func (d *Draw) takeEdge(pt Pointing) {
	if _, e := d.pattern().Edge(pt.Piece, pt.Edge); e == nil || e.Role == pattern.Fold {
		return
	}
	d.edge = &pt
	d.table.Select(Selection{Piece: pt.Piece})
}

// takePoint adds a point of a piece, unless it is where the last one is.
func (d *Draw) takePoint(piece string, at geom.Point) {
	pc := d.pattern().Piece(piece)
	box, ok := boxOf(pc)
	if !ok || len(d.points) >= mostPoints {
		return
	}
	if d.piece != piece {
		d.piece, d.points = piece, nil
		d.table.Select(Selection{Piece: piece})
	}
	q := pc.Pose.Inverse().Apply(at)
	s := geom.Pt(share((q.X-box.Min.X)/box.Width()), share((q.Y-box.Min.Y)/box.Height()))
	if n := len(d.points); n > 0 && inBox(box, d.points[n-1]).Dist(inBox(box, s)) <= leastReach {
		return
	}
	d.points = append(slices.Clone(d.points), s)
}

// share rounds a share to a millionth of the box, between 0 and 1.
func share(v float64) float64 { return min(max(math.Round(v*1e6)/1e6, 0), 1) }

func boxOf(pc *pattern.Piece) (geom.Box, bool) {
	if pc == nil {
		return geom.Box{}, false
	}
	o, err := pc.Outline()
	if err != nil {
		return geom.Box{}, false
	}
	b := o.Bounds()
	return b, b.Width() > 0 && b.Height() > 0
}

func inBox(b geom.Box, s geom.Point) geom.Point {
	return geom.Pt(b.Min.X+s.X*b.Width(), b.Min.Y+s.Y*b.Height())
}

// Key walks to spots, edges or a piece, on which the arrows then move the
// point that Choose sets; up and down choose the way of drawing before.
func (d *Draw) Key(k Key) bool {
	pc := d.on()
	switch {
	case pc == nil && (k.Name == Up || k.Name == Down):
		i := slices.Index(drawWays, d.how) + 1
		if k.Name == Up {
			i += len(drawWays) - 2
		}
		d.setHow(drawWays[i%len(drawWays)])
		return true
	case d.how == drawSpots:
		return d.way.key(&d.base, k)
	case d.how == drawBeside:
		chosen, took, used := d.keyed(k, Ask{Kind: OnEdge})
		if took {
			d.takeEdge(chosen)
		}
		return used
	case k.Name == Delete && len(d.points) > 0:
		d.points = slices.Clone(d.points[:len(d.points)-1])
		return true
	}
	if pc != nil {
		if v, ok := arrow(k); ok {
			at := d.pen(pc).Add(v)
			if at.Finite() {
				d.cursor = &at
			}
			return true
		}
		if k.Name == Choose {
			d.takePoint(pc.Name, d.pen(pc))
			return true
		}
		return false
	}
	chosen, took, used := d.keyed(k, Ask{Kind: OnPiece})
	if took {
		d.piece, d.points = chosen.Piece, nil
		d.table.Select(Selection{Piece: chosen.Piece})
		d.walk = Finger{}
	}
	return used
}

// pen returns where on the mat the next point would be set by keys.
func (d *Draw) pen(pc *pattern.Piece) geom.Point {
	if d.cursor != nil {
		return *d.cursor
	}
	return whole(pc).At
}

func (d *Draw) setHow(how string) {
	if d.how != how {
		*d = Draw{base: d.base, how: how, name: d.name, distance: d.distance, curved: d.curved}
		d.drop()
	}
}

// called is the name of the line on a piece.
func (d *Draw) called(pc *pattern.Piece) string {
	if d.name != "" {
		return d.name
	}
	taken := func(name string) bool {
		return slices.ContainsFunc(pc.Inner, func(in pattern.Inner) bool { return in.Name == name })
	}
	free := "line"
	for n := 2; taken(free); n++ {
		free = fmt.Sprintf("line %d", n)
	}
	return free
}

// Proposal is the line.
func (d *Draw) Proposal() []step.Step {
	pc := d.on()
	if pc == nil {
		return nil
	}
	out := &step.Draw{Piece: pc.Name, Name: d.called(pc)}
	switch d.how {
	case drawSpots:
		from, to := d.way.ends(d.pattern())
		if to == nil {
			return nil
		}
		a, b := from.Spot, to.Spot
		out.From, out.To = &a, &b
		if d.bulge != 0 {
			v := step.Lit(d.bulge)
			out.Bulge = &v
		}
	case drawBeside:
		v := step.Lit(d.distance)
		out.Edge, out.Distance = d.edge.Edge, &v
	case drawPoints:
		if len(d.points) < 2 {
			return nil
		}
		out.Points, out.Curved = slices.Clone(d.points), d.curved
	}
	return []step.Step{out}
}

// Overlay shows the line as it will be, its points and where keys set the next.
func (d *Draw) Overlay() Overlay {
	var o Overlay
	d.pointed(&o)
	pc := d.on()
	if d.how == drawSpots {
		d.way.show(&d.base, &o)
	}
	if pc == nil {
		return o
	}
	if d.how == drawPoints {
		if box, ok := boxOf(pc); ok {
			for _, s := range d.points {
				o.Dots = append(o.Dots, Dot{pc.Pose.Apply(inBox(box, s)), Handle})
			}
		}
		if d.cursor != nil || len(d.points) == 0 {
			o.Dots = append(o.Dots, Dot{d.pen(pc), Pointed})
		}
	} else if d.how == drawBeside {
		o.Show(d.pattern(), *d.edge, Chosen)
	}
	steps := d.Proposal()
	if len(steps) == 0 {
		return o
	}
	res, err := d.try.of(d.table, steps...)
	if err != nil {
		return o
	}
	now := res.Size.Pattern.Piece(pc.Name)
	if in := now.Inner; len(in) > 0 {
		line := in[len(in)-1].Path.Transform(pc.Pose)
		o.Strokes = append(o.Strokes, Stroke{line, Good})
		o.Notes = append(o.Notes, Note{line.At(line.Length() / 2), unit.MM(line.Length())})
	}
	return o
}

// Reset forgets the line; the way of drawing stays.
func (d *Draw) Reset() bool {
	walked := d.drop()
	was := d.on() != nil
	*d = Draw{base: d.base, how: d.how, distance: handy(d.table, usualDistance), curved: d.curved}
	return was || walked
}
