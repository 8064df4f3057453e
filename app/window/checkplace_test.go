package window

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

func boundsOf(p pattern.Pattern, pieces ...string) geom.Box {
	box := geom.NoBox()
	for _, name := range pieces {
		pc := p.Piece(name)
		for _, e := range pc.Edges {
			box = box.Union(e.Path.Transform(pc.Pose).Bounds())
		}
	}
	return box
}

func (w *Window) checkOf(t *testing.T, is func(check.Check) bool) check.Check {
	t.Helper()
	i := slices.IndexFunc(w.column.checks, is)
	require.GreaterOrEqual(t, i, 0)
	return w.column.checks[i]
}

func TestACheckShowsAllPiecesItIsAbout(t *testing.T) {
	w := open(t, true)
	p := w.desk.Pattern()
	turn := w.checkOf(t, func(c check.Check) bool { return c.ID == check.RunOn && c.Line == "hem" && c.Piece == "frame" })
	w.column.showCheck(turn)
	require.True(t, w.mat.Sees(boundsOf(p, "frame", "band")), "both sides of the joint")
	var o tool.Overlay
	w.column.markCheck(&o)
	require.Len(t, o.Dots, 2, "on both pieces")

	seam := w.checkOf(t, func(c check.Check) bool { return c.ID == check.SeamLength && c.Seam == "side seam" })
	w.column.showCheck(seam)
	require.True(t, w.mat.Sees(boundsOf(p, "frame", "band")))

	narrow := w.checkOf(t, func(c check.Check) bool { return c.ID == check.ClothBelow && c.Piece == "frame" })
	w.column.showCheck(narrow)
	require.True(t, w.mat.Sees(boundsOf(p, "frame")), "wire line and hem")
	o = tool.Overlay{}
	w.column.markCheck(&o)
	require.Len(t, o.Strokes, 1)
	require.InDelta(t, narrow.Measured, o.Strokes[0].Path.Length(), 1e-9, "the place that the check tells")
	require.Equal(t, w.column.write(narrow.Measured), o.Notes[0].Text)
	row, ok := w.win.Canvas().Focused().(*touch)
	require.True(t, ok)
	require.Equal(t, checkAt(narrow), row.name)
}

func TestAStepThatIsSwitchedOffTellsWhatIsRedAndTheCornerIsMarked(t *testing.T) {
	w := open(t, true)
	w.column.open = "smooth-wire"
	w.column.refresh()
	w.pressWord(t, "Switch off")
	said := strings.Join(texts(w.prompt.row), " ")
	require.Contains(t, said, "Step 9 is switched off. Red now: A corner in the wire line.")
	require.Equal(t, w.palette.Poor, w.prompt.wrong.Color)
	w.pressWord(t, "Switch on")
	require.Contains(t, strings.Join(texts(w.prompt.row), " "), "Step 9 is switched on again.")
	require.Equal(t, w.palette.Good, w.prompt.wrong.Color)
	w.pressWord(t, "Switch off")

	w.column.showCheck(w.checkOf(t, func(c check.Check) bool { return c.ID == check.LineCorner && c.Line == "wire line" }))
	require.True(t, w.mat.Sees(boundsOf(w.desk.Pattern(), "frame")))
	var o tool.Overlay
	w.column.markCheck(&o)
	require.Len(t, o.Dots, 1)
	corner := o.Dots[0].At
	pc, wire := w.desk.Pattern().Edge("frame", "wire")
	found := false
	for _, s := range wire.Path.Corners(3 * geom.Degree) {
		found = found || pc.Pose.Apply(wire.Path.At(s)).Dist(corner) < 1e-9
	}
	require.True(t, found)
}

// The marks of a check that was looked at give way to those of the lesson's act
// once its tool is taken.
func TestTheToolOfAnActClearsTheMarksOfACheck(t *testing.T) {
	w := open(t, false)
	w.startLesson()
	require.NoError(t, w.lesson.Do())
	look := w.column.checks[0]
	w.column.showCheck(look)
	w.rune('m')
	require.NotEmpty(t, w.column.bounds, "measuring is not the act")
	w.rune('i')
	require.Empty(t, w.column.bounds)
}

