package order

import (
	"slices"

	"truemat/ops/cloth"
	"truemat/ops/pattern"
)

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
	acts = append(acts, freeEdges(p, g)...)
	for _, e := range g.Elastics {
		if l := p.Line(e.Line); l != nil {
			runs := e.Along(p)
			a := Act{ID: id(Elastic, e.Name), Kind: Elastic, Line: l.Name, Of: e.Name, Needs: slices.Concat(joinsAlong(p, runs), joinsAtEnds(p, runs))}
			a.Needs = once(a.Needs, "")
			acts = append(acts, a)
		}
	}
	catchLinings(p, g, acts)
	coverChannels(p, acts)
	if g.Notions.Straps.Count > 0 {
		acts = append(acts, straps(p, acts)...)
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
	return caps(p, before, Close, func(e pattern.Edge) bool { return e.Role == pattern.Closure })
}

// straps: a strap is sewn on at an edge that is sewn to nothing in the
// pattern, over the ends of all along the edges beside it.
func straps(p pattern.Pattern, before []Act) []Act {
	return caps(p, before, Strap, func(e pattern.Edge) bool { return e.Role == pattern.SeamEdge && e.Free })
}

// caps returns the acts that are done at whole edges and cover what ends there.
func caps(p pattern.Pattern, before []Act, kind Kind, at func(pattern.Edge) bool) []Act {
	var acts []Act
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		for j, e := range pc.Edges {
			if !at(e) {
				continue
			}
			a := Act{ID: id(kind, e.Name+" of "+pc.Name), Kind: kind, Piece: pc.Name, Edge: e.Name}
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
			if b.Kind == Elastic || b.Kind == TurnBack || b.Kind == Enclose {
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
