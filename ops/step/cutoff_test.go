package step

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
	"truemat/ops/walk"
)

// topCut cuts the upper right corner of the left box off, from the middle of
// its top to 20 below the top of its side.
func topCut() *CutOff {
	return &CutOff{
		Piece: "left",
		From:  pattern.Spot{Edge: "side", Along: pattern.Along{From: pattern.End, MM: 20}},
		To:    pattern.Spot{Edge: "top", Along: pattern.Along{Share: 0.5}},
		Keep:  "left", Name: "lace", Role: pattern.LaceEdge,
	}
}

func TestCutOffShortensThePartner(t *testing.T) {
	p := twoBoxes()
	left := p.Piece("left")
	left.Inner = []pattern.Inner{
		{Name: "gone", Kind: pattern.Drawn, Path: geom.Must(geom.Polyline(geom.Pt(90, 55), geom.Pt(98, 58)))},
		{Name: "half", Kind: pattern.Drawn, Path: geom.Must(geom.Polyline(geom.Pt(75, 0), geom.Pt(75, 60)))},
		{Name: "kept", Kind: pattern.Drawn, Path: geom.Must(geom.Polyline(geom.Pt(10, 10), geom.Pt(20, 20)))},
	}
	left.Marks = []pattern.Mark{{Text: "HI", At: geom.Pt(95, 55), Height: 5}, {Text: "LOW", At: geom.Pt(20, 20), Height: 5}}
	left.Notches = append(left.Notches, pattern.Notch{Name: "high", Edge: "side", Along: pattern.Along{MM: 50}})
	out := applied(t, p, topCut())

	pc := out.Pattern.Piece("left")
	assert.InDelta(t, 6000-50*20/2, pc.Area(), 1e-9)
	assert.InDelta(t, 500, out.Figures["trimmed"], 1e-9)
	lace := pc.Edge("lace")
	require.NotNil(t, lace)
	assert.True(t, lace.Path.IsStraight())
	assert.Zero(t, lace.Allowance)
	assert.InDelta(t, 40, lengthOf(t, out.Pattern, "left", "side"), 1e-9)
	assert.InDelta(t, 50, lengthOf(t, out.Pattern, "left", "top"), 1e-9)

	// The partner is sewn up to 40 from the hem; the rest is turned back.
	front := out.Pattern.Piece("right").Edge("front")
	rest := out.Pattern.Piece("right").Edge("front rest")
	require.NotNil(t, rest)
	assert.Equal(t, pattern.TurnedBack, rest.Role)
	assert.InDelta(t, 40, front.Length(), 1e-9)
	assert.InDelta(t, 20, rest.Length(), 1e-9)
	assert.LessOrEqual(t, front.Path.End().Dist(geom.Pt(0, 0)), 1e-9)
	seam := out.Pattern.Seam("join")
	assert.Equal(t, pattern.Side{pattern.Whole("left", "side")}, seam.A)
	assert.Equal(t, pattern.Side{pattern.Whole("right", "front").Backwards()}, seam.B)
	assert.InDelta(t, 0, seamDifference(out.Pattern, seam), 1e-9)
	assert.LessOrEqual(t, notchAt(t, out.Pattern, "right", "lace end").Dist(geom.Pt(0, 40)), 1e-9)
	assert.InDelta(t, 20, out.Figures["rest.join"], 1e-9)

	// What lay on the corner is gone and named; what lay across is trimmed.
	assert.Nil(t, pc.Notch("high"))
	require.Len(t, pc.Inner, 2)
	assert.Equal(t, "half", pc.Inner[0].Name)
	assert.InDelta(t, 50, pc.Inner[0].Path.Length(), 1e-9)
	require.Len(t, pc.Marks, 1)
	notes := ""
	for _, n := range out.Notes {
		notes += n + "\n"
	}
	for _, word := range []string{`"high"`, `"gone" of left is cut away`, `"half" of left is cut off`, `"HI"`, "front rest of right is no longer sewn"} {
		assert.Contains(t, notes, word)
	}
	assert.InDelta(t, 50+80, out.Pattern.Length(out.Pattern.Line("top line").Parts), 1e-9)
	sameExcept(t, p, out.Pattern, "left.side", "left.top", "right.front")
}

