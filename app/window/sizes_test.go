package window

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/store"
	"truemat/ops/unit"
)

// pressWord presses what bears a word in the column.
func (w *Window) pressWord(t *testing.T, word string) {
	t.Helper()
	for _, f := range reachable(w.column.list) {
		if b, ok := f.(*touch); ok && strings.Join(texts(b.body), " ") == word {
			test.Tap(b)
			return
		}
	}
	require.FailNow(t, "no such word", word)
}

func TestSheSaysWhetherAChangeGoesToAllSizesOrToOne(t *testing.T) {
	w := open(t, false)
	require.NoError(t, w.desk.SetSize("75C"))
	before := w.written(t)
	w.pressWord(t, "only 75C")
	w.desk.Select(tool.Selection{Piece: "cradle"})
	w.key(&fyne.KeyEvent{Name: fyne.KeyRight})
	require.Equal(t, "Accept for 75C  ↵", texts(w.prompt.acts)[0])
	w.key(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.Equal(t, []string{"75C"}, w.desk.Document().Recipe[0].Sizes)
	require.Contains(t, strings.Join(texts(w.column.list), " "), "(only 75C)")

	w.column.open = w.desk.Document().Recipe[0].ID
	w.column.refresh()
	w.pressWord(t, "For all sizes")
	require.Empty(t, w.desk.Document().Recipe[0].Sizes)
	w.pressWord(t, "Only for 75C")
	require.Equal(t, []string{"75C"}, w.desk.Document().Recipe[0].Sizes)
	w.pressWord(t, "all sizes")
	w.key(&fyne.KeyEvent{Name: fyne.KeyRight})
	require.Equal(t, "Accept  ↵", texts(w.prompt.acts)[0])
	w.abandon()
	for w.desk.CanUndo() {
		w.undo()
	}
	require.Equal(t, before, w.written(t))
}

func TestTableOfSizesLeadsToTheSizeAndPlace(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetSize("75C"))
	w.sizesPage()
	s := &sizeTable{w: w, table: w.desk.Tabulate()()}
	s.show()
	require.Equal(t, 12, len(s.cells[0]))
	require.Len(t, s.cells, 1+s.table.Count(check.Look)+s.table.Count(check.Broken))
	shown := s.cells[0][slices.Index(w.desk.Document().Source.Labels(), "75C")]
	require.Equal(t, fyne.Focusable(shown), w.win.Canvas().Focused())

	shown.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	shown = w.win.Canvas().Focused().(*touch)
	require.Contains(t, strings.Join(texts(s.told), " "), "75C: ", "the sentence of the check that has the keys")
	shown.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	next := w.win.Canvas().Focused().(*touch)
	next.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.Nil(t, w.sheet)
	require.Equal(t, "75D", w.desk.Size())
	require.Equal(t, tool.Selection{Piece: "frame", Edge: "wire"}, w.desk.Selection())
	row, ok := w.win.Canvas().Focused().(*touch)
	require.True(t, ok)
	require.Equal(t, w.column.bounds, row.name, "its sentence is marked and has the keys")
	y, there := w.column.stands(row.name)
	require.True(t, there)
	require.GreaterOrEqual(t, y, float32(0), "and is in view")
	require.Less(t, y, w.column.scroll.Size().Height)

	w.unit = unit.InchFractions
	s.show()
	for y := range s.cells[1:] {
		s.made(y + 1)[0].hover(true)
		require.NotContains(t, strings.Join(texts(s.told), " "), " mm", "told in the unit chosen")
	}
	w.unit = unit.Millimetres
	s.full = true
	s.show()
	require.Len(t, s.cells, 1+len(s.table.Rows))
	w.backOut()
}

// A larger size chosen in the table is seen whole when all was.
func TestASizeChosenInTheTableIsSeenWhole(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetSize("65C"))
	w.mat.Fit()
	s := &sizeTable{w: w, table: w.desk.Tabulate()()}
	s.show()
	s.visit("80E", nil)
	p := w.desk.Pattern()
	for _, pc := range p.Pieces {
		require.True(t, w.mat.Sees(boundsOf(p, pc.Name)), pc.Name)
	}
}

// Tab leaves the values for the word above them, whichever has the keys, so that
// Enter after it never chooses a size.
func TestTabLeavesTheValuesOfTheTable(t *testing.T) {
	w := open(t, true)
	s := &sizeTable{w: w, table: w.desk.Tabulate()()}
	s.show()
	for _, k := range []fyne.KeyName{fyne.KeyTab, fyne.KeyReturn} {
		w.typeHere(k)
	}
	require.True(t, s.full, "all are shown now")
	require.NotNil(t, w.sheet)
	w.typeHere(fyne.KeyDown)
	w.typeHere(fyne.KeyTab)
	word, ok := w.win.Canvas().Focused().(*touch)
	require.True(t, ok)
	require.Contains(t, texts(word), "Hide those that hold")
	w.backOut()
}

