package step

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/pattern/patterntest"
)

func TestAPlainPieceIsAddedBesideTheOthersInEverySize(t *testing.T) {
	heights := map[string]float64{"S": 300, "L": 320}
	_, results, err := Recipe{}.Append(squares(), Entry{ID: "strap", Step: &Plain{Name: "strap", Width: Lit(24), Height: PerSize(heights), Allowance: Lit(6), Pair: true}})
	require.NoError(t, err)
	for _, r := range results {
		p := r.Size.Pattern
		require.Len(t, p.Pieces, 2)
		require.Equal(t, r.Before.Pieces[0], p.Pieces[0], "the other stays as it is")
		require.Equal(t, p.Piece("strap"), r.Before.Piece("strap"), "it counts as one that came in, not as an altered one")
		strap := p.Piece("strap")
		require.InDelta(t, heights[r.Size.Label], strap.Edge("left").Length(), 1e-9)
		o, err := strap.Outline()
		require.NoError(t, err)
		other, err := p.Pieces[0].Outline()
		require.NoError(t, err)
		require.False(t, other.Bounds().Grow(10).Overlaps(o.Transform(strap.Pose).Bounds().Grow(10)), "there is room for allowances")
	}
}

func TestAPlainPieceRefusesATakenNameAndAWrongMeasure(t *testing.T) {
	p := patterntest.Sample()
	require.Contains(t, refused(t, p, &Plain{Name: "band", Width: Lit(10), Height: Lit(10)}), "there already is a piece")
	require.Contains(t, refused(t, p, &Plain{Name: "strap", Width: Lit(10), Height: Lit(0)}), "0 mm high")
	require.Contains(t, refused(t, p, &Plain{Name: "strap", Width: Figure("x.y", 1), Height: Lit(10)}), "no earlier step reports")
	out := apply(t, p, &Plain{Name: "strap", Width: Lit(10), Height: Lit(200), Fold: true})
	require.Equal(t, geom.Pt(5, 40), out.Pattern.Piece("strap").Arrow.From.Sub(geom.Pt(0, 20)))
}
