package tool_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

const lowerCup = "lower outer cup"

var lowerApex = pattern.AtEnd(lowerCup, "cross seam", pattern.End)

func TestSpreadByPullingTheHandle(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewSpread(d)
	from, apex := midEdge(t, d, lowerCup, "wire", 0.5), spotAt(t, d, lowerApex)
	press(tl, from)
	drag(tl, from.Lerp(apex, 0.5))
	drag(tl, apex)
	release(tl, apex)
	require.Empty(t, tl.Proposal(), "nothing opens by itself")
	r := from.Dist(apex)
	turn := geom.Angle(2 * math.Asin(8/(2*r)))
	press(tl, from)
	to := geom.Turn(turn, apex).Apply(from)
	drag(tl, from.Lerp(to, 0.4))
	drag(tl, to)
	release(tl, to)
	s := tl.Proposal()[0].(*step.Spread)
	amount, err := s.Amount.In(step.Input{})
	require.NoError(t, err)
	assert.InDelta(t, 8, amount, 0.051)
	assert.Contains(t, notes(tl), "opens 8 mm")
	assert.Contains(t, tl.Hint(), "differ at wire seam by")
	assert.Contains(t, notes(tl), "(+7.")
	assert.NotContains(t, tl.Hint(), "fair takes", "only beside what it concerns")
	assert.Regexp(t, `Wire is made fair, which takes 0\.\d+ mm`, tl.Hint())
	turned := fmt.Sprintf("The arrow stays, and the part that turns under it is cut %.1f° askew.", turn.Degrees())
	assert.Contains(t, tl.Hint(), turned)
	require.NoError(t, tl.Set("page", "the edge"))
	assert.Contains(t, tl.Hint(), turned)
	assert.Regexp(t, `Making wire fair takes 0\.\d+ mm of what opens`, tl.Hint())
	require.NoError(t, tl.Set("fair", "no"))
	assert.NotContains(t, tl.Hint(), "fair takes")
	rep := reported(t, d, tl.Proposal()...)
	assert.InDelta(t, 2*math.Asin(8/(2*r))*180/math.Pi, rep.Figures["degrees"], 1e-6)

	// The handle lies where it was pulled to, and pulls on from there.
	press(tl, to)
	drag(tl, from)
	release(tl, from)
	assert.Empty(t, tl.Proposal())
	require.NoError(t, tl.Set("length", "70"))
	require.NoError(t, tl.Set("fair", "20"))
	accept(t, d, tl)
	assert.InDelta(t, 70, d.Pattern().Piece(lowerCup).Edge("wire").Length(), 1e-6)
}

func TestSpreadByKeysAlone(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewSpread(d)
	choose(t, tl, lowerCup, "wire of "+lowerCup)
	require.True(t, tl.Key(tool.Key{Name: tool.Right, Step: 10}))
	wire := d.Pattern().Piece(lowerCup).Edge("wire").Length()
	walkTo(t, tl, "corner of cross seam and vertical seam of "+lowerCup)
	require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
	for range 4 {
		require.True(t, tl.Key(tool.Key{Name: tool.Up, Step: 1}))
	}
	s := tl.Proposal()[0].(*step.Spread)
	assert.InDelta(t, wire/2+10, s.Slashes[0].From.At(wire), 1e-9)
	require.Len(t, s.Slashes, 1)
	assert.Equal(t, "4 mm", field(t, tl, "amount").Text)

	// A hinge inside, and what closes about it.
	require.NoError(t, tl.Set("depth", "40"))
	require.Empty(t, tl.Proposal(), "something has to close")
	require.NoError(t, tl.Set("close", "cross seam"))
	require.NoError(t, tl.Set("degrees", "5"))
	s = tl.Proposal()[0].(*step.Spread)
	rep := reported(t, d, s)
	assert.InDelta(t, 5, rep.Figures["degrees"], 1e-9)
	assert.InDelta(t, 2*40*math.Sin(2.5*math.Pi/180), rep.Figures["opened"], 1e-6, "the hinge is 40 mm from the edge")
	require.NoError(t, tl.Set("stays", "towards cross seam"))
	require.NotNil(t, tl.Proposal()[0].(*step.Spread).Hold)
	reported(t, d, tl.Proposal()...)
	require.NoError(t, tl.Set("depth", "on the edge"))
	back := reported(t, d, tl.Proposal()...)
	assert.Greater(t, back.Figures["opened"], rep.Figures["opened"], "the same angle about the corner, which is further off")

	for f, junk := range map[string]string{"amount": "x", "degrees": "much", "length": "-3", "fair": "1e9", "close": "the shop", "stays": "all", "at": "0", "depth": "-4", "z": "1"} {
		require.Error(t, tl.Set(f, junk), f)
	}
	require.True(t, tl.Key(tool.Key{Name: tool.Delete}))
	assert.Empty(t, tl.Proposal())
	assert.False(t, tl.Reset())
}

