package mat

import (
	"image"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/pattern"
)

// An arrow is either too small to be drawn or has the sign of its kind: the
// greatest stretch is never drawn as the plain arrow of the grain.
func TestTheKindsOfArrowAreToldApartAtEverySize(t *testing.T) {
	band := tern(t).Piece("band").Clone()
	plain := band.Clone()
	plain.Arrow.Kind = pattern.Grain
	none := band.Clone()
	none.Arrow.To = none.Arrow.From
	drawn := 0
	for _, scale := range []float64{0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.5, 0.7, 1, 2} {
		m, _, capture := shown(t, 640, 400, 1)
		picture := func(pc pattern.Piece) image.Image {
			m.Lay(View{Pieces: []pattern.Piece{pc}})
			m.Fit()
			m.Zoom(scale / m.Camera().Scale)
			return capture()
		}
		stretch := picture(band)
		if alikeOn(m, "band", stretch, picture(none)) == 1 {
			continue
		}
		drawn++
		require.Less(t, alikeOn(m, "band", stretch, picture(plain)), 1.0, "at %g pixels a mm", scale)
	}
	require.Greater(t, drawn, 4)
}
