package step

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/pattern"
)

// With the corner kept both edges run on through it, and the seam is as long as
// it was.
func TestTrueKeepsTheCorner(t *testing.T) {
	p := gabled()
	s := &True{Seam: "join", End: pattern.Start, Reach: exactly(25), Hold: holdCorner}
	out := applied(t, p, s)
	assert.InDelta(t, 0, out.Figures["kink_after"], 1e-6)
	assert.Zero(t, out.Figures["seam_change"])
	assert.Positive(t, out.Figures["moved"])
	for _, side := range [][2]string{{"left", "side"}, {"right", "front"}} {
		assert.Equal(t, p.Piece(side[0]).Edge(side[1]).Path, out.Pattern.Piece(side[0]).Edge(side[1]).Path)
	}
	for _, name := range []string{"left", "right"} {
		hem := out.Pattern.Piece(name).Edge("hem").Path
		assert.Less(t, sharpest(hem), 1e-6)
	}
	assert.Equal(t, "True the edges across the start of seam join over 25 mm to each side, its corner kept where it is.", s.Sentence())
}

func TestTheCornerOfALaceEdgeIsNotKept(t *testing.T) {
	p := gabled()
	p.Pieces[0].Edge("hem").Role = pattern.LaceEdge
	_, err := (&True{Seam: "join", End: pattern.Start, Reach: exactly(25), Hold: holdCorner}).Apply(Input{Pattern: p})
	require.ErrorContains(t, err, "lace edge")
	_, err = (&True{Seam: "join", End: pattern.Start, Reach: exactly(25), Hold: "middle"}).Apply(Input{Pattern: gabled()})
	require.ErrorContains(t, err, "corner")
}
