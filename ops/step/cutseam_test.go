package step

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

// otherwise writes the seams of a pattern in another of the ways that mean the
// same: sides exchanged, walked from the other end, of the mirrored hand.
func otherwise(t *rapid.T, p pattern.Pattern) {
	for i := range p.Seams {
		s := &p.Seams[i]
		if rapid.Bool().Draw(t, "exchanged") {
			s.A, s.B, s.Ease = s.B, s.A, -s.Ease
		}
		if rapid.Bool().Draw(t, "from the other end") {
			s.A, s.B = backwards(s.A), backwards(s.B)
		}
		if rapid.Bool().Draw(t, "mirrored") {
			for j := range s.B {
				s.B[j].Mirrored = true
			}
		}
	}
}

func backwards(side pattern.Side) (out pattern.Side) {
	for i := len(side) - 1; i >= 0; i-- {
		out = append(out, side[i].Backwards())
	}
	return out
}

// sewnAlike requires of every seam whose sides agreed that they still do.
func sewnAlike(t require.TestingT, was, now pattern.Pattern) {
	for i := range now.Seams {
		s := &now.Seams[i]
		if old := was.Seam(s.Name); old == nil || seamDifference(was, old) > 1e-7 || seamDifference(was, old) < -1e-7 {
			continue
		}
		require.InDelta(t, 0, seamDifference(now, s), 1e-9, s.Name)
	}
}

func TestCutOffLeavesEverySeamOfAFrameAlike(t *testing.T) {
	cut, shorter := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		otherwise(t, p)
		// Pieces in several parts, so that sides run over several edges.
		for k, n := range []string{"one", "two"} {
			pc := rapid.SampledFrom(p.Pieces).Draw(t, "split")
			s := &Split{Piece: pc.Name, From: anySpot(t, pc, "from"), To: anySpot(t, pc, "to"), Left: pc.Name, Right: n, Name: "split " + n}
			if out, err := s.Apply(Input{Pattern: p}); err == nil && k < rapid.IntRange(0, 2).Draw(t, "splits") {
				p = out.Pattern
			}
		}
		pc := rapid.SampledFrom(p.Pieces).Draw(t, "piece")
		c := &CutOff{Piece: pc.Name, From: anySpot(t, pc, "from"), To: anySpot(t, pc, "to"), Name: "Cut", Role: pattern.TurnedBack,
			Keep: rapid.SampledFrom([]string{"left", "right"}).Draw(t, "keep")}
		if rapid.Bool().Draw(t, "curved") {
			c.Curve = &Curve{From: lean(rapid.Float64Range(-40, 40).Draw(t, "from lean"), 0), To: lean(rapid.Float64Range(-40, 40).Draw(t, "to lean"), 0)}
		}
		if _, err := c.Apply(Input{Pattern: p}); err != nil {
			require.Greater(t, len(err.Error()), 20)
			return
		}
		cut++
		out := applied(t, p, c)
		require.InDelta(t, pc.Area(), out.Pattern.Piece(pc.Name).Area()+out.Figures["trimmed"], 1e-6)
		sewnAlike(t, p, out.Pattern)
		for name := range out.Figures {
			if strings.HasPrefix(name, "rest.") {
				shorter++
			}
			require.NotContains(t, name, "partner_difference")
		}
		for _, other := range p.Pieces {
			if other.Name != pc.Name {
				require.InDelta(t, other.Area(), out.Pattern.Piece(other.Name).Area(), 1e-6)
			}
		}
	})
	assert.Positive(t, cut)
	assert.Positive(t, shorter)
}

