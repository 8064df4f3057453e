package order

import (
	"slices"

	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/pattern"
)

// freeEdges returns what is done at the edges that have an allowance, are sewn
// to nothing and carry no elastic: where the piece is lined, lining and outer
// layer are sewn together there and turned, otherwise the edge is turned back.
// A line all of whose edges are finished alike is finished in one go.
func freeEdges(p pattern.Pattern, g cloth.Goods) []Act {
	kindOf := func(piece string, e pattern.Edge) Kind {
		if e.Role == pattern.TurnedBack || hasElastic(p, g, piece, e.Name) {
			return "" // in acts of their own
		}
		return finish(p, g, piece, e)
	}
	var acts []Act
	done := map[[2]string]bool{}
	for _, l := range p.Lines {
		var kinds []Kind
		for _, pt := range l.Parts {
			k := Kind("")
			if _, e := p.Edge(pt.Piece, pt.Edge); e != nil {
				k = kindOf(pt.Piece, *e)
			}
			kinds = append(kinds, k)
		}
		if len(kinds) == 0 || kinds[0] == "" || slices.ContainsFunc(kinds, func(k Kind) bool { return k != kinds[0] }) {
			continue
		}
		acts = append(acts, Act{ID: id(kinds[0], l.Name), Kind: kinds[0], Line: l.Name, Needs: once(slices.Concat(joinsAlong(p, l.Parts), joinsAtEnds(p, l.Parts)), "")})
		for _, pt := range l.Parts {
			done[[2]string{pt.Piece, pt.Edge}] = true
		}
	}
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		for _, e := range pc.Edges {
			if k := kindOf(pc.Name, e); k != "" && !done[[2]string{pc.Name, e.Name}] {
				acts = append(acts, Act{ID: id(k, e.Name+" of "+pc.Name), Kind: k, Piece: pc.Name, Edge: e.Name, Needs: once(joinsAtEnds(p, []pattern.Part{pattern.Whole(pc.Name, e.Name)}), "")})
			}
		}
	}
	return acts
}

// finish returns how an edge that is sewn to no other piece is folded to the
// inside: turned back, enclosed with a lining, or turned with its elastic;
// empty for an edge that is not folded.
func finish(p pattern.Pattern, g cloth.Goods, piece string, e pattern.Edge) Kind {
	switch {
	case e.Allowance <= 0:
		return ""
	case e.Role == pattern.TurnedBack:
		return TurnBack
	case e.Role != pattern.Neckline && e.Role != pattern.Underarm && e.Role != pattern.Hem:
		return ""
	case hasElastic(p, g, piece, e.Name):
		if turnedElastic(p, g, piece, e.Name) {
			return Elastic
		}
		return ""
	case lined(g, piece):
		return Enclose
	}
	return TurnBack
}

// Fold is an edge that is folded to the inside.
type Fold struct {
	Piece, Edge string
	Kind        Kind // TurnBack, Enclose or Elastic
}

// Folds returns the edges that are folded to the inside, in the order of the
// pattern.
func Folds(p pattern.Pattern, g cloth.Goods) []Fold {
	var out []Fold
	for _, pc := range p.Pieces {
		for _, e := range pc.Edges {
			if k := finish(p, g, pc.Name, e); k != "" {
				out = append(out, Fold{pc.Name, e.Name, k})
			}
		}
	}
	return out
}

// lined reports whether a piece has a lining: a layer of its own behind the
// outermost.
func lined(g cloth.Goods, piece string) bool { return len(g.Layers(piece)) > 1 }

// hasElastic reports whether an elastic runs along an edge.
func hasElastic(p pattern.Pattern, g cloth.Goods, piece, edge string) bool {
	return slices.ContainsFunc(g.Elastics, func(e cloth.Elastic) bool { return runsAlong(p, e, piece, edge) })
}

// turnedElastic reports whether an elastic along an edge is turned with it.
func turnedElastic(p pattern.Pattern, g cloth.Goods, piece, edge string) bool {
	return slices.ContainsFunc(g.Elastics, func(e cloth.Elastic) bool { return e.PutOn == cloth.Turned && runsAlong(p, e, piece, edge) })
}

func runsAlong(p pattern.Pattern, e cloth.Elastic, piece, edge string) bool {
	return slices.ContainsFunc(e.Along(p), func(pt pattern.Part) bool { return pt.Piece == piece && pt.Edge == edge })
}

