package geom

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// graph is the exact cubic y = f(x) over [a, b], for a cubic polynomial f
// with derivative g.
func graph(f, g func(float64) float64, a, b float64) Cubic {
	h := (b - a) / 3
	return Curve(Pt(a, f(a)), Pt(a+h, f(a)+h*g(a)), Pt(b-h, f(b)-h*g(b)), Pt(b, f(b)))
}

func swapped(c Cubic) Cubic {
	for i, q := range c.P {
		c.P[i] = Pt(q.Y, q.X)
	}
	return c
}

func one(c Cubic) Path { return Must(NewPath(c)) }

// y = T₃(x) and x = T₃(y) meet at all nine places where T₉(x) = x, that is
// x = cos(kπ/4) and cos(kπ/5), the most that two cubics can.
func TestCrossNine(t *testing.T) {
	cheb := graph(func(x float64) float64 { return 4*x*x*x - 3*x }, func(x float64) float64 { return 12*x*x - 3 }, -1, 1)
	var want []float64
	for k := range 5 {
		want = append(want, math.Cos(float64(k)*math.Pi/4))
	}
	for k := 1; k < 5; k++ {
		want = append(want, math.Cos(float64(k)*math.Pi/5))
	}
	slices.Sort(want)
	m := Cross(one(cheb), one(swapped(cheb)))
	require.Len(t, m.Crossings, 9)
	assert.Empty(t, m.Overlaps)
	for i, c := range m.Crossings {
		assert.InDelta(t, want[i], c.Point.X, 1e-9)
		assert.False(t, c.Tangent)
	}
}

func TestCrossTangency(t *testing.T) {
	square := func(k, up float64) Path {
		return one(graph(func(x float64) float64 { return k*x*x + up }, func(x float64) float64 { return 2 * k * x }, -7, 11))
	}
	for _, k := range []struct {
		p, q Path
		x    []float64 // of the places wanted
		tan  bool
	}{
		{square(1, 0), square(-1, 0), []float64{0}, true},
		{square(1, 0), square(0.5, 0), []float64{0}, true},
		{square(0.01, 0), square(0.02, 0), []float64{0}, true},
		{square(0.01, 0), square(-1e-5, 0), []float64{0}, true},
		{square(1, 0), square(-1, -1e-6), nil, false},
		{square(1, 0), square(-1, 2e-6), []float64{-1e-3, 1e-3}, false},
		{square(1, 0), square(-1, 2), []float64{-1, 1}, false},
		{square(0.01, 0), square(-0.01, 0.5), []float64{-5, 5}, false},
		{square(0.3, 0), Must(Polyline(Pt(-5, 0), Pt(6, 0))), []float64{0}, true},
		{square(0.3, 0), Must(Polyline(Pt(-5, 0), Pt(0, 0), Pt(6, 0))), []float64{0}, true},
		{square(0.3, 1e-6), Must(Polyline(Pt(-5, 0), Pt(6, 0))), nil, false},
	} {
		for range 2 {
			m := Cross(k.p, k.q)
			require.Len(t, m.Crossings, len(k.x), "%s | %s", k.p, k.q)
			for i, c := range m.Crossings {
				assert.InDelta(t, k.x[i], c.Point.X, 2e-6)
				assert.Equal(t, k.tan, c.Tangent)
			}
			assert.Empty(t, m.Overlaps)
			k.p, k.q = k.q, k.p
		}
	}
	// Osculating: y = x³ and its tangent, and two cubics that share position,
	// direction and curvature.
	cube := one(graph(func(x float64) float64 { return x * x * x }, func(x float64) float64 { return 3 * x * x }, -2, 3))
	m := Cross(cube, Must(Polyline(Pt(-2, 0), Pt(3, 0))))
	require.Len(t, m.Crossings, 1)
	assert.InDelta(t, 0, m.Crossings[0].Point.X, 3e-3) // |x³| ≤ 1e-8
	m = Cross(cube, one(graph(func(x float64) float64 { return -x * x * x }, func(x float64) float64 { return -3 * x * x }, -3, 2)))
	require.Len(t, m.Crossings, 1)
	assert.InDelta(t, 0, m.Crossings[0].Point.X, 3e-3)
}

