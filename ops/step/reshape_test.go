package step

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

func off(along, off float64) *Offset { return &Offset{Along: along, Off: off} }

// A quarter of a circle by the handles of 0.5523 of the radius (a published
// constant: 4/3·tan(π/8)); its length is a quarter of 2πr within 0.03 %.
func TestReshapeDrawsAQuarterCircle(t *testing.T) {
	p := single(corners("q", []geom.Point{geom.Pt(0, 0), geom.Pt(50, 0), geom.Pt(0, 50)}, "a", "b", "c"))
	k := 4.0 / 3 * math.Tan(math.Pi/8) * 50
	// Off the chord from (50,0) to (0,50) the directions up and left stand at 45°.
	h := k / math.Sqrt2 / (50 * math.Sqrt2)
	out := applied(t, p, &Reshape{Piece: "q", Edge: "b", Start: TangentFree, End: TangentFree, Knots: []Knot{{Out: off(h, -h)}, {Offset: Offset{Along: 1}, In: off(-h, -h)}}})
	require.InEpsilon(t, math.Pi*25, lengthOf(t, out.Pattern, "q", "b"), 3e-4)
	require.InEpsilon(t, math.Pi*625, out.Pattern.Piece("q").Area(), 1e-3)
	require.InDelta(t, 50*math.Sqrt2, out.Figures["length_before"], 1e-9)
	require.InDelta(t, 50-50/math.Sqrt2, out.Figures["moved"], 0.02)
	sameExcept(t, p, out.Pattern, "q.b")
}

// Drawn by its own knots, every run of every edge stays as it is.
func TestReshapeByItsOwnKnotsChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		pc := &p.Pieces[rapid.IntRange(0, 2).Draw(t, "piece")]
		e := &pc.Edges[rapid.IntRange(0, len(pc.Edges)-1).Draw(t, "edge")]
		r := &Reshape{Piece: pc.Name, Edge: e.Name}
		run := e.Path
		if rapid.Bool().Draw(t, "a part") && e.Length() > 20 {
			a, b := rapid.Float64Range(0, 0.4).Draw(t, "from"), rapid.Float64Range(0.6, 1).Draw(t, "to")
			r.From, r.To = &pattern.Along{Share: a}, &pattern.Along{From: pattern.End, Share: 1 - b}
			var err error
			run, err = e.Path.Sub(a*e.Length(), b*e.Length())
			require.NoError(t, err)
		}
		var err error
		r.Knots, err = KnotsOf(run)
		require.NoError(t, err)
		if e.Role == pattern.Fold {
			require.Contains(t, refusal(t, p, r), "fold")
			return
		}
		out := applied(t, p, r)
		alike(t, pc, out.Pattern.Piece(pc.Name))
		require.InDelta(t, 0, out.Figures["moved"], 1e-6)

		// With its knots pushed along and its length kept it is as long as before.
		r.Keep = keepLength
		for i := range r.Knots[1 : len(r.Knots)-1] {
			r.Knots[i+1].Along += 0.02
		}
		if _, err := r.Apply(Input{Pattern: p}); err != nil {
			require.Contains(t, err.Error(), "can be")
			return
		}
		out = applied(t, p, r)
		require.InDelta(t, e.Length(), lengthOf(t, out.Pattern, pc.Name, e.Name), 1e-6)
		sameExcept(t, p, out.Pattern, pc.Name+"."+e.Name)
	})
}

func TestReshapeMovesAnEndAndItsNeighbourFollows(t *testing.T) {
	p := twoBoxes()
	r := &Reshape{Piece: "left", Edge: "side", Knots: []Knot{{Offset: Offset{AlongMM: num(-5)}, Out: off(0.3, 0)}, {Offset: Offset{Along: 1}, In: off(-0.3, 0)}}}
	out := applied(t, p, r)
	pc := out.Pattern.Piece("left")
	require.InDelta(t, 0, pc.Edge("side").Path.Start().Dist(geom.Pt(100, -5)), 1e-9)
	require.True(t, pc.Edge("hem").Path.IsStraight())
	require.InDelta(t, math.Hypot(100, 5), pc.Edge("hem").Length(), 1e-9)
	require.InDelta(t, 65, pc.Edge("side").Length(), 1e-9)
	require.InDelta(t, 5, out.Figures["partner_difference.join"], 1e-9)
	require.InDelta(t, 32.5, notchAt(t, out.Pattern, "left", "mid").Dist(pc.Edge("side").Path.Start()), 1e-6, "a notch on a seam keeps its proportion")

	// With the tangent freed inside an edge a kink is told.
	r = &Reshape{Piece: "left", Edge: "top", From: &pattern.Along{Share: 0.3}, To: &pattern.Along{Share: 0.7}, Start: TangentFree,
		Knots: []Knot{{Out: off(0.3, -0.2)}, {Offset: Offset{Along: 0.5, Off: -0.15}, Out: off(0.2, 0)}, {Offset: Offset{Along: 1}, In: off(-0.3, 0)}}}
	out = applied(t, p, r)
	require.Contains(t, out.Notes[0], "kink")
	require.Len(t, out.Pattern.Piece("left").Edges, 4)
	r.Start = TangentKept
	out = applied(t, p, r)
	require.Empty(t, out.Pattern.Piece("left").Edge("top").Path.Corners(pattern.SmoothTurn))
}

