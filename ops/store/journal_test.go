package store

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/step"
)

// journalTo, when set, turns the test program into one that works on a
// document and keeps a journal in that folder until it is killed.
const journalTo = "TRUEMAT_TEST_JOURNAL"

func TestMain(m *testing.M) {
	if dir := os.Getenv(journalTo); dir != "" {
		work(dir)
	}
	os.Exit(m.Run())
}

// work moves a piece over and over, tells each move once it is kept, and never ends.
func work(dir string) {
	j := NewJournal(dir)
	d := sample(nopTB{})
	for i := 1; ; i++ {
		d.Recipe = step.Recipe{{ID: "over", Step: &step.Move{Piece: "patch", DX: step.Lit(float64(i))}}}
		if err := j.Write(d, "/somewhere/a.truemat"); err != nil {
			fmt.Println(err)
			os.Exit(1)
		}
		fmt.Println(i)
	}
}

// nopTB lets sample run outside of a test.
type nopTB struct{ testing.TB }

func (nopTB) Helper()               {}
func (nopTB) Errorf(string, ...any) {}
func (nopTB) FailNow()              { os.Exit(1) }

func TestWorkOfAKilledProcessIsFoundWithItsLastAct(t *testing.T) {
	dir := t.TempDir()
	for round := range 3 {
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(os.Environ(), journalTo+"="+dir)
		out, err := cmd.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, cmd.Start())
		lines, last := bufio.NewScanner(out), 0
		for last < 3+round*7 && lines.Scan() {
			_, err := fmt.Sscan(lines.Text(), &last)
			require.NoError(t, err, lines.Text())
		}
		lost, err := LostIn(dir)
		require.NoError(t, err)
		require.Empty(t, lost, "the process still runs")

		require.NoError(t, cmd.Process.Kill())
		for lines.Scan() {
			_, _ = fmt.Sscan(lines.Text(), &last)
		}
		_ = cmd.Wait()

		lost, err = LostIn(dir)
		require.NoError(t, err)
		require.Len(t, lost, 1)
		require.NoError(t, lost[0].Damage)
		assert.Equal(t, "/somewhere/a.truemat", lost[0].Path)
		assert.WithinDuration(t, time.Now(), lost[0].When, time.Minute)
		dx, err := lost[0].Document.Recipe[0].Step.(*step.Move).DX.In(step.Input{})
		require.NoError(t, err)
		assert.Contains(t, []float64{float64(last), float64(last + 1)}, dx, "what was told to be kept, or the act after it")

		require.NoError(t, lost[0].Discard())
		left, err := os.ReadDir(dir)
		require.NoError(t, err)
		require.Empty(t, left, "nothing half-written stays behind")
	}
}

func TestJournalsOfOneProcessAreApartAndNotLost(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "not", "made")
	lost, err := LostIn(dir)
	require.NoError(t, err)
	require.Empty(t, lost)

	a, b := NewJournal(dir), NewJournal(dir)
	require.NotEqual(t, a.File(), b.File())
	require.NoError(t, a.Clear(), "nothing was written yet")
	require.NoError(t, a.Write(sample(t), ""))
	require.NoError(t, b.Write(sample(t), "b.truemat"))
	lost, err = LostIn(dir)
	require.NoError(t, err)
	require.Empty(t, lost)

	path, doc, err := readBack(b.File())
	require.NoError(t, err)
	require.Equal(t, written(t, sample(t)), written(t, doc))
	require.True(t, filepath.IsAbs(path))

	require.NoError(t, a.Clear())
	require.NoFileExists(t, a.File())
	require.FileExists(t, b.File())
	st, err := os.Stat(dir)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o700), st.Mode().Perm(), "for nobody else to read")
}

func readBack(file string) (string, Document, error) {
	f, err := os.Open(file)
	if err != nil {
		return "", Document{}, err
	}
	defer f.Close()
	return decodeJournal(f)
}

func TestDamagedJournalsAreReportedAndStay(t *testing.T) {
	dir := t.TempDir()
	j := NewJournal(dir)
	require.NoError(t, j.Write(sample(t), "/a.truemat"))
	good, err := os.ReadFile(j.File())
	require.NoError(t, err)
	// The number of this process, begun at another time: a process that is gone.
	gone := func(n int) string {
		return filepath.Join(dir, fmt.Sprintf("%d-1-%d%s", os.Getpid(), n, journalSuffix))
	}
	for i, b := range [][]byte{nil, []byte("{"), good[:len(good)/2], []byte(`{"format":"other"}`), []byte(`{"format":"truemat journal","document":{"format":"truemat pattern","version":1}}`)} {
		require.NoError(t, os.WriteFile(gone(i), b, 0o600))
	}
	require.NoError(t, os.WriteFile(gone(9), good, 0o600))
	require.NoError(t, os.WriteFile(gone(8)+".77.tmp", good[:9], 0o600))
	for _, name := range []string{"notes.txt", "a-b-c.journal", "12.journal"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), good, 0o600))
	}

	lost, err := LostIn(dir)
	require.NoError(t, err)
	require.Len(t, lost, 6)
	for _, l := range lost {
		require.FileExists(t, l.Journal)
		if l.Journal == gone(9) {
			require.NoError(t, l.Damage)
			require.Equal(t, "/a.truemat", l.Path)
			continue
		}
		require.ErrorContains(t, l.Damage, l.Journal)
		require.Empty(t, l.Path)
	}
	require.NoFileExists(t, gone(8)+".77.tmp")
	require.FileExists(t, filepath.Join(dir, "notes.txt"))
}

func TestJournalThatCannotBeWrittenSaysSo(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	require.ErrorContains(t, NewJournal(file).Write(sample(t), ""), "unsaved work cannot be kept")
	_, err := LostIn(file)
	require.ErrorContains(t, err, "unsaved work cannot be looked for")
}

func TestJournalFolderIsTheStateFolder(t *testing.T) {
	t.Setenv("HOME", "/home/her")
	for env, want := range map[string]string{
		"":           "/home/her/.local/state/truemat",
		"/run/state": "/run/state/truemat",
		"relative":   "/home/her/.local/state/truemat", // to be ignored, says the specification
	} {
		t.Setenv("XDG_STATE_HOME", env)
		dir, err := JournalFolder()
		require.NoError(t, err)
		require.Equal(t, want, dir)
	}
}