func TestCrossAtJointsAndCorners(t *testing.T) {
	sq := parse(t, "M0 0L20 0L20 10L0 10Z")
	for _, k := range []struct {
		q    string
		want []Crossing
	}{
		// through two corners
		{"M-5 -2.5L25 12.5", []Crossing{{S: 0, T: math.Hypot(5, 2.5), Point: Pt(0, 0)}, {S: 30, T: math.Hypot(25, 12.5), Point: Pt(20, 10)}}},
		// touching a corner from outside
		{"M15 -5L25 5", []Crossing{{S: 20, T: math.Hypot(5, 5), Point: Pt(20, 0), Tangent: true}}},
		// a corner touching a side from inside, and from end
		{"M5 5L10 0L15 5", []Crossing{{S: 10, T: math.Hypot(5, 5), Point: Pt(10, 0), Tangent: true}}},
		{"M10 5L10 0", []Crossing{{S: 10, T: 5, Point: Pt(10, 0)}}},
		// a joint of q on a side, passing through
		{"M10 5L10 0L12 -5", []Crossing{{S: 10, T: 5, Point: Pt(10, 0)}}},
		{"M30 0L40 5", nil},
	} {
		m := Cross(sq, parse(t, k.q))
		require.Len(t, m.Crossings, len(k.want), k.q)
		for i, c := range m.Crossings {
			assert.InDelta(t, k.want[i].S, c.S, 1e-12, k.q)
			assert.InDelta(t, k.want[i].T, c.T, 1e-12, k.q)
			assert.InDelta(t, 0, k.want[i].Point.Dist(c.Point), 1e-12, k.q)
			assert.Equal(t, k.want[i].Tangent, c.Tangent, k.q)
		}
		assert.Empty(t, m.Overlaps)
	}
	assert.Empty(t, Cross(sq, Path{}))
	assert.Empty(t, Cross(Path{}, sq))
}

func TestOverlapStraight(t *testing.T) {
	sq := parse(t, "M0 0L20 0L20 10L0 10Z")
	m := Cross(sq, parse(t, "M-5 0L30 0"))
	assert.Equal(t, []Overlap{{0, 20, 5, 25}}, m.Overlaps)
	assert.Empty(t, m.Crossings)
	m = Cross(sq, parse(t, "M15 -5L15 0L5 0L5 20")) // along, opposed, then out through the other side
	require.Len(t, m.Overlaps, 1)
	assert.Equal(t, Overlap{5, 15, 15, 5}, m.Overlaps[0])
	require.Len(t, m.Crossings, 1)
	assert.Equal(t, Pt(5, 10), m.Crossings[0].Point)
	m = Cross(parse(t, "M0 0L10 0L20 0"), parse(t, "M5 0L25 0"))
	assert.Equal(t, []Overlap{{5, 20, 0, 15}}, m.Overlaps)
	m = Cross(parse(t, "M0 0L10 0"), parse(t, "M10 0L25 0")) // end to end only
	assert.Empty(t, m.Overlaps)
	require.Len(t, m.Crossings, 1)
	assert.True(t, m.Crossings[0].Tangent)
}

// TestOverlapOfItsOwnPart: a path shares with a part of itself just that part.
func TestOverlapOfItsOwnPart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := one(Curve(Pt(0, 0), drawPoint(t, 50), drawPoint(t, 50), Pt(60, 10)))
		if len(p.SelfCrossings()) > 0 || p.segs[0].turnsBack() {
			t.Skip("meets itself")
		}
		l := p.Length()
		a := rapid.Float64Range(0, 0.8).Draw(t, "from") * l
		b := a + rapid.Float64Range(0.05, 1).Draw(t, "share")*(l-a)
		part := Must(p.Sub(a, b))
		want := Overlap{a, b, 0, part.Length()}
		if rapid.Bool().Draw(t, "reverse") {
			part = part.Reverse()
			want.T0, want.T1 = want.T1, want.T0
		}
		there := drawMotion(t) // and back, for the rounding
		m := Cross(p, part.Transform(there).Transform(there.Inverse()))
		require.Len(t, m.Overlaps, 1, "%v", m)
		assert.Empty(t, m.Crossings)
		o := m.Overlaps[0]
		for i, d := range []float64{o.S0 - want.S0, o.S1 - want.S1, o.T0 - want.T0, o.T1 - want.T1} {
			assert.InDelta(t, 0, d, 1e-6, "%d", i)
		}
	})
}

// turnsBack reports whether a cubic comes nearly to rest on its way.
func (c Cubic) turnsBack() bool {
	for i := range 201 {
		if c.Deriv(float64(i)/200).Norm() < 0.01*c.extent() {
			return true
		}
	}
	return false
}

