package window

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/ops/step"
	"truemat/ops/store"
)

// nudged pushes the band, so that there is work to keep.
func (w *Window) nudged() {
	w.desk.Select(tool.Selection{Piece: "band"})
	w.key(&fyne.KeyEvent{Name: fyne.KeyUp})
	w.key(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// orphan gives a journal to a program that runs no more, as if this one had
// been killed.
func orphan(t *testing.T, file string) string {
	t.Helper()
	cmd := exec.Command(os.Args[0], "-test.run=^$")
	require.NoError(t, cmd.Run())
	dir, name := filepath.Split(file)
	gone := filepath.Join(dir, regexp.MustCompile(`^\d+`).ReplaceAllString(name, strconv.Itoa(cmd.Process.Pid)))
	require.NoError(t, os.Rename(file, gone))
	return gone
}

func TestUnsavedWorkIsOfferedBackAfterACrash(t *testing.T) {
	dir := t.TempDir()
	w := open(t, false)
	w.startJournal(dir)
	require.Nil(t, w.sheet, "there is nothing to offer")
	path := filepath.Join(t.TempDir(), "a.truemat")
	w.saveTo(path, w.complain, nil)
	w.nudged()
	w.journal.idle.Wait()
	lost, gone := w.written(t), orphan(t, w.journal.file.File())

	next := open(t, false)
	next.startJournal(dir)
	require.NotNil(t, next.sheet, "it offers the work")
	all, err := store.LostIn(dir)
	require.NoError(t, err)
	require.Len(t, all, 1)
	next.sheet.close()
	require.FileExists(t, gone, "no answer loses nothing")
	next.recover(all[0])
	require.Equal(t, lost, next.written(t))
	require.Equal(t, path, next.desk.Path(), "it belongs where it was saved last")
	require.True(t, next.desk.WorthKeeping())
	require.NoFileExists(t, gone)
	require.False(t, next.menus.undo.Disabled, "its last step can be taken back")
	steps := len(next.desk.Document().Recipe)
	next.undo()
	require.Len(t, next.desk.Document().Recipe, steps-1)
	next.redo()
	require.Equal(t, lost, next.written(t))
	require.FileExists(t, next.journal.file.File())

	next.saveTo(path, next.complain, nil)
	next.journal.idle.Wait()
	require.NoFileExists(t, next.journal.file.File(), "saved work needs no journal")
}

func TestDamagedJournalIsToldAndLeft(t *testing.T) {
	dir := t.TempDir()
	w := open(t, false)
	w.startJournal(dir)
	w.nudged()
	w.journal.idle.Wait()
	gone := orphan(t, w.journal.file.File())
	require.NoError(t, os.Truncate(gone, 100))

	next := open(t, false)
	next.startJournal(dir)
	require.Nil(t, next.sheet)
	require.ErrorContains(t, next.prompt.said, filepath.Base(gone))
	require.FileExists(t, gone)
}

func TestWorkThatCannotBeKeptIsTold(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	w := open(t, false)
	var told []error
	w.journal = &journal{file: store.NewJournal(file), trouble: func(err error) { told = append(told, err) }}
	w.desk.Keep(w.journal)
	w.journal.idle.Wait()
	w.nudged()
	w.journal.idle.Wait()
	require.NotEmpty(t, told)
	require.ErrorContains(t, told[len(told)-1], "unsaved work cannot be kept")
	require.NoError(t, os.Remove(file))
	w.undo()
	w.redo()
	w.journal.idle.Wait()
	require.NoError(t, told[len(told)-1])
	require.FileExists(t, w.journal.file.File())
}

func TestALessonGoesOnWithWorkThatIsTakenUpAgain(t *testing.T) {
	dir := t.TempDir()
	w := open(t, false)
	w.startJournal(dir)
	w.startLesson()
	require.NoError(t, w.lesson.Do())
	require.NoError(t, w.lesson.Do())
	w.journal.idle.Wait()
	orphan(t, w.journal.file.File())

	tern := open(t, false)
	tern.set = w.set
	tern.startJournal(dir)
	all, err := store.LostIn(dir)
	require.NoError(t, err)
	require.Len(t, all, 1)
	tern.recover(all[0])
	require.NotNil(t, tern.lesson)
	done, _ := tern.lesson.Progress()
	require.Equal(t, 2, done)

	tern.endLesson()
	tern.lessonAgain()
	require.Nil(t, tern.lesson, "one that was closed stays so")
}

func TestALessonKeepsItsMarksOffOtherWork(t *testing.T) {
	w := open(t, false)
	w.startLesson()
	require.NoError(t, w.desk.Accept(&step.Mark{Piece: "band", Text: "MINE"}))
	w.lesson = nil
	w.lessonAgain()
	require.Nil(t, w.lesson, "what was done is none of its acts")
	w.startLesson()
	require.NotNil(t, w.lesson, "the menu begins it all the same")
}
