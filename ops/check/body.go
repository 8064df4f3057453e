package check

import (
	"fmt"
	"math"

	"truemat/ops/pattern"
)

// hemBody compares the finished hem, closed, with the body measure under the
// bust less the reduction that the maker states. A document that states no
// reduction, or a size without the body measure, has no such check.
func hemBody(s Subject) (Check, bool) {
	f := s.After.Figures
	body, reduction := f[pattern.FigureUnderbust], f[pattern.FigureReduction]
	if body <= 0 || reduction <= 0 {
		return Check{}, false
	}
	round, line, ok := HemRound(s.After)
	if !ok {
		return Check{}, false
	}
	c := Check{ID: HemBody, Unit: "%", Line: line.Name, Piece: line.Parts[0].Piece, Edge: line.Parts[0].Edge}
	wanted := body * (1 - reduction/100)
	c.Measured = (round - wanted) / body * 100
	c.Text = fmt.Sprintf("The finished %s goes round in %s, %.1f %% less than the body's %s; %.1f %% less is wanted", c.Line, mm(round), (1-round/body)*100, mm(body), reduction)
	if round > body {
		c.Text = fmt.Sprintf("The finished %s goes round in %s, %.1f %% more than the body's %s; %.1f %% less is wanted", c.Line, mm(round), (round/body-1)*100, mm(body), reduction)
	}
	if doubt := DoubtUnderbust(body); doubt != "" {
		c.Text += " (" + doubt + ")"
	}
	return settle(c, s.Bounds.HemBody, fmt.Sprintf("it is %s %s, %.1f %% of the body; %s the band at the closure or its side seam", mm(math.Abs(round-wanted)), tooLong(round-wanted), math.Abs(c.Measured), map[bool]string{true: "shorten", false: "lengthen"}[round > wanted])), true
}

func tooLong(d float64) string {
	if d < 0 {
		return "too short"
	}
	return "too long"
}

// underbustLeast and underbustMost are between which measures under the bust lie
// in mm, from a slight child to the largest of the trade's tables. Common
// practice, without a published source.
const (
	underbustLeast = 450
	underbustMost  = 1600
)

// DoubtUnderbust asks about a body measure in mm that is seldom meant; "" for one
// that may be, and for none.
func DoubtUnderbust(body float64) string {
	if body <= 0 || body >= underbustLeast && body <= underbustMost {
		return ""
	}
	return fmt.Sprintf("is the body really %s round under the bust? Mostly it is between %d mm and %d mm", mm(body), underbustLeast, underbustMost)
}