// TestCrossAgainstPolylines: every clear crossing of two fine polylines is
// found, and what is found lies on both paths.
func TestCrossAgainstPolylines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := drawPath(t, "p"), drawPath(t, "q")
		m := Cross(p, q)
		for _, c := range m.Crossings {
			require.InDelta(t, 0, p.At(c.S).Dist(c.Point), 3e-8)
			require.InDelta(t, 0, q.At(c.T).Dist(c.Point), 3e-8)
		}
		for _, o := range m.Overlaps {
			require.Less(t, o.S0, o.S1)
			require.InDelta(t, 0, p.At(o.S0).Dist(q.At(o.T0)), 1e-6)
			require.InDelta(t, 0, p.At(o.S1).Dist(q.At(o.T1)), 1e-6)
		}
		for _, want := range polyCrossings(p, q) {
			best := math.Inf(1)
			for _, c := range m.Crossings {
				best = math.Min(best, c.Point.Dist(want))
			}
			for _, o := range m.Overlaps {
				for k := range 11 {
					best = math.Min(best, p.At(o.S0+(o.S1-o.S0)*float64(k)/10).Dist(want)-(o.S1-o.S0)/10)
				}
			}
			require.Less(t, best, 0.5, "crossing near %v missed: %v of %s | %s", want, m, p, q)
		}
	})
}

// polyCrossings returns the clear crossings of fine polylines along p and q.
func polyCrossings(p, q Path) (out []Point) {
	fine := func(p Path) (pts []Point) {
		for _, c := range p.segs {
			for i := range 60 {
				pts = append(pts, c.At(float64(i)/60))
			}
		}
		return append(pts, p.End())
	}
	a, b := fine(p), fine(q)
	for i := 1; i < len(a); i++ {
		v := a[i].Sub(a[i-1])
		for j := 1; j < len(b); j++ {
			w, r := b[j].Sub(b[j-1]), b[j-1].Sub(a[i-1])
			det := v.Cross(w)
			if math.Abs(det) < 0.2*v.Norm()*w.Norm() || det == 0 {
				continue
			}
			if s, u := r.Cross(w)/det, r.Cross(v)/det; s > 0.02 && s < 0.98 && u > 0.02 && u < 0.98 {
				at := a[i-1].Lerp(a[i], s)
				atJoint := slices.ContainsFunc(append(p.Segments(), q.Segments()...), func(c Cubic) bool {
					return c.Start().Near(at, 0.5) || c.End().Near(at, 0.5)
				})
				if !atJoint { // near joints the polylines may meet where the curves just do not
					out = append(out, at)
				}
			}
		}
	}
	return out
}

func TestCrossIsSymmetric(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := drawPath(t, "p"), drawPath(t, "q")
		m := drawMotion(t)
		a := Cross(p, q)
		if len(a.Overlaps) > 0 || slices.ContainsFunc(a.Crossings, func(c Crossing) bool { return c.Tangent }) {
			t.Skip("touching")
		}
		require.Len(t, Cross(q, p).Crossings, len(a.Crossings))
		require.Len(t, Cross(p.Transform(m), q.Transform(m)).Crossings, len(a.Crossings))
		require.Len(t, Cross(p.Reverse(), q).Crossings, len(a.Crossings))
	})
}

