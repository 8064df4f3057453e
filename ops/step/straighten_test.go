package step

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

func TestStraightenFillsAndTrims(t *testing.T) {
	// A hem that dips 10 below the line over the first 60 and rises 5 above it after.
	p := twoBoxes()
	hem := p.Piece("left").Edge("hem")
	hem.Path = geom.Must(geom.Polyline(geom.Pt(0, 0), geom.Pt(30, -10), geom.Pt(60, 0), geom.Pt(80, 5), geom.Pt(100, 0)))
	p.Piece("left").Notches[0].Along = pattern.Along{MM: hem.Length() - 20} // on the last slope

	s := &Straighten{Piece: "left", From: pattern.AtEnd("", "hem", pattern.Start), To: pattern.AtEnd("", "hem", pattern.End)}
	foot := notchAt(t, p, "left", "low").X
	out := applied(t, p, s)
	e := out.Pattern.Piece("left").Edge("hem")
	require.True(t, e.Path.IsStraight())
	assert.Equal(t, pattern.Hem, e.Role)
	assert.Equal(t, 6.35, e.Allowance)
	assert.InDelta(t, 300, out.Figures["trimmed"], 1e-9)
	assert.InDelta(t, 100, out.Figures["filled"], 1e-9)
	assert.InDelta(t, 6000, out.Pattern.Piece("left").Area(), 1e-9)
	assert.InDelta(t, 6000+300-100, p.Piece("left").Area(), 1e-9)
	assert.InDelta(t, foot, notchAt(t, out.Pattern, "left", "low").X, 1e-9, "on a hem the foot of the perpendicular")
	assert.InDelta(t, 0, notchAt(t, out.Pattern, "left", "low").Y, 1e-12)
	assert.Equal(t, p.Seams, out.Pattern.Seams)
	assert.Equal(t, p.Lines, out.Pattern.Lines)
	sameExcept(t, p, out.Pattern, "left.hem")
}

func TestStraightenOverEdgesMakesOne(t *testing.T) {
	p := twoBoxes()
	pc := corners("left", []geom.Point{geom.Pt(0, 0), geom.Pt(50, -6), geom.Pt(100, 0), geom.Pt(100, 60), geom.Pt(0, 60)}, "hem one", "hem two", "side", "top", "front")
	p.Pieces[0] = pc
	p.Lines[0].Parts = []pattern.Part{pattern.Whole("left", "hem one"), pattern.Whole("left", "hem two"), pattern.Whole("right", "hem")}
	zero := Lit(0)
	s := &Straighten{Piece: "left", From: pattern.AtEnd("left", "hem one", pattern.Start), To: pattern.AtEnd("left", "side", pattern.Start), Name: "lower edge", Role: pattern.LaceEdge, Allowance: &zero}
	out := applied(t, p, s)
	e := out.Pattern.Piece("left").Edge("lower edge")
	require.NotNil(t, e)
	assert.Equal(t, pattern.LaceEdge, e.Role)
	assert.Zero(t, e.Allowance)
	assert.InDelta(t, 300, out.Figures["trimmed"], 1e-9)
	assert.Zero(t, out.Figures["filled"])
	assert.Len(t, out.Pattern.Piece("left").Edges, 4)
	assert.Equal(t, []pattern.Part{pattern.Whole("left", "lower edge"), pattern.Whole("right", "hem")}, out.Pattern.Line("hem line").Parts)
	sameExcept(t, p, out.Pattern, "left.hem one", "left.hem two")
	assert.Contains(t, s.Sentence(), "lower edge")
}

