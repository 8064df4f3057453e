package pattern

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestANotchIsNotCalledSoTwice(t *testing.T) {
	require.Equal(t, "notch apex", NotchWords("apex"))
	require.Equal(t, "notch 1", NotchWords("notch 1"))
	require.Equal(t, "notch notched", NotchWords("notched"))
	require.Equal(t, `notch "apex"`, NotchSaid("apex"))
	require.Equal(t, "notch 1", NotchSaid("notch 1"))
	require.Equal(t, `notch "notched"`, NotchSaid("notched"))
}
