// Package worn lays the pieces of a pattern out as they lie in the finished
// garment, seen from outside, with room between them.
package worn

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/pattern"
)

// Layout is the pieces laid out. Centre front is the line x = 0, up is up.
type Layout struct {
	Placed []Placed
	Meets  []Meet
	Darts  []Sewn
}

// Sewn is a dart as it lies in the garment: its cloth is folded, and one line
// is seen, from the cut line at its mouth to its point.
type Sewn struct {
	Seam         string
	On           int // the place in Layout.Placed of its piece
	Mouth, Point geom.Point
}

// Placed is a piece in its place. The wearer's left half lies at x > 0; the
// other half is its mirror image about x = 0.
type Placed struct {
	Piece   string
	Motion  geom.Motion
	Outline geom.Path // cut line there, of a piece on the fold whole
	Middle  bool      // on the fold, or without a pair: there is no second one
	// Right says that it is of the wearer's right alone, at x < 0.
	Right bool
}

// Meet is a stretch of a seam along which one piece is sewn to one other: where
// its sides lie now. Both are to be brought together.
type Meet struct {
	Seam string
	A, B geom.Point // the middle of each side of it
	// On are the places in Layout.Placed of the pieces at A and at B, Mirrored
	// whether it is the other half's that is meant.
	On       [2]int
	Mirrored [2]bool
}

const (
	samples = 24   // places compared along a seam
	rounds  = 60   // of laying each piece to its neighbours
	pushes  = 2000 // of pieces that stand too near
	nudge   = 1.0  // mm by which a piece is pushed at a time
)

// pair is two places that are sewn to each other, in their pieces' coordinates,
// and the way the seam runs there.
type pair struct {
	a, b   int // pieces
	p, q   geom.Point
	along  [2]geom.Point // of length 1
	length float64       // mm of seam it stands for
	weight float64
}

// Lay lays the pieces out, the one at centre front held. Each is turned so that
// its seams run as those of its neighbours do and its open edges look the way
// that they look when worn (the strap's end up, a hem down), then shifted so
// that the sum of the squared distances between places that are sewn to each
// other is least; a cup is not flat, so its wire line counts little. Both are
// the plane case of the orthogonal Procrustes problem (Schönemann 1966), for
// the directions and for the places. Then pieces that stand too near are pushed
// off each other. Seams to the mirrored hand hold the two halves together and
// move nothing. A piece of the wearer's right alone is laid by its mirror image
// and goes over to the other half. Pieces that no seam joins to the others keep
// their turn on the mat and stand beside them.
func Lay(p pattern.Pattern) (Layout, error) {
	l, err := laid(p)
	if err != nil {
		return Layout{}, err
	}
	l.apart()
	return l.layout(), nil
}

// laid lays the pieces to each other, some perhaps too near.
func laid(p pattern.Pattern) (*layer, error) {
	if len(p.Pieces) == 0 {
		return nil, fmt.Errorf("the pattern has no pieces")
	}
	l := &layer{p: p, hands: hands(p), at: make([]geom.Motion, len(p.Pieces)), done: make([]bool, len(p.Pieces)), frame: make([]bool, len(p.Pieces)), rank: make([]int, len(p.Pieces))}
	for i := range p.Pieces {
		cut, err := cloth.WholeCut(&p.Pieces[i])
		if err != nil {
			return nil, fmt.Errorf("%s: %w", p.Pieces[i].Name, err)
		}
		if l.hands[i] == right {
			cut = cut.Transform(overMotion())
		}
		l.cuts = append(l.cuts, cut)
	}
	l.root = root(p)
	l.at[l.root], l.done[l.root], l.frame[l.root] = upright(p, l.root), true, true
	l.pairUp()
	l.spreadOut()
	for range rounds {
		for i := range l.at {
			if i != l.root {
				l.settle(i)
			}
		}
	}
	return l, nil
}

// root is the piece at centre front: one on the fold, else the one whose
// seams and edges lie farthest to the left, as pieces are stored.
func root(p pattern.Pattern) int {
	for i := range p.Pieces {
		if p.Pieces[i].Fold() != nil {
			return i
		}
	}
	return 0
}

