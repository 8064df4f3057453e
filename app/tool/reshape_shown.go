package tool

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

const (
	tangentStays = "stays"
	tangentFree  = "free"
	endsStay     = "stay"
	endsMove     = "may move"
)

func tangentWord(free bool) string {
	if free {
		return tangentFree
	}
	return tangentStays
}

// Fields are what is kept, the run, its knots, and the grip that is chosen.
func (r *Reshape) Fields() []Field {
	d, ok := r.run()
	if !ok {
		return nil
	}
	ends := endsStay
	if r.ends {
		ends = endsMove
	}
	l := d.edge.Length()
	out := []Field{
		{Name: "keep", Label: "Keep length", Text: yesNo(r.keep), Options: []string{yes, no}},
		{Name: "start", Label: "Direction at its start", Text: tangentWord(r.free[0]), Options: []string{tangentStays, tangentFree}},
		{Name: "end", Label: "At its end", Text: tangentWord(r.free[1]), Options: []string{tangentStays, tangentFree}},
		{Name: "ends", Label: "Its ends", Text: ends, Options: []string{endsStay, endsMove}},
		{Name: "knots", Label: "Knots between", Text: strconv.Itoa(len(r.knots) - 2)},
	}
	if slices.Contains(r.grips(), r.chosen) {
		v := d.shares(r.place(d, r.chosen).Sub(d.start)).Mul(d.way.Norm())
		name := r.gripName(r.chosen)
		out = append(out,
			Field{Name: "along", Label: titled(name) + ", from " + r.whence(d), Text: written(r.table, v.X)},
			Field{Name: "off", Label: "in (− is out)", Text: written(r.table, v.Y)})
	}
	return append(out,
		Field{Name: "from", Label: "Run from", Text: written(r.table, r.from*l)},
		Field{Name: "to", Label: "to", Text: written(r.table, r.to*l)})
}

// whence names where the run starts, from which its knots are counted along.
func (r *Reshape) whence(d drawnRun) string {
	if r.from > 0 {
		return "where it starts"
	}
	return cmp.Or(d.pc.Meets(d.edge.Name, pattern.Start), "its start")
}

func titled(s string) string {
	_, n := utf8.DecodeRuneInString(s)
	return strings.ToUpper(s[:n]) + s[n:]
}

// Set takes what was typed or picked.
func (r *Reshape) Set(field, text string) error {
	d, ok := r.run()
	if !ok {
		return unknownField("reshape", field)
	}
	switch field {
	case "keep":
		o, err := picked(text, []string{yes, no})
		if err == nil {
			r.keep = o == yes
		}
		return err
	case "start", "end":
		o, err := picked(text, []string{tangentStays, tangentFree})
		if err != nil {
			return err
		}
		k := 0
		if field == "end" {
			k = 1
		}
		r.free[k] = o == tangentFree
		return nil
	case "ends":
		o, err := picked(text, []string{endsStay, endsMove})
		if err != nil {
			return err
		}
		r.ends = o == endsMove
		if last := len(r.knots) - 1; !r.ends {
			r.knots = slices.Clone(r.knots)
			r.knots[0].Along, r.knots[0].Off = 0, 0
			r.knots[last].Along, r.knots[last].Off = 1, 0
		}
		return nil
	case "knots":
		n, err := strconv.Atoi(strings.TrimSpace(text))
		if err != nil || n < 0 || n > mostBetween {
			return fmt.Errorf("%q is no number of knots; write one from 0 to %d", text, mostBetween)
		}
		r.setKnots(n, r.longest())
		return nil
	case "along", "off":
		if !slices.Contains(r.grips(), r.chosen) {
			return unknownField("reshape", field)
		}
		v, err := typedLength(r.table, text)
		if err == nil && math.Abs(v) > geom.Reach/10 {
			err = fmt.Errorf("%s is too far off", unit.MM(v))
		}
		if err != nil {
			return err
		}
		at := d.shares(r.place(d, r.chosen).Sub(d.start))
		if field == "along" {
			at.X = v / d.way.Norm()
		} else {
			at.Y = v / d.way.Norm()
		}
		r.move(d, r.chosen, d.point(at), false)
		return nil
	case "from", "to":
		return r.setRun(d, field, text)
	}
	return unknownField("reshape", field)
}

// mostBetween bounds the knots that can be asked for.
const mostBetween = 12

// setRun takes another end of the run; what was drawn is drawn anew.
func (r *Reshape) setRun(d drawnRun, field, text string) error {
	v, err := typedLength(r.table, text)
	if err != nil {
		return err
	}
	l := d.edge.Length()
	from, to := r.from*l, r.to*l
	if field == "from" {
		from = v
	} else {
		to = v
	}
	if !(from >= 0 && to <= l+samePlace && to-from >= leastRun) {
		return fmt.Errorf("a run from %s to %s does not lie on %s, which is %s long, or is shorter than %s", unit.MM(from), unit.MM(to), d.edge.Name, unit.MM(l), unit.MM(leastRun))
	}
	r.take(*r.at, from/l, min(to/l, 1))
	return nil
}

// Overlay shows knots and handles, the edge as it would be and its length.
func (r *Reshape) Overlay() Overlay {
	var o Overlay
	r.pointed(&o)
	d, ok := r.run()
	if !ok {
		return o
	}
	o.Strokes = append(o.Strokes, Stroke{d.path, Guide})
	grips := r.grips()
	for _, g := range grips {
		at, style := r.place(d, g), Handle
		if g == r.chosen {
			style = Chosen
		}
		o.Dots = append(o.Dots, Dot{at, style})
		if g.part != gripKnot {
			if arm, err := geom.Polyline(r.place(d, grip{g.knot, gripKnot}), at); err == nil {
				o.Strokes = append(o.Strokes, Stroke{arm, Guide})
			}
		}
	}
	if !r.ends {
		o.Dots = append(o.Dots, Dot{d.path.Start(), Pin}, Dot{d.path.End(), Pin})
	}
	middle := d.path.At(d.path.Length() / 2)
	if !r.touched {
		o.Notes = append(o.Notes, Note{middle, unit.MM(d.edge.Length())})
		return o
	}
	res, err := r.trial()
	if err != nil {
		if drawn, err := r.drawn(d); err == nil {
			o.Strokes = append(o.Strokes, Stroke{drawn, Poor})
		}
		return o
	}
	now := res.Size.Pattern
	o.altered(r.pattern(), now, Good, func(piece string) bool { return piece == d.pc.Name })
	if pc, e := now.Edge(d.pc.Name, d.edge.Name); e != nil {
		o.Notes = append(o.Notes, Note{pc.Pose.Apply(e.Path.At(e.Length() / 2)), r.measures(d, e.Length())})
	}
	return o
}

// measures tells the length and how far it is from what it was.
func (r *Reshape) measures(d drawnRun, length float64) string {
	text := unit.MM(length)
	if change := length - d.edge.Length(); math.Abs(change) > pinMeets {
		text += ", " + signed(change)
	} else {
		text += ", length kept"
	}
	return text
}

// told returns what the maker should know of an alteration: the notes of the
// step, of the seams shortly by how much their sides now differ.
func told(t Table, res step.Result) string { return differing(t, res, "") + noted(res) }

// noted are the notes of an alteration, without those of seams.
func noted(res step.Result) string {
	if len(res.Reports) == 0 {
		return ""
	}
	text := ""
	for _, n := range res.Reports[len(res.Reports)-1].Notes {
		if !strings.HasPrefix(n, "Seam ") {
			text += " " + n
		}
	}
	return text
}
