package cloth

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"truemat/ops/pattern"
)

// Elastic is one elastic that runs along a line of the pattern.
type Elastic struct {
	Name string `json:"name"`
	Line string `json:"line"`
	// On names the pieces on whose part of the line it runs; empty, it runs
	// along all of it.
	On    []string `json:"on,omitempty"`
	Sort  string   `json:"sort,omitempty"` // what it is, in her words: "plush back", "picot"
	Width float64  `json:"width"`          // mm
	PutOn PutOn    `json:"put_on"`
	// Loops is how far in mm its edge loops stand out beyond the width.
	Loops float64 `json:"loops,omitempty"`
	// Stretches say by how many per cent it is shorter than the line, piece by
	// piece; on pieces that are not named it lies flat.
	Stretches []Reduced `json:"stretches,omitempty"`
	Overlap   float64   `json:"overlap,omitempty"` // mm more, both ends together
}

// Reduced says by how many per cent an elastic is shorter than the line on
// some pieces.
type Reduced struct {
	Pieces  []string `json:"pieces"`
	Percent float64  `json:"percent"`
}

// PutOn says how an elastic is put on.
type PutOn string

// The ways of putting an elastic on.
const (
	// Turned is sewn on, turned to the inside and sewn again: it takes an
	// allowance of its width.
	Turned PutOn = "turned"
	// BehindLace lies behind a border, whose edge is the finished edge.
	BehindLace PutOn = "behind-lace"
	// FoldedOver is folded about the cut edge.
	FoldedOver PutOn = "folded-over"
)

var putOns = []PutOn{Turned, BehindLace, FoldedOver}

// Reductions that are usual, in per cent (common practice: none to 5 under
// the frame, 10 to 15 on the band).
const (
	FrameReduction = 3
	BandReduction  = 12
)

// UsualReduction returns by how many per cent an elastic is usually shorter on a
// piece, and the usual range of it (common practice): 10 to 15 on a part that is
// to give, 0 to 5 on a firm one under the frame, none on a firm one elsewhere.
func UsualReduction(pc *pattern.Piece, kind pattern.LineKind) (usual, from, to float64) {
	switch {
	case pc != nil && pc.Arrow.Kind == pattern.MostStretch:
		return BandReduction, 10, 15
	case kind == pattern.LineHem:
		return FrameReduction, 0, 5
	}
	return 0, 0, 5
}

// Validate refuses an elastic that cannot be; the error holds a [Wrong].
func (e Elastic) Validate() error {
	all := e.Wrongs()
	if len(all) == 0 {
		return nil
	}
	if all[0].Field == "name" {
		return all[0]
	}
	return fmt.Errorf("elastic %q: %w", e.Name, all[0])
}

// Wrongs returns all that cannot be about an elastic by itself, one for each
// field at most.
func (e Elastic) Wrongs() []Wrong {
	var out []Wrong
	fail := func(field, format string, a ...any) { out = append(out, Wrong{field, fmt.Errorf(format, a...)}) }
	if strings.TrimSpace(e.Name) == "" {
		fail("name", "an elastic has no name; call it after its place, such as %q", "hem elastic")
	}
	if e.Line == "" {
		fail("line", "the line it runs along is missing")
	}
	if !(e.Width > 0 && e.Width <= longest) {
		fail("width", "its width is %g mm; measure it across, without loops", e.Width)
	}
	if !slices.Contains(putOns, e.PutOn) {
		fail("put_on", "it is put on %q; it can be put on %q", e.PutOn, putOns)
	}
	if !(e.Loops >= 0 && e.Loops <= longest) {
		fail("loops", "its loops stand out by %g mm; give 0 when it has none", e.Loops)
	}
	if !(e.Overlap >= 0 && e.Overlap <= longest) {
		fail("overlap", "its ends overlap by %g mm; give 0 or more", e.Overlap)
	}
	for i, name := range e.On {
		if slices.Contains(e.On[:i], name) {
			fail("on", "it is said twice that it runs on %s; say it once", name)
			break
		}
	}
	seen := map[string]bool{}
	for i, r := range e.Stretches {
		field := fmt.Sprintf("stretches.%d", i)
		twice := slices.IndexFunc(r.Pieces, func(name string) bool { return seen[name] })
		off := slices.IndexFunc(r.Pieces, func(name string) bool { return !e.RunsOn(name) })
		switch {
		case len(r.Pieces) == 0:
			fail(field, "a reduction of %g %% names no piece", r.Percent)
		case !(r.Percent >= 0 && r.Percent <= mostReduced):
			fail(field, "it is to be %g %% shorter on %s; a reduction lies between 0 and %d", r.Percent, strings.Join(r.Pieces, ", "), mostReduced)
		case twice >= 0:
			fail(field, "two reductions are given on %s; give one", r.Pieces[twice])
		case off >= 0:
			fail(field, "it is to be shorter on %s, on which it does not run; it runs on %s", r.Pieces[off], strings.Join(e.On, ", "))
		}
		for _, name := range r.Pieces {
			seen[name] = true
		}
	}
	return out
}

// mostReduced is the reduction in per cent at which an elastic is stretched
// to twice its length, beyond what any keeps up.
const mostReduced = 50

