// Package slice compares outlines slice by slice, to tell how far they must
// lie apart.
package slice

import (
	"math"

	"truemat/geom"
)

// Band is the height in mm of the slices in which outlines are compared.
const Band = 0.25

// touch is the share of a slice up to which an outline only touches it.
const touch = 1e-6

// flat is the distance in mm by which a polyline may miss its curve.
const flat = 0.01

// Profile is an outline slice by slice: its leftmost and rightmost x in each
// slice of height Band, from slice first on. Slices are counted from y = 0.
type Profile struct {
	first       int
	left, right []float64
	Min, Max    float64 // leftmost and rightmost x of all
}

// Of returns the profile of a closed outline moved by m. It holds the
// whole outline: a hollow seen along x counts as filled.
func Of(outline geom.Path, m geom.Motion) Profile {
	pts := outline.Transform(m).Flatten(flat)
	low, high := math.Inf(1), math.Inf(-1)
	for _, q := range pts {
		low, high = min(low, q.Y), max(high, q.Y)
	}
	p := Profile{first: int(math.Floor(low/Band + touch)), Min: math.Inf(1), Max: math.Inf(-1)}
	n := max(int(math.Ceil(high/Band-touch))-p.first, 1)
	p.left, p.right = make([]float64, n), make([]float64, n)
	for i := range n {
		p.left[i], p.right[i] = math.Inf(1), math.Inf(-1)
	}
	for i := 1; i < len(pts); i++ {
		p.add(pts[i-1], pts[i])
	}
	for i := range n {
		p.Min, p.Max = min(p.Min, p.left[i]), max(p.Max, p.right[i])
	}
	return p
}

// add takes in a straight piece of outline.
func (p *Profile) add(a, b geom.Point) {
	if a.Y > b.Y {
		a, b = b, a
	}
	x := func(y float64) float64 {
		if b.Y == a.Y {
			return a.X
		}
		return a.X + (b.X-a.X)*(y-a.Y)/(b.Y-a.Y)
	}
	last := p.first + len(p.left) - 1
	from := min(max(int(math.Floor(a.Y/Band+touch)), p.first), last)
	to := min(max(int(math.Ceil(b.Y/Band-touch))-1, from), last)
	for k := from; k <= to; k++ {
		i := k - p.first
		lo, hi := max(a.Y, float64(k)*Band), min(b.Y, float64(k+1)*Band)
		ends := []float64{x(lo), x(hi)}
		if a.Y == b.Y {
			ends = []float64{a.X, b.X}
		}
		for _, v := range ends {
			p.left[i], p.right[i] = min(p.left[i], v), max(p.right[i], v)
		}
	}
}

// Apart returns by how much in mm q must lie right of p, both taken from
// their own x = 0, so that they do not overlap; −Inf when they may pass each
// other.
func (p Profile) Apart(q Profile) float64 {
	d := math.Inf(-1)
	for k := max(p.first, q.first); k < min(p.first+len(p.left), q.first+len(q.left)); k++ {
		d = max(d, p.right[k-p.first]-q.left[k-q.first])
	}
	return d
}

// Raised returns the profile moved up by that many slices.
func (p Profile) Raised(by int) Profile {
	p.first += by
	return p
}

// Shifted returns the profile moved along by x mm.
func (p Profile) Shifted(x float64) Profile {
	moved := Profile{first: p.first, left: make([]float64, len(p.left)), right: make([]float64, len(p.right)), Min: p.Min + x, Max: p.Max + x}
	for i := range p.left {
		moved.left[i], moved.right[i] = p.left[i]+x, p.right[i]+x
	}
	return moved
}

// Grown returns the profile of the outline with gap mm around it, measured
// along x and across, whichever is greater.
func (p Profile) Grown(gap float64) Profile {
	if gap <= 0 {
		return p
	}
	by := int(math.Ceil(gap / Band))
	n := len(p.left)
	g := Profile{first: p.first - by, left: make([]float64, n+2*by), right: make([]float64, n+2*by), Min: p.Min - gap, Max: p.Max + gap}
	for i := range g.left {
		g.left[i], g.right[i] = math.Inf(1), math.Inf(-1)
		for k := max(i-2*by, 0); k <= min(i, n-1); k++ {
			g.left[i], g.right[i] = min(g.left[i], p.left[k]-gap), max(g.right[i], p.right[k]+gap)
		}
	}
	return g
}
