package tool

import (
	"fmt"
	"strings"

	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// severalSizes reports whether the pattern on a table has other sizes.
func severalSizes(t Table) bool {
	r, ok := t.(interface{ Results() []step.Result })
	return ok && len(r.Results()) > 1
}

// meets names what an edge meets at one of its ends, or else that end.
func meets(p pattern.Pattern, piece, edge string, end pattern.EndName) string {
	if end == "" {
		end = pattern.Start
	}
	if pc := p.Piece(piece); pc != nil {
		if m := pc.Meets(edge, end); m != "" {
			return m
		}
	}
	return "the " + string(end) + " of " + edge
}

// keptWords tell what of a place along an edge is the same in every size: its
// way from an end, or its share of the edge from there.
func keptWords(p pattern.Pattern, piece, edge string, along pattern.Along) string {
	from := meets(p, piece, edge, along.From)
	if along.Share == 0 {
		return unit.MM(along.MM) + " from " + from
	}
	share := fmt.Sprintf("%.3g %% along %s from %s", 100*along.Share, edge, from)
	switch {
	case along.MM > 0:
		share += " and " + unit.MM(along.MM) + " on"
	case along.MM < 0:
		share += " less " + unit.MM(-along.MM)
	}
	return share
}

// kept tells how the ends of a way are kept in other sizes, as a sentence with
// a blank before it; "" where corners or notches hold them all.
func (w *way) kept(b *base) string {
	p := b.pattern()
	from, to := w.ends(p)
	if to == nil || !severalSizes(b.table) {
		return ""
	}
	var told []string
	for _, end := range []struct {
		does string
		at   *Pointing
	}{{"starts", from}, {"ends", to}} {
		if end.at.Kind == OnEdge && end.at.Spot.Crosses == nil {
			told = append(told, end.does+" "+keptWords(p, end.at.Piece, end.at.Edge, end.at.Spot.Along))
		}
	}
	if len(told) == 0 {
		return ""
	}
	return " In every size it " + strings.Join(told, " and ") + "."
}
