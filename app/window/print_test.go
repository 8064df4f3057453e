package window

import (
	"image"
	"image/color"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"truemat/ops/check"
	"truemat/ops/cloth"
	"truemat/ops/cloth/suit"
	"truemat/ops/demo"
	"truemat/ops/step"
	"truemat/ops/unit"
)

func (w *Window) onPage() string { return strings.Join(texts(w.sheet.pop.Content), " ") }

func TestPrintPageTellsWhatIsBroken(t *testing.T) {
	w := open(t, true)
	w.printPage()
	require.Regexp(t, `No check is broken in what is printed; \d+ things deserve a look`, w.onPage())
	require.Contains(t, w.onPage(), "1 + 2 pages of A4, 1 row × 2 columns")
	w.sheet.close()

	width := step.Lit(9)
	require.NoError(t, w.desk.Accept(&step.Allow{Piece: "band", Edge: "side seam", Width: &width}))
	broken := w.desk.Doubts([]string{w.desk.Size()})().Broken
	require.NotEmpty(t, broken)
	w.printPage()
	require.Contains(t, w.onPage(), asSentence(broken[0].Check.Text)[:40])
}

// A check is told once of all sizes that are printed, on the page and, in her
// unit, on the first page of the print.
func TestAPrintOfSeveralSizesTellsACheckOnce(t *testing.T) {
	w := open(t, true)
	w.setUnit(unit.Centimetres)
	width := step.Lit(9)
	require.NoError(t, w.desk.Accept(&step.Allow{Piece: "band", Edge: "side seam", Width: &width}))
	p := w.openPrint()
	p.sizes = []string{"65C", "80E"}
	p.lay()
	told := strings.Join(texts(p.state), " ")
	require.Contains(t, told, "In 65C and 80E: Side seam: the allowances of its sides differ by")
	require.NotContains(t, told, "Broken, too")
	require.Len(t, p.job.Doubts.Broken, 1)
	require.Equal(t, unit.Centimetres, p.job.Units)
}

// In a low window, too, what is wrong is seen beside what saves.
func TestALowPrintPageShowsWhatIsBroken(t *testing.T) {
	w := open(t, true)
	w.win.Resize(smallest)
	width := step.Lit(9)
	for _, at := range [][2]string{{"band", "side seam"}, {"inner cup", "vertical seam"}, {"lower outer cup", "cross seam"}} {
		require.NoError(t, w.desk.Accept(&step.Allow{Piece: at[0], Edge: at[1], Width: &width}))
	}
	for _, u := range []unit.System{unit.InchFractions, unit.Millimetres} {
		w.unit = u
		for _, told := range texts(w.openPrint().state) {
			require.False(t, strings.HasSuffix(told, "…"), told)
		}
		w.sheet.close()
	}
	p := w.openPrint()
	y, there := depth(p.sheet.roll.Content, p.state)
	require.True(t, there)
	require.Less(t, y+p.state.Size().Height, w.pageRoom().Height)
	for _, told := range texts(p.state) {
		require.False(t, strings.HasSuffix(told, "…"), told)
	}
	require.Contains(t, strings.Join(texts(p.state), " "), "Broken, too")
}

func TestPrintIsLookedAtPageByPageWithItsCover(t *testing.T) {
	w := open(t, true)
	w.printPage()
	var on *touch
	for _, f := range reachable(w.sheet.pop.Content) {
		if b, ok := f.(*touch); ok && strings.Join(texts(b.body), "") == "›" {
			on = b
		}
	}
	require.Contains(t, w.onPage(), "Map of the pages")
	test.Tap(on)
	require.Contains(t, w.onPage(), "Page 1 of 3")
	test.Tap(on)
	require.Contains(t, w.onPage(), "Page 2 of 3, row 1, column 1")
	test.Tap(on)
	test.Tap(on)
	require.Contains(t, w.onPage(), "Map of the pages")
}

// A map that is high and narrow is shown turned by a quarter, its pages joined
// as they are glued, and it is told where its rows begin.
func TestAHighMapOfThePagesIsTurned(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetSize("75C"))
	w.printPage()
	p := &printing{picture: image.NewRGBA(image.Rect(0, 0, 200, 700))}
	require.True(t, p.turned())
	require.Contains(t, w.onPage(), "Map of the pages, on its side: row 1 at the left")
	require.Contains(t, w.onPage(), "3 rows × 1 column")

	img := image.NewRGBA(image.Rect(0, 0, 2, 3))
	img.SetRGBA(1, 0, color.RGBA{R: 9, A: 255}) // upper right
	turned := quarter(img)
	require.Equal(t, image.Rect(0, 0, 3, 2), turned.Bounds())
	require.Equal(t, uint8(9), turned.RGBAAt(0, 0).R, "comes to the upper left")
}

func TestThePaperIsTheOnePrintedOnLast(t *testing.T) {
	w := open(t, false)
	paper := func() *choice {
		for _, f := range reachable(w.sheet.pop.Content) {
			if c, ok := f.(*choice); ok {
				return c
			}
		}
		require.FailNow(t, "no paper")
		return nil
	}
	w.printPage()
	require.Equal(t, "A4", paper().Selected)
	w.sheet.close()
	w.setUnit(unit.InchFractions)
	w.printPage()
	require.Equal(t, "Letter", paper().Selected, "as it is sold where inches are read")
	paper().SetSelected("A3")
	w.sheet.close()
	w.printPage()
	require.Equal(t, "A3", paper().Selected)
}

