package step

import (
	"fmt"

	"truemat/geom"
	"truemat/ops/pattern"
)

func init() { register("rename", func() Step { return &Rename{} }) }

// Rename gives a piece, or one of its edges, notches or inner lines, or a seam
// or line another name. All that refers to it follows; later steps speak of
// the new name.
type Rename struct {
	Piece string `json:"piece,omitempty"`
	// Edge, Notch or Inner is a thing of the piece.
	Edge  string `json:"edge,omitempty"`
	Notch string `json:"notch,omitempty"`
	Inner string `json:"inner,omitempty"`
	// Seam or Line is a thing of the pattern; then no piece is named.
	Seam string `json:"seam,omitempty"`
	Line string `json:"line,omitempty"`
	To   string `json:"to"`
}

// Kind returns "rename".
func (r *Rename) Kind() string { return "rename" }

// Sentence tells what the step does.
func (r *Rename) Sentence() string {
	return sentence(fmt.Sprintf("call %s %q", r.thing(), r.To))
}

func (r *Rename) thing() string {
	return thing(r.Piece, "edge", r.Edge, "notch", r.Notch, "inner line", r.Inner, "seam", r.Seam, "line", r.Line)
}

// thing names the last of the pairs of kind and name that is given, and the
// piece it is of.
func thing(piece string, pairs ...string) string {
	what := fmt.Sprintf("piece %q", piece)
	for i := 0; i+1 < len(pairs); i += 2 {
		switch kind, name := pairs[i], pairs[i+1]; {
		case name == "":
		case piece == "":
			what = fmt.Sprintf("%s %q", kind, name)
		default:
			what = fmt.Sprintf("%s %q of %s", kind, name, piece)
		}
	}
	return what
}

// Apply renames.
func (r *Rename) Apply(in Input) (Output, error) {
	p, m, err := r.in(in.Pattern)
	return Output{Pattern: p, Map: m}, err
}

func (r *Rename) in(old pattern.Pattern) (pattern.Pattern, pattern.Map, error) {
	p := old.Clone()
	var m pattern.Map
	if err := r.checkFields(); err != nil {
		return p, m, err
	}
	if r.To == "" {
		return p, m, fmt.Errorf("the new name of %s is empty; write a word", r.thing())
	}
	var err error
	switch {
	case r.Seam != "":
		if s := p.Seam(r.Seam); s == nil {
			err = fmt.Errorf("there is no seam %q; there are %q", r.Seam, seamNames(p))
		} else if err = r.free(r.Seam, p.Seam(r.To) != nil, "a seam"); err == nil {
			s.Name = r.To
		}
	case r.Line != "":
		if l := p.Line(r.Line); l == nil {
			err = fmt.Errorf("there is no line %q; there are %q", r.Line, lineNames(p))
		} else if err = r.free(r.Line, p.Line(r.To) != nil, "a line"); err == nil {
			l.Name = r.To
		}
	default:
		err = r.onPiece(old, p, &m)
	}
	return p, m, err
}

// origin calls what was there before by its new name too.
func (r *Rename) origin(before, _ pattern.Pattern) (pattern.Pattern, error) {
	named, _, err := r.in(before)
	return named, err
}

func (r *Rename) checkFields() error {
	own, shared := 0, 0
	for _, name := range []string{r.Edge, r.Notch, r.Inner} {
		if name != "" {
			own++
		}
	}
	for _, name := range []string{r.Seam, r.Line} {
		if name != "" {
			shared++
		}
	}
	switch {
	case r.Piece == "" && shared == 0 && own == 0:
		return fmt.Errorf("say what is to be called %q: a \"piece\", with its \"edge\", \"notch\" or \"inner\" line if meant, a \"seam\" or a \"line\"", r.To)
	case own+shared > 1, r.Piece != "" && shared > 0:
		return fmt.Errorf("only one thing at a time can be called %q; make it several steps", r.To)
	case r.Piece == "" && own > 0:
		return fmt.Errorf("%s is a thing of a piece; name its \"piece\" too", r.thing())
	}
	return nil
}

