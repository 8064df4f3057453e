package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func turnLine(t require.TestingT, a, b Point) Line {
	l, err := NewLine(a, b)
	require.NoError(t, err)
	return l
}

func TestLine(t *testing.T) {
	l := turnLine(t, Pt(1, 1), Pt(4, 5))
	assert.InDelta(t, 5, l.Distance(Pt(-3, 4)), 1e-12)
	assert.InDelta(t, -5, l.Distance(Pt(5, -2)), 1e-12)
	assert.True(t, l.Foot(Pt(-3, 4)).Near(Pt(1, 1), 1e-12))
	assert.InDelta(t, 10, l.Along(Pt(7, 9)), 1e-12)
	assert.True(t, l.At(10).Near(Pt(7, 9), 1e-12))
	for _, b := range []Point{Pt(1, 1), Pt(math.NaN(), 0), Pt(math.Inf(1), 0), Pt(2*Reach, 0)} {
		_, err := NewLine(Pt(1, 1), b)
		assert.Error(t, err)
	}
}

// The pin, q and its landing place form a triangle with two sides 100; the
// law of cosines gives the angle from the third side.
func TestTurnToLineLawOfCosines(t *testing.T) {
	pin, q := Pt(0, 0), Pt(100, 0)
	l := turnLine(t, Pt(-500, -60), Pt(500, -60)) // lands at (±80, −60)
	got, err := TurnToLine(pin, q, l)
	require.NoError(t, err)
	require.Len(t, got, 2)
	for i, land := range []Point{Pt(-80, -60), Pt(80, -60)} {
		side := q.Dist(land)
		assert.InDelta(t, -math.Acos((2*100*100-side*side)/(2*100*100)), float64(got[i]), 1e-14)
	}
	ccw, _ := FirstTurn(got, 1)
	cw, _ := FirstTurn(got, -1)
	assert.InDelta(t, math.Pi+math.Asin(0.6), float64(ccw), 1e-14)
	assert.InDelta(t, -math.Asin(0.6), float64(cw), 1e-14)
}

func TestTurnToLineCountsItsAnswers(t *testing.T) {
	pin := Pt(10, 20)
	l := turnLine(t, Pt(0, 70), Pt(1, 70))
	got, err := TurnToLine(pin, Pt(60, 20), l)
	require.NoError(t, err)
	require.Len(t, got, 1)
	assert.InDelta(t, math.Pi/2, float64(got[0]), 1e-12)

	_, err = TurnToLine(pin, Pt(50, 20), l)
	var miss *MissError
	require.ErrorAs(t, err, &miss)
	assert.InDelta(t, 10, miss.Miss, 1e-12)
	assert.InDelta(t, math.Pi/2, float64(miss.Turn), 1e-12)

	got, err = TurnToLine(pin, Pt(10+51, 70), l)
	require.NoError(t, err)
	assert.Contains(t, got, Angle(0), "a point on the line needs no turn")

	got, err = TurnToLine(Pt(3, 70), Pt(3, 70), l)
	require.NoError(t, err)
	assert.Equal(t, []Angle{0}, got)
}

func TestFirstTurn(t *testing.T) {
	for _, c := range []struct {
		in   []Angle
		dir  int
		want Angle
	}{
		{[]Angle{-1, 2}, 1, 2}, {[]Angle{-1, 2}, -1, -1}, {[]Angle{-3, -1}, 1, 2*math.Pi - 3},
		{[]Angle{1, 3}, -1, 3 - 2*math.Pi}, {[]Angle{0, 1}, -1, 0}, {[]Angle{-1e-14, 1}, 1, 0}, {[]Angle{math.Pi}, -1, -math.Pi},
	} {
		got, ok := FirstTurn(c.in, c.dir)
		assert.True(t, ok)
		assert.InDelta(t, float64(c.want), float64(got), 1e-15, "%v %d", c.in, c.dir)
	}
	_, ok := FirstTurn(nil, 1)
	assert.False(t, ok)
	_, ok = FirstTurn([]Angle{1}, 0)
	assert.False(t, ok)
}

func TestTurnNearestAndParallel(t *testing.T) {
	assert.InDelta(t, math.Pi/2, float64(TurnNearest(Pt(1, 1), Pt(5, 1), Pt(1, 90))), 1e-15)
	assert.Zero(t, TurnNearest(Pt(1, 1), Pt(1, 1), Pt(1, 90)))
	got := TurnParallel(Pt(0, 0), Pt(3, 3), turnLine(t, Pt(7, 7), Pt(8, 7)))
	require.Len(t, got, 2)
	assert.InDelta(t, -math.Pi/4, float64(got[0]), 1e-15)
	assert.InDelta(t, 3*math.Pi/4, float64(got[1]), 1e-15)
	assert.Empty(t, TurnParallel(Pt(1, 0), Pt(1, 0), turnLine(t, Pt(7, 7), Pt(8, 7))))
}

// A square standing on one corner of its side: turned about that corner
// clockwise, the far corner lands on a line below as TurnToLine says.
func TestTurnToTouchByCorner(t *testing.T) {
	p := Must(Polyline(Pt(0, 0), Pt(40, 0), Pt(40, 40), Pt(0, 40)))
	l := turnLine(t, Pt(0, -20), Pt(1, -20))
	got, err := TurnToTouch(p, Pt(0, 0), l, -1)
	require.NoError(t, err)
	assert.InDelta(t, -math.Pi/6, float64(got), 1e-12)
	got, err = TurnToTouch(p, Pt(0, 0), l, 1)
	require.NoError(t, err)
	assert.InDelta(t, math.Pi/2+math.Pi/6, float64(got), 1e-12)
	_, err = TurnToTouch(p, Pt(0, 0), turnLine(t, Pt(0, -60), Pt(1, -60)), 1)
	var miss *MissError
	require.ErrorAs(t, err, &miss)
	assert.InDelta(t, 60-40*math.Sqrt2, miss.Miss, 1e-12)
	_, err = TurnToTouch(p, Pt(5, 5), turnLine(t, Pt(0, 20), Pt(1, 20)), 1)
	assert.ErrorIs(t, err, ErrMeetsAlready)
	_, err = TurnToTouch(p, Pt(0, 0), turnLine(t, Pt(0, 0), Pt(1, -1)), 1)
	assert.ErrorIs(t, err, ErrMeetsAlready)
}

