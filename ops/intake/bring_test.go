package intake

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/intake/svg"
	"truemat/ops/pattern"
)

const page = `<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="400mm" viewBox="0 0 400 400">`

func bring(t testing.TB, inner, text string) (Result, error) {
	t.Helper()
	var c *Companion
	if text != "" {
		c = companion(t, text)
	}
	return Bring(strings.NewReader(page+inner+`</svg>`), c, Options{})
}

func piece(t testing.TB, res Result, name string) *pattern.Piece {
	t.Helper()
	pc := res.Run.Sizes[0].Pattern.Piece(name)
	require.NotNil(t, pc)
	return pc
}

func TestAGroupBecomesAPiece(t *testing.T) {
	res, err := bring(t, `<g id="front"><path d="M10 20V120H70V20Z"/><path id="dart" d="M30 60h20"/>
		<path id="mid" d="M70 70h-5"/></g>`, "")
	require.NoError(t, err)
	assert.Equal(t, []string{OneSize}, res.Run.Labels())
	pc := piece(t, res, "front")
	require.Len(t, pc.Edges, 4)
	var lengths []float64
	for _, e := range pc.Edges {
		lengths = append(lengths, math.Round(e.Length()*1e9)/1e9)
		assert.True(t, e.Path.IsStraight())
	}
	// Counter-clockwise from the top left: down, along the bottom, up, back.
	assert.Equal(t, []float64{100, 60, 100, 60}, lengths)
	assert.Equal(t, []string{"edge-1", "edge-2", "edge-3", "edge-4"}, edgeNames(pc))
	assert.InDelta(t, 0, pc.Edges[0].Path.End().Norm(), 1e-9, "the lower left is the origin")
	assert.InDelta(t, 6000, pc.Area(), 1e-9)
	require.Len(t, pc.Inner, 1)
	assert.Equal(t, "dart", pc.Inner[0].Name)
	require.Len(t, pc.Notches, 1)
	assert.Equal(t, "mid", pc.Notches[0].Name)
	assert.Equal(t, "edge-3", pc.Notches[0].Edge)
	assert.InDelta(t, 50, pc.Notches[0].At(100), 1e-9)
	assert.Zero(t, pc.Edges[0].Allowance)
	assert.False(t, res.Pieces[0].Drawn)
}

func TestPiecesAreFoundWithoutACompanion(t *testing.T) {
	square := func(x, y int) string { return fmt.Sprintf(`<path d="M%d %dh50v50h-50z"/>`, x, y) }
	cases := []struct {
		name, svg string
		want      []string
	}{
		{"shapes side by side", square(0, 0) + square(60, 0), []string{"piece", "piece 2"}},
		{"groups", `<g id="a">` + square(0, 0) + `</g><g id="b">` + square(60, 0) + `</g>`, []string{"a", "b"}},
		{"groups in a layer", `<g id="l"><g id="a">` + square(0, 0) + `</g><g id="b">` + square(60, 0) + `</g></g>`, []string{"a", "b"}},
		{"a piece in a layer", `<g id="l"><g id="a">` + square(0, 0) + `<circle cx="20" cy="20" r="5"/></g></g>`, []string{"l"}},
		{"a spot beside it", `<g id="a">` + square(0, 0) + `</g><circle cx="90" cy="9" r="1"/><path id="x" d="M80 0h9"/><g id="b"><path d="M0 90h9"/></g>`, []string{"a"}},
		{"copies", `<g id="a">` + square(0, 0) + `</g><use id="b" href="#a" x="70"/>`, []string{"a", "b"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			res, err := bring(t, c.svg, "")
			require.NoError(t, err)
			var names []string
			for _, pc := range res.Run.Sizes[0].Pattern.Pieces {
				names = append(names, pc.Name)
				assert.InDelta(t, 2500, pc.Area(), 1e-9)
			}
			assert.Equal(t, c.want, names)
		})
	}
}

func TestOpenLinesMakeAnOutline(t *testing.T) {
	res, err := bring(t, `<g id="a"><path d="M0 0h50"/><path d="M50.03 0.02v40"/><path d="M0 0v40"/><path d="M0 40.01L50 40"/>
		<path d="M25 -2v5"/></g>`, "")
	require.NoError(t, err)
	pc := piece(t, res, "a")
	assert.Len(t, pc.Edges, 4)
	assert.Len(t, pc.Notches, 1)
	assert.InDelta(t, math.Hypot(0.03, 0.02), res.Pieces[0].Gap, 1e-9)
	assert.Contains(t, strings.Join(res.Notes, "\n"), "gaps of up to 0.036 mm")

	_, err = bring(t, `<g id="a"><path d="M0 0h50"/><path d="M50.3 0v40L0 0"/></g>`, "piece a")
	assert.ErrorContains(t, err, "the ends of its lines are 0.30 mm apart")
}

