package window

import (
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/ops/store"
)

func TestUnsavedWorkIsOfferedBackAfterACrash(t *testing.T) {
	dir := t.TempDir()
	w := open(t, false)
	w.startJournal(dir)
	w.desk.Select(tool.Selection{Piece: "band"})
	w.key(&fyne.KeyEvent{Name: fyne.KeyUp})
	w.key(&fyne.KeyEvent{Name: fyne.KeyReturn})
	w.journal.idle.Wait()
	lost := w.written(t)
	doc, err := store.Load(w.journal.path)
	require.NoError(t, err)
	require.Len(t, doc.Recipe, 1)

	// As if that program had been killed: its journal bears a process that is gone.
	cmd := exec.Command(os.Args[0], "-test.run=^$")
	require.NoError(t, cmd.Run())
	gone := filepath.Join(dir, journalStem+strconv.Itoa(cmd.Process.Pid)+ending)
	require.NoError(t, os.Rename(w.journal.path, gone))

	next := open(t, false)
	require.Nil(t, next.sheet)
	next.startJournal(dir)
	require.NotNil(t, next.sheet, "it offers the work")
	require.Equal(t, []string{gone}, next.journal.left())
	next.sheet.close()
	next.recover(gone, doc)
	require.Equal(t, lost, next.written(t))
	require.True(t, next.unsaved())
	require.NoFileExists(t, gone)
	require.FileExists(t, next.journal.path)

	next.saveTo(filepath.Join(t.TempDir(), "a.truemat"), nil)
	next.journal.idle.Wait()
	require.NoFileExists(t, next.journal.path, "saved work needs no journal")
}

func TestJournalOfARunningProgramIsLeftAlone(t *testing.T) {
	dir := t.TempDir()
	j := newJournal(dir)
	require.NoError(t, os.WriteFile(j.path, []byte("{}"), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, journalStem+"x"+ending), nil, 0o644))
	require.Empty(t, j.left())
}
