package step

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
	"truemat/ops/walk"
)

// eased are two boxes whose common seam is 60 mm long on the left and 57 on
// the right, walked from the bottom, with a notch in the middle of the left
// and one of the right at 25.
func eased() pattern.Pattern {
	p := twoBoxes()
	p.Pieces[0] = corners("left", []geom.Point{geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 60), geom.Pt(0, 60)}, "hem", "side", "top", "front")
	p.Pieces[1] = corners("right", []geom.Point{geom.Pt(0, 0), geom.Pt(80, 0), geom.Pt(80, 57), geom.Pt(0, 57)}, "hem", "side", "top", "front")
	p.Pieces[0].Notches = []pattern.Notch{{Name: "mid", Edge: "side", Along: pattern.Along{Share: 0.5}}, {Name: "high", Edge: "side", Along: pattern.Along{MM: 50}}}
	p.Pieces[1].Notches = []pattern.Notch{{Name: "mid", Edge: "front", Along: pattern.Along{From: pattern.End, MM: 25}}}
	return p
}

func atOn(t *testing.T, p pattern.Pattern, piece, notch string) float64 {
	t.Helper()
	n := p.Piece(piece).Notch(notch)
	require.NotNil(t, n, "%s has no notch %q", piece, notch)
	return n.At(p.Piece(piece).Edge(n.Edge).Length())
}

func TestWalkDropsNotchesWhereTheSidesMeet(t *testing.T) {
	p := eased()
	high := pattern.AtNotch("left", "high")
	out := applied(t, p, &Walk{Seam: "join", Drop: []Drop{
		{On: walk.B, Name: "ten", MM: exactly(10)},
		{On: walk.B, Spot: &high},
		{On: walk.A, Name: "rest", End: true, Cut: "double"},
	}})
	assert.InDelta(t, 57-10, atOn(t, out.Pattern, "right", "ten"), 1e-9)
	assert.InDelta(t, 57-50, atOn(t, out.Pattern, "right", "high"), 1e-9)
	assert.InDelta(t, 57, atOn(t, out.Pattern, "left", "rest"), 1e-9)
	assert.True(t, out.Pattern.Piece("left").Notch("rest").Double)
	assert.InDelta(t, 57-10, out.Figures["at_mm.ten"], 1e-9)
	assert.InDelta(t, 60, out.Figures["a_mm"], 1e-9)
	assert.InDelta(t, 57, out.Figures["b_mm"], 1e-9)
	assert.InDelta(t, 3, out.Figures["difference"], 1e-9)
	sameExcept(t, p, out.Pattern)

	// From the other end the notches fall 3 mm further down.
	out = applied(t, p, &Walk{Seam: "join", From: pattern.End, Drop: []Drop{{On: walk.B, Spot: &high}}})
	assert.InDelta(t, 10, atOn(t, out.Pattern, "right", "high"), 1e-9)
}

func TestWalkDropsAllThatHaveNoPartner(t *testing.T) {
	p := eased()
	out := applied(t, p, &Walk{Seam: "join", Drop: []Drop{{On: walk.B, All: true}}})
	assert.InDelta(t, 7, atOn(t, out.Pattern, "right", "high"), 1e-9)
	assert.Len(t, out.Pattern.Piece("right").Notches, 2)
	again := applied(t, out.Pattern, &Walk{Seam: "join", Drop: []Drop{{On: walk.B, All: true}}})
	assert.Equal(t, out.Pattern.Pieces, again.Pattern.Pieces)
	assert.Contains(t, again.Notes[0], "nothing was dropped")
}

func TestWalkFromChosenNotchesInBothDirections(t *testing.T) {
	p := eased()
	a, b := pattern.AtNotch("left", "mid"), pattern.AtNotch("right", "mid")
	out := applied(t, p, &Walk{Seam: "join", StartA: &a, StartB: &b, Drop: []Drop{{On: walk.A, Name: "on", MM: exactly(8)}, {On: walk.B, Name: "on", MM: exactly(8)}}})
	assert.InDelta(t, 38, atOn(t, out.Pattern, "left", "on"), 1e-9)
	assert.InDelta(t, 57-33, atOn(t, out.Pattern, "right", "on"), 1e-9)
	out = applied(t, p, &Walk{Seam: "join", From: pattern.End, StartA: &a, StartB: &b, Drop: []Drop{{On: walk.A, Name: "back", MM: exactly(8)}}})
	assert.InDelta(t, 22, atOn(t, out.Pattern, "left", "back"), 1e-9)
}