func TestCutOffTakesEaseInProportion(t *testing.T) {
	p := twoBoxes()
	// The right front is 57 long: the left side has 3 of ease on 60.
	p.Pieces[1] = corners("right", []geom.Point{geom.Pt(0, 0), geom.Pt(80, 0), geom.Pt(80, 57), geom.Pt(0, 57)}, "hem", "side", "top", "front")
	p.Seams[0].Ease = 3
	c := topCut()
	c.Partner = Partner{Rest: "free end", Role: pattern.Underarm, Notch: "stop"}
	out := applied(t, p, c)
	seam := out.Pattern.Seam("join")
	assert.InDelta(t, 2, seam.Ease, 1e-9)
	assert.InDelta(t, 38, lengthOf(t, out.Pattern, "right", "front"), 1e-9)
	assert.InDelta(t, 0, seamDifference(out.Pattern, seam), 1e-9)
	assert.Equal(t, pattern.Underarm, out.Pattern.Piece("right").Edge("free end").Role)
	assert.NotNil(t, out.Pattern.Piece("right").Notch("stop"))
	assert.NotContains(t, out.Figures, "partner_difference.join")

	// The same seam written the other way round.
	p.Seams[0].A, p.Seams[0].B, p.Seams[0].Ease = p.Seams[0].B, p.Seams[0].A, -3
	out = applied(t, p, c)
	assert.InDelta(t, 38, lengthOf(t, out.Pattern, "right", "front"), 1e-9)
	assert.InDelta(t, -2, out.Pattern.Seam("join").Ease, 1e-9)
}

func TestCutOffKeepsTheNamedSide(t *testing.T) {
	p := twoBoxes()
	c := topCut()
	c.Keep, c.Kept = "", &pattern.Spot{Edge: "hem", Along: pattern.Along{Share: 0.5}}
	out := applied(t, p, c)
	assert.InDelta(t, 5500, out.Pattern.Piece("left").Area(), 1e-9)

	// The other way round: the small corner stays, walked from the top.
	c.Kept = nil
	c.Keep = "right"
	out = applied(t, p, c)
	pc := out.Pattern.Piece("left")
	assert.InDelta(t, 500, pc.Area(), 1e-9)
	assert.Len(t, pc.Edges, 3)
	assert.InDelta(t, 20, lengthOf(t, out.Pattern, "left", "side"), 1e-9)
	// Now it is the lower end of the partner that is free.
	front := out.Pattern.Piece("right").Edge("front")
	assert.LessOrEqual(t, front.Path.Start().Dist(geom.Pt(0, 60)), 1e-9)
	assert.InDelta(t, 20, front.Length(), 1e-9)
	assert.LessOrEqual(t, notchAt(t, out.Pattern, "right", "lace end").Dist(geom.Pt(0, 40)), 1e-9)
	// The hem went whole and only it: the hem line runs over the cut. It ends
	// where the sewing ends; beyond is a line of its own.
	assert.Equal(t, []pattern.Part{pattern.Whole("left", "lace")}, out.Pattern.Line("hem line").Parts)
	assert.Equal(t, []pattern.Part{pattern.Whole("right", "hem")}, out.Pattern.Line("hem line rest").Parts)
	c.Partner.Line = "back hem"
	assert.Equal(t, []pattern.Part{pattern.Whole("right", "hem")}, applied(t, p, c).Pattern.Line("back hem").Parts)
	c.Partner.Line = ""

	c.Keep = "upper"
	assert.Contains(t, refusal(t, p, c), `"left" or "right"`)
	c.Keep, c.Kept = "", &pattern.Spot{Edge: "side", Along: pattern.Along{From: pattern.End, MM: 20}}
	assert.Contains(t, refusal(t, p, c), "at an end of the cut")
}

