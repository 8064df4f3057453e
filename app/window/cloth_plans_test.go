package window

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/demo"
)

// planned opens the plan of a cloth of the altered demo.
func planned(t *testing.T, name string) (*Window, *clothBoard) {
	w := open(t, true)
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	s := &sitting{Window: w}
	v, err := s.planOf(name)
	require.NoError(t, err)
	return w, v
}

func TestALacePlanIsLaidByHandInOneStep(t *testing.T) {
	w, v := planned(t, "heron lace")
	before := w.written(t)
	v.pull(1, geom.Pt(-40, 0), true)
	laces := w.desk.Goods().Laces
	require.Len(t, laces, 1)
	require.Len(t, laces[0].In(w.desk.Size()), v.board.Count())
	require.True(t, w.plans.board.board.ByHand())
	require.Contains(t, strings.Join(texts(w.sheet.pop.Content), " "), "more than the shortest")
	w.undo()
	require.Equal(t, before, w.written(t), "one step back")
	require.False(t, w.plans.board.board.ByHand(), "and so it shows")
	w.redo()
	require.True(t, w.plans.board.board.ByHand())
	require.NotNil(t, w.sheet, "the page stays")
}

func TestAnOverlapOnAPlanIsToldAndNotKept(t *testing.T) {
	w, v := planned(t, "heron lace")
	before := w.written(t)
	towards := 96.0 // a whole repeat, so that the other one stays
	if v.board.Piece(2).Held.X < v.board.Piece(1).Held.X {
		towards = -towards
	}
	v.pull(1, geom.Pt(towards, 0), false)
	require.Contains(t, strings.Join(texts(w.sheet.pop.Content), " "), "over each other")
	v.MouseUp(nil)
	require.Contains(t, strings.Join(texts(w.sheet.pop.Content), " "), "It went back")
	require.Equal(t, before, w.written(t))
}

func TestAPlanIsLaidByKeys(t *testing.T) {
	w, v := planned(t, "heron lace")
	before := w.written(t)
	w.win.Canvas().Focus(v)
	v.TypedRune('n')
	v.TypedRune('n')
	for range 6 {
		v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	}
	require.Equal(t, before, w.written(t), "nothing is kept before Enter")
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.NotNil(t, w.sheet, "Escape gives up the move and leaves the page")
	require.False(t, v.board.Moved())
	for range 6 {
		v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	}
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.NotEqual(t, before, w.written(t))
	require.NotEmpty(t, w.desk.Goods().Laces)
	require.Same(t, v, w.win.Canvas().Focused(), "the keys stay on the plan")
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.Nil(t, w.sheet)
}

func TestAPieceIsTurnedByADoublePress(t *testing.T) {
	w, v := planned(t, "power net")
	at := v.toScreen(v.turn.Apply(v.board.Piece(0).Outline.Centroid()))
	e := &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary}
	was := v.board.Piece(0).Way
	for range 2 {
		v.MouseDown(e)
		v.MouseUp(e)
	}
	pins := w.desk.Goods().Laid
	require.Len(t, pins, 1)
	require.NotEqual(t, was, w.plans.board.board.Piece(0).Way)
}

// What lies by hand when the button is pressed stays, and the others go around it.
func TestTheOthersAreLaidAroundWhatWasLaidLast(t *testing.T) {
	w, _ := planned(t, "power net")
	pinned := func() (names []string) {
		for _, pin := range w.desk.Goods().LaidOn("power net").Pins {
			if pin.Size == w.desk.Size() && !pin.Loose {
				names = append(names, pin.Piece)
			}
		}
		return names
	}
	for _, far := range []float64{180, 60} {
		w.plans.board.pull(0, geom.Pt(far, 0), true)
		lies := w.plans.board.board.Piece(0).Outline.Centroid()
		require.Equal(t, []string{"band"}, pinned())
		w.pressOnPage(t, "Lay the rest anew")
		require.Equal(t, []string{"band"}, pinned())
		require.InDelta(t, 0, w.plans.board.board.Piece(0).Outline.Centroid().Dist(lies), 1e-6)
	}
	w.pressOnPage(t, "Unpin it")
	require.Empty(t, pinned())
}

