package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The displacement is the stated one, and ends and their directions stay.
func TestSwellDisplacesAsStated(t *testing.T) {
	for _, p := range []Path{
		Must(Arc(Pt(0, 0), 60, 180*Degree, 120*Degree)),
		Must(Polyline(Pt(0, 0), Pt(100, 0))),
		Must(NewPath(Curve(Pt(0, 0), Pt(30, 20), Pt(60, -20), Pt(90, 5)))),
	} {
		for _, h := range []float64{-2, 0.5, 3} {
			q, err := p.Swell(h)
			require.NoError(t, err)
			assert.Equal(t, p.Start(), q.Start())
			assert.Equal(t, p.End(), q.End())
			assert.InDelta(t, 0, float64(Between(p.TangentAt(0), q.TangentAt(0))), 1e-12)
			assert.InDelta(t, 0, float64(Between(p.TangentBefore(p.Length()), q.TangentBefore(q.Length()))), 1e-12)
			for k := range 101 {
				u := float64(k) / 100
				want := p.At(u * p.Length()).Add(p.TangentAt(u * p.Length()).Perp().Mul(h * 16 * u * u * (1 - u) * (1 - u)))
				assert.Less(t, q.Nearest(want).Dist, 0.002*math.Abs(h))
			}
			fitSmooth(t, q)
		}
	}
}

// To first order the length of a curve displaced by w along its normal changes
// by −∫ κ·w ds (first variation of arc length); on an arc of radius r, with
// ∫ 16u²(1−u)² du = 8/15, by −(8/15)·h·l/r.
func TestSwollenArcHasTheFirstVariationOfItsLength(t *testing.T) {
	p := Must(Arc(Pt(0, 0), 60, 180*Degree, 120*Degree))
	const h = 1e-3
	out, err := p.Swell(h)
	require.NoError(t, err)
	in, err := p.Swell(-h)
	require.NoError(t, err)
	assert.InDelta(t, -8.0/15*p.Length()/60, (out.Length()-in.Length())/(2*h), 2e-4)
}

// A straight run displaced by w gets longer by ½·∫ w′² ds to second order:
// with ∫ (32u(1−u)(1−2u))² du = 512/105.
func TestSwollenStraightRunHasTheSecondVariationOfItsLength(t *testing.T) {
	p := Must(Polyline(Pt(0, 0), Pt(100, 0)))
	q, err := p.Swell(0.5)
	require.NoError(t, err)
	assert.InDelta(t, 0.5*0.5*512.0/105/100/2, q.Length()-100, 2e-6)
}

func TestSwellMostKeepsTheSides(t *testing.T) {
	assert.Zero(t, math.Abs(Must(Polyline(Pt(0, 0), Pt(100, 0))).SwellMost(1, 10)))
	p := Must(Arc(Pt(0, 0), 60, 180*Degree, 120*Degree))
	// Where 32·h/l² is the curvature, the ends begin to bend the other way.
	most := p.SwellMost(-1, 50)
	assert.InDelta(t, -p.Length()*p.Length()/32/60, most, 0.2)
	assert.InDelta(t, 3, p.SwellMost(1, 3), 1e-12)
	q, err := p.Swell(most)
	require.NoError(t, err)
	assert.Empty(t, q.Inflections())
}

func TestSwellRefuses(t *testing.T) {
	p := Must(Polyline(Pt(0, 0), Pt(100, 0)))
	for _, h := range []float64{math.NaN(), math.Inf(1), 1e300} {
		_, err := p.Swell(h)
		require.Error(t, err)
	}
	_, err := Path{}.Swell(1)
	require.Error(t, err)
	q, err := p.Swell(0)
	require.NoError(t, err)
	assert.Equal(t, p.String(), q.String())
}

func TestSwellOfAnyRunIsFinite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := func(name string) Point {
			return Pt(rapid.Float64Range(-80, 80).Draw(t, name+" x"), rapid.Float64Range(-80, 80).Draw(t, name+" y"))
		}
		p, err := NewPath(Curve(at("a"), at("b"), at("c"), at("d")))
		if err != nil {
			t.Skip()
		}
		h := rapid.Float64Range(-30, 30).Draw(t, "h")
		q, err := p.Swell(h)
		if err != nil {
			return
		}
		if math.IsNaN(q.Length()) || q.Start() != p.Start() || q.End() != p.End() {
			t.Fatalf("%v", q)
		}
		if most := p.SwellMost(h, 10); math.IsNaN(most) || math.Abs(most) > 10 {
			t.Fatalf("most %v", most)
		}
	})
}
