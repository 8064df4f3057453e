package assets_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/font/sfnt"
	"truemat/assets"
)

func TestFontHasWhatDrawingsWrite(t *testing.T) {
	for name, ttf := range map[string][]byte{"regular": assets.FontRegular(), "bold": assets.FontBold()} {
		f, err := sfnt.Parse(ttf)
		require.NoError(t, err, name)
		family, err := f.Name(nil, sfnt.NameIDFamily)
		require.NoError(t, err)
		assert.Contains(t, family, assets.FontFamily)
		for _, r := range "AZaz09·×–—½¼¾⅛⅜⅝⅞±≤≥äöüßéèçñąłżΑωЖя→" {
			i, err := f.GlyphIndex(nil, r)
			require.NoError(t, err)
			assert.NotZero(t, i, "%s: no glyph for %q", name, r)
		}
	}
}

func TestLicenceComesAlong(t *testing.T) {
	assert.Contains(t, assets.FontLicence, "Bigelow & Holmes")
	assert.Contains(t, assets.FontLicence, "Redistributions in binary form must reproduce the above copyright notice")
}
