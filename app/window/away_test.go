package window

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"truemat/app/desk"
	"truemat/ops/demo"
	"truemat/ops/intake"
	"truemat/ops/step"
	"truemat/ops/store"
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

// Opening a big file ends soon after it is called off, and what is on the mat
// stays.
func TestOpeningThatIsCalledOffEnds(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	doc := store.Document{Source: run, Recipe: demo.TernInLace()}
	for i := range 400 { // some seconds to replay
		doc.Recipe = append(doc.Recipe, step.Entry{ID: fmt.Sprint("m", i), Step: &step.Mark{Piece: "band", Text: fmt.Sprint(i)}})
	}
	path := filepath.Join(t.TempDir(), "big.truemat")
	require.NoError(t, store.Save(path, doc))
	ctx, end := context.WithCancel(context.Background())
	done := make(chan error)
	go func() {
		_, err := load(ctx, path)
		done <- err
	}()
	time.Sleep(50 * time.Millisecond)
	end()
	require.ErrorIs(t, <-done, context.Canceled)

	_, err = load(ctx, path)
	require.ErrorIs(t, err, context.Canceled, "not begun at all")
	_, err = desk.NewContext(ctx, doc, path)
	require.ErrorIs(t, err, context.Canceled)
	svg := filepath.Join(t.TempDir(), "a.svg")
	require.NoError(t, os.WriteFile(svg, []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm"/>`), 0o644))
	_, err = read(ctx, svg, "", intake.Options{})
	require.ErrorIs(t, err, context.Canceled)
	w := &Window{}
	w.begin(func(now *task) {
		require.NoError(t, now.ctx.Err())
		require.True(t, w.callOff())
		require.Error(t, now.ctx.Err())
	}, nil)
}
