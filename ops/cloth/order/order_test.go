package order_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/cloth/order"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

func ids(acts []order.Act) []string {
	var out []string
	for _, a := range acts {
		out = append(out, a.ID)
	}
	return out
}

func comesAfter(t *testing.T, acts []order.Act, later, earlier string) {
	t.Helper()
	i, j := slices.Index(ids(acts), later), slices.Index(ids(acts), earlier)
	require.GreaterOrEqual(t, i, 0, later)
	require.GreaterOrEqual(t, j, 0, earlier)
	require.Greater(t, i, j, "%s comes after %s", later, earlier)
}

func TestTheTernIsSewnFromSmallToLarge(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	acts, err := order.Sorted(order.Acts(run.Sizes[0].Pattern, cloth.Goods{}), nil)
	require.NoError(t, err)
	comesAfter(t, acts, "join vertical seam", "join cross seam")
	comesAfter(t, acts, "join wire seam", "join vertical seam")
	comesAfter(t, acts, "join wire seam", "join bridge seam")
	comesAfter(t, acts, "channel wire line", "join wire seam")
	comesAfter(t, acts, "wires wire line", "channel wire line")
}

func TestTheAlteredTernIsSewnWithItsElastic(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	for _, r := range demo.TernInLace().Replay(run) {
		acts, err := order.Sorted(order.Acts(r.Size.Pattern, demo.Goods()), nil)
		require.NoError(t, err)
		comesAfter(t, acts, "elastic hem elastic", "join side seam")
		comesAfter(t, acts, "close closure of band", "elastic hem elastic")
		comesAfter(t, acts, "wires wire line", "elastic hem elastic")
	}
}

func TestSheReordersWithinWhatIsPossible(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	acts, err := order.Sorted(order.Acts(run.Sizes[0].Pattern, cloth.Goods{}), []string{"join side seam"})
	require.NoError(t, err)
	require.Equal(t, "join side seam", acts[0].ID)

	last := slices.Index(ids(acts), "join wire seam")
	moved, err := order.Moved(acts, "join side seam", last)
	require.NoError(t, err)
	require.Equal(t, "join side seam", moved[last].ID)
	again, err := order.Sorted(moved, ids(moved))
	require.NoError(t, err)
	require.Equal(t, ids(moved), ids(again), "an order she made stays")

	_, err = order.Moved(acts, "join wire seam", 0)
	require.ErrorContains(t, err, "must come after")
	_, err = order.Moved(acts, "join waist seam", 0)
	require.ErrorContains(t, err, "no act")
	_, err = order.Moved(acts, "join wire seam", 99)
	require.ErrorContains(t, err, "cannot come as number")
}

func TestSeamsThatWaitForEachOtherAreNamed(t *testing.T) {
	acts := []order.Act{{ID: "join a", Kind: order.Join, Needs: []string{"join b"}}, {ID: "join b", Kind: order.Join, Needs: []string{"join a"}}}
	_, err := order.Sorted(acts, nil)
	require.ErrorContains(t, err, "join a, join b")
}

// A quilt is a rectangle cut straight across again and again; its seams are
// the cuts. It can be sewn only by sewing back the last cuts first.
type quilt struct {
	p pattern.Pattern
}

// cut divides the rectangle until depth is used up and returns its four sides
// (bottom, right, top, left, counter-clockwise) as chains.
func (q *quilt) cut(t *rapid.T, lo, hi geom.Point, depth int) [4][]pattern.Part {
	if depth == 0 || rapid.IntRange(0, 3).Draw(t, "stop") == 0 {
		name := fmt.Sprintf("patch %d", len(q.p.Pieces))
		pc := pattern.Piece{Name: name, Pose: geom.Identity(), Cut: pattern.Cut{Count: 1}, Arrow: pattern.Arrow{Kind: pattern.Grain, To: geom.Pt(0, 1)}}
		corners := []geom.Point{lo, geom.Pt(hi.X, lo.Y), hi, geom.Pt(lo.X, hi.Y)}
		var sides [4][]pattern.Part
		for i, side := range []string{"bottom", "right", "top", "left"} {
			pc.Edges = append(pc.Edges, pattern.Edge{Name: side, Role: pattern.SeamEdge, Free: true, Path: geom.Must(geom.Polyline(corners[i], corners[(i+1)%4]))})
			sides[i] = []pattern.Part{pattern.Whole(name, side)}
		}
		q.p.Pieces = append(q.p.Pieces, pc)
		return sides
	}
	share := rapid.Float64Range(0.35, 0.65).Draw(t, "share")
	var a, b [4][]pattern.Part
	var sa, sb []pattern.Part
	upright := rapid.Bool().Draw(t, "upright")
	if upright {
		x := lo.X + share*(hi.X-lo.X)
		a = q.cut(t, lo, geom.Pt(x, hi.Y), depth-1)
		b = q.cut(t, geom.Pt(x, lo.Y), hi, depth-1)
		sa, sb = a[1], b[3]
	} else {
		y := lo.Y + share*(hi.Y-lo.Y)
		a = q.cut(t, lo, geom.Pt(hi.X, y), depth-1)
		b = q.cut(t, geom.Pt(lo.X, y), hi, depth-1)
		sa, sb = a[2], b[0]
	}
	q.p.Seams = append(q.p.Seams, pattern.Seam{Name: fmt.Sprintf("seam %d", len(q.p.Seams)), A: sa, B: backwards(sb)})
	if upright {
		return [4][]pattern.Part{slices.Concat(a[0], b[0]), b[1], slices.Concat(b[2], a[2]), a[3]}
	}
	return [4][]pattern.Part{a[0], slices.Concat(a[1], b[1]), b[2], slices.Concat(b[3], a[3])}
}

