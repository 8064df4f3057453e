package tool_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// eased is the Tern with one seam given ease that it has not.
func eased(t testing.TB, seam string, mm float64) *desk.Desk {
	t.Helper()
	d := tern(t, 0)
	n := step.Lit(mm)
	require.NoError(t, d.Accept(&step.Sew{Name: seam, Ease: &n}))
	return d
}

func isLevel(t *testing.T, d *desk.Desk, seam string) {
	t.Helper()
	for _, size := range d.Document().Source.Labels() {
		require.NoError(t, d.SetSize(size))
		p := d.Pattern()
		a, b := p.SeamLengths(*p.Seam(seam))
		assert.InDelta(t, p.Seam(seam).Ease, a-b, 1e-6, size)
	}
}

func TestLevelByPointer(t *testing.T) {
	d := eased(t, "cross seam", 0.6)
	tl := tool.NewLevel(d)
	assert.Contains(t, tl.Hint(), "Press an edge")
	at := midEdge(t, d, "upper outer cup", "cross seam", 0.4)
	press(tl, at)
	release(tl, at)
	assert.Contains(t, notes(tl), "0.6 mm apart → level")
	assert.Contains(t, notes(tl), "moves ")
	require.Equal(t, &step.Level{Seam: "cross seam", Bend: "both", Limit: roundLimit()}, tl.Proposal()[0])

	// The handle half way; dragged to the upper outer cup it alone changes.
	a, b := midEdge(t, d, "upper outer cup", "cross seam", 0.5), midEdge(t, d, "lower outer cup", "cross seam", 0.5)
	press(tl, a.Lerp(b, 0.5))
	drag(tl, b.Lerp(a, 0.75))
	release(tl, b.Lerp(a, 0.75))
	assert.InDelta(t, 0.75, share(t, tl), 2e-3)
	press(tl, b.Lerp(a, 0.75))
	drag(tl, b.Lerp(a, 0.99).Add(geom.Pt(1, 0)))
	release(tl, b.Lerp(a, 0.99))
	require.Equal(t, &step.Level{Seam: "cross seam", Bend: "a", Limit: roundLimit()}, tl.Proposal()[0])
	before := d.Pattern().Piece("lower outer cup").Edge("cross seam").Path.String()
	accept(t, d, tl)
	assert.Equal(t, before, d.Pattern().Piece("lower outer cup").Edge("cross seam").Path.String())
	isLevel(t, d, "cross seam")

	// What is level needs nothing.
	press(tl, midEdge(t, d, "upper outer cup", "cross seam", 0.4))
	assert.Empty(t, tl.Proposal())
	assert.Contains(t, tl.Hint(), "are level")
}

func share(t *testing.T, tl tool.Tool) float64 {
	t.Helper()
	n := tl.Proposal()[0].(*step.Level).Share
	require.NotNil(t, n)
	v, err := n.In(step.Input{})
	require.NoError(t, err)
	return v
}

func TestLevelByKeysAlone(t *testing.T) {
	d := eased(t, "side seam", 1.5)
	tl := tool.NewLevel(d)
	walkTo(t, tl, "band")
	require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
	walkTo(t, tl, "side seam of band")
	require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
	require.NotEmpty(t, tl.Proposal())
	assert.Equal(t, "moves at the top, along the seam", field(t, tl, "ends").Text, "straight edges do not bend, so what can be done is offered")
	assert.Contains(t, notes(tl), "mm at the top")
	require.NoError(t, tl.Set("ends", "ends stay"))
	assert.Contains(t, tl.Hint(), "let an end move")
	require.True(t, tl.Key(tool.Key{Name: tool.Right, Count: 10}))
	assert.InDelta(t, 0.6, share(t, tl), 1e-9)
	require.True(t, tl.Key(tool.Key{Name: tool.Down, Count: 1}))
	assert.InDelta(t, 0.59, share(t, tl), 1e-9)
	require.NoError(t, tl.Set("ends", "moves at the hem, along the seam"))
	assert.Contains(t, notes(tl), "1.5 mm apart → level")
	accept(t, d, tl)
	isLevel(t, d, "side seam")
}

