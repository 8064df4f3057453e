package geom

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// fairBends returns the least and the greatest curvature of the path.
func fairBends(p Path) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, c := range p.segs {
		for k := range 201 {
			v := c.Curvature(float64(k) / 200)
			lo, hi = min(lo, v), max(hi, v)
		}
	}
	return lo, hi
}

// A fair curve between two places of a circle with its directions is the arc,
// as nearly as one or two cubics can be one.
func TestFairCurveOfAnArcIsTheArc(t *testing.T) {
	for _, v := range []struct {
		sweep      Angle
		pieces     int
		off, bends float64 // allowed, as shares of the radius and of the curvature
	}{{10, 1, 1e-8, 1e-3}, {30, 1, 1e-6, 2e-3}, {60, 1, 5e-5, 5e-3}, {90, 1, 5e-4, 0.02}, {120, 2, 1e-4, 0.01}, {180, 2, 5e-4, 0.03}, {240, 2, 3e-3, 0.08}, {300, 2, 1.5e-2, 0.2}} {
		for _, r := range []float64{5, 50} {
			from := Angle(0.4)
			a, b := from.Unit().Mul(r), (from + v.sweep*Degree).Unit().Mul(r)
			da, db := a.Perp(), b.Perp()
			p, err := FairCurve(a, da, b, db)
			require.NoError(t, err)
			assert.Equal(t, v.pieces, p.Len())
			off := fitRadiusError(p, Pt(0, 0), r)
			lo, hi := fairBends(p)
			t.Logf("%g° of radius %g: off %.3g r, curvature %.4f…%.4f /r", float64(v.sweep), r, off/r, lo*r, hi*r)
			assert.LessOrEqual(t, off, v.off*r)
			assert.GreaterOrEqual(t, lo*r, 1-v.bends)
			assert.LessOrEqual(t, hi*r, 1+v.bends)
			fitSmooth(t, p)
		}
	}
}

func TestFairCurveOfStraightEndsIsStraight(t *testing.T) {
	p, err := FairCurve(Pt(1, 2), Pt(3, 3), Pt(6, 7), Pt(1, 1))
	require.NoError(t, err)
	assert.True(t, p.IsStraight())
}

// Both ends bend the same way: the curvature keeps its sign and rises nowhere
// far above what the turn and the size make necessary.
func TestFairCurveKeepsItsBend(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		out := rapid.Float64Range(0.02, 1.9).Draw(t, "out")
		in := rapid.Float64Range(0.02, 1.9).Draw(t, "in")
		uneven := max(out, in) / min(out, in)
		if uneven > 15 {
			t.Skip("needs a spike or an inflection")
		}
		m := drawMotion(t)
		a, b := Pt(0, 0), Pt(60, 0)
		p, err := FairCurve(m.Apply(a), m.Vector(Angle(-out).Unit()), m.Apply(b), m.Vector(Angle(in).Unit()))
		require.NoError(t, err)
		lo, hi := fairBends(p)
		if m.Mirrors() {
			lo, hi = -hi, -lo
		}
		require.Greater(t, lo, -1e-9, "no inflection")
		// The tightest bend of a fair curve grows with how uneven the ends are.
		require.Less(t, hi, 2*(out+in)/60*(1+uneven))
		fitSmooth(t, p)
	})
}

// Uneven ends of two cubics, wherever they lie: the search must not stay in a
// sharp bend that it happens to meet first.
func TestFairCurveOfUnevenEndsIsTheSameEverywhere(t *testing.T) {
	for _, v := range []struct{ out, in, most float64 }{{0.248, 1.504, 0.11}, {1.9, 0.5, 0.12}, {1.7631042450666428, 0.2275390625, 0.14}} {
		for k := range 12 {
			m := Turn(Angle(k)*0.7, Pt(3, -8))
			p, err := FairCurve(m.Apply(Pt(0, 0)), m.Vector(Angle(-v.out).Unit()), m.Apply(Pt(60, 0)), m.Vector(Angle(v.in).Unit()))
			require.NoError(t, err)
			lo, hi := fairBends(p)
			assert.Greater(t, lo, -1e-9)
			assert.Less(t, hi, v.most, "%v turned by %g", v, float64(k)*0.7)
		}
	}
}

func TestFairCurveStandsAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawPoint(t, 100), drawPoint(t, 100)
		p, err := FairCurve(a, drawPoint(t, 1), b, drawPoint(t, 1))
		if err != nil {
			return
		}
		require.Equal(t, a, p.Start())
		require.Equal(t, b, p.End())
		require.Less(t, p.Length(), 20*a.Dist(b))
		fitSmooth(t, p)
	})
	for _, v := range [][4]Point{
		{Pt(0, 0), Pt(1, 0), Pt(0, 0), Pt(1, 0)}, {Pt(0, 0), Pt(0, 0), Pt(5, 0), Pt(1, 0)}, {Pt(0, 0), Pt(1, 0), Pt(math.NaN(), 0), Pt(1, 0)},
		{Pt(0, 0), Pt(math.Inf(1), 0), Pt(5, 0), Pt(1, 0)},
	} {
		_, err := FairCurve(v[0], v[1], v[2], v[3])
		assert.Error(t, err)
	}
}

