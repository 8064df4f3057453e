package step_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/walk"
)

// A notch moved across from its partner meets it in every size, also where the
// sides were drawn apart by an earlier step; nothing else changes.
func TestANotchIsMovedAcrossFromItsPartnerInEverySize(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	partner := pattern.AtNotch("lower outer cup", "cross")
	off := &step.Notch{Act: step.MoveNotch, Piece: "lower outer cup", Name: "cross", Edge: "cross seam", MM: step.Lit(21)}
	move := &step.Notch{Act: step.MoveNotch, Piece: "upper outer cup", Name: "cross", Seam: "cross seam", Spot: &partner}
	require.Equal(t, `Move notch "cross" of upper outer cup to lie across from notch "cross" of lower outer cup in cross seam.`, step.Told(move, run.Sizes[0].Pattern))
	recipe, _, err := step.Recipe{}.Append(run, step.Entry{ID: "off", Step: off}, step.Entry{ID: "move", Step: move})
	require.NoError(t, err)
	b, err := json.Marshal(recipe[1])
	require.NoError(t, err)
	var again step.Entry
	require.NoError(t, json.Unmarshal(b, &again))
	require.Equal(t, recipe[1], again)
	was := step.Recipe(recipe[:1]).Replay(run)
	for i, r := range recipe.Replay(run) {
		p := r.Size.Pattern
		pairs := walk.Pairs(p, *p.Seam("cross seam"))
		require.Len(t, pairs, 1)
		wk, err := walk.Seam(p, "cross seam", walk.Way{})
		require.NoError(t, err)
		require.InDelta(t, wk.On(walk.A, pairs[0].B), pairs[0].A, 1e-9, r.Size.Label)
		before := walk.Pairs(was[i].Size.Pattern, *p.Seam("cross seam"))[0]
		require.Greater(t, max(before.A-before.B, before.B-before.A), 2.0, "they missed each other before")
		require.NoError(t, p.Validate())
		for _, pc := range p.Pieces {
			if pc.Name != "upper outer cup" {
				require.Equal(t, *was[i].Size.Pattern.Piece(pc.Name), pc)
			}
		}
	}
}

func TestANotchAcrossFromWhatIsNotSewnThereIsRefused(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	in := step.Input{Size: run.Sizes[0].Label, Pattern: run.Sizes[0].Pattern}
	partner := pattern.AtNotch("lower outer cup", "cross")
	hem := pattern.AtEnd("band", "hem", pattern.Start)
	for want, n := range map[string]*step.Notch{
		"not inner cup, which is to carry":       {Act: step.AddNotch, Piece: "inner cup", Name: "a", Seam: "cross seam", Spot: &partner},
		"is not sewn in":                         {Act: step.MoveNotch, Piece: "upper outer cup", Name: "cross", Seam: "cross seam", Spot: &hem},
		"no seam":                                {Act: step.MoveNotch, Piece: "upper outer cup", Name: "cross", Seam: "none", Spot: &partner},
		"across from what on the other side":     {Act: step.MoveNotch, Piece: "upper outer cup", Name: "cross", Edge: "cross seam", Seam: "cross seam"},
		"leave out \"from\", \"mm\" and \"share": {Act: step.MoveNotch, Piece: "upper outer cup", Name: "cross", Seam: "cross seam", Spot: &partner, MM: step.Lit(3)},
	} {
		_, err := n.Apply(in)
		require.ErrorContains(t, err, want)
	}
}

// A notch that is added or moved onto another, or hardly beside it, is told to be.
func TestANotchOnAnotherIsTold(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	p := run.Sizes[0].Pattern
	pc := p.Piece("upper outer cup")
	at := pc.Notch("cross").At(pc.Edge("cross seam").Length())
	for off, told := range map[float64]bool{0: true, 2: true, 8: false} {
		n := &step.Notch{Act: step.AddNotch, Piece: pc.Name, Name: "mine", Edge: "cross seam", MM: step.Lit(at + off)}
		out, err := n.Apply(step.Input{Size: run.Sizes[0].Label, Pattern: p})
		require.NoError(t, err)
		require.Equal(t, told, len(out.Notes) > 0, out.Notes)
		if told {
			require.Contains(t, out.Notes[0], "they can hardly be told apart")
		}
	}
}
