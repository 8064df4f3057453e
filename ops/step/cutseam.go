package step

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// shortened is a seam that lost part of a side to a cut.
type shortened struct {
	name string
	ease float64
	b    bool // the partner is side B
	// stretches are those left of it.
	stretches []pattern.Stretch
	rests     []released
	rest      float64      // length in mm that is no longer sewn
	freed     [][2]float64 // the same as stretches of the partner, in walked mm
	// Where the sewing ends, when that is inside an edge.
	piece string
	notch *pattern.Notch
	old   []partnerless
	// double says that what is left of the cut side ends at a double notch.
	double bool
}

// released is an edge that is no longer sewn.
type released struct{ piece, edge string }

// shortenSeams splits the partners of what was cut off the outline o where
// what is left of it ends.
func (c *CutOff) shortenSeams(r *redraw, o *outline) ([]shortened, error) {
	role := c.Partner.Role
	if role == "" {
		role = pattern.TurnedBack
	}
	if !slices.Contains(pattern.Roles, role) || role == pattern.Fold {
		return nil, fmt.Errorf("the rest of the partner cannot have the role %q", role)
	}
	var out []shortened
	for _, s := range o.all.Seams {
		a, b := o.leftOf(s.A), o.leftOf(s.B)
		if a.lost() <= placeSlack && b.lost() <= placeSlack {
			continue
		}
		f := freeing{seam: s.Name, role: role, rest: c.Partner.Rest, notch: c.Partner.Notch}
		if f.notch == "" {
			f.notch = c.Name + " end"
		}
		if len(out) > 0 {
			f.notch += " of " + s.Name
		}
		short, err := f.shorten(r, s, a, b)
		if err != nil {
			return nil, err
		}
		short.matchNotches(r.old, s, a, b)
		if c.Partner.KeepNotches {
			short.old = nil
		}
		out = append(out, short)
	}
	return out, nil
}

// freeing says what becomes of what is no longer sewn.
type freeing struct {
	seam  string
	role  pattern.Role
	rest  string // name of an edge that is freed in part; "<edge> rest" when empty
	notch string // name of the notch where the sewing ends
}

// shorten frees what has no partner any more on the side, or sides, of a seam
// of which a and b are left.
func (f freeing) shorten(r *redraw, s pattern.Seam, a, b remains) (shortened, error) {
	short := shortened{name: s.Name}
	if a.empty() || b.empty() {
		for _, side := range []struct {
			parts pattern.Side
			left  remains
		}{{s.A, a}, {s.B, b}} {
			for _, st := range side.left.list {
				if err := f.release(r, side.parts, st[0], st[1], &short); err != nil {
					return short, err
				}
			}
		}
		return short, nil
	}
	atEnd, err := f.sharedEnd(r, a, b)
	if err != nil {
		return short, err
	}
	// What is sewn of side A, as the ease is spread: all that is left of it, or
	// what belongs to all that is left of side B, in proportion where the sides
	// differed before.
	spread := r.old.Spread(s)
	la, lb := a.sum(), b.sum()
	easeOf := func(of float64) float64 {
		if atEnd {
			return spread.EaseTo(a.total) - spread.EaseTo(a.total-of)
		}
		return spread.EaseTo(of)
	}
	meantB := spread.B(a.total)
	sewn := spread.A(lb * meantB / b.total)
	if atEnd {
		sewn = a.total - spread.A(meantB-lb*meantB/b.total)
	}
	onB, onA := la-easeOf(la), lb+easeOf(sewn)
	side, total, keep, upTo := s.B, b.total, max(min(onB, lb), 0), lb
	short.b = true
	if b.lost() > placeSlack && (a.lost() <= placeSlack || onB > lb) {
		side, total, keep, upTo = s.A, a.total, max(min(onA, la), 0), la
		short.b = false
	} else {
		sewn = la
	}
	short.ease = easeOf(sewn)
	from, to := 0.0, sewn
	if atEnd {
		from, to = a.total-sewn, a.total
		keep, upTo = total-upTo, total-keep
	}
	short.stretches = stretchesWithin(r.old, s, spread, from, to)
	return short, f.release(r, side, keep, upTo, &short)
}

