package order_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/cloth"
	"truemat/ops/cloth/order"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

func alteredTern(t require.TestingT) pattern.Pattern {
	run, err := demo.Tern()
	require.NoError(t, err)
	return demo.TernInLace().Replay(run)[0].Size.Pattern
}

func told(t require.TestingT, p pattern.Pattern, g cloth.Goods) map[string]order.Told {
	require.NoError(t, g.Validate())
	acts, err := order.Sorted(order.Acts(p, g), g.Order)
	require.NoError(t, err)
	out := map[string]order.Told{}
	for _, a := range order.Tell(p, g, acts, nil) {
		out[a.ID] = a
	}
	return out
}

// withLayers returns the demo's goods with every piece of these cloths.
func withLayers(p pattern.Pattern, names ...string) cloth.Goods {
	g := demo.Goods()
	g.Made = nil
	for i := range p.Pieces {
		g.Made = append(g.Made, cloth.Made{Piece: p.Pieces[i].Name, Cloths: names})
	}
	return g
}

func TestWhereNoLiningHidesTheSeamsTheirEdgesTurnBack(t *testing.T) {
	p := alteredTern(t)
	at := told(t, p, demo.Goods())
	side := at["join side seam"]
	require.Equal(t, pattern.PressedToB, side.Press, "the net of the band is the thinner")
	require.True(t, side.Proposed)
	require.Len(t, side.Inside.Turns, 1)
	require.Equal(t, "frame", side.Inside.Turns[0].Piece)
	require.InDelta(t, 6.35/2, side.Inside.Turns[0].Turn, 1e-9)
	require.InDelta(t, 6.35/2, side.Inside.Turns[0].Trimmed, 1e-9)
	cross := at["join cross seam"]
	require.Equal(t, pattern.PressedOpen, cross.Press, "both sides are alike")
	require.Len(t, cross.Inside.Turns, 2)
	require.Equal(t, order.ByChannelling, at["join wire seam"].Inside.Hidden)
	require.Contains(t, at["turn-back underarm"].Sentence, "frame and band")
	for id, a := range at {
		if a.Kind == order.TurnBack {
			require.Contains(t, a.Sentence, "(or put an elastic on; none is described)", id)
		}
	}

	lined := told(t, p, withLayers(p, "sheer tricot", "power net"))
	require.Equal(t, order.ByLining, lined["join side seam"].Inside.Hidden)
	require.NotContains(t, lined, "turn-back underarm")
	require.Contains(t, lined["enclose underarm"].Sentence, "lining")

	p = p.Clone()
	p.Piece("frame").Edge("side seam").Allowance = 5
	narrow := told(t, p, demo.Goods())["join side seam"]
	require.Contains(t, narrow.Sentence, "too narrow to be folded")
}

func TestWhatMustLieUnderAnActIsNamedAndComesBefore(t *testing.T) {
	p := alteredTern(t)
	at := told(t, p, demo.Goods())
	under := func(id string) string {
		var list []string
		for _, u := range at[id].Under {
			list = append(list, u.What)
			require.True(t, u.Act == "" || slices.Contains(at[id].Needs, u.Act), "%s: %s", id, u.What)
		}
		return strings.Join(list, "; ")
	}
	require.Contains(t, under("join side seam"), "sheer tricot under the heron lace of frame")
	require.NotContains(t, under("join wire seam"), "of frame", "they lie on each other already")
	require.Contains(t, under("channel wire line"), `allowances of "wire seam"`)
	require.Contains(t, under("turn-back underarm"), "end of the channelling")
	require.Contains(t, under("close closure of band"), "end of hem elastic")
	require.Contains(t, under("wires wire line"), "channelling")

	// The cups lined and the frame not: their layers are caught in the wire
	// seam, so the lining is turned along their edges before.
	g := demo.Goods()
	for i := range g.Made {
		if strings.Contains(g.Made[i].Piece, "cup") {
			g.Made[i].Cloths = append(g.Made[i].Cloths, "power net")
		}
	}
	at = told(t, p, g)
	require.Contains(t, under("join wire seam"), "the lining, turned along cup underarm")
}

func TestTopstitchingIsTold(t *testing.T) {
	p := alteredTern(t)
	g := demo.Goods()
	g.Topstitch = []cloth.Topstitch{{Seam: "cross seam", Class: "301", Away: 2}, {Seam: "side seam", Class: "304", Away: 1.5, Rows: 2, Between: 3}}
	at := told(t, p, g)
	require.Contains(t, at["join cross seam"].Sentence, "2 mm from the seam on both sides, stitch 301")
	require.Contains(t, at["join side seam"].Sentence, "in 2 rows 3 mm apart 1.5 mm from the seam on the side it is pressed to, stitch 304")
	require.Equal(t, "304", at["join side seam"].Topstitch.Class)
	require.Nil(t, at["join wire seam"].Topstitch)
}

