package intake

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/geom"
	"truemat/ops/pattern"
)

const testdata = "../../testdata/intake"

func bringFiles(t testing.TB, drawing, companion string, opt Options) Result {
	t.Helper()
	w, err := os.Open(filepath.Join(testdata, companion))
	require.NoError(t, err)
	defer w.Close()
	c, err := ReadCompanion(w)
	require.NoError(t, err)
	r, err := os.Open(filepath.Join(testdata, drawing))
	require.NoError(t, err)
	defer r.Close()
	res, err := Bring(r, c, opt)
	require.NoError(t, err)
	return res
}

// The irregular frame was drawn from these sew lines, its cut lines written
// with three decimals. The lengths are those of the sew lines before any
// allowance was added.
var heron = map[string]map[string][2]float64{
	"bridge": {"fold": {108, 111.78}, "hem": {31.580213, 32.999729}, "seam": {48.109477, 49.797395}, "wire": {59.259524, 61.417846}, "top": {9.916472, 10.354699}},
	"cradle": {"seam": {48.109477, 49.797395}, "hem": {107.492771, 112.310279}, "side": {95.545117, 98.890102}, "underarm": {18.114912, 18.908756}, "wire": {152.310871, 158.469766}},
	"band":   {"side": {95.545117, 98.890102}, "hem": {153.164361, 160.053489}, "closure": {38.003289, 39.333471}, "underarm": {166.769310, 174.055246}},
}

func TestIrregularFrame(t *testing.T) {
	res := bringFiles(t, "irregular.svg", "irregular.txt", Options{})
	require.NoError(t, res.Run.Validate())
	assert.Equal(t, "Heron frame", res.Run.Name)
	assert.Equal(t, []string{"34", "36"}, res.Run.Labels())
	for _, b := range res.Pieces {
		assert.True(t, b.Drawn)
		assert.Less(t, b.CutError, 0.01, "%s %s", b.Size, b.Piece)
		t.Logf("%s %s: cut line within %.4f mm, gap %.4f", b.Size, b.Piece, b.CutError, b.Gap)
	}
	for k, s := range res.Run.Sizes {
		for name, edges := range heron {
			pc := s.Pattern.Piece(name)
			require.NotNil(t, pc)
			require.Len(t, pc.Edges, len(edges))
			for edge, want := range edges {
				require.NotNil(t, pc.Edge(edge), edge)
				assert.InDelta(t, want[k], pc.Edge(edge).Length(), 0.01, "%s of %s in %s", edge, name, s.Label)
			}
		}
		// Sewn lengths agree, and notches lie on each other.
		for _, seam := range s.Pattern.Seams {
			a, b := s.Pattern.SeamLengths(seam)
			assert.InDelta(t, a, b, 0.01, seam.Name)
			na, nb := s.Pattern.SideNotches(seam.A), s.Pattern.SideNotches(seam.B)
			require.Len(t, na, 1)
			require.Len(t, nb, 1)
			assert.InDelta(t, na[0].At, nb[0].At, 0.05, seam.Name)
			assert.Equal(t, na[0].Notch.Double, nb[0].Notch.Double)
		}
		bridge := s.Pattern.Piece("bridge")
		assert.True(t, bridge.Edge("fold").Path.IsStraight())
		assert.Zero(t, bridge.Edge("fold").Allowance)
		assert.InDelta(t, 6.35, bridge.Edge("wire").Allowance, 1e-12)
		assert.InDelta(t, 12, bridge.Edge("hem").Allowance, 1e-12)
		n := bridge.Notch("bridge notch")
		require.NotNil(t, n)
		assert.InDelta(t, 0.4, n.At(bridge.Edge("seam").Length())/bridge.Edge("seam").Length(), 0.001)
		assert.True(t, s.Pattern.Piece("cradle").Notch("side notch").Double)
		assert.False(t, s.Pattern.Piece("cradle").Notch("bottom").Double)
		// The arrow is the drawn line and no inner line is left of it.
		assert.InDelta(t, 36, bridge.Arrow.From.Dist(bridge.Arrow.To), 0.01)
		assert.Empty(t, bridge.Inner)
		for _, p := range res.Pieces {
			assert.True(t, p.Arrow, p.Piece)
		}
		assert.Equal(t, pattern.MostStretch, s.Pattern.Piece("band").Arrow.Kind)
		assert.True(t, s.Pattern.Piece("cradle").Cut.Pair)
		// The wire line is as wide as drawn and runs on where the pieces meet.
		wire := s.Pattern.Line("wire line")
		require.NotNil(t, wire)
		lay, err := s.Pattern.LayChain(wire.Parts)
		require.NoError(t, err)
		for _, j := range lay.Junctions {
			assert.Equal(t, "bridge seam", j.Seam)
			assert.Less(t, j.Gap, 0.1)
			assert.Less(t, max(j.Kink, -j.Kink).Degrees(), 1.0)
		}
		width := lay.Paths[0].Start().Dist(geom.Pt(lay.Paths[len(lay.Paths)-1].End().X, lay.Paths[0].Start().Y))
		assert.InDelta(t, []float64{109, 109 * 1.045}[k], width, 0.1)
	}
	assert.InDelta(t, 200, res.Run.Sizes[0].Pattern.Figures[pattern.FigureWire], 1e-12)
	assert.Equal(t, "75", res.Run.Sizes[0].Band)
	require.Empty(t, res.LeftOut)
	assert.Contains(t, fmt.Sprint(res.Notes), "the writing on the drawing is no part of the pieces")
}
