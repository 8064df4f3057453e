package window

import "fyne.io/fyne/v2"

// beat shows what the tool does once for every picture of the display: after
// the toolkit has taken what the pointer did since the last one, and before it
// paints. A pointer tells its place oftener than that, so that what was shown
// in between would be work for nothing, and what was shown on a clock of our
// own would now and then come a moment too late for the picture.
type beat struct {
	show    func()
	ticks   *fyne.Animation // of no movement: the toolkit calls it between taking events and painting
	on      bool
	pending bool
	quiet   int // pictures for which nothing was wanted
}

// restful is the number of pictures for which nothing is wanted until the beat
// rests, so that a window in which nothing happens does nothing.
const restful = 30

func newBeat(show func()) *beat {
	b := &beat{show: show}
	b.ticks = &fyne.Animation{Duration: 1, RepeatCount: fyne.AnimationRepeatForever, Curve: fyne.AnimationLinear, Tick: b.tick}
	return b
}

// want has something shown with the next picture.
func (b *beat) want() {
	b.pending = true
	if !b.on {
		b.on, b.quiet = true, 0
		b.ticks.Start()
	}
}

func (b *beat) tick(float32) {
	if b.pending {
		b.pending, b.quiet = false, 0
		b.show()
		return
	}
	if b.quiet++; b.quiet >= restful {
		b.on = false
		b.ticks.Stop()
	}
}
