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

func endOf(piece, edge string, end pattern.EndName) EdgeEnd { return EdgeEnd{piece, edge, end} }

func TestAddTapersToNothing(t *testing.T) {
	p := twoBoxes()
	p.Pieces[0].Notches = append(p.Pieces[0].Notches, pattern.Notch{Name: "far", Edge: "hem", Along: pattern.Along{From: pattern.End, MM: 5}})
	out := applied(t, p, &Add{EdgeEnd: endOf("left", "side", pattern.Start), Amount: Lit(3.175)})
	assert.InDelta(t, 103.175, lengthOf(t, out.Pattern, "left", "hem"), 1e-12)
	assert.InDelta(t, math.Hypot(60, 3.175), lengthOf(t, out.Pattern, "left", "side"), 1e-9)
	assert.True(t, out.Pattern.Piece("left").Edge("side").Path.IsStraight())
	assert.True(t, out.Pattern.Piece("left").Edge("hem").Path.IsStraight())
	assert.InDelta(t, 6000+60*3.175/2, out.Pattern.Piece("left").Area(), 1e-9)
	assert.LessOrEqual(t, geom.Pt(30, 0).Dist(notchAt(t, out.Pattern, "left", "low")), 1e-9, "notches of the neighbour stay")
	assert.LessOrEqual(t, geom.Pt(95, 0).Dist(notchAt(t, out.Pattern, "left", "far")), 1e-9)
	assert.Equal(t, pattern.Along{Share: 0.5}, out.Pattern.Piece("left").Notch("mid").Along)
	assert.InDelta(t, math.Hypot(60, 3.175)-60, out.Figures["partner_difference.join"], 1e-9)
	assert.Equal(t, p.Seams, out.Pattern.Seams, "whole edges stay whole")
	assert.Equal(t, p.Lines, out.Pattern.Lines)
	assert.NotEmpty(t, out.Notes)
	sameExcept(t, p, out.Pattern, "left.hem", "left.side")
}

func TestAddEvenlyShiftsTheEdge(t *testing.T) {
	p := twoBoxes()
	out := applied(t, p, &Add{EdgeEnd: EdgeEnd{Piece: "left", Edge: "side"}, Evenly: true, Amount: Lit(4)})
	assert.InDelta(t, 104, lengthOf(t, out.Pattern, "left", "hem"), 1e-12)
	assert.InDelta(t, 104, lengthOf(t, out.Pattern, "left", "top"), 1e-12)
	assert.InDelta(t, 60, lengthOf(t, out.Pattern, "left", "side"), 1e-12)
	assert.NotContains(t, out.Figures, "partner_difference.join")
}

func TestTakingInShortensTheNeighbour(t *testing.T) {
	p := twoBoxes()
	p.Pieces[0].Notches[0].Along = pattern.Along{MM: 98}
	out := applied(t, p, &Add{EdgeEnd: endOf("left", "side", pattern.Start), Amount: Lit(-5)})
	assert.InDelta(t, 95, lengthOf(t, out.Pattern, "left", "hem"), 1e-12)
	assert.Equal(t, p.Seams, out.Pattern.Seams)
	assert.Equal(t, p.Lines, out.Pattern.Lines)
	assert.Nil(t, out.Pattern.Piece("left").Notch("low"))
	assert.Contains(t, out.Notes[0], "low", "the notch that went is named")
	assert.Contains(t, refusal(t, p, &Add{EdgeEnd: endOf("left", "side", pattern.Start), Amount: Lit(-99.5)}), "take in less")
}

func TestAddToACurvedNeighbourHasALimit(t *testing.T) {
	p := twoBoxes()
	hem := p.Piece("left").Edge("hem")
	hem.Path = geom.Must(geom.NewPath(geom.Curve(geom.Pt(0, 0), geom.Pt(30, -10), geom.Pt(70, -10), geom.Pt(100, 0))))
	was, dir := hem.Length(), hem.Path.TangentBefore(hem.Length())
	step := &Add{EdgeEnd: endOf("left", "side", pattern.Start), Amount: Lit(10)}
	out := applied(t, p, step)
	is := out.Pattern.Piece("left").Edge("hem").Path
	assert.InDelta(t, was+10, is.Length(), 1e-9)
	assert.LessOrEqual(t, is.End().Dist(geom.Pt(100, 0).Add(dir.Mul(10))), 1e-12)
	step.Amount = Lit(26)
	assert.Contains(t, refusal(t, p, step), "limit of 25 mm")
	step.Limit = exactly(30)
	applied(t, p, step)
	step.Limit = exactly(-1)
	assert.Contains(t, refusal(t, p, step), "0 or more")
	step.Limit, step.End = nil, "middle"
	assert.Contains(t, refusal(t, p, step), "middle")
}

// folded is a box on the fold at its front.
func folded() pattern.Pattern {
	p := twoBoxes()
	front := p.Piece("left").Edge("front")
	front.Role, front.Allowance = pattern.Fold, 0
	return p
}