func TestEdgesByOrderAndByPlace(t *testing.T) {
	shape := `<g id="a"><path d="M10 20V120H70V20Z"/></g>`
	for _, text := range []string{
		"piece a\nedges from top-left: l b r t",
		"piece a\nedges clockwise from top-left: t r b l",
		"piece a\nedges from bottom-right: r t l b",
		"piece a\nedges from near 71 121: r t l b",
		"piece a\nedges clockwise from near 100% 100%: b l t r",
		"piece a\nedge l near 10 70\nedge r near 70 70\nedge t near 40 20\nedge b near 50% 100%",
	} {
		res, err := bring(t, shape, text)
		require.NoError(t, err, text)
		pc := piece(t, res, "a")
		assert.InDelta(t, 60, pc.Edge("b").Length(), 1e-9, text)
		assert.InDelta(t, 0, pc.Edge("b").Path.Start().Norm(), 1e-9, text)
		assert.InDelta(t, 0, pc.Edge("l").Path.End().Norm(), 1e-9, text)
		assert.InDelta(t, 0, pc.Edge("t").Path.Start().Dist(geom.Pt(60, 100)), 1e-9, text)
		assert.InDelta(t, 0, pc.Edge("r").Path.Start().Dist(geom.Pt(60, 0)), 1e-9, text)
	}
	// Some named, the others counted.
	res, err := bring(t, shape, "piece a\nedge b near 40 120 role hem")
	require.NoError(t, err)
	assert.Equal(t, []string{"edge-1", "b", "edge-2", "edge-3"}, edgeNames(piece(t, res, "a")))
	assert.True(t, piece(t, res, "a").Edge("edge-1").Free, "nothing is said of it")
}

func TestJointsCanBeAddedAndTakenAway(t *testing.T) {
	shape := `<g id="a"><path d="M10 20V120H70V20Z"/></g>`
	res, err := bring(t, shape, "piece a\njoint near 10 60\nsmooth near 70 20\nedges from top-left: l1 l2 b rt")
	require.NoError(t, err)
	pc := piece(t, res, "a")
	assert.InDelta(t, 40, pc.Edge("l1").Length(), 1e-9)
	assert.InDelta(t, 60, pc.Edge("l2").Length(), 1e-9)
	assert.InDelta(t, 160, pc.Edge("rt").Length(), 1e-9)

	_, err = bring(t, shape, "piece a\njoint near 10 20.2")
	assert.ErrorContains(t, err, "there is a joint already")

	// A circle has no corner and still gets two edges.
	res, err = bring(t, `<circle id="c" cx="50" cy="50" r="40"/>`, "")
	require.NoError(t, err)
	require.Len(t, piece(t, res, "c").Edges, 2)
	assert.InDelta(t, 40*math.Pi, piece(t, res, "c").Edges[0].Length(), 1e-3)
}

func TestTheLimitOfACornerCanBeSet(t *testing.T) {
	// A twelve-sided shape turns 30 degrees at each corner.
	var pts []string
	for i := range 12 {
		p := geom.Angle(float64(i) * math.Pi / 6).Unit().Mul(50)
		pts = append(pts, fmt.Sprintf("%.4f,%.4f", 60+p.X, 60+p.Y))
	}
	in := page + `<polygon id="a" points="` + strings.Join(pts, " ") + `"/></svg>`
	for _, c := range []struct {
		opt   Options
		text  string
		edges int
	}{
		{Options{}, "piece a", 12},
		{Options{Corner: 40 * geom.Degree}, "piece a", 2},
		{Options{}, "corners 40\npiece a", 2},
		{Options{Corner: 40 * geom.Degree}, "piece a\ncorners 20", 12},
	} {
		res, err := Bring(strings.NewReader(in), companion(t, c.text), c.opt)
		require.NoError(t, err)
		assert.Len(t, piece(t, res, "a").Edges, c.edges)
	}
}

