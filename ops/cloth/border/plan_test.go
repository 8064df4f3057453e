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

const repeat, width, depth = 60.0, 200.0, 10.0

func lace(both bool) cloth.Cloth {
	l := &cloth.Lace{Repeat: repeat, Depth: depth, Both: both}
	if both {
		l.Second = cloth.Mirrored
	}
	return cloth.Cloth{Name: "lace", Width: width, Lace: l}
}

// piece returns a piece with the lace edge from the origin to (long, 0) and a
// convex outline above it, without allowances.
func piece(name string, long float64, pair bool, above ...geom.Point) pattern.Piece {
	pc := pattern.Piece{Name: name, Cut: pattern.Cut{Count: 1, Pair: pair}, Pose: geom.Identity(), Arrow: pattern.Arrow{Kind: pattern.Grain, To: geom.Pt(0, 10)}}
	edge := func(name string, role pattern.Role, a, b geom.Point) {
		pc.Edges = append(pc.Edges, pattern.Edge{Name: name, Role: role, Path: geom.Must(geom.Polyline(a, b)), Free: role == pattern.SeamEdge})
	}
	last := geom.Pt(long, 0)
	edge("lace", pattern.LaceEdge, geom.Pt(0, 0), last)
	for i, q := range append(above, geom.Pt(0, 0)) {
		edge(fmt.Sprintf("side %d", i), pattern.SeamEdge, last, q)
		last = q
	}
	return pc
}

func box(name string, long, high float64, pair bool) pattern.Piece {
	return piece(name, long, pair, geom.Pt(long, high), geom.Pt(0, high))
}

func at(mm float64) *float64 { return &mm }

func plan(t require.TestingT, l cloth.Cloth, wishes []cloth.Wish, pieces ...pattern.Piece) border.Plan {
	p := pattern.Pattern{Pieces: pieces}
	cuts, err := border.Cuts(p, l, wishes)
	require.NoError(t, err)
	got, err := border.Lay(l, cuts, 0, nil)
	require.NoError(t, err)
	return got
}

// Equal boxes with the same place in the motif lie a whole number of repeats
// apart, half of them on each border.
func TestEqualPiecesTakeWholeRepeats(t *testing.T) {
	for _, c := range []struct {
		long  float64
		count int
		both  bool
	}{{50, 4, true}, {70, 4, true}, {70, 3, false}, {60, 5, false}, {61, 5, true}, {130, 2, false}} {
		pc := box("box", c.long, 80, false)
		pc.Cut.Count = c.count
		got := plan(t, lace(c.both), []cloth.Wish{{Piece: "box", Motif: at(0)}}, pc)
		row := c.count
		if c.both {
			row = (c.count + 1) / 2
		}
		want := float64(row-1)*repeat*math.Ceil(c.long/repeat) + c.long
		require.InDelta(t, want, got.Length, 1e-6, "%+v", c)
		require.True(t, got.Least)
	}
}

// Two right triangles of which one lies on each border, turned half round,
// fill a box between them.
func TestPiecesReachBetweenEachOther(t *testing.T) {
	l := lace(true)
	l.Lace.Repeat = 1
	pc := piece("wedge", 100, false, geom.Pt(0, l.Usable()))
	pc.Cut.Count = 2
	got := plan(t, l, []cloth.Wish{{Piece: "wedge", Motif: at(0)}}, pc)
	require.InDelta(t, 100, got.Length, 1.01+100*0.5/l.Usable(), "one repeat and one slice")
	require.NotEqual(t, got.Placed[0].Second, got.Placed[1].Second)
	require.Less(t, overlap(got), grazes)
}

// grazes is the area in mm² that pieces share by rounding.
const grazes = 1e-4

// overlap returns the greatest area that two pieces of a plan share.
func overlap(p border.Plan) float64 {
	var outlines []geom.Path
	for _, o := range p.Placed {
		outlines = append(outlines, o.Outline())
	}
	return clothtest.Overlap(outlines)
}

