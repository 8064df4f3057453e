package window

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func TestOnePictureThatWaitedDoesNotHoldUpTheNext(t *testing.T) {
	w := &Window{before: 2 * time.Millisecond, cost: 33 * time.Millisecond}
	require.Equal(t, frame, w.pace(frame))
	w.before = 30 * time.Millisecond
	require.Equal(t, 60*time.Millisecond, w.pace(frame), "where pictures are slow, half of the time is left to the rest")
}
