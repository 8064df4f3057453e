package tool_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
	"truemat/ops/unit"
)

// reach is what counts as pointed at in these tests, mm.
const reach = 3.0

// tern returns a desk with the Tern in a middle size, and with the recipe's
// first steps when asked.
func tern(t testing.TB, first int) *desk.Desk {
	t.Helper()
	run, err := demo.Tern()
	require.NoError(t, err)
	d, err := desk.New(store.Document{Source: run, Recipe: demo.TernInLace()[:first]}, "")
	require.NoError(t, err)
	require.NoError(t, d.SetSize("75C"))
	return d
}

func spotAt(t testing.TB, d *desk.Desk, s pattern.Spot) geom.Point {
	t.Helper()
	at, err := d.Pattern().Find(s)
	require.NoError(t, err)
	return at.Mat
}

func press(tl tool.Tool, at geom.Point) {
	tl.Pointer(tool.Event{Act: tool.Press, At: at, Reach: reach})
}

func drag(tl tool.Tool, at geom.Point) {
	tl.Pointer(tool.Event{Act: tool.Drag, At: at, Reach: reach})
}

func release(tl tool.Tool, at geom.Point) {
	tl.Pointer(tool.Event{Act: tool.Release, At: at, Reach: reach})
}

func middle(t testing.TB, d *desk.Desk, piece string) geom.Point {
	t.Helper()
	pc := d.Pattern().Piece(piece)
	require.NotNil(t, pc)
	o, err := pc.Outline()
	require.NoError(t, err)
	return pc.Pose.Apply(o.Centroid())
}

func field(t testing.TB, tl tool.Tool, name string) tool.Field {
	t.Helper()
	for _, f := range tl.Fields() {
		if f.Name == name {
			return f
		}
	}
	require.Failf(t, "no field", "%s has no %q", tl.Name(), name)
	return tool.Field{}
}

func TestHandDragsAPieceAndKeepsItsShape(t *testing.T) {
	d := tern(t, 0)
	h := tool.NewHand(d)
	m := middle(t, d, "band")
	before := spotAt(t, d, pattern.AtEnd("band", "hem", pattern.Start))
	press(h, m)
	assert.Equal(t, tool.Selection{Piece: "band"}, d.Selection())
	assert.Nil(t, h.Proposal())
	drag(h, m.Add(geom.Pt(200, -350)))
	require.Len(t, h.Proposal(), 1)
	assert.False(t, h.(tool.Finisher).Done(), "while dragging")
	release(h, m.Add(geom.Pt(200, -350)))
	assert.True(t, h.(tool.Finisher).Done())
	require.NoError(t, d.Accept(h.Proposal()...))
	assert.True(t, h.Reset())
	assert.Nil(t, h.Proposal())
	assert.Equal(t, "band", d.Selection().Piece, "what was moved stays selected")
	after := spotAt(t, d, pattern.AtEnd("band", "hem", pattern.Start))
	assert.InDelta(t, 0, after.Sub(before).Dist(geom.Pt(200, -350)), 1e-9)
}

func TestHandSelectsEdgesCornersAndNotches(t *testing.T) {
	d := tern(t, 0)
	h := tool.NewHand(d)
	press(h, spotAt(t, d, pattern.Spot{Piece: "cradle", Edge: "side seam", Along: pattern.Along{Share: 0.4}}))
	assert.Equal(t, tool.Selection{Piece: "cradle", Edge: "side seam"}, d.Selection())
	press(h, spotAt(t, d, pattern.AtNotch("cradle", "bottom")))
	assert.Equal(t, tool.Selection{Piece: "cradle", Notch: "bottom"}, d.Selection())
	press(h, spotAt(t, d, pattern.AtEnd("cradle", "side seam", pattern.Start)))
	assert.Equal(t, tool.Selection{Piece: "cradle", Edge: "side seam", Joint: true}, d.Selection())
	press(h, geom.Pt(-5000, -5000))
	assert.Equal(t, tool.Selection{}, d.Selection())
}