func TestEaseIsStatedForASeamAndBetweenNotches(t *testing.T) {
	p := eased()
	seam := func(p pattern.Pattern) (length, notches float64) {
		for _, c := range check.Run(p, p, check.Defaults()) {
			switch {
			case c.Seam == "join" && c.ID == check.SeamLength:
				length = c.Measured
			case c.Seam == "join" && c.ID == check.SeamNotches:
				notches = c.Measured
			}
		}
		return length, notches
	}
	p.Pieces[0].Notches = p.Pieces[0].Notches[:1] // mid at 30, across at 25
	length, notches := seam(p)
	assert.InDelta(t, 3, length, 1e-9)
	assert.InDelta(t, 5, notches, 1e-9)

	whole := applied(t, p, &Walk{Seam: "join", Ease: exactly(3)})
	length, notches = seam(whole.Pattern)
	assert.InDelta(t, 0, length, 1e-9)
	assert.InDelta(t, 30-1.5-25, notches, 1e-9)

	// All of it, and more, below the notch; the seam's ease follows.
	mid := pattern.NotchName{Piece: "right", Notch: "mid"} // of either side
	low := applied(t, whole.Pattern, &Walk{Seam: "join", Ease: exactly(5), Between: &Between{To: mid}})
	s := low.Pattern.Seam("join")
	assert.InDelta(t, 6.5, s.Ease, 1e-9)
	assert.Equal(t, []pattern.Stretch{{To: pattern.NotchName{Piece: "left", Notch: "mid"}, Ease: 5}}, s.Stretches)
	both := applied(t, low.Pattern, &Walk{Seam: "join", Ease: exactly(-2), Between: &Between{From: mid}})
	length, notches = seam(both.Pattern)
	assert.InDelta(t, 0, length, 1e-9)
	assert.InDelta(t, 0, notches, 1e-9)

	// Measured, kept in files, and cleared by the ease of the whole.
	m, err := pattern.MeasureSize(pattern.Size{Label: "one", Pattern: both.Pattern})
	require.NoError(t, err)
	require.Len(t, m.Seams[0].Stretches, 2)
	assert.InDelta(t, 30, m.Seams[0].Stretches[0].ToMM, 1e-9)
	b, err := json.Marshal(both.Pattern)
	require.NoError(t, err)
	var read pattern.Pattern
	require.NoError(t, json.Unmarshal(b, &read))
	assert.Equal(t, both.Pattern.Seams, read.Seams)
	for _, clear := range []Step{&Walk{Seam: "join", Ease: exactly(3)}, &Sew{Name: "join", Ease: exactly(3)}} {
		assert.Empty(t, applied(t, both.Pattern, clear).Pattern.Seam("join").Stretches)
	}

	// A notch that goes takes the statement along, and says so.
	gone := applied(t, both.Pattern, &Notch{Act: DeleteNotch, Piece: "left", Name: "mid"})
	assert.Empty(t, gone.Pattern.Seam("join").Stretches)
	assert.Len(t, gone.Notes, 2)
	assert.InDelta(t, 3, gone.Pattern.Seam("join").Ease, 1e-9)
}

func TestStatedEaseIsCarriedThroughTaping(t *testing.T) {
	p := patterntest.Sample()
	stated := applied(t, p, &Walk{Seam: patterntest.SideSeam, Ease: exactly(1), Between: &Between{
		To: pattern.NotchName{Piece: patterntest.Band, Notch: "side middle"},
	}})
	taped := applied(t, stated.Pattern, &Tape{
		A: EdgeEnd{Piece: patterntest.Bridge, Edge: patterntest.CradleSeam, End: pattern.End},
		B: EdgeEnd{Piece: patterntest.Cradle, Edge: patterntest.BridgeSeam, End: pattern.Start}, Name: "frame",
	})
	assert.Equal(t, []pattern.Stretch{{To: pattern.NotchName{Piece: "frame", Notch: "side middle"}, Ease: 1}}, taped.Pattern.Seam(patterntest.SideSeam).Stretches)
}

func TestSpreadingEaseEvenlyMovesTheNotches(t *testing.T) {
	p := eased()
	for _, on := range []walk.Hand{walk.A, walk.B} {
		out := applied(t, p, &Walk{Seam: "join", Ease: exactly(3), Spread: on})
		w, err := walk.Seam(out.Pattern, "join", walk.Way{})
		require.NoError(t, err)
		for _, r := range w.Table().Rows {
			assert.InDelta(t, 0, r.Difference, 1e-9, "%s to %s", r.From, r.To)
		}
		assert.Greater(t, out.Figures["moved"], 3.0)
	}
	out := applied(t, p, &Walk{Seam: "join", Spread: walk.A})
	assert.Equal(t, 0.0, out.Pattern.Piece("left").Notch("mid").MM, "a notch held as a share stays so")
	assert.InDelta(t, 25*60.0/57, atOn(t, out.Pattern, "left", "mid"), 1e-9)
	assert.InDelta(t, 50, atOn(t, out.Pattern, "left", "high"), 1e-9, "without a partner it stays")
}

