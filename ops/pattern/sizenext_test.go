package pattern

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestTheNextBandAndTheNextCup(t *testing.T) {
	labels := []string{"65C", "65D", "65E", "70C", "70D", "70E", "75C", "75D", "75E", "80C", "80D", "80E"}
	assert.True(t, AllBandsAndCups(labels))
	assert.Equal(t, []string{"70C", "80C"}, NextBands(labels, "75C"))
	assert.Equal(t, []string{"75D"}, NextCups(labels, "75C"))
	assert.Equal(t, []string{"75C", "75E"}, NextCups(labels, "75D"))
	assert.Equal(t, []string{"70C"}, NextBands(labels, "65C"))
	assert.Equal(t, []string{"70E", "75D"}, NextSizes(labels, "75C"))
	assert.Equal(t, []string{"34DD", "34F"}, NextCups([]string{"32E", "34DD", "34 E", "34F"}, "34 E"))
	for _, other := range []string{"S", "38", "one size", "75C-1", "", "C75"} {
		_, _, ok := BandAndCup(other)
		assert.False(t, ok, other)
		assert.Empty(t, NextBands(labels, other))
	}
	assert.False(t, AllBandsAndCups([]string{"75C", "S"}))
	assert.Equal(t, []string{"S", "L"}, NextSizes([]string{"S", "M", "L"}, "M"))
}
