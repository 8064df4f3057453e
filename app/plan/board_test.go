package plan_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
	"truemat/app/plan"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/cloth/clothtest"
	"truemat/ops/cloth/cutting"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

const size = "75C"

func tern(t *testing.T) pattern.Pattern {
	run, err := demo.Tern()
	require.NoError(t, err)
	for _, r := range demo.TernInLace().Replay(run) {
		if r.Size.Label == size {
			return r.Size.Pattern
		}
	}
	require.FailNow(t, "no such size")
	return pattern.Pattern{}
}

func onLace(t require.TestingT, g cloth.Goods, p pattern.Pattern) *plan.Board {
	c, _ := g.Cloth("heron lace")
	l, err := border.Of(g, c, p, size)
	require.NoError(t, err)
	free, err := border.Of(g.WithPlaces(c.Name, size, nil), c, p, size)
	require.NoError(t, err)
	return plan.OnLace(l, free.Length)
}

func onNet(t require.TestingT, g cloth.Goods, p pattern.Pattern, name string) *plan.Board {
	c, _ := g.Cloth(name)
	l, err := cutting.Of(g, c, p, size)
	require.NoError(t, err)
	return plan.OnCloth(l, l.Length)
}

func find(t require.TestingT, b *plan.Board, name string) int {
	for i := range b.Count() {
		if b.Piece(i).Name == name {
			return i
		}
	}
	require.Failf(t, "no such piece", name)
	return -1
}

// An inner cup is dragged along the border: its partner follows to the
// mirrored place, the length is told all the while, and letting go keeps it.
func TestADraggedPieceTakesItsPartnerAlong(t *testing.T) {
	p, g := tern(t), demo.Goods()
	b := onLace(t, g, p)
	left, right := find(t, b, "inner cup"), find(t, b, "inner cup, turned over")
	before := [2]geom.Point{b.Piece(left).Held, b.Piece(right).Held}
	side := 1.0
	if before[1].X > before[0].X {
		side = -1 // outwards
	}
	at := b.Piece(left).Outline.Centroid()
	b.Press(at)
	require.Equal(t, left, b.Chosen())
	for _, by := range []float64{4, 17, 41} {
		b.Drag(at.Add(geom.Pt(side*by, 3)))
		moved := b.Piece(left).Held.X - before[0].X
		require.InDelta(t, side*by, moved, 2+1e-9, "on steps of 4 mm")
		require.InDelta(t, -moved, b.Piece(right).Held.X-before[1].X, 1e-9)
		require.True(t, b.Follows(right))
		require.False(t, b.Follows(find(t, b, "frame")))
	}
	require.Greater(t, b.Length(), b.Least())
	require.Contains(t, b.Tell(unit.Millimetres), "with it inner cup, turned over")
	changed, err := b.Release()
	require.NoError(t, err)
	require.True(t, changed)

	kept := b.Goods(g, size)
	require.NoError(t, kept.Validate())
	again := onLace(t, kept, p)
	require.True(t, again.ByHand())
	for i := range again.Count() {
		require.Equal(t, i == left || i == right, again.Piece(i).ByHand, "she laid the pair alone, not %s", again.Piece(i).Name)
		require.InDelta(t, 0, b.Piece(i).Held.Dist(again.Piece(i).Held), 1e-9, "nothing else moves")
	}
	require.InDelta(t, b.Length(), again.Length(), 1e-9)
	require.InDelta(t, b.Piece(left).Held.X, again.Piece(left).Held.X, 1e-9)
	require.InDelta(t, b.Least(), again.Least(), 1e-9)
	require.Empty(t, again.Anew(kept, size).Laces, "laid anew")

	again.ChooseAgain(b)
	require.Equal(t, left, again.Chosen())
	let := onLace(t, again.LetGo(kept, size), p)
	require.False(t, let.Piece(left).ByHand)
	require.False(t, let.Piece(right).ByHand)
	require.False(t, let.ByHand(), "nothing is left by hand")
	around := onLace(t, again.Around(kept, size), p)
	require.True(t, around.Piece(left).ByHand)
	require.InDelta(t, b.Piece(left).Held.X, around.Piece(left).Held.X, 1e-9)
	frame := find(t, around, "frame")
	require.False(t, around.Piece(frame).ByHand)
}