func TestCutOffAWholeEdgeHandsItsLineOn(t *testing.T) {
	p := twoBoxes()
	c := &CutOff{
		Piece: "left", From: pattern.AtEnd("", "top", pattern.Start),
		To: pattern.Spot{Edge: "front", Along: pattern.Along{MM: 10}}, Keep: "left",
		Name: "neck", Role: pattern.LaceEdge,
	}
	out := applied(t, p, c)
	assert.Nil(t, out.Pattern.Piece("left").Edge("top"))
	assert.Equal(t, []pattern.Part{pattern.Whole("right", "top"), pattern.Whole("left", "neck")}, out.Pattern.Line("top line").Parts)
	assert.Equal(t, p.Seams, out.Pattern.Seams, "the cut starts at the end of the seam and takes nothing of it")

	// A line of that one edge alone is not lost either.
	p.Lines[1].Parts = p.Lines[1].Parts[1:]
	out = applied(t, p, c)
	assert.Equal(t, []pattern.Part{pattern.Whole("left", "neck")}, out.Pattern.Line("top line").Parts)
	for _, n := range out.Notes {
		assert.NotContains(t, n, "gone")
	}
}

func TestCutOffAWholeSideFreesThePartner(t *testing.T) {
	p := twoBoxes()
	out := applied(t, p, &CutOff{
		Piece: "left", From: pattern.Spot{Edge: "hem", Along: pattern.Along{MM: 60}},
		To: pattern.Spot{Edge: "top", Along: pattern.Along{MM: 30}}, Keep: "left", Name: "new", Role: pattern.Closure,
	})
	assert.Nil(t, out.Pattern.Seam("join"))
	front := out.Pattern.Piece("right").Edge("front")
	assert.Equal(t, pattern.TurnedBack, front.Role)
	assert.InDelta(t, 60, out.Figures["rest.join"], 1e-9)
	sameExcept(t, p, out.Pattern, "left.hem", "left.top", "left.side")
}

func TestCutOffInACurve(t *testing.T) {
	p := twoBoxes()
	c := topCut()
	c.Bulge = exactly(3)
	out := applied(t, p, c)
	// A parabola of rise h over a chord b encloses 2bh/3.
	b := geom.Pt(100, 40).Dist(geom.Pt(50, 60))
	assert.InDelta(t, 5500+2*b*3/3, out.Pattern.Piece("left").Area(), 1e-9)
	c.Bulge = exactly(-3)
	out = applied(t, p, c)
	assert.InDelta(t, 5500-2*b*3/3, out.Pattern.Piece("left").Area(), 1e-9)
}

