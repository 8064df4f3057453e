package window

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/demo"
)

func TestClothsAreTakenShownAndTakenBack(t *testing.T) {
	w := open(t, true)
	w.clothPage()
	require.Contains(t, strings.Join(texts(w.sheet.pop.Content), " "), "Nothing is said yet")
	before := w.written(t)

	goods, err := json.Marshal(demo.Goods())
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "goods.json")
	require.NoError(t, os.WriteFile(path, goods, 0o644))
	require.NoError(t, w.takeGoods(path))
	w.clothPage()
	said := strings.Join(texts(w.sheet.pop.Content), " ")
	for _, want := range []string{"heron lace", "repeats every 96 mm", "elastic 10 mm wide", "Plan of power net"} {
		require.Contains(t, said, want)
	}
	require.NotContains(t, said, "Nothing is said yet")

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