func TestCutOffTakesEaseOverSeveralEdges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := twoBoxes()
		ease := rapid.Float64Range(-5, 5).Draw(t, "ease")
		h := 60 - ease
		// The right front is three edges, the middle one curved.
		a, b := h*rapid.Float64Range(0.2, 0.4).Draw(t, "first"), h*rapid.Float64Range(0.6, 0.8).Draw(t, "second")
		p.Pieces[1] = corners("right", []geom.Point{geom.Pt(0, 0), geom.Pt(80, 0), geom.Pt(80, h), geom.Pt(0, h), geom.Pt(0, b), geom.Pt(0, a)},
			"hem", "side", "top", "front 3", "front 2", "front 1")
		p.Seams[0].Ease = ease
		p.Seams[0].B = pattern.Side{pattern.Whole("right", "front 1").Backwards(), pattern.Whole("right", "front 2").Backwards(), pattern.Whole("right", "front 3").Backwards()}
		otherwise(t, p)
		require.InDelta(t, 0, seamDifference(p, &p.Seams[0]), 1e-9)
		up := rapid.OneOf(rapid.Float64Range(1, 59), rapid.Just(60*a/h), rapid.Just(60*b/h)).Draw(t, "up")
		c := &CutOff{Piece: "left", Name: "Cut", Role: pattern.TurnedBack, Keep: rapid.SampledFrom([]string{"left", "right"}).Draw(t, "keep"),
			From: pattern.Spot{Edge: "side", Along: pattern.Along{MM: up}}, To: pattern.Spot{Edge: "front", Along: pattern.Along{Share: 0.5}}}
		out := applied(t, p, c)
		s := out.Pattern.Seam("join")
		require.InDelta(t, 0, seamDifference(out.Pattern, s), 1e-9)
		left, right := out.Pattern.Length(s.A), out.Pattern.Length(s.B)
		if s.A[0].Piece == "right" {
			left, right = right, left
		}
		kept := up
		if c.Keep == "right" {
			kept = 60 - up
		}
		require.InDelta(t, kept, left, 1e-9)
		require.InDelta(t, kept*h/60, right, 3e-6)
		require.InDelta(t, h-kept*h/60, out.Figures["rest.join"], 3e-6)
	})
}

func TestCutOffInTheMiddleOfAnEdgeThatIsSewnInPart(t *testing.T) {
	// Only the stretch from 10 to 50 of the right front is sewn.
	p := twoBoxes()
	part := pattern.Whole("right", "front").Backwards()
	part.From, part.To = 50.0/60, 10.0/60
	p.Pieces[0] = box("left", 100, 40)
	p.Seams[0].B = pattern.Side{part}
	require.InDelta(t, 0, seamDifference(p, &p.Seams[0]), 1e-9)
	c := topCut()
	c.From.MM = 15
	out := applied(t, p, c)
	var names []string
	for _, e := range out.Pattern.Piece("right").Edges {
		names = append(names, e.Name)
	}
	assert.Equal(t, []string{"hem", "side", "top", "front", "front rest", "front after front rest"}, names)
	assert.InDelta(t, 10, lengthOf(t, out.Pattern, "right", "front"), 1e-9)
	assert.InDelta(t, 15, lengthOf(t, out.Pattern, "right", "front rest"), 1e-9)
	assert.Equal(t, pattern.SeamEdge, out.Pattern.Piece("right").Edge("front").Role)
	assert.InDelta(t, 0, seamDifference(out.Pattern, out.Pattern.Seam("join")), 1e-9)
	assert.InDelta(t, 25, out.Pattern.Length(out.Pattern.Seam("join").B), 1e-9)
	assert.LessOrEqual(t, notchAt(t, out.Pattern, "right", "lace end").Dist(geom.Pt(0, 35)), 1e-9)
}

