package tool

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
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
			out = append(out, Field{Name: "bulge", Label: "Bulge", Text: exactly(d.table, d.bulge)})
			out = append(out, d.way.fields(&d.base)...)
		}
	case drawBeside:
		out = append(out, Field{Name: "distance", Label: "Distance", Text: exactly(d.table, d.distance)})
	case drawPoints:
		line := lineStraight
		if d.curved {
			line = lineCurved
		}
		out = append(out, Field{Name: "curved", Label: "Line", Text: line, Options: []string{lineStraight, lineCurved}},
			Field{Name: "add", Label: "Next point, % across and up"})
		if n := len(d.points); n > 0 {
			last := d.points[n-1]
			out = append(out, Field{Name: "last", Label: "Last one", Text: percent(last.X) + " " + percent(last.Y)})
		}
	}
	return out
}

const (
	lineStraight = "straight"
	lineCurved   = "in one sweep"
)

// percent writes a share to a tenth of a per cent.
func percent(v float64) string { return strconv.FormatFloat(math.Round(v*1e3)/10, 'f', -1, 64) }

// typedPoints reads points written as percentages of the box: "20 30, 50 60".
func typedPoints(text string) ([]geom.Point, error) {
	var pts []geom.Point
	for pair := range strings.SplitSeq(text, ",") {
		words := strings.Fields(strings.ReplaceAll(pair, "%", " "))
		if len(words) == 0 {
			continue
		}
		var v [2]float64
		if len(words) != 2 {
			return nil, fmt.Errorf("%q is not a point; write how far across and up it lies in per cent, such as 20 30", strings.TrimSpace(pair))
		}
		for i, w := range words {
			n, err := strconv.ParseFloat(w, 64)
			if err != nil || !(n >= 0 && n <= 100) {
				return nil, fmt.Errorf("%q is not between 0 and 100 per cent of the piece", w)
			}
			v[i] = n / 100
		}
		pts = append(pts, geom.Pt(v[0], v[1]))
	}
	return pts, nil
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
			err = fmt.Errorf("a bulge of %s is beyond every piece", written(d.table, v))
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
		pts, err := typedPoints(text)
		if err != nil {
			return err
		}
		if len(d.points)+len(pts) > mostPoints {
			return fmt.Errorf("a line has at most %d points", mostPoints)
		}
		d.points = slices.Concat(d.points, pts)
	case "last":
		pts, err := typedPoints(text)
		if err != nil {
			return err
		}
		if len(pts) != 1 {
			return fmt.Errorf("%q is not one point; write how far across and up it lies in per cent, such as 20 30", text)
		}
		d.points = append(slices.Clone(d.points[:len(d.points)-1]), pts[0])
	default:
		return d.way.set(&d.base, field, text)
	}
	return nil
}
