package demo

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// What was begun here as a plain shape is no older pattern: whatever is made of
// it needs no mark, where a piece of the Tern does.
func TestAPieceBegunHereNeedsNoMark(t *testing.T) {
	middle := func(edge string) pattern.Spot { return pattern.Spot{Edge: edge, Along: pattern.Along{Share: 0.5}} }
	split := func(piece, from, to string) *step.Split {
		return &step.Split{Piece: piece, Right: piece + " part", Name: piece + " seam", From: middle(from), To: middle(to)}
	}
	_, results, err := step.Recipe(nil).Append(tern(t),
		step.Entry{ID: "strip", Step: &step.Plain{Name: "strip", Width: step.Lit(300), Height: step.Lit(40), Allowance: step.Lit(6)}},
		step.Entry{ID: "halves", Step: split("strip", "bottom", "top")},
		step.Entry{ID: "band", Step: split("band", "hem", "top")},
	)
	require.NoError(t, err)
	for _, r := range results {
		unmarked := map[string]bool{}
		for _, c := range check.Run(r.Before, r.Size.Pattern, check.Defaults()) {
			if c.ID == check.AlteredMark {
				unmarked[c.Piece] = true
			}
		}
		require.Equal(t, map[string]bool{"band": true, "band part": true}, unmarked, r.Size.Label)
	}
}
