package step

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
)

// across cuts the left box from 20 up its front to 20 up its side.
func acrossTheBox() *CutOff {
	return &CutOff{
		Piece: "left", Keep: "right", Name: "cut", Role: pattern.Hem,
		From: pattern.Spot{Edge: "front", Along: pattern.Along{From: pattern.End, MM: 20}},
		To:   pattern.Spot{Edge: "side", Along: pattern.Along{MM: 20}},
	}
}

func lean(degrees, reach float64) Lean { return Lean{Degrees: Lit(degrees + 0), Reach: reach} }

func TestCutOffAlongAFreeCurve(t *testing.T) {
	p := twoBoxes()
	// Straight: 100 × 20 is kept.
	c := acrossTheBox()
	assert.InDelta(t, 2000, applied(t, p, c).Pattern.Piece("left").Area(), 1e-9)

	// Area under the Bézier (0, 0) (a, u) (b, v) (l, 0), the integral of y dx:
	// 3/20 (u (l + b) + v (2l − a)). An S that is alike at both ends has none.
	for _, s := range []struct{ from, to Lean }{
		{lean(30, 0.4), lean(-30, 0.4)}, {lean(-50, 0), lean(50, 0)}, {lean(20, 0.3), lean(20, 0.3)}, {lean(-10, 0.5), lean(-25, 0.2)}, {lean(0, 0), lean(15, 0)},
	} {
		c.Curve = &Curve{From: s.from, To: s.to}
		out := applied(t, p, c)
		handle := func(l Lean) (along, up float64) {
			if l.Reach == 0 {
				l.Reach = 1.0 / 3
			}
			sin, cos := math.Sincos(float64(geom.Angle(l.Degrees.value) * geom.Degree))
			return 100 * l.Reach * cos, 100 * l.Reach * sin
		}
		ax, ay := handle(s.from)
		bx, by := handle(s.to)
		bx = 100 - bx
		between := 3.0 / 20 * (ay*(bx+100) + by*(200-ax))
		assert.InDelta(t, 2000+between, out.Pattern.Piece("left").Area(), 1e-6)
		assert.InDelta(t, 6000-2000-between, out.Figures["trimmed"], 1e-6)

		// The other side kept, seen the other way round: outward is inward.
		d := *c
		d.Keep = "left"
		d.Curve = &Curve{From: Lean{Degrees: Lit(0 - s.from.Degrees.value), Reach: s.from.Reach}, To: Lean{Degrees: Lit(0 - s.to.Degrees.value), Reach: s.to.Reach}}
		assert.InDelta(t, 4000-between, applied(t, p, &d).Pattern.Piece("left").Area(), 1e-6)
	}
}

func TestCutOffArrivesSquare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := twoBoxes()
		c := acrossTheBox()
		c.Keep = rapid.SampledFrom([]string{"left", "right"}).Draw(t, "keep")
		c.To.MM = rapid.Float64Range(10, 50).Draw(t, "up")
		c.Curve = &Curve{From: Lean{Square: true}, To: Lean{Square: true, Reach: 0.3}}
		out := applied(t, p, c)
		cut := out.Pattern.Piece("left").Edge("cut").Path
		// Front and side are upright.
		require.InDelta(t, 0, cut.TangentAt(0).Y, 1e-9)
		require.InDelta(t, 0, cut.TangentBefore(cut.Length()).Y, 1e-9)
	})
}

func TestALineThatLeavesThePieceIsRefused(t *testing.T) {
	// A comb with two gaps: teeth at 0–20, 40–60 and 80–100.
	comb := corners("comb", []geom.Point{
		geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 60), geom.Pt(80, 60), geom.Pt(80, 20), geom.Pt(60, 20),
		geom.Pt(60, 60), geom.Pt(40, 60), geom.Pt(40, 20), geom.Pt(20, 20), geom.Pt(20, 60), geom.Pt(0, 60),
	}, "hem", "side", "tip 3", "gap b2", "gap b1", "gap b0", "tip 2", "gap a2", "gap a1", "gap a0", "tip 1", "front")
	p := pattern.Pattern{Pieces: []pattern.Piece{comb}}
	c := &CutOff{
		Piece: "comb", Keep: "left", Name: "cut", Role: pattern.Hem,
		From: pattern.Spot{Edge: "side", Along: pattern.Along{MM: 40}},
		To:   pattern.Spot{Edge: "front", Along: pattern.Along{MM: 20}},
	}
	var s Step = c
	for range 2 {
		why := refusal(t, p, s)
		for _, word := range []string{"the line from the place 40 mm along side of comb to the place 20 mm along front of comb", "gap b2", "20 mm from its start", "gap a0", "80 mm", "straighten", "other spots"} {
			assert.Contains(t, why, word)
		}
		s = &Split{Piece: "comb", From: c.From, To: c.To, Right: "teeth", Name: "seam"}
	}
	// Once across one gap.
	c.To = pattern.Spot{Edge: "tip 2", Along: pattern.Along{Share: 0.5}}
	assert.Contains(t, refusal(t, p, c), "does not stay within comb")
	// From tip to tip over the gap: outside all the way.
	c.From, c.To = pattern.AtEnd("", "tip 3", pattern.End), pattern.AtEnd("", "tip 2", pattern.Start)
	assert.Contains(t, refusal(t, p, c), "lies outside comb")
	// Along the bottom of both gaps.
	c.From, c.To = pattern.Spot{Edge: "side", Along: pattern.Along{MM: 20}}, pattern.Spot{Edge: "front", Along: pattern.Along{From: pattern.End, MM: 20}}
	assert.Contains(t, refusal(t, p, c), "runs along gap")
	// Just touching a corner of a gap: the piece would fall apart.
	c.From, c.To = pattern.Spot{Edge: "side", Along: pattern.Along{MM: 10}}, pattern.Spot{Edge: "gap b0", Along: pattern.Along{MM: 20}}
	assert.Contains(t, refusal(t, p, c), "gap")
	// Between gaps it is well.
	c.From, c.To = pattern.Spot{Edge: "gap b0", Along: pattern.Along{MM: 20}}, pattern.Spot{Edge: "gap a2", Along: pattern.Along{MM: 20}}
	assert.Len(t, applied(t, p, c).Pattern.Piece("comb").Edges, 12)

	for want, curve := range map[string]*Curve{
		"would cross itself":                 {From: lean(45, 2), To: lean(45, 2)},
		"at most 150":                        {From: lean(170, 0)},
		"a reach of 3":                       {To: lean(10, 3)},
		"cannot be square and lean":          {From: Lean{Square: true, Degrees: Lit(3)}},
		"does not stay within comb: it pass": {From: lean(80, 0.9), To: lean(80, 0.9)},
	} {
		d := acrossTheBox()
		d.Piece, d.Keep, d.Curve = "comb", "left", curve
		d.From, d.To = pattern.Spot{Edge: "side", Along: pattern.Along{MM: 5}}, pattern.Spot{Edge: "front", Along: pattern.Along{From: pattern.End, MM: 5}}
		assert.Contains(t, refusal(t, p, d), want)
	}
	d := acrossTheBox()
	d.Bulge, d.Curve = exactly(3), &Curve{From: lean(3, 0)}
	assert.Contains(t, refusal(t, twoBoxes(), d), "a bulge and a curve")
	d = acrossTheBox()
	d.To = d.From
	assert.Contains(t, refusal(t, twoBoxes(), d), "same place")
	d.To.Edge = "back"
	assert.Contains(t, refusal(t, twoBoxes(), d), `no edge "back"`)
}
