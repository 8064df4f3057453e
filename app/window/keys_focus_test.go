package window

import (
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"truemat/app/lesson"
	"truemat/app/tool"
	"truemat/ops/step"
	"truemat/ops/unit"
)

func (w *Window) stepRow(t *testing.T, id string) *touch {
	t.Helper()
	for _, f := range reachable(w.column.list) {
		if r, ok := f.(*touch); ok && r.name == "step "+id {
			return r
		}
	}
	require.FailNow(t, "no row", id)
	return nil
}

// typeHere presses a key where the keys are.
func (w *Window) typeHere(k fyne.KeyName) {
	if f := w.win.Canvas().Focused(); f != nil {
		f.TypedKey(&fyne.KeyEvent{Name: k})
	}
}

func TestEnterNeverTakesOutAStepThatWasOnlyOpened(t *testing.T) {
	w := open(t, true)
	recipe := w.desk.Document().Recipe
	for i := range recipe {
		was, is := recipe[i], recipe[(i+1)%len(recipe)]
		w.column.open = was.ID
		w.column.refresh()
		before := w.written(t)
		for _, f := range reachable(w.column.list) {
			if _, row := f.(*touch); row {
				continue
			}
			w.win.Canvas().Focus(f)
			test.Tap(w.stepRow(t, is.ID))
			require.Equal(t, fyne.Focusable(w.stepRow(t, is.ID)), w.win.Canvas().Focused(), "the keys are with the step that was opened")
			w.typeHere(fyne.KeyReturn)
			require.Equal(t, before, w.written(t))
			w.column.open = was.ID
			w.column.refresh()
			break
		}
	}
}

func TestF1ShowsTheKeysFromWhereverTheKeysAre(t *testing.T) {
	w := open(t, false)
	f1 := &fyne.KeyEvent{Name: fyne.KeyF1}
	w.key(f1)
	require.NotNil(t, w.sheet)
	first := w.sheet
	w.key(f1)
	require.Equal(t, first, w.sheet, "it is there already")
	said := strings.Join(texts(w.sheet.pop.Content), " ")
	for _, s := range []string{"Ctrl + 0", "F1", "Alt", "menus"} {
		require.Contains(t, said, s)
	}
	w.backOut()
	require.Nil(t, w.sheet)

	w.rulerPage()
	under := w.sheet
	w.win.Canvas().Focused().TypedKey(f1)
	require.NotEqual(t, under, w.sheet, "a field hands F1 on")
	w.backOut()
	require.Equal(t, under, w.sheet, "the page beneath stays")
	w.sheet.close()

	w.tray.Objects[0].(*fyne.Container).Objects[0].(*touch).TypedKey(f1)
	require.NotNil(t, w.sheet, "so does what is pressed")
}

func TestTakingOutAStepIsToldAndEnterTakesOutNoOther(t *testing.T) {
	w := open(t, true)
	n := len(w.desk.Document().Recipe)
	id := w.desk.Document().Recipe[n-1].ID
	test.Tap(w.stepRow(t, id))
	for _, f := range reachable(w.column.list) {
		if b, ok := f.(*touch); ok && strings.Join(texts(b.body), "") == "Remove" {
			w.win.Canvas().Focus(b)
		}
	}
	for range 3 {
		w.typeHere(fyne.KeyReturn)
	}
	require.Len(t, w.desk.Document().Recipe, n-1)
	require.Contains(t, strings.Join(texts(w.prompt.row), " "), "is taken out")
	w.undo()
	require.Len(t, w.desk.Document().Recipe, n)
}