func TestWhatOverlapsGoesBack(t *testing.T) {
	b := onLace(t, demo.Goods(), tern(t))
	left, right := find(t, b, "inner cup"), find(t, b, "inner cup, turned over")
	was := b.Piece(left).Held
	at := b.Piece(left).Outline.Centroid()
	b.Press(at)
	towards := 96.0 // a whole repeat, so that the other one stays
	if b.Piece(right).Held.X < was.X {
		towards = -towards
	}
	b.Drag(at.Add(geom.Pt(towards, 0)))
	require.True(t, b.Overlapping(left))
	require.ErrorContains(t, b.Wrong(), "over each other")
	changed, err := b.Release()
	require.ErrorContains(t, err, "went back")
	require.False(t, changed)
	require.False(t, b.Overlapping(left) || b.Overlapping(right))
	require.Equal(t, was, b.Piece(left).Held)
}

// A piece is pinned where she drops it: what lies there without a pin gives way and
// is laid around it, what is pinned there does not.
func TestWhatIsNotPinnedGivesWay(t *testing.T) {
	p, g := tern(t), demo.Goods()
	drop := func(b *plan.Board, i, onto int) (bool, error) {
		b.Press(b.Piece(i).Outline.Centroid())
		require.Equal(t, i, b.Chosen())
		b.Drag(b.Piece(onto).Outline.Centroid())
		return b.Release()
	}
	b := onNet(t, g, p, "power net")
	require.Equal(t, 2, b.Count())
	kept, err := drop(b, 0, 1)
	require.NoError(t, err)
	require.True(t, kept)
	require.Contains(t, b.Tell(unit.Centimetres), b.Piece(1).Name+" gives way")
	require.False(t, b.Overlapping(0) || b.Overlapping(1))
	lies, name, other := b.Piece(0).Held, b.Piece(0).Name, b.Piece(1).Name
	next := onNet(t, b.Goods(g, size), p, "power net")
	next.ChooseAgain(b)
	require.Equal(t, name, next.Piece(next.Chosen()).Name)
	require.InDelta(t, 0, next.Piece(next.Chosen()).Held.Dist(lies), 1e-9)
	require.True(t, next.Piece(next.Chosen()).ByHand)
	at := find(t, next, other)
	require.False(t, next.Piece(at).ByHand)

	kept, err = drop(next, at, next.Chosen())
	require.False(t, kept)
	require.ErrorContains(t, err, "pinned over each other")
}

// Whichever piece is chosen, all that she pinned stays while the rest is laid anew.
func TestTheRestIsLaidAroundAllThatIsPinned(t *testing.T) {
	p, g := tern(t), demo.Goods()
	b := onNet(t, g, p, "sheer tricot")
	var names []string
	for _, far := range []float64{300, 600} {
		i := len(names)
		names = append(names, b.Piece(i).Name)
		at := b.Piece(i).Outline.Centroid()
		b.Press(at)
		require.Equal(t, i, b.Chosen())
		b.Drag(at.Add(geom.Pt(far, 0)))
		kept, err := b.Release()
		require.NoError(t, err)
		require.True(t, kept)
		g = b.Goods(g, size)
		b = onNet(t, g, p, "sheer tricot")
		b.Press(geom.Pt(-1e4, 0))
	}
	around := onNet(t, b.Around(g, size), p, "sheer tricot")
	for i := range around.Count() {
		require.Equal(t, slices.Contains(names, around.Piece(i).Name), around.Piece(i).ByHand, around.Piece(i).Name)
	}
	for _, name := range names {
		require.InDelta(t, 0, around.Piece(find(t, around, name)).Held.Dist(b.Piece(find(t, b, name)).Held), 1e-9)
	}
}

func TestEscapeGivesUpAndAPressBesideChoosesNothing(t *testing.T) {
	b := onLace(t, demo.Goods(), tern(t))
	i := find(t, b, "inner cup")
	was, at := b.Piece(i).Held, b.Piece(i).Outline.Centroid()
	b.Press(at)
	b.Drag(at.Add(geom.Pt(-40, 0)))
	require.True(t, b.Cancel())
	require.False(t, b.Cancel())
	require.Equal(t, was, b.Piece(i).Held)
	changed, err := b.Release()
	require.NoError(t, err)
	require.False(t, changed)
	b.Press(geom.Pt(-1e4, 0))
	require.Equal(t, -1, b.Chosen())
	require.Empty(t, b.Tell(unit.Millimetres))
	b.Drag(geom.Pt(0, 0))
	require.False(t, b.Moved())
}

