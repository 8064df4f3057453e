package step

import (
	"fmt"
	"strings"

	"truemat/ops/pattern"
	"truemat/ops/walk"
)

// told is a step whose sentence names more where the pattern is known.
type told interface{ SentenceOn(pattern.Pattern) string }

// Told is the sentence of a step on the first of some patterns that has what
// it names, the ends of edges told as [Placed] does; its own sentence, so
// told, when none has.
func Told(s Step, on ...pattern.Pattern) string {
	own := s.Sentence()
	text := own
	if t, ok := s.(told); ok {
		for i := 0; i < len(on) && text == own; i++ {
			text = t.SentenceOn(on[i])
		}
	}
	for _, p := range on {
		text = Placed(text, p)
	}
	return text
}

// seamWords is a seam's name, called a seam.
func seamWords(name string) string {
	for _, w := range strings.Fields(strings.ToLower(name)) {
		if w == "seam" {
			return name
		}
	}
	return "seam " + name
}

// sideWords names the sides of a seam by their pieces; by their edges too when
// these are the same, and "side a" and "side b" when those are as well.
func sideWords(s pattern.Seam) (a, b string) {
	if a, b = walk.PieceWords(s.A), walk.PieceWords(s.B); a != b {
		return a, b
	}
	if a, b = partWords(s.A), partWords(s.B); a != b {
		return a, b
	}
	return "side a", "side b"
}

// seamEndWords names an end of a seam by the edge that a side meets there,
// "hem end", when that tells it from the other end; else "start" or "end".
func seamEndWords(p pattern.Pattern, side pattern.Side, end pattern.EndName) string {
	if at := endName(p, side, end); at != "" {
		return at + " end"
	}
	return string(end)
}

// endName is the name of the edge that a side meets at an end of its seam, ""
// when that does not tell it from the other end.
func endName(p pattern.Pattern, side pattern.Side, end pattern.EndName) string {
	at, other := meetsAt(p, side, end), meetsAt(p, side, unlike(end))
	if at == other {
		return ""
	}
	return at
}

// SeamEnds names the start and the end of the seam that a step speaks of by the
// edges met there, as its sentence does; "" for one that this does not tell, and
// for both where the step speaks of no seam or of one that is not there.
func SeamEnds(s Step, p pattern.Pattern) (start, end string) {
	var side pattern.Side
	of := func(name string, b bool) {
		if seam := p.Seam(name); seam != nil {
			if side = seam.A; b {
				side = seam.B
			}
		}
	}
	switch s := s.(type) {
	case *True:
		of(s.Seam, false)
	case *Level:
		of(s.Seam, s.Bend == "b")
	case *Walk:
		of(s.Seam, false)
		if own, err := s.runs(p); err == nil && s.Seam == "" {
			side = own.A
		}
	}
	return endName(p, side, pattern.Start), endName(p, side, pattern.End)
}

func unlike(end pattern.EndName) pattern.EndName {
	if end == pattern.Start {
		return pattern.End
	}
	return pattern.Start
}

// meetsAt is the name of the edge that a side meets at an end of its seam, ""
// when the seam ends within an edge.
func meetsAt(p pattern.Pattern, side pattern.Side, end pattern.EndName) string {
	if len(side) == 0 {
		return ""
	}
	pt := side[len(side)-1]
	if end == pattern.Start {
		pt = side[0].Backwards()
	}
	c, err := acrossAt(p, pt)
	if err != nil {
		return ""
	}
	return c.edge
}

// SentenceOn is Sentence with the sides of the seam named by their pieces and
// its ends by the edges they meet there.
func (s *Level) SentenceOn(p pattern.Pattern) string {
	seam := p.Seam(s.Seam)
	if seam == nil || len(seam.A) == 0 || len(seam.B) == 0 {
		return s.Sentence()
	}
	a, b := sideWords(*seam)
	side := seam.A
	if s.Bend == "b" {
		side = seam.B
	}
	end := string(s.Moves)
	edge := "edge there"
	if s.Moves != "" {
		end = seamEndWords(p, side, s.Moves)
		if m := meetsAt(p, side, s.Moves); m != "" {
			edge = m
		}
	}
	return s.sentence(seamWords(s.Seam), a, b, end, edge)
}

// place names the end of the seam, which is there, as in "hem end of side seam".
func (s *True) place(p pattern.Pattern) string {
	return fmt.Sprintf("%s of %s", seamEndWords(p, p.Seam(s.Seam).A, s.End), seamWords(s.Seam))
}

// SentenceOn is Sentence with the edges named that are trued, the one that
// stays as it is, and the end of the seam by what it meets there.
func (s *True) SentenceOn(p pattern.Pattern) string {
	lay, err := layAt(p, s.Seam, s.End)
	if err != nil {
		return s.Sentence()
	}
	hold, err := s.held(p, lay)
	if err != nil {
		return s.Sentence()
	}
	end := s.place(p)
	t := truing{laid: lay}
	switch {
	case hold != nil && lay.own:
		return s.Sentence()
	case hold != nil:
		text := fmt.Sprintf("True %s to %s, which stays as it is, at the %s", t.other(hold), hold, end)
		if reach := s.reachOf(lay, t.other(hold)); reach != nil && !t.other(hold).lace() {
			text += fmt.Sprintf(", over %s", reach)
		}
		return text + "."
	}
	what := fmt.Sprintf("%s and %s", lay.a, lay.b)
	if lay.own || lay.a.String() == lay.b.String() {
		what = lay.a.String()
	}
	text := fmt.Sprintf("True %s at the %s", what, end)
	x, y := s.reachOf(lay, lay.a), s.reachOf(lay, lay.b)
	switch {
	case lay.a.lace() && lay.b.lace() || x == nil || y == nil:
	case x.String() == y.String():
		text += fmt.Sprintf(" over %s to each side", x)
	default:
		text += fmt.Sprintf(" over %s into %s and %s into %s", x, lay.a.piece, y, lay.b.piece)
	}
	return text + "."
}
