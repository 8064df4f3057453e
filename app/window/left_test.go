package window

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
)

// The window comes as large as it was left; what makes no sense is not taken.
func TestTheWindowOpensAsItWasLeft(t *testing.T) {
	w := open(t, false)
	again := func() fyne.Size { return New(w.app, w.desk).win.Canvas().Size() }
	require.Equal(t, firstSize, again())
	w.win.Resize(fyne.NewSize(1600, 950))
	w.quit()
	require.Equal(t, fyne.NewSize(1600, 950), again())
	for _, nonsense := range []float64{-4, 3, 1e9} {
		w.set.SetFloat(prefWide, nonsense)
		require.Equal(t, firstSize, again())
	}
}