// The left and the right hand lie on mirrored places of the motif: on the
// same border mirrored about a motif point, on opposite ones of a mirrored
// lace about its middle line.
func TestPairsLieOnMirroredPlaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.Float64Range(0, repeat).Draw(t, "motif")
		pc := piece("cup", 90, true, geom.Pt(rapid.Float64Range(20, 90).Draw(t, "top"), 100))
		pc.Cut.Count = rapid.IntRange(1, 2).Draw(t, "pairs")
		got := plan(t, lace(rapid.Bool().Draw(t, "both")), []cloth.Wish{{Piece: "cup", Motif: at(m), Spot: &pattern.Spot{Piece: "cup", Edge: "lace"}}}, pc)
		require.Less(t, overlap(got), grazes)
		held := geom.Pt(0, 0)
		motif := func(p border.Placed) float64 { // of the plan's motif points
			at := p.Motion.Apply(held).X - got.Origin()
			if p.Second != (p.Hand == border.Mirrored) {
				at = -at
			}
			return math.Mod(math.Mod(at-m, repeat)+repeat+repeat/2, repeat) - repeat/2
		}
		for _, p := range got.Placed {
			require.InDelta(t, 0, motif(p), 1e-6)
			require.Equal(t, p.Hand == border.Mirrored, p.Motion.Mirrors())
			want := 0.0
			if p.Second {
				want = lace(true).Usable()
			}
			require.InDelta(t, want, p.Motion.Apply(held).Y, 1e-9)
		}
	})
}

// Small cases against going through all places of all pieces.
func TestNoPlanOfAFewPiecesIsShorter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := lace(true)
		var pieces []pattern.Piece
		var wishes []cloth.Wish
		for i := range rapid.IntRange(2, 3).Draw(t, "pieces") {
			long := rapid.Float64Range(30, 100).Draw(t, "long")
			high := rapid.Float64Range(60, 150).Draw(t, "high")
			top := rapid.Float64Range(0, long).Draw(t, "top")
			name := fmt.Sprintf("piece %d", i)
			pieces = append(pieces, piece(name, long, false, geom.Pt(top, high)))
			wishes = append(wishes, cloth.Wish{Piece: name, Motif: at(rapid.Float64Range(0, repeat).Draw(t, "motif"))})
		}
		got := plan(t, l, wishes, pieces...)
		require.True(t, got.Least)
		require.Less(t, overlap(got), grazes)
		require.LessOrEqual(t, got.Length, brute(l, got)+1e-6)
	})
}

// clear is the room in mm along the lace that the slices of an outline may
// cost on these shapes.
const clear = 1

func moved(ring []geom.Point, x float64) []geom.Point {
	var out []geom.Point
	for _, q := range ring {
		out = append(out, q.Add(geom.Pt(x, 0)))
	}
	return out
}

// handRepeat is the repeat in which pieces laid by hand lie for brute.
const handRepeat = 2

// brute goes through all places in a few repeats on both borders; pieces laid
// by hand stay.
func brute(l cloth.Cloth, p border.Plan) float64 {
	best := math.Inf(1)
	half := geom.Turn(math.Pi, geom.Pt(0, l.Usable()/2))
	var from func(i int, placed [][]geom.Point)
	from = func(i int, placed [][]geom.Point) {
		if i == len(p.Placed) {
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, q := range placed {
				for _, v := range q {
					lo, hi = min(lo, v.X), max(hi, v.X)
				}
			}
			best = min(best, hi-lo)
			return
		}
		c := p.Placed[i].Cut
		for k := range 5 {
			for _, second := range []bool{false, true} {
				if o := p.Placed[i]; o.ByHand && (k != handRepeat || second != o.Second) {
					continue
				}
				q := border.Placed{Cut: c, Second: second}
				if second {
					q.Motion = c.Lay.Then(half).Then(geom.Shift(geom.Pt(repeat*float64(k)-c.Motif, 0)))
				} else {
					q.Motion = c.Lay.Then(geom.Shift(geom.Pt(repeat*float64(k)+c.Motif, 0)))
				}
				apart, outline := true, q.Outline().Flatten(1)
				for _, o := range placed {
					for _, nudge := range []float64{0, -clear, clear} {
						apart = apart && shared(moved(outline, nudge), o) < 1e-3
					}
				}
				if apart {
					from(i+1, append(placed[:len(placed):len(placed)], outline))
				}
			}
		}
	}
	from(0, nil)
	return best
}

