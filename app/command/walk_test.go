package command

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

type walked struct {
	Size, Seam string
	From       string `json:"walked_from"`
	Rows       []struct {
		From, To   string
		A          *float64 `json:"a_mm"`
		B          *float64 `json:"b_mm"`
		Difference *float64 `json:"difference_mm"`
		Ease       *float64 `json:"ease_mm"`
	}
}

func TestWalkTellsASeamFromNotchToNotch(t *testing.T) {
	doc := filepath.Join(t.TempDir(), "tern.truemat")
	fine(t, "demo", "--out", doc)
	var one walked
	require.NoError(t, json.Unmarshal([]byte(fine(t, "walk", doc, "--seam", "wire seam", "--size", "75C", "--json")), &one))
	require.Equal(t, "wire seam", one.Seam)
	require.Equal(t, "75C", one.Size)
	require.Len(t, one.Rows, 4)
	require.Equal(t, "start", one.Rows[0].From)
	require.Equal(t, "bottom", one.Rows[2].From)
	sum := 0.0
	for _, r := range one.Rows {
		require.InDelta(t, 0, *r.Difference, 1e-6)
		require.InDelta(t, *r.A, *r.B, 1e-6)
		require.Zero(t, *r.Ease)
		sum += *r.B
	}
	m := measure(t, doc)
	for _, s := range m.Sizes {
		if s.Size == "75C" {
			require.InDelta(t, s.Seams[2].B, sum, 1e-9)
		}
	}

	var all struct {
		Pattern string
		Sizes   []walked
	}
	require.NoError(t, json.Unmarshal([]byte(fine(t, "walk", doc, "--seam", "vertical seam", "--all", "--from", "end", "--json")), &all))
	require.Len(t, all.Sizes, len(m.Sizes))
	require.Equal(t, "above apex", all.Sizes[3].Rows[0].To)

	// A notch of the one side that is moved by 2 mm, and one that is gone.
	steps := filepath.Join(t.TempDir(), "steps.json")
	require.NoError(t, os.WriteFile(steps, []byte(`[
		{"id": "a", "do": "notch", "act": "move", "piece": "inner cup", "name": "below apex", "edge": "vertical seam", "mm": 40},
		{"id": "b", "do": "notch", "act": "delete", "piece": "upper outer cup", "name": "above apex"}
	]`), 0o644))
	fine(t, "alter", doc, "--steps", steps, "--out", doc)
	text := fine(t, "walk", doc, "--seam", "vertical seam")
	require.Contains(t, text, "side A")
	require.Contains(t, text, `notch "above apex" of inner cup has no partner`)
}
