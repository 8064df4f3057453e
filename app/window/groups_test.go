package window

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"
	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/ops/demo"
	"truemat/ops/store"
)

// heads returns the headings of the tray that can be pressed, by group.
func (w *Window) heads() map[string]*touch {
	all := map[string]*touch{}
	at := 0
	for g, shelf := range w.shelves() {
		if len(shelf) == 0 {
			continue
		}
		if b, ok := w.tray.Objects[at].(*fyne.Container).Objects[0].(*touch); ok {
			all[groups[g].name] = b
		}
		at++
	}
	return all
}

func TestEveryToolLiesInOneGroupOfTheTray(t *testing.T) {
	w := open(t, false)
	seen := map[string]int{}
	for g, shelf := range w.shelves() {
		for _, m := range shelf {
			seen[m.word]++
			require.Contains(t, groups[g].tools, m.word)
		}
	}
	for _, x := range w.tools {
		require.Equal(t, 1, seen[key(x.Name())], x.Name())
	}
}

func TestGroupOfTheTrayIsFoldedAwayAndThatIsRemembered(t *testing.T) {
	w := open(t, false)
	head := w.heads()["Seam"]
	require.Contains(t, reachable(w.tray), fyne.Focusable(head), "keys get there")
	head.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	require.Contains(t, w.inTray, "pin")
	require.NotContains(t, w.inTray, "true")

	w.rune('u')
	require.Equal(t, "true", w.tool().Name(), "its letter still takes it up")
	require.Contains(t, w.inTray, "true", "what is in the hand shows")
	w.rune('h')
	require.Contains(t, w.inTray, "true", "what was taken up most shows")

	run, err := demo.Tern()
	require.NoError(t, err)
	d, err := desk.New(store.Document{Source: run}, "")
	require.NoError(t, err)
	again := New(w.app, d)
	again.win.Resize(fyne.NewSize(1280, 800))
	require.NotContains(t, again.inTray, "notch", "the next window has it folded")
	test.Tap(again.heads()["Seam"])
	require.Contains(t, again.inTray, "notch")
}

func TestTrayFitsEveryWindow(t *testing.T) {
	w := open(t, false)
	for _, width := range []float32{1920, 1280, 800, 640} {
		w.win.Resize(fyne.NewSize(width, 800))
		w.refresh()
		require.LessOrEqual(t, w.tray.MinSize().Width, width, "%g", width)
		require.Contains(t, w.inTray, "hand")
	}
	require.NotContains(t, w.inTray, "measure", "groups give way from the last")
	test.Tap(w.heads()["Note"])
	require.Contains(t, w.inTray, "measure", "one that is opened stays, another gives way")
	require.LessOrEqual(t, w.tray.MinSize().Width, float32(640))
	require.Empty(t, w.app.Preferences().StringList(prefFoldedGroups), "room is no wish of hers")
	w.win.Resize(fyne.NewSize(1280, 800))
	w.refresh()
	require.False(t, slices.ContainsFunc(w.tools, func(x tool.Tool) bool { return w.inTray[key(x.Name())] == nil }))
}

// Where there is room for few, hand, pin and tape stay out when another group
// is opened.
func TestTheFirstGroupGivesWayLast(t *testing.T) {
	w := open(t, false)
	w.win.Resize(fyne.NewSize(960, 540))
	w.refresh()
	w.rune('a')
	test.Tap(w.heads()["Seam"])
	for _, word := range []string{"hand", "pin", "tape", "add", "walk", "level", "allowance"} {
		require.Contains(t, w.inTray, word)
	}
}

func TestTheToolThatTheLessonAsksForIsMarked(t *testing.T) {
	w := open(t, false)
	w.startLesson()
	require.NoError(t, w.lesson.Do())
	require.Equal(t, "pin", w.wanted())
	require.Equal(t, w.palette.Soft, w.trayAt(t, "pin").fill)
	w.rune('i')
	require.Equal(t, w.palette.Accent, w.trayAt(t, "pin").fill, "in the hand")
	w.endLesson()
	require.Empty(t, w.wanted())
}

// In a tray too narrow for a group its tools are listed above its heading, so
// that the pointer gets at every one.
func TestEveryToolIsReachedByThePointerInANarrowTray(t *testing.T) {
	w := open(t, false)
	w.win.Resize(fyne.NewSize(640, 400))
	w.refresh()
	for g, shelf := range w.shelves() {
		for i, m := range shelf {
			w.rune('r') // the ruler, whose group is the widest
			if w.inTray[m.word] == nil {
				test.Tap(w.heads()[groups[g].name])
			}
			if b := w.inTray[m.word]; b != nil {
				test.Tap(b)
			} else {
				top, ok := w.win.Canvas().Overlays().Top().(fyne.Widget)
				require.True(t, ok, m.word)
				list := test.WidgetRenderer(top).Objects()[0].(*widget.PopUpMenu)
				test.Tap(list.Items[i].(fyne.Tappable))
			}
			require.Equal(t, m.index, w.active, m.word)
			require.Nil(t, w.win.Canvas().Overlays().Top())
		}
	}
}

// While the pointer rests on the tool that was pressed, the line says what to do
// next; of another tool it tells what that is.
func TestAPointerOnTheToolInTheHandHidesNoInstruction(t *testing.T) {
	w := open(t, false)
	find := func(name string) *touch {
		for _, f := range reachable(w.tray) {
			if b, ok := f.(*touch); ok && b.hover != nil && strings.Contains(strings.Join(texts(b), " "), name) {
				return b
			}
		}
		t.Fatalf("no %s in the tray", name)
		return nil
	}
	b := find("Spread")
	b.hover(true)
	require.Contains(t, strings.Join(texts(w.prompt.top), " "), "Key D.")
	test.Tap(b)
	find("Spread").hover(true)
	told := strings.Join(texts(w.prompt.top), " ")
	require.NotContains(t, told, "Key D.")
	require.Contains(t, told, "Press")
}
