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

func TestFoldUnfoldsAHalfAndFoldsItAgain(t *testing.T) {
	d := tern(t, 0)
	f := tool.NewFold(d)
	was := d.Pattern()
	press(f, middle(t, d, "bridge"))
	assert.Contains(t, f.Hint(), "unfolds bridge")
	require.Equal(t, []step.Step{&step.Unfold{Piece: "bridge", Other: "her right"}}, f.Proposal())
	assert.NotEmpty(t, f.Overlay().Strokes)
	require.NoError(t, d.Accept(f.Proposal()...))
	f.Reset()
	require.Nil(t, d.Pattern().Piece("bridge").Fold())

	// The line of the old fold is offered at once.
	press(f, middle(t, d, "bridge"))
	assert.Contains(t, f.Hint(), "lie on each other within 0")
	require.Equal(t, "fold", field(t, f, "along").Text)
	assert.Contains(t, notes(f), "halves within 0 mm")
	require.NoError(t, d.Accept(f.Proposal()...))
	require.Equal(t, was.Piece("bridge").Edges, d.Pattern().Piece("bridge").Edges)
	d.Undo()
	d.Undo()
	require.Equal(t, was, d.Pattern())
}

func TestFoldBetweenTwoSpotsTellsTheDeviation(t *testing.T) {
	d := tern(t, 0)
	require.NoError(t, d.Accept(&step.Unfold{Piece: "bridge"}, &step.Remove{Piece: "bridge", Inner: "fold"}))
	f := tool.NewFold(d)
	press(f, middle(t, d, "bridge"))
	assert.Empty(t, f.Proposal())
	assert.Contains(t, f.Hint(), "Press two spots")
	top, hem := spotAt(t, d, pattern.AtEnd("bridge", "top", pattern.End)), spotAt(t, d, pattern.AtEnd("bridge", "hem", pattern.Start))
	press(f, top)
	release(f, top)
	press(f, hem)
	release(f, hem)
	require.Len(t, f.Proposal(), 1)
	assert.Contains(t, f.Hint(), "Enter folds bridge")
	for half, sign := range map[string]float64{"left": -1, "right": 1} { // as it lies on the mat
		require.NoError(t, f.Set("keep", half))
		require.NoError(t, d.Accept(f.Proposal()...))
		require.NotNil(t, d.Pattern().Piece("bridge").Fold())
		assert.Positive(t, sign*(middle(t, d, "bridge").X-top.X), half)
		d.Undo()
	}

	// From another place the halves do not lie on each other, and it is said by how much.
	off := midEdge(t, d, "bridge", "hem", 0.5)
	f.Reset()
	press(f, top)
	release(f, top)
	press(f, off)
	release(f, off)
	assert.Contains(t, f.Hint(), "apart")
	require.Error(t, d.Accept(f.Proposal()...))
	require.Error(t, f.Set("tolerance", "3 m"))
	require.Error(t, f.Set("pull", "3"))
	assert.True(t, f.Reset())
	assert.True(t, f.Reset())
	assert.False(t, f.Reset())
}

func TestFoldMirrorsAndLinesByKeysAlone(t *testing.T) {
	d := tern(t, 0)
	f := tool.NewFold(d)
	key := func(names ...tool.KeyName) {
		for _, n := range names {
			require.True(t, f.Key(tool.Key{Name: n, Step: 1}))
		}
	}
	walkTo(t, f, "inner cup")
	key(tool.Choose)
	require.Equal(t, []step.Step{&step.Mirror{Piece: "inner cup"}}, f.Proposal())
	require.NoError(t, f.Set("mirror", "set both hands apart"))
	require.Equal(t, []step.Step{&step.Mirror{Piece: "inner cup", Name: "inner cup right", Apart: true, Other: "her right"}}, f.Proposal())
	require.NoError(t, d.Accept(f.Proposal()...))
	d.Undo()
	key(tool.Down)
	require.NoError(t, f.Set("pull", "3"))
	require.NoError(t, f.Set("name", "inner lining"))
	require.NoError(t, f.Set("cloth", "tulle"))
	require.NoError(t, f.Set("sewn", "into the same seams"))
	require.Error(t, f.Set("name", "band"))
	three := step.Lit(3)
	require.Equal(t, []step.Step{&step.LineIt{Piece: "inner cup", Name: "inner lining", Cloth: "tulle", PullIn: &three, Sewn: true}}, f.Proposal())
	require.NoError(t, d.Accept(f.Proposal()...))
	require.NotNil(t, d.Pattern().Piece("inner lining"))

	// A whole piece is folded by keys too.
	f.Reset()
	require.NoError(t, d.Accept(&step.Unfold{Piece: "bridge"}))
	walkTo(t, f, "bridge")
	key(tool.Choose)
	require.NoError(t, f.Set("along", "two spots"))
	walkTo(t, f, "corner of top and top other of bridge")
	key(tool.Choose)
	walkTo(t, f, "corner of hem other and hem of bridge")
	key(tool.Choose)
	require.NoError(t, d.Accept(f.Proposal()...))
	require.NotNil(t, d.Pattern().Piece("bridge").Fold())
}

