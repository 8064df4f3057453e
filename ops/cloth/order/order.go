// Package order works out in which order a garment is sewn: which seam must
// wait for which, and what is done at each.
package order

import (
	"fmt"
	"slices"
	"strings"

	"truemat/ops/cloth"
	"truemat/ops/pattern"
)

// Kind says what is done in an act.
type Kind string

// The kinds of act, in the order in which they come when nothing else decides.
const (
	Join     Kind = "join"      // sew a seam
	Channel  Kind = "channel"   // sew the wire channelling on
	TurnBack Kind = "turn-back" // fold an edge back and stitch it
	Elastic  Kind = "elastic"   // put an elastic on
	Close    Kind = "close"     // sew the closure on
	Wires    Kind = "wires"     // put the wires in and close their ends
)

// kinds lists the kinds in the order in which they come.
var kinds = []Kind{Join, Channel, TurnBack, Elastic, Close, Wires}

// Act is one thing to be done in sewing.
type Act struct {
	// ID is the kind and the name of what it is done to: "join side seam".
	ID    string `json:"id"`
	Kind  Kind   `json:"kind"`
	Seam  string `json:"seam,omitempty"`
	Line  string `json:"line,omitempty"`
	Piece string `json:"piece,omitempty"`
	Edge  string `json:"edge,omitempty"`
	// Of is the name of an elastic.
	Of string `json:"of,omitempty"`
	// Needs are the IDs of the acts that come before it.
	Needs []string `json:"needs,omitempty"`
	// Pieces it holds together when done, for choosing among acts.
	pieces []string
}

// Acts returns the acts of a garment with what each must wait for, seams in
// the order of the pattern. A seam waits for every seam that joins two parts
// along one of its sides; what is done along a line waits for the seams that
// the line runs across, and for what ends at its edges.
func Acts(p pattern.Pattern, g cloth.Goods) []Act {
	var acts []Act
	for _, s := range p.Seams {
		a := Act{ID: id(Join, s.Name), Kind: Join, Seam: s.Name}
		for _, side := range []pattern.Side{s.A, s.B} {
			a.Needs = append(a.Needs, joinsAlong(p, side)...)
			for _, pt := range side {
				a.pieces = append(a.pieces, pt.Piece)
			}
		}
		a.Needs = once(a.Needs, a.ID)
		acts = append(acts, a)
	}
	acts = append(acts, channels(p)...)
	acts = append(acts, turnBacks(p)...)
	for _, e := range g.Elastics {
		if l := p.Line(e.Line); l != nil {
			acts = append(acts, Act{ID: id(Elastic, e.Name), Kind: Elastic, Line: l.Name, Of: e.Name, Needs: once(joinsAlong(p, l.Parts), "")})
		}
	}
	acts = append(acts, closures(p, acts)...)
	return append(acts, wires(p, acts)...)
}

func id(k Kind, name string) string { return string(k) + " " + name }

// once returns the names without doubles and without the one that is left out.
func once(names []string, out string) []string {
	var kept []string
	for _, n := range names {
		if n != out && !slices.Contains(kept, n) {
			kept = append(kept, n)
		}
	}
	return kept
}

// joinsAlong returns the seams that join the parts of a chain to each other.
func joinsAlong(p pattern.Pattern, chain []pattern.Part) []string {
	var needs []string
	for i := 1; i < len(chain); i++ {
		before, after := chain[i-1], chain[i]
		if before.Piece == after.Piece && before.Mirrored == after.Mirrored {
			for _, name := range between(p, before, after) {
				needs = append(needs, id(Join, name))
			}
			continue
		}
		if _, name, err := p.LaySewn(before, after); err == nil && name != "" {
			needs = append(needs, id(Join, name))
		}
	}
	return needs
}

// between returns the seams that sew the edges between two parts of one
// piece to each other, such as a dart.
func between(p pattern.Pattern, before, after pattern.Part) []string {
	pc := p.Piece(before.Piece)
	if pc == nil || before.Edge == after.Edge {
		return nil
	}
	way := pc.Next
	i, j := pc.EdgeIndex(before.Edge), pc.EdgeIndex(after.Edge)
	if before.From > before.To {
		way = pc.Prev
	}
	var names []string
	for k := way(i); k != j && k != i; k = way(k) {
		for _, s := range p.Seams {
			if sews(s, pc.Name, pc.Edges[k].Name) && own(s, pc.Name) {
				names = append(names, s.Name)
			}
		}
	}
	return names
}

