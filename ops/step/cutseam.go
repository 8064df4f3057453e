package step

import (
	"cmp"
	"fmt"
	"slices"

	"truemat/ops/pattern"
)

// shortened is a seam that lost part of a side to a cut.
type shortened struct {
	name  string
	ease  float64
	b     bool // the partner is side B
	rests []released
	rest  float64 // length in mm that is no longer sewn
	// Where the sewing ends, when that is inside an edge.
	piece string
	notch *pattern.Notch
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
		switch {
		case a.lost() <= placeSlack && b.lost() <= placeSlack:
			continue
		case a.lost() > placeSlack && b.lost() > placeSlack:
			// A dart or a piece sewn to its own mirror image: both sides were cut.
			if !a.empty() && !b.empty() {
				out = append(out, shortened{name: s.Name, ease: s.Ease * a.sum() / a.total})
			}
			continue
		}
		cut, partner, sign := a, s.B, -1.0
		if b.lost() > placeSlack {
			cut, partner, sign = b, s.A, 1
		}
		short := shortened{name: s.Name, ease: s.Ease * cut.sum() / cut.total, b: sign < 0}
		whole := o.all.Length(partner)
		from, to := 0.0, whole // of the partner's rest
		if !cut.empty() {
			keep := min(max(cut.sum()+sign*short.ease, 0), whole)
			atStart, atEnd := cut.list[0][0] <= placeSlack, cut.list[len(cut.list)-1][1] >= cut.total-placeSlack
			switch {
			case len(cut.list) > 1:
				return nil, fmt.Errorf("the cut takes a bite out of the middle of seam %q on %s; cut up to one of its ends, or straighten the run instead", s.Name, c.Piece)
			case atStart:
				from = keep
			case atEnd:
				to = whole - keep
			default:
				return nil, fmt.Errorf("the cut takes both ends of seam %q on %s away, so its partner has no end to be walked from; cut in two steps", s.Name, c.Piece)
			}
		}
		if err := c.release(r, s.Name, partner, from, to, role, &short); err != nil {
			return nil, err
		}
		out = append(out, short)
	}
	return out, nil
}

// release makes the partner's stretch from … to, in walked mm, edges of their own.
func (c *CutOff) release(r *redraw, seam string, side pattern.Side, from, to float64, role pattern.Role, short *shortened) error {
	if to-from <= placeSlack {
		return nil
	}
	short.rest = to - from
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
		old := o.old.Edge(pt.Edge)
		total := old.Length()
		// The rest on the old edge, in its own direction.
		s0, s1 := pt.From*total+a, pt.From*total+b
		if pt.From > pt.To {
			s0, s1 = pt.From*total-b, pt.From*total-a
		}
		atStart, atEnd := s0 <= placeSlack, s1 >= total-placeSlack
		if !atStart && !atEnd {
			return fmt.Errorf("seam %q would be shortened to the middle of %s of %s and leave a gap there; cut less, or take the seam apart first", seam, pt.Edge, pt.Piece)
		}
		i, err := o.cut(pt.Edge, max(s0, 0))
		if err != nil {
			return err
		}
		name := pt.Edge
		if !atStart || !atEnd {
			if name = c.Partner.Rest; name == "" {
				name = pt.Edge + " rest"
			}
			n := pattern.Notch{Name: c.notchName(), Edge: pt.Edge, Along: pattern.Along{From: pattern.End}}
			if atStart {
				if _, err = o.cut(pt.Edge, s1); err != nil {
					return err
				}
				if i, err = o.cut(pt.Edge, 0); err != nil {
					return err
				}
				n.Along.From = pattern.Start
			}
			short.piece, short.notch = pt.Piece, &n
		}
		e := &o.runs[i].edge
		e.Name, e.Role, e.Free = name, role, false
		short.rests = append(short.rests, released{pt.Piece, name})
	}
	return nil
}

// settle writes the shortened seam into the altered pattern.
func (s shortened) settle(out *Output) error {
	seam := out.Pattern.Seam(s.name)
	if seam != nil {
		seam.Ease = s.ease
		side := &seam.A
		if s.b {
			side = &seam.B
		}
		*side = slices.DeleteFunc(*side, func(pt pattern.Part) bool { return slices.Contains(s.rests, released{pt.Piece, pt.Edge}) })
	}
	if len(s.rests) == 0 {
		return nil
	}
	out.Figures["rest."+s.name] = s.rest
	names := make([]string, len(s.rests))
	for i, e := range s.rests {
		names[i] = e.edge + " of " + e.piece
	}
	note := fmt.Sprintf("Seam %q is shorter by %.1f mm: %s is no longer sewn.", s.name, s.rest, words(names))
	if s.notch != nil {
		pc := out.Pattern.Piece(s.piece)
		if pc.Notch(s.notch.Name) != nil {
			return fmt.Errorf("piece %q has a notch %q already; give the notch where seam %q ends another name", s.piece, s.notch.Name, s.name)
		}
		pc.Notches = append(pc.Notches, *s.notch)
		note += fmt.Sprintf(" The sewing ends at notch %q.", s.notch.Name)
	}
	out.Notes = append(out.Notes, note)
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
