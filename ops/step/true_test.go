package step

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

// gabled are two boxes whose hems rise towards their common seam, by 4 on 100
// on the left and 6 on 80 on the right, the right one turned on the table.
func gabled() pattern.Pattern {
	p := twoBoxes()
	p.Pieces[0] = corners("left", []geom.Point{geom.Pt(0, 0), geom.Pt(100, 4), geom.Pt(100, 60), geom.Pt(0, 60)}, "hem", "side", "top", "front")
	p.Pieces[1] = corners("right", []geom.Point{geom.Pt(0, 4), geom.Pt(80, -2), geom.Pt(80, 60), geom.Pt(0, 60)}, "hem", "side", "top", "front")
	m := geom.Turn(1.1, geom.Pt(30, -20))
	right := &p.Pieces[1]
	for i := range right.Edges {
		right.Edges[i].Path = right.Edges[i].Path.Transform(m)
	}
	for i := range p.Pieces {
		p.Pieces[i].Edge("hem").Role = pattern.Hem
	}
	p.Pieces[0].Notches = []pattern.Notch{{Name: "mid", Edge: "side", Along: pattern.Along{MM: 30}}, {Name: "low", Edge: "hem", Along: pattern.Along{MM: 30}}}
	return p
}

func gable() float64 { return math.Atan2(4, 100) + math.Atan2(6, 80) }

func TestTrueBlendsAcrossASeam(t *testing.T) {
	p := gabled()
	out := applied(t, p, &True{Seam: "join", End: pattern.Start, Reach: exactly(25)})
	assert.InDelta(t, -gable()*180/math.Pi, out.Figures["kink_before"], 1e-9)
	assert.InDelta(t, 0, out.Figures["kink_after"], 1e-6)
	d := out.Figures["seam_change"]
	assert.Greater(t, d, 0.5, "the notch of the gable is filled in, which lengthens the seam")
	assert.InDelta(t, 56+d, lengthOf(t, out.Pattern, "left", "side"), 1e-9)
	assert.InDelta(t, 56+d, lengthOf(t, out.Pattern, "right", "front"), 1e-9)
	assert.InDelta(t, d, out.Figures["moved"], 0.05)
	assert.Contains(t, out.Notes[len(out.Notes)-1], "mm longer.")
	again := applied(t, out.Pattern, &True{Seam: "join", End: pattern.Start, Reach: exactly(25)})
	assert.Less(t, again.Figures["moved"], 0.05)
	assert.Empty(t, again.Notes, "nothing that need be told")
	assert.NotContains(t, out.Figures, "partner_difference.join")
	assert.Equal(t, p.Seams, out.Pattern.Seams)
	assert.Equal(t, p.Lines, out.Pattern.Lines)
	for _, s := range []float64{0, 40, 70} {
		assert.LessOrEqual(t, p.Piece("left").Edge("hem").Path.At(s).Dist(out.Pattern.Piece("left").Edge("hem").Path.At(s)), 1e-9)
	}
	assert.Less(t, sharpest(out.Pattern.Piece("left").Edge("hem").Path), 1e-6)
	assert.Less(t, sharpest(out.Pattern.Piece("right").Edge("hem").Path), 1e-6)
	// Notches of the seam stay where they were.
	assert.LessOrEqual(t, notchAt(t, p, "left", "mid").Dist(notchAt(t, out.Pattern, "left", "mid")), 1e-9)
	assert.LessOrEqual(t, notchAt(t, p, "left", "low").Dist(notchAt(t, out.Pattern, "left", "low")), 1e-9)
	sameExcept(t, p, out.Pattern, "left.hem", "left.side", "right.hem", "right.front")
	// Checked independently: the hem line laid out over its seams.
	lay, err := out.Pattern.LayChain(out.Pattern.Line("hem line").Parts)
	require.NoError(t, err)
	assert.InDelta(t, 0, lay.Junctions[0].Kink.Degrees(), 1e-6)
	assert.InDelta(t, 0, lay.Junctions[0].Gap, 1e-9)
}

func TestTrueReachOfItsOwnForASide(t *testing.T) {
	p := gabled()
	out := applied(t, p, &True{Seam: "join", End: pattern.Start, ReachA: exactly(10), ReachB: exactly(40)})
	assert.InDelta(t, 0, out.Figures["kink_after"], 1e-6)
	assert.LessOrEqual(t, p.Piece("left").Edge("hem").Path.At(88).Dist(out.Pattern.Piece("left").Edge("hem").Path.At(88)), 1e-9)
	assert.Contains(t, refusal(t, p, &True{Seam: "join", End: pattern.Start, ReachA: exactly(10)}), "hem of right")
}

