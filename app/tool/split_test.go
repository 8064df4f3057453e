package tool_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

var (
	onCross = pattern.Spot{Piece: "upper outer cup", Edge: "cross seam", Along: pattern.Along{Share: 0.5}}
	onNeck  = pattern.Spot{Piece: "upper outer cup", Edge: "neckline", Along: pattern.Along{Share: 0.5}}
)

// splitInEverySize requires that the parts add up and lie on each other along
// the seam, whose seams on either side are as long as they were.
func splitInEverySize(t *testing.T, d *desk.Desk, kept, other, seam string) {
	t.Helper()
	was := tern(t, 0)
	for _, size := range d.Document().Source.Labels() {
		require.NoError(t, d.SetSize(size))
		require.NoError(t, was.SetSize(size))
		p, q := d.Pattern(), was.Pattern()
		require.NotNil(t, p.Piece(kept))
		require.NotNil(t, p.Piece(other))
		assert.InDelta(t, q.Piece("upper outer cup").Area(), p.Piece(kept).Area()+p.Piece(other).Area(), 1e-6, size)
		for _, s := range q.Seams {
			a, b := q.SeamLengths(s)
			na, nb := p.SeamLengths(*p.Seam(s.Name))
			assert.InDelta(t, a, na, 1e-9, size)
			assert.InDelta(t, b, nb, 1e-9, size)
		}
		a, b := p.SeamLengths(*p.Seam(seam))
		assert.InDelta(t, a, b, 1e-9)
	}
}

func figureOf(t *testing.T, d *desk.Desk, tl tool.Tool, name string) float64 {
	t.Helper()
	return reported(t, d, tl.Proposal()...).Figures[name]
}

func TestSplitByPointer(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewSplit(d)
	a, b := spotAt(t, d, onCross), spotAt(t, d, onNeck)
	press(tl, a)
	drag(tl, a.Lerp(b, 0.3))
	drag(tl, b)
	release(tl, b)
	require.Len(t, tl.Proposal(), 1, tl.Hint())
	assert.Contains(t, tl.Hint(), "Enter splits")
	assert.InDelta(t, a.Dist(b), figureOf(t, d, tl, "length"), 1e-6)

	// The middle bends it to a bow of 6, to the right of the way: a parabola.
	m, chord := a.Lerp(b, 0.5), a.Dist(b)
	right := b.Sub(a).Unit().Perp().Mul(-1)
	press(tl, m)
	drag(tl, m.Add(right.Mul(3)))
	drag(tl, m.Add(right.Mul(6.03)))
	assert.Contains(t, tl.Hint(), "bulges by 6 mm")
	release(tl, m.Add(right.Mul(6.03)))
	assert.Equal(t, "6 mm", field(t, tl, "bulge").Text)
	h := 6.0
	parabola := math.Hypot(chord, 4*h)/2 + chord*chord/(8*h)*math.Asinh(4*h/chord)
	assert.InDelta(t, parabola, figureOf(t, d, tl, "length"), 1e-6)
	assert.Contains(t, notes(tl), "upper outer cup part")

	// The handle at the first spot makes it lean there alone.
	press(tl, a.Lerp(b, 1.0/3).Add(right.Mul(8)))
	to := a.Add(geom.Turn(20*geom.Degree, geom.Point{}).Vector(b.Sub(a)).Mul(0.4))
	drag(tl, to)
	release(tl, to)
	assert.Equal(t, "-20°", field(t, tl, "lean from").Text)
	leans := field(t, tl, "lean to").Text
	assert.Equal(t, fmt.Sprintf("%.2f°", geom.Angle(math.Atan2(8, chord/3)).Degrees()), leans)
	curve := tl.Proposal()[0].(*step.Split).Curve
	require.NotNil(t, curve)
	assert.InDelta(t, 0.4, curve.From.Reach, 1e-9)
	// By its middle the whole curve moves, and back.
	rise := field(t, tl, "bulge").Text
	require.True(t, tl.Key(tool.Key{Name: tool.Up, Step: 1}))
	assert.NotEqual(t, rise, field(t, tl, "bulge").Text)
	require.True(t, tl.Key(tool.Key{Name: tool.Down, Step: 1}))
	assert.Equal(t, rise, field(t, tl, "bulge").Text)
	assert.Equal(t, leans, field(t, tl, "lean to").Text)

	// The part that is pressed keeps the name.
	big := tl.Proposal()[0].(*step.Split)
	in, err := d.Try(big)
	require.NoError(t, err)
	small := in.Size.Pattern.Piece("upper outer cup part")
	require.Less(t, small.Area(), in.Size.Pattern.Piece("upper outer cup").Area())
	o := geom.Must(small.Outline())
	press(tl, small.Pose.Apply(o.Centroid()))
	was := *big
	now := tl.Proposal()[0].(*step.Split)
	assert.Equal(t, []string{was.Left, was.Right}, []string{now.Right, now.Left})
	assert.Equal(t, was.Curve, now.Curve, "the seam stays where it is")

	accept(t, d, tl)
	splitInEverySize(t, d, "upper outer cup", "upper outer cup part", "upper outer cup seam")
	require.True(t, d.Undo())
	assert.Empty(t, d.Document().Recipe, "one undo")
}

