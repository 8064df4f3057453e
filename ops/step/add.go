package step

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

func init() { register("add", func() Step { return &Add{} }) }

// Add moves one end of an edge outward: the neighbouring edge there becomes
// longer by the amount, straight on along its end tangent, and the edge is
// bent so that the change tapers to nothing at its other end. Evenly moves
// both ends so, each along its own neighbour. A negative amount takes in: the
// neighbours are cut back along themselves.
//
// A straight neighbour may become longer without limit, a curved one by Limit
// at most. On a piece cut on the fold the fold stays straight and keeps its
// direction, and edges that meet it squarely go on doing so, or the step is
// refused. Notches keep their proportion on the edge and their places on the
// neighbours.
//
// Figures: partner_difference.<seam> in mm for each seam whose sides no longer
// differ as they did: side A less side B and the ease.
type Add struct {
	EdgeEnd
	Amount Number `json:"amount"` // mm
	Evenly bool   `json:"evenly,omitempty"`
	// Limit is how far in mm a curved neighbour may be lengthened; 25 when not given.
	Limit *Number `json:"limit,omitempty"`
}

// curvedLimit is how far in mm a curved edge is lengthened straight on at
// most when nothing else is said; beyond it the maker should draw on (common
// practice).
const curvedLimit = 25

// leastEdge is the shortest edge in mm that taking in leaves: a shorter one
// cannot be sewn (common practice).
const leastEdge = 1

// anchor is the distance in mm from its moved end within which what lies on a
// lengthened edge may move along; the rest stays in its place.
const anchor = 1

// Kind returns "add".
func (a *Add) Kind() string { return "add" }

// Sentence tells in plain words what the step does.
func (a *Add) Sentence() string {
	if a.Evenly {
		return fmt.Sprintf("Add %s along all of %s of %s.", a.Amount, a.Edge, a.Piece)
	}
	return fmt.Sprintf("Add %s at %s, tapering to nothing at its other end.", a.Amount, a.EdgeEnd)
}

// Apply moves the end.
func (a *Add) Apply(in Input) (Output, error) {
	amount, err := a.Amount.In(in)
	if err != nil {
		return Output{}, err
	}
	limit, err := limitIn(in, a.Limit)
	if err != nil {
		return Output{}, err
	}
	r := newRedraw(in.Pattern)
	if err := r.add(a.EdgeEnd, amount, a.Evenly, limit); err != nil {
		return Output{}, err
	}
	remedy := "add evenly, at the other end, or at another edge"
	if a.Evenly {
		remedy = "add at another edge"
	}
	return r.addOutput(map[string]float64{}, remedy)
}

func limitIn(in Input, limit *Number) (float64, error) {
	if limit == nil {
		return curvedLimit, nil
	}
	v, err := limit.In(in)
	if err == nil && !(v >= 0) {
		return 0, fmt.Errorf("the limit to which a curved edge is lengthened is %.4g mm; it must be 0 or more", v)
	}
	return v, err
}

// addOutput is output that also refuses edges no longer square to a fold, with
// the remedy that the step knows for that.
func (r *redraw) addOutput(figures map[string]float64, remedy string) (Output, error) {
	out, err := r.output(figures)
	if err != nil {
		return Output{}, err
	}
	for _, o := range r.outlines {
		if err := checkSquare(o.old, out.Pattern.Piece(o.old.Name), remedy); err != nil {
			return Output{}, err
		}
	}
	return out, nil
}

