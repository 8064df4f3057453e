package step

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// region is the paper between a stretch of the ring and a way back over places
// inside the piece.
func (p *slashPlan) region(from, length float64, back ...geom.Point) (geom.Path, error) {
	var segs []geom.Cubic
	end := from + length
	for _, s := range [][2]float64{{from, min(end, p.ring.Length())}, {0, end - p.ring.Length()}} {
		if s[1]-s[0] > geom.Coincident {
			part, err := p.ring.Sub(s[0], s[1])
			if err != nil {
				return geom.Path{}, err
			}
			segs = append(segs, part.Segments()...)
		}
	}
	if len(segs) == 0 {
		return geom.Path{}, fmt.Errorf("nothing lies there on %s", p.old.Name)
	}
	at, start := segs[len(segs)-1].End(), segs[0].Start()
	for _, q := range append(back, start) {
		if q.Dist(at) > geom.Coincident {
			segs = append(segs, geom.Straight(at, q))
			at = q
		}
	}
	return geom.NewClosed(segs...)
}

// regions are the parts that turn and the paper folded away.
type regions struct {
	turned map[*slashLine]geom.Path
	folded []geom.Path
	ways   []geom.Path // along which what is drawn is cut
}

func (b *spreading) regions() regions {
	p := b.p
	rs := regions{turned: map[*slashLine]geom.Path{}}
	way := func(a, q geom.Point) {
		if w, err := geom.Polyline(a, q); err == nil {
			rs.ways = append(rs.ways, w)
		}
	}
	for i := range p.slashes {
		l := &p.slashes[i]
		from, length := p.arc(l)
		if r, err := p.region(from, length, l.pivot); err == nil {
			rs.turned[l] = r
		}
	}
	for _, g := range b.gaps {
		way(g.line.from, g.line.pivot)
		if g.turn < 0 {
			way(g.leg, g.line.pivot)
			if r, err := p.region(g.line.at, p.reach(g.line.at, g.until), g.line.pivot); err == nil {
				rs.folded = append(rs.folded, r)
			}
		}
	}
	if d := p.dart; d != nil && b.folds() && !d.apex {
		pivot := p.slashes[0].pivot
		way(d.ends[0], pivot)
		way(d.ends[1], pivot)
		if r, err := p.region(d.mouth[0], p.reach(d.mouth[0], d.mouth[1]), pivot); err == nil {
			rs.folded = append(rs.folded, r)
		}
	}
	return rs
}

// motionAt returns how the paper at a place of the piece turns.
func (b *spreading) motionAt(rs regions) func(geom.Point) geom.Motion {
	return func(q geom.Point) geom.Motion {
		return b.motion(func(l *slashLine) bool { r, ok := rs.turned[l]; return ok && r.Contains(q) })
	}
}

