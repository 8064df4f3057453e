package intake

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
)

// defaultCorner is the least turn taken for a corner: what a curve drawn by
// hand never makes in one place.
const defaultCorner = 15 * geom.Degree

// jointSlack is the distance in mm within which two joints are one.
const jointSlack = 0.5

// cutUp divides an outline at its corners and where joints were asked for.
type cutUp struct {
	outline geom.Path
	joints  []float64 // arc lengths, rising, from [0, length)
	edges   []geom.Path
	toMM    func(place) geom.Point
}

func cutEdges(o geom.Path, corner geom.Angle, spec *pieceSpec, size string, toMM func(place) geom.Point, more func(*cutUp) error) (cutUp, error) {
	c := cutUp{outline: o, toMM: toMM}
	segs := o.Segments()
	for i := range segs {
		if t := turnAt(segs, i); t > corner || t < -corner {
			c.joints = append(c.joints, o.LengthTo(i, 0))
		}
	}
	if spec != nil {
		for _, j := range spec.joints {
			if j.at.size != "" && j.at.size != size {
				continue
			}
			if err := c.change(j); err != nil {
				return c, err
			}
		}
	}
	if err := more(&c); err != nil {
		return c, err
	}
	// An outline needs two edges to say where anything is on it.
	length := o.Length()
	switch len(c.joints) {
	case 0:
		c.joints = []float64{0, length / 2}
	case 1:
		c.joints = append(c.joints, math.Mod(c.joints[0]+length/2, length))
		slices.Sort(c.joints)
	}
	for i, from := range c.joints {
		e, err := between(o, from, c.joints[(i+1)%len(c.joints)])
		if err != nil {
			return c, fmt.Errorf("an edge of its outline cannot be cut out: %w", err)
		}
		c.edges = append(c.edges, e)
	}
	return c, nil
}

// between returns the part of a closed path from one arc length on to
// another, through its start when it must.
func between(o geom.Path, from, to float64) (geom.Path, error) {
	if to > from {
		return o.Sub(from, to)
	}
	if to <= geom.Coincident {
		return o.Sub(from, o.Length())
	}
	a, err := o.Sub(from, o.Length())
	if err != nil {
		return a, err
	}
	b, err := o.Sub(0, to)
	if err != nil {
		return b, err
	}
	return geom.Join(a, b)
}

// change adds or takes away a joint.
func (c *cutUp) change(j jointSpec) error {
	if err := c.divide(c.toMM(j.at), j.smooth); err != nil {
		return fmt.Errorf("companion line %d: %w", j.line, err)
	}
	return nil
}

// nearestJoint returns the joint nearest to an arc length and how far along
// the outline it is; −1 when there is none.
func (c *cutUp) nearestJoint(s float64) (int, float64) {
	best, least := -1, math.Inf(1)
	for i, j := range c.joints {
		d := math.Abs(j - s)
		if d = min(d, c.outline.Length()-d); d < least {
			best, least = i, d
		}
	}
	return best, least
}

// named gives the edges their names: from their order, from places near them,
// and edge-1, edge-2 … for the others, from the start of the order or the
// upper left corner. It returns the edges so that the named start comes first.
func (c *cutUp) named(spec *pieceSpec, size string) ([]geom.Path, []string, error) {
	n := len(c.edges)
	start := c.cornerAt("top-left")
	names := make([]string, n)
	if spec != nil && spec.order != nil {
		o := spec.order
		if len(o.names) != n {
			return nil, nil, fmt.Errorf("companion line %d names %d edges, but the outline has %d: %s. Name them all, or change where it has joints with corners, joint and smooth", o.line, len(o.names), n, c.describe())
		}
		start = c.cornerAt(o.compass)
		if len(o.near) > 0 {
			at, ok := in(o.near, size)
			if !ok {
				return nil, nil, fmt.Errorf("companion line %d does not say where the edges start in size %q", o.line, size)
			}
			start, _ = c.nearestJoint(c.outline.Nearest(c.toMM(at)).S)
		}
		for i, name := range o.names {
			k := (start + i) % n
			if o.clockwise {
				k = (start + 2*n - 1 - i) % n
			}
			names[k] = name
		}
	}
	if spec != nil {
		for _, e := range spec.edges {
			at, ok := in(e.near, size)
			if !ok {
				continue
			}
			k := c.edgeNear(c.toMM(at))
			if names[k] != "" && names[k] != e.name {
				return nil, nil, fmt.Errorf("companion line %d: the edge nearest to that place is %q already; the edges are %s", e.line, names[k], c.describe())
			}
			if was := slices.Index(names, e.name); was >= 0 && was != k {
				return nil, nil, fmt.Errorf("companion line %d: edge %q is named twice, in two places; the edges are %s", e.line, e.name, c.describe())
			}
			names[k] = e.name
		}
	}
	paths := append(slices.Clone(c.edges[start:]), c.edges[:start]...)
	names = append(slices.Clone(names[start:]), names[:start]...)
	next := 1
	for i := range names {
		for names[i] == "" {
			if name := fmt.Sprintf("edge-%d", next); !slices.Contains(names, name) {
				names[i] = name
			}
			next++
		}
	}
	if spec != nil {
		for _, e := range spec.edges {
			if !slices.Contains(names, e.name) {
				return nil, nil, fmt.Errorf("companion line %d: piece %q has no edge %q; it has %s", e.line, spec.name, e.name, quoted(names))
			}
		}
	}
	return paths, names, nil
}

