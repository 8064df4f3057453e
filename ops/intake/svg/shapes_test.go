package svg

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
)

// draw reads a drawing in which one unit is one millimetre.
func draw(t testing.TB, inner string) Drawing {
	t.Helper()
	d, err := Read(strings.NewReader(`<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="200mm" height="200mm" viewBox="0 0 200 200">`+inner+`</svg>`), Options{})
	require.NoError(t, err)
	return d
}

func one(t testing.TB, inner string) Node {
	t.Helper()
	d := draw(t, inner)
	require.Empty(t, d.LeftOut)
	var shapes []Node
	d.Walk(func(n Node, _ []Node) bool {
		if len(n.Paths) > 0 {
			shapes = append(shapes, n)
		}
		return true
	})
	require.Len(t, shapes, 1)
	return shapes[0]
}

// Lengths by closed forms. Elliptic integrals after Abramowitz & Stegun 17.3;
// the arcs of the rotated ellipse were integrated with 40 digits.
func TestLengthsOfShapes(t *testing.T) {
	const perimeter53 = 25.5269988633981285 // ellipse with semi-axes 5 and 3
	cases := []struct {
		name, svg string
		want      float64
	}{
		{"line", `<line x1="10" y1="10" x2="40" y2="50"/>`, 50},
		{"line in units", `<line x2="3in" y2="4in"/>`, 5 * 96},
		{"circle", `<circle cx="50" cy="60" r="40"/>`, 80 * math.Pi},
		{"ellipse", `<ellipse cx="50" cy="60" rx="50" ry="30"/>`, 10 * perimeter53},
		{"ellipse with one radius", `<ellipse cx="50" cy="60" ry="30"/>`, 60 * math.Pi},
		{"rect", `<rect x="5" y="6" width="30" height="20"/>`, 100},
		{"rect with round corners", `<rect x="5" y="6" width="30" height="20" rx="4"/>`, 100 - 32 + 8*math.Pi},
		{"rect with corners too round", `<rect width="30" height="20" rx="40" ry="10"/>`, 2 * perimeterOf(15, 10) / 2},
		{"polyline", `<polyline points="0,0 3,4 3 10"/>`, 11},
		{"polygon", `<polygon points="0,0 3,4,3,0"/>`, 12},
		{"relative and implicit lines", `<path d="m10 10 3 4-3-4h5v-6H0V1z"/>`, 5 + 5 + 5 + 6 + 15 + 3 + math.Sqrt(181)},
		{"subpaths", `<path d="M0 0L3 4M10 10l3 4zl0 9"/>`, 5 + 10 + 9},
		{"quadratic", `<path d="M0 0Q50 20 100 0"/>`, 102.606063042684450},
		{"smooth quadratic", `<path d="M0 0Q50 20 100 0T200 0"/>`, 2 * 102.606063042684450},
		{"T after a line starts straight", `<path d="M0 0L5 0T10 0"/>`, 10},
		{"cubic", `<path d="M0 0C0 100 100 100 100 0"/>`, 200},
		{"smooth cubic", `<path d="m0 0c0 100 100 100 100 0s100-100 100 0"/>`, 400},
		{"arc", `<path d="M0 0A50 30 30 0 1 60 20"/>`, 65.752937702658},
		{"arc with packed flags", `<path d="M0 0A50 30 30 0160 20"/>`, 65.752937702658},
		{"large arc", `<path d="M0 0a50,30,30,1,1,60,20"/>`, 189.51705093132},
		{"other large arc", `<path d="M0 0a50 30 30 1060 20"/>`, 189.51705093132},
		{"arc from chord 100 and rise 10", `<path d="M0 0A130 130 0 01100 0"/>`, 102.645691121937994},
		{"arc of no radius is a line", `<path d="M0 0A0 30 30 0 1 60 80"/>`, 100},
		{"arc with radii too small is a half circle", `<path d="M0 0A1 1 0 0 1 60 80"/>`, 50 * math.Pi},
		{"packed arcs", `<path d="M10-20a5 5 0 1120 0a5 5 0 1020 0"/>`, 20 * math.Pi},
		{"turned and shifted", `<g transform="translate(3,4)rotate(90 7 8)"><circle r="10" transform="rotate(33) skewX(0)"/></g>`, 20 * math.Pi},
		{"circle squeezed to an ellipse", `<circle r="10" transform="scale(5 3)"/>`, 10 * perimeter53},
		{"ellipse stretched to a circle", `<ellipse rx="50" ry="30" transform="rotate(20) scale(1 1.6666666666666667)"/>`, 100 * math.Pi},
		{"skew", `<path d="M0 0V30" transform="skewX(45)"/>`, 30 * math.Sqrt2},
		{"skewY", `<path d="M0 0H30" transform="skewY(45)"/>`, 30 * math.Sqrt2},
		{"matrix", `<path d="M0 0L1 1" transform="matrix(3 0,0 4 9 9)"/>`, 5},
		{"group in group", `<g transform="scale(2)"><g transform="translate(5)"><path d="M0 0h7" transform="scale(.5)"/></g></g>`, 7},
		{"use", `<defs><path id="a" d="M0 0h7"/></defs><use href="#a" x="5" y="6" transform="scale(3)"/>`, 21},
		{"use by XLink", `<defs><path id="a" d="M0 0h7"/></defs><use xlink:href="#a"/>`, 7},
		{"symbol", `<symbol id="a" viewBox="10 10 20 20"><path d="M10 10h20"/></symbol><use href="#a" width="60" height="80"/>`, 60},
		{"symbol stretched", `<symbol id="a" viewBox="0 0 20 20" preserveAspectRatio="none"><path d="M0 0v20"/></symbol><use href="#a" width="60" height="80"/>`, 80},
		{"nested svg", `<svg x="5" y="5" width="100" height="50" viewBox="0 0 10 10"><path d="M0 0h10"/></svg>`, 50},
		{"nested svg sliced", `<svg width="100" height="50" viewBox="0 0 10 10" preserveAspectRatio="xMinYMax slice"><path d="M0 0h10"/></svg>`, 100},
		{"percentage", `<line x2="30%" y2="20%"/>`, 20 * math.Sqrt(13)},
		{"switch", `<switch><foreignObject/><path d="M0 0h7"/><path d="M0 0h9"/></switch>`, 7},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			assert.InDelta(t, c.want, one(t, c.svg).Length(), 5e-4)
		})
	}
}

