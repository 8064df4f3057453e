package step

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// dartIn is a dart of the piece: two edges that meet at its point and are sewn
// to each other.
type dartIn struct {
	name          string
	first, second string // its edges, in the direction of the outline
	at            float64
	mouth         [2]float64 // along the ring
	ends          [2]geom.Point
	point         geom.Point
	angle         geom.Angle
	apex          bool // closed about its own point
}

func (d *dartIn) about(pivot geom.Point) {
	d.apex = pivot.Dist(d.point) <= placeSlack
	d.angle = geom.Between(d.ends[0].Sub(pivot), d.ends[1].Sub(pivot))
}

// findDart finds the dart that a seam sews.
func (p *slashPlan) findDart(seam string) (*dartIn, error) {
	sm := p.all.Seam(seam)
	if sm == nil {
		names := make([]string, len(p.all.Seams))
		for i := range p.all.Seams {
			names[i] = p.all.Seams[i].Name
		}
		return nil, fmt.Errorf("there is no seam %q that could be a dart; there are %s", seam, quotedList(names))
	}
	if len(sm.A) != 1 || len(sm.B) != 1 || sm.A[0].Piece != p.old.Name || sm.B[0].Piece != p.old.Name {
		return nil, fmt.Errorf("seam %q is no dart of %s: both its sides would have to be one edge of that piece each", seam, p.old.Name)
	}
	i, j := p.old.EdgeIndex(sm.A[0].Edge), p.old.EdgeIndex(sm.B[0].Edge)
	if p.old.Next(j) == i {
		i, j = j, i
	}
	if p.old.Next(i) != j || len(p.old.Edges) < 4 {
		return nil, fmt.Errorf("seam %q is no dart of %s: its two edges would have to meet at the dart's point", seam, p.old.Name)
	}
	a, b := &p.old.Edges[i], &p.old.Edges[j]
	d := &dartIn{name: seam, first: a.Name, second: b.Name, at: p.starts[j], point: b.Path.Start()}
	d.mouth = [2]float64{p.starts[i], math.Mod(p.starts[j]+b.Length(), p.ring.Length())}
	d.ends = [2]geom.Point{a.Path.Start(), b.Path.End()}
	d.about(d.point)
	if !(d.angle > 0) {
		return nil, fmt.Errorf("seam %q is no dart of %s: its edges do not run into the piece", seam, p.old.Name)
	}
	return d, nil
}

// legs returns the two edges of the dart left before a part.
func (b *spreading) legs(k *part, end geom.Point) ([]run, error) {
	p, g := b.p, k.after
	made := pattern.Edge{Role: pattern.DartEdge}
	if p.dartAllowance != nil && *p.dartAllowance > 0 {
		made.Role, made.Allowance = pattern.SeamEdge, *p.dartAllowance
	}
	start := k.edge.Path.Start()
	// The hinge is as far from both ends of the opening as the slash was long.
	middle := end.Lerp(start, 0.5)
	in := start.Sub(end).Unit().Perp()
	deep := geom.Angle(g.turn/2).Unit().X * g.line.radius()
	point := middle.Add(in.Mul(deep - p.short))
	var runs []run
	first, second := p.spread.Dart.legs(g.name)
	for _, leg := range []struct {
		name string
		a, b geom.Point
	}{{first, end, point}, {second, point, start}} {
		path, err := geom.Polyline(leg.a, leg.b)
		if err != nil {
			return nil, fmt.Errorf("dart %q on %s: %w", g.name, p.old.Name, err)
		}
		made.Name, made.Path = leg.name, path
		runs = append(runs, run{edge: made})
	}
	b.darts = append(b.darts, pattern.Seam{
		Name: g.name,
		A:    pattern.Side{pattern.Whole(p.old.Name, first)},
		B:    pattern.Side{pattern.Whole(p.old.Name, second).Backwards()},
	})
	return runs, nil
}

// legNames returns the edges of the darts that were left.
func (b *spreading) legNames() (names []string) {
	for _, d := range b.darts {
		names = append(names, d.A[0].Edge, d.B[0].Edge)
	}
	return names
}

// DartOf is a dart of a piece.
type DartOf struct {
	Seam    string
	Edges   [2]string    // in the direction of the outline
	Point   pattern.Spot // of the dart
	Degrees float64
}

// Darts returns the darts of a piece, in the order of the seams.
func Darts(p pattern.Pattern, piece string) []DartOf {
	pc := p.Piece(piece)
	if pc == nil {
		return nil
	}
	plan, err := newSlashPlan(p, pc)
	if err != nil {
		return nil
	}
	var darts []DartOf
	for i := range p.Seams {
		if d, err := plan.findDart(p.Seams[i].Name); err == nil {
			darts = append(darts, DartOf{d.name, [2]string{d.first, d.second}, pattern.AtEnd(piece, d.second, pattern.Start), d.angle.Degrees()})
		}
	}
	return darts
}
