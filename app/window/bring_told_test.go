package window

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/require"
)

// What is red because of a drawing that was laid beside is told above the tools,
// as after any act.
func TestWhatALaidDrawingBreaksIsTold(t *testing.T) {
	w := open(t, false)
	path := filepath.Join(t.TempDir(), "flap.svg")
	require.NoError(t, os.WriteFile(path, []byte(flap), 0o600))
	row := w.bring(path, false).row
	lowest := math.Inf(1)
	for _, e := range w.boardOf(t).pieces[0].Edges {
		lowest = min(lowest, e.Path.Transform(w.boardOf(t).pieces[0].Pose).At(e.Length()/2).Y)
	}
	roles := map[bool]string{true: "hem", false: "wire line"} // straight or hollow
	for edge := range w.boardOf(t).pieces[0].Edges {
		b := w.boardOf(t)
		e := &b.pieces[0].Edges[edge]
		mid := e.Path.Transform(b.pieces[0].Pose).At(e.Length() / 2)
		bottom := e.Path.IsStraight() && mid.Y < lowest+1
		if e.Path.IsStraight() && !bottom {
			continue
		}
		at := b.position(mid)
		b.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}})
		b.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
		row.role.SetSelected(roles[bottom])
	}
	w.pressOnPage(t, "Lay it beside what is on the mat")
	require.Nil(t, w.sheet)
	line := strings.Join(texts(w.prompt.row), " ")
	require.Contains(t, line, "Step 1 is kept. Red now: ")
	require.Equal(t, w.palette.Poor, w.prompt.wrong.Color)
}
