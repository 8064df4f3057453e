package border_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/cloth/clothtest"
	"truemat/ops/pattern"
)

// layByHand lays pieces of which some are laid by hand.
func layByHand(t require.TestingT, l cloth.Cloth, wishes []cloth.Wish, places []cloth.Place, pieces ...pattern.Piece) (border.Plan, error) {
	cuts, err := border.Cuts(pattern.Pattern{Pieces: pieces}, l, wishes)
	require.NoError(t, err)
	return border.Lay(l, cuts, 0, places)
}

// The rest is laid about what lies by hand, as short as going through all
// places of the others finds.
func TestTheRestIsLaidAroundWhatLiesByHand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := lace(true)
		var pieces []pattern.Piece
		var wishes []cloth.Wish
		for i := range rapid.IntRange(2, 3).Draw(t, "pieces") {
			long := rapid.Float64Range(30, 100).Draw(t, "long")
			name := fmt.Sprintf("piece %d", i)
			pieces = append(pieces, piece(name, long, false, geom.Pt(rapid.Float64Range(0, long).Draw(t, "top"), rapid.Float64Range(60, 150).Draw(t, "high"))))
			wishes = append(wishes, cloth.Wish{Piece: name, Motif: at(rapid.Float64Range(0, repeat).Draw(t, "motif"))})
		}
		second := rapid.Bool().Draw(t, "second")
		place := cloth.Place{Piece: "piece 0", Second: second, At: handRepeat*repeat + *wishes[0].Motif}
		if second {
			place.At = handRepeat*repeat - *wishes[0].Motif
		}
		got, err := layByHand(t, l, wishes, []cloth.Place{place}, pieces...)
		require.NoError(t, err)
		require.True(t, got.Least)
		require.True(t, got.Placed[0].ByHand)
		require.False(t, got.Placed[1].ByHand)
		require.InDelta(t, place.At, got.Placed[0].At, 1e-9)
		require.Equal(t, second, got.Placed[0].Second)
		require.Less(t, overlap(got), grazes)
		require.LessOrEqual(t, got.Length, brute(l, got)+1e-6)
		free, err := layByHand(t, l, wishes, nil, pieces...)
		require.NoError(t, err)
		require.LessOrEqual(t, free.Length, got.Length+1e-6, "laid anew it is no longer")
	})
}

// mirrors requires that all pieces of a kind lie on like places of the motif,
// and left and right on mirrored ones: on the first border x becomes −x where a
// piece is turned over, on the second the border itself is turned over.
func mirrors(t require.TestingT, p border.Plan, shift float64) {
	motif := map[string]float64{}
	for _, o := range p.Placed {
		m := o.At
		if o.Second {
			m = shift - m
		}
		if o.Hand == border.Mirrored {
			m = -m
		}
		if was, ok := motif[o.Piece]; ok {
			off := math.Mod(math.Mod(m-was, repeat)+1.5*repeat, repeat) - repeat/2
			require.InDelta(t, 0, off, 1e-6, o.Name())
		}
		motif[o.Piece] = m
	}
}

