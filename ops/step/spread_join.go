package step

import (
	"fmt"
	"slices"

	"truemat/geom"
	"truemat/ops/unit"
)

// how a part follows the one before it on the new outline.
type follows int

const (
	atJoint follows = iota // at a corner of the old outline
	onEdge                 // on the same edge
	atDart                 // beyond a new dart
	atMouth                // where a dart closed, on another edge
)

// mend is a place on a new edge to be made fair or, at a hinge, smooth.
type mend struct {
	edge     string
	from, to float64 // mm from its start
	hinge    bool
	over     bool // it runs over the joint at the end of the edge
}

// join puts the parts together to the new edges and tells where they opened,
// closed or bent.
func (b *spreading) join(kept []part) ([]mend, error) {
	first := 0
	for first < len(kept) && slices.Contains([]follows{onEdge, atMouth}, b.follows(kept, first)) {
		first++
	}
	if first == len(kept) {
		return nil, fmt.Errorf("piece %q would have nothing but one edge; use a smaller amount", b.p.old.Name)
	}
	kept = append(slices.Clone(kept[first:]), kept[:first]...)
	var runs []run
	var mends []mend
	for i := range kept {
		k := &kept[i]
		end := kept[(i+len(kept)-1)%len(kept)].edge.Path.End()
		if i > 0 && len(runs) > 0 {
			end = runs[len(runs)-1].edge.Path.End()
		}
		how := b.follows(kept, i)
		r := run{edge: k.edge, traces: k.traces}
		switch how {
		case atDart:
			legs, err := b.legs(k, end)
			if err != nil {
				return nil, err
			}
			runs = append(runs, legs...)
			r.edge.Name += " after " + k.after.name
		case onEdge, atMouth:
			var wide float64
			var err error
			if r, wide, err = k.reaching(end); err != nil {
				return nil, fmt.Errorf("%s of %s: %w", k.edge.Name, b.p.old.Name, err)
			}
			if k.after == nil && !k.hinge {
				b.step = max(b.step, wide)
			}
			if how == atMouth {
				before := kept[(i+len(kept)-1)%len(kept)].edge.Name
				if len(runs) > 0 {
					before = runs[len(runs)-1].edge.Name
				}
				mends = append(mends, mend{edge: before, to: wide, over: true})
				break
			}
			last := &runs[len(runs)-1]
			at := last.edge.Length()
			mends = append(mends, mend{edge: last.edge.Name, from: at, to: at + wide, hinge: k.after == nil && k.hinge})
			if k.after == nil && k.hinge {
				b.hinges = append(b.hinges, hingeIn{last.edge.Name, end})
			}
			if last.edge.Path, err = geom.Join(last.edge.Path, r.edge.Path); err != nil {
				return nil, fmt.Errorf("%s of %s: %w", k.edge.Name, b.p.old.Name, err)
			}
			last.runOn(r.traces, at)
			continue
		}
		runs = append(runs, r)
	}
	b.o.runs = runs
	return mends, nil
}

func (b *spreading) follows(kept []part, i int) follows {
	p, k := b.p, &kept[i]
	before := kept[(i+len(kept)-1)%len(kept)].edge.Name
	switch {
	case k.after != nil && k.after.name != "":
		return atDart
	case b.folds() && b.same(k.at, p.dart.mouth[1]):
		if k.edge.Name == before+" after "+p.dart.name {
			return onEdge
		}
		return atMouth
	case k.edge.Name == before && k.traces[0].from > placeSlack:
		return onEdge
	}
	return atJoint
}

