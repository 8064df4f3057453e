package demo

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// offOutline returns how far a piece's arrow lies off the outline at 201
// places along it; below 0 when any of them is not on the piece.
func offOutline(t *testing.T, pc *pattern.Piece) float64 {
	t.Helper()
	o, err := pc.Outline()
	require.NoError(t, err)
	least := math.Inf(1)
	for i := range 201 {
		at := pc.Arrow.From.Lerp(pc.Arrow.To, float64(i)/200)
		d := o.Nearest(at).Dist
		if !o.Contains(at) {
			d = -d
		}
		least = min(least, d)
	}
	return least
}

// arrowLies asserts that the arrow of a piece that came from old was not
// turned, lies on it, and off the new edges when it stayed; and that on a cup
// part of some size it lies well off everything and is hardly shorter.
func arrowLies(t *testing.T, what string, pc, old *pattern.Piece, fresh ...string) {
	t.Helper()
	was, is := old.Arrow.To.Sub(old.Arrow.From), pc.Arrow.To.Sub(pc.Arrow.From)
	assert.InDelta(t, 0, is.Unit().Dist(was.Unit()), 1e-9, what)
	assert.LessOrEqual(t, is.Norm(), was.Norm()+1e-9, what)
	off := offOutline(t, pc)
	assert.Greater(t, off, 0.4, what)
	if pc.Arrow == old.Arrow {
		assert.Greater(t, off, min(6, offOutline(t, old))-0.2, what)
		for _, name := range fresh {
			for i := range 201 {
				at := pc.Arrow.From.Lerp(pc.Arrow.To, float64(i)/200)
				assert.GreaterOrEqual(t, pc.Edge(name).Path.Nearest(at).Dist, 5.9, what)
			}
		}
	}
	if (pc.Name == innerPiece || old.Name == innerPiece) && pc.Area() > 0.3*old.Area() {
		assert.GreaterOrEqual(t, off, 5.9, what)
		assert.GreaterOrEqual(t, is.Norm(), 0.6*was.Norm(), what)
	}
}

// Wherever a piece of the Tern is split, in every size, the arrow of either
// part lies on it in its old direction, clear of the new seam.
func TestArrowsLieClearAfterASplit(t *testing.T) {
	each(t, func(t *testing.T, p pattern.Pattern) {
		stayed, moved := 0, 0
		for k := range p.Pieces {
			pc := &p.Pieces[k]
			for i := range pc.Edges {
				for j := range i {
					for _, at := range []float64{0.25, 0.5, 0.75} {
						out, err := (&step.Split{Piece: pc.Name, Right: "part", Name: "new seam", Notches: []float64{0.5},
							From: pattern.Spot{Edge: pc.Edges[i].Name, Along: pattern.Along{Share: at}},
							To:   pattern.Spot{Edge: pc.Edges[j].Name, Along: pattern.Along{Share: 0.5}},
						}).Apply(step.Input{Pattern: p})
						if err != nil {
							continue
						}
						for _, name := range []string{pc.Name, "part"} {
							part := out.Pattern.Piece(name)
							arrowLies(t, fmt.Sprintf("%s of %s from %s at %g to %s", name, pc.Name, pc.Edges[i].Name, at, pc.Edges[j].Name), part, pc, "new seam")
							if part.Arrow == pc.Arrow {
								stayed++
							} else {
								moved++
							}
						}
					}
				}
			}
		}
		assert.Greater(t, stayed, 20)
		assert.Greater(t, moved, 100)
	})
}

// Where a spread leaves a dart across or beside an arrow, the arrow moves off
// its legs and out of its cloth.
func TestArrowsLieClearOfADart(t *testing.T) {
	each(t, func(t *testing.T, p pattern.Pattern) {
		stayed, moved := 0, 0
		for k := range p.Pieces {
			pc := &p.Pieces[k]
			for i := range pc.Edges {
				for j := range pc.Edges {
					if i == j || pc.Edges[i].Role == pattern.Fold || pc.Edges[j].Role == pattern.Fold {
						continue
					}
					out, err := (&step.Spread{Piece: pc.Name,
						Slashes: []step.Slash{{From: pattern.Spot{Edge: pc.Edges[i].Name, Along: pattern.Along{Share: 0.5}}}},
						Hinge:   &step.Hinge{Spot: &pattern.Spot{Edge: pc.Edges[j].Name, Along: pattern.Along{Share: 0.5}}},
						Degrees: of(8), Dart: &step.NewDart{Name: "dart", Short: of(8)},
					}).Apply(step.Input{Pattern: p})
					if err != nil {
						continue
					}
					is := out.Pattern.Piece(pc.Name)
					arrowLies(t, fmt.Sprintf("%s from %s to %s", pc.Name, pc.Edges[i].Name, pc.Edges[j].Name), is, pc, "dart before", "dart after")
					if is.Arrow == pc.Arrow {
						stayed++
					} else {
						moved++
					}
				}
			}
		}
		assert.Greater(t, stayed, 5)
		assert.Greater(t, moved, 5)
	})
}

func of(v float64) *step.Number {
	n := step.Lit(v)
	return &n
}
