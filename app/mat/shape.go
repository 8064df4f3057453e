package mat

import (
	"errors"
	"math"
	"reflect"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/render"
)

// shape is a piece made ready for drawing. What is costly is worked out once,
// when it is first drawn, and kept while the piece keeps its shape.
type shape struct {
	piece pattern.Piece
	ready bool
	cut   []geom.Path // by edge; none when the allowances do not fit
	arrow pattern.Arrow
	uncut int        // the edge beside which there can be no cut line, −1 when there is one
	found bool       // the room below, see findRoom
	label geom.Point // middle of the largest free place, for the name
	room  float64    // half its height in mm; it is twice as wide as high
	marks []writing  // large marks, as they fit
	named geom.Box   // a place that they leave for the name, empty when there is none
	like  *shape     // the shape the piece had before, so that its name stays

	level   int // of detail, for which the lines below were flattened
	cutRing []geom.Point
	cutRuns [][]geom.Point // by edge
	sewRing []geom.Point
	sewRuns [][]geom.Point // by edge
	inner   [][]geom.Point
}

// laid is a piece as it lies on the mat.
type laid struct {
	*shape
	pose   geom.Motion
	traced bool // what lies beneath is seen through it
}

// wardrobe keeps the shapes of the pieces in use.
type wardrobe struct{ shapes map[string][]*shape }

// lay returns the pieces ready for drawing; shapes that are not in keep, nor
// asked for again, are forgotten by tidy.
func (w *wardrobe) lay(pieces []pattern.Piece, into map[string][]*shape) []laid {
	var ls []laid
	for _, pc := range pieces {
		ls = append(ls, laid{shape: w.find(pc, into), pose: pc.Pose})
	}
	return ls
}

func (w *wardrobe) find(pc pattern.Piece, into map[string][]*shape) *shape {
	for _, known := range []map[string][]*shape{into, w.shapes} {
		for _, s := range known[pc.Name] {
			if sameShape(&s.piece, &pc) {
				for _, t := range into[pc.Name] {
					if t == s {
						return s
					}
				}
				into[pc.Name] = append(into[pc.Name], s)
				return s
			}
		}
	}
	s := &shape{piece: pc, level: math.MinInt}
	if before := w.shapes[pc.Name]; len(before) > 0 {
		if s.like = before[0]; !s.like.found {
			s.like = s.like.like
		}
	}
	into[pc.Name] = append(into[pc.Name], s)
	return s
}

// sameShape reports whether two pieces differ in their pose at most.
func sameShape(a, b *pattern.Piece) bool {
	p, q := *a, *b
	p.Pose, q.Pose = geom.Identity(), geom.Identity()
	return reflect.DeepEqual(p, q)
}

func sameLaid(a, b []laid) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i].shape != b[i].shape || a[i].traced != b[i].traced || !reflect.DeepEqual(a[i].pose, b[i].pose) {
			return false
		}
	}
	return true
}

// prepare works out the cut line, and the arrow clear of lines.
func (s *shape) prepare() {
	if s.ready {
		return
	}
	s.ready = true
	s.uncut = -1
	cut, err := s.piece.CutEdges()
	var none *pattern.NoCutLine
	switch {
	case err == nil:
		s.cut = cut
	case errors.As(err, &none):
		s.uncut = s.piece.EdgeIndex(none.Edge)
	}
	lines := slices.DeleteFunc(slices.Clone(s.cut), geom.Path.Empty)
	for _, e := range s.piece.Edges {
		if e.Allowance > 0 && e.Role != pattern.Fold {
			lines = append(lines, e.Path)
		}
	}
	s.arrow = render.ClearArrow(s.piece.Arrow, lines...)
}

// bounds is the box of the piece on the mat, allowances included.
func (l laid) bounds() geom.Box {
	l.prepare()
	b := geom.NoBox()
	for _, p := range l.cut {
		if !p.Empty() {
			b = b.Union(p.Transform(l.pose).Bounds())
		}
	}
	for _, e := range l.piece.Edges {
		b = b.Union(e.Path.Transform(l.pose).Bounds())
	}
	return b
}

// rim is the outline of the paper, once it was flattened.
func (s *shape) rim() []geom.Point {
	if s.cutRing != nil {
		return s.cutRing
	}
	return s.sewRing
}

// flatten makes the lines straight bits that stay within a fifth of a pixel,
// with k pixels to a millimetre.
func (s *shape) flatten(k float64) {
	s.prepare()
	level := int(math.Ceil(math.Log2(k)))
	if level == s.level {
		return
	}
	s.level = level
	tol := 0.2 / math.Exp2(float64(level))
	s.sewRuns, s.cutRuns, s.inner = nil, nil, nil
	s.sewRing, s.cutRing = nil, nil
	for _, e := range s.piece.Edges {
		run := e.Path.Flatten(tol)
		s.sewRuns = append(s.sewRuns, run)
		s.sewRing = append(s.sewRing, run...)
	}
	for _, p := range s.cut {
		var run []geom.Point
		if !p.Empty() {
			run = p.Flatten(tol)
		}
		s.cutRuns = append(s.cutRuns, run)
		s.cutRing = append(s.cutRing, run...)
	}
	for _, in := range s.piece.Inner {
		s.inner = append(s.inner, in.Path.Flatten(tol))
	}
}
