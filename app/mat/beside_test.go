package mat

import (
	"image"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

// In a small window, and where each unit has two pixels, every piece has its
// name: on it, or beside it where no piece lies.
func TestEveryPieceIsNamedFromAfar(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	for _, scale := range []float32{1, 2} {
		for _, size := range run.Sizes {
			m, _, capture := shown(t, 640, 400, scale)
			m.Lay(View{Pieces: size.Pattern.Pieces})
			capture() // tells how many pixels a unit has
			p := &painter{brush: &brush{}, palette: m.palette, camera: m.camera, px: float64(scale)}
			p.begin(int(640*scale), int(400*scale))
			for _, l := range m.still {
				p.piece(l)
			}
			beside := p.unnamedAt(m.still)
			require.Len(t, beside, len(p.unnamed), "size %s at scale %g: every piece is named", size.Label, scale)
			for name, at := range beside {
				s := lineStrip(name, at, geom.Pt(1, 0), besideSize*p.px, true)
				for _, l := range m.still {
					onto := p.onto(l.pose)
					require.False(t, s.onto(onto.all(nil, l.rim())), "%s lies on %s", name, l.piece.Name)
				}
			}
		}
	}
}

// From afar the arrow of a piece that was taped on would be taken for the one
// that counts.
func TestAnOldArrowShowsOnlyFromNear(t *testing.T) {
	was := tern(t)
	bridge := was.Piece("bridge").Clone()
	old := bridge.Clone()
	mid := bridge.Arrow.From.Lerp(bridge.Arrow.To, 0.5)
	old.Inner = append(old.Inner, pattern.Inner{Name: "old arrow", Kind: pattern.OldArrow,
		Path: geom.Must(geom.Polyline(mid.Add(geom.Pt(0, 15)), mid.Add(geom.Pt(6, 40))))})
	for scale, shows := range map[float64]bool{1: false, 1.5: false, 6: true} {
		m, _, capture := shown(t, 640, 400, 1)
		picture := func(pc pattern.Piece) image.Image {
			m.Lay(View{Pieces: []pattern.Piece{pc}})
			m.Fit()
			m.Zoom(scale / m.Camera().Scale)
			return capture()
		}
		a, b := picture(bridge), picture(old)
		require.Equal(t, !shows, alikeOn(m, "bridge", a, b) == 1, "at %g pixels a mm", scale)
	}
}