// A wire line of two arcs that meet with a kink of 8°.
func blendKinked() Path {
	a := Must(Arc(Pt(0, 0), 60, 180*Degree, 90*Degree))
	b := Must(Arc(Pt(0, 0), 60, 270*Degree, 90*Degree)).Transform(Turn(8*Degree, Pt(0, -60)))
	return Must(Join(a, b))
}

func TestBlendSmoothsAKink(t *testing.T) {
	p := blendKinked()
	k := Must(Arc(Pt(0, 0), 60, 180*Degree, 90*Degree)).Length()
	q, err := p.Blend(k-30, k+30)
	require.NoError(t, err)
	fitSmooth(t, q)
	assert.Equal(t, p.Start(), q.Start())
	assert.Equal(t, p.End(), q.End())
	assert.True(t, q.At(k-30).Near(p.At(k-30), 1e-9))
	lo, hi := fairBends(q)
	assert.Greater(t, lo*60, 0.9)
	assert.Less(t, hi*60, 1.35)
	off := math.Abs(q.Length() - p.Length())
	assert.Greater(t, off, 1e-4)
	assert.Less(t, off, 1.0)

	r, inflects, err := p.BlendLength(k-30, k+30, p.Length())
	require.NoError(t, err)
	assert.InDelta(t, p.Length(), r.Length(), 1e-9)
	fitSmooth(t, r)
	assert.False(t, inflects)
	lo, _ = fairBends(r)
	assert.Greater(t, lo, 0.0, "no inflection")
}

func TestBlendOfAnArcChangesNothing(t *testing.T) {
	p := Must(Arc(Pt(3, 4), 70, 1, 200*Degree))
	for _, s := range [][2]float64{{20, 90}, {0, 50}, {150, p.Length()}, {30, 200}} {
		q, err := p.Blend(s[0], s[1])
		require.NoError(t, err)
		assert.Less(t, fitRadiusError(q, Pt(3, 4), 70), 0.06)
		assert.InDelta(t, p.Length(), q.Length(), 0.02)
		r, _, err := p.BlendLength(s[0], s[1], p.Length()+0.01)
		require.NoError(t, err)
		assert.InDelta(t, p.Length()+0.01, r.Length(), 1e-9)
	}
}

func TestBlendOverTheStartOfAClosedPath(t *testing.T) {
	p := Must(NewClosed(Straight(Pt(0, 0), Pt(100, 0)), Straight(Pt(100, 0), Pt(100, 80)), Straight(Pt(100, 80), Pt(0, 80)), Straight(Pt(0, 80), Pt(0, 0))))
	q, err := p.Blend(340, 20)
	require.NoError(t, err)
	assert.True(t, q.Closed())
	assert.True(t, q.Start().Near(Pt(20, 0), 1e-12))
	assert.Equal(t, 5, q.Len())
	// A corner rounded by a fair curve with equal reach on both sides is nearly an arc.
	assert.InDelta(t, 360-40+math.Pi*10, q.Length(), 0.02)
	round, err := p.Blend(80, 120)
	require.NoError(t, err)
	assert.InDelta(t, q.Length(), round.Length(), 1e-6)
}

// blendRange reads the range of lengths from a refusal.
func blendRange(t require.TestingT, err error) (lo, hi float64) {
	require.ErrorContains(t, err, "about")
	parts := strings.Fields(err.Error()[strings.Index(err.Error(), "about"):])
	lo, err = strconv.ParseFloat(parts[1], 64)
	require.NoError(t, err)
	hi, err = strconv.ParseFloat(parts[4], 64)
	require.NoError(t, err)
	return lo, hi
}

// A corner: as long as one cubic can keep its bend it does; no longer than the
// legs is possible without inflection.
func TestBlendLengthSweepsItsRangeAndRefusesBeyond(t *testing.T) {
	p := Must(Polyline(Pt(0, 0), Pt(50, 0), Pt(50, 60)))
	_, _, err := p.BlendLength(20, 85, 400)
	require.Error(t, err)
	lo, hi := blendRange(t, err)
	lo, hi = lo-45, hi-45 // of the curve alone
	assert.Less(t, math.Hypot(30, 35), lo)
	assert.Less(t, lo, 48.0)
	assert.Greater(t, hi, 70.0)
	for k := range 101 {
		want := 45 + lo + 1e-3 + (hi-lo-2e-3)*float64(k)/100
		q, inflects, err := p.BlendLength(20, 85, want)
		require.NoError(t, err)
		require.InDelta(t, want, q.Length(), 1e-9)
		require.Empty(t, q.SelfCrossings())
		fitSmooth(t, q)
		if want < 45+57.5 {
			assert.False(t, inflects)
		}
		if want > 45+65 {
			require.True(t, inflects)
		}
	}
}

