package step

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

func TestLiningWithoutTurnBacks(t *testing.T) {
	p := panels(0) // left is 100 by 50, its hem below
	p.Pieces[0].Edge("side").Free = false
	l := &LineIt{Piece: "left", Name: "lining", Cloth: "tulle", Layers: 2, PullIn: exactly(3)}
	out := applied(t, p, l)
	require.Equal(t, p.Pieces, out.Pattern.Pieces[:2])
	require.Equal(t, p.Seams, out.Pattern.Seams)
	pc := out.Pattern.Piece("lining")
	require.Equal(t, pattern.Cut{Count: 1, Pair: true, Layers: 2, Cloth: "tulle"}, pc.Cut)
	require.InDelta(t, 100*47, pc.Area(), 1e-6)
	require.InDelta(t, 100, pc.Edge("hem").Length(), 1e-6)
	require.InDelta(t, 47, pc.Edge("side").Length(), 1e-6)
	require.Zero(t, pc.Edge("hem").Allowance)
	for _, name := range []string{"side", "top", "front"} {
		require.Equal(t, p.Pieces[0].Edge(name).Allowance, pc.Edge(name).Allowance)
		require.True(t, pc.Edge(name).Free)
	}
	n := pc.Notch("mid")
	require.InDelta(t, 17, n.At(47), 1e-6, "the notch is where it was in the cloth")
	require.Equal(t, "LINING", pc.Marks[0].Text)

	l.Shrink = map[string]Number{"top": Lit(2)}
	l.Allowance = exactly(1)
	pc = applied(t, p, l).Pattern.Piece("lining")
	require.InDelta(t, 100*45, pc.Area(), 1e-6)
	require.Equal(t, 1.0, pc.Edge("hem").Allowance)
	require.Equal(t, p.Pieces[0].Edge("top").Allowance, pc.Edge("top").Allowance)
}

func TestLiningSewnIntoTheSeamsOfItsPiece(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		name := rapid.SampledFrom([]string{patterntest.Bridge, patterntest.Cradle, patterntest.Band}).Draw(t, "piece")
		pull := rapid.Float64Range(0, 6).Draw(t, "pull")
		out := applied(t, p, &LineIt{Piece: name, Name: "lining", PullIn: exactly(pull), Sewn: true})
		made := 0
		for _, s := range out.Pattern.Seams[len(p.Seams):] {
			made++
			a, b := out.Pattern.SeamLengths(s)
			require.InDelta(t, a-b, s.Ease, 1e-6, "the lining reaches just that much of its partner")
			was := p.Seam(s.Name[len("lining "):])
			wasA, _ := p.SeamLengths(*was)
			require.LessOrEqual(t, a, wasA+1e-9)
			require.Equal(t, len(out.Pattern.SideNotches(s.A)), len(out.Pattern.SideNotches(s.B)))
		}
		require.Positive(t, made)
		pc := out.Pattern.Piece("lining")
		o, from := geom.Must(pc.Outline()), geom.Must(p.Piece(name).Outline())
		require.LessOrEqual(t, pc.Area(), p.Piece(name).Area()+1e-6)
		for i := range 60 {
			q := o.At(o.Length() * float64(i) / 60)
			require.True(t, from.Contains(q) || from.Nearest(q).Dist < 0.01)
		}
		require.Equal(t, p.Piece(name).Fold() != nil, pc.Fold() != nil)
	})
}

func TestLineItRefuses(t *testing.T) {
	p := panels(0)
	for want, l := range map[string]*LineIt{
		"no piece":           {Piece: "x", Name: "l"},
		"needs a name":       {Piece: "left"},
		"already is a piece": {Piece: "left", Name: "right"},
		"layers":             {Piece: "left", Name: "l", Layers: -1},
		"not between":        {Piece: "left", Name: "l", PullIn: exactly(-1)},
		"no edge \"x\"":      {Piece: "left", Name: "l", Finished: []string{"x"}},
		"allowance of":       {Piece: "left", Name: "l", Allowance: exactly(-1)},
		"less":               {Piece: "left", Name: "l", PullIn: exactly(80)},
	} {
		require.Contains(t, refusal(t, p, l), want)
	}
	frame := patterntest.Sample()
	require.Contains(t, refusal(t, frame, &LineIt{Piece: patterntest.Bridge, Name: "l", Shrink: map[string]Number{"fold": Lit(2)}}), "lies on the fold")
	frame.Seams[0].Name = "lining side seam"
	require.Contains(t, refusal(t, frame, &LineIt{Piece: patterntest.Band, Name: "lining", Sewn: true}), "another name")
}
