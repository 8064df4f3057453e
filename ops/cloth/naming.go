package cloth

import (
	"slices"
	"strings"

	"truemat/ops/pattern"
)

// CutFrom names what a piece is cut from, the outermost layer first: the
// layers that the goods state for it, or else the cloth that the piece itself
// names, if any.
func (g Goods) CutFrom(pc *pattern.Piece) string {
	layers := g.Layers(pc.Name)
	if len(layers) == 0 {
		return pc.Cut.Cloth
	}
	names := make([]string, len(layers))
	for i, c := range layers {
		names[i] = c.Name
	}
	return strings.Join(names, " over ")
}

// Named returns the pieces naming the cloth that they are cut from, as
// [Goods.CutFrom] says, to be drawn or printed.
func (g Goods) Named(pieces []pattern.Piece) []pattern.Piece {
	out := slices.Clone(pieces)
	for i := range out {
		out[i].Cut.Cloth = g.CutFrom(&out[i])
	}
	return out
}

// NoneDescribed says that no cloth is described, and which ones the pieces only
// name, without a capital or a full stop.
func NoneDescribed(p pattern.Pattern) string {
	const said = "no cloth is described yet"
	var names []string
	for _, pc := range p.Pieces {
		if name := pc.Cut.Cloth; name != "" && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	switch last := len(names) - 1; {
	case last < 0:
		return said
	case last > 0:
		names = []string{strings.Join(names[:last], ", ") + " and " + names[last]}
	}
	return said + " (the pieces only name " + names[0] + ")"
}
