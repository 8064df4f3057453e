package step

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

func on(edge string, mm float64) pattern.Spot {
	return pattern.Spot{Edge: edge, Along: pattern.Along{MM: mm}}
}

func hingeOn(edge string, mm float64) *Hinge {
	s := on(edge, mm)
	return &Hinge{Spot: &s}
}

func single(pc pattern.Piece) pattern.Pattern { return pattern.Pattern{Pieces: []pattern.Piece{pc}} }

// A box of 100 by 60, slashed across the middle: the opening is the chord of
// an arc, 2r·sin(θ/2), and the paper added half r²·sin θ (any handbook of
// trigonometry); the sides and the hinge side keep their lengths.
func TestSpreadOpensAChord(t *testing.T) {
	p := single(box("box", 100, 60))
	out := applied(t, p, &Spread{Piece: "box", Slashes: []Slash{{From: on("hem", 50)}}, Hinge: hingeOn("top", 50), Amount: num(12)})
	theta := 2 * math.Asin(12.0/(2*60))
	require.InDelta(t, theta*180/math.Pi, out.Figures["degrees"], 1e-9)
	require.InDelta(t, 12, out.Figures["opened"], 1e-9)
	require.InDelta(t, 112, out.Figures["length"], 1e-9)
	require.InDelta(t, 0.5*60*60*math.Sin(theta), out.Figures["area_change"], 1e-9)
	pc := out.Pattern.Piece("box")
	for _, e := range []string{"front", "side", "top"} {
		require.InDelta(t, lengthOf(t, p, "box", e), pc.Edge(e).Length(), 1e-9, e)
	}
	turn := geom.Between(pc.Edge("front").Path.TangentAt(0), p.Piece("box").Edge("front").Path.TangentAt(0))
	require.InDelta(t, 0, float64(turn), 1e-12, "the part before the slash stays put")
	turn = geom.Between(p.Piece("box").Edge("side").Path.TangentAt(0), pc.Edge("side").Path.TangentAt(0))
	require.InDelta(t, theta, float64(turn), 1e-12)

	held := on("side", 30)
	other := applied(t, p, &Spread{Piece: "box", Slashes: []Slash{{From: on("hem", 50)}}, Hinge: hingeOn("top", 50), Amount: num(12), Hold: &held})
	require.Equal(t, p.Piece("box").Edge("side").Path.End(), other.Pattern.Piece("box").Edge("side").Path.End())
	require.InDelta(t, pc.Area(), other.Pattern.Piece("box").Area(), 1e-9)
}

func TestSpreadUntilALengthAndFair(t *testing.T) {
	p := patterntest.Sample()
	s := &Spread{Piece: "cradle", Slashes: []Slash{{From: on("hem", 40)}, {From: on("hem", 70)}},
		Until: &ToLength{Edge: "hem", Length: num(130)}}
	s.Slashes[0].Hinge, s.Slashes[1].Hinge = hingeOn("wire", 100), hingeOn("wire", 70)
	out := applied(t, p, s)
	require.InDelta(t, 130, lengthOf(t, out.Pattern, "cradle", "hem"), 1e-6)
	sameLengths(t, p, out.Pattern, "cradle", "hem")
	s.Fair = num(25)
	out = applied(t, p, s)
	require.InDelta(t, 130, lengthOf(t, out.Pattern, "cradle", "hem"), 1e-6)
	require.Empty(t, out.Pattern.Piece("cradle").Edge("hem").Path.Corners(pattern.SmoothTurn))

	s.Until, s.Amount, s.FairLength = nil, num(6), num(125)
	out = applied(t, p, s)
	require.InDelta(t, 125, lengthOf(t, out.Pattern, "cradle", "hem"), 1e-6)
	require.InDelta(t, 6, out.Figures["opened"], 1e-9)

	s.FairLength, s.HingeReach = nil, num(10)
	out = applied(t, p, s)
	require.InEpsilon(t, lengthOf(t, p, "cradle", "wire"), lengthOf(t, out.Pattern, "cradle", "wire"), 1e-9)
	require.Empty(t, out.Pattern.Piece("cradle").Edge("wire").Path.Corners(pattern.SmoothTurn))
}

