package step

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

func exactly(v float64) *Number { n := Lit(v); return &n }

// kinked is twoBoxes whose left hem has a kink 50 along, 4 below the line.
func kinked() pattern.Pattern {
	p := twoBoxes()
	p.Piece("left").Edge("hem").Path = geom.Must(geom.Polyline(geom.Pt(0, 0), geom.Pt(50, -4), geom.Pt(100, 0)))
	return p
}

// sharpest returns the greatest angle in degrees at a joint within a path.
func sharpest(p geom.Path) float64 {
	most, s := 0.0, 0.0
	for i := range p.Len() - 1 {
		s = p.LengthTo(i, 1)
		most = max(most, math.Abs(geom.Between(p.TangentBefore(s), p.TangentAt(s)).Degrees()))
	}
	return most
}

func TestSmoothTakesAKinkAway(t *testing.T) {
	p := kinked()
	was := p.Piece("left").Edge("hem").Path
	require.Greater(t, sharpest(was), 9.0)
	s := &Smooth{Piece: "left", Edge: "hem", At: &pattern.Along{Share: 0.5}, Reach: exactly(15)}
	foot := was.At(30)
	out := applied(t, p, s)
	is := out.Pattern.Piece("left").Edge("hem").Path
	assert.Less(t, sharpest(is), 1e-6)
	assert.InDelta(t, is.Length()-was.Length(), out.Figures["length_change"], 1e-12)
	assert.Less(t, is.Length(), was.Length())
	assert.Greater(t, out.Figures["moved"], 0.1)
	assert.Less(t, out.Figures["moved"], 1.2, "the kink is 15 × sin 4.6° above its chord")
	for _, x := range []float64{0, 10, 34} {
		assert.LessOrEqual(t, is.At(x).Dist(was.At(x)), 1e-9, "beyond the reach nothing moves")
	}
	assert.LessOrEqual(t, foot.Dist(notchAt(t, out.Pattern, "left", "low")), 1e-9)
	assert.Equal(t, p.Lines, out.Pattern.Lines)
	sameExcept(t, p, out.Pattern, "left.hem")
}

// dented returns two curves from (0, 0) over (50, −13) to (100, 0) that hang
// down, with a dent of 5.7 degrees where they meet.
func dented() (geom.Path, geom.Path) {
	mid := geom.Pt(50, -13)
	return geom.Must(geom.NewPath(geom.Curve(geom.Pt(0, 0), geom.Pt(10, -10), geom.Pt(30, -14), mid))),
		geom.Must(geom.NewPath(geom.Curve(mid, geom.Pt(70, -14), geom.Pt(90, -10), geom.Pt(100, 0))))
}

func TestSmoothKeepsLength(t *testing.T) {
	p := twoBoxes()
	a, b := dented()
	p.Piece("left").Edge("hem").Path = geom.Must(geom.Join(a, b))
	was := p.Piece("left").Edge("hem").Length()
	out := applied(t, p, &Smooth{Piece: "left", Edge: "hem", From: &pattern.Along{MM: 25}, To: &pattern.Along{From: pattern.End, MM: 25}, Keep: "length"})
	is := out.Pattern.Piece("left").Edge("hem")
	assert.InEpsilon(t, was, is.Length(), 1e-9)
	assert.Less(t, sharpest(is.Path), 1e-6)
	assert.Empty(t, is.Path.Inflections())
	assert.InDelta(t, 0, out.Figures["length_change"], 1e-9*was)
	assert.Equal(t, p.Lines, out.Pattern.Lines)

	assert.Empty(t, out.Notes)

	// Rounding a corner between straight edges off shortens it, so a curve of
	// the same length has to swing out, and says so.
	p = kinked()
	was = p.Piece("left").Edge("hem").Length()
	out = applied(t, p, &Smooth{Piece: "left", Edge: "hem", At: &pattern.Along{Share: 0.5}, Reach: exactly(30), Keep: "length"})
	assert.InEpsilon(t, was, lengthOf(t, out.Pattern, "left", "hem"), 1e-9)
	require.Len(t, out.Notes, 1)
	assert.Contains(t, out.Notes[0], "to and fro")
}

