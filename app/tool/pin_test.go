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
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// turnOf returns by how many degrees what is proposed turns.
func turnOf(t testing.TB, d *desk.Desk, tl tool.Tool) float64 {
	t.Helper()
	require.Len(t, tl.Proposal(), 1)
	res, err := d.Try(tl.Proposal()...)
	require.NoError(t, err)
	return res.Reports[len(res.Reports)-1].Figures["turned_deg"]
}

// wanted is what the demo's own turn makes.
func wanted(t testing.TB, d *desk.Desk) float64 {
	t.Helper()
	res, err := d.Try(demo.TernInLace()[5].Step)
	require.NoError(t, err)
	deg := res.Reports[len(res.Reports)-1].Figures["turned_deg"]
	require.InDelta(t, -7.88, deg, 0.01)
	return deg
}

var (
	cradlePin = pattern.AtEnd("cradle", "bridge seam", pattern.Start)
	hemCorner = pattern.AtEnd("cradle", "hem", pattern.End)
)

func TestPinTurnsUntilTheCornerLiesOnTheHemLine(t *testing.T) {
	d := tern(t, 5)
	want := wanted(t, d)
	tl := tool.NewPin(d)
	pin, corner := spotAt(t, d, cradlePin), spotAt(t, d, hemCorner)
	press(tl, pin.Add(geom.Pt(0.5, 0.3)))
	release(tl, pin)
	require.Equal(t, "cradle", d.Selection().Piece)
	assert.Equal(t, "hem of bridge", field(t, tl, "line").Text, "the line is guessed")

	press(tl, corner)
	to := func(deg float64) geom.Point { return geom.Turn(geom.Angle(deg)*geom.Degree, pin).Apply(corner) }
	drag(tl, to(-3))
	assert.InDelta(t, -3, turnOf(t, d, tl), 1e-9, "it follows the hand")
	drag(tl, to(-7.5))
	assert.InDelta(t, want, turnOf(t, d, tl), 1e-6, "and settles")
	release(tl, to(-7.5))
	assert.Contains(t, tl.Hint(), "lies on the line")
	require.NoError(t, d.Accept(tl.Proposal()...))
	for _, size := range d.Document().Source.Labels() {
		require.NoError(t, d.SetSize(size))
		line, err := d.Pattern().FindDatum(pattern.LineThrough(
			pattern.AtEnd("bridge", "hem", pattern.Start), pattern.AtEnd("bridge", "hem", pattern.End)))
		require.NoError(t, err)
		assert.InDelta(t, 0, line.Distance(spotAt(t, d, hemCorner)), 1e-9, "in size %s", size)
	}
}

func TestPinWithCtrlDoesNotSettle(t *testing.T) {
	d := tern(t, 5)
	tl := tool.NewPin(d)
	pin, corner := spotAt(t, d, cradlePin), spotAt(t, d, hemCorner)
	press(tl, pin)
	press(tl, corner)
	at := geom.Turn(-7.5*geom.Degree, pin).Apply(corner)
	tl.Pointer(tool.Event{Act: tool.Drag, At: at, Reach: reach, Ctrl: true})
	assert.InDelta(t, -7.5, turnOf(t, d, tl), 1e-9)
	assert.True(t, tl.Reset())
	assert.Nil(t, tl.Proposal())
	assert.Empty(t, tl.Overlay())
	assert.False(t, tl.Reset())
}

func TestPinByKeysAlone(t *testing.T) {
	d := tern(t, 5)
	want := wanted(t, d)
	tl := tool.NewPin(d)
	walkTo(t, tl, "cradle")
	require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
	walkTo(t, tl, "corner of wire and bridge seam of cradle")
	require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
	require.Equal(t, "hem of bridge", field(t, tl, "line").Text)

	for range 3 {
		require.True(t, tl.Key(tool.Key{Name: tool.Right, Step: 5, Count: 1}))
	}
	require.True(t, tl.Key(tool.Key{Name: tool.Left, Count: 0.1}))
	assert.InDelta(t, -2.9, turnOf(t, d, tl), 1e-9)
	require.NoError(t, tl.Set("angle", "-4,5°"))
	assert.InDelta(t, -4.5, turnOf(t, d, tl), 1e-9)
	require.Error(t, tl.Set("angle", "a lot"))
	require.Error(t, tl.Set("angle", "NaN"))

	require.NoError(t, tl.Set("until", "corner of hem and side seam lies on the line"))
	assert.InDelta(t, want, turnOf(t, d, tl), 1e-6)
	assert.Equal(t, "-7.88°", field(t, tl, "angle").Text)
	require.Error(t, tl.Set("until", "whatever"))
}

func TestPinTouchesAGridLine(t *testing.T) {
	d := tern(t, 5)
	tl := tool.NewPin(d)
	pin := spotAt(t, d, cradlePin)
	press(tl, pin)
	hem := d.Pattern().Piece("cradle").Edge("hem")
	low := hem.Path.Transform(d.Pattern().Piece("cradle").Pose).Bounds().Min.Y
	y := low - 8
	require.NoError(t, tl.Set("line", "y "+geomText(y)))
	require.NoError(t, tl.Set("until", "hem just touches the line"))
	turn, ok := tl.Proposal()[0].(*step.Turn)
	require.True(t, ok)
	require.NotNil(t, turn.Until)
	require.NoError(t, d.Accept(turn))
	after := d.Pattern().Piece("cradle")
	got := after.Edge("hem").Path.Transform(after.Pose).Bounds().Min.Y
	assert.InDelta(t, y, got, 1e-6)
	assert.False(t, math.IsNaN(got))
}