// reaching returns the part with a straight way to it from where the part
// before it ends, and how long that is.
func (k *part) reaching(end geom.Point) (run, float64, error) {
	r := run{edge: k.edge, traces: k.traces}
	start, length := k.edge.Path.Start(), k.edge.Length()
	wide := end.Dist(start)
	if wide <= placeSlack {
		path, err := k.edge.Path.WithEnds(end, k.edge.Path.End())
		r.edge.Path = path
		return r, 0, err
	}
	way, err := geom.Polyline(end, start)
	if err != nil {
		return r, 0, err
	}
	r.edge.Path, err = geom.Join(way, k.edge.Path)
	fixed := min(anchor, length/2, k.stop/2)
	r.traces = carryTraces(k.traces, 0, []knot{{0, 0}, {fixed, wide + fixed}, {length, wide + length}})
	return r, wide, err
}

// runOn adds the traces of what follows at at mm on the run.
func (r *run) runOn(traces []trace, at float64) {
	for _, t := range traces {
		t.a, t.b = t.a+at, t.b+at
		last := len(r.traces) - 1
		if last >= 0 {
			t.a = r.traces[last].b
		}
		if last >= 0 && r.traces[last].runsInto(t) {
			r.traces[last].to, r.traces[last].b = t.to, t.b
			continue
		}
		r.traces = append(r.traces, t)
	}
}

// mend makes fair what opened or closed, and smooth the hinges.
func (b *spreading) mend(mends []mend) error {
	type stretch struct {
		edge     string
		from, to float64
		length   float64 // of the edge afterwards; 0 leaves it to the curve
		over     bool
	}
	var list []stretch
	for _, m := range mends {
		e := b.edgeOf(m.edge)
		reach := b.p.fair
		if m.hinge {
			reach = b.p.hingeReach
		}
		if reach == 0 {
			continue
		}
		s := stretch{edge: m.edge, from: m.from - reach, to: m.to + reach, over: m.over}
		switch {
		case m.over:
			s.from, s.to = e.Length()-reach, e.Length()+m.to+reach
		case m.hinge:
			s.length = e.Length()
		}
		if last := len(list) - 1; last >= 0 && list[last].edge == s.edge && s.from < list[last].to && !s.over {
			if list[last].length != s.length {
				return fmt.Errorf("on %s of %s the reach of fairing runs into that at the hinge; use smaller ones", s.edge, b.p.old.Name)
			}
			list[last].to = s.to
			continue
		}
		list = append(list, s)
	}
	if b.p.fairLength > 0 {
		k := -1
		for i, s := range list {
			if s.edge == b.p.slashes[0].edge && s.length == 0 {
				if k >= 0 {
					return fmt.Errorf("%s of %s opens at several places; to give it a length use a reach at which they run together", s.edge, b.p.old.Name)
				}
				k = i
			}
		}
		if k < 0 {
			return fmt.Errorf("nothing is made fair on %s of %s, so it cannot be given a length there", b.p.slashes[0].edge, b.p.old.Name)
		}
		list[k].length = b.p.fairLength
	}
	// From the far end on, so that places before stay where they are.
	slices.Reverse(list)
	for _, s := range list {
		if err := b.fair(s.edge, s.from, s.to, s.length, s.over); err != nil {
			return err
		}
	}
	return nil
}

func (b *spreading) fair(edge string, from, to, length float64, over bool) error {
	o := b.o
	i, err := o.index(edge)
	if err != nil {
		return err
	}
	st := stretchOn{run: i, runs: 1, joint: o.runs[i].edge.Length()}
	if over {
		st.runs = 2
	}
	was, _, err := o.span(i, st.runs)
	if err != nil {
		return err
	}
	st.from, st.to = max(from, 0), min(to, was.Length())
	var now geom.Path
	if length > 0 {
		now, _, err = was.BlendLength(st.from, st.to, length)
	} else {
		now, err = was.Blend(st.from, st.to)
	}
	if err != nil {
		return fmt.Errorf("%s of %s cannot be made fair from %s to %s: %w", edge, o.old.Name, unit.MM(st.from), unit.MM(st.to), err)
	}
	if err := o.rebend(st, was, now); err != nil {
		return fmt.Errorf("%s of %s: %w", edge, o.old.Name, err)
	}
	return nil
}