func TestTrueLevelsLaceEdges(t *testing.T) {
	p := gabled()
	for i := range p.Pieces {
		p.Pieces[i].Edge("hem").Role = pattern.LaceEdge
	}
	out := applied(t, p, &True{Seam: "join", End: pattern.Start})
	assert.InDelta(t, 0, out.Figures["kink_after"], 1e-6)
	assert.True(t, out.Pattern.Piece("left").Edge("hem").Path.IsStraight())
	assert.True(t, out.Pattern.Piece("right").Edge("hem").Path.IsStraight())
	// Chord from (0, 0) to (180, −2): at 100 it is −1.11 high, the corner was 4 high.
	d := 4 + 2.0*100/180
	assert.InDelta(t, d, out.Figures["seam_change"], 1e-9)
	assert.InDelta(t, 56+d, lengthOf(t, out.Pattern, "left", "side"), 1e-9)
	assert.InDelta(t, 56+d, lengthOf(t, out.Pattern, "right", "front"), 1e-9)
	assert.InDelta(t, d, out.Figures["moved"], 1e-9)
}

func TestTrueHoldsALaceEdge(t *testing.T) {
	p := gabled()
	p.Piece("left").Edge("hem").Role = pattern.LaceEdge
	out := applied(t, p, &True{Seam: "join", End: pattern.Start, Reach: exactly(30)})
	assert.InDelta(t, 0, out.Figures["kink_after"], 1e-6)
	assert.Zero(t, out.Figures["seam_change"])
	sameExcept(t, p, out.Pattern, "right.hem")

	// At a fold a lace edge keeps square, and the other lace edge follows it.
	p.Piece("right").Edge("hem").Role = pattern.LaceEdge
	front := p.Piece("left").Edge("front")
	front.Role, front.Allowance = pattern.Fold, 0
	out = applied(t, p, &True{Seam: "join", End: pattern.Start})
	assert.InDelta(t, 0, out.Figures["kink_after"], 1e-6)
	assert.True(t, out.Pattern.Piece("right").Edge("hem").Path.IsStraight())
	// The hem of the right runs on at 4 on 100: its far end rises to 4 + 3.2.
	assert.InDelta(t, 62-(4+3.2+2), lengthOf(t, out.Pattern, "right", "side"), 1e-9)
	assert.InDelta(t, -(4 + 3.2 + 2), out.Figures["far_change"], 1e-9)
	assert.InDelta(t, 4+3.2+2, out.Figures["moved"], 1e-9, "the far end moves farthest")
	assert.Contains(t, out.Notes[len(out.Notes)-1], "moved by 9.2 mm at most; at the far end of hem of right the edge that meets it is 9.2 mm shorter.")
	sameExcept(t, p, out.Pattern, "right.hem", "right.side")
	// Held the other way round the fold would not be met squarely.
	p.Piece("left").Edge("hem").Path = geom.Must(geom.Polyline(geom.Pt(0, 4), geom.Pt(100, 4)))
	p.Piece("left").Edge("front").Path = geom.Must(geom.Polyline(geom.Pt(0, 60), geom.Pt(0, 4)))
	assert.Contains(t, refusal(t, p, &True{Seam: "join", End: pattern.Start, Hold: "b"}), "off square")
	assert.Contains(t, refusal(t, p, &True{Seam: "join", End: pattern.Start, Hold: "c"}), `"a", "b" or "corner"`)
}

func TestTrueAgainstAMirroredHand(t *testing.T) {
	// The hem of a half back meets its own mirror image at the centre seam.
	p := gabled()
	p.Seams = append(p.Seams, pattern.Seam{Name: "centre",
		A: pattern.Side{pattern.Whole("right", "side")},
		B: pattern.Side{{Piece: "right", Edge: "side", Mirrored: true, To: 1}}})
	out := applied(t, p, &True{Seam: "centre", End: pattern.Start, Reach: exactly(20)})
	assert.InDelta(t, -2*math.Atan2(6, 80)*180/math.Pi, math.Abs(out.Figures["kink_before"])*-1, 1e-9)
	assert.InDelta(t, 0, out.Figures["kink_after"], 1e-4)
	assert.Equal(t, p.Seams, out.Pattern.Seams)
	sameExcept(t, p, out.Pattern, "right.hem", "right.side")
}

