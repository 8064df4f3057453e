package check

import (
	"fmt"
	"math"
	"strings"

	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// Verdict says how a check came out.
type Verdict string

// The verdicts, from best to worst.
const (
	Holds  Verdict = "holds"
	Look   Verdict = "look"   // may be meant; the maker decides
	Broken Verdict = "broken" // the piece would not sew or fit as drawn
)

// Check is one thing that was measured.
type Check struct {
	ID       string  `json:"id"`
	Piece    string  `json:"piece,omitempty"`
	Edge     string  `json:"edge,omitempty"`
	Seam     string  `json:"seam,omitempty"`
	Line     string  `json:"line,omitempty"`
	Measured float64 `json:"measured"`
	Unit     string  `json:"unit"` // mm, deg, % or empty for a count
	Allowed  string  `json:"allowed"`
	Verdict  Verdict `json:"verdict"`
	Text     string  `json:"text"` // a sentence, with the remedy unless it holds
	remedy   string
}

// Thing is what a check looks at, wherever on it: the same in another state or
// size of a pattern.
type Thing struct{ ID, Piece, Edge, Seam, Line string }

// Thing returns what the check looks at.
func (c Check) Thing() Thing {
	if c.Seam != "" || c.Line != "" {
		return Thing{ID: c.ID, Seam: c.Seam, Line: c.Line}
	}
	return Thing{ID: c.ID, Piece: c.Piece, Edge: c.Edge}
}

// Found is Text without the remedy and the full stop.
func (c Check) Found() string {
	return strings.TrimSuffix(strings.TrimSuffix(c.Text, "."), ": "+c.remedy)
}

// IDs of the checks.
const (
	WireLength     = "wire-length"
	WireOpening    = "wire-opening"
	WireDepth      = "wire-depth"
	WireInflection = "wire-inflection"
	WirePlay       = "wire-play"
	CupWire        = "cup-wire"
	SeamLength     = "seam-length"
	SeamNotches    = "seam-notches"
	SeamEase       = "seam-ease"
	SeamAllowance  = "seam-allowance"
	SeamEnds       = "seam-ends"
	LineAllowance  = "line-allowance"
	RunOn          = "run-on"
	LineCorner     = "line-corner"
	FoldSquare     = "fold-square"
	HemLength      = "hem-length"
	HemBody        = "hem-body"
	ClothBelow     = "cloth-below-wire"
	BridgeTop      = "bridge-top"
	LaceStraight   = "lace-straight"
	LaceAllowance  = "lace-allowance"
	TurnedBack     = "turned-back"
	TurnedRound    = "turned-back-round"
	Outline        = "outline"
	ShortEdge      = "short-edge"
	CutLine        = "cut-line"
	AlteredMark    = "mark"
	Partner        = "partner"
	ClosureHeight  = "closure"
	ArrowTurned    = "arrow"
	HalvesAlike    = "halves-alike"
)

// Subject is what is checked: one size before and after its alteration.
type Subject struct {
	Before, After pattern.Pattern
	Bounds        Bounds
}

// Run returns all checks of one size, in the order of the garment: wire line,
// seams, lines, edges, pieces.
func Run(before, after pattern.Pattern, bounds Bounds) []Check {
	return Subject{before, after, bounds}.run(wire, seams, runOn, neighbours, corners, hem, edges, outlines, halves, pieces)
}

func (s Subject) run(groups ...func(Subject) []Check) (all []Check) {
	for _, group := range groups {
		all = append(all, group(s)...)
	}
	return all
}

// Worst returns the worst verdict among the checks.
func Worst(checks []Check) Verdict {
	worst := Holds
	for _, c := range checks {
		switch {
		case c.Verdict == Broken:
			return Broken
		case c.Verdict == Look:
			worst = Look
		}
	}
	return worst
}

// settle completes c: verdict from the size of its measure, the bound as
// text, and the remedy added to the sentence when it does not hold.
func settle(c Check, b Bound, remedy string) Check {
	c.Verdict = b.Verdict(c.Measured)
	c.Allowed = fmt.Sprintf("± %g %s, look to ± %g", b.Holds, c.Unit, b.Look)
	return c.Remedied(remedy)
}

func (c Check) Remedied(remedy string) Check {
	if c.Verdict != Holds && remedy != "" {
		c.Text += ": " + remedy
		c.remedy = remedy
	}
	c.Text += "."
	return c
}

// yes completes a check that has no shade between holding and being broken.
func yes(c Check, holds bool, allowed, remedy string) Check {
	c.Verdict, c.Allowed = Broken, allowed
	if holds {
		c.Verdict = Holds
	}
	return c.Remedied(remedy)
}

// mm writes a length for a sentence.
func mm(v float64) string { return unit.MM(v) }

// longer writes a difference for a sentence, as "0.3 mm longer".
func longer(d float64) string {
	if d < 0 {
		return mm(-d) + " shorter"
	}
	return mm(math.Abs(d)) + " longer"
}

// sinceBefore writes how a length has changed, as "0.3 mm longer than before".
func sinceBefore(d float64) string {
	if mm(math.Abs(d)) == mm(0) {
		return "as before"
	}
	return longer(d) + " than before"
}

// times writes how often something happens, as "once" or "3 times".
func times(n float64) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%.0f times", n)
}

// lost returns a broken check for every line of that kind which the
// alteration did away with whole.
func lost(s Subject, kind pattern.LineKind, id, remedy string) []Check {
	var out []Check
	for _, was := range s.Before.Lines {
		if was.Kind != kind || s.After.Line(was.Name) != nil {
			continue
		}
		length := s.Before.Length(was.Parts)
		c := Check{ID: id, Line: was.Name, Piece: was.Parts[0].Piece, Edge: was.Parts[0].Edge, Unit: "mm", Measured: -length}
		c.Text = fmt.Sprintf("The %s, %s before, is gone", was.Name, mm(length))
		out = append(out, yes(c, false, "as long as before", remedy))
	}
	return out
}
