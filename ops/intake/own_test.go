package intake_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/intake"
	"truemat/ops/pattern"
	"truemat/render"
)

// drawnTern is the Tern as Truemat draws it in one size.
func drawnTern(t *testing.T) (pattern.Size, string) {
	t.Helper()
	run, err := demo.Tern()
	require.NoError(t, err)
	size, ok := run.Size("75C")
	require.True(t, ok)
	scene, err := render.PatternScene(size.Pattern, render.Options{Pattern: run.Name, Size: size.Label})
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, render.WriteSVG(&b, "Tern", scene))
	return size, b.String()
}

// A drawing of Truemat's comes back as the pieces that were drawn.
func TestOwnDrawingComesBackAsTheSamePieces(t *testing.T) {
	size, drawn := drawnTern(t)
	res, err := intake.Bring(strings.NewReader(drawn), nil, intake.Options{Name: "x"})
	require.NoError(t, err)
	require.Equal(t, "Tern", res.Run.Name)
	require.Equal(t, []string{"75C"}, res.Run.Labels())
	got := res.Run.Sizes[0].Pattern
	require.Equal(t, size.Pattern.Seams, got.Seams)
	require.Equal(t, size.Pattern.Lines, got.Lines)
	require.Equal(t, size.Pattern.Figures, got.Figures)
	require.Len(t, got.Pieces, len(size.Pattern.Pieces))
	var shift geom.Point
	for i, want := range size.Pattern.Pieces {
		is := got.Pieces[i]
		require.Equal(t, want.Name, is.Name)
		assert.Equal(t, want.Cut, is.Cut)
		assert.Equal(t, want.Notches, is.Notches, want.Name)
		assert.Equal(t, want.Arrow.Kind, is.Arrow.Kind)
		require.Len(t, is.Edges, len(want.Edges))
		if i == 0 {
			shift = is.Pose.Apply(is.Edges[0].Path.Start()).Sub(want.Pose.Apply(want.Edges[0].Path.Start()))
		}
		same := func(a, b geom.Point) {
			assert.Less(t, want.Pose.Apply(a).Add(shift).Dist(is.Pose.Apply(b)), 0.01, want.Name)
		}
		for k, e := range want.Edges {
			f := is.Edges[k]
			assert.Equal(t, []any{e.Name, e.Role, e.Allowance, e.Corner, e.Free}, []any{f.Name, f.Role, f.Allowance, f.Corner, f.Free})
			assert.InDelta(t, e.Length(), f.Length(), 0.01)
			for n := range 21 {
				at := float64(n) / 20
				same(e.Path.At(at*e.Length()), f.Path.At(at*f.Length()))
			}
		}
		same(want.Arrow.From, is.Arrow.From)
		same(want.Arrow.To, is.Arrow.To)
		require.Len(t, is.Inner, len(want.Inner))
		for k, in := range want.Inner {
			assert.Equal(t, in.Name, is.Inner[k].Name)
			same(in.Path.Start(), is.Inner[k].Path.Start())
		}
	}
	for _, p := range res.Pieces {
		assert.True(t, p.Told)
	}
}

// What was turned over and moved about comes back as it lies.
func TestOwnDrawingOfAPieceTurnedOverComesBack(t *testing.T) {
	size, _ := drawnTern(t)
	p := size.Pattern.Clone()
	pc := p.Piece("cradle")
	pose, err := geom.NewMotion(0.3, geom.Pt(40, -900), true)
	require.NoError(t, err)
	pc.Pose = pose
	pc.Marks = append(pc.Marks, pattern.Mark{Text: "ALTERED", At: geom.Pt(50, 30), Height: 6})
	scene, err := render.PatternScene(p, render.Options{Pattern: "Tern", Size: "75C"})
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, render.WriteSVG(&b, "Tern", scene))
	res, err := intake.Bring(&b, nil, intake.Options{})
	require.NoError(t, err)
	is := res.Run.Sizes[0].Pattern.Piece("cradle")
	require.True(t, is.Pose.Mirrors())
	require.InDelta(t, pc.Area(), is.Area(), 0.1)
	was := pc.Edges[0].Path.Start()
	now := is.Edges[0].Path.Start()
	assert.Less(t, pc.Marks[0].At.Sub(was).Dist(is.Marks[0].At.Sub(now)), 0.01)
	assert.Less(t, pc.Edges[1].Path.Start().Sub(was).Dist(is.Edges[1].Path.Start().Sub(now)), 0.01)
}