// stretchesWithin returns the stretches of a seam of whose side A only the part
// from … to is still sewn; one that is cut ends where the sewing ends, with as
// much of its ease as lies on what is left of it.
func stretchesWithin(p pattern.Pattern, s pattern.Seam, spread pattern.Spread, from, to float64) (left []pattern.Stretch) {
	for _, st := range s.Stretches {
		lo, hi, err := p.StretchOn(s, st)
		if err != nil || min(hi, to)-max(lo, from) <= placeSlack {
			continue
		}
		if lo < from+placeSlack {
			st.From, lo = pattern.NotchName{}, from
		}
		if hi > to-placeSlack {
			st.To, hi = pattern.NotchName{}, to
		}
		st.Ease = spread.EaseTo(hi) - spread.EaseTo(lo)
		left = append(left, st)
	}
	return left
}

// sharedEnd tells whether what is left of two sides is walked from the end
// they share, rather than from the start.
func (f freeing) sharedEnd(r *redraw, a, b remains) (atEnd bool, err error) {
	start, end := true, true
	for _, m := range []remains{a, b} {
		if len(m.list) > 1 {
			return false, fmt.Errorf("the cut takes a bite out of the middle of seam %q; cut up to one of its ends, or straighten the run instead", f.seam)
		}
		start = start && m.list[0][0] <= placeSlack
		end = end && m.list[0][1] >= m.total-placeSlack
	}
	if !start && !end {
		return false, fmt.Errorf("the cut leaves the two sides of seam %q no end that they share, so neither can be walked along the other; cut in two steps, or take the seam apart first", f.seam)
	}
	return !start, nil
}

// release makes the stretch from … to of a side, in walked mm, edges of their
// own that are no longer sewn.
func (f freeing) release(r *redraw, side pattern.Side, from, to float64, short *shortened) error {
	if to-from <= placeSlack {
		return nil
	}
	short.rest += to - from
	short.freed = append(short.freed, [2]float64{from, to})
	walked := 0.0
	for _, pt := range side {
		lo, length := walked, r.old.PartLength(pt)
		walked += length
		a, b := max(from, lo)-lo, min(to, walked)-lo
		if b-a <= placeSlack {
			continue
		}
		o, err := r.piece(pt.Piece)
		if err != nil {
			return err
		}
		total := o.old.Edge(pt.Edge).Length()
		s0, s1 := pt.From*total+a, pt.From*total+b // in the direction of the edge
		if pt.From > pt.To {
			s0, s1 = pt.From*total-b, pt.From*total-a
		}
		if err := f.free(o, pt, max(s0, 0), min(s1, total), short); err != nil {
			return err
		}
	}
	return nil
}

// free makes the stretch from s0 to s1 of the edge of a part an edge of its
// own, with a notch where what of the part is still sewn ends.
func (f freeing) free(o *outline, pt pattern.Part, s0, s1 float64, short *shortened) error {
	before, after := false, false
	for _, st := range o.left(pt.Edge) {
		before = before || st[0] < s0-placeSlack
		after = after || st[1] > s1+placeSlack
	}
	if _, err := o.cut(pt.Edge, s0); err != nil {
		return err
	}
	if after {
		if _, err := o.cut(pt.Edge, s1); err != nil {
			return err
		}
	}
	i, err := o.cut(pt.Edge, s0)
	if err != nil {
		return err
	}
	name := pt.Edge
	if before || after {
		if name = f.rest; name == "" || slices.ContainsFunc(short.rests, func(e released) bool { return e == released{pt.Piece, f.rest} }) {
			name = pt.Edge + " rest"
		}
		if _, err := o.index(name); err == nil {
			return fmt.Errorf("%s has an edge %q already; give the rest of %s, which seam %q leaves there, another name", pt.Piece, name, pt.Edge, f.seam)
		}
	}
	lo, hi := min(pt.From, pt.To)*o.old.Edge(pt.Edge).Length(), max(pt.From, pt.To)*o.old.Edge(pt.Edge).Length()
	switch {
	case before && s0 > lo+placeSlack:
		short.piece, short.notch = pt.Piece, &pattern.Notch{Name: f.notch, Edge: o.runs[o.prev(i)].edge.Name, Along: pattern.Along{From: pattern.End}}
	case after && s1 < hi-placeSlack:
		next := o.runs[o.next(i)].edge.Name
		if before {
			next += " after " + name
		}
		short.piece, short.notch = pt.Piece, &pattern.Notch{Name: f.notch, Edge: next, Along: pattern.Along{From: pattern.Start}}
	}
	e := &o.runs[i].edge
	e.Name, e.Role, e.Free = name, f.role, false
	if before && after {
		o.runs[o.next(i)].edge.Name += " after " + name
	}
	short.rests = append(short.rests, released{pt.Piece, name})
	return nil
}

