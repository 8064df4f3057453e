package order_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// dartedCup is the Tern with a dart in its lower outer cup, from the wire line
// up; its cloth folded, or cut with an allowance.
func dartedCup(t *testing.T, allowance float64) pattern.Pattern {
	run, err := demo.Tern()
	require.NoError(t, err)
	amount, short, cut := step.Lit(14), step.Lit(12), step.Lit(allowance)
	dart := &step.NewDart{Name: "dart", Short: &short}
	if allowance > 0 {
		dart.Allowance = &cut
	}
	out, err := (&step.Spread{
		Piece:   "lower outer cup",
		Slashes: []step.Slash{{From: pattern.Spot{Edge: "wire", Along: pattern.Along{Share: 0.5}}}},
		Hinge:   &step.Hinge{Spot: &pattern.Spot{Edge: "cross seam", Along: pattern.Along{Share: 0.5}}},
		Amount:  &amount,
		Dart:    dart,
	}).Apply(step.Input{Pattern: run.Sizes[0].Pattern})
	require.NoError(t, err)
	return out.Pattern
}

// A dart whose cloth stays folded is folded, sewn to its point and laid to one
// side; it has no edges to overcast or to cut.
func TestAFoldedDartIsSewnAsADart(t *testing.T) {
	p := dartedCup(t, 0)
	a := told(t, p, demo.Goods())["join dart"]
	require.Contains(t, a.Sentence, "of lower outer cup: fold the cloth on the middle of the dart")
	require.Contains(t, a.Sentence, "from wire to the point")
	require.Contains(t, a.Sentence, "press it towards centre front (proposed)")
	require.Contains(t, a.Sentence, "nothing to overcast")
	require.NotContains(t, a.Sentence, "or cut")
	require.NotContains(t, a.Sentence, "open")

	// It lies to the other side when that is said, and never open.
	other := map[pattern.Press]pattern.Press{pattern.PressedToA: pattern.PressedToB, pattern.PressedToB: pattern.PressedToA}[a.Press]
	p.Seam("dart").Press = other
	require.Contains(t, told(t, p, demo.Goods())["join dart"].Sentence, "press it away from centre front.")
	p.Seam("dart").Press = pattern.PressedOpen
	require.Equal(t, a.Press, told(t, p, demo.Goods())["join dart"].Press)

	// The same garment turned over on the mat lies alike when worn.
	p.Seam("dart").Press = ""
	for i := range p.Pieces {
		p.Pieces[i].Pose = geom.Turn(geom.Angle(2), geom.Point{}).Then(p.Pieces[i].Pose)
	}
	require.Contains(t, told(t, p, demo.Goods())["join dart"].Sentence, "towards centre front")
}

func TestADartThatIsCutIsSewnAsASeam(t *testing.T) {
	a := told(t, dartedCup(t, 6), demo.Goods())["join dart"]
	require.Contains(t, a.Sentence, "press it open")
	require.NotContains(t, a.Sentence, "fold lower outer cup")
}