// perimeterOf integrates the perimeter of an ellipse by the trapezium rule,
// which converges faster than any power for a periodic function.
func perimeterOf(a, b float64) float64 {
	const n = 400
	sum := 0.0
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / n)
		sum += math.Hypot(a*s, b*c)
	}
	return sum * 2 * math.Pi / n
}

func TestPlacesAreYUpAndInMillimetres(t *testing.T) {
	d, err := Read(strings.NewReader(`<svg width="20cm" height="300mm" viewBox="-50 20 100 150">
		<path id="p" d="M-50 20L0 95"/></svg>`), Options{})
	require.NoError(t, err)
	n, ok := d.Find("p")
	require.True(t, ok)
	assert.InDelta(t, 0, n.Paths[0].Start().Norm(), 1e-12, "the upper left corner is the origin")
	assert.InDelta(t, 0, n.Paths[0].End().Dist(geom.Pt(100, -150)), 1e-12)
	assert.InDelta(t, 0, d.Place(0, 95).Dist(geom.Pt(100, -150)), 1e-12)
	assert.Equal(t, 2, n.Line)
}

func TestEllipsesLieOnTheirCurve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rx := rapid.Float64Range(0.5, 5000).Draw(t, "rx")
		ry := rapid.Float64Range(0.5, 5000).Draw(t, "ry")
		if math.Max(rx, ry) > 20*math.Min(rx, ry) {
			ry = rx
		}
		p := &pen{arcTol: ArcError}
		p.ellipse(0, 0, rx, ry)
		for _, c := range p.done[0].segs {
			for i := range 33 {
				q := c.At(float64(i) / 32)
				// First-order distance to the ellipse f = 0.
				f := q.X*q.X/(rx*rx) + q.Y*q.Y/(ry*ry) - 1
				g := geom.Pt(2*q.X/(rx*rx), 2*q.Y/(ry*ry)).Norm()
				assert.LessOrEqual(t, math.Abs(f)/g, 1.01*ArcError)
			}
		}
	})
}

