package tool

import (
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// untilted returns the event as it is on the piece before it was turned.
func (t *PinTool) untilted(at pattern.Place, e Event) Event {
	e.At = geom.Turn(-t.angle, at.Mat).Apply(e.At)
	return e
}

// pointAt remembers what a press would take: a corner or notch of the piece
// where it lies now, an edge of another piece, or a grid line.
func (t *PinTool) pointAt(p pattern.Pattern, at pattern.Place, e Event) {
	t.grid = nil
	if _, ok := t.hover(t.untilted(at, e), Ask{Kind: OnJoint | OnNotch, Only: at.Piece}); ok {
		t.over.At = geom.Turn(t.angle, at.Mat).Apply(t.over.At)
		return
	}
	if _, ok := t.hover(e, Ask{Kind: OnEdge, Not: at.Piece}); !ok && !t.onPaper(p, at, e) {
		t.grid, t.gridAt = t.gridLine(e), e.At
	}
}

// onPaper reports whether a place is on a piece, or so near the one that turns
// that it will be meant.
func (t *PinTool) onPaper(p pattern.Pattern, at pattern.Place, e Event) bool {
	own := t.untilted(at, e)
	if _, ok := Point(p, own.At, nearPaper*e.Reach, Ask{Kind: OnEdge | OnPiece, Only: at.Piece}); ok {
		return true
	}
	_, ok := Point(p, e.At, e.Reach, Ask{Kind: OnPiece, Not: at.Piece})
	return ok
}

// nearPaper is how many times the reach a press beside the piece that turns
// takes hold of it.
const nearPaper = 3

func (t *PinTool) press(p pattern.Pattern, at pattern.Place, e Event) {
	t.over, t.grid = Pointing{}, nil
	held := t.untilted(at, e)
	own, onOwn := Point(p, held.At, e.Reach, Ask{Kind: OnSpot, Only: at.Piece})
	if onOwn && own.At.Dist(at.Mat) <= e.Reach && own.Kind != OnEdge {
		return // the pin itself
	}
	if !onOwn {
		if pt, ok := Point(p, e.At, e.Reach, Ask{Kind: OnEdge, Not: at.Piece}); ok {
			t.aim(pt.Piece, pt.Edge)
			return
		}
		if !t.onPaper(p, at, e) {
			if d := t.gridLine(e); d != nil {
				t.aimGrid(d.X, d.Y)
			}
			return
		}
		if _, ok := Point(p, held.At, nearPaper*e.Reach, Ask{Kind: OnEdge | OnPiece, Only: at.Piece}); !ok {
			return // on another piece
		}
	}
	if onOwn && own.Kind != OnEdge {
		t.track = &own.Spot
	} else {
		t.track = t.nearestJoint(p, at, held.At)
	}
	t.turning, t.from, t.was = true, e.At, t.angle
	t.choices = t.settlings()
}

// gridLine returns the grid line under the pointer, nil when there is none.
func (t *PinTool) gridLine(e Event) *pattern.Datum {
	pitch := gridPitch(t.table)
	to := geom.Pt(math.Round(e.At.X/pitch)*pitch, math.Round(e.At.Y/pitch)*pitch)
	dx, dy := math.Abs(to.X-e.At.X), math.Abs(to.Y-e.At.Y)
	switch {
	case dy <= dx && dy <= e.Reach:
		return &pattern.Datum{Y: &to.Y}
	case dx <= e.Reach:
		return &pattern.Datum{X: &to.X}
	}
	return nil
}

func (t *PinTool) aimGrid(x, y *float64) {
	t.datum, t.settled = &pattern.Datum{X: x, Y: y}, nil
	t.line = t.gridName(*t.datum)
}

// gridName is what a grid line is called where lines are chosen.
func (t *PinTool) gridName(d pattern.Datum) string {
	if d.X != nil {
		return "x " + written(t.table, *d.X)
	}
	return "y " + written(t.table, *d.Y)
}

// nearestJoint returns the joint of the piece nearest to a place, but for one
// at the pin.
func (t *PinTool) nearestJoint(p pattern.Pattern, at pattern.Place, q geom.Point) *pattern.Spot {
	var best *pattern.Spot
	least := math.Inf(1)
	for _, c := range things(p.Piece(at.Piece)) {
		if d := c.At.Dist(q); c.Kind == OnJoint && d < least && c.At.Dist(at.Mat) > pinMeets {
			least, best = d, &c.Spot
		}
	}
	return best
}

// showGrid shows and names the grid line that a press would take.
func (t *PinTool) showGrid(o *Overlay, p pattern.Pattern) {
	if t.grid == nil {
		return
	}
	line, err := p.FindDatum(*t.grid)
	if err != nil {
		return
	}
	if path, err := across(p, line); err == nil {
		o.Strokes = append(o.Strokes, Stroke{path, Pointed})
		o.Notes = append(o.Notes, Note{line.Foot(t.gridAt), "grid line " + t.gridName(*t.grid)})
	}
}