func TestHandLaysTheCradleAgainstTheBridge(t *testing.T) {
	d := tern(t, 4)
	h := tool.NewHand(d)
	from := spotAt(t, d, pattern.AtEnd("cradle", "bridge seam", pattern.Start))
	to := spotAt(t, d, pattern.AtEnd("bridge", "cradle seam", pattern.End))
	press(h, from)
	drag(h, to.Add(geom.Pt(1.2, -0.7)))
	require.Equal(t, []step.Step{demo.TernInLace()[4].Step}, h.Proposal())
	assert.NotEmpty(t, h.Overlay().Dots)
	drag(h, to.Add(geom.Pt(40, 0)))
	require.IsType(t, &step.Move{}, h.Proposal()[0], "it lets go again")

	// The same by keys and choices alone.
	d = tern(t, 4)
	h = tool.NewHand(d)
	for range 20 {
		require.True(t, h.Key(tool.Key{Name: tool.Next}))
		require.True(t, h.Key(tool.Key{Name: tool.Choose}))
		if d.Selection().Piece == "cradle" {
			break
		}
		require.True(t, h.Reset())
		for range len(d.Pattern().Pieces) {
			h.Key(tool.Key{Name: tool.Next})
			if n := h.Overlay().Notes; len(n) == 1 && n[0].Text == "cradle" {
				break
			}
		}
		require.True(t, h.Key(tool.Key{Name: tool.Choose}))
	}
	require.Equal(t, "cradle", d.Selection().Piece)
	require.NoError(t, h.Set("lay", "against cradle seam of bridge, together at the wire"))
	require.Equal(t, []step.Step{demo.TernInLace()[4].Step}, h.Proposal())
	require.Equal(t, "against cradle seam of bridge, together at the wire", field(t, h, "lay").Text)
	require.NoError(t, d.Accept(h.Proposal()...))
	h.Reset()
	require.Empty(t, h.Proposal())
	require.Contains(t, field(t, h, "lay").Text, "against cradle seam of bridge", "it says where the piece lies now")
	require.NoError(t, h.Set("x", "3 mm"))
	require.Equal(t, "freely", field(t, h, "lay").Text)
}

func TestHandNudgesAndTakesTypedShifts(t *testing.T) {
	d := tern(t, 0)
	h := tool.NewHand(d)
	assert.False(t, h.Key(tool.Key{Name: tool.Left, Step: 1}), "nothing selected")
	press(h, middle(t, d, "band"))
	release(h, middle(t, d, "band"))
	before := middle(t, d, "band")
	for range 3 {
		require.True(t, h.Key(tool.Key{Name: tool.Up, Step: 0.1}))
	}
	require.True(t, h.Key(tool.Key{Name: tool.Left, Step: 10}))
	require.NoError(t, d.Accept(h.Proposal()...))
	h.Reset()
	assert.InDelta(t, 0, middle(t, d, "band").Sub(before).Dist(geom.Pt(-10, 0.3)), 1e-9)

	require.NoError(t, h.Set("x", "3 1/8 in"))
	require.NoError(t, h.Set("y", "1/4"))
	assert.Equal(t, "79.38 mm", field(t, h, "x").Text)
	require.Error(t, h.Set("y", "a bit"))
	require.Equal(t, []step.Step{&step.Move{Piece: "band", DX: step.Lit(3.125 * 25.4), DY: step.Lit(6.35)}}, h.Proposal())
	assert.True(t, h.Reset())
	assert.Nil(t, h.Proposal(), "Escape leaves nothing")
}

