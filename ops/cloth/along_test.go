package cloth_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/cloth"
	"truemat/ops/cloth/order"
	"truemat/ops/cloth/suit"
	"truemat/ops/demo"
	"truemat/ops/unit"
)

// The frame's hem has an elastic behind its lace, the band's a wider one that
// is turned: each is cut, checked, sewn and renamed for its own stretch alone.
func TestEachStretchOfALineMayHaveAnElasticOfItsOwn(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	p := demo.TernInLace().Replay(run)[0].Size.Pattern
	frame := cloth.Elastic{Name: "frame elastic", Line: "hem", On: []string{"frame"}, Width: 10, PutOn: cloth.BehindLace, Overlap: 20,
		Stretches: []cloth.Reduced{{Pieces: []string{"frame"}, Percent: 3}}}
	band := cloth.Elastic{Name: "band elastic", Line: "hem", On: []string{"band"}, Width: 14, PutOn: cloth.Turned, Overlap: 10,
		Stretches: []cloth.Reduced{{Pieces: []string{"band"}, Percent: 12}}}
	g := cloth.Goods{Elastics: []cloth.Elastic{frame, band}}
	require.NoError(t, g.Validate())
	require.NoError(t, g.Fits(p))

	whole := cloth.Elastic{Name: "all", Line: "hem", Width: 10, PutOn: cloth.BehindLace}
	all, err := whole.Cut(p)
	require.NoError(t, err)
	a, err := frame.Cut(p)
	require.NoError(t, err)
	b, err := band.Cut(p)
	require.NoError(t, err)
	require.InDelta(t, all.Run, a.Run+b.Run, 1e-9)
	require.InDelta(t, 20+0.97*a.Run, a.Length, 1e-9)
	require.InDelta(t, 2*10+0.88*b.Run, b.Length, 1e-9, "one for each half, each with its overlap")
	require.Equal(t, []int{1, 1, 2}, []int{all.Pieces, a.Pieces, b.Pieces}, "over the fold of the frame it is one")
	var told []string
	for _, part := range all.Parts {
		told = append(told, part.Told(unit.MM))
	}
	half := unit.MM(b.Run / 2)
	require.Equal(t, []string{unit.MM(a.Run) + " on " + unit.MM(a.Run), "2 × " + half + " on " + half}, told)
	require.Len(t, a.Parts, 1)
	require.Equal(t, "band", b.Parts[0].Piece)

	for _, c := range suit.Run(g, p, suit.Defaults()) {
		if c.ID == suit.ElasticTurned {
			require.Contains(t, c.Text, c.Piece+" elastic", "only the elastic of that stretch is judged there")
		}
	}
	acts, err := order.Sorted(order.Acts(p, g), nil)
	require.NoError(t, err)
	said := ""
	for _, told := range order.Tell(p, g, acts, nil) {
		said += told.Sentence + "\n"
	}
	require.Contains(t, said, "Put band elastic on along the hem of band, turned")

	require.Equal(t, []string{"back"}, g.Renamed(cloth.Renaming{Piece: "band", To: "back"}).Elastics[1].On)
	require.Equal(t, []string{"all round"}, g.Joined("frame", "band", "all round").Elastics[0].On)
	require.Equal(t, []string{"band"}, g.Elastics[1].On, "what was handed in stays")

	for why, e := range map[string]cloth.Elastic{
		"does not run along": {Name: "x", Line: "hem", On: []string{"inner cup"}, Width: 10, PutOn: cloth.Turned},
	} {
		require.ErrorContains(t, cloth.Goods{Elastics: []cloth.Elastic{e}}.Fits(p), why)
	}
	for why, e := range map[string]cloth.Elastic{
		"say it once":              {Name: "x", Line: "hem", On: []string{"band", "band"}, Width: 10, PutOn: cloth.Turned},
		"on which it does not run": {Name: "x", Line: "hem", On: []string{"band"}, Width: 10, PutOn: cloth.Turned, Stretches: frame.Stretches},
	} {
		require.ErrorContains(t, e.Validate(), why)
	}
}