// free refuses a name that is taken, or that the thing has already.
func (r *Rename) free(was string, taken bool, what string) error {
	switch {
	case was == r.To:
		return fmt.Errorf("%s is called so already", r.thing())
	case taken:
		return fmt.Errorf("there already is %s %q; give %s another name", what, r.To, r.thing())
	}
	return nil
}

func (r *Rename) onPiece(old, p pattern.Pattern, m *pattern.Map) error {
	pc, err := pieceIn(p, r.Piece)
	if err != nil {
		return err
	}
	switch {
	case r.Edge != "":
		_, e, err := edgeIn(p, r.Piece, r.Edge)
		if err != nil {
			return err
		}
		if err := r.free(r.Edge, pc.Edge(r.To) != nil, "an edge"); err != nil {
			return err
		}
		e.Name = r.To
		for i := range pc.Notches {
			if pc.Notches[i].Edge == r.Edge {
				pc.Notches[i].Edge = r.To
			}
		}
		eachPart(p, func(pt *pattern.Part) {
			if pt.Piece == r.Piece && pt.Edge == r.Edge {
				pt.Edge = r.To
			}
		})
		_, was := old.Edge(r.Piece, r.Edge)
		m.WholeEdge(r.Piece, was, r.Piece, e)
	case r.Notch != "":
		n := pc.Notch(r.Notch)
		if n == nil {
			return fmt.Errorf("%s has no notch %q; it has %s", r.Piece, r.Notch, quotedList(notchNames(pc)))
		}
		if err := r.free(r.Notch, pc.Notch(r.To) != nil, "a notch"); err != nil {
			return err
		}
		n.Name = r.To
		eachBound(p, func(b *pattern.NotchName) {
			if b.Piece == r.Piece && b.Notch == r.Notch {
				b.Notch = r.To
			}
		})
	case r.Inner != "":
		in := pc.InnerLine(r.Inner)
		if in == nil {
			return fmt.Errorf("%s has no inner line %q; it has %s", r.Piece, r.Inner, quotedList(innerNames(pc)))
		}
		if err := r.free(r.Inner, pc.InnerLine(r.To) != nil, "an inner line"); err != nil {
			return err
		}
		in.Name = r.To
	default:
		if err := r.free(r.Piece, p.Piece(r.To) != nil, "a piece"); err != nil {
			return err
		}
		pc.Name = r.To
		eachPart(p, func(pt *pattern.Part) {
			if pt.Piece == r.Piece {
				pt.Piece = r.To
			}
		})
		eachBound(p, func(b *pattern.NotchName) {
			if b.Piece == r.Piece {
				b.Piece = r.To
			}
		})
		m.Move(r.Piece, r.To, geom.Identity())
	}
	return nil
}

// eachPart calls f with every part of every seam and line.
func eachPart(p pattern.Pattern, f func(*pattern.Part)) {
	for i := range p.Seams {
		for j := range p.Seams[i].A {
			f(&p.Seams[i].A[j])
		}
		for j := range p.Seams[i].B {
			f(&p.Seams[i].B[j])
		}
	}
	for i := range p.Lines {
		for j := range p.Lines[i].Parts {
			f(&p.Lines[i].Parts[j])
		}
	}
}

// eachBound calls f with every notch that bounds a stretch of a seam.
func eachBound(p pattern.Pattern, f func(*pattern.NotchName)) {
	for i := range p.Seams {
		for j := range p.Seams[i].Stretches {
			st := &p.Seams[i].Stretches[j]
			f(&st.From)
			f(&st.To)
		}
	}
}

func notchNames(pc *pattern.Piece) []string {
	names := make([]string, len(pc.Notches))
	for i := range pc.Notches {
		names[i] = pc.Notches[i].Name
	}
	return names
}

func lineNames(p pattern.Pattern) []string {
	names := make([]string, len(p.Lines))
	for i := range p.Lines {
		names[i] = p.Lines[i].Name
	}
	return names
}