func TestAddAtAFold(t *testing.T) {
	p := folded()
	// The hem lower at the fold only: its corner there would not be square.
	assert.Contains(t, refusal(t, p, &Add{EdgeEnd: endOf("left", "hem", pattern.Start), Amount: Lit(5)}), "off square")
	assert.Contains(t, refusal(t, p, &Add{EdgeEnd: endOf("left", "hem", pattern.Start), Amount: Lit(5)}), "; add evenly, at the other end, or at another edge")
	shared := &ShareOut{Amount: Lit(5), Onto: []Share{{EdgeEnd: endOf("left", "hem", pattern.Start)}}}
	assert.Contains(t, refusal(t, p, shared), "; give it back at the other end of that edge, or at another edge")
	tilted := &Level{Seam: "join", Bend: "a", Moves: pattern.Start}
	p.Seam("join").Ease = 2
	assert.Contains(t, refusal(t, p, tilted), "; let front of right change instead, let the other end of the seam move, or none")
	// Lower all along: it stays square, and the fold is longer but straight.
	out := applied(t, p, &Add{EdgeEnd: endOf("left", "hem", pattern.Start), Amount: Lit(5), Evenly: true})
	pc := out.Pattern.Piece("left")
	assert.True(t, pc.Fold().Path.IsStraight())
	assert.InDelta(t, 65, pc.Fold().Length(), 1e-12)
	assert.InDelta(t, 0, offSquare(pc)[0], 1e-9)
	assert.InDelta(t, 0, offSquare(pc)[1], 1e-9)
	// The fold moved at one end would turn; moved evenly it does not.
	assert.Contains(t, refusal(t, p, &Add{EdgeEnd: endOf("left", "front", pattern.Start), Amount: Lit(5)}), "fold")
	out = applied(t, p, &Add{EdgeEnd: endOf("left", "front", pattern.Start), Amount: Lit(5), Evenly: true})
	assert.InDelta(t, 105*60, out.Pattern.Piece("left").Area(), 1e-9)
}

func TestShareOutGivesHalves(t *testing.T) {
	p := twoBoxes()
	s := &ShareOut{Amount: Figure("tape.overlap", 1), Onto: []Share{
		{EdgeEnd: endOf("left", "side", pattern.Start)},
		{EdgeEnd: endOf("right", "front", pattern.End)},
	}}
	out := applied(t, p, s)
	assert.InDelta(t, 6.35, out.Figures["given_back"], 1e-12)
	line := func(p pattern.Pattern, name string) float64 { return p.Length(p.Line(name).Parts) }
	assert.InDelta(t, line(p, "hem line")+6.35, line(out.Pattern, "hem line"), 1e-9)
	assert.InDelta(t, line(p, "top line"), line(out.Pattern, "top line"), 1e-9, "nothing at the top")
	assert.InDelta(t, 103.175, lengthOf(t, out.Pattern, "left", "hem"), 1e-9)
	assert.InDelta(t, 83.175, lengthOf(t, out.Pattern, "right", "hem"), 1e-9)
	assert.NotContains(t, out.Figures, "partner_difference.join", "both sides grow alike")
	assert.Contains(t, s.Sentence(), "half of it at")

	// The same as adding twice.
	one := applied(t, p, &Add{EdgeEnd: endOf("left", "side", pattern.Start), Amount: Lit(3.175)})
	two := applied(t, one.Pattern, &Add{EdgeEnd: endOf("right", "front", pattern.End), Amount: Lit(3.175)})
	assert.Equal(t, two.Pattern, out.Pattern)
}

func TestShareOutInUnequalParts(t *testing.T) {
	p := twoBoxes()
	quarter := 0.25
	s := &ShareOut{Amount: Lit(-4), Onto: []Share{
		{EdgeEnd: endOf("left", "side", pattern.Start), Part: &quarter},
		{EdgeEnd: endOf("left", "front", pattern.End)},
	}}
	out := applied(t, p, s)
	assert.InDelta(t, 100-4, lengthOf(t, out.Pattern, "left", "hem"), 1e-9, "both ends of one hem in one step")
	assert.InDelta(t, -4, out.Figures["given_back"], 1e-12)
	assert.LessOrEqual(t, out.Pattern.Piece("left").Edge("hem").Path.Start().Dist(geom.Pt(3, 0)), 1e-9)

	s.Onto[1].Part = &quarter
	out = applied(t, p, s)
	assert.InDelta(t, -2, out.Figures["given_back"], 1e-12)
	assert.Contains(t, out.Notes[len(out.Notes)-1], "not given back")
	much := 0.9
	s.Onto[0].Part = &much
	assert.Contains(t, refusal(t, p, s), "add up to 1.15")
	assert.Contains(t, refusal(t, p, &ShareOut{Amount: Lit(1)}), "onto")
}

func TestAddToAnyFrame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, name := frame(t)
		cradle, side, hem, top := name(patterntest.Cradle), name("side"), name("hem"), name("top")
		amount := rapid.Float64Range(-8, 12).Draw(t, "amount")
		out := applied(t, p, &Add{EdgeEnd: endOf(cradle, side, pattern.Start), Amount: Lit(amount)})
		require.InDelta(t, lengthOf(t, p, cradle, hem)+amount, lengthOf(t, out.Pattern, cradle, hem), 1e-8)
		require.Equal(t, p.Seams, out.Pattern.Seams)
		require.Equal(t, p.Lines, out.Pattern.Lines)
		require.LessOrEqual(t, p.Piece(cradle).Edge(top).Path.Start().Dist(out.Pattern.Piece(cradle).Edge(side).Path.End()), 1e-9)
		sameExcept(t, p, out.Pattern, cradle+"."+hem, cradle+"."+side)
		if growth := out.Pattern.Piece(cradle).Area() - p.Piece(cradle).Area(); math.Abs(amount) > 0.01 {
			require.Greater(t, growth*amount, 0.0)
		}
	})
}
