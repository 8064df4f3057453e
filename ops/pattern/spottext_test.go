package pattern

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestSpotsAreReadAsWritten(t *testing.T) {
	for text, want := range map[string]Spot{
		"cradle: hem start":               AtEnd("cradle", "hem", Start),
		" inner cup :  side  seam   end ": AtEnd("inner cup", "side seam", End),
		"band: hem middle":                {Piece: "band", Edge: "hem", Along: Along{From: Start, Share: 0.5}},
		"band: hem 30%":                   {Piece: "band", Edge: "hem", Along: Along{From: Start, Share: 0.3}},
		"band: hem 25% from end":          {Piece: "band", Edge: "hem", Along: Along{From: End, Share: 0.25}},
		"band: hem 12mm from end":         {Piece: "band", Edge: "hem", Along: Along{From: End, MM: 12}},
		"band: hem 1/2 in":                {Piece: "band", Edge: "hem", Along: Along{From: Start, MM: 12.7}},
		"band: wire 2 start":              AtEnd("band", "wire 2", Start),
		"band: wire 2 12 mm":              {Piece: "band", Edge: "wire 2", Along: Along{From: Start, MM: 12}},
		"inner cup: notch below apex":     AtNotch("inner cup", "below apex"),
	} {
		got, err := ParseSpot(text)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "hem start", ": hem start", "cradle:", "cradle: hem", "cradle: start", "cradle: hem -3mm", "cradle: hem 120%", "cradle: 12mm", "cradle: hem from end"} {
		_, err := ParseSpot(text)
		require.Error(t, err, text)
	}
}