// sews reports whether a seam has an edge on one of its sides.
func sews(s pattern.Seam, piece, edge string) bool {
	return slices.ContainsFunc(slices.Concat(s.A, s.B), func(pt pattern.Part) bool { return pt.Piece == piece && pt.Edge == edge })
}

// own reports whether both sides of a seam lie on one piece.
func own(s pattern.Seam, piece string) bool {
	return !slices.ContainsFunc(slices.Concat(s.A, s.B), func(pt pattern.Part) bool { return pt.Piece != piece })
}

// channels: the channelling is sewn on when all seams along its line are.
func channels(p pattern.Pattern) []Act {
	var acts []Act
	for _, l := range p.Lines {
		if l.Kind != pattern.LineWire {
			continue
		}
		a := Act{ID: id(Channel, l.Name), Kind: Channel, Line: l.Name, Needs: joinsAlong(p, l.Parts)}
		for _, pt := range l.Parts {
			for _, s := range p.Seams {
				if sews(s, pt.Piece, pt.Edge) {
					a.Needs = append(a.Needs, id(Join, s.Name))
				}
			}
		}
		a.Needs = once(a.Needs, "")
		acts = append(acts, a)
	}
	return acts
}

// turnBacks: an edge is turned back when the seams at its ends are sewn, so
// that their ends lie beneath.
func turnBacks(p pattern.Pattern) []Act {
	var acts []Act
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		for j, e := range pc.Edges {
			if e.Role != pattern.TurnedBack {
				continue
			}
			a := Act{ID: id(TurnBack, e.Name+" of "+pc.Name), Kind: TurnBack, Piece: pc.Name, Edge: e.Name}
			for _, k := range []int{pc.Prev(j), pc.Next(j)} {
				for _, s := range p.Seams {
					if sews(s, pc.Name, pc.Edges[k].Name) {
						a.Needs = append(a.Needs, id(Join, s.Name))
					}
				}
			}
			a.Needs = once(a.Needs, "")
			acts = append(acts, a)
		}
	}
	return acts
}

// closures: the closure covers the ends of all that was put on before it
// along the edges beside it.
func closures(p pattern.Pattern, before []Act) []Act {
	var acts []Act
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		for j, e := range pc.Edges {
			if e.Role != pattern.Closure {
				continue
			}
			a := Act{ID: id(Close, e.Name+" of "+pc.Name), Kind: Close, Piece: pc.Name, Edge: e.Name}
			for _, k := range []int{pc.Prev(j), pc.Next(j)} {
				for _, b := range before {
					if b.touches(p, pc.Name, pc.Edges[k].Name) {
						a.Needs = append(a.Needs, b.ID)
					}
				}
			}
			a.Needs = once(a.Needs, "")
			acts = append(acts, a)
		}
	}
	return acts
}

// touches reports whether an act is done along an edge.
func (a Act) touches(p pattern.Pattern, piece, edge string) bool {
	if a.Piece == piece && a.Edge == edge {
		return true
	}
	if s := p.Seam(a.Seam); s != nil && sews(*s, piece, edge) {
		return true
	}
	l := p.Line(a.Line)
	return l != nil && slices.ContainsFunc(l.Parts, func(pt pattern.Part) bool { return pt.Piece == piece && pt.Edge == edge })
}

// wires: wires go in when the channelling is on and its ends can be closed,
// so after everything that is sewn at the pieces it runs along.
func wires(p pattern.Pattern, before []Act) []Act {
	var acts []Act
	for _, l := range p.Lines {
		if l.Kind != pattern.LineWire {
			continue
		}
		a := Act{ID: id(Wires, l.Name), Kind: Wires, Line: l.Name, Needs: []string{id(Channel, l.Name)}}
		for _, b := range before {
			if b.Kind == Elastic || b.Kind == TurnBack {
				for _, pt := range l.Parts {
					if pc := p.Piece(pt.Piece); pc != nil && slices.ContainsFunc(pc.Edges, func(e pattern.Edge) bool { return b.touches(p, pt.Piece, e.Name) }) {
						a.Needs = append(a.Needs, b.ID)
					}
				}
			}
		}
		a.Needs = once(a.Needs, "")
		acts = append(acts, a)
	}
	return acts
}

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
				return nil, fmt.Errorf("%q must come after %q, which it runs across or covers; leave it behind", act.ID, later.ID)
			}
		}
	}
	return next, nil
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