// Strain returns by how many per cent an elastic is stretched where it is
// percent per cent shorter than what it lies on: r / (1 − r).
func Strain(percent float64) float64 {
	r := percent / 100
	return 100 * r / (1 - r)
}

// RunsOn reports whether it runs on a piece where its line does.
func (e Elastic) RunsOn(piece string) bool {
	return len(e.On) == 0 || slices.Contains(e.On, piece)
}

// Along returns the parts of its line along which it runs, in their order; none
// where the pattern does not have the line.
func (e Elastic) Along(p pattern.Pattern) []pattern.Part {
	l := p.Line(e.Line)
	if l == nil {
		return nil
	}
	var out []pattern.Part
	for _, pt := range l.Parts {
		if e.RunsOn(pt.Piece) {
			out = append(out, pt)
		}
	}
	return out
}

// Reduction returns by how many per cent the elastic is shorter on a piece.
func (e Elastic) Reduction(piece string) float64 {
	for _, r := range e.Stretches {
		if slices.Contains(r.Pieces, piece) {
			return r.Percent
		}
	}
	return 0
}

// CutElastic is an elastic as it is cut in one size.
type CutElastic struct {
	Name    string       `json:"name"`
	Sort    string       `json:"sort,omitempty"`
	Width   float64      `json:"width_mm"`
	Line    string       `json:"line"`
	Run     float64      `json:"run_mm"` // of the line where it runs, as often as that is in the garment
	Length  float64      `json:"cut_mm"` // to cut, overlaps included
	Pieces  int          `json:"pieces"` // of elastic that this is cut into, all alike
	Parts   []CutStretch `json:"parts"`
	Overlap float64      `json:"overlap_mm"` // of each
}

// Each returns the line along which one piece of the elastic runs and the length
// that it is cut to, in mm.
func (c CutElastic) Each() (run, length float64) {
	return c.Run / float64(c.Pieces), c.Length / float64(c.Pieces)
}

// Told tells how it is cut, "521 mm" or "2 of 167 mm", with lengths written by write.
func (c CutElastic) Told(write func(mm float64) string) string {
	_, length := c.Each()
	if c.Pieces > 1 {
		return fmt.Sprintf("%d of %s", c.Pieces, write(length))
	}
	return write(length)
}

// CutStretch is the part of an elastic on one piece, as often as that is in the
// garment.
type CutStretch struct {
	Piece   string  `json:"piece"`
	Times   int     `json:"times"`  // in how many stretches
	Run     float64 `json:"run_mm"` // of the line
	Percent float64 `json:"reduction_percent"`
	Length  float64 `json:"length_mm"` // of elastic
	Strain  float64 `json:"strain_percent"`
}

// Told tells of the elastic on a piece, "261 mm on 269 mm" or "2 × 120 mm on
// 137 mm", with lengths written by write.
func (c CutStretch) Told(write func(mm float64) string) string {
	n := float64(c.Times)
	return Times(c.Times) + write(c.Length/n) + " on " + write(c.Run/n)
}

// Times begins what is told of something that is so often in the garment: ""
// for once, "2 × ".
func Times(n int) string {
	if n == 1 {
		return ""
	}
	return fmt.Sprintf("%d × ", n)
}

// Cut returns how long the elastic is cut for a pattern. An error names a line
// that is missing.
func (e Elastic) Cut(p pattern.Pattern) (CutElastic, error) {
	l := p.Line(e.Line)
	if l == nil {
		return CutElastic{}, fmt.Errorf("elastic %q runs along the line %q, which the pattern does not have; it has %s", e.Name, e.Line, lineNames(p))
	}
	count, along := float64(max(l.Count, 1)), e.Along(p)
	out := CutElastic{Name: e.Name, Sort: e.Sort, Width: e.Width, Line: e.Line, Overlap: e.Overlap, Pieces: OneGo(p, along, l.Count)}
	out.Length = e.Overlap * float64(out.Pieces)
	for _, pt := range along {
		run, r := p.PartLength(pt)*count, e.Reduction(pt.Piece)
		length := run * (1 - r/100)
		out.Run += run
		out.Length += length
		if last := len(out.Parts) - 1; last >= 0 && out.Parts[last].Piece == pt.Piece {
			out.Parts[last].Run += run
			out.Parts[last].Length += length
			continue
		}
		of := slices.DeleteFunc(slices.Clone(along), func(other pattern.Part) bool { return other.Piece != pt.Piece })
		out.Parts = append(out.Parts, CutStretch{Piece: pt.Piece, Times: OneGo(p, of, l.Count), Run: run, Percent: r, Length: length, Strain: Strain(r)})
	}
	return out, nil
}

// Sold rounds a length in mm up to whole units of sale.
func Sold(length, unit float64) float64 { return unit * math.Ceil(length/unit-soldSlack) }

// soldSlack is the share of a unit of sale that rounding may add by itself.
const soldSlack = 1e-9

// Units in which lengths are sold (common practice): 10 cm and 1/8 yard.
const (
	SoldMetric = 100.0
	SoldYard   = yard / 8
)

func lineNames(p pattern.Pattern) string {
	if len(p.Lines) == 0 {
		return "none"
	}
	names := make([]string, len(p.Lines))
	for i, l := range p.Lines {
		names[i] = fmt.Sprintf("%q", l.Name)
	}
	return strings.Join(names, ", ")
}
