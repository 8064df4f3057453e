package intake

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/gonum/integrate/quad"
	"truemat/ops/intake/svg"
)

// The outlines of letters are taken from the Go typeface by
// golang.org/x/image/font/sfnt and measured by gonum's quadrature of the
// speed of their quadratic curves; the drawing must measure the same.
func TestLettersOfAFontMeasureTrue(t *testing.T) {
	face, err := sfnt.Parse(goregular.TTF)
	require.NoError(t, err)
	const perUnit = 0.25 // mm
	for _, letter := range "BSag8&ß" {
		d, want := letterPath(t, face, letter)
		doc := fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" width="500mm" height="500mm" viewBox="-300 -1500 2000 2000"><path id="letter" d="%s"/></svg>`, d)
		drawing, err := svg.Read(strings.NewReader(doc), svg.Options{})
		require.NoError(t, err)
		got := 0.0
		node, ok := drawing.Find("letter")
		require.True(t, ok)
		for _, p := range node.Paths {
			got += p.Length()
		}
		require.InDelta(t, want*perUnit, got, 0.01, "letter %c", letter)
	}
}

// letterPath returns a letter as path data in font units and the length of
// its lines.
func letterPath(t *testing.T, face *sfnt.Font, letter rune) (d string, length float64) {
	t.Helper()
	var buf sfnt.Buffer
	g, err := face.GlyphIndex(&buf, letter)
	require.NoError(t, err)
	segs, err := face.LoadGlyph(&buf, g, fixed.I(int(face.UnitsPerEm())), nil)
	require.NoError(t, err)
	require.NotEmpty(t, segs)
	type point struct{ x, y float64 }
	at := func(p fixed.Point26_6) point { return point{float64(p.X) / 64, float64(p.Y) / 64} }
	var b strings.Builder
	var here, start point
	closeLine := func() {
		if here != start {
			length += math.Hypot(start.x-here.x, start.y-here.y)
		}
	}
	for _, s := range segs {
		p := at(s.Args[0])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			closeLine()
			if b.Len() > 0 {
				b.WriteString("z")
			}
			fmt.Fprintf(&b, "M%g %g", p.x, p.y)
			start, here = p, p
		case sfnt.SegmentOpLineTo:
			fmt.Fprintf(&b, "L%g %g", p.x, p.y)
			length += math.Hypot(p.x-here.x, p.y-here.y)
			here = p
		case sfnt.SegmentOpQuadTo:
			q, a := at(s.Args[1]), here
			fmt.Fprintf(&b, "Q%g %g %g %g", p.x, p.y, q.x, q.y)
			speed := func(u float64) float64 {
				dx := 2*(1-u)*(p.x-a.x) + 2*u*(q.x-p.x)
				dy := 2*(1-u)*(p.y-a.y) + 2*u*(q.y-p.y)
				return math.Hypot(dx, dy)
			}
			length += quad.Fixed(speed, 0, 1, 100, nil, 0)
			here = q
		default:
			t.Fatalf("an outline of cubic curves in a TrueType font")
		}
	}
	closeLine()
	return b.String() + "z", length
}
