package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
	"truemat/ops/pattern"
)

// tapWord presses the first thing that says a word.
func tapWord(t *testing.T, o fyne.CanvasObject, word string) {
	t.Helper()
	var found *touch
	var walk func(fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		switch x := o.(type) {
		case *touch:
			if found == nil && textOf(x.body) == word {
				found = x
			}
		case *fyne.Container:
			for _, y := range x.Objects {
				walk(y)
			}
		}
	}
	walk(o)
	require.NotNil(t, found, word)
	test.Tap(found)
}

func typeInto(t *testing.T, w *Window, label, s string) {
	t.Helper()
	e := entryAfter(t, w.column.list, label)
	e.SetText(s)
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

func TestThingsAreRenamedInTheColumn(t *testing.T) {
	w := open(t, false)
	before := w.written(t)
	w.desk.Select(tool.Selection{Piece: "band"})
	typeInto(t, w, "Name", " back ")
	require.NotNil(t, w.desk.Pattern().Piece("back"))
	require.Equal(t, "back", w.desk.Selection().Piece)

	w.desk.Select(tool.Selection{Piece: "back", Edge: "hem"})
	typeInto(t, w, "Name", "lower edge")
	require.Equal(t, tool.Selection{Piece: "back", Edge: "lower edge"}, w.desk.Selection())
	typeInto(t, w, "Part of line", "whole hem")
	require.NotNil(t, w.desk.Pattern().Line("whole hem"))

	w.desk.Select(tool.Selection{Piece: "back", Edge: "side seam"})
	typeInto(t, w, "Sewn in", "flank")
	require.NotNil(t, w.desk.Pattern().Seam("flank"))

	w.desk.Select(tool.Selection{Piece: "back"})
	typeInto(t, w, "Name", "bridge")
	require.ErrorContains(t, w.column.wrong, "there already is a piece")
	for range 4 {
		w.undo()
	}
	require.Equal(t, before, w.written(t))
}

func TestSeamIsTakenApartAndPieceRemovedInTheColumn(t *testing.T) {
	w := open(t, false)
	w.desk.Select(tool.Selection{Piece: "band", Edge: "side seam"})
	tapWord(t, w.column.list, "Take it apart")
	require.Nil(t, w.desk.Pattern().Seam("side seam"))
	w.desk.Select(tool.Selection{Piece: "band"})
	tapWord(t, w.column.list, "Remove this piece")
	require.Nil(t, w.desk.Pattern().Piece("band"))
	w.undo()
	w.undo()
	require.NotNil(t, w.desk.Pattern().Seam("side seam"))

	w.desk.Select(tool.Selection{Piece: "cradle", Edge: "hem"})
	tapWord(t, w.column.list, "Forget this line")
	require.Nil(t, w.desk.Pattern().Line("hem"))
	w.desk.Select(tool.Selection{Piece: "band"})
	typeInto(t, w, "Mark", "OLD")
	require.Len(t, w.desk.Pattern().Piece("band").Marks, 1)
	typeInto(t, w, "Mark", "")
	require.Empty(t, w.desk.Pattern().Piece("band").Marks)
}

func TestDeleteTakesAwayWhatTheHandHasChosen(t *testing.T) {
	w := open(t, false)
	test.Tap(w.trayAt(t, "hand"))
	del := func() { w.key(&fyne.KeyEvent{Name: fyne.KeyDelete}) }
	w.desk.Select(tool.Selection{Piece: "band", Edge: "hem"})
	del()
	require.NotNil(t, w.desk.Pattern().Piece("band"), "an edge cannot be taken away")
	w.desk.Select(tool.Selection{Piece: "cradle", Notch: "side"})
	del()
	require.Nil(t, w.desk.Pattern().Piece("cradle").Notch("side"))
	w.desk.Select(tool.Selection{Piece: "band"})
	del()
	require.Nil(t, w.desk.Pattern().Piece("band"))
	w.undo()
	require.NotNil(t, w.desk.Pattern().Piece("band"))
}

func TestPieceIsCopiedAndEdgesAreTakenIntoALine(t *testing.T) {
	w := open(t, false)
	for _, name := range []string{"band copy", "band copy 2"} {
		w.desk.Select(tool.Selection{Piece: "band"})
		tapWord(t, w.column.list, "Copy this piece")
		require.NotNil(t, w.desk.Pattern().Piece(name))
	}
	w.desk.Select(tool.Selection{Piece: "band copy", Edge: "hem"})
	typeInto(t, w, "Begin a line", "long hem")
	w.desk.Select(tool.Selection{Piece: "band copy 2", Edge: "hem"})
	w.pickOf(t, "a line there is …").SetSelected("long hem")
	l := w.desk.Pattern().Line("long hem")
	require.Equal(t, &pattern.Line{Name: "long hem", Kind: pattern.LineHem, Count: 2,
		Parts: []pattern.Part{pattern.Whole("band copy", "hem"), pattern.Whole("band copy 2", "hem")}}, l)
	require.NotContains(t, strings.Join(texts(w.column.list), " "), "Begin a line", "it is in one already")
	require.Len(t, w.desk.Document().Recipe, 4)
}

func TestAFoldIsSaidToBeASeamAgainBesideTheMat(t *testing.T) {
	w := open(t, false)
	w.desk.Select(tool.Selection{Piece: "bridge", Edge: "fold"})
	w.show()
	pick := func(name, word string) {
		for _, o := range reachable(w.column.list) {
			if c, ok := o.(*choice); ok && (c.name == name || c.PlaceHolder == name) {
				c.SetSelected(word)
				return
			}
		}
		require.FailNow(t, "no list "+name)
	}
	require.Contains(t, strings.Join(texts(w.column.list), " "), "cut as a pair")
	pick("role of the edge", "seam")
	bridge := w.desk.Pattern().Piece("bridge")
	require.Nil(t, bridge.Fold())
	require.True(t, bridge.Cut.Pair)
	require.Positive(t, bridge.Edge("fold").Allowance)
	pick("sew it to …", "its mirror image")
	require.NotNil(t, w.desk.Pattern().Seam("fold"))
	require.NoError(t, w.desk.Pattern().Validate())
}