// carryDrawn turns inner lines and marks with the parts they lie on. An inner
// line that a slash crosses is cut there, and what lies on paper folded away
// goes with it.
func (b *spreading) carryDrawn(pc *pattern.Piece, out *Output) {
	rs := b.regions()
	motion := b.motionAt(rs)
	inFold := func(q geom.Point) bool {
		return slices.ContainsFunc(rs.folded, func(r geom.Path) bool { return r.Contains(q) })
	}
	var inner []pattern.Inner
	var names []string
	for _, in := range pc.Inner {
		names = append(names, in.Name)
	}
	for _, in := range pc.Inner {
		parts := 0
		pieces := cutBy(in.Path, rs.ways)
		for _, part := range pieces {
			middle := part.At(part.Length() / 2)
			if inFold(middle) {
				continue
			}
			made := in
			made.Path = part.Transform(motion(middle))
			if parts++; parts > 1 {
				made.Name = freeName(in.Name, names)
				names = append(names, made.Name)
			}
			inner = append(inner, made)
		}
		switch {
		case parts == 0:
			out.Notes = append(out.Notes, fmt.Sprintf("Inner line %q of %s is folded away.", in.Name, pc.Name))
		case len(pieces) > 1:
			out.Notes = append(out.Notes, fmt.Sprintf("Inner line %q of %s is cut by a slash; %d parts of it remain.", in.Name, pc.Name, parts))
		}
	}
	var marks []pattern.Mark
	for _, mk := range pc.Marks {
		if inFold(mk.At) {
			out.Notes = append(out.Notes, fmt.Sprintf("The mark %q of %s is folded away; write it anew.", mk.Text, pc.Name))
			continue
		}
		mk.At = motion(mk.At).Apply(mk.At)
		marks = append(marks, mk)
	}
	if d := b.p.dart; d != nil && b.folds() {
		middle := b.p.reach(0, d.mouth[0]-leastEdge/2.0)
		m := b.motion(func(l *slashLine) bool { return b.p.turnsAt(l, middle) })
		joint := b.p.old.Edge(d.first).Path.Transform(m)
		inner = append(inner, pattern.Inner{Name: freeName(d.name, names), Kind: pattern.OldJoint, Path: joint})
	}
	pc.Inner, pc.Marks = inner, marks
}

// cutBy returns the parts into which ways cut a path.
func cutBy(path geom.Path, ways []geom.Path) []geom.Path {
	at := []float64{0, path.Length()}
	for _, w := range ways {
		for _, x := range geom.Cross(path, w).Crossings {
			at = append(at, x.S)
		}
	}
	slices.Sort(at)
	var parts []geom.Path
	for k := 1; k < len(at); k++ {
		if at[k]-at[k-1] <= placeSlack {
			continue
		}
		if part, err := path.Sub(at[k-1], at[k]); err == nil {
			parts = append(parts, part)
		}
	}
	return parts
}

// freeName returns the name, with a number behind it when it is taken.
func freeName(name string, taken []string) string {
	free := name
	for i := 2; slices.Contains(taken, free); i++ {
		free = fmt.Sprint(name, " ", i)
	}
	return free
}

// sewDarts adds the seams of the darts that were left.
func (b *spreading) sewDarts(out *Output) {
	out.Pattern.Seams = append(out.Pattern.Seams, b.darts...)
}

// remark tells of what else the maker should know.
func (b *spreading) remark(out *Output) {
	p, motion := b.p, b.motionAt(b.regions())
	for _, n := range p.old.Notches {
		at := p.place(n.Edge, n.At(p.old.Edge(n.Edge).Length()))
		for _, g := range b.gaps {
			if g.turn > 0 && b.same(at, g.line.at) {
				out.Notes = append(out.Notes, fmt.Sprintf("Notch %q of %s lay on a slash; it stays with the part before the opening.", n.Name, p.old.Name))
			}
		}
	}
	arrow := p.old.Arrow.From.Lerp(p.old.Arrow.To, 0.5)
	if turned, _, _ := motion(arrow).Parts(); math.Abs(turned.Degrees()) > parallelSlack {
		out.Figures["arrow_turned_deg"] = math.Abs(turned.Degrees())
		out.Notes = append(out.Notes, fmt.Sprintf("The arrow of %s stays as it was; the part it was drawn on has turned under it and is cut %.1f° askew to it. Let that part stay put if the arrow is to hold for it.", p.old.Name, math.Abs(turned.Degrees())))
	}
	if b.step > leastStep && p.fair == 0 {
		out.Notes = append(out.Notes, fmt.Sprintf("Where %s closed, the two sides differ by %s and leave a step; make the edge fair within a reach.", p.old.Name, unit.MM(b.step)))
	}
	if b.folds() {
		out.Notes = append(out.Notes, fmt.Sprintf("Dart %q of %s is closed; its line is kept as an old joint.", p.dart.name, p.old.Name))
	}
}

// leastStep is the step in an edge in mm that can be cut.
const leastStep = 0.1
