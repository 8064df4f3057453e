package window

import (
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestWhatIsCalledOffLeavesTheFileAsItWas(t *testing.T) {
	path := filepath.Join(t.TempDir(), "out.pdf")
	require.NoError(t, os.WriteFile(path, []byte("old"), 0o644))
	w := &Window{task: &task{}}
	now := w.task
	err := now.write(path, func(o io.Writer) error {
		_, err := o.Write([]byte("first half"))
		require.NoError(t, err)
		require.True(t, w.callOff())
		_, err = o.Write([]byte("second half"))
		return err
	})
	require.ErrorIs(t, err, errCalledOff)
	require.False(t, w.callOff(), "nothing is under way any more")
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, "old", string(b))

	late := &task{}
	err = late.write(path, func(io.Writer) error {
		late.off.Store(true) // a writer that noticed nothing
		return nil
	})
	require.ErrorIs(t, err, errCalledOff)

	require.NoError(t, new(task).write(path, func(o io.Writer) error {
		_, err := o.Write([]byte("new"))
		return err
	}))
	b, err = os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, "new", string(b))
}

func TestWhatFollowsATaskIsLeftOutOnceItIsCalledOff(t *testing.T) {
	w := &Window{}
	followed := false
	w.begin(func(*task) { require.True(t, w.callOff()) }, func() { followed = true })
	require.False(t, followed)
	w.begin(func(*task) {}, func() { followed = true })
	require.True(t, followed)
	require.Nil(t, w.task)
}
