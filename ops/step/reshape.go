package step

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

func init() { register("reshape", func() Step { return &Reshape{} }) }

// Reshape draws a run of one edge anew by knots and handles. All of them are
// held along and off the chord between the run's ends as they were, in shares
// of its length and in mm, so that the same shape comes about in every size.
//
// The first and last knot are the run's ends; where they lie elsewhere than
// at 0 and 1 of the chord, what adjoins is bent along. At an end whose tangent
// is kept the handle's length counts and its direction is the edge's own. Keep
// "length" keeps the length of the run: one factor is solved for, by which the
// knots between lie off the chord, or without such, by which the handles are
// longer.
//
// Figures, in mm: length_before and length_after of the run, and moved, how
// far the sew line moved at most.
type Reshape struct {
	Piece string `json:"piece"`
	Edge  string `json:"edge"`
	// From and To are the ends of the run; those of the edge when not given.
	From  *pattern.Along `json:"from,omitempty"`
	To    *pattern.Along `json:"to,omitempty"`
	Knots []Knot         `json:"knots"`
	Start Tangent        `json:"start,omitempty"`
	End   Tangent        `json:"end,omitempty"`
	Keep  string         `json:"keep,omitempty"` // "" or "length"
}

// Tangent says whether the direction at an end of a run is kept or free.
type Tangent string

// What may become of a tangent; not given it is kept.
const (
	TangentKept Tangent = "kept"
	TangentFree Tangent = "free"
)

// Offset is a displacement along and to the left of a chord: shares of its
// length, and mm.
type Offset struct {
	Along   float64 `json:"along,omitempty"`
	Off     float64 `json:"off,omitempty"`
	AlongMM *Number `json:"along_mm,omitempty"`
	OffMM   *Number `json:"off_mm,omitempty"`
}

// Knot is a place where two cubics of a run meet, with its handles. The handle
// In points back, Out on; at a smooth knot they lie on one line, in the
// direction of Out, and In is as long as Out when not given.
type Knot struct {
	Offset
	In     *Offset `json:"in,omitempty"`
	Out    *Offset `json:"out,omitempty"`
	Corner bool    `json:"corner,omitempty"`
}

// mostKnots bounds the knots of a run: a hand cannot lead more.
const mostKnots = 24

// Kind returns "reshape".
func (r *Reshape) Kind() string { return "reshape" }

// squareDrawn is the way out where a run would not meet the fold square.
const squareDrawn = "let it keep its direction at the fold, or turn its handle there until it is square"

// Apply draws the run anew. On sewn edges notches keep their proportion of
// the run, on others their foot of the perpendicular.
func (r *Reshape) Apply(in Input) (Output, error) {
	if err := r.sensible(); err != nil {
		return Output{}, err
	}
	re := newRedraw(in.Pattern)
	o, err := re.piece(r.Piece)
	if err != nil {
		return Output{}, err
	}
	i, err := r.run(o)
	if err != nil {
		return Output{}, err
	}
	was := o.runs[i].edge.Path
	now, err := r.drawn(in, was)
	if err != nil {
		return Output{}, err
	}
	stops := o.stops(i)
	sewn := o.runs[i].edge.Role.Sewn()
	o.reshape(i, now, feet(was, now, stops, sewn))
	if err := o.follow(o.prev(i), now.Start(), pattern.End); err != nil {
		return Output{}, err
	}
	if err := o.follow(o.next(i), now.End(), pattern.Start); err != nil {
		return Output{}, err
	}
	if err := o.rejoin(); err != nil {
		return Output{}, err
	}
	out, err := re.addOutput(map[string]float64{
		"length_before": was.Length(),
		"length_after":  now.Length(),
		"moved":         farthest(was, now),
	}, squareDrawn)
	if err != nil {
		return Output{}, err
	}
	r.remark(in.Pattern, was, now, &out)
	return out, nil
}

// remark tells of a kink or a swing that was not there.
func (r *Reshape) remark(old pattern.Pattern, was, now geom.Path, out *Output) {
	_, before := old.Edge(r.Piece, r.Edge)
	_, after := out.Pattern.Edge(r.Piece, r.Edge)
	if n := len(after.Path.Corners(pattern.SmoothTurn)) - len(before.Path.Corners(pattern.SmoothTurn)); n > 0 {
		out.Notes = append(out.Notes, fmt.Sprintf("%s of %s now has a kink that it had not; keep the tangent there, or smooth it.", r.Edge, r.Piece))
	}
	if n := len(now.Inflections()) - len(was.Inflections()); n > 0 {
		out.Notes = append(out.Notes, fmt.Sprintf("%s of %s now bends to and fro: it changes sides at %d more places than before.", r.Edge, r.Piece, n))
	}
}