// sameLengths requires that all edges but those named keep their length.
func sameLengths(t require.TestingT, before, after pattern.Pattern, piece string, changed ...string) {
	pc := before.Piece(piece)
	for i := range pc.Edges {
		if e := &pc.Edges[i]; !slices.Contains(changed, e.Name) {
			require.InDelta(t, e.Length(), lengthOf(t, after, piece, e.Name), 1e-9, e.Name)
		}
	}
}

// alike requires that two pieces have the same outline within 1e-6 mm.
func alike(t require.TestingT, a, b *pattern.Piece) {
	p, err := a.Outline()
	require.NoError(t, err)
	q, err := b.Outline()
	require.NoError(t, err)
	require.InDelta(t, p.Length(), q.Length(), 1e-6)
	for k := range 400 {
		at := p.At(p.Length() * float64(k) / 400)
		require.LessOrEqual(t, q.Nearest(at).Dist, 1e-6)
	}
	for i := range a.Edges {
		e, f := &a.Edges[i], b.Edge(a.Edges[i].Name)
		require.NotNil(t, f)
		require.InDelta(t, 0, e.Path.Start().Dist(f.Path.Start()), 1e-6)
		require.InDelta(t, e.Length(), f.Length(), 1e-6)
	}
}

// A square of side 100 with its apex in the middle: what opens at the hem
// closes at the side by the same angle, and the corner between them turns.
func TestFullnessMovesAboutAnApex(t *testing.T) {
	p := single(box("box", 100, 100))
	l, r := pattern.AtEnd("", "hem", pattern.Start), pattern.AtEnd("", "hem", pattern.End)
	apex := &Hinge{From: &l, To: &r, Along: 0.5, Off: 0.5}
	side := on("side", 50)
	out := applied(t, p, &Spread{Piece: "box", Slashes: []Slash{{From: on("hem", 50)}}, Hinge: apex, Close: &Closing{At: &side}, Degrees: num(10)})
	require.InDelta(t, 10, out.Figures["degrees"], 1e-9)
	theta := 10 * math.Pi / 180
	require.InDelta(t, 2*50*math.Sin(theta/2), out.Figures["opened"], 1e-9, "the chord at 50 mm")
	// Filled in at the hem is half r² sin θ, folded away at the side the
	// right-angled triangle of the angle.
	require.InDelta(t, 0.5*50*50*math.Sin(theta)-0.5*50*50*math.Tan(theta), out.Figures["area_change"], 1e-9)
	require.InDelta(t, 50/math.Cos(theta)-50, out.Figures["step"], 1e-9)
	require.NotEmpty(t, out.Notes, "the step is told")
	sameLengths(t, p, out.Pattern, "box", "hem", "side")
}

// darted is a box of 100 by 80 with a dart of 20 mm at the hem and its point
// in the middle at a height of 50.
func darted() pattern.Pattern {
	pts := []geom.Point{geom.Pt(0, 0), geom.Pt(40, 0), geom.Pt(50, 50), geom.Pt(60, 0), geom.Pt(100, 0), geom.Pt(100, 80), geom.Pt(0, 80)}
	p := single(corners("front", pts, "hem", "d before", "d after", "hem after d", "right", "top", "left"))
	p.Seams = []pattern.Seam{{Name: "d", A: pattern.Side{pattern.Whole("front", "d before")}, B: pattern.Side{pattern.Whole("front", "d after").Backwards()}}}
	return p
}

