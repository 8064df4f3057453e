package tool_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

func overlapOf(t testing.TB, d *desk.Desk, s ...step.Step) float64 {
	t.Helper()
	res, err := d.Try(s...)
	require.NoError(t, err)
	return res.Reports[len(res.Reports)-1].Figures["overlap"]
}

func midEdge(t testing.TB, d *desk.Desk, piece, edge string, share float64) geom.Point {
	return spotAt(t, d, pattern.Spot{Piece: piece, Edge: edge, Along: pattern.Along{Share: share}})
}

func TestTapeJoinsTheEdgesThatArePressed(t *testing.T) {
	d := tern(t, 6)
	want := overlapOf(t, d, demo.TernInLace()[6].Step)
	require.InDelta(t, 6.5, want, 0.6)
	tl := tool.NewTape(d)
	press(tl, midEdge(t, d, "bridge", "cradle seam", 0.1)) // far from the cradle's edge
	assert.Nil(t, tl.Proposal())
	assert.Contains(t, tl.Hint(), "Now press the edge of another piece")
	press(tl, midEdge(t, d, "cradle", "bridge seam", 0.6))
	require.Len(t, tl.Proposal(), 1)
	require.NoError(t, tl.Set("name", "frame"))
	assert.InDelta(t, want, overlapOf(t, d, tl.Proposal()...), 1e-9)
	assert.Contains(t, notes(tl), "overlap "+unit.Format(want, unit.Millimetres))
	require.NoError(t, d.Accept(tl.Proposal()...))
	assert.Nil(t, tl.Proposal(), "the pieces are no more")
	tl.Reset()
	require.NotNil(t, d.Pattern().Piece("frame"))
	require.Nil(t, d.Pattern().Piece("bridge"))
}

func TestTapeOffersThePairThatMeets(t *testing.T) {
	d := tern(t, 6)
	want := overlapOf(t, d, demo.TernInLace()[6].Step)
	tl := tool.NewTape(d)
	assert.Contains(t, tl.Hint(), "cradle seam of bridge and bridge seam of cradle lie together")
	require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
	require.NoError(t, tl.Set("name", "  frame "))
	tape, ok := tl.Proposal()[0].(*step.Tape)
	require.True(t, ok)
	assert.Equal(t, step.EdgeEnd{Piece: "bridge", Edge: "cradle seam", End: pattern.End}, tape.A)
	assert.Equal(t, "frame", tape.Name)
	assert.InDelta(t, want, overlapOf(t, d, tape), 1e-9)

	require.Error(t, tl.Set("name", "band"), "there is one already")
	require.Error(t, tl.Set("name", " "))
	require.Error(t, tl.Set("name", strings.Repeat("x", 61)))
	require.NoError(t, tl.Set("end", "at the hem"))
	assert.Contains(t, tl.Hint(), "pinned ends must meet")
	assert.Contains(t, notes(tl), "apart")
	assert.True(t, tl.Reset())
	assert.Nil(t, tl.Proposal())
	assert.False(t, tl.Reset())
}

func TestTapeSaysHowFarEdgesLieApart(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewTape(d)
	for _, e := range [][2]string{{"cradle", "side seam"}, {"band", "side seam"}} {
		walkTo(t, tl, e[0])
		require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
		walkTo(t, tl, e[1]+" of "+e[0])
		require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
	}
	require.NotNil(t, tl.Proposal())
	assert.Contains(t, tl.Hint(), "lay")
	require.Error(t, d.Accept(tl.Proposal()...))
}

func notes(tl tool.Tool) string {
	var all []string
	for _, n := range tl.Overlay().Notes {
		all = append(all, n.Text)
	}
	return strings.Join(all, "; ")
}

