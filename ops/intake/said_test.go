package intake

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/pattern"
)

func TestTheMakerHasTheLastWordOnNamesAndRoles(t *testing.T) {
	c, err := ReadCompanion(strings.NewReader("size L in big\nsize S in small\npiece plate\n"))
	require.NoError(t, err)
	bring := func(opt Options) (Result, error) { return Bring(strings.NewReader(twoPlates), c, opt) }
	plain, err := bring(Options{})
	require.NoError(t, err)
	on := func(x, y float64, role pattern.Role, name string) Said {
		return Said{Piece: "plate", At: plain.Origin.Add(geom.Pt(x, y)), Role: role, Name: name}
	}
	res, err := bring(Options{
		Said:  []Said{on(0, 30, pattern.Fold, "centre"), on(50, 0, pattern.Neckline, ""), on(50, 0, pattern.Hem, "hem"), on(99, 28, "", "side")},
		Names: map[string]string{"plate": "front"},
	})
	require.NoError(t, err)
	for _, s := range res.Run.Sizes {
		pc := s.Pattern.Piece("front")
		require.NotNil(t, pc, s.Label)
		require.Equal(t, pattern.Fold, pc.Edge("centre").Role, s.Label)
		require.Equal(t, pattern.Hem, pc.Edge("hem").Role, "what is said last holds")
		require.InDelta(t, pc.Edge("hem").Path.Start().Y, 0, 1e-9)
		require.Equal(t, pattern.SeamEdge, pc.Edge("side").Role)
		require.True(t, pc.Edge("side").Free, "a seam without a partner yet")
	}
	require.Equal(t, "front", res.Pieces[0].Piece)
	require.Equal(t, "plate", res.Pieces[0].As)

	// Two edges change names.
	names := plain.Run.Sizes[0].Pattern.Pieces[0]
	var said []Said
	for i, e := range names.Edges[:2] {
		m := e.Path.At(e.Length() / 2)
		said = append(said, on(m.X, m.Y, "", names.Edges[1-i].Name))
	}
	res, err = bring(Options{Said: said})
	require.NoError(t, err)
	got := res.Run.Sizes[0].Pattern.Pieces[0]
	require.Equal(t, names.Edges[1].Name, got.Edges[0].Name)
	require.Equal(t, names.Edges[0].Name, got.Edges[1].Name)

	_, err = bring(Options{Said: []Said{on(0, 30, "", "side"), on(100, 30, "", "side")}})
	require.ErrorContains(t, err, `two edges of a piece cannot both be called "side"`)
	_, err = bring(Options{Said: []Said{on(0, 30, pattern.Fold, ""), on(100, 30, pattern.Fold, "")}})
	require.ErrorContains(t, err, "fold")
}

func TestAnEdgeOnTheFoldHasItsSewLineWhereTheCutLineIsDrawn(t *testing.T) {
	svg := `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="200mm" viewBox="0 0 300 200"><path id="plate" d="M20 20 h100 v60 h-100 z"/></svg>`
	opt := Options{Allowance: 6}
	plain, err := Bring(strings.NewReader(svg), nil, opt)
	require.NoError(t, err)
	name := plain.Run.Sizes[0].Pattern.Pieces[0].Name
	opt.Said = []Said{{Piece: name, At: plain.Origin.Add(geom.Pt(0, 24)), Role: pattern.Fold}}
	res, err := Bring(strings.NewReader(svg), nil, opt)
	require.NoError(t, err)
	o, err := res.Run.Sizes[0].Pattern.Pieces[0].Outline()
	require.NoError(t, err)
	require.InDelta(t, 94, o.Bounds().Width(), 1e-6, "only the other side has an allowance")
	require.InDelta(t, 48, o.Bounds().Height(), 1e-6)
}
