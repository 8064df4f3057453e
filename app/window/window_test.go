package window

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"truemat/app/desk"
	"truemat/app/look"
	"truemat/app/tool"
	"truemat/ops/demo"
	"truemat/ops/store"
	"truemat/ops/unit"
)

func open(t *testing.T, altered bool) *Window {
	t.Helper()
	a := test.NewTempApp(t)
	run, err := demo.Tern()
	require.NoError(t, err)
	doc := store.Document{Source: run}
	if altered {
		doc.Recipe, _, err = doc.Recipe.Append(run, demo.TernInLace()...)
		require.NoError(t, err)
	}
	d, err := desk.New(doc, "")
	require.NoError(t, err)
	w := New(a, d)
	w.win.Resize(fyne.NewSize(1280, 800))
	return w
}

func (w *Window) written(t require.TestingT) string {
	var b bytes.Buffer
	require.NoError(t, store.Write(&b, w.desk.Document()))
	return b.String()
}

// trayAt returns the tool of that word in the tray.
func (w *Window) trayAt(t *testing.T, word string) *touch {
	t.Helper()
	require.Contains(t, w.inTray, word)
	return w.inTray[word]
}

// entryAfter returns the field of the column that stands behind a label.
func entryAfter(t *testing.T, o fyne.CanvasObject, label string) *entry {
	t.Helper()
	var found *entry
	var walk func(fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		c, ok := o.(*fyne.Container)
		if !ok {
			return
		}
		if len(c.Objects) == 2 && textOf(c.Objects[0]) == label {
			if e, ok := c.Objects[1].(*entry); ok {
				found = e
			}
		}
		for _, x := range c.Objects {
			walk(x)
		}
	}
	walk(o)
	require.NotNil(t, found, label)
	return found
}

func TestToolIsTakenUpByTapAndByLetter(t *testing.T) {
	w := open(t, false)
	test.Tap(w.trayAt(t, "tape"))
	require.Equal(t, "tape", w.tool().Name())
	w.rune('H')
	require.Equal(t, "hand", w.tool().Name())
	letters := map[rune]bool{'n': true, 'p': true}
	for _, x := range w.tools {
		a, ok := abouts[key(x.Name())]
		require.True(t, ok, "%s is explained", x.Name())
		require.Contains(t, look.Icons(), key(x.Name()))
		require.False(t, letters[a.letter], "letter %c is free", a.letter)
		letters[a.letter] = true
	}
}

