package tool

import (
	"fmt"
	"math"
	"strings"

	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
	"truemat/ops/walk"
)

// differing tells by how much the sides of seams differ after an alteration, and
// of those that fit whether their notches meet; that a seam fits may be told
// already.
func differing(t Table, res step.Result, fits string) string {
	if len(res.Reports) == 0 {
		return ""
	}
	last := res.Reports[len(res.Reports)-1]
	var differ []string
	fit := ""
	for _, s := range t.Pattern().Seams {
		v, ok := last.Figures["partner_difference."+s.Name]
		switch {
		case !ok:
		case math.Abs(v) >= toldDifference:
			differ = append(differ, s.Name+" by "+unit.MM(math.Abs(v)))
		case s.Name != fits:
			fit += " The sides of " + s.Name + " then fit" + apart(t, res.Size.Pattern, s.Name) + "."
		}
	}
	if len(differ) == 0 {
		return fit
	}
	return SidesDiffer + strings.Join(differ, ", at ") + "." + fit
}

// SidesDiffer begins the sentence of a hint that tells which seams' sides then differ.
const SidesDiffer = " Sides then differ at "

// toldDifference is the least difference in mm that is told as one.
const toldDifference = 0.005

// apart tells by how much the notches of a seam miss each other that would be
// broken, as more of a sentence; "" when they meet.
func apart(t Table, p pattern.Pattern, seam string) string {
	s := p.Seam(seam)
	if s == nil {
		return ""
	}
	most, ease := 0.0, p.Spread(*s)
	for _, pr := range walk.Pairs(p, *s) {
		most = max(most, math.Abs(ease.B(pr.A)-pr.B))
	}
	bounds := check.Defaults()
	if own, ok := t.(interface{ Bounds() check.Bounds }); ok {
		bounds = own.Bounds()
	}
	if bounds.Seam.Verdict(most) != check.Broken {
		return ""
	}
	return fmt.Sprintf(", but its notches miss each other by %s: the notch tool lets one match the other side", unit.MM(most))
}
