package mat

import (
	"fmt"
	"math"
	"strconv"

	"truemat/geom"
	"truemat/ops/unit"
)

// divisions are the steps a grid may have in a system of units, in mm, each
// dividing the next but one evenly enough to lie on its lines.
func divisions(u unit.System) []float64 {
	if u == unit.InchFractions {
		return []float64{unit.Inch / 16, unit.Inch / 8, unit.Inch / 4, unit.Inch / 2, unit.Inch, unit.Inch * 6, unit.Inch * 12, unit.Inch * 60, unit.Inch * 600}
	}
	return []float64{1, 5, 10, 50, 100, 500, 1000, 5000, 50000}
}

// gridSteps returns the spacing of minor and major lines at a scale in units
// per mm: the finest division whose lines stand apart, and the one after the
// next that is a whole multiple.
func gridSteps(u unit.System, scale float64) (minor, major float64) {
	ds := divisions(u)
	const apart, wide = 9, 44
	minor, major = ds[len(ds)-1], ds[len(ds)-1]
	for i := len(ds) - 1; i >= 0; i-- {
		if ds[i]*scale >= apart {
			minor = ds[i]
		}
		if ds[i]*scale >= wide {
			major = ds[i]
		}
	}
	return minor, max(major, minor)
}

// ground paints the mat with its grid.
func (p *painter) ground(u unit.System) {
	minor, major := gridSteps(u, p.camera.Scale)
	c, k := p.camera, p.camera.Scale*p.px
	width := max(int(math.Round(p.px)), 1)
	p.rect(0, 0, p.w, p.h, p.palette.Ground)
	for _, g := range p.gridLines(u, minor, major) {
		for i := math.Ceil(c.Corner.X / g.step); ; i++ {
			x := int(math.Floor((i*g.step - c.Corner.X) * k))
			if x >= p.w {
				break
			}
			p.rect(x, 0, x+width, p.h, g.c)
		}
		for i := math.Floor(c.Corner.Y / g.step); ; i-- {
			y := int(math.Floor((c.Corner.Y - i*g.step) * k))
			if y >= p.h {
				break
			}
			p.rect(0, y, p.w, y+width, g.c)
		}
	}
}

type gridLine struct {
	step float64
	c    colour
}

// gridLines returns what is drawn of the grid, faintest first: the minor lines,
// every division between, the major lines.
func (p *painter) gridLines(u unit.System, minor, major float64) []gridLine {
	var lines []gridLine
	for _, d := range divisions(u) {
		switch {
		case d == minor && minor < major:
			lines = append(lines, gridLine{d, p.palette.Minor})
		case d > minor && d < major:
			lines = append(lines, gridLine{d, p.palette.Middle})
		case d == major:
			lines = append(lines, gridLine{d, p.palette.Major})
		}
	}
	return lines
}

// rulerWidth is how wide the rulers are, in units.
const rulerWidth = 22

// ruler paints the ruler along the upper side, or the left one.
func (p *painter) ruler(u unit.System, left bool) {
	p.rect(0, 0, p.w, p.h, p.palette.Ruler)
	minor, major := gridSteps(u, p.camera.Scale)
	c, k := p.camera, p.camera.Scale*p.px
	thick, long := float64(p.h), float64(p.w)
	c = c.Panned(-rulerWidth, 0) // the ruler begins beside the corner
	if left {
		thick, long = long, thick
		c = p.camera.Panned(0, -rulerWidth)
	}
	from := c.Corner.X
	if left {
		from = c.Corner.Y - long/k
	}
	line := max(int(math.Round(p.px)), 1)
	at := func(v float64) int {
		if left {
			return int(math.Floor((c.Corner.Y - v) * k))
		}
		return int(math.Floor((v - c.Corner.X) * k))
	}
	tick := func(v, share float64) {
		a, b := int(thick*(1-share)), int(thick)
		if left {
			p.rect(a, at(v), b, at(v)+line, p.palette.RulerInk)
		} else {
			p.rect(at(v), a, at(v)+line, b, p.palette.RulerInk)
		}
	}
	for i := math.Ceil(from / minor); i*minor <= from+long/k; i++ {
		tick(i*minor, 0.2)
	}
	size := 9.5 * p.px
	for i := math.Floor(from / major); i*major <= from+long/k+major; i++ {
		v := i * major
		text := rulerText(v, u)
		if at(v) < 0 || left && float64(at(v)) < 1.3*size || left && at(v) > p.h || !left && float64(at(v))+4*p.px+textWidth(text, size, false) > float64(p.w) {
			continue // its number would be cut
		}
		tick(v, 0.38)
		if left {
			// Beside its line, above it: the tick stays free.
			p.write(text, geom.Pt((rulerWidth-3)*p.px/2, float64(at(v))-size*0.65), min(size, size*(rulerWidth-2)*p.px/textWidth(text, size, false)), false, p.palette.RulerInk)
		} else {
			p.write(text, geom.Pt(float64(at(v))+3*p.px+textWidth(text, size, false)/2, size*0.75), size, false, p.palette.RulerInk)
		}
	}
	edge := p.palette.Major
	if left {
		p.rect(p.w-line, 0, p.w, p.h, edge)
	} else {
		p.rect(0, p.h-line, p.w, p.h, edge)
	}
}

// corner paints where the rulers meet, with the unit of their numbers.
func (p *painter) cornerBox(u unit.System) {
	p.rect(0, 0, p.w, p.h, p.palette.Ruler)
	name := string(unit.Centimetres)
	if u != "" {
		name = string(u)
	}
	p.write(name, geom.Pt(float64(p.w)/2, float64(p.h)/2), 9.5*p.px, true, p.palette.RulerInk)
}

// rulerText writes a ruler's number without its unit.
func rulerText(v float64, u unit.System) string {
	switch u {
	case unit.InchFractions:
		whole, part := math.Modf(math.Abs(v) / unit.Inch)
		sixteenths := int(math.Round(part * 16))
		if sixteenths == 16 {
			whole, sixteenths = whole+1, 0
		}
		sign := ""
		if v < 0 && (whole > 0 || sixteenths > 0) {
			sign = "-"
		}
		if sixteenths == 0 {
			return fmt.Sprintf("%s%.0f", sign, whole)
		}
		d := 16
		for sixteenths%2 == 0 {
			sixteenths, d = sixteenths/2, d/2
		}
		if whole == 0 {
			return fmt.Sprintf("%s%d/%d", sign, sixteenths, d)
		}
		return fmt.Sprintf("%s%.0f %d/%d", sign, whole, sixteenths, d)
	case unit.Millimetres:
		return strconv.FormatFloat(math.Round(v)+0, 'f', -1, 64)
	}
	return strconv.FormatFloat(math.Round(v)/10+0, 'f', -1, 64)
}
