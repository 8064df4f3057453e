package look

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// The toolkit draws a line of writing into as many rows as above + below is when
// rounded, its letters standing ⌈above⌉ rows down; no letter may reach out.
func TestNoLetterIsCutAtTheSizesOfTheWindow(t *testing.T) {
	for name, ttf := range map[string][]byte{"regular": regular.Content(), "bold": bold.Content()} {
		f, err := sfnt.Parse(ttf)
		require.NoError(t, err)
		em := fixed.I(int(f.UnitsPerEm()))
		m, err := f.Metrics(nil, em, font.HintingNone)
		require.NoError(t, err)
		above, below := float64(m.Ascent.Round())/2048, float64(m.Descent.Round())/2048
		require.InDelta(t, faceAbove, m.Ascent.Round(), 0)
		require.InDelta(t, faceBelow, m.Descent.Round(), 0)
		var high, deep float64
		for _, r := range "AMÄÉÑŻagjpqyçğ(),;|½→°" {
			i, err := f.GlyphIndex(nil, r)
			require.NoError(t, err)
			b, _, err := f.GlyphBounds(nil, i, em, font.HintingNone)
			require.NoError(t, err)
			high, deep = max(high, -float64(b.Min.Y)/64/2048), max(deep, float64(b.Max.Y)/64/2048)
		}
		for _, size := range []float64{12, 13, 14, 16, 20} {
			for _, scale := range []float64{1, 1.5, 2} {
				s := size * scale
				rows := math.Ceil(s * above)
				require.LessOrEqual(t, s*deep, math.Round(s*(above+below))-rows, "%s, %g at scale %g: what hangs below the line", name, size, scale)
				require.LessOrEqual(t, s*high, rows+0.6, "%s, %g at scale %g: what stands on it, but for the rim of an accent", name, size, scale)
			}
		}
	}
}
