package bulk

import (
	"fmt"
	"slices"
	"strings"

	"truemat/ops/unit"
)

// trimSeam proposes widths of the allowances of a seam that step down from the
// outside in: the outermost keeps its width. Edges that are folded under are
// left as cut instead, since a fold cannot step down.
func (f finder) trimSeam(pl *Place) {
	var layers []*Sheet
	folded, whole := false, false
	for i := range pl.Stack {
		if pl.Stack[i].Folded {
			folded = true
			continue
		}
		if pl.Stack[i].Whole {
			whole = true
			continue
		}
		layers = append(layers, &pl.Stack[i])
	}
	n := f.stepDown(layers)
	instead := ""
	if folded {
		instead = "leave the edges there unfolded, overcast or as cut, and "
	}
	switch {
	case n >= 2:
		pl.Remedy = fmt.Sprintf("%s: %strim the allowances from the outside in so that they step down, and never nearer than %s to the sewing", pl.told(), instead, unit.Format(f.l.Least, unit.Millimetres))
	case folded:
		pl.Remedy = fmt.Sprintf("%s: leave the edges there unfolded, overcast or as cut", pl.told())
	case whole:
		pl.Remedy = fmt.Sprintf("%s: press the dart flat before it is sewn over, take thinner cloth there, or share the dart out in two", pl.told())
	default:
		pl.Remedy = fmt.Sprintf("%s: take thinner cloth there, or let the edges lie side by side", pl.told())
	}
}

// trimFold proposes widths of what is folded back at an edge: the layer that
// covers the others keeps its width, so that the stitching holds it, and those
// beneath step down.
func (f finder) trimFold(pl *Place) {
	var layers []*Sheet
	for i := range slices.Backward(pl.Stack) {
		layers = append(layers, &pl.Stack[i])
	}
	if f.stepDown(layers) < 2 {
		pl.Remedy = fmt.Sprintf("%s: face it with thinner cloth, or leave the edge unfolded", pl.told())
		return
	}
	pl.Remedy = fmt.Sprintf("%s: trim what is folded back so that it steps down beneath the innermost layer, and never nearer than %s to the fold", pl.told(), unit.Format(f.l.Least, unit.Millimetres))
}

// stepDown proposes for each layer that has an allowance a width one step less
// than that of the layer before, where it is wider; the first keeps its own. It
// returns how many layers have one.
func (f finder) stepDown(layers []*Sheet) int {
	width, n := 0.0, 0
	for _, s := range layers {
		if s.Width == 0 {
			continue
		}
		n++
		if width == 0 {
			width = s.Width
			continue
		}
		if width = max(width-f.l.Step, f.l.Least); width < s.Width {
			s.Trimmed = width
		}
		width = min(width, s.Width)
	}
	return n
}

// told says how thick it is, and where.
func (pl Place) told() string {
	switch {
	case pl.Edge != "":
		return fmt.Sprintf("%.1f mm of cloth lie on each other along %s, %s", pl.Thickness, pl.Edge, pl.How)
	case pl.Across != "":
		return fmt.Sprintf("%.1f mm of cloth lie on each other where %q meets %s", pl.Thickness, pl.Seam, pl.Across)
	}
	return fmt.Sprintf("%.1f mm of cloth lie on each other along %q", pl.Thickness, pl.Seam)
}

// Advice is the remedy with what is to be trimmed, and to what width, as a
// sentence; empty where it is not too thick.
func (pl Place) Advice() string {
	if pl.Remedy == "" {
		return ""
	}
	return pl.Remedy + pl.widths() + "."
}

// widths lists what is to be trimmed, and to what width.
func (pl Place) widths() string {
	var layers []string
	to := map[string][]string{}
	for _, s := range pl.Stack {
		if s.Trimmed == 0 {
			continue
		}
		layer, width := s.Cloth+" of "+s.Piece, unit.Format(s.Trimmed, unit.Millimetres)
		if !slices.Contains(layers, layer) {
			layers = append(layers, layer)
		}
		if !slices.Contains(to[layer], width) {
			to[layer] = append(to[layer], width)
		}
	}
	for i, layer := range layers {
		layers[i] = layer + " to " + strings.Join(to[layer], " and ")
	}
	if len(layers) == 0 {
		return ""
	}
	return ": " + strings.Join(layers, ", ")
}