// The dart moves about its point: by the law of sines its angle is that of a
// triangle with two sides equal, and it is the same at the side as at the hem.
func TestADartMovesToAnotherEdgeAndBack(t *testing.T) {
	p := darted()
	require.NoError(t, p.Validate())
	angle := 2 * math.Atan2(10, 50)
	hold := on("right", 10)
	move := &Spread{Piece: "front", Hold: &hold, Slashes: []Slash{{From: on("right", 50)}}, Close: &Closing{Dart: "d"}, Dart: &NewDart{Name: "side"}}
	out := applied(t, p, move)
	require.InDelta(t, angle*180/math.Pi, out.Figures["degrees"], 1e-9)
	require.InDelta(t, 2*50*math.Sin(angle/2), out.Figures["opened"], 1e-9)
	pc := out.Pattern.Piece("front")
	require.Nil(t, out.Pattern.Seam("d"))
	side := out.Pattern.Seam("side")
	require.NotNil(t, side)
	require.InDelta(t, 50, out.Pattern.Length(side.A), 1e-9)
	require.InDelta(t, 50, out.Pattern.Length(side.B), 1e-9)
	require.InDelta(t, 80, lengthOf(t, out.Pattern, "front", "hem"), 1e-9, "the hem is one again")
	require.InDelta(t, p.Piece("front").Area(), pc.Area(), 1e-9, "a dart that moves takes as much paper away, as its legs are as long as the line")
	require.Equal(t, pattern.OldJoint, pc.Inner[0].Kind)
	require.InDelta(t, math.Hypot(10, 50), pc.Inner[0].Path.Length(), 1e-9)
	back := applied(t, out.Pattern, &Spread{Piece: "front", Hold: &hold, Slashes: []Slash{{From: on("hem", 40)}}, Close: &Closing{Dart: "side"}, Dart: &NewDart{Name: "d"}})
	alike(t, p.Piece("front"), back.Pattern.Piece("front"))

	part := applied(t, p, &Spread{Piece: "front", Slashes: []Slash{{From: on("right", 50)}}, Close: &Closing{Dart: "d"}, Degrees: num(5), Fair: num(15)})
	require.NotNil(t, part.Pattern.Seam("d"))
	d := part.Pattern.Piece("front")
	got := geom.Between(d.Edge("d before").Path.TangentAt(0), d.Edge("d after").Path.TangentAt(0).Mul(-1))
	require.InDelta(t, angle*180/math.Pi-5, math.Abs(got.Degrees()), 1e-9)

	both := applied(t, p, &Spread{Piece: "front", Slashes: []Slash{{From: on("right", 50)}}, Close: &Closing{Dart: "d"}, Degrees: num(8), Dart: &NewDart{Name: "side", Short: num(12)}})
	require.Len(t, both.Pattern.Seams, 2)
	require.InDelta(t, both.Pattern.Length(both.Pattern.Seam("side").A), both.Pattern.Length(both.Pattern.Seam("side").B), 1e-9)
	filled := applied(t, p, &Spread{Piece: "front", Slashes: []Slash{{From: on("top", 30)}, {From: on("top", 70)}}, Close: &Closing{Dart: "d"}})
	require.Len(t, filled.Pattern.Piece("front").Edges, 4)
}

func TestSpreadTurnsWhatIsDrawn(t *testing.T) {
	p := single(box("box", 100, 60))
	p.Pieces[0].Inner = []pattern.Inner{
		{Name: "across", Kind: pattern.Drawn, Path: geom.Must(geom.Polyline(geom.Pt(20, 30), geom.Pt(80, 30)))},
		{Name: "beyond", Kind: pattern.Drawn, Path: geom.Must(geom.Polyline(geom.Pt(70, 10), geom.Pt(90, 10)))},
	}
	p.Pieces[0].Marks = []pattern.Mark{{Text: "A", At: geom.Pt(75, 20), Height: 5}}
	out := applied(t, p, &Spread{Piece: "box", Slashes: []Slash{{From: on("hem", 50)}}, Hinge: hingeOn("top", 50), Amount: num(12)})
	pc := out.Pattern.Piece("box")
	turn := geom.Turn(geom.Angle(out.Figures["degrees"])*geom.Degree, geom.Pt(50, 60))
	require.Len(t, pc.Inner, 3)
	require.InDelta(t, 0, pc.Inner[1].Path.End().Dist(turn.Apply(geom.Pt(80, 30))), 1e-9)
	require.InDelta(t, 0, pc.Inner[2].Path.End().Dist(turn.Apply(geom.Pt(90, 10))), 1e-9)
	require.InDelta(t, 0, pc.Marks[0].At.Dist(turn.Apply(geom.Pt(75, 20))), 1e-9)
	require.Equal(t, p.Pieces[0].Arrow, pc.Arrow)
	require.Contains(t, out.Notes[0], "cut by a slash")

	out = applied(t, p, &Spread{Piece: "box", Slashes: []Slash{{From: on("hem", 68)}}, Hinge: hingeOn("top", 68), Amount: num(-12)})
	require.Contains(t, out.Notes[0], "cut by a slash")
	require.Contains(t, out.Notes[1], "cut by a slash", "the line beyond begins on the paper folded away")
	out = applied(t, p, &Spread{Piece: "box", Slashes: []Slash{{From: on("hem", 68)}}, Hinge: hingeOn("top", 25), Amount: num(-25)})
	require.Contains(t, out.Notes[1], "folded away")
	require.Contains(t, out.Notes[2], "folded away")
}

