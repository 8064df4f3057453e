package tool_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

func TestAnEdgeIsSaidToBeTheFoldByTheAllowanceTool(t *testing.T) {
	d := tern(t, 0)
	require.NoError(t, d.Accept(&step.Plain{Name: "gore", Width: step.Lit(30), Height: step.Lit(50), Allowance: step.Lit(6)}))
	tl := tool.NewAllowance(d)
	press(tl, midEdge(t, d, "gore", "right", 0.4))
	require.NoError(t, tl.Set("width", "8 mm"))
	require.NoError(t, tl.Set("role", "fold"))
	require.Equal(t, []step.Step{&step.Allow{Piece: "gore", Edge: "right", Role: pattern.Fold}}, tl.Proposal(), "a fold has no width")
	accept(t, d, tl)
	require.Equal(t, "right", d.Pattern().Piece("gore").Fold().Name)

	f := tool.NewFold(d)
	press(f, midEdge(t, d, "gore", "bottom", 0.5))
	require.IsType(t, &step.Unfold{}, f.Proposal()[0])
}

func TestAllowanceMatchesTheEndsToThePressing(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewAllowance(d)
	press(tl, midEdge(t, d, "cradle", "side seam", 0.4))
	assert.Equal(t, "not said", field(t, tl, "press").Text)
	assert.Equal(t, []string{"not said", "open", "to cradle", "to band"}, field(t, tl, "press").Options)
	require.NoError(t, tl.Set("press", "to cradle"))
	require.Equal(t, []step.Step{&step.Allow{Seam: "side seam", Press: pattern.PressedToA}}, tl.Proposal())
	assert.Contains(t, notes(tl), "pressed to cradle")
	assert.Equal(t, "folds back along side seam", field(t, tl, "end").Text)
	assert.Equal(t, "folds back along hem", field(t, tl, "start").Text, "the hem is turned up as one")
	was, err := d.Pattern().Piece("band").CutLine()
	require.NoError(t, err)
	res, err := d.Try(tl.Proposal()...)
	require.NoError(t, err)
	now, err := res.Size.Pattern.Piece("band").CutLine()
	require.NoError(t, err)
	assert.NotEqual(t, was.String(), now.String(), "the cut line changes at once, on the partner too")

	// A width and the pressing in one go, accepted together and taken back as one.
	require.NoError(t, tl.Set("width", "10 mm"))
	require.Len(t, tl.Proposal(), 2)
	accept(t, d, tl)
	assert.Equal(t, pattern.PressedToA, d.Pattern().Seam("side seam").Press)
	assert.Equal(t, 10.0, d.Pattern().Piece("cradle").Edge("side seam").Allowance)
	press(tl, midEdge(t, d, "band", "side seam", 0.4))
	assert.Equal(t, "to cradle", field(t, tl, "press").Text)
	assert.Contains(t, field(t, tl, "end").Options, "follows the partner of side seam")
	assert.Equal(t, "follows the partner of side seam", field(t, tl, "start").Text)
	d.Undo()
	assert.Empty(t, d.Pattern().Seam("side seam").Press)

	// Several edges, or one without a seam, have nothing to press.
	tl.Reset()
	press(tl, midEdge(t, d, "band", "closure", 0.4))
	require.Error(t, tl.Set("press", "open"))
	for _, f := range tl.Fields() {
		assert.NotEqual(t, "press", f.Name)
	}
}

// Both sides of a seam get one width in one act, in however many pieces they are.
func TestAllowanceOfBothSidesOfASeam(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewAllowance(d)
	press(tl, midEdge(t, d, "inner cup", "vertical seam", 0.4))
	require.Equal(t, "stays", field(t, tl, "both").Text)
	require.NoError(t, tl.Set("width", "10 mm"))
	require.NoError(t, tl.Set("both", "as wide"))
	require.Equal(t, "as wide", field(t, tl, "both").Text)
	accept(t, d, tl)
	seam := d.Pattern().Seam("vertical seam")
	require.Greater(t, len(seam.A)+len(seam.B), 2)
	for _, pt := range slices.Concat(seam.A, seam.B) {
		_, e := d.Pattern().Edge(pt.Piece, pt.Edge)
		require.Equal(t, 10.0, e.Allowance, pt.Piece)
	}
	for _, c := range d.Checks() {
		require.False(t, c.ID == check.SeamAllowance && c.Seam == seam.Name && c.Verdict != check.Holds, c.Text)
	}
	d.Undo()

	// Where one side was altered alone, the other follows without a width typed.
	nine := step.Lit(9)
	require.NoError(t, d.Accept(&step.Allow{Piece: "cradle", Edge: "side seam", Width: &nine}))
	tl.Reset()
	press(tl, midEdge(t, d, "cradle", "side seam", 0.4))
	require.NoError(t, tl.Set("both", "as wide"))
	require.Equal(t, []step.Step{&step.Allow{Piece: "band", Edge: "side seam", Width: &nine}}, tl.Proposal())
	require.Error(t, tl.Set("both", "wider"))
	tl.Reset()
	press(tl, midEdge(t, d, "band", "closure", 0.4))
	require.Error(t, tl.Set("both", "as wide"), "sewn to nothing")
}

// Every corner end that is offered gives another cut line, or the one there is.
func TestEveryCornerEndIsOffered(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewAllowance(d)
	press(tl, midEdge(t, d, "cradle", "side seam", 0.4))
	seen := map[string]bool{}
	for _, o := range field(t, tl, "end").Options {
		require.NoError(t, tl.Set("end", o))
		p := d.Pattern()
		if steps := tl.Proposal(); steps != nil {
			res, err := d.Try(steps...)
			require.NoError(t, err, o)
			p = res.Size.Pattern
		}
		cut, err := p.Piece("cradle").CutLine()
		require.NoError(t, err, o)
		assert.Empty(t, cut.SelfCrossings(), o)
		seen[cut.String()] = true
	}
	assert.Len(t, field(t, tl, "end").Options, 9)
	assert.GreaterOrEqual(t, len(seen), 8)
}

func TestAllowanceIsNudgedByKeys(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewAllowance(d)
	require.False(t, tl.Key(tool.Key{Name: tool.Up, Step: 1}))
	press(tl, midEdge(t, d, "cradle", "side seam", 0.4))
	require.True(t, tl.Key(tool.Key{Name: tool.Up, Step: 1}))
	assert.Equal(t, "7.35 mm", field(t, tl, "width").Text)
	require.True(t, tl.Key(tool.Key{Name: tool.Down, Step: 10}))
	assert.Equal(t, "0 mm", field(t, tl, "width").Text)
	require.False(t, tl.Key(tool.Key{Name: tool.Left, Step: 1}))
	accept(t, d, tl)
	assert.Zero(t, d.Pattern().Piece("cradle").Edge("side seam").Allowance)
}