func TestSmoothOverAJoint(t *testing.T) {
	p := twoBoxes()
	p.Pieces[0] = corners("left", []geom.Point{geom.Pt(0, 0), geom.Pt(50, -13), geom.Pt(100, 0), geom.Pt(100, 60), geom.Pt(0, 60)}, "one", "two", "side", "top", "front")
	p.Piece("left").Edge("one").Path, p.Piece("left").Edge("two").Path = dented()
	p.Lines[0].Parts = []pattern.Part{pattern.Whole("left", "one"), pattern.Whole("left", "two"), pattern.Whole("right", "hem")}
	was := p.Length(p.Lines[0].Parts)
	steps := map[string]*Smooth{
		"at the end":        {Piece: "left", Edge: "one", At: &pattern.Along{From: pattern.End}, Reach: exactly(25)},
		"at the next start": {Piece: "left", Edge: "two", At: &pattern.Along{}, Reach: exactly(25)},
		"on into":           {Piece: "left", Edge: "one", Then: "two", From: &pattern.Along{From: pattern.End, MM: 25}, To: &pattern.Along{MM: 25}},
	}
	for what, s := range steps {
		s.Keep = keepLength
		out := applied(t, p, s)
		assert.InEpsilon(t, was, out.Pattern.Length(out.Pattern.Lines[0].Parts), 1e-9, what)
		assert.Equal(t, p.Lines, out.Pattern.Lines, what)
		pc := out.Pattern.Piece("left")
		assert.InDelta(t, 0, pc.JointTurn(1).Degrees(), 1e-5, what)
		// The joint stays in the middle of the stretch, whose length is kept.
		assert.InDelta(t, lengthOf(t, p, "left", "one"), pc.Edge("one").Length(), 1e-8, what)
		sameExcept(t, p, out.Pattern, "left.one", "left.two")
	}
	got := refusal(t, p, &Smooth{Piece: "left", Edge: "one", Then: "top", From: &pattern.Along{}, To: &pattern.Along{MM: 16}})
	assert.Contains(t, got, "two does")
}

func TestSmoothRefuses(t *testing.T) {
	p := kinked()
	at, from, to := &pattern.Along{MM: 50}, &pattern.Along{MM: 60}, &pattern.Along{MM: 40}
	for want, s := range map[string]*Smooth{
		"either":       {Piece: "left", Edge: "hem", At: at},
		"above 0":      {Piece: "left", Edge: "hem", At: at, Reach: exactly(0)},
		"before":       {Piece: "left", Edge: "hem", From: from, To: to},
		`"width"`:      {Piece: "left", Edge: "hem", At: at, Reach: exactly(5), Keep: "width"},
		"lies off":     {Piece: "left", Edge: "hem", At: &pattern.Along{MM: 500}, Reach: exactly(5)},
		`edge "hym"`:   {Piece: "left", Edge: "hym", At: at, Reach: exactly(5)},
		`piece "lift"`: {Piece: "lift", Edge: "hem", At: at, Reach: exactly(5)},
	} {
		assert.Contains(t, refusal(t, p, s), want)
	}
}

func TestSmoothAnyWireLineKeepsItsLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, name := frame(t)
		cradle, wire := name(patterntest.Cradle), name("wire")
		at := rapid.Float64Range(0.2, 0.7).Draw(t, "at")
		reach := rapid.Float64Range(8, 25).Draw(t, "reach")
		line := name(patterntest.WireLine)
		was := p.Length(p.Line(line).Parts)
		out := applied(t, p, &Smooth{Piece: cradle, Edge: wire, At: &pattern.Along{Share: at}, Reach: exactly(reach), Keep: keepLength})
		require.InEpsilon(t, was, out.Pattern.Length(out.Pattern.Line(line).Parts), 1e-9)
		require.Less(t, sharpest(out.Pattern.Piece(cradle).Edge(wire).Path), 1e-3)
		require.Equal(t, p.Lines, out.Pattern.Lines)
		sameExcept(t, p, out.Pattern, cradle+"."+wire)
		require.Equal(t, p.Piece(cradle).Notch(name("wire bottom")).Along.Share, out.Pattern.Piece(cradle).Notch(name("wire bottom")).Along.Share)
	})
}

