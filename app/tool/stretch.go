package tool

import (
	"fmt"
	"math"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
)

// stretch is a run of a piece's outline, counter-clockwise.
type stretch struct {
	edges []string  // all that it touches
	whole []string  // those that lie on it whole
	path  geom.Path // on the mat
}

// between returns the run of the outline from one spot to another.
func between(p pattern.Pattern, from, to Pointing) (stretch, bool) {
	var st stretch
	pc := p.Piece(from.Piece)
	if pc == nil || from.Piece != to.Piece {
		return st, false
	}
	i, j, a, b := pc.EdgeIndex(from.Edge), pc.EdgeIndex(to.Edge), from.S, to.S
	if i < 0 || j < 0 {
		return st, false
	}
	if a >= pc.Edges[i].Length()-samePlace {
		i, a = pc.Next(i), 0
	}
	if b <= samePlace {
		j = pc.Prev(j)
		b = pc.Edges[j].Length()
	}
	var parts []geom.Path
	add := func(k int, lo, hi float64) {
		e := &pc.Edges[k]
		st.edges = append(st.edges, e.Name)
		if lo <= samePlace && hi >= e.Length()-samePlace {
			st.whole = append(st.whole, e.Name)
		}
		if part, err := e.Path.Sub(lo, hi); err == nil {
			parts = append(parts, part)
		}
	}
	if i == j && a < b {
		add(i, a, b)
	} else {
		add(i, a, pc.Edges[i].Length())
		for k := pc.Next(i); k != j; k = pc.Next(k) {
			add(k, 0, pc.Edges[k].Length())
		}
		add(j, 0, b)
	}
	path, err := geom.Join(parts...)
	if err != nil || path.Empty() {
		return st, false
	}
	st.path = path.Transform(pc.Pose)
	return st, true
}

// words names the edges of a stretch.
func (st stretch) words() string {
	if n := len(st.edges); n > 3 {
		return fmt.Sprintf("%s to %s", st.edges[0], st.edges[n-1])
	}
	return strings.Join(st.edges, ", ")
}

// loop closes a path by a straight line.
func loop(path geom.Path) (geom.Path, error) {
	return geom.NewClosed(append(path.Segments(), geom.Straight(path.End(), path.Start()))...)
}

// loopArea is the area in mm² that a path encloses with the straight line
// between its ends.
func loopArea(path geom.Path) float64 {
	l, err := loop(path)
	if err != nil {
		return 0
	}
	return math.Abs(l.Area())
}
