package render

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/pattern"
)

// dartBox is 100 by 80 mm with 10 mm around it and a dart in its hem whose
// cloth stays folded, 20 wide and 50 deep.
func dartBox() pattern.Piece {
	pts := []geom.Point{geom.Pt(0, 0), geom.Pt(40, 0), geom.Pt(50, 50), geom.Pt(60, 0), geom.Pt(100, 0), geom.Pt(100, 80), geom.Pt(0, 80)}
	pc := pattern.Piece{Name: "front", Arrow: pattern.Arrow{Kind: pattern.Grain, From: geom.Pt(80, 20), To: geom.Pt(80, 60)}, Cut: pattern.Cut{Count: 1}, Pose: geom.Identity()}
	for i, name := range []string{"hem", "d first leg", "d second leg", "hem after d", "side", "top", "front"} {
		e := pattern.Edge{Name: name, Role: pattern.SeamEdge, Allowance: 10, Path: geom.Must(geom.Polyline(pts[i], pts[(i+1)%len(pts)]))}
		if strings.HasPrefix(name, "d ") {
			e.Role, e.Allowance = pattern.DartEdge, 0
		}
		pc.Edges = append(pc.Edges, e)
	}
	return pc
}

func named(s Scene, kind Kind, name string) []Figure {
	return slices.DeleteFunc(ofKind(s, kind), func(f Figure) bool { return f.Name != name })
}

// A dart shows its legs as sew lines, its fold from the middle of its mouth to
// its point, a ring there, and the words what is done with it; drawn as it is or
// turned over, wherever the outline starts.
func TestADartIsDrawnToBeFoldedAndSewn(t *testing.T) {
	over, err := geom.Mirror(geom.Point{}, geom.Pt(0, 1))
	require.NoError(t, err)
	for _, m := range []geom.Motion{geom.Identity(), over} {
		pc := dartBox()
		for range pc.Edges {
			l, err := onePiece(pc, m, Options{})
			require.NoError(t, err)
			s := sceneOf(l)
			require.Len(t, named(s, SewLine, "d first leg"), 1)
			require.Len(t, named(s, SewLine, "d second leg"), 1)
			folds := named(s, FoldLine, "dart")
			require.Len(t, folds, 1)
			require.InDelta(t, 0, folds[0].Path.Start().Dist(m.Apply(geom.Pt(50, 0))), 1e-9)
			require.InDelta(t, 0, folds[0].Path.End().Dist(m.Apply(geom.Pt(50, 50))), 1e-9)
			require.Len(t, named(s, InnerLine, "dart"), 1)
			said := 0
			for _, text := range texts(s) {
				if strings.Contains(text, dartWords) {
					said++
				}
			}
			require.Equal(t, 1, said, texts(s))
			pc.Edges = append(pc.Edges[1:], pc.Edges[0])
		}
	}
}

func TestAPlanShowsADartAndWritesItsNameBesideIt(t *testing.T) {
	pc := dartBox()
	cut, err := pc.CutLine()
	require.NoError(t, err)
	l, err := LaidPiece(&pc, geom.Identity(), cut, "front")
	require.NoError(t, err)
	s := sceneOf(l)
	require.Len(t, ofKind(s, SewLine), 7)
	require.Len(t, named(s, FoldLine, "dart"), 1)
	small := Miniature(l, geom.Identity(), 0.4, geom.Point{})
	require.NotEmpty(t, small.Labels)
	var lines []geom.Point
	for _, f := range small.Figures {
		if f.Kind == SewLine || f.Kind == FoldLine || f.Kind == ArrowLine {
			require.NotZero(t, f.Pen.Width, f.Kind)
			lines = append(lines, sampled(f.Path)...)
		}
	}
	for _, label := range small.Labels {
		q := label.quad(0)
		require.False(t, slices.ContainsFunc(lines, geom.BoxOf(q[:]...).Contains), "%s lies on a line", label.Text)
	}
}

// The legend tells the sign where there is a dart, and loses no other for it.
func TestTheLegendTellsADartWhereThereIsOne(t *testing.T) {
	box := geom.BoxOf(geom.Pt(0, 0), geom.Pt(95, 92))
	with, without := texts(sceneOf(legend(box, false, true))), texts(sceneOf(legend(box, false, false)))
	require.Len(t, with, len(without)+1)
	require.Contains(t, strings.Join(with, "\n"), dartWords)
	require.NotContains(t, strings.Join(without, "\n"), dartWords)
	require.Contains(t, with, "apex")
}

// Sizes whose darts lie nearly on each other have other dashes there.
func TestSizesTellTheirDartsApart(t *testing.T) {
	pc := dartBox()
	leg := shapeEdge{role: pattern.DartEdge}
	v := version{piece: pc}
	_, v.sew, _ = nestPens(0)
	w := v
	_, w.sew, _ = nestPens(1)
	w.nth = 1
	require.NotEqual(t, v.leg(leg).Dash, w.leg(leg).Dash)
	require.Equal(t, w.sew, w.leg(shapeEdge{role: pattern.SeamEdge}))
}