// Steps that cannot be done any more are told where she looks when one is
// switched off, and before what lacks them is printed.
func TestStepsThatCannotBeDoneAreToldAtOnceAndBeforePrinting(t *testing.T) {
	w := open(t, true)
	w.column.open = "tape"
	w.column.refresh()
	w.pressWord(t, "Switch off")
	upset := w.upsetSteps()
	require.NotEmpty(t, upset)
	lost := titled(step.StepsInWords(upset))
	require.Contains(t, strings.Join(texts(w.prompt.row), " "), lost+" cannot be done any more.")
	require.Equal(t, w.palette.Poor, w.prompt.wrong.Color)
	require.Equal(t, upset, w.desk.Doubts([]string{w.desk.Size()})().Upset)

	w.pressWord(t, "Switch on")
	require.Empty(t, w.upsetSteps())
	require.NotContains(t, strings.Join(texts(w.prompt.row), " "), "cannot be done")
}

// The keys of truing begin at the joint whose check was pressed, until something
// else is selected.
func TestTruingBeginsAtTheCheckThatWasPressed(t *testing.T) {
	w := open(t, true)
	turn := w.checkOf(t, func(c check.Check) bool { return c.ID == check.RunOn && c.Line == "hem" && c.Piece == "frame" })
	w.column.showCheck(turn)
	w.rune('u')
	at := func() string {
		require.True(t, w.tool().Key(tool.Key{Name: tool.Next}))
		notes := w.tool().Overlay().Notes
		return notes[len(notes)-1].Text
	}
	require.Equal(t, "end of side seam at the hem", at())
	w.tool().Reset()
	w.desk.Select(tool.Selection{Piece: "inner cup"})
	require.NotContains(t, at(), "side seam")
}

// Taking back and taking up again tell above the tools what it was, and what is
// red or cannot be done since.
func TestUndoAndRedoTellWhatTheyChangeAndWhatIsWrongSince(t *testing.T) {
	w := open(t, true)
	line := func() string { return strings.Join(texts(w.prompt.row), " ") }
	step9 := w.desk.Document().Recipe[8]
	require.NoError(t, w.desk.Switch(step9.ID, true))
	w.show()
	w.undo()
	require.Contains(t, line(), "Step 9 is switched on again:")
	require.NotContains(t, line(), "Red now")
	require.Equal(t, w.palette.Good, w.prompt.wrong.Color)
	w.redo()
	require.Contains(t, line(), "Step 9 is switched off again:")
	require.Contains(t, line(), "Red now: A corner in the wire line.")
	require.Equal(t, w.palette.Poor, w.prompt.wrong.Color)

	for w.desk.CanUndo() {
		w.undo()
	}
	w.undo()
	require.NotContains(t, line(), "Undone", "there was nothing more")
}

// A step that could not be done before is not news when an undo only moves it to
// another place.
func TestUndoTellsNoStepThatWasWrongBefore(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.Switch("tape", true))
	upset := w.upsetSteps()
	require.NoError(t, w.desk.Remove(w.desk.Document().Recipe[0].ID))
	w.show()
	require.NotEqual(t, upset, w.upsetSteps(), "each is a place earlier")
	require.Len(t, w.upsetSteps(), len(upset))
	w.undo()
	require.Equal(t, upset, w.upsetSteps())
	line := strings.Join(texts(w.prompt.row), " ")
	require.Contains(t, line, "Step 1 is back:")
	require.NotContains(t, line, "cannot be done")
}

// Of a turning that does not lie flat the stretch where it is so is marked, with
// how long it is.
func TestACheckOfATurningMarksTheStretchWhereItIsSo(t *testing.T) {
	w := open(t, false)
	w.showSize("65E")
	width := step.Lit(10)
	require.NoError(t, w.desk.Accept(&step.Allow{Piece: "band", Edge: "top", Role: pattern.TurnedBack, Width: &width}))
	i := slices.IndexFunc(w.column.checks, func(c check.Check) bool { return c.ID == check.TurnedBack && c.Edge == "top" })
	require.GreaterOrEqual(t, i, 0)
	w.column.showCheck(w.column.checks[i])
	var o tool.Overlay
	w.column.markCheck(&o)
	require.Len(t, o.Strokes, 1)
	require.InDelta(t, 21.7, o.Strokes[0].Path.Length(), 1)
	require.Equal(t, "22 mm", o.Notes[0].Text)
}

