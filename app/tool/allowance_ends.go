package tool

import (
	"truemat/ops/pattern"
)

// corners returns the ways in which allowances can end at the joint where
// edge i starts, by the words for them.
func corners(pc *pattern.Piece, i int) (labels []string, ways []pattern.Corner) {
	before, after := pc.Edges[pc.Prev(i)].Name, pc.Edges[i].Name
	for _, end := range pattern.CornerEnds {
		switch end {
		case pattern.RunsOn, pattern.Blunt:
			labels, ways = append(labels, cornerWords(end, "")), append(ways, pattern.Corner{End: end})
		case pattern.Follows:
			for _, of := range []struct {
				e  *pattern.Edge
				to pattern.Neighbour
			}{{&pc.Edges[pc.Prev(i)], pattern.Before}, {&pc.Edges[i], pattern.After}} {
				if of.e.Role.Sewn() || pc.Edges[i].Corner == (pattern.Corner{End: end, Of: of.to}) {
					labels, ways = append(labels, cornerWords(end, of.e.Name)), append(ways, pattern.Corner{End: end, Of: of.to})
				}
			}
		default:
			labels = append(labels, cornerWords(end, before), cornerWords(end, after))
			ways = append(ways, pattern.Corner{End: end, Of: pattern.Before}, pattern.Corner{End: end, Of: pattern.After})
		}
	}
	return labels, ways
}

func cornerWords(end pattern.CornerEnd, edge string) string {
	switch end {
	case pattern.Square:
		return "square to " + edge
	case pattern.FoldsBack:
		return "folds back along " + edge
	case pattern.Follows:
		return "follows the partner of " + edge
	case pattern.FadesOut:
		return "fades out on " + edge
	case pattern.Blunt:
		return "blunt"
	}
	return "runs on"
}

const notPressed = "not said"

// after returns the piece as the pressing that was chosen leaves its corners.
func (a *Allowance) after(pc *pattern.Piece) *pattern.Piece {
	if a.press == "" {
		return pc
	}
	res, err := a.try.of(a.table, a.Proposal()...)
	if err != nil {
		return pc
	}
	if now := res.Size.Pattern.Piece(pc.Name); now != nil && len(now.Edges) == len(pc.Edges) {
		return now
	}
	return pc
}

// pressed returns the seam of the one edge that is chosen, and words for the
// ways of pressing it.
func (a *Allowance) pressed() (*pattern.Seam, []string) {
	pc, i := a.first()
	if pc == nil || len(a.edges) != 1 {
		return nil, nil
	}
	p := a.pattern()
	names := seamsOn(p, Pointing{Piece: pc.Name, Edge: pc.Edges[i].Name})
	if len(names) == 0 {
		return nil, nil
	}
	seam := p.Seam(names[0])
	sides := sideWords(seam)
	return seam, []string{"open", "to " + sides[0], "to " + sides[1]}
}