func TestLevelByTypedNumber(t *testing.T) {
	d := eased(t, "wire seam", 1)
	tl := tool.NewLevel(d)
	require.Error(t, tl.Set("share", "40 %"))
	require.NoError(t, tl.Set("seam", "wire seam"))
	require.NoError(t, tl.Set("share", "80 %"))
	assert.InDelta(t, 0.8, share(t, tl), 1e-9)
	assert.Equal(t, "80 %", field(t, tl, "share").Text)
	require.NoError(t, tl.Set("limit", "1/8 in"))
	require.NoError(t, tl.Set("bend", field(t, tl, "bend").Options[1]))
	s := tl.Proposal()[0].(*step.Level)
	assert.Equal(t, "a", s.Bend)
	assert.Nil(t, s.Share)
	limit, err := s.Limit.In(step.Input{})
	require.NoError(t, err)
	assert.InDelta(t, 3.175, limit, 1e-9)
	require.NoError(t, tl.Set("bend", "both sides"))
	assert.Nil(t, tl.Proposal()[0].(*step.Level).Share, "half")
	for f, junk := range map[string]string{"seam": "hem", "share": "101", "bend": "up", "ends": "fly", "limit": "0", "x": "1"} {
		require.Error(t, tl.Set(f, junk), f)
	}
	require.NoError(t, tl.Set("ends", "ends and their directions stay"))
	assert.Equal(t, "directions", tl.Proposal()[0].(*step.Level).Keep)
	accept(t, d, tl)
	isLevel(t, d, "wire seam")

	require.NoError(t, tl.Set("seam", "cross seam"))
	require.True(t, tl.Reset())
	assert.False(t, tl.Reset())
	assert.Len(t, tl.Fields(), 1)
}

// An edge that is sewn to nothing cannot be levelled, and is told so.
func TestLevelTellsOfAnEdgeWithoutASeam(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewLevel(d)
	press(tl, midEdge(t, d, "cradle", "hem", 0.5))
	assert.Contains(t, tl.Hint(), "hem of cradle is sewn to nothing")
	assert.Contains(t, tl.Hint(), "take the walk")
	press(tl, midEdge(t, d, "cradle", "side seam", 0.5))
	assert.Contains(t, tl.Hint(), "are level")
}

// The side seam of band and cradle is straight: it bows when it may.
func TestLevelLetsStraightEdgesBow(t *testing.T) {
	for words, bow := range map[string]string{"bow out": "out", "bow in": "in"} {
		d := eased(t, "side seam", 0.4)
		tl := tool.NewLevel(d)
		require.NoError(t, tl.Set("seam", "side seam"))
		require.NoError(t, tl.Set("bend", field(t, tl, "bend").Options[1]))
		require.NoError(t, tl.Set("ends", "ends stay"))
		assert.Equal(t, "stay straight", field(t, tl, "bow").Text)
		_, err := d.Try(tl.Proposal()...)
		require.ErrorContains(t, err, "straight")
		require.NoError(t, tl.Set("bow", words))
		assert.Equal(t, &step.Level{Seam: "side seam", Bend: "a", Bow: bow, Limit: roundLimit()}, tl.Proposal()[0])
		assert.Contains(t, notes(tl), "0.4 mm apart → level")

		// Where an end moves, it cannot.
		require.NoError(t, tl.Set("ends", "moves at the hem, along the seam"))
		assert.Empty(t, tl.Proposal()[0].(*step.Level).Bow)
		require.ErrorContains(t, tl.Set("bow", "bow in"), "let the ends stay")
		require.NoError(t, tl.Set("ends", "ends stay"))
		require.Error(t, tl.Set("bow", "sideways"))

		piece := d.Pattern().Seam("side seam").A[0].Piece
		before := d.Pattern().Piece(piece).Area()
		accept(t, d, tl)
		assert.Equal(t, bow == "out", d.Pattern().Piece(piece).Area() > before)
		isLevel(t, d, "side seam")
	}
}

// An edge in two seams: pressing again goes on to the other.
func TestLevelGoesThroughTheSeamsOfAnEdge(t *testing.T) {
	d := tern(t, 0)
	n := step.Lit(1)
	require.NoError(t, d.Accept(&step.Sew{Name: "second", A: []pattern.Part{{Piece: "cradle", Edge: "side seam"}}, B: []pattern.Part{{Piece: "band", Edge: "side seam", From: 1}}, Ease: &n}))
	tl := tool.NewLevel(d)
	at := midEdge(t, d, "cradle", "side seam", 0.4)
	seen := map[string]bool{}
	for range 2 {
		press(tl, at)
		seen[field(t, tl, "seam").Text] = true
	}
	assert.Equal(t, map[string]bool{"side seam": true, "second": true}, seen)
}

// roundLimit is what the tool proposes as the limit where lengths are metric.
func roundLimit() *step.Number {
	n := step.Lit(6.5)
	return &n
}

// What is proposed is a round figure in the unit she works in, and the step has it.
func TestTheLimitProposedByLevelIsRound(t *testing.T) {
	d := eased(t, "cross seam", 0.6)
	limit := func(table tool.Table) string {
		tl := tool.NewLevel(table)
		require.NoError(t, tl.Set("seam", "cross seam"))
		return field(t, tl, "limit").Text
	}
	assert.Equal(t, "6.5 mm", limit(d))
	assert.Equal(t, "1/4 in", limit(inInches{d}))
}
