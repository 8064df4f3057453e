package window

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
)

// pocket has a notch in its lower edge, and with pocketArrow its grain is drawn.
const (
	pocket      = `<path d="M20 20 H140 V160 H20 Z"/><path d="M80 152 V168"/>`
	pocketArrow = `<path id="grain" d="M50 50 L110 130"/>`
)

func bringPocket(t *testing.T, lines string) *Window {
	w := open(t, false)
	path := filepath.Join(t.TempDir(), "pocket.svg")
	require.NoError(t, os.WriteFile(path, []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="200mm" viewBox="0 0 200 200"><g id="pocket">`+lines+`</g></svg>`), 0o600))
	w.bring(path, true)
	return w
}

// What was found within a piece is drawn where it was drawn.
func TestNotchesAndTheArrowShowInThePictureOfWhatWasFound(t *testing.T) {
	w := bringPocket(t, pocket+pocketArrow)
	require.Contains(t, w.pageSays(), "1 notch, an arrow for the grain")
	require.NotContains(t, w.pageSays(), "no arrow drawn")
	b := w.boardOf(t)
	pc := b.pieces[0]
	low := pc.outline.Bounds().Min
	near := func(pts []geom.Point, x, y float64) bool {
		for _, p := range pts {
			if p.Dist(low.Add(geom.Pt(x, y))) < 1e-6 {
				return true
			}
		}
		return false
	}
	var notch, shaft bool
	for _, line := range b.marks(pc) {
		a, z := line.pts[0], line.pts[len(line.pts)-1]
		if foot := a.Lerp(z, 0.5); foot.Dist(low.Add(geom.Pt(60, 0))) < 1e-6 {
			notch = true
		}
		shaft = shaft || near(line.pts, 30, 110) && near(line.pts, 90, 30)
	}
	require.True(t, notch, "across the lower edge, 60 mm from its corner")
	require.True(t, shaft)
	w.shoot(t, "bring-marks")
}

func TestAnArrowThatWasNotDrawnIsToldToBePut(t *testing.T) {
	w := bringPocket(t, pocket)
	require.Contains(t, w.pageSays(), "no arrow drawn: one for the grain was put upright where there is most room")
	w.shoot(t, "bring-no-arrow")
}
