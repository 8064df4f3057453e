package intake

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
)

const (
	// notchLength is the longest stroke in mm that is taken for a notch.
	notchLength = 16
	// notchTouch is how far in mm a notch may end from the outline.
	notchTouch = 0.5
	// notchAngle is the least angle between a notch and the outline.
	notchAngle = 30 * geom.Degree
	// doubleWithin is the greatest distance in mm along the outline between
	// the two strokes of a double notch.
	doubleWithin = 7
)

// mark is a notch found on the outline.
type mark struct {
	name   string
	at     geom.Point
	edge   int
	s      float64 // along the edge, mm
	double bool
}

// notchAt returns where a stroke marks the outline, if it is a notch: a short
// open line across the outline or with an end on it, or a V on it.
func notchAt(o geom.Path, p geom.Path) (geom.Point, bool) {
	if p.Closed() || p.Length() > notchLength || p.Length() > o.Length()/20 {
		return geom.Point{}, false
	}
	a, b := o.Nearest(p.Start()), o.Nearest(p.End())
	if a.Dist > notchLength || b.Dist > notchLength {
		return geom.Point{}, false
	}
	if v := p.Start().Dist(p.End()); a.Dist <= notchTouch && b.Dist <= notchTouch {
		if p.Length() < 1.1*v {
			return geom.Point{}, false // it runs along the outline
		}
		return o.Nearest(a.Point.Lerp(b.Point, 0.5)).Point, true
	}
	var at geom.Point
	switch cross := geom.Cross(p, o).Crossings; {
	case len(cross) == 1:
		at = cross[0].Point
	case len(cross) > 1:
		return geom.Point{}, false
	case min(a.Dist, b.Dist) > notchTouch:
		return geom.Point{}, false
	case a.Dist < b.Dist:
		at = a.Point
	default:
		at = b.Point
	}
	along := o.TangentAt(o.Nearest(at).S)
	turn := math.Abs(float64(geom.Between(along, p.End().Sub(p.Start()))))
	if min(turn, math.Pi-turn) < float64(notchAngle) {
		return geom.Point{}, false
	}
	return at, true
}

// notchesOf finds the notches among the strokes of a piece and returns the
// other strokes.
func notchesOf(o geom.Path, edges []pattern.Edge, strokes []stroke) (marks []mark, rest []stroke) {
	for _, s := range strokes {
		at, ok := notchAt(o, s.path)
		if !ok {
			rest = append(rest, s)
			continue
		}
		m := mark{name: s.name, at: at}
		least := math.Inf(1)
		for i := range edges {
			if f := edges[i].Path.Nearest(at); f.Dist < least {
				m.edge, m.s, least = i, f.S, f.Dist
			}
		}
		marks = append(marks, m)
	}
	slices.SortStableFunc(marks, func(a, b mark) int {
		return cmp.Or(cmp.Compare(a.edge, b.edge), cmp.Compare(a.s, b.s))
	})
	return doubled(marks, edges), rest
}

// doubled makes one double notch of two strokes close together.
func doubled(marks []mark, edges []pattern.Edge) []mark {
	var out []mark
	for _, m := range marks {
		if n := len(out); n > 0 && !out[n-1].double && out[n-1].edge == m.edge && m.s-out[n-1].s <= doubleWithin {
			if m.s-out[n-1].s > 0.1 { // else the same stroke drawn twice
				mid := (m.s + out[n-1].s) / 2
				out[n-1].double, out[n-1].s = true, mid
				out[n-1].at = edges[m.edge].Path.At(mid)
			}
			continue
		}
		out = append(out, m)
	}
	return out
}

// carried returns the notches on the sew line: each at the foot of the
// perpendicular from where it was drawn. off is the greatest amount in mm by
// which a foot is not as far away as the allowance is wide, which tells of a
// notch in the corner between two allowances.
func carried(marks []mark, sew []pattern.Edge) (notches []pattern.Notch, off float64) {
	for _, m := range marks {
		e := &sew[m.edge]
		f := e.Path.Nearest(m.at)
		off = max(off, math.Abs(f.Dist-e.Allowance))
		notches = append(notches, pattern.Notch{Edge: e.Name, Along: pattern.Along{From: pattern.Start, MM: f.S}, Double: m.double})
	}
	return notches, off
}

// nameNotches names notches by the companion, else as they are called in the
// drawing, else notch-1, notch-2 … in the order of the outline.
func nameNotches(notches []pattern.Notch, marks []mark, spec *pieceSpec) error {
	if spec != nil {
		for _, c := range spec.called {
			var on []int
			for i := range notches {
				if notches[i].Edge == c.edge {
					on = append(on, i)
				}
			}
			if len(on) != len(c.names) {
				at := make([]string, len(on))
				for k, i := range on {
					at[k] = fmt.Sprintf("%.1f", notches[i].MM)
				}
				return fmt.Errorf("companion line %d names %d notches on %q, but %d were drawn there, at %s mm from its start", c.line, len(c.names), c.edge, len(on), words(at))
			}
			for k, i := range on {
				notches[i].Name = c.names[k]
			}
		}
	}
	seen := map[string]bool{}
	for _, n := range notches {
		seen[n.Name] = true
	}
	for i := range notches {
		if notches[i].Name == "" {
			if name := tidyName(marks[i].name); marks[i].name != "" && !seen[name] {
				notches[i].Name = name
				seen[name] = true
			}
		}
	}
	next := 1
	for i := range notches {
		for notches[i].Name == "" {
			if name := fmt.Sprintf("notch-%d", next); !seen[name] {
				notches[i].Name, seen[name] = name, true
			}
			next++
		}
	}
	return nil
}
