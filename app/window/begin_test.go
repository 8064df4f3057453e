package window

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
	"truemat/ops/unit"
)

// typed types into fields of a form, as hands do.
func (f *form) typed(values map[string]string) {
	for name, v := range values {
		f.w.win.Canvas().Focus(f.fields[name])
		f.fields[name].SetText(v)
	}
}

func TestNewBeginsWithAPieceOfOnesOwn(t *testing.T) {
	w := open(t, false)
	w.setUnit(unit.Centimetres)
	was := w.written(t)
	f := w.newPage()
	w.shoot(t, "new-empty")
	require.Equal(t, f.fields["wide"], w.win.Canvas().Focused(), "the first measure that is asked has the keys")
	require.Contains(t, w.pageSays(), "dropped on the window")
	w.pressOnPage(t, "Begin with it")
	require.Contains(t, w.pageSays(), "Type its width")
	require.Equal(t, was, w.written(t), "nothing changes before the measures are there")

	f.typed(map[string]string{"pattern": "Heron", "name": "strap", "wide": "2.4", "high": "16 in", "allowance": "1/4 in"})
	require.Contains(t, w.pageSays(), "Cut 3.67 cm × 41.91 cm")
	f.how = cutPair
	w.shoot(t, "new-typed")
	f.fields["high"].OnSubmitted("") // Enter
	require.Nil(t, w.sheet)
	doc := w.desk.Document()
	require.Equal(t, "Heron", doc.Source.Name)
	strap := w.desk.Pattern().Piece("strap")
	require.NotNil(t, strap)
	assert.InDelta(t, 24, strap.Edge("top").Length(), 1e-9)
	assert.InDelta(t, 16*25.4, strap.Edge("left").Length(), 1e-9)
	assert.InDelta(t, 6.35, strap.Edge("left").Allowance, 1e-9)
	assert.Equal(t, pattern.Cut{Count: 1, Pair: true}, strap.Cut)
	assert.True(t, w.desk.WorthKeeping(), "it is on disk nowhere")

	path := filepath.Join(t.TempDir(), "heron.truemat")
	require.NoError(t, w.desk.Save(path))
	back, err := store.Load(path)
	require.NoError(t, err)
	require.Equal(t, doc.Source, back.Source, "it is read as it was begun")
}

func TestAWrongMeasureIsToldByItsFieldAndKeepsThePage(t *testing.T) {
	w := open(t, false)
	f := w.newPage()
	for field, c := range map[string][2]string{
		"wide":      {"0.2 mm", "between 1 mm and 5000 mm"},
		"high":      {"abc", "abc"},
		"allowance": {"300 mm", "not between 0 and 200 mm"},
		"count":     {"1.5", "whole number"},
		"name":      {" ", "needs a name"},
	} {
		f.typed(map[string]string{"name": "strap", "wide": "24 mm", "high": "40 mm", "allowance": "", "count": "2"})
		f.typed(map[string]string{field: c[0]})
		f.start()
		require.NotNil(t, w.sheet, field)
		require.Contains(t, w.pageSays(), c[1], field)
		require.Equal(t, f.fields[field], w.win.Canvas().Focused())
	}
}

func TestNewLeadsToFilesAndTheTern(t *testing.T) {
	w := open(t, true)
	w.newPage()
	w.pressOnPage(t, "Bring in a drawing")
	require.Contains(t, w.pageSays(), "Look at it")
	w.backOut()
	require.Nil(t, w.sheet)
	w.newPage()
	w.pressOnPage(t, "Open a document")
	require.Contains(t, w.pageSays(), "All files")
	w.backOut()
	w.newPage()
	w.pressOnPage(t, "The Tern")
	require.Nil(t, w.sheet)
	require.Empty(t, w.desk.Document().Recipe)
}

func TestAPlainPieceIsAddedToWhatLiesOnTheMat(t *testing.T) {
	w := open(t, false)
	w.desk.SetSize("75C")
	f := w.plainPage()
	f.typed(map[string]string{"name": "gore", "wide": "30 mm", "high": "50 mm", "allowance": "6 mm"})
	f.how = cutOnFold
	f.look()
	require.Contains(t, w.pageSays(), "unfolded it is 72 mm wide")
	w.shoot(t, "plain-typed")
	f.add()
	require.Nil(t, w.sheet)
	doc := w.desk.Document()
	require.Len(t, doc.Recipe, 1)
	require.IsType(t, &step.Plain{}, doc.Recipe[0].Step)
	gore := w.desk.Pattern().Piece("gore")
	require.NotNil(t, gore)
	require.NotNil(t, gore.Fold())
	for _, c := range w.desk.Checks() {
		require.Equal(t, check.Holds, c.Verdict, c.Text)
	}
	w.shoot(t, "plain-added")
	w.undo()
	require.Nil(t, w.desk.Pattern().Piece("gore"))

	f = w.plainPage()
	f.typed(map[string]string{"name": "band", "wide": "30 mm", "high": "50 mm"})
	f.add()
	require.Contains(t, w.pageSays(), "There is a piece of that name already")
	require.Equal(t, f.fields["name"], w.win.Canvas().Focused())
}
