package mat

import (
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// RoleLine returns how the sew line of a role is dashed, in units, and the
// strokes of its sign as they lie along it; none for a plain seam.
func RoleLine(r pattern.Role) (dash []float64, strokes [][]geom.Point) { return dashes(r), sign(r) }

// sign returns the strokes that stand for a role: x along the edge, y towards
// the inside of the piece, in units. A plain seam has none, the fold has its
// bracket.
func sign(r pattern.Role) [][]geom.Point {
	switch r {
	case pattern.WireLine: // a wire
		return [][]geom.Point{bow(0, 0, 6, 0, math.Pi)}
	case pattern.Hem: // elastic, stitched on in zigzag
		return [][]geom.Point{{geom.Pt(-9, 0), geom.Pt(-6, 5), geom.Pt(-3, 0), geom.Pt(0, 5), geom.Pt(3, 0), geom.Pt(6, 5), geom.Pt(9, 0)}}
	case pattern.Neckline: // the neckline's V
		return [][]geom.Point{{geom.Pt(-5, 0), geom.Pt(0, 7), geom.Pt(5, 0)}}
	case pattern.Underarm: // two bows, arm in arm
		return [][]geom.Point{bow(-7, 3.5, 4.5, -math.Pi/2, math.Pi), bow(7, 3.5, 4.5, math.Pi/2, math.Pi)}
	case pattern.LaceEdge: // scallops
		return [][]geom.Point{bow(-8, 0, 4, 0, math.Pi), bow(0, 0, 4, 0, math.Pi), bow(8, 0, 4, 0, math.Pi)}
	case pattern.TurnedBack: // turned over
		return [][]geom.Point{
			append([]geom.Point{geom.Pt(-8, 0), geom.Pt(4, 0)}, append(bow(4, 3, 3, -math.Pi/2, math.Pi), geom.Pt(-4, 6))...),
			{geom.Pt(-1, 3.2), geom.Pt(-4, 6), geom.Pt(-1, 8.8)},
		}
	case pattern.Closure: // two eyes
		return [][]geom.Point{bow(-5, 3, 3, 0, 2*math.Pi), bow(5, 3, 3, 0, 2*math.Pi)}
	}
	return nil
}

// bow is an arc in straight bits.
func bow(x, y, r, from, sweep float64) []geom.Point {
	const n = 14
	pts := make([]geom.Point, n+1)
	for i := range pts {
		a := geom.Angle(from + sweep*float64(i)/n)
		pts[i] = geom.Pt(x, y).Add(a.Unit().Mul(r))
	}
	return pts
}

// deepest is how far a sign reaches from its foot, in units.
const deepest = 8

// signRoom is the width of an allowance, in units, that has room for signs.
const signRoom = 10

// signs draws the sign of an edge's role along it: within the allowance, or
// inside the edge where there is none. From afar, where the allowance is too
// narrow, the dashes of the sew line must do.
func (p *painter) signs(l laid, m affine, edge int) {
	e := &l.piece.Edges[edge]
	strokes := sign(e.Role)
	run := m.all(p.pts, l.sewRuns[edge])
	length := 0.0
	for i := 1; i < len(run); i++ {
		length += run[i].Dist(run[i-1])
	}
	if strokes == nil || length < 44*p.px {
		return
	}
	foot, size := signInside*p.px, p.px
	var taken []strip
	if a := e.Allowance * m.scale(); a > 0 && l.cut != nil {
		if a < signRoom*p.px {
			return
		}
		size *= min((a/p.px-5)/deepest, 1)
		foot = -(a + deepest*size) / 2
	} else {
		taken = append(p.drawn(l, m), p.marked(l, m)...) // it stands inside, among these
	}
	pen := p.pen(1.1, p.palette.Sew)
	n := max(math.Round(length/(signEvery*p.px)), 1)
	for k := range int(n) {
		at, u, free := p.signPlace(m, run, (float64(k)+0.5)*length/n, foot, length/n, taken)
		if !free {
			continue
		}
		in := m.inward(u)
		at = at.Add(in.Mul(foot))
		for _, s := range strokes {
			bent := make([]geom.Point, len(s))
			for k, q := range s {
				bent[k] = at.Add(u.Mul(q.X * size)).Add(in.Mul(q.Y * size))
			}
			p.trace(bent, pen)
		}
	}
	p.ink(pen)
}

// signPlace returns where on an edge a sign stands that best stood at a length
// of it, and the direction there: moved along within its share of the edge when
// it would meet what is taken; false when it meets that everywhere.
func (p *painter) signPlace(m affine, run []geom.Point, best, foot, share float64, taken []strip) (at, u geom.Point, ok bool) {
	for _, off := range []float64{0, 0.12, -0.12, 0.24, -0.24, 0.36, -0.36} {
		at, u = along(run, best+off*share)
		mid := at.Add(m.inward(u).Mul(foot + 0.5*deepest*p.px))
		if stripOf(mid.Sub(u.Mul(8*p.px)), mid.Add(u.Mul(8*p.px)), 0.6*deepest*p.px).free(taken) {
			return at, u, true
		}
	}
	return at, u, false
}

// along returns the point at a length of a polyline, and its direction there.
func along(run []geom.Point, length float64) (at, u geom.Point) {
	for i := 1; i < len(run); i++ {
		d := run[i].Sub(run[i-1])
		long := d.Norm()
		if long == 0 {
			continue
		}
		if u = d.Mul(1 / long); length <= long || i == len(run)-1 {
			return run[i-1].Add(u.Mul(length)), u
		}
		length -= long
	}
	return at, u
}
