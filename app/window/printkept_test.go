package window

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/require"
	"truemat/ops/unit"
)

func printTick(t *testing.T, p *printing, words string) *tick {
	t.Helper()
	for _, f := range reachable(p.sheet.pop.Content) {
		if c, ok := f.(*tick); ok && c.Text == words {
			return c
		}
	}
	require.FailNow(t, "no tick "+words)
	return nil
}

func printField(t *testing.T, p *printing) *entry {
	t.Helper()
	for _, f := range reachable(p.sheet.pop.Content) {
		if e, ok := f.(*entry); ok {
			return e
		}
	}
	require.FailNow(t, "no field")
	return nil
}

// The print page comes back as it was left while the document is open; what was
// never ticked follows the size shown.
func TestThePrintPageComesBackAsItWasLeft(t *testing.T) {
	w := open(t, true)
	p := w.openPrint()
	require.Equal(t, []string{"65C"}, p.sizes)
	w.sheet.close()
	require.NoError(t, w.desk.SetSize("75E"))
	p = w.openPrint()
	require.Equal(t, []string{"75E"}, p.sizes)
	test.Tap(printTick(t, p, "65C"))
	test.Tap(printTick(t, p, "pieces on the fold whole"))
	overlap := printField(t, p)
	overlap.SetText("12")
	overlap.OnSubmitted("12")
	w.sheet.close()

	require.NoError(t, w.desk.SetSize("80E"))
	w.setUnit(unit.Centimetres)
	p = w.openPrint()
	require.Equal(t, []string{"65C", "75E"}, p.sizes)
	require.True(t, printTick(t, p, "75E").Checked)
	require.False(t, printTick(t, p, "80E").Checked)
	require.False(t, p.job.FoldWhole)
	require.Equal(t, "1.2 cm", p.overlap)
	require.InDelta(t, 12, p.job.Overlap, 1e-9)
	require.Len(t, p.job.Sizes, 2)
	w.sheet.close()

	require.True(t, w.newTern())
	p = w.openPrint()
	require.Equal(t, []string{w.desk.Size()}, p.sizes, "of another document nothing is kept")
	require.True(t, p.job.FoldWhole)
}

// A size that is no more is printed no more.
func TestAPrintForgetsSizesThatAreGone(t *testing.T) {
	k := printKept{sizes: []string{"65C", "75E"}}
	require.Equal(t, []string{"75E"}, k.chosen([]string{"75E", "80E"}, "80E"))
	require.Equal(t, []string{"80E"}, k.chosen([]string{"80E"}, "80E"))
}

// Enter saves from the ticks, the paper and the overlap, too; what was typed
// for the overlap it takes first.
func TestEnterSavesThePrintFromItsChoices(t *testing.T) {
	w := open(t, true)
	enter := &fyne.KeyEvent{Name: fyne.KeyReturn}
	p := w.openPrint()
	all := reachable(p.sheet.pop.Content)
	n := 0
	for _, f := range all {
		if _, word := f.(*touch); word {
			continue
		}
		n++
		w.win.Canvas().Focus(f)
		f.TypedKey(enter)
		require.NotEqual(t, p.sheet, w.sheet, "%T", f)
		require.Contains(t, w.onPage(), "Save the print", "%T", f)
		w.sheet.close()
		require.Equal(t, p.sheet, w.sheet)
	}
	require.Greater(t, n, 12)

	overlap := printField(t, p)
	w.win.Canvas().Focus(overlap)
	overlap.SetText("15")
	overlap.TypedKey(enter)
	require.Equal(t, p.sheet, w.sheet)
	require.InDelta(t, 15, p.job.Overlap, 1e-9)
	overlap.TypedKey(enter)
	require.Contains(t, w.onPage(), "Save the print")
	require.True(t, slices.Contains(p.sizes, "65C"))
}

// Enter while the pages are still being laid saves once they are.
func TestEnterWaitsUntilThePrintIsLaid(t *testing.T) {
	w := open(t, true)
	p := w.openPrint()
	job, l := p.job, laidOut{plan: p.plan, pages: p.pages, picture: p.picture}
	p.laying = true
	p.savePDF.able(false)
	p.enter()
	require.Equal(t, p.sheet, w.sheet)
	p.done(p.serial, job, l, nil)
	require.Contains(t, w.onPage(), "Save the print")
}

// Where a page rolls, its bar stands beside its parts and not over them.
func TestTheBarOfAPageStandsBesideItsParts(t *testing.T) {
	w := open(t, true)
	w.win.Resize(lowest)
	p := w.openPrint()
	right := func(o fyne.CanvasObject) float32 {
		return fyne.CurrentApp().Driver().AbsolutePositionForObject(o).X + o.Size().Width
	}
	bar := fyne.CurrentApp().Settings().Theme().Size(theme.SizeNameScrollBar)
	beside := func(o fyne.CanvasObject) {
		all := rollIn(w.sheet.pop.Content)
		require.Greater(t, all.Content.MinSize().Height, all.Size().Height, "it rolls")
		require.LessOrEqual(t, right(o), right(all)-bar)
		require.Less(t, right(all), right(w.sheet.pop.Content), "within the page")
	}
	beside(p.savePDF)
	p.save()
	name, ok := w.win.Canvas().Focused().(*nameField)
	require.True(t, ok)
	beside(name)
}