// The print page opens with the keys on what it is for.
func TestEnterSavesThePrint(t *testing.T) {
	w := open(t, true)
	w.printPage()
	under := w.sheet
	w.typeHere(fyne.KeyReturn)
	require.NotEqual(t, under, w.sheet, "the page for files")
	require.Contains(t, w.onPage(), "Save the print")
}

// A page is looked at as wide as the window by + or a press, turned there, and
// left again; in a low window too it is much larger then.
func TestAPageOfAPrintIsSeenLarger(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1280, Height: 770}, lowest} {
		w := open(t, true)
		w.win.Resize(size)
		p := w.openPrint()
		w.typeHere(fyne.KeyPageDown)
		under := w.sheet
		small := p.view.Size()
		w.win.Canvas().Focused().TypedRune('+')
		require.NotEqual(t, under, w.sheet)
		require.Contains(t, w.onPage(), "Page 1 of 3")
		shown := w.sheet.roll.Content.MinSize()
		require.Greater(t, shown.Height, 1.4*small.Height)
		require.Greater(t, shown.Width, 0.8*min(size.Width, largerWide))
		w.key(&fyne.KeyEvent{Name: fyne.KeyDown})
		require.Positive(t, w.sheet.roll.Offset.Y, "it rolls")
		w.key(&fyne.KeyEvent{Name: fyne.KeyPageDown})
		require.Contains(t, w.onPage(), "Page 2 of 3, row 1, column 1")
		require.Zero(t, w.sheet.roll.Offset.Y, "from its head")
		require.InDelta(t, size.Width, w.sheet.roll.Size().Width, 70, "the window is used")
		require.InDelta(t, size.Height, w.sheet.roll.Size().Height, 160, "the window is used")
		over := w.sheet
		for _, press := range [][2]string{{"›", "Page 3 of 3"}, {"‹", "Page 2 of 3"}} {
			button := findTouch(t, over.pop.Content, press[0])
			right := fyne.CurrentApp().Driver().AbsolutePositionForObject(button).X + button.Size().Width
			require.Less(t, right, size.Width, "it stands within the window")
			test.Tap(button)
			require.Contains(t, w.onPage(), press[1])
		}
		test.Tap(findTouch(t, over.pop.Content, "Smaller  −"))
		require.Equal(t, under, w.sheet, "back by the mouse")
		w.win.Canvas().Focused().TypedRune('+')
		w.key(&fyne.KeyEvent{Name: fyne.KeyReturn})
		require.Contains(t, w.onPage(), "Save the print", "Enter saves there too")
		w.sheet.close()
		require.NotEqual(t, over, w.sheet)
		require.Equal(t, under, w.sheet)
		w.win.Canvas().Focused().TypedRune('+')
		require.NotEqual(t, under, w.sheet)
		w.rune('-')
		require.Equal(t, under, w.sheet, "back")
		w.win.Canvas().Focused().TypedRune('+')
		require.Equal(t, size != lowest, strings.Contains(w.onPage(), "Enter saves"))
		w.sheet.close()
		require.Equal(t, under, w.sheet)
		require.Contains(t, w.onPage(), "Page 2 of 3, row 1, column 1")
		test.Tap(findTouch(t, under.pop.Content, "Larger  +"))
		require.NotEqual(t, under, w.sheet)
	}
}

// What does not hold is told with where it stands, the checks of cloths and
// elastics on their own page, and that is pressed to come there, in a size in
// which it is so.
func TestAPrintLeadsToWhereWhatDoesNotHoldStands(t *testing.T) {
	w := open(t, true)
	g := demo.Goods()
	g.Elastics[0].PutOn = cloth.Turned
	require.NoError(t, w.desk.SetGoods(g))
	all := w.desk.Doubts([]string{w.desk.Size()})()
	look := slices.Concat(all.Look, all.Broken)
	onCloth := slices.ContainsFunc(look, func(d check.Doubt) bool { return suit.Judges(d.Check) })
	require.True(t, onCloth)
	lead := func(p *printing, word string) *touch {
		for _, o := range reachable(p.state) {
			if b, ok := o.(*touch); ok && strings.HasPrefix(b.name, "lead "+word) {
				return b
			}
		}
		return nil
	}
	p := w.openPrint()
	b := lead(p, partSuits)
	require.NotNil(t, b)
	test.Tap(b)
	require.False(t, p.sheet.open())
	require.Equal(t, partSuits, clothParts()[w.cloths.at].name)
	w.sheet.close()

	width := step.Lit(9)
	require.NoError(t, w.desk.Accept(&step.Allow{Piece: "band", Edge: "side seam", Width: &width}))
	p = w.openPrint()
	p.sizes = []string{"80E"}
	p.lay()
	b = lead(p, "See beside the mat, 80E")
	require.NotNil(t, b)
	test.Tap(b)
	require.False(t, p.sheet.open())
	require.Equal(t, "80E", w.desk.Size())
	require.Equal(t, "side seam", w.desk.Selection().Edge)
}