func TestSpreadRefuses(t *testing.T) {
	p := darted()
	l, r := pattern.AtEnd("", "top", pattern.End), pattern.AtEnd("", "top", pattern.Start)
	outside := &Hinge{From: &l, To: &r, Along: 0.5, Off: 0.3}
	apex := &Hinge{From: &l, To: &r, Along: 0.5, Off: -0.2}
	bottom, onSlash := on("hem", 20), on("right", 40)
	slash := func(edge string, mm float64, h *Hinge) []Slash { return []Slash{{From: on(edge, mm), Hinge: h}} }
	for want, s := range map[string]*Spread{
		`no piece "x"`:       {Piece: "x"},
		"no slash is named":  {Piece: "front"},
		`no edge "x"`:        {Slashes: slash("x", 3, nil)},
		"begins at a corner": {Slashes: slash("right", 0, hingeOn("left", 40))},
		"begins 0.4 mm from a corner; begin it at least 1 mm inside an edge":                          {Slashes: slash("right", 0.4, hingeOn("left", 40))},
		"would turn a part of front by 95.0 degrees, more than 90; use a smaller amount, or share it": {Slashes: slash("right", 50, hingeOn("left", 20)), Degrees: num(-95)},
		"by 90.1 degrees, more than 90": {Slashes: slash("right", 50, hingeOn("left", 20)), Degrees: num(90.1)},
		"has no hinge":                  {Slashes: slash("right", 40, nil)},
		"misses its hinge":              {Slashes: slash("right", 40, outside)},
		"runs out of front":             {Slashes: slash("right", 20, hingeOn("left", 60))},
		"ends at its start":             {Slashes: slash("right", 40, hingeOn("right", 40))},
		"on the way to its hinge":       {Slashes: slash("right", 40, hingeOn("right", 70))},
		"opens only as much":            {Slashes: slash("right", 40, apex), Amount: num(3)},
		"say how far":                   {Slashes: slash("right", 50, hingeOn("left", 20))},
		"in one way":                    {Slashes: slash("right", 50, hingeOn("left", 20)), Amount: num(3), Degrees: num(3)},
		"cannot open by 300":            {Slashes: slash("right", 50, hingeOn("left", 20)), Amount: num(300)},
		"cross;":                        {Slashes: append(slash("right", 55, hingeOn("left", 10)), slash("right", 70, hingeOn("left", 28))...), Amount: num(3)},
		"begin at the same place":       {Slashes: append(slash("right", 55, hingeOn("left", 10)), slash("right", 55, hingeOn("left", 22))...), Amount: num(3)},
		`no seam "x"`:                   {Slashes: slash("right", 50, nil), Close: &Closing{Dart: "x"}},
		"begins on the dart":            {Slashes: slash("d after", 20, hingeOn("d after", 50)), Close: &Closing{Dart: "d"}},
		"holds 22.62 degrees":           {Slashes: slash("right", 50, nil), Close: &Closing{Dart: "d"}, Degrees: num(30)},
		"turns about its own point":     {Slashes: slash("right", 50, apex), Close: &Closing{Dart: "d"}, Degrees: num(3)},
		"nothing has to close":          {Slashes: slash("right", 50, hingeOn("left", 20)), Close: &Closing{At: &bottom}, Degrees: num(3)},
		"more than the rest of right":   {Slashes: slash("right", 60, hingeOn("left", 20)), Amount: num(-30)},
		"the nearest is":                {Slashes: slash("right", 50, hingeOn("left", 20)), Until: &ToLength{Edge: "right", Length: num(900)}},
		"would cross":                   {Slashes: slash("right", 50, hingeOn("d after", 0)), Amount: num(45)},
		"cut front apart":               {Slashes: slash("right", 50, hingeOn("left", 20)), Amount: num(4), Dart: &NewDart{Name: "n"}},
		`seam "d" already`:              {Slashes: slash("right", 50, hingeOn("left", 20)), Amount: num(4), Dart: &NewDart{Name: "d"}},
		"lies on a slash or hinge":      {Slashes: slash("right", 40, hingeOn("left", 10)), Amount: num(4), Hold: &onSlash},
		"must be above 0":               {Slashes: slash("right", 50, hingeOn("left", 20)), Amount: num(4), Fair: num(0)},
		"beyond every sensible":         {Slashes: slash("right", 50, hingeOn("left", 20)), Amount: num(1e300)},
	} {
		if s.Piece == "" {
			s.Piece = "front"
		}
		require.Contains(t, refusal(t, p, s), want)
	}
}

