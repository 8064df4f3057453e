package step

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/unit"
)

// drawnKnot is a knot in the piece's coordinates.
type drawnKnot struct{ at, in, out geom.Point }

// drawn returns the run as the knots draw it.
func (r *Reshape) drawn(in Input, was geom.Path) (geom.Path, error) {
	knots, err := r.knotsOn(in, was)
	if err != nil {
		return geom.Path{}, fmt.Errorf("%s of %s: %w", r.Edge, r.Piece, err)
	}
	path := func(factor float64) (geom.Path, error) { return throughKnots(r.scaled(knots, factor)) }
	if r.Keep != keepLength {
		p, err := path(1)
		if err != nil {
			return p, fmt.Errorf("%s of %s: %w", r.Edge, r.Piece, err)
		}
		return p, nil
	}
	return r.ofLength(was.Length(), path)
}

// knotsOn finds the knots on the chord of the run as it was.
func (r *Reshape) knotsOn(in Input, was geom.Path) ([]drawnKnot, error) {
	c := chord{in: in, start: was.Start(), along: was.End().Sub(was.Start())}
	if c.length = c.along.Norm(); c.length < leastEdge {
		return nil, fmt.Errorf("the ends of the run lie %.3g mm apart, which gives nothing to measure along; choose a shorter run", c.length)
	}
	knots := make([]drawnKnot, len(r.Knots))
	last := len(knots) - 1
	for i, k := range r.Knots {
		v, err := c.vector(k.Offset)
		if err != nil {
			return nil, err
		}
		d := &knots[i]
		if d.at = c.start.Add(v); i == last && k.Offset == (Offset{Along: 1}) {
			d.at = was.End() // to the last bit, so that what adjoins stays as it is
		}
		handle := func(o *Offset) (geom.Point, error) {
			if o == nil {
				return geom.Point{}, nil
			}
			return c.vector(*o)
		}
		if d.in, err = handle(k.In); err != nil {
			return nil, err
		}
		if d.out, err = handle(k.Out); err != nil {
			return nil, err
		}
		switch {
		case i == 0 && r.Start != TangentFree:
			d.out = was.TangentAt(0).Mul(d.out.Norm())
		case i == last && r.End != TangentFree:
			d.in = was.TangentBefore(was.Length()).Mul(-d.in.Norm())
		case i > 0 && i < last && !k.Corner && d.out.Norm() > 0:
			reach := d.in.Norm()
			if k.In == nil {
				reach = d.out.Norm()
			}
			d.in = d.out.Unit().Mul(-reach)
		}
	}
	for i := 1; i < len(knots); i++ {
		if knots[i].at.Dist(knots[i-1].at) < leastApart {
			return nil, fmt.Errorf("knots %d and %d lie at the same place; keep them apart or leave one out", i, i+1)
		}
	}
	return knots, nil
}

// scaled returns the knots with those between so many times as far off the
// straight way between the ends, or without such, with handles so many times
// as long.
func (r *Reshape) scaled(knots []drawnKnot, factor float64) []drawnKnot {
	out := make([]drawnKnot, len(knots))
	last := len(knots) - 1
	a, u := knots[0].at, knots[last].at.Sub(knots[0].at).Unit()
	swell := func(v geom.Point) geom.Point {
		return u.Mul(v.Dot(u)).Add(u.Perp().Mul(u.Cross(v) * factor))
	}
	for i, k := range knots {
		switch {
		case last == 1:
			k.in, k.out = k.in.Mul(factor), k.out.Mul(factor)
		case i > 0 && i < last:
			k = drawnKnot{a.Add(swell(k.at.Sub(a))), swell(k.in), swell(k.out)}
		}
		out[i] = k
	}
	return out
}

func throughKnots(knots []drawnKnot) (geom.Path, error) {
	segs := make([]geom.Cubic, len(knots)-1)
	for i := range segs {
		a, b := knots[i], knots[i+1]
		segs[i] = geom.Curve(a.at, a.at.Add(a.out), b.at.Add(b.in), b.at)
	}
	return geom.NewPath(segs...)
}

// Factors within which the length is looked for.
const (
	leastSwell = 0.1
	mostSwell  = 4
)

// ofLength solves for the factor nearest to 1 at which the path has the length.
func (r *Reshape) ofLength(want float64, path func(float64) (geom.Path, error)) (geom.Path, error) {
	miss := func(f float64) (float64, error) {
		p, err := path(f)
		return p.Length() - want, err
	}
	start, err := miss(1)
	if err != nil {
		return geom.Path{}, fmt.Errorf("%s of %s: %w", r.Edge, r.Piece, err)
	}
	if start == 0 {
		return path(1)
	}
	lo, hi := want+start, want+start
	for _, way := range []float64{1, -1} {
		a, va := 1.0, start
		for f := 1 + way*0.05; f >= leastSwell && f <= mostSwell; f += way * 0.05 {
			v, err := miss(f)
			if err != nil {
				break
			}
			lo, hi = min(lo, want+v), max(hi, want+v)
			if (v < 0) != (va < 0) {
				root, err := bracketed(a, f, va, v, miss)
				if err != nil {
					return geom.Path{}, err
				}
				return path(root)
			}
			a, va = f, v
		}
	}
	return geom.Path{}, fmt.Errorf("drawn so, the run on %s of %s can be %s to %s long, but not keep its %s; move a knot or handle, or let its length change", r.Edge, r.Piece, unit.MM(lo), unit.MM(hi), unit.MM(want))
}