func TestAStepThatIsOpenedIsSeenWhole(t *testing.T) {
	w := open(t, true)
	for _, e := range w.desk.Document().Recipe {
		row := w.stepRow(t, e.ID)
		test.Tap(row)
		row = w.stepRow(t, e.ID)
		s := w.column.scroll
		top, ok := depth(s.Content, row)
		require.True(t, ok)
		end, ok := depth(s.Content, w.column.opened)
		require.True(t, ok)
		end += w.column.opened.Size().Height
		require.GreaterOrEqual(t, top, s.Offset.Y, e.ID)
		if end-top < s.Size().Height-2*revealed {
			require.LessOrEqual(t, end, s.Offset.Y+s.Size().Height, e.ID)
		}
	}
}

func TestEscapeClosesThePrintPageFromEveryPlaceOfIt(t *testing.T) {
	w := open(t, false)
	w.printPage()
	body := reachable(w.sheet.pop.Content)
	kinds := map[string]bool{}
	for i := range body {
		w.printPage()
		f := reachable(w.sheet.pop.Content)[i]
		switch f.(type) {
		case *choice:
			kinds["list"] = true
		case *tick:
			kinds["tick"] = true
		}
		w.win.Canvas().Focus(f)
		w.typeHere(fyne.KeyEscape)
		require.Nil(t, w.sheet, "%T", f)
	}
	require.Len(t, kinds, 2)
}

func TestWordsLongerThanTheirFieldRollInIt(t *testing.T) {
	w := open(t, false)
	e := newEntry("inner cup", 104, func(string, bool) {}, w.backOut)
	e.Resize(e.MinSize())
	require.Equal(t, fyne.ScrollNone, e.Scroll)
	e.set("inner cup, upper outer cup, lower outer cup")
	require.Equal(t, fyne.ScrollHorizontalOnly, e.Scroll)
}

func TestPagesRollByKeys(t *testing.T) {
	w := open(t, false)
	w.keysPage()
	roll := w.sheet.roll
	require.NotNil(t, roll)
	most := roll.Content.Size().Height - roll.Size().Height
	require.Greater(t, most, float32(0), "there is more than shows")
	press := func(k fyne.KeyName) float32 {
		w.key(&fyne.KeyEvent{Name: k})
		return roll.Offset.Y
	}
	down := press(fyne.KeyDown)
	require.Greater(t, down, float32(0))
	require.Greater(t, press(fyne.KeyPageDown), down)
	require.Equal(t, most, press(fyne.KeyEnd))
	require.Equal(t, most, press(fyne.KeyDown))
	require.Equal(t, float32(0), press(fyne.KeyHome))
	for _, f := range reachable(w.sheet.pop.Content) { // what closes it has the keys
		w.win.Canvas().Focus(f)
	}
	w.typeHere(fyne.KeyPageDown)
	require.Greater(t, roll.Offset.Y, float32(0))
	at := roll.Offset.Y
	w.typeHere(fyne.KeyUp)
	require.Less(t, roll.Offset.Y, at)
}

// Arrows on a tool of the tray roll nothing and push nothing.
func TestArrowsOnTheTrayPushNothing(t *testing.T) {
	w := open(t, false)
	w.desk.Select(tool.Selection{Piece: "band"})
	before := w.written(t)
	w.win.Canvas().Focus(w.trayAt(t, "pin"))
	w.typeHere(fyne.KeyRight)
	require.Empty(t, w.tool().Proposal())
	require.Equal(t, before, w.written(t))
}

func TestTheMatHasTheKeysAfterAnActFromAList(t *testing.T) {
	w := open(t, false)
	w.desk.Select(tool.Selection{Piece: "cradle"})
	w.show()
	var lay *choice
	for _, b := range w.prompt.boxes {
		if c, ok := b.(*choice); ok {
			lay = c
		}
	}
	require.NotNil(t, lay)
	w.win.Canvas().Focus(lay)
	w.typeHere(fyne.KeyRight)
	require.Equal(t, fyne.Focusable(lay), w.win.Canvas().Focused(), "the arrow goes through the list without opening it")
	w.typeHere(fyne.KeyLeft)
	for _, k := range []fyne.KeyName{fyne.KeyReturn, fyne.KeyDown, fyne.KeyReturn} { // opens it, goes on, takes
		w.typeHere(k)
	}
	require.Equal(t, lay.Options[1], lay.Selected)
	w.typeHere(fyne.KeyReturn)
	require.Len(t, w.desk.Document().Recipe, 1)
	require.Equal(t, fyne.Focusable(w.mat), w.win.Canvas().Focused())
	w.rune('i')
	require.Equal(t, "pin", w.tool().Name())
}

