package step

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

func TestLevelMovesAnEndAlongTheSeam(t *testing.T) {
	p := panels(1.2) // the right front is 51.2 long, the left side 50
	out := applied(t, p, &Level{Seam: "join", Bend: "b", Moves: pattern.Start})
	assert.InDelta(t, 50, lengthOf(t, out.Pattern, "right", "front"), 1e-9)
	assert.InDelta(t, math.Hypot(80, 1.2), lengthOf(t, out.Pattern, "right", "hem"), 1e-9)
	assert.InDelta(t, 1.2, out.Figures["moved"], 1e-3)
	assert.InDelta(t, 1.2, out.Figures["moved_b"], 1e-3)
	assert.Zero(t, out.Figures["moved_a"])
	assert.InDelta(t, -1.2, out.Figures["difference_before"], 1e-9)
	assert.InDelta(t, 51.2, out.Figures["b_before"], 1e-9)
	assert.InDelta(t, 50, out.Figures["b_mm"], 1e-9)
	assert.NotContains(t, out.Figures, "partner_difference.join")
	require.Len(t, out.Notes, 1)
	assert.Contains(t, out.Notes[0], "by 1.2 mm")
	sameExcept(t, p, out.Pattern, "right.front", "right.hem")

	out = applied(t, p, &Level{Seam: "join", Share: exactly(0.25), Moves: pattern.Start})
	assert.InDelta(t, 50.3, lengthOf(t, out.Pattern, "left", "side"), 1e-9)
	assert.InDelta(t, 50.3, lengthOf(t, out.Pattern, "right", "front"), 1e-9)
	assert.InDelta(t, 0.9, out.Figures["moved_b"], 1e-3)
	assert.InDelta(t, 0.3, out.Figures["moved_a"], 1e-3)
	sameExcept(t, p, out.Pattern, "left.side", "left.hem", "right.front", "right.hem")

	// The top moves and the hem is held.
	out = applied(t, p, &Level{Seam: "join", Bend: "a", Moves: pattern.End})
	assert.InDelta(t, 51.2, lengthOf(t, out.Pattern, "left", "side"), 1e-9)
	assert.InDelta(t, math.Hypot(100, 1.2), lengthOf(t, out.Pattern, "left", "top"), 1e-9)
	assert.LessOrEqual(t, notchAt(t, p, "left", "mid").Dist(notchAt(t, out.Pattern, "left", "mid")), 1e-9, "notches of a seam made longer stay")
}

func TestLevelMovesAnEndAlongItsNeighbour(t *testing.T) {
	// The hem leans by 45 degrees: along it the side becomes longer.
	p := panels(1)
	p.Pieces[0] = cloth("left", fourSides, 0, -100, 100, 0, 100, 50, 0, 50)
	out := applied(t, p, &Level{Seam: "join", Bend: "a", Moves: pattern.Start, Along: "neighbour"})
	side, hem := out.Pattern.Piece("left").Edge("side").Path, out.Pattern.Piece("left").Edge("hem").Path
	assert.InDelta(t, 51, side.Length(), 1e-9)
	assert.True(t, hem.IsStraight())
	assert.InDelta(t, 45, hem.TangentAt(0).Direction().Degrees(), 1e-9, "the hem keeps its line")
	// (50+y)² + y² = 51² gives how far the end moves down, and as far in.
	y := (-100 + math.Sqrt(100*100+8*(51*51-50*50))) / 4
	assert.InDelta(t, -y, side.Start().Y, 1e-9)
	assert.InDelta(t, 100-y, side.Start().X, 1e-9)
	assert.InDelta(t, y*math.Sqrt2, out.Figures["moved"], 1e-3)

	// Across a square hem the side does not become shorter.
	assert.Contains(t, refusal(t, panels(1), &Level{Seam: "join", Bend: "b", Moves: pattern.Start, Along: "neighbour"}), "let it move along the seam")
}

// bows are two pieces sewn along arcs of a chain of two edges on the one and a
// single edge on the other; the one side is longer.
func bows(longer float64) pattern.Pattern {
	p := panels(0)
	left, right := &p.Pieces[0], &p.Pieces[1]
	arc := func(a, b geom.Point, h float64) geom.Path {
		out := b.Sub(a).Unit().Perp().Mul(-h)
		return geom.Must(geom.NewPath(geom.Curve(a, a.Lerp(b, 1./3).Add(out), a.Lerp(b, 2./3).Add(out), b)))
	}
	whole := arc(geom.Pt(100, 0), geom.Pt(100, 50), 12)
	low, high, err := whole.Split(whole.Length() * 0.4)
	if err != nil {
		panic(err)
	}
	e := *left.Edge("side")
	e.Path = low
	f := e
	f.Name, f.Path = "upper side", high
	left.Edges = append(left.Edges[:1:1], append([]pattern.Edge{e, f}, left.Edges[2:]...)...)
	left.Notches[0].Along = pattern.Along{Share: 0.5}
	front := arc(geom.Pt(100, 50), geom.Pt(100, 0), 7)
	for range 60 { // to the length that is wanted
		front = geom.Must(front.BendToLength(front.Start(), front.End(), whole.Length()+longer))
	}
	right.Edge("front").Path = front
	right.Notches = nil
	p.Seams[0].A = pattern.Side{pattern.Whole("left", "side"), pattern.Whole("left", "upper side")}
	return p
}