func TestSizeInWhichAStepFailsIsNamedWithTheReason(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetSize("75C"))
	require.NoError(t, w.desk.SetSizes("tape", "75C"))
	said := strings.Join(texts(w.column.list), " ")
	require.Contains(t, said, "It does not apply in 11 other sizes, such as 65C")
	s := &sizeTable{w: w, table: w.desk.Tabulate()()}
	s.show()
	all := s.behind()
	require.Contains(t, all, "Behind: 65C, 65D, 65E, 70C, 70D, 70E, 75D, 75E, 80C, 80D, 80E. Step 8 (straight-hem)")
	require.Equal(t, 1, strings.Count(all, "Behind"), "sizes of one reason are told together")
}

func TestOtherSizesLieOnTheSpotSheChose(t *testing.T) {
	w := open(t, false)
	require.NoError(t, w.desk.SetSize("75C"))
	require.Empty(t, w.others())
	w.pressWord(t, "all")
	require.Len(t, w.others(), 11)
	w.pressWord(t, "bands")
	require.Len(t, w.others(), 2)

	spots := []pattern.Spot{pattern.AtEnd("cradle", "hem", pattern.End), pattern.AtEnd("cradle", "hem", pattern.Start)}
	apart := func(s pattern.Spot) float64 {
		p := w.desk.Pattern()
		here, err := p.Find(s)
		require.NoError(t, err)
		far := 0.0
		for _, pieces := range w.others() {
			there, err := pattern.Pattern{Pieces: pieces}.Find(s)
			require.NoError(t, err)
			far = max(far, there.Mat.Dist(here.Mat))
		}
		return far
	}
	require.Greater(t, apart(spots[0]), 0.5)
	shown := w.desk.Pattern()
	next := shown.Piece("cradle")
	after := next.Edges[next.Next(next.EdgeIndex("hem"))].Name
	w.desk.Select(tool.Selection{Piece: "cradle", Edge: after, Joint: true})
	w.pressWord(t, "Lay the sizes on this corner")
	require.InDelta(t, 0, apart(spots[0]), 1e-9)
	require.Greater(t, apart(spots[1]), 0.5)
	w.pressWord(t, "Let the sizes lie as they do")
	require.Greater(t, apart(spots[0]), 0.5)

	w.desk.Select(tool.Selection{Piece: "cradle", Edge: "hem"})
	w.pressWord(t, "Lay the sizes on this edge")
	require.InDelta(t, 0, apart(spots[1]), 1e-9)

	// On a line through two places of her choice.
	notch := pattern.AtNotch("cradle", "bottom")
	w.desk.Select(tool.Selection{Piece: "cradle", Edge: after, Joint: true})
	w.pressWord(t, "Lay the sizes on this corner")
	w.desk.Select(tool.Selection{Piece: "cradle", Notch: "bottom"})
	w.pressWord(t, "Turn them along the line to this notch")
	require.InDelta(t, 0, apart(spots[0]), 1e-9)
	p := w.desk.Pattern()
	a, err := p.Find(spots[0])
	require.NoError(t, err)
	b, err := p.Find(notch)
	require.NoError(t, err)
	line, err := geom.NewLine(a.Mat, b.Mat)
	require.NoError(t, err)
	for _, pieces := range w.others() {
		there, err := pattern.Pattern{Pieces: pieces}.Find(notch)
		require.NoError(t, err)
		require.InDelta(t, 0, line.Distance(there.Mat), 1e-9)
	}
	w.pressWord(t, "Let the sizes lie as they do")
	require.Greater(t, apart(spots[0]), 0.5)
}

// On the smallest screen what is told of a value is seen whole below the table.
func TestWhatTheTableTellsIsSeenOnTheSmallestScreen(t *testing.T) {
	w := open(t, true)
	w.win.Resize(smallest)
	s := &sizeTable{w: w, table: w.desk.Tabulate()()}
	s.full = true
	s.show()
	y, there := depth(rollIn(s.sheet.pop.Content).Content, s.told)
	require.True(t, there)
	for row := range s.cells[1:] {
		if cell := s.made(row + 1)[0]; cell != nil {
			w.win.Canvas().Focus(cell)
			require.LessOrEqual(t, y+s.told.MinSize().Height, w.pageRoom().Height, "%v", texts(s.told))
		}
	}
}

func TestATableWiderThanTheWindowRollsAlongWithTheKeys(t *testing.T) {
	w := open(t, false)
	w.win.Resize(fyne.NewSize(960, 540))
	w.setUnit(unit.InchFractions)
	s := &sizeTable{w: w, table: w.desk.Tabulate()()}
	s.full = true
	s.show()
	require.NotNil(t, s.across)
	last := len(s.table.Columns) - 1
	seen := func(column int) bool {
		right := float32(tableName+(column+1)*tableCell) - s.across.Offset.X
		return right <= s.across.Size().Width && right-tableCell >= tableName
	}
	named := func() {
		require.NotEmpty(t, s.names)
		for _, n := range s.names {
			require.Equal(t, s.across.Offset.X, n.Position().X, "%v stays beside what is seen", texts(n))
		}
	}
	require.True(t, seen(0))
	require.False(t, seen(last))
	for range last {
		w.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	}
	require.Equal(t, fyne.Focusable(s.cells[0][last]), w.win.Canvas().Focused())
	require.True(t, seen(last))
	require.Positive(t, s.across.Offset.X)
	named()
	s.across.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(30, 0)})
	named()
	s.rollTo(last)
	require.Contains(t, strings.Join(texts(s.told), " "), "Size 80E")
	for y := range s.cells[1:] {
		cell := s.made(y + 1)[last]
		if cell == nil {
			continue
		}
		w.win.Canvas().Focus(cell)
		require.NotRegexp(t, `\d mm`, strings.Join(texts(s.told), " "), "told in her unit")
	}
	named()
	for range last {
		w.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	}
	require.True(t, seen(0))
}

