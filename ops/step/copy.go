package step

import (
	"fmt"

	"truemat/geom"
)

func init() { register("copy", func() Step { return &Copy{} }) }

// Copy lays a second piece of the same shape on the mat, shifted by DX and DY
// mm, under a name of its own. Everything on the piece is copied; seams and
// lines stay with the original.
type Copy struct {
	Piece string `json:"piece"`
	Name  string `json:"name"`
	DX    Number `json:"dx,omitzero"`
	DY    Number `json:"dy,omitzero"`
}

// Kind returns "copy".
func (c *Copy) Kind() string { return "copy" }

// Sentence tells what the step does.
func (c *Copy) Sentence() string {
	return sentence(fmt.Sprintf("copy %s as %q", c.Piece, c.Name))
}

// Apply adds the copy after all other pieces.
func (c *Copy) Apply(in Input) (Output, error) {
	p := in.Pattern.Clone()
	pc, err := pieceIn(p, c.Piece)
	if err != nil {
		return Output{}, err
	}
	switch {
	case c.Name == "":
		return Output{}, fmt.Errorf("the copy of %s needs a name", c.Piece)
	case p.Piece(c.Name) != nil:
		return Output{}, fmt.Errorf("there already is a piece %q; give the copy of %s another name", c.Name, c.Piece)
	}
	dx, err := c.DX.In(in)
	if err != nil {
		return Output{}, err
	}
	dy, err := c.DY.In(in)
	if err != nil {
		return Output{}, err
	}
	twin := pc.Clone()
	twin.Name = c.Name
	twin.Pose = pc.Pose.Then(geom.Shift(geom.Pt(dx, dy)))
	p.Pieces = append(p.Pieces, twin)
	out := Output{Pattern: p}
	if sewnEdge(&twin) {
		out.Notes = []string{fmt.Sprintf("%q is sewn to nothing yet: sew it, or declare its edges free.", c.Name)}
	}
	return out, nil
}
