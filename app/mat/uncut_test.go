package mat

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/geom"
	"truemat/ops/pattern"
)

// slotted is a piece with a slot narrower than twice its allowance, which so
// has no cut line.
func slotted(allowance float64) pattern.Piece {
	pc := pattern.Piece{Name: "slotted", Pose: geom.Identity(), Arrow: pattern.Arrow{From: geom.Pt(15, 20), To: geom.Pt(15, 60), Kind: pattern.Grain}}
	for _, e := range []struct {
		name string
		role pattern.Role
		pts  []geom.Point
	}{
		{"hem", pattern.Hem, []geom.Point{geom.Pt(0, 0), geom.Pt(100, 0)}},
		{"side", pattern.SeamEdge, []geom.Point{geom.Pt(100, 0), geom.Pt(100, 80)}},
		{"top", pattern.Neckline, []geom.Point{geom.Pt(100, 80), geom.Pt(54, 80)}},
		{"slot", pattern.SeamEdge, []geom.Point{geom.Pt(54, 80), geom.Pt(54, 20), geom.Pt(46, 20), geom.Pt(46, 80)}},
		{"rest", pattern.Neckline, []geom.Point{geom.Pt(46, 80), geom.Pt(0, 80)}},
		{"front", pattern.SeamEdge, []geom.Point{geom.Pt(0, 80), geom.Pt(0, 0)}},
	} {
		pc.Edges = append(pc.Edges, pattern.Edge{Name: e.name, Role: e.role, Allowance: allowance, Path: geom.Must(geom.Polyline(e.pts...))})
	}
	return pc
}

func TestPieceWithoutCutLineShowsWhere(t *testing.T) {
	pc := slotted(6)
	_, err := pc.CutLine()
	var none *pattern.NoCutLine
	require.ErrorAs(t, err, &none)
	require.Equal(t, "slot", none.Edge)
	for name, palette := range map[string]Palette{"no-cut-line.png": Light(), "no-cut-line-dark.png": Dark()} {
		m, _, capture := shown(t, 480, 360, 1)
		m.SetPalette(palette)
		m.Lay(View{Pieces: []pattern.Piece{pc}})
		require.Equal(t, 3, m.still[0].uncut)
		golden(t, name, capture())
	}

	m, _, capture := shown(t, 480, 360, 1)
	m.Lay(View{Pieces: []pattern.Piece{slotted(3)}})
	capture()
	assert.Equal(t, -1, m.still[0].uncut)
	assert.NotNil(t, m.still[0].cut)
}
