package geom

import (
	"encoding"
	"errors"
	"fmt"
	"strconv"
)

var (
	_ encoding.TextMarshaler   = Path{}
	_ encoding.TextUnmarshaler = (*Path)(nil)
)

// String writes the path in the absolute commands of SVG path data: M, then
// L for a straight segment and C for a curve, and Z when it is closed. The
// last point stands before the Z even though it repeats the first. Every
// number is written with the fewest digits that read back bit for bit, so
// [ParsePath] gives the same segments. The empty path gives the empty string.
func (p Path) String() string { return string(p.appendText(nil)) }

// MarshalText writes what [Path.String] gives.
func (p Path) MarshalText() ([]byte, error) { return p.appendText(nil), nil }

// UnmarshalText reads what [ParsePath] accepts, and no text at all as the
// empty path. On an error p stays as it was.
func (p *Path) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*p = Path{}
		return nil
	}
	q, err := ParsePath(string(text))
	if err != nil {
		return err
	}
	*p = q
	return nil
}

func (p Path) appendText(b []byte) []byte {
	if p.Empty() {
		return b
	}
	b = appendPoints(append(b, 'M'), p.Start())
	for _, c := range p.segs {
		if c.straight {
			b = appendPoints(append(b, " L"...), c.P[3])
		} else {
			b = appendPoints(append(b, " C"...), c.P[1], c.P[2], c.P[3])
		}
	}
	if p.closed {
		b = append(b, " Z"...)
	}
	return b
}

func appendPoints(b []byte, pts ...Point) []byte {
	for _, q := range pts {
		b = strconv.AppendFloat(append(b, ' '), q.X, 'g', -1, 64)
		b = strconv.AppendFloat(append(b, ' '), q.Y, 'g', -1, 64)
	}
	return b
}

// ParsePath reads one path from SVG path data in absolute commands:
//
//	M x y, then any of  L x y  and  C x y x y x y, then perhaps Z
//
// Numbers are decimal; white space or a comma stands between them, and every
// segment has its own letter. Z closes with a straight segment when the last
// point is not the first. Anything else (relative or other commands, a second
// M, a coordinate beyond [Reach], a path without length) is refused, and the
// error names the place in the text, counted in bytes from 1.
func ParsePath(s string) (Path, error) {
	r := pathReader{text: s}
	segs, closed, err := r.read()
	if err != nil {
		return Path{}, err
	}
	return buildKeeping(segs, closed, Coincident/2)
}

// pathReader walks through path data.
type pathReader struct {
	text string
	pos  int
}

func (r *pathReader) read() (segs []Cubic, closed bool, err error) {
	r.space()
	if r.peek() != 'M' {
		return nil, false, r.fail("a path starts with M")
	}
	r.pos++
	var pts [3]Point
	if err := r.points(pts[:1]); err != nil {
		return nil, false, err
	}
	start := pts[0]
	here := start
	for {
		r.space()
		if r.pos == len(r.text) {
			return segs, closed, nil
		}
		if closed {
			return nil, false, r.fail("nothing may follow Z")
		}
		letter := r.peek()
		r.pos++
		switch letter {
		case 'L':
			err = r.points(pts[:1])
			segs, here = append(segs, Straight(here, pts[0])), pts[0]
		case 'C':
			err = r.points(pts[:])
			segs, here = append(segs, Curve(here, pts[0], pts[1], pts[2])), pts[2]
		case 'Z':
			closed = true
			if here.Dist(start) > Coincident {
				segs = append(segs, Straight(here, start))
			}
		default:
			r.pos--
			err = r.fail("only L, C and Z may stand here")
		}
		if err != nil {
			return nil, false, err
		}
	}
}

func (r *pathReader) points(pts []Point) (err error) {
	for i := range pts {
		if pts[i].X, err = r.number(); err != nil {
			return err
		}
		r.comma()
		if pts[i].Y, err = r.number(); err != nil {
			return err
		}
		if i+1 < len(pts) {
			r.comma()
		}
	}
	return nil
}

func (r *pathReader) number() (float64, error) {
	r.space()
	from := r.pos
	if c := r.peek(); c == '-' || c == '+' {
		r.pos++
	}
	digits := r.digits()
	if r.peek() == '.' {
		r.pos++
		digits += r.digits()
	}
	if digits == 0 {
		r.pos = from
		return 0, r.fail("a number is wanted")
	}
	if c := r.peek(); c == 'e' || c == 'E' {
		r.pos++
		if c := r.peek(); c == '-' || c == '+' {
			r.pos++
		}
		if r.digits() == 0 {
			return 0, r.fail("an exponent is wanted")
		}
	}
	v, err := strconv.ParseFloat(r.text[from:r.pos], 64)
	if err != nil || !Pt(v, 0).Finite() {
		r.pos = from
		return 0, r.fail(fmt.Sprintf("a coordinate must lie within %g mm", Reach))
	}
	return v, nil
}

func (r *pathReader) digits() int {
	from := r.pos
	for c := r.peek(); c >= '0' && c <= '9'; c = r.peek() {
		r.pos++
	}
	return r.pos - from
}

// comma skips one comma with the white space before it.
func (r *pathReader) comma() {
	r.space()
	if r.peek() == ',' {
		r.pos++
	}
}

func (r *pathReader) space() {
	for c := r.peek(); c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f'; c = r.peek() {
		r.pos++
	}
}

// peek returns the next byte, 0 at the end.
func (r *pathReader) peek() byte {
	if r.pos == len(r.text) {
		return 0
	}
	return r.text[r.pos]
}

func (r *pathReader) fail(what string) error {
	if r.pos == len(r.text) {
		return errors.New("path data ends too early: " + what)
	}
	return fmt.Errorf("path data, at %d (%q): %s", r.pos+1, r.text[r.pos], what)
}
