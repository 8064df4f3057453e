package step

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

// apply applies a step to a pattern and asserts that this is left as it was,
// and that the result is valid.
func apply(t require.TestingT, p pattern.Pattern, s Step) Output {
	before := p.Clone()
	out, err := s.Apply(Input{Pattern: p, Size: "S"})
	require.NoError(t, err)
	require.Equal(t, before, p, "a step must not change what it is given")
	require.NoError(t, out.Pattern.Validate())
	return out
}

// refused applies a step that must be refused and returns why.
func refused(t require.TestingT, p pattern.Pattern, s Step) string {
	before := p.Clone()
	_, err := s.Apply(Input{Pattern: p, Size: "S"})
	require.Error(t, err)
	require.Equal(t, before, p)
	return err.Error()
}

// onlyPose asserts that nothing changed but the pose of one piece.
func onlyPose(t require.TestingT, before, after pattern.Pattern, piece string) {
	b := before.Clone()
	b.Piece(piece).Pose = after.Piece(piece).Pose
	require.Equal(t, b, after)
}

func mat(t require.TestingT, p pattern.Pattern, s pattern.Spot) geom.Point {
	at, err := p.Find(s)
	require.NoError(t, err)
	return at.Mat
}

func num(v float64) *Number { n := Lit(v); return &n }

var (
	cradleTop  = pattern.AtEnd(patterntest.Cradle, patterntest.BridgeSeam, pattern.Start)
	cradleHem  = pattern.AtEnd(patterntest.Cradle, "hem", pattern.End)
	bridgeLine = pattern.LineThrough(
		pattern.AtEnd(patterntest.Bridge, "hem", pattern.Start),
		pattern.AtEnd(patterntest.Bridge, "hem", pattern.End))
	bridgeSide = EdgeEnd{patterntest.Bridge, patterntest.CradleSeam, pattern.End}
	cradleSide = EdgeEnd{patterntest.Cradle, patterntest.BridgeSeam, pattern.Start}
)

// together lays the cradle against the bridge at the top of their seam.
var together = &Place{Piece: patterntest.Cradle, Edge: patterntest.BridgeSeam, End: pattern.Start, Onto: &bridgeSide}

func TestMoveShiftsAndTurnsOnlyThePose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		dx, dy := rapid.Float64Range(-500, 500).Draw(t, "dx"), rapid.Float64Range(-500, 500).Draw(t, "dy")
		deg := rapid.Float64Range(-400, 400).Draw(t, "degrees")
		about := pattern.AtNotch(patterntest.Cradle, "wire bottom")
		out := apply(t, p, &Move{Piece: patterntest.Cradle, DX: Lit(dx), DY: Lit(dy), Degrees: Lit(deg), About: &about})
		onlyPose(t, p, out.Pattern, patterntest.Cradle)
		require.InDelta(t, 0, mat(t, out.Pattern, about).Dist(mat(t, p, about).Add(geom.Pt(dx, dy))), 1e-9)
		was := mat(t, p, cradleHem).Sub(mat(t, p, cradleTop))
		is := mat(t, out.Pattern, cradleHem).Sub(mat(t, out.Pattern, cradleTop))
		turned := geom.Between(was, is) - geom.Angle(deg)*geom.Degree
		require.InDelta(t, 0, float64(turned.Normalized()), 1e-9)
	})
}

func TestMoveTurnsAboutTheMiddleWhenNoSpotIsGiven(t *testing.T) {
	p := square(40)
	out := apply(t, p, &Move{Piece: "patch", Degrees: Lit(90)})
	got := out.Pattern.Pieces[0].Pose.Apply(geom.Pt(0, 0))
	require.InDelta(t, 0, got.Dist(geom.Pt(40, 0)), 1e-12)
	require.Contains(t, refused(t, p, &Move{Piece: "path"}), `there is no piece "path"; there are "patch"`)
}

func TestPlaceLaysEdgesSideBySide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		out := apply(t, p, together)
		onlyPose(t, p, out.Pattern, patterntest.Cradle)
		// Both sides of the seam are congruent: they meet all along.
		for _, share := range []float64{0, 0.1, 0.5, 1} {
			a := mat(t, out.Pattern, pattern.Spot{Piece: patterntest.Bridge, Edge: patterntest.CradleSeam, Along: pattern.Along{From: pattern.End, Share: share}})
			b := mat(t, out.Pattern, pattern.Spot{Piece: patterntest.Cradle, Edge: patterntest.BridgeSeam, Along: pattern.Along{Share: share}})
			require.InDelta(t, 0, a.Dist(b), 1e-8)
		}
		br, cr := out.Pattern.Piece(patterntest.Bridge), out.Pattern.Piece(patterntest.Cradle)
		o, err := br.Outline()
		require.NoError(t, err)
		inside, err := cr.Outline()
		require.NoError(t, err)
		require.False(t, o.Transform(br.Pose).Contains(cr.Pose.Apply(middle(inside))))
	})
}

