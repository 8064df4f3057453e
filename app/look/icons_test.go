package look

import (
	"bytes"
	"image"
	"testing"

	"github.com/fyne-io/oksvg"
	"github.com/srwiley/rasterx"
	"github.com/stretchr/testify/require"
)

// drawn is an icon as the toolkit draws it, size pixels wide.
func drawn(t *testing.T, name string, size int) *image.RGBA {
	icon, err := oksvg.ReadIconStream(bytes.NewReader(Icon(name, Light.Text).Content()))
	require.NoError(t, err, name)
	img := image.NewRGBA(image.Rect(0, 0, size, size))
	icon.SetTarget(0, 0, float64(size), float64(size))
	icon.Draw(rasterx.NewDasher(size, size, rasterx.NewScannerGV(size, size, img, img.Bounds())), 1)
	return img
}

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
		small, large := ink(drawn(t, name, 26)), ink(drawn(t, name, 104))
		require.InEpsilon(t, large, small, 0.04, name)
	}
}