// While the edges are chosen the piece on top is seen through, both edges are
// named and numbered; what the overlap takes is measured, not told as a fault.
func TestTapeTellsWhatIsMeant(t *testing.T) {
	d := tern(t, 6)
	tl := tool.NewTape(d).(*tool.Tape)
	assert.Equal(t, map[string]bool{"cradle": true}, tl.Traced())
	o := tl.Overlay()
	require.Len(t, o.Signs, 2)
	assert.Equal(t, "1", o.Signs[0].Text)
	assert.Contains(t, notes(tl), "1  cradle seam of bridge; 2  bridge seam of cradle")
	press(tl, o.Signs[0].At)
	assert.Equal(t, map[string]bool{"cradle": true}, tl.Traced())
	require.Len(t, tl.Overlay().Signs, 1, "the one that is left to press")
	press(tl, o.Signs[1].At)
	assert.Nil(t, tl.Traced())

	require.Equal(t, "frame", field(t, tl, "name").Text)
	o = tl.Overlay()
	measured := 0
	for _, s := range o.Strokes {
		assert.NotEqual(t, tool.Poor, s.Style)
		if s.Style == tool.Measured {
			measured++
			assert.InDelta(t, overlapOf(t, d, tl.Proposal()...), s.Path.Length(), 0.1)
		}
	}
	assert.Equal(t, 1, measured)
	for _, dot := range o.Dots {
		assert.NotEqual(t, tool.Poor, dot.Style)
	}

	before := d.Pattern()
	told := tl.Tells()
	require.Len(t, told, 2)
	require.NoError(t, d.Accept(tl.Proposal()...))
	after := d.Pattern()
	mm := func(v float64) string { return unit.Format(v, unit.Millimetres) }
	hem, was := after.Length(after.Line("hem").Parts), before.Length(before.Line("hem").Parts)
	assert.Equal(t, "hem from fold to closure "+mm(hem)+", "+mm(was-hem)+" shorter", told[0])
	assert.Equal(t, "wire line "+mm(after.Length(after.Line("wire line").Parts))+", as before", told[1])
}

// Where two edges lie on each other each is taken by its number; that one of them
// stands over, and that one piece is cut in pairs, is told before it is accepted.
func TestTapeTakesTheEdgeWhoseNumberIsPressed(t *testing.T) {
	for first := range 2 {
		d := tern(t, 0)
		require.NoError(t, d.Accept(&step.Plain{Name: "gusset", Width: step.Lit(80), Height: step.Lit(90)},
			&step.Place{Piece: "gusset", Edge: "left", End: pattern.Start, Onto: &step.EdgeEnd{Piece: "band", Edge: "closure", End: pattern.End}}))
		tl := tool.NewTape(d)
		require.Contains(t, tl.Hint(), "closure of band and left of gusset lie together", "not what only runs on")
		o := tl.Overlay()
		require.Len(t, o.Signs, 2)
		press(tl, o.Signs[first].At.Add(geom.Pt(0.3, 0.4)))
		require.Len(t, tl.Overlay().Signs, 1)
		press(tl, tl.Overlay().Signs[0].At)
		require.Len(t, tl.Proposal(), 1, "%s", tl.Hint())
		tape := tl.Proposal()[0].(*step.Tape)
		require.Equal(t, []string{"band", "gusset"}[first], tape.A.Piece, "the one pressed first")
		over := d.Pattern().Piece("gusset").Edge("left").Length() - d.Pattern().Piece("band").Edge("closure").Length()
		require.Contains(t, tl.Hint(), "left of gusset is "+unit.Format(over, unit.Millimetres)+" longer and stands over, which leaves a corner in the outline.")
		require.Contains(t, tl.Hint(), "What is joined is cut in pairs, as band is.")
		require.Contains(t, tl.Hint(), "It keeps the arrow of "+[]string{"band", "gusset"}[first]+", the first of the two; that of "+[]string{"gusset", "band"}[first])
		require.NoError(t, d.Accept(tape))
		require.True(t, d.Pattern().Piece(tape.Name).Cut.Pair)
	}
}

// The joined piece is offered a name that no piece has, old ones included.
func TestTapeOffersANewName(t *testing.T) {
	d := tern(t, 6)
	require.NoError(t, d.Accept(&step.Rename{Piece: "band", To: "frame"}))
	tl := tool.NewTape(d)
	require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
	require.Equal(t, "frame 2", field(t, tl, "name").Text)
	require.NoError(t, tl.Set("name", "bridge"), "but she may keep the old one")
	require.NoError(t, d.Accept(tl.Proposal()...))
	require.NotNil(t, d.Pattern().Piece("bridge"))
	require.Nil(t, d.Pattern().Piece("cradle"))
}
