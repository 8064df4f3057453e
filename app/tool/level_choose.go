package tool

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// choose takes a seam and proposes, of what can be done, that which the checks
// find least wrong afterwards, where a hem of another length than before counts
// only if it comes from levelling: else what she gave to it were taken back. Of
// what comes out alike that goes first which tilts no straight edge, then it goes
// by what the maker did before: the side that she did not alter follows the one
// she altered, at the end that she moved.
func (l *Level) choose(seam string) {
	if seam == l.seam {
		return
	}
	l.forget()
	l.seam = seam
	_, s := l.chosen()
	if s == nil || l.Proposal() == nil {
		return
	}
	bends, ends, moved, takesBack := l.likely(s)
	least := math.Inf(1)
	best := *l
	before := judged(l.table, l.pattern())
	for i, bend := range bends {
		for _, way := range ends {
			l.ends = way
			l.setShare(map[string]float64{"both": 0.5, "a": 1}[bend])
			res, err := l.table.Try(l.Proposal()...)
			if err != nil {
				continue
			}
			after := judged(l.table, res.Size.Pattern)
			v := faults(slices.DeleteFunc(slices.Clone(after), hemChanged)) + takesBack*float64(i)
			v += faults(slices.DeleteFunc(worsened(before, after), func(c check.Check) bool { return !hemChanged(c) }))
			v += perLine * linesChanged(l.pattern(), res.Size.Pattern)
			if end := levelEnds[way].moves; moved != "" && end != "" && end != moved {
				v += otherEndWeighs
			}
			if len(tilts(l.pattern(), res.Size.Pattern)) > 0 {
				v += tiltWeighs
			}
			if v < least {
				least, best = v, *l
			}
		}
	}
	*l = best
}

// likely orders the sides that may change and what their ends may do, the
// likeliest first. moved is the end that the maker moved, "" when she moved none;
// takesBack weighs, for each further of the sides, that it takes
// back what the maker did.
func (l *Level) likely(s *pattern.Seam) (bends []string, ends []int, moved pattern.EndName, takesBack float64) {
	was, now := l.table.Source(), l.pattern()
	startA, endA := sideMoved(was, now, s.A)
	startB, endB := sideMoved(was, now, s.B)
	a, b := max(startA, endA), max(startB, endB)
	bends = []string{"both", "a", "b"}
	switch {
	case b > samePlace && a <= samePlace:
		bends, takesBack = []string{"a", "both", "b"}, halfTaken
	case a > samePlace && b <= samePlace:
		bends, takesBack = []string{"b", "both", "a"}, halfTaken
	}
	if max(endA, endB) > max(startA, startB) {
		return bends, []int{levelStays, levelEndSeam, levelEndEdge, levelStartSeam, levelStartEdge}, pattern.End, takesBack
	}
	if max(a, b) > samePlace {
		moved = pattern.Start
	}
	return bends, []int{levelStays, levelStartSeam, levelStartEdge, levelEndSeam, levelEndEdge}, moved, takesBack
}

// sideMoved tells how far in mm the places where a side starts and ends have
// moved within their pieces since they came in.
func sideMoved(was, now pattern.Pattern, side pattern.Side) (start, end float64) {
	moved := func(pt pattern.Part, at float64) float64 {
		_, a := was.Edge(pt.Piece, pt.Edge)
		_, b := now.Edge(pt.Piece, pt.Edge)
		if a == nil || b == nil {
			return 0
		}
		return a.Path.At(at * a.Length()).Dist(b.Path.At(at * b.Length()))
	}
	first, last := side[0], side[len(side)-1]
	return moved(first, first.From), moved(last, last.To)
}

// judged are the checks of a pattern as it would be.
func judged(t Table, p pattern.Pattern) []check.Check {
	bounds := check.Defaults()
	if b, ok := t.(interface{ Bounds() check.Bounds }); ok {
		bounds = b.Bounds()
	}
	return check.Run(t.Source(), p, bounds)
}

// faults weighs what does not hold. That altered pieces carry no mark is left
// out: they are marked at the end.
func faults(checks []check.Check) (sum float64) {
	for _, c := range checks {
		sum += fault(c)
	}
	return sum
}

// perLine weighs each mm by which a line gets longer or shorter: so much was
// given to it or taken before, on purpose.
const perLine = 0.3

// linesChanged is by how much the line that changes most does, but for what a
// sewist would not see.
func linesChanged(before, after pattern.Pattern) (most float64) {
	for _, was := range before.Lines {
		if is := after.Line(was.Name); is != nil {
			most = max(most, math.Abs(after.Length(is.Parts)-before.Length(was.Parts)))
		}
	}
	return max(most-lineUnseen, 0)
}

const lineUnseen = 1 // mm

func hemChanged(c check.Check) bool { return c.ID == check.HemLength || c.ID == check.HemBody }

// halfTaken weighs that half of what the maker did is taken back.
const halfTaken = 2

// brokenWeighs is how many things that deserve a look weigh as much as one that
// is broken.
const brokenWeighs = 3

func fault(c check.Check) float64 {
	switch {
	case c.ID == check.AlteredMark || c.Verdict == check.Holds:
		return 0
	case c.Verdict == check.Look:
		return 1
	}
	return brokenWeighs
}

// worsened returns what the checks find worse after than before, the worst
// first.
func worsened(before, after []check.Check) (worse []check.Check) {
	was := map[check.Thing]float64{}
	for _, c := range before {
		was[c.Thing()] = max(was[c.Thing()], fault(c))
	}
	for _, weight := range []float64{brokenWeighs, 1} {
		for _, c := range after {
			if v := fault(c); v == weight && v > was[c.Thing()] {
				worse = append(worse, c)
			}
		}
	}
	return worse
}

// WouldPutWrong begins what a hint tells of checks that would not hold.
const WouldPutWrong = "It would put wrong: "

// wrongs tells the worst that the levelling would put wrong, and how much more,
// "" when it is nothing.
func (l *Level) wrongs(res step.Result) string {
	worse := worsened(judged(l.table, l.pattern()), judged(l.table, res.Size.Pattern))
	if len(worse) == 0 {
		return ""
	}
	text := " " + WouldPutWrong + worse[0].Text
	switch more := len(worse) - 1; {
	case more == 1:
		text += " And one thing more."
	case more > 1:
		text += fmt.Sprintf(" And %d things more.", more)
	}
	return text
}

// endsWords name the two ends of the seam on the side that changes, by what is
// met there, else by how they lie on the mat.
func (l *Level) endsWords(p pattern.Pattern, s *pattern.Seam) (start, end string) {
	side := s.A
	if l.bend == "b" {
		side = s.B
	}
	first, last := side[0], side[len(side)-1]
	if (first.From == 0 || first.From == 1) && (last.To == 0 || last.To == 1) {
		start, end = endWords(p, partEnd(first, first.From)), endWords(p, partEnd(last, last.To))
		if start != end && strings.HasPrefix(start, "at the ") && strings.HasPrefix(end, "at the ") {
			return start, end
		}
	}
	place := func(pt pattern.Part, at float64) geom.Point {
		pc, e := p.Edge(pt.Piece, pt.Edge)
		return pc.Pose.Apply(e.Path.At(at * e.Length()))
	}
	switch d := place(last, last.To).Sub(place(first, first.From)); {
	case math.Abs(d.X) > math.Abs(d.Y) && d.X > 0:
		return "at its left end", "at its right end"
	case math.Abs(d.X) > math.Abs(d.Y):
		return "at its right end", "at its left end"
	case d.Y > 0:
		return "at its lower end", "at its upper end"
	}
	return "at its upper end", "at its lower end"
}