func TestHandSnapsACornerToTheGrid(t *testing.T) {
	d := tern(t, 0)
	h := tool.NewHand(d)
	corner := spotAt(t, d, pattern.AtEnd("band", "closure", pattern.Start))
	press(h, corner)
	to := geom.Pt(-300, -350)
	drag(h, to.Add(geom.Pt(1.1, -0.9)))
	release(h, to)
	require.NoError(t, d.Accept(h.Proposal()...))
	h.Reset()
	assert.InDelta(t, 0, spotAt(t, d, pattern.AtEnd("band", "closure", pattern.Start)).Dist(to), 1e-9)
	assert.Equal(t, "band", d.Selection().Piece)
	assert.False(t, h.Reset())
	assert.Equal(t, "band", d.Selection().Piece, "taking up another tool keeps what is selected")

	// With Ctrl it follows the hand, with Shift only across or up.
	press(h, to)
	h.Pointer(tool.Event{Act: tool.Drag, At: to.Add(geom.Pt(41.1, 20.9)), Reach: reach, Ctrl: true})
	require.Equal(t, []step.Step{&step.Move{Piece: "band", DX: step.Lit(to.X + 41.1 - to.X), DY: step.Lit(to.Y + 20.9 - to.Y)}}, h.Proposal())
	h.Pointer(tool.Event{Act: tool.Drag, At: to.Add(geom.Pt(41, 20)), Reach: reach, Shift: true})
	require.Equal(t, []step.Step{&step.Move{Piece: "band", DX: step.Lit(41)}}, h.Proposal())
}

// inInches is a table whose maker reads inches.
type inInches struct{ *desk.Desk }

func (inInches) Unit() unit.System { return unit.InchFractions }

func TestToolsSpeakTheMakersUnit(t *testing.T) {
	d := tern(t, 0)
	table := inInches{d}
	a := tool.NewAllowance(table)
	press(a, midEdge(t, d, "cradle", "side seam", 0.5))
	assert.Equal(t, "1/4 in", field(t, a, "width").Text)

	h := tool.NewHand(table)
	corner := spotAt(t, d, pattern.AtEnd("band", "closure", pattern.Start))
	press(h, corner)
	to := geom.Pt(-254, -330.2)
	drag(h, to.Add(geom.Pt(1, 1)))
	release(h, to)
	require.NoError(t, d.Accept(h.Proposal()...))
	assert.InDelta(t, 0, spotAt(t, d, pattern.AtEnd("band", "closure", pattern.Start)).Dist(to), 1e-9)
}

// A press near the rim takes the edge, but what is dragged by it is the piece.
func TestHandDragsAPieceByItsEdge(t *testing.T) {
	d := tern(t, 0)
	h := tool.NewHand(d)
	at := spotAt(t, d, pattern.Spot{Piece: "cradle", Edge: "side seam", Along: pattern.Along{Share: 0.4}})
	h.Pointer(tool.Event{Act: tool.Hover, At: at, Reach: reach})
	o := h.Overlay()
	require.Len(t, o.Notes, 1, "what a press would take is named")
	assert.Equal(t, "side seam of cradle", o.Notes[0].Text)
	assert.Len(t, o.Strokes, 1)
	press(h, at)
	assert.Equal(t, tool.Selection{Piece: "cradle", Edge: "side seam"}, d.Selection())
	drag(h, at.Add(geom.Pt(0, -300)))
	assert.Equal(t, tool.Selection{Piece: "cradle"}, d.Selection())
	require.Len(t, h.Proposal(), 1)
	assert.Equal(t, "cradle", h.Proposal()[0].(*step.Move).Piece)
}

// Where two ends of a seam meet at once, the hand tells the one by which the
// piece was laid.
func TestTheHandTellsByWhichEndAPieceWasLaid(t *testing.T) {
	for _, at := range []string{"wire", "hem"} {
		d := tern(t, 0)
		d.Select(tool.Selection{Piece: "cradle"})
		h := tool.NewHand(d)
		by := "against cradle seam of bridge, together at the " + at
		require.NoError(t, h.Set("lay", by))
		accept(t, d, h)
		require.Equal(t, by, field(t, h, "lay").Text)
	}
}
