package look

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"testing"

	"github.com/fyne-io/oksvg"
	"github.com/srwiley/rasterx"
	"github.com/stretchr/testify/require"
)

// luminance is the relative luminance of WCAG 2.2.
func luminance(c color.NRGBA) float64 {
	part := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*part(c.R) + 0.7152*part(c.G) + 0.0722*part(c.B)
}

func contrast(a, b color.NRGBA) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func TestContrastAgainstPublishedValues(t *testing.T) {
	white := rgb(0xffffff)
	require.InDelta(t, 4.54, contrast(rgb(0x767676), white), 0.005, "WCAG: #767676 on white")
	require.InDelta(t, 4.48, contrast(rgb(0x777777), white), 0.005, "WCAG: #777777 on white")
}

func TestTextIsReadableInLightAndDark(t *testing.T) {
	for name, p := range map[string]Palette{"light": Light, "dark": Dark} {
		for what, pair := range map[string][2]color.NRGBA{
			"text on ground":   {p.Text, p.Ground},
			"text on raised":   {p.Text, p.Raised},
			"text on soft":     {p.Text, p.Soft},
			"faint on ground":  {p.Faint, p.Ground},
			"faint on raised":  {p.Faint, p.Raised},
			"accent on ground": {p.Accent, p.Ground},
			"accent on raised": {p.Accent, p.Raised},
			"on accent":        {p.OnAccent, p.Accent},
			"good on ground":   {p.Good, p.Ground},
			"look on ground":   {p.Look, p.Ground},
			"poor on ground":   {p.Poor, p.Ground},
		} {
			require.GreaterOrEqual(t, contrast(pair[0], pair[1]), 4.5, "%s, %s", name, what)
		}
	}
}

func TestEveryIconCanBeDrawnAndDiffersFromTheOthers(t *testing.T) {
	seen := map[string]string{}
	for _, name := range Icons() {
		icon, err := oksvg.ReadIconStream(bytes.NewReader(Icon(name, Light.Text).Content()))
		require.NoError(t, err, name)
		img := image.NewRGBA(image.Rect(0, 0, 48, 48))
		icon.SetTarget(0, 0, 48, 48)
		icon.Draw(rasterx.NewDasher(48, 48, rasterx.NewScannerGV(48, 48, img, img.Bounds())), 1)
		ink := 0
		for i := 3; i < len(img.Pix); i += 4 {
			if img.Pix[i] > 128 {
				ink++
			}
		}
		require.Greater(t, ink, 50, "%s leaves ink", name)
		require.Empty(t, seen[string(img.Pix)], "%s looks like another", name)
		seen[string(img.Pix)] = name
	}
}
