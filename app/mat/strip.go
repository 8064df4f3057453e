package mat

import (
	"truemat/geom"
	"truemat/ops/pattern"
)

// strip is the ground that a line of writing, or a straight line, takes: all
// that is within r of a stretch. In pixels.
type strip struct {
	mid, dir geom.Point // dir is a unit vector
	half, r  float64
}

func stripOf(a, b geom.Point, r float64) strip {
	return strip{a.Lerp(b, 0.5), b.Sub(a).Unit(), a.Dist(b) / 2, r}
}

func (s strip) ends() (a, b geom.Point) {
	return s.mid.Sub(s.dir.Mul(s.half)), s.mid.Add(s.dir.Mul(s.half))
}

// dots is how many points along a strip are looked at.
const dots = 9

func (s strip) at(i int) geom.Point {
	return s.mid.Add(s.dir.Mul(s.half * (2*float64(i)/(dots-1) - 1)))
}

// hits reports whether two strips meet, looked at in points of either.
func (s strip) hits(t strip) bool {
	for _, st := range [2][2]strip{{s, t}, {t, s}} {
		a, b := st[1].ends()
		for i := range dots {
			if distance(st[0].at(i), a, b) < s.r+t.r {
				return true
			}
		}
	}
	return false
}

// free reports whether a strip is clear of what is taken.
func (s strip) free(taken []strip) bool {
	for _, t := range taken {
		if s.hits(t) {
			return false
		}
	}
	return true
}

// within reports whether a strip's middle line lies inside an outline.
func (s strip) within(outline []geom.Point) bool {
	for i := range dots {
		if !inside(outline, s.at(i)) {
			return false
		}
	}
	return true
}

// well reports whether all of a strip lies inside an outline.
func (s strip) well(outline []geom.Point) bool {
	if !inside(outline, s.mid) {
		return false
	}
	for i, q := range outline {
		if s.hits(stripOf(q, outline[(i+1)%len(outline)], 0)) {
			return false
		}
	}
	return true
}

// lineStrip is what a line of writing takes; its round ends lie in its width.
func lineStrip(text string, mid, dir geom.Point, size float64, bold bool) strip {
	r := 0.45 * size
	return strip{mid, dir, max(textWidth(text, size, bold)/2-r, 0), r}
}

// letteringStrips is what lettering takes.
func letteringStrips(lines []string, mid, dir geom.Point, size float64) []strip {
	down := geom.Pt(-dir.Y, dir.X)
	var taken []strip
	for i, text := range lines {
		at := mid.Add(down.Mul((float64(i) - float64(len(lines)-1)/2) * 1.15 * size))
		taken = append(taken, lineStrip(text, at, dir, size, true))
	}
	return taken
}

// signed is what arrow and fold take of a piece.
func (p *painter) signed(l laid, m affine) []strip {
	a := l.arrow
	from, to := m.apply(a.From), m.apply(a.To)
	taken := []strip{stripOf(from, to, 2*p.px)}
	if a.Kind == pattern.MostStretch {
		taken = append(taken, stripOf(from.Lerp(to, 0.25), from.Lerp(to, 0.75), (swing+1)*p.px))
	}
	if word, bracket := p.foldWord(l, m); bracket {
		f := l.piece.Fold()
		s, e, in := p.bracketEnds(m, m.apply(f.Path.Start()), m.apply(f.Path.End()))
		deep := in.Mul(bracketDepth * p.px)
		if word.r > 0 {
			taken = append(taken, word)
		}
		taken = append(taken, stripOf(s.Add(deep), e.Add(deep), p.px),
			stripOf(s, s.Add(deep), 3*p.px), stripOf(e, e.Add(deep), 3*p.px))
	}
	return taken
}

// drawn is what arrow, fold and inner lines take of a piece.
func (p *painter) drawn(l laid, m affine) []strip {
	taken := p.signed(l, m)
	for _, run := range l.inner {
		for i := 1; i < len(run); i++ {
			taken = append(taken, stripOf(m.apply(run[i-1]), m.apply(run[i]), 0))
		}
	}
	return taken
}

// marked is what the large marks take of a piece.
func (p *painter) marked(l laid, m affine) (taken []strip) {
	l.findRoom()
	for _, mk := range l.marks {
		taken = append(taken, letteringStrips(mk.lines, m.apply(mk.at), readable(m.vector(mk.dir).Unit()), mk.size*m.scale())...)
	}
	return taken
}

// notched is what the strokes of notches take of a piece.
func (p *painter) notched(l laid, m affine) (taken []strip) {
	for _, n := range l.piece.Notches {
		e := l.piece.Edge(n.Edge)
		if e == nil {
			continue
		}
		for _, s := range strokes(n, e.Length(), 5*p.px/m.scale()) {
			at, out := m.apply(e.Path.At(s)), m.vector(e.Path.TangentAt(s).Perp().Mul(-1)).Unit()
			in, far := -11*p.px, -2*p.px
			if a := e.Allowance * m.scale(); a > 0 && l.uncut < 0 {
				in, far = a-min(5*p.px, a/2), a+4*p.px
			}
			taken = append(taken, stripOf(at.Add(out.Mul(in)), at.Add(out.Mul(far)), p.px))
		}
	}
	return taken
}

// written is what arrow, fold, inner lines, marks and name take of a piece.
func (p *painter) written(l laid, m affine) []strip {
	taken := append(p.drawn(l, m), p.marked(l, m)...)
	if n, ok := p.naming(l, m); ok {
		taken = append(taken, n.strips()...)
	}
	return taken
}