// A flat hollow whose two ends bend the same way: the whole stated range is
// reached, and without inflection where the control polygon can be convex.
func TestBlendLengthOfAFlatHollowReachesItsRange(t *testing.T) {
	p := Must(NewPath(Curve(Pt(0, 0), Pt(10, -10), Pt(30, -14), Pt(50, -13)), Curve(Pt(50, -13), Pt(70, -14), Pt(90, -10), Pt(100, 0))))
	from, to := 25.0, p.Length()-25
	for _, l := range []float64{55.74, 55.98, 56.2, 56.5} {
		q, inflects, err := p.BlendLength(from, to, 50+l)
		require.NoError(t, err)
		assert.InDelta(t, 50+l, q.Length(), 1e-9)
		assert.False(t, inflects, "%g", l)
		fitSmooth(t, q)
	}
	q, inflects, err := p.BlendLength(from, to, 50+58)
	require.NoError(t, err)
	assert.InDelta(t, 108, q.Length(), 1e-9)
	assert.True(t, inflects)
}

func TestBlendLengthReachesEveryLengthOfItsRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		out := rapid.Float64Range(-2.5, 2.5).Draw(t, "out")
		in := rapid.Float64Range(-2.5, 2.5).Draw(t, "in")
		turn := func(a float64) Point { return Angle(a).Unit() }
		leave, arrive := turn(-out), turn(in)
		p := Must(NewPath(Straight(leave.Mul(-10), Pt(0, 0)), Straight(Pt(0, 0), Pt(60, 0)), Straight(Pt(60, 0), Pt(60, 0).Add(arrive.Mul(10)))))
		_, _, err := p.BlendLength(p.cum[1], p.cum[2], 20+1e5)
		require.Error(t, err)
		if !strings.Contains(err.Error(), "about") {
			t.Skip("straight, or too sharp a turn for one cubic")
		}
		lo, hi := blendRange(t, err)
		require.LessOrEqual(t, lo, hi)
		// The range is printed with six digits.
		want := lo*(1+1e-5) + (hi*(1-1e-5)-lo*(1+1e-5))*rapid.Float64Range(0, 1).Draw(t, "share")
		if hi-lo < 1e-4*hi {
			t.Skip("only one length")
		}
		q, _, err := p.BlendLength(p.cum[1], p.cum[2], want)
		require.NoError(t, err)
		require.InDelta(t, want, q.Length(), 1e-9)
		fitSmooth(t, q)
	})
}

func TestBlendEndArrivesAsAsked(t *testing.T) {
	p := blendKinked()
	dir := Pt(1, 1).Unit()
	for _, s := range []float64{0, 40, 150} {
		q, err := p.BlendEnd(s, dir)
		require.NoError(t, err)
		assert.Equal(t, p.Start(), q.Start())
		assert.Equal(t, p.End(), q.End())
		assert.True(t, q.TangentBefore(q.Length()).Near(dir, 1e-9))
		assert.True(t, q.At(s).Near(p.At(s), 1e-9))
		if s > 100 {
			assert.True(t, q.At(s/4).Near(p.At(s/4), 1e-9))
		}
	}
	for _, s := range []float64{-1, p.Length(), math.NaN()} {
		_, err := p.BlendEnd(s, dir)
		assert.Error(t, err)
	}
	_, err := Path{}.BlendEnd(0, dir)
	assert.Error(t, err)
}

func TestBlendRefusesJunk(t *testing.T) {
	p := blendKinked()
	nan := math.NaN()
	for _, v := range [][2]float64{{nan, 3}, {3, nan}, {50, 50}, {50, 20}, {-5, 20}, {20, 1e6}, {math.Inf(-1), math.Inf(1)}} {
		_, err := p.Blend(v[0], v[1])
		assert.Error(t, err, "%v", v)
		_, _, err = p.BlendLength(v[0], v[1], 190)
		assert.Error(t, err, "%v", v)
	}
	_, _, err := p.BlendLength(20, 60, nan)
	assert.Error(t, err)
	_, err = Path{}.Blend(0, 1)
	assert.Error(t, err)
}

func TestBlendOfAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t, "n")
		s0 := rapid.Float64Range(0, 1).Draw(t, "s0") * p.Length()
		s1 := rapid.Float64Range(0, 1).Draw(t, "s1") * p.Length()
		q, err := p.Blend(s0, s1)
		if err != nil {
			return
		}
		require.Equal(t, p.Closed(), q.Closed())
		want := q.Length() * rapid.Float64Range(0.98, 1.02).Draw(t, "want")
		if r, _, err := p.BlendLength(s0, s1, want); err == nil {
			require.InDelta(t, want, r.Length(), 1e-8)
		}
	})
}

func BenchmarkFairCurve(b *testing.B) {
	for name, in := range map[string]Angle{"one": 40 * Degree, "two": 120 * Degree} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := FairCurve(Pt(0, 0), Angle(-0.5).Unit(), Pt(60, 0), in.Unit()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkBlendLength(b *testing.B) {
	p := blendKinked()
	for b.Loop() {
		if _, _, err := p.BlendLength(70, 120, p.Length()); err != nil {
			b.Fatal(err)
		}
	}
}
