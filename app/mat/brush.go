package mat

import (
	"image"
	"image/color"
	"math"
	"slices"

	"truemat/geom"
)

// brush paints antialiased shapes into an image. Its work grows with the
// outline of what it paints, not with the area around it, so that a whole mat
// fits into one frame. Points are in pixels, y down.
type brush struct {
	img     *image.RGBA
	w, h    int
	mask    []uint8 // coverage of the stroke being painted
	touched []int32 // where the mask is not 0
	open    []uint8 // equal to opened where the stencil lets ink through
	opened  uint8
	rows    [][]cell
	top     int // rows in use
	bottom  int
	pts     []geom.Point
	part    []geom.Point
}

// cell is where the coverage of a fill changes along a row.
type cell struct {
	x int32
	v float32
}

// begin makes the brush paint into an image of w × h pixels, which is reused;
// what it held before is still there when the size is the same.
func (b *brush) begin(w, h int) {
	n := w * h
	room := n
	if b.img == nil {
		b.img = &image.RGBA{}
	} else {
		room += n / 4 // what grew once, as a piece does that is turned, grows on
	}
	if cap(b.img.Pix) < 4*n {
		b.img = &image.RGBA{Pix: make([]uint8, 4*room)}
	}
	if b.w != w || b.h != h || len(b.img.Pix) != 4*n {
		b.img = &image.RGBA{Pix: b.img.Pix[:4*n], Stride: 4 * w, Rect: image.Rect(0, 0, w, h)}
	}
	if len(b.mask) < n {
		b.mask = make([]uint8, room)
	}
	if b.w != w {
		b.open = nil // it went by rows of the width before
	}
	for len(b.rows) < h {
		b.rows = append(b.rows, nil)
	}
	b.w, b.h = w, h
	b.top, b.bottom = h, 0
}

// clear makes the image see-through.
func (b *brush) clear() { clear(b.img.Pix) }

// premultiplied is a colour with 0…255 of coverage applied, ready to blend.
func premultiplied(c color.NRGBA, cover uint32) (r, g, bl, a uint32) {
	a = uint32(c.A) * cover / 255
	return uint32(c.R) * a / 255, uint32(c.G) * a / 255, uint32(c.B) * a / 255, a
}

func blend(p []uint8, r, g, bl, a uint32) {
	k := 255 - a
	p[0] = uint8(r + (uint32(p[0])*k+127)/255)
	p[1] = uint8(g + (uint32(p[1])*k+127)/255)
	p[2] = uint8(bl + (uint32(p[2])*k+127)/255)
	p[3] = uint8(a + (uint32(p[3])*k+127)/255)
}

// outline adds a closed outline to the fill that paint will paint.
func (b *brush) outline(pts []geom.Point) {
	for i, p := range pts {
		b.edge(p, pts[(i+1)%len(pts)])
	}
}

// edge adds one side of an outline: for each row, by how much the coverage
// changes in which pixel (signed areas, after the accumulation method of
// R. Levien's font-rs, 2016).
func (b *brush) edge(p, q geom.Point) {
	dir := float32(1)
	if p.Y > q.Y {
		p, q, dir = q, p, -1
	}
	if q.Y <= 0 || p.Y >= float64(b.h) || p.Y == q.Y {
		return
	}
	slope := (q.X - p.X) / (q.Y - p.Y)
	if p.Y < 0 {
		p = geom.Pt(p.X-p.Y*slope, 0)
	}
	if q.Y > float64(b.h) {
		q = geom.Pt(q.X-(q.Y-float64(b.h))*slope, float64(b.h))
	}
	x := p.X
	last := min(int(math.Ceil(q.Y)), b.h)
	b.top, b.bottom = min(b.top, int(p.Y)), max(b.bottom, last)
	for y := int(p.Y); y < last; y++ {
		dy := min(float64(y+1), q.Y) - max(float64(y), p.Y)
		next := x + slope*dy
		b.cross(y, min(max(x, 0), float64(b.w)), min(max(next, 0), float64(b.w)), dir*float32(dy))
		x = next
	}
}

