package step

import (
	"bytes"
	"encoding/json"
	"fmt"

	"truemat/geom"
	"truemat/ops/pattern"
)

func init() { register("bring", func() Step { return &Bring{} }) }

// Bring lays pieces with outlines of their own to the right of those there are,
// as a drawing has them: in every size the same. They lie to each other as they
// did, and are sewn to nothing yet.
type Bring struct {
	From   string  `json:"from,omitempty"` // the name of the drawing
	Pieces []Shape `json:"pieces"`
}

// Shape is a piece as it was drawn. What it holds beside its name is none of the
// names or numbers that a recipe fits to a pattern.
type Shape struct {
	Name  string
	piece pattern.Piece
}

// NewShape takes a piece as it will be saved.
func NewShape(pc pattern.Piece) (s Shape, err error) {
	b, err := json.Marshal(pc)
	if err != nil {
		return s, err
	}
	return s, json.Unmarshal(b, &s)
}

// MarshalJSON writes the piece, under its name.
func (s Shape) MarshalJSON() ([]byte, error) {
	pc := s.piece
	pc.Name = s.Name
	return json.Marshal(pc)
}

// UnmarshalJSON reads a piece; it refuses what no piece has.
func (s *Shape) UnmarshalJSON(b []byte) error {
	d := json.NewDecoder(bytes.NewReader(b))
	d.DisallowUnknownFields()
	pc := pattern.Piece{Pose: geom.Identity(), Cut: pattern.Cut{Count: 1}}
	if err := d.Decode(&pc); err != nil {
		return fmt.Errorf("a piece brought in: %w", err)
	}
	*s = Shape{pc.Name, pc}
	return nil
}

// Kind returns "bring".
func (s *Bring) Kind() string { return "bring" }

// Sentence tells what the step does.
func (s *Bring) Sentence() string {
	from := ""
	if s.From != "" {
		from = " from " + s.From
	}
	return sentence(fmt.Sprintf("bring in %s%s", words(s.names()), from))
}

func (s *Bring) names() []string {
	names := make([]string, len(s.Pieces))
	for i := range s.Pieces {
		names[i] = s.Pieces[i].Name
	}
	return names
}

// Apply adds the pieces after all others.
func (s *Bring) Apply(in Input) (Output, error) {
	if len(s.Pieces) == 0 {
		return Output{}, fmt.Errorf("nothing is to be brought in; name at least one piece with its edges")
	}
	p := in.Pattern.Clone()
	there, come := geom.NoBox(), geom.NoBox()
	for i := range p.Pieces {
		o, err := p.Pieces[i].Outline()
		if err != nil {
			return Output{}, err
		}
		there = there.Union(o.Transform(p.Pieces[i].Pose).Bounds())
	}
	var out Output
	first := len(p.Pieces)
	for _, shape := range s.Pieces {
		if p.Piece(shape.Name) != nil {
			return Output{}, fmt.Errorf("there already is a piece %q; give the one brought in another name", shape.Name)
		}
		pc := shape.piece.Clone()
		pc.Name = shape.Name
		o, err := pc.Outline()
		if err != nil {
			return Output{}, fmt.Errorf("the edges of %q make no outline: %w", pc.Name, err)
		}
		come = come.Union(o.Transform(pc.Pose).Bounds())
		p.Pieces = append(p.Pieces, pc)
		if sewnEdge(&pc) {
			out.Notes = append(out.Notes, fmt.Sprintf("%q is sewn to nothing yet: sew it, or declare its edges free.", pc.Name))
		}
	}
	if first > 0 {
		by := geom.Shift(geom.Pt(there.Max.X-come.Min.X+2*besideRoom, there.Min.Y-come.Min.Y))
		for i := first; i < len(p.Pieces); i++ {
			p.Pieces[i].Pose = p.Pieces[i].Pose.Then(by)
		}
	}
	if in.Size != pattern.OneSize {
		is, it := "is", "it"
		if len(s.Pieces) > 1 {
			is, it = "are", "them"
		}
		out.Notes = append(out.Notes, sentence(fmt.Sprintf("%s %s in every size as drawn, no larger or smaller; alter %s by steps for some sizes where those must differ", words(s.names()), is, it)))
	}
	out.Pattern = p
	return out, nil
}

// origin has the pieces among those that came in: they are no altered ones.
func (s *Bring) origin(before, after pattern.Pattern) (pattern.Pattern, error) {
	return asCameIn(before, after, s.names()...), nil
}

// asCameIn has pieces that a step added among those that came in.
func asCameIn(before, after pattern.Pattern, names ...string) pattern.Pattern {
	for _, name := range names {
		if before.Piece(name) == nil {
			before = before.Clone()
			before.Pieces = append(before.Pieces, *after.Piece(name))
		}
	}
	return before
}
