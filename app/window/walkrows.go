package window

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/walk"
)

// droppedAt returns the walk whose notch a path of a step leads to, and the
// place of that notch in the list.
func droppedAt(s step.Step, path []string) (w *step.Walk, i int, ok bool) {
	w, ok = s.(*step.Walk)
	if !ok || len(path) < 3 || path[0] != "drop" {
		return nil, 0, false
	}
	i, err := strconv.Atoi(path[1])
	return w, i, err == nil && i >= 0 && i < len(w.Drop)
}

// secondOf reports whether a path leads to the second of two notches that are
// dropped together, whose values are shown with those of the first.
func secondOf(s step.Step, path []string) bool {
	w, i, ok := droppedAt(s, path)
	if !ok {
		return false
	}
	pair := w.Pair(i)
	return pair >= 0 && pair < i
}

// ofPair reports whether a path leads to one of two notches dropped together.
func ofPair(s step.Step, path []string) bool {
	w, i, ok := droppedAt(s, path)
	return ok && w.Pair(i) >= 0
}

// partnerOf returns the path of the same value of the notch that is dropped on
// the other side together with that of the path; nil when there is none.
func partnerOf(s step.Step, path []string) []string {
	w, i, ok := droppedAt(s, path)
	if !ok || w.Pair(i) < 0 {
		return nil
	}
	other := slices.Clone(path)
	other[1] = strconv.Itoa(w.Pair(i))
	return other
}

// withNumber returns the step with another number at a path, and at that of the
// notch dropped together with what the path leads to.
func withNumber(e step.Entry, path []string, n step.Number) (step.Entry, error) {
	next, err := e.WithNumber(path, n)
	if other := partnerOf(e.Step, path); err == nil && other != nil {
		return next.WithNumber(other, n)
	}
	return next, err
}

// walkedName calls the length at which a walk drops a notch, on the pattern that
// the step meets; false when the path leads to none.
func walkedName(s step.Step, p pattern.Pattern, path []string) (rowName, bool) {
	w, i, ok := droppedAt(s, path)
	if !ok || path[2] != "mm" {
		return rowName{}, false
	}
	name := droppedTitle(w, i)
	if w.Pair(i) < 0 {
		name += " on " + sideOf(w, p, w.Drop[i].On)
	}
	from := w.Whence(p)
	return rowName{name + ", from " + cmp.Or(from, "where the walk starts"), "Distance"}, true
}

// droppedTitle calls a notch by its own name, or by its place.
func droppedTitle(w *step.Walk, i int) string {
	if name := w.Drop[i].Name; name != "" {
		return titled(pattern.NotchWords(name))
	}
	return "Notch " + strconv.Itoa(i+1)
}

// sideOf calls a side of a walk by its pieces, where these tell it from the
// other.
func sideOf(w *step.Walk, p pattern.Pattern, h walk.Hand) string {
	a, b := w.A, w.B
	if s := p.Seam(w.Seam); s != nil {
		a, b = s.A, s.B
	}
	first, second := walk.PieceWords(a), walk.PieceWords(b)
	if len(a) == 0 || len(b) == 0 || first == second {
		first, second = stepWords["a"], stepWords["b"]
	}
	if h == walk.A {
		return first
	}
	return second
}

// droppedOnAnother tells of each notch that a walk drops by a length in which
// sizes it lies on another piece than in the size shown.
func (w *Window) droppedOnAnother(s *step.Walk) (told []string) {
	for _, d := range s.Drop {
		if d.MM == nil {
			continue
		}
		here, pieces := "", []string(nil)
		on := map[string][]string{}
		for _, r := range w.desk.Results() {
			piece := pieceOfDropped(s, r.Size.Pattern, d)
			if r.Size.Label == w.desk.Size() {
				here = piece
			}
			if on[piece] == nil {
				pieces = append(pieces, piece)
			}
			on[piece] = append(on[piece], r.Size.Label)
		}
		for _, piece := range pieces {
			if piece != "" && here != "" && piece != here {
				told = append(told, fmt.Sprintf("In %s %s lies on %s, not on %s as here.", pattern.SizeWords(on[piece]...), pattern.NotchSaid(d.Name), piece, here))
			}
		}
	}
	return told
}

// pieceOfDropped is the piece of a side that has the notch in the end; "" when
// none has, or several.
func pieceOfDropped(s *step.Walk, p pattern.Pattern, d step.Drop) string {
	side := pattern.Side(s.A)
	if d.On == walk.B {
		side = s.B
	}
	if seam := p.Seam(s.Seam); seam != nil {
		if side = seam.A; d.On == walk.B {
			side = seam.B
		}
	}
	found := ""
	for _, pt := range side {
		pc := p.Piece(pt.Piece)
		if pc == nil || pc.Notch(d.Name) == nil || pt.Piece == found {
			continue
		}
		if found != "" {
			return ""
		}
		found = pt.Piece
	}
	return found
}
