package tool_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

func TestAllowanceTakesWidthCornerAndRole(t *testing.T) {
	d := tern(t, 0)
	a := tool.NewAllowance(d)
	require.Error(t, a.Set("width", "6 mm"), "no edge yet")
	press(a, midEdge(t, d, "cradle", "hem", 0.4))
	assert.Equal(t, "12 mm", field(t, a, "width").Text)
	assert.Nil(t, a.Proposal())
	require.NoError(t, a.Set("width", "12mm"))
	assert.Nil(t, a.Proposal(), "that is what it is")
	require.NoError(t, a.Set("width", "1/4"))
	require.NoError(t, a.Set("role", "lace-edge"))
	require.NoError(t, a.Set("end", "square to side seam"))
	require.Error(t, a.Set("end", "round"))
	require.Error(t, a.Set("role", "dart"))
	require.Error(t, a.Set("width", "-3 mm"))
	require.Error(t, a.Set("width", "wide"))
	require.NoError(t, d.Accept(a.Proposal()...))
	_, hem := d.Pattern().Edge("cradle", "hem")
	assert.Equal(t, 6.35, hem.Allowance)
	assert.Equal(t, pattern.LaceEdge, hem.Role)
	_, side := d.Pattern().Edge("cradle", "side seam")
	assert.Equal(t, pattern.Corner{End: pattern.Square, Of: pattern.After}, side.Corner)
	assert.Nil(t, a.Proposal(), "nothing is left to change")
	a.Reset()
	assert.Empty(t, a.Overlay())

	// The hem off by keys alone.
	walkTo(t, a, "cradle")
	require.True(t, a.Key(tool.Key{Name: tool.Choose}))
	walkTo(t, a, "hem of cradle")
	require.True(t, a.Key(tool.Key{Name: tool.Choose}))
	require.NoError(t, a.Set("width", "0"))
	zero := step.Lit(0)
	require.Equal(t, []step.Step{&step.Allow{Piece: "cradle", Edge: "hem", Width: &zero}}, a.Proposal())
}

func TestAllowanceRefusesTheFoldInASentence(t *testing.T) {
	d := tern(t, 0)
	a := tool.NewAllowance(d)
	press(a, midEdge(t, d, "bridge", "fold", 0.5))
	require.NoError(t, a.Set("width", "5"))
	assert.Contains(t, a.Hint(), "lies on the fold")
	require.Error(t, d.Accept(a.Proposal()...))
	assert.True(t, a.Reset())
	assert.Nil(t, a.Proposal())
}

func TestNotchIsAddedDraggedAndHeld(t *testing.T) {
	d := tern(t, 0)
	n := tool.NewNotch(d)
	at := midEdge(t, d, "band", "hem", 0.25)
	press(n, at)
	drag(n, midEdge(t, d, "band", "hem", 0.4).Add(geom.Pt(0, -4)))
	release(n, at)
	require.NoError(t, n.Set("kind", "double"))
	require.NoError(t, n.Set("name", "elastic"))
	add, ok := n.Proposal()[0].(*step.Notch)
	require.True(t, ok)
	require.Equal(t, step.AddNotch, add.Act)
	require.NoError(t, d.Accept(add))
	n.Reset()
	notch := d.Pattern().Piece("band").Notch("elastic")
	require.NotNil(t, notch)
	assert.True(t, notch.Double)
	assert.NotZero(t, notch.Share, "as a share, so that it is there in every size")

	// Move it to a measured place, and make it single.
	press(n, spotAt(t, d, pattern.AtNotch("band", "elastic")))
	release(n, at)
	assert.Nil(t, n.Proposal())
	require.NoError(t, n.Set("end", "1 1/2 in"))
	require.NoError(t, n.Set("kind", "single"))
	require.Error(t, n.Set("end", "4000 mm"))
	require.Error(t, n.Set("start", "140 %"))
	require.Error(t, n.Set("name", "other"))
	require.Len(t, n.Proposal(), 2)
	require.NoError(t, d.Accept(n.Proposal()...))
	n.Reset()
	notch = d.Pattern().Piece("band").Notch("elastic")
	assert.False(t, notch.Double)
	assert.Equal(t, pattern.End, notch.From)
	assert.Zero(t, notch.Share)
	assert.InDelta(t, 38.1, notch.MM, 1e-9)

	// Push it by keys, then take it away.
	press(n, spotAt(t, d, pattern.AtNotch("band", "elastic")))
	release(n, at)
	require.True(t, n.Key(tool.Key{Name: tool.Left, Step: 10}))
	require.True(t, n.Key(tool.Key{Name: tool.Right, Step: 0.1}))
	require.NoError(t, d.Accept(n.Proposal()...))
	assert.InDelta(t, 48, d.Pattern().Piece("band").Notch("elastic").MM, 1e-9)
	require.True(t, n.Key(tool.Key{Name: tool.Delete}))
	require.NoError(t, d.Accept(n.Proposal()...))
	require.Nil(t, d.Pattern().Piece("band").Notch("elastic"))
	assert.Nil(t, n.Proposal())
}

func TestNotchGivesUpOnEscape(t *testing.T) {
	d := tern(t, 0)
	before := d.Document()
	n := tool.NewNotch(d)
	press(n, midEdge(t, d, "band", "hem", 0.25))
	require.NotNil(t, n.Proposal())
	assert.True(t, n.Reset())
	assert.Nil(t, n.Proposal())
	assert.Empty(t, n.Overlay())
	assert.False(t, n.Reset())
	assert.Equal(t, before, d.Document())
}

// A notch is drawn as a stroke at the cut line, and can be taken there; so can
// an edge by its cut line.
func TestNotchIsTakenByItsStroke(t *testing.T) {
	d := tern(t, 0)
	p := d.Pattern()
	for _, name := range []string{"cradle", "inner cup"} {
		pc := p.Piece(name)
		for _, old := range pc.Notches {
			e := pc.Edge(old.Edge)
			s := old.At(e.Length())
			if s < 10 || s > e.Length()-10 {
				continue
			}
			out := pc.Pose.Vector(e.Path.TangentAt(s).Perp().Mul(-1))
			at := pc.Pose.Apply(e.Path.At(s)).Add(out.Mul(e.Allowance))
			n := tool.NewNotch(d)
			n.Pointer(tool.Event{Act: tool.Hover, At: at, Reach: reach})
			require.NotEmpty(t, n.Overlay().Notes)
			assert.Equal(t, "notch "+old.Name+" of "+name, n.Overlay().Notes[0].Text)
			press(n, at)
			assert.Contains(t, n.Hint(), "Drag "+pattern.NotchSaid(old.Name))
		}
		e := pc.Edge("wire")
		s := e.Length() * 0.2
		at := pc.Pose.Apply(e.Path.At(s)).Add(pc.Pose.Vector(e.Path.TangentAt(s).Perp().Mul(-1)).Mul(e.Allowance))
		pt, ok := tool.Point(p, at, reach, tool.Ask{Kind: tool.OnEdge, Only: name})
		require.True(t, ok)
		assert.Equal(t, "wire", pt.Edge)
	}
}