func TestDrawFromSpotToSpotByPulling(t *testing.T) {
	d := tern(t, 0)
	dr := tool.NewDraw(d)
	a, b := midEdge(t, d, "band", "hem", 0.4), midEdge(t, d, "band", "top", 0.5)
	press(dr, a)
	assert.Contains(t, dr.Hint(), "other end")
	drag(dr, b)
	release(dr, b)
	require.NoError(t, dr.Set("bulge", "6"))
	require.NoError(t, dr.Set("name", "style line"))
	assert.Contains(t, dr.Hint(), `Enter draws "style line" on band`)
	require.NoError(t, d.Accept(dr.Proposal()...))
	dr.Reset()
	in := d.Pattern().Piece("band").Inner
	require.Len(t, in, 1)
	assert.Equal(t, "style line", in[0].Name)
	chord := geom.Must(geom.Polyline(in[0].Path.Start(), in[0].Path.End()))
	far, _ := in[0].Path.Farthest(chord)
	assert.InDelta(t, 6, far, 1e-9)
}

func TestDrawBesideAnEdgeAndThroughPoints(t *testing.T) {
	d := tern(t, 0)
	dr := tool.NewDraw(d)
	require.NoError(t, dr.Set("how", "beside an edge"))
	press(dr, midEdge(t, d, "band", "top", 0.5))
	require.NoError(t, dr.Set("distance", "1/2 in"))
	assert.NotEmpty(t, notes(dr))
	require.NoError(t, d.Accept(dr.Proposal()...))
	dr.Reset()

	require.NoError(t, dr.Set("how", "through points"))
	at := middle(t, d, "lower outer cup")
	for _, v := range []geom.Point{geom.Pt(-20, 0), geom.Pt(0, 8), geom.Pt(15, 0)} {
		press(dr, at.Add(v))
	}
	require.NoError(t, dr.Set("curved", "in one sweep"))
	s := dr.Proposal()[0].(*step.Draw)
	require.Len(t, s.Points, 3)
	require.True(t, dr.Key(tool.Key{Name: tool.Delete}))
	require.Len(t, dr.Proposal()[0].(*step.Draw).Points, 2)
	require.True(t, dr.Key(tool.Key{Name: tool.Delete}))
	require.NoError(t, dr.Set("last", "20% 30%"))
	require.NoError(t, dr.Set("add", "50% 60%; 1 1/2 in, 2cm"))
	require.Equal(t, "38.1 mm, 20 mm", field(t, dr, "last").Text)
	for _, same := range []string{"38.1 20", "38.1 mm 20 mm", "1 1/2 20", "38.1 mm, 20 mm"} {
		require.NoError(t, dr.Set("last", same))
		require.Equal(t, "38.1 mm, 20 mm", field(t, dr, "last").Text, same)
	}
	require.ErrorContains(t, dr.Set("add", "20 3000"), "tall")
	require.ErrorContains(t, dr.Set("add", "101% 20"), "wide")
	for _, junk := range []string{"20", "20 30; 40 50", "20 30 40", "a b"} {
		require.Error(t, dr.Set("last", junk), junk)
	}
	require.NoError(t, d.Accept(dr.Proposal()...))
	pc := d.Pattern().Piece("lower outer cup")
	b := geom.Must(pc.Outline()).Bounds()
	assert.InDelta(t, 0, pc.Inner[0].Path.Start().Dist(geom.Pt(b.Min.X+0.2*b.Width(), b.Min.Y+0.3*b.Height())), 1e-6)
}

func TestDrawByKeysAlone(t *testing.T) {
	d := tern(t, 0)
	dr := tool.NewDraw(d)
	key := func(n tool.KeyName, step float64) { require.True(t, dr.Key(tool.Key{Name: n, Step: step})) }
	key(tool.Up, 1) // from "from spot to spot" back to "through points"
	require.Equal(t, "through points", field(t, dr, "how").Text)
	walkTo(t, dr, "band")
	key(tool.Choose, 0)
	key(tool.Choose, 0)
	key(tool.Right, 10)
	key(tool.Choose, 0)
	require.InDelta(t, 10, figureTried(t, d, dr, "length"), 1e-3)
	dr.Reset()
	key(tool.Down, 1)
	require.Equal(t, "from spot to spot", field(t, dr, "how").Text)
	key(tool.Down, 1)
	walkTo(t, dr, "band")
	key(tool.Choose, 0)
	walkTo(t, dr, "hem of band")
	key(tool.Choose, 0)
	require.NoError(t, d.Accept(dr.Proposal()...))
}

func figureTried(t *testing.T, d tool.Table, tl tool.Tool, name string) float64 {
	t.Helper()
	res, err := d.Try(tl.Proposal()...)
	require.NoError(t, err)
	return res.Reports[len(res.Reports)-1].Figures[name]
}
