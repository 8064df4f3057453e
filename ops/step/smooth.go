package step

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

func init() { register("smooth", func() Step { return &Smooth{} }) }

// Smooth replaces a stretch of the sew line by a fair curve that meets what
// remains on both sides without a kink; the cut line follows. The stretch is
// given by a place and a reach to both sides of it, or by its two ends. It
// may run over the joint with the next edge: then Then names that edge, or
// the place is the edge's end; the joint stays at its share of the stretch.
//
// Keep "length" keeps the length of the stretch, and with it that of the line
// it belongs to, within 1e-9 of it. The curve is the one with the least
// bending energy among curves that fit; where none of the length does, the fair
// one, swollen in its middle until it has the length.
//
// Figures: moved, how far the sew line moved at most, and length_change, both
// in mm.
type Smooth struct {
	Piece string `json:"piece"`
	Edge  string `json:"edge"`
	// At and Reach, or From and To, give the stretch.
	At    *pattern.Along `json:"at,omitempty"`
	Reach *Number        `json:"reach,omitempty"`
	From  *pattern.Along `json:"from,omitempty"`
	To    *pattern.Along `json:"to,omitempty"`
	// Then is the next edge, on which To lies when the stretch goes over the joint.
	Then string `json:"then,omitempty"`
	Keep string `json:"keep,omitempty"` // "" or "length"
}

// keepLength is the word that keeps the length.
const keepLength = "length"

// Kind returns "smooth".
func (s *Smooth) Kind() string { return "smooth" }

// Sentence tells in plain words what the step does.
func (s *Smooth) Sentence() string {
	text := fmt.Sprintf("Smooth %s of %s", s.Edge, s.Piece)
	if s.Reach != nil {
		text += fmt.Sprintf(" over %s to each side", s.Reach)
	}
	if s.Then != "" {
		text += " and on into " + s.Then
	}
	if s.Keep == keepLength {
		text += ", keeping its length"
	}
	return text + "."
}

// stretchOn is a stretch of one run or of two that follow each other.
type stretchOn struct {
	run, runs int     // the first run and how many
	from, to  float64 // mm from the start of the first
	joint     float64 // where the second starts
	reach     float64 // mm, where it was given
	before    bool    // the reach goes beyond the first
	after     bool    // the reach goes beyond the last
}

// Apply blends the stretch. On sewn edges everything on it keeps its
// proportion, on others its foot of the perpendicular.
func (s *Smooth) Apply(in Input) (Output, error) {
	if s.Keep != "" && s.Keep != keepLength {
		return Output{}, fmt.Errorf("a smoothed edge can keep its %q, not its %q", keepLength, s.Keep)
	}
	r := newRedraw(in.Pattern)
	o, err := r.piece(s.Piece)
	if err != nil {
		return Output{}, err
	}
	st, err := s.stretch(in, o)
	if err != nil {
		return Output{}, err
	}
	was, _, err := o.span(st.run, st.runs)
	if err != nil {
		return Output{}, err
	}
	var now geom.Path
	if s.Keep == keepLength {
		now, err = blendKeeping(was, st.from, st.to)
	} else {
		now, err = was.Blend(st.from, st.to)
	}
	if err != nil {
		return Output{}, fmt.Errorf("%s of %s cannot be smoothed from %s to %s: %w", s.Edge, s.Piece, unit.MM(st.from), unit.MM(st.to), err)
	}
	if err := o.rebend(st, was, now); err != nil {
		return Output{}, fmt.Errorf("%s of %s: %w", s.Edge, s.Piece, err)
	}
	out, err := r.output(map[string]float64{
		"moved":         farthest(was, now),
		"length_change": now.Length() - was.Length(),
	})
	err = advised(err, "use a shorter reach")
	if err == nil && (st.before || st.after) {
		on := o.runs[st.run].edge.Name
		if st.runs == 2 {
			on += " and " + o.runs[o.next(st.run)].edge.Name
		}
		out.Notes = append(out.Notes, beyond(st.reach, on+" of "+s.Piece, st.before && st.after, farthest(was, now)))
	}
	if more := len(now.Inflections()) - len(was.Inflections()); err == nil && more > 0 {
		out.Notes = append(out.Notes, fmt.Sprintf("%s of %s now bends to and fro: it changes sides at %d more places than before; use a longer reach, or let its length change.", s.Edge, s.Piece, more))
	}
	return out, err
}

