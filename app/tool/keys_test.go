package tool_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/app/tool"
)

// walkTo presses Next until the tool shows what is wanted.
func walkTo(t testing.TB, tl tool.Tool, want string) {
	t.Helper()
	var seen []string
	for range 60 {
		require.True(t, tl.Key(tool.Key{Name: tool.Next}))
		for _, n := range tl.Overlay().Notes {
			if n.Text == want {
				return
			}
			seen = append(seen, n.Text)
		}
	}
	require.Failf(t, "not found by keys", "%q in %q", want, seen)
}

func geomText(mm float64) string { return strconv.FormatFloat(mm, 'f', 6, 64) + " mm" }

// The finger begins at the piece that is selected, in whichever tool.
func TestKeysBeginAtTheSelectedPiece(t *testing.T) {
	d := tern(t, 0)
	for _, tl := range tool.All(d) {
		d.Select(tool.Selection{Piece: "band"})
		if tl.Name() == "true" { // goes from seam end to seam end
			continue
		}
		if !tl.Key(tool.Key{Name: tool.Next}) {
			continue
		}
		if tl.Name() == "hand" {
			continue // has it in hand
		}
		require.Contains(t, notes(tl), "band", tl.Name())
		tl.Reset()
	}
}