func TestCutOffBothLegsOfADartUnevenly(t *testing.T) {
	pc := corners("cup", []geom.Point{geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 60), geom.Pt(55, 60), geom.Pt(50, 20), geom.Pt(45, 60), geom.Pt(0, 60)},
		"hem", "side", "top one", "leg one", "leg two", "top two", "front")
	p := pattern.Pattern{Pieces: []pattern.Piece{pc}, Seams: []pattern.Seam{{
		Name: "dart", A: pattern.Side{pattern.Whole("cup", "leg one").Backwards()}, B: pattern.Side{pattern.Whole("cup", "leg two")},
	}}}
	// First the one corner away, then the other, further down.
	first := applied(t, p, &CutOff{Piece: "cup", Keep: "left", Name: "edge one", Role: pattern.Neckline,
		From: pattern.Spot{Edge: "side", Along: pattern.Along{MM: 50}}, To: pattern.Spot{Edge: "leg one", Along: pattern.Along{Share: 0.2}}})
	sewnAlike(t, p, first.Pattern)
	c := &CutOff{Piece: "cup", Keep: "left", Name: "edge two", Role: pattern.Neckline,
		From: pattern.Spot{Edge: "leg two", Along: pattern.Along{Share: 0.5}}, To: pattern.Spot{Edge: "front", Along: pattern.Along{MM: 20}}}
	second := applied(t, first.Pattern, c)
	sewnAlike(t, first.Pattern, second.Pattern)
	assert.NotNil(t, second.Pattern.Piece("cup").Edge("leg one rest"))
	assert.NotEmpty(t, second.Pattern.Piece("cup").Notch("edge two end"))
	// The whole leg away: nothing is sewn, the other leg is free.
	c.From = pattern.AtEnd("", "leg one", pattern.End)
	gone := applied(t, p, c)
	assert.Nil(t, gone.Pattern.Seam("dart"))
	assert.Equal(t, pattern.TurnedBack, gone.Pattern.Piece("cup").Edge("leg one").Role)
}

func TestCutOffAcrossTwoSeamsMarksBothEnds(t *testing.T) {
	// A second seam on the front, sewn to the other end of the right piece.
	p := twoBoxes()
	p.Seams = append(p.Seams, pattern.Seam{Name: "back", A: pattern.Side{pattern.Whole("left", "front").Backwards()}, B: pattern.Side{pattern.Whole("right", "side")}})
	c := &CutOff{Piece: "left", Keep: "left", Name: "low top", Role: pattern.LaceEdge,
		From: pattern.Spot{Edge: "side", Along: pattern.Along{MM: 40}}, To: pattern.Spot{Edge: "front", Along: pattern.Along{MM: 30}}}
	out := applied(t, p, c)
	sewnAlike(t, p, out.Pattern)
	assert.LessOrEqual(t, notchAt(t, out.Pattern, "right", "low top end").Dist(geom.Pt(0, 40)), 1e-9)
	assert.LessOrEqual(t, notchAt(t, out.Pattern, "right", "low top end of back").Dist(geom.Pt(80, 30)), 1e-9)
}

func TestCutOffAPieceSewnToItsMirrorImage(t *testing.T) {
	p := pattern.Pattern{Pieces: []pattern.Piece{box("back", 100, 60)}}
	mirrored := pattern.Whole("back", "front")
	mirrored.Mirrored = true
	p.Seams = []pattern.Seam{{Name: "centre", A: pattern.Side{pattern.Whole("back", "front")}, B: pattern.Side{mirrored}}}
	out := applied(t, p, &CutOff{Piece: "back", Keep: "left", Name: "neck", Role: pattern.Neckline,
		From: pattern.Spot{Edge: "top", Along: pattern.Along{MM: 70}}, To: pattern.Spot{Edge: "front", Along: pattern.Along{MM: 15}}})
	assert.Equal(t, p.Seams, out.Pattern.Seams, "both hands are cut alike")
	assert.InDelta(t, 45, lengthOf(t, out.Pattern, "back", "front"), 1e-9)
	assert.NotContains(t, out.Figures, "rest.centre")
}

func TestCutOffTellsOfAPointAtTheFold(t *testing.T) {
	p := patterntest.Sample()
	c := &CutOff{Piece: "bridge", Name: "low top", Role: pattern.Neckline, Kept: &pattern.Spot{Edge: "hem", Along: pattern.Along{Share: 0.5}},
		From: pattern.Spot{Edge: "wire", Along: pattern.Along{Share: 0.8}}, To: pattern.Spot{Edge: "fold", Along: pattern.Along{MM: 40}}}
	out := applied(t, p, c)
	assert.Contains(t, strings.Join(out.Notes, " "), "off square")
	c.Curve = &Curve{To: Lean{Square: true}}
	out = applied(t, p, c)
	assert.NotContains(t, strings.Join(out.Notes, " "), "off square")
	assert.InDelta(t, 0, offSquareOf(out.Pattern.Piece("bridge"), "low top"), 1e-9)
	// The wire line and its seam end with it.
	sewnAlike(t, p, out.Pattern)
}

