package worn

import (
	"math"

	"truemat/geom"
)

const (
	room = 8.0 // mm between the cut lines of two pieces
	step = 2.0 // mm between the places of an outline that are compared
)

// body is an outline in its place, and places along it.
type body struct {
	outline geom.Path
	places  []geom.Point
}

func (b *body) shift(by geom.Point) {
	b.outline = b.outline.Transform(geom.Shift(by))
	for i := range b.places {
		b.places[i] = b.places[i].Add(by)
	}
}

func bodyOf(outline geom.Path) body {
	length := outline.Length()
	n := int(math.Ceil(length / step))
	b := body{outline: outline}
	for k := range n {
		b.places = append(b.places, outline.At(length*float64(k)/float64(n)))
	}
	return b
}

// apart pushes pieces that stand too near from each other, the one at centre
// front held, until none do and none reaches over centre front.
func (l *layer) apart() {
	bodies := make([]body, len(l.cuts))
	for i := range l.cuts {
		bodies[i] = bodyOf(l.cuts[i].Transform(l.at[i]))
	}
	push := func(i int, by geom.Point) bool {
		if i == l.root || by == (geom.Point{}) {
			return false
		}
		l.at[i] = l.at[i].Then(geom.Shift(by))
		bodies[i].shift(by)
		return true
	}
	for range pushes {
		moved := false
		for i := range bodies {
			if over := room/2 - bodies[i].outline.Bounds().Min.X; i != l.root && !l.middle(i) && over > 0 {
				moved = push(i, geom.Pt(min(over, nudge), 0)) || moved
			}
			for j := range i {
				if l.hands[i]+l.hands[j] == left+right && l.hands[i] != both && l.hands[j] != both {
					continue // one in each half
				}
				if !near(bodies[i], bodies[j]) {
					continue
				}
				way := l.off(i, j, bodies).Mul(nudge)
				if way == (geom.Point{}) {
					way = geom.Pt(0, nudge)
				}
				if !l.holds(i, j) {
					moved = push(i, way) || moved
				}
				if !l.holds(j, i) {
					moved = push(j, way.Mul(-1)) || moved
				}
			}
		}
		if !moved {
			return
		}
	}
}

// holds reports whether a piece stays where it is when another one is too near:
// of the frame, that is what is joined to the piece at centre front by other
// seams than wire lines, pieces stay for all that was laid after them.
func (l *layer) holds(i, other int) bool {
	return l.frame[i] && (!l.frame[other] || l.rank[i] < l.rank[other])
}

// off returns the direction in which a piece is pushed off another one: off
// the seam that joins them, as the smaller of both lies to it, or else off the
// other's middle.
func (l *layer) off(i, j int, bodies []body) geom.Point {
	small, way := i, 1.0
	if math.Abs(bodies[j].outline.Area()) < math.Abs(bodies[i].outline.Area()) {
		small, way = j, -1
	}
	var sum geom.Point
	n := 0.0
	for _, pr := range l.pairs {
		if pr.a != i && pr.a != j || pr.b != i && pr.b != j {
			continue
		}
		q := pr.p
		if pr.b == small {
			q = pr.q
		}
		sum, n = sum.Add(l.at[small].Apply(q)), n+1
	}
	if n == 0 {
		return bodies[i].outline.Centroid().Sub(bodies[j].outline.Centroid()).Unit()
	}
	return bodies[small].outline.Centroid().Sub(sum.Mul(1 / n)).Unit().Mul(way)
}

// near reports whether two pieces overlap or stand nearer than room.
func near(a, b body) bool {
	if !a.outline.Bounds().Grow(room).Overlaps(b.outline.Bounds()) {
		return false
	}
	for _, p := range a.places {
		for _, q := range b.places {
			if p.Dist(q) < room {
				return true
			}
		}
	}
	return a.outline.Contains(b.places[0]) || b.outline.Contains(a.places[0])
}
