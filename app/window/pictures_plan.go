package window

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"truemat/geom"
	"truemat/ops/demo"
)

// planOf opens the plan of a cloth of the demo.
func (s *sitting) planOf(name string) (*clothBoard, error) {
	s.plans = &clothPlans{w: s.Window, of: name}
	if err := s.partOf(demo.Goods(), "Plans"); err != nil {
		return nil, err
	}
	if s.plans.board == nil {
		return nil, fmt.Errorf("%s has no plan: %w", name, s.plans.wrong)
	}
	return s.plans.board, nil
}

// pull takes hold of piece i of a plan and moves it; keep lets it go there.
func (v *clothBoard) pull(i int, by geom.Point, keep bool) {
	at := v.board.Piece(i).Outline.Centroid()
	mouse := func(q geom.Point) fyne.PointEvent { return fyne.PointEvent{Position: v.toScreen(v.turn.Apply(q))} }
	v.MouseDown(&desktop.MouseEvent{PointEvent: mouse(at), Button: desktop.MouseButtonPrimary})
	v.Dragged(&fyne.DragEvent{PointEvent: mouse(at.Add(by))})
	if keep {
		v.MouseUp(nil)
	}
}

// planLace has an inner cup in the hand, whose partner follows.
func (s *sitting) planLace() error {
	v, err := s.planOf("heron lace")
	if err == nil {
		v.pull(1, geom.Pt(33, 0), false)
	}
	return err
}

// planOver has an inner cup laid over the other one.
func (s *sitting) planOver() error {
	v, err := s.planOf("heron lace")
	if err == nil {
		v.pull(1, geom.Pt(96, 0), false)
	}
	return err
}

// planCloth has a piece pinned on plain cloth.
func (s *sitting) planCloth() error {
	v, err := s.planOf("sheer tricot")
	if err == nil {
		v.pull(2, geom.Pt(150, 20), true)
	}
	return err
}
