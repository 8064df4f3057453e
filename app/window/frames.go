package window

import (
	"fmt"
	"os"
	"time"
)

// FramesVariable names a file to which the window writes when the mat was
// painted: a line "base" or "moving" with nanoseconds for every layer that
// went to the display. It is there to measure frames with.
const FramesVariable = "TRUEMAT_FRAMES"

// logFrames writes down every painting of the mat, when that is asked for.
func (w *Window) logFrames() error {
	path := os.Getenv(FramesVariable)
	if path == "" {
		return nil
	}
	f, err := os.OpenFile(path, os.O_CREATE|os.O_WRONLY|os.O_APPEND, 0o644)
	if err != nil {
		return err
	}
	w.mat.OnPaint = func(moving bool) {
		layer := "base"
		if moving {
			layer = "moving"
		}
		fmt.Fprintln(f, layer, time.Now().UnixNano())
	}
	return nil
}
