package window

import (
	"fmt"
	"os"
	"time"
)

// FramesVariable names a file to which the window writes its frames: a line
// "base" or "moving" with nanoseconds when a layer of the mat was painted, and
// a line "shown" when a movement of the pointer was shown, also where it left
// the layers as they were (a piece that snapped to another stays where it is).
// It is there to measure frames with.
const FramesVariable = "TRUEMAT_FRAMES"

// logFrames writes down every frame, when that is asked for.
func (w *Window) logFrames() error {
	path := os.Getenv(FramesVariable)
	if path == "" {
		return nil
	}
	f, err := os.OpenFile(path, os.O_CREATE|os.O_WRONLY|os.O_APPEND, 0o644)
	if err != nil {
		return err
	}
	write := func(what string) { fmt.Fprintln(f, what, time.Now().UnixNano()) }
	w.mat.OnPaint = func(moving bool) {
		if moving {
			write("moving")
		} else {
			write("base")
		}
	}
	show := w.beat.show
	w.beat.show = func() { show(); write("shown") }
	return nil
}