func TestARightHandIsTurnedOver(t *testing.T) {
	_, err := bring(t, `<path id="a" d="M10 20V120H70L40 20Z"/>`, "piece a\nhand right\nedge slope near 55 70\nedges from top-left: top slope base side")
	require.ErrorContains(t, err, `is "top" already`, "the slope comes first once turned over")
	res, err := bring(t, `<path id="a" d="M10 20V120H70L40 20Z"/>`, "piece a\nhand right\nedge slope near 55 70")
	require.NoError(t, err)
	pc := piece(t, res, "a")
	assert.InDelta(t, 0, pc.Edge("slope").Path.End().Norm(), 1e-9, "it ends at the lower left")
	assert.InDelta(t, 0, pc.Edge("slope").Path.Start().Dist(geom.Pt(30, 100)), 1e-9)
}

func TestCutLinesComeInBySewLines(t *testing.T) {
	text := "piece a\nedges from top-left: l b r t\nedge b allow 20mm\nedge l role fold"
	in := page + `<g id="a"><path d="M10 20V120H70V20Z"/><path d="M68 60h4"/></g></svg>`
	check := func(res Result, err error) {
		t.Helper()
		require.NoError(t, err)
		pc := piece(t, res, "a")
		assert.InDelta(t, 70, pc.Edge("l").Length(), 1e-9) // 100 − 20 − 10
		assert.InDelta(t, 50, pc.Edge("b").Length(), 1e-9) // 60 − 10
		assert.Zero(t, pc.Edge("l").Allowance)
		assert.InDelta(t, 10, pc.Edge("t").Allowance, 1e-12)
		assert.InDelta(t, 20, pc.Edge("b").Allowance, 1e-12)
		assert.True(t, res.Pieces[0].Drawn)
		assert.InDelta(t, 0, res.Pieces[0].CutError, 1e-9)
		// Drawn 60 above the drawn bottom, which is 40 above the sew line's.
		assert.InDelta(t, 40, pc.Notches[0].At(70), 1e-9)
		area, err := pc.CutArea()
		require.NoError(t, err)
		assert.InDelta(t, 6000, area, 1e-6)
	}
	check(Bring(strings.NewReader(in), companion(t, text), Options{Allowance: 10}))
	check(Bring(strings.NewReader(in), companion(t, "allowance 1cm\n"+text), Options{}))
	check(Bring(strings.NewReader(in), companion(t, "allowance 1cm\ndrawn cut line\n"+text), Options{}))
	check(Bring(strings.NewReader(in), companion(t, "drawn cut\n"+text+"\nedge t allow 10mm\nedge r allow 10mm"), Options{}))

	res, err := Bring(strings.NewReader(in), companion(t, "allowance 1cm\ndrawn sew line\n"+text), Options{})
	require.NoError(t, err)
	assert.InDelta(t, 100, piece(t, res, "a").Edge("l").Length(), 1e-9)
	assert.InDelta(t, 10, piece(t, res, "a").Edge("t").Allowance, 1e-12)

	_, err = Bring(strings.NewReader(in), companion(t, text), Options{Allowance: 70})
	assert.ErrorContains(t, err, "no sew line fits")
}

func TestAShapedCornerOfTheCutLine(t *testing.T) {
	// The corner at the upper right is cut off blunt, 10 mm from the sew line's.
	res, err := bring(t, `<path id="a" d="M0 0V100H100V10L90 0Z"/>`, "allowance 1cm\npiece a\nsmooth near 90 0\nedges from bottom-left: b r t l\ncorner r t: blunt")
	require.NoError(t, err)
	pc := piece(t, res, "a")
	for _, e := range pc.Edges {
		assert.InDelta(t, 80, e.Length(), 1e-6, e.Name)
	}
	assert.InDelta(t, 0, res.Pieces[0].CutError, 1e-6)
	assert.False(t, res.Pieces[0].Arrow, "none is drawn")

	// A drawing that does not fit its allowances is told.
	res, err = bring(t, `<path id="a" d="M0 0V100H100V5A5 5 0 0 0 95 0Z"/>`, "allowance 1cm\npiece a")
	require.NoError(t, err)
	assert.InDelta(t, 5*(math.Sqrt2-1), res.Pieces[0].CutError, 0.05, "the rounded corner is narrower than its allowance")
	assert.Contains(t, strings.Join(res.Notes, "\n"), "look at their widths")
}

func TestWhatBelongsToNoPieceIsNoted(t *testing.T) {
	res, err := bring(t, `<g id="a"><path d="M0 0h50v50h-50z"/><path id="far" d="M300 300h9"/></g><path id="x" d="M80 0h9"/><g id="b"><path d="M0 90h9"/></g>`, "")
	require.NoError(t, err)
	notes := strings.Join(res.Notes, "\n")
	assert.Contains(t, notes, `"far" lies outside the piece`)
	assert.Contains(t, notes, `left out: 1, the first named "x"`)
	assert.Contains(t, notes, `group "b" has no closed outline`)

	res, err = bring(t, `<g id="a"><path d="M0 0h50v50h-50z"/></g><g id="b"><path d="M90 0h50v50h-50z"/></g>`, "piece a")
	require.NoError(t, err)
	assert.Contains(t, strings.Join(res.Notes, "\n"), `"b" is not mentioned in the companion`)
}

