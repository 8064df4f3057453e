package tool_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
	"truemat/render"
)

func TestMeasureTellsLengthsAndDistances(t *testing.T) {
	d := tern(t, 0)
	m := tool.NewMeasure(d)
	_, side := d.Pattern().Edge("cradle", "side seam")
	press(m, midEdge(t, d, "cradle", "side seam", 0.3))
	assert.Contains(t, notes(m), "side seam "+unit.Format(side.Length(), unit.Millimetres))
	press(m, spotAt(t, d, pattern.AtEnd("cradle", "side seam", pattern.End)))
	assert.Contains(t, notes(m), unit.Format(0.7*side.Length(), unit.Millimetres)+" along the edge")

	a, b := spotAt(t, d, pattern.AtEnd("cradle", "wire", pattern.Start)), spotAt(t, d, pattern.AtEnd("cradle", "wire", pattern.End))
	press(m, a)
	drag(m, b.Add(geom.Pt(0.4, 0.4)))
	release(m, b)
	assert.Contains(t, notes(m), unit.Format(a.Dist(b), unit.Millimetres)+" (")
	_, wire := d.Pattern().Edge("cradle", "wire")
	assert.Contains(t, notes(m), unit.Format(wire.Length(), unit.Millimetres)+" along the edge")
	assert.Nil(t, m.Proposal())
	require.Error(t, m.Set("x", "1"))
	assert.True(t, m.Reset())
	assert.Empty(t, m.Overlay())
	assert.False(t, m.Reset())
}

func TestChalkMarksWhereItIsPressed(t *testing.T) {
	d := tern(t, 0)
	c := tool.NewChalk(d)
	at := middle(t, d, "band").Add(geom.Pt(5, 2))
	press(c, at)
	require.Len(t, c.Proposal(), 1)
	require.NoError(t, d.Accept(c.Proposal()...))
	c.Reset()
	band := d.Pattern().Piece("band")
	require.Len(t, band.Marks, 1)
	assert.Equal(t, "ALTERED", band.Marks[0].Text)
	assert.InDelta(t, 0, band.Pose.Apply(band.Marks[0].At).Dist(at), 1e-9)
	assert.True(t, band.Altered())

	press(c, middle(t, d, "bridge"))
	c.Pointer(tool.Event{Act: tool.Press, At: midEdge(t, d, "cradle", "side seam", 0.5).Sub(geom.Pt(6, 0)), Reach: reach, Shift: true})
	require.NoError(t, c.Set("text", "  try   one "))
	require.NoError(t, c.Set("height", "1/2"))
	require.Error(t, c.Set("text", " "))
	require.Error(t, c.Set("height", "3 m"))
	require.Error(t, c.Set("pieces", "bridge, sleeve"))
	require.Equal(t, []string{"bridge", "cradle"}, c.Proposal()[0].(*step.Mark).Pieces)
	require.Equal(t, "try one", c.Proposal()[0].(*step.Mark).Text)
	require.Equal(t, step.Lit(12.7), c.Proposal()[0].(*step.Mark).Height)
	assert.True(t, c.Reset())
	assert.Nil(t, c.Proposal())
}

func TestChalkOffersWhatWasAltered(t *testing.T) {
	lace := demo.TernInLace()
	d := tern(t, len(lace)-1)
	c := tool.NewChalk(d)
	require.NoError(t, c.Set("offer", "all that are altered"))
	require.Equal(t, "all that are altered", field(t, c, "offer").Text)
	require.Len(t, c.Proposal(), 1)
	assert.ElementsMatch(t, lace[len(lace)-1].Step.(*step.Mark).Pieces, c.Proposal()[0].(*step.Mark).Pieces)
	require.NoError(t, d.Accept(c.Proposal()...))

	d = tern(t, 0)
	c = tool.NewChalk(d)
	walkTo(t, c, "band")
	require.True(t, c.Key(tool.Key{Name: tool.Choose}))
	require.Equal(t, "band", c.Proposal()[0].(*step.Mark).Piece)
	require.True(t, c.Key(tool.Key{Name: tool.Choose}))
	require.Nil(t, c.Proposal(), "choosing it again leaves it out")

	require.NoError(t, d.Accept(&step.Notch{Act: step.DeleteNotch, Piece: "inner cup", Name: "below apex"}))
	c = tool.NewChalk(d)
	require.NoError(t, c.Set("offer", "all that are altered"))
	require.Equal(t, "inner cup", field(t, c, "pieces").Text, "what the check calls altered, if only by a notch")
	require.NotContains(t, c.Hint(), "not altered")
	require.NoError(t, c.Set("pieces", "inner cup, band"))
	require.Contains(t, c.Hint(), "But band is not altered.")
}

// How often and from what pieces are cut is written down by the chalk, too.
func TestChalkWritesDownHowPiecesAreCut(t *testing.T) {
	d := tern(t, 0)
	c := tool.NewChalk(d)
	require.NoError(t, c.Set("what", "how it is cut"))
	require.Error(t, c.Set("layers", "2"), "no piece is chosen")
	press(c, middle(t, d, "band"))
	require.Nil(t, c.Proposal(), "nothing is altered yet")
	assert.Equal(t, "in mirrored pairs", field(t, c, "pair").Text)
	require.NoError(t, c.Set("layers", "2"))
	require.NoError(t, c.Set("cloth", "power net"))
	require.NoError(t, c.Set("count", "2"))
	require.NoError(t, c.Set("pair", "as it lies"))
	for name, junk := range map[string]string{"count": "0", "layers": "some", "pair": "twice", "cloth": " "} {
		require.Error(t, c.Set(name, junk), name)
	}
	accept(t, d, c)
	assert.Equal(t, pattern.Cut{Count: 2, Layers: 2, Cloth: "power net"}, d.Pattern().Piece("band").Cut)
	assert.Empty(t, d.Pattern().Piece("band").Marks)
	c.Reset()
	require.NoError(t, c.Set("pieces", "bridge"))
	for _, f := range c.Fields() {
		assert.NotEqual(t, "pair", f.Name, "a piece on the fold is no pair")
	}
}

// Where letters of the height asked do not fit, the line says how tall they
// become, as they are drawn and printed.
func TestChalkSaysWhenLettersAreMadeSmaller(t *testing.T) {
	lace := demo.TernInLace()
	d := tern(t, len(lace)-1)
	c := tool.NewChalk(d)
	require.NoError(t, c.Set("pieces", "frame"))
	res, err := d.Try(c.Proposal()...)
	require.NoError(t, err)
	w, err := render.Inscribe(*res.Size.Pattern.Piece("frame"))
	require.NoError(t, err)
	require.True(t, w.Marks[0].Smaller())
	assert.Contains(t, c.Hint(), "Made smaller to fit: "+unit.Format(w.Marks[0].Height, unit.Millimetres)+" on frame")
	require.NoError(t, c.Set("height", "4mm"))
	assert.NotContains(t, c.Hint(), "smaller")
}

// Lace is spoken of where there is a lace edge only.
func TestChalkProposesLaceWhereThereIsSome(t *testing.T) {
	for steps, want := range map[int]string{0: "ALTERED", 1: "ALTERED · LACE"} {
		d := tern(t, steps)
		tl := tool.NewChalk(d)
		assert.Equal(t, want, field(t, tl, "text").Text)
		require.NoError(t, tl.Set("pieces", "bridge, band"))
		assert.Equal(t, want, tl.Proposal()[0].(*step.Mark).Text)
		require.NoError(t, tl.Set("text", "MINE"))
		assert.Equal(t, "MINE", tl.Proposal()[0].(*step.Mark).Text)
	}
}
