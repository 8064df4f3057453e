package check_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/ops/check"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// A half on the fold that was only laid open is no altered piece in any size; a
// notch or an edge of one half moved afterwards makes it one.
func TestAPieceLaidOpenNeedsNoMark(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	unmarked := func(steps ...step.Step) int {
		var entries []step.Entry
		for i, st := range steps {
			entries = append(entries, step.Entry{ID: fmt.Sprint("s", i), Step: st})
		}
		_, results, err := step.Recipe{}.Append(run, entries...)
		require.NoError(t, err)
		n := 0
		for i, r := range results {
			for _, c := range check.Run(run.Sizes[i].Pattern, r.Size.Pattern, check.Defaults()) {
				if c.ID == check.AlteredMark && c.Verdict == check.Look {
					n++
				}
			}
		}
		return n
	}
	open := &step.Unfold{Piece: "bridge"}
	require.Zero(t, unmarked(open))
	require.Equal(t, len(run.Sizes), unmarked(open, &step.Add{EdgeEnd: step.EdgeEnd{Piece: "bridge", Edge: "cradle seam other", End: pattern.Start}, Amount: step.Lit(1)}))
	width := step.Lit(3)
	require.Equal(t, len(run.Sizes), unmarked(open, &step.Allow{Piece: "bridge", Edges: []string{"hem"}, Width: &width}))
}
