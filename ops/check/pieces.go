package check

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
)

// pieces checks what an alteration owes to whole pieces: a mark, and the
// arrow's direction.
func pieces(s Subject) []Check {
	var out []Check
	for i := range s.After.Pieces {
		pc := &s.After.Pieces[i]
		was := s.Before.Piece(pc.Name)
		if !pc.Begun && altered(was, pc) {
			out = append(out, mark(was, pc))
		}
		out = append(out, arrow(s, was, pc))
	}
	return out
}

// Altered returns the pieces that would be cut differently than before, or are
// new; without those that were begun with the program.
func Altered(before, after pattern.Pattern) []pattern.Piece {
	var out []pattern.Piece
	for i := range after.Pieces {
		if pc := &after.Pieces[i]; !pc.Begun && altered(before.Piece(pc.Name), pc) {
			out = append(out, *pc)
		}
	}
	return out
}

// Unmarked names the altered pieces that carry no mark which the original lacks.
func Unmarked(before, after pattern.Pattern) []string {
	var out []string
	for _, pc := range Altered(before, after) {
		if ownMarks(before.Piece(pc.Name), &pc) == 0 {
			out = append(out, pc.Name)
		}
	}
	return out
}

// altered reports whether the piece would be cut differently.
func altered(was, is *pattern.Piece) bool {
	if was == nil {
		return true
	}
	if len(was.Edges) != len(is.Edges) {
		return !unfoldedOnly(was, is)
	}
	for i := range is.Edges {
		a, b := &was.Edges[i], &is.Edges[i]
		if a.Allowance != b.Allowance || a.Corner != b.Corner || a.Path.String() != b.Path.String() {
			return true
		}
	}
	return !slices.Equal(was.Notches, is.Notches)
}

// ownMarks counts the marks that a piece did not carry before.
func ownMarks(was, is *pattern.Piece) (n int) {
	for _, m := range is.Marks {
		if was == nil || !slices.ContainsFunc(was.Marks, func(o pattern.Mark) bool { return o.Text == m.Text }) {
			n++
		}
	}
	return n
}

func mark(was, is *pattern.Piece) Check {
	c := Check{ID: AlteredMark, Piece: is.Name, Measured: float64(ownMarks(was, is))}
	c.Text = fmt.Sprintf("%s is altered and carries a mark of its own", is.Name)
	if c.Measured == 0 {
		c.Text = fmt.Sprintf("%s is altered and carries no mark that the original lacks", is.Name)
	}
	// every alteration is unmarked while it goes on: broken would hide in each
	// size what does not fit
	c.Verdict, c.Allowed = Look, "at least one"
	if c.Measured > 0 {
		c.Verdict = Holds
	}
	return c.Remedied("mark it before it is cut, so that nobody takes it for the original")
}

// arrow measures how far the cloth of a piece, or of a part taped to it, lies
// turned from the arrow it had.
func arrow(s Subject, was, is *pattern.Piece) Check {
	c := Check{ID: ArrowTurned, Piece: is.Name, Unit: "deg"}
	dir := is.Arrow.To.Sub(is.Arrow.From)
	if was != nil {
		c.Measured = lineAngle(was.Arrow.To.Sub(was.Arrow.From), dir)
	}
	stretch := is.Arrow.Kind == pattern.MostStretch
	for _, in := range is.Inner {
		stretch = stretch || in.Kind == pattern.OldArrow && slices.ContainsFunc(s.Before.Pieces, func(pc pattern.Piece) bool {
			return pc.Arrow.Kind == pattern.MostStretch && in.Name == pattern.ArrowOf(pc.Name)
		})
		if in.Kind == pattern.OldArrow && (was == nil || !slices.ContainsFunc(was.Inner, func(o pattern.Inner) bool { return o.Name == in.Name })) {
			c.Measured = max(c.Measured, lineAngle(in.Path.End().Sub(in.Path.Start()), dir))
		}
	}
	c.Text = fmt.Sprintf("The arrow of %s points as it did", is.Name)
	if c.Measured >= shownTurn.Degrees() {
		c.Text = fmt.Sprintf("The arrow of %s lies %.1f° from where it was", is.Name, c.Measured)
	}
	c = settle(c, s.Bounds.Arrow, "cloth that stretches or has a direction will not behave as before; choose which part keeps its arrow")
	if c.Verdict == Broken && !stretch {
		c.Verdict = Look
	}
	return c
}

// lineAngle returns the angle between two directions without sense, 0 to 90°.
func lineAngle(a, b geom.Point) float64 {
	d := math.Abs(geom.Between(a, b).Degrees())
	return min(d, 180-d)
}
