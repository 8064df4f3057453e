package window

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"github.com/stretchr/testify/require"
)

// asked counts how often it is asked how small it can be.
type asked struct {
	canvas.Rectangle
	n int
}

func (a *asked) MinSize() fyne.Size {
	a.n++
	return fyne.NewSize(10, 10)
}

// The toolkit asks every container for its least size in each frame: one that
// asks what it holds more than once takes that many times longer with every
// one that lies in another.
func TestALineAsksWhatItHoldsOnce(t *testing.T) {
	leaf := &asked{}
	var o fyne.CanvasObject = leaf
	for _, l := range []line{{gap: 8}, {gap: 8, wrap: 200}, {}, {gap: 4, wrap: 100}, {gap: 2}} {
		o = container.New(l, o)
	}
	leaf.n = 0
	require.Equal(t, fyne.NewSize(10, 10), o.MinSize())
	require.Equal(t, 1, leaf.n)
}