// An arc ends where it is told, has the radius it is told, and its four
// variants make up two whole ellipses.
func TestArcVariantsCompleteEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rx := rapid.Float64Range(5, 200).Draw(t, "rx")
		ry := rapid.Float64Range(5, 200).Draw(t, "ry")
		rot := rapid.Float64Range(-400, 400).Draw(t, "rotation")
		to := geom.Pt(rapid.Float64Range(-8, 8).Draw(t, "x"), rapid.Float64Range(0.5, 2).Draw(t, "y"))
		length := func(large, sweep bool) float64 {
			p := &pen{arcTol: 1e-7}
			p.move(geom.Point{})
			p.arc(rx, ry, rot, large, sweep, to)
			require.Equal(t, to, p.at)
			return geom.Must(geom.NewPath(p.segs...)).Length()
		}
		if f := geom.Turn(geom.Angle(-rot)*geom.Degree, geom.Point{}).Vector(to); math.Hypot(f.X/rx, f.Y/ry) > 1.9 {
			t.Skip("the radii would have to be scaled up")
		}
		whole := perimeterOf(rx, ry)
		assert.InDelta(t, whole, length(true, false)+length(false, true), 1e-3)
		assert.InDelta(t, whole, length(true, true)+length(false, false), 1e-3)
	})
}

func TestTransformsAgreeWithThePoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(-400, 400).Draw(t, "angle")
		x, y := rapid.Float64Range(-90, 90).Draw(t, "x"), rapid.Float64Range(-90, 90).Draw(t, "y")
		m, err := parseTransform(fmt.Sprintf("rotate(%v, %v %v)", a, x, y))
		require.NoError(t, err)
		// The same, spelt out as the standard defines it.
		n, err := parseTransform(fmt.Sprintf(" translate(%v,%v) , rotate(%v)translate(%v %v) ", x, y, a, -x, -y))
		require.NoError(t, err)
		p := geom.Pt(rapid.Float64Range(-90, 90).Draw(t, "px"), 3)
		assert.InDelta(t, 0, m.apply(p).Dist(n.apply(p)), 1e-10)
		assert.InDelta(t, 0, m.apply(geom.Pt(x, y)).Dist(geom.Pt(x, y)), 1e-10)
	})
}

func TestNames(t *testing.T) {
	d := draw(t, `<g xmlns:k="urn:any-editor" id="g1" k:label="Bridge 34"><title> whole
		piece </title><path id="p" d="M0 0h5"/></g>`)
	g := d.Nodes[0]
	assert.Equal(t, "Bridge 34", g.Name())
	assert.True(t, g.Named("g1") && g.Named("whole piece") && !g.Named(""))
	assert.Equal(t, "p", g.Children[0].Name())
	n, ok := d.Find("Bridge 34")
	require.True(t, ok)
	assert.Len(t, n.Children, 1)
	d.Walk(func(n Node, around []Node) bool {
		if n.ID == "p" {
			assert.Equal(t, "g1", around[0].ID)
		}
		return true
	})
}

