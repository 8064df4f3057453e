package tool_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

const innerCup = "inner cup"

// grips returns where the tool shows something to be dragged.
func grips(tl tool.Tool) []geom.Point {
	var at []geom.Point
	for _, d := range tl.Overlay().Dots {
		if d.Style == tool.Handle || d.Style == tool.Chosen {
			at = append(at, d.At)
		}
	}
	return at
}

func TestReshapeTheNecklineByItsHandles(t *testing.T) {
	d := tern(t, 0)
	was := d.Pattern().Piece(innerCup).Edge("neckline").Path
	tl := tool.NewReshape(d)
	at := midEdge(t, d, innerCup, "neckline", 0.5)
	press(tl, at)
	release(tl, at)
	require.Empty(t, tl.Proposal())
	require.Len(t, grips(tl), 2*was.Len(), "each cubic has two handles")
	require.NoError(t, tl.Set("start", "free"))
	g := grips(tl)[0]
	to := g.Add(geom.Pt(6, 9))
	press(tl, g)
	drag(tl, to)
	release(tl, to)
	assert.InDelta(t, 0, grips(tl)[0].Dist(to), 1e-9)
	rep := reported(t, d, tl.Proposal()...)
	assert.Greater(t, rep.Figures["moved"], 0.3)
	assert.Contains(t, notes(tl), "mm")
	require.NoError(t, tl.Set("keep", "yes"))
	assert.Contains(t, notes(tl), "length kept")
	accept(t, d, tl)
	assert.InDelta(t, was.Length(), d.Pattern().Piece(innerCup).Edge("neckline").Length(), 1e-6)

	// A seam tells its partner's difference; a kept tangent keeps its direction.
	press(tl, midEdge(t, d, lowerCup, "vertical seam", 0.4))
	release(tl, midEdge(t, d, lowerCup, "vertical seam", 0.4))
	g = grips(tl)[0]
	press(tl, g)
	drag(tl, g.Add(geom.Pt(20, -15)))
	release(tl, g.Add(geom.Pt(20, -15)))
	assert.Contains(t, tl.Hint(), "differ at vertical seam by")
	old := d.Pattern().Piece(lowerCup).Edge("vertical seam").Path.TangentAt(0)
	res, err := d.Try(tl.Proposal()...)
	require.NoError(t, err)
	now := res.Size.Pattern.Piece(lowerCup).Edge("vertical seam").Path.TangentAt(0)
	assert.InDelta(t, 0, float64(geom.Between(old, now)), 1e-9)
}

func TestReshapeByKeysAlone(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewReshape(d)
	choose(t, tl, innerCup, "neckline of "+innerCup)
	before := len(grips(tl))
	require.True(t, tl.Key(tool.Key{Name: tool.Choose}), "adds a knot")
	require.Len(t, grips(tl), before+3)
	rep := reported(t, d, tl.Proposal()...)
	assert.InDelta(t, 0, rep.Figures["moved"], 1e-6, "a knot alone changes nothing")
	require.True(t, tl.Key(tool.Key{Name: tool.Up, Step: 10}))
	s := tl.Proposal()[0].(*step.Reshape)
	rep = reported(t, d, s)
	assert.Greater(t, rep.Figures["moved"], 1.0)
	require.True(t, tl.Key(tool.Key{Name: tool.Next}))
	require.True(t, tl.Key(tool.Key{Name: tool.Previous}))
	require.NoError(t, tl.Set("off", "9"))
	assert.Equal(t, "9 mm", field(t, tl, "off").Text)
	require.True(t, tl.Key(tool.Key{Name: tool.Delete}))
	require.Len(t, grips(tl), before)
	require.NoError(t, tl.Set("knots", "3"))
	assert.Equal(t, "3", field(t, tl, "knots").Text)
	for f, junk := range map[string]string{"keep": "perhaps", "start": "x", "ends": "x", "knots": "-1", "along": "far", "off": "1e9", "from": "4000", "to": "0", "z": "1"} {
		require.Error(t, tl.Set(f, junk), f)
	}
	require.True(t, tl.Reset())
	assert.False(t, tl.Reset())
}