// add moves an end of an edge, or both evenly, outward by amount mm.
func (r *redraw) add(end EdgeEnd, amount float64, evenly bool, limit float64) error {
	if evenly && end.End == "" {
		end.End = pattern.Start // both ends move
	}
	if _, _, err := end.find(r.old); err != nil {
		return err
	}
	o, err := r.piece(end.Piece)
	if err != nil {
		return err
	}
	i, err := o.index(end.Edge)
	if err != nil {
		return err
	}
	if math.Abs(amount) <= geom.Coincident {
		return nil
	}
	path := o.runs[i].edge.Path
	start, stop := path.Start(), path.End()
	if evenly || end.End == pattern.Start {
		if start, err = o.lengthen(o.prev(i), pattern.End, amount, limit); err != nil {
			return err
		}
	}
	if evenly || end.End == pattern.End {
		if stop, err = o.lengthen(o.next(i), pattern.Start, amount, limit); err != nil {
			return err
		}
	}
	bent, err := path.Bend(start, stop)
	if err != nil {
		return fmt.Errorf("%s of %s cannot take %.4g mm: %w", end.Edge, end.Piece, amount, err)
	}
	o.reshape(i, bent, proportion(path.Length(), bent.Length()))
	return nil
}

// lengthen makes run i longer by amount mm at one end, straight on along its
// end tangent, or cuts it back there when amount is below 0. It returns where
// the end lies now.
func (o *outline) lengthen(i int, at pattern.EndName, amount, limit float64) (geom.Point, error) {
	e := &o.runs[i].edge
	length := e.Length()
	if amount < 0 {
		return o.shorten(i, at, -amount)
	}
	segs := e.Path.Segments()
	last := segs[len(segs)-1]
	if at == pattern.Start {
		last = segs[0]
	}
	if !last.IsStraight() && amount > limit {
		return geom.Point{}, mendable{fmt.Sprintf("%s of %s is curved at its %s and would be lengthened straight on by %.4g mm, more than the limit of %.4g mm", e.Name, o.old.Name, at, amount, limit), "draw it on first, or raise the limit"}
	}
	stops := o.stops(i)
	var end geom.Point
	var knots []knot
	if at == pattern.Start {
		end = last.Start().Sub(last.Tangent(0).Mul(amount))
		if last.IsStraight() {
			segs[0] = geom.Straight(end, last.End())
		} else {
			segs = append([]geom.Cubic{geom.Straight(end, last.Start())}, segs...)
		}
		fixed := min(anchor, length/2)
		if len(stops) > 0 {
			fixed = min(fixed, stops[0])
		}
		knots = []knot{{0, 0}, {fixed, fixed + amount}, {length, length + amount}}
	} else {
		end = last.End().Add(last.Tangent(1).Mul(amount))
		if last.IsStraight() {
			segs[len(segs)-1] = geom.Straight(last.Start(), end)
		} else {
			segs = append(segs, geom.Straight(last.End(), end))
		}
		fixed := max(length-anchor, length/2)
		if len(stops) > 0 {
			fixed = max(fixed, stops[len(stops)-1])
		}
		knots = []knot{{0, 0}, {fixed, fixed}, {length, length + amount}}
	}
	path, err := geom.NewPath(segs...)
	if err != nil {
		return geom.Point{}, fmt.Errorf("%s of %s: %w", e.Name, o.old.Name, err)
	}
	o.reshape(i, path, knots)
	return end, nil
}

// shorten cuts run i back by amount mm along itself at one end.
func (o *outline) shorten(i int, at pattern.EndName, amount float64) (geom.Point, error) {
	e := &o.runs[i].edge
	length := e.Length()
	if amount > length-leastEdge {
		return geom.Point{}, mendable{fmt.Sprintf("%s of %s is %.4g mm long and cannot be shortened by %.4g mm", e.Name, o.old.Name, length, amount), "take in less"}
	}
	lo, hi := 0.0, length-amount
	if at == pattern.Start {
		lo, hi = amount, length
	}
	path, err := e.Path.Sub(lo, hi)
	if err != nil {
		return geom.Point{}, fmt.Errorf("%s of %s: %w", e.Name, o.old.Name, err)
	}
	o.reshape(i, path, []knot{{lo, 0}, {hi, path.Length()}})
	if at == pattern.Start {
		return path.Start(), nil
	}
	return path.End(), nil
}
