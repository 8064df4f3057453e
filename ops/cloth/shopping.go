package cloth

import (
	"fmt"
	"math"

	"truemat/ops/pattern"
)

// yard is a yard in mm.
const yard = 914.4

// Wanted is one entry of the list to shop from.
type Wanted struct {
	What   string  `json:"what"`
	Count  int     `json:"count,omitempty"`
	Length float64 `json:"length_mm,omitempty"` // of all together, or of each when Count is given
	// Spare is how much more is bought at least, in mm.
	Spare float64 `json:"spare_mm,omitempty"`
	// Metric and Yards are the length with that, rounded up to how it is sold.
	Metric string `json:"metric,omitempty"`
	Yards  string `json:"yards,omitempty"`
}

// ByLength returns an entry sold by length, which is given in mm.
func ByLength(what string, mm float64) Wanted {
	return Wanted{
		What: what, Length: mm,
		Metric: Metric(mm), Yards: Yards(mm),
	}
}

// Metric writes a length in mm rounded up to whole units of 10 cm.
func Metric(mm float64) string { return fmt.Sprintf("%.0f cm", Sold(mm, SoldMetric)/10) }

// Yards writes a length in mm rounded up to whole eighths of a yard.
func Yards(mm float64) string { return yards(int(math.Round(Sold(mm, SoldYard) / SoldYard))) }

// Spare is how much more cloth or lace in mm is bought at least than the pieces
// take (common practice).
const Spare = 30.0

// SpareTold says so.
var SpareTold = fmt.Sprintf("Of cloth and lace at least %g mm more is bought than the pieces take: a shop's cut may lie askew, and cloth may shrink when it is washed before it is cut (common practice).", Spare)

// OfCloth returns an entry for a cloth or lace of which the pieces take a length
// in mm.
func OfCloth(what string, mm float64) Wanted {
	return Wanted{What: what, Length: mm, Spare: Spare, Metric: Metric(mm + Spare), Yards: Yards(mm + Spare)}
}

// Told is What with the length that the pieces take where more than that is bought.
func (w Wanted) Told() string {
	if w.Spare == 0 {
		return w.What
	}
	return fmt.Sprintf("%s (the pieces take %.0f mm)", w.What, w.Length)
}

// Buy writes how much of a cloth or lace is bought of which the pieces take a
// length in mm: "30 cm or 3/8 yd".
func Buy(mm float64) string { return Metric(mm+Spare) + " or " + Yards(mm+Spare) }

// yards writes a number of eighths of a yard.
func yards(eighths int) string {
	whole, over, under := eighths/8, eighths%8, 8
	for over > 0 && over%2 == 0 {
		over, under = over/2, under/2
	}
	switch {
	case over == 0:
		return fmt.Sprintf("%d yd", whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d yd", over, under)
	}
	return fmt.Sprintf("%d %d/%d yd", whole, over, under)
}

// ShoppingList returns what is bought for one garment of a size besides cloth:
// elastics, channelling, wires, straps, closure and thread, each rounded up to
// how it is sold. An error names what the goods speak of and the pattern lacks.
func (g Goods) ShoppingList(p pattern.Pattern) ([]Wanted, error) {
	var out []Wanted
	for _, e := range g.Elastics {
		cut, err := e.Cut(p)
		if err != nil {
			return nil, err
		}
		what := fmt.Sprintf("elastic %g mm wide", e.Width)
		if e.Sort != "" {
			what = fmt.Sprintf("%s, %s", what, e.Sort)
		}
		out = append(out, ByLength(fmt.Sprintf("%s (%s)", what, e.Name), cut.Length))
	}
	for _, l := range p.Lines {
		if l.Kind != pattern.LineWire {
			continue
		}
		count := max(l.Count, 1)
		each := p.Length(l.Parts) + g.Notions.ChannelEnds
		out = append(out, ByLength(fmt.Sprintf("channelling for the %s, %d of %.0f mm", l.Name, count, each), float64(count)*each))
	}
	if wire := p.Figures[pattern.FigureWire]; wire > 0 {
		out = append(out, Wanted{What: "wires, one pair, length along the wire", Count: 2, Length: wire})
	}
	if s := g.Notions.Straps; s.Count > 0 {
		out = append(out, ByLength(fmt.Sprintf("strap elastic %g mm wide, %d of %.0f mm", s.Width, s.Count, s.Length), float64(s.Count)*s.Length))
	}
	if h := p.Figures[pattern.FigureClosure]; h > 0 {
		what := "hook-and-eye closure, height"
		if n := g.Notions.Eyes.Columns; n > 0 {
			what = fmt.Sprintf("hook-and-eye closure, eyes in %d columns, height", n)
		}
		out = append(out, Wanted{What: what, Count: 1, Length: h})
	}
	threads, err := g.Threads(p)
	if err != nil {
		return nil, err
	}
	for _, t := range threads {
		out = append(out, Wanted{What: fmt.Sprintf("thread for stitch %s", t.Class), Length: t.Long, Metric: fmt.Sprintf("%.0f m", math.Ceil(t.Long/1000)), Yards: fmt.Sprintf("%.0f yd", math.Ceil(t.Long/yard))})
	}
	return out, nil
}
