package tool_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

var (
	neckCorner = pattern.AtEnd("inner cup", "wire", pattern.Start)
	aboveApex  = pattern.AtNotch("inner cup", "above apex")
)

func TestShearsCutTheNecklineStraight(t *testing.T) {
	for _, turned := range []bool{false, true} {
		d := tern(t, 13)
		want := reported(t, d, demo.TernInLace()[13].Step)
		a, b := spotAt(t, d, neckCorner), spotAt(t, d, aboveApex)
		if turned {
			a, b = b, a
		}
		tl := tool.NewShears(d)
		press(tl, a.Add(geom.Pt(0.4, -0.4)))
		release(tl, a)
		require.Empty(t, tl.Proposal())
		press(tl, b.Add(geom.Pt(-0.4, 0.4)))
		release(tl, b)
		wire := spotAt(t, d, pattern.AtEnd("inner cup", "wire", pattern.End))
		press(tl, wire.Lerp(a.Lerp(b, 0.5), 0.2)) // well inside what is to stay
		assert.Equal(t, "the larger part", field(t, tl, "keep").Text)
		require.NoError(t, tl.Set("name", "lace edge"))
		require.NoError(t, tl.Set("role", "lace-edge"))
		require.NoError(t, tl.Set("rest", "turned edge"))
		require.NoError(t, tl.Set("notch", "above apex"))
		assert.Equal(t, "turned back", field(t, tl, "rest role").Text)
		assert.Contains(t, tl.Hint(), "turned edge")
		assert.Contains(t, tl.Hint(), "no longer sewn")
		assert.Contains(t, notes(tl), "turned edge: ")
		got := reported(t, d, tl.Proposal()...)
		for k, v := range want.Figures {
			assert.InDelta(t, v, got.Figures[k], 1e-6, k)
		}
		accept(t, d, tl)
		sameAs(t, d, 14)
	}
}

func TestShearsKeepThePartThatIsPressed(t *testing.T) {
	d := tern(t, 13)
	a, b := spotAt(t, d, neckCorner), spotAt(t, d, aboveApex)
	tl := tool.NewShears(d)
	press(tl, a)
	drag(tl, a.Lerp(b, 0.5))
	drag(tl, b)
	release(tl, b)
	require.Len(t, tl.Proposal(), 1)
	top := spotAt(t, d, pattern.AtEnd("inner cup", "neckline", pattern.Start))
	press(tl, top.Lerp(a.Lerp(b, 0.5), 0.6))
	assert.Equal(t, "the smaller part", field(t, tl, "keep").Text)
	res, err := d.Try(tl.Proposal()...)
	require.NoError(t, err)
	small := res.Size.Pattern.Piece("inner cup").Area()
	require.NoError(t, tl.Set("keep", "the larger part"))
	res, err = d.Try(tl.Proposal()...)
	require.NoError(t, err)
	assert.InDelta(t, d.Pattern().Piece("inner cup").Area(), small+res.Size.Pattern.Piece("inner cup").Area(), 1e-3)

	// hollow by a quarter of an inch: less is kept by two thirds of the chord times the rise
	straight := res.Size.Pattern.Piece("inner cup").Area()
	require.NoError(t, tl.Set("bulge", "-1/4"))
	res, err = d.Try(tl.Proposal()...)
	require.NoError(t, err)
	assert.InDelta(t, straight-2.0/3*6.35*a.Dist(b), res.Size.Pattern.Piece("inner cup").Area(), 1e-3)
	require.True(t, tl.Key(tool.Key{Name: tool.Up, Step: 1}))
	assert.Equal(t, "-5.35 mm", field(t, tl, "bulge").Text)

	for f, junk := range map[string]string{"name": "wire", "role": "door", "allowance": "300", "bulge": "x", "keep": "it", "rest": " ", "notch": "", "rest role": "fold", "from": "-1", "y": "1"} {
		require.Error(t, tl.Set(f, junk), f)
	}
	require.True(t, tl.Reset())
	assert.Empty(t, tl.Proposal())
	assert.Empty(t, tl.Overlay())
	assert.False(t, tl.Reset())
}

// What becomes of the partner's old notches is told before, and they can stay.
func TestShearsSayWhichOldNotchesGo(t *testing.T) {
	d := tern(t, 13)
	tl := tool.NewShears(d)
	choose(t, tl, "inner cup", "corner of neckline and wire of inner cup", "notch above apex of inner cup")
	require.NoError(t, tl.Set("notch", "lace end"))
	assert.Contains(t, notes(tl), "above apex goes")
	require.NoError(t, tl.Set("old notches", "stay"))
	assert.NotContains(t, notes(tl), "above apex goes")
	require.Error(t, tl.Set("old notches", "some"))
	accept(t, d, tl)
	kept := 0
	for _, pc := range d.Pattern().Pieces {
		if pc.Name != "inner cup" && pc.Notch("above apex") != nil {
			kept++
		}
	}
	assert.Equal(t, 1, kept)
	require.True(t, d.Undo())
}