// upright lays a fold on x = 0, the piece at its right; another piece keeps
// its turn on the mat and lies right of x = 0.
func upright(p pattern.Pattern, i int) geom.Motion {
	pc := &p.Pieces[i]
	if f := pc.Fold(); f != nil {
		// The outline runs counter-clockwise, so the piece lies left of its
		// fold, which therefore runs down.
		if m, err := geom.Carry(f.Path.Start(), f.Path.End(), geom.Point{}, geom.Pt(0, -1)); err == nil {
			return m
		}
	}
	return pc.Pose
}

// pairUp finds the places that are sewn to each other, seam by seam. Those of a
// piece of the right alone are places of its mirror image.
func (l *layer) pairUp() {
	p := l.p
	// mine returns a place as that of the half that is laid, and false when it
	// lies in the other half.
	mine := func(u place) (int, place, bool) {
		i := l.index(u.part.Piece)
		switch {
		case l.hands[i] == right:
			u.point, u.along = over(u.point), over(u.along)
			return i, u, true
		case u.part.Mirrored:
			return i, u, true
		}
		return i, u, false
	}
	for _, s := range p.Seams {
		a, b := p.Length(s.A), p.Length(s.B)
		for k := range samples {
			share := (float64(k) + 0.5) / samples
			u, okA := at(p, s.A, share*a)
			v, okB := at(p, s.B, share*b)
			if !okA || !okB || u.part.Piece == v.part.Piece {
				continue
			}
			i, u, otherU := mine(u)
			j, v, otherV := mine(v)
			if otherU != otherV {
				// What is across centre front meets both halves.
				switch l.root {
				case i:
					u, otherU = l.overRoot(u), true
				case j:
					v, otherV = l.overRoot(v), true
				}
				if otherU != otherV || l.hands[i] != right && l.hands[j] != right {
					continue
				}
			}
			l.pairs = append(l.pairs, pair{i, j, u.point, v.point, [2]geom.Point{u.along, v.along}, a / samples, weightOf(p, s)})
		}
	}
}

// overRoot returns a place of the piece at centre front as that which lies
// there in the other half.
func (l *layer) overRoot(u place) place {
	m := l.at[l.root]
	back := m.Inverse()
	u.point, u.along = back.Apply(over(m.Apply(u.point))), back.Vector(over(m.Vector(u.along)))
	return u
}

// place is a place on a side and the way the side runs there.
type place struct {
	part         pattern.Part
	point, along geom.Point
}

// at returns the place at a distance along a side.
func at(p pattern.Pattern, side pattern.Side, s float64) (place, bool) {
	for i, pt := range side {
		length := p.PartLength(pt)
		if s <= length || i == len(side)-1 {
			path, err := p.PartPath(pt)
			if err != nil {
				return place{}, false
			}
			s = min(max(s, 0), path.Length())
			return place{pt, path.At(s), path.TangentAt(s)}, true
		}
		s -= length
	}
	return place{}, false
}

type layer struct {
	p     pattern.Pattern
	pairs []pair
	cuts  []geom.Path // of a piece of the right alone its mirror image's
	hands []hand
	at    []geom.Motion
	done  []bool
	root  int
	frame []bool // joined to the root by seams that are no wire line
	rank  []int  // the order in which they were laid
}

// spreadOut places piece after piece, the one with the most places sewn to
// those already there first.
func (l *layer) spreadOut() {
	for rank := 1; ; rank++ {
		count := make([]float64, len(l.at))
		frame := make([]bool, len(l.at))
		for _, pr := range l.pairs {
			if l.done[pr.a] == l.done[pr.b] {
				continue
			}
			next, from := pr.b, pr.a
			if l.done[pr.b] {
				next, from = pr.a, pr.b
			}
			count[next] += pr.weight
			frame[next] = frame[next] || l.frame[from] && pr.weight == 1
		}
		best := -1
		for i, n := range count {
			if n > 0 && (best < 0 || n > count[best]) {
				best = i
			}
		}
		if best < 0 {
			break
		}
		l.settle(best)
		l.done[best], l.frame[best], l.rank[best] = true, frame[best], rank
	}
	// What is sewn to nothing stands at the right of the others.
	edge := 0.0
	for i := range l.at {
		if l.done[i] {
			edge = max(edge, l.cuts[i].Transform(l.at[i]).Bounds().Max.X)
		}
	}
	for i := range l.at {
		if !l.done[i] {
			pose := l.p.Pieces[i].Pose
			if l.hands[i] == right {
				pose = overMotion().Then(pose).Then(overMotion())
			}
			box := l.cuts[i].Transform(pose).Bounds()
			l.at[i], l.done[i] = pose.Then(geom.Shift(geom.Pt(edge+beside-box.Min.X, -box.Min.Y))), true
			edge += beside + box.Width()
		}
	}
}

