package tool

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// Fields are the way of drawing, the name and the numbers of it.
func (d *Draw) Fields() []Field {
	out := []Field{{Name: "how", Label: "Draw", Text: d.how, Options: drawWays}}
	pc := d.on()
	if pc == nil {
		return out
	}
	out = append(out, Field{Name: "name", Label: "Called", Text: d.called(pc)})
	switch d.how {
	case drawSpots:
		if _, to := d.way.ends(d.pattern()); to != nil {
			out = append(out, Field{Name: "bulge", Label: "Bulge", Text: written(d.table, d.bulge)})
			out = append(out, d.way.fields(&d.base)...)
		}
	case drawBeside:
		out = append(out, Field{Name: "distance", Label: "Distance", Text: written(d.table, d.distance)})
	case drawPoints:
		line := lineStraight
		if d.curved {
			line = lineCurved
		}
		out = append(out, Field{Name: "curved", Label: "Line", Text: line, Options: []string{lineStraight, lineCurved}},
			Field{Name: "add", Label: "Next point, from left and below"})
		if box, ok := boxOf(pc); ok && len(d.points) > 0 {
			at := inBox(box, d.points[len(d.points)-1]).Sub(box.Min)
			out = append(out, Field{Name: "last", Label: "Last one, from left and below", Text: written(d.table, at.X) + ", " + written(d.table, at.Y)})
		}
	}
	return out
}

const (
	lineStraight = "straight"
	lineCurved   = "in one sweep"
)

// typedPoints reads points, with ";" between them: how far each lies across from
// the left of the piece and up from its lowest place, as lengths or as shares of
// its width and height, such as "20 30", "3 1/8 in, 2 in" or "25% 50%".
func (d *Draw) typedPoints(text string) ([]geom.Point, error) {
	box, ok := boxOf(d.on())
	if !ok {
		return nil, fmt.Errorf("there is no piece to draw on")
	}
	var pts []geom.Point
	for one := range strings.SplitSeq(text, ";") {
		if strings.TrimSpace(one) == "" {
			continue
		}
		across, up, ok := d.apart(one)
		if !ok {
			return nil, fmt.Errorf("%q is not a point; write how far it lies across from the left and up from below, such as %s, %s, or 25%% 50%% of the piece",
				strings.TrimSpace(one), unit.MM(unit.Inch), unit.MM(2*unit.Inch))
		}
		x, errX := d.inside(across, box.Width(), "wide")
		y, errY := d.inside(up, box.Height(), "tall")
		if err := cmp.Or(errX, errY); err != nil {
			return nil, err
		}
		pts = append(pts, geom.Pt(x, y))
	}
	return pts, nil
}

// apart divides what was typed for a point into its two lengths: at the comma,
// or at the blank that leaves a length on either side.
func (d *Draw) apart(text string) (across, up string, ok bool) {
	reads := func(s string) bool {
		if v, share := strings.CutSuffix(strings.TrimSpace(s), "%"); share {
			_, err := strconv.ParseFloat(strings.TrimSpace(v), 64)
			return err == nil
		}
		_, err := typedLength(d.table, s)
		return err == nil
	}
	words := strings.Fields(text)
	for i := 1; i < len(words); i++ {
		a, b := strings.Join(words[:i], " "), strings.Join(words[i:], " ")
		if reads(a) && reads(b) {
			return a, b, true
		}
	}
	across, up, ok = strings.Cut(text, ",")
	return across, up, ok && reads(across) && reads(up)
}

// inside reads a length, or a share with a sign of per cent, that lies within so
// many mm of the piece; it returns the share.
func (d *Draw) inside(text string, of float64, word string) (float64, error) {
	pc := d.on()
	v, share := strings.CutSuffix(strings.TrimSpace(text), "%")
	n, err := strconv.ParseFloat(strings.TrimSpace(v), 64)
	if !share {
		n, err = typedLength(d.table, text)
		n *= 100 / of
	}
	if err != nil {
		return 0, err
	}
	if !(n >= 0 && n <= 100) {
		return 0, fmt.Errorf("%s is not on %s, which is %s %s", strings.TrimSpace(text), pc.Name, unit.MM(of), word)
	}
	return n / 100, nil
}

// Set takes a choice, name or number.
func (d *Draw) Set(field, text string) error {
	if field == "how" {
		how, err := picked(text, drawWays)
		if err == nil {
			d.setHow(how)
		}
		return err
	}
	if !slices.ContainsFunc(d.Fields(), func(f Field) bool { return f.Name == field }) {
		return unknownField("draw", field)
	}
	pc := d.on()
	switch field {
	case "name":
		name, err := typedName(text)
		if err != nil {
			return err
		}
		if slices.ContainsFunc(pc.Inner, func(in pattern.Inner) bool { return in.Name == name }) {
			return fmt.Errorf("%s has an inner line %q already; write another name", pc.Name, name)
		}
		d.name = name
	case "bulge":
		v, err := typedLength(d.table, text)
		if err == nil && !(math.Abs(v) <= mostReach) {
			err = fmt.Errorf("a bulge of %s is beyond every piece", unit.MM(v))
		}
		if err != nil {
			return err
		}
		d.bulge = v
	case "distance":
		v, err := typedReach(d.table, text)
		if err != nil {
			return err
		}
		d.distance = v
	case "curved":
		line, err := picked(text, []string{lineStraight, lineCurved})
		if err != nil {
			return err
		}
		d.curved = line == lineCurved
	case "add":
		pts, err := d.typedPoints(text)
		if err != nil {
			return err
		}
		if len(d.points)+len(pts) > mostPoints {
			return fmt.Errorf("a line has at most %d points", mostPoints)
		}
		d.points = slices.Concat(d.points, pts)
	case "last":
		pts, err := d.typedPoints(text)
		if err != nil {
			return err
		}
		if len(pts) != 1 {
			return fmt.Errorf("%q is not one point", text)
		}
		d.points = append(slices.Clone(d.points[:len(d.points)-1]), pts[0])
	default:
		return d.way.set(&d.base, field, text)
	}
	return nil
}
