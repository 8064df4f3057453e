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
			Field{Name: "points", Label: "Points, % across and up", Text: d.pointText()})
	}
	return out
}

const (
	lineStraight = "straight"
	lineCurved   = "in one sweep"
)

// pointText writes the points as percentages of the box: "20 30, 50 60".
func (d *Draw) pointText() string {
	words := make([]string, len(d.points))
	for i, s := range d.points {
		words[i] = percent(s.X) + " " + percent(s.Y)
	}
	return strings.Join(words, ", ")
}

func percent(v float64) string { return strconv.FormatFloat(math.Round(v*1e4)/100, 'f', -1, 64) }

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
	if len(pts) > mostPoints {
		return nil, fmt.Errorf("%d points are too many; %d are possible", len(pts), mostPoints)
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
		v, err := typedLength(text)
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
	case "points":
		pts, err := typedPoints(text)
		if err != nil {
			return err
		}
		d.points = pts
	default:
		return d.way.set(&d.base, field, text)
	}
	return nil
}
