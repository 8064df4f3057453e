package pattern_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/geom"
	"truemat/ops/pattern"
)

// darted is a box of 100 by 80 with 10 mm around it and a dart in its hem, 20
// wide and 50 deep.
func darted() pattern.Pattern {
	pts := []geom.Point{geom.Pt(0, 0), geom.Pt(40, 0), geom.Pt(50, 50), geom.Pt(60, 0), geom.Pt(100, 0), geom.Pt(100, 80), geom.Pt(0, 80)}
	pc := pattern.Piece{Name: "front", Arrow: pattern.Arrow{Kind: pattern.Grain, To: geom.Pt(0, 10)}, Cut: pattern.Cut{Count: 1}, Pose: geom.Identity()}
	for i, name := range []string{"hem", "in", "out", "hem after", "side", "top", "front"} {
		e := pattern.Edge{Name: name, Role: pattern.SeamEdge, Allowance: 10, Path: geom.Must(geom.Polyline(pts[i], pts[(i+1)%len(pts)]))}
		if name == "in" || name == "out" {
			e.Role, e.Allowance = pattern.DartEdge, 0
		}
		pc.Edges = append(pc.Edges, e)
	}
	return pattern.Pattern{
		Pieces: []pattern.Piece{pc},
		Seams:  []pattern.Seam{{Name: "dart", A: pattern.Side{pattern.Whole("front", "in")}, B: pattern.Side{pattern.Whole("front", "out").Backwards()}}},
		Lines:  []pattern.Line{{Name: "hem", Kind: pattern.LineHem, Parts: []pattern.Part{pattern.Whole("front", "hem"), pattern.Whole("front", "hem after")}}},
	}
}

// The cloth of a dart is folded, not cut: the cut line is that of the box
// without it, wherever the outline starts.
func TestTheCutLineGoesOverADart(t *testing.T) {
	p := darted()
	require.NoError(t, p.Validate())
	for range p.Pieces[0].Edges {
		pc := &p.Pieces[0]
		cut, err := pc.CutLine()
		require.NoError(t, err)
		require.InDelta(t, 120*100, cut.Area(), 1e-6)
		require.Empty(t, cut.SelfCrossings())
		edges, err := pc.CutEdges()
		require.NoError(t, err)
		total := 0.0
		for i, e := range edges {
			total += e.Length()
			switch pc.Edges[i].Name {
			case "in":
				require.InDelta(t, 20, e.Length(), 1e-6, "the way over the mouth")
			case "out":
				require.True(t, e.Empty())
			}
		}
		require.InDelta(t, 440, total, 1e-6)
		pc.Edges = append(pc.Edges[1:], pc.Edges[0])
	}
	p.Pieces[0].Edge("in").Allowance = 5
	require.ErrorContains(t, p.Validate(), "folded")
}

// Laid closed, the hem runs on over the dart without a step; it turns there by
// the dart's angle.
func TestALineIsLaidOverAClosedDart(t *testing.T) {
	p := darted()
	lay, err := p.LayChain(p.Lines[0].Parts)
	require.NoError(t, err)
	require.Len(t, lay.Junctions, 1)
	require.Equal(t, "dart", lay.Junctions[0].Seam)
	require.InDelta(t, 0, lay.Junctions[0].Gap, 1e-9)
	require.InDelta(t, 2*math.Atan2(10, 50), math.Abs(float64(lay.Junctions[0].Kink)), 1e-9)
	seam, ok := p.Dart(&p.Pieces[0], 1)
	require.True(t, ok)
	require.Equal(t, "dart", seam)
	_, ok = p.Dart(&p.Pieces[0], 0)
	require.False(t, ok)
}

// The fold of a dart halves the angle between its legs; one with an allowance
// is cut.
func TestAFoldedDartIsToldByItsLegs(t *testing.T) {
	p := darted()
	d, ok := p.FoldedDart(p.Seams[0])
	require.True(t, ok)
	require.Equal(t, [4]string{"hem", "in", "out", "hem after"}, [4]string{d.Before, d.First, d.Second, d.After})
	point, mouth := d.Fold()
	require.InDelta(t, 0, point.Dist(geom.Pt(50, 50)), 1e-9)
	require.InDelta(t, 0, mouth.Dist(geom.Pt(50, 0)), 1e-9)
	require.InDelta(t, 10, d.Deep(), 1e-9)
	p.Seams[0].A, p.Seams[0].B = p.Seams[0].B, p.Seams[0].A
	swapped, ok := p.FoldedDart(p.Seams[0])
	require.True(t, ok)
	require.Equal(t, d.First, swapped.First)
	for _, name := range []string{"in", "out"} {
		e := p.Pieces[0].Edge(name)
		e.Role, e.Allowance = pattern.SeamEdge, 6
	}
	_, ok = p.FoldedDart(p.Seams[0])
	require.False(t, ok, "its cloth is cut")
}

// An edge is sewn as long as its stretches on both sides of a dart.
func TestAnEdgeIsAsLongAsItsStretchesAcrossADart(t *testing.T) {
	p := darted()
	for range p.Pieces[0].Edges {
		for _, edge := range []string{"hem", "hem after"} {
			mm, edges := p.AsSewn("front", edge)
			require.InDelta(t, 80, mm, 1e-9)
			require.Equal(t, []string{"hem", "hem after"}, edges)
		}
		mm, edges := p.AsSewn("front", "side")
		require.InDelta(t, 80, mm, 1e-9)
		require.Equal(t, []string{"side"}, edges)
		p.Pieces[0].Edges = append(p.Pieces[0].Edges[1:], p.Pieces[0].Edges[0])
	}
}
