package render

import (
	"fmt"
	"strings"

	"truemat/geom"
	"truemat/ops/unit"
)

// join finds the joints of the tiles. Those over which a piece runs are to be
// glued and have letters.
func (p *Plan) join(cuts, lines []geom.Path) {
	index := map[[2]int]int{}
	for i, t := range p.Tiles {
		index[[2]int{t.Row, t.Col}] = i
	}
	on := p.piecewise(cuts, lines)
	letter := 0
	add := func(i int, t Page, upper bool) {
		next, ok := index[[2]int{t.Row, t.Col}]
		if !ok {
			return
		}
		j := Joint{First: i, Second: next, Upper: upper, Loose: true, at: almondsAt}
		for _, tiles := range on {
			here := p.Tiles[i]
			if tiles[here.Row*p.Cols+here.Col] && tiles[t.Row*p.Cols+t.Col] {
				j.Loose = false
			}
		}
		if !j.Loose {
			j.Letter = letters(letter)
			letter++
		}
		p.Joints = append(p.Joints, j)
	}
	for i, t := range p.Tiles {
		if t.Col+1 < p.Cols {
			add(i, Page{Row: t.Row, Col: t.Col + 1}, false)
		}
		if t.Row+1 < p.Rows {
			add(i, Page{Row: t.Row + 1, Col: t.Col}, true)
		}
	}
}

// piecewise returns for each path the tiles that keep a part of it, or of what
// it encloses.
func (p *Plan) piecewise(cuts, lines []geom.Path) [][]bool {
	var on [][]bool
	for _, c := range cuts {
		tiles := make([]bool, p.Rows*p.Cols)
		p.mark(c, tiles)
		on = append(on, tiles)
	}
	for _, l := range lines {
		tiles := make([]bool, p.Rows*p.Cols)
		p.touched(l, tiles)
		on = append(on, tiles)
	}
	return on
}

// Printed returns what of tile i is printed: all of it, but for the strips beyond
// loose joints, where only the edge of a piece would show that is whole on the
// next page.
func (p Plan) Printed(i int) geom.Box {
	t := p.Tiles[i]
	b, kept := t.Area, p.grid.kept(t.Row, t.Col, p.Rows, p.Cols)
	for _, j := range p.Joints {
		switch {
		case !j.Loose:
		case j.First == i && j.Upper:
			b.Min.Y = kept.Min.Y
		case j.First == i:
			b.Max.X = kept.Max.X
		case j.Second == i && j.Upper:
			b.Max.Y = kept.Max.Y
		case j.Second == i:
			b.Min.X = kept.Min.X
		}
	}
	return b
}

// letters names joint i: A, B … Z without I and O, which look like figures,
// then AA, AB …
func letters(i int) string {
	const abc = "ABCDEFGHJKLMNPQRSTUVWXYZ"
	s := string(abc[i%len(abc)])
	for i = i/len(abc) - 1; i >= 0; i = i/len(abc) - 1 {
		s = string(abc[i%len(abc)]) + s
	}
	return s
}

// Glued returns the number of joints that are to be glued.
func (p Plan) Glued() int {
	n := 0
	for _, j := range p.Joints {
		if !j.Loose {
			n++
		}
	}
	return n
}

// gluing says how the pages are put together and how a joint is checked; that
// nothing need be glued where no piece runs over a joint.
func (p Plan) gluing(units unit.System) paragraph {
	if p.Glued() == 0 {
		return paragraph{"Nothing to glue", "Every piece lies whole on one page: cut it out there."}
	}
	text := "Lay the pages out as on the map. Cut each page along the dotted line on its left and upper side, lay the cut edge on the dotted line of the page before it, and bring the two halves of each almond with the same letter together. Glue rows first, then row to row. The edge of the paper is no reference."
	if p.Glued() < len(p.Joints) {
		text += " A dotted line without almonds need not be glued: no piece runs over it."
	}
	text += fmt.Sprintf(" After gluing, every almond is %s long from tip to tip", amount(2*almondLength, units))
	if apart := p.apart(units); apart != "" {
		text += ", and from one glued edge to the next it is " + apart
	}
	return paragraph{"Glue the pages", text + ": where it is not, undo the joint."}
}

// apart says how far glued edges lie from each other on both sides of a page;
// nothing where no page has two.
func (p Plan) apart(units unit.System) string {
	var told []string
	for _, way := range []struct {
		upper bool
		mm    float64
		words string
	}{{false, p.grid.dx, " across"}, {true, p.grid.dy, " down"}} {
		if p.between(way.upper) {
			told = append(told, unit.MM(way.mm)+way.words)
		}
	}
	return unit.Restate(strings.Join(told, " and "), units)
}

// between reports whether a page is glued at both of two sides.
func (p Plan) between(upper bool) bool {
	ends := map[int]bool{}
	for _, j := range p.Joints {
		if !j.Loose && j.Upper == upper {
			ends[j.Second] = true
		}
	}
	for _, j := range p.Joints {
		if !j.Loose && j.Upper == upper && ends[j.First] {
			return true
		}
	}
	return false
}
