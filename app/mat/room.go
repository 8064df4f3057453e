package mat

import (
	"math"
	"strings"

	"truemat/geom"
	"truemat/render"
)

// Writing is wider than high: free places are sought with x squeezed by this.
const squeeze = 0.5

// writing is a text in lines with its middle at a place of a piece.
type writing struct {
	lines []string
	at    geom.Point
	dir   geom.Point // of a line, in the piece
	size  float64    // em, mm
}

// fits returns how large lines may be in a free place of half the height given.
func fits(lines []string, half, most float64) float64 {
	size := min(most, 1.25*half/float64(len(lines)))
	for _, text := range lines {
		if w := textWidth(text, size, true); w > 0 {
			size = min(size, size*1.5*half/squeeze/w)
		}
	}
	return size
}

// halves breaks a text in two, at the place nearest its middle where sep
// stands; one line when it stands nowhere.
func halves(text, sep string) []string {
	best := -1
	for i := range text {
		if strings.HasPrefix(text[i:], sep) && (best < 0 || abs(2*i-len(text)) < abs(2*best-len(text))) {
			best = i
		}
	}
	if best < 0 {
		return []string{text}
	}
	return []string{text[:best], text[best+len(sep):]}
}

func abs(i int) int { return max(i, -i) }

// fitted returns text in one line or two, whichever can be larger.
func fitted(text, sep string, half, most float64) ([]string, float64) {
	one, two := []string{text}, halves(text, sep)
	if a, b := fits(one, half, most), fits(two, half, most); b > a {
		return two, b
	} else {
		return one, a
	}
}

// room is the inside of a piece with what must not be written on, x squeezed.
type room struct {
	box     geom.Box // not squeezed
	outline []geom.Point
	walls   [][2]geom.Point
}

func squeezed(p geom.Point) geom.Point { return geom.Pt(p.X*squeeze, p.Y) }

func (r *room) wall(pts ...geom.Point) {
	for i := 1; i < len(pts); i++ {
		r.walls = append(r.walls, [2]geom.Point{squeezed(pts[i-1]), squeezed(pts[i])})
	}
}

// clear returns how far a point is from all walls, −1 outside.
func (r *room) clear(p geom.Point) float64 {
	q := squeezed(p)
	if !inside(r.outline, q) {
		return -1
	}
	d := math.Inf(1)
	for _, w := range r.walls {
		d = min(d, distance(q, w[0], w[1]))
	}
	return d
}

// largest seeks the place that is clearest, on a grid that is refined twice.
func (r *room) largest() (at geom.Point, half float64) {
	const n = 16
	half = -1
	box := r.box
	for range 3 {
		w, h := box.Width()/n, box.Height()/n
		for i := range n {
			for k := range n {
				p := geom.Pt(box.Min.X+(float64(i)+0.5)*w, box.Min.Y+(float64(k)+0.5)*h)
				if c := r.clear(p); c > half {
					at, half = p, c
				}
			}
		}
		if half < 0 {
			return at, half
		}
		box = geom.BoxOf(at.Sub(geom.Pt(w, h)), at.Add(geom.Pt(w, h)))
	}
	return at, half
}

// signBand is a line along the inner side of the signs that stand inside an
// edge without allowance, at a middling zoom.
func signBand(pts []geom.Point) []geom.Point {
	const deep = 8 // mm
	var band []geom.Point
	for i := 1; i < len(pts); i++ {
		in := pts[i].Sub(pts[i-1]).Unit().Perp().Mul(deep)
		band = append(band, pts[i-1].Add(in), pts[i].Add(in))
	}
	return band
}

// foldBand is a line around the bracket of a fold, at a middling zoom.
func foldBand(a, b geom.Point) []geom.Point {
	const deep, inset = 8, 15 // mm
	u := b.Sub(a).Unit()
	in := u.Perp().Mul(deep)
	skip := u.Mul(min(0.12*a.Dist(b), inset))
	s, e := a.Add(skip), b.Sub(skip)
	return []geom.Point{s, s.Add(in), e.Add(in), e}
}

// findRoom seeks places inside the sew line, clear of arrow and inner lines:
// for the large marks, then for the name. Where the name was before it stays
// when that is nearly as good. It is sought once it is asked for: the other sizes
// beneath bear no writing.
func (s *shape) findRoom() {
	if s.found {
		return
	}
	s.found = true
	s.named = geom.NoBox()
	r := room{box: geom.NoBox()}
	for _, e := range s.piece.Edges {
		pts := e.Path.Flatten(1)
		r.wall(pts...)
		if e.Allowance == 0 && sign(e.Role) != nil {
			r.wall(signBand(pts)...)
		}
		for _, p := range pts {
			r.outline = append(r.outline, squeezed(p))
		}
		r.box = r.box.Union(e.Path.Bounds())
	}
	if f := s.piece.Fold(); f != nil {
		r.wall(foldBand(f.Path.Start(), f.Path.End())...)
	}
	for _, in := range s.piece.Inner {
		r.wall(in.Path.Flatten(1)...)
	}
	r.wall(s.arrow.From, s.arrow.To)
	if len(s.piece.Marks) > 0 {
		s.inscribe(&r)
	}
	s.label, s.room = r.largest()
	if s.like != nil && s.like.found {
		if c := r.clear(s.like.label); c > 0.75*s.room {
			s.label, s.room = s.like.label, c
		}
	}
	s.like = nil
}

// inscribe takes the large marks as they are written wherever the piece is
// drawn, and their ground from the room.
func (s *shape) inscribe(r *room) {
	w, err := render.Inscribe(s.piece)
	if err != nil {
		return // there is no cut line yet, and the place beside which there is none is shown
	}
	for _, mk := range w.Marks {
		one := writing{mk.Lines, mk.Mid, geom.Pt(1, 0), mk.Height / capHeight}
		if mk.Turned {
			one.dir = geom.Pt(0, 1)
		}
		s.marks = append(s.marks, one)
		across, up := 0.0, one.size*1.1*float64(len(one.lines))/2
		for _, text := range one.lines {
			across = max(across, textWidth(text, one.size, true)/2)
		}
		u, v := one.dir.Mul(across), one.dir.Perp().Mul(up)
		at := one.at
		r.wall(at.Sub(u).Add(v), at.Add(u).Add(v), at.Add(u).Sub(v), at.Sub(u).Sub(v), at.Sub(u).Add(v))
		r.wall(at.Sub(u), at.Add(u))
	}
	s.named = w.Name
}

func distance(p, a, b geom.Point) float64 {
	d := b.Sub(a)
	t := 0.0
	if n := d.Dot(d); n > 0 {
		t = min(max(p.Sub(a).Dot(d)/n, 0), 1)
	}
	return p.Dist(a.Lerp(b, t))
}

func inside(outline []geom.Point, p geom.Point) bool {
	in := false
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}
