package step

import (
	"errors"
	"fmt"
	"math"

	"truemat/ops/pattern"
	"truemat/ops/unit"
	"truemat/ops/walk"
)

// nearNotch is the distance in mm under which two notches can hardly be told
// apart once they are cut.
const nearNotch = 3.0

// apply drops the notch, or all of them.
func (d Drop) apply(in Input, wk *walk.Walk, out *Output) error {
	if err := d.check(); err != nil {
		return err
	}
	p := out.Pattern
	switch {
	case d.All:
		return d.all(wk, out)
	case d.End:
		at, err := d.atEnd(wk, out)
		if err != nil {
			return err
		}
		return d.put(wk, out, d.Name, at, false)
	case d.MM != nil:
		at, err := d.MM.In(in)
		if err != nil {
			return err
		}
		return d.put(wk, out, d.Name, at, false)
	}
	name, double := d.Name, false
	if d.Spot.Notch != "" {
		if name == "" {
			name = d.Spot.Notch
		}
		if pc := p.Piece(d.Spot.Piece); pc != nil && pc.Notch(d.Spot.Notch) != nil {
			double = pc.Notch(d.Spot.Notch).Double
		}
	}
	other := d.On.Other()
	at, on, err := wk.Find(p, other, *d.Spot)
	if err != nil {
		return err
	}
	if on {
		at = wk.On(d.On, at)
	} else if at, on, err = wk.Find(p, d.On, *d.Spot); err != nil {
		return err
	}
	if !on {
		return fmt.Errorf("%s is not on %s from where it is walked; choose a place on one of its sides", d.Spot, wk.Name())
	}
	return d.put(wk, out, name, at, double)
}

func (d Drop) check() error {
	given := 0
	for _, g := range []bool{d.MM != nil, d.Spot != nil, d.All, d.End} {
		if g {
			given++
		}
	}
	switch {
	case d.On != walk.A && d.On != walk.B:
		return fmt.Errorf("it is dropped on side %q or %q, not %q", walk.A, walk.B, d.On)
	case given != 1:
		return errors.New("say where it goes by exactly one of \"mm\", \"spot\", \"all\" and \"end\"")
	case d.Cut != "" && d.Cut != "single" && d.Cut != "double":
		return fmt.Errorf("it is cut \"single\" or \"double\", not %q", d.Cut)
	case d.Name == "" && !d.All && (d.Spot == nil || d.Spot.Notch == ""):
		return errors.New("it needs a \"name\"")
	}
	return nil
}

// all drops a notch across from each of the other side that has no partner.
func (d Drop) all(wk *walk.Walk, out *Output) error {
	found := false
	for _, lone := range wk.Unmatched() {
		if lone.Side == d.On {
			continue
		}
		found = true
		name := lone.Notch
		if d.Name != "" {
			name = d.Name + " " + name
		}
		if err := d.put(wk, out, name, lone.Other, lone.Double); err != nil {
			return err
		}
	}
	if !found {
		out.Notes = append(out.Notes, fmt.Sprintf("Every notch of the other side of %s has its partner: nothing was dropped.", wk.Name()))
	}
	return nil
}

// atEnd returns where the other side ends on the side of d.
func (d Drop) atEnd(wk *walk.Walk, out *Output) (float64, error) {
	other := d.On.Other()
	at := wk.On(d.On, wk.Run(other).Length)
	over := wk.Run(d.On).Length - at
	switch {
	case over < -placeSlack:
		return 0, fmt.Errorf("the other side of %s does not end on this one: it is %.4g mm longer; drop the notch on the longer side", wk.Name(), -over)
	case over <= placeSlack:
		out.Notes = append(out.Notes, fmt.Sprintf("Both sides of %s end together: %s lies at the very end.", wk.Name(), pattern.NotchSaid(d.Name)))
	}
	return min(at, wk.Run(d.On).Length), nil
}

// put drops a notch at a length of the side.
func (d Drop) put(wk *walk.Walk, out *Output, name string, at float64, double bool) error {
	p := out.Pattern
	piece, edge, along, err := wk.Place(p, d.On, at)
	if err != nil {
		return fmt.Errorf("%s: %w", pattern.NotchSaid(name), err)
	}
	pc := p.Piece(piece)
	if pc.Notch(name) != nil {
		return fmt.Errorf("%s already has a notch %q; give the new one another name", piece, name)
	}
	n := pattern.Notch{Name: name, Edge: edge, Along: along, Double: double && d.Cut == "" || d.Cut == "double"}
	e := pc.Edge(edge)
	from := along.At(e.Length())
	out.Notes = append(out.Notes, crowded(pc, n)...)
	pc.Notches = append(pc.Notches, n)
	out.Figures["at_mm"], out.Figures["at_mm."+name] = from, from
	how := "walked"
	if met := whence(p, wk); met != "" {
		how = "from the " + met
	}
	note := fmt.Sprintf("Notch %q lies on %s of %s, %s %s; %s on the other side.", name, edge, piece, unit.MM(at), how, unit.MM(wk.On(d.On.Other(), at)))
	if e.Allowance == 0 {
		note += " There is no allowance: mark it, never snip it."
	}
	out.Notes = append(out.Notes, note)
	return nil
}

// crowded tells of each other notch of a piece that one lies so close to that they
// can hardly be told apart.
func crowded(pc *pattern.Piece, n pattern.Notch) (notes []string) {
	length := pc.Edge(n.Edge).Length()
	for _, o := range pc.Notches {
		if o.Edge != n.Edge || o.Name == n.Name {
			continue
		}
		if gap := math.Abs(o.At(length) - n.At(length)); gap < nearNotch {
			notes = append(notes, fmt.Sprintf("Notch %q of %s lies %s from %q; they can hardly be told apart.", n.Name, pc.Name, unit.MM(gap), o.Name))
		}
	}
	return notes
}
