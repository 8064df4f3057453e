package render

import (
	"math"
	"strings"

	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// amount writes a length for a sewist: in mm, and in inches when it is one of
// their fractions.
func amount(mm float64) string {
	s := unit.Format(mm, unit.Millimetres)
	const fraction = 25.4 / unit.Sixteenths
	if k := math.Round(mm / fraction); k > 0 && math.Abs(mm-k*fraction) < 0.005 {
		s += " (" + unit.Format(mm, unit.InchFractions) + ")"
	}
	return s
}

// words turns a name made for machines into words.
func words(name string) string { return strings.NewReplacer("-", " ", "_", " ").Replace(name) }

// usualAllowance returns the allowance that most of the outline has, without
// the fold; 0 when there is none, mixed when there are others.
func usualAllowance(edges []shapeEdge) (usual float64, mixed bool) {
	var widths []float64
	var lengths []float64
	for _, e := range edges {
		if e.role == pattern.Fold {
			continue
		}
		k := 0
		for k < len(widths) && widths[k] != e.allowance {
			k++
		}
		if k == len(widths) {
			widths, lengths = append(widths, e.allowance), append(lengths, 0)
		}
		lengths[k] += e.path.Length()
	}
	best := -1
	for k, w := range widths {
		if w > 0 && (best < 0 || lengths[k] > lengths[best]) {
			best = k
		}
	}
	if best < 0 {
		return 0, false
	}
	return widths[best], len(widths) > 1
}

// edgeTexts returns what is written along an edge, the fullest first; nothing
// for a fold, which has its bracket.
func edgeTexts(e shapeEdge, usual float64) []string {
	what := words(string(e.role))
	switch e.role {
	case pattern.Fold:
		return nil
	case pattern.SeamEdge:
		what = words(e.name)
	case pattern.TurnedBack:
		what = "turned back"
	}
	switch {
	case e.allowance > 0 && e.allowance != usual:
		return []string{what + " " + amount(e.allowance), what + " " + unit.Format(e.allowance, unit.Millimetres), what}
	case e.allowance == 0 && e.role != pattern.LaceEdge:
		return []string{what + ", no allowance", what}
	}
	return []string{what}
}

const (
	edgeTextGap   = 0.9 // between an edge's text and the lines beside it, in mm
	edgeTextClear = 0.2 // between an edge's text and what stood there before
	edgeTextStart = 2.0 // from the edge to text that runs away from it
)

var (
	edgeTextHeights = []float64{2.2, 1.9, 1.6}
	edgeTextShares  = []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88}
)

// edgeLabel writes what an edge is: along it, in its allowance where that is
// wide enough, else inside; or running away from it where it is too short. A
// seam edge without a free place goes without, its name being only a help.
func edgeLabel(e shapeEdge, usual float64, r *room) (Label, bool) {
	texts := edgeTexts(e, usual)
	if len(texts) == 0 {
		return Label{}, false
	}
	ink := black
	if e.role == pattern.SeamEdge {
		ink = grey
	}
	for _, h := range edgeTextHeights {
		for _, text := range texts {
			for _, share := range edgeTextShares {
				for _, l := range besideEdge(e, text, h, share) {
					l.Color = ink
					if r.free(l.quad(edgeTextClear)) {
						return l, true
					}
				}
			}
		}
	}
	for _, h := range edgeTextHeights {
		for _, text := range texts {
			for _, share := range edgeTextShares {
				l := awayFromEdge(e, text, h, share)
				l.Color = ink
				if r.free(l.quad(edgeTextClear)) {
					return l, true
				}
			}
		}
	}
	if e.role == pattern.SeamEdge {
		return Label{}, false
	}
	l := awayFromEdge(e, texts[len(texts)-1], edgeTextHeights[len(edgeTextHeights)-1], 0.5)
	l.Color = ink
	return l, true
}

// besideEdge returns the places of a text along an edge around a share of its
// length: in the allowance, inside the sew line.
func besideEdge(e shapeEdge, text string, height, share float64) []Label {
	w := TextWidth(text, height, false)
	length := e.path.Length()
	s0, s1 := share*length-w/2, share*length+w/2
	if s0 < 0 || s1 > length {
		return nil
	}
	a, b := e.path.At(s0), e.path.At(s1)
	u := b.Sub(a).Unit()
	out := u.Perp().Mul(-1)
	low, high := 0.0, 0.0 // of the edge over the chord, outward
	for i := range 7 {
		d := out.Dot(e.path.At(s0 + (s1-s0)*float64(i+1)/8).Sub(a))
		low, high = min(low, d), max(high, d)
	}
	tall := height * (1 + descent)
	mid := a.Lerp(b, 0.5)
	along := func(d float64) Label { // the middle of the text d outside the chord
		angle := readable(u.Direction())
		c := mid.Add(out.Mul(d))
		base := c.Sub(angle.Unit().Perp().Mul(tall/2 - descent*height))
		return Label{Text: text, At: base, Height: height, Angle: angle, Anchor: Middle}
	}
	var labels []Label
	if e.allowance-(high-low) > tall+2*edgeTextGap {
		labels = append(labels, along((high+e.allowance+low)/2))
	}
	return append(labels, along(low-edgeTextGap-tall/2))
}

// awayFromEdge returns the place of a text that starts at an edge and runs
// inward.
func awayFromEdge(e shapeEdge, text string, height, share float64) Label {
	s := share * e.path.Length()
	in := e.path.TangentAt(s).Perp()
	angle := readable(in.Direction())
	l := Label{Text: text, Height: height, Angle: angle, Anchor: Left}
	if angle.Unit().Dot(in) < 0 {
		l.Anchor = Right
	}
	l.At = e.path.At(s).Add(in.Mul(edgeTextStart)).Sub(angle.Unit().Perp().Mul(height / 2))
	return l
}
