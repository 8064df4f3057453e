package tool

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// differences tells of the seams whose sides no longer fit as they did.
func (a *Add) differences(res step.Result) string {
	const prefix = "partner_difference."
	if len(res.Reports) == 0 {
		return ""
	}
	var out []string
	figures := res.Reports[len(res.Reports)-1].Figures
	for _, n := range slices.Sorted(maps.Keys(figures)) {
		if seam, ok := strings.CutPrefix(n, prefix); ok && written(a.table, figures[n]) != written(a.table, 0) {
			out = append(out, fmt.Sprintf("the sides of %s differ by %s", seam, unit.MM(math.Abs(figures[n]))))
		}
	}
	return strings.Join(out, ", ")
}

// Overlay shows the ends, how the edges will run, and the amounts.
func (a *Add) Overlay() Overlay {
	var o Overlay
	a.pointed(&o)
	p := a.pattern()
	if next, ok := a.next(); ok {
		if at, _, found := outward(p, next); found {
			o.Dots = append(o.Dots, Dot{at, Pointed})
			o.Notes = append(o.Notes, Note{at, "moves out " + endWords(p, next)})
		}
	}
	onto := a.ends()
	var res step.Result
	var err error
	proposed := a.Proposal() != nil
	if proposed {
		if res, err = a.trial(); err == nil {
			o.altered(p, res.Size.Pattern, Good, anyPiece)
		}
	}
	for _, e := range onto {
		at, dir, ok := outward(p, e)
		if !ok {
			continue
		}
		amount := a.amount
		if a.figure != "" {
			amount = a.table.Figures()[a.figure] / float64(max(len(onto), 2))
		}
		to := at.Add(dir.Mul(amount))
		if proposed && err == nil { // taking in follows the neighbour, which may be curved
			if now, findErr := res.Size.Pattern.Find(e.Spot()); findErr == nil {
				to = now.Mat
			}
		}
		style := Handle
		if a.figure != "" {
			style = Chosen
		}
		o.Show(p, Pointing{Kind: OnEdge, Piece: e.Piece, Edge: e.Edge}, Chosen)
		if line, lineErr := geom.Polyline(at, to); lineErr == nil && at.Dist(to) > samePlace {
			o.Strokes = append(o.Strokes, Stroke{line, Guide})
		}
		o.Dots = append(o.Dots, Dot{to, style})
		o.Notes = append(o.Notes, Note{to, strings.TrimSpace(a.grows(e) + " " + signed(amount))})
	}
	return o
}