// A dart is left, and moved by pressing its point.
func TestSpreadLeavesADartAndMovesIt(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewSpread(d)
	const upper = "upper outer cup"
	press(tl, midEdge(t, d, upper, "underarm", 0.5))
	release(tl, midEdge(t, d, upper, "underarm", 0.5))
	apex := spotAt(t, d, pattern.AtEnd(upper, "vertical seam", pattern.End))
	press(tl, apex)
	release(tl, apex)
	require.NoError(t, tl.Set("leave", "a dart"))
	require.NoError(t, tl.Set("amount", "10"))
	assert.Equal(t, "12 mm", field(t, tl, "short").Text)
	accept(t, d, tl)
	require.NotNil(t, d.Pattern().Seam("dart"))

	tip := spotAt(t, d, pattern.AtEnd(upper, "dart first leg", pattern.End))
	press(tl, midEdge(t, d, upper, "wire", 0.5))
	release(tl, midEdge(t, d, upper, "wire", 0.5))
	press(tl, tip)
	release(tl, tip)
	require.NoError(t, tl.Set("page", "the slash"))
	assert.Equal(t, "dart", field(t, tl, "close").Text)
	require.NoError(t, tl.Set("leave", "a dart"))
	require.NoError(t, tl.Set("name", "side dart"))
	accept(t, d, tl)
	p := d.Pattern()
	require.Nil(t, p.Seam("dart"))
	require.NotNil(t, p.Seam("side dart"))
	for _, size := range d.Document().Source.Labels() {
		require.NoError(t, d.SetSize(size))
		require.NoError(t, d.Pattern().Validate())
	}
}

func TestSpreadSeveralSlashesAndAHingeInsideByPointer(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewSpread(d)
	for _, share := range []float64{0.3, 0.5, 0.7} {
		a, b := midEdge(t, d, "band", "top", share), midEdge(t, d, "band", "hem", 1-share)
		press(tl, a)
		release(tl, a)
		press(tl, b)
		release(tl, b)
	}
	require.NoError(t, tl.Set("amount", "15"))
	s := tl.Proposal()[0].(*step.Spread)
	require.Len(t, s.Slashes, 3)
	before := d.Pattern().Piece("band").Edge("hem").Length()
	rep := reported(t, d, s)
	assert.InDelta(t, 15, rep.Figures["opened"], 1e-9)
	require.NoError(t, tl.Set("shares", "1 : 2:1"))
	assert.Equal(t, "1 : 2 : 1", field(t, tl, "shares").Text)
	for i, want := range []float64{3.75, 7.5, 3.75} {
		v, err := tl.Proposal()[0].(*step.Spread).Slashes[i].Amount.In(step.Input{})
		require.NoError(t, err)
		assert.InDelta(t, want, v, 1e-9)
	}
	assert.InDelta(t, 15, reported(t, d, tl.Proposal()...).Figures["opened"], 1e-9)
	for _, junk := range []string{"1 : 2", "a : b : c", "0 : 1 : 1"} {
		require.Error(t, tl.Set("shares", junk))
	}
	require.NoError(t, tl.Set("shares", "evenly"))
	require.NoError(t, tl.Set("hinge", "15"))
	res, err := d.Try(tl.Proposal()...)
	require.NoError(t, err)
	assert.InDelta(t, before, res.Size.Pattern.Piece("band").Edge("hem").Length(), 1e-6)
	tl.Reset()

	press(tl, midEdge(t, d, lowerCup, "wire", 0.4))
	release(tl, midEdge(t, d, lowerCup, "wire", 0.4))
	in := spotAt(t, d, lowerApex).Lerp(midEdge(t, d, lowerCup, "wire", 0.5), 0.4)
	press(tl, in)
	release(tl, in)
	assert.Contains(t, tl.Hint(), "closes")
	press(tl, midEdge(t, d, lowerCup, "cross seam", 0.4))
	release(tl, midEdge(t, d, lowerCup, "cross seam", 0.4))
	require.NoError(t, tl.Set("degrees", "4"))
	s = tl.Proposal()[0].(*step.Spread)
	require.NotNil(t, s.Close.At)
	reported(t, d, s)
	accept(t, d, tl)
}

