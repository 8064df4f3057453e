package window

import (
	"math"
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

// A notch dropped at one length lies on another piece where the seam beside it
// is longer or shorter.
func TestANotchThatLiesOnAnotherPieceInASizeIsTold(t *testing.T) {
	w := open(t, false)
	p := w.desk.Pattern()
	lowers := map[string]float64{}
	for _, r := range w.desk.Results() {
		_, e := r.Size.Pattern.Edge("lower outer cup", "vertical seam")
		lowers[r.Size.Label] = e.Length()
	}
	least, most := math.Inf(1), 0.0
	for _, l := range lowers {
		least, most = min(least, l), max(most, l)
	}
	require.Greater(t, most, least)
	at := step.Lit((least + most) / 2)
	s := &step.Walk{Seam: "vertical seam", Drop: []step.Drop{{On: walk.B, Name: "half way", MM: &at}}}
	require.Equal(t, "wire", s.Whence(p))
	require.NoError(t, w.desk.Accept(s))
	told := w.droppedOnAnother(s)
	require.Len(t, told, 1)
	here, other, longer := "upper outer cup", "lower outer cup", true
	if lowers[w.desk.Size()] > (least+most)/2 {
		here, other, longer = other, here, false
	}
	require.Contains(t, told[0], "lies on "+other+", not on "+here+" as here.")
	for label, l := range lowers {
		require.Equal(t, (l > (least+most)/2) == longer, strings.Contains(told[0], label), "%s: %s", label, told[0])
	}
	require.Empty(t, w.droppedOnAnother(&step.Walk{Seam: "vertical seam", Drop: []step.Drop{{On: walk.A, Name: "half way", MM: &at}}}))
}
