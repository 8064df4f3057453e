package step

import (
	"fmt"

	"truemat/geom"
	"truemat/ops/pattern"
)

func init() { register("move", func() Step { return &Move{} }) }

// Move lays a piece elsewhere on the mat: first turned by Degrees (counter-
// clockwise) about a spot, or about its middle when none is given, then
// shifted by DX and DY mm. Only its pose changes.
type Move struct {
	Piece   string        `json:"piece"`
	DX      Number        `json:"dx,omitzero"`
	DY      Number        `json:"dy,omitzero"`
	Degrees Number        `json:"degrees,omitzero"`
	About   *pattern.Spot `json:"about,omitempty"`
}

// Kind returns "move".
func (m *Move) Kind() string { return "move" }

// Sentence tells what the step does.
func (m *Move) Sentence() string {
	s := fmt.Sprintf("move %s by %s across and %s up", m.Piece, m.DX, m.DY)
	if !isNought(m.Degrees) {
		s += ", turned by " + m.Degrees.Text("°")
		if m.About != nil {
			s += " about " + m.About.String()
		}
	}
	return sentence(s)
}

// Apply changes the piece's pose.
func (m *Move) Apply(in Input) (Output, error) {
	p := in.Pattern.Clone()
	pc, err := pieceIn(p, m.Piece)
	if err != nil {
		return Output{}, err
	}
	dx, err := m.DX.In(in)
	if err != nil {
		return Output{}, err
	}
	dy, err := m.DY.In(in)
	if err != nil {
		return Output{}, err
	}
	deg, err := m.Degrees.In(in)
	if err != nil {
		return Output{}, err
	}
	pose := pc.Pose
	if deg != 0 {
		about, err := m.about(in.Pattern, pc)
		if err != nil {
			return Output{}, err
		}
		pose = pose.Then(geom.Turn(geom.Angle(deg)*geom.Degree, about))
	}
	pc.Pose = pose.Then(geom.Shift(geom.Pt(dx, dy)))
	return Output{Pattern: p}, nil
}

// about returns the point on the mat about which the piece turns.
func (m *Move) about(p pattern.Pattern, pc *pattern.Piece) (geom.Point, error) {
	if m.About != nil {
		at, err := p.Find(*m.About)
		return at.Mat, err
	}
	o, err := pc.Outline()
	if err != nil {
		return geom.Point{}, err
	}
	return pc.Pose.Apply(o.Centroid()), nil
}