func TestCornerEndsThatReferToWhatIsGoneGoWithIt(t *testing.T) {
	for _, of := range []pattern.Neighbour{pattern.Before, pattern.After} {
		p := twoBoxes()
		left := p.Piece("left")
		left.Edge("top").Corner = pattern.Corner{End: pattern.FoldsBack, Of: of}
		left.Edge("front").Corner = pattern.Corner{End: pattern.Square, Of: of}
		// The whole top goes: at its start the side stays, at its end the front.
		out := applied(t, p, &CutOff{Piece: "left", Keep: "left", Name: "low", Role: pattern.Neckline, Curve: &Curve{From: lean(-20, 0), To: lean(-20, 0)},
			From: pattern.AtEnd("", "top", pattern.Start), To: pattern.AtEnd("", "top", pattern.End)})
		low, front := out.Pattern.Piece("left").Edge("low").Corner, out.Pattern.Piece("left").Edge("front").Corner
		if of == pattern.Before {
			assert.Equal(t, pattern.Corner{End: pattern.FoldsBack, Of: of}, low)
			assert.Zero(t, front)
		} else {
			assert.Zero(t, low)
			assert.Equal(t, pattern.Corner{End: pattern.Square, Of: of}, front)
		}
	}
}

// Three of ease are stated between two notches and none elsewhere; a cut takes
// what of it lies on the paper that goes.
func TestCutOffTakesEaseWhereItIsStated(t *testing.T) {
	for _, fromEnd := range []bool{false, true} {
		for up, want := range map[float64]float64{15: 0, 30: 1.5, 50: 3} { // sewn ease below the cut
			p := twoBoxes()
			p.Pieces[1] = corners("right", []geom.Point{geom.Pt(0, 0), geom.Pt(80, 0), geom.Pt(80, 57), geom.Pt(0, 57)}, "hem", "side", "top", "front")
			p.Piece("left").Notches = append(p.Piece("left").Notches,
				pattern.Notch{Name: "one", Edge: "side", Along: pattern.Along{MM: 20}}, pattern.Notch{Name: "two", Edge: "side", Along: pattern.Along{MM: 40}})
			s := &p.Seams[0]
			s.Ease = 3
			one, two := pattern.NotchName{Piece: "left", Notch: "one"}, pattern.NotchName{Piece: "left", Notch: "two"}
			s.Stretches = []pattern.Stretch{{From: one, To: two, Ease: 3}}
			if fromEnd {
				s.A, s.B = backwards(s.A), backwards(s.B)
				s.Stretches[0].From, s.Stretches[0].To = two, one
			}
			require.NoError(t, p.Validate())
			c := topCut()
			c.From = pattern.Spot{Edge: "side", Along: pattern.Along{MM: up}}
			out := applied(t, p, c)
			seam := out.Pattern.Seam("join")
			assert.InDelta(t, want, seam.Ease, 1e-9)
			assert.InDelta(t, up-want, lengthOf(t, out.Pattern, "right", "front"), 1e-9)
			sewnAlike(t, p, out.Pattern)
			if want == 0 {
				assert.Empty(t, seam.Stretches)
				continue
			}
			require.Len(t, seam.Stretches, 1)
			assert.InDelta(t, want, seam.Stretches[0].Ease, 1e-9)

			// The upper end kept instead.
			c.Keep = "right"
			out = applied(t, p, c)
			assert.InDelta(t, 3-want, out.Pattern.Seam("join").Ease, 1e-9)
			sewnAlike(t, p, out.Pattern)
		}
	}
}
