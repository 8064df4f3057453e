package border

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/pattern"
)

// Hand says which of a pair a cut piece is.
type Hand string

// The hands of cut pieces. A piece on the fold of the cloth is cut whole.
const (
	This     Hand = "this"     // as stored
	Mirrored Hand = "mirrored" // turned over
	Whole    Hand = "whole"    // both halves of a piece on the fold
)

// Cut is one piece to be cut from the lace, as it would lie on the first
// border with its held spot at x = 0.
type Cut struct {
	Piece   string
	Hand    Hand
	Lay     geom.Motion // from the piece's coordinates to there
	Outline geom.Path   // cut line, laid so; of a whole piece both halves
	// Motif is where the held spot lies behind a motif point, seen on this
	// hand. Held says that it was chosen; otherwise the plan finds it.
	Motif float64
	Held  bool
	Depth float64 // below the valley line

	settled bool // the place in the motif is no longer free
	shape   int  // its row in the table, on the first border; the next is on the second
	reach   span // leftmost and rightmost place on the first border
}

// Cuts returns what is to be cut from a lace for the pieces wished for, as
// often as their cut counts say. It refuses an edge that is not a straight
// lace edge, and a piece that is wider than the lace.
func Cuts(p pattern.Pattern, lace cloth.Cloth, wishes []cloth.Wish) ([]Cut, error) {
	if lace.Lace == nil {
		return nil, fmt.Errorf("cloth %q has no border; describe its repeat and scallops to lay pieces on it", lace.Name)
	}
	if err := lace.Validate(); err != nil {
		return nil, err
	}
	var out []Cut
	for _, w := range wishes {
		cut, err := cutOf(w, p, lace)
		if err != nil {
			return nil, err
		}
		pc := p.Piece(w.Piece)
		for range max(pc.Cut.Count, 1) * max(pc.Cut.Layers, 1) {
			out = append(out, cut)
			if pc.Cut.Pair {
				out = append(out, cut.turnedOver())
			}
		}
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("no piece is to be laid on the lace %q; name the pieces with a lace edge", lace.Name)
	}
	return out, nil
}

func cutOf(w cloth.Wish, p pattern.Pattern, lace cloth.Cloth) (Cut, error) {
	pc := p.Piece(w.Piece)
	if pc == nil {
		return Cut{}, fmt.Errorf("there is no piece %q to lay on the lace %q", w.Piece, lace.Name)
	}
	e := edgeOf(w, pc)
	switch {
	case e == nil && w.Edge != "":
		return Cut{}, fmt.Errorf("%q of %s is no lace edge; give an edge that role, or name another", w.Edge, w.Piece)
	case e == nil:
		return Cut{}, fmt.Errorf("%s has no lace edge; make the edge that is to lie on the border one", w.Piece)
	case !straight(e.Path):
		return Cut{}, fmt.Errorf("%s of %s is not straight, so no border can lie along it; straighten it first", e.Name, w.Piece)
	case !(w.Depth >= 0 && w.Depth <= deepest(lace.Lace)):
		return Cut{}, fmt.Errorf("%s is to lie %g mm below the valley line; the scallops are %g mm deep", w.Piece, w.Depth, deepest(lace.Lace))
	case w.Motif != nil && math.IsNaN(*w.Motif), w.Motif != nil && math.IsInf(*w.Motif, 0):
		return Cut{}, fmt.Errorf("the place of %s in the motif is no number", w.Piece)
	}
	at, err := held(w, p, pc, e)
	if err != nil {
		return Cut{}, err
	}
	outline, err := cloth.WholeCut(pc)
	if err != nil {
		return Cut{}, fmt.Errorf("%s: %w", w.Piece, err)
	}
	along := e.Path.End().Sub(e.Path.Start()).Unit()
	foot := e.Path.Start().Add(along.Mul(at.Sub(e.Path.Start()).Dot(along)))
	lay, err := geom.Carry(foot, foot.Add(along), geom.Pt(0, -w.Depth), geom.Pt(1, -w.Depth))
	if err != nil {
		return Cut{}, err
	}
	cut := Cut{Piece: w.Piece, Hand: This, Lay: lay, Outline: outline.Transform(lay), Depth: w.Depth}
	if pc.Fold() != nil {
		cut.Hand = Whole
	}
	if w.Motif != nil {
		cut.Motif, cut.Held, cut.settled = cycle(*w.Motif, lace.Lace.Repeat), true, true
	}
	if high := cut.Outline.Bounds().Max.Y; high > lace.Usable()+fits {
		return Cut{}, fmt.Errorf("%s reaches %.1f mm above the valley line, and the lace %q is %.1f mm wide between its valley lines or to its other edge; take a wider lace, or cut the piece in two", w.Piece, high, lace.Name, lace.Usable())
	}
	return cut, nil
}

func deepest(l *cloth.Lace) float64 {
	if !l.Both {
		return l.Depth
	}
	return max(l.Depth, l.DepthOn(true))
}

// liesOn reports whether the scallops of a border are as deep as the cut is to
// lie below its valley line.
func (c Cut) liesOn(l *cloth.Lace, second bool) bool {
	return (l.Both || !second) && c.Depth <= l.DepthOn(second)
}

// straight reports whether a border can lie along an edge: within the half
// millimetre from which it shows (common practice).
func straight(edge geom.Path) bool {
	line, err := geom.NewLine(edge.Start(), edge.End())
	if err != nil {
		return false
	}
	for _, q := range edge.Flatten(flat) {
		if math.Abs(line.Distance(q)) > bowMost {
			return false
		}
	}
	return true
}

const (
	bowMost = 0.5
	flat    = 0.01 // mm by which a polyline may miss its curve
)

// fits is how far in mm a piece may reach beyond the lace by rounding.
const fits = 1e-6

func edgeOf(w cloth.Wish, pc *pattern.Piece) *pattern.Edge {
	if w.Edge != "" {
		if e := pc.Edge(w.Edge); e != nil && e.Role == pattern.LaceEdge {
			return e
		}
		return nil
	}
	return cloth.LaceEdge(pc)
}

// held returns the place, in the piece's coordinates, that is held at the motif.
func held(w cloth.Wish, p pattern.Pattern, pc *pattern.Piece, e *pattern.Edge) (geom.Point, error) {
	if fold := pc.Fold(); fold != nil {
		if w.Spot != nil {
			return geom.Point{}, fmt.Errorf("%s is cut whole, so its fold is held at the motif; leave the spot out", pc.Name)
		}
		a, b := fold.Path.Start(), fold.Path.End()
		if a.Dist(e.Path.End()) < b.Dist(e.Path.Start()) {
			return a, nil
		}
		return b, nil
	}
	if w.Spot == nil {
		return e.Path.At(e.Length() / 2), nil
	}
	if w.Spot.Piece != "" && w.Spot.Piece != pc.Name {
		return geom.Point{}, fmt.Errorf("%s is not on %s, which is to be held by it", w.Spot, pc.Name)
	}
	spot := *w.Spot
	spot.Piece = pc.Name
	at, err := p.Find(spot)
	return at.Point, err
}

// turnedOver returns the other hand: the image about x = 0.
func (c Cut) turnedOver() Cut {
	over, _ := geom.Mirror(geom.Pt(0, 0), geom.Pt(0, 1)) // two places apart
	c.Hand, c.Lay = Mirrored, c.Lay.Then(over)
	c.Outline = c.Outline.Transform(over).Reverse()
	return c
}