func TestKeysLayAPiece(t *testing.T) {
	b := onLace(t, demo.Goods(), tern(t))
	press := func(name tool.KeyName, step float64) {
		known, err := b.Key(tool.Key{Name: name, Step: step})
		require.True(t, known)
		require.NoError(t, err)
	}
	press(tool.Next, 0)
	for b.Piece(b.Chosen()).Name != "inner cup" {
		press(tool.Next, 0)
	}
	i := b.Chosen()
	was := b.Piece(i).Held
	press(tool.Right, 1)
	press(tool.Right, 1)
	require.InDelta(t, was.X+8, b.Piece(i).Held.X, 1e-9, "two steps of a 24th of the repeat")
	press(tool.Left, 10)
	require.InDelta(t, was.X+8-96, b.Piece(i).Held.X, 1e-9, "a whole repeat back")
	press(tool.Right, 10)
	press(tool.Left, 1)
	press(tool.Left, 1)
	require.False(t, b.Moved(), "it lies where it lay")
	second := b.Piece(i).Way
	press(tool.Choose, 0)
	require.NotEqual(t, second, b.Piece(i).Way, "on the other border")
	b.Cancel()
	require.Equal(t, second, b.Piece(i).Way)
	press(tool.Previous, 0)
	require.NotEqual(t, i, b.Chosen())
	known, err := b.Key(tool.Key{Name: tool.Delete})
	require.NoError(t, err)
	require.False(t, known)
}

// Where the place in the motif is chosen, a piece goes by whole repeats.
func TestAChosenPlaceInTheMotifIsKept(t *testing.T) {
	p := tern(t)
	zero := 0.0
	g := demo.Goods().WithWish("heron lace", p, cloth.Wish{Piece: "inner cup", Motif: &zero})
	b := onLace(t, g, p)
	i := find(t, b, "inner cup")
	at, was := b.Piece(i).Outline.Centroid(), b.Piece(i).Held
	b.Press(at)
	b.Drag(at.Add(geom.Pt(40, 0)))
	require.False(t, b.Moved())
	b.Drag(at.Add(geom.Pt(60, 0)))
	require.InDelta(t, was.X+96, b.Piece(i).Held.X, 1e-9)
}

func TestAPieceIsPinnedAndTurnedOnPlainCloth(t *testing.T) {
	p, g := tern(t), demo.Goods()
	b := onNet(t, g, p, "power net")
	i := 0
	was := b.Piece(i).Held
	at := b.Piece(i).Outline.Centroid()
	b.Press(at)
	b.Drag(at.Add(geom.Pt(200, 0)))
	require.InDelta(t, was.X+200, b.Piece(i).Held.X, 1e-9)
	_, err := b.Key(tool.Key{Name: tool.Up, Step: 10})
	require.NoError(t, err)
	require.InDelta(t, was.Y+10, b.Piece(i).Held.Y, 1e-9)
	require.NoError(t, b.Turn())
	_, err = b.Key(tool.Key{Name: tool.Right, Step: 1})
	require.NoError(t, err)
	require.InDelta(t, was.X+201, b.Piece(i).Held.X, 1e-9)
	require.Equal(t, "true", b.Piece(i).Way, "it stays turned")
	changed, err := b.Keep()
	require.NoError(t, err)
	require.True(t, changed)
	kept := b.Goods(g, size)
	require.NoError(t, kept.Validate())
	again := onNet(t, kept, p, "power net")
	require.InDelta(t, b.Length(), again.Length(), 1e-9)
	require.Equal(t, "true", again.Piece(i).Way)
	for k := range again.Count() {
		require.Equal(t, k == i, again.Piece(k).ByHand, "only what she moved is pinned")
		require.InDelta(t, 0, b.Piece(k).Held.Dist(again.Piece(k).Held), 1e-9, "its partner stays")
	}
	require.Empty(t, again.Anew(kept, size).Laid)

	for k := range g.Cloths {
		g.Cloths[k].OneWay = true
	}
	b = onNet(t, g, p, "power net")
	b.Press(b.Piece(0).Outline.Centroid())
	require.ErrorContains(t, b.Turn(), "up and a down")
}