func TestCrossLine(t *testing.T) {
	sq := parse(t, "M0 0L20 0L20 10L0 10Z")
	cs := sq.CrossLine(Pt(5, -7), Pt(0, 2))
	require.Len(t, cs, 2)
	assert.Equal(t, Crossing{S: 5, T: 7, Point: Pt(5, 0)}, cs[0])
	assert.InDelta(t, 45, cs[1].S, 1e-12)
	assert.InDelta(t, 17, cs[1].T, 1e-12)
	cs = sq.CrossLine(Pt(20, 0), Pt(1, 1)) // touches a corner
	require.Len(t, cs, 1)
	assert.True(t, cs[0].Tangent)
	cs = sq.CrossLine(Pt(0, 0), Pt(2, 1)) // through two corners, one the start
	require.Len(t, cs, 2)
	assert.Equal(t, []float64{0, 30}, []float64{cs[0].S, cs[1].S})
	assert.False(t, cs[0].Tangent || cs[1].Tangent)
	cs = sq.CrossLine(Pt(-3, 0), Pt(1, 0)) // along a side
	require.Len(t, cs, 2)
	assert.Equal(t, []float64{0, 20}, []float64{cs[0].S, cs[1].S})
	assert.True(t, cs[0].Tangent && cs[1].Tangent)
	arch := one(parabola(100, 10))
	cs = arch.CrossLine(Pt(0, 10), Pt(-1, 0)) // touches the top
	require.Len(t, cs, 1)
	assert.True(t, cs[0].Tangent)
	assert.InDelta(t, -50, cs[0].T, 1e-6)
	cs = arch.CrossLine(Pt(0, 7.5), Pt(1, 0)) // a quarter below the top: half the chord
	require.Len(t, cs, 2)
	assert.InDelta(t, 25, cs[0].T, 1e-11)
	assert.InDelta(t, 75, cs[1].T, 1e-11)
	assert.Empty(t, arch.CrossLine(Pt(0, 10.001), Pt(1, 0)))
	assert.Empty(t, arch.CrossLine(Pt(0, 1), Pt(0, 0)))
	assert.Empty(t, arch.CrossLine(Pt(0, 1), Pt(math.NaN(), 0)))
	assert.Empty(t, arch.CrossLine(Pt(0, math.Inf(1)), Pt(1, 0)))
	assert.Empty(t, Path{}.CrossLine(Pt(0, 0), Pt(1, 0)))
}

func TestCrossLineProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, a, dir := drawPath(t, "path"), drawPoint(t, 100), drawPoint(t, 100).Unit()
		if dir == (Point{}) {
			t.Skip("no direction")
		}
		cs := p.CrossLine(a, dir)
		odd := 0
		for i, c := range cs {
			require.InDelta(t, 0, p.At(c.S).Dist(c.Point), 1e-8)
			require.InDelta(t, 0, a.Add(dir.Mul(c.T)).Dist(c.Point), 2e-8)
			if i > 0 {
				require.Less(t, cs[i-1].S, c.S)
			}
			if !c.Tangent {
				odd++
			}
		}
		touching := slices.ContainsFunc(cs, func(c Crossing) bool { return c.Tangent })
		if p.closed && !touching { // a closed path comes back to its side
			require.Zero(t, odd%2, "%v", cs)
		}
		if !touching {
			far := Must(Polyline(a.Sub(dir.Mul(900)), a.Add(dir.Mul(900))))
			require.Len(t, Cross(p, far).Crossings, len(cs))
		}
	})
}

func TestSelfCrossings(t *testing.T) {
	for in, want := range map[string]int{
		"M0 0L20 0L20 10L0 10Z":                   0,
		"M0 0L20 10L20 0L0 10Z":                   1, // bow tie
		samplePath:                                0,
		"M0 0C100 80 -40 80 60 0":                 1, // loop of one cubic
		"M0 0C60 80 -60 80 0 0Z":                  0, // a drop, closed at its joint
		"M0 0C60 80 -60 80 0 0":                   1, // a drop, open: its ends touch
		"M0 0C0 100 100 100 100 0":                0,
		"M0 0C100 100 0 100 100 0":                0, // a cusp
		"M0 0L10 0L10 10L5 0":                     1, // the end lies on the first segment
		"M0 0L10 0L10 10L5 0L0 10":                1, // a corner touches it
		"M0 0L10 0L10 10L5 -1L0 10":               2,
		"M0 0C20 0 30 10 50 10C70 10 80 0 100 0":  0, // smooth joint
		"M0 0L10 0L10 10L0 10L0 0L-9 0L-9 -9L0 0": 3, // start, middle and end meet in pairs
		"M0 0L10 0L4 0L4 5":                       2, // turns back on itself
		"M0 0C40 40 60 40 100 0C60 40 40 40 0 0Z": 2, // there and back along the same curve
	} {
		p := parse(t, in)
		cs := p.SelfCrossings()
		assert.Len(t, cs, want, "%s: %v", in, cs)
		for _, c := range cs {
			assert.LessOrEqual(t, c.S, c.T)
			assert.InDelta(t, 0, p.At(c.S).Dist(p.At(c.T)), 2e-8)
		}
	}
	cs := parse(t, "M0 0L10 0L10 10L5 0L0 10").SelfCrossings()
	assert.True(t, cs[0].Tangent)
	cs = parse(t, "M0 0L20 10L20 0L0 10Z").SelfCrossings()
	assert.False(t, cs[0].Tangent)
	assert.Equal(t, Pt(10, 5), cs[0].Point)
	assert.Empty(t, Path{}.SelfCrossings())
	for n := 3; n <= 32; n++ {
		assert.Empty(t, oval(Pt(0, 0), 60, 45, n).SelfCrossings(), "%d", n)
	}
}

