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

// Once a spot was taken the keys go on from there, round the piece either way.
func TestKeysGoOnFromTheSpotThatWasTaken(t *testing.T) {
	d := tern(t, 0)
	round := tool.NewRuler(d)
	var all []string
	d.Select(tool.Selection{Piece: "band"})
	require.True(t, round.Key(tool.Key{Name: tool.Next}))
	require.True(t, round.Key(tool.Key{Name: tool.Choose}))
	for len(all) < 2 || notes(round) != all[0] {
		all = append(all, notes(round))
		require.True(t, round.Key(tool.Key{Name: tool.Next}))
	}
	for at := range all {
		for _, to := range []struct {
			key  tool.KeyName
			next int
		}{{tool.Next, at + 1}, {tool.Previous, at + len(all) - 1}} {
			tl := tool.NewRuler(d)
			require.True(t, tl.Key(tool.Key{Name: tool.Next}))
			require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
			for range at {
				require.True(t, tl.Key(tool.Key{Name: tool.Next}))
			}
			require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
			require.True(t, tl.Key(tool.Key{Name: to.key}))
			require.Contains(t, notes(tl), all[to.next%len(all)])
		}
	}
}
