package step

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
)

func TestPushingAPieceAboutLeavesOneMove(t *testing.T) {
	run := squares()
	recipe, _, err := Recipe(nil).Append(run, Entry{ID: "a", Step: &Move{Piece: "patch", DX: Lit(5), DY: Lit(1)}})
	require.NoError(t, err)
	merged, ok := recipe.MergeMove(&Move{Piece: "patch", DX: Lit(-2), DY: Lit(4)})
	require.True(t, ok)
	require.Len(t, merged, 1)
	require.Equal(t, "a", merged[0].ID)
	require.True(t, merged.Replay(run)[0].Size.Pattern.Pieces[0].Pose.Apply(geom.Point{}).Near(geom.Pt(3, 5), 1e-12))
	require.Equal(t, Lit(5), recipe[0].Step.(*Move).DX, "the recipe before is untouched")
}

func TestMovesThatMeanMoreAreNotMerged(t *testing.T) {
	push := &Move{Piece: "patch", DX: Lit(1)}
	for name, r := range map[string]Recipe{
		"nothing before": nil,
		"another step":   {{ID: "a", Step: push}, entry("b", Lit(1))},
		"another piece":  {{ID: "a", Step: &Move{Piece: "other", DX: Lit(1)}}},
		"with a turn":    {{ID: "a", Step: &Move{Piece: "patch", Degrees: Lit(3)}}},
		"by a figure":    {{ID: "a", Step: &Move{Piece: "patch", DX: Figure("pattern.wire", 1)}}},
		"for one size":   {{ID: "a", Sizes: []string{"S"}, Step: push}},
		"switched off":   {{ID: "a", Off: true, Step: push}},
	} {
		_, ok := r.MergeMove(push)
		require.False(t, ok, name)
	}
	_, ok := Recipe{{ID: "a", Step: push}}.MergeMove(&Mark{Piece: "patch"})
	require.False(t, ok)
}
