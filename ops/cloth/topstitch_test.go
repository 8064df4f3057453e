package cloth_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/cloth"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

func TestWrongTopstitchingAndEyesAreRefused(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	for says, change := range map[string]func(*cloth.Goods){
		"names no seam":       func(g *cloth.Goods) { g.Topstitch = []cloth.Topstitch{{Class: "301"}} },
		"ISO 4915":            func(g *cloth.Goods) { g.Topstitch = []cloth.Topstitch{{Seam: "side seam", Class: "zigzag"}} },
		"ratio":               func(g *cloth.Goods) { g.Topstitch = []cloth.Topstitch{{Seam: "side seam", Class: "209"}} },
		"-1 mm from":          func(g *cloth.Goods) { g.Topstitch = []cloth.Topstitch{{Seam: "side seam", Class: "301", Away: -1}} },
		"rows lie 0 mm apart": func(g *cloth.Goods) { g.Topstitch = []cloth.Topstitch{{Seam: "side seam", Class: "301", Rows: 2}} },
		"has one row":         func(g *cloth.Goods) { g.Topstitch = []cloth.Topstitch{{Seam: "side seam", Class: "301", Between: 3}} },
		"-2 rows":             func(g *cloth.Goods) { g.Topstitch = []cloth.Topstitch{{Seam: "side seam", Class: "301", Rows: -2}} },
		"waist seam":          func(g *cloth.Goods) { g.Topstitch = []cloth.Topstitch{{Seam: "waist seam", Class: "301"}} },
		"twice": func(g *cloth.Goods) {
			g.Topstitch = []cloth.Topstitch{{Seam: "side seam", Class: "301"}, {Seam: "side seam", Class: "304"}}
		},
		"0 columns of eyes": func(g *cloth.Goods) { g.Notions.Eyes = cloth.Eyes{Spacing: 19} },
		"are 0 mm apart":    func(g *cloth.Goods) { g.Notions.Eyes = cloth.Eyes{Columns: 3} },
		"one column":        func(g *cloth.Goods) { g.Notions.Eyes = cloth.Eyes{Columns: 1, Spacing: 19} },
		"column 4 of 3":     func(g *cloth.Goods) { g.Notions.Eyes = cloth.Eyes{Columns: 3, Spacing: 19, Worn: 4} },
	} {
		g := cloth.Goods{}
		change(&g)
		err := g.Validate()
		if err == nil {
			err = g.Fits(run.Sizes[0].Pattern)
		}
		require.ErrorContains(t, err, says)
	}
	p := run.Fitted(run.Sizes[0])
	require.NoError(t, cloth.Goods{Notions: cloth.Notions{Eyes: cloth.Eyes{Columns: 3, Spacing: 19}}}.Fits(p))
	require.ErrorContains(t, cloth.Goods{Notions: cloth.Notions{Eyes: cloth.Eyes{Columns: 5, Spacing: 19}}}.Fits(p), "longer closure")
}

// A lockstitch takes 2.5 mm of thread a mm of seam; two rows on both sides of a
// seam pressed open are four, on the left and the right eight.
func TestTopstitchingTakesThread(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	p := run.Sizes[0].Pattern.Clone()
	s := p.Seam("side seam")
	a, b := p.SeamLengths(*s)
	for press, rows := range map[pattern.Press]float64{pattern.PressedOpen: 8, pattern.PressedToA: 4, "": 4} {
		s.Press = press
		g := cloth.Goods{Topstitch: []cloth.Topstitch{{Seam: s.Name, Class: "301", Away: 1.5, Rows: 2, Between: 3}}}
		threads, err := g.Threads(p)
		require.NoError(t, err)
		require.Len(t, threads, 1)
		require.InDelta(t, rows*max(a, b)*2.5, threads[0].Long, 1e-9, press)
	}
}