func TestSpreadingEaseHoldsForRandomFrames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		on := rapid.SampledFrom([]walk.Hand{walk.A, walk.B}).Draw(t, "on")
		by := rapid.Float64Range(-6, 6).Draw(t, "by")
		p.Piece(patterntest.Band).Notch("side middle").MM += by
		first, err := walk.Seam(p, patterntest.SideSeam, walk.Way{})
		if err != nil {
			t.Fatal(err)
		}
		out, err := (&Walk{Seam: patterntest.SideSeam, Spread: on, Drop: []Drop{{On: on, Name: "new", MM: exactly(20)}, {On: on.Other(), All: true}}}).Apply(Input{Pattern: p})
		if err != nil {
			t.Fatal(err)
		}
		if err := out.Pattern.Validate(); err != nil {
			t.Fatal(err)
		}
		w, err := walk.Seam(out.Pattern, patterntest.SideSeam, walk.Way{})
		if err != nil {
			t.Fatal(err)
		}
		if first.A.Length != w.A.Length || len(w.Pairs) != 2 || len(w.Unmatched()) != 0 {
			t.Fatalf("%v", w.Pairs)
		}
		for _, pr := range w.Pairs {
			if d := pr.A - pr.B; d > 1e-9 || d < -1e-9 {
				t.Fatalf("notches %g and %g do not meet", pr.A, pr.B)
			}
		}
	})
}

func TestTwoEdgesWithoutASeamAreWalked(t *testing.T) {
	p := eased()
	p.Seams = nil
	// A line runs on from the one to the other: there they share a start.
	w := &Walk{
		A: []pattern.Part{pattern.Whole("left", "top")}, B: []pattern.Part{pattern.Whole("right", "top").Backwards()},
		Drop: []Drop{{On: walk.A, Name: "where right ends", End: true}},
	}
	out := applied(t, p, w)
	assert.InDelta(t, 80, atOn(t, out.Pattern, "left", "where right ends"), 1e-9)

	w.A[0], w.B[0] = w.A[0].Backwards(), w.B[0].Backwards()
	assert.Contains(t, refusal(t, p, w), "the runs meet at the start of top of left and the end of top of right: start from there")
	p.Lines = nil
	assert.Contains(t, refusal(t, p, w), "has no shared start: no seam or line joins the end of top of left to the start of top of right")

	// Places that are laid on each other are a start as well,
	a, b := pattern.AtEnd("left", "top", pattern.End), pattern.AtEnd("right", "top", pattern.Start)
	w.StartA, w.StartB = &a, &b
	assert.InDelta(t, 20, atOn(t, applied(t, p, w).Pattern, "left", "where right ends"), 1e-9)
	// and so are ends that lie on each other on the mat,
	w.StartA, w.StartB = nil, nil
	onto := p.Piece("left").Edge("top").Path.End().Sub(p.Piece("right").Edge("top").Path.Start())
	p.Piece("right").Pose = geom.Shift(onto)
	assert.InDelta(t, 20, atOn(t, applied(t, p, w).Pattern, "left", "where right ends"), 1e-9)
	w.B[0].Mirrored = true
	assert.Contains(t, refusal(t, p, w), "no shared start", "the mirrored hand does not lie there")
	// and the corner of a piece.
	w.A, w.B = []pattern.Part{pattern.Whole("left", "side").Backwards()}, []pattern.Part{pattern.Whole("left", "top")}
	w.Drop = []Drop{{On: walk.A, Name: "x", MM: exactly(9)}}
	assert.NotNil(t, applied(t, p, w).Pattern.Piece("left").Notch("x"))
}