// TestSelfCrossingsOfLoop: where a cubic loops, splitting it in between shows
// the same place as a crossing of its halves.
func TestSelfCrossingsOfLoop(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(-15, 15)
		far := func(x, y float64) Point { return Pt(x+d.Draw(t, "dx"), y+d.Draw(t, "dy")) }
		p := one(Curve(far(0, 0), far(110, 80), far(-50, 80), far(60, 0)))
		cs := p.SelfCrossings()
		if len(cs) == 0 {
			t.Skip("no loop")
		}
		mid := (cs[0].S + cs[0].T) / 2
		if cs[0].T-cs[0].S < 1 || cs[0].Tangent {
			t.Skip("tiny, or flat")
		}
		a, b, err := p.Split(mid)
		require.NoError(t, err)
		split := Must(Join(a, b)).SelfCrossings()
		require.Len(t, split, len(cs))
		require.InDelta(t, cs[0].S, split[0].S, 1e-6)
		require.InDelta(t, cs[0].T, split[0].T, 1e-6)
	})
}

// TestTouchAtSmoothJoint: circles and lines that touch where their pieces join.
func TestTouchAtSmoothJoint(t *testing.T) {
	a, b := oval(Pt(0, 0), 10, 10, 4), oval(Pt(20, 0), 10, 10, 4)
	m := Cross(a, b)
	require.Len(t, m.Crossings, 1)
	assert.True(t, m.Crossings[0].Tangent)
	assert.Zero(t, m.Crossings[0].S)
	assert.InDelta(t, b.Length()/2, m.Crossings[0].T, 1e-9)
	inner := oval(Pt(4, 0), 6, 6, 4)
	m = Cross(a, inner)
	require.Len(t, m.Crossings, 1)
	assert.True(t, m.Crossings[0].Tangent)
	cs := a.CrossLine(Pt(0, 10), Pt(1, 0))
	require.Len(t, cs, 1)
	assert.True(t, cs[0].Tangent)
	cs = a.CrossLine(Pt(0, 0), Pt(0, 1)) // through two joints
	require.Len(t, cs, 2)
	assert.False(t, cs[0].Tangent || cs[1].Tangent)
	// Circles of radius 10 whose centres are 12 apart meet at x = 6, y = ±8;
	// the circle of 16 cubics is right to 1e-8 of its radius.
	m = Cross(oval(Pt(0, 0), 10, 10, 16), oval(Pt(12, 0), 10, 10, 16))
	require.Len(t, m.Crossings, 2)
	for _, c := range m.Crossings {
		assert.InDelta(t, 6, c.Point.X, 1e-9)
		assert.InDelta(t, 8, math.Abs(c.Point.Y), 1e-6)
		assert.False(t, c.Tangent)
	}
}

// TestOverlapClosed: a closed path shares all of itself with itself, also run
// the other way or from another start; an overlap does not run on through a
// start.
func TestOverlapClosed(t *testing.T) {
	for _, data := range []string{samplePath, "M0 0L20 0L20 10L0 10Z"} {
		p := parse(t, data)
		l := p.Length()
		m := Cross(p, p)
		assert.Equal(t, []Overlap{{0, l, 0, l}}, m.Overlaps)
		assert.Empty(t, m.Crossings)
		m = Cross(p, p.Reverse())
		require.Len(t, m.Overlaps, 1, "%v", m.Overlaps)
		assert.InDeltaSlice(t, []float64{0, l, l, 0}, []float64{m.Overlaps[0].S0, m.Overlaps[0].S1, m.Overlaps[0].T0, m.Overlaps[0].T1}, 1e-9)
		assert.Empty(t, m.Crossings)

		half := l / 2
		turned := Must(JoinClosed(Must(p.Sub(half, l)), Must(p.Sub(0, half))))
		m = Cross(p, turned)
		require.Len(t, m.Overlaps, 2)
		assert.InDelta(t, half, m.Overlaps[0].S1, 1e-6)
		assert.InDelta(t, half, m.Overlaps[1].S0, 1e-6)
		assert.Empty(t, m.Crossings)
	}
}
