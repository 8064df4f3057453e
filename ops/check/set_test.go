package check

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestBoundsAreSetByName(t *testing.T) {
	b, err := Defaults().Set("seam-length=0.2,1/16 in")
	require.NoError(t, err)
	assert.Equal(t, Bound{0.2, 1.5875}, b.Seam)
	b, err = b.Set("seam-ease= 4")
	require.NoError(t, err)
	assert.Equal(t, Bound{4, 4}, b.Ease)
	b, err = b.Set("wire-play=6,2")
	require.NoError(t, err)
	assert.Equal(t, []float64{6, 2}, []float64{b.PlayHolds, b.PlayLeast})
	b, err = b.Set("arrow=1,3 deg")
	require.NoError(t, err)
	assert.Equal(t, Bound{1, 3}, b.Arrow)
	assert.Equal(t, Bound{0.5, 1.5}, Defaults().Seam, "the defaults stay")

	// What is listed can be set, to what it is.
	for _, text := range Defaults().BoundNames() {
		same, err := Defaults().Set(text)
		require.NoError(t, err, text)
		require.Equal(t, Defaults(), same, text)
	}
	for text, want := range map[string]string{
		"seams=1":                `no bound "seams"; there are wire-length=0.5,1.5, wire-opening=5,10`,
		"seam-length":            "write name=value",
		"seam-length=x":          "takes a length",
		"seam-length=-1":         "from 0 to 1000",
		"seam-length=2,1":        "the second value is the greater",
		"cloth-below-wire=18,22": "the second value is the smaller",
		"seam-length=1,2,3":      "or two with a comma",
		"channelling=9,10":       "takes a length, not",
		"seam-ease=NaN":          "a number of per cent",
	} {
		_, err := Defaults().Set(text)
		require.Error(t, err, text)
		assert.True(t, strings.Contains(err.Error(), want), "%s: %s", text, err)
	}
}
