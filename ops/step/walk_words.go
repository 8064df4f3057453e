package step

import (
	"cmp"
	"fmt"
	"reflect"
	"strings"

	"truemat/ops/pattern"
	"truemat/ops/walk"
)

// Sentence tells what the step does.
func (w *Walk) Sentence() string {
	return w.sentence(saidOf{
		side: func(h walk.Hand) string { return "side " + strings.ToUpper(string(h)) },
		on: func(d Drop) string {
			if d.Spot == nil || d.Spot.Piece == "" {
				return ""
			}
			return "what is sewn to it" // most often it is dropped across from the place
		},
	})
}

// saidOf is what a walk is told with: what its sides are called, the piece of a
// side on which a notch to be dropped lies, and from what the walk counts, ""
// where it is not known.
type saidOf struct {
	side func(walk.Hand) string
	on   func(Drop) string
	from string
}

// place names the side or the piece on which a notch is dropped.
func (s saidOf) place(d Drop) string {
	if s.on != nil {
		if on := s.on(d); on != "" {
			return on
		}
	}
	return s.side(d.On)
}

// SentenceOn is Sentence with the sides of the seam named by their pieces, and
// with what lies where the walk starts.
func (w *Walk) SentenceOn(p pattern.Pattern) string {
	a, b := pattern.Side(nil), pattern.Side(nil)
	if s := p.Seam(w.Seam); s != nil {
		a, b = s.A, s.B
	} else if own, err := w.runs(p); err == nil {
		a, b = own.A, own.B
	}
	if len(a) == 0 || len(b) == 0 || walk.PieceWords(a) == walk.PieceWords(b) {
		return w.Sentence()
	}
	said := saidOf{side: func(h walk.Hand) string {
		if h == walk.A {
			return walk.PieceWords(a)
		}
		return walk.PieceWords(b)
	}}
	if wk, err := w.walked(p); err == nil {
		said.from = whence(p, wk)
		said.on = func(d Drop) string {
			if d.MM == nil {
				return ""
			}
			at, same := d.MM.Literal()
			piece, _, _, err := wk.Place(p, d.On, at)
			if !same || err != nil {
				return ""
			}
			return piece
		}
	}
	return w.sentence(said)
}

// whence names the edge that both sides of a walk meet where it starts, from
// which it counts; "" when it starts within an edge or meets none.
func whence(p pattern.Pattern, wk *walk.Walk) string {
	first := wk.A.Parts[0]
	end := pattern.Start
	switch first.From {
	case 0:
	case 1:
		end = pattern.End
	default:
		return ""
	}
	if pc := p.Piece(first.Piece); pc != nil {
		return pc.Meets(first.Edge, end)
	}
	return ""
}

// Whence names what the walk counts from on a pattern; "" when that has no name.
func (w *Walk) Whence(p pattern.Pattern) string {
	wk, err := w.walked(p)
	if err != nil {
		return ""
	}
	return whence(p, wk)
}

// Lies returns how far in mm from where the walk starts a notch that it drops lies
// along its side on a later pattern, and on which piece; false when it is not there.
func (w *Walk) Lies(p pattern.Pattern, d Drop) (mm float64, piece string, there bool) {
	wk, err := w.walked(p)
	if err != nil {
		return 0, "", false
	}
	for _, pt := range wk.Run(d.On).Parts {
		pc := p.Piece(pt.Piece)
		if pc == nil || pc.Notch(d.Name) == nil {
			continue
		}
		if mm, on, err := wk.Find(p, d.On, pattern.AtNotch(pt.Piece, d.Name)); err == nil && on {
			return mm, pt.Piece, true
		}
	}
	return 0, "", false
}

// Pair returns the place in Drop of the notch that is dropped together with the
// i-th: on the other side, next to it in the list and by the same number. It is
// -1 when there is none.
func (w *Walk) Pair(i int) int {
	meets := func(i, j int) bool {
		if i < 0 || j >= len(w.Drop) {
			return false
		}
		a, b := w.Drop[i], w.Drop[j]
		return a.MM != nil && b.MM != nil && a.On != b.On && a.words("") == b.words("") && reflect.DeepEqual(a.MM, b.MM)
	}
	first := 0
	for first < i && first < len(w.Drop) {
		if meets(first, first+1) {
			if first+1 == i {
				return first
			}
			first++
		}
		first++
	}
	if first == i && meets(i, i+1) {
		return i + 1
	}
	return -1
}

func (w *Walk) sentence(s saidOf) string {
	what := fmt.Sprintf("seam %q", w.Seam)
	if w.Seam == "" {
		what = partWords(w.A) + " along " + partWords(w.B)
	}
	var does []string
	between := ""
	if w.Between != nil {
		between = " between " + cmp.Or(w.Between.From.Notch, "the start") + " and " + cmp.Or(w.Between.To.Notch, "the end")
	}
	if w.Ease != nil {
		does = append(does, fmt.Sprintf("make the ease%s %s", between, w.Ease))
	}
	if w.Spread != "" {
		does = append(does, fmt.Sprintf("spread it evenly%s on %s", between, s.side(w.Spread)))
	}
	for i := 0; i < len(w.Drop); i++ {
		said, on := w.Drop[i].words(s.from), s.place(w.Drop[i])
		if !w.Drop[i].All && i+1 < len(w.Drop) && w.Drop[i+1].On != w.Drop[i].On && w.Drop[i+1].words(s.from) == said {
			on += " and " + s.place(w.Drop[i+1]) // one place, where the sides meet
			i++
		}
		does = append(does, said+" on "+on)
	}
	return sentence("walk " + what + ": " + words(does))
}

// words tells what is dropped and where, counted from what lies where the walk
// starts, but not on which side.
func (d Drop) words(from string) string {
	name := pattern.NotchSaid(d.Name)
	if d.Name == "" {
		name = "a notch"
	}
	switch {
	case d.All:
		name = "a notch at each that has no partner"
	case d.End:
		name += " where the other side ends"
	case d.Spot != nil:
		name += " at " + d.Spot.String()
	case d.MM != nil:
		name += " at " + d.MM.String()
		if from != "" {
			name += " from the " + from
		}
	}
	return "drop " + name
}
