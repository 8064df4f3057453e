package pattern

import "fmt"

// Spot carries a spot of old through an alteration to next, which holds the
// carried notches already. A spot whose place is gone gives an error.
func (m Map) Spot(old, next Pattern, s Spot) (Spot, error) {
	c, err := newCarrier(old, next, m)
	if err != nil {
		return Spot{}, err
	}
	return c.spot(s, 0)
}

func (c *carrier) spot(s Spot, depth int) (Spot, error) {
	if depth > datumDepth {
		return Spot{}, fmt.Errorf("more than %d lines refer to each other", datumDepth)
	}
	at, err := c.old.Find(s)
	if err != nil {
		return Spot{}, err
	}
	st, d, ok := c.place(at.Piece, at.Edge, at.S)
	if !ok {
		return Spot{}, fmt.Errorf("%s was cut away", s)
	}
	if s.Notch != "" {
		name := c.name(s.Piece, st.piece, s.Notch, (*Piece).notchNames)
		if c.next.Piece(st.piece).Notch(name) == nil {
			return Spot{}, fmt.Errorf("%s was taken away", s)
		}
		return AtNotch(st.piece, name), nil
	}
	n := Spot{Piece: st.piece, Edge: st.edge, Along: s.Along}
	if s.Crosses != nil {
		x, err := c.datum(*s.Crosses, depth+1)
		if err != nil {
			return Spot{}, err
		}
		// The crossing is the one nearest to the place held: hold it where it was found.
		n.Crosses, n.Along = &x, Along{MM: d}
		return n, nil
	}
	n.Along = s.Along.carried(st, at.S, d)
	return n, nil
}

func (c *carrier) datum(d Datum, depth int) (Datum, error) {
	if depth > datumDepth {
		return Datum{}, fmt.Errorf("more than %d lines refer to each other", datumDepth)
	}
	through := make([]Spot, len(d.Through))
	for i, s := range d.Through {
		n, err := c.spot(s, depth+1)
		if err != nil {
			return Datum{}, err
		}
		through[i] = n
	}
	if d.Through = through; len(through) == 0 {
		d.Through = nil
	}
	if d.Arrow != "" {
		to, removed := c.becomes(d.Arrow)
		if removed {
			return Datum{}, fmt.Errorf("piece %q is no more", d.Arrow)
		}
		d.Arrow = to[0]
	}
	if d.To != nil {
		n, err := c.datum(*d.To, depth+1)
		if err != nil {
			return Datum{}, err
		}
		d.To = &n
	}
	return d, nil
}
