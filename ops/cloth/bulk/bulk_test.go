package bulk_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/cloth"
	"truemat/ops/cloth/bulk"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// One cloth of 1 mm everywhere, so that thickness and layers agree. Allowances
// of seams are as wide as asked; below 6 mm none can be folded.
func tern(t require.TestingT, press pattern.Press, width float64) (pattern.Pattern, cloth.Goods) {
	run, err := demo.Tern()
	require.NoError(t, err)
	p := run.Sizes[0].Pattern.Clone()
	g := cloth.Goods{Cloths: []cloth.Cloth{{Name: "felt", Width: 1000, Thickness: 1}}}
	for i := range p.Pieces {
		for j := range p.Pieces[i].Edges {
			if e := &p.Pieces[i].Edges[j]; e.Allowance > 0 && e.Role == pattern.SeamEdge {
				e.Allowance = width
			}
		}
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

const (
	narrow = 5.0
	wide   = 6.0
)

// Counted on a folded scrap: a seam pressed open has 2 layers, pressed to one
// side 3; a seam across one that is pressed open has its own 2 layers twice.
func TestLayersAreCountedAsTheyLie(t *testing.T) {
	p, g := tern(t, pattern.PressedOpen, narrow)
	open := bulk.Places(p, g, bulk.Defaults())
	require.Equal(t, 2, at(t, open, "side seam", "").Layers)
	require.Equal(t, 4, at(t, open, "vertical seam", `"cross seam"`).Layers)

	p, g = tern(t, pattern.PressedToB, narrow)
	over := bulk.Places(p, g, bulk.Defaults())
	require.Equal(t, 3, at(t, over, "side seam", "").Layers)
	crossing := at(t, over, "vertical seam", `"cross seam"`)
	require.Equal(t, 3+3+1, crossing.Layers, "side B threefold, folded back onto itself, and the inner cup's allowance")
	require.InDelta(t, 7, crossing.Thickness, 1e-12)
}

// Counted on a folded scrap: where no lining hides a seam its edges turn back,
// so one pressed open has 3 layers, one folded around its trimmed allowance 4,
// and a seam across another has the layers of both. The wire seam is hidden by
// the channelling and not folded.
func TestFoldedEdgesAreCounted(t *testing.T) {
	p, g := tern(t, pattern.PressedOpen, wide)
	open := bulk.Places(p, g, bulk.Defaults())
	require.Equal(t, 3, at(t, open, "side seam", "").Layers)
	require.Equal(t, 3*3, at(t, open, "vertical seam", `"cross seam"`).Layers)
	require.Equal(t, 2, at(t, open, "wire seam", "").Layers)
	require.Equal(t, 2*3, at(t, open, "wire seam", `"vertical seam"`).Layers)

	p, g = tern(t, pattern.PressedToB, wide)
	over := bulk.Places(p, g, bulk.Defaults())
	side := at(t, over, "side seam", "")
	require.Equal(t, 4, side.Layers)
	require.Equal(t, []bool{false, true, false, false}, []bool{side.Stack[0].Folded, side.Stack[1].Folded, side.Stack[2].Folded, side.Stack[3].Folded})
	require.InDelta(t, wide/2, side.Stack[1].Lies, 1e-12)
	require.Equal(t, 4+4+2, at(t, over, "vertical seam", `"cross seam"`).Layers)
	require.Equal(t, 3, at(t, over, "wire seam", "").Layers)
}

// Lined, the outer layers and the linings are sewn each by itself: twice as
// many, nothing folded, the allowances between.
func TestALinedSeamHasItsAllowancesBetween(t *testing.T) {
	p, g := tern(t, pattern.PressedToA, wide)
	g.Cloths = append(g.Cloths, cloth.Cloth{Name: "voile", Width: 1000, Thickness: 0.1})
	for i := range g.Made {
		g.Made[i].Cloths = []string{"felt", "voile"}
	}
	side := at(t, bulk.Places(p, g, bulk.Defaults()), "side seam", "")
	var names []string
	var width []float64
	for _, s := range side.Stack {
		names, width = append(names, s.Cloth), append(width, s.Width)
	}
	require.Equal(t, []string{"felt", "felt", "felt", "voile", "voile", "voile"}, names)
	require.Equal(t, []float64{0, wide, wide, wide, wide, 0}, width)
	require.InDelta(t, 3.3, side.Thickness, 1e-12)
}

// Hem, underarm and neckline are folded with what lies on them: turned back,
// turned with an elastic, or with their lining; behind lace nothing is.
func TestEdgesThatAreTurnedAreCounted(t *testing.T) {
	p, g := tern(t, pattern.PressedOpen, narrow)
	hem := func(edge string) *bulk.Place {
		for _, pl := range bulk.Places(p, g, bulk.Defaults()) {
			if pl.Edge == edge {
				return &pl
			}
		}
		return nil
	}
	require.Equal(t, 2, hem("hem of band").Layers)
	require.Equal(t, 4, at(t, bulk.Places(p, g, bulk.Defaults()), "side seam", "hem of cradle, turned back").Layers)
	g.Elastics = []cloth.Elastic{{Name: "hem elastic", Line: "hem", Width: 10, PutOn: cloth.Turned}}
	require.Equal(t, "turned with its elastic", hem("hem of band").How)
	require.Equal(t, 4, at(t, bulk.Places(p, g, bulk.Defaults()), "side seam", "hem of cradle, turned with its elastic").Layers)
	g.Elastics[0].PutOn = cloth.BehindLace
	require.Nil(t, hem("hem of band"))
	g.Elastics = nil
	g.Made[2].Cloths = []string{"felt", "felt"}
	lined := hem("hem of " + g.Made[2].Piece)
	require.Equal(t, "turned with its lining", lined.How)
	require.Equal(t, 4, lined.Layers)
}

// Beyond the limit a folded edge of several layers steps down beneath the one
// that covers it, which the stitching holds; one of a single layer has no
// allowance to trim.
func TestAFoldedEdgeStepsDownBeneathItsInnermostLayer(t *testing.T) {
	p, g := tern(t, pattern.PressedOpen, narrow)
	g.Cloths = append(g.Cloths, cloth.Cloth{Name: "backed felt", Of: []string{"felt", "voile"}}, cloth.Cloth{Name: "voile", Width: 1000, Thickness: 0.5})
	g.Made[2].Cloths = []string{"backed felt"}
	require.NoError(t, g.Validate())
	l := bulk.Limits{Thickness: 1.9, Step: 2, Least: 3}
	for _, pl := range bulk.Places(p, g, l) {
		switch pl.Edge {
		case "hem of " + g.Made[2].Piece:
			require.Len(t, pl.Stack, 4)
			require.InDelta(t, 3, pl.Thickness, 1e-12)
			require.Equal(t, "voile", pl.Stack[2].Cloth)
			require.InDelta(t, pl.Stack[2].Width-2, pl.Stack[2].Trimmed, 1e-12)
			require.Zero(t, pl.Stack[3].Trimmed)
			require.Contains(t, pl.Remedy, "steps down beneath the innermost layer")
			require.True(t, pl.Section.Edge)
		case "hem of bridge":
			require.Contains(t, pl.Remedy, "face it with thinner cloth")
		}
	}
}

// Not said how a seam is pressed, it counts as it is proposed; not proposed
// either, the thicker side does.
func TestTheProposedPressingCountsWhenNothingIsSaid(t *testing.T) {
	p, g := tern(t, "", narrow)
	pl := at(t, bulk.Places(p, g, bulk.Defaults()), "vertical seam", `"cross seam"`)
	require.Equal(t, pattern.PressedOpen, pl.Press)
	require.Equal(t, 4, pl.Layers)

	var made []cloth.Made
	for _, m := range g.Made {
		if m.Piece != "inner cup" {
			made = append(made, m)
		}
	}
	g.Made = made
	pl = at(t, bulk.Places(p, g, bulk.Defaults()), "vertical seam", "")
	require.Equal(t, pattern.PressedToB, pl.Press)
	require.Equal(t, 3, pl.Layers)
	require.InDelta(t, 2, pl.Thickness, 1e-12, "a piece whose cloth is not named has no thickness")
}

func TestAllowancesStepDownFromTheOutsideIn(t *testing.T) {
	p, g := tern(t, pattern.PressedToA, narrow)
	l := bulk.Limits{Thickness: 2.5, Step: 2, Least: 3}
	pl := at(t, bulk.Places(p, g, l), "side seam", "")
	require.True(t, pl.Over)
	require.Len(t, pl.Stack, 3)
	require.Zero(t, pl.Stack[0].Width)
	require.Zero(t, pl.Stack[1].Trimmed, "the outermost keeps its width")
	require.InDelta(t, narrow-2, pl.Stack[2].Trimmed, 1e-9)
	require.Contains(t, pl.Remedy, "step down")
	require.Contains(t, pl.Advice(), "felt of band to 3 mm.")

	l.Thickness = 3
	pl = at(t, bulk.Places(p, g, l), "side seam", "")
	require.False(t, pl.Over)
	require.Empty(t, pl.Remedy)
}

// An edge that is turned back over the end of a seam doubles it.
func TestATurnedBackEdgeDoublesTheSeam(t *testing.T) {
	p, g := tern(t, pattern.PressedOpen, narrow)
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

// Counted on a folded scrap: a dart pressed to one side has 3 layers along its
// legs, and a seam pressed open that runs over it has those twice. Its fold is
// not trimmed.
func TestAFoldedDartIsCounted(t *testing.T) {
	p, g := tern(t, pattern.PressedOpen, narrow)
	amount := step.Lit(14)
	out, err := (&step.Spread{
		Piece:   "lower outer cup",
		Slashes: []step.Slash{{From: pattern.Spot{Edge: "wire", Along: pattern.Along{Share: 0.5}}}},
		Hinge:   &step.Hinge{Spot: &pattern.Spot{Edge: "cross seam", Along: pattern.Along{Share: 0.5}}},
		Amount:  &amount,
		Dart:    &step.NewDart{Name: "dart", Short: &amount},
	}).Apply(step.Input{Pattern: p})
	require.NoError(t, err)
	l := bulk.Defaults()
	places := bulk.Places(out.Pattern, g, l)
	along := at(t, places, "dart", "")
	require.Equal(t, 3, along.Layers)
	require.True(t, along.Over)
	require.Contains(t, along.Remedy, "press the dart flat")
	for _, s := range along.Stack {
		require.Zero(t, s.Trimmed)
	}
	require.Len(t, along.Section.Bends, 2, "at the seam and at the fold")
	require.Equal(t, 6, at(t, places, "wire seam", `"dart"`).Layers)
}
