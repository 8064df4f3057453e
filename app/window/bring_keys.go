package window

import (
	"math"

	"fyne.io/fyne/v2"
)

// TypedRune goes to the next corner or the one before.
func (f *foundBoard) TypedRune(r rune) {
	by := map[rune]int{'n': 1, 'N': 1, 'p': -1, 'P': -1}[r]
	if by == 0 || len(f.pieces) == 0 {
		return
	}
	at := f.chosen
	switch {
	case at.piece < 0 && by > 0:
		at = foundPlace{piece: 0, joint: noJoint}
	case at.piece < 0:
		at = foundPlace{piece: len(f.pieces) - 1, joint: 0}
	}
	j := at.joint
	if j < 0 && f.chosen.piece >= 0 { // from a place between, to the corners beside it
		for i, s := range f.pieces[at.piece].joints {
			if s < at.s {
				j = i
			}
		}
		if by < 0 {
			j++
		}
	}
	j += by
	if n := len(f.pieces); j < 0 {
		at.piece = (at.piece + n - 1) % n
		j = len(f.pieces[at.piece].joints) - 1
	} else if j >= len(f.pieces[at.piece].joints) {
		at.piece, j = (at.piece+1)%n, 0
	}
	at.joint, at.s = j, f.pieces[at.piece].joints[j]
	f.pick(at)
}

// TypedKey goes along the outline, makes a corner there or takes it away, and
// lists what the edge may be.
func (f *foundBoard) TypedKey(e *fyne.KeyEvent) {
	switch {
	case f.arrow(e.Name, f.w.pushes().held(f.w.modifiers())):
	case e.Name == fyne.KeySpace:
		f.change()
	case e.Name == fyne.KeyReturn, e.Name == fyne.KeyEnter:
		f.enter()
	case e.Name == fyne.KeyEscape:
		handBack(f, e)
	default:
		handOn(f, e)
	}
}

// TypedShortcut takes the fine arrows, which arrive as shortcuts, and leaves
// the others to the window.
func (f *foundBoard) TypedShortcut(s fyne.Shortcut) { f.w.fineArrow(s, f.arrow) }

// arrow goes along the outline by so many mm; it reports whether the key does.
func (f *foundBoard) arrow(k fyne.KeyName, by float64) bool {
	along := map[fyne.KeyName]float64{fyne.KeyLeft: -by, fyne.KeyRight: by}[k]
	switch {
	case along == 0:
		return false
	case f.chosen.piece < 0:
		f.TypedRune('n')
		return true
	}
	pc := &f.pieces[f.chosen.piece]
	l := pc.outline.Length()
	at := foundPlace{f.chosen.piece, noJoint, math.Mod(f.chosen.s+along+l, l)}
	for j, s := range pc.joints {
		if math.Abs(s-at.s) < by/2 {
			at.joint, at.s = j, s
		}
	}
	f.pick(at)
	return true
}