func TestPinTakesALineByPressingIt(t *testing.T) {
	d := tern(t, 5)
	tl := tool.NewPin(d)
	press(tl, spotAt(t, d, cradlePin))
	press(tl, midEdge(t, d, "band", "closure", 0.5))
	assert.Equal(t, "closure of band", field(t, tl, "line").Text)
	press(tl, geom.Pt(-500.4, -407.3))
	assert.Equal(t, "x -500 mm", field(t, tl, "line").Text)
	require.NoError(t, tl.Set("line", "no line"))
	require.Error(t, tl.Set("line", "x far"))
	require.Error(t, tl.Set("line", "hem of cradle"), "it would turn along")
	require.NoError(t, tl.Set("line", "hem of bridge"))
	require.NoError(t, tl.Set("piece", "bridge"))
	assert.Equal(t, "bridge", field(t, tl, "piece").Text)
	assert.Equal(t, "hem of cradle", field(t, tl, "line").Text)
	require.NoError(t, tl.Set("piece", "cradle"))
	assert.Equal(t, "cradle", field(t, tl, "piece").Text)
}

// Taken hold of away from corners, the hem settles where it just touches.
func TestPinSettlesWhereAnEdgeJustTouches(t *testing.T) {
	d := tern(t, 5)
	tl := tool.NewPin(d)
	pin := spotAt(t, d, cradlePin)
	press(tl, pin)
	pc := d.Pattern().Piece("cradle")
	low := pc.Edge("hem").Path.Transform(pc.Pose).Bounds().Min.Y
	require.NoError(t, tl.Set("line", "y "+geomText(low-5)))
	require.NoError(t, tl.Set("until", "hem just touches the line"))
	want := turnOf(t, d, tl)
	require.NoError(t, tl.Set("angle", "0"))

	hold := midEdge(t, d, "cradle", "wire", 0.5)
	press(tl, hold)
	drag(tl, geom.Turn(geom.Angle(want+0.3)*geom.Degree, pin).Apply(hold))
	assert.InDelta(t, want, turnOf(t, d, tl), 1e-9)
	require.NotNil(t, tl.Proposal()[0].(*step.Turn).Until)
}

// In another size the same thing is met by another angle, which is shown.
func TestPinKeepsUpWithTheSize(t *testing.T) {
	d := tern(t, 5)
	tl := tool.NewPin(d)
	press(tl, spotAt(t, d, cradlePin))
	require.NoError(t, tl.Set("until", "corner of hem and side seam lies on the line"))
	require.Equal(t, "-7.88°", field(t, tl, "angle").Text)
	shown := map[string]bool{}
	for _, size := range d.Document().Source.Labels() {
		require.NoError(t, d.SetSize(size))
		var got float64
		_, err := fmt.Sscanf(field(t, tl, "angle").Text, "%f°", &got)
		require.NoError(t, err)
		assert.InDelta(t, turnOf(t, d, tl), got, 0.0051, "in size %s", size)
		shown[field(t, tl, "angle").Text] = true
	}
	assert.Greater(t, len(shown), 1)
}

// A second drag goes on from where the piece lies, taken hold of where it is
// drawn.
func TestPinTurnsOnFromWhereThePieceLies(t *testing.T) {
	d := tern(t, 5)
	tl := tool.NewPin(d)
	pin, corner := spotAt(t, d, cradlePin), spotAt(t, d, hemCorner)
	press(tl, pin)
	release(tl, pin)
	to := func(deg float64) geom.Point { return geom.Turn(geom.Angle(deg)*geom.Degree, pin).Apply(corner) }
	press(tl, corner)
	drag(tl, to(20))
	release(tl, to(20))
	require.InDelta(t, 20, turnOf(t, d, tl), 1e-9)
	line := field(t, tl, "line").Text

	press(tl, to(20).Add(geom.Pt(0.4, 0.2)))
	assert.InDelta(t, 20, turnOf(t, d, tl), 1e-9, "a press turns nothing")
	drag(tl, to(23).Add(geom.Pt(0.4, 0.2)))
	assert.InDelta(t, 23, turnOf(t, d, tl), 0.1)
	release(tl, to(23))
	assert.Equal(t, line, field(t, tl, "line").Text, "the line stays")

	turned := turnOf(t, d, tl)
	beside := to(turned).Add(to(turned).Sub(pin).Unit().Mul(2 * reach))
	tl.Pointer(tool.Event{Act: tool.Hover, At: beside, Reach: reach})
	press(tl, beside)
	drag(tl, geom.Turn(2*geom.Degree, pin).Apply(beside))
	assert.InDelta(t, turned+2, turnOf(t, d, tl), 1e-6, "a press just beside the corner takes the piece")
	assert.Equal(t, line, field(t, tl, "line").Text)
}

// A grid line is named before it is taken, and only far from the piece.
func TestPinNamesTheGridLineBeforeItIsTaken(t *testing.T) {
	d := tern(t, 5)
	tl := tool.NewPin(d)
	press(tl, spotAt(t, d, cradlePin))
	far := geom.Pt(-500.4, -407.3)
	tl.Pointer(tool.Event{Act: tool.Hover, At: far, Reach: reach})
	var told []string
	for _, n := range tl.Overlay().Notes {
		told = append(told, n.Text)
	}
	require.Contains(t, told, "grid line x -500 mm")
	press(tl, far)
	require.Equal(t, "x -500 mm", field(t, tl, "line").Text)
}
