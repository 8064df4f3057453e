package geom

import (
	"cmp"
	"math"
	"slices"
)

// fairBad is the energy of what is no curve at all.
const fairBad = 1e9

// fairTrial is the number of steps of the short searches.
const fairTrial = 60

// fairStarts is the number of starts that are searched to the end.
const fairStarts = 3

// best returns the numbers with the least energy.
func (f *fair) best() (best []float64) {
	least := math.Inf(1)
	for _, x := range f.starts() {
		x = f.search(x, f.energy)
		if e := f.energy(x); e < least {
			best, least = x, e
		}
	}
	return best
}

// starts returns numbers from which the search sets out. One cubic has two:
// its handles. Two cubics have seven: the place where they meet, along and
// across the chord, the direction there, and four handles. They start from the
// halves of an arc, and from what a short search makes of some corners cut off
// between the end tangents, of all these the best: a single start can end in a
// sharp bend.
func (f *fair) starts() [][]float64 {
	if !f.two {
		return [][]float64{{0, 0}}
	}
	d := f.b.Sub(f.a)
	most0, most1, _ := fairMost(f.chord, float64(f.out), float64(f.in))
	most0, most1 = min(most0, f.chord), min(most1, f.chord)
	starts := [][]float64{{0, -math.Tan(clamp(float64(f.out+f.in)/4, -1.4, 1.4)) / 2, 0, 0, 0, 0, 0}}
	for _, u := range [...]float64{0.2, 0.4, 0.6, 0.8} {
		for _, v := range [...]float64{0.2, 0.4, 0.6, 0.8} {
			p, q := f.a.Add(f.da.Mul(u*most0)), f.b.Sub(f.db.Mul(v*most1))
			m := p.Lerp(q, u*most0/(u*most0+v*most1)).Sub(f.a.Lerp(f.b, 0.5))
			half := Turn((f.out+f.in)/2, Point{}).Vector(f.da)
			x := []float64{m.Dot(d) / d.Dot(d), d.Cross(m) / d.Dot(d), float64(Between(half, q.Sub(p))), 0, 0, 0, 0}
			if f.energy(x) < fairBad {
				starts = append(starts, fairSimplex(x, 0.3, fairTrial, f.energy))
			}
		}
	}
	slices.SortStableFunc(starts, func(x, y []float64) int { return cmp.Compare(f.energy(x), f.energy(y)) })
	return starts[:min(fairStarts, len(starts))]
}

// fairUneven is the share that the turn at one end must have of the turn at
// the other for a curve without inflection: with less it would need a spike.
const fairUneven = 0.05

// fairMost returns the greatest handles of a cubic whose ends turn by out and
// in against its chord, and whether they keep it from having an inflection:
// where the ends bend the same way a handle reaches to where the end tangents
// meet.
func fairMost(chord, out, in float64) (most0, most1 float64, convex bool) {
	turn := out + in
	convex = out*in > 0 && min(math.Abs(out), math.Abs(in)) > fairUneven*max(math.Abs(out), math.Abs(in))
	if !convex || math.Abs(turn) >= 0.9*math.Pi {
		return 1.5 * chord, 1.5 * chord, convex
	}
	return min(2*chord, chord*math.Sin(in)/math.Sin(turn)), min(2*chord, chord*math.Sin(out)/math.Sin(turn)), true
}

// cubics returns the curve for the numbers x, nothing when they give none.
func (f *fair) cubics(x []float64) []Cubic {
	if !f.two {
		if c, ok := f.cubic(f.a, f.da, f.b, f.db, x[0], x[1]); ok {
			return []Cubic{c}
		}
		return nil
	}
	if math.Abs(x[0]) > 1 || math.Abs(x[1]) > 3 { // no blend goes that far from its ends
		return nil
	}
	d := f.b.Sub(f.a)
	m := f.a.Lerp(f.b, 0.5).Add(d.Mul(x[0])).Add(d.Perp().Mul(x[1]))
	dm := Turn((f.out+f.in)/2+Angle(x[2]), Point{}).Vector(f.da)
	c0, ok0 := f.cubic(f.a, f.da, m, dm, x[3], x[4])
	c1, ok1 := f.cubic(m, dm, f.b, f.db, x[5], x[6])
	if !ok0 || !ok1 {
		return nil
	}
	return []Cubic{c0, c1}
}