// cornerAt returns the joint nearest to a named place of the outline's box.
func (c *cutUp) cornerAt(name string) int {
	want := compass[name]
	box := c.outline.Bounds()
	best, least := 0, math.Inf(1)
	for i, s := range c.joints {
		p := c.outline.At(s)
		d := 0.0
		if want[0] >= 0 {
			d += math.Abs((p.X-box.Min.X)/box.Width() - want[0])
		}
		if want[1] >= 0 {
			d += math.Abs((p.Y-box.Min.Y)/box.Height() - want[1])
		}
		if d < least-1e-9 {
			best, least = i, d
		}
	}
	return best
}

func (c *cutUp) edgeNear(p geom.Point) int {
	best, least := 0, math.Inf(1)
	for i, e := range c.edges {
		if d := e.Nearest(p).Dist; d < least {
			best, least = i, d
		}
	}
	return best
}

// describe lists the edges with their lengths and where they start, in mm
// from the left and the top of the piece.
func (c *cutUp) describe() string {
	box := c.outline.Bounds()
	var s []string
	for _, e := range c.edges {
		p := e.Start()
		s = append(s, fmt.Sprintf("%.1f mm from (%.0f, %.0f)", e.Length(), p.X-box.Min.X, box.Max.Y-p.Y))
		if len(s) == 30 {
			s = append(s, "…")
			break
		}
	}
	return strings.Join(s, ", ") + ", as mm right of and below the piece's top left"
}

// dress gives the edges their roles, allowances and corner ends. byDefault is
// the allowance of edges without one of their own.
func dress(paths []geom.Path, names []string, spec *pieceSpec, byDefault float64) ([]pattern.Edge, error) {
	edges := make([]pattern.Edge, len(paths))
	for i, p := range paths {
		// An edge of which nothing is said is a seam without a partner yet.
		e := pattern.Edge{Name: names[i], Path: p, Role: pattern.SeamEdge, Free: true, Allowance: byDefault}
		if spec != nil {
			for _, s := range spec.edges {
				if s.name != e.Name {
					continue
				}
				if s.role != "" {
					e.Role, e.Free = s.role, false
				}
				if s.allowed {
					e.Allowance = s.allow
				} else if s.role == pattern.Fold {
					e.Allowance = 0
				}
				e.Free = e.Free || s.free
			}
		}
		if e.Role == pattern.Fold && !p.IsStraight() {
			return nil, fmt.Errorf("edge %q is on the fold but is not one straight line", e.Name)
		}
		edges[i] = e
	}
	if spec == nil {
		return edges, nil
	}
	for _, m := range spec.meets {
		if err := meetAt(edges, names, m); err != nil {
			return nil, err
		}
	}
	return edges, nil
}

// meetAt sets the corner end at the joint between two edges.
func meetAt(edges []pattern.Edge, names []string, m meetSpec) error {
	a, b := slices.Index(names, m.a), slices.Index(names, m.b)
	for _, name := range []string{m.a, m.b} {
		if !slices.Contains(names, name) {
			return fmt.Errorf("companion line %d: there is no edge %q; there are %s", m.line, name, quoted(names))
		}
	}
	n := len(edges)
	switch {
	case (a+1)%n == b:
	case (b+1)%n == a:
		a, b = b, a
	default:
		return fmt.Errorf("companion line %d: %q and %q do not meet in a corner; the order is %s", m.line, m.a, m.b, quoted(names))
	}
	c := pattern.Corner{End: m.end}
	switch m.of {
	case names[a]:
		c.Of = pattern.Before
	case names[b]:
		c.Of = pattern.After
	}
	edges[b].Corner = c
	return nil
}
