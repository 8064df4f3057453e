package tool_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
	"truemat/ops/walk"
)

// walkedMM is the walked length that the tool shows.
func walkedMM(t testing.TB, tl tool.Tool) float64 {
	t.Helper()
	v, err := unit.Parse(field(t, tl, "walked").Text)
	require.NoError(t, err)
	return v
}

func noted(tl tool.Tool, part string) bool {
	for _, n := range tl.Overlay().Notes {
		if strings.Contains(n.Text, part) {
			return true
		}
	}
	return false
}

// withoutNotch is the Tern from which a notch was taken.
func withoutNotch(t testing.TB, piece, notch string) *desk.Desk {
	t.Helper()
	d := tern(t, 0)
	require.NoError(t, d.Accept(&step.Notch{Act: step.DeleteNotch, Piece: piece, Name: notch}))
	return d
}

func TestAPieceIsWalkedAlongASeamByHand(t *testing.T) {
	d := withoutNotch(t, "lower outer cup", "cross")
	w := tool.NewWalk(d)
	press(w, midEdge(t, d, "upper outer cup", "cross seam", 0.5))
	assert.Contains(t, field(t, w, "walked").Label, "upper outer cup")
	assert.Nil(t, w.Proposal())
	require.NoError(t, w.Set("walked", "0"))

	// Along the lower cup's edge, which stands still where it was laid when the
	// upper one was pressed; the walk settles at the notch.
	at, err := d.Pattern().Find(pattern.AtNotch("upper outer cup", "cross"))
	require.NoError(t, err)
	_, low := d.Pattern().Edge("lower outer cup", "cross seam")
	pose, ok := w.(tool.Layer).Lays()["lower outer cup"]
	require.True(t, ok)
	place := func(s float64) geom.Point { return pose.Apply(low.Path.At(low.Length() - s)) }
	press(w, place(12))
	assert.InDelta(t, 12, walkedMM(t, w), 0.1)
	drag(w, place(at.S-1.2).Add(geom.Pt(0.3, 0.2)))
	assert.InDelta(t, at.S, walkedMM(t, w), 0.01)
	assert.True(t, noted(w, "notch cross of upper outer cup"))
	w.Pointer(tool.Event{Act: tool.Drag, At: place(at.S - 1.2), Reach: reach, Shift: true})
	assert.InDelta(t, at.S-1.2, walkedMM(t, w), 0.05, "with Shift it does not settle")
	drag(w, place(at.S))
	release(w, place(at.S))

	// Dropped where the partner's notch is, and accepted as one act.
	before := d.Document()
	require.True(t, w.Key(tool.Key{Name: tool.Choose}))
	assert.Equal(t, "cross", field(t, w, "name").Text)
	require.NoError(t, d.Accept(w.Proposal()...))
	dropped, err := d.Pattern().Find(pattern.AtNotch("lower outer cup", "cross"))
	require.NoError(t, err)
	assert.InDelta(t, at.S, low.Length()-dropped.S, 1e-9)
	require.True(t, d.Undo())
	assert.Equal(t, before, d.Document())
}

// Whichever of the pieces is pressed, it stays where it lies and the others come
// to it; the ring is beneath the pointer, and the same stroke rolls on.
func TestAWalkBeginsWhereTheSeamIsPressed(t *testing.T) {
	d := tern(t, 0)
	for _, edge := range [][2]string{{innerCup, "vertical seam"}, {"upper outer cup", "vertical seam"}, {"lower outer cup", "vertical seam"}} {
		w := tool.NewWalk(d)
		at := midEdge(t, d, edge[0], edge[1], 0.4)
		press(w, at)
		table, ok := w.(tool.Tabler).Table()
		require.True(t, ok, edge)
		require.Equal(t, "vertical seam", table.Seam, edge)
		ring := func() geom.Point {
			for _, dot := range w.Overlay().Dots {
				if dot.Style == tool.Handle {
					return dot.At
				}
			}
			require.FailNow(t, "no ring")
			return geom.Point{}
		}
		require.InDelta(t, 0, ring().Dist(at), 2.9, "but for a notch beside, at which it settles: %s", edge)
		if pose, elsewhere := w.(tool.Layer).Lays()[edge[0]]; elsewhere {
			was := d.Pattern().Piece(edge[0]).Pose
			require.InDelta(t, 0, pose.Apply(geom.Pt(50, 50)).Dist(was.Apply(geom.Pt(50, 50))), 6, "%s stays", edge[0])
		}
		was := walkedMM(t, w)
		to := midEdge(t, d, edge[0], edge[1], 0.7)
		drag(w, to)
		require.Greater(t, math.Abs(walkedMM(t, w)-was), 5.0, edge)
		release(w, to)
	}
}

