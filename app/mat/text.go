package mat

import (
	"image/color"
	"sync"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"truemat/assets"
	"truemat/geom"
)

// glyph is the outline of a letter, 1 em tall, y down.
type glyph struct {
	contours [][]geom.Point
	advance  float64
}

// typeface is a face with the letters used so far.
type typeface struct {
	font   *sfnt.Font
	buf    sfnt.Buffer
	glyphs map[rune]*glyph
}

// faces holds the regular and the bold face of the program.
var faces = sync.OnceValue(func() [2]*typeface {
	var fs [2]*typeface
	for i, data := range [][]byte{assets.FontRegular(), assets.FontBold()} {
		f, err := sfnt.Parse(data)
		if err != nil {
			panic(err) // the embedded typeface is part of the program
		}
		fs[i] = &typeface{font: f, glyphs: map[rune]*glyph{}}
	}
	return fs
})

func face(bold bool) *typeface {
	if bold {
		return faces()[1]
	}
	return faces()[0]
}

// letter returns a letter's outline; an empty one when the face cannot give it.
func (t *typeface) letter(r rune) *glyph {
	if g, ok := t.glyphs[r]; ok {
		return g
	}
	const em = 1024
	g := &glyph{}
	t.glyphs[r] = g
	i, err := t.font.GlyphIndex(&t.buf, r)
	if err != nil {
		return g
	}
	if adv, err := t.font.GlyphAdvance(&t.buf, i, fixed.I(em), 0); err == nil {
		g.advance = float64(adv) / 64 / em
	}
	segs, err := t.font.LoadGlyph(&t.buf, i, fixed.I(em), nil)
	if err != nil {
		return g
	}
	at := func(p fixed.Point26_6) geom.Point { return geom.Pt(float64(p.X)/64/em, float64(p.Y)/64/em) }
	var c []geom.Point
	for _, s := range segs {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if len(c) > 0 {
				g.contours = append(g.contours, c)
			}
			c = []geom.Point{at(s.Args[0])}
		case sfnt.SegmentOpLineTo:
			c = append(c, at(s.Args[0]))
		case sfnt.SegmentOpQuadTo:
			p, q, e := c[len(c)-1], at(s.Args[0]), at(s.Args[1])
			for _, k := range []float64{0.25, 0.5, 0.75, 1} {
				c = append(c, p.Lerp(q, k).Lerp(q.Lerp(e, k), k))
			}
		case sfnt.SegmentOpCubeTo:
			cu := geom.Curve(c[len(c)-1], at(s.Args[0]), at(s.Args[1]), at(s.Args[2]))
			for _, k := range []float64{0.2, 0.4, 0.6, 0.8, 1} {
				c = append(c, cu.At(k))
			}
		}
	}
	if len(c) > 0 {
		g.contours = append(g.contours, c)
	}
	return g
}

// textWidth returns the width in pixels of text with the size (em) given.
func textWidth(text string, size float64, bold bool) float64 {
	w := 0.0
	for _, r := range text {
		w += face(bold).letter(r).advance * size
	}
	return w
}

// xMiddle is how far above its baseline the middle of a line of text lies, in em.
const xMiddle = 0.35

// text writes a line with its middle at a point, running in the direction dir
// (a unit vector).
func (b *brush) text(s string, mid, dir geom.Point, size float64, bold bool, c color.NRGBA) {
	down := geom.Pt(-dir.Y, dir.X)
	at := mid.Sub(dir.Mul(textWidth(s, size, bold) / 2)).Add(down.Mul(xMiddle * size))
	for _, r := range s {
		g := face(bold).letter(r)
		for _, contour := range g.contours {
			b.pts = b.pts[:0]
			for _, p := range contour {
				b.pts = append(b.pts, at.Add(dir.Mul(p.X*size)).Add(down.Mul(p.Y*size)))
			}
			b.outline(b.pts)
		}
		at = at.Add(dir.Mul(g.advance * size))
	}
	b.paint(c)
}

// write is text that runs level.
func (b *brush) write(s string, mid geom.Point, size float64, bold bool, c color.NRGBA) {
	b.text(s, mid, geom.Pt(1, 0), size, bold, c)
}
