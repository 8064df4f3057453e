package window

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/step"
	"truemat/ops/store"
)

func TestASaveThatIsAskedForDuringAnotherComesAfterIt(t *testing.T) {
	w := open(t, true)
	path, went := filepath.Join(t.TempDir(), "a.truemat"), false
	w.saves.under = "slow.truemat" // on its way
	w.saveTo(path, func(err error) { require.NoError(t, err) }, func() { went = true })
	require.NoFileExists(t, path)
	require.False(t, went)
	require.NoError(t, w.desk.Accept(&step.Mark{Piece: "band", Text: "left"}))
	steps := len(w.desk.Document().Recipe)

	w.saves.under = ""
	for _, save := range w.saves.then {
		save()
	}
	require.True(t, went)
	require.False(t, w.desk.Unsaved())
	doc, err := store.Load(path)
	require.NoError(t, err)
	require.Len(t, doc.Recipe, steps, "as it is when its turn comes")
	w.saves.writing.Wait()
}

// A document that has no file yet is offered a name that writes over no other.
func TestAFreeNameIsOfferedToSaveUnder(t *testing.T) {
	w := open(t, false)
	dir := t.TempDir()
	w.set.SetString(prefFolder, dir)
	first := w.freeName()
	require.NoError(t, os.WriteFile(filepath.Join(dir, first), nil, 0o600))
	require.Equal(t, strings.TrimSuffix(first, ending)+" 2"+ending, w.freeName())
}