// toAct gives the keys to what can be done with a step.
func (w *Window) toAct(t *testing.T, name string) *touch {
	t.Helper()
	for _, f := range reachable(w.column.list) {
		if b, ok := f.(*touch); ok && b.name == "act "+name {
			w.win.Canvas().Focus(b)
			return b
		}
	}
	require.FailNow(t, "it cannot be done", name)
	return nil
}

// Tab goes from the sentence of a step straight to its first number, also while an
// earlier state is looked at, and what is typed on what can be done with it goes
// there, too: no blank of a number takes the step out.
func TestAStepIsLeftForItsNumberByTabAndByTyping(t *testing.T) {
	w := open(t, true)
	id := "share-out"
	n := len(w.desk.Document().Recipe)
	test.Tap(w.stepRow(t, id))
	toNumber := func() *dial {
		w.win.Canvas().Focus(w.column.rowOf(id))
		w.win.Canvas().FocusNext()
		d, ok := w.win.Canvas().Focused().(*dial)
		require.True(t, ok, "%T", w.win.Canvas().Focused())
		return d
	}
	toNumber()
	w.toAct(t, "before "+id)
	w.typeHere(fyne.KeyReturn)
	require.Contains(t, strings.Join(texts(w.column.list), " "), "All steps")
	first := toNumber().name
	w.typeHere(fyne.KeyEscape)

	for _, from := range []string{"remove ", "before ", "switch "} {
		w.toAct(t, from+id)
		for _, r := range "1 1/2" {
			if r == ' ' {
				w.typeHere(fyne.KeySpace)
			}
			w.pending = true // shown with the last of it, and not by a clock
			w.win.Canvas().Focused().TypedRune(r)
		}
		d, ok := w.win.Canvas().Focused().(*dial)
		require.True(t, ok, "%T", w.win.Canvas().Focused())
		require.Equal(t, first, d.name)
		require.Equal(t, "1 1/2", d.Text)
		require.Len(t, w.desk.Document().Recipe, n)
		w.typeHere(fyne.KeyEscape)
		require.False(t, w.desk.Document().Recipe[w.desk.Document().Recipe.Index(id)].Off)
	}
}

// "All steps", which goes once it is pressed, leaves the keys within the step.
func TestTheWordThatEndsALookBackLeavesTheKeysOnNoOtherAct(t *testing.T) {
	w := open(t, true)
	test.Tap(w.stepRow(t, "share-out"))
	w.toAct(t, "before share-out")
	w.typeHere(fyne.KeyReturn)
	w.toAct(t, "all share-out")
	w.typeHere(fyne.KeyReturn)
	require.Equal(t, -1, w.desk.Looking())
	now, ok := w.win.Canvas().Focused().(*touch)
	require.True(t, ok, "%T", w.win.Canvas().Focused())
	require.Equal(t, "act before share-out", now.name)
}

// Escape ends a look at an earlier state and leaves the keys with the step.
func TestEscapeAfterALookBackLeavesTheKeysWithTheStep(t *testing.T) {
	w := open(t, true)
	id := w.desk.Document().Recipe[3].ID
	test.Tap(w.stepRow(t, id))
	w.typeHere(fyne.KeyReturn) // folds it away again
	w.typeHere(fyne.KeyReturn)
	w.toAct(t, "before "+id)
	w.typeHere(fyne.KeyReturn)
	require.Equal(t, 3, w.desk.Looking())
	w.typeHere(fyne.KeyEscape)
	require.Equal(t, -1, w.desk.Looking())
	at, ok := w.win.Canvas().Focused().(*touch)
	require.True(t, ok, "%T", w.win.Canvas().Focused())
	require.Contains(t, at.name, id)
	w.typeHere(fyne.KeyEscape)
	require.Equal(t, fyne.Focusable(w.mat), w.win.Canvas().Focused())
}