func TestLevelBendsChainsWithTheirEndsInPlace(t *testing.T) {
	p := bows(0.2)
	was := p.Piece("left")
	for _, s := range []*Level{
		{Seam: "join", Bend: "a", Keep: "directions"},
		{Seam: "join", Bend: "b", Keep: "directions"},
		{Seam: "join", Bend: "both", Keep: "directions"},
		{Seam: "join", Share: exactly(0.9), Keep: "directions"},
	} {
		out := applied(t, p, s)
		a, b := out.Pattern.SeamLengths(*out.Pattern.Seam("join"))
		assert.InDelta(t, 0, a-b, 1e-9)
		assert.Greater(t, out.Figures["moved"], 0.05)
		assert.InDelta(t, 0, out.Figures["turned"], 1e-6)
		assert.Less(t, out.Figures["moved"], 3.0)
		is := out.Pattern.Piece("left")
		for _, name := range []string{"side", "upper side"} {
			old, now := was.Edge(name).Path, is.Edge(name).Path
			assert.Equal(t, old.Start(), now.Start())
			assert.Equal(t, old.End(), now.End())
			assert.InDelta(t, 0, geom.Between(old.TangentAt(0), now.TangentAt(0)).Degrees(), 1e-6)
			assert.InDelta(t, 0, geom.Between(old.TangentBefore(old.Length()), now.TangentBefore(now.Length())).Degrees(), 1e-6)
			assert.Empty(t, now.Inflections())
			assert.Less(t, sharpest(now), 1e-6)
		}
		n := is.Notch("mid")
		assert.Equal(t, 0.5, n.Share, "notches keep their proportion")
		sameExcept(t, p, out.Pattern, "left.side", "left.upper side", "right.front")
	}
}

// A flat arc of sagitta f on the chord c is longer than it by about 8f²/3c, so
// that f grows with the square root of that surplus.
func TestLevelMakesEdgesFuller(t *testing.T) {
	p := bows(-0.8)
	out := applied(t, p, &Level{Seam: "join", Bend: "b"})
	was, is := p.Piece("right").Edge("front").Path, out.Pattern.Piece("right").Edge("front").Path
	assert.InDelta(t, math.Sqrt((is.Length()-50)/(was.Length()-50)), is.Bulge()/was.Bulge(), 0.01)
	assert.InDelta(t, is.Bulge()-was.Bulge(), out.Figures["moved"], 0.05)
	assert.Greater(t, out.Figures["turned"], 0.5)
	assert.Contains(t, out.Notes[0], "front of right")
	a, b := out.Pattern.SeamLengths(*out.Pattern.Seam("join"))
	assert.InDelta(t, 0, a-b, 1e-9)
	// Both edges of a chain by the same amount.
	p = bows(0.3)
	out = applied(t, p, &Level{Seam: "join", Bend: "a"})
	for _, e := range []string{"side", "upper side"} {
		was, is := p.Piece("left").Edge(e).Path, out.Pattern.Piece("left").Edge(e).Path
		assert.InDelta(t, out.Figures["moved"], math.Abs(is.Bulge()-was.Bulge()), 0.05)
		assert.Equal(t, was.Start(), is.Start())
		assert.Equal(t, was.End(), is.End())
	}
}

func TestLevelOfALevelSeamChangesNothing(t *testing.T) {
	p := bows(0)
	out := applied(t, p, &Level{Seam: "join"})
	assert.Zero(t, out.Figures["moved"])
	assert.Contains(t, out.Notes[0], "level already")
	sameExcept(t, p, out.Pattern)
}

func TestLevelHonoursTheEase(t *testing.T) {
	p := bows(0)
	p.Seams[0].Ease = 1
	assert.Contains(t, refusal(t, p, &Level{Seam: "join", Bend: "a", Keep: "directions"}), "turn at their ends")
	out := applied(t, p, &Level{Seam: "join", Bend: "a"})
	a, b := out.Pattern.SeamLengths(*out.Pattern.Seam("join"))
	assert.InDelta(t, 1, a-b, 1e-9)
	assert.Greater(t, out.Figures["moved"], 0.2)
	assert.Contains(t, refusal(t, panels(1), &Level{Seam: "join"}), "let an end move")
	assert.Contains(t, refusal(t, p, &Level{Seam: "join", Keep: "directions", Moves: pattern.End}), "leave out")
}

