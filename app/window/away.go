package window

import (
	"context"
	"errors"
	"io"
	"sync/atomic"

	"fyne.io/fyne/v2"
	"truemat/ops/store"
)

// away does work that may take long away from the window's thread, and then
// what follows from it on that thread. Before the window runs, as in tests and
// pictures, it all happens at once.
func (w *Window) away(work, then func()) {
	if !w.running {
		work()
		then()
		return
	}
	go func() {
		work()
		fyne.Do(then)
	}()
}

// task is work away from the window's thread that Escape calls off.
type task struct {
	off atomic.Bool
	ctx context.Context // done once it is called off
	end context.CancelFunc
}

var errCalledOff = errors.New("it was called off")

// begin does a task away from the window's thread and then what follows from
// it, unless it was called off meanwhile.
func (w *Window) begin(work func(*task), then func()) {
	t := &task{}
	t.ctx, t.end = context.WithCancel(context.Background())
	w.task = t
	w.away(func() { work(t) }, func() {
		t.end()
		if t.off.Load() {
			return
		}
		if w.task == t {
			w.task = nil
		}
		then()
	})
}

// callOff calls off the task that is under way; false when there is none.
func (w *Window) callOff() bool {
	if w.task == nil {
		return false
	}
	w.task.off.Store(true)
	if w.task.end != nil {
		w.task.end()
	}
	w.task = nil
	return true
}

// write writes a file as [store.WriteFile] does; once the task is called off
// the file stays as it was.
func (t *task) write(path string, write func(io.Writer) error) error {
	return store.WriteFile(path, func(o io.Writer) error {
		if err := write(watched{o, t}); err != nil {
			return err
		}
		if t.off.Load() {
			return errCalledOff
		}
		return nil
	})
}

// watched is a writer that refuses to go on once its task is called off.
type watched struct {
	io.Writer
	task *task
}

func (w watched) Write(b []byte) (int, error) {
	if w.task.off.Load() {
		return 0, errCalledOff
	}
	return w.Writer.Write(b)
}