func TestTheWheelRollsTheColumnWell(t *testing.T) {
	w := open(t, true)
	roll := w.column.scroll
	for _, o := range []float32{-25, 25} {
		was := roll.Offset.Y
		w.column.page.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, o)})
		require.Equal(t, was-clicked*o, roll.Offset.Y)
	}
}

// The words of the sizes may be rolled out of view: the title tells which is shown.
func TestTheTitleTellsTheSizeShown(t *testing.T) {
	w := open(t, false)
	require.NoError(t, w.desk.SetSize("80D"))
	require.Contains(t, w.win.Title(), ", size 80D")
}

// Of a long table only the rows near the view are made and painted; the keys and
// the wheel come to all of them.
func TestRowsOfTheTableAreThereWhenTheyComeIntoView(t *testing.T) {
	w := open(t, true)
	s := &sizeTable{w: w, table: w.desk.Tabulate()(), full: true}
	s.show()
	last := len(s.cells) - 1
	shown := func(y int) bool { return s.cells[y] != nil && s.rows.boxes.Objects[y-1].Visible() }
	require.True(t, shown(1))
	require.Nil(t, s.cells[last], "not made yet")

	s.sheet.rolled(fyne.KeyEnd)
	require.True(t, shown(last))
	require.False(t, shown(1), "out of view")
	s.sheet.rolled(fyne.KeyHome)
	require.True(t, shown(1))
	require.False(t, shown(last))

	for range last {
		w.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	}
	require.Contains(t, s.cells[last], w.win.Canvas().Focused(), "the keys come to the last row")
	require.True(t, shown(last))
	w.backOut()
}

// Where a step is open the sizes before and after the one shown are at hand, and
// the step stays where it is; a view of all is one of all in each of them.
func TestAnOpenStepIsSeenInTheSizesBesideIt(t *testing.T) {
	w := open(t, true)
	labels := w.desk.Document().Source.Labels()
	require.NoError(t, w.desk.SetSize(labels[0]))
	e := w.desk.Document().Recipe[8]
	w.column.open = e.ID
	w.column.refresh()
	w.column.toStep(e.ID)
	w.mat.Fit()
	first := w.mat.Camera()
	stands, _ := w.column.stands("step " + e.ID)
	w.pressWord(t, labels[1]+" ›")
	require.Equal(t, labels[1], w.desk.Size())
	now, there := w.column.stands("step " + e.ID)
	require.True(t, there)
	require.Equal(t, stands, now)
	w.pressWord(t, "‹ "+labels[0])
	w.pressWord(t, "‹ "+labels[len(labels)-1])
	require.Equal(t, labels[len(labels)-1], w.desk.Size())
	require.Less(t, w.mat.Camera().Scale, first.Scale)
	w.pressWord(t, labels[0]+" ›")
	require.Equal(t, first, w.mat.Camera())
}

// A file shows the size again that was shown when it was left, whichever way that
// was chosen; the first where nothing usable is kept.
func TestAFileShowsTheSizeInWhichItWasLeft(t *testing.T) {
	w := open(t, false)
	shown := func(path string) string {
		next := open(t, false)
		next.set = w.set
		require.Equal(t, "65C", next.desk.Size())
		next.openPath(path)
		require.Equal(t, path, next.desk.Path())
		return next.desk.Size()
	}
	dir := t.TempDir()
	path, copied := filepath.Join(dir, "a.truemat"), filepath.Join(dir, "b.truemat")

	w.showSize("80C") // it has no file yet
	w.saveTo(path, w.complain, nil)
	require.Equal(t, "80C", shown(path))
	w.saveTo(copied, w.complain, nil)
	require.Equal(t, "80C", shown(copied))
	w.showSize("75D")
	require.Equal(t, []string{"80C", "75D"}, []string{shown(path), shown(copied)}, "each by itself")
	(&sizeTable{w: w, sheet: w.openSheet("", 100), table: w.desk.Tabulate()()}).visit("75E", nil)
	require.Equal(t, "75E", shown(copied))
	doc, err := store.Load(copied)
	require.NoError(t, err)
	d, err := desk.New(doc, copied)
	require.NoError(t, err)
	require.Equal(t, "75E", NewWith(w.app, w.set, d).desk.Size(), "with the file named at the start, too")

	w.set.SetString(sizeKey(copied), "32B")
	require.Equal(t, "65C", shown(copied))
	w.set.SetString(sizeKey(copied), "")
	require.Equal(t, "65C", shown(copied))
}
