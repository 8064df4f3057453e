package desk_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/app/desk"
	"truemat/ops/cloth"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
)

func TestUndoAndRedoSayWhatTheyDo(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	d, err := desk.New(store.Document{Source: run}, "")
	require.NoError(t, err)
	require.Empty(t, d.Undoes())
	require.Empty(t, d.Redoes())

	move := &step.Move{Piece: "band", DX: step.Lit(5), DY: step.Lit(0)}
	mark := &step.Mark{Pieces: []string{"band"}, Text: "ALTERED"}
	require.NoError(t, d.Accept(move))
	require.NoError(t, d.Accept(mark))
	require.Equal(t, "Undone: "+mark.Sentence(), d.Undoes())
	require.True(t, d.Undo())
	require.Equal(t, "Undone: "+move.Sentence(), d.Undoes())
	require.Equal(t, "Done again: "+mark.Sentence(), d.Redoes())
	require.True(t, d.Redo())

	id := d.Document().Recipe[0].ID
	require.NoError(t, d.Switch(id, true))
	require.Equal(t, "Step 1 is switched on again: "+move.Sentence(), d.Undoes())
	require.True(t, d.Undo())
	require.Equal(t, "Step 1 is switched off again: "+move.Sentence(), d.Redoes())
	e := d.Document().Recipe[0]
	e.Step = &step.Move{Piece: "band", DX: step.Lit(7), DY: step.Lit(0)}
	require.NoError(t, d.Replace(e))
	require.Equal(t, "Step 1 is as it was before: "+move.Sentence(), d.Undoes())
	require.True(t, d.Undo())
	require.Equal(t, "Step 1 is changed again: "+e.Step.Sentence(), d.Redoes())
	require.True(t, d.Redo())
	require.NoError(t, d.Remove(id))
	require.Equal(t, "Step 1 is back: "+e.Step.Sentence(), d.Undoes())
	require.True(t, d.Undo())
	require.Equal(t, "Step 1 is taken out again: "+e.Step.Sentence(), d.Redoes())
	require.True(t, d.Redo())
	level := &step.Level{Seam: "side seam", Bend: "b", Moves: pattern.Start}
	told := step.Told(level, d.Pattern())
	require.Contains(t, told, "altering band")
	require.NoError(t, d.Accept(level))
	require.Equal(t, "Undone: "+told, d.Undoes())
	require.Equal(t, told, d.Reports()[len(d.Reports())-1].Sentence)
	require.NoError(t, d.Switch(d.Document().Recipe[len(d.Document().Recipe)-1].ID, true))
	require.Equal(t, "Step 2 is switched on again: "+told, d.Undoes())
	goods := cloth.Goods{Cloths: []cloth.Cloth{{Name: "tulle", Width: 1500}}}
	require.NoError(t, d.SetGoods(goods))
	require.Equal(t, "Undone: a change in cloth and sewing.", d.Undoes())
}
