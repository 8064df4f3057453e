package step

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

// halfFront is half a piece as it comes in from a drawing: nothing is said of its edges.
func halfFront(t *testing.T, pair bool) pattern.Pattern {
	t.Helper()
	pc, err := pattern.Plain{Name: "front", Width: 40, Height: 60, Allowance: 6, Cut: pattern.Cut{Pair: pair}}.Piece()
	require.NoError(t, err)
	return pattern.Pattern{Pieces: []pattern.Piece{pc}}
}

func TestAnEdgeIsSaidToLieOnTheFoldAndThePieceUnfolds(t *testing.T) {
	for _, pair := range []bool{false, true} {
		p := halfFront(t, pair)
		out := apply(t, p, &Allow{Piece: "front", Edge: "left", Role: pattern.Fold})
		front := out.Pattern.Piece("front")
		require.Equal(t, "left", front.Fold().Name)
		require.Zero(t, front.Fold().Allowance)
		require.False(t, front.Cut.Pair)
		require.Equal(t, pair, len(out.Notes) == 1, "that it is no pair any more is told: %v", out.Notes)
		require.Equal(t, 6.0, out.Figures["before"])
		cut, err := front.CutLine()
		require.NoError(t, err)
		require.InDelta(t, (40+6)*(60+12), cut.Area(), 1e-6, "nothing is cut along the fold")
		for _, name := range []string{"bottom", "right", "top"} {
			require.Equal(t, p.Pieces[0].Edge(name).Path, front.Edge(name).Path)
		}
		whole := apply(t, out.Pattern, &Unfold{Piece: "front"})
		require.InDelta(t, 2*40*60, whole.Pattern.Piece("front").Area(), 1e-6)
	}
}

func TestTheFoldIsRefusedWhereItCannotLie(t *testing.T) {
	fold := func(edge string) *Allow { return &Allow{Piece: "front", Edge: edge, Role: pattern.Fold} }
	p := halfFront(t, false)
	own := apply(t, p, &Sew{Name: "side", A: []pattern.Part{pattern.Whole("front", "left")}, B: []pattern.Part{pattern.Whole("front", "right").Backwards()}}).Pattern
	require.Contains(t, refused(t, own, fold("left")), `sewn in seam "side" and cannot lie on the fold; take the seam apart first`)

	notched := apply(t, p, &Notch{Act: AddNotch, Piece: "front", Name: "middle", Edge: "left", Share: Lit(0.5)}).Pattern
	require.Contains(t, refused(t, notched, fold("left")), "take them away first")

	folded := apply(t, p, fold("left")).Pattern
	require.Contains(t, refused(t, folded, fold("left")), "already")
	require.Contains(t, refused(t, folded, fold("right")), "a piece has one fold; unfold the piece first")
	require.Contains(t, refused(t, p, &Allow{Piece: "front", Edges: []string{"left", "right"}, Role: pattern.Fold}), "one fold; choose one")
	require.Contains(t, refused(t, p, &Allow{Piece: "front", Edge: "left", Role: pattern.Fold, Width: new(Lit(3))}), "leave the width out")
	require.Contains(t, refused(t, patterntest.Sample(), &Allow{Piece: "band", Edge: "hem", Role: pattern.Fold}), "cannot lie on the fold")

	bent := p.Clone()
	bent.Pieces[0].Edges[0].Path = geom.Must(geom.NewPath(geom.Curve(geom.Pt(0, 60), geom.Pt(2, 40), geom.Pt(2, 20), geom.Pt(0, 0))))
	require.Contains(t, refused(t, bent, fold("left")), "rule it straight first")
	// One that a drawing divided, or drew as a curve without a bow, is straight enough.
	bent.Pieces[0].Edges[0].Path = geom.Must(geom.NewPath(geom.Straight(geom.Pt(0, 60), geom.Pt(0.004, 30)), geom.Straight(geom.Pt(0.004, 30), geom.Pt(0, 0))))
	require.True(t, apply(t, bent, fold("left")).Pattern.Piece("front").Fold().Path.IsStraight())
}

func TestAFoldIsMadeASeamAgain(t *testing.T) {
	p := apply(t, halfFront(t, false), &Allow{Piece: "front", Edge: "left", Role: pattern.Fold}).Pattern
	out := apply(t, p, &Allow{Piece: "front", Edge: "left", Role: pattern.SeamEdge})
	front := out.Pattern.Piece("front")
	require.Nil(t, front.Fold())
	require.Equal(t, pattern.Cut{Count: 1, Pair: true}, front.Cut, "both halves are needed")
	require.Equal(t, 6.0, front.Edge("left").Allowance, "as the other seams")
	require.Zero(t, out.Figures["before"])
	require.Equal(t, []string{
		"Front is not unfolded any more: it was half of one piece and is cut as a pair.",
		"Left of front has an allowance of 6 mm, as its longest seam has.",
		"Left of front is sewn to nothing yet; sew it to its mirror image, where both halves meet.",
	}, out.Notes)
	cut, err := front.CutLine()
	require.NoError(t, err)
	require.InDelta(t, (40+12)*(60+12), cut.Area(), 1e-6)

	// It is sewn to its mirror image, and can be laid on the fold again once that is taken apart.
	image := pattern.Whole("front", "left")
	image.Mirrored = true
	sewn := apply(t, out.Pattern, &Sew{Name: "centre", A: []pattern.Part{pattern.Whole("front", "left")}, B: []pattern.Part{image}}).Pattern
	apart := apply(t, sewn, &Sew{Name: "centre", Apart: true}).Pattern
	require.NotNil(t, apply(t, apart, &Allow{Piece: "front", Edge: "left", Role: pattern.Fold}).Pattern.Piece("front").Fold())

	wide := apply(t, p, &Allow{Piece: "front", Edge: "left", Role: pattern.Hem, Width: new(Lit(12))})
	require.Equal(t, 12.0, wide.Pattern.Piece("front").Edge("left").Allowance)
	require.Len(t, wide.Notes, 1)
	require.Contains(t, refused(t, p, &Allow{Piece: "front", Edge: "left", Width: new(Lit(6))}), "lies on the fold, where there is no allowance")
	require.Contains(t, refused(t, p, &Allow{Piece: "front", Edge: "left", Role: "ribbon"}), "there is no role")
	require.Contains(t, refused(t, p, &Allow{Piece: "front", Edge: "left", Role: pattern.DartEdge}), "cannot be made a dart")
}
