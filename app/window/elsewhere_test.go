package window

import (
	"context"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/app/desk"
	"truemat/app/lesson"
	"truemat/app/tool"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// What a proposal would break in another size is told above the tray before it
// is accepted, and so is what another number of an earlier step would.
func TestWhatWouldBreakInOtherSizesIsToldBeforeItIsAccepted(t *testing.T) {
	w := open(t, false)
	w.setUnit(unit.Centimetres)
	require.NoError(t, w.desk.SetSize("65C"))
	w.choose(slices.IndexFunc(w.tools, func(tl tool.Tool) bool { return tl.Name() == "spread" }))
	at := func(edge string) tool.Event {
		pc, e := w.desk.Pattern().Edge("lower outer cup", edge)
		return tool.Event{Act: tool.Press, At: pc.Pose.Apply(e.Path.At(0.5 * e.Length())), Reach: 3}
	}
	for _, edge := range []string{"cross seam", "wire"} {
		w.pointer(at(edge))
		e := at(edge)
		e.Act = tool.Release
		w.pointer(e)
	}
	rest := func() string {
		t.Helper()
		require.NotNil(t, w.elsewhere.find)
		w.tryElsewhere(context.Background())
		return hinted(w)
	}
	require.NoError(t, w.tool().Set("amount", "0.6 cm"))
	w.show()
	require.NotContains(t, rest(), "In 80E")
	require.NoError(t, w.tool().Set("length", "8.2 cm"))
	w.show()
	require.Contains(t, rest(), "In 80E this would be broken: cross seam: ")
	require.Contains(t, w.elsewhere.told, "alike in ")
	w.desk.SetOnly(true)
	require.NotContains(t, rest(), "In 80E")
	w.desk.SetOnly(false)
	require.Contains(t, rest(), "In 80E")
	w.pointer(at("vertical seam"))
	require.NotContains(t, hinted(w), "In 80E", "not while the pointer is down")

	up := at("vertical seam")
	up.Act = tool.Release
	w.pointer(up)
	w.abandon()
	w.choose(0)
	amount, hinge := step.Lit(6), pattern.Spot{Piece: "lower outer cup", Edge: "wire", Along: pattern.Along{From: pattern.Start, Share: 0.5}}
	from := hinge
	from.Edge = "cross seam"
	require.NoError(t, w.desk.Accept(&step.Spread{Piece: "lower outer cup", Slashes: []step.Slash{{From: from, Hinge: &step.Hinge{Spot: &hinge}}}, Amount: &amount}))
	entry := w.desk.Document().Recipe[0]
	next, err := entry.WithNumber([]string{"amount"}, step.PerSize(map[string]float64{"80E": -9, "65C": 6, "65D": 6, "65E": 6, "70C": 6, "70D": 6, "70E": 6, "75C": 6, "75D": 6, "75E": 6, "80C": 6, "80D": 6}))
	require.NoError(t, err)
	w.rehearse(next, "")
	require.Contains(t, rest(), "In 80E this would ")
	require.Contains(t, hinted(w), "Enter keeps this")
	require.True(t, w.dropRehearsed())
	require.NotContains(t, hinted(w), "In 80E")
}

// What a proposal would break in the size shown is told before it is accepted as
// well, be it the only size.
func TestWhatWouldBreakInTheSizeShownIsToldBeforeItIsAccepted(t *testing.T) {
	w := open(t, false)
	w.setUnit(unit.Centimetres)
	f := w.newPage()
	f.typed(map[string]string{"pattern": "Heron", "name": "pocket", "wide": "22", "high": "14", "allowance": "1"})
	f.fields["high"].OnSubmitted("")
	w.choose(slices.IndexFunc(w.tools, func(tl tool.Tool) bool { return tl.Name() == "shears" }))
	for edge, share := range map[string]float64{"top": 6.0 / 22, "right": 8.0 / 14} {
		pc, e := w.desk.Pattern().Edge("pocket", edge)
		at := pc.Pose.Apply(e.Path.At(share * e.Length()))
		w.pointer(tool.Event{Act: tool.Press, At: at, Reach: 3})
		w.pointer(tool.Event{Act: tool.Release, At: at, Reach: 3})
	}
	for _, set := range [][2]string{{"name", "cut edge"}, {"role", "turned back"}, {"allowance", "1 cm"}} {
		require.NoError(t, w.tool().Set(set[0], set[1]))
	}
	told := func() string {
		t.Helper()
		w.show()
		require.NotNil(t, w.elsewhere.find)
		w.tryElsewhere(context.Background())
		return hinted(w)
	}
	require.NotContains(t, told(), "This would break", "a straight edge can be turned back")
	require.NoError(t, w.tool().Set("bulge", "1.5 cm"))
	said := told()
	require.Contains(t, said, "This would break: turned-back edge cut edge of pocket would have ")
	require.Contains(t, said, "which pleats. Enter cuts")
	w.shoot(t, "breaks-here")
	w.accept()
	require.NotContains(t, hinted(w), "This would break", "it is told by the checks then")
	require.Equal(t, check.Broken, check.Worst(w.desk.Checks()))
}

// Of two things that would be broken the second is called by its name.
func TestASecondThingThatWouldBreakIsNamed(t *testing.T) {
	length := check.Check{ID: check.SeamLength, Seam: "cross seam", Text: "Cross seam: its sides differ by 5 mm."}
	notches := check.Check{ID: check.SeamNotches, Seam: "cross seam", Text: "Cross seam: its notch misses that of the other side by 5 mm."}
	told := desk.Elsewhere{Here: []check.Check{length, notches}}.Breaks(lesson.Called)
	require.Equal(t, "This would break: cross seam: its sides differ by 5 mm; also notches of cross seam.", told)
	told = desk.Elsewhere{Here: []check.Check{length, notches, length}}.Breaks(lesson.Called)
	require.Contains(t, told, "; also notches of cross seam, and one thing more.")
}

// By how much the sides of a seam would differ is told once.
func TestADifferenceIsToldOnce(t *testing.T) {
	const told = "This would break: Wire seam: wire of cup is 21.388 cm, wire of cradle is 20.32 cm, they differ by 1.068 cm."
	for hint, want := range map[string]string{
		"Enter opens it. Sides then differ at wire seam by 1.068 cm. The sides of cross seam then fit.": "Enter opens it. The sides of cross seam then fit.",
		"Enter opens it. Sides then differ at wire seam by 1.068 cm.":                                   "Enter opens it.",
	} {
		require.Equal(t, want, withoutDifference(hint, told))
	}
	for _, hint := range []string{
		"Enter opens it.",
		"Enter opens it. Sides then differ at wire seam by 1.068 cm, at cross seam by 0.2 cm.",
		"Enter opens it. Sides then differ at cross seam by 1.068 cm.",
		"Enter opens it. Sides then differ at wire seam by 1.07 cm.",
	} {
		require.Equal(t, hint, withoutDifference(hint, told))
	}
}