func (s *Smooth) stretch(in Input, o *outline) (stretchOn, error) {
	var st stretchOn
	i, err := o.index(s.Edge)
	if err != nil {
		return st, err
	}
	length := o.runs[i].edge.Length()
	place := func(a *pattern.Along, edge string, length float64) (float64, error) {
		at := a.At(length)
		if !(at >= -placeSlack && at <= length+placeSlack) {
			return 0, fmt.Errorf("%.4g mm lies off %s of %s, which is %.4g mm long; choose a place on it", at, edge, s.Piece, length)
		}
		return min(max(at, 0), length), nil
	}
	switch {
	case s.At != nil && s.Reach != nil && s.From == nil && s.To == nil && s.Then == "":
		at, err := place(s.At, s.Edge, length)
		if err != nil {
			return st, err
		}
		reach, err := reachIn(in, *s.Reach, s.Edge+" of "+s.Piece)
		if err != nil {
			return st, err
		}
		st = stretchOn{run: i, runs: 1, joint: length}
		switch {
		case at <= placeSlack:
			st.run, st.runs = o.prev(i), 2
			st.joint = o.runs[st.run].edge.Length()
			at = st.joint
		case at >= length-placeSlack:
			st.runs = 2
		}
		total := st.joint
		if st.runs == 2 {
			total += o.runs[o.next(st.run)].edge.Length()
		}
		st.from, st.to = max(at-reach, 0), min(at+reach, total)
		st.reach, st.before, st.after = reach, at-reach < -placeSlack, at+reach > total+placeSlack
	case s.From != nil && s.To != nil && s.At == nil && s.Reach == nil:
		st = stretchOn{run: i, runs: 1, joint: length}
		if st.from, err = place(s.From, s.Edge, length); err != nil {
			return st, err
		}
		on, before := s.Edge, 0.0
		if s.Then != "" {
			next := &o.runs[o.next(i)].edge
			if next.Name != s.Then {
				return st, fmt.Errorf("%s does not follow %s on %s, %s does; smooth can run over one joint in the direction of the outline", s.Then, s.Edge, s.Piece, next.Name)
			}
			on, before, length, st.runs = s.Then, st.joint, next.Length(), 2
		}
		if st.to, err = place(s.To, on, length); err != nil {
			return st, err
		}
		st.to += before
	default:
		return st, fmt.Errorf(`smoothing %s of %s needs either "at" and "reach", or "from" and "to"`, s.Edge, s.Piece)
	}
	if !(st.to-st.from > placeSlack) {
		return st, fmt.Errorf("there is nothing to smooth between %.4g mm and %.4g mm on %s of %s; the first must lie before the second", st.from, st.to, s.Edge, s.Piece)
	}
	return st, nil
}

// rebend gives the runs of a stretch the path now in the place of was, which
// differs from it only inside the stretch.
func (o *outline) rebend(st stretchOn, was, now geom.Path) error {
	to := st.to + now.Length() - was.Length()
	// where the joint goes
	joint := st.joint
	switch {
	case st.joint >= st.to:
		joint += to - st.to
	case st.joint > st.from:
		joint = st.from + (to-st.from)*(st.joint-st.from)/(st.to-st.from)
	}
	lo, newLo := 0.0, 0.0
	i := st.run
	for k := range st.runs {
		hi, newHi := was.Length(), now.Length()
		if k == 0 && st.runs == 2 {
			hi, newHi = st.joint, joint
		}
		path, err := now.Sub(newLo, newHi)
		if err != nil {
			return err
		}
		a, b := min(max(st.from, lo), hi), min(max(st.to, lo), hi)
		na, nb := min(max(st.from, newLo), newHi), min(max(to, newLo), newHi)
		knots, err := o.blendKnots(i, was, now, [2]float64{a, b}, [2]float64{na, nb}, lo)
		if err != nil {
			return err
		}
		for j := range knots {
			knots[j].s, knots[j].t = knots[j].s-lo, knots[j].t-newLo
		}
		knots = append(append([]knot{{0, 0}}, knots...), knot{hi - lo, path.Length()})
		o.reshape(i, path, knots)
		i, lo, newLo = o.next(i), hi, newHi
	}
	return nil
}

// blendKnots maps the blended stretch from old to now on run i, which starts
// at start on the path was.
func (o *outline) blendKnots(i int, was, now geom.Path, old, to [2]float64, start float64) ([]knot, error) {
	if old[1]-old[0] <= placeSlack {
		return nil, nil
	}
	a, err := was.Sub(old[0], old[1])
	if err != nil {
		return nil, err
	}
	b, err := now.Sub(to[0], to[1])
	if err != nil {
		return nil, err
	}
	var stops []float64
	for _, s := range o.stops(i) {
		stops = append(stops, s+start-old[0])
	}
	knots := feet(a, b, stops, o.runs[i].edge.Role.Sewn())
	for k := range knots {
		knots[k].s += old[0]
		knots[k].t += to[0]
	}
	return knots, nil
}

// farthest returns how far the path now departs from the path was, both ways,
// measured at 256 places each.
func farthest(was, now geom.Path) float64 {
	const places = 256
	far := 0.0
	for _, pair := range [][2]geom.Path{{was, now}, {now, was}} {
		for k := range places + 1 {
			p := pair[1].At(pair[1].Length() * float64(k) / places)
			far = math.Max(far, pair[0].Nearest(p).Dist)
		}
	}
	return far
}