// A slash that misses its hinge, or leaves the piece on its way, is told at
// once, with what to do, and changes nothing.
func TestSpreadTellsOfAHingeThatCannotBeReached(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewSpread(d)
	press(tl, midEdge(t, d, lowerCup, "wire", 0.5))
	release(tl, midEdge(t, d, lowerCup, "wire", 0.5))
	press(tl, geom.Pt(400, 400))
	release(tl, geom.Pt(400, 400))
	assert.Contains(t, tl.Hint(), "lies outside "+lowerCup)
	assert.Contains(t, tl.Hint(), "press another edge of "+lowerCup)
	press(tl, spotAt(t, d, lowerApex))
	assert.Contains(t, tl.Hint(), "Pull the handle")

	tl = tool.NewSpread(d)
	from, to := midEdge(t, d, "cradle", "wire", 0.3), spotAt(t, d, pattern.AtEnd("cradle", "wire", pattern.Start))
	press(tl, from)
	release(tl, from)
	press(tl, to)
	release(tl, to)
	assert.Contains(t, tl.Hint(), "runs out of cradle")
	assert.Contains(t, tl.Hint(), "choose a hinge")
	assert.Empty(t, tl.Proposal())
	require.NoError(t, tl.Set("amount", "4"))
	assert.Contains(t, tl.Hint(), "runs out of cradle", "with an amount as well")
	require.Error(t, d.Accept(tl.Proposal()...))
	assert.Empty(t, d.Document().Recipe)
}

// A hinge on another edge bends that edge: it is told and marked before the
// spreading is kept, and what is told then is what the check finds.
func TestSpreadTellsTheCornerAtItsHinge(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewSpread(d)
	press(tl, midEdge(t, d, lowerCup, "wire", 0.5))
	release(tl, midEdge(t, d, lowerCup, "wire", 0.5))
	hinge := midEdge(t, d, lowerCup, "vertical seam", 0.5)
	press(tl, hinge)
	release(tl, hinge)
	require.NoError(t, tl.Set("amount", "10"))
	turn := reported(t, d, tl.Proposal()...).Figures["degrees"]
	told := fmt.Sprintf("At the hinge vertical seam turns by %.1f°", turn)
	assert.Contains(t, tl.Hint(), told+"; smooth takes it.")
	assert.Contains(t, notes(tl), fmt.Sprintf("turns %.1f°", turn))
	require.NoError(t, tl.Set("leave", "a dart"))
	assert.Contains(t, tl.Hint(), told+", also once the dart is sewn;")
	require.NoError(t, tl.Set("page", "the edge"))
	require.NoError(t, tl.Set("hinge", "15"))
	assert.NotContains(t, tl.Hint(), "At the hinge")
	require.NoError(t, tl.Set("hinge", "no"))
	accept(t, d, tl)
	found := ""
	for _, c := range check.Run(d.Before(0), d.Pattern(), check.Defaults()) {
		if c.ID == check.LineCorner && c.Edge == "vertical seam" {
			found = c.Text
			assert.Equal(t, check.Look, c.Verdict)
			assert.InDelta(t, turn, c.Measured, 1e-9)
			part, at, ok := check.CornerAt(d.Pattern(), c)
			require.True(t, ok)
			pc, e := d.Pattern().Edge(part.Piece, part.Edge)
			assert.InDelta(t, 0, pc.Pose.Apply(e.Path.At(at)).Dist(hinge), 1e-6)
		}
		if c.ID == check.ArrowTurned && c.Piece == lowerCup {
			assert.Contains(t, c.Text, "points as it did")
		}
	}
	assert.Contains(t, found, fmt.Sprintf("A corner of %.1f° has come into vertical seam of lower outer cup", turn))
}
