package tool

import (
	"math"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
)

// Fields are the piece that turns, the angle, the line and what is to meet it.
func (t *PinTool) Fields() []Field {
	at, ok := t.pinned()
	if !ok {
		return nil
	}
	out := []Field{{Name: "angle", Label: "Turn by", Text: writtenAngle(t.angle.Degrees())}}
	line := Field{Name: "line", Label: "Towards", Text: noLine, Options: t.lines(at.Piece)}
	if t.datum != nil {
		line.Text = t.line
	}
	out = append(out, line)
	if labels := t.untils(); len(labels) > 1 {
		f := Field{Name: "until", Label: "Stop where", Text: byAngle, Options: labels}
		if t.settled != nil {
			f.Text = t.settled.label
		}
		out = append(out, f)
	}
	if pieces := t.pieces(at); len(pieces) > 1 {
		out = append(out, Field{Name: "piece", Label: "Piece that turns", Text: at.Piece, Options: pieces})
	}
	return out
}

// untils returns the choices of what is to meet the line, each once; the
// smaller of two turns counts.
func (t *PinTool) untils() []string {
	out := []string{byAngle}
	for _, c := range t.settlings() {
		if !slices.Contains(out, c.label) {
			out = append(out, c.label)
		}
	}
	return out
}

func (t *PinTool) lines(piece string) []string {
	out := []string{noLine}
	p := t.pattern()
	for i := range p.Pieces {
		if pc := &p.Pieces[i]; pc.Name != piece {
			for _, e := range pc.Edges {
				out = append(out, e.Name+" of "+pc.Name)
			}
		}
	}
	return out
}

// pieces returns those that have a corner or notch at the pin.
func (t *PinTool) pieces(at pattern.Place) []string {
	var out []string
	p := t.pattern()
	for i := range p.Pieces {
		if pc := &p.Pieces[i]; pc.Name == at.Piece || meetsAt(pc, at.Mat) {
			out = append(out, pc.Name)
		}
	}
	return out
}

// Set takes a typed angle, a line ("hem of bridge", or a grid line such as
// "y 40 mm"), what is to meet it, or the piece that turns.
func (t *PinTool) Set(field, text string) error {
	at, ok := t.pinned()
	if !ok {
		return unknownField("the pin", field)
	}
	switch field {
	case "angle":
		v, err := typedAngle(text)
		if err != nil {
			return err
		}
		t.angle, t.settled = geom.Angle(v)*geom.Degree, nil
		return nil
	case "line":
		return t.setLine(at, text)
	case "until":
		o, err := picked(text, t.untils())
		if err != nil {
			return err
		}
		t.settled = nil
		for _, c := range t.settlings() {
			if c.label == o && (t.settled == nil || math.Abs(float64(c.angle)) < math.Abs(float64(t.settled.angle))) {
				t.settled, t.angle = &c, c.angle
			}
		}
		return nil
	case "piece":
		o, err := picked(text, t.pieces(at))
		if err != nil {
			return err
		}
		for _, c := range things(t.pattern().Piece(o)) {
			if c.Kind != OnEdge && c.At.Dist(at.Mat) <= pinMeets {
				t.lift()
				t.put(c)
				return nil
			}
		}
		return nil
	}
	return unknownField("the pin", field)
}

func (t *PinTool) setLine(at pattern.Place, text string) error {
	words := strings.Fields(text)
	if len(words) > 1 && (strings.EqualFold(words[0], "x") || strings.EqualFold(words[0], "y")) {
		v, err := typedLength(t.table, strings.Join(words[1:], " "))
		if err != nil {
			return err
		}
		if strings.EqualFold(words[0], "x") {
			t.aimGrid(&v, nil)
		} else {
			t.aimGrid(nil, &v)
		}
		return nil
	}
	o, err := picked(text, t.lines(at.Piece))
	if err != nil {
		return err
	}
	t.datum, t.settled = nil, nil
	p := t.pattern()
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		for _, e := range pc.Edges {
			if pc.Name != at.Piece && e.Name+" of "+pc.Name == o {
				t.aim(pc.Name, e.Name)
				return nil
			}
		}
	}
	return nil
}
