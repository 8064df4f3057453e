package check

import (
	"truemat/ops/pattern"
)

// FitSize holds the fit numbers of one size, in mm and per cent.
type FitSize struct {
	Size string `json:"size"`
	Wire string `json:"wire,omitempty"` // its name in the table
	// WireLength is the wire's, LineLength that of the wire line it lies in.
	WireLength float64 `json:"wire_mm,omitempty"`
	LineLength float64 `json:"wire_line_mm,omitempty"`
	// Spare is what the line is longer than the wire and the play wanted.
	Spare float64 `json:"spare_mm"`
	// PlayStart and PlayEnd are the room that the wire has where its line starts
	// and ends, what is spare shared evenly; 0 without a wire.
	PlayStart float64 `json:"play_start_mm,omitempty"`
	PlayEnd   float64 `json:"play_end_mm,omitempty"`
	// Underbust is the body measure, Hem the finished hem, closed, and Less how
	// much shorter that is, in per cent of the body measure.
	Underbust float64 `json:"underbust_mm,omitempty"`
	Hem       float64 `json:"hem_mm,omitempty"`
	Less      float64 `json:"less_percent,omitempty"`
	// Checks are those of the wire's play, the cup against the wire line and
	// the hem against the body.
	Checks []Check `json:"checks"`
}

// FitNumbers returns the fit numbers of a size as it is altered: wire line
// against wire, cup against wire line, hem against body.
func FitNumbers(size pattern.Size, before pattern.Pattern, bounds Bounds) FitSize {
	p := size.Pattern
	f := FitSize{Size: size.Label, Wire: size.Wire, WireLength: p.Figures[pattern.FigureWire], Underbust: p.Figures[pattern.FigureUnderbust]}
	for _, l := range p.Lines {
		if l.Kind == pattern.LineWire {
			f.LineLength = p.Length(l.Parts)
			break
		}
	}
	if f.WireLength > 0 && f.LineLength > 0 {
		start, end := p.Figures[pattern.FigurePlayStart], p.Figures[pattern.FigurePlayEnd]
		f.Spare = f.LineLength - f.WireLength - start - end
		f.PlayStart, f.PlayEnd = start+f.Spare/2, end+f.Spare/2
	}
	if round, _, ok := HemRound(p); ok {
		f.Hem = round
		if f.Underbust > 0 {
			f.Less = (1 - round/f.Underbust) * 100
		}
	}
	for _, c := range (Subject{before, p, bounds}).run(wire, seams, hem) {
		if c.ID == WirePlay || c.ID == CupWire || c.ID == HemBody {
			f.Checks = append(f.Checks, c)
		}
	}
	return f
}

// HemRound returns how far the finished hem goes round the body, the closure
// fastened, in mm, and the line that its first part belongs to.
func HemRound(p pattern.Pattern) (round float64, first pattern.Line, ok bool) {
	round = p.Figures[pattern.FigureFastened]
	for _, l := range p.Lines {
		if l.Kind == pattern.LineHem {
			round += p.Length(l.Parts) * float64(max(l.Count, 1))
			if !ok {
				first, ok = l, true
			}
		}
	}
	return round, first, ok
}
