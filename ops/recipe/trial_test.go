package recipe_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/recipe"
	"truemat/ops/step"
	"truemat/ops/store"
)

// cups cuts the inner cup, which puts a notch where the cut ends on what is sewn
// to it, and speaks of that notch; it unfolds the bridge and folds it again along
// the line that this left.
func cups(t *testing.T) step.Recipe {
	t.Helper()
	steps, err := store.ReadSteps(strings.NewReader(`[
		{"id": "cut", "do": "cut-off", "piece": "inner cup", "from": {"piece": "inner cup", "edge": "wire", "from": "start"},
		 "to": {"piece": "inner cup", "edge": "vertical seam", "mm": 110}, "keep": "right", "name": "neckline", "role": "neckline"},
		{"id": "walk", "do": "walk", "seam": "vertical seam", "drop": [{"on": "a", "spot": {"piece": "upper outer cup", "notch": "neckline end"}}]},
		{"id": "unfold", "do": "unfold", "piece": "bridge", "other": "her right"},
		{"id": "fold", "do": "fold", "piece": "bridge", "along": "fold"}]`))
	require.NoError(t, err)
	return steps
}

// What earlier steps make is known by doing them; left out, what they would have
// made is lacking for certain, and all that is there may stand for it.
func TestWhatEarlierStepsMakeIsKnownByDoingThem(t *testing.T) {
	run, steps := tern(t), cups(t)
	known := step.Recipe{}.Replay(run)
	require.Len(t, recipe.Lacks(steps, nil, known), 2, "by their names alone both may be lacking")
	trial := recipe.Try(run, nil, known, steps, nil)
	require.NoError(t, trial.Err)
	require.Empty(t, trial.Lacks)
	require.Empty(t, trial.May)

	none, err := steps[0].Clone() // makes notches as well, but not on that piece
	require.NoError(t, err)
	none.Step.(*step.CutOff).Name = "rim"
	trial = recipe.Try(run, nil, known, append(step.Recipe{none}, steps[1:]...), nil)
	require.NoError(t, trial.Err)
	require.Len(t, trial.Lacks, 1)
	l := trial.Lacks[0]
	require.Equal(t, step.Name{Kind: step.NameNotch, Piece: "upper outer cup", Name: "neckline end"}, l.Name)
	require.True(t, l.Sure)
	require.Equal(t, []string{"walk"}, l.Steps)
	require.Equal(t, "rim end", l.Near[0], "what the steps before it made is offered too")
	require.Subset(t, l.Near, []string{"side", "cross", "above apex"})
	require.Len(t, trial.May, 1, "of the line it is not known yet")

	trial = recipe.Try(run, nil, known, append(step.Recipe{none}, steps[1:]...), recipe.Map{l.Name: "rim end"})
	require.NoError(t, trial.Err)
	require.Empty(t, trial.Lacks)
	_, err = recipe.Open(run, nil, known, append(step.Recipe{none}, steps[1:]...), recipe.Map{l.Name: "rim end"})
	require.NoError(t, err)
}

// Why steps cannot be done though all names are there is told by the step.
func TestAStepThatCannotBeDoneIsToldByItsPlace(t *testing.T) {
	run, steps := tern(t), cups(t)
	known := step.Recipe{}.Replay(run)
	notch := step.Name{Kind: step.NameNotch, Piece: "upper outer cup", Name: "neckline end"}
	trial := recipe.Try(run, nil, known, steps[1:], recipe.Map{notch: "cross"})
	var failure *step.Failure
	require.True(t, errors.As(trial.Err, &failure), "%v", trial.Err)
	require.Equal(t, 0, trial.At)
	require.Empty(t, trial.Lacks, "the line of the fold is no reason")

	trial = recipe.Try(run, nil, known, step.Recipe{{ID: "mark", Step: &step.Mark{Pieces: []string{"front", "back"}, Text: "X"}}},
		recipe.Map{{Kind: step.NamePiece, Name: "front"}: "band", {Kind: step.NamePiece, Name: "back"}: "band"})
	var clash *recipe.Clash
	require.True(t, errors.As(trial.Err, &clash))
	require.Equal(t, "band", clash.To.Name)
}