func TestReshapeAPartAndMoveAnEnd(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewReshape(d)
	a, b := midEdge(t, d, "band", "top", 0.3), midEdge(t, d, "band", "top", 0.7)
	press(tl, a)
	drag(tl, a.Lerp(b, 0.5))
	drag(tl, b)
	release(tl, b)
	l := d.Pattern().Piece("band").Edge("top").Length()
	assert.Equal(t, unit.Format(0.3*l, unit.Millimetres), field(t, tl, "from").Text)
	require.NoError(t, tl.Set("knots", "1"))
	middle := midEdge(t, d, "band", "top", 0.5)
	var knot geom.Point
	for _, g := range grips(tl) {
		if knot == (geom.Point{}) || g.Dist(middle) < knot.Dist(middle) {
			knot = g
		}
	}
	press(tl, knot)
	drag(tl, knot.Add(geom.Pt(0, -4)))
	release(tl, knot.Add(geom.Pt(0, -4)))
	s := tl.Proposal()[0].(*step.Reshape)
	require.InDelta(t, 0.3, s.From.Share, 1e-6)
	accept(t, d, tl)
	assert.Empty(t, d.Pattern().Piece("band").Edge("top").Path.Corners(pattern.SmoothTurn))

	// An end that may move takes its neighbours along.
	press(tl, midEdge(t, d, innerCup, "neckline", 0.5))
	release(tl, midEdge(t, d, innerCup, "neckline", 0.5))
	end := spotAt(t, d, pattern.AtEnd(innerCup, "neckline", pattern.End))
	require.NoError(t, tl.Set("ends", "may move"))
	press(tl, end)
	drag(tl, end.Add(geom.Pt(-3, 3)))
	release(tl, end.Add(geom.Pt(-3, 3)))
	accept(t, d, tl)
	assert.InDelta(t, 0, spotAt(t, d, pattern.AtEnd(innerCup, "neckline", pattern.End)).Dist(end.Add(geom.Pt(-3, 3))), 1e-9)

	// Pressing twice adds a knot where it is pressed.
	press(tl, midEdge(t, d, "cradle", "top", 0.5))
	release(tl, midEdge(t, d, "cradle", "top", 0.5))
	n := len(grips(tl))
	tl.Pointer(tool.Event{Act: tool.Double, At: midEdge(t, d, "cradle", "top", 0.4), Reach: 3})
	assert.Len(t, grips(tl), n+3)
}

func TestHowAReshapingIsKeptInOtherSizesIsToldBeforeItIsAccepted(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewReshape(d)
	choose(t, tl, innerCup, "neckline of "+innerCup)
	assert.NotContains(t, tl.Hint(), "In every size", "nothing was drawn yet")
	require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
	require.True(t, tl.Key(tool.Key{Name: tool.Up, Step: 10}))
	e := d.Pattern().Piece(innerCup).Edge("neckline")
	way := e.Path.Start().Dist(e.Path.End())
	assert.Contains(t, tl.Hint(), "In every size it is drawn in proportion to the straight line between its ends, here "+unit.MM(way)+".")

	// A knot lies as many hundredths of that line off it in each size.
	knot := tl.Proposal()[0].(*step.Reshape).Knots[1]
	accept(t, d, tl)
	for _, r := range d.Results() {
		p := r.Size.Pattern.Piece(innerCup).Edge("neckline").Path
		way := p.End().Sub(p.Start())
		at := p.Start().Add(way.Mul(knot.Along)).Add(way.Perp().Mul(knot.Off))
		assert.InDelta(t, 0, p.Nearest(at).Dist, 1e-6, r.Size.Label)
	}
}