func TestTheRollingPieceIsTakenHoldOf(t *testing.T) {
	d := tern(t, 0)
	w := tool.NewWalk(d)
	require.NoError(t, w.Set("seam", "wire seam"))
	require.NoError(t, w.Set("walked", "30 mm"))
	wk, err := walk.Seam(d.Pattern(), "wire seam", walk.Way{})
	require.NoError(t, err)
	pose := d.Pattern().Piece("bridge").Pose
	on := func(s float64) geom.Point { return pose.Apply(wk.At(s, 1).Point) }
	// Far from the seam, inside the cup as it lies there.
	c := wk.At(30, 1)
	o, err := d.Pattern().Piece("inner cup").Outline()
	require.NoError(t, err)
	inside := c.Pose.Then(pose).Apply(o.Centroid())
	press(w, inside)
	assert.InDelta(t, 30, walkedMM(t, w), 1e-6, "taking hold moves nothing")
	w.Pointer(tool.Event{Act: tool.Drag, At: inside.Add(on(40).Sub(on(30))), Reach: reach, Shift: true})
	assert.NotEqual(t, 30.0, walkedMM(t, w))
	release(w, inside)
}

func TestAWalkByKeysAndTypedLengths(t *testing.T) {
	d := tern(t, 0)
	w := tool.NewWalk(d)
	walkTo(t, w, "upper outer cup")
	require.True(t, w.Key(tool.Key{Name: tool.Choose}))
	walkTo(t, w, "cross seam of upper outer cup")
	require.True(t, w.Key(tool.Key{Name: tool.Choose}))
	require.True(t, w.Key(tool.Key{Name: tool.Right, Step: 10}))
	require.True(t, w.Key(tool.Key{Name: tool.Left, Step: 1}))
	assert.InDelta(t, 9, walkedMM(t, w), 1e-9)
	require.True(t, w.Key(tool.Key{Name: tool.Next}))
	assert.True(t, noted(w, "notch cross of both"))
	assert.False(t, strings.Contains(w.Hint(), "space drops"), "both sides have their notch there")
	w.Key(tool.Key{Name: tool.Choose})
	assert.Nil(t, w.Proposal())

	require.NoError(t, w.Set("walked", "1 1/2 in"))
	require.True(t, w.Key(tool.Key{Name: tool.Choose}))
	require.NoError(t, w.Set("name", "ease from here"))
	require.NoError(t, w.Set("kind", "double"))
	require.NoError(t, w.Set("walked", "50mm"))
	require.NoError(t, w.Set("drop", "here on lower outer cup"))
	require.True(t, w.Key(tool.Key{Name: tool.Delete}), "the last one is taken away")
	steps := w.Proposal()
	require.Len(t, steps, 1)
	require.NoError(t, d.Accept(steps...))
	for _, piece := range []string{"upper outer cup", "lower outer cup"} {
		n := d.Pattern().Piece(piece).Notch("ease from here")
		require.NotNil(t, n, piece)
		assert.True(t, n.Double)
		assert.InDelta(t, 38.1, n.MM, 1e-4)
	}

	require.Error(t, w.Set("walked", "4000 mm"))
	require.Error(t, w.Set("walked", "far"))
	require.Error(t, w.Set("drop", "in the air"))
	require.Error(t, w.Set("seam", "waist seam"))
	require.NoError(t, w.Set("drop", "here on both sides"))
	require.Error(t, w.Set("name", "ease from here"), "there is one already")
	assert.True(t, w.Reset(), "what was dropped goes first")
	assert.Nil(t, w.Proposal())
	assert.NotEmpty(t, w.Overlay().Strokes, "the seam stays")
	assert.True(t, w.Reset())
	assert.Empty(t, w.Overlay().Strokes)
	assert.False(t, w.Reset())
}