// settle writes the shortened seam into the altered pattern.
func (s shortened) settle(out *Output) error {
	names := make([]string, len(s.rests))
	for i, e := range s.rests {
		names[i] = e.edge + " of " + e.piece
	}
	if len(names) > 0 {
		out.Figures["rest."+s.name] = s.rest
	}
	taken := s.takeOld(out)
	seam := out.Pattern.Seam(s.name)
	if seam == nil {
		out.Notes = append(out.Notes, taken...)
		return nil // what that leaves without a partner was told when it was carried
	}
	seam.Ease, seam.Stretches = s.ease, s.stretches
	out.Notes = slices.DeleteFunc(out.Notes, func(n string) bool { // they were cut, not lost
		return strings.HasPrefix(n, fmt.Sprintf("Seam %q no longer states its ease", s.name))
	})
	if len(names) == 0 {
		return nil
	}
	side := &seam.A
	if s.b {
		side = &seam.B
	}
	*side = slices.DeleteFunc(*side, func(pt pattern.Part) bool { return slices.Contains(s.rests, released{pt.Piece, pt.Edge}) })
	// Places within placeSlack of a joint go to the joint: the ease takes that up.
	if d := seamDifference(out.Pattern, seam); math.Abs(d) > geom.Coincident && math.Abs(d) <= 4*placeSlack {
		seam.Ease += d
	}
	note := fmt.Sprintf("Seam %q is shorter by %s: %s is no longer sewn.", s.name, unit.MM(s.rest), words(names))
	if s.notch != nil {
		pc := out.Pattern.Piece(s.piece)
		if pc.Notch(s.notch.Name) != nil {
			return fmt.Errorf("piece %q has a notch %q already; give the notch where seam %q ends another name", s.piece, s.notch.Name, s.name)
		}
		n := *s.notch
		n.Double = s.double
		pc.Notches = append(pc.Notches, n)
		note += fmt.Sprintf(" The sewing ends at %s.", pattern.NotchSaid(n.Name))
		if n.Double {
			note = strings.TrimSuffix(note, ".") + ", double as the one it meets."
		}
	}
	for _, e := range s.rests {
		for _, n := range out.Pattern.Piece(e.piece).Notches {
			if n.Edge == e.edge {
				note += fmt.Sprintf(" Notch %q of %s lies on that and matches nothing now.", n.Name, e.piece)
			}
		}
	}
	out.Notes = append(append(out.Notes, note), taken...)
	out.Notes = append(out.Notes, out.Pattern.Unstretch()...)
	return nil
}

// remains is what is left of a side, as stretches in walked mm.
type remains struct {
	list  [][2]float64
	total float64 // length before the cut
}

func (m remains) sum() float64 {
	sum := 0.0
	for _, st := range m.list {
		sum += st[1] - st[0]
	}
	return sum
}

func (m remains) lost() float64 { return m.total - m.sum() }
func (m remains) empty() bool   { return m.sum() <= placeSlack }

// leftOf returns what is left of a side after what o lost.
func (o *outline) leftOf(side pattern.Side) remains {
	var m remains
	for _, pt := range side {
		length := o.all.PartLength(pt)
		if pt.Piece != o.old.Name {
			m.list = append(m.list, [2]float64{m.total, m.total + length})
			m.total += length
			continue
		}
		whole := o.old.Edge(pt.Edge).Length()
		f, t := pt.From*whole, pt.To*whole
		for _, st := range o.left(pt.Edge) {
			lo, hi := max(st[0], min(f, t)), min(st[1], max(f, t))
			if hi-lo <= placeSlack {
				continue
			}
			if f > t {
				lo, hi = f-hi, f-lo
			} else {
				lo, hi = lo-f, hi-f
			}
			m.list = append(m.list, [2]float64{m.total + lo, m.total + hi})
		}
		m.total += length
	}
	slices.SortFunc(m.list, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	var merged [][2]float64
	for _, st := range m.list {
		if last := len(merged) - 1; last >= 0 && st[0]-merged[last][1] <= placeSlack {
			merged[last][1] = st[1]
			continue
		}
		merged = append(merged, st)
	}
	m.list = merged
	return m
}
