package mat

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

// The sizes beneath are named beside their lines where there is room, and
// where the line shows.
func TestSizesBeneathAreNamedBesideTheirLines(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	m, _, capture := shown(t, 1280, 800, 1)
	at := func(label string) []pattern.Piece {
		s, ok := run.Size(label)
		require.True(t, ok)
		return s.Pattern.Pieces
	}
	v := View{Pieces: at("75C"), Nested: [][]pattern.Piece{at("70C"), at("80C")}}
	m.Lay(v)
	m.Fit()
	bare := capture()
	v.Sizes = []string{"70C", "80C"}
	m.Lay(v)
	named := capture()
	keep(t, "nested-named.png", named)
	differ := func() (n int) {
		now, b := capture(), bare.Bounds()
		for y := b.Min.Y; y < b.Max.Y; y++ {
			for x := b.Min.X; x < b.Max.X; x++ {
				if now.At(x, y) != bare.At(x, y) {
					n++
				}
			}
		}
		return n
	}
	words := differ()
	require.Greater(t, words, 600, "about ten words")
	require.Less(t, words, 4000)

	// Where all sizes lie on each other there is no line to stand beside.
	v.Nested = [][]pattern.Piece{at("75C"), at("75C")}
	m.Lay(v)
	same := capture()
	v.Sizes = nil
	m.Lay(v)
	require.Equal(t, capture(), same)
}
