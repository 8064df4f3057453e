package tool_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/pattern"
)

// accept takes what a tool proposes, as Enter does.
func accept(t testing.TB, d *desk.Desk, tl tool.Tool) {
	t.Helper()
	require.NotEmpty(t, tl.Proposal(), tl.Hint())
	require.NoError(t, d.Accept(tl.Proposal()...))
	tl.Reset()
}

// sameAs compares every length in every size with what the demo's first steps make.
func sameAs(t *testing.T, d *desk.Desk, first int) {
	t.Helper()
	want := tern(t, first)
	for _, size := range d.Document().Source.Labels() {
		require.NoError(t, d.SetSize(size))
		require.NoError(t, want.SetSize(size))
		got := d.Pattern()
		require.Len(t, got.Pieces, len(want.Pattern().Pieces))
		for _, pc := range want.Pattern().Pieces {
			for _, e := range pc.Edges {
				_, same := got.Edge(pc.Name, e.Name)
				require.NotNil(t, same, "%s of %s in %s", e.Name, pc.Name, size)
				assert.InDelta(t, e.Length(), same.Length(), 1e-6, "%s of %s in %s", e.Name, pc.Name, size)
				assert.Equal(t, e.Role, same.Role)
				assert.Equal(t, e.Allowance, same.Allowance)
			}
		}
	}
}

// takeOff takes the allowance off the four edges that meet or carry lace.
func takeOff(t *testing.T, d *desk.Desk, choose func(tl tool.Tool, piece, edge string)) {
	t.Helper()
	a := tool.NewAllowance(d)
	for _, e := range [][2]string{{"bridge", "hem"}, {"cradle", "hem"}, {"bridge", "cradle seam"}, {"cradle", "bridge seam"}} {
		choose(a, e[0], e[1])
		require.NoError(t, a.Set("width", "0"))
		if e[1] == "hem" {
			require.NoError(t, a.Set("role", "lace-edge"))
		}
		accept(t, d, a)
	}
}

func TestBridgeAndCradleAreJoinedByHand(t *testing.T) {
	d := tern(t, 0)
	takeOff(t, d, func(tl tool.Tool, piece, edge string) { press(tl, midEdge(t, d, piece, edge, 0.4)) })

	hand := tool.NewHand(d)
	from, to := spotAt(t, d, cradlePin), spotAt(t, d, pattern.AtEnd("bridge", "cradle seam", pattern.End))
	press(hand, from)
	drag(hand, from.Lerp(to, 0.5))
	drag(hand, to.Add(geom.Pt(1, 1)))
	release(hand, to)
	accept(t, d, hand)

	pin := tool.NewPin(d)
	press(pin, spotAt(t, d, cradlePin))
	release(pin, to)
	corner := spotAt(t, d, hemCorner)
	press(pin, corner)
	for _, deg := range []float64{-1, -4, -8.1} {
		drag(pin, geom.Turn(geom.Angle(deg)*geom.Degree, spotAt(t, d, cradlePin)).Apply(corner))
	}
	release(pin, corner)
	accept(t, d, pin)

	tape := tool.NewTape(d)
	press(tape, midEdge(t, d, "bridge", "cradle seam", 0.1))
	press(tape, midEdge(t, d, "cradle", "bridge seam", 0.5))
	require.NoError(t, tape.Set("name", "frame"))
	accept(t, d, tape)
	sameAs(t, d, 7)
}

func TestBridgeAndCradleAreJoinedByKeys(t *testing.T) {
	d := tern(t, 0)
	choose := func(tl tool.Tool, piece, what string) {
		walkTo(t, tl, piece)
		require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
		if what != "" {
			walkTo(t, tl, what+" of "+piece)
			require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
		}
	}
	takeOff(t, d, func(tl tool.Tool, piece, edge string) { choose(tl, piece, edge) })

	hand := tool.NewHand(d)
	choose(hand, "cradle", "")
	require.NoError(t, hand.Set("lay", "against cradle seam of bridge, together at the wire"))
	accept(t, d, hand)

	pin := tool.NewPin(d)
	choose(pin, "cradle", "corner of wire and bridge seam")
	require.NoError(t, pin.Set("until", "corner of hem and side seam lies on the line"))
	accept(t, d, pin)

	tape := tool.NewTape(d)
	require.True(t, tape.Key(tool.Key{Name: tool.Choose}))
	require.NoError(t, tape.Set("name", "frame"))
	accept(t, d, tape)
	sameAs(t, d, 7)
	for d.Undo() {
	}
	assert.Empty(t, d.Document().Recipe)
}

// BenchmarkTurnFrame is all that a tool does for one frame of a drag.
func BenchmarkTurnFrame(b *testing.B) {
	d := tern(b, 5)
	tl := tool.NewPin(d)
	pin, corner := spotAt(b, d, cradlePin), spotAt(b, d, hemCorner)
	press(tl, pin)
	press(tl, corner)
	for i := 0; b.Loop(); i++ {
		drag(tl, geom.Turn(-geom.Angle(i%80)*0.1*geom.Degree, pin).Apply(corner))
		frame(d, tl)
	}
}

// BenchmarkDragFrame is the same for a piece pushed about.
func BenchmarkDragFrame(b *testing.B) {
	d := tern(b, 5)
	tl := tool.NewHand(d)
	corner := spotAt(b, d, hemCorner)
	press(tl, corner)
	for i := 0; b.Loop(); i++ {
		drag(tl, corner.Add(geom.Pt(float64(i%100), -50)))
		frame(d, tl)
	}
}

func frame(d *desk.Desk, tl tool.Tool) {
	tl.Hint()
	tl.Fields()
	tl.Overlay()
	_, _ = d.Try(tl.Proposal()...)
}