func TestPlaceLaysTwoSpotsOnALine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		a, b := cradleTop, cradleHem
		y := rapid.Float64Range(-200, 200).Draw(t, "y")
		out := apply(t, p, &Place{Piece: patterntest.Cradle, Spots: []pattern.Spot{a, b}, Datum: &pattern.Datum{Y: &y}})
		onlyPose(t, p, out.Pattern, patterntest.Cradle)
		require.InDelta(t, 0, mat(t, out.Pattern, a).Dist(geom.Pt(mat(t, p, a).X, y)), 1e-9)
		require.InDelta(t, y, mat(t, out.Pattern, b).Y, 1e-9)
		require.LessOrEqual(t, math.Abs(out.Figures["turned_deg"]), 90.0)
	})
}

func TestPlaceRefuses(t *testing.T) {
	p := patterntest.Sample()
	x := 0.0
	for want, s := range map[string]*Place{
		"on top of each other":  {Piece: "cradle", Edge: patterntest.BridgeSeam, End: pattern.End, Onto: &bridgeSide},
		"against itself":        {Piece: "cradle", Edge: "hem", End: pattern.End, Onto: &cradleSide},
		"say how cradle":        {Piece: "cradle"},
		"all three":             {Piece: "cradle", Edge: "hem", End: pattern.End},
		`has no edge "x"`:       {Piece: "cradle", Edge: "x", End: pattern.End, Onto: &bridgeSide},
		"exactly two":           {Piece: "cradle", Spots: []pattern.Spot{cradleTop}, Datum: &pattern.Datum{X: &x}},
		"is not on bridge":      {Piece: "bridge", Spots: []pattern.Spot{cradleTop, cradleHem}, Datum: &pattern.Datum{X: &x}},
		"would move with":       {Piece: "bridge", Spots: []pattern.Spot{bridgeSide.Spot(), bridgeSide.Spot()}, Datum: &bridgeLine},
		"lie at the same place": {Piece: "bridge", Spots: []pattern.Spot{bridgeSide.Spot(), bridgeSide.Spot()}, Datum: &pattern.Datum{X: &x}},
		"equally near": {Piece: "bridge", Datum: &pattern.Datum{X: &x}, Spots: []pattern.Spot{
			pattern.AtEnd("bridge", "top", pattern.Start), pattern.AtEnd("bridge", "top", pattern.End)}},
	} {
		require.Contains(t, refused(t, p, s), want)
	}
}

func TestTurnByDegrees(t *testing.T) {
	p := patterntest.Sample()
	out := apply(t, p, &Turn{Piece: "cradle", Pin: cradleTop, Direction: Clockwise, By: num(8)})
	onlyPose(t, p, out.Pattern, "cradle")
	require.Equal(t, -8.0, math.Round(out.Figures["turned_deg"]*1e9)/1e9)
	require.InDelta(t, 0, mat(t, out.Pattern, cradleTop).Dist(mat(t, p, cradleTop)), 1e-9)
	v, w := mat(t, p, cradleHem).Sub(mat(t, p, cradleTop)), mat(t, out.Pattern, cradleHem).Sub(mat(t, out.Pattern, cradleTop))
	require.InDelta(t, -8, geom.Between(v, w).Degrees(), 1e-9)
}

// The law of cosines gives the angle at the pin from the three distances.
func TestTurnUntilNearestFollowsTheLawOfCosines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		dir := rapid.SampledFrom([]Direction{Clockwise, CounterClockwise}).Draw(t, "direction")
		near := pattern.AtEnd(patterntest.Bridge, "hem", pattern.Start)
		out := apply(t, p, &Turn{Piece: patterntest.Cradle, Pin: cradleTop, Direction: dir, Until: &Until{Spot: &cradleHem, Near: &near}})
		onlyPose(t, p, out.Pattern, patterntest.Cradle)
		pin, q, r := mat(t, p, cradleTop), mat(t, p, cradleHem), mat(t, p, near)
		a, b, c := pin.Dist(q), pin.Dist(r), q.Dist(r)
		alpha := math.Acos(max(-1, min(1, (a*a+b*b-c*c)/(2*a*b)))) * 180 / math.Pi
		turned := math.Abs(out.Figures["turned_deg"])
		require.InDelta(t, 0, min(math.Abs(turned-alpha), math.Abs(360-turned-alpha)), 1e-5, "the cosine loses digits near 0")
		require.InDelta(t, math.Abs(a-b), out.Figures["gap"], 1e-9)
		require.Equal(t, dir == CounterClockwise, out.Figures["turned_deg"] >= 0)
	})
}

