package svg

import (
	"fmt"

	"truemat/geom"
)

// subpath is a run of cubics in the units of its element.
type subpath struct {
	segs   []geom.Cubic
	closed bool
}

// pen draws subpaths.
type pen struct {
	done    []subpath
	segs    []geom.Cubic
	at      geom.Point
	start   geom.Point
	arcTol  float64    // allowed error of arcs, in the units of the element
	control geom.Point // handle that a smooth command reflects
	last    byte       // kind of the last command: 'C', 'Q' or other
	count   int        // segments drawn
}

func (p *pen) flush(closed bool) {
	if len(p.segs) > 0 {
		p.done = append(p.done, subpath{p.segs, closed})
		p.segs = nil
	}
}

func (p *pen) move(to geom.Point) {
	p.flush(false)
	p.at, p.start = to, to
}

func (p *pen) line(to geom.Point) {
	if to != p.at {
		p.segs = append(p.segs, geom.Straight(p.at, to))
	}
	p.at = to
}

func (p *pen) cubic(b, c, d geom.Point) {
	p.segs = append(p.segs, geom.Curve(p.at, b, c, d))
	p.at, p.control = d, c
}

// quad draws a quadratic, raised exactly to a cubic.
func (p *pen) quad(b, c geom.Point) {
	p.segs = append(p.segs, geom.Curve(p.at, p.at.Lerp(b, 2.0/3), c.Lerp(b, 2.0/3), c))
	p.at, p.control = c, b
}

func (p *pen) close() {
	p.line(p.start)
	p.flush(true)
}

// reflected returns the handle of a smooth command: the last one mirrored in
// the current point, when the last command was of the same kind.
func (p *pen) reflected(kind byte) geom.Point {
	if p.last != kind {
		return p.at
	}
	return p.at.Mul(2).Sub(p.control)
}

// parsePath reads path data (SVG 2, section 9.3). On a fault it returns what
// was drawn before it, with the error.
func parsePath(d string, arcTol float64) ([]subpath, error) {
	sc := &scanner{s: d}
	p := &pen{arcTol: arcTol}
	sc.skipSpace()
	for first := true; !sc.end(); first = false {
		cmd := sc.s[sc.i]
		if first && cmd != 'M' && cmd != 'm' {
			return nil, sc.fault("a move (M)")
		}
		if _, ok := argCount[cmd|0x20]; !ok || cmd&0x20 == 0 && (cmd < 'A' || cmd > 'Z') {
			p.flush(false)
			return p.done, sc.fault("a command letter")
		}
		sc.i++
		if err := p.command(sc, cmd); err != nil {
			p.flush(false)
			return p.done, fmt.Errorf("command %c: %w", cmd, err)
		}
		sc.skipSpace()
	}
	p.flush(false)
	return p.done, nil
}

// argCount is how many numbers a command takes each time.
var argCount = map[byte]int{'m': 2, 'l': 2, 'h': 1, 'v': 1, 'c': 6, 's': 4, 'q': 4, 't': 2, 'a': 7, 'z': 0}

// command reads the numbers of one command, repeated as often as they follow.
func (p *pen) command(sc *scanner, cmd byte) error {
	kind := cmd | 0x20
	if kind == 'z' {
		p.close()
		p.last = 0
		return nil
	}
	for repeat := 0; ; repeat++ {
		var v [7]float64
		for i := range argCount[kind] {
			if i == 0 && repeat == 0 {
				sc.skipSpace()
			} else if i > 0 {
				sc.skipComma()
			}
			var err error
			if kind == 'a' && (i == 3 || i == 4) {
				var on bool
				if on, err = sc.flag(); on {
					v[i] = 1
				}
			} else {
				v[i], err = sc.number()
			}
			if err != nil {
				return err
			}
		}
		before := len(p.segs)
		p.draw(kind, cmd == kind, v, repeat)
		if p.count += max(len(p.segs)-before, 0); p.count > MaxSegments {
			return fmt.Errorf("there are more than %d segments", MaxSegments)
		}
		comma := sc.skipComma()
		if !sc.atNumber() {
			if comma {
				return sc.fault("a number")
			}
			return nil
		}
	}
}

func (p *pen) draw(kind byte, relative bool, v [7]float64, repeat int) {
	var o geom.Point
	if relative {
		o = p.at
	}
	pt := func(i int) geom.Point { return geom.Pt(o.X+v[i], o.Y+v[i+1]) }
	last := byte(0)
	switch kind {
	case 'm':
		if repeat == 0 {
			p.move(pt(0))
		} else {
			p.line(pt(0))
		}
	case 'l':
		p.line(pt(0))
	case 'h':
		p.line(geom.Pt(o.X+v[0], p.at.Y))
	case 'v':
		p.line(geom.Pt(p.at.X, o.Y+v[0]))
	case 'c':
		p.cubic(pt(0), pt(2), pt(4))
		last = 'C'
	case 's':
		p.cubic(p.reflected('C'), pt(0), pt(2))
		last = 'C'
	case 'q':
		p.quad(pt(0), pt(2))
		last = 'Q'
	case 't':
		p.quad(p.reflected('Q'), pt(0))
		last = 'Q'
	case 'a':
		p.arc(v[0], v[1], v[2], v[3] == 1, v[4] == 1, pt(5))
	}
	p.last = last
}
