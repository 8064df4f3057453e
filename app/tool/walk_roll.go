package tool

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/walk"
)

// known remembers the walk that was worked out last.
type known struct {
	key  string
	of   *pattern.Piece
	walk *walk.Walk
	err  error
}

// walked returns the walk, with the ease and the spread that are to be.
func (w *Walk) walked() (*walk.Walk, error) {
	return w.walkOn(w.eased(), &w.known)
}

// walkOn works out the walk on a pattern, unless it is known.
func (w *Walk) walkOn(p pattern.Pattern, k *known) (*walk.Walk, error) {
	if len(p.Pieces) == 0 {
		return nil, fmt.Errorf("there is no piece to walk along")
	}
	way := walk.Way{From: w.what.start.from, StartA: w.what.start.a, StartB: w.what.start.b, Rolls: w.what.rolls}
	key := fmt.Sprint(w.table.Size(), "|", w.what.seam, "|", w.what.first, w.what.next, "|", way.From, way.StartA, way.StartB, way.Rolls)
	if k.key != key || k.of != &p.Pieces[0] {
		*k = known{key: key, of: &p.Pieces[0]}
		if w.what.seam != "" {
			k.walk, k.err = walk.Seam(p, w.what.seam, way)
		} else if w.what.next != nil {
			k.walk, k.err = walk.New(p, w.own(), way)
		} else {
			k.err = fmt.Errorf("no seam is chosen")
		}
	}
	return k.walk, k.err
}

// own is the walk of two edges of her own, as a seam without a name.
func (w *Walk) own() pattern.Seam {
	return pattern.Seam{A: pattern.Side{*w.what.first}, B: pattern.Side{*w.what.next}}
}

// eased is the pattern with the ease and the spread that are to be, as far as
// that can be done.
func (w *Walk) eased() pattern.Pattern {
	steps := w.easeSteps()
	if len(steps) == 0 {
		return w.pattern()
	}
	res, err := w.easeTry.of(w.table, steps...)
	if err != nil {
		return w.pattern()
	}
	return res.Size.Pattern
}

func (w *Walk) basePose(wk *walk.Walk) geom.Motion {
	if w.laid != nil {
		return *w.laid
	}
	if pc := w.pattern().Piece(wk.Base()); pc != nil {
		return pc.Pose
	}
	return geom.Identity()
}

// sideLabel names a side by its pieces.
func sideLabel(wk *walk.Walk, h walk.Hand) string {
	parts := wk.Run(h).Parts
	var pieces []string
	for _, pt := range parts {
		if !slices.Contains(pieces, pt.Piece) {
			pieces = append(pieces, pt.Piece)
		}
	}
	name := parts[0].Piece
	switch {
	case len(pieces) == 2:
		name = walk.PieceWords(parts)
	case len(pieces) > 2:
		name = fmt.Sprintf("%s and %d more", name, len(pieces)-1)
	case parts[0].Mirrored:
		name += ", mirrored"
	case wk.Run(h.Other()).Parts[0].Piece == name:
		name = parts[0].Edge + " of " + name
	}
	return name
}

// play is the piece rolling by itself.
type play struct {
	on   bool
	rest float64 // seconds it still halts
}

// Speeds of a walk that plays.
const (
	playMM    = 45.0               // mm a second
	playTurn  = 80 * geom.Degree   // a second, about a corner
	playHalt  = 0.7                // seconds at a notch
	longTick  = 0.25               // seconds; more at once would make it jump
	leastTurn = pattern.SmoothTurn // at a corner to be shown
)

// Playing reports whether the piece rolls by itself.
func (w *Walk) Playing() bool { return w.play.on }

func (w *Walk) setPlay(wk *walk.Walk, on bool) {
	if end, _ := wk.End(); on && w.s >= end-samePlace {
		w.start()
	}
	w.play = play{on: on}
}

// Tick rolls the piece on: it halts at notches and pivots about corners.
func (w *Walk) Tick(seconds float64) {
	wk, err := w.walked()
	if !w.play.on || err != nil || !w.chosen() {
		w.play.on = false
		return
	}
	if !(seconds > 0) {
		return
	}
	for left := min(seconds, longTick); left > 0 && w.play.on; {
		left = w.tick(wk, left)
	}
}

// tick goes on to the next thing that happens, and returns the time left.
func (w *Walk) tick(wk *walk.Walk, left float64) float64 {
	if w.play.rest > 0 {
		rest := min(w.play.rest, left)
		w.play.rest -= rest
		return left - rest
	}
	if w.piv < 1 {
		turn := math.Abs(float64(wk.Pivot(w.s)))
		if turn <= float64(leastTurn) {
			w.piv = 1
			return left
		}
		need := (1 - w.piv) * turn / float64(playTurn)
		if need > left {
			w.piv += left * float64(playTurn) / turn
			return 0
		}
		w.piv = 1
		return left - need
	}
	end, _ := wk.End()
	if w.s >= end-samePlace {
		w.play.on = false
		return 0
	}
	var halt *walk.Stop
	for _, st := range wk.Stops() {
		if st.A > w.s+samePlace && (halt == nil || st.A <= halt.A+samePlace) {
			if halt == nil || st.What == walk.StopNotch {
				halt = &st
			}
		}
	}
	to := end
	if halt != nil {
		to = halt.A
	}
	if need := (to - w.s) / playMM; need > left {
		w.s += left * playMM
		return 0
	} else {
		left -= need
	}
	w.s, w.piv = to, 0
	if halt != nil && halt.What == walk.StopNotch {
		w.play.rest = playHalt
	}
	return left
}
