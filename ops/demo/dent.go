package demo

import (
	"fmt"

	"truemat/geom"
	"truemat/ops/pattern"
)

// fuller returns the path by mm longer: the handles of its longest segment go
// towards the place where its end tangents meet, so that both ends and their
// directions stay and the bend goes on one way.
func fuller(p geom.Path, by float64) (geom.Path, error) {
	segs := p.Segments()
	at := 0
	for i, c := range segs {
		if c.Length() > segs[at].Length() {
			at = i
		}
	}
	c := segs[at]
	u, v, d := c.Tangent(0), c.Tangent(1), c.End().Sub(c.Start())
	meet := c.Start().Add(u.Mul(d.Cross(v) / u.Cross(v)))
	with := func(t float64) geom.Cubic {
		return geom.Curve(c.P[0], c.P[1].Lerp(meet, t), c.P[2].Lerp(meet, t), c.P[3])
	}
	want := c.Length() + by
	t, err := solve(0, 1, func(t float64) float64 { return with(t).Length() - want })
	if err != nil {
		return geom.Path{}, fmt.Errorf("it cannot be made %g mm longer: %w", by, err)
	}
	segs[at] = with(t)
	return geom.NewPath(segs...)
}

// pushed returns a path longer by mm than the gentle curve p between the same
// ends, its middle pushed out to the right; the directions at the ends stay.
func pushed(p geom.Path, by float64) (geom.Path, error) {
	start, end := p.TangentAt(0), p.TangentBefore(p.Length())
	out := end.Add(start).Unit().Perp().Mul(-1)
	whole := sweep(p.Start(), start.Direction(), third, p.End(), end.Direction(), third)
	with := func(far float64) (geom.Cubic, geom.Cubic) {
		a, b := whole.Split(0.5)
		v := out.Mul(far)
		return geom.Curve(a.P[0], a.P[1], a.P[2].Add(v), a.P[3].Add(v)), geom.Curve(b.P[0].Add(v), b.P[1].Add(v), b.P[2], b.P[3])
	}
	want := p.Length() + by
	far, err := solve(0, p.Length()/2, func(far float64) float64 {
		a, b := with(far)
		return a.Length() + b.Length() - want
	})
	if err != nil {
		return geom.Path{}, fmt.Errorf("it cannot be made %g mm longer: %w", by, err)
	}
	a, b := with(far)
	return geom.NewPath(a, b)
}

// handled returns the path of one cubic with other handles: how far each is
// turned, in degrees, about its end.
func handled(p geom.Path, atStart, atEnd float64) geom.Path {
	c := p.Seg(0)
	return geom.Must(geom.NewPath(geom.Curve(
		c.P[0],
		geom.Turn(deg(atStart), c.P[0]).Apply(c.P[1]),
		geom.Turn(deg(atEnd), c.P[3]).Apply(c.P[2]),
		c.P[3],
	)))
}

// wireCorner is the corner in degrees of a wire line in which no wire lies.
const wireCorner = 8

// kinked returns p with a corner of some degrees in its middle, the handles to
// both sides of it turned by half of that.
func kinked(p geom.Path, by float64) geom.Path {
	half := p.Length() / 2
	a, b := geom.Must(p.Sub(0, half)).Segments(), geom.Must(p.Sub(half, p.Length())).Segments()
	before, after := &a[len(a)-1], &b[0]
	at := after.P[0]
	before.P[2] = geom.Turn(deg(by/2), at).Apply(before.P[2])
	after.P[1] = geom.Turn(deg(-by/2), at).Apply(after.P[1])
	return geom.Must(geom.NewPath(append(a, b...)...))
}

// bowed returns a path between the ends of p whose middle lies off the
// straight line by about that many mm, to the left when positive.
func bowed(p geom.Path, by float64) geom.Path {
	a, b := p.Start(), p.End()
	off := b.Sub(a).Unit().Perp().Mul(by * 4 / 3)
	return geom.Must(geom.NewPath(geom.Curve(a, a.Lerp(b, third).Add(off), a.Lerp(b, 2*third).Add(off), b)))
}

// edit gives an edge of p another path.
func edit(p pattern.Pattern, piece, name string, to func(geom.Path) (geom.Path, error)) error {
	_, e := p.Edge(piece, name)
	if e == nil {
		return fmt.Errorf("there is no %s of %s", name, piece)
	}
	path, err := to(e.Path)
	if err != nil {
		return fmt.Errorf("%s of %s: %w", name, piece, err)
	}
	e.Path = path
	return nil
}

// reshape is edit for a change that cannot fail.
func reshape(p pattern.Pattern, piece, name string, to func(geom.Path) geom.Path) error {
	return edit(p, piece, name, func(q geom.Path) (geom.Path, error) { return to(q), nil })
}