func TestNotches(t *testing.T) {
	square := `<path d="M0 0V100H100V0Z"/>`
	cases := []struct {
		name, svg string
		count     int
		double    bool
	}{
		{"across", `<path d="M-2 50h6"/>`, 1, false},
		{"from the edge inwards", `<path d="M0 50h5"/>`, 1, false},
		{"nearly touching", `<path d="M0.3 50h5"/>`, 1, false},
		{"too far in", `<path d="M1 50h5"/>`, 0, false},
		{"slanted", `<path d="M-2 48L3 52"/>`, 1, false},
		{"along the edge", `<path d="M0.2 40v12"/>`, 0, false},
		{"too long", `<path d="M0 50h25"/>`, 0, false},
		{"double", `<path d="M0 48h5"/><path d="M0 52h5"/>`, 1, true},
		{"double in one path", `<path d="M0 48h5M0 52h5"/>`, 1, true},
		{"drawn twice", `<path d="M0 50h5"/><path d="M0 50h5"/>`, 1, false},
		{"V", `<path d="M0 48l4 2l-4 2"/>`, 1, false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			res, err := bring(t, `<g id="a">`+square+c.svg+`</g>`, "piece a\nedges from top-left: l b r t")
			require.NoError(t, err)
			pc := piece(t, res, "a")
			require.Len(t, pc.Notches, c.count)
			for _, n := range pc.Notches {
				assert.Equal(t, "l", n.Edge)
				assert.InDelta(t, 50, n.At(100), 0.41)
				assert.Equal(t, c.double, n.Double)
			}
		})
	}
}

func TestWhatWasDrawnTwiceCountsOnce(t *testing.T) {
	res, err := bring(t, `<g id="a"><path d="M0 0V100H100V0Z"/><path d="M0 0V100H100V0Z"/><path d="M0 20V80"/></g>`, "")
	require.NoError(t, err)
	assert.Empty(t, piece(t, res, "a").Inner)
}

func TestTracesOfTheDrawingProgramAreTidied(t *testing.T) {
	// A side in three pieces, a curve that is straight, a closing stub.
	res, err := bring(t, `<path id="a" d="M0 0V30V60V100C30 100 60 100 100 100L100 0L0.004 0.003Z"/>`, "")
	require.NoError(t, err)
	pc := piece(t, res, "a")
	require.Len(t, pc.Edges, 4)
	for _, e := range pc.Edges {
		assert.True(t, e.Path.IsStraight(), e.Name)
		assert.InDelta(t, 100, e.Length(), 0.01)
	}
}

