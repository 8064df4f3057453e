package check

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestOwnBoundsAreLaidOverTheUsual(t *testing.T) {
	var o Own
	o, err := o.Set("seam-length=0.2,1/16 in")
	require.NoError(t, err)
	o, err = o.With(SeamEase, 4)
	require.NoError(t, err)
	assert.Equal(t, Own{SeamLength: {0.2, 1.5875}, SeamEase: {4}}, o)
	want := Defaults()
	want.Seam, want.Ease = Bound{0.2, 1.5875}, Bound{4, 4}
	assert.Equal(t, want, o.Bounds())

	back, err := o.Set("seam-ease = usual")
	require.NoError(t, err)
	assert.Equal(t, Own{SeamLength: {0.2, 1.5875}}, back)
	assert.Contains(t, o, SeamEase, "the others stay")
	back, err = back.With(SeamLength, 0.5, 1.5)
	require.NoError(t, err)
	assert.Nil(t, back, "what is as usual is not kept")

	for _, bad := range []Own{{"seams": {1}}, {SeamLength: {}}, {SeamLength: {1, 2, 3}}, {SeamLength: {2, 1}}, {SeamLength: {-1}}, {ShortEdge: {1, 2}}, {ClothBelow: {1, 2}}, {"arrow": {2000}}} {
		assert.Error(t, bad.Validate(), "%v", bad)
		assert.Equal(t, Defaults(), bad.Bounds(), "%v", bad)
	}
	_, err = o.Set("seams=usual")
	require.ErrorContains(t, err, `no bound "seams"`)
	_, err = o.With(SeamLength, 2, 1)
	require.Error(t, err)
}

// Every bound is found beside a check, and moving it there moves that check's
// verdict for the cup against the wire line too.
func TestSettingsOfChecks(t *testing.T) {
	b := Defaults()
	seen := map[string]bool{}
	for _, id := range []string{WireLength, WireOpening, WirePlay, SeamLength, SeamEase, SeamEnds, RunOn, LineCorner, FoldSquare, HemLength, HemBody, ClothBelow, LaceStraight, TurnedBack, TurnedRound, ShortEdge, ClosureHeight, ArrowTurned, HalvesAlike} {
		for _, s := range b.Settings(id) {
			seen[s.Name] = true
		}
	}
	for _, s := range b.settings() {
		assert.Equal(t, s.name != "channelling", seen[s.name], s.name)
	}
	assert.Equal(t, b.Settings(SeamLength), b.Settings(CupWire))
	assert.Empty(t, b.Settings(CutLine))
	assert.Len(t, b.Settings(WirePlay), 3)
}
