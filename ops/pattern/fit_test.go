package pattern_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

func TestFitReachesTheFiguresOfASizeAndLeavesTheSourceAlone(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	s := run.Sizes[3]
	w := run.Fit.Wire(s.Wire)
	require.NotNil(t, w)
	got := run.Fitted(s).Figures
	require.Equal(t, w.Length, got[pattern.FigureWire])
	require.Equal(t, 6.0, got[pattern.FigurePlayStart])
	require.Equal(t, run.Fit.Reduction, got[pattern.FigureReduction])
	require.Equal(t, 700.0, got[pattern.FigureUnderbust])
	require.NotContains(t, s.Pattern.Figures, pattern.FigureWire)

	old := pattern.Run{Sizes: []pattern.Size{{Label: "S", Pattern: pattern.Pattern{Figures: map[string]float64{pattern.FigureWire: 200}}}}}
	require.Equal(t, map[string]float64{pattern.FigureWire: 200}, old.Fitted(old.Sizes[0]).Figures, "an old pattern keeps its figure")
}

func TestWithFitStatesWiresAndBodies(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	f := run.Fit
	f.Wires = append(f.Wires[:1:1], pattern.Wire{Name: "long", Length: 300})
	all := run.SizeFits()
	for label, s := range all {
		s.Wire = f.Wires[0].Name
		all[label] = s
	}
	all["75C"] = pattern.SizeFit{Wire: "long", Underbust: 760}
	next, err := run.WithFit(f, all)
	require.NoError(t, err)
	require.NoError(t, next.Validate())
	s, _ := next.Size("75C")
	require.Equal(t, "long", s.Wire)
	require.Equal(t, 760.0, s.Pattern.Figures[pattern.FigureUnderbust])
	was, _ := run.Size("75C")
	require.Equal(t, 750.0, was.Pattern.Figures[pattern.FigureUnderbust], "the run before is as it was")

	// A length that came as a figure gives way to the table.
	bare, err := run.WithFit(pattern.Fit{}, none(all))
	require.NoError(t, err)
	bare.Sizes[0].Pattern.Figures[pattern.FigureWire] = 190
	require.NoError(t, bare.Validate())
	next, err = bare.WithFit(f, map[string]pattern.SizeFit{bare.Sizes[0].Label: {Wire: "long"}})
	require.NoError(t, err)
	require.NotContains(t, next.Sizes[0].Pattern.Figures, pattern.FigureWire)
	require.NotContains(t, next.Sizes[0].Pattern.Figures, pattern.FigureUnderbust)
}

// none takes the wires out.
func none(all map[string]pattern.SizeFit) map[string]pattern.SizeFit {
	bare := map[string]pattern.SizeFit{}
	for label, s := range all {
		bare[label] = pattern.SizeFit{Underbust: s.Underbust}
	}
	return bare
}

func TestAWrongFitIsRefusedByName(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	wires := func(w ...pattern.Wire) pattern.Fit {
		return pattern.Fit{Wires: append(run.Fit.Wires[:len(run.Fit.Wires):len(run.Fit.Wires)], w...)}
	}
	reduced := func(v float64) pattern.Fit { f := run.Fit; f.Reduction = v; return f }
	for _, c := range []struct {
		fit   pattern.Fit
		sizes map[string]pattern.SizeFit
		want  string
	}{
		{run.Fit, map[string]pattern.SizeFit{"90Z": {}}, `no size "90Z"`},
		{run.Fit, map[string]pattern.SizeFit{"75C": {Wire: "none such"}}, `size 75C takes the wire "none such"`},
		{run.Fit, map[string]pattern.SizeFit{"75C": {Underbust: -3}}, "size 75C: an underbust of -3"},
		{wires(pattern.Wire{Name: "a", Length: -5}), nil, `wire "a": a length of -5`},
		{wires(pattern.Wire{Name: "a"}), nil, `wire "a": a length of 0`},
		{wires(pattern.Wire{Name: "a", Length: 9, PlayEnd: -1}), nil, `wire "a": a play of -1`},
		{wires(pattern.Wire{Name: "a", Length: 9}, pattern.Wire{Name: "a", Length: 8}), nil, "two of them are called wire"},
		{wires(pattern.Wire{Length: 9}), nil, "has no name"},
		{pattern.Fit{}, nil, "takes the wire"},
		{reduced(-1), nil, "reduction of -1"},
		{reduced(75), nil, "reduction of 75"},
		{pattern.Fit{Wires: run.Fit.Wires, Closure: -1}, nil, "closure that adds -1"},
	} {
		_, err := run.WithFit(c.fit, c.sizes)
		require.ErrorContains(t, err, c.want)
	}
	two := run.Sizes[0]
	two.Pattern = two.Pattern.Clone()
	two.Pattern.Figures[pattern.FigureWire] = 1
	run.Sizes[0] = two
	require.ErrorContains(t, run.Validate(), "also states a wire of 1 mm")
}