func TestCutOffRefuses(t *testing.T) {
	p := twoBoxes()
	// A hollow top: the straight line between its ends leaves the piece.
	p.Piece("left").Edge("top").Path = geom.Must(geom.NewPath(geom.Curve(geom.Pt(100, 60), geom.Pt(70, 40), geom.Pt(30, 40), geom.Pt(0, 60))))
	c := &CutOff{Piece: "left", From: pattern.AtEnd("", "top", pattern.Start), To: pattern.AtEnd("", "top", pattern.End), Keep: "left", Name: "neck", Role: pattern.Neckline}
	assert.Contains(t, refusal(t, p, c), "straighten")
	// Partly outside.
	c.From = pattern.Spot{Edge: "side", Along: pattern.Along{MM: 55}}
	c.To = pattern.Spot{Edge: "front", Along: pattern.Along{MM: 5}}
	assert.Contains(t, refusal(t, p, c), "straighten")
	c.Name = ""
	assert.Contains(t, refusal(t, p, c), "name")
	// Along a straight edge.
	c.Name, c.From, c.To = "neck", pattern.AtEnd("", "side", pattern.Start), pattern.AtEnd("", "side", pattern.End)
	assert.Contains(t, refusal(t, p, c), "nothing to cut off")
	// A bite out of the middle of a seam.
	p = twoBoxes()
	p.Piece("left").Edge("side").Path = geom.Must(geom.NewPath(geom.Curve(geom.Pt(100, 0), geom.Pt(120, 20), geom.Pt(120, 40), geom.Pt(100, 60))))
	c = &CutOff{Piece: "left", Keep: "left", Name: "flat", Role: pattern.TurnedBack,
		From: pattern.Spot{Edge: "side", Along: pattern.Along{MM: 15}}, To: pattern.Spot{Edge: "side", Along: pattern.Along{From: pattern.End, MM: 15}}}
	assert.Contains(t, refusal(t, p, c), "bite")
	// A fold may not go.
	c = topCut()
	c.Keep = "right"
	assert.Contains(t, refusal(t, folded(), c), "fold")
	c = topCut()
	c.Name = "hem"
	assert.Contains(t, refusal(t, p, c), "another name")
}

func TestCutOffADartShortensBothLegs(t *testing.T) {
	// A dart from the top down to (50, 20); cut straight across below the top.
	pc := corners("cup", []geom.Point{geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 60), geom.Pt(55, 60), geom.Pt(50, 20), geom.Pt(45, 60), geom.Pt(0, 60)},
		"hem", "side", "top one", "leg one", "leg two", "top two", "front")
	p := pattern.Pattern{Pieces: []pattern.Piece{pc}, Seams: []pattern.Seam{{
		Name: "dart", A: pattern.Side{pattern.Whole("cup", "leg one").Backwards()}, B: pattern.Side{pattern.Whole("cup", "leg two")},
	}}}
	out := applied(t, p, &CutOff{Piece: "cup", Keep: "left", Name: "edge", Role: pattern.Neckline,
		From: pattern.Spot{Edge: "side", Along: pattern.Along{MM: 50}}, To: pattern.Spot{Edge: "leg one", Along: pattern.Along{Share: 0.25}}})
	// One leg only was cut: the other is sewn for the same length from the tip.
	assert.InDelta(t, lengthOf(t, out.Pattern, "cup", "leg one"), lengthOf(t, out.Pattern, "cup", "leg two"), 1e-9)
	assert.NotNil(t, out.Pattern.Piece("cup").Edge("leg two rest"))
	assert.InDelta(t, 0, seamDifference(out.Pattern, out.Pattern.Seam("dart")), 1e-9)
}

func TestCutOffAnyBandTop(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, name := frame(t)
		band, cradle, side, top := name(patterntest.Band), name(patterntest.Cradle), name("side"), name("top")
		drop := rapid.Float64Range(2, 30).Draw(t, "drop")
		ease := rapid.Float64Range(-2, 2).Draw(t, "ease")
		p.Seam(name(patterntest.SideSeam)).Ease = ease
		was := p.Clone()
		// From half way along the upper edge down to the side seam.
		c := &CutOff{Piece: band, Name: "cut across", Role: pattern.Underarm,
			From: pattern.Spot{Edge: top, Along: pattern.Along{Share: 0.6}},
			To:   pattern.Spot{Edge: side, Along: pattern.Along{MM: drop}},
			Kept: &pattern.Spot{Edge: name("hem"), Along: pattern.Along{Share: 0.5}}}
		if _, err := c.Apply(Input{Pattern: p}); err != nil {
			// An upper edge so hollow that the line leaves it, which is rare.
			require.Contains(t, err.Error(), "straighten")
			return
		}
		out := applied(t, p, c)
		seam := out.Pattern.Seam(name(patterntest.SideSeam))
		before := seamDifference(was, was.Seam(seam.Name)) + ease // sides alike: 0
		require.InDelta(t, 0, before, 1e-6)
		kept := lengthOf(t, was, band, side) - drop
		require.InDelta(t, kept, out.Pattern.Length(seam.B), 1e-8)
		require.InDelta(t, kept+seam.Ease, out.Pattern.Length(seam.A), 1e-8)
		require.InDelta(t, ease*kept/lengthOf(t, was, band, side), seam.Ease, 1e-9)
		require.NotNil(t, out.Pattern.Piece(cradle).Notch("cut across end"))
		require.InDelta(t, was.Piece(band).Area()-out.Figures["trimmed"], out.Pattern.Piece(band).Area(), 1e-6)
		require.InDelta(t, was.Piece(cradle).Area(), out.Pattern.Piece(cradle).Area(), 1e-6)
		sameExcept(t, was, out.Pattern, band+"."+top, band+"."+side, cradle+"."+side)
	})
}