func TestAWalkFromTheEndAndFromNotches(t *testing.T) {
	d := tern(t, 0)
	w := tool.NewWalk(d)
	require.NoError(t, w.Set("seam", "vertical seam"))
	require.NoError(t, w.Set("start", "the end"))
	require.NoError(t, w.Set("walked", "20 mm"))
	require.NoError(t, w.Set("drop", "here on both sides"))
	require.NoError(t, w.Set("start", "notch below apex"))
	require.NoError(t, w.Set("walked", "10 mm"))
	require.NoError(t, w.Set("drop", "here on inner cup"))
	require.NoError(t, w.Set("rolls", "lower and upper outer cup"))
	steps := w.Proposal()
	require.Len(t, steps, 2, "one for each start")
	require.NoError(t, d.Accept(steps...))
	p := d.Pattern()
	inner := p.Piece("inner cup")
	length := inner.Edge("vertical seam").Length()
	assert.InDelta(t, length-20, inner.Notch("notch 1").At(length), 1e-9)
	assert.InDelta(t, inner.Notch("below apex").At(length)+10, inner.Notch("notch 2").At(length), 1e-4)
	assert.NotNil(t, p.Piece("upper outer cup").Notch("notch 1"))
}

func TestEaseIsStatedAndSpreadInTheWalk(t *testing.T) {
	d := tern(t, 0)
	require.NoError(t, d.Accept(&step.Notch{Act: step.MoveNotch, Piece: "inner cup", Name: "below apex", Edge: "vertical seam", MM: step.Lit(40)}))
	w := tool.NewWalk(d)
	require.NoError(t, w.Set("seam", "vertical seam"))
	require.True(t, w.Key(tool.Key{Name: tool.Next}))
	assert.True(t, noted(w, "the notches there miss each other by "))
	require.NoError(t, w.Set("page", "the ease"))
	require.NoError(t, w.Set("between", "start to below apex"))
	require.Error(t, w.Set("ease", "4000 mm"))
	require.NoError(t, w.Set("ease", "1/16"))
	require.NoError(t, w.Set("spread", "moving those of inner cup"))
	require.NoError(t, d.Accept(w.Proposal()...))
	s := d.Pattern().Seam("vertical seam")
	require.Len(t, s.Stretches, 1)
	assert.InDelta(t, 1.5875, s.Ease, 1e-9)
	w.Reset()

	require.NoError(t, w.Set("between", "all of it"))
	require.NoError(t, w.Set("ease", "0"))
	require.NoError(t, w.Set("spread", "moving those of inner cup"))
	require.NoError(t, d.Accept(w.Proposal()...))
	wk, err := walk.Seam(d.Pattern(), "vertical seam", walk.Way{})
	require.NoError(t, err)
	for _, r := range wk.Table().Rows {
		assert.InDelta(t, 0, r.Difference, 1e-6)
	}
}

func TestTwoEdgesOfHerOwnAreWalked(t *testing.T) {
	d := tern(t, 0)
	w := tool.NewWalk(d)
	press(w, midEdge(t, d, "band", "hem", 0.1))
	assert.Contains(t, w.Hint(), "Now press the edge along which hem of band is walked")
	press(w, midEdge(t, d, "cradle", "hem", 0.9))
	require.NoError(t, w.Set("walked", "25 mm"))
	require.Error(t, w.Set("ease", "1"), "there is no seam")
	require.NoError(t, w.Set("drop", "here on both sides"))
	require.NoError(t, d.Accept(w.Proposal()...))
	n := d.Pattern().Piece("cradle").Notch("notch 1")
	require.NotNil(t, n)
	assert.Equal(t, pattern.End, n.From)
	assert.InDelta(t, 25, n.MM, 1e-4)
	assert.InDelta(t, 25, d.Pattern().Piece("band").Notch("notch 1").MM, 1e-4)

	// They become a seam, and are walked as one.
	w.Reset()
	require.NoError(t, w.Set("page", "the way"))
	require.Error(t, w.Set("sew", "side seam"), "there is one of that name")
	require.NoError(t, w.Set("sew", "hem join"))
	accept(t, d, w)
	require.NotNil(t, d.Pattern().Seam("hem join"))
	require.NoError(t, w.Set("seam", "hem join"))
	require.Error(t, w.Set("sew", "again"))
	table, ok := w.(tool.Tabler).Table()
	require.True(t, ok)
	assert.Equal(t, "hem join", table.Seam)
	assert.Equal(t, "notch 1", table.Rows[0].To)
	assert.InDelta(t, 25, table.Rows[0].A, 1e-4)
}

