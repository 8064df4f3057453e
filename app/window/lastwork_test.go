package window

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// After a start without a file the one that was worked on last is offered beside
// the mat, opened by one press; none that is gone, and none once there is one.
func TestTheFileWorkedOnLastIsOffered(t *testing.T) {
	w := open(t, false)
	w.offerLast()
	require.NotContains(t, told(w.column.list), "Last time", "nothing was worked on yet")
	gone := filepath.Join(t.TempDir(), "gone.truemat")
	mine := filepath.Join(t.TempDir(), "mine.truemat")
	require.NoError(t, os.WriteFile(mine, []byte(w.written(t)), 0o600))
	w.set.SetStringList(prefRecent, []string{gone, mine})
	w.offerLast()
	require.Contains(t, told(w.column.list), "You worked on mine.truemat")
	for _, f := range reachable(w.column.list) {
		if b, ok := f.(*touch); ok && b.name == "open last" {
			b.Tapped(nil)
			break
		}
	}
	require.Equal(t, mine, w.desk.Path())
	require.NotContains(t, told(w.column.list), "Last time")
	w.offerLast()
	require.NotContains(t, told(w.column.list), "Last time")
}
