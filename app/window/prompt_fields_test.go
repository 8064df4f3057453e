package window

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// many is a tool with more fields than two rows hold.
type many struct {
	tool.Tool
	set map[string]string
}

func (many) Name() string { return "many" }
func (many) Hint() string { return "" }
func (m many) Fields() (out []tool.Field) {
	for i := range 24 {
		name := fmt.Sprint("field ", i)
		out = append(out, tool.Field{Name: name, Label: name, Text: m.set[name], Seldom: i < 2})
	}
	return out
}
func (m many) Set(field, text string) error { m.set[field] = text; return nil }

// No more than two rows of fields show; the others are reached by a word at
// their end, with the pointer and with the keys.
func TestFieldsBeyondTwoRowsAreReachedByAWord(t *testing.T) {
	w := open(t, false)
	m := many{w.tools[0], map[string]string{}}
	w.tools[0] = m
	w.choose(0)
	seen := map[string]int{}
	at := w.mat.Camera()
	for page := range w.prompt.pages {
		require.Equal(t, page, w.prompt.page)
		shown := reachable(w.prompt.fields)
		for _, f := range shown[:len(shown)-1] {
			seen[f.(*entry).name]++
		}
		require.LessOrEqual(t, w.prompt.fields.MinSize().Height, 2*up(shown[0].(fyne.CanvasObject).MinSize().Height)+8)
		if page == 0 {
			require.NotContains(t, seen, "field 0", "what is needed seldom gives way")
			require.Contains(t, seen, "field 2")
		}
		more := shown[len(shown)-1].(*touch)
		if page%2 == 0 {
			test.Tap(more)
			continue
		}
		w.win.Canvas().Focus(more)
		more.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
		require.Equal(t, reachable(w.prompt.fields)[0], w.win.Canvas().Focused(), "the keys go on in the fields")
	}
	require.Greater(t, len(w.prompt.pages), 1)
	require.Len(t, seen, 24)
	for name, n := range seen {
		require.Equal(t, 1, n, name)
	}
	require.Equal(t, 0, w.prompt.page, "and back")
	require.Equal(t, at, w.mat.Camera(), "the mat stays")
}

// Enter opens a list as Space does; the first arrow in one that the keys opened
// goes on from what is picked.
func TestKeysOnAList(t *testing.T) {
	for _, opens := range []fyne.KeyName{fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace, fyne.KeyDown} {
		got := ""
		c := newChoice([]string{"nothing", "hem", "wire"}, "nothing", func(s string) { got = s })
		win := test.NewTempWindow(t, c)
		win.Resize(fyne.NewSize(400, 300))
		c.TypedKey(&fyne.KeyEvent{Name: opens})
		list := win.Canvas().Focused()
		require.NotNil(t, list, opens)
		list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
		list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		require.Equal(t, "hem", got, "Enter in the open list picks")
	}
}

func TestMoreFieldsGiveTheKeysToTheFirstOfThem(t *testing.T) {
	w := open(t, false)
	w.win.Resize(lowest)
	w.desk.Select(tool.Selection{Piece: "cradle"})
	w.refresh()
	require.Greater(t, len(w.prompt.pages), 1)
	for range 2 * len(w.prompt.pages) {
		all := reachable(w.prompt.fields)
		w.win.Canvas().Focus(all[len(all)-1])
		w.typeHere(fyne.KeySpace)
		w.win.Canvas().Focused().TypedRune(' ') // the driver gives it to what has the keys by then
		all = reachable(w.prompt.fields)
		require.Equal(t, all[0], w.win.Canvas().Focused())
		if e, ok := all[0].(*entry); ok {
			require.Equal(t, e.was, e.Text)
		}
	}
}

// lowest is what a screen of 1280 × 800 dots leaves the window at scale 2.
var lowest = fyne.NewSize(640, 372)

// grows is a tool whose last field asks for many more once it holds a number.
type grows struct{ many }

func (g grows) Fields() []tool.Field {
	all := g.many.Fields()
	if g.set["field 5"] == "" {
		return all[:6]
	}
	return append(all[:5:5], append(all[6:], all[5])...)
}

// A field that is typed into stays in view and keeps the keys though further
// fields come that leave no room for it where it stood.
func TestAFieldThatIsTypedIntoIsNotFoldedAway(t *testing.T) {
	for _, size := range []fyne.Size{lowest, fyne.NewSize(1280, 772)} {
		w := open(t, false)
		w.win.Resize(size)
		m := many{w.tools[0], map[string]string{}}
		w.tools[0] = grows{m}
		w.choose(0)
		w.prompt.focus("field 5")
		e := w.win.Canvas().Focused().(*entry)
		for _, r := range "11.3" {
			w.win.Canvas().Focused().TypedRune(r)
			require.Same(t, e, w.win.Canvas().Focused(), "the keys stay")
			require.Contains(t, reachable(w.prompt.fields), fyne.Focusable(e), "it shows")
		}
		require.Greater(t, len(w.prompt.pages), 1)
		w.typeHere(fyne.KeyReturn)
		require.Equal(t, map[string]string{"field 5": "11.3"}, m.set)
	}
}