// Two edges that do not meet are not walked; what to do is told in the words of
// the window, and can be done there.
func TestAWalkWithoutASharedStartIsToldAndMended(t *testing.T) {
	d := tern(t, 0)
	w := tool.NewWalk(d)
	press(w, midEdge(t, d, "band", "hem", 0.1))
	press(w, midEdge(t, d, innerCup, "neckline", 0.9))
	for _, word := range []string{"the start of hem of band", "the end of neckline of " + innerCup, "Sew the two edges together", "lay the one end on the other"} {
		assert.Contains(t, strings.ToLower(w.Hint()), strings.ToLower(word))
	}
	assert.NotContains(t, w.Hint(), "start_a")
	require.Empty(t, w.Proposal())
	require.Error(t, w.Set("walked", "10"))
	require.NoError(t, w.Set("sew", "odd seam"))
	assert.Contains(t, w.Hint(), "Enter sews")
	accept(t, d, w)
	require.NotNil(t, d.Pattern().Seam("odd seam"))
	table, ok := w.(tool.Tabler).Table()
	require.True(t, ok)
	assert.Equal(t, "odd seam", table.Seam, "it goes on with the seam")
	require.NoError(t, w.Set("walked", "10"))
}

func TestPlayRollsHaltsAndEnds(t *testing.T) {
	d := tern(t, 0)
	w := tool.NewWalk(d)
	p, ok := w.(tool.Player)
	require.True(t, ok)
	require.NoError(t, w.Set("seam", "wire seam"))
	assert.False(t, p.Playing())
	require.True(t, w.Key(tool.Key{Name: tool.Up}))
	require.True(t, p.Playing())
	halts := map[float64]int{}
	last, seconds := 0.0, 0.0
	for p.Playing() && seconds < 60 {
		p.Tick(0.05)
		seconds += 0.05
		now := walkedMM(t, w)
		require.GreaterOrEqual(t, now, last)
		require.LessOrEqual(t, now-last, 3.0)
		if now == last {
			halts[now]++
		}
		last = now
		look(t, w)
	}
	wk, err := walk.Seam(d.Pattern(), "wire seam", walk.Way{})
	require.NoError(t, err)
	assert.InDelta(t, wk.A.Length, last, 0.01)
	long := 0
	for _, n := range halts {
		if n >= 8 { // 0.4 s
			long++
		}
	}
	assert.GreaterOrEqual(t, long, 3, "it halts at seam, bottom and side")
	require.NoError(t, w.Set("play", "by itself"))
	assert.Zero(t, walkedMM(t, w), "from the start again")
	require.True(t, w.Key(tool.Key{Name: tool.Down}))
	assert.False(t, p.Playing())
	p.Tick(1)
	assert.Zero(t, walkedMM(t, w))
}

// Two edges that lie on each other are both taken by pressing there.
func TestTwoEdgesOnEachOtherAreWalked(t *testing.T) {
	d := tern(t, 0)
	require.NoError(t, d.Accept(&step.Sew{Name: "side seam", Apart: true}))
	require.NoError(t, d.Accept(&step.Place{Piece: "band", Edge: "side seam", End: pattern.Start, Onto: &step.EdgeEnd{Piece: "cradle", Edge: "side seam", End: pattern.End}}))
	w := tool.NewWalk(d)
	at := midEdge(t, d, "cradle", "side seam", 0.4)
	press(w, at)
	press(w, at)
	table, ok := w.(tool.Tabler).Table()
	require.True(t, ok, w.Hint())
	require.InDelta(t, table.A, table.B, 2)
	require.ElementsMatch(t, []string{"cradle", "band"}, w.(tool.Tabler).Sides())
}

// One beside the notch that says where the sewing ends leaves that where it is:
// nobody is asked whether it is to move.
func TestAWalkIsSilentOfANotchWhereTheOtherSideEnds(t *testing.T) {
	d := tern(t, len(demo.TernInLace()))
	w := tool.NewWalk(d)
	press(w, midEdge(t, d, "inner cup", "vertical seam", 0.5))
	require.NoError(t, w.Set("left", "10 mm"))
	require.NoError(t, w.Set("drop", "here on both sides"))
	require.NotContains(t, w.Hint(), "from there already")
	require.Contains(t, w.Hint(), "10 mm left to the end")
}

// A notch dropped beside one that is there may be meant to take its place, which
// it does not.
func TestAWalkTellsOfANotchThatIsThereAlready(t *testing.T) {
	d := tern(t, 0)
	w := tool.NewWalk(d)
	press(w, midEdge(t, d, "upper outer cup", "cross seam", 0.5))
	at, err := d.Pattern().Find(pattern.AtNotch("upper outer cup", "cross"))
	require.NoError(t, err)
	require.NoError(t, w.Set("walked", unit.MM(at.S)))
	for _, o := range field(t, w, "drop").Options {
		assert.NotContains(t, o, "here on", "none is dropped on another")
	}
	for away, told := range map[float64]bool{6: true, 15: false} {
		require.NoError(t, w.Set("walked", unit.MM(at.S+away)))
		require.NoError(t, w.Set("drop", "here on both sides"))
		assert.Equal(t, told, strings.Contains(w.Hint(), fmt.Sprintf("a notch lies %s from there already", unit.MM(away))), w.Hint())
		require.True(t, w.Key(tool.Key{Name: tool.Delete}))
	}
}