// Told of a pattern the sides are named by their pieces.
func TestAWalkIsToldWithThePiecesOfItsSides(t *testing.T) {
	p := twoBoxes()
	p.Seams[0].Ease = 0
	w := &Walk{Seam: p.Seams[0].Name, Drop: []Drop{{On: walk.A, Name: "x", MM: num(10)}, {On: walk.B, Name: "y", MM: num(10)}}}
	a, b := walk.PieceWords(p.Seams[0].A), walk.PieceWords(p.Seams[0].B)
	require.NotEqual(t, a, b)
	assert.Contains(t, w.SentenceOn(p), `drop notch "x" at 10 mm from the hem on `+a+` and drop notch "y" at 10 mm from the hem on `+b)
	res := Recipe{{ID: "w", Step: w}}.Replay(pattern.Run{Name: "x", Sizes: []pattern.Size{{Label: "S", Pattern: p}}})
	assert.Equal(t, w.SentenceOn(p), res[0].Reports[0].Sentence)
	assert.Contains(t, w.Sentence(), "on side A")
	spot := pattern.AtEnd("left", "side", pattern.End)
	w.Drop = []Drop{{On: walk.A, Name: "x", Spot: &spot}, {On: walk.B, Name: "x", Spot: &spot}}
	assert.Equal(t, 1, strings.Count(w.SentenceOn(p), spot.String()), "one place is told once")
	assert.Contains(t, w.SentenceOn(p), " on "+a+" and "+b)
}

func TestWalkRefuses(t *testing.T) {
	p := eased()
	mid, nowhere, top := pattern.AtNotch("left", "mid"), pattern.AtNotch("left", "nowhere"), pattern.AtEnd("left", "top", pattern.End)
	for _, c := range []struct {
		step Walk
		want string
	}{
		{Walk{Seam: "join"}, "leaves nothing behind"},
		{Walk{Drop: []Drop{{On: walk.A, Name: "x", MM: exactly(3)}}}, "say what is walked"},
		{Walk{Seam: "waist", Ease: exactly(1)}, `no seam "waist"; there are "join"`},
		{Walk{Seam: "join", A: []pattern.Part{pattern.Whole("left", "top")}, Drop: []Drop{{On: walk.A, Name: "x", MM: exactly(3)}}}, "has its sides"},
		{Walk{Seam: "join", StartA: &mid, Drop: []Drop{{On: walk.A, Name: "x", MM: exactly(3)}}}, "start on both sides"},
		{Walk{Seam: "join", Drop: []Drop{{On: "c", Name: "x", MM: exactly(3)}}}, `not "c"`},
		{Walk{Seam: "join", Drop: []Drop{{On: walk.A, Name: "x"}}}, "exactly one of"},
		{Walk{Seam: "join", Drop: []Drop{{On: walk.A, Name: "x", MM: exactly(3), End: true}}}, "exactly one of"},
		{Walk{Seam: "join", Drop: []Drop{{On: walk.A, MM: exactly(3)}}}, "needs a \"name\""},
		{Walk{Seam: "join", Drop: []Drop{{On: walk.A, Name: "x", MM: exactly(61)}}}, "beyond side of left, which is 60 mm"},
		{Walk{Seam: "join", Drop: []Drop{{On: walk.A, Name: "x", MM: exactly(-1)}}}, "beyond"},
		{Walk{Seam: "join", Drop: []Drop{{On: walk.A, Name: "mid", MM: exactly(3)}}}, `already has a notch "mid"`},
		{Walk{Seam: "join", Drop: []Drop{{On: walk.B, Spot: &nowhere}}}, `no notch "nowhere"; it has`},
		{Walk{Seam: "join", Drop: []Drop{{On: walk.B, Name: "x", Spot: &top}}}, "is not on"},
		{Walk{Seam: "join", Drop: []Drop{{On: walk.B, Name: "x", End: true}}}, "drop the notch on the longer side"},
		{Walk{Seam: "join", Drop: []Drop{{On: walk.B, Name: "x", MM: exactly(3), Cut: "triple"}}}, `not "triple"`},
		{Walk{Seam: "join", Ease: exactly(60)}, "cannot be sewn in"},
		{Walk{Seam: "join", Ease: exactly(-58)}, "cannot be sewn in"},
		{Walk{Seam: "join", Ease: exactly(31), Between: &Between{To: pattern.NotchName{Piece: "left", Notch: "mid"}}}, "cannot be sewn in"},
		{Walk{Seam: "join", Ease: exactly(1), Between: &Between{To: pattern.NotchName{Piece: "left", Notch: "high"}}}, "has no partner"},
		{Walk{Seam: "join", Ease: exactly(1), Between: &Between{To: pattern.NotchName{Piece: "left", Notch: "nowhere"}}}, "there is no notch"},
		{Walk{Seam: "join", Between: &Between{}, Drop: []Drop{{On: walk.A, All: true}}}, "give one of them"},
		{Walk{Seam: "join", Spread: "c"}, `not of "c"`},
	} {
		before := p.Clone()
		_, err := c.step.Apply(Input{Pattern: p})
		require.Error(t, err, c.want)
		assert.Contains(t, err.Error(), c.want)
		assert.Equal(t, before, p, "a refusal changes nothing")
	}
}