// However pieces are moved by hand: partners stay on mirrored places; what
// overlaps, as an independent clipping of polygons tells, is refused, and what
// does not is kept where it lies.
func TestPlansByHandAreKeptUnlessTheyOverlap(t *testing.T) {
	kept, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		l := lace(rapid.Bool().Draw(t, "both"))
		shift := 0.0
		if l.Lace.Both && rapid.Bool().Draw(t, "shifted") {
			shift = rapid.Float64Range(0, repeat-1).Draw(t, "shift")
			l.Lace.Second, l.Lace.Shift = cloth.Shifted, shift
		}
		cup := piece("cup", 90, true, geom.Pt(rapid.Float64Range(20, 90).Draw(t, "top"), 100))
		wing := piece("wing", 50, true, geom.Pt(40, 70), geom.Pt(5, 60))
		wing.Cut.Count = rapid.IntRange(1, 2).Draw(t, "pairs")
		wishes := []cloth.Wish{{Piece: "cup"}, {Piece: "wing"}}
		if rapid.Bool().Draw(t, "held") {
			wishes[1].Motif = at(rapid.Float64Range(0, repeat).Draw(t, "motif"))
		}
		plan, err := layByHand(t, l, wishes, nil, cup, wing)
		require.NoError(t, err)
		for range rapid.IntRange(1, 4).Draw(t, "moves") {
			i := rapid.IntRange(0, len(plan.Placed)-1).Draw(t, "piece")
			second := l.Lace.Both && rapid.Bool().Draw(t, "to the second")
			to := plan.Near(i, second, plan.Placed[i].At+rapid.Float64Range(-200, 200).Draw(t, "by"))
			before := plan
			var follow []int
			plan, follow = plan.Moved(i, second, to)
			require.InDelta(t, to, plan.Placed[i].At, 1e-9)
			for k, o := range plan.Placed {
				moved := k == i
				for _, f := range follow {
					moved = moved || f == k
				}
				if !moved {
					require.InDelta(t, before.Placed[k].At, o.At, 1e-9, "the rest stays")
				}
			}
		}
		mirrors(t, plan, shift)
		var outlines []geom.Path
		for _, o := range plan.Placed {
			outlines = append(outlines, o.Outline())
		}
		again, err := layByHand(t, l, wishes, plan.Places(nil), cup, wing)
		if len(plan.Overlaps()) > 0 {
			refused++
			require.ErrorContains(t, err, "over each other")
			return
		}
		kept++
		require.NoError(t, err)
		require.Less(t, clothtest.Overlap(outlines), grazes)
		require.InDelta(t, plan.Length, again.Length, 1e-9)
		for k, o := range again.Placed {
			require.Equal(t, plan.Placed[k].ByHand, o.ByHand)
			require.InDelta(t, plan.Placed[k].X, o.X, 1e-9)
		}
		mirrors(t, again, shift)
	})
	require.Greater(t, kept, 5)
	require.Greater(t, refused, 5)
}

// Where polygons share an area, the plan says so.
func TestAnOverlapByHandIsSeen(t *testing.T) {
	seen := 0
	rapid.Check(t, func(t *rapid.T) {
		a, b := piece("a", 90, false, geom.Pt(30, 110)), piece("b", 70, false, geom.Pt(60, 90))
		plan, err := layByHand(t, lace(true), []cloth.Wish{{Piece: "a"}, {Piece: "b"}}, nil, a, b)
		require.NoError(t, err)
		plan, _ = plan.Moved(1, rapid.Bool().Draw(t, "second"), plan.Placed[0].At+rapid.Float64Range(-100, 100).Draw(t, "by"))
		if overlap(plan) > 1 {
			seen++
			require.Equal(t, [][2]int{{0, 1}}, plan.Overlaps())
		}
	})
	require.Greater(t, seen, 5)
}

// A pair whose place in the motif is free: the right one follows the left one
// to the mirrored place.
func TestThePartnerFollowsOntoTheMirroredPlace(t *testing.T) {
	cup := piece("cup", 40, true, geom.Pt(30, 60))
	plan, err := layByHand(t, lace(false), []cloth.Wish{{Piece: "cup"}}, nil, cup)
	require.NoError(t, err)
	left, right := plan.Placed[0].At, plan.Placed[1].At
	side := 1.0
	if right > left {
		side = -1 // away from each other
	}
	moved, follow := plan.Moved(0, false, plan.Near(0, false, left+side*10))
	require.Equal(t, []int{1}, follow)
	require.InDelta(t, left+side*10, moved.Placed[0].At, plan.Step()/2+1e-9)
	require.InDelta(t, right-(moved.Placed[0].At-left), moved.Placed[1].At, 1e-9, "as far the other way")
	require.Greater(t, moved.Length, plan.Length)

	far, follow := plan.Moved(0, false, left+side*2*repeat)
	require.Empty(t, follow, "after whole repeats the motif is the same")
	require.InDelta(t, right, far.Placed[1].At, 1e-9)
}