func TestPieceIsPushedByKeysAndByTypedNumber(t *testing.T) {
	w := open(t, false)
	before := w.written(t)
	w.desk.Select(tool.Selection{Piece: "cradle"})
	w.win.Canvas().Focus(w.mat)
	w.key(&fyne.KeyEvent{Name: fyne.KeyRight})
	w.key(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.Len(t, w.desk.Document().Recipe, 1)
	pushed := w.written(t)

	box, ok := w.prompt.boxes["x"].(*entry)
	require.True(t, ok, "the hand has a field")
	test.Type(box, "")
	box.SetText("1/4")
	box.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.Nil(t, w.prompt.said)
	w.accept()
	typed := w.written(t)
	require.NotEqual(t, pushed, typed)

	for w.desk.CanUndo() {
		w.undo()
	}
	require.Equal(t, before, w.written(t), "undoing all gives the same bytes")
	for w.desk.CanRedo() {
		w.redo()
	}
	require.Equal(t, typed, w.written(t), "redoing all as well")
}

func TestNumberThatMeansNothingIsAnsweredBesideItsField(t *testing.T) {
	w := open(t, false)
	w.desk.Select(tool.Selection{Piece: "cradle"})
	before := w.written(t)
	box := w.prompt.boxes["x"].(*entry)
	box.SetText("wide")
	box.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.Contains(t, w.prompt.wrong.Text, "wide")
	require.Equal(t, before, w.written(t))
}

func TestAllowanceOfAnEdgeIsEditedInTheColumn(t *testing.T) {
	w := open(t, false)
	w.desk.Select(tool.Selection{Piece: "band", Edge: "hem"})
	e := entryAfter(t, w.column.list, "Allowance")
	e.SetText("1/2")
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	_, edge := w.desk.Pattern().Edge("band", "hem")
	require.InDelta(t, 12.7, edge.Allowance, 1e-9)
	require.Equal(t, "12.7 mm", entryAfter(t, w.column.list, "Allowance").Text)
	w.setUnit(unit.InchFractions)
	require.Equal(t, "1/2 in", entryAfter(t, w.column.list, "Allowance").Text)
	e = entryAfter(t, w.column.list, "Allowance")
	e.SetText("0.3")
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	_, edge = w.desk.Pattern().Edge("band", "hem")
	require.InDelta(t, 7.62, edge.Allowance, 1e-9, "a plain number is in the unit that is read")
	require.Equal(t, "0.3 in", entryAfter(t, w.column.list, "Allowance").Text)
}

func TestStepIsEditedSwitchedAndRemoved(t *testing.T) {
	w := open(t, true)
	w.column.open = "share-out"
	w.column.refresh()
	test.Tap(w.trayAt(t, "hand"))
	for _, e := range w.desk.Document().Recipe {
		for _, n := range numbers(e) {
			same, err := n.with(e, n.text)
			require.NoError(t, err, "%s %v", e.ID, n.path)
			require.Equal(t, e, same, "what is typed as it was changes nothing")
		}
	}
	w.column.edit("tape", w.desk.Switch("tape", true))
	upset := false
	for _, r := range w.desk.Reports() {
		upset = upset || r.Error != ""
	}
	require.True(t, upset, "later steps are marked")
	said := strings.Join(texts(w.column.list), " ")
	said = strings.Join(strings.Fields(said), " ")
	require.Contains(t, said, "It no longer applies, here and in 11 other sizes:", "one reason is told once")
	require.Equal(t, 1, strings.Count(said, "Step 7 is switched off: if this one rests on it"))
	require.Contains(t, said, "It uses a figure of step 7, which is switched off")
	w.undo()
	require.NotContains(t, strings.Join(texts(w.column.list), " "), "It no longer applies")
}

func TestChecksAreShownBrokenFirstAndLeadToTheirPlace(t *testing.T) {
	w := open(t, true)
	require.NotEmpty(t, w.column.checks)
	require.Contains(t, strings.Join(texts(w.column.list), " "), "The opening of the wire line")
	for _, c := range w.column.checks {
		if c.ID == "wire-opening" {
			w.column.goTo(c)
			require.Equal(t, tool.Selection{Piece: "frame", Edge: "wire"}, w.desk.Selection())
		}
	}
}

func TestDimRoomKeepsWhatLiesOnTheMat(t *testing.T) {
	w := open(t, true)
	before := w.written(t)
	w.setDark(true)
	require.Equal(t, look.Dark.Text, w.prompt.hint.Color)
	require.Equal(t, before, w.written(t))
	w.setDark(false)
	require.Equal(t, look.Light.Text, w.prompt.hint.Color)
}

func TestDamagedFileIsToldAndChangesNothing(t *testing.T) {
	w := open(t, true)
	dir := t.TempDir()
	good := w.written(t)
	for name, text := range map[string]string{"cut.truemat": good[:4000], "other.truemat": `{"a":1}`, "none.truemat": ""} {
		path := filepath.Join(dir, name)
		if text != "" {
			require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
		}
		w.openPath(path)
		require.Contains(t, w.prompt.wrong.Text, name)
		require.Equal(t, good, w.written(t))
	}
	svg := filepath.Join(dir, "open.svg")
	require.NoError(t, os.WriteFile(svg, []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm" viewBox="0 0 9 9"><path d="M0 0L5 5"/></svg>`), 0o644))
	path, err := read(context.Background(), svg, "", bringOptions)
	require.Error(t, err)
	require.Empty(t, path.Pieces)
	require.Equal(t, good, w.written(t))
}

func TestDroppedDocumentIsOpenedAfterAsking(t *testing.T) {
	w := open(t, false)
	path := filepath.Join(t.TempDir(), "a.truemat")
	w.saveTo(path, w.complain, nil)
	require.Equal(t, "a, size 65C — Truemat", w.win.Title())
	w.desk.Select(tool.Selection{Piece: "band"})
	w.key(&fyne.KeyEvent{Name: fyne.KeyUp})
	w.key(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.Equal(t, "a, size 65C • unsaved — Truemat", w.win.Title())
	w.dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI(path)})
	require.NotNil(t, w.sheet, "it asks")
	require.Len(t, w.desk.Document().Recipe, 1)
	w.backOut()
	require.Nil(t, w.sheet)
	require.Len(t, w.desk.Document().Recipe, 1, "Escape stays here")
	require.Equal(t, []string{path}, w.app.Preferences().StringList(prefRecent))
}

func TestDrawingIsExported(t *testing.T) {
	w := open(t, true)
	dir := t.TempDir()
	for ending, head := range map[string]string{".svg": "<?xml", ".png": "\x89PNG", ".pdf": "%PDF"} {
		path := filepath.Join(dir, "x"+ending)
		require.NoError(t, new(task).export(path, w.desk.Pattern(), "Tern", "65C"))
		b, err := os.ReadFile(path)
		require.NoError(t, err)
		require.True(t, bytes.HasPrefix(b, []byte(head)), ending)
	}
	require.ErrorContains(t, new(task).export(filepath.Join(dir, "x.gif"), w.desk.Pattern(), "Tern", "65C"), ".svg")
}
