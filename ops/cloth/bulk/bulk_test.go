package bulk_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/cloth"
	"truemat/ops/cloth/bulk"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

// One cloth of 1 mm everywhere, so that thickness and layers agree.
func tern(t *testing.T, press pattern.Press) (pattern.Pattern, cloth.Goods) {
	run, err := demo.Tern()
	require.NoError(t, err)
	p := run.Sizes[0].Pattern.Clone()
	g := cloth.Goods{Cloths: []cloth.Cloth{{Name: "felt", Width: 1000, Thickness: 1}}}
	for i := range p.Pieces {
		g.Made = append(g.Made, cloth.Made{Piece: p.Pieces[i].Name, Cloths: []string{"felt"}})
	}
	for i := range p.Seams {
		p.Seams[i].Press = press
	}
	return p, g
}

func at(t *testing.T, places []bulk.Place, seam, across string) bulk.Place {
	t.Helper()
	for _, pl := range places {
		if pl.Seam == seam && pl.Across == across {
			return pl
		}
	}
	require.Fail(t, "no such place", "%s across %q", seam, across)
	return bulk.Place{}
}

// Counted on a folded scrap: a seam pressed open has 2 layers, pressed to one
// side 3; a seam across one that is pressed open has its own 2 layers twice.
func TestLayersAreCountedAsTheyLie(t *testing.T) {
	p, g := tern(t, pattern.PressedOpen)
	open := bulk.Places(p, g, bulk.Defaults())
	require.Equal(t, 2, at(t, open, "side seam", "").Layers)
	require.Equal(t, 4, at(t, open, "vertical seam", `"cross seam"`).Layers)

	p, g = tern(t, pattern.PressedToB)
	over := bulk.Places(p, g, bulk.Defaults())
	require.Equal(t, 3, at(t, over, "side seam", "").Layers)
	crossing := at(t, over, "vertical seam", `"cross seam"`)
	require.Equal(t, 3+3+1, crossing.Layers, "side B threefold, folded back onto itself, and the inner cup's allowance")
	require.InDelta(t, 7, crossing.Thickness, 1e-12)
}

// Not said how a seam is pressed, the thicker side counts.
func TestTheThickerSideCountsWhenNothingIsSaid(t *testing.T) {
	p, g := tern(t, "")
	pl := at(t, bulk.Places(p, g, bulk.Defaults()), "vertical seam", `"cross seam"`)
	require.Equal(t, pattern.PressedToB, pl.Press)
	require.Equal(t, 7, pl.Layers)
}

func TestAllowancesStepDownFromTheOutsideIn(t *testing.T) {
	p, g := tern(t, pattern.PressedToA)
	l := bulk.Limits{Thickness: 2.5, Step: 2, Least: 3}
	pl := at(t, bulk.Places(p, g, l), "side seam", "")
	require.True(t, pl.Over)
	require.Len(t, pl.Stack, 3)
	require.Zero(t, pl.Stack[0].Width)
	require.Zero(t, pl.Stack[1].Trimmed, "the outermost keeps its width")
	require.InDelta(t, 4.35, pl.Stack[2].Trimmed, 1e-9)
	require.Contains(t, pl.Remedy, "step down")

	l.Thickness = 3
	pl = at(t, bulk.Places(p, g, l), "side seam", "")
	require.False(t, pl.Over)
	require.Empty(t, pl.Remedy)
}

// An edge that is turned back over the end of a seam doubles it.
func TestATurnedBackEdgeDoublesTheSeam(t *testing.T) {
	p, g := tern(t, pattern.PressedOpen)
	for i := range p.Pieces {
		for j := range p.Pieces[i].Edges {
			if e := &p.Pieces[i].Edges[j]; e.Role == pattern.Underarm {
				e.Role = pattern.TurnedBack
			}
		}
	}
	found := false
	for _, pl := range bulk.Places(p, g, bulk.Defaults()) {
		if pl.Seam == "side seam" && pl.Across != "" {
			require.Equal(t, 4, pl.Layers, pl.Across)
			found = true
		}
	}
	require.True(t, found)
}
