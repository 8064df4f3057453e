package store

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
	"truemat/ops/pattern"
)

// named returns a document that can be told from others.
func named(name string) Document { return Document{Source: pattern.Run{Name: name}} }

func TestHistoryGoesBackAndForth(t *testing.T) {
	h := NewHistory(named("a")).Do(named("b")).Do(named("c"))
	require.Equal(t, "c", h.Current().Source.Name)
	back, ok := h.Undo()
	require.True(t, ok)
	require.Equal(t, "b", back.Current().Source.Name)
	require.Equal(t, 1, back.Version())
	require.Equal(t, 1, back.Ahead())
	again, ok := back.Redo()
	require.True(t, ok)
	require.Equal(t, "c", again.Current().Source.Name)
	_, ok = again.Redo()
	require.False(t, ok)

	other := back.Do(named("d"))
	require.Zero(t, other.Ahead(), "what was taken back is forgotten")
	require.Equal(t, "c", h.Current().Source.Name, "the history it came from is a value")
	again, _ = back.Redo()
	require.Equal(t, "c", again.Current().Source.Name)

	first, ok := NewHistory(named("a")).Undo()
	require.False(t, ok)
	require.Equal(t, "a", first.Current().Source.Name)
}

// A list and a place in it are the simplest history there is.
func TestHistoryBehavesAsAListWithAPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, list, at := NewHistory(named("0")), []string{"0"}, 0
		for range rapid.IntRange(0, 40).Draw(t, "acts") {
			var ok bool
			switch rapid.IntRange(0, 2).Draw(t, "act") {
			case 0:
				name := rapid.StringMatching(`[a-z]{3}`).Draw(t, "name")
				h, list, at = h.Do(named(name)), append(list[:at+1:at+1], name), at+1
			case 1:
				h, ok = h.Undo()
				require.Equal(t, at > 0, ok)
				at = max(at-1, 0)
			case 2:
				h, ok = h.Redo()
				require.Equal(t, at < len(list)-1, ok)
				at = min(at+1, len(list)-1)
			}
			require.Equal(t, list[at], h.Current().Source.Name)
			require.Equal(t, at, h.Version())
			require.Equal(t, len(list)-1-at, h.Ahead())
		}
	})
}