func (r *Reshape) sensible() error {
	switch {
	case r.Keep != "" && r.Keep != keepLength:
		return fmt.Errorf("a reshaped edge can keep its %q, not its %q", keepLength, r.Keep)
	case len(r.Knots) < 2 || len(r.Knots) > mostKnots:
		return fmt.Errorf("%s of %s is drawn by 2 to %d knots, its ends with them, not by %d", r.Edge, r.Piece, mostKnots, len(r.Knots))
	}
	for _, t := range []Tangent{r.Start, r.End} {
		if t != "" && t != TangentKept && t != TangentFree {
			return fmt.Errorf("a tangent of %s of %s is %q or %q, not %q", r.Edge, r.Piece, TangentKept, TangentFree, t)
		}
	}
	return nil
}

// run cuts the outline at the ends of the run and returns it.
func (r *Reshape) run(o *outline) (int, error) {
	i, err := o.index(r.Edge)
	if err != nil {
		return 0, err
	}
	length := o.runs[i].edge.Length()
	ends, err := r.ends(length)
	if err != nil {
		return 0, err
	}
	i, n, err := o.between(
		pattern.Place{Edge: r.Edge, S: min(max(ends[0], 0), length)},
		pattern.Place{Edge: r.Edge, S: min(max(ends[1], 0), length)})
	if err == nil && n != 1 {
		err = fmt.Errorf("the run on %s of %s is in %d parts; choose its ends anew", r.Edge, r.Piece, n)
	}
	return i, err
}

// ends returns the ends of the run in mm from the start of an edge of a length.
func (r *Reshape) ends(length float64) ([2]float64, error) {
	ends := [2]float64{0, length}
	for k, a := range []*pattern.Along{r.From, r.To} {
		if a == nil {
			continue
		}
		if ends[k] = a.At(length); !(ends[k] >= -placeSlack && ends[k] <= length+placeSlack) {
			return ends, fmt.Errorf("%.4g mm lies off %s of %s, which is %.4g mm long; choose a place on it", ends[k], r.Edge, r.Piece, length)
		}
	}
	if !(ends[1]-ends[0] >= leastEdge) {
		return ends, fmt.Errorf("there is nothing to reshape between %.4g mm and %.4g mm on %s of %s; the first must lie before the second", ends[0], ends[1], r.Edge, r.Piece)
	}
	return ends, nil
}

// follow bends run i so that its end lies at a place.
func (o *outline) follow(i int, to geom.Point, end pattern.EndName) error {
	path := o.runs[i].edge.Path
	a, b := path.Start(), path.End()
	if end == pattern.Start {
		a = to
	} else {
		b = to
	}
	if a.Dist(path.Start()) <= geom.Coincident && b.Dist(path.End()) <= geom.Coincident {
		return nil
	}
	bent, err := path.Bend(a, b)
	if err != nil {
		return fmt.Errorf("%s of %s cannot follow to where the end is moved: %w", o.runs[i].edge.Name, o.old.Name, err)
	}
	o.reshape(i, bent, proportion(path.Length(), bent.Length()))
	return nil
}

// rejoin puts the parts into which edges were cut together again.
func (o *outline) rejoin() error {
	var runs []run
	for _, r := range o.runs {
		last := len(runs) - 1
		if last < 0 || runs[last].edge.Name != r.edge.Name {
			runs = append(runs, r)
			continue
		}
		k := &runs[last]
		at := k.edge.Length()
		next, err := r.edge.Path.WithEnds(k.edge.Path.End(), r.edge.Path.End())
		if err == nil {
			k.edge.Path, err = geom.Join(k.edge.Path, next)
		}
		if err != nil {
			return fmt.Errorf("%s of %s: %w", r.edge.Name, o.old.Name, err)
		}
		k.runOn(r.traces, at)
	}
	o.runs = runs
	return nil
}

// chord measures off the straight way between the ends of a run.
type chord struct {
	in     Input
	start  geom.Point
	along  geom.Point // as long as the chord
	length float64
}

// vector returns an offset in the piece's coordinates.
func (c chord) vector(o Offset) (geom.Point, error) {
	along, off := o.Along*c.length, o.Off*c.length
	for _, mm := range []struct {
		n  *Number
		to *float64
	}{{o.AlongMM, &along}, {o.OffMM, &off}} {
		if mm.n == nil {
			continue
		}
		v, err := mm.n.In(c.in)
		if err != nil {
			return geom.Point{}, err
		}
		*mm.to += v
	}
	if !(math.Abs(along) <= numberLimit && math.Abs(off) <= numberLimit) {
		return geom.Point{}, fmt.Errorf("a handle or knot %.4g mm along and %.4g mm off the chord lies beyond every sensible measure", along, off)
	}
	u := c.along.Unit()
	return u.Mul(along).Add(u.Perp().Mul(off)), nil
}