func TestStraightenAPartOfAnEdgeKeepsTheRest(t *testing.T) {
	p := twoBoxes()
	hem := p.Piece("left").Edge("hem")
	hem.Path = geom.Must(geom.Polyline(geom.Pt(0, 0), geom.Pt(40, 0), geom.Pt(50, 4), geom.Pt(60, 0), geom.Pt(100, 0)))
	l := hem.Length()
	s := &Straighten{Piece: "left", From: pattern.Spot{Edge: "hem", Along: pattern.Along{MM: 40}}, To: pattern.Spot{Edge: "hem", Along: pattern.Along{From: pattern.End, MM: 40}}}
	assert.Contains(t, refusal(t, p, s), "name")
	s.Name = "gap"
	out := applied(t, p, s)
	pc := out.Pattern.Piece("left")
	require.Equal(t, 6, len(pc.Edges))
	assert.Equal(t, "gap", pc.Edges[1].Name)
	assert.Equal(t, "hem after gap", pc.Edges[2].Name)
	assert.InDelta(t, 40, pc.Edges[0].Length(), 1e-9)
	assert.InDelta(t, 40, pc.Edges[2].Length(), 1e-9)
	assert.InDelta(t, 40, out.Figures["filled"], 1e-9)
	assert.InDelta(t, l-100, p.Length(p.Line("hem line").Parts)-out.Pattern.Length(out.Pattern.Line("hem line").Parts), 1e-9, "all three belong to the line")
	assert.InDelta(t, 30, notchAt(t, out.Pattern, "left", "low").X, 1e-9)
}

func TestStraightenASeamKeepsProportion(t *testing.T) {
	p := twoBoxes()
	side := p.Piece("left").Edge("side")
	side.Path = geom.Must(geom.NewPath(geom.Curve(geom.Pt(100, 0), geom.Pt(120, 5), geom.Pt(100, 40), geom.Pt(100, 60))))
	out := applied(t, p, &Straighten{Piece: "left", From: pattern.AtEnd("left", "side", pattern.Start), To: pattern.AtEnd("left", "side", pattern.End)})
	n := out.Pattern.Piece("left").Notch("mid")
	assert.Equal(t, pattern.Along{Share: 0.5}, n.Along)
	assert.InDelta(t, 0, out.Figures["partner_difference.join"], 1e-9)
	assert.Equal(t, p.Seams, out.Pattern.Seams)
}

func TestStraightenRefusesToCross(t *testing.T) {
	// A front that is hollow so deeply that the chord of the top crosses it.
	p := twoBoxes()
	p.Pieces[0] = corners("left", []geom.Point{geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 60), geom.Pt(60, 100), geom.Pt(50, 20), geom.Pt(0, 60)}, "hem", "side", "a", "b", "c", "front")
	p.Lines = nil
	got := refusal(t, p, &Straighten{Piece: "left", From: pattern.Spot{Edge: "front", Along: pattern.Along{MM: 30}}, To: pattern.AtEnd("left", "a", pattern.Start), Name: "x"})
	assert.Contains(t, got, "b and x of left would cross")
	got = refusal(t, p, &Straighten{Piece: "left", From: pattern.AtEnd("left", "hem", pattern.End), To: pattern.AtEnd("left", "hem", pattern.Start), Name: "x"})
	assert.Contains(t, got, "counter-clockwise")
	got = refusal(t, p, &Straighten{Piece: "left", From: pattern.AtEnd("left", "hem", pattern.End), To: pattern.AtEnd("left", "side", pattern.Start), Name: "x"})
	assert.Contains(t, got, "same place")
	got = refusal(t, p, &Straighten{Piece: "left", From: pattern.AtEnd("right", "hem", pattern.End), To: pattern.AtEnd("left", "side", pattern.Start), Name: "x"})
	assert.Contains(t, got, "left")
	got = refusal(t, p, &Straighten{Piece: "middle"})
	assert.Contains(t, got, `"left"`)
}

func TestStraightenAnyHem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, name := frame(t)
		cradle, hem := name(patterntest.Cradle), name("hem")
		was := p.Piece(cradle)
		out := applied(t, p, &Straighten{Piece: cradle, From: pattern.AtEnd(cradle, hem, pattern.Start), To: pattern.AtEnd(cradle, hem, pattern.End), Role: pattern.LaceEdge})
		is := out.Pattern.Piece(cradle)
		require.InDelta(t, is.Area()-was.Area(), out.Figures["filled"]-out.Figures["trimmed"], 1e-6)
		require.True(t, is.Edge(hem).Path.IsStraight())
		require.Len(t, out.Pattern.Lines, len(p.Lines))
		require.Len(t, out.Pattern.Seams, len(p.Seams))
		sameExcept(t, p, out.Pattern, cradle+"."+hem)
	})
}
