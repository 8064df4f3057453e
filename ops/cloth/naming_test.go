package cloth_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/cloth"
	"truemat/ops/demo"
)

// Layers that are stated count, and the piece's own word only without them.
func TestAPieceNamesTheClothItIsCutFrom(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	p := run.Sizes[0].Pattern
	none := cloth.Goods{}
	require.Equal(t, p.Pieces, none.Named(p.Pieces))
	require.Equal(t, "no cloth is described yet (the pieces only name firm tulle, stretch tulle and cup cloth)", cloth.NoneDescribed(p))
	p2 := p
	p2.Pieces = p.Pieces[:0:0]
	require.Equal(t, "no cloth is described yet", cloth.NoneDescribed(p2))

	g := demo.Goods()
	g, err = g.WithLayers("band", "power net", "heron lace")
	require.NoError(t, err)
	named := g.Named(p.Pieces)
	require.Equal(t, "stretch tulle", p.Piece("band").Cut.Cloth, "the pattern stays as it is")
	for _, pc := range named {
		if pc.Name == "band" {
			require.Equal(t, "power net over heron lace", pc.Cut.Cloth)
		}
	}
}