// leastApart is the distance in mm under which two knots lie at one place: a
// hair that no pencil draws.
const leastApart = 1e-3

// KnotsOf returns the knots that draw a run as it is, and whether the corners
// between its cubics are kept. A run of many cubics is first drawn with few,
// within a tenth of a millimetre; where a run was cut a hair beside a knot that
// hair is left out.
func KnotsOf(run geom.Path) ([]Knot, error) {
	const most, tol = 6, 0.1
	if run.Empty() || run.Closed() {
		return nil, fmt.Errorf("only an open run has knots")
	}
	if run.Len() > most {
		fit, err := geom.Fit(run.Flatten(tol/10), tol, 10*geom.Degree)
		if err == nil && fit.Len() < run.Len() {
			run = fit
		}
	}
	way := run.End().Sub(run.Start())
	length := way.Norm()
	if length < leastEdge {
		return nil, fmt.Errorf("the ends of the run lie at the same place")
	}
	u := way.Unit()
	offset := func(v geom.Point) Offset { return Offset{Along: v.Dot(u) / length, Off: u.Cross(v) / length} }
	segs := slices.DeleteFunc(run.Segments(), func(s geom.Cubic) bool { return s.P[0].Dist(s.P[3]) < leastApart })
	if len(segs) == 0 {
		return nil, fmt.Errorf("the run is too short for knots")
	}
	knots := make([]Knot, len(segs)+1)
	for i := range knots {
		k := &knots[i]
		if i == 0 {
			k.Offset = Offset{}
		} else {
			s := segs[i-1]
			k.Offset = offset(s.P[3].Sub(run.Start()))
			in := offset(s.P[2].Sub(s.P[3]))
			k.In = &in
		}
		if i < len(segs) {
			out := offset(segs[i].P[1].Sub(segs[i].P[0]))
			k.Out = &out
		}
		if i > 0 && i < len(segs) {
			turn := geom.Between(segs[i-1].Tangent(1), segs[i].Tangent(0))
			k.Corner = math.Abs(float64(turn)) > 1e-6
		}
	}
	knots[len(segs)].Offset = Offset{Along: 1}
	return knots, nil
}

// AddKnot splits the curve between two knots at the parameter t in its middle
// part, which changes no shape (de Casteljau's rule), and returns the knots.
func AddKnot(knots []Knot, after int, t float64) []Knot {
	if after < 0 || after+1 >= len(knots) || !(t > 0 && t < 1) {
		return knots
	}
	a, b := knots[after], knots[after+1]
	p0, p3 := a.plain(), b.plain()
	p1, p2 := p0.Add(a.Out.plain()), p3.Add(b.In.plain())
	q0, q1, q2 := p0.Lerp(p1, t), p1.Lerp(p2, t), p2.Lerp(p3, t)
	r0, r1 := q0.Lerp(q1, t), q1.Lerp(q2, t)
	at := r0.Lerp(r1, t)
	out := make([]Knot, 0, len(knots)+1)
	out = append(out, knots[:after+1]...)
	out = append(out, Knot{Offset: shares(at), In: handle(r0.Sub(at)), Out: handle(r1.Sub(at))})
	out = append(out, knots[after+1:]...)
	out[after].Out, out[after+2].In = handle(q0.Sub(p0)), handle(q2.Sub(p3))
	return out
}

// RemoveKnot takes a knot between away and lengthens the handles beside it in
// proportion, so that the curve stays near.
func RemoveKnot(knots []Knot, i int) []Knot {
	if i <= 0 || i+1 >= len(knots) {
		return knots
	}
	before, after := knots[i-1].plain().Dist(knots[i].plain()), knots[i].plain().Dist(knots[i+1].plain())
	out := append(append([]Knot(nil), knots[:i]...), knots[i+1:]...)
	if before > 0 && after > 0 {
		t := before / (before + after)
		out[i-1].Out = handle(out[i-1].Out.plain().Mul(1 / t))
		out[i].In = handle(out[i].In.plain().Mul(1 / (1 - t)))
	}
	return out
}

// plain returns the shares of an offset as a point, its mm left aside.
func (o *Offset) plain() geom.Point {
	if o == nil {
		return geom.Point{}
	}
	return geom.Pt(o.Along, o.Off)
}

func shares(v geom.Point) Offset { return Offset{Along: v.X, Off: v.Y} }

func handle(v geom.Point) *Offset {
	o := shares(v)
	return &o
}
