package main

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
	"truemat/ops/walk"
)

// The neckline of the inner cup is cut straight to a notch, in one act; then
// the seam is walked and a notch dropped on both of its sides.
func TestNecklineIsCutToANotchAndTheSeamWalked(t *testing.T) {
	const inner, seam = "inner cup", "vertical seam"
	r := newReal(t)
	first := r.fresh()
	from, to := pattern.AtEnd(inner, "wire", pattern.Start), pattern.AtNotch(inner, "above apex")
	r.take("e", "shears")
	r.press(r.at(from))
	r.press(r.at(to))
	r.pick("role", pattern.LaceEdge.Word())
	r.accept()
	cut := r.save(1)
	named, ok := cut.Recipe[0].Step.(*step.CutOff)
	require.True(t, ok, "one step does all of it")
	run, err := demo.Tern()
	require.NoError(t, err)
	kept := pattern.AtEnd(inner, "wire", pattern.End)
	want := store.Document{Source: run, Recipe: step.Recipe{
		{ID: "cut", Step: &step.CutOff{Piece: inner, From: from, To: to, Kept: &kept, Name: named.Name, Role: pattern.LaceEdge}},
	}}
	r.sameLengths(want, cut)

	r.take("c", "walk")
	r.press(r.along(inner, seam, 0.5))
	walked := func() *walk.Walk {
		wk, err := walk.Seam(r.desk.Pattern(), seam, walk.Way{})
		require.NoError(t, err)
		return wk
	}
	wk := walked()
	base := r.desk.Pattern()
	pose, ok := r.tool.(tool.Layer).Lays()[wk.Base()]
	if !ok {
		pose = base.Piece(wk.Base()).Pose
	}
	end, _ := wk.End()
	on := func(s float64) geom.Point { return pose.Apply(wk.At(s, 1).Point) }
	r.hold(on(end / 2))
	r.drag(on(end/2), on(end-12))
	r.letGo(on(end - 12))
	pairs := len(wk.Pairs)
	r.choose()
	r.accept()
	got := r.save(2)
	for _, res := range got.Results() {
		require.False(t, res.Behind(), res.Reason())
		wk, err := walk.Seam(res.Size.Pattern, seam, walk.Way{})
		require.NoError(t, err)
		require.Len(t, wk.Pairs, pairs+1, res.Size.Label)
		for _, row := range wk.Table().Rows {
			require.InDelta(t, 0, row.Difference, 1e-6, "%s to %s in %s", row.From, row.To, res.Size.Label)
		}
	}
	r.backAndForth(first)
}
