package border

import (
	"math"

	"truemat/geom"
)

// band is the height in mm of the slices in which outlines are compared.
const band = 0.25

// profile is an outline slice by slice: its leftmost and rightmost x in each
// slice of height band, from slice first on. Slices are counted from y = 0.
type profile struct {
	first       int
	left, right []float64
	min, max    float64 // of all slices
}

// profileOf returns the profile of a closed outline moved by m. It holds the
// whole outline: a hollow seen along x counts as filled.
func profileOf(outline geom.Path, m geom.Motion) profile {
	pts := outline.Transform(m).Flatten(flat)
	low, high := math.Inf(1), math.Inf(-1)
	for _, q := range pts {
		low, high = min(low, q.Y), max(high, q.Y)
	}
	p := profile{first: int(math.Floor(low / band)), min: math.Inf(1), max: math.Inf(-1)}
	n := int(math.Floor(high/band)) - p.first + 1
	p.left, p.right = make([]float64, n), make([]float64, n)
	for i := range n {
		p.left[i], p.right[i] = math.Inf(1), math.Inf(-1)
	}
	for i := 1; i < len(pts); i++ {
		p.add(pts[i-1], pts[i])
	}
	for i := range n {
		p.min, p.max = min(p.min, p.left[i]), max(p.max, p.right[i])
	}
	return p
}

// add takes in a straight piece of outline.
func (p *profile) add(a, b geom.Point) {
	if a.Y > b.Y {
		a, b = b, a
	}
	x := func(y float64) float64 {
		if b.Y == a.Y {
			return a.X
		}
		return a.X + (b.X-a.X)*(y-a.Y)/(b.Y-a.Y)
	}
	for k := int(math.Floor(a.Y / band)); k <= int(math.Floor(b.Y/band)); k++ {
		i := k - p.first
		lo, hi := max(a.Y, float64(k)*band), min(b.Y, float64(k+1)*band)
		ends := []float64{x(lo), x(hi)}
		if a.Y == b.Y {
			ends = []float64{a.X, b.X}
		}
		for _, v := range ends {
			p.left[i], p.right[i] = min(p.left[i], v), max(p.right[i], v)
		}
	}
}

// apart returns by how much in mm q must lie right of p, both taken from
// their own x = 0, so that they do not overlap; −Inf when they may pass each
// other.
func (p profile) apart(q profile) float64 {
	d := math.Inf(-1)
	for k := max(p.first, q.first); k < min(p.first+len(p.left), q.first+len(q.left)); k++ {
		d = max(d, p.right[k-p.first]-q.left[k-q.first])
	}
	return d
}
