package window

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/step"
	"truemat/ops/walk"
)

// A pair of notches dropped where the sides meet has one number and one name,
// which alter both; notches of their own are told by the pieces of their side.
func TestAPairOfNotchesDroppedTogetherHasOneNumber(t *testing.T) {
	w := open(t, true)
	eight := step.Lit(80)
	both := &step.Walk{Seam: "vertical seam", Drop: []step.Drop{{On: walk.A, Name: "notch 1", MM: &eight}, {On: walk.B, Name: "notch 1", MM: &eight}}}
	e := step.Entry{ID: "w", Step: both}
	p := w.desk.Pattern()

	shown := 0
	for _, n := range step.NumbersOf(both) {
		if secondOf(both, n.Path) {
			continue
		}
		shown++
		name, ok := walkedName(both, p, n.Path)
		require.True(t, ok)
		require.Equal(t, "Notch 1, from "+both.Whence(p), name.whole)
		next, err := withNumber(e, n.Path, step.Lit(90))
		require.NoError(t, err)
		for _, d := range next.Step.(*step.Walk).Drop {
			v, _ := d.MM.Literal()
			require.Equal(t, 90.0, v)
		}
	}
	require.Equal(t, 1, shown)
	for _, k := range picks(e, p) {
		require.NotEqual(t, "on", lastOf(k.path), "a pair lies on both sides")
	}
	said := both.SentenceOn(p)
	require.Equal(t, 1, strings.Count(said, "notch 1"), said)
	require.Regexp(t, `at 80 mm from the wire on inner cup and (lower|upper) outer cup`, said)

	nine := step.Lit(90)
	both.Drop[1].MM = &nine
	var names []string
	for _, n := range step.NumbersOf(both) {
		name, _ := walkedName(both, p, n.Path)
		names = append(names, name.whole)
	}
	require.Equal(t, []string{"Notch 1 on inner cup, from wire", "Notch 1 on lower and upper outer cup, from wire"}, names)
}
