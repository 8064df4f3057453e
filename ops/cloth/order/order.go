// Package order works out in which order a garment is sewn: which seam must
// wait for which, and what is done at each.
package order

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Kind says what is done in an act.
type Kind string

// The kinds of act, in the order in which they come when nothing else decides.
const (
	Join     Kind = "join"      // sew a seam
	Channel  Kind = "channel"   // sew the wire channelling on
	TurnBack Kind = "turn-back" // fold an edge back and stitch it
	Enclose  Kind = "enclose"   // sew lining and outer layer together along an edge and turn them
	Elastic  Kind = "elastic"   // put an elastic on
	Strap    Kind = "strap"     // sew a strap on
	Close    Kind = "close"     // sew the closure on
	Wires    Kind = "wires"     // put the wires in and close their ends
)

// kinds lists the kinds in the order in which they come.
var kinds = []Kind{Join, Channel, TurnBack, Enclose, Elastic, Strap, Close, Wires}

// Sorted returns the acts in an order in which each comes after all it needs.
// The acts that prefer names come in that order, as far as their needs let
// them, before it is chosen for the others: seams that join the fewest pieces
// first, so that small things are sewn while they are flat, then by kind. An
// error names acts that wait for each other: such a garment cannot be sewn
// seam by seam.
func Sorted(acts []Act, prefer []string) ([]Act, error) {
	var out []Act
	done := map[string]bool{}
	known := map[string]bool{}
	for _, a := range acts {
		known[a.ID] = true
	}
	joined := newGroups()
	for len(out) < len(acts) {
		best := -1
		for i, a := range acts {
			if done[a.ID] || slices.ContainsFunc(a.Needs, func(n string) bool { return known[n] && !done[n] }) {
				continue
			}
			if best < 0 || before(a, acts[best], prefer, joined) {
				best = i
			}
		}
		if best < 0 {
			return nil, fmt.Errorf("these wait for each other and cannot be sewn one after the other: %s; look at the sides of their seams", strings.Join(waiting(acts, done), ", "))
		}
		a := acts[best]
		done[a.ID] = true
		joined.join(a.pieces)
		out = append(out, a)
	}
	return out, nil
}

// before reports whether a is chosen over b when both can be done.
func before(a, b Act, prefer []string, joined groups) bool {
	i, j := slices.Index(prefer, a.ID), slices.Index(prefer, b.ID)
	if i >= 0 || j >= 0 {
		return j < 0 || i >= 0 && i < j
	}
	if a.Kind != b.Kind {
		return slices.Index(kinds, a.Kind) < slices.Index(kinds, b.Kind)
	}
	return joined.size(a.pieces) < joined.size(b.pieces)
}

func waiting(acts []Act, done map[string]bool) []string {
	var names []string
	for _, a := range acts {
		if !done[a.ID] {
			names = append(names, a.ID)
		}
	}
	return names
}

// TooEarly says that an act would come before one that it needs.
type TooEarly struct{ Act, Needs Act }

// Error names both.
func (e *TooEarly) Error() string {
	return fmt.Sprintf("%q must come after %q, which it runs across or covers; leave it behind", e.Act.ID, e.Needs.ID)
}

// Moved returns the order with one act put to another place, from 0. It is
// refused when an act would come before one that it needs.
func Moved(acts []Act, which string, to int) ([]Act, error) {
	i := slices.IndexFunc(acts, func(a Act) bool { return a.ID == which })
	if i < 0 {
		return nil, fmt.Errorf("there is no act %q in the order of sewing", which)
	}
	if to < 0 || to >= len(acts) {
		return nil, fmt.Errorf("%q cannot come as number %d; there are %d acts", which, to+1, len(acts))
	}
	a := acts[i]
	next := slices.Insert(slices.Delete(slices.Clone(acts), i, i+1), to, a)
	for k, act := range next {
		for _, later := range next[k+1:] {
			if slices.Contains(act.Needs, later.ID) {
				return nil, &TooEarly{Act: act, Needs: later}
			}
		}
	}
	return next, nil
}

// Possible refuses an order of acts that names one that there is not, or one
// before another that it must wait for.
func Possible(acts []Act, prefer []string) error {
	for i, which := range prefer {
		if !slices.ContainsFunc(acts, func(a Act) bool { return a.ID == which }) {
			var names []string
			for _, a := range acts {
				names = append(names, strconv.Quote(a.ID))
			}
			return fmt.Errorf("there is no act %q in the order of sewing; there are %s", which, strings.Join(names, ", "))
		}
		for _, later := range prefer[i+1:] {
			if waits(acts, which, later) {
				return fmt.Errorf("%q cannot come before %q, for which it waits; turn them round in the order", which, later)
			}
		}
	}
	return nil
}

// IDs returns the names of acts in their order.
func IDs(acts []Act) []string {
	out := make([]string, len(acts))
	for i, a := range acts {
		out[i] = a.ID
	}
	return out
}

// groups holds which pieces are sewn together already.
type groups map[string]*[]string

func newGroups() groups { return groups{} }

func (g groups) of(piece string) *[]string {
	if g[piece] == nil {
		g[piece] = &[]string{piece}
	}
	return g[piece]
}

// join makes one group of the pieces' groups.
func (g groups) join(pieces []string) {
	if len(pieces) == 0 {
		return
	}
	all := g.of(pieces[0])
	for _, piece := range pieces[1:] {
		if o := g.of(piece); o != all {
			*all = append(*all, *o...)
			for _, p := range *o {
				g[p] = all
			}
		}
	}
}

// size returns how many pieces would hang together.
func (g groups) size(pieces []string) int {
	var seen []*[]string
	n := 0
	for _, piece := range pieces {
		if o := g.of(piece); !slices.Contains(seen, o) {
			seen = append(seen, o)
			n += len(*o)
		}
	}
	return n
}