// shared returns the area that two convex polygons share, by cutting the one
// along every side of the other (Sutherland and Hodgman 1974).
func shared(a, b []geom.Point) float64 {
	ring, side := a[:len(a)-1], b
	for i := 1; i < len(side); i++ {
		p, d := side[i-1], side[i].Sub(side[i-1])
		var kept []geom.Point
		for j, q := range ring {
			r := ring[(j+1)%len(ring)]
			u, v := d.Cross(q.Sub(p)), d.Cross(r.Sub(p))
			if u >= 0 {
				kept = append(kept, q)
			}
			if u*v < 0 {
				kept = append(kept, q.Lerp(r, u/(u-v)))
			}
		}
		ring = kept
	}
	sum := 0.0
	for i, q := range ring {
		sum += q.Cross(ring[(i+1)%len(ring)]) / 2
	}
	return sum
}

// A free place in the motif is as good as the best of many that are given, and
// the plan says that none is better.
func TestAFreePlaceInTheMotifIsTheBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := lace(rapid.Bool().Draw(t, "both"))
		if l.Lace.Both && rapid.Bool().Draw(t, "shifted") {
			l.Lace.Second, l.Lace.Shift = cloth.Shifted, rapid.Float64Range(0, repeat-1).Draw(t, "shift")
		}
		var pieces []pattern.Piece
		var free, chosen []cloth.Wish
		for i := range rapid.IntRange(1, 2).Draw(t, "pieces") {
			long := rapid.Float64Range(30, 100).Draw(t, "long")
			name := fmt.Sprintf("piece %d", i)
			pieces = append(pieces, piece(name, long, rapid.Bool().Draw(t, "pair"), geom.Pt(rapid.Float64Range(0, long).Draw(t, "top"), rapid.Float64Range(60, 150).Draw(t, "high"))))
			free, chosen = append(free, cloth.Wish{Piece: name}), append(chosen, cloth.Wish{Piece: name})
		}
		got := plan(t, l, free, pieces...)
		require.True(t, got.Least)
		require.Less(t, overlap(got), grazes)
		mirrors(t, got, l.Lace.Shift)
		for range 40 {
			for i := range chosen {
				chosen[i].Motif = at(rapid.Float64Range(0, repeat).Draw(t, "motif"))
			}
			require.LessOrEqual(t, got.Length, plan(t, l, chosen, pieces...).Length+1e-5)
		}
		for i := range chosen { // the places that it found give it again
			for _, o := range got.Placed {
				if o.Piece == chosen[i].Piece {
					chosen[i].Motif = at(o.Motif)
				}
			}
		}
		require.InDelta(t, got.Length, plan(t, l, chosen, pieces...).Length, 1e-5)
	})
}

func TestAPieceOnTheFoldIsCutWhole(t *testing.T) {
	pc := piece("bridge", 40, false, geom.Pt(40, 50), geom.Pt(0, 60))
	pc.Edges[3].Role, pc.Edges[3].Free = pattern.Fold, false
	got := plan(t, lace(false), []cloth.Wish{{Piece: "bridge", Motif: at(0)}}, pc)
	require.Len(t, got.Placed, 1)
	require.Equal(t, border.Whole, got.Placed[0].Hand)
	require.InDelta(t, 80, got.Length, 1e-6)
	require.InDelta(t, got.Origin(), math.Mod(got.Placed[0].Motion.Apply(geom.Pt(0, 0)).X, repeat), 1e-9, "the fold lies on a motif point")
	require.InDelta(t, 40*110, got.Placed[0].Outline().Area(), 1e-6)
}

