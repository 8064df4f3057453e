package window

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
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

// One key opens it, which is told beside the mat and in the menu; with it open the
// key is that of the file before.
func TestTheFileWorkedOnLastHasAKey(t *testing.T) {
	w := open(t, false)
	dir := t.TempDir()
	var paths []string
	for _, name := range []string{"mine.truemat", "before.truemat"} {
		paths = append(paths, filepath.Join(dir, name))
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(w.written(t)), 0o600))
	}
	w.set.SetStringList(prefRecent, append([]string{filepath.Join(dir, "gone.truemat")}, paths...))
	w.menu()
	w.offerLast()
	require.Contains(t, told(w.column.list), "Ctrl+Shift+O opens it too.")
	for _, want := range paths {
		var keyed []*fyne.MenuItem
		for _, m := range everyMenu(w) {
			for _, item := range m.Items {
				if k, ok := item.Shortcut.(*desktop.CustomShortcut); ok && k.KeyName == fyne.KeyO && k.Modifier&fyne.KeyModifierShift != 0 {
					keyed = append(keyed, item)
				}
			}
		}
		require.Len(t, keyed, 1)
		require.Equal(t, filepath.Base(want), keyed[0].Label)
		keyed[0].Action()
		require.Equal(t, want, w.desk.Path())
	}
	require.Equal(t, paths[0], w.lastWork(), "to and fro")
}
