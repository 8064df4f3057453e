package render

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/geom"
	"truemat/ops/demo"
)

// ternNested returns the layers of each piece of the Tern in some of its sizes,
// and the versions that they are drawn of.
func ternNested(t *testing.T, labels ...string) (own [][]Layer, of [][]version) {
	t.Helper()
	run, err := demo.Tern()
	require.NoError(t, err)
	var sizes []SizePieces
	for _, s := range run.Sizes {
		if slices.Contains(labels, s.Label) {
			sizes = append(sizes, SizePieces{s.Label, s.Pattern.Pieces})
		}
	}
	nests, err := nestPieces(sizes, nil)
	require.NoError(t, err)
	for _, n := range nests {
		layers, err := n.draw(geom.Identity(), Options{FoldWhole: true}, nil)
		require.NoError(t, err)
		var vs []version
		for i, pc := range n.each {
			v, err := newVersion(pc, n.moves[i], n.label[i], true)
			require.NoError(t, err)
			vs = append(vs, v)
		}
		own, of = append(own, layers), append(of, vs)
	}
	return own, of
}

func sizeLabelOf(l Layer, size string) []Label {
	return slices.DeleteFunc(slices.Clone(l.Labels), func(l Label) bool { return l.Text != size })
}

// A size's label covers no cut line of another size, no notch and no other
// label, and the line is straight under it; every label stands on its own line.
func TestLabelsOfSizesStandClear(t *testing.T) {
	own, of := ternNested(t, "65C", "80E")
	require.Equal(t, 6, len(own))
	for p, vs := range of {
		for i, v := range vs {
			labels := sizeLabelOf(own[p][i], v.size)
			require.Len(t, labels, 2)
			for _, l := range labels {
				q := l.quad(0.3)
				middle := l.At.Add(l.Angle.Unit().Perp().Mul(l.Height / 2))
				near := v.shape.cut.Nearest(middle)
				assert.Less(t, near.Dist, 1e-6, "%s %s stands on its line", v.piece.Name, v.size)
				assert.LessOrEqual(t, v.bend(near.S, TextWidth(l.Text, l.Height, true)/2), sizeBend, "%s %s", v.piece.Name, v.size)
				for j, other := range vs {
					if j != i {
						for _, at := range walkPoints(other.shape.cut, 0.05) {
							require.Positive(t, apartFrom(q, at), "%s: %s on the line of %s", v.piece.Name, v.size, other.size)
						}
						for _, o := range sizeLabelOf(own[p][j], other.size) {
							for _, at := range walkPoints(polygon(ringOf(o)...), 0.05) {
								require.Positive(t, apartFrom(q, at), "%s: %s on %s", v.piece.Name, v.size, other.size)
							}
						}
					}
					for _, n := range other.shape.notches {
						for _, f := range n.figures(other.notch) {
							for _, at := range walkPoints(f.Path, 0.05) {
								require.Positive(t, apartFrom(q, at), "%s: %s on a notch", v.piece.Name, v.size)
							}
						}
					}
				}
			}
		}
	}
	again, _ := ternNested(t, "65C", "80E")
	assert.True(t, reflect.DeepEqual(own, again), "drawn the same again")
}

func ringOf(l Label) []geom.Point {
	q := l.quad(0.3)
	return q[:]
}

// Where no place is clear, as between twelve sizes, each label still stands.
func TestLabelsOfManySizesStand(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	own, of := ternNested(t, run.Labels()...)
	for p, vs := range of {
		for i, v := range vs {
			assert.Len(t, sizeLabelOf(own[p][i], v.size), 2)
		}
	}
}

func TestApartFrom(t *testing.T) {
	q := [4]geom.Point{geom.Pt(0, 0), geom.Pt(4, 0), geom.Pt(4, 2), geom.Pt(0, 2)}
	assert.Zero(t, apartFrom(q, geom.Pt(1, 1)))
	assert.InDelta(t, 3, apartFrom(q, geom.Pt(1, 5)), 1e-12)
	assert.InDelta(t, 5, apartFrom(q, geom.Pt(7, -4)), 1e-12)
	assert.InDelta(t, math.Sqrt2, apartFrom(q, geom.Pt(-1, 3)), 1e-12)
}