// moveAround moves acts to random places: what is refused names an act that
// must come first, what is taken is an order in which nothing comes before what
// it needs, and stays when it is kept as a wish.
func moveAround(t *rapid.T, acts []order.Act) {
	if len(acts) == 0 {
		return
	}
	for range rapid.IntRange(1, 8).Draw(t, "moves") {
		which := acts[rapid.IntRange(0, len(acts)-1).Draw(t, "which")].ID
		to := rapid.IntRange(0, len(acts)-1).Draw(t, "to")
		next, err := order.Moved(acts, which, to)
		if err != nil {
			require.ErrorContains(t, err, "must come after")
			continue
		}
		require.Equal(t, which, next[to].ID)
		require.ElementsMatch(t, order.IDs(acts), order.IDs(next))
		done := map[string]bool{}
		for _, a := range next {
			for _, n := range a.Needs {
				require.True(t, done[n], "%s before %s", a.ID, n)
			}
			done[a.ID] = true
		}
		require.NoError(t, order.Possible(next, order.IDs(next)))
		again, err := order.Sorted(next, order.IDs(next))
		require.NoError(t, err)
		require.Equal(t, order.IDs(next), order.IDs(again))
		acts = next
	}
}

func TestAnyOrderThatIsTakenCanBeSewn(t *testing.T) {
	p, g := alteredTern(t), demo.Goods()
	tern, err := order.Sorted(order.Acts(p, g), nil)
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		if rapid.Bool().Draw(t, "tern") {
			moveAround(t, tern)
			return
		}
		q := &quilt{}
		q.cut(t, geom.Pt(0, 0), geom.Pt(900, 700), rapid.IntRange(1, 4).Draw(t, "depth"))
		acts, err := order.Sorted(order.Acts(q.p, cloth.Goods{}), nil)
		require.NoError(t, err)
		moveAround(t, acts)
	})
}

func TestAnImpossibleOrderIsRefused(t *testing.T) {
	p, g := alteredTern(t), demo.Goods()
	acts := order.Acts(p, g)
	require.ErrorContains(t, order.Possible(acts, []string{"join wire seam", "join cross seam"}), `"join wire seam" cannot come before "join cross seam"`)
	require.ErrorContains(t, order.Possible(acts, []string{"join waist seam"}), `"join side seam"`)
	require.NoError(t, order.Possible(acts, []string{"join side seam"}))
}

// A seam whose check is broken says so beside its act, no other.
func TestAnActTellsWhatIsBrokenOfItsSeam(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	width := step.Lit(10)
	r := step.Recipe{{ID: "allow", Step: &step.Allow{Piece: "band", Edge: "side seam", Width: &width}}}.Replay(run)[0]
	p := r.Size.Pattern
	acts, err := order.Sorted(order.Acts(p, cloth.Goods{}), nil)
	require.NoError(t, err)
	for _, a := range order.Tell(p, cloth.Goods{}, acts, check.Run(r.Before, p, check.Defaults())) {
		if a.Seam == "side seam" {
			require.Equal(t, []string{"Broken: Side seam: the allowances of its sides differ by 3.65 mm, 6.35 mm on cradle and 10 mm on band."}, a.Broken)
		} else {
			require.Empty(t, a.Broken)
		}
	}
}

// What is folded is as long as it is sewn in one go: whole over the fold, else
// that of each half.
func TestFoldsAreAsLongAsTheyAreSewnInOneGo(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	p := run.Sizes[0].Pattern
	at := told(t, p, cloth.Goods{})
	hem, under := at["turn-back hem"], at["turn-back underarm"]
	require.InDelta(t, 2*p.Length(p.Line("hem").Parts), hem.Length, 1e-9)
	require.Contains(t, hem.Sentence, unit.MM(hem.Length)+" long (or")
	require.InDelta(t, p.Length(p.Line("underarm").Parts), under.Length, 1e-9)
	require.Contains(t, under.Sentence, unit.MM(under.Length)+" long on each half")
	_, top := p.Edge("bridge", "top")
	require.InDelta(t, 2*top.Length(), at["turn-back top of bridge"].Length, 1e-9)
}
