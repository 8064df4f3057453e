package window

import (
	"cmp"
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// knotRows shows the knots and handles of a reshaping as its tool does: how far
// each lies along the straight way between the ends of the run, and how far in
// from it. Of a handle that keeps its direction its length counts.
func (c *column) knotRows(e step.Entry, r *step.Reshape, p pattern.Pattern) {
	way, err := r.Chord(p)
	if err != nil || len(r.Knots) < 2 {
		return
	}
	pc := p.Piece(r.Piece)
	from := cmp.Or(pc.Meets(r.Edge, pattern.Start), "its start")
	if r.From != nil {
		from = "where the run starts"
	}
	show := func(key, name, short string, now float64, set func(*step.Reshape, float64)) {
		c.dialRow(e.ID, "knots "+key, rowName{name, short}, nil, lengths, now*way, func(mm float64) (step.Entry, error) {
			next, err := e.Clone()
			if err != nil {
				return e, err
			}
			other, ok := next.Step.(*step.Reshape)
			if !ok {
				return e, fmt.Errorf("%s is no reshaping", e.ID)
			}
			set(other, mm/way)
			return next, nil
		})
	}
	place := func(key, name string, o step.Offset, base geom.Point, of func(*step.Reshape) *step.Offset) {
		if o.AlongMM == nil {
			show(key+" along", name+", from "+from, "Along", base.X+o.Along, func(r *step.Reshape, v float64) { of(r).Along = v - base.X })
		}
		if o.OffMM == nil {
			show(key+" off", name+", in from the straight line (− is out)", "In, − out", base.Y+o.Off, func(r *step.Reshape, v float64) { of(r).Off = v - base.Y })
		}
	}
	proportion := func(way float64) []string {
		return []string{fmt.Sprintf("In every size in proportion to the straight line between its ends, here %s: where that is longer, further in.", c.write(way))}
	}
	c.retell(c.w.palette.Faint, proportion(way), func(r *rehearsal) []string {
		next, ok := r.next.Step.(*step.Reshape)
		if !ok {
			return nil
		}
		way, err := next.Chord(p)
		if err != nil {
			return nil
		}
		return proportion(way)
	})
	last := len(r.Knots) - 1
	for i, k := range r.Knots {
		knot := fmt.Sprintf("Knot %d", i)
		switch i {
		case 0:
			knot = "Its start"
		case last:
			knot = "Its end"
		}
		still := k.Offset == (step.Offset{}) && i == 0 || k.Offset == (step.Offset{Along: 1}) && i == last
		if !still {
			place(fmt.Sprint(i), knot, k.Offset, geom.Point{}, func(r *step.Reshape) *step.Offset { return &r.Knots[i].Offset })
		}
		for _, h := range []struct {
			key, name, short string
			at               *step.Offset
			of               func(*step.Reshape) *step.Offset
			kept             bool
		}{
			{"in", "handle before", "Length", k.In, func(r *step.Reshape) *step.Offset { return r.Knots[i].In }, i == last && r.End != step.TangentFree || i > 0 && i < last && !k.Corner && k.Out != nil},
			{"out", "handle after", "Length", k.Out, func(r *step.Reshape) *step.Offset { return r.Knots[i].Out }, i == 0 && r.Start != step.TangentFree},
		} {
			if h.at == nil {
				continue
			}
			name := knot + ", " + h.name
			if i == 0 || i == last {
				name = knot + ", handle"
			}
			was := math.Hypot(h.at.Along, h.at.Off)
			key := fmt.Sprint(i, " ", h.key)
			if h.kept && was > 0 && h.at.AlongMM == nil && h.at.OffMM == nil {
				show(key, name+", how long", h.short, was, func(r *step.Reshape, v float64) {
					o := h.of(r)
					o.Along, o.Off = h.at.Along*v/was, h.at.Off*v/was
				})
				continue
			}
			place(key, name, *h.at, geom.Pt(k.Along, k.Off), h.of)
		}
	}
}
