package window

import (
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/pattern"
)

// spreading has the lower outer cup slashed to a hinge near its apex and
// opened at the wire line, while the cross seam closes by the same angle.
func (s *sitting) spreading() error {
	if err := s.take("spread"); err != nil {
		return err
	}
	const piece = "lower outer cup"
	s.near(piece)
	at, err := s.spots(along(piece, "wire", 0.5), pattern.AtEnd(piece, "cross seam", pattern.End), along(piece, "cross seam", 0.45))
	if err != nil {
		return err
	}
	hinge := at[0].Lerp(at[1], 0.6)
	s.click(at[0], hinge, at[2])
	s.press(at[0])
	for _, deg := range []geom.Angle{2, 6, 9} {
		s.drag(geom.Turn(deg*geom.Degree, hinge).Apply(at[0]))
	}
	return nil
}

// reshaping has a knot more in the neckline, which is being drawn on.
func (s *sitting) reshaping() error {
	if err := s.take("reshape"); err != nil {
		return err
	}
	s.near("inner cup")
	at, err := s.spots(along("inner cup", "neckline", 0.3), along("inner cup", "neckline", 0.5))
	if err != nil {
		return err
	}
	s.click(at[0])
	s.tool().Key(tool.Key{Name: tool.Choose})
	s.refresh()
	s.press(at[1])
	s.drag(at[1].Add(geom.Pt(1.5, -2)))
	s.drag(at[1].Add(geom.Pt(3, -4)))
	return nil
}
