package tool_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/store"
)

// On a piece that lies turned over, too, a knot is counted inward, and the edge
// comes to lie where the knots show it.
func TestKnotsOfAPieceThatLiesTurnedOver(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	over, err := geom.Mirror(geom.Pt(0, 0), geom.Pt(0, 1))
	require.NoError(t, err)
	for _, turned := range []bool{false, true} {
		if turned {
			for i := range run.Sizes {
				pc := run.Sizes[i].Pattern.Piece(innerCup)
				pc.Pose = pc.Pose.Then(over)
			}
		}
		d, err := desk.New(store.Document{Source: run}, "")
		require.NoError(t, err)
		r := tool.NewReshape(d)
		at := midEdge(t, d, innerCup, "neckline", 0.4)
		press(r, at)
		release(r, at)
		require.NoError(t, r.Set("knots", "1"))
		require.InDelta(t, 0, reported(t, d, r.Proposal()...).Figures["moved"], 1e-6, "a knot alone changes nothing")
		require.NoError(t, r.Set("off", "9 mm"))
		res, err := d.Try(r.Proposal()...)
		require.NoError(t, err)
		now := res.Size.Pattern.Piece(innerCup)
		e := now.Edge("neckline").Path
		a, b := e.Start(), e.End()
		deepest := 0.0
		for k := range 100 {
			deepest = max(deepest, b.Sub(a).Unit().Cross(e.At(e.Length()*float64(k)/100).Sub(a)))
		}
		require.InDelta(t, 9, deepest, 1, "to the left of its way, which is inward")
		require.Contains(t, fieldLabels(r), "in (− is out)")
	}
}

func fieldLabels(tl tool.Tool) (all []string) {
	for _, f := range tl.Fields() {
		all = append(all, f.Label)
	}
	return all
}
