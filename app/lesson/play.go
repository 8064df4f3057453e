package lesson

import (
	"truemat/app/desk"
	"truemat/ops/step"
)

// Player shows the recipe of a desk step by step on the mat, forwards and
// backwards. It keeps nothing itself: where it is, is what the desk looks at.
type Player struct {
	desk *desk.Desk
}

// Play begins at the pattern as it came in, before the first step. Listen to
// the desk to know when what is shown has changed.
func Play(d *desk.Desk) Player {
	d.Look(0)
	return Player{d}
}

// Of returns how many steps there are.
func (p Player) Of() int { return len(p.desk.Document().Recipe) }

// At returns how many steps are shown, from 0 to Of.
func (p Player) At() int {
	if n := p.desk.Looking(); n >= 0 {
		return min(n, p.Of())
	}
	return p.Of()
}

// Forward shows one step more; it reports whether there was one.
func (p Player) Forward() bool { return p.Go(p.At() + 1) }

// Back shows one step less; it reports whether there was one.
func (p Player) Back() bool { return p.Go(p.At() - 1) }

// Go shows the first n steps; it reports whether there are as many.
func (p Player) Go(n int) bool {
	if n < 0 || n > p.Of() {
		return false
	}
	p.desk.Look(n)
	return true
}

// Sentence tells what the step shown last did, and why it did not when it is
// upset or left out.
func (p Player) Sentence() string {
	n := p.At()
	reports := p.desk.Reports()
	if n == 0 || n > len(reports) {
		return "The pattern as it came in."
	}
	switch r := reports[n-1]; {
	case r.Error != "":
		return r.Sentence + " It cannot be done here: " + r.Error + "."
	case p.desk.Document().Recipe[n-1].Off:
		return r.Sentence + " It is switched off."
	case r.State == step.Off:
		return r.Sentence + " It is not meant for size " + p.desk.Size() + "."
	default:
		return r.Sentence
	}
}

// Stop shows all steps again.
func (p Player) Stop() { p.desk.Look(-1) }
