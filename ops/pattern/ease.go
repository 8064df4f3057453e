package pattern

import (
	"fmt"
	"slices"
	"sort"

	"truemat/geom"
)

// Stretch states the ease of a stretch of a seam, between two notches of its
// side A: how much longer side A is meant to be there, in mm. A bound that
// names no notch is that end of the side.
type Stretch struct {
	From NotchName `json:"from,omitzero"`
	To   NotchName `json:"to,omitzero"`
	Ease float64   `json:"ease"`
}

// NotchName names a notch of a piece.
type NotchName struct {
	Piece string `json:"piece"`
	Notch string `json:"notch"`
}

func (n NotchName) String() string { return NotchSaid(n.Notch) + " of " + n.Piece }

func (st Stretch) String() string {
	from, to := "its start", "its end"
	if st.From != (NotchName{}) {
		from = st.From.String()
	}
	if st.To != (NotchName{}) {
		to = st.To.String()
	}
	return "from " + from + " to " + to
}

// Spread is how the ease of a seam is spread along its side A, as corners of a
// line: at A mm from the start of the side, Ease mm are taken in. Between them
// it is spread evenly.
type Spread []SpreadCorner

// SpreadCorner is a corner of a [Spread].
type SpreadCorner struct{ A, Ease float64 }

// Spread returns how the ease of a seam is spread: evenly within each of its
// stretches, and what they leave of the seam's ease evenly over the rest, or
// over all of the seam when they leave no rest. Stretches whose notches are
// not on the side are left out.
func (p Pattern) Spread(s Seam) Spread {
	length := p.Length(s.A)
	type span struct{ lo, hi, ease float64 }
	var spans []span
	rest, bare := s.Ease, length
	for _, st := range s.Stretches {
		lo, hi, err := p.StretchOn(s, st)
		if err != nil {
			continue
		}
		spans = append(spans, span{lo, hi, st.Ease})
		rest -= st.Ease
		bare -= hi - lo
	}
	sort.Slice(spans, func(i, j int) bool { return spans[i].lo < spans[j].lo })
	between, within := 0.0, 0.0 // of ease by mm
	switch {
	case bare > mapSlack:
		between = rest / bare
	case length > 0:
		within = rest / length
	}
	out := Spread{{}}
	add := func(to, ease float64) {
		if last := out[len(out)-1]; to-last.A > geom.Coincident {
			out = append(out, SpreadCorner{to, last.Ease + ease})
		}
	}
	for _, sp := range spans {
		at := out[len(out)-1].A
		add(sp.lo, between*(sp.lo-at))
		add(sp.hi, sp.ease+within*(sp.hi-sp.lo))
	}
	add(length, between*(length-out[len(out)-1].A))
	return out
}

// EaseTo returns the ease in mm taken in on the first a mm of side A. Beyond
// its ends nothing more is taken in.
func (sp Spread) EaseTo(a float64) float64 {
	i := sort.Search(len(sp), func(i int) bool { return sp[i].A >= a })
	switch {
	case i == 0:
		return 0
	case i == len(sp):
		return sp[i-1].Ease
	}
	lo, hi := sp[i-1], sp[i]
	return lo.Ease + (hi.Ease-lo.Ease)*(a-lo.A)/(hi.A-lo.A)
}

// B returns the length on side B that belongs to the length a on side A.
func (sp Spread) B(a float64) float64 { return a - sp.EaseTo(a) }

// A returns the length on side A that belongs to the length b on side B; the
// spread must leave some of side B everywhere (see [Spread.Sewable]).
func (sp Spread) A(b float64) float64 {
	i := sort.Search(len(sp), func(i int) bool { return sp[i].A-sp[i].Ease >= b })
	switch {
	case i == 0:
		return b
	case i == len(sp):
		return b + sp[i-1].Ease
	}
	lo, hi := sp[i-1], sp[i]
	from, to := lo.A-lo.Ease, hi.A-hi.Ease
	return lo.A + (hi.A-lo.A)*(b-from)/(to-from)
}

// Sewable reports whether no stretch is to take in as much as it is long, or
// more, on either side.
func (sp Spread) Sewable() bool {
	for i := 1; i < len(sp); i++ {
		if a, ease := sp[i].A-sp[i-1].A, sp[i].Ease-sp[i-1].Ease; !(a-ease > mapSlack) || !(ease > -a) {
			return false
		}
	}
	return true
}

// StretchOn returns where a stretch starts and ends on side A of a seam, in mm
// from the start of the side; the error says which notch is missing.
func (p Pattern) StretchOn(s Seam, st Stretch) (lo, hi float64, err error) {
	lo, hi = 0, p.Length(s.A)
	met := p.SideNotches(s.A)
	find := func(n NotchName, at float64) (float64, error) {
		if n == (NotchName{}) {
			return at, nil
		}
		i := slices.IndexFunc(met, func(m SeamNotch) bool { return m.Piece == n.Piece && m.Notch.Name == n.Notch })
		if i < 0 {
			names := make([]string, len(met))
			for i, m := range met {
				names[i] = m.Notch.Name + " of " + m.Piece
			}
			return 0, fmt.Errorf("there is no %s on its first side, which has %s", n, quoted(names))
		}
		return met[i].At, nil
	}
	if lo, err = find(st.From, lo); err != nil {
		return 0, 0, err
	}
	if hi, err = find(st.To, hi); err != nil {
		return 0, 0, err
	}
	if !(hi-lo > mapSlack) {
		return 0, 0, fmt.Errorf("the stretch %s runs backwards or has no length", st)
	}
	return lo, hi, nil
}

// validateStretches looks at the stretches of a seam.
func (p Pattern) validateStretches(s Seam) error {
	if err := atMost("stretches", len(s.Stretches), maxThings); err != nil {
		return err
	}
	type span struct {
		lo, hi float64
		of     Stretch
	}
	var spans []span
	for _, st := range s.Stretches {
		lo, hi, err := p.StretchOn(s, st)
		if err != nil {
			return err
		}
		if !finite(st.Ease) {
			return fmt.Errorf("the ease %g %s is not a sensible length", st.Ease, st)
		}
		for _, o := range spans {
			if min(hi, o.hi)-max(lo, o.lo) > mapSlack {
				return fmt.Errorf("the stretches %s and %s overlap; ease can be stated once for each place", o.of, st)
			}
		}
		spans = append(spans, span{lo, hi, st})
	}
	return nil
}

// stretches carries the bounds of stretches; one whose notch is lost keeps the
// old name.
func (c *carrier) stretches(list []Stretch) []Stretch {
	list = slices.Clone(list)
	for i := range list {
		for _, n := range []*NotchName{&list[i].From, &list[i].To} {
			if is, ok := c.notches[*n]; ok {
				*n = is
			}
		}
	}
	return list
}

// Unstretch takes out of every seam of p the stretches that its side A no
// longer holds, and says so in a sentence each. The ease of the seam stays.
func (p Pattern) Unstretch() []string {
	var notes []string
	for i := range p.Seams {
		s := &p.Seams[i]
		was := s.Stretches
		s.Stretches = nil
		for _, st := range was {
			with := *s
			with.Stretches = append(slices.Clone(s.Stretches), st)
			if p.validateStretches(with) == nil {
				s.Stretches = with.Stretches
				continue
			}
			notes = append(notes, fmt.Sprintf("Seam %q no longer states its ease %s; it is spread with the rest.", s.Name, st))
		}
	}
	return notes
}
