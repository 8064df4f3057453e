package step

import (
	"fmt"
	"slices"

	"truemat/ops/pattern"
)

func init() { register("remove", func() Step { return &Remove{} }) }

// Remove takes a piece away, or an inner line or mark of it, or the name of a
// line that runs on through seams. What was sewn to a piece that goes has no
// partner then, which is told. A seam is taken apart by Sew, a notch deleted
// by Notch.
type Remove struct {
	Piece string `json:"piece,omitempty"`
	// Inner or Mark (its text) is a thing of the piece.
	Inner string `json:"inner,omitempty"`
	Mark  string `json:"mark,omitempty"`
	// Line is a line of the pattern; its edges stay.
	Line string `json:"line,omitempty"`
}

// Kind returns "remove".
func (r *Remove) Kind() string { return "remove" }

// Sentence tells what the step does.
func (r *Remove) Sentence() string {
	return sentence("remove " + thing(r.Piece, "inner line", r.Inner, "mark", r.Mark, "line", r.Line))
}

// Apply removes.
func (r *Remove) Apply(in Input) (Output, error) {
	given := 0
	for _, name := range []string{r.Inner, r.Mark, r.Line} {
		if name != "" {
			given++
		}
	}
	switch {
	case given > 1 || r.Piece != "" && r.Line != "":
		return Output{}, fmt.Errorf("only one thing at a time can be removed; make it several steps")
	case r.Piece == "" && r.Line == "":
		return Output{}, fmt.Errorf("say what is to be removed: a \"piece\", with its \"inner\" line or \"mark\" if only that is meant, or a \"line\"")
	}
	p := in.Pattern.Clone()
	if r.Line != "" {
		i := slices.IndexFunc(p.Lines, func(l pattern.Line) bool { return l.Name == r.Line })
		if i < 0 {
			return Output{}, fmt.Errorf("there is no line %q; there are %q", r.Line, lineNames(p))
		}
		p.Lines = slices.Delete(p.Lines, i, i+1)
		return Output{Pattern: p}, nil
	}
	pc, err := pieceIn(p, r.Piece)
	if err != nil {
		return Output{}, err
	}
	switch {
	case r.Inner != "":
		if pc.InnerLine(r.Inner) == nil {
			return Output{}, fmt.Errorf("%s has no inner line %q; it has %s", r.Piece, r.Inner, quotedList(innerNames(pc)))
		}
		pc.Inner = slices.DeleteFunc(pc.Inner, func(o pattern.Inner) bool { return o.Name == r.Inner })
		return Output{Pattern: p}, nil
	case r.Mark != "":
		i := slices.IndexFunc(pc.Marks, func(o pattern.Mark) bool { return o.Text == r.Mark })
		if i < 0 {
			texts := make([]string, len(pc.Marks))
			for i := range pc.Marks {
				texts[i] = pc.Marks[i].Text
			}
			return Output{}, fmt.Errorf("%s carries no mark %q; it carries %s", r.Piece, r.Mark, quotedList(texts))
		}
		pc.Marks = slices.Delete(pc.Marks, i, i+1)
		return Output{Pattern: p}, nil
	}
	return r.piece(in.Pattern)
}

func (r *Remove) piece(old pattern.Pattern) (Output, error) {
	if len(old.Pieces) == 1 {
		return Output{}, fmt.Errorf("%s is the only piece; a pattern needs at least one", r.Piece)
	}
	next := old.Clone()
	next.Pieces = slices.DeleteFunc(next.Pieces, func(pc pattern.Piece) bool { return pc.Name == r.Piece })
	var m pattern.Map
	m.Remove(r.Piece)
	bare := old.Clone()
	bare.Piece(r.Piece).Notches = nil // nobody needs to be told of each
	p, carried, err := pattern.Carry(bare, next, m)
	if err != nil {
		return Output{}, err
	}
	out := Output{Pattern: p, Map: m, Figures: map[string]float64{}, Notes: carried.Notes}
	reportSeams(old, p, &out)
	return out, nil
}
