// Package worn lays the pieces of a pattern out as they lie in the finished
// garment, seen from outside, with room between them.
package worn

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/pattern"
)

// Layout is the pieces laid out. Centre front is the line x = 0, up is up.
type Layout struct {
	Placed []Placed
	Meets  []Meet
}

// Placed is a piece in its place. The wearer's left half lies at x > 0; the
// other half is its mirror image about x = 0.
type Placed struct {
	Piece   string
	Motion  geom.Motion
	Outline geom.Path // cut line there, of a piece on the fold whole
	Middle  bool      // on the fold, or without a pair: there is no second one
}

// Meet is a seam: where its sides lie now. Both are to be brought together.
type Meet struct {
	Seam string
	A, B geom.Point // the middle of each side
}

const (
	samples = 24   // places compared along a seam
	rounds  = 200  // of laying each piece to its neighbours
	pushes  = 2000 // of pieces that overlap
	nudge   = 1.0  // mm by which a piece is pushed at a time
)

// pair is two places that are sewn to each other, in their pieces' coordinates.
type pair struct {
	seam   string
	a, b   int // pieces
	p, q   geom.Point
	weight float64
}

// Lay lays the pieces out. Each is laid to its neighbours so that the sum of
// the squared distances between places that are sewn to each other, those of
// wire lines counting little, is least (rigid motions piece by piece, the plane
// case of the orthogonal Procrustes problem, Schönemann 1966), the piece at
// centre front held; then pieces whose cut lines overlap are pushed off each
// other. Seams to the mirrored hand hold the
// two halves together and move nothing. Pieces that no seam joins to the
// others keep their turn on the mat and stand beside them.
func Lay(p pattern.Pattern) (Layout, error) {
	if len(p.Pieces) == 0 {
		return Layout{}, fmt.Errorf("the pattern has no pieces")
	}
	l := layer{p: p, pairs: pairsOf(p), at: make([]geom.Motion, len(p.Pieces)), done: make([]bool, len(p.Pieces))}
	for i := range p.Pieces {
		cut, err := cloth.WholeCut(&p.Pieces[i])
		if err != nil {
			return Layout{}, fmt.Errorf("%s: %w", p.Pieces[i].Name, err)
		}
		l.cuts = append(l.cuts, cut)
	}
	l.root = root(p)
	l.at[l.root], l.done[l.root] = upright(p, l.root), true
	l.spreadOut()
	for range rounds {
		for i := range l.at {
			if i != l.root {
				l.settle(i)
			}
		}
	}
	l.apart()
	return l.layout(), nil
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

// pairsOf returns the places that are sewn to each other, seam by seam.
func pairsOf(p pattern.Pattern) []pair {
	index := map[string]int{}
	for i := range p.Pieces {
		index[p.Pieces[i].Name] = i
	}
	var out []pair
	for _, s := range p.Seams {
		a, b := p.Length(s.A), p.Length(s.B)
		for k := range samples + 1 {
			share := float64(k) / samples
			pa, pt, okA := at(p, s.A, share*a)
			pb, qt, okB := at(p, s.B, share*b)
			if okA && okB && pa.Mirrored == pb.Mirrored && pa.Piece != pb.Piece {
				out = append(out, pair{s.Name, index[pa.Piece], index[pb.Piece], pt, qt, weightOf(p, s)})
			}
		}
	}
	return out
}

// at returns the part and the place at a distance along a side.
func at(p pattern.Pattern, side pattern.Side, s float64) (pattern.Part, geom.Point, bool) {
	for i, pt := range side {
		length := p.PartLength(pt)
		if s <= length || i == len(side)-1 {
			path, err := p.PartPath(pt)
			if err != nil {
				return pt, geom.Point{}, false
			}
			return pt, path.At(min(max(s, 0), path.Length())), true
		}
		s -= length
	}
	return pattern.Part{}, geom.Point{}, false
}

type layer struct {
	p     pattern.Pattern
	pairs []pair
	cuts  []geom.Path
	at    []geom.Motion
	done  []bool
	root  int
}

// spreadOut places piece after piece, the one with the most places sewn to
// those already there first.
func (l *layer) spreadOut() {
	for {
		count := make([]int, len(l.at))
		for _, pr := range l.pairs {
			if l.done[pr.a] != l.done[pr.b] {
				if l.done[pr.a] {
					count[pr.b]++
				} else {
					count[pr.a]++
				}
			}
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
		l.done[best] = true
	}
	// What is sewn to nothing stands at the right of the others.
	right := 0.0
	for i := range l.at {
		if l.done[i] {
			right = max(right, l.cuts[i].Transform(l.at[i]).Bounds().Max.X)
		}
	}
	for i := range l.at {
		if !l.done[i] {
			pose := l.p.Pieces[i].Pose
			box := l.cuts[i].Transform(pose).Bounds()
			l.at[i], l.done[i] = pose.Then(geom.Shift(geom.Pt(right+beside-box.Min.X, -box.Min.Y))), true
			right += beside + box.Width()
		}
	}
}

// beside is the room in mm between the pieces and one that is sewn to nothing.
const beside = 20

// settle lays a piece to its placed neighbours; one without stays.
func (l *layer) settle(i int) {
	var from, to []geom.Point
	var weights []float64
	for _, pr := range l.pairs {
		switch {
		case pr.a == i && l.done[pr.b]:
			from, to, weights = append(from, pr.p), append(to, l.at[pr.b].Apply(pr.q)), append(weights, pr.weight)
		case pr.b == i && l.done[pr.a]:
			from, to, weights = append(from, pr.q), append(to, l.at[pr.a].Apply(pr.p)), append(weights, pr.weight)
		}
	}
	if len(from) < 2 {
		return
	}
	u, v := middle(from, weights), middle(to, weights)
	cross, dot := 0.0, 0.0
	for k := range from {
		a, b := from[k].Sub(u).Mul(weights[k]), to[k].Sub(v)
		cross += a.Cross(b)
		dot += a.Dot(b)
	}
	l.at[i] = geom.Turn(geom.Angle(math.Atan2(cross, dot)), u).Then(geom.Shift(v.Sub(u)))
}

func middle(points []geom.Point, weights []float64) geom.Point {
	var sum geom.Point
	all := 0.0
	for i, q := range points {
		sum, all = sum.Add(q.Mul(weights[i])), all+weights[i]
	}
	return sum.Mul(1 / all)
}

// middle reports whether there is but one of a piece.
func (l *layer) middle(i int) bool {
	pc := &l.p.Pieces[i]
	return pc.Fold() != nil || !pc.Cut.Pair
}

func (l *layer) layout() Layout {
	var out Layout
	for i := range l.at {
		out.Placed = append(out.Placed, Placed{Piece: l.p.Pieces[i].Name, Motion: l.at[i], Outline: l.cuts[i].Transform(l.at[i]), Middle: l.middle(i)})
	}
	for _, s := range l.p.Seams {
		a, pa, okA := at(l.p, s.A, l.p.Length(s.A)/2)
		b, pb, okB := at(l.p, s.B, l.p.Length(s.B)/2)
		if !okA || !okB {
			continue
		}
		out.Meets = append(out.Meets, Meet{Seam: s.Name, A: l.of(a.Piece).Apply(pa), B: l.of(b.Piece).Apply(pb)})
	}
	return out
}

func (l *layer) of(piece string) geom.Motion {
	for i := range l.p.Pieces {
		if l.p.Pieces[i].Name == piece {
			return l.at[i]
		}
	}
	return geom.Identity()
}

// weightOf returns how much a seam counts in laying pieces to each other. A cup
// is not flat: along its wire line it counts little, so that its parts keep
// their turn to each other.
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

const wireWeight = 0.1