func TestTurnUntilASpotMeetsALine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := apply(t, patterntest.Frame(t), together).Pattern
		out := apply(t, p, &Turn{Piece: patterntest.Cradle, Pin: cradleTop, Direction: Clockwise, Until: &Until{Spot: &cradleHem, Datum: &bridgeLine}})
		onlyPose(t, p, out.Pattern, patterntest.Cradle)
		require.InDelta(t, 0, out.Figures["gap"], 1e-9)
		line, err := out.Pattern.FindDatum(bridgeLine)
		require.NoError(t, err)
		require.InDelta(t, 0, line.Distance(mat(t, out.Pattern, cradleHem)), 1e-9)
		// Circle and line, in closed form: the spot hangs at radius r from the
		// pin, which stands h above the line.
		pin, q := mat(t, p, cradleTop), mat(t, p, cradleHem)
		r, h := pin.Dist(q), line.Distance(pin)
		was, is := math.Asin((line.Distance(q)-h)/r), math.Asin(-h/r)
		require.InDelta(t, (is-was)*180/math.Pi, out.Figures["turned_deg"], 1e-7)
	})
}

func TestTurnUntilAnEdgeTouchesOrAChordIsParallel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := apply(t, patterntest.Frame(t), &Move{Piece: patterntest.Cradle, Degrees: Lit(rapid.Float64Range(0, 360).Draw(t, "laid"))}).Pattern
		c := p.Piece(patterntest.Cradle)
		o, err := c.Outline()
		require.NoError(t, err)
		y := o.Transform(c.Pose).Bounds().Min.Y - rapid.Float64Range(1, 30).Draw(t, "below")
		dir := rapid.SampledFrom([]Direction{Clockwise, CounterClockwise}).Draw(t, "direction")
		edge := rapid.SampledFrom([]string{"hem", "side", "wire"}).Draw(t, "edge")
		s := &Turn{Piece: patterntest.Cradle, Pin: cradleTop, Direction: dir, Until: &Until{Touch: edge, Datum: &pattern.Datum{Y: &y}}}
		if out, err := s.Apply(Input{Pattern: p}); err != nil {
			require.ErrorContains(t, err, "still misses by")
		} else {
			onlyPose(t, p, out.Pattern, patterntest.Cradle)
			require.InDelta(t, 0, out.Figures["gap"], 1e-8)
			pc := out.Pattern.Piece(patterntest.Cradle)
			lowest := pc.Edge(edge).Path.Transform(pc.Pose).Bounds().Min.Y
			require.InDelta(t, y, lowest, 1e-8)
		}
		out := apply(t, p, &Turn{Piece: patterntest.Cradle, Pin: cradleTop, Direction: dir, Until: &Until{Chord: []pattern.Spot{cradleTop, cradleHem}, Datum: &pattern.Datum{Y: &y}}})
		onlyPose(t, p, out.Pattern, patterntest.Cradle)
		require.InDelta(t, mat(t, out.Pattern, cradleTop).Y, mat(t, out.Pattern, cradleHem).Y, 1e-9)
		require.Less(t, math.Abs(out.Figures["turned_deg"]), 180.0)
	})
}

func TestTurnRefuses(t *testing.T) {
	p := patterntest.Sample()
	far := -1000.0
	turn := func(dir Direction, by *Number, u *Until) *Turn {
		return &Turn{Piece: "cradle", Pin: cradleTop, Direction: dir, By: by, Until: u}
	}
	near := pattern.AtEnd("bridge", "hem", pattern.Start)
	for want, s := range map[string]*Turn{
		"still misses by":     turn(Clockwise, nil, &Until{Spot: &cradleHem, Datum: &pattern.Datum{Y: &far}}),
		`not "left"`:          turn("left", num(1), nil),
		"say how far":         turn(Clockwise, nil, nil),
		"give one of these":   turn(Clockwise, nil, &Until{Spot: &cradleHem}),
		"does not turn with":  turn(Clockwise, nil, &Until{Spot: &near, Datum: &pattern.Datum{Y: &far}}),
		"lies on the pin":     turn(Clockwise, nil, &Until{Spot: &cradleTop, Near: &near}),
		"turns with cradle":   turn(Clockwise, nil, &Until{Spot: &cradleTop, Near: &cradleHem}),
		"already":             turn(Clockwise, nil, &Until{Touch: "hem", Datum: &bridgeLine}),
		"a chord has two":     turn(Clockwise, nil, &Until{Chord: []pattern.Spot{near}, Datum: &pattern.Datum{Y: &far}}),
		"would move with the": turn(Clockwise, nil, &Until{Touch: "hem", Datum: new(pattern.LineThrough(cradleTop, near))}),
	} {
		require.Contains(t, refused(t, p, s), want)
	}
	// The message names the miss: a circle of radius r about a pin h above the line.
	r := mat(t, p, cradleTop).Dist(mat(t, p, cradleHem))
	h := mat(t, p, cradleTop).Y - far
	_, err := turn(Clockwise, nil, &Until{Spot: &cradleHem, Datum: &pattern.Datum{Y: &far}}).Apply(Input{Pattern: p})
	var miss float64
	_, text, _ := strings.Cut(err.Error(), "misses by ")
	_, err = fmt.Sscan(text, &miss)
	require.NoError(t, err)
	assert.InDelta(t, h-r, miss, 0.1)
}