func TestWhatIsLeftOutIsListed(t *testing.T) {
	cases := []struct{ svg, kind, reason string }{
		{`<image href="x.png"/>`, "image", "picture"},
		{`<path d="M0 0h5" display="none"/>`, "path", "display"},
		{`<path d="M0 0h5" style="fill:red; display : none !important"/>`, "path", "display"},
		{`<g visibility="hidden"><path d="M0 0h5"/></g>`, "path", "visibility"},
		{`<style>/* x */ .no, #k { display: none }</style><path class="a no" d="M0 0h5"/>`, "path", "display"},
		{`<style>g > path { display: none }</style><path d="M0 0h5"/>`, "style", "g > path"},
		{`<path style="transform: rotate(3deg)" d="M0 0h5"/>`, "path", "stands in a style"},
		{`<path transform="qwe" d="M0 0h5"/>`, "path", "transform"},
		{`<path transform="rotate(1 2)" d="M0 0h5"/>`, "path", "2 numbers"},
		{`<path transform="scale(0)" d="M0 0h5"/>`, "path", "flattens"},
		{`<path transform-origin="5 5" d="M0 0h5"/>`, "path", "transform-origin"},
		{`<path clip-path="url(#c)" d="M0 0h5"/>`, "path", "taken whole"},
		{`<clipPath id="c"><path d="M0 0h5"/></clipPath>`, "clipPath", "how lines look"},
		{`<linearGradient id="c"/>`, "linearGradient", "how lines look"},
		{`<foreignObject/>`, "foreignObject", "not read"},
		{`<script>x</script>`, "script", "never run"},
		{`<use id="u" href="#u"/>`, "use", "itself"},
		{`<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>`, "use", "itself"},
		{`<use href="#none"/>`, "use", "not there"},
		{`<use href="other.svg#a"/>`, "use", "not in this file"},
		{`<circle r="5em"/>`, "circle", "unit"},
		{`<circle r="-5"/>`, "circle", "negative"},
		{`<circle r="x"/>`, "circle", "not a length"},
		{`<circle/>`, "circle", "no length"},
		{`<path d=""/>`, "path", "no length"},
		{`<path d="M NaN 0 L 5 5"/>`, "path", "a number is wanted at character 3"},
		{`<path d="M 1e99 0 L 5 5"/>`, "path", "out of range"},
		{`<path d="M 1e8 0 L 5 5"/>`, "path", "farther out"},
		{`<path d="L 5 5"/>`, "path", "move"},
		{`<path d="M 0 0 L 5"/>`, "path", "missing at the end"},
		{`<path d="M 0 0 L 5 5,"/>`, "path", "missing at the end"},
		{`<path d="M 0 0 B 5 5"/>`, "path", "command letter"},
		{`<path d="M 0 0 Z 5 5"/>`, "path", "command letter"},
		{`<path d="M 0 0 A 5 5 0 2 1 9 9"/>`, "path", "flag"},
		{`<polyline points="0 0 5 5 5"/>`, "polyline", "without a y"},
		{`<svg viewBox="0 0 0 5"/>`, "svg", "viewBox"},
		{`<svg width="5" height="5" viewBox="0 0 5 5" preserveAspectRatio="mid"/>`, "svg", "preserveAspectRatio"},
	}
	for _, c := range cases {
		d := draw(t, "\n"+c.svg)
		if assert.NotEmpty(t, d.LeftOut, c.svg) {
			l := d.LeftOut[0]
			assert.Equal(t, c.kind, l.Kind, c.svg)
			assert.Contains(t, l.String(), c.reason, c.svg)
			if c.kind != "style" {
				assert.Equal(t, 2, l.Line, c.svg)
			}
		}
	}
}

func TestAFaultLeavesTheShapeOutButTellsWhatCameBefore(t *testing.T) {
	d := draw(t, `<path id="p" d="M0 0L30 40L9#9"/>`)
	assert.Empty(t, d.Nodes)
	require.Len(t, d.LeftOut, 1)
	require.Len(t, d.LeftOut[0].Before, 1)
	assert.InDelta(t, 50, d.LeftOut[0].Before[0].Length(), 1e-12)
	assert.Equal(t, "p", d.LeftOut[0].ID)
}

func TestLabels(t *testing.T) {
	d := draw(t, `<g transform="translate(10 20)"><text id="t" x="5" y="6">cut <tspan>two</tspan></text></g>`)
	require.Len(t, d.Labels, 1)
	assert.Equal(t, "cut two", d.Labels[0].Text)
	assert.InDelta(t, 0, d.Labels[0].At.Dist(geom.Pt(15, -26)), 1e-12)
}

func TestAVisibleChildOfAHiddenGroupIsTaken(t *testing.T) {
	d := draw(t, `<g visibility="hidden"><path d="M0 0h5" visibility="visible"/><path d="M0 0h5"/></g>`)
	assert.Len(t, d.Nodes[0].Children, 1)
	assert.Len(t, d.LeftOut, 1)
}

// Writing is kept as labels, and files of other kinds are told by their kind.
func TestWritingIsALabelAndOtherFilesAreNamed(t *testing.T) {
	d := draw(t, `<text x="5" y="6">cut 2</text>`)
	require.Empty(t, d.LeftOut)
	require.Equal(t, "cut 2", d.Labels[0].Text)
	for begin, kind := range map[string]string{"\x89PNG\r\n": "a picture (PNG)", "%PDF-1.7": "a PDF", "\xff\xd8\xff\xe0": "a picture (JPEG)"} {
		_, err := Read(strings.NewReader(begin+"rest"), Options{})
		require.ErrorContains(t, err, kind)
	}
}