// cubic returns the cubic between two ends with handles that follow x and y
// within bounds: at least a few hundredths of the greatest, at most nearly it.
// It gives none where the ends turn too far for one cubic, where a handle has
// next to no length, or where a half bends otherwise than the whole.
func (f *fair) cubic(a, da, b, db Point, x, y float64) (Cubic, bool) {
	d := b.Sub(a)
	chord := d.Norm()
	out, in := float64(Between(da, d)), float64(Between(d, db))
	most0, most1, convex := fairMost(chord, out, in)
	switch {
	case convex && math.Abs(out+in) >= 0.9*math.Pi,
		!convex && max(math.Abs(out), math.Abs(in)) > 0.6*math.Pi:
		return Cubic{}, false
	}
	if _, _, whole := fairMost(f.chord, float64(f.out), float64(f.in)); whole && !(convex && out*float64(f.out) > 0) {
		return Cubic{}, false
	}
	h0, h1 := most0*fairShare(x), most1*fairShare(y)
	if !(min(h0, h1) > 1e-4*f.chord) {
		return Cubic{}, false
	}
	return Curve(a, a.Add(da.Mul(h0)), b.Sub(db.Mul(h1)), b), true
}

// fairShare maps all numbers to 0.04 … 0.96, and 0 to two thirds, which suits
// a flat arc.
func fairShare(x float64) float64 { return 0.04 + 0.92/(1+math.Exp(-x-0.755)) }

// energy is length times ∫κ² ds, which scaling does not change.
func (f *fair) energy(x []float64) float64 {
	bend, length := fairBending(f.cubics(x))
	if !(length > 0) || !(bend*length < fairBad) {
		return fairBad
	}
	return bend * length
}

// energyNear adds a pull of the given strength to the length.
func (f *fair) energyNear(x []float64, want, pull float64) float64 {
	bend, length := fairBending(f.cubics(x))
	if !(length > 0) || !(bend*length < fairBad) {
		return fairBad
	}
	off := (length - want) / f.chord
	return bend*length + pull*off*off
}

// fairBending returns ∫κ² ds and the length by Gauss–Legendre's rule with 16
// nodes, plenty for comparing fair curves.
func fairBending(segs []Cubic) (bend, length float64) {
	for i := range segs {
		for _, g := range gauss16 {
			for _, t := range [2]float64{(1 - g.x) / 2, (1 + g.x) / 2} {
				_, d, dd := fitEval(&segs[i], t)
				n2 := d.Dot(d)
				n := math.Sqrt(n2)
				cross := d.Cross(dd)
				bend += g.w / 2 * cross * cross / (n2 * n2 * n)
				length += g.w / 2 * n
			}
		}
	}
	return bend, length
}

// search returns the numbers near x with the least value of f: the simplex
// method of Nelder & Mead, restarted twice, with a bounded number of steps.
func (f *fair) search(x []float64, value func([]float64) float64) []float64 {
	for _, size := range [3]float64{0.3, 0.1, 0.02} {
		x = fairSimplex(x, size, 150*len(x), value)
	}
	return x
}

func fairSimplex(x []float64, size float64, steps int, value func([]float64) float64) []float64 {
	n := len(x)
	corners := make([][]float64, n+1)
	values := make([]float64, n+1)
	for i := range corners {
		corners[i] = append([]float64(nil), x...)
		if i > 0 {
			corners[i][i-1] += size
		}
		values[i] = value(corners[i])
	}
	mid, trial := make([]float64, n), make([]float64, n)
	for range steps {
		best, worst, second := 0, 0, 0
		for i, v := range values {
			if v < values[best] {
				best = i
			}
			if v > values[worst] {
				worst = i
			}
		}
		second = best
		for i, v := range values {
			if i != worst && v > values[second] {
				second = i
			}
		}
		if values[worst]-values[best] <= 1e-13*(math.Abs(values[best])+1e-12) {
			break
		}
		for k := range mid {
			mid[k] = 0
			for i := range corners {
				if i != worst {
					mid[k] += corners[i][k] / float64(n)
				}
			}
		}
		step := func(by float64) float64 { // to the point at mid + by·(worst − mid)
			for k := range trial {
				trial[k] = mid[k] + by*(corners[worst][k]-mid[k])
			}
			return value(trial)
		}
		take := func(v float64) {
			copy(corners[worst], trial)
			values[worst] = v
		}
		across := step(-1)
		switch {
		case across < values[best]:
			if far := step(-2); far < across {
				take(far)
			} else {
				take(step(-1))
			}
		case across < values[second]:
			take(across)
		default:
			inner := step(0.5)
			if across < values[worst] {
				inner = step(-0.5)
			}
			if inner < min(across, values[worst]) {
				take(inner)
				break
			}
			for i := range corners {
				if i != best {
					for k := range corners[i] {
						corners[i][k] = (corners[i][k] + corners[best][k]) / 2
					}
					values[i] = value(corners[i])
				}
			}
		}
	}
	best := 0
	for i, v := range values {
		if v < values[best] {
			best = i
		}
	}
	return corners[best]
}
