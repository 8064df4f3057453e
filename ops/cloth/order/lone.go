package order

import (
	"strings"

	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// Lone tells of the edges that are to be sewn to another and have no partner:
// no act sews them. It says how they get one; "" where all have.
func Lone(p pattern.Pattern) string {
	var told []string
	last, n := "", 0
	for _, e := range p.Partnered() {
		if e.Bare <= pattern.PartnerSlack {
			continue
		}
		n++
		name := e.Edge
		if _, edge := p.Edge(e.Piece, e.Edge); edge.Length()-e.Bare > pattern.PartnerSlack {
			name = unit.MM(e.Bare) + " of " + name
		}
		if e.Piece == last {
			told[len(told)-1] += ", " + name
			continue
		}
		last = e.Piece
		told = append(told, e.Piece+": "+name)
	}
	switch n {
	case 0:
		return ""
	case 1:
		return "One edge to be sewn has no partner and does not come in this order (" + told[0] + "). Press it and sew it to an edge under Selected, or give it another role."
	}
	return "These edges to be sewn have no partner and do not come in this order: " + strings.Join(told, "; ") + ". Press each and sew it to an edge under Selected, or give it another role."
}
