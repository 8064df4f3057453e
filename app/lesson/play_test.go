package lesson

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/ops/demo"
	"truemat/ops/step"
	"truemat/ops/store"
)

func TestPlayGoesForwardsAndBackwardsAndChangesNothing(t *testing.T) {
	d := tern(t, demo.TernInLace())
	var before, after bytes.Buffer
	require.NoError(t, store.Write(&before, d.Document()))
	changes := 0
	d.OnChange(func() { changes++ })

	p := Play(d)
	require.Equal(t, 0, p.At())
	require.Equal(t, "The pattern as it came in.", p.Sentence())
	require.False(t, p.Back())
	require.NotNil(t, d.Pattern().Piece(cradle))
	var told []string
	for p.Forward() {
		told = append(told, p.Sentence())
	}
	require.Len(t, told, p.Of())
	for i, rep := range d.Reports() {
		require.Equal(t, rep.Sentence, told[i])
	}
	require.Contains(t, strings.Join(told, "\n"), "Give back the overlap of step 7:", "by its place in the list")
	require.Contains(t, strings.Join(told, "\n"), "lies on the line of hem of bridge.")
	require.NotEmpty(t, frame(d.Pattern()).Marks)
	require.Equal(t, 1+p.Of(), changes)

	tape := d.Document().Recipe.Index("tape")
	require.True(t, p.Go(tape+1))
	require.NotNil(t, frame(d.Pattern()))
	require.True(t, p.Back())
	require.Nil(t, frame(d.Pattern()))
	require.False(t, p.Go(p.Of()+1))
	require.False(t, p.Go(-1))
	require.Equal(t, tape, p.At())
	p.Stop()
	require.Equal(t, -1, d.Looking())
	require.Equal(t, p.Of(), p.At())

	require.NoError(t, store.Write(&after, d.Document()))
	require.Equal(t, before.String(), after.String())
}

func TestPlayTellsWhyAStepDidNothing(t *testing.T) {
	recipe := demo.TernInLace()
	recipe[recipe.Index("tape")].Off = true
	recipe[recipe.Index("mark")].Sizes = []string{"75C"}
	d := tern(t, recipe)
	p := Play(d)
	sentence := func(id string) string {
		require.True(t, p.Go(recipe.Index(id)+1))
		return p.Sentence()
	}
	require.Contains(t, sentence("tape"), "switched off")
	require.Contains(t, sentence("straight-hem"), `cannot be done here: there is no piece "frame"`)
	require.Contains(t, sentence("mark"), "not meant for size "+d.Size())
	require.Equal(t, step.Applied, d.Reports()[0].State)
	require.NotContains(t, sentence(recipe[0].ID), "cannot")
}

func TestPlayOfNoStepsStandsStill(t *testing.T) {
	p := Play(tern(t, nil))
	require.False(t, p.Forward())
	require.False(t, p.Back())
	require.Zero(t, p.Of())
}
