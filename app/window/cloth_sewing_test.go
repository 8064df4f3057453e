package window

import (
	"bytes"
	"image/color"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"
	"truemat/ops/cloth"
	"truemat/ops/cloth/order"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
	"truemat/render/handout"
)

// sewingPage opens the part of sewing of the altered demo.
func sewingPage(t *testing.T) *Window {
	t.Helper()
	w := open(t, true)
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	w.turnTo(t, "As worn, sewing")
	return w
}

func (w *Window) actRows() []*actRow {
	var rows []*actRow
	for _, f := range reachable(w.cloths.part) {
		if r, ok := f.(*actRow); ok {
			rows = append(rows, r)
		}
	}
	return rows
}

func (w *Window) inOrder() []string {
	var ids []string
	for _, r := range w.actRows() {
		ids = append(ids, strings.TrimPrefix(r.name, "act "))
	}
	return ids
}

func (w *Window) row(t *testing.T, id string) *actRow {
	t.Helper()
	i := slices.Index(w.inOrder(), id)
	require.GreaterOrEqual(t, i, 0, id)
	return w.actRows()[i]
}

func TestAnActIsMovedByKeysAsOneChange(t *testing.T) {
	w := sewingPage(t)
	found := w.inOrder()
	before := w.written(t)
	require.Equal(t, "join side seam", found[0])
	w.win.Canvas().Focus(w.row(t, "join side seam"))
	for range 2 {
		now, ok := w.win.Canvas().Focused().(*actRow)
		require.True(t, ok, "the keys stay with the act")
		require.Equal(t, "act join side seam", now.name)
		now.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	}
	require.Equal(t, 2, slices.Index(w.inOrder(), "join side seam"))
	require.Equal(t, w.inOrder(), w.desk.Goods().Order)
	w.desk.Undo()
	require.Equal(t, 1, slices.Index(w.inOrder(), "join side seam"), "each move is one change")
	w.desk.Undo()
	require.Equal(t, before, w.written(t))
	require.Equal(t, found, w.inOrder())
}

func TestAnActIsDraggedToItsPlace(t *testing.T) {
	w := sewingPage(t)
	r, onto := w.row(t, "join side seam"), w.actRows()[2]
	down := onto.Position().Y + onto.Size().Height/2 - r.Position().Y - r.Size().Height/2
	for range 4 {
		r.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(0, down/4)})
	}
	require.True(t, r.list.mark.Visible(), "where it will lie shows")
	onto.MouseIn(&desktop.MouseEvent{})
	require.Equal(t, color.Color(w.palette.Soft), r.back.FillColor, "what is held is lit")
	require.Equal(t, color.Transparent, onto.back.FillColor, "not what lies under the pointer")
	r.DragEnd()
	require.Equal(t, 2, slices.Index(w.inOrder(), "join side seam"))
	w.desk.Undo()
	require.Equal(t, 0, slices.Index(w.inOrder(), "join side seam"))
}

func TestAnImpossibleOrderIsRefusedWithTheReason(t *testing.T) {
	w := sewingPage(t)
	before, was := w.written(t), w.inOrder()
	r := w.row(t, "join wire seam")
	r.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(0, -10000)})
	r.DragEnd()
	said := strings.Join(texts(w.sheet.pop.Content), " ")
	require.Regexp(t, `It stays: number \d \(Sew "wire seam"\) must come after number \d \(Sew "cross seam"\)`, said)
	require.Empty(t, w.cloths.wrong.Objects, "it is told at the act, not above the page")
	require.Same(t, r, r.list.refused)
	require.InDelta(t, r.Position().Y+r.Size().Height, r.list.why.Position().Y, 4, "just below it")
	require.Equal(t, before, w.written(t))
	require.Equal(t, was, w.inOrder())
	w.row(t, "join side seam").TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	require.NotContains(t, strings.Join(texts(w.sheet.pop.Content), " "), "must come after")
}

