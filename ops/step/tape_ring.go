package step

import (
	"fmt"
	"maps"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
)

// ring is the outline of the joined piece while its edges are put together.
type ring struct {
	joint *joint
	links []link
	notes []string
}

// link is an edge of the joined piece and the strips of paper along it.
type link struct {
	edge   pattern.Edge // without its path until it is made
	owner  *half        // whose edge it is; A when it is of both
	merged bool
	strips []strip
}

// strip is a stretch of an old edge, or new outline when it is of no half.
type strip struct {
	half     *half
	edge     string
	from, to float64
	path     geom.Path
}

func (r *ring) note(format string, args ...any) {
	r.notes = append(r.notes, fmt.Sprintf(format, args...))
}

// ring puts the edges of both pieces one after the other, from the pin along
// the right piece to the far end and along the left one back to the pin, and
// makes those one that belong together.
func (j *joint) ring(p pattern.Pattern, f farEnd) (*ring, error) {
	r := &ring{joint: j}
	for _, h := range []*half{&j.right, &j.left} {
		for i, e := range h.rest {
			s := strip{half: h, edge: e.Name, to: e.Length(), path: e.Path}
			if h == &j.left && i == 0 {
				s.from = f.leftFrom
			}
			if h == &j.right && i == len(h.rest)-1 && f.rightTo < h.chain.Length() {
				s.to = f.rightTo - (h.chain.Length() - e.Length())
			}
			if s.from > 0 || s.to < e.Length() {
				var err error
				if s.path, err = e.Path.Sub(s.from, s.to); err != nil {
					return nil, fmt.Errorf("%s of %s: %w", e.Name, h.old.Name, err)
				}
			}
			e.Path = geom.Path{}
			r.links = append(r.links, link{edge: e, owner: h, strips: []strip{s}})
		}
	}
	filler, err := r.bindFar(f.filler)
	if err != nil {
		return nil, err
	}
	far := len(j.right.rest) - 1
	if j.runsOn(p, r.links[far].edge, r.links[far+1].edge) {
		r.merge(far, far+1)
		r.fill(far, 1, filler)
	} else {
		r.links[far+1].edge.Corner = pattern.Corner{}
		r.fillBeside(far, filler)
	}
	last := len(r.links) - 1
	if last > 1 && j.runsOn(p, r.links[0].edge, r.links[last].edge) {
		r.merge(last, 0)
	} else {
		r.links[0].edge.Corner = pattern.Corner{}
	}
	r.startWithA()
	return r, nil
}

// bindFar lets the paths at the far end, which touch, meet exactly: the filler
// gives way, without one a strip that was cut, else that of B. It returns the
// filler.
func (r *ring) bindFar(filler geom.Path) (geom.Path, error) {
	n := len(r.joint.right.rest)
	before, after := &r.links[n-1].strips[0], &r.links[n].strips[0]
	if !filler.Empty() {
		return filler.WithEnds(before.path.End(), after.path.Start())
	}
	whole := func(s *strip) bool { return s.from == 0 && s.to == s.half.old.Edge(s.edge).Length() }
	var err error
	if whole(after) && !whole(before) || whole(after) == whole(before) && before.half == r.joint.b {
		before.path, err = before.path.WithEnds(before.path.Start(), after.path.Start())
	} else {
		after.path, err = after.path.WithEnds(before.path.End(), after.path.End())
	}
	return filler, err
}

// runsOn reports whether an edge of the right and one of the left piece become
// one: they are two folds, or of one role and in one line.
func (j *joint) runsOn(p pattern.Pattern, right, left pattern.Edge) bool {
	if right.Role != left.Role {
		return false
	}
	if right.Role == pattern.Fold {
		return true
	}
	return slices.ContainsFunc(p.Lines, func(l pattern.Line) bool {
		return slices.ContainsFunc(l.Parts, func(a pattern.Part) bool {
			return a.Piece == j.right.old.Name && a.Edge == right.Name && slices.ContainsFunc(l.Parts, func(b pattern.Part) bool {
				return b.Piece == j.left.old.Name && b.Edge == left.Name && b.Mirrored == a.Mirrored
			})
		})
	})
}