func TestCutOffMatchesTheNotchesOfThePartner(t *testing.T) {
	// The cut ends at a double notch 40 above the hem; its partner lies 0.4
	// higher. Above it, at 55, is another pair, and one of the partner alone.
	p := twoBoxes()
	left, right := p.Piece("left"), p.Piece("right")
	left.Notches = append(left.Notches,
		pattern.Notch{Name: "apex", Edge: "side", Along: pattern.Along{MM: 40}, Double: true},
		pattern.Notch{Name: "upper", Edge: "side", Along: pattern.Along{MM: 55}})
	right.Notches = append(right.Notches,
		pattern.Notch{Name: "apex", Edge: "front", Along: pattern.Along{From: pattern.End, MM: 40.4}, Double: true},
		pattern.Notch{Name: "alone", Edge: "front", Along: pattern.Along{From: pattern.End, MM: 48}, Double: true},
		pattern.Notch{Name: "high", Edge: "front", Along: pattern.Along{From: pattern.End, MM: 55}})
	c := topCut()
	c.From = pattern.AtNotch("left", "apex")
	for _, swap := range []bool{false, true} {
		if swap {
			s := &p.Seams[0]
			s.A, s.B = s.B, s.A
		}
		c.Partner = Partner{}
		out := applied(t, p, c)
		now := out.Pattern.Piece("right")
		made := now.Notch("lace end")
		require.NotNil(t, made)
		assert.True(t, made.Double, "as the one it meets")
		assert.Nil(t, now.Notch("apex"), "the new one comes in its place")
		assert.Nil(t, now.Notch("high"), "what it met is cut off")
		assert.NotNil(t, now.Notch("alone"), "it matched nothing before either")
		assert.Contains(t, out.Notes, `The old notch "apex" of right is taken away: the new one comes in its place.`)
		assert.Contains(t, out.Notes, `The old notch "high" of right is taken away: what it met is cut off.`)
		wk, err := walk.Seam(out.Pattern, "join", walk.Way{})
		require.NoError(t, err)
		assert.Empty(t, wk.Unmatched())
		last := wk.Pairs[len(wk.Pairs)-1]
		assert.InDelta(t, last.A, last.B, 1e-9)
		assert.Equal(t, last.NotchA.Notch.Double, last.NotchB.Notch.Double)

		// The new one may take the old one's name.
		c.Partner.Notch = "apex"
		now = applied(t, p, c).Pattern.Piece("right")
		assert.InDelta(t, 40, now.Edge("front").Path.End().Dist(now.Edge("front").Path.At(now.Notch("apex").At(now.Edge("front").Length()))), 1e-9)

		// Kept on request, when its name is free.
		c.Partner.KeepNotches = true
		assert.Contains(t, refusal(t, p, c), `has a notch "apex" already`)
		c.Partner.Notch = ""
		now = applied(t, p, c).Pattern.Piece("right")
		for _, name := range []string{"apex", "high", "alone", "lace end"} {
			assert.NotNil(t, now.Notch(name), name)
		}
	}
}
