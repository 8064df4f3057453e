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