// merge makes the links i and k, which follows i, one.
func (r *ring) merge(i, k int) {
	first, second := r.links[i], r.links[k]
	one := link{owner: first.owner, merged: true, edge: first.edge, strips: slices.Concat(first.strips, second.strips)}
	if second.owner == r.joint.a {
		one.owner, one.edge = second.owner, second.edge
		one.edge.Corner = first.edge.Corner
	}
	one.edge.Free = first.edge.Free && second.edge.Free
	if first.edge.Allowance != second.edge.Allowance {
		r.note("%s of %s and %s of %s had allowances of %.4g mm and %.4g mm; as one edge it has %.4g mm.",
			first.edge.Name, first.owner.old.Name, second.edge.Name, second.owner.old.Name, first.edge.Allowance, second.edge.Allowance, one.edge.Allowance)
	}
	r.links[i] = one
	r.links = slices.Delete(r.links, k, k+1)
}

// fill puts new outline before strip at of link i.
func (r *ring) fill(i, at int, filler geom.Path) {
	if filler.Empty() {
		return
	}
	l := &r.links[i]
	l.strips = slices.Insert(l.strips, at, strip{path: filler})
}

// fillBeside gives new outline at the far end, between the links far and
// far+1, to the edge of A, or of B where that of A is a fold.
func (r *ring) fillBeside(far int, filler geom.Path) {
	toRight := r.joint.a == &r.joint.right
	if to := r.links[far+1]; !toRight && to.edge.Role == pattern.Fold {
		toRight = true
	} else if r.links[far].edge.Role == pattern.Fold {
		toRight = false
	}
	if toRight {
		r.fill(far, len(r.links[far].strips), filler)
	} else {
		r.fill(far+1, 0, filler)
	}
}

// startWithA lets the outline start where that of A did.
func (r *ring) startWithA() {
	a := r.joint.a
	order := func(l link) int {
		best := len(a.old.Edges)
		for _, s := range l.strips {
			if s.half == a {
				best = min(best, a.old.EdgeIndex(s.edge))
			}
		}
		return best
	}
	start := 0
	for i := range r.links {
		if order(r.links[i]) < order(r.links[start]) {
			start = i
		}
	}
	r.links = slices.Concat(r.links[start:], r.links[:start])
}

// made names the edges and draws their paths.
func (r *ring) made(names map[string]string) ([]pattern.Edge, error) {
	if err := r.name(names); err != nil {
		return nil, err
	}
	edges := make([]pattern.Edge, len(r.links))
	folds := 0
	for i := range r.links {
		l := &r.links[i]
		var err error
		if l.edge.Path, err = l.path(); err != nil {
			return nil, err
		}
		if l.edge.Role == pattern.Fold {
			folds++
		}
		edges[i] = l.edge
	}
	if folds > 1 {
		a, b := r.joint.a.old.Name, r.joint.b.old.Name
		return nil, fmt.Errorf("%s and %s are both cut on the fold, and their folds do not follow each other; unfold one of them first", a, b)
	}
	return edges, nil
}

// path joins the strips of a link.
func (l *link) path() (geom.Path, error) {
	paths := make([]geom.Path, len(l.strips))
	for i, s := range l.strips {
		paths[i] = s.path
	}
	path, err := geom.Join(paths...)
	if err != nil {
		return geom.Path{}, fmt.Errorf("edge %q of the joined piece: %w", l.edge.Name, err)
	}
	if l.edge.Role != pattern.Fold || path.Len() == 1 {
		return path, nil
	}
	line, err := geom.NewLine(path.Start(), path.End())
	if err != nil {
		return geom.Path{}, err
	}
	for i := range path.Len() {
		if line.Distance(path.Seg(i).End()) > pinSlack || line.Distance(path.Seg(i).End()) < -pinSlack {
			return geom.Path{}, fmt.Errorf("the folds of both pieces would not lie in one straight line; place them so that they do, or unfold one of them first")
		}
	}
	return geom.Polyline(path.Start(), path.End())
}

