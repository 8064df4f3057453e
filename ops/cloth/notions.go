package cloth

import (
	"fmt"
	"slices"
	"strings"

	"truemat/ops/pattern"
)

// Notions are what is bought besides cloth and elastic.
type Notions struct {
	// ChannelEnds is how much longer in mm each channelling is cut than its
	// wire line, both ends together.
	ChannelEnds float64  `json:"channel_ends,omitempty"`
	Straps      Straps   `json:"straps,omitzero"`
	Eyes        Eyes     `json:"eyes,omitzero"`
	Sewing      []Sewing `json:"sewing,omitempty"`
	// Waste is how many per cent more thread is bought than the seams take.
	Waste float64 `json:"waste,omitempty"`
}

// Straps are the straps of the garment.
type Straps struct {
	Count  int     `json:"count"`
	Width  float64 `json:"width"`  // mm
	Length float64 `json:"length"` // of each, to cut, mm
}

// Sewing says with which stitch something is sewn.
type Sewing struct {
	// Class is the stitch by ISO 4915, such as "301" for the lockstitch.
	Class string `json:"class"`
	// Ratio is the length of thread that a length of seam takes; the usual one
	// of the class when 0.
	Ratio float64 `json:"ratio,omitempty"`
	Rows  int     `json:"rows,omitempty"` // 0 counts as 1
	// Seams, Lines and Elastics are what is sewn so; all seams when all are empty.
	Seams    []string `json:"seams,omitempty"`
	Lines    []string `json:"lines,omitempty"`
	Elastics []string `json:"elastics,omitempty"`
}

// Stitch is a class of stitch of ISO 4915 with the length of thread that a
// length of seam usually takes.
type Stitch struct {
	Class, Name string
	Ratio       float64
}

// Stitches returns the classes of stitch that are offered, with what they are
// called and their usual ratios (from memory; they vary with stitch length and
// thickness, so let her measure her own).
func Stitches() []Stitch {
	return []Stitch{
		{"301", "lockstitch", 2.5},
		{"304", "zigzag lockstitch", 7},
		{"321", "three-step zigzag", 8},
		{"401", "two-thread chain stitch", 5.5},
		{"406", "two-needle cover stitch", 18},
		{"504", "three-thread overedge", 14},
		{"514", "four-thread overedge", 18},
		{"516", "five-thread safety stitch", 20},
	}
}

func (s Sewing) ratio() float64 {
	if s.Ratio != 0 {
		return s.Ratio
	}
	for _, st := range Stitches() {
		if st.Class == s.Class {
			return st.Ratio
		}
	}
	return 0
}

// Validate refuses notions that cannot be; the error is a [Wrong].
func (n Notions) Validate() error {
	switch {
	case !(n.ChannelEnds >= 0 && n.ChannelEnds <= longest):
		return wrong("channel_ends", "the channelling is to be %g mm longer than its line; give 0 or more", n.ChannelEnds)
	case !(n.Waste >= 0 && n.Waste <= 100):
		return wrong("waste", "%g %% more thread is wanted; give between 0 and 100", n.Waste)
	}
	if s := n.Straps; s != (Straps{}) && !(s.Count > 0 && s.Width > 0 && s.Width <= longest && s.Length > 0 && s.Length <= longest) {
		return wrong("straps", "%d straps of %g × %g mm are wanted; count, width and length are above 0, or all left out", s.Count, s.Width, s.Length)
	}
	if err := n.Eyes.validate(); err != nil {
		return err
	}
	for i, s := range n.Sewing {
		field := func(name string) string { return fmt.Sprintf("sewing.%d.%s", i, name) }
		switch {
		case s.Class == "":
			return wrong(field("class"), "a stitch has no class; give its number by ISO 4915, such as %q for the lockstitch", "301")
		case s.ratio() == 0:
			return wrong(field("ratio"), "no usual length of thread is known for stitch class %q; give its \"ratio\", measured on a seam of your own", s.Class)
		case !(s.Ratio >= 0 && s.Ratio <= mostThread):
			return wrong(field("ratio"), "stitch class %q is said to take %g times the seam in thread; a stitch takes between 1 and %d", s.Class, s.Ratio, mostThread)
		case s.Rows < 0:
			return wrong(field("rows"), "stitch class %q is sewn in %d rows; give 1 or more", s.Class, s.Rows)
		}
	}
	return nil
}