func (b *brush) cross(y int, xa, xb float64, d float32) {
	if xa > xb {
		xa, xb = xb, xa
	}
	row := b.rows[y]
	i, end := int32(xa), int32(math.Ceil(xb))
	if end <= i+1 {
		m := float32((xa+xb)/2) - float32(i)
		row = append(row, cell{i, d - d*m}, cell{i + 1, d * m})
	} else {
		s := float32(1 / (xb - xa))
		f := float32(xa) - float32(i)
		first := 0.5 * s * (1 - f) * (1 - f)
		g := float32(xb) - float32(end) + 1
		lastPart := 0.5 * s * g * g
		row = append(row, cell{i, d * first})
		if end == i+2 {
			row = append(row, cell{i + 1, d * (1 - first - lastPart)})
		} else {
			second := s * (1.5 - f)
			row = append(row, cell{i + 1, d * (second - first)})
			for k := i + 2; k < end-1; k++ {
				row = append(row, cell{k, d * s})
			}
			sum := second + float32(end-i-3)*s
			row = append(row, cell{end - 1, d * (1 - sum - lastPart)})
		}
		row = append(row, cell{end, d * lastPart})
	}
	b.rows[y] = row
}

// paint fills what the outlines enclose and forgets them.
func (b *brush) paint(c color.NRGBA) {
	b.spans(func(y, x0, x1 int, cover uint32) { b.span(y, x0, x1, c, cover) })
}

// spans tells the stretches of rows from x0 to before x1 that the outlines
// cover, by how much of 255, and forgets the outlines.
func (b *brush) spans(told func(y, x0, x1 int, cover uint32)) {
	for y := b.top; y < b.bottom; y++ {
		row := b.rows[y]
		slices.SortFunc(row, func(p, q cell) int { return int(p.x - q.x) })
		var sum float32
		for i, n := 0, len(row); i < n; {
			x := int(row[i].x)
			for ; i < n && int(row[i].x) == x; i++ {
				sum += row[i].v
			}
			if x >= b.w || i == n {
				break
			}
			cover := uint32(min(max(sum, -sum), 1)*255 + 0.5)
			if cover > 0 {
				told(y, x, min(int(row[i].x), b.w), cover)
			}
		}
		b.rows[y] = row[:0]
	}
	b.top, b.bottom = b.h, 0
}

// span paints the pixels from x0 to before x1 of a row.
func (b *brush) span(y, x0, x1 int, c color.NRGBA, cover uint32) {
	r, g, bl, a := premultiplied(c, cover)
	p := b.img.Pix[4*(y*b.w+x0) : 4*(y*b.w+x1)]
	if a == 255 {
		p[0], p[1], p[2], p[3] = uint8(r), uint8(g), uint8(bl), 255
		for n := 4; n < len(p); n *= 2 {
			copy(p[n:], p[:n])
		}
		return
	}
	for ; len(p) > 0; p = p[4:] {
		blend(p, r, g, bl, a)
	}
}

// fill paints the inside of a closed outline.
func (b *brush) fill(pts []geom.Point, c color.NRGBA) {
	b.outline(pts)
	b.paint(c)
}

// rect paints whole pixels.
func (b *brush) rect(x0, y0, x1, y1 int, c color.NRGBA) {
	x0, y0, x1, y1 = max(x0, 0), max(y0, 0), min(x1, b.w), min(y1, b.h)
	if x0 >= x1 {
		return
	}
	for y := y0; y < y1; y++ {
		b.span(y, x0, x1, c, 255)
	}
}

// pen is how a line is drawn; lengths in pixels.
type pen struct {
	width float64
	color color.NRGBA
	dash  []float64 // drawn, left out, …; solid when empty
	soft  bool      // fades out from the middle
}

// line draws a polyline. Where it meets or crosses itself it is not darker.
func (b *brush) line(pts []geom.Point, p pen) {
	b.trace(pts, p)
	b.ink(p)
}

// trace lays down a polyline that ink will draw, together with others.
func (b *brush) trace(pts []geom.Point, p pen) {
	r := max(p.width/2, 0.5)
	b.dashed(pts, p.dash, r+1, func(u, v geom.Point) { b.segment(u, v, r, p.soft) })
}

// ink draws what was traced.
func (b *brush) ink(p pen) {
	c := p.color
	if p.width < 1 {
		c.A = uint8(float64(c.A) * p.width)
	}
	for _, i := range b.touched {
		red, g, bl, a := premultiplied(c, uint32(b.mask[i]))
		blend(b.img.Pix[4*i:4*i+4], red, g, bl, a)
		b.mask[i] = 0
	}
	b.touched = b.touched[:0]
}

// ring is line along a closed outline.
func (b *brush) ring(pts []geom.Point, p pen) {
	b.traceRing(pts, p)
	b.ink(p)
}