// By keys the fields of every page are one row: Tab turns on to those that do not
// show, and what is typed on the way is kept.
func TestTabGoesThroughTheFieldsOfAllPages(t *testing.T) {
	w := open(t, false)
	w.win.Resize(lowest)
	m := many{w.tools[0], map[string]string{}}
	w.tools[0] = m
	w.choose(0)
	require.Greater(t, len(w.prompt.pages), 3)
	w.focusMat()
	w.key(&fyne.KeyEvent{Name: fyne.KeyTab})
	for i, name := range w.prompt.order() {
		e, ok := w.win.Canvas().Focused().(*entry)
		require.True(t, ok, "%d: %T", i, w.win.Canvas().Focused())
		require.Equal(t, name, e.name)
		require.Contains(t, reachable(w.prompt.fields), fyne.Focusable(e), "it shows")
		e.TypedRune('7')
		w.typeHere(fyne.KeyTab)
		require.Equal(t, "7", m.set[name])
	}
	require.Contains(t, reachable(w.prompt.fields), w.win.Canvas().Focused(), "what leads back")
}

// A list above the tray is no wider than its row has room for, with the word that
// turns on.
func TestALowWindowHasOneRowOfFields(t *testing.T) {
	w := open(t, false)
	w.win.Resize(lowest)
	w.desk.Select(tool.Selection{Piece: "cradle"})
	w.refresh()
	for range w.prompt.pages {
		all := reachable(w.prompt.fields)
		require.Less(t, w.prompt.fields.MinSize().Height, float32(secondRow+8), "%d", w.prompt.page)
		all[len(all)-1].(*touch).Tapped(nil)
	}
}

// What a tool is for, and how a page for files is used, is told whole in a low
// window, too.
func TestALowWindowCutsNoSentence(t *testing.T) {
	w := open(t, false)
	w.win.Resize(lowest)
	told := 0
	for i := range w.tools {
		w.choose(i)
		if idle := w.prompt.idle.Text; idle != "" {
			told++
			require.Equal(t, abouts[key(w.tool().Name())].what, idle)
		}
	}
	require.Greater(t, told, 10)
	for _, open := range []func(){func() { w.saveAs(nil) }, w.openFile} {
		open()
		for _, s := range texts(w.sheet.pop.Content) {
			if strings.Contains(s, "↑ ↓") {
				require.NotContains(t, s, "…")
				told++
			}
		}
		w.sheet.close()
	}
	require.Greater(t, told, 12)
}

// A field to be typed into grows to show what comes to stand in it, as far as
// the row has room.
func TestAFieldGrowsWithWhatComesIntoIt(t *testing.T) {
	w := open(t, true)
	require.NoError(t, (&sitting{Window: w}).take("chalk"))
	w.show()
	require.NoError(t, w.tool().Set("pieces", "inner cup, upper outer cup"))
	w.show()
	on := w.prompt.boxes["pieces"].(*entry)
	require.Equal(t, "inner cup, upper outer cup", on.Text)
	require.GreaterOrEqual(t, on.Size().Width, wholeFor(on.Text))
}

// The choice of which fields there are stays where it is while it is used, so
// that the next press does not go astray; in a low window it is the first.
func TestTheChoiceOfFieldsStaysWhereItIs(t *testing.T) {
	for name, low := range map[string]bool{"usual": false, "low": true} {
		t.Run(name, func(t *testing.T) {
			w := open(t, false)
			if low {
				w.win.Resize(fyne.NewSize(640, 400))
				w.refresh()
			}
			w.rune('d')
			at, err := (&sitting{Window: w}).spots(along("lower outer cup", "cross seam", 0.5), along("lower outer cup", "wire", 0.5))
			require.NoError(t, err)
			for _, at := range at {
				w.pointer(tool.Event{Act: tool.Press, At: at, Reach: 3})
				w.pointer(tool.Event{Act: tool.Release, At: at, Reach: 3})
			}
			require.NoError(t, w.tool().Set("amount", "4 mm"))
			w.show()
			var places []fyne.Position
			for _, o := range []string{"the edge", "the slash", "the opening"} {
				box := w.prompt.boxes["page"]
				require.NotNil(t, box)
				places = append(places, fyne.CurrentApp().Driver().AbsolutePositionForObject(box))
				w.prompt.set("page", o)
				require.NotEmpty(t, w.prompt.order())
			}
			for _, at := range places {
				require.Equal(t, places[0], at)
			}
		})
	}
}

// A field that is empty again is as wide as the words that say what it wants.
func TestAFieldThatIsEmptyAgainShowsWholeWhatItWants(t *testing.T) {
	w := open(t, false)
	require.NoError(t, w.desk.Accept(&step.Add{EdgeEnd: step.EdgeEnd{Piece: "cradle", Edge: "side seam", End: pattern.End}, Amount: step.Lit(3)}))
	require.NoError(t, (&sitting{Window: w}).take("chalk"))
	require.NoError(t, w.tool().Set("offer", "all that are altered"))
	w.show()
	w.accept()
	on := w.prompt.boxes["pieces"].(*entry)
	require.Empty(t, on.Text)
	require.NotContains(t, w.prompt.boxes, "offer", "there are no more")
	require.GreaterOrEqual(t, on.Size().Width, wholeFor(on.PlaceHolder))
}
