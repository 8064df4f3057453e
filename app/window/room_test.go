package window

import (
	"fmt"
	"image/color"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"truemat/ops/demo"
)

// The half of a screen of 1280 × 800, without the bar of a window manager: the
// room there is at scale 2.
var smallest = fyne.NewSize(640, 372)

// However much a tool asks and tells, the window asks for less than the
// smallest screen has.
func TestTheWindowIsNeverLargerThanTheSmallestScreen(t *testing.T) {
	for name, act := range map[string]func(*sitting) error{
		"shears": (*sitting).cuttingOff, "walk": (*sitting).walking,
	} {
		w := open(t, false)
		w.win.Resize(smallest)
		require.NoError(t, act(&sitting{Window: w}), name)
		least := w.body.MinSize()
		require.LessOrEqual(t, least.Width, smallest.Width, name)
		require.LessOrEqual(t, least.Height, smallest.Height-32, "%s: the menu stands above", name)
		require.LessOrEqual(t, w.prompt.extra(), w.prompt.spare(), name)
	}
}

// Every page fits into a small window and into half of a large screen; what is
// more rolls, so that all of it is reached.
func TestPagesFitSmallWindowsAndRoll(t *testing.T) {
	pages := map[string]func(*Window){
		"print": (*Window).printPage, "keys": (*Window).keysPage, "tools": (*Window).toolsPage, "checks": (*Window).checksPage,
		"signs": (*Window).signsPage, "sizes": func(w *Window) { w.sizesPage() }, "fit": func(w *Window) { w.fitPage() },
		"steps": func(w *Window) { w.stepsPage("lace", demo.TernInLace()) },
	}
	for i, p := range clothParts() {
		pages["cloth, "+p.name] = func(w *Window) { w.clothPageAt(i) }
	}
	for _, size := range []fyne.Size{smallest, fyne.NewSize(960, 540)} {
		w := open(t, true)
		require.NoError(t, w.desk.SetGoods(demo.Goods()))
		w.win.Resize(size)
		for name, page := range pages {
			page(w)
			least := w.sheet.pop.MinSize()
			require.LessOrEqual(t, least.Width, size.Width, "%s at %v", name, size)
			require.LessOrEqual(t, least.Height, size.Height, "%s at %v", name, size)
			require.NotNil(t, w.sheet.roll, name)
			w.sheet.close()
		}
	}
}

// The table of wires and sizes needs no rolling sideways, which would take the
// word that closes out of view.
func TestWiresAndMeasuresAreAsWideAsTheWindow(t *testing.T) {
	for _, size := range []fyne.Size{smallest, {Width: 1280, Height: 800}} {
		w := open(t, true)
		w.win.Resize(size)
		f := w.fitPage()
		require.LessOrEqual(t, f.wide, size.Width)
		require.LessOrEqual(t, w.sheet.width, f.wide)
		w.shoot(t, fmt.Sprint("fit-", size.Width))
		for _, o := range f.list.Objects {
			require.LessOrEqual(t, o.MinSize().Width, f.wide, size)
		}
	}
}

// A drawing beside or below the form of a cloth is never a strip.
func TestTheDrawingOfAClothHasRoom(t *testing.T) {
	for _, size := range []fyne.Size{smallest, {Width: 960, Height: 540}, {Width: 1100, Height: 700}, {Width: 1280, Height: 800}} {
		w := open(t, true)
		require.NoError(t, w.desk.SetGoods(demo.Goods()))
		w.described = "heron lace"
		w.win.Resize(size)
		w.clothPage()
		require.GreaterOrEqual(t, w.besideForm(), float32(leastDrawing), size)
		require.LessOrEqual(t, w.cloths.part.MinSize().Width, w.cloths.wide, size)
	}
}

// Right leads from the word Plans into the drawing.
func TestFromPlansTheKeysGoIntoTheDrawing(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	w.clothPageAt(slices.IndexFunc(clothParts(), func(p clothPart) bool { return p.name == partPlans }))
	require.NotNil(t, w.plans.board)
	w.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	require.Equal(t, fyne.Focusable(w.plans.board), w.win.Canvas().Focused())
}

// A cloth that is not kept yet waits when the page is opened again, and only
// what has the keys looks so.
func TestOnlyOneThingLooksAsIfItHadTheKeys(t *testing.T) {
	w := open(t, true)
	w.clothPage()
	w.describe(plainCloth)
	name := w.describing[""].fields["name"]
	require.Equal(t, fyne.Focusable(name), w.win.Canvas().Focused())
	lit := func() (lit bool) {
		for _, o := range test.WidgetRenderer(name).Objects() {
			if r, ok := o.(*canvas.Rectangle); ok && r.Visible() {
				lit = lit || r.StrokeWidth > 0 && color.NRGBAModel.Convert(r.StrokeColor) == w.palette.Accent
			}
		}
		return lit
	}
	require.True(t, lit())
	w.sheet.close()
	w.clothPage()
	require.NotEqual(t, fyne.Focusable(name), w.win.Canvas().Focused())
	require.False(t, lit(), "its border shows no longer that it has the keys")
}

// What a tool is for is told in whole words, if in fewer of them.
func TestWhatAToolIsForIsToldInWholeWordsOnTheSmallestScreen(t *testing.T) {
	w := open(t, false)
	for _, size := range []fyne.Size{smallest, fyne.NewSize(1280, 740)} {
		w.win.Resize(size)
		for word := range abouts {
			w.rune(abouts[word].letter)
			w.refresh()
			told := w.prompt.idle.Text
			require.NotContains(t, told, "…", word)
			if told != "" {
				require.Regexp(t, `\w{2,}\.$`, told, word)
			}
			if size != smallest && told != "" {
				require.Equal(t, abouts[word].what, told)
			}
		}
	}
}