// No plan is longer than that of one who lays one piece after the other, each
// as far left as it goes.
func TestNoPlanIsLongerThanAGreedyOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := lace(true)
		var pieces []pattern.Piece
		var wishes []cloth.Wish
		for i := range rapid.IntRange(4, 7).Draw(t, "pieces") {
			long := rapid.Float64Range(30, 100).Draw(t, "long")
			name := fmt.Sprintf("piece %d", i)
			pieces = append(pieces, piece(name, long, false, geom.Pt(rapid.Float64Range(0, long).Draw(t, "top"), rapid.Float64Range(40, 170).Draw(t, "high"))))
			wishes = append(wishes, cloth.Wish{Piece: name, Motif: at(rapid.Float64Range(0, repeat).Draw(t, "motif"))})
		}
		got := plan(t, l, wishes, pieces...)
		require.Less(t, overlap(got), grazes)
		require.LessOrEqual(t, got.Length, greedy(l, got)+1e-6)
	})
}

// greedy lays the pieces in their order, each on the border and at the place
// where it lies farthest left beside those before it.
func greedy(l cloth.Cloth, p border.Plan) float64 {
	var laid [][]geom.Point
	half := geom.Turn(math.Pi, geom.Pt(0, l.Usable()/2))
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, o := range p.Placed {
		var best []geom.Point
		right := math.Inf(1)
		for _, second := range []bool{false, true} {
			for k := -2; k < 60; k++ {
				way, x := o.Cut.Lay, repeat*float64(k)+o.Motif
				if second {
					way, x = way.Then(half), repeat*float64(k)-o.Motif
				}
				ring := border.Placed{Cut: o.Cut, Motion: way.Then(geom.Shift(geom.Pt(x, 0)))}.Outline().Flatten(1)
				least, most := math.Inf(1), math.Inf(-1)
				for _, q := range ring {
					least, most = min(least, q.X), max(most, q.X)
				}
				if least < 0 || most >= right {
					continue
				}
				apart := true
				for _, other := range laid {
					for _, nudge := range []float64{0, -clear, clear} {
						apart = apart && shared(moved(ring, nudge), other) < 1e-3
					}
				}
				if apart {
					best, right = ring, most
				}
			}
		}
		laid = append(laid, best)
		for _, q := range best {
			lo, hi = min(lo, q.X), max(hi, q.X)
		}
	}
	return hi - lo
}

func TestPlacesByHandThatCannotBeAreRefused(t *testing.T) {
	cup := piece("cup", 40, true, geom.Pt(30, 60))
	for _, c := range []struct {
		wish   cloth.Wish
		places []cloth.Place
		says   string
	}{
		{cloth.Wish{Piece: "cup"}, []cloth.Place{{Piece: "cup", At: 10}, {Piece: "cup", At: 200}}, "more often"},
		{cloth.Wish{Piece: "cup"}, []cloth.Place{{Piece: "wing", At: 10}}, "more often"},
		{cloth.Wish{Piece: "cup"}, []cloth.Place{{Piece: "cup", At: 10}, {Piece: "cup", Mirrored: true, At: 80}}, "mirrored places"},
		{cloth.Wish{Piece: "cup", Motif: at(5)}, []cloth.Place{{Piece: "cup", At: 10}}, "5.0 mm off the place"},
		{cloth.Wish{Piece: "cup"}, []cloth.Place{{Piece: "cup", At: 10}, {Piece: "cup", Mirrored: true, At: -10}}, "over each other"},
		{cloth.Wish{Piece: "cup"}, []cloth.Place{{Piece: "cup", Second: true, At: 10}}, "second border"},
	} {
		_, err := layByHand(t, lace(false), []cloth.Wish{c.wish}, c.places, cup)
		require.ErrorContains(t, err, c.says)
		require.ErrorContains(t, err, "forget what was laid by hand")
	}
	cuts, err := border.Cuts(pattern.Pattern{Pieces: []pattern.Piece{cup}}, lace(false), []cloth.Wish{{Piece: "cup"}})
	require.NoError(t, err)
	_, err = border.Lay(lace(false), cuts, 8, []cloth.Place{{Piece: "cup", At: 0}, {Piece: "cup", Mirrored: true, At: 60 - 15}})
	require.ErrorContains(t, err, "forget what was laid by hand")
}