// Of notches that miss each other both are marked, with how far.
func TestBothNotchesThatMissEachOtherAreMarked(t *testing.T) {
	w := open(t, false)
	was := w.desk.Pattern().Piece("inner cup").Notch("below apex")
	require.NoError(t, w.desk.Accept(&step.Notch{Piece: "inner cup", Name: was.Name, Act: step.MoveNotch, Edge: was.Edge, From: was.From, MM: step.Lit(was.MM - 5)}))
	w.refresh()
	ch := w.checkOf(t, func(c check.Check) bool { return c.ID == check.SeamNotches && c.Verdict == check.Broken })
	w.column.showCheck(ch)
	var o tool.Overlay
	w.column.markCheck(&o)
	p := w.desk.Pattern()
	require.Len(t, o.Dots, 2, "the others meet")
	require.Len(t, o.Notes, 2)
	misses := check.Missed(p, *p.Seam(ch.Seam), w.desk.Bounds())
	require.Len(t, misses, 1)
	for i, n := range []pattern.SeamNotch{misses[0].A, misses[0].B} {
		pc, e := p.Edge(n.Piece, n.Notch.Edge)
		require.InDelta(t, 0, o.Dots[i].At.Dist(pc.Pose.Apply(e.Path.At(n.Notch.At(e.Length())))), 1e-9)
		require.Equal(t, "off by "+unit.MM(misses[0].By), o.Notes[i].Text)
	}
	require.InDelta(t, 5, misses[0].By, 0.05)
	w.shoot(t, "notches-off")
}

// With a tool in the hand already, N begins at the place of the check that is pressed,
// wherever it stood before; the marks of a check that is mended meanwhile go.
func TestTheKeysOfAToolGoOnAtTheCheckThatWasPressed(t *testing.T) {
	w := open(t, false)
	nine := step.Lit(9)
	require.NoError(t, w.desk.Accept(&step.Allow{Piece: "band", Edge: "side seam", Width: &nine}))
	w.refresh()
	w.choose(slices.IndexFunc(w.tools, func(x tool.Tool) bool { return x.Name() == "allowance" }))
	for range 3 {
		w.rune('n')
	}
	red := w.checkOf(t, func(c check.Check) bool { return c.ID == check.SeamAllowance && c.Seam == "side seam" })
	require.Equal(t, check.Broken, red.Verdict)
	w.column.showCheck(red)
	w.rune('n')
	w.key(&fyne.KeyEvent{Name: fyne.KeySpace})
	require.Equal(t, red.Piece, w.desk.Selection().Piece)

	w.column.bounds = checkAt(w.checkOf(t, func(c check.Check) bool { return c.ID == check.RunOn && c.Line == "hem" && c.Verdict == check.Holds }))
	w.desk.Select(tool.Selection{})
	var o tool.Overlay
	w.column.markCheck(&o)
	require.Empty(t, o.Dots)
}

// Where the check under the keys goes, they come to no field by themselves, into which
// the next letter would be written.
func TestTheKeysFallIntoNoFieldWhenACheckIsMended(t *testing.T) {
	w := open(t, false)
	row := w.link("a check", func() {})
	row.name = "check"
	field := newEntry("", planField, func(string, bool) {}, func() {})
	there := w.link("all sizes", func() {})
	there.deed = false
	require.Equal(t, -1, again([]fyne.Focusable{field}, row, 1))
	require.Equal(t, 0, again([]fyne.Focusable{there, field}, row, 2), "but to what can be pressed before it")
	require.Equal(t, 0, again([]fyne.Focusable{field}, newEntry("", planField, func(string, bool) {}, func() {}), 1), "from a field to a field")
}

// A corner in a sewn edge is only to be looked at, and so asks for one bound.
func TestACornerInASeamHasNoBoundBeyondWhichItIsBroken(t *testing.T) {
	w := open(t, true)
	asks := func(line string) (n int) {
		w.column.list.RemoveAll()
		w.column.boundRows(check.Check{ID: check.LineCorner, Line: line, Piece: "frame", Edge: "wire"})
		for _, f := range reachable(w.column.list) {
			if e, ok := f.(*entry); ok && strings.HasPrefix(e.name, boundField) {
				n++
			}
		}
		return n
	}
	require.Equal(t, 2, asks("wire line"))
	require.Equal(t, 1, asks(""))
}
