package window

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"truemat/ops/demo"
)

func TestClothsAreTakenShownAndTakenBack(t *testing.T) {
	w := open(t, true)
	w.clothPage()
	said := func() string { return strings.Join(texts(w.sheet.pop.Content), " ") }
	require.Contains(t, said(), "No cloth is described yet")
	before := w.written(t)

	goods, err := json.Marshal(demo.Goods())
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "goods.json")
	require.NoError(t, os.WriteFile(path, goods, 0o644))
	require.NoError(t, w.takeGoods(path))
	require.Contains(t, said(), "power net", "the page follows")
	require.NotContains(t, said(), "No cloth is described yet")
	for part, want := range map[string]string{"Cloths": "heron lace", "To buy": "elastic 10 mm wide", "Plans": "the shortest possible", "Do they suit?": "stretches by 6 % at most"} {
		w.turnTo(t, part)
		require.Contains(t, said(), want)
	}

	w.desk.Undo()
	require.Equal(t, before, w.written(t))
	w.desk.Redo()
	require.Equal(t, demo.Goods(), w.desk.Goods())
}

func TestWrongClothsChangeNothing(t *testing.T) {
	w := open(t, true)
	before := w.written(t)
	for text, says := range map[string]string{
		`{"cloths": [{"name": "net"}]}`: "width",
		`{"cloths": [{"name": "net", "width": 9}], "made": [{"piece": "wing", "cloths": ["net"]}]}`: "wing",
		`[]`: "goods.json",
	} {
		path := filepath.Join(t.TempDir(), "goods.json")
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
		require.ErrorContains(t, w.takeGoods(path), says)
		require.Equal(t, before, w.written(t))
	}
}

func TestTheSheetIsSavedFromTheWindow(t *testing.T) {
	w := open(t, true)
	path := filepath.Join(t.TempDir(), "sheet.pdf")
	w.writeSheet(path)
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	require.True(t, bytes.HasPrefix(b, []byte("%PDF-")) && bytes.Contains(b, []byte("%%EOF")))
}

// turnTo shows a part of the page of cloth and sewing.
func (w *Window) turnTo(t *testing.T, part string) {
	t.Helper()
	for i, p := range clothParts() {
		if p.name == part {
			w.clothPageAt(i)
			return
		}
	}
	require.Fail(t, "no such part", part)
}

// Every part is reached by the arrows from its name, and Tab leads into it.
func TestThePartsOfClothAreReachedByKeys(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	w.clothPage()
	for i, p := range clothParts() {
		require.Equal(t, i, w.cloths.at, p.name)
		at, ok := w.win.Canvas().Focused().(*touch)
		require.True(t, ok)
		require.Equal(t, "part "+p.name, at.name)
		at.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	}
	w.backOut()
	require.Nil(t, w.sheet)
	w.clothPage()
	require.Equal(t, len(clothParts())-1, w.cloths.at, "the part seen last")
}