// Both lines of every slash end on the outline as it comes to be, and their
// chords are what was asked for.
func TestSpreadMouthsLieOnTheOutline(t *testing.T) {
	p := single(box("box", 120, 60))
	p.Pieces[0].Pose = geom.Turn(0.3, geom.Point{}).Then(geom.Shift(geom.Pt(40, 7)))
	s := &Spread{Piece: "box", Slashes: []Slash{
		{From: on("hem", 30), Hinge: hingeOn("top", 85), Amount: num(6)},
		{From: on("hem", 60), Hinge: hingeOn("top", 60), Amount: num(-4)},
		{From: on("hem", 90), Hinge: hingeOn("top", 30), Amount: num(9)},
	}}
	held := on("side", 30)
	for _, s.Hold = range []*pattern.Spot{nil, &held} {
		mouths, err := s.Mouths(Input{Pattern: p})
		require.NoError(t, err)
		out := applied(t, p, s).Pattern.Piece("box")
		ring, err := out.Outline()
		require.NoError(t, err)
		for i, want := range []float64{6, -4, 9} {
			m := mouths[i]
			require.InDelta(t, want, m.Opened, 1e-9)
			require.InDelta(t, math.Abs(want), m.Stays.Dist(m.Turns), 1e-9)
			for _, at := range []geom.Point{m.Stays, m.Turns, m.Hinge} {
				if want > 0 || at == m.Hinge { // what closes lies in folded paper
					require.InDelta(t, 0, ring.Nearest(out.Pose.Inverse().Apply(at)).Dist, 1e-9)
				}
			}
		}
	}
}

// A dart of any shape moves about its point to any distance from it. By the
// law of sines (any handbook of trigonometry) w/sin θ = b/sin α in the triangle
// of its legs a and b, its mouth w and the angle α between a and w; where it
// opens at a distance r, of which both legs then are, x/sin θ = r/sin((π−θ)/2).
func TestADartMovesByTheLawOfSinesToAnyDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := func(what string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, what) }
		tip := geom.Pt(in("tip x", 30, 70), in("tip y", 25, 60))
		a, b := geom.Pt(tip.X-in("before", 2, 14), in("low", -6, 6)), geom.Pt(tip.X+in("after", 2, 14), in("high", -6, 6))
		pts := []geom.Point{geom.Pt(0, 0), a, tip, b, geom.Pt(110, 0), geom.Pt(110, 80), geom.Pt(0, 80)}
		p := single(corners("front", pts, "hem", "d before", "d after", "hem after d", "right", "top", "left"))
		p.Seams = []pattern.Seam{{Name: "d", A: pattern.Side{pattern.Whole("front", "d before")}, B: pattern.Side{pattern.Whole("front", "d after").Backwards()}}}
		require.NoError(t, p.Validate())

		alpha := math.Abs(float64(geom.Between(tip.Sub(a), b.Sub(a))))
		beta := math.Abs(float64(geom.Between(tip.Sub(b), a.Sub(b))))
		theta := math.Pi - alpha - beta
		require.InDelta(t, a.Dist(b)/math.Sin(theta), b.Dist(tip)/math.Sin(alpha), 1e-9)

		s := in("at", 5, 70)
		hold := on("left", 40)
		out := applied(t, p, &Spread{Piece: "front", Hold: &hold, Slashes: []Slash{{From: on("right", s)}}, Close: &Closing{Dart: "d"}, Dart: &NewDart{Name: "side"}})
		r := geom.Pt(110, s).Dist(tip)
		x := r * math.Sin(theta) / math.Sin((math.Pi-theta)/2)
		require.InDelta(t, theta*180/math.Pi, out.Figures["degrees"], 1e-9)
		require.InDelta(t, x, out.Figures["opened"], 1e-9)
		require.InDelta(t, math.Abs(a.Dist(tip)-b.Dist(tip)), out.Figures["step"], 1e-6, "unlike legs leave a step")
		pc, seam := out.Pattern.Piece("front"), out.Pattern.Seam("side")
		require.InDelta(t, r, out.Pattern.Length(seam.A), 1e-9)
		require.InDelta(t, r, out.Pattern.Length(seam.B), 1e-9)
		first, second := pc.Edge("side before").Path, pc.Edge("side after").Path
		require.InDelta(t, x, first.Start().Dist(second.End()), 1e-9)
		require.InDelta(t, 0, out.Figures["area_change"], 1e-6, "both parts are as they were, one of them turned")
	})
}