// What was told of a thing under the pointer goes when the work has changed or
// the column has rolled under it.
func TestWhatIsToldOfAThingGoesWithIt(t *testing.T) {
	w := open(t, true)
	w.prompt.explain("Size 80D: something deserves a look.")
	w.column.scroll.OnScrolled(fyne.NewPos(0, 40))
	require.Empty(t, w.prompt.about)
	w.undo()
	w.prompt.explain("Takes up again: the last step.")
	w.redo()
	require.Empty(t, w.prompt.about)
}

func TestEscapeLeavesAFieldBeforeItAbandons(t *testing.T) {
	w := open(t, true)
	w.rune('k')
	require.NotEmpty(t, w.prompt.boxes)
	require.NoError(t, w.tool().Set("pieces", "band"))
	w.show()
	require.NotEmpty(t, w.tool().Proposal())
	height, ok := w.prompt.boxes["height"].(*entry)
	require.True(t, ok)
	w.win.Canvas().Focus(height)
	height.TypedRune('9')
	w.typeHere(fyne.KeyEscape)
	require.NotEmpty(t, w.tool().Proposal(), "what was begun is still there")
	require.Equal(t, fyne.Focusable(w.mat), w.win.Canvas().Focused())
	w.key(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.Empty(t, w.tool().Proposal())
}

func TestWhatIsTypedIntoAFieldReachedByKeysTakesThePlaceOfWhatIsThere(t *testing.T) {
	w := open(t, true)
	letters := func(s string) {
		for _, r := range s {
			w.win.Canvas().Focused().TypedRune(r)
		}
	}
	overlap := func() *entry {
		for _, f := range reachable(w.sheet.pop.Content) {
			if e, ok := f.(*entry); ok {
				return e
			}
		}
		return nil
	}
	w.printPage()
	w.win.Canvas().Focus(overlap())
	letters("12")
	require.Equal(t, "12", overlap().Text)
	letters("mm")
	require.Equal(t, "12mm", overlap().Text, "the next letter goes behind")
	w.sheet.close()

	d := w.openStep(t, "true-underarm")
	w.win.Canvas().Focus(d)
	letters("29")
	require.Equal(t, "29", w.win.Canvas().Focused().(*dial).Text, "also while the mat follows")
}

func TestSavingIsToldUntilTheNextAct(t *testing.T) {
	w := open(t, true)
	told := func() string { return strings.Join(texts(w.prompt.row), " ") }
	w.saveTo(filepath.Join(t.TempDir(), "wren.truemat"), w.complain, nil)
	require.Contains(t, told(), "wren.truemat is saved.")
	require.Equal(t, w.palette.Good, w.prompt.wrong.Color)
	w.undo()
	require.NotContains(t, told(), "is saved")
	w.saveTo(filepath.Join(t.TempDir(), "no such folder", "wren.truemat"), w.complain, nil)
	require.Contains(t, told(), "Not saved")
	require.Equal(t, w.palette.Poor, w.prompt.wrong.Color)
}

func TestAListHandsLettersOn(t *testing.T) {
	w := open(t, false)
	w.desk.Select(tool.Selection{Piece: "cradle"})
	w.show()
	c, ok := w.prompt.boxes["lay"].(*choice)
	require.True(t, ok)
	w.win.Canvas().Focus(c)
	w.win.Canvas().Focused().TypedRune('n')
	require.Equal(t, fyne.Focusable(w.mat), w.win.Canvas().Focused(), "so that the space bar takes what N pointed at")
	w.win.Canvas().Focus(c)
	w.win.Canvas().Focused().TypedRune('i')
	require.Equal(t, "pin", w.tool().Name())
	require.Equal(t, fyne.Focusable(w.mat), w.win.Canvas().Focused())
}

func TestTheLessonTellsHowAnActGoesByKeys(t *testing.T) {
	w := open(t, false)
	w.startOn(lesson.First())
	said := func() string { return strings.Join(strings.Fields(strings.Join(texts(w.column.list), " ")), " ") }
	told := func() string {
		act, _ := w.lesson.Current()
		return "By keys: " + strings.Join(strings.Fields(act.Keys), " ")[:40]
	}
	link := func(word string) *touch {
		for _, f := range reachable(w.column.list) {
			if b, ok := f.(*touch); ok && strings.Join(texts(b.body), "") == word {
				return b
			}
		}
		require.FailNow(t, "no link", word)
		return nil
	}
	require.NotContains(t, said(), "By keys:")
	test.Tap(link("By keys? F2"))
	require.Contains(t, said(), told())
	w.win.Canvas().Focus(link("Not by keys. F2"))
	w.win.Canvas().Focused().TypedRune('n')
	require.Equal(t, fyne.Focusable(w.mat), w.win.Canvas().Focused(), "so that the space bar takes what N pointed at")

	w.column.scroll.ScrollToBottom()
	require.NoError(t, w.lesson.Do())
	require.Contains(t, said(), told(), "as long as she goes by keys")
	require.Zero(t, w.column.scroll.Offset.Y, "the next act is seen")
	w.column.scroll.ScrollToBottom()
	f2 := &fyne.KeyEvent{Name: fyne.KeyF2}
	w.key(f2)
	require.NotContains(t, said(), "By keys:")
	require.Zero(t, w.column.scroll.Offset.Y)

	row := w.stepRow(t, w.desk.Document().Recipe[0].ID)
	w.win.Canvas().Focus(row)
	at := w.column.scroll.Offset.Y
	w.win.Canvas().Focused().TypedKey(f2)
	require.Contains(t, said(), told(), "from wherever the keys are")
	w.win.Canvas().Focus(w.stepRow(t, w.desk.Document().Recipe[0].ID))
	require.NotZero(t, at)
	name := "step " + w.desk.Document().Recipe[0].ID
	stood, _ := w.column.stands(name)
	require.NoError(t, w.lesson.Do())
	stands, _ := w.column.stands(name)
	require.Equal(t, stood, stands, "who works further down stays there")
}

func TestArrowsGoByPartsOfAnInchWhereInchesAreRead(t *testing.T) {
	w := open(t, false)
	w.setUnit(unit.InchFractions)
	w.desk.Select(tool.Selection{Piece: "band"})
	w.key(&fyne.KeyEvent{Name: fyne.KeyRight})
	move, ok := w.desk.Document().Recipe[0].Step.(*step.Move)
	require.True(t, ok)
	require.Equal(t, step.Lit(unit.Inch/16), move.DX)

	d := w.column.newDial(lengths, 25, 80, func(float64) error { return nil }, func(error) {})
	for _, want := range []string{"1 in", "1 1/16 in"} {
		d.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
		require.Equal(t, want, d.Text, "the next sixteenth")
	}
	fine := &desktop.CustomShortcut{KeyName: fyne.KeyDown, Modifier: fyne.KeyModifierControl}
	for range 4 {
		d.TypedShortcut(fine)
	}
	require.Equal(t, "1 in", d.Text, "four of a sixty-fourth")
	w.setUnit(unit.Millimetres)
	require.Equal(t, pushes, w.pushes())
	angle := w.column.newDial(degrees, 3, 80, func(float64) error { return nil }, func(error) {})
	angle.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	require.Equal(t, "2°", angle.Text)
}

// The lesson says how often Tab is pressed to come to a field, whether or not the
// window has room for that beside the other fields.
func TestTabComesToAFieldAsTheLessonCounts(t *testing.T) {
	said := regexp.MustCompile(`Tab, pressed (once|three times|four times), goes to "([^"]+)"`)
	counts := map[string]int{"once": 1, "three times": 3, "four times": 4}
	for _, size := range []fyne.Size{{}, lowest} {
		w := open(t, false)
		if size.Width > 0 {
			w.win.Resize(size)
		}
		var told []string
		for _, l := range lesson.Lessons() {
			w.startOn(l)
			for act, more := w.lesson.Current(); more; act, more = w.lesson.Current() {
				require.NotContains(t, act.Keys, "Tab to", act.Title)
				if say := said.FindStringSubmatch(act.Keys); say != nil {
					told = append(told, say[2])
					w.choose(slices.IndexFunc(w.tools, func(x tool.Tool) bool { return x.Name() == act.Tool }))
					w.beginAct(act)
					for range 2 { // also once more fields were turned to
						w.focusMat()
						w.key(&fyne.KeyEvent{Name: fyne.KeyTab})
						for range counts[say[1]] - 1 {
							w.typeHere(fyne.KeyTab)
						}
						at := slices.IndexFunc(w.tool().Fields(), func(f tool.Field) bool { return f.Label == say[2] })
						require.GreaterOrEqual(t, at, 0, say[2])
						require.Equal(t, w.prompt.boxes[w.tool().Fields()[at].Name], w.win.Canvas().Focused(), say[2])
						require.Contains(t, reachable(w.prompt.fields), w.win.Canvas().Focused(), "it shows")
					}
				}
				w.tool().Reset()
				require.NoError(t, w.lesson.Do())
			}
		}
		require.Equal(t, []string{"Lay it", "Stop where", "The edge is", "Share out", "Choose", "The edge is"}, told)
	}
}

// What an act selected is let go when the next is done with another tool, as its
// name would lie on what that is about.
func TestTheLessonLetsGoOfAnEdge(t *testing.T) {
	w := open(t, false)
	w.startLesson()
	for range 5 {
		require.NoError(t, w.lesson.Do())
	}
	add := slices.IndexFunc(w.tools, func(x tool.Tool) bool { return x.Name() == "add" })
	w.choose(add)
	share := tool.Selection{Piece: "frame", Edge: "side seam"}
	w.desk.Select(share)
	require.Equal(t, share, w.desk.Selection())
	require.NoError(t, w.lesson.Do())
	act, _ := w.lesson.Current()
	require.Equal(t, "chalk", act.Tool)
	require.Zero(t, w.desk.Selection())
}

// beginAct does of an act of a lesson what its words tell before Tab.
func (w *Window) beginAct(act lesson.Act) {
	at := act.Where(w.desk.Pattern())
	switch act.Tool {
	case "hand":
		w.desk.Select(tool.Selection{Piece: "cradle"})
	case "pin":
		at = at[:1]
	case "ruler", "shears":
	default:
		at = nil
	}
	if act.Tool != "hand" {
		for _, q := range at {
			for _, a := range []tool.Act{tool.Press, tool.Release} {
				w.tool().Pointer(tool.Event{Act: a, At: q, Reach: 3})
			}
		}
	}
	w.show()
}

// Tab goes from a step's number to the next, and only then to the signs that stand
// at their sides, back likewise; the number that is left is kept.
func TestTabGoesFromNumberToNumberOfAStep(t *testing.T) {
	w := open(t, true)
	several := 0
	for _, e := range w.desk.Document().Recipe {
		w.column.open = e.ID
		w.column.refresh()
		var dials, signs []string
		first, inOrder := fyne.Focusable(nil), true
		for _, f := range reachable(w.column.list) {
			switch f := f.(type) {
			case *dial:
				if first == nil {
					first = f
				}
				inOrder = inOrder && len(signs) == 0
				dials = append(dials, f.name)
			case *touch:
				if strings.HasPrefix(f.name, "ways of ") {
					signs = append(signs, f.name)
				}
			}
		}
		require.True(t, inOrder, "%s: no sign comes before a number", e.Step.Kind())
		if len(dials) < 2 || len(signs) == 0 {
			continue
		}
		several++
		c := w.win.Canvas()
		c.Focus(first)
		for _, name := range append(dials[1:], signs...) {
			c.FocusNext()
			require.Equal(t, name, c.Focused().(interface{ named() string }).named(), e.Step.Kind())
		}
	}
	require.Positive(t, several)
}

// A sign stands beside its number, in the row of its name.
func TestTheSignOfANumberStandsInItsRow(t *testing.T) {
	w := open(t, true)
	w.column.open = w.desk.Document().Recipe[0].ID
	w.column.refresh()
	found := map[string]fyne.CanvasObject{}
	for _, f := range reachable(w.column.list) {
		if n, ok := f.(interface{ named() string }); ok {
			found[n.named()] = f.(fyne.CanvasObject)
		}
	}
	place := fyne.CurrentApp().Driver().AbsolutePositionForObject
	seen := 0
	for name, sign := range found {
		rest, ok := strings.CutPrefix(name, "ways of ")
		if !ok {
			continue
		}
		seen++
		d := found[strings.ReplaceAll(rest, "\x00", " ")]
		require.NotNil(t, d, rest)
		require.InDelta(t, place(d).Y+d.Size().Height/2, place(sign).Y+sign.Size().Height/2, 2)
		require.GreaterOrEqual(t, place(sign).X, place(d).X+d.Size().Width)
	}
	require.Positive(t, seen)
}

// A number that Tab leaves is kept, and the keys are in the next field that shows: the
// column was made anew meanwhile.
func TestTabKeepsANumberAndGoesToTheNextThatShows(t *testing.T) {
	w := open(t, true)
	c := w.win.Canvas()
	dials := func() (all []*dial) {
		for _, f := range reachable(w.column.list) {
			if d, ok := f.(*dial); ok {
				all = append(all, d)
			}
		}
		return all
	}
	tried := 0
	for _, e := range w.desk.Document().Recipe {
		if w.column.open = e.ID; e.Step.Kind() != "smooth" {
			continue
		}
		w.column.refresh()
		tried++
		require.Len(t, dials(), 2)
		first, before := dials()[0], w.written(t)
		c.Focus(first)
		first.SetText("90")
		require.True(t, first.AcceptsTab())
		w.typeHere(fyne.KeyTab)
		require.NotEqual(t, before, w.written(t), "it is kept")
		require.Equal(t, "90 mm", dials()[0].Text)
		require.Same(t, dials()[1], c.Focused(), "which is in the window")
		w.typeHere(fyne.KeyTab)
		require.Contains(t, reachable(w.column.list), c.Focused())

		c.Focus(dials()[0])
		kept := w.written(t)
		dials()[0].SetText("9e9")
		w.typeHere(fyne.KeyTab)
		require.Equal(t, kept, w.written(t))
		require.Same(t, dials()[0], c.Focused(), "what is refused is left to be mended")
		require.Equal(t, "9e9", dials()[0].Text)
		w.typeHere(fyne.KeyEscape)
	}
	require.Positive(t, tried)
}

// So it is with a name and other words that are typed beside the mat.
func TestTabKeepsANameBesideTheMat(t *testing.T) {
	w := open(t, false)
	w.desk.Select(tool.Selection{Piece: "band", Edge: "hem"})
	w.column.refresh()
	c := w.win.Canvas()
	for _, f := range reachable(w.column.list) {
		if e, ok := f.(*entry); ok && e.Text == "hem" {
			c.Focus(e)
			e.SetText("lower edge")
			w.typeHere(fyne.KeyTab)
			break
		}
	}
	p := w.desk.Pattern()
	_, renamed := p.Edge("band", "lower edge")
	require.NotNil(t, renamed)
	require.Contains(t, reachable(w.column.list), c.Focused(), "the keys are in what shows")
}
