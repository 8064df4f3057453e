package tool_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

func TestTrueMakesEdgesRunOn(t *testing.T) {
	d := tern(t, 11)
	tl := tool.NewTrue(d)
	// the hems, at the end of the side seam
	press(tl, spotAt(t, d, pattern.AtEnd("frame", "hem", pattern.End)).Add(geom.Pt(1, 1)))
	s, ok := tl.Proposal()[0].(*step.True)
	require.True(t, ok)
	assert.Equal(t, "side seam", s.Seam)
	assert.Equal(t, pattern.End, s.End)
	assert.Contains(t, notes(tl), "kink")
	accept(t, d, tl)
	sameAs(t, d, 12)

	// the underarm, at its start, by keys
	choose(t, tl, "end of side seam at the cradle top")
	require.NoError(t, tl.Set("reach a", "14"))
	require.NoError(t, tl.Set("reach b", "40 mm"))
	got := reported(t, d, tl.Proposal()...)
	assert.Greater(t, got.Figures["kink_before"], 0.5)
	assert.InDelta(t, 0, got.Figures["kink_after"], 1e-6)
	accept(t, d, tl)
	sameAs(t, d, 13)
}

func TestTrueTakesReachAndHold(t *testing.T) {
	d := tern(t, 12)
	tl := tool.NewTrue(d)
	require.Error(t, tl.Set("reach", "10"))
	press(tl, spotAt(t, d, pattern.AtEnd("band", "top", pattern.End)))
	for range 3 {
		if tl.Proposal()[0].(*step.True).Seam != "side seam" {
			press(tl, spotAt(t, d, pattern.AtEnd("band", "top", pattern.End)))
		}
	}
	require.NoError(t, tl.Set("end", "end of side seam at the cradle top"))
	require.NoError(t, tl.Set("reach", "1/2 in"))
	require.True(t, tl.Key(tool.Key{Name: tool.Up, Step: 1}))
	require.NoError(t, tl.Set("hold", "band"))
	s := tl.Proposal()[0].(*step.True)
	reach, err := s.Reach.In(step.Input{})
	require.NoError(t, err)
	assert.InDelta(t, 13.7, reach, 1e-9)
	got := reported(t, d, s)
	assert.InDelta(t, 0, got.Figures["kink_after"], 1e-6)
	res, err := d.Try(s)
	require.NoError(t, err)
	assert.Equal(t, d.Pattern().Piece("band").Edge("top").Path.String(), res.Size.Pattern.Piece("band").Edge("top").Path.String(), "held")

	for f, junk := range map[string]string{"reach": "0", "reach a": "-3", "reach b": "2e9", "hold": "cup", "end": "middle", "x": ""} {
		require.Error(t, tl.Set(f, junk), f)
	}
	require.True(t, tl.Reset())
	assert.Empty(t, tl.Proposal())
	assert.Empty(t, tl.Overlay())
	assert.False(t, tl.Reset())
	require.True(t, tl.Key(tool.Key{Name: tool.Previous}))
	require.True(t, tl.Reset())
	require.False(t, tl.Key(tool.Key{Name: tool.Choose}))
}

// What a tool proposes is round in the unit that is read.
func TestProposalsAreRoundInInches(t *testing.T) {
	for _, tl := range tool.All(inInches{tern(t, 0)}) {
		for _, f := range tl.Fields() {
			if strings.HasSuffix(f.Text, " in") {
				mm, err := unit.ParseIn(f.Text, unit.InchFractions)
				require.NoError(t, err)
				assert.True(t, unit.IsFraction(mm), "%s: %s %s", tl.Name(), f.Label, f.Text)
			}
		}
	}
	s := tool.NewSmooth(inInches{tern(t, 7)})
	press(s, midEdge(t, tern(t, 7), "frame", "wire", 0.3))
	assert.Equal(t, "1 in", field(t, s, "reach").Text)
}

// trueAtTheHem has chosen where the hem of the Tern in lace, whose band ends as
// that edge does, meets the side seam at
// a kink.
func trueAtTheHem(t *testing.T, band string) (*desk.Desk, tool.Tool) {
	t.Helper()
	d := tern(t, 11)
	a := tool.NewAllowance(d)
	press(a, midEdge(t, d, "band", "hem", 0.4))
	if field(t, a, "role").Text != band {
		require.NoError(t, a.Set("role", band))
		accept(t, d, a)
	}
	require.NoError(t, d.Accept(&step.Add{EdgeEnd: step.EdgeEnd{Piece: "band", Edge: "hem", End: pattern.End}, Amount: step.Lit(10)}))
	tl := tool.NewTrue(d)
	press(tl, spotAt(t, d, pattern.AtEnd("frame", "hem", pattern.End)).Add(geom.Pt(1, 1)))
	require.Equal(t, "end of side seam at the hem", field(t, tl, "end").Text)
	return d, tl
}