func TestWhatIsWishedOfALacePieceIsTyped(t *testing.T) {
	w, v := planned(t, "heron lace")
	w.win.Canvas().Focus(v)
	v.TypedRune('n')
	v.TypedRune('n') // the inner cup
	field := func(name string) *entry {
		for _, f := range reachable(w.cloths.part) {
			if e, ok := f.(*entry); ok && e.name == "plan "+name {
				return e
			}
		}
		require.Fail(t, "no field "+name)
		return nil
	}
	field("motif").done("24 mm")
	on := w.desk.Goods().OnLaceOf("heron lace", w.desk.Pattern())
	require.InDelta(t, 24, *on.Wishes[1].Motif, 1e-9)
	require.Nil(t, on.Wishes[0].Motif, "the frame is as it was")
	field("depth").done("5 mm")
	on = w.desk.Goods().OnLaceOf("heron lace", w.desk.Pattern())
	require.InDelta(t, 5, on.Wishes[1].Depth, 1e-9)
	field("between").done("3 mm")
	require.InDelta(t, 3, w.desk.Goods().OnLaceOf("heron lace", w.desk.Pattern()).Gap, 1e-9)
	kept := w.written(t)
	field("depth").done("50 mm")
	require.Contains(t, strings.Join(texts(w.sheet.pop.Content), " "), "11 mm deep")
	require.Equal(t, kept, w.written(t))
	field("between").done("wide")
	require.Equal(t, kept, w.written(t))
	words, spots := heldSpots(w.desk.Pattern().Piece("inner cup"), on.Wishes[1])
	require.GreaterOrEqual(t, len(words), 3)
	require.Len(t, spots, len(words))
	for _, s := range spots[1:] {
		next := on.Wishes[1]
		next.Spot = s
		w.plans.set(w.desk.Goods().WithWish("heron lace", w.desk.Pattern(), next))
		require.NoError(t, w.plans.wrong, s.String())
	}
	field("motif").done("")
	require.Nil(t, w.desk.Goods().OnLaceOf("heron lace", w.desk.Pattern()).Wishes[1].Motif)
}

func TestAPlanIsSavedAsAPage(t *testing.T) {
	w, _ := planned(t, "heron lace")
	path := filepath.Join(t.TempDir(), "plan.pdf")
	w.plans.write(path)
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	require.True(t, bytes.HasPrefix(b, []byte("%PDF-")))
	require.Contains(t, strings.Join(texts(w.sheet.pop.Content), " "), "plan.pdf is written")
}

// The border of the lace is drawn on the tiles when it is ticked.
func TestTheBorderIsTickedOnThePrintPage(t *testing.T) {
	w := open(t, true)
	border := func() *tick {
		w.printPage()
		var found *tick
		for _, f := range reachable(w.sheet.pop.Content.(*fyne.Container)) {
			if c, ok := f.(*tick); ok && c.Text == "border of the lace" {
				found = c
			}
		}
		return found
	}
	require.Nil(t, border(), "without a lace there is nothing to tick")
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	c := border()
	require.NotNil(t, c)
	c.SetChecked(true)
	said := func() string { return strings.Join(texts(w.sheet.pop.Content), " ") }
	require.Contains(t, said(), "pages of A4")
	require.NoError(t, w.desk.SetGoods(w.desk.Goods().WithWish("heron lace", w.desk.Pattern(), cloth.Wish{Piece: "frame", Depth: 50})))
	c.SetChecked(false)
	require.Contains(t, said(), "pages of A4")
	c.SetChecked(true)
	require.Contains(t, said(), "11 mm deep", "the plan it is drawn by cannot be")
}

// A plan that an alteration made overlap shows its pieces where they were laid, and
// what is wrong beside them.
func TestAPlanThatOverlapsByAnAlterationShows(t *testing.T) {
	w, _ := planned(t, "heron lace")
	zero := 0.0
	g := demo.Goods().WithWish("heron lace", w.desk.Pattern(), cloth.Wish{Piece: "inner cup", Motif: &zero})
	g = g.WithPlaces("heron lace", w.desk.Size(), []cloth.Place{{Piece: "inner cup", At: 0}, {Piece: "inner cup", Mirrored: true, At: 0}})
	require.NoError(t, w.desk.SetGoods(g))
	w.refresh()
	b := w.plans.board.board
	require.Equal(t, 3, b.Count())
	require.True(t, b.Overlapping(1) && b.Overlapping(2))
	shown := strings.Join(texts(w.sheet.pop.Content), " ")
	require.Contains(t, shown, "over each other")
	require.Contains(t, shown, "Forget what was laid by hand")
}

// A piece that is cut from the lace and has no edge for its border is told on the
// plan and on the list to shop from.
func TestWhatThePlanLacksIsTold(t *testing.T) {
	w, _ := planned(t, "heron lace")
	g, err := demo.Goods().WithLayers("upper outer cup", "heron lace")
	require.NoError(t, err)
	require.NoError(t, w.desk.SetGoods(g))
	w.refresh()
	require.Contains(t, told(w.cloths.part), "Upper outer cup is cut from")
	w.clothTo("To buy")
	require.Contains(t, told(w.cloths.part), "more of it is to be bought")
}

// Letting go of a piece leaves the picture at its scale while all of it shows;
// a plan that has grown beyond it is fitted anew. The width of the cloth is
// written, and the selvedge beyond what is drawn is drawn too.
func TestAPlanKeepsItsScaleWhileAllOfItShows(t *testing.T) {
	w, v := planned(t, "sheer tricot")
	require.Equal(t, w.roughly(v.cloth.Width)+" wide", v.wide[0].Text)
	require.Equal(t, "not all drawn", v.wide[1].Text)
	k, corner := v.k, v.corner
	v.pull(1, geom.Pt(12, 0), true)
	require.True(t, w.plans.board.board.ByHand())
	require.Equal(t, k, v.k)
	require.Equal(t, corner, v.corner)
	v.pull(1, geom.Pt(2000, 0), true)
	require.NotEqual(t, k, v.k, "it would not be seen any more")
	require.True(t, v.shows())
}