// beside is the room in mm between the pieces and one that is sewn to nothing.
const beside = 20

// settle lays a piece to its placed neighbours; one without stays.
func (l *layer) settle(i int) {
	var from, to geom.Point
	all, cross, dot := 0.0, 0.0, 0.0
	for _, pr := range l.pairs {
		other, mine, its := pr.b, 0, 1
		p, q := pr.p, pr.q
		if pr.b == i {
			other, mine, its, p, q = pr.a, 1, 0, pr.q, pr.p
		} else if pr.a != i {
			continue
		}
		if !l.done[other] {
			continue
		}
		w := pr.weight * pr.length
		from, to, all = from.Add(p.Mul(w)), to.Add(l.at[other].Apply(q).Mul(w)), all+w
		way := l.at[other].Vector(pr.along[its])
		cross += max(pr.weight, wireTurn) * pr.length * pr.along[mine].Cross(way)
		dot += max(pr.weight, wireTurn) * pr.length * pr.along[mine].Dot(way)
	}
	if all == 0 {
		return
	}
	c, d := outlook(l.p, &l.p.Pieces[i], l.hands[i] == right)
	turn := geom.Turn(geom.Angle(math.Atan2(cross+c, dot+d)), geom.Point{})
	shift := to.Mul(1 / all).Sub(turn.Apply(from.Mul(1 / all)))
	l.at[i] = turn.Then(geom.Shift(shift))
}

// middle reports whether there is but one of a piece.
func (l *layer) middle(i int) bool {
	pc := &l.p.Pieces[i]
	return pc.Fold() != nil || !pc.Cut.Pair
}

func (l *layer) layout() Layout {
	var out Layout
	for i := range l.at {
		o := Placed{Piece: l.p.Pieces[i].Name, Outline: l.cuts[i].Transform(l.at[i]), Middle: l.middle(i), Right: l.hands[i] == right}
		if o.Right {
			m := overMotion()
			o.Outline, l.at[i] = o.Outline.Transform(m), m.Then(l.at[i]).Then(m)
		}
		o.Motion = l.at[i]
		out.Placed = append(out.Placed, o)
	}
	for _, s := range l.p.Seams {
		if d, ok := l.p.FoldedDart(s); ok {
			i := l.index(d.Piece)
			point, mouth := d.Fold()
			point, mouth = l.at[i].Apply(point), l.at[i].Apply(mouth)
			deep, rim := point.Dist(mouth), mouth
			least := math.Inf(1)
			for _, x := range out.Placed[i].Outline.CrossLine(point, mouth.Sub(point)) {
				if x.T >= deep-geom.Coincident && x.T < least {
					least, rim = x.T, x.Point
				}
			}
			out.Darts = append(out.Darts, Sewn{Seam: s.Name, On: i, Mouth: rim, Point: point})
			continue
		}
		out.Meets = append(out.Meets, l.meets(s)...)
	}
	return out
}

// index returns the place of a piece in the pattern, by its name.
func (l *layer) index(piece string) int {
	return slices.IndexFunc(l.p.Pieces, func(pc pattern.Piece) bool { return pc.Name == piece })
}

// weightOf returns how much a seam counts in shifting pieces to each other.
func weightOf(p pattern.Pattern, s pattern.Seam) float64 {
	for _, l := range p.Lines {
		for _, pt := range l.Parts {
			for _, q := range append(append(pattern.Side(nil), s.A...), s.B...) {
				if l.Kind == pattern.LineWire && q.Piece == pt.Piece && q.Edge == pt.Edge {
					return wireWeight
				}
			}
		}
	}
	return 1
}

const (
	wireWeight = 0.1 // of a wire line, in shifting
	wireTurn   = 0.5 // and in turning
)