// The parabola y = x²/100 + 10, turned about the origin by a, has the tangent
// with slope tan(−a) at distance cos a·(10 − 25 tan² a) from the origin.
func TestTurnToTouchByTangent(t *testing.T) {
	p := Must(NewPath(Curve(Pt(-60, 46), Pt(-20, -2), Pt(20, -2), Pt(60, 46))))
	require.InDelta(t, 10, p.Seg(0).At(0.5).Y, 1e-12)
	l := turnLine(t, Pt(0, 5), Pt(1, 5))
	got, err := TurnToTouch(p, Pt(0, 0), l, 1)
	require.NoError(t, err)
	a := float64(got)
	assert.InDelta(t, 5, math.Cos(a)*(10-25*math.Pow(math.Tan(a), 2)), 1e-11)
	other, err := TurnToTouch(p, Pt(0, 0), l, -1)
	require.NoError(t, err)
	assert.InDelta(t, a, -float64(other), 1e-11)
}

func turnLowest(p Path, l Line, side float64) float64 {
	low := math.Inf(1)
	for _, c := range p.segs {
		for k := range 401 {
			low = math.Min(low, side*l.Distance(c.At(float64(k)/400)))
		}
	}
	return low
}

func TestTurnToTouchIsTheFirstContact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, pin := drawPath(t, "n"), drawPoint(t, 150)
		a, b := drawPoint(t, 150), drawPoint(t, 150)
		l, err := NewLine(a, b)
		if err != nil {
			t.Skip(err)
		}
		dir := rapid.SampledFrom([]int{-1, 1}).Draw(t, "dir")
		side := math.Copysign(1, l.Distance(p.Start()))
		turn, err := TurnToTouch(p, pin, l, dir)
		var miss *MissError
		switch {
		case err == nil:
			require.GreaterOrEqual(t, float64(turn)*float64(dir), 0.0)
			low := turnLowest(p.Transform(Turn(turn, pin)), l, side)
			require.Greater(t, low, -1e-8)
			require.Less(t, low, 0.3, "sampled, so only roughly")
			for _, share := range []float64{0, 0.25, 0.5, 0.75, 0.9, 0.99, 1 - 1e-5} {
				require.Greater(t, turnLowest(p.Transform(Turn(turn*Angle(share), pin)), l, side), -1e-8)
			}
			require.True(t, turnMeets(p.Transform(Turn(turn+Angle(dir)*1e-9, pin)), l) || turnMeets(p.Transform(Turn(turn, pin)), l))
		case err == ErrMeetsAlready:
			require.True(t, turnMeets(p, l))
		default:
			require.ErrorAs(t, err, &miss)
			require.Greater(t, miss.Miss, 0.0)
			require.InDelta(t, miss.Miss, turnLowest(p.Transform(Turn(miss.Turn, pin)), l, side), 0.3)
		}
	})
}

func TestTurnToLineLandsOnTheLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pin, q := drawPoint(t, 200), drawPoint(t, 200)
		l, err := NewLine(drawPoint(t, 200), drawPoint(t, 200))
		if err != nil {
			t.Skip(err)
		}
		got, err := TurnToLine(pin, q, l)
		var miss *MissError
		if err != nil {
			require.ErrorAs(t, err, &miss)
			require.InDelta(t, miss.Miss, math.Abs(l.Distance(Turn(miss.Turn, pin).Apply(q))), 1e-9)
			return
		}
		for _, a := range got {
			require.InDelta(t, 0, l.Distance(Turn(a, pin).Apply(q)), 2e-9)
			require.True(t, a > -math.Pi && a <= math.Pi)
		}
	})
}

func TestTurnsRefuseJunk(t *testing.T) {
	nan, good := Pt(math.NaN(), 0), turnLine(t, Pt(0, 0), Pt(1, 0))
	_, err := TurnToLine(nan, Pt(1, 1), good)
	assert.Error(t, err)
	_, err = TurnToLine(Pt(1, 1), Pt(2, 2), Line{})
	assert.Error(t, err)
	p := Must(Polyline(Pt(0, 1), Pt(5, 5)))
	for _, c := range []struct {
		p   Path
		pin Point
		l   Line
		dir int
	}{{Path{}, Pt(0, 0), good, 1}, {p, nan, good, 1}, {p, Pt(0, 0), Line{Dir: nan}, 1}, {p, Pt(0, 0), good, 0}} {
		_, err := TurnToTouch(c.p, c.pin, c.l, c.dir)
		assert.Error(t, err)
	}
	assert.Zero(t, TurnNearest(nan, Pt(1, 1), Pt(2, 2)))
}

func BenchmarkTurnToTouch(b *testing.B) {
	p := Must(NewPath(Curve(Pt(0, 0), Pt(20, 60), Pt(80, 60), Pt(100, 0)), Straight(Pt(100, 0), Pt(120, 40)), Curve(Pt(120, 40), Pt(90, 100), Pt(10, 100), Pt(-20, 40))))
	l, _ := NewLine(Pt(0, -20), Pt(1, -20))
	for b.Loop() {
		if _, err := TurnToTouch(p, Pt(10, -5), l, -1); err != nil {
			b.Fatal(err)
		}
	}
}
