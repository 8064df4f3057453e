package pattern

import "truemat/geom"

// overDarts returns the edges with each run of dart edges replaced by the
// straight way across its mouth, and of each which edge it stands for. The
// cloth of a dart is folded, not cut: the shears follow the edges on both
// sides of it and go straight over its mouth.
func overDarts(edges []Edge) (over []Edge, of []int) {
	n, first := len(edges), 0
	for first < n && edges[first].Role == DartEdge {
		first++
	}
	for k := 0; k < n; k++ {
		i := (first + k) % n
		e := edges[i]
		if e.Role != DartEdge || first == n {
			over, of = append(over, e), append(of, i)
			continue
		}
		before := edges[(i+n-1)%n]
		end := e.Path.End()
		for k+1 < n && edges[(first+k+1)%n].Role == DartEdge {
			k++
			end = edges[(first+k)%n].Path.End()
		}
		after := edges[(first+k+1)%n]
		mouth, err := geom.Polyline(e.Path.Start(), end)
		if err != nil { // a dart without a mouth
			continue
		}
		over = append(over, Edge{Name: e.Name, Role: SeamEdge, Path: mouth, Allowance: (before.Allowance + after.Allowance) / 2})
		of = append(of, i)
	}
	return over, of
}

// Dart reports whether edge i of a piece and the one after it are the two
// sides of one seam, as those of a dart are, and the seam's name.
func (p Pattern) Dart(pc *Piece, i int) (seam string, ok bool) {
	a, b := pc.Edges[i].Name, pc.Edges[pc.Next(i)].Name
	for _, s := range p.Seams {
		if len(s.A) != 1 || len(s.B) != 1 || s.A[0].Piece != pc.Name || s.B[0].Piece != pc.Name {
			continue
		}
		if x, y := s.A[0].Edge, s.B[0].Edge; x == a && y == b || x == b && y == a {
			return s.Name, true
		}
	}
	return "", false
}

// FoldedDart is a dart whose cloth stays folded.
type FoldedDart struct {
	Seam, Piece string
	// A and B are its legs, the sides of its seam.
	A, B string
	// First and Second are the legs in the direction of the outline, Before and
	// After the edges on both sides of its mouth.
	First, Second, Before, After string
	// Mouth is where the legs start, First's before Second's, and Point where
	// they meet.
	Mouth [2]geom.Point
	Point geom.Point
}

// FoldedDart returns the dart that a seam sews, when its cloth is folded and
// not cut: both sides one dart edge of one piece, which meet at its point.
func (p Pattern) FoldedDart(s Seam) (d FoldedDart, ok bool) {
	if len(s.A) != 1 || len(s.B) != 1 || s.A[0].Piece != s.B[0].Piece || s.A[0].Mirrored != s.B[0].Mirrored {
		return d, false
	}
	pc, a := p.Edge(s.A[0].Piece, s.A[0].Edge)
	_, b := p.Edge(s.B[0].Piece, s.B[0].Edge)
	if a == nil || b == nil || a.Role != DartEdge || b.Role != DartEdge {
		return d, false
	}
	i, j := pc.EdgeIndex(a.Name), pc.EdgeIndex(b.Name)
	if pc.Next(i) != j {
		i, j = j, i
	}
	if pc.Next(i) != j {
		return d, false
	}
	first, second := pc.Edges[i], pc.Edges[j]
	return FoldedDart{
		Seam: s.Name, Piece: pc.Name, A: a.Name, B: b.Name, First: first.Name, Second: second.Name,
		Before: pc.Edges[pc.Prev(i)].Name, After: pc.Edges[pc.Next(j)].Name,
		Mouth: [2]geom.Point{first.Path.Start(), second.Path.End()}, Point: second.Path.Start(),
	}, true
}

// FoldedDarts returns the darts of a piece whose cloth stays folded, in the
// order of the seams.
func (p Pattern) FoldedDarts(piece string) []FoldedDart {
	var out []FoldedDart
	for _, s := range p.Seams {
		if d, ok := p.FoldedDart(s); ok && d.Piece == piece {
			out = append(out, d)
		}
	}
	return out
}

// Fold returns the line on which the cloth is folded, from the point to the
// mouth: it halves the angle between the legs.
func (d FoldedDart) Fold() (point, mouth geom.Point) {
	a, b := d.Mouth[0].Sub(d.Point), d.Mouth[1].Sub(d.Point)
	share := a.Norm() / (a.Norm() + b.Norm()) // in which the bisector parts the mouth
	return d.Point, d.Mouth[0].Lerp(d.Mouth[1], share)
}

// Deep returns how far in mm the fold reaches from the sewing at the mouth.
func (d FoldedDart) Deep() float64 { return d.Mouth[0].Dist(d.Mouth[1]) / 2 }

// AsSewn returns how long in mm an edge is with those beyond the darts beside
// it, as it is when they are sewn, and the names of the edges in the direction
// of the outline; just its own where no dart lies beside it.
func (p Pattern) AsSewn(piece, edge string) (mm float64, edges []string) {
	pc, e := p.Edge(piece, edge)
	if e == nil {
		return 0, nil
	}
	n := len(pc.Edges)
	dart := func(i int) bool {
		_, ok := p.Dart(pc, (i+n)%n)
		return ok
	}
	first := pc.EdgeIndex(edge)
	i := first
	for dart(i-2) && (i-3+n)%n != first {
		i = (i - 3 + n) % n
	}
	first = i
	for {
		edges = append(edges, pc.Edges[i].Name)
		mm += pc.Edges[i].Length()
		if next := (i + 3) % n; dart(i+1) && next != first {
			i = next
			continue
		}
		return mm, edges
	}
}