// name gives every link a name that no other has; it looks only at the names
// that edges have, so that all sizes agree.
func (r *ring) name(names map[string]string) error {
	given := maps.Clone(names)
	taken := map[string]bool{}
	var merged []string
	for i := range r.links {
		l := &r.links[i]
		if l.owner != r.joint.a {
			continue
		}
		if l.merged {
			merged = append(merged, l.edge.Name)
			if n, ok := given[l.edge.Name]; ok {
				delete(given, l.edge.Name)
				l.edge.Name = n
			}
		}
		if taken[l.edge.Name] {
			return fmt.Errorf("two edges of the joined piece would be called %q; choose another name in \"edges\"", l.edge.Name)
		}
		taken[l.edge.Name] = true
	}
	if len(given) > 0 {
		return fmt.Errorf("\"edges\" names %q, but the edges of %s that become one with another are %q", slices.Sorted(maps.Keys(given)), r.joint.a.old.Name, merged)
	}
	for i := range r.links {
		l := &r.links[i]
		if l.owner == r.joint.a {
			continue
		}
		was := l.edge.Name
		for taken[l.edge.Name] {
			l.edge.Name = r.joint.b.old.Name + " " + l.edge.Name
		}
		if l.edge.Name != was {
			r.note("%s of %s is now called %q.", was, r.joint.b.old.Name, l.edge.Name)
		}
		taken[l.edge.Name] = true
	}
	return nil
}

// edgeMap says where the edges of both pieces went.
func (j *joint) edgeMap(name string, r *ring) pattern.Map {
	var m pattern.Map
	m.Move(j.a.old.Name, name, geom.Identity())
	m.Move(j.b.old.Name, name, j.toA)
	m.Gone(j.a.old.Name, j.a.taped.Name)
	m.Gone(j.b.old.Name, j.b.taped.Name)
	for _, l := range r.links {
		at := 0.0
		for i, s := range l.strips {
			end := at + s.path.Length()
			if i == len(l.strips)-1 {
				end = l.edge.Length()
			}
			as := s.half == j.a && name == j.a.old.Name && l.edge.Name == s.edge && len(l.strips) == 1 &&
				s.from == 0 && s.to == s.half.old.Edge(s.edge).Length()
			if s.half != nil && !as {
				m.Span(
					pattern.Span{Piece: s.half.old.Name, Edge: s.edge, From: s.from, To: s.to},
					pattern.Span{Piece: name, Edge: l.edge.Name, From: at, To: end},
				)
			}
			at = end
		}
	}
	return m
}

// runOn lets the seams and lines that ran along an edge beside new outline run
// on over that too.
func (r *ring) runOn(p pattern.Pattern, piece string) {
	for _, l := range r.links {
		i := slices.IndexFunc(l.strips, func(s strip) bool { return s.half == nil })
		if i < 0 {
			continue
		}
		length, from := l.edge.Length(), 0.0
		for _, s := range l.strips[:i] {
			from += s.path.Length()
		}
		to := from + l.strips[i].path.Length()
		gap := pattern.Part{Piece: piece, Edge: l.edge.Name, From: from / length, To: to / length}
		if i == 0 {
			gap.From = 0
		}
		if i == len(l.strips)-1 {
			gap.To = 1
		}
		for k := range p.Seams {
			p.Seams[k].A = runOver(p.Seams[k].A, gap, touching/length)
			p.Seams[k].B = runOver(p.Seams[k].B, gap, touching/length)
		}
		for k := range p.Lines {
			p.Lines[k].Parts = runOver(p.Lines[k].Parts, gap, touching/length)
		}
	}
}

// runOver closes a gap in a chain of parts: between two parts, or at the end
// of a part where the edge begins or ends with the gap.
func runOver(parts []pattern.Part, gap pattern.Part, slack float64) []pattern.Part {
	at := func(x, y float64) bool { return x-y <= slack && y-x <= slack }
	var out []pattern.Part
	for _, pt := range parts {
		if pt.Piece != gap.Piece || pt.Edge != gap.Edge {
			out = append(out, pt)
			continue
		}
		for _, end := range []*float64{&pt.From, &pt.To} {
			if gap.From == 0 && at(*end, gap.To) {
				*end = 0
			}
			if gap.To == 1 && at(*end, gap.From) {
				*end = 1
			}
		}
		if last := len(out) - 1; last >= 0 {
			o := &out[last]
			follows := o.Piece == pt.Piece && o.Edge == pt.Edge && o.Mirrored == pt.Mirrored
			if follows && (at(o.To, gap.From) && at(pt.From, gap.To) || at(o.To, gap.To) && at(pt.From, gap.From)) {
				o.To = pt.To
				continue
			}
		}
		out = append(out, pt)
	}
	return out
}