func TestThickPlacesFollowTheLimit(t *testing.T) {
	w := sewingPage(t)
	said := func() string { return strings.Join(texts(w.sheet.pop.Content), " ") }
	require.Contains(t, said(), "2.6 mm of cloth lie on each other")
	require.NotContains(t, said(), "1.7 mm of cloth")
	usual := len(w.sewing.thick)
	require.Positive(t, usual)
	require.NotNil(t, w.sewing.worn)
	require.Contains(t, said(), "to centre front")
	w.limitThick("1.6 mm", true)
	require.Contains(t, said(), "1.7 mm of cloth lie on each other")
	require.Greater(t, len(w.sewing.thick), usual)
	w.limitThick("-1", true)
	require.Contains(t, said(), "no thickness")
	w.limitThick("9", true)
	require.Contains(t, said(), "Nowhere does more")
}

func TestTheSheetIsChosenAndLookedAtBeforeItIsSaved(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	w.turnTo(t, "The sheet")
	said := func() string { return strings.Join(texts(w.sheet.pop.Content), " ") }
	require.Contains(t, said(), "Page 1 of 8 on A4")
	press := func(name string) {
		for _, f := range reachable(w.cloths.part) {
			if b, ok := f.(*touch); ok && b.name == name {
				b.Tapped(nil)
				return
			}
		}
		require.Fail(t, "no such button", name)
	}
	press("page after")
	require.Contains(t, said(), "Page 2 of 8")
	press("page before")
	press("page before")
	require.Contains(t, said(), "Page 1 of 8")
	for _, f := range reachable(w.cloths.part) {
		if c, ok := f.(*widget.Check); ok && c.Text != string(handout.Sewing) {
			c.SetChecked(false)
		}
	}
	require.Contains(t, said(), "Page 1 of 3")
	for _, f := range reachable(w.cloths.part) {
		if c, ok := f.(*choice); ok {
			c.SetSelected("Letter")
		}
	}
	require.Contains(t, said(), "on Letter")
	path := filepath.Join(t.TempDir(), "sheet.pdf")
	w.writeSheet(path)
	got, err := os.ReadFile(path)
	require.NoError(t, err)
	var want bytes.Buffer
	require.NoError(t, handout.Write(&want, w.desk.Document(), w.sheetWish()))
	require.Equal(t, want.Bytes(), got)
	require.Len(t, w.telling.without, len(handout.Parts)-1)

	// What was set stays when the part shows again; another document is set anew.
	last := w.telling.last
	require.NotNil(t, last)
	require.NotNil(t, last.img)
	w.cloths.again()
	require.True(t, last == w.telling.last)
	goods := w.desk.Goods()
	goods.Cloths = slices.Clone(goods.Cloths)
	goods.Cloths[0].Thickness += 0.1
	require.NoError(t, w.desk.SetGoods(goods))
	w.cloths.again()
	require.False(t, last == w.telling.last)
}

// Orders that were kept show, and can be taken back.
func TestTheOrderFoundComesBack(t *testing.T) {
	w := sewingPage(t)
	found := w.inOrder()
	w.row(t, "join side seam").TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	require.Contains(t, strings.Join(texts(w.sheet.pop.Content), " "), "Use the suggested order")
	require.NoError(t, order.Possible(order.Acts(w.desk.Pattern(), w.desk.Goods()), w.desk.Goods().Order))
	w.sewIn(nil, "")
	require.Equal(t, found, w.inOrder())
}

func TestASeamIsTopstitchedFromTheWindow(t *testing.T) {
	w := sewingPage(t)
	before := w.written(t)
	named := func(name string) fyne.Focusable {
		for _, f := range reachable(w.cloths.part) {
			if n, ok := f.(interface{ named() string }); ok && n.named() == name {
				return f
			}
		}
		require.Fail(t, "not there", name)
		return nil
	}
	named("topstitch cross seam").(*choice).SetSelected("301 lockstitch")
	require.Equal(t, []cloth.Topstitch{{Seam: "cross seam", Class: "301", Away: 1.5}}, w.desk.Goods().Topstitch)
	require.Contains(t, strings.Join(texts(w.row(t, "join cross seam").body), " "), "topstitch it 1.5 mm from the seam")
	named("topstitch cross seam away").(*entry).done("1/8 in")
	named("topstitch cross seam rows").(*entry).done("2")
	require.Equal(t, []cloth.Topstitch{{Seam: "cross seam", Class: "301", Away: 3.175, Rows: 2, Between: 3}}, w.desk.Goods().Topstitch)
	named("topstitch cross seam between").(*entry).done("wide")
	require.Contains(t, strings.Join(texts(w.sheet.pop.Content), " "), "wide")
	named("topstitch cross seam").(*choice).SetSelected(notTopstitched)
	require.Empty(t, w.desk.Goods().Topstitch)
	for range 4 {
		w.desk.Undo()
	}
	require.Equal(t, before, w.written(t))
}

