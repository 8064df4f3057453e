package cloth

import (
	"slices"
	"strings"
)

// Renaming says that a piece, one of its edges or notches, a seam or a line has
// another name.
type Renaming struct {
	Piece       string // the piece, or the one whose edge or notch it is
	Edge, Notch string
	Seam, Line  string
	To          string
}

// Renamed returns the goods speaking of something by its new name.
func (g Goods) Renamed(r Renaming) Goods {
	g = g.clone()
	switch {
	case r.Seam != "":
		g.renameSeam(r.Seam, r.To)
	case r.Line != "":
		g.renameLine(r.Line, r.To)
	case r.Edge != "":
		g.renameEdge(r.Piece, r.Edge, r.To)
	case r.Notch != "":
		g.eachWish(func(w *Wish) {
			if w.Piece == r.Piece && w.Spot != nil && w.Spot.Notch == r.Notch {
				w.Spot.Notch = r.To
			}
		})
	case r.Piece != "":
		g.renamePiece(r.Piece, r.To)
	}
	return g
}

// Acts of sewing that name no line, nor an edge of a piece.
const (
	actOfSeam    = "join"
	actOfElastic = "elastic"
)

// renameAct changes what acts of sewing name, those for which of is true.
func (g *Goods) renameAct(was, to string, of func(kind string) bool) {
	for i, act := range g.Order {
		if kind, name, _ := strings.Cut(act, " "); name == was && of(kind) {
			g.Order[i] = kind + " " + to
		}
	}
}

func replace(list []string, was, to string) {
	for i := range list {
		if list[i] == was {
			list[i] = to
		}
	}
}

func (g *Goods) renameSeam(was, to string) {
	for i := range g.Topstitch {
		if g.Topstitch[i].Seam == was {
			g.Topstitch[i].Seam = to
		}
	}
	for i := range g.Notions.Sewing {
		replace(g.Notions.Sewing[i].Seams, was, to)
	}
	g.renameAct(was, to, func(kind string) bool { return kind == actOfSeam })
}

func (g *Goods) renameLine(was, to string) {
	for i := range g.Elastics {
		if g.Elastics[i].Line == was {
			g.Elastics[i].Line = to
		}
	}
	for i := range g.Notions.Sewing {
		replace(g.Notions.Sewing[i].Lines, was, to)
	}
	g.renameAct(was, to, func(kind string) bool { return kind != actOfSeam && kind != actOfElastic })
}

func (g *Goods) renameEdge(piece, was, to string) {
	g.eachWish(func(w *Wish) {
		if w.Piece != piece {
			return
		}
		if w.Edge == was {
			w.Edge = to
		}
		if w.Spot != nil && w.Spot.Edge == was {
			w.Spot.Edge = to
		}
	})
	g.renameAct(was+" of "+piece, to+" of "+piece, func(kind string) bool { return kind != actOfSeam && kind != actOfElastic })
}

func (g *Goods) renamePiece(was, to string) {
	for i := range g.Made {
		if g.Made[i].Piece == was {
			g.Made[i].Piece = to
		}
	}
	for i := range g.Elastics {
		replace(g.Elastics[i].On, was, to)
		for k := range g.Elastics[i].Stretches {
			replace(g.Elastics[i].Stretches[k].Pieces, was, to)
		}
	}
	g.eachWish(func(w *Wish) {
		if w.Piece == was {
			w.Piece = to
		}
		if w.Spot != nil && w.Spot.Piece == was {
			w.Spot.Piece = to
		}
	})
	for i := range g.Laces {
		for k := range g.Laces[i].Places {
			if p := &g.Laces[i].Places[k]; p.Piece == was {
				p.Piece = to
			}
		}
	}
	for i := range g.Laid {
		for k := range g.Laid[i].Pins {
			if p := &g.Laid[i].Pins[k]; p.Piece == was {
				p.Piece = to
			}
		}
	}
	for i, act := range g.Order {
		if kind, _, _ := strings.Cut(act, " "); kind == actOfSeam || kind == actOfElastic {
			continue
		}
		if rest, ok := strings.CutSuffix(act, " of "+was); ok {
			g.Order[i] = rest + " of " + to
		}
	}
}

// eachWish calls do with every wish, to be changed.
func (g *Goods) eachWish(do func(*Wish)) {
	for i := range g.Laces {
		for k := range g.Laces[i].Wishes {
			w := &g.Laces[i].Wishes[k]
			if w.Spot != nil {
				spot := *w.Spot
				w.Spot = &spot
			}
			do(w)
		}
	}
}

// Joined returns the goods of a pattern whose pieces a and b have become one: it
// is cut from what a was, or else b, and an elastic is as much shorter there as it
// was on a. How they lay on cloth is forgotten, since they have another outline.
func (g Goods) Joined(a, b, name string) Goods {
	g = g.clone()
	if a == b {
		return g
	}
	for _, piece := range []string{a, b} {
		for i := range g.Laces {
			o := &g.Laces[i]
			o.Wishes = slices.DeleteFunc(o.Wishes, func(w Wish) bool { return w.Piece == piece })
			o.Places = slices.DeleteFunc(o.Places, func(p Place) bool { return p.Piece == piece })
		}
		for i := range g.Laid {
			l := &g.Laid[i]
			l.Pins = slices.DeleteFunc(l.Pins, func(p Pin) bool { return p.Piece == piece })
		}
	}
	g.Laces = slices.DeleteFunc(g.Laces, func(o OnLace) bool { return len(o.Wishes)+len(o.Places) == 0 && o.Gap == 0 })
	g.Laid = slices.DeleteFunc(g.Laid, func(l Laid) bool { return len(l.Pins) == 0 && l.Gap == 0 })
	if slices.ContainsFunc(g.Made, func(m Made) bool { return m.Piece == a }) {
		g.Made = slices.DeleteFunc(g.Made, func(m Made) bool { return m.Piece == b })
	}
	for i := range g.Elastics {
		e := &g.Elastics[i]
		if slices.Contains(e.On, a) {
			e.On = slices.DeleteFunc(e.On, func(s string) bool { return s == b })
		}
		if !slices.ContainsFunc(e.Stretches, func(r Reduced) bool { return slices.Contains(r.Pieces, a) }) {
			continue
		}
		for k := range e.Stretches {
			e.Stretches[k].Pieces = slices.DeleteFunc(e.Stretches[k].Pieces, func(s string) bool { return s == b })
		}
		e.Stretches = slices.DeleteFunc(e.Stretches, func(r Reduced) bool { return len(r.Pieces) == 0 })
	}
	g.renamePiece(b, name)
	g.renamePiece(a, name)
	return g
}