func TestSplitByKeysAndTypedNumbers(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewSplit(d)
	choose(t, tl, "upper outer cup", "cross seam of upper outer cup", "neckline of upper outer cup")
	require.Len(t, tl.Proposal(), 1, tl.Hint())
	for f, text := range map[string]string{
		"kept": "strap cup", "other": "side cup", "seam": "strap seam", "notches": "at thirds", "allowance": "10 mm", "lean from": "square", "lean to": "12",
	} {
		require.NoError(t, tl.Set(f, text), f)
	}
	assert.Equal(t, "33.3 %, 66.7 %", field(t, tl, "places").Text)
	assert.Equal(t, "square", field(t, tl, "lean from").Text)
	assert.Equal(t, "12°", field(t, tl, "lean to").Text)
	look(t, tl)
	assert.Contains(t, notes(tl), "strap cup")
	s := tl.Proposal()[0].(*step.Split)
	assert.True(t, s.Curve.From.Square)
	res, err := d.Try(s)
	require.NoError(t, err)
	// It leaves the cross seam at a right angle.
	pc, cut := res.Size.Pattern.Edge(s.Left, "strap seam")
	cross := pc.Edge("cross seam")
	dir := cross.Path.TangentAt(0)
	if cross.Path.End().Near(cut.Path.Start(), 1e-6) {
		dir = cross.Path.TangentBefore(cross.Length())
	}
	assert.InDelta(t, 0, dir.Dot(cut.Path.TangentAt(0)), 1e-9)

	require.NoError(t, tl.Set("places", "25 %; 0.75"))
	assert.Equal(t, "at places of their own", field(t, tl, "notches").Text)
	assert.Equal(t, []float64{0.25, 0.75}, tl.Proposal()[0].(*step.Split).Notches)
	require.NoError(t, tl.Set("from", "30"))
	for f, junk := range map[string]string{
		"kept": "band", "other": "strap cup", "seam": "side seam", "notches": "many", "places": "120 %", "allowance": "-3", "lean from": "200", "lean to": "bent", "bulge": "9 m", "from": "1 m", "colour": "red",
	} {
		require.Error(t, tl.Set(f, junk), f)
	}
	// Laid apart in the same act.
	require.NoError(t, tl.Set("apart", "25 mm"))
	require.Error(t, tl.Set("apart", "-1"))
	accept(t, d, tl)
	splitInEverySize(t, d, "strap cup", "side cup", "strap seam")
	there := d.Pattern().Piece("strap cup").Pose.Inverse().Then(d.Pattern().Piece("side cup").Pose)
	assert.InDelta(t, 25, there.Apply(geom.Point{}).Norm(), 1e-6)
	k, o := d.Pattern().Piece("strap cup"), d.Pattern().Piece("side cup")
	middle := func(pc *pattern.Piece) geom.Point { o := geom.Must(pc.Outline()); return o.Centroid() }
	assert.Greater(t, k.Pose.Apply(middle(k)).Dist(o.Pose.Apply(middle(o))), middle(k).Dist(middle(o))+10, "away from each other")
	n := len(d.Document().Recipe)
	require.True(t, d.Undo())
	assert.Len(t, d.Document().Recipe, n-2, "one undo for both")
	require.True(t, d.Redo())
	for _, name := range []string{"strap cup", "side cup"} {
		e := d.Pattern().Piece(name).Edge("strap seam")
		assert.InDelta(t, 10, e.Allowance, 1e-9)
		assert.NotNil(t, d.Pattern().Piece(name).Notch("strap seam 1"))
		assert.NotNil(t, d.Pattern().Piece(name).Notch("strap seam 2"))
	}
}

func TestSplitSaysWhyItCannotBe(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewSplit(d)
	press(tl, spotAt(t, d, pattern.AtEnd("band", "hem", pattern.Start)))
	press(tl, spotAt(t, d, pattern.AtEnd("band", "hem", pattern.End)))
	release(tl, spotAt(t, d, pattern.AtEnd("band", "hem", pattern.End)))
	require.NoError(t, tl.Set("bulge", "40"))
	look(t, tl)
	require.Error(t, d.Accept(tl.Proposal()...))
	assert.Contains(t, tl.Hint(), "of band")
	require.True(t, tl.Key(tool.Key{Name: tool.Delete}))
	assert.Equal(t, "0 mm", field(t, tl, "bulge").Text)
	require.True(t, tl.Reset())
	assert.Empty(t, tl.Proposal())
	assert.Empty(t, tl.Overlay())
	assert.False(t, tl.Reset())
}

// A press inside a piece where a spot is asked for is answered.
func TestAPressWhereNoSpotIsIsAnswered(t *testing.T) {
	d := tern(t, 0)
	in := middle(t, d, "band")
	for _, tl := range []tool.Tool{tool.NewDraw(d), tool.NewSplit(d), tool.NewShears(d), tool.NewRuler(d)} {
		name := tl.Name()
		before := tl.Hint()
		press(tl, in)
		drag(tl, in.Add(geom.Pt(3, 0)))
		release(tl, in.Add(geom.Pt(3, 0)))
		require.NotEqual(t, before, tl.Hint(), name)
		require.Contains(t, tl.Hint(), "band", name)
		tl.Reset()
		require.Equal(t, before, tl.Hint(), name)
	}
}

// What a drag from spot to spot has chosen is not pointed at any longer, so that
// the piece is named once.
func TestADragFromSpotToSpotPointsAtNothingMore(t *testing.T) {
	d := tern(t, 0)
	for _, tl := range []tool.Tool{tool.NewRuler(d), tool.NewSplit(d), tool.NewShears(d), tool.NewDraw(d)} {
		from, to := spotAt(t, d, onCross), spotAt(t, d, onNeck)
		press(tl, from)
		drag(tl, to)
		release(tl, to)
		require.NotEmpty(t, tl.Proposal(), tl.Name())
		for _, n := range tl.Overlay().Notes {
			require.NotEqual(t, "upper outer cup", n.Text, tl.Name())
		}
	}
}
