package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestNewPathRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, c := range map[string]struct {
		segs   []Cubic
		closed bool
		want   string
	}{
		"nothing":       {nil, false, "some length"},
		"a point":       {[]Cubic{Straight(Pt(1, 1), Pt(1, 1))}, false, "some length"},
		"NaN":           {[]Cubic{Straight(Pt(0, 0), Pt(nan, 0))}, false, "segment 1: control point"},
		"infinite":      {[]Cubic{Straight(Pt(0, 0), Pt(1, 0)), Curve(Pt(1, 0), Pt(1, inf), Pt(2, 2), Pt(3, 3))}, false, "segment 2: control point 2"},
		"too far":       {[]Cubic{Straight(Pt(0, 0), Pt(2*Reach, 0))}, false, "within"},
		"apart":         {[]Cubic{Straight(Pt(0, 0), Pt(1, 0)), Straight(Pt(1, 1), Pt(2, 2))}, false, "segment 2 starts 1 mm from"},
		"not closed":    {[]Cubic{Straight(Pt(0, 0), Pt(1, 0))}, true, "the gap is 1 mm"},
		"closed, a dot": {[]Cubic{Straight(Pt(0, 0), Pt(5e-10, 0))}, true, "some length"},
	} {
		_, err := build(c.segs, c.closed)
		assert.ErrorContains(t, err, c.want, name)
	}
	_, err := Polyline(Pt(1, 1))
	assert.Error(t, err)
}

func TestNewPathSnapsJoints(t *testing.T) {
	p := Must(NewPath(Straight(Pt(0, 0), Pt(1, 0)), Straight(Pt(1, 5e-10), Pt(2, 0)), Straight(Pt(2, 0), Pt(2, 1e-10))))
	require.Equal(t, 2, p.Len())
	assert.Equal(t, p.Seg(0).End(), p.Seg(1).Start())
}

// TestEmptyPath: the zero Path answers everything without a panic.
func TestEmptyPath(t *testing.T) {
	var p Path
	assert.True(t, p.Empty())
	assert.Zero(t, p.Length())
	assert.Equal(t, Point{}, p.Start().Add(p.End()).Add(p.At(3)).Add(p.TangentAt(1)).Add(p.TangentBefore(1)))
	assert.Zero(t, p.CurvatureAt(1)+p.LengthTo(0, 0.5))
	assert.True(t, p.Reverse().Transform(Turn(1, Pt(1, 1))).Empty())
	for _, err := range []error{second(p.Sub(0, 1)), second(p.WithEnds(Pt(0, 0), Pt(1, 1))), second(Join(p, p))} {
		assert.Error(t, err)
	}
	k, s := p.MaxCurvature(0, 1)
	assert.Zero(t, k+s)
}

func second[T any](_ T, err error) error { return err }

// TestJunkNumbers: numbers that are no lengths give an end or an error.
func TestJunkNumbers(t *testing.T) {
	p := parse(t, samplePath)
	for _, s := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1e300, math.SmallestNonzeroFloat64} {
		for _, q := range []Point{p.At(s), p.TangentAt(s), p.TangentBefore(s), p.Seg(0).At(p.Seg(0).ParamAt(s))} {
			assert.True(t, q.Finite())
		}
		assert.False(t, math.IsNaN(p.CurvatureAt(s)+p.LengthTo(0, s)+p.Seg(0).LengthTo(s)))
		k, at := p.MaxCurvature(s, s)
		assert.False(t, math.IsNaN(k+at))
		for _, u := range []float64{math.NaN(), math.Inf(1), 0} {
			if q, err := p.Sub(s, u); err == nil {
				assert.True(t, q.Length() > 0)
			}
		}
	}
}

// TestSplitAndRejoin: the parts of a path trace the same path.
func TestSplitAndRejoin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t, "path")
		l := p.Length()
		s := rapid.Float64Range(0, 1).Draw(t, "share") * l
		a, err := p.Sub(0, s)
		b, err2 := p.Sub(s, l)
		if err != nil || err2 != nil {
			t.Skip("at an end")
		}
		require.InDelta(t, l, a.Length()+b.Length(), 1e-9)
		require.InDelta(t, s, a.Length(), 1e-9)
		joined := Must(Join(a, b))
		require.InDelta(t, l, joined.Length(), 1e-9)
		for i := range 21 {
			u := l * float64(i) / 20
			require.InDelta(t, 0, p.At(u).Dist(joined.At(u)), 1e-8, "at %g of %g", u, l)
		}
	})
}

func TestMotionKeepsLengths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, m := drawPath(t, "path"), drawMotion(t)
		q := p.Transform(m)
		back := q.Transform(m.Inverse())
		for i := range p.segs {
			require.InDelta(t, p.segs[i].Length(), q.segs[i].Length(), 1e-10)
			for k := range p.segs[i].P {
				require.InDelta(t, 0, p.segs[i].P[k].Dist(back.segs[i].P[k]), 1e-10)
			}
			require.Equal(t, p.segs[i].straight, q.segs[i].straight)
		}
		s := rapid.Float64Range(0, 1).Draw(t, "share") * p.Length()
		require.InDelta(t, 0, m.Apply(p.At(s)).Dist(q.At(s)), 1e-9)
	})
}

func TestPositionAtLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t, "path")
		s := rapid.Float64Range(0, 1).Draw(t, "share") * p.Length()
		i, u := p.Locate(s)
		require.InDelta(t, s, p.LengthTo(i, u), 1e-9)
		r := p.Reverse()
		require.Equal(t, p.Length(), r.Length())
		require.InDelta(t, 0, p.At(s).Dist(r.At(p.Length()-s)), 1e-8)
		require.InDelta(t, 1, p.TangentAt(s).Norm(), 1e-12)
	})
}

func TestReverseTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t, "path")
		requireSame(t, p, p.Reverse().Reverse())
	})
}
