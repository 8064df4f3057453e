package walk

import (
	"cmp"
	"slices"

	"truemat/ops/pattern"
)

// Stop is a place at which a walk halts.
type Stop struct {
	A, B float64 // walked there on each side
	What StopAt
	Side Hand               // of the notch, corner or joint; empty at the ends of the walk
	Of   *pattern.SeamNotch // of a notch
}

// StopAt says what is at a stop.
type StopAt string

// What a walk halts at.
const (
	StopStart  StopAt = "start"
	StopNotch  StopAt = "notch"
	StopCorner StopAt = "corner" // or where a side goes on on another piece
	StopEnd    StopAt = "end"
)

// Stops returns where the walk halts, in its order: start, notches and corners
// of both sides, end.
func (w *Walk) Stops() []Stop {
	end, _ := w.End()
	out := []Stop{{What: StopStart}}
	add := func(h Hand, at float64, what StopAt, of *pattern.SeamNotch) {
		s := Stop{A: at, B: at, What: what, Side: h, Of: of}
		if h == A {
			s.B = w.Ease.B(at)
		} else {
			s.A = w.Ease.A(at)
		}
		if s.A <= end+lengthSlack {
			out = append(out, s)
		}
	}
	for _, h := range []Hand{A, B} {
		r := w.Run(h)
		for i := range r.Notches {
			add(h, r.Notches[i].At, StopNotch, &r.Notches[i])
		}
		for _, at := range r.corners {
			add(h, at, StopCorner, nil)
		}
	}
	out = append(out, Stop{A: end, B: w.Ease.B(end), What: StopEnd})
	slices.SortStableFunc(out, func(a, b Stop) int { return cmp.Compare(a.A, b.A) })
	return out
}
