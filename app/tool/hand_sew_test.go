package tool_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

func TestTheHandSewsAnEdgeToOneThatIsPressed(t *testing.T) {
	d := tern(t, 0)
	require.NoError(t, d.Accept(&step.Sew{Name: "side seam", Apart: true}))
	h := tool.NewHand(d).(*tool.Hand)
	begin := func() {
		d.Select(tool.Selection{Piece: "band", Edge: "side seam"})
		h.Sew("band", "side seam")
	}
	begin()
	assert.Contains(t, h.Hint(), "side seam of band is sewn to")
	assert.Contains(t, notes(h), "side seam", "what can be pressed is named")
	press(h, midEdge(t, d, "cradle", "hem", 0.4))
	assert.Contains(t, h.Hint(), "Hem of cradle is a hem")
	press(h, midEdge(t, d, "cradle", "bridge seam", 0.4))
	assert.Contains(t, h.Hint(), "is sewn in")
	press(h, midEdge(t, d, "band", "side seam", 0.4))
	assert.Contains(t, h.Hint(), "the edge itself")
	assert.Nil(t, h.Proposal())
	press(h, midEdge(t, d, "cradle", "side seam", 0.4))
	want := []step.Step{&step.Sew{Name: "side seam", A: []pattern.Part{pattern.Whole("band", "side seam")}, B: []pattern.Part{pattern.Whole("cradle", "side seam").Backwards()}}}
	require.Equal(t, want, h.Proposal())
	require.True(t, h.Done())

	// By keys alone, and left again.
	begin()
	for range 20 {
		require.True(t, h.Key(tool.Key{Name: tool.Next}))
		require.True(t, h.Key(tool.Key{Name: tool.Choose}))
		if h.Proposal() != nil {
			break
		}
	}
	require.Equal(t, want, h.Proposal(), "it is the only edge that is free")
	begin()
	require.True(t, h.Reset())
	require.NotContains(t, h.Hint(), "is sewn to")
	// Another selection ends it.
	begin()
	d.Select(tool.Selection{Piece: "cradle"})
	require.NotContains(t, h.Hint(), "is sewn to")
	begin()
	press(h, midEdge(t, d, "cradle", "side seam", 0.4))
	accept(t, d, h)
	require.NotNil(t, d.Pattern().Seam("side seam"))
}

func TestASeamOfEdgesWithoutNamesIsCalledByItsPieces(t *testing.T) {
	pc := func(name string) pattern.Piece {
		r, err := pattern.Plain{Name: name, Width: 30, Height: 50}.Piece()
		require.NoError(t, err)
		r.Edges[2].Name = "edge-3"
		return r
	}
	p := pattern.Pattern{Pieces: []pattern.Piece{pc("front"), pc("side")}}
	call := func(edge, piece, other string) string {
		return tool.SewTo(p, "front", edge, pattern.Whole(piece, other).Backwards()).Name
	}
	assert.Equal(t, "front to side", call("edge-3", "side", "edge-3"))
	assert.Equal(t, "left", call("left", "side", "edge-3"))
	assert.Equal(t, "left", call("edge-3", "side", "left"))
	assert.Equal(t, "edge-3", call("edge-3", "front", "edge-3"), "a piece to itself has its edge only")
	p.Seams = []pattern.Seam{{Name: "left"}}
	assert.Equal(t, "left 2", call("left", "side", "edge-3"))
}
