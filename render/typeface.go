package render

import (
	"strings"
	"sync"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"truemat/assets"
	"truemat/geom"
)

// face is one cut of the typeface, in units of its em square.
type face struct {
	font *sfnt.Font
	em   fixed.Int26_6 // units of an em
	caps float64       // height of capitals, in ems

	mu     sync.Mutex
	buf    sfnt.Buffer
	glyphs map[rune]glyph
}

var faces = sync.OnceValue(func() [2]*face {
	return [2]*face{mustFace(assets.FontRegular()), mustFace(assets.FontBold())}
})

// mustFace reads an embedded font, which the tests know to be right.
func mustFace(ttf []byte) *face {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic(err)
	}
	em := fixed.I(int(f.UnitsPerEm()))
	m, err := f.Metrics(nil, em, font.HintingNone)
	if err != nil {
		panic(err)
	}
	return &face{font: f, em: em, caps: float64(m.CapHeight) / float64(em), glyphs: map[rune]glyph{}}
}

func faceOf(bold bool) *face {
	if bold {
		return faces()[1]
	}
	return faces()[0]
}

// glyph is what is known of a letter.
type glyph struct {
	advance float64 // width in ems
	drawn   bool    // the face can write it
}

// glyph looks a letter up once.
func (f *face) glyph(r rune) glyph {
	f.mu.Lock()
	defer f.mu.Unlock()
	if g, ok := f.glyphs[r]; ok {
		return g
	}
	var g glyph
	if i, err := f.font.GlyphIndex(&f.buf, r); err == nil {
		g.drawn = i != 0
		if a, err := f.font.GlyphAdvance(&f.buf, i, f.em, font.HintingNone); err == nil {
			g.advance = float64(a) / float64(f.em)
		}
	}
	f.glyphs[r] = g
	return g
}

// TextWidth returns the width in mm of text whose capitals are height mm tall.
func TextWidth(text string, height float64, bold bool) float64 {
	f := faceOf(bold)
	sum := 0.0
	for _, r := range writable(text, bold) {
		sum += f.glyph(r).advance
	}
	return sum * height / f.caps
}

// writable returns text with blanks for control characters and boxes for
// characters that the typeface lacks.
func writable(text string, bold bool) string {
	f := faceOf(bold)
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsControl(r):
			return ' '
		case r > 0xffff || !f.glyph(r).drawn:
			return '□'
		}
		return r
	}, text)
}

// outlines returns the outlines of a label's letters as closed contours, for
// outputs without text.
func (l Label) outlines() [][]geom.Cubic {
	f := faceOf(l.Bold)
	scale := l.Height / f.caps
	pen, u := l.start(), l.Angle.Unit()
	v := u.Perp()
	var all [][]geom.Cubic
	for _, r := range writable(l.Text, l.Bold) {
		at := func(p fixed.Point26_6) geom.Point {
			x, y := float64(p.X)/float64(f.em)*scale, -float64(p.Y)/float64(f.em)*scale
			return pen.Add(u.Mul(x)).Add(v.Mul(y))
		}
		all = append(all, f.contours(r, at)...)
		pen = pen.Add(u.Mul(f.glyph(r).advance * scale))
	}
	return all
}

// contours returns the outline of one letter, its points mapped by at.
func (f *face) contours(r rune, at func(fixed.Point26_6) geom.Point) [][]geom.Cubic {
	f.mu.Lock()
	defer f.mu.Unlock()
	i, err := f.font.GlyphIndex(&f.buf, r)
	if err != nil {
		return nil
	}
	segs, err := f.font.LoadGlyph(&f.buf, i, f.em, nil)
	if err != nil {
		return nil
	}
	var all [][]geom.Cubic
	var last geom.Point
	add := func(c geom.Cubic) {
		all[len(all)-1] = append(all[len(all)-1], c)
		last = c.End()
	}
	for _, s := range segs {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			all = append(all, nil)
			last = at(s.Args[0])
		case sfnt.SegmentOpLineTo:
			add(geom.Straight(last, at(s.Args[0])))
		case sfnt.SegmentOpQuadTo:
			c, e := at(s.Args[0]), at(s.Args[1])
			add(geom.Curve(last, last.Lerp(c, 2.0/3), e.Lerp(c, 2.0/3), e))
		case sfnt.SegmentOpCubeTo:
			add(geom.Curve(last, at(s.Args[0]), at(s.Args[1]), at(s.Args[2])))
		}
	}
	return all
}