// A lace edge keeps straight: the fields say so, and there is none that does
// nothing.
func TestTrueTellsThatALaceEdgeStays(t *testing.T) {
	d, tl := trueAtTheHem(t, "hem")
	hold := field(t, tl, "hold")
	assert.Equal(t, "frame, lace edge", hold.Text)
	assert.Equal(t, []string{"frame, lace edge", "band"}, hold.Options)
	for _, f := range tl.Fields() {
		assert.NotEqual(t, "Reach into frame", f.Label)
	}
	assert.Contains(t, tl.Hint(), "Enter makes band run on from frame, which stays as it is")
	require.ErrorContains(t, tl.Set("reach a", "50"), "frame stays as it is, so it has no reach")

	// What can be typed changes what is done.
	moved := reported(t, d, tl.Proposal()...).Figures["moved"]
	require.NoError(t, tl.Set("reach b", "50"))
	assert.Greater(t, reported(t, d, tl.Proposal()...).Figures["moved"], moved+0.1)
	require.True(t, tl.Key(tool.Key{Name: tool.Up, Step: 10}))
	assert.Equal(t, "60 mm", field(t, tl, "reach b").Text)

	// The other way round the lace edge would leave the square at the fold.
	require.NoError(t, tl.Set("hold", "band"))
	for _, f := range tl.Fields() {
		assert.NotContains(t, f.Label, "Reach", "neither is blended")
	}
	require.False(t, tl.Key(tool.Key{Name: tool.Up, Step: 10}))
	require.ErrorContains(t, tl.Set("reach", "50"), "hem of frame is a lace edge and keeps straight")
	require.ErrorContains(t, tl.Set("reach b", "50"), "band stays as it is")
	assert.Contains(t, tl.Hint(), "hem of frame is a lace edge and stays straight: let it stay as it is, so that hem of band runs on from it")
	assert.NotContains(t, tl.Hint(), "add")
	require.NoError(t, tl.Set("hold", "frame"))
	assert.Equal(t, "frame, lace edge", field(t, tl, "hold").Text)
	accept(t, d, tl)
}

// Where both are lace edges neither is blended.
func TestTrueHasNoReachBetweenLaceEdges(t *testing.T) {
	d, tl := trueAtTheHem(t, "lace edge")
	assert.Equal(t, []string{"frame, lace edge", "band, lace edge"}, field(t, tl, "hold").Options)
	require.Len(t, tl.Fields(), 2)
	require.ErrorContains(t, tl.Set("reach", "50"), "so it has no reach")
	accept(t, d, tl)
}

// The corner may be kept where it is: then neither side of the seam becomes longer.
func TestTrueMayKeepTheCorner(t *testing.T) {
	d := tern(t, 0)
	require.NoError(t, d.Accept(&step.Straighten{Piece: "cradle", From: pattern.AtEnd("cradle", "hem", pattern.Start), To: pattern.AtEnd("cradle", "hem", pattern.End), Name: "hem", Role: pattern.Hem}))
	tl := tool.NewTrue(d)
	require.True(t, tl.Key(tool.Key{Name: tool.Next}))
	require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
	for _, o := range field(t, tl, "end").Options {
		if o == "end of side seam at the hem" {
			require.NoError(t, tl.Set("end", o))
		}
	}
	assert.Contains(t, field(t, tl, "hold").Options, "the corner")
	require.NoError(t, tl.Set("hold", "the corner"))
	assert.Equal(t, "the corner", field(t, tl, "hold").Text)
	assert.Equal(t, "corner", tl.Proposal()[0].(*step.True).Hold)
	assert.NotContains(t, notes(tl), "side seam 0")
	assert.Len(t, tl.Overlay().Notes, 1, "no side becomes longer")
	require.NoError(t, d.Accept(tl.Proposal()...))
}

// The keys begin at the end of a seam nearest to what is selected, at a marked
// place before it, and after one that was chosen at the next; all have a list.
func TestTrueBeginsByKeysAtWhatIsMeant(t *testing.T) {
	d := tern(t, 0)
	begins := func(table tool.Table, k tool.KeyName) string {
		tl := tool.NewTrue(table)
		require.True(t, tl.Key(tool.Key{Name: k}))
		return notes(tl)
	}
	d.Select(tool.Selection{Piece: "cradle", Edge: "side seam"})
	require.Contains(t, begins(d, tool.Next), "of side seam")
	d.Select(tool.Selection{Piece: "band", Edge: "hem", Joint: true})
	require.Equal(t, "end of side seam at the hem", begins(d, tool.Next))
	require.NotContains(t, begins(d, tool.Previous), "side seam at the hem", "back from there")

	underarm := marking{d, []geom.Point{
		spotAt(t, d, pattern.AtEnd("cradle", "side seam", pattern.End)),
		spotAt(t, d, pattern.AtEnd("band", "side seam", pattern.Start)),
	}}
	require.Equal(t, "end of side seam at the top", begins(underarm, tool.Next), "the marks come first")

	d.Select(tool.Selection{})
	tl := tool.NewTrue(d)
	require.NotEmpty(t, field(t, tl, "end").Options)
	require.NoError(t, tl.Set("end", field(t, tl, "end").Options[2]))
	next := field(t, tl, "end").Options[3]
	require.True(t, tl.Key(tool.Key{Name: tool.Next}))
	require.Contains(t, notes(tl), next)
}

// Where there is no kink nothing is said to be made to run on.
func TestTrueTellsThatThereIsNoKink(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewTrue(d)
	for tl.Key(tool.Key{Name: tool.Next}) {
		if tl.Key(tool.Key{Name: tool.Choose}); strings.Contains(tl.Hint(), "bridge seam at the hem") {
			break
		}
	}
	require.Contains(t, tl.Hint(), "bridge and cradle run on already. Press another end of a seam")
	require.NotContains(t, tl.Hint(), "makes")
	res, err := d.Try(tl.Proposal()...)
	require.NoError(t, err)
	moved := res.Reports[0].Figures["moved"]
	require.Greater(t, moved, 0.05)
	require.Contains(t, tl.Hint(), "by up to "+unit.MM(moved))
}