// spot is an edge of a piece.
type spot struct{ piece, edge string }

// atEnds returns the edges at which a chain of parts starts and ends.
func atEnds(p pattern.Pattern, chain []pattern.Part) []spot {
	var out []spot
	if len(chain) == 0 {
		return nil
	}
	for _, pt := range []pattern.Part{chain[0].Backwards(), chain[len(chain)-1]} {
		pc, e := p.Edge(pt.Piece, pt.Edge)
		if e == nil {
			continue
		}
		i := pc.EdgeIndex(pt.Edge)
		switch {
		case pt.To >= 1-geom.Coincident:
			out = append(out, spot{pc.Name, pc.Edges[pc.Next(i)].Name})
		case pt.To <= geom.Coincident:
			out = append(out, spot{pc.Name, pc.Edges[pc.Prev(i)].Name})
		}
	}
	return out
}

// joinsAtEnds returns the seams at which a chain of parts starts and ends.
func joinsAtEnds(p pattern.Pattern, chain []pattern.Part) []string {
	var needs []string
	for _, at := range atEnds(p, chain) {
		for _, s := range p.Seams {
			if sews(s, at.piece, at.edge) {
				needs = append(needs, id(Join, s.Name))
			}
		}
	}
	return needs
}

// coverChannels lets what is done along an edge at which a wire line ends wait
// for the channelling, whose end it covers.
func coverChannels(p pattern.Pattern, acts []Act) {
	for _, l := range p.Lines {
		if l.Kind != pattern.LineWire {
			continue
		}
		ends := channelEnds(p, l)
		for i := range acts {
			a := &acts[i]
			if a.Kind != TurnBack && a.Kind != Enclose && a.Kind != Elastic {
				continue
			}
			if !waits(acts, id(Channel, l.Name), a.ID) && slices.ContainsFunc(ends, func(at spot) bool { return a.touches(p, at.piece, at.edge) }) {
				a.Needs = once(append(a.Needs, id(Channel, l.Name)), "")
			}
		}
	}
}

// catchLinings lets a seam in which the layers of a lined piece are caught
// together wait until they are turned along the edges that end there.
func catchLinings(p pattern.Pattern, g cloth.Goods, acts []Act) {
	for i := range acts {
		if acts[i].Kind != Enclose {
			continue
		}
		for j := range acts {
			s := p.Seam(acts[j].Seam)
			if acts[j].Kind != Join || s == nil || BothLined(g, *s) || !slices.Contains(endsOf(p, acts[i]), acts[j].ID) {
				continue
			}
			without := slices.DeleteFunc(slices.Clone(acts[i].Needs), func(n string) bool { return n == acts[j].ID })
			was := acts[i].Needs
			acts[i].Needs = without
			if waits(acts, acts[i].ID, acts[j].ID) {
				acts[i].Needs = was
				continue
			}
			acts[j].Needs = once(append(acts[j].Needs, acts[i].ID), acts[j].ID)
		}
	}
}

// endsOf returns the seams at which the edges of an act end.
func endsOf(p pattern.Pattern, a Act) []string {
	if l := p.Line(a.Line); l != nil {
		return joinsAtEnds(p, l.Parts)
	}
	return joinsAtEnds(p, []pattern.Part{pattern.Whole(a.Piece, a.Edge)})
}

// waits reports whether an act waits for another one, by itself or by what it
// waits for.
func waits(acts []Act, which, other string) bool {
	seen := map[string]bool{}
	var walk func(string) bool
	walk = func(at string) bool {
		if seen[at] {
			return false
		}
		seen[at] = true
		i := slices.IndexFunc(acts, func(a Act) bool { return a.ID == at })
		return i >= 0 && slices.ContainsFunc(acts[i].Needs, func(n string) bool { return n == other || walk(n) })
	}
	return walk(which)
}

// channelEnds returns the edges at which a wire line ends, on the pieces that
// it runs along and on those sewn to them there.
func channelEnds(p pattern.Pattern, l pattern.Line) []spot {
	ends := atEnds(p, l.Parts)
	for _, s := range p.Seams {
		if slices.ContainsFunc(l.Parts, func(pt pattern.Part) bool { return sews(s, pt.Piece, pt.Edge) }) {
			ends = append(ends, atEnds(p, s.A)...)
			ends = append(ends, atEnds(p, s.B)...)
		}
	}
	return ends
}