func TestWhatCannotBeLaidIsRefused(t *testing.T) {
	bent := box("cup", 80, 100, true)
	bent.Edges[0].Path = geom.Must(geom.NewPath(geom.Curve(geom.Pt(0, 0), geom.Pt(20, 3), geom.Pt(60, 3), geom.Pt(80, 0))))
	plain := box("cup", 80, 100, true)
	plain.Edges[0].Role = pattern.Hem
	for _, c := range []struct {
		lace cloth.Cloth
		wish cloth.Wish
		is   pattern.Piece
		says string
	}{
		{cloth.Cloth{Name: "net", Width: 100}, cloth.Wish{Piece: "cup"}, box("cup", 80, 100, true), "no border"},
		{lace(true), cloth.Wish{Piece: "wing"}, box("cup", 80, 100, true), `no piece "wing"`},
		{lace(true), cloth.Wish{Piece: "cup"}, plain, "no lace edge"},
		{lace(true), cloth.Wish{Piece: "cup", Edge: "side 1"}, box("cup", 80, 100, true), "is no lace edge"},
		{lace(true), cloth.Wish{Piece: "cup"}, bent, "not straight"},
		{lace(true), cloth.Wish{Piece: "cup"}, box("cup", 80, 190, true), "wider lace"},
		{lace(true), cloth.Wish{Piece: "cup", Depth: 11}, box("cup", 80, 100, true), "below the valley line"},
		{cloth.Cloth{Name: "lace", Width: 100, Lace: &cloth.Lace{Depth: 5}}, cloth.Wish{Piece: "cup"}, box("cup", 80, 50, true), "repeat"},
	} {
		_, err := border.Cuts(pattern.Pattern{Pieces: []pattern.Piece{c.is}}, c.lace, []cloth.Wish{c.wish})
		require.ErrorContains(t, err, c.says)
	}
	_, err := border.Cuts(pattern.Pattern{}, lace(true), nil)
	require.ErrorContains(t, err, "name the pieces")
}

// Borders of two depths: between their valley lines lies less cloth, a piece lies
// on either at its valley line, and one that is to lie deeper than the second is
// scalloped lies on the first.
func TestTheBordersMayHaveTwoDepths(t *testing.T) {
	l := lace(true)
	l.Lace.SecondDepth = 25
	require.NoError(t, l.Validate())
	require.InDelta(t, width-depth-25, l.Usable(), 1e-12)
	pc := box("box", 50, 80, false)
	pc.Cut.Count = 2
	got := plan(t, l, []cloth.Wish{{Piece: "box", Motif: at(0)}}, pc)
	require.InDelta(t, 50, got.Length, 1e-6)
	for _, o := range got.Placed {
		y := o.Motion.Apply(geom.Pt(0, 0)).Y
		require.InDelta(t, map[bool]float64{false: 0, true: width - depth - 25}[o.Second], y, 1e-9)
	}
	deep := []cloth.Wish{{Piece: "box", Motif: at(0), Depth: 15}}
	got = plan(t, l, deep, pc)
	require.InDelta(t, repeat+50, got.Length, 1e-6, "both on the deep one")
	require.True(t, got.Placed[0].Second && got.Placed[1].Second)
	require.False(t, got.LiesOn(0, false))
	cuts, err := border.Cuts(pattern.Pattern{Pieces: []pattern.Piece{pc}}, l, deep)
	require.NoError(t, err)
	_, err = border.Lay(l, cuts, 0, []cloth.Place{{Piece: "box", At: 0}})
	require.ErrorContains(t, err, "not as deep")
	_, err = border.Cuts(pattern.Pattern{Pieces: []pattern.Piece{pc}}, l, []cloth.Wish{{Piece: "box", Depth: 26}})
	require.ErrorContains(t, err, "25 mm deep")

	for field, wrong := range map[string]cloth.Lace{
		"lace.second_depth": {Repeat: repeat, Depth: 10, Both: true, Second: cloth.Mirrored, SecondDepth: 190},
		"lace.depth":        {Repeat: repeat, Depth: 100, Both: true, Second: cloth.Mirrored},
	} {
		all := cloth.Cloth{Name: "lace", Width: width, Lace: &wrong}.Wrongs()
		require.Len(t, all, 1)
		require.Equal(t, field, all[0].Field)
	}
	alone := cloth.Cloth{Name: "lace", Width: width, Lace: &cloth.Lace{Repeat: repeat, Depth: 10, SecondDepth: 5}}
	require.ErrorContains(t, alone.Validate(), "one border only")
}
