package mat

import (
	"image"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

// alikeOn is the share of the pixels well inside the paper of a piece that two
// pictures show alike.
func alikeOn(m *Mat, name string, a, b image.Image) float64 {
	l := m.find(name)
	p := &painter{camera: m.camera, px: 1}
	at := p.onto(l.pose)
	ring := at.all(nil, l.sewRing)
	box := geom.BoxOf(ring...)
	all, same := 0, 0
	for y := int(box.Min.Y); y < int(box.Max.Y); y++ {
		for x := int(box.Min.X); x < int(box.Max.X); x++ {
			if inside(ring, geom.Pt(float64(x)+0.5, float64(y)+0.5)) {
				all++
				if a.At(x, y) == b.At(x, y) {
					same++
				}
			}
		}
	}
	return float64(same) / float64(all)
}

func TestOnlyItsOwnOtherSizesAreSeenThroughAPiece(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	m, _, capture := shown(t, 900, 700, 1)
	pieces := run.Sizes[0].Pattern.Pieces
	v := View{Pieces: pieces}
	for _, s := range run.Sizes[1:] {
		v.Nested = append(v.Nested, s.Pattern.Pieces)
	}
	m.Lay(v)
	m.Fit()
	all := capture()
	keep(t, "nested.png", all)
	for _, name := range []string{"inner cup", "upper outer cup", "lower outer cup", "cradle", "band"} {
		own := View{Pieces: pieces, Nested: make([][]pattern.Piece, len(v.Nested))}
		for i, size := range v.Nested {
			for _, pc := range size {
				if pc.Name == name {
					own.Nested[i] = append(own.Nested[i], pc)
				}
			}
		}
		m.Lay(own)
		require.Equal(t, 1.0, alikeOn(m, name, all, capture()), "%s: its own sizes alone look the same on its paper", name)
		m.Lay(View{Pieces: pieces})
		require.Less(t, alikeOn(m, name, all, capture()), 0.99, "%s: its own sizes are seen", name)
	}
}

func TestAllIsFittedAgainWhenOtherSizesLieOutOfView(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	m, _, _ := shown(t, 900, 700, 1)
	first, last := run.Sizes[0].Pattern.Pieces, run.Sizes[len(run.Sizes)-1].Pattern.Pieces
	m.Lay(View{Pieces: first})
	m.Fit()
	before := m.Camera()
	m.Lay(View{Pieces: last})
	m.Refit()
	require.Less(t, m.Camera().Scale, before.Scale)
	m.Lay(View{Pieces: first})
	smaller := m.Camera()
	m.Refit()
	require.Equal(t, smaller, m.Camera(), "what is seen whole stays where it is")
	m.FitAgain()
	require.Equal(t, before, m.Camera(), "another size is shown as large as there is room")
	m.Zoom(2)
	own := m.Camera()
	m.Lay(View{Pieces: last, Nested: [][]pattern.Piece{first}})
	m.Refit()
	require.Equal(t, own, m.Camera(), "a view of her own stays")
	m.FitAgain()
	require.Equal(t, own, m.Camera(), "a view of her own stays")
}
