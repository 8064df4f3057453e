package window

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"truemat/app/lesson"
	"truemat/app/tool"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// dials returns the fields of the column that can be drawn along.
func (w *Window) dials() []*dial {
	var all []*dial
	for _, f := range reachable(w.column.list) {
		if d, ok := f.(*dial); ok {
			all = append(all, d)
		}
	}
	return all
}

// openStep opens a step in the column and returns the field of its first number.
func (w *Window) openStep(t *testing.T, id string) *dial {
	t.Helper()
	w.column.open = id
	w.column.refresh()
	all := w.dials()
	require.NotEmpty(t, all, id)
	return all[0]
}

func pressed(d *dial, keys ...fyne.KeyName) {
	for _, k := range keys {
		d.TypedKey(&fyne.KeyEvent{Name: k})
	}
}

func TestNumberOfAnEarlyStepIsDrawnAlongAndTheMatFollows(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetSize("75C"))
	before, pattern := w.written(t), w.desk.Pattern()
	d := w.openStep(t, "true-underarm")
	w.win.Canvas().Focus(d)

	pressed(d, fyne.KeyUp, fyne.KeyUp)
	require.NotNil(t, w.rehearsal)
	require.Equal(t, before, w.written(t), "nothing is kept yet")
	w.show() // as a moment later
	require.NotEmpty(t, w.shown.names, "the mat shows it")
	require.True(t, w.prompt.acts.Visible())
	require.Contains(t, w.prompt.hint.Text, "Enter keeps this")
	listed := func() string {
		for _, f := range reachable(w.column.list) {
			if b, ok := f.(*touch); ok && b.name == "step true-underarm" {
				return strings.Join(texts(b), " ")
			}
		}
		return ""
	}
	said := listed()
	require.Contains(t, strings.ReplaceAll(said, " ", ""), strings.ReplaceAll(unit.Restate(w.rehearsal.sentence(), w.unit), " ", ""), "the list tells what would be")
	require.NotEmpty(t, w.rehearsal.marks(w.desk.Pattern()).Strokes, "where it works is shown")
	own := w.rehearsal.next
	other, err := altered(own, []string{"seam"}, "cross seam")
	require.NoError(t, err)
	w.rehearse(other, "")
	w.show()
	require.NotEqual(t, said, listed(), "it follows what is rehearsed")
	w.rehearse(own, "")
	w.show()
	require.Equal(t, said, listed())

	pressed(d, fyne.KeyEscape)
	require.Nil(t, w.rehearsal)
	require.Empty(t, w.shown.names)
	require.Equal(t, before, w.written(t))

	d = w.openStep(t, "true-underarm")
	w.win.Canvas().Focus(d)
	pressed(d, fyne.KeyUp, fyne.KeyUp)
	d.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyDown, Modifier: fyne.KeyModifierControl})
	pressed(d, fyne.KeyReturn)
	require.Nil(t, w.rehearsal)
	require.NotEqual(t, pattern, w.desk.Pattern())
	for _, r := range w.desk.Results() {
		require.False(t, r.Behind(), r.Size.Label)
	}
	w.undo()
	require.Equal(t, before, w.written(t), "one act takes it back")
}

func TestNumberIsDraggedByItsName(t *testing.T) {
	w := open(t, true)
	before := w.written(t)
	d := w.openStep(t, "true-underarm")
	was, err := d.kind.read(d.Text, w.unit)
	require.NoError(t, err)
	g := w.column.newGrip("reach", d)
	for range 10 {
		g.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(2, 0)})
	}
	require.NotNil(t, w.rehearsal)
	require.Equal(t, before, w.written(t))
	g.DragEnd()
	now, err := w.openStep(t, "true-underarm").kind.read(w.dials()[0].Text, w.unit)
	require.NoError(t, err)
	require.InDelta(t, was+2, now, 1e-9, "a tenth of a millimetre for each unit")
	w.undo()
	require.Equal(t, before, w.written(t))
}

func TestNumberBecomesOneForEachSizeOrAFigure(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetSize("75C"))
	amount := func() step.Number {
		r := w.desk.Document().Recipe
		return step.NumbersOf(r[r.Index("share-out")].Step)[0].Number
	}
	pick := func(way string) {
		for _, f := range reachable(w.column.list) {
			if c, ok := f.(*choice); ok && slices.Contains(c.Options, way) {
				c.SetSelected(way)
				return
			}
		}
		t.Fatal(way)
	}
	w.openStep(t, "share-out")
	figure, _ := amount().Of()
	require.Equal(t, "tape.overlap", figure)
	value, err := w.column.valueIn(amount(), "75C")
	require.NoError(t, err)

	w.column.ways["share-out\x00amount"] = true
	w.column.refresh()
	pick(oneNumber)
	v, ok := amount().Literal()
	require.True(t, ok)
	require.InDelta(t, value, v, 1e-12)

	w.desk.SetOnly(true)
	d := w.dials()[0]
	d.SetText("7")
	d.done(d.Text)
	table := amount().Table()
	require.Len(t, table, 12, "for one size alone")
	require.InDelta(t, 7, table["75C"], 0)
	require.InDelta(t, v, table["80E"], 0)
	require.Len(t, w.dials(), 13, "and a field for each")
	w.desk.SetOnly(false)

	pick(aFigure)
	figure, times := amount().Of()
	require.NotEmpty(t, figure)
	require.InDelta(t, 7, w.desk.Figures()[figure]*times, 1e-9, "the size shown keeps its number")
	pick("overlap of step 7")
	figure, _ = amount().Of()
	require.Equal(t, "tape.overlap", figure)
}