func TestWrongDrawingsAreRefused(t *testing.T) {
	square := `<path d="M0 0V50H50V0Z"/>`
	cases := []struct{ name, svg, text, want string }{
		{"nothing", ``, "", "no lines that can be used"},
		{"only writing", `<text>a</text>`, "", "no lines that can be used"},
		{"numbers that are none", `<path id="p" d="M0 0L NaN 5L5 5Z"/>`, "", `path "p"`},
		{"only open lines", `<path d="M0 0h50v50"/>`, "", "no closed outline"},
		{"an open piece", `<g id="a"><path d="M0 0h50v50"/></g>`, "piece a", `piece "a": it has no closed outline`},
		{"a figure of eight without area", `<path id="a" d="M10 10L100 100L100 10L10 100Z"/>`, "", "crosses itself, first at (55.0, 55.0)"},
		{"crossing itself", `<path id="a" d="M0 0L50 50L50 0L0 40Z"/>`, "", "crosses itself, first at (22.2, 22.2)"},
		{"no such piece", `<g id="front">` + square + `</g>`, "piece back", `no group or shape "back"; it has "front"`},
		{"two of that name", `<g id="a">` + square + `</g><g id="b"><title>a</title>` + square + `</g>`, "piece a", "2 groups or shapes"},
		{"one for two pieces", `<g id="a">` + square + `</g>`, "piece a\npiece b from a", "the same group"},
		{"no such size", `<g id="a">` + square + `</g>`, "size S in small", `no group or shape "small"`},
		{"not in that size", `<g id="s"/><g id="a">` + square + `</g>`, "size S in s\npiece a", `in the group of size "S"`},
		{"no such edge", `<g id="a">` + square + `</g>`, "piece a\nedge hem role hem", `no edge "hem"; it has "edge-1"`},
		{"too few edges named", `<g id="a">` + square + `</g>`, "piece a\nedges from top: a b", "names 2 edges, but the outline has 4"},
		{"edge named twice", `<g id="a">` + square + `</g>`, "piece a\nedge e near 0 20\nedge f near 0 30", `is "e" already`},
		{"no such seam edge", `<g id="a">` + square + `</g>`, "piece a\nseam s: x of a = y of a", `companion line 2: piece "a" has no edge "x"`},
		{"no such seam piece", `<g id="a">` + square + `</g>`, "piece a\nseam s: x of b = y of a", `no piece "b"; there are "a"`},
		{"no such corner", `<g id="a">` + square + `</g>`, "piece a\ncorner edge-1 x: blunt", `no edge "x"`},
		{"not a corner", `<g id="a">` + square + `</g>`, "piece a\ncorner edge-1 edge-3: blunt", "do not meet"},
		{"curved fold", `<path id="a" d="M0 0C-9 20 9 40 0 60H40Z"/>`, "piece a\nedge f near 0 30 role fold", "on the fold but is not one straight line"},
		{"no such notch", `<g id="a">` + square + `</g>`, "piece a\nnotches on edge-1: n", "1 notches on \"edge-1\", but 0 were drawn"},
		{"notch edge", `<g id="a">` + square + `</g>`, "piece a\nnotch n on x at 5mm", `no edge "x"`},
		{"notch off the edge", `<g id="a">` + square + `</g>`, "piece a\nnotch n on edge-1 at 90mm", "lies off"},
		{"no such arrow", `<g id="a">` + square + `</g>`, "piece a\narrow grain along x", `no line "x"`},
		{"sizes that differ", `<g id="s"><path id="a" d="M0 0V50H50V0Z"/></g><g id="m"><path id="b" d="M0 0V50H50Z"/></g>`, "size S in s\nsize M in m\npiece p from a in S, b in M", "all sizes need the same"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			res, err := bring(t, c.svg, c.text)
			assert.ErrorContains(t, err, c.want)
			assert.Empty(t, res.Run.Sizes)
		})
	}
	_, err := Bring(strings.NewReader(page+square+`</svg>`), nil, Options{Allowance: -3})
	assert.ErrorContains(t, err, "allowance")
	_, err = Bring(strings.NewReader(`<svg>`+square+`</svg>`), nil, Options{})
	assert.ErrorIs(t, err, svg.ErrNoSize)
	res, err := Bring(strings.NewReader(`<svg>`+square+`</svg>`), companion(t, "unit 2mm"), Options{})
	require.NoError(t, err)
	assert.InDelta(t, 1e4, res.Run.Sizes[0].Pattern.Pieces[0].Area(), 1e-6)
}

// Any outline that is drawn comes in with the lengths it has, however the
// drawing nests and turns it.
func TestLengthsSurviveAnyTransform(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		turn := rapid.Float64Range(-180, 180).Draw(t, "turn")
		scale := rapid.Float64Range(0.2, 5).Draw(t, "scale")
		n := rapid.IntRange(3, 7).Draw(t, "corners")
		var d strings.Builder
		want := 0.0
		var first, last geom.Point
		for i := range n {
			r := rapid.Float64Range(30, 60).Draw(t, "radius")
			p := geom.Angle(2 * math.Pi * float64(i) / float64(n)).Unit().Mul(r)
			if i == 0 {
				first = p
				fmt.Fprintf(&d, "M%v %v", p.X/scale, p.Y/scale)
			} else {
				want += p.Dist(last)
				fmt.Fprintf(&d, "L%v %v", p.X/scale, p.Y/scale)
			}
			last = p
		}
		want += last.Dist(first)
		inner := fmt.Sprintf(`<g id="a" transform="translate(90 %v) rotate(%v)"><g transform="scale(%v)"><path d="%sz"/></g></g>`, turn, turn, scale, d.String())
		res, err := Bring(strings.NewReader(page+inner+`</svg>`), nil, Options{Corner: 0.5 * geom.Degree})
		require.NoError(t, err)
		sum := 0.0
		for _, e := range res.Run.Sizes[0].Pattern.Pieces[0].Edges {
			sum += e.Length()
		}
		assert.InDelta(t, want, sum, 0.02)
	})
}