func TestAWalkTellsOfWhatTheDifferenceIs(t *testing.T) {
	d := tern(t, 0)
	p := d.Pattern()
	low := p.Piece("lower outer cup")
	length := low.Edge("cross seam").Length()
	at := low.Notch("cross").At(length)
	require.NoError(t, d.Accept(&step.Notch{Act: step.MoveNotch, Piece: "lower outer cup", Name: "cross", Edge: "cross seam", MM: step.Lit(at - 5.75)}))
	w := tool.NewWalk(d)
	require.NoError(t, w.Set("seam", "cross seam"))
	require.NoError(t, w.Set("walked", "0"))
	assert.Contains(t, w.Hint(), ", difference 0 mm")
	missing := "miss each other by 5.75 mm"
	for range 2 { // to the notch of either side
		require.True(t, w.Key(tool.Key{Name: tool.Next}))
	}
	told := w.Hint()
	assert.Contains(t, told, "the notches there "+missing)
	assert.NotContains(t, told, "difference")
	require.NoError(t, w.Set("walked", unit.Format(walkedMM(t, w)+8, unit.Millimetres)))
	assert.Contains(t, w.Hint(), "the notches passed last "+missing)
	require.NoError(t, w.Set("left", "0"))
	assert.Contains(t, w.Hint(), ", difference 0 mm", "the sides are as long as each other")
}

// A notch that is dropped close to the end of its piece is told to be, with what
// is met there.
func TestAWalkTellsOfANotchCloseToACorner(t *testing.T) {
	d := tern(t, 0)
	w := tool.NewWalk(d)
	press(w, midEdge(t, d, "upper outer cup", "cross seam", 0.5))
	require.NoError(t, w.Set("seam", "vertical seam"))
	low := d.Pattern().Piece("lower outer cup").Edge("vertical seam").Length()
	for beyond, told := range map[float64]bool{2: true, 7: false} {
		require.NoError(t, w.Set("walked", unit.MM(low+beyond)))
		require.NoError(t, w.Set("drop", "here on both sides"))
		assert.Equal(t, told, strings.Contains(w.Hint(), "On upper outer cup it lies only 2 mm from cross seam."), w.Hint())
		require.True(t, w.Key(tool.Key{Name: tool.Delete}))
	}
}

// At a notch that its partner misses, the partner can be moved there, in every
// size, in place of a second notch beside it.
func TestAWalkMovesANotchThatMisses(t *testing.T) {
	d := tern(t, 0)
	low := d.Pattern().Piece("lower outer cup")
	at := low.Notch("cross").At(low.Edge("cross seam").Length())
	require.NoError(t, d.Accept(&step.Notch{Act: step.MoveNotch, Piece: "lower outer cup", Name: "cross", Edge: "cross seam", MM: step.Lit(at - 5.75)}))
	w := tool.NewWalk(d)
	require.NoError(t, w.Set("seam", "cross seam"))
	up, err := d.Pattern().Find(pattern.AtNotch("upper outer cup", "cross"))
	require.NoError(t, err)
	require.NoError(t, w.Set("walked", unit.MM(up.S)))
	for range 9 { // to the notch of the upper cup
		if len(field(t, w, "drop").Options) > 0 && strings.HasPrefix(field(t, w, "drop").Options[1], "move notch cross of lower") {
			break
		}
		w.Key(tool.Key{Name: tool.Previous})
	}
	require.NoError(t, w.Set("drop", "here on lower outer cup"))
	assert.Contains(t, w.Hint(), "if that one is to move, choose so under Drop a notch.")
	require.NoError(t, w.Set("drop", "move notch cross of lower outer cup here"))
	require.Len(t, w.Proposal(), 1, "and the one that was dropped there is not")
	assert.Contains(t, w.Hint(), `Notch "cross" of lower outer cup moves here, and in every size to where it meets notch "cross" of upper outer cup.`)
	require.True(t, w.Key(tool.Key{Name: tool.Delete}))
	require.Empty(t, w.Proposal())
	require.NoError(t, w.Set("drop", "move notch cross of lower outer cup here"))
	require.NoError(t, d.Accept(w.Proposal()...))
	require.Len(t, misses(d), len(d.Results()))
	for _, miss := range misses(d) {
		require.InDelta(t, 0, miss, 1e-9)
	}
}