// mostThread bounds the length of thread for a length of seam.
const mostThread = 100

// Thread is how much thread one class of stitch takes.
type Thread struct {
	Class string  `json:"class"`
	Ratio float64 `json:"ratio"`
	Seam  float64 `json:"seam_mm"`   // sewn, all rows
	Long  float64 `json:"thread_mm"` // waste included
}

// Threads returns how much thread the garment takes, class by class. An error
// names a seam, line or elastic that is missing.
func (g Goods) Threads(p pattern.Pattern) ([]Thread, error) {
	var out []Thread
	add := func(s Sewing, run float64) {
		i := slices.IndexFunc(out, func(t Thread) bool { return t.Class == s.Class && t.Ratio == s.ratio() })
		if i < 0 {
			out = append(out, Thread{Class: s.Class, Ratio: s.ratio()})
			i = len(out) - 1
		}
		out[i].Seam += run
		out[i].Long += run * s.ratio() * (1 + g.Notions.Waste/100)
	}
	for _, s := range g.Notions.Sewing {
		run, err := g.sewn(p, s)
		if err != nil {
			return nil, fmt.Errorf("stitch class %q: %w", s.Class, err)
		}
		add(s, run*float64(max(s.Rows, 1)))
	}
	for _, t := range g.Topstitch {
		run, err := g.sewn(p, Sewing{Class: t.Class, Seams: []string{t.Seam}})
		if err != nil {
			return nil, fmt.Errorf("topstitching: %w", err)
		}
		add(t.stitch(), run*t.sewnRows(p.Seam(t.Seam).Press))
	}
	return out, nil
}

// sewn returns the length in mm that is sewn with a stitch, in one row.
func (g Goods) sewn(p pattern.Pattern, s Sewing) (float64, error) {
	sum := 0.0
	seams := s.Seams
	if len(s.Seams)+len(s.Lines)+len(s.Elastics) == 0 {
		for _, seam := range p.Seams {
			seams = append(seams, seam.Name)
		}
	}
	for _, name := range seams {
		seam := p.Seam(name)
		if seam == nil {
			return 0, fmt.Errorf("there is no seam %q; there are %s", name, seamNames(p))
		}
		a, b := p.SeamLengths(*seam)
		sum += max(a, b) * TimesSewn(p, *seam)
	}
	for _, name := range s.Lines {
		l := p.Line(name)
		if l == nil {
			return 0, fmt.Errorf("there is no line %q; there are %s", name, lineNames(p))
		}
		sum += p.Length(l.Parts) * float64(max(l.Count, 1))
	}
	for _, name := range s.Elastics {
		i := slices.IndexFunc(g.Elastics, func(e Elastic) bool { return e.Name == name })
		if i < 0 {
			return 0, fmt.Errorf("there is no elastic %q", name)
		}
		cut, err := g.Elastics[i].Cut(p)
		if err != nil {
			return 0, err
		}
		sum += cut.Run
	}
	return sum, nil
}

// TimesSewn returns how often a seam is in the garment: twice, on the left and
// on the right, unless all its pieces are cut single and whole.
func TimesSewn(p pattern.Pattern, s pattern.Seam) float64 {
	for _, pt := range slices.Concat(s.A, s.B) {
		if pc := p.Piece(pt.Piece); pc != nil && (pc.Cut.Pair || pc.Fold() != nil) {
			return 2
		}
	}
	return 1
}

func seamNames(p pattern.Pattern) string {
	if len(p.Seams) == 0 {
		return "none"
	}
	list := make([]string, len(p.Seams))
	for i, s := range p.Seams {
		list[i] = fmt.Sprintf("%q", s.Name)
	}
	return strings.Join(list, ", ")
}