// What a drawing program changed is taken as it is drawn; a piece taken away
// leaves its seams without a partner; lines that no longer meet are read as
// any drawing, and that is told.
func TestOwnDrawingThatWasChanged(t *testing.T) {
	size, drawn := drawnTern(t)
	from := strings.Index(drawn, `<g id="bridge"`)
	to := strings.Index(drawn[from:], "</g>") + from + len("</g>\n")
	res, err := intake.Bring(strings.NewReader(drawn[:from]+drawn[to:]), nil, intake.Options{})
	require.NoError(t, err)
	require.Len(t, res.Run.Sizes[0].Pattern.Pieces, len(size.Pattern.Pieces)-1)
	require.Contains(t, strings.Join(res.Notes, " "), "lacks a piece")

	at := strings.Index(drawn, `data-name="hem" d="M`) + len(`data-name="hem" d="M`)
	res, err = intake.Bring(strings.NewReader(drawn[:at]+"1"+drawn[at:]), nil, intake.Options{Name: "x"})
	require.NoError(t, err)
	require.Contains(t, strings.Join(res.Notes, " "), "read as any drawing")
	for _, p := range res.Pieces {
		require.False(t, p.Told)
	}
}

// Without the words that say so, the drawing's second line inside its outline
// tells that the outline is the cut line, and arrows stand inside.
func TestALineInsideTellsOfACutLine(t *testing.T) {
	size, drawn := drawnTern(t)
	res, err := intake.Bring(strings.NewReader(drawn), nil, intake.Options{Name: "x", Drawn: intake.SewLine})
	require.NoError(t, err)
	require.Len(t, res.Pieces, len(size.Pattern.Pieces))
	for i, p := range res.Pieces {
		assert.InDelta(t, 6.35, p.Inside, 0.3, p.Piece)
		pc := res.Run.Sizes[0].Pattern.Pieces[i]
		o, err := pc.Outline()
		require.NoError(t, err)
		assert.True(t, o.Contains(pc.Arrow.From) && o.Contains(pc.Arrow.To), p.Piece)
	}
	_, err = intake.Bring(strings.NewReader(drawn), nil, intake.Options{Drawn: intake.CutLine})
	require.ErrorContains(t, err, "allowance must be stated")
}

// Where both lines are drawn and the outer one is said to be the cut line, the
// inner one is the sew line as it is.
func TestASewLineDrawnInsideIsTaken(t *testing.T) {
	size, drawn := drawnTern(t)
	res, err := intake.Bring(strings.NewReader(drawn), nil, intake.Options{Name: "x", Drawn: intake.CutLine, Allowance: 6.35})
	require.NoError(t, err)
	for _, name := range []string{"inner cup", "upper outer cup", "lower outer cup", "cradle"} {
		want, is := size.Pattern.Piece(name), res.Run.Sizes[0].Pattern.Piece(strings.ReplaceAll(name, " ", "-"))
		require.NotNil(t, is, name)
		require.Len(t, is.Edges, len(want.Edges), name)
		assert.InDelta(t, want.Area(), is.Area(), 0.5, name)
		assert.Len(t, is.Notches, len(want.Notches), name)
		widths := map[float64]int{}
		for k := range want.Edges {
			widths[want.Edges[k].Allowance]++
			widths[is.Edges[k].Allowance]--
		}
		for w, n := range widths {
			assert.Zero(t, n, "%s: %g mm", name, w)
		}
	}
}