func backwards(chain []pattern.Part) []pattern.Part {
	var out []pattern.Part
	for _, pt := range slices.Backward(chain) {
		out = append(out, pt.Backwards())
	}
	return out
}

// Sewing a random quilt in the order found, every side of every seam is one
// assembly when its seam is sewn.
func TestEverySideHangsTogetherWhenItIsSewn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := &quilt{}
		q.cut(t, geom.Pt(0, 0), geom.Pt(900, 700), rapid.IntRange(1, 4).Draw(t, "depth"))
		// The seams come in a random order in the pattern.
		q.p.Seams = rapid.Permutation(q.p.Seams).Draw(t, "seams")
		acts, err := order.Sorted(order.Acts(q.p, cloth.Goods{}), nil)
		require.NoError(t, err)
		require.Len(t, acts, len(q.p.Seams))
		whole := map[string]string{} // the assembly of each piece, by one of its pieces
		root := func(piece string) string {
			for whole[piece] != "" {
				piece = whole[piece]
			}
			return piece
		}
		for _, a := range acts {
			s := q.p.Seam(a.Seam)
			for _, side := range []pattern.Side{s.A, s.B} {
				for _, pt := range side {
					require.Equal(t, root(side[0].Piece), root(pt.Piece), "%s in %v", s.Name, ids(acts))
				}
			}
			require.NotEqual(t, root(s.A[0].Piece), root(s.B[0].Piece))
			whole[root(s.A[0].Piece)] = root(s.B[0].Piece)
		}
	})
}

// However far the Tern is altered, in whichever size, and whatever it is lined
// and finished with: the acts can be sewn one after the other, each after all
// that it needs, every seam once, and every side of a seam hangs together when
// it is sewn.
func TestAnyGarmentHasAnOrderThatCanBeSewn(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	all := demo.TernInLace()
	rapid.Check(t, func(t *rapid.T) {
		one := run
		one.Sizes = []pattern.Size{rapid.SampledFrom(run.Sizes).Draw(t, "size")}
		p := all[:rapid.IntRange(0, len(all)).Draw(t, "steps")].Replay(one)[0].Size.Pattern
		g := demo.Goods()
		g.Made, g.Elastics = nil, nil
		for i := range p.Pieces {
			if cloths := rapid.SampledFrom([][]string{nil, {"power net"}, {"backed lace"}, {"power net", "sheer tricot"}}).Draw(t, "cloths"); cloths != nil {
				g.Made = append(g.Made, cloth.Made{Piece: p.Pieces[i].Name, Cloths: cloths})
			}
		}
		for _, l := range p.Lines {
			if put := rapid.SampledFrom([]cloth.PutOn{"", cloth.Turned, cloth.BehindLace, cloth.FoldedOver}).Draw(t, "elastic"); put != "" && l.Kind != pattern.LineWire {
				g.Elastics = append(g.Elastics, cloth.Elastic{Name: l.Name + " elastic", Line: l.Name, Width: 10, PutOn: put})
			}
		}
		acts, err := order.Sorted(order.Acts(p, g), nil)
		require.NoError(t, err)
		done, whole, sewn := map[string]bool{}, map[string]string{}, map[string]int{}
		root := func(piece string) string {
			for whole[piece] != "" {
				piece = whole[piece]
			}
			return piece
		}
		for _, a := range acts {
			for _, n := range a.Needs {
				require.True(t, done[n], "%s before %s", a.ID, n)
			}
			done[a.ID] = true
			if a.Kind != order.Join {
				continue
			}
			sewn[a.Seam]++
			s := p.Seam(a.Seam)
			for _, side := range []pattern.Side{s.A, s.B} {
				for _, pt := range side {
					require.Equal(t, root(side[0].Piece), root(pt.Piece), "%s in %v", s.Name, ids(acts))
				}
			}
			if x, y := root(s.A[0].Piece), root(s.B[0].Piece); x != y {
				whole[x] = y
			}
		}
		for _, s := range p.Seams {
			require.Equal(t, 1, sewn[s.Name], s.Name)
		}
	})
}

func TestEdgesThatNoActSewsAreNamed(t *testing.T) {
	p := alteredTern(t)
	require.Empty(t, order.Lone(p))
	p = p.Clone()
	i := slices.IndexFunc(p.Seams, func(s pattern.Seam) bool { return s.Name == "side seam" })
	p.Seams = slices.Delete(p.Seams, i, i+1)
	lone := order.Lone(p)
	require.Contains(t, lone, "frame: side seam; band: side seam. Press each")
	require.Contains(t, lone, "under Selected, or give it another role")

	p.Piece("frame").Edge("side seam").Free = true
	require.Contains(t, order.Lone(p), "One edge to be sewn has no partner and does not come in this order (band: side seam).")
}
