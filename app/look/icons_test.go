package look

import (
	"image"
	"testing"

	"github.com/stretchr/testify/require"
)

// ink is the share of a picture that is covered.
func ink(img *image.RGBA) float64 {
	sum := 0
	for i := 3; i < len(img.Pix); i += 4 {
		sum += int(img.Pix[i])
	}
	return float64(sum) / 255 / float64(len(img.Pix)/4)
}

func TestPenOfAnIconGrowsWithIt(t *testing.T) {
	for _, name := range Icons() {
		small, large := ink(Drawn(name, Light.Text, 26)), ink(Drawn(name, Light.Text, 104))
		require.InEpsilon(t, large, small, 0.04, name)
	}
}
