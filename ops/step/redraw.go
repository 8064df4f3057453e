package step

import (
	"truemat/ops/pattern"
)

// redraw is a pattern some of whose outlines are being altered.
type redraw struct {
	old      pattern.Pattern
	outlines []*outline
	levelled string // the seam that the step speaks of itself
}

func newRedraw(p pattern.Pattern) *redraw { return &redraw{old: p} }

// piece returns the outline of a piece for altering.
func (r *redraw) piece(name string) (*outline, error) {
	for _, o := range r.outlines {
		if o.old.Name == name {
			return o, nil
		}
	}
	pc, err := pieceIn(r.old, name)
	if err != nil {
		return nil, err
	}
	o := &outline{old: pc, all: r.old, runs: make([]run, len(pc.Edges))}
	for i, e := range pc.Edges {
		o.runs[i] = run{edge: e, traces: []trace{{e.Name, 0, e.Length(), 0, e.Length()}}}
	}
	r.outlines = append(r.outlines, o)
	return o, nil
}

// finish returns the pattern with the outlines as they are now, all that lies
// on them carried along, the map, and what was lost on the way. It is refused
// when an outline crosses itself or a fold would not stay as it must.
func (r *redraw) finish() (pattern.Pattern, pattern.Map, pattern.Carried, error) {
	fail := func(err error) (pattern.Pattern, pattern.Map, pattern.Carried, error) {
		return pattern.Pattern{}, pattern.Map{}, pattern.Carried{}, err
	}
	next := r.old.Clone()
	var m pattern.Map
	for _, o := range r.outlines {
		edges, err := o.edges()
		if err != nil {
			return fail(err)
		}
		pc := next.Piece(o.old.Name)
		pc.Edges = edges
		if err := checkOutline(o.old, pc); err != nil {
			return fail(err)
		}
		if err := checkFold(o.old, pc); err != nil {
			return fail(err)
		}
		o.mapTo(&m, pc)
	}
	out, done, err := pattern.Carry(r.old, next, m)
	if err != nil {
		return fail(err)
	}
	return out, m, done, nil
}

// output finishes and reports with the given figures.
func (r *redraw) output(figures map[string]float64) (Output, error) {
	next, m, done, err := r.finish()
	if err != nil {
		return Output{}, err
	}
	out := Output{Pattern: next, Map: m, Figures: figures, Notes: done.Notes}
	reportSeams(r.old, next, &out, r.levelled)
	return out, nil
}
