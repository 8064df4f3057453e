package intake

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"truemat/geom"
	"truemat/ops/intake/svg"
)

// stroke is one drawn line with the names of its shape.
type stroke struct {
	name  string   // the one to show; empty when it has none
	given string   // the one a person gave it: label or title
	names []string // id, label and title
	path  geom.Path
}

func strokeOf(n svg.Node, p geom.Path) stroke {
	s := stroke{given: cmp.Or(n.Label, n.Title), names: []string{n.ID, n.Label, n.Title}, path: p}
	if anyName(n) {
		s.name = n.Name()
	}
	return s
}

func anyName(n svg.Node) bool { return n.ID != "" || n.Label != "" || n.Title != "" }

// material is what was drawn of one piece.
type material struct {
	name    string
	strokes []stroke
}

// scope is the part of a drawing that belongs to one size.
type scope struct {
	nodes []svg.Node
	where string // for errors: empty, or " in size X"
}

// maxStrokes bounds the lines of a piece and, without a companion, the
// closed lines that are compared with each other.
const maxStrokes = 3000

// ignoring returns the nodes without those that are named.
func ignoring(nodes []svg.Node, names []string) []svg.Node {
	if len(names) == 0 {
		return nodes
	}
	var kept []svg.Node
	for _, n := range nodes {
		if slices.ContainsFunc(names, n.Named) {
			continue
		}
		n.Children = ignoring(n.Children, names)
		kept = append(kept, n)
	}
	return kept
}

// find returns the nodes with that name, not those inside one of them.
func find(nodes []svg.Node, name string) []svg.Node {
	var found []svg.Node
	for _, n := range nodes {
		if n.Named(name) {
			found = append(found, n)
		} else {
			found = append(found, find(n.Children, name)...)
		}
	}
	return found
}

// one returns the only node with that name.
func (s scope) one(name string) (svg.Node, error) {
	found := find(s.nodes, name)
	switch len(found) {
	case 0:
		return svg.Node{}, fmt.Errorf("the drawing has no group or shape %q%s; it has %s", name, s.where, quoted(s.names()))
	case 1:
		return found[0], nil
	}
	return svg.Node{}, fmt.Errorf("the drawing has %d groups or shapes %q%s, in lines %d and %d of the file; give them different names", len(found), name, s.where, found[0].Line, found[1].Line)
}

// names lists what a person can refer to, groups before shapes.
func (s scope) names() []string {
	var groups, shapes []string
	var walk func([]svg.Node)
	walk = func(nodes []svg.Node) {
		for _, n := range nodes {
			if anyName(n) {
				if len(n.Paths) > 0 {
					shapes = append(shapes, n.Name())
				} else {
					groups = append(groups, n.Name())
				}
			}
			walk(n.Children)
		}
	}
	walk(s.nodes)
	return append(groups, shapes...)
}

// gather returns all lines of a node. A shape without a name has that of
// the group around it inside the node.
func gather(n svg.Node) []stroke {
	var out []stroke
	var walk func(n, from svg.Node)
	walk = func(n, from svg.Node) {
		if anyName(n) {
			from = n
		}
		for _, p := range n.Paths {
			out = append(out, strokeOf(from, p))
		}
		for _, c := range n.Children {
			walk(c, from)
		}
	}
	for _, p := range n.Paths {
		out = append(out, strokeOf(n, p))
	}
	for _, c := range n.Children {
		walk(c, svg.Node{})
	}
	return out
}

// guess finds the pieces of a drawing without being told: a group with one
// outermost closed line is a piece; of a group with several, its subgroups
// are looked at, and each outermost closed line directly in it is a piece
// with the lines that lie in it. What belongs to no piece is noted.
func (b *bringer) guess(nodes []svg.Node) ([]material, error) {
	var out []material
	var loose []stroke
	for _, n := range nodes {
		if len(n.Paths) > 0 {
			for _, p := range n.Paths {
				loose = append(loose, strokeOf(n, p))
			}
			continue
		}
		all := gather(n)
		if len(all) > maxStrokes {
			return nil, fmt.Errorf("group %q has %d lines, more than %d to look through; write a companion that names its pieces", n.Name(), len(all), maxStrokes)
		}
		switch roots := outermost(all); len(roots) {
		case 0:
			if len(all) > 0 {
				b.note("group %q has no closed outline and was left out", n.Name())
			}
		case 1:
			name := roots[0].name
			if anyName(n) {
				name = n.Name()
			}
			out = append(out, material{name, all})
		default:
			inner, err := b.guess(n.Children)
			if err != nil {
				return nil, err
			}
			out = append(out, inner...)
		}
	}
	if len(loose) > maxStrokes {
		return nil, fmt.Errorf("%d lines are drawn outside of groups, more than %d to look through; write a companion that names the pieces", len(loose), maxStrokes)
	}
	return append(out, b.shareOut(loose)...), nil
}

// shareOut shares out lines drawn side by side to the outermost closed ones.
func (b *bringer) shareOut(loose []stroke) []material {
	roots := outermost(loose)
	stray, first := 0, ""
	out := make([]material, len(roots))
	for i, r := range roots {
		out[i].name = r.name
	}
	for _, s := range loose {
		best, least := -1, strayWithin
		for i, r := range roots {
			if !r.path.Bounds().Grow(strayWithin).Overlaps(s.path.Bounds()) {
				continue
			}
			d := 0.0
			if !r.path.Contains(s.path.Start()) {
				d = min(r.path.Nearest(s.path.Start()).Dist, r.path.Nearest(s.path.End()).Dist)
			}
			if d < least {
				best, least = i, d
			}
		}
		if best >= 0 {
			out[best].strokes = append(out[best].strokes, s)
			continue
		}
		if stray++; first == "" {
			first = s.name
		}
	}
	if stray > 0 {
		b.note("lines that lie in no closed outline were left out: %d, the first named %q", stray, first)
	}
	return out
}

// strayWithin is how far, in mm, a line that belongs to a piece may lie
// outside it.
const strayWithin = 10.0

// outermost returns the closed lines large enough for a piece, chains of open
// ones included, that lie in no other.
func outermost(strokes []stroke) []stroke {
	closed := closedOf(strokes)
	slices.SortStableFunc(closed, func(a, b stroke) int {
		return cmp.Compare(room(b.path), room(a.path))
	})
	var roots []stroke
	for _, s := range closed {
		if !(room(s.path) > minArea) {
			break
		}
		if !slices.ContainsFunc(roots, func(r stroke) bool {
			return r.path.Bounds().Grow(chainGap).Overlaps(s.path.Bounds()) &&
				(r.path.Contains(s.path.Start()) || r.path.Nearest(s.path.Start()).Dist <= chainGap)
		}) {
			roots = append(roots, s)
		}
	}
	return roots
}

func closedOf(strokes []stroke) []stroke {
	var closed []stroke
	for _, s := range strokes {
		if s.path.Closed() {
			closed = append(closed, s)
		}
	}
	for _, c := range chains(strokes) {
		if c.closed {
			closed = append(closed, stroke{name: c.name, path: c.path})
		}
	}
	return closed
}

// uniqueNames makes usable, different names of what the drawing says.
func uniqueNames(ms []material) {
	seen := map[string]bool{}
	for i := range ms {
		name := tidyName(ms[i].name)
		for k := 2; seen[name]; k++ {
			name = tidyName(ms[i].name) + " " + strconv.Itoa(k)
		}
		seen[name] = true
		ms[i].name = name
	}
}