func TestLevelRefuses(t *testing.T) {
	straight, curved := panels(1.2), bows(2)
	for _, c := range []struct {
		p    pattern.Pattern
		s    *Level
		says string
	}{
		{straight, &Level{Seam: "join"}, "let an end move"},
		{straight, &Level{Seam: "hem"}, `there is no seam "hem"`},
		{straight, &Level{Seam: "join", Bend: "c"}, `"a", "b" or "both"`},
		{straight, &Level{Seam: "join", Bend: "a", Share: exactly(0.5)}, "leave out the share"},
		{straight, &Level{Seam: "join", Share: exactly(1.5)}, "between 0 and 1"},
		{straight, &Level{Seam: "join", Moves: "middle"}, `"start" or "end"`},
		{straight, &Level{Seam: "join", Along: "seam"}, `"moves"`},
		{straight, &Level{Seam: "join", Moves: pattern.Start, Along: "up"}, `"neighbour"`},
		{straight, &Level{Seam: "join", Moves: pattern.Start, Limit: exactly(0)}, "above 0"},
		{straight, &Level{Seam: "join", Bend: "b", Moves: pattern.Start, Limit: exactly(1)}, "more than the limit of 1 mm"},
		{curved, &Level{Seam: "join", Limit: exactly(0.2)}, "at most"},
		{curved, &Level{Seam: "join", Share: &Number{figure: "tape.gap", times: 1}}, `"tape.gap"`},
	} {
		assert.Contains(t, refusal(t, c.p, c.s), c.says)
	}
	own := panels(0)
	own.Seams[0].B = pattern.Side{{Piece: "left", Edge: "side", Mirrored: true, To: 1}}
	own.Seams[0].Ease = 1
	assert.Contains(t, refusal(t, own, &Level{Seam: "join"}), "twice")
}

// Whatever frame, hold and share: level afterwards, the rest as it was.
func TestLevelOnFrames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, name := renamed(t, patterntest.Frame(t))
		seam := name(rapid.SampledFrom([]string{patterntest.BridgeSeam, patterntest.SideSeam}).Draw(t, "seam"))
		p.Seam(seam).Ease = rapid.Float64Range(-3, 3).Draw(t, "ease")
		s := &Level{Seam: seam, Share: exactly(rapid.Float64Range(0, 1).Draw(t, "share"))}
		s.Moves = rapid.SampledFrom([]pattern.EndName{pattern.Start, pattern.End}).Draw(t, "moves")
		if _, err := s.Apply(Input{Pattern: p}); err != nil {
			// The hem and the top of the bridge stay square to its fold.
			text := refusal(t, p, s)
			require.Contains(t, text, "off square")
			require.NotContains(t, text, "add evenly")
			require.Contains(t, text, "; let one side of the seam alone change, let the other end of the seam move, or none")
			require.Equal(t, name(patterntest.BridgeSeam), seam)
			return
		}
		out := applied(t, p, s)
		require.InDelta(t, 0, seamDifference(out.Pattern, out.Pattern.Seam(seam)), 2*changeSlack)
		require.LessOrEqual(t, out.Figures["moved"], math.Abs(p.Seam(seam).Ease)+1e-6)
		require.Equal(t, p.Lines, out.Pattern.Lines)
	})
}

// A straight side cannot become longer between its ends but by bowing: then a
// chord of 50 with a rise h is 50 + 8h²/150 long at first order.
func TestLevelLetsAStraightSideBow(t *testing.T) {
	p := panels(0.3) // the right front is 50.3 long, the left side 50
	text := refusal(t, p, &Level{Seam: "join", Bend: "a"})
	assert.Contains(t, text, "becomes 0 mm longer at most, not 0.3 mm, since side of left is straight and stays so; let straight edges bow")
	assert.Contains(t, refusal(t, p, &Level{Seam: "join", Bend: "b"}), "front of right is straight and so the shortest way between its ends already; let an end move")
	for _, keep := range []string{"", keepDirections} {
		for bow, sign := range map[string]float64{bowOut: 1, bowIn: -1} {
			out := applied(t, p, &Level{Seam: "join", Bend: "a", Bow: bow, Keep: keep})
			was, is := p.Piece("left"), out.Pattern.Piece("left")
			assert.InDelta(t, 50.3, is.Edge("side").Length(), 1e-6)
			assert.InDelta(t, 0, is.Edge("side").Path.Start().Dist(was.Edge("side").Path.Start()), 1e-9)
			assert.InDelta(t, 0, is.Edge("side").Path.End().Dist(was.Edge("side").Path.End()), 1e-9)
			assert.Positive(t, sign*(is.Area()-was.Area()), bow)
			if keep == "" {
				assert.InDelta(t, math.Sqrt(0.3*150/8), out.Figures["moved"], 0.02)
				assert.InDelta(t, 2./3*50*out.Figures["moved"], math.Abs(is.Area()-was.Area()), 0.5, "a parabola holds two thirds of its box")
			} else {
				assert.InDelta(t, 0, out.Figures["turned"], 1e-6)
			}
			sameExcept(t, p, out.Pattern, "left.side")
		}
	}
	assert.Contains(t, (&Level{Seam: "join", Bow: bowOut}).Sentence(), "straight edges bowing out")
	assert.Contains(t, refusal(t, p, &Level{Seam: "join", Bow: "up"}), `not "up"`)
	assert.Contains(t, refusal(t, p, &Level{Seam: "join", Bow: bowIn, Moves: pattern.End}), `leave out "bow" or "moves"`)
	assert.Contains(t, refusal(t, panels(3), &Level{Seam: "join", Bend: "a", Bow: bowOut}), "raise the limit")
}
