package desk

import (
	"fmt"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/step"
	"truemat/ops/store"
)

func TestUndoAndRedoShowWhatAReplayWouldShow(t *testing.T) {
	d := tern(t)
	fresh := func(when string) {
		t.Helper()
		require.Equal(t, d.Document().Results(), d.Results(), when)
		require.LessOrEqual(t, len(d.past), 2*pastMost+1)
	}
	const most = 2*pastMost + 4
	for i := range most {
		require.NoError(t, d.Accept(&step.Mark{Piece: "band", Text: fmt.Sprint(i)}))
	}
	for i := range most {
		require.True(t, d.Undo())
		if i%5 == 0 {
			fresh("undone")
		}
	}
	require.False(t, d.Undo())
	fresh("at the start")
	for range pastMost + 2 {
		require.True(t, d.Redo())
	}
	fresh("redone")
	require.True(t, d.Undo())
	require.NoError(t, d.Accept(&step.Mark{Piece: "cradle", Text: "another way"}))
	fresh("another way")
	assert.False(t, d.CanRedo())
	require.True(t, d.Undo())
	fresh("before it")
	require.True(t, d.Redo())
	fresh("it again")
}

func TestStatesOfTheSizesAreThoseOfTheMomentTheyWereAskedFor(t *testing.T) {
	d := inLace(t)
	want := d.SizeStates()
	judge, done := d.Judge(), make(chan []SizeState)
	go func() { done <- judge() }()
	require.NoError(t, d.Switch("tape", true)) // what the judge reads stays as it was
	assert.Equal(t, want, <-done)
	assert.NotEqual(t, want, d.SizeStates())
}

func TestEditsShowWhatAReplayOfTheWholeRecipeWouldShow(t *testing.T) {
	d := inLace(t)
	fresh := func() {
		t.Helper()
		require.Equal(t, d.Document().Results(), d.Results())
	}
	for i := range pastMost + 4 { // one move, pushed on further than versions are kept
		require.NoError(t, d.Accept(move("band", 1, float64(i))))
	}
	fresh()
	recipe := d.Document().Recipe
	require.NoError(t, d.Accept(move("frame", 1, 0)))
	require.NoError(t, d.Accept(move("band", 0, 5)))
	fresh()
	require.Len(t, d.Document().Recipe, len(recipe)+1)
	for _, id := range []string{"tape", "share-out", recipe[len(recipe)-1].ID} {
		require.NoError(t, d.Switch(id, true))
		fresh()
		require.NoError(t, d.Switch(id, false))
		fresh()
	}
	require.NoError(t, d.Remove(recipe[len(recipe)-1].ID))
	fresh()
	require.True(t, d.Undo())
	fresh()
	e := entry(t, d, "tape")
	e.Sizes = []string{d.Size()}
	require.NoError(t, d.Replace(e))
	fresh()
}

// offAndOn takes all steps of a desk off one by one and up again.
func offAndOn(t *testing.T, d *Desk) {
	t.Helper()
	before, steps := bytesOf(t, d), d.Document().Recipe
	require.False(t, d.CanRedo())
	for i := len(steps); i > 0; i-- {
		require.Len(t, d.Document().Recipe, i)
		require.True(t, d.Undo())
	}
	require.False(t, d.Undo())
	untouched, err := New(store.Document{Source: d.Document().Source}, "")
	require.NoError(t, err)
	require.Equal(t, untouched.Pattern(), d.Pattern())
	require.Equal(t, bytesOf(t, untouched), bytesOf(t, d))
	for range steps {
		require.True(t, d.Redo())
	}
	require.False(t, d.Redo())
	require.Equal(t, before, bytesOf(t, d))
}

func TestStepsOfAnOpenedDocumentAreTakenOffOneByOne(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.truemat")
	require.NoError(t, inLace(t).Save(path))
	doc, err := store.Load(path)
	require.NoError(t, err)
	d, err := New(doc, path)
	require.NoError(t, err)
	require.NotEmpty(t, doc.Recipe)
	offAndOn(t, d)
	require.False(t, d.Unsaved(), "it is again what is on disk")
	require.False(t, d.WorthKeeping())
	require.True(t, d.Undo())
	require.True(t, d.WorthKeeping())
	require.NoError(t, d.Accept(&step.Mark{Piece: "band", Text: "another way"}))
	require.True(t, d.WorthKeeping(), "as many steps, but another last one")
	require.True(t, d.Undo())
	require.True(t, d.WorthKeeping())
}

func TestWhatWasNeverAlteredIsNothingToLose(t *testing.T) {
	for _, d := range []*Desk{tern(t), inLace(t)} {
		require.False(t, d.WorthKeeping())
		require.NoError(t, d.Accept(move("band", 1, 1)))
		require.True(t, d.WorthKeeping())
		require.True(t, d.Undo())
		require.False(t, d.WorthKeeping())
	}
	d := inLace(t)
	require.True(t, d.Undo())
	require.NoError(t, d.Accept(&step.Mark{Piece: "band", Text: "mine"}))
	require.True(t, d.WorthKeeping(), "as many steps as it came with, but another one")
}
