package desk

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/ops/store"
)

func TestJournalFollowsWhatIsNotSaved(t *testing.T) {
	dir := t.TempDir()
	d, j := tern(t), store.NewJournal(filepath.Join(dir, "state"))
	d.Keep(j)
	require.NoFileExists(t, j.File(), "a demo looked at is no work")
	require.NoError(t, d.Accept(move("band", 1, 1)))
	require.NoError(t, d.Trouble())
	require.FileExists(t, j.File())
	d.Undo()
	require.NoFileExists(t, j.File())
	d.Redo()
	require.FileExists(t, j.File())

	require.NoError(t, d.Save(filepath.Join(dir, "a.truemat")))
	require.NoFileExists(t, j.File())
	d.Undo()
	require.FileExists(t, j.File(), "it differs from what is on disk")
	require.NoError(t, d.Close())
	require.NoFileExists(t, j.File())
	d.Redo()
	require.NoFileExists(t, j.File(), "after closing nothing is kept")
	require.NoError(t, d.Close())
}

func TestRecoveredWorkIsUnsavedAndKeptAgain(t *testing.T) {
	dir := t.TempDir()
	left := filepath.Join(dir, "1-1-1.journal")
	first := inLace(t)
	require.NoError(t, os.WriteFile(left, nil, 0o600))
	d, err := Recover(store.Lost{Journal: left, Path: "/her/a.truemat", Document: first.Document()})
	require.NoError(t, err)
	require.True(t, d.Unsaved())
	require.Equal(t, "/her/a.truemat", d.Path())
	require.Equal(t, bytesOf(t, first), bytesOf(t, d))
	j := store.NewJournal(dir)
	d.Keep(j)
	require.NoError(t, d.Trouble())
	require.FileExists(t, j.File())
	offAndOn(t, d)
	require.FileExists(t, j.File())
	require.NoError(t, d.Accept(move("band", 1, 1)))
	d.Undo()
	require.FileExists(t, j.File(), "undone to what was recovered, which is still on disk nowhere else")
	require.NoError(t, d.Save(filepath.Join(dir, "a.truemat")))
	require.NoFileExists(t, j.File())

	_, err = Recover(store.Lost{Damage: errors.New("cut short")})
	require.ErrorContains(t, err, "cut short")
}

func TestTroubleTellsThatWorkIsNotKept(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	d := tern(t)
	d.Keep(store.NewJournal(file))
	before := d.Document()
	require.NoError(t, d.Accept(move("band", 1, 1)), "the act itself is done")
	require.NotEqual(t, len(before.Recipe), len(d.Document().Recipe))
	require.ErrorContains(t, d.Trouble(), "unsaved work cannot be kept")
	require.NoError(t, os.Remove(file))
	require.NoError(t, d.Accept(move("bridge", 1, 1)))
	require.NoError(t, d.Trouble())
}

// The desk is used on while the disk is slow.
func TestWhatIsDoneWhileTheDocumentIsBeingSavedIsUnsaved(t *testing.T) {
	d := tern(t)
	path := filepath.Join(t.TempDir(), "a.truemat")
	require.NoError(t, d.Accept(move("band", 1, 1)))
	write, done := d.Saving(path)
	require.NoError(t, d.Accept(move("cradle", 2, 2)))
	require.NoError(t, write())
	done()
	require.Equal(t, path, d.Path())
	require.True(t, d.Unsaved())
	doc, err := store.Load(path)
	require.NoError(t, err)
	require.Len(t, doc.Recipe, 1)
	d.Undo()
	require.False(t, d.Unsaved(), "this is what the disk has")

	write, done = d.Saving(path)
	d.Undo()
	require.NoError(t, d.Accept(move("band", 3, 3)))
	require.NoError(t, write())
	done()
	require.True(t, d.Unsaved(), "as many changes as were saved, but another one")
}