func TestNumberThatIsNoneIsAnsweredAtItsStep(t *testing.T) {
	w := open(t, true)
	before := w.written(t)
	d := w.openStep(t, "true-underarm")
	d.SetText("wide")
	d.done(d.Text)
	require.Contains(t, strings.Join(texts(w.column.list), " "), "wide")
	require.Contains(t, strings.Join(texts(w.prompt.row), " "), "wide", "above the tray, too")
	require.Equal(t, before, w.written(t))
	require.Nil(t, w.rehearsal)
}

func TestFractionsOfAnInchHideNoLength(t *testing.T) {
	c := &column{w: &Window{unit: unit.InchFractions}}
	require.Equal(t, "0.472 in", c.exact(12))
	require.Equal(t, "0.472 in (about 15/32 in)", c.write(12))
	require.Equal(t, "1/4 in", c.exact(6.35))
	require.Equal(t, "1/4 in", c.write(6.35))
	c.w.unit = unit.Millimetres
	require.Equal(t, "136.69 mm", c.write(136.6904))
}

// Where a place or a datum lies may be one for each size or follow a figure,
// shown and edited as the other numbers are.
func TestPlaceOfAStepVariesBySize(t *testing.T) {
	w := open(t, false)
	require.NoError(t, w.desk.SetSize("75C"))
	require.NoError(t, w.desk.Accept(&step.Notch{Act: "add", Piece: "cradle", Name: "mine", Spot: &pattern.Spot{Piece: "cradle", Edge: "hem", Along: pattern.Along{From: pattern.Start, MM: 20}}}))
	at := func(size string) float64 {
		for _, r := range w.desk.Results() {
			if r.Size.Label == size {
				pc := r.Size.Pattern.Piece("cradle")
				return pc.Notch("mine").At(pc.Edge("hem").Length())
			}
		}
		return -1
	}
	id := w.desk.Document().Recipe[0].ID
	before := w.written(t)
	w.openStep(t, id)
	w.column.ways[id+"\x00spot\x00mm"] = true
	w.column.refresh()
	pick := func(way string) {
		for _, f := range reachable(w.column.list) {
			if c, ok := f.(*choice); ok && slices.Contains(c.Options, way) {
				c.SetSelected(way)
				return
			}
		}
		t.Fatal(way)
	}
	pick(perSize)
	require.Len(t, w.dials(), 13)
	require.InDelta(t, 20, at("80E"), 1e-9)
	d := w.dials()[0]
	d.SetText("27")
	d.done(d.Text)
	require.InDelta(t, 27, at("75C"), 1e-9, "the size shown")
	require.InDelta(t, 20, at("80E"), 1e-9)
	pick(aFigure)
	require.InDelta(t, 27, at("75C"), 1e-6)
	pick(oneNumber)
	require.InDelta(t, 27, at("80E"), 1e-6)
	for range 4 {
		w.undo()
	}
	require.Equal(t, before, w.written(t))
}

// Enter in a step's number keeps it and leaves the keys there, as the table of
// keys says; Escape then goes back to the mat.
func TestEnterInAStepsNumberKeepsTheKeysThere(t *testing.T) {
	w := open(t, true)
	d := w.openStep(t, "true-underarm")
	name := d.name
	w.win.Canvas().Focus(d)
	d.SetText(w.column.exact(20))
	w.typeHere(fyne.KeyReturn)
	d, ok := w.win.Canvas().Focused().(*dial)
	require.True(t, ok)
	require.Equal(t, name, d.name)
	require.False(t, d.unkept())
	w.typeHere(fyne.KeyUp)
	require.NotNil(t, w.rehearsal, "the arrows go on from it")
	w.typeHere(fyne.KeyEscape)
	require.Nil(t, w.rehearsal)
	w.typeHere(fyne.KeyEscape)
	require.Equal(t, fyne.Focusable(w.mat), w.win.Canvas().Focused())
	said := ""
	for _, g := range lesson.Keys() {
		for _, k := range g.Keys {
			said += k.Does
		}
	}
	require.Contains(t, said, "the keys stay in a step's number")
}

// A number of a step is typed whole also while a walk that was kept goes on.
func TestANumberIsTypedWholeThoughAWalkGoesOn(t *testing.T) {
	w := open(t, false)
	test.Tap(w.trayAt(t, "walk"))
	require.NoError(t, w.tool().Set("seam", "vertical seam"))
	require.NoError(t, w.tool().Set("walked", "80"))
	require.NoError(t, w.tool().Set("drop", "here on both sides"))
	w.show()
	w.accept()
	recipe := w.desk.Document().Recipe
	require.Len(t, recipe, 1)
	require.True(t, w.tool().(tool.Stayer).Stays())

	test.Tap(w.stepRow(t, recipe[0].ID))
	all := w.dials()
	require.NotEmpty(t, all)
	d := all[0]
	before := w.written(t)
	w.win.Canvas().Focus(d)

	for _, r := range "85.5" {
		d.TypedRune(r)
		w.show()
		require.Equal(t, before, w.written(t), "nothing is kept yet")
		require.Equal(t, fyne.Focusable(d), w.win.Canvas().Focused())
	}
	require.Equal(t, "85.5", d.Text)
	require.Contains(t, w.rehearsal.hint(), "What was begun with walk is given up.")
	d.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.NotEqual(t, before, w.written(t))
	require.Contains(t, w.written(t), "85.5")
}
