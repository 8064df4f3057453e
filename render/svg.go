package render

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/color"
	"io"
	"strconv"
	"strings"

	"truemat/assets"
	"truemat/geom"
)

// WriteSVG draws a scene at true size as an SVG 1.1 file, 10 mm of white
// around it: a unit is a millimetre, a layer is a group with an id, a
// figure's kind is its class and its name data-name, text is text. What the
// scene and its layers tell stands in data-pattern and data-piece. The same
// scene gives the same bytes.
func WriteSVG(w io.Writer, title string, s Scene) error {
	width, height, err := sheetSize(s)
	if err != nil {
		return err
	}
	o := svgWriter{left: s.Box.Min.X - sheetMargin, top: s.Box.Max.Y + sheetMargin}
	o.text(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	o.text(`<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="`, svgNumber(width), `mm" height="`, svgNumber(height),
		`mm" viewBox="0 0 `, svgNumber(width), ` `, svgNumber(height), `" stroke-linejoin="round" fill="none"`, svgData("pattern", s.Told), ">\n")
	o.text(`<title>`, svgEscape(title), "</title>\n")
	ids := map[string]bool{}
	for _, l := range s.Layers {
		o.text(`<g id="`, svgID(l.Name, ids), `"`, svgData("piece", l.Told), ">\n")
		o.text(`<title>`, svgEscape(l.Name), "</title>\n")
		for _, f := range l.Figures {
			o.figure(f)
		}
		for _, t := range l.Labels {
			o.label(t)
		}
		o.text("</g>\n")
	}
	o.text("</svg>\n")
	if _, err := w.Write(o.buf.Bytes()); err != nil {
		return fmt.Errorf("writing the SVG: %w", err)
	}
	return nil
}

// svgWriter writes coordinates from the upper left corner, y down.
type svgWriter struct {
	buf       bytes.Buffer
	left, top float64
}

func (o *svgWriter) text(parts ...string) {
	for _, s := range parts {
		o.buf.WriteString(s)
	}
}

func (o *svgWriter) point(p geom.Point) {
	o.text(svgNumber(p.X-o.left), " ", svgNumber(o.top-p.Y))
}

func (o *svgWriter) figure(f Figure) {
	if f.Path.Empty() {
		return
	}
	o.text(`<path class="`, string(f.Kind), `"`, svgData("name", f.Name), ` d="M`)
	o.point(f.Path.Start())
	for i := range f.Path.Len() {
		c := f.Path.Seg(i)
		if c.IsStraight() {
			o.text("L")
		} else {
			o.text("C")
			o.point(c.P[1])
			o.text(" ")
			o.point(c.P[2])
			o.text(" ")
		}
		o.point(c.P[3])
	}
	if f.Path.Closed() {
		o.text("Z")
	}
	o.text(`"`)
	if f.Pen.Width > 0 {
		o.text(` stroke="`, svgColor(f.Pen.Color), `" stroke-width="`, svgNumber(f.Pen.Width), `"`)
		if len(f.Pen.Dash) > 0 {
			o.text(` stroke-dasharray="`)
			for i, d := range f.Pen.Dash {
				if i > 0 {
					o.text(" ")
				}
				o.text(svgNumber(d))
			}
			o.text(`"`)
		}
	}
	if f.Fill.A > 0 {
		o.text(` fill="`, svgColor(f.Fill), `"`)
	}
	o.text("/>\n")
}

// label gives the text its length, so that it fits also in a machine that
// lacks the typeface.
func (o *svgWriter) label(l Label) {
	if l.Text == "" {
		return
	}
	at := l.start()
	o.text(`<text font-family="`, assets.FontFamily, `, sans-serif" font-size="`, svgNumber(l.Height/faceOf(l.Bold).caps), `"`)
	if l.Bold {
		o.text(` font-weight="bold"`)
	}
	o.text(` fill="`, svgColor(l.Color), `" textLength="`, svgNumber(TextWidth(l.Text, l.Height, l.Bold)), `" lengthAdjust="spacingAndGlyphs" transform="translate(`)
	o.point(at)
	o.text(`)`)
	if l.Angle != 0 {
		o.text(` rotate(`, svgNumber(-l.Angle.Degrees()), `)`)
	}
	o.text(`">`, svgEscape(l.Text), "</text>\n")
}

// svgData writes an attribute for programs, nothing when it is empty.
func svgData(name, value string) string {
	if value == "" {
		return ""
	}
	return " data-" + name + `="` + svgEscape(value) + `"`
}

// svgNumber writes v to a hundred-thousandth.
func svgNumber(v float64) string {
	s := strconv.FormatFloat(v, 'f', 5, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

func svgColor(c color.NRGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

func svgEscape(s string) string {
	var b strings.Builder
	if err := xml.EscapeText(&b, []byte(s)); err != nil {
		return ""
	}
	return b.String()
}

// svgID makes an id of a name that no other layer has.
func svgID(name string, taken map[string]bool) string {
	id := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_', r == '.':
			return r
		}
		return '-'
	}, name)
	if id == "" || !(id[0] >= 'a' && id[0] <= 'z' || id[0] >= 'A' && id[0] <= 'Z') {
		id = "x" + id
	}
	unique := id
	for n := 2; taken[unique]; n++ {
		unique = id + "-" + strconv.Itoa(n)
	}
	taken[unique] = true
	return unique
}