// traceRing is trace along a closed outline.
func (b *brush) traceRing(pts []geom.Point, p pen) {
	if len(pts) > 0 {
		b.part = append(append(b.part[:0], pts...), pts[0])
		b.trace(b.part, p)
	}
}

// dashed cuts a polyline into the visible stretches that are drawn.
func (b *brush) dashed(pts []geom.Point, dash []float64, margin float64, draw func(u, v geom.Point)) {
	period := 0.0
	for _, d := range dash {
		period += d
	}
	at := 0.0 // length along the polyline
	for i := 1; i < len(pts); i++ {
		p, q := pts[i-1], pts[i]
		length := p.Dist(q)
		t0, t1, ok := clipSegment(p, q, -margin, -margin, float64(b.w)+margin, float64(b.h)+margin)
		switch {
		case !ok:
		case period <= 0 || length == 0:
			draw(p.Lerp(q, t0), p.Lerp(q, t1))
		default:
			for s := t0 * length; s < t1*length; {
				phase := math.Mod(at+s, period)
				k := 0
				for phase >= dash[k] && k < len(dash)-1 {
					phase -= dash[k]
					k++
				}
				e := min(s+max(dash[k]-phase, 1e-3), t1*length)
				if k%2 == 0 {
					draw(p.Lerp(q, s/length), p.Lerp(q, e/length))
				}
				s = e
			}
		}
		at += length
	}
}

// clipSegment returns the stretch of a segment that lies in a box, by the
// method of Y.-D. Liang and B. A. Barsky (1984).
func clipSegment(p, q geom.Point, x0, y0, x1, y1 float64) (t0, t1 float64, ok bool) {
	t0, t1 = 0, 1
	d := q.Sub(p)
	for _, c := range [4][2]float64{{-d.X, p.X - x0}, {d.X, x1 - p.X}, {-d.Y, p.Y - y0}, {d.Y, y1 - p.Y}} {
		switch {
		case c[0] == 0:
			if c[1] < 0 {
				return 0, 0, false
			}
		case c[0] < 0:
			t0 = max(t0, c[1]/c[0])
		default:
			t1 = min(t1, c[1]/c[0])
		}
	}
	return t0, t1, t0 <= t1
}

// segment lays the coverage of a line from u to v with half its width r into
// the mask: for each pixel near it, by its distance.
func (b *brush) segment(u, v geom.Point, r float64, soft bool) {
	reach := r + 0.5
	d := v.Sub(u)
	length := d.Norm()
	if length > 0 {
		d = d.Mul(1 / length)
	}
	left, right := min(u.X, v.X)-reach, max(u.X, v.X)+reach
	y0, y1 := max(int(math.Floor(min(u.Y, v.Y)-reach)), 0), min(int(math.Ceil(max(u.Y, v.Y)+reach)), b.h)
	for y := y0; y < y1; y++ {
		py := float64(y) + 0.5 - u.Y
		lo, hi := left, right
		if math.Abs(d.Y) > 1e-6 { // |px·d.Y − py·d.X| ≤ reach
			m, w := u.X+py*d.X/d.Y, reach/math.Abs(d.Y)
			lo, hi = max(lo, m-w), min(hi, m+w)
		}
		x0, x1 := max(int(math.Floor(lo-0.5)), 0), min(int(math.Ceil(hi+0.5)), b.w)
		for x := x0; x < x1; x++ {
			px := float64(x) + 0.5 - u.X
			t := min(max(px*d.X+py*d.Y, 0), length)
			ex, ey := px-t*d.X, py-t*d.Y
			q := ex*ex + ey*ey
			if q >= reach*reach {
				continue
			}
			dist := math.Sqrt(q)
			cover := min(reach-dist, 1)
			if soft {
				cover = (1 - dist/reach) * (1 - dist/reach)
			}
			m := uint8(cover*255 + 0.5)
			i := y*b.w + x
			if was := b.mask[i]; m > was {
				if was == 0 {
					b.touched = append(b.touched, int32(i))
				}
				b.mask[i] = m
			}
		}
	}
}

// circle returns points on a circle, close enough together to look round.
func circle(c geom.Point, r float64) []geom.Point {
	n := 12 + int(r)
	pts := make([]geom.Point, n)
	for i := range pts {
		pts[i] = c.Add(geom.Angle(2 * math.Pi * float64(i) / float64(n)).Unit().Mul(r))
	}
	return pts
}