func TestTrueRefuses(t *testing.T) {
	p := gabled()
	assert.Contains(t, refusal(t, p, &True{Seam: "joint", End: pattern.Start}), `"join"`)
	assert.Contains(t, refusal(t, p, &True{Seam: "join", End: "top"}), "end")
	assert.Contains(t, refusal(t, p, &True{Seam: "join", End: pattern.Start}), "reach")
	assert.Contains(t, refusal(t, p, &True{Seam: "join", End: pattern.Start, Reach: exactly(-1)}), "above 0")
	p.Seams[0].A[0].From = 0.25
	assert.Contains(t, refusal(t, p, &True{Seam: "join", End: pattern.Start, Reach: exactly(9)}), "inside side of left")
	p.Seams[0].A[0].From = 0
	p.Seams[0].B[0] = p.Seams[0].B[0].Backwards()
	assert.Contains(t, refusal(t, p, &True{Seam: "join", End: pattern.Start, Reach: exactly(9)}), "degrees")
}

func TestTrueAnyFrameHem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, name := frame(t)
		seam := name(patterntest.SideSeam)
		cradle, band, side, hem := name(patterntest.Cradle), name(patterntest.Band), name("side"), name("hem")
		// Give the hem a kink first: add to the cradle alone, at the end of the seam's edge.
		bump := rapid.Float64Range(-3, 3).Draw(t, "bump")
		p = applied(t, p, &Add{EdgeEnd: endOf(band, hem, pattern.Start), Amount: Lit(bump)}).Pattern
		reach := rapid.Float64Range(15, 40).Draw(t, "reach")
		out := applied(t, p, &True{Seam: seam, End: pattern.Start, Reach: exactly(reach)})
		require.Less(t, math.Abs(out.Figures["kink_after"]), 0.05)
		d := out.Figures["seam_change"]
		require.InDelta(t, lengthOf(t, p, cradle, side)+d, lengthOf(t, out.Pattern, cradle, side), 1e-8)
		require.InDelta(t, lengthOf(t, p, band, side)+d, lengthOf(t, out.Pattern, band, side), 1e-8)
		require.Equal(t, p.Seams, out.Pattern.Seams)
		require.Equal(t, p.Lines, out.Pattern.Lines)
		require.LessOrEqual(t, notchAt(t, p, cradle, name("side middle")).Dist(notchAt(t, out.Pattern, cradle, name("side middle"))), 1e-8)
		sameExcept(t, p, out.Pattern, cradle+"."+hem, cradle+"."+side, band+"."+hem, band+"."+side)
	})
}

func TestTrueTellsAReachBeyondTheEdge(t *testing.T) {
	out := applied(t, gabled(), &True{Seam: "join", End: pattern.Start, ReachA: exactly(25), ReachB: exactly(300)})
	assert.Contains(t, strings.Join(out.Notes, " "), "A reach of 300 mm goes beyond hem of right: it is altered to its very end, and moves by ")
	out = applied(t, gabled(), &True{Seam: "join", End: pattern.Start, Reach: exactly(25)})
	assert.NotContains(t, strings.Join(out.Notes, " "), "beyond")
	assert.Contains(t, refused(t, gabled(), &True{Seam: "join", End: pattern.Start, Reach: exactly(5000)}), "longer than any edge")
}

// A refusal tells what this step can do about it, and nothing of other steps.
func TestTrueTellsItsOwnWayOut(t *testing.T) {
	p := gabled()
	p.Piece("left").Edge("hem").Role = pattern.LaceEdge
	front := p.Piece("left").Edge("front")
	front.Role, front.Allowance = pattern.Fold, 0
	p.Piece("left").Edge("hem").Path = geom.Must(geom.Polyline(geom.Pt(0, 4), geom.Pt(100, 4)))
	p.Piece("left").Edge("front").Path = geom.Must(geom.Polyline(geom.Pt(0, 60), geom.Pt(0, 4)))
	held := &True{Seam: "join", End: pattern.Start, Reach: exactly(20), Hold: "b"}
	text := refusal(t, p, held)
	assert.Contains(t, text, "hem of left is a lace edge and stays straight: let it stay as it is, so that hem of right runs on from it")
	assert.NotContains(t, text, "add")
	sides, err := held.Sides(p)
	require.NoError(t, err)
	assert.Equal(t, [2]Trued{{Edge: "hem", Lace: true}, {Edge: "hem", Stays: true}}, sides)
	sides, err = (&True{Seam: "join", End: pattern.Start}).Sides(p)
	require.NoError(t, err)
	assert.Equal(t, [2]Trued{{Edge: "hem", Lace: true, Stays: true}, {Edge: "hem", Blended: true}}, sides)
}