// Whatever pointer and keys do, what is offered to be kept overlaps nothing, as
// an independent clipping of polygons tells, and is taken.
func TestRandomHandsKeepNothingThatOverlaps(t *testing.T) {
	p, g := tern(t), demo.Goods()
	boards := []*plan.Board{onLace(t, g, p), onNet(t, g, p, "sheer tricot")}
	rapid.Check(t, func(t *rapid.T) {
		b := boards[rapid.IntRange(0, 1).Draw(t, "board")]
		b.Cancel()
		from, to := b.Ends()
		for range rapid.IntRange(1, 12).Draw(t, "acts") {
			q := geom.Pt(rapid.Float64Range(from-200, to+200).Draw(t, "x"), rapid.Float64Range(-50, 400).Draw(t, "y"))
			changed := false
			var err error
			switch rapid.IntRange(0, 5).Draw(t, "act") {
			case 0:
				b.Press(b.Piece(rapid.IntRange(0, b.Count()-1).Draw(t, "piece")).Outline.Centroid())
			case 1:
				b.Drag(q)
			case 2:
				changed, err = b.Release()
			case 3:
				_, _ = b.Key(tool.Key{Name: rapid.SampledFrom([]tool.KeyName{tool.Left, tool.Right, tool.Up, tool.Down, tool.Next, tool.Previous, tool.Choose}).Draw(t, "key"), Step: 10})
			case 4:
				changed, err = b.Keep()
			case 5:
				b.Press(q)
			}
			if !changed || err != nil {
				continue
			}
			kept := b.Goods(g, size)
			require.NoError(t, kept.Validate())
			next := b
			if b == boards[0] {
				require.InDelta(t, b.Length(), onLace(t, kept, p).Length(), 1e-6)
			} else if next = onNet(t, kept, p, "sheer tricot"); !strings.Contains(b.Tell(unit.Millimetres), "way") {
				require.InDelta(t, b.Length(), next.Length(), 1e-6)
			}
			var outlines []geom.Path
			for i := range next.Count() {
				outlines = append(outlines, next.Piece(i).Outline)
			}
			require.Less(t, clothtest.Overlap(outlines), 1e-2)
		}
	})
}

// A plan laid by hand that an alteration makes overlap shows as it was laid, with
// what overlaps, and can be dragged apart, one piece after the other.
func TestWhatOverlapsByAnAlterationIsDraggedApart(t *testing.T) {
	p := tern(t)
	zero := 0.0
	g := demo.Goods().WithWish("heron lace", p, cloth.Wish{Piece: "inner cup", Motif: &zero}).WithWish("heron lace", p, cloth.Wish{Piece: "frame", Motif: &zero})
	g = g.WithPlaces("heron lace", size, []cloth.Place{{Piece: "frame", At: 0}, {Piece: "inner cup", At: 0}, {Piece: "inner cup", Mirrored: true, At: 0}})
	c, _ := g.Cloth("heron lace")
	_, err := border.Of(g, c, p, size)
	require.ErrorContains(t, err, "over each other")
	l, err := border.AsLaid(g, c, p, size)
	require.NoError(t, err)
	b := plan.OnLace(l, 0)
	require.Equal(t, 3, b.Count())
	for i := range 3 {
		require.True(t, b.Overlapping(i))
		require.InDelta(t, 0, b.Piece(i).Held.X, 1e-9)
	}
	right := find(t, b, "inner cup, turned over")
	drag := func(i int, by float64) error {
		at := b.Piece(i).Held.Add(geom.Pt(1, 10))
		b.Press(at)
		for b.Chosen() != i {
			_, err := b.Key(tool.Key{Name: tool.Next})
			require.NoError(t, err)
		}
		for range int(by / 96) {
			_, err := b.Key(tool.Key{Name: tool.Right, Step: 10})
			require.NoError(t, err)
		}
		changed, err := b.Keep()
		require.Equal(t, err == nil, changed)
		return err
	}
	require.ErrorContains(t, drag(right, 96), "went back", "still over the frame")
	require.NoError(t, drag(right, 6*96), "apart, while the other two lie over each other still")
	g = b.Goods(g, size)
	l, err = border.AsLaid(g, c, p, size)
	require.NoError(t, err)
	b = plan.OnLace(l, 0)
	require.False(t, b.Overlapping(right))
	require.NoError(t, drag(find(t, b, "inner cup"), 4*96))
	require.NoError(t, b.Wrong())
	_, err = border.Of(b.Goods(g, size), c, p, size)
	require.NoError(t, err)
}

func TestPinsThatOverlapByAnAlterationShow(t *testing.T) {
	p := tern(t)
	g := demo.Goods().WithPins("power net", size, []cloth.Pin{{Piece: "band", Layer: 1, At: geom.Pt(100, 200)}, {Piece: "band", Layer: 1, Turned: true, At: geom.Pt(110, 200)}})
	c, _ := g.Cloth("power net")
	_, err := cutting.Of(g, c, p, size)
	require.ErrorContains(t, err, "over each other")
	l, err := cutting.AsLaid(g, c, p, size)
	require.NoError(t, err)
	b := plan.OnCloth(l, 0)
	require.True(t, b.Overlapping(0) && b.Overlapping(1))
}