// A reach beyond the edge is told with how far things move; one longer than any
// edge is a slip of the keys.
func TestSmoothTellsAReachBeyondTheEdge(t *testing.T) {
	for reach, told := range map[float64]string{
		15: "", 50: "",
		60:  "A reach of 60 mm goes beyond hem of left at both ends: all of it is altered, and moves by ",
		999: "A reach of 999 mm goes beyond hem of left at both ends: all of it is altered, and moves by ",
	} {
		out := applied(t, kinked(), &Smooth{Piece: "left", Edge: "hem", At: &pattern.Along{Share: 0.5}, Reach: exactly(reach)})
		if told == "" {
			assert.Empty(t, out.Notes)
			continue
		}
		require.NotEmpty(t, out.Notes)
		assert.Contains(t, out.Notes[0], told)
		assert.Contains(t, out.Notes[0], fmt.Sprintf("%.2f mm at most", out.Figures["moved"]))
	}
	out := applied(t, kinked(), &Smooth{Piece: "left", Edge: "hem", At: &pattern.Along{Share: 0.3}, Reach: exactly(45)})
	assert.Contains(t, out.Notes[0], "beyond hem of left: it is altered to its very end")
	said := refused(t, kinked(), &Smooth{Piece: "left", Edge: "hem", At: &pattern.Along{Share: 0.5}, Reach: exactly(99999)})
	assert.Contains(t, said, "99999 mm, which is longer than any edge")
}

// A corner such as a spreading leaves at its hinge is smoothed over any reach
// with the length kept, also where no fair curve has the length.
func TestSmoothKeepsTheLengthOverACorner(t *testing.T) {
	none := 0
	for _, bow := range []float64{0, 1, -1, -2} {
		b := box("box", 100, 60)
		p := single(b)
		edge := p.Piece("box").Edge("top")
		a, c := edge.Path.Start(), edge.Path.End()
		up := c.Sub(a).Perp().Unit()
		mid := a.Lerp(c, 0.45).Add(up.Mul(-4))
		first := geom.Must(geom.NewPath(geom.Curve(a, a.Lerp(mid, 0.3).Add(up.Mul(bow)), a.Lerp(mid, 0.7).Add(up.Mul(bow)), mid)))
		second := geom.Must(geom.NewPath(geom.Curve(mid, mid.Lerp(c, 0.3).Add(up.Mul(bow)), mid.Lerp(c, 0.7).Add(up.Mul(bow)), c)))
		edge.Path = geom.Must(geom.Join(first, second))
		length := edge.Length()
		for _, reach := range []float64{3, 10, 20, 25, 30, 40} {
			out, err := (&Smooth{Piece: "box", Edge: "top", At: &pattern.Along{MM: first.Length()}, Reach: num(reach), Keep: "length"}).Apply(Input{Pattern: p})
			if _, _, err := edge.Path.BlendLength(max(first.Length()-reach, 0), min(first.Length()+reach, length), length); err != nil {
				none++
			}
			require.NoError(t, err, "bow %g, reach %g", bow, reach)
			now := out.Pattern.Piece("box").Edge("top")
			require.InDelta(t, length, now.Length(), 1e-9)
			require.Empty(t, now.Path.Corners(pattern.SmoothTurn), "bow %g, reach %g", bow, reach)
			require.Less(t, out.Figures["moved"], reach/5, "bow %g, reach %g", bow, reach)
		}
	}
	require.Positive(t, none, "nowhere a fair curve lacks the length")
}
