package render

import (
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/geom"
	"truemat/ops/demo"
)

// overlaps counts the pairs of pieces whose cut lines meet in some size.
func overlaps(t *testing.T, nests []*nest, whole bool) int {
	t.Helper()
	cuts := make([][]geom.Path, len(nests))
	for i, n := range nests {
		for k, pc := range n.each {
			v, err := newVersion(pc, n.moves[k].Then(n.pose), n.label[k], whole)
			require.NoError(t, err)
			cuts[i] = append(cuts[i], v.shape.cut)
		}
	}
	meet := func(a, b geom.Path) bool {
		return len(geom.Cross(a, b).Crossings) > 0 || a.Contains(b.Start()) || b.Contains(a.Start())
	}
	count := 0
	for i := range cuts {
		for j := range i {
			hit := false
			for _, a := range cuts[i] {
				for _, b := range cuts[j] {
					hit = hit || meet(a, b)
				}
			}
			if hit {
				count++
			}
		}
	}
	return count
}

func TestNeighboursOfNestedSizesDoNotOverlap(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	var sizes []SizePieces
	for _, s := range run.Sizes {
		sizes = append(sizes, SizePieces{s.Label, s.Pattern.Pieces})
	}
	for _, whole := range []bool{false, true} {
		nests, err := nestPieces(sizes, nil)
		require.NoError(t, err)
		require.Positive(t, overlaps(t, nests, whole), "as they lie they overlap")
		require.NoError(t, apart(nests, whole))
		require.Zero(t, overlaps(t, nests, whole))
	}

	// Pieces at one place, which no order parts, and pieces that lie free.
	nests, err := nestPieces(sizes, nil)
	require.NoError(t, err)
	for i, n := range nests {
		n.pose = geom.Shift(geom.Pt(float64(i)*1e-3, 0))
	}
	require.NoError(t, apart(nests, false))
	require.Zero(t, overlaps(t, nests, false))
	was := make([]geom.Motion, len(nests))
	for i, n := range nests {
		n.pose = geom.Shift(geom.Pt(2000*float64(i), 0))
		was[i] = n.pose
	}
	require.NoError(t, apart(nests, false))
	for i, n := range nests {
		require.Equal(t, was[i], n.pose, "what lies free stays")
	}
}
