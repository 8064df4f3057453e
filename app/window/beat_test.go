package window

import (
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

func TestManyMovesOfThePointerMakeOnePictureAndThenTheBeatRests(t *testing.T) {
	test.NewTempApp(t)
	shown := 0
	b := newBeat(func() { shown++ })
	b.want() // this toolkit ticks once when it is started
	require.Equal(t, 1, shown)
	for range 5 {
		b.want()
	}
	require.Equal(t, 1, shown, "nothing before the next picture")
	b.tick(1)
	require.Equal(t, 2, shown)
	for range restful {
		require.True(t, b.on)
		b.tick(1)
	}
	require.False(t, b.on, "nothing runs while nothing is wanted")
	require.Equal(t, 2, shown)
	b.want()
	require.Equal(t, 3, shown, "it begins again by itself")
}

func TestWhatIsShownOtherwiseIsNotShownAgainByTheBeat(t *testing.T) {
	w := open(t, false)
	shows := 0
	w.beat.on = true
	w.beat.show = func() { shows++ }
	w.beat.want()
	w.show()
	w.beat.tick(1)
	require.Zero(t, shows)
}