// A dart takes nothing of the edge it opens: as sewn it is as long as it was,
// also where the dart closes again. Its legs are called as the step says.
func TestADartLeavesItsEdgeAsLongAsSewn(t *testing.T) {
	p := single(box("box", 100, 60))
	dart := &NewDart{Name: "d", First: "first leg", Second: "second leg", Short: num(12)}
	made := applied(t, p, &Spread{Piece: "box", Slashes: []Slash{{From: on("hem", 40)}}, Hinge: hingeOn("top", 60), Amount: num(12), Dart: dart})
	seam := made.Pattern.Seam("d")
	require.Equal(t, "d first leg", seam.A[0].Edge)
	require.Equal(t, "d second leg", seam.B[0].Edge)
	told := 0
	for _, c := range Changes(p, made.Pattern) {
		if c.Edge == "hem" || c.Edge == "hem after d" {
			require.NotNil(t, c.Sewn, c.Edge)
			require.InDelta(t, 100, c.Sewn.Before, 1e-9)
			require.InDelta(t, 100, c.Sewn.After, 1e-9)
			require.Equal(t, []string{"hem", "hem after d"}, c.Sewn.Edges)
			told++
		} else {
			require.Nil(t, c.Sewn, c.Edge)
		}
	}
	require.Equal(t, 2, told)
	dart.Second = dart.First
	_, err := (&Spread{Piece: "box", Slashes: []Slash{{From: on("hem", 40)}}, Hinge: hingeOn("top", 60), Amount: num(12), Dart: dart}).Apply(Input{Pattern: p})
	require.ErrorContains(t, err, `"second" differ`)
}

// The edge of a hinge turns there by the angle of the slash, which is told; made
// smooth or at a corner nothing is.
func TestSpreadTellsTheCornerAtItsHinge(t *testing.T) {
	p := single(box("box", 100, 60))
	s := &Spread{Piece: "box", Slashes: []Slash{{From: on("hem", 50)}}, Hinge: hingeOn("top", 50), Amount: num(12)}
	out := applied(t, p, s)
	require.InDelta(t, out.Figures["degrees"], out.Figures["hinge_turn_deg"], 1e-9)
	told := fmt.Sprintf("At the hinge top of box turns by %.1f°", out.Figures["degrees"])
	require.Contains(t, strings.Join(out.Notes, " "), told+"; smooth takes the corner.")

	s.Dart = &NewDart{Name: "n", Short: num(12)}
	require.Contains(t, strings.Join(applied(t, p, s).Notes, " "), told+", on paper and once the dart is sewn;")

	s.Dart, s.HingeReach = nil, num(15)
	out = applied(t, p, s)
	require.Zero(t, out.Figures["hinge_turn_deg"])
	require.NotContains(t, strings.Join(out.Notes, " "), "At the hinge")
}
