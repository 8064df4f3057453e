package render

import (
	"math"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// amount writes a length for a sewist: in mm or cm, and in inches when it is one
// of their fractions; in inches with the nearest fraction beside it.
func amount(mm float64, units unit.System) string {
	s := unit.Tell(mm, units)
	const fraction = unit.Inch / unit.Sixteenths
	if k := math.Round(mm / fraction); units != unit.InchFractions && k > 0 && math.Abs(mm-k*fraction) < 0.005 {
		s += " (" + unit.Inches(mm, unit.Sixteenths) + ")"
	}
	return s
}

// words turns a name made for machines into words.
func words(name string) string { return strings.NewReplacer("-", " ", "_", " ").Replace(name) }

// usualAllowance returns the allowance that most of the outline has, without
// the fold and darts; 0 when there is none, mixed when there are others.
func usualAllowance(edges []shapeEdge) (usual float64, mixed bool) {
	var widths []float64
	var lengths []float64
	for _, e := range edges {
		if e.role == pattern.Fold || e.role == pattern.DartEdge {
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
func edgeTexts(e shapeEdge, usual float64, units unit.System) []string {
	what := words(string(e.role))
	switch e.role {
	case pattern.Fold:
		return nil
	case pattern.DartEdge:
		if e.second {
			return nil
		}
		return []string{"dart: " + dartWords + " to the point", "dart: " + dartWords, dartWords}
	case pattern.SeamEdge:
		what = words(e.name)
	case pattern.TurnedBack:
		what = "turned back"
	}
	switch {
	case e.allowance > 0 && e.allowance != usual:
		shorter := unit.Format(e.allowance, units)
		if units == unit.InchFractions && !unit.IsFraction(e.allowance) {
			shorter = unit.Nearest(e.allowance)
		}
		return []string{what + " " + amount(e.allowance, units), what + " " + shorter, what}
	case e.allowance == 0:
		return []string{what + ", allowance 0", what + ", 0"}
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
func edgeLabel(e shapeEdge, usual float64, units unit.System, r *room) (Label, bool) {
	texts := edgeTexts(e, usual, units)
	if len(texts) == 0 {
		return Label{}, false
	}
	ink := black
	if e.role == pattern.SeamEdge {
		ink = grey
	}
	for _, place := range []edgePlace{inAllowance, insideEdge, awayFromEdge} {
		for _, h := range edgeTextHeights {
			for _, text := range texts {
				for _, share := range edgeTextShares {
					l, ok := place(e, text, h, share)
					l.Color = ink
					if ok && r.free(l.quad(edgeTextClear)) {
						return l, true
					}
				}
			}
		}
	}
	if e.role == pattern.SeamEdge {
		return Label{}, false
	}
	l, _ := awayFromEdge(e, texts[len(texts)-1], edgeTextHeights[len(edgeTextHeights)-1], 0.5)
	l.Color = ink
	return l, true
}

// edgePlace is a place of a text at an edge around a share of its length;
// false when the edge has no such place.
type edgePlace func(e shapeEdge, text string, height, share float64) (Label, bool)

// inAllowance writes along the edge in the middle of its allowance.
func inAllowance(e shapeEdge, text string, height, share float64) (Label, bool) {
	s, ok := newStretch(e, TextWidth(text, height, false), share)
	tall := height * (1 + descent)
	if !ok || e.allowance-(s.high-s.low) <= tall+2*edgeTextGap {
		return Label{}, false
	}
	return s.along(text, height, (s.high+e.allowance+s.low)/2), true
}

// insideEdge writes along the edge inside the sew line.
func insideEdge(e shapeEdge, text string, height, share float64) (Label, bool) {
	s, ok := newStretch(e, TextWidth(text, height, false), share)
	return s.along(text, height, s.low-2*edgeTextGap-height*(1+descent)/2), ok
}

// awayFromEdge writes from the edge inward.
func awayFromEdge(e shapeEdge, text string, height, share float64) (Label, bool) {
	s := share * e.path.Length()
	in := e.path.TangentAt(s).Perp()
	angle := readable(in.Direction())
	l := Label{Text: text, Height: height, Angle: angle, Anchor: Left}
	if angle.Unit().Dot(in) < 0 {
		l.Anchor = Right
	}
	l.At = e.path.At(s).Add(in.Mul(edgeTextStart)).Sub(angle.Unit().Perp().Mul(height / 2))
	return l, true
}

// stretch is the part of an edge that a text runs beside: its chord, and how
// far the edge lies outward of it.
type stretch struct {
	middle, dir, out geom.Point
	low, high        float64
}

func newStretch(e shapeEdge, width, share float64) (stretch, bool) {
	length := e.path.Length()
	from, to := share*length-width/2, share*length+width/2
	if from < 0 || to > length {
		return stretch{}, false
	}
	a, b := e.path.At(from), e.path.At(to)
	dir := b.Sub(a).Unit()
	s := stretch{middle: a.Lerp(b, 0.5), dir: dir, out: dir.Perp().Mul(-1)}
	for i := range 7 {
		d := s.out.Dot(e.path.At(from + width*float64(i+1)/8).Sub(a))
		s.low, s.high = min(s.low, d), max(s.high, d)
	}
	return s, true
}

// along writes with the middle of the text d outside the chord.
func (s stretch) along(text string, height, d float64) Label {
	angle := readable(s.dir.Direction())
	base := s.middle.Add(s.out.Mul(d)).Sub(angle.Unit().Perp().Mul(height * (1 - descent) / 2))
	return Label{Text: text, At: base, Height: height, Angle: angle, Anchor: Middle}
}
