package pattern

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"truemat/geom"
)

func TestAPlainPieceHasItsMeasures(t *testing.T) {
	pc, err := Plain{Name: "strap", Width: 24, Height: 400, Allowance: 6, Cut: Cut{Pair: true}}.Piece()
	require.NoError(t, err)
	p := Pattern{Pieces: []Piece{pc}}
	require.NoError(t, p.Validate())
	o, err := pc.Outline()
	require.NoError(t, err)
	assert.InDelta(t, 24*400, o.Area(), 1e-6)
	assert.InDelta(t, 2*(24+400), o.Length(), 1e-9)
	cut, err := pc.CutLine()
	require.NoError(t, err)
	assert.InDelta(t, (24+12)*(400+12), cut.Area(), 1e-6)
	assert.Equal(t, Cut{Count: 1, Pair: true}, pc.Cut)
	assert.Equal(t, geom.Pt(12, 160), pc.Arrow.From)
	assert.Equal(t, geom.Pt(12, 240), pc.Arrow.To)
	for i := range pc.Edges {
		assert.Equal(t, SeamEdge, pc.Edges[i].Role)
		assert.True(t, pc.Edges[i].Free)
	}
}

func TestAPlainPieceOnTheFoldIsAHalf(t *testing.T) {
	pc, err := Plain{Name: "gore", Width: 30, Height: 50, Allowance: 6, Fold: true, Arrow: MostStretch, Across: true}.Piece()
	require.NoError(t, err)
	require.NoError(t, Pattern{Pieces: []Piece{pc}}.Validate())
	fold := pc.Fold()
	require.NotNil(t, fold)
	assert.Equal(t, "fold", fold.Name)
	assert.Zero(t, fold.Allowance)
	cut, err := pc.CutLine()
	require.NoError(t, err)
	assert.InDelta(t, (30+6)*(50+12), cut.Area(), 1e-6)
	assert.Equal(t, Arrow{Kind: MostStretch, From: geom.Pt(6, 25), To: geom.Pt(24, 25)}, pc.Arrow)
}

func TestAPlainPieceRefuses(t *testing.T) {
	for want, r := range map[string]Plain{
		"has no name":                {Width: 10, Height: 10},
		"blanks at its ends":         {Name: "a ", Width: 10, Height: 10},
		"0 mm wide; between 1":       {Name: "a", Height: 10},
		"6000 mm high":               {Name: "a", Width: 10, Height: 6000},
		"an allowance of -1 mm on a": {Name: "a", Width: 10, Height: 10, Allowance: -1},
		"cannot be a pair as well":   {Name: "a", Width: 10, Height: 10, Fold: true, Cut: Cut{Pair: true}},
	} {
		_, err := r.Piece()
		require.ErrorContains(t, err, want)
	}
}