func TestHowItClosesIsTold(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	w.turnTo(t, partSuits)
	said := strings.Join(texts(w.sheet.pop.Content), " ")
	for _, want := range []string{"How it closes", "1, worn, nearest", "band alone", "650 mm", "9.9 %"} {
		require.Contains(t, said, want)
	}
}

// The page opens at its top, whatever had the keys before.
func TestThePartOpensAtItsTop(t *testing.T) {
	w := sewingPage(t)
	rows := w.actRows()
	w.win.Canvas().Focus(rows[len(rows)-1])
	require.Positive(t, w.cloths.roll.Offset.Y)
	w.cloths.turn(0)
	w.clothTo(clothParts()[w.clothAt].name)
	_, on := w.win.Canvas().Focused().(*actRow)
	require.False(t, on)
	w.clothTo("As worn, sewing")
	require.Zero(t, w.cloths.roll.Offset.Y)
}

// A seam keeps its letter when its act moves.
func TestASeamKeepsItsLetter(t *testing.T) {
	w := sewingPage(t)
	letter := func() string { return written(w.row(t, "join side seam").body)[1].Text }
	was := letter()
	require.NotEmpty(t, was)
	w.row(t, "join side seam").TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	require.Equal(t, 1, slices.Index(w.inOrder(), "join side seam"))
	require.Equal(t, was, letter())
}

// Where a seam is pressed is chosen on the page: a step that is changed when
// another is chosen, and taken back in one.
func TestASeamIsPressedFromThePage(t *testing.T) {
	w := sewingPage(t)
	pressed := func() pattern.Press { return w.desk.Pattern().Seam("side seam").Press }
	before, steps := w.written(t), len(w.desk.Document().Recipe)
	choose := func(option string) {
		for _, f := range reachable(w.cloths.part) {
			if c, ok := f.(*choice); ok && c.name == "press side seam" {
				c.SetSelected(option)
				return
			}
		}
		require.Fail(t, "no choice where the side seam is pressed")
	}
	require.Empty(t, pressed())
	choose("open")
	require.Len(t, w.desk.Document().Recipe, steps+1)
	require.Equal(t, pattern.PressedOpen, pressed())
	choose("to frame")
	require.Len(t, w.desk.Document().Recipe, steps+1, "the same step")
	require.Equal(t, pattern.PressedToA, pressed())
	require.True(t, w.desk.Undo())
	require.True(t, w.desk.Undo())
	require.Equal(t, before, w.written(t))
}

func TestThePageOfSewingNamesEdgesWithoutAPartner(t *testing.T) {
	w := sewingPage(t)
	require.NotContains(t, told(w.cloths.part), "no partner")
	require.NoError(t, w.desk.Accept(&step.Sew{Name: "side seam", Apart: true}))
	w.cloths.again()
	require.Contains(t, told(w.cloths.part), "These edges to be sewn have no partner and do not come in this order: frame: side seam; band: side seam")
}

// The act of sewing a seam whose check is broken says so, in her unit.
func TestAnActSaysWhatIsBrokenOfItsSeam(t *testing.T) {
	w := open(t, true)
	w.setUnit(unit.Centimetres)
	width := step.Lit(9)
	require.NoError(t, w.desk.Accept(&step.Allow{Piece: "band", Edge: "side seam", Width: &width}))
	w.clothPage()
	w.clothTo("As worn, sewing")
	said := 0
	for _, f := range reachable(w.cloths.part) {
		if r, ok := f.(*actRow); ok && strings.Contains(strings.Join(texts(r.body), " "), "Broken: Side seam: the allowances of its sides differ by 0.265 cm, 0.635 cm on frame and 0.9 cm on band.") {
			require.Equal(t, "act join side seam", r.name)
			said++
		}
	}
	require.Equal(t, 1, said)
}