func TestReshapeKeepsTheLengthOfOneCurve(t *testing.T) {
	p := patterntest.Sample()
	e := p.Piece("cradle").Edge("top")
	knots, err := KnotsOf(e.Path)
	require.NoError(t, err)
	knots[0].Out.Along, knots[0].Out.Off = 2*knots[0].Out.Along, 2*knots[0].Out.Off
	out := applied(t, p, &Reshape{Piece: "cradle", Edge: "top", Knots: knots, Keep: keepLength})
	require.InDelta(t, e.Length(), lengthOf(t, out.Pattern, "cradle", "top"), 1e-6)
	require.Greater(t, out.Figures["moved"], 0.05)
	is := out.Pattern.Piece("cradle").Edge("top").Path
	require.InDelta(t, 0, float64(geom.Between(e.Path.TangentAt(0), is.TangentAt(0))), 1e-9)
	require.InDelta(t, 0, float64(geom.Between(e.Path.TangentBefore(e.Length()), is.TangentBefore(is.Length()))), 1e-9)
}

func TestReshapeRefuses(t *testing.T) {
	p := twoBoxes()
	ends := []Knot{{Out: off(0.3, 0)}, {Offset: Offset{Along: 1}, In: off(-0.3, 0)}}
	with := func(k ...Knot) []Knot { return append(append([]Knot{ends[0]}, k...), ends[1]) }
	for want, r := range map[string]*Reshape{
		`no piece "x"`:                {Piece: "x", Edge: "hem", Knots: ends},
		`no edge "x"`:                 {Edge: "x", Knots: ends},
		"by 2 to 24 knots":            {Edge: "hem", Knots: ends[:1]},
		`keep its "length"`:           {Edge: "hem", Knots: ends, Keep: "shape"},
		`not "loose"`:                 {Edge: "hem", Knots: ends, Start: "loose"},
		"lies off hem":                {Edge: "hem", Knots: ends, To: &pattern.Along{MM: 400}},
		"first must lie before":       {Edge: "hem", Knots: ends, From: &pattern.Along{MM: 50}, To: &pattern.Along{MM: 20}},
		"lie at the same place":       {Edge: "hem", Knots: with(Knot{Offset: Offset{Along: 0.000001}})},
		"beyond every sensible":       {Edge: "hem", Knots: with(Knot{Offset: Offset{Along: 0.5, Off: 1e9}})},
		"would cross":                 {Edge: "hem", Knots: with(Knot{Offset: Offset{Along: 0.5, Off: 0.9}})},
		"cross itself":                {Edge: "hem", Start: TangentFree, End: TangentFree, Knots: []Knot{{Out: off(2, -1.2)}, {Offset: Offset{Along: 1}, In: off(-2, -1.2)}}},
		"but not keep its":            {Edge: "hem", Keep: keepLength, Knots: with(Knot{Offset: Offset{Along: 0.5, Off: -0.2}, Corner: true, In: off(-0.1, 0), Out: off(0.1, 0)})},
		"have nothing left, or be tu": {Edge: "hem", Knots: with(Knot{Offset: Offset{Along: 0.5, Off: 3}})},
	} {
		if r.Piece == "" {
			r.Piece = "left"
		}
		require.Contains(t, refusal(t, p, r), want)
	}
	p = folded()
	require.Contains(t, refusal(t, p, &Reshape{Piece: "left", Edge: "hem", Start: TangentFree, Knots: []Knot{{Out: off(0.3, 0.1)}, ends[1]}}), "; let it keep its direction at the fold")
	fold := p.Pieces[0].Fold().Name
	require.Contains(t, refusal(t, p, &Reshape{Piece: p.Pieces[0].Name, Edge: fold, Knots: with(Knot{Offset: Offset{Along: 0.5, Off: 0.02}})}), "fold")
}
