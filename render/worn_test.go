package render_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/geom"
	"truemat/ops/cloth/worn"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/render"
)

// A dart is seen as one line on each half, with one letter beside it, and no
// letter lies on a name.
func TestWornDrawsADartAsSewn(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	const cup = "lower outer cup"
	amount, short := step.Lit(10), step.Lit(12)
	hinge := pattern.Spot{Edge: "vertical seam", Along: pattern.Along{Share: 0.6}}
	out, err := (&step.Spread{Piece: cup, Slashes: []step.Slash{{From: pattern.Spot{Edge: "wire", Along: pattern.Along{Share: 0.5}}, Hinge: &step.Hinge{Spot: &hinge}}},
		Amount: &amount, Dart: &step.NewDart{Name: "dart", Short: &short}}).Apply(step.Input{Pattern: run.Sizes[0].Pattern})
	require.NoError(t, err)
	l, err := worn.Lay(out.Pattern)
	require.NoError(t, err)
	require.Len(t, l.Darts, 1)
	require.Equal(t, cup, l.Placed[l.Darts[0].On].Piece)
	letters := map[string]string{}
	for i, s := range out.Pattern.Seams {
		letters[s.Name] = string(rune('A' + i))
	}
	box := geom.BoxOf(geom.Pt(0, 0), geom.Pt(150, 100))
	layer := render.Worn(l, letters)(box)
	if path := os.Getenv("WORN_PNG"); path != "" {
		out, err := os.Create(path)
		require.NoError(t, err)
		require.NoError(t, render.WritePNG(out, render.Scene{Box: box, Layers: []render.Layer{layer}}, 200))
	}
	lines, told := 0, 0
	for _, f := range layer.Figures {
		if f.Kind == render.InnerLine {
			lines++
		}
	}
	var dots []geom.Point
	for _, x := range layer.Labels {
		if x.Bold {
			dots = append(dots, x.At.Add(geom.Pt(0, x.Height/2)))
		}
		if x.Text == letters["dart"] {
			told++
		}
	}
	assert.Equal(t, 1, lines)
	assert.Equal(t, 1, told)
	for _, x := range layer.Labels {
		if x.Bold {
			continue
		}
		half := render.TextWidth(x.Text, x.Height, false) / 2
		for _, q := range dots {
			near := geom.Pt(min(max(q.X, x.At.X-half), x.At.X+half), min(max(q.Y, x.At.Y), x.At.Y+x.Height))
			assert.GreaterOrEqual(t, near.Dist(q), 1.9, "a letter lies on %q", x.Text)
		}
	}
}