func TestShearsByKeysAlone(t *testing.T) {
	d := tern(t, 13)
	tl := tool.NewShears(d)
	choose(t, tl, "inner cup", "corner of neckline and wire of inner cup", "notch above apex of inner cup")
	s, ok := tl.Proposal()[0].(*step.CutOff)
	require.True(t, ok)
	assert.Equal(t, neckCorner, s.From)
	assert.Equal(t, aboveApex, s.To)
	require.NoError(t, tl.Set("name", "lace edge"))
	require.NoError(t, tl.Set("role", "lace-edge"))
	require.NoError(t, tl.Set("rest", "turned edge"))
	require.NoError(t, tl.Set("notch", "above apex"))
	accept(t, d, tl)
	sameAs(t, d, 14)
}

func TestShearsSayWhyACutCannotBe(t *testing.T) {
	d := tern(t, 13)
	tl := tool.NewShears(d)
	press(tl, spotAt(t, d, pattern.AtEnd("band", "hem", pattern.Start)))
	press(tl, spotAt(t, d, pattern.AtEnd("band", "hem", pattern.End)))
	assert.Contains(t, tl.Hint(), "nothing to cut off")
	require.Error(t, d.Accept(tl.Proposal()...))
	look(t, tl)
}

func TestShearsCurveTheCutByItsHandles(t *testing.T) {
	d := tern(t, 13)
	a, b := spotAt(t, d, neckCorner), spotAt(t, d, aboveApex)
	tl := tool.NewShears(d)
	press(tl, a)
	release(tl, a)
	press(tl, b)
	release(tl, b)
	area := func() float64 {
		res, err := d.Try(tl.Proposal()...)
		require.NoError(t, err, tl.Hint())
		return res.Size.Pattern.Piece("inner cup").Area()
	}
	straight, m := area(), a.Lerp(b, 0.5)
	// Towards the wire edge is into what is kept: hollow by 5.
	wire := spotAt(t, d, pattern.AtEnd("inner cup", "wire", pattern.End))
	in := b.Sub(a).Unit().Perp()
	if in.Dot(wire.Sub(a)) < 0 {
		in = in.Mul(-1)
	}
	press(tl, m)
	drag(tl, m.Add(in.Mul(5)))
	release(tl, m.Add(in.Mul(5)))
	assert.Equal(t, "-5 mm", field(t, tl, "bulge").Text)
	assert.InDelta(t, straight-2.0/3*5*a.Dist(b), area(), 1e-3)
	assert.NotNil(t, tl.Proposal()[0].(*step.CutOff).Bulge)

	// A handle at an end, outward past the straight line and back: an S.
	h := a.Lerp(b, 1.0/3).Add(in.Mul(20.0 / 3))
	press(tl, h)
	to := a.Lerp(b, 0.3).Add(in.Mul(-2))
	drag(tl, to)
	release(tl, to)
	from, arrives := field(t, tl, "lean from").Text, field(t, tl, "lean to").Text
	assert.NotContains(t, from, "-")
	assert.Contains(t, arrives, "-")
	curved := area()
	// What is kept may change sides; the cut stays where it is.
	top := spotAt(t, d, pattern.AtEnd("inner cup", "neckline", pattern.Start))
	press(tl, top.Lerp(m, 0.4))
	assert.InDelta(t, d.Pattern().Piece("inner cup").Area(), area()+curved, 1e-6)
	require.NoError(t, tl.Set("keep", "the larger part"))
	assert.InDelta(t, curved, area(), 1e-9)
	assert.Equal(t, from, field(t, tl, "lean from").Text)

	// Typed: square to the wire edge, then straight on.
	require.NoError(t, tl.Set("lean to", "0"))
	require.NoError(t, tl.Set("lean from", "3.5"))
	s := tl.Proposal()[0].(*step.CutOff)
	assert.Equal(t, step.Lit(3.5), s.Curve.From.Degrees)
	assert.Contains(t, s.Sentence(), "sets out at 3.5 degrees")
	require.Error(t, tl.Set("lean from", "around"))
	require.Error(t, tl.Set("lean to", "175"))
	require.True(t, tl.Key(tool.Key{Name: tool.Delete}))
	assert.InDelta(t, straight, area(), 1e-9)

	// The neckline in one go: lace edge, curved a little, one undo.
	require.NoError(t, tl.Set("role", "lace-edge"))
	require.NoError(t, tl.Set("bulge", "1"))
	n := len(d.Document().Recipe)
	accept(t, d, tl)
	assert.Len(t, d.Document().Recipe, n+1)
	require.True(t, d.Undo())
	assert.Len(t, d.Document().Recipe, n)
}
