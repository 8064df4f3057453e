package window

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"truemat/app/lesson"
	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
	"truemat/render"
)

func (s *sitting) firstStart() error {
	s.startLesson()
	return nil
}

// turning has the cradle pinned and turned half the way.
func (s *sitting) turning() error {
	if err := s.take("pin"); err != nil {
		return err
	}
	s.near("bridge", "cradle")
	at, err := s.spots(pattern.AtEnd("cradle", "bridge seam", pattern.Start), pattern.AtEnd("cradle", "hem", pattern.End))
	if err != nil {
		return err
	}
	s.click(at[0])
	s.press(at[1])
	for _, deg := range []geom.Angle{-1, -3, -4.5} {
		s.drag(geom.Turn(deg*geom.Degree, at[0]).Apply(at[1]))
	}
	return nil
}

// taping has both edges chosen and waits to be accepted.
func (s *sitting) taping() error {
	if err := s.take("tape"); err != nil {
		return err
	}
	s.near("bridge", "cradle")
	at, err := s.spots(along("bridge", "cradle seam", 0.1), along("cradle", "bridge seam", 0.6))
	if err != nil {
		return err
	}
	s.click(at...)
	return nil
}

// smoothing has a handle of the kink in the wire line in the hand.
func (s *sitting) smoothing() error {
	if err := s.take("smooth"); err != nil {
		return err
	}
	s.near("frame")
	_, wire := s.desk.Pattern().Edge("frame", "wire")
	if wire == nil {
		return fmt.Errorf("the frame has no wire line")
	}
	kinks := wire.Path.Corners(pattern.SmoothTurn)
	if len(kinks) == 0 {
		return fmt.Errorf("the wire line has no kink")
	}
	l := wire.Length()
	spot := func(mm float64) pattern.Spot { return along("frame", "wire", (kinks[0]-mm)/l) }
	at, err := s.spots(spot(0), spot(25), spot(30), spot(0.16*l))
	if err != nil {
		return err
	}
	s.click(at[0])
	s.press(at[1])
	s.drag(at[2])
	s.drag(at[3])
	return nil
}

// walking rolls the inner cup along the outer ones to a little before its
// notch, and drops one on both there.
func (s *sitting) walking() error {
	if err := s.take("walk"); err != nil {
		return err
	}
	s.near("inner cup", "upper outer cup", "lower outer cup")
	at, err := s.spots(along("inner cup", "vertical seam", 0.5))
	if err != nil {
		return err
	}
	s.click(at[0])
	notch, err := s.desk.Pattern().Find(pattern.AtNotch("inner cup", "above apex"))
	if err != nil {
		return err
	}
	s.prompt.set("walked", unit.Format(notch.S-15, unit.Millimetres))
	s.key(&fyne.KeyEvent{Name: fyne.KeySpace})
	return nil
}

// cuttingOff has the neckline of the inner cup cut straight, and shows what
// becomes of the outer cup.
func (s *sitting) cuttingOff() error {
	if err := s.take("shears"); err != nil {
		return err
	}
	s.near("inner cup", "upper outer cup")
	at, err := s.spots(pattern.AtEnd("inner cup", "wire", pattern.Start), pattern.AtNotch("inner cup", "above apex"))
	if err != nil {
		return err
	}
	s.click(at...)
	return nil
}

// splitting has the upper outer cup split along a curve that is held by its
// middle.
func (s *sitting) splitting() error {
	if err := s.take("split"); err != nil {
		return err
	}
	s.near("upper outer cup")
	at, err := s.spots(along("upper outer cup", "cross seam", 0.5), along("upper outer cup", "neckline", 0.5))
	if err != nil {
		return err
	}
	s.click(at...)
	middle := at[0].Lerp(at[1], 0.5)
	s.press(middle)
	s.drag(middle.Add(at[1].Sub(at[0]).Perp().Mul(-0.06)))
	return nil
}

// checks leaves the sharing out undone, and goes to the place of the check
// that is broken thereby.
func (s *sitting) checks() error {
	if err := s.desk.Switch("share-out", true); err != nil {
		return err
	}
	for _, c := range s.column.checks {
		if c.Verdict == check.Broken {
			s.column.goTo(c)
			return nil
		}
	}
	return fmt.Errorf("no check is broken")
}

// stepsUpset leaves the taping out, which those after it need, and rolls the
// column to the steps.
func (s *sitting) stepsUpset() error {
	if err := s.desk.Switch("tape", true); err != nil {
		return err
	}
	s.column.open = "tape"
	s.refresh()
	s.roll("Steps", 0)
	return nil
}

// sizes shows the run beneath a piece, all of it laid on the edge that is selected.
func (s *sitting) sizes() error {
	s.setNesting(everySize)
	s.near("inner cup", "lower outer cup", "upper outer cup")
	at, err := s.spots(along("inner cup", "vertical seam", 0.4))
	if err != nil {
		return err
	}
	s.click(at...)
	end := pattern.AtEnd("inner cup", "vertical seam", pattern.End)
	s.nestOn = map[string]render.Common{"inner cup": {At: pattern.AtEnd("inner cup", "vertical seam", pattern.Start), Along: &end}}
	s.refresh()
	return nil
}

// sizeTable compares the sizes, one of which a step was meant for alone.
func (s *sitting) sizeTable() error {
	if err := s.desk.SetSizes("true-underarm", pictured); err != nil {
		return err
	}
	s.sizesPage()
	return nil
}

// secondLesson is at its third act.
func (s *sitting) secondLesson() error {
	s.startOn(lesson.Second())
	for range 2 {
		if err := s.lesson.Do(); err != nil {
			return err
		}
	}
	s.refresh()
	s.near("inner cup", "upper outer cup")
	return nil
}

// fit states wires and measures.
func (s *sitting) fit() error {
	s.fitPage()
	return nil
}

// stepsTaken fits the demo's steps to it as if they came from a pattern that
// calls the cradle a shell.
func (s *sitting) stepsTaken() error {
	steps := demo.TernInLace()
	for i := range steps {
		e, err := steps[i].Clone()
		if err != nil {
			return err
		}
		for _, m := range e.Mentions() {
			if m.Kind == step.NamePiece && m.Name.Name == "cradle" {
				m.Set("shell")
			}
		}
		steps[i] = e
	}
	s.stepsPage("lace.json", steps)
	return nil
}

// number has a number of an early step drawn along, of which each size has its
// own.
func (s *sitting) number() error {
	s.near("frame", "band")
	s.desk.SetOnly(true)
	s.column.open = "share-out"
	s.column.ways["share-out\x00amount"] = true
	r := s.desk.Document().Recipe
	i := r.Index("share-out")
	if i < 0 {
		return fmt.Errorf("nothing is shared out")
	}
	n := step.NumbersOf(r[i].Step)[0]
	next, err := r[i].WithNumber(n.Path, step.PerSize(s.column.everySize(n.Number, 0)))
	if err != nil {
		return err
	}
	if err := s.desk.Replace(next); err != nil {
		return err
	}
	s.roll("Steps", 11)
	for _, f := range reachable(s.column.list) {
		if d, ok := f.(*dial); ok {
			s.win.Canvas().Focus(d)
			for range 4 {
				d.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
			}
			s.show()
			return nil
		}
	}
	return fmt.Errorf("the step has no number")
}

// roll brings the nth row after a heading of the column to its top.
func (s *sitting) roll(heading string, row int) {
	for i, o := range s.column.list.Objects {
		if t, ok := o.(*canvas.Text); ok && t.Text == heading {
			rollTo(s.column.scroll, s.column.list.Objects[i+row].Position())
		}
	}
}

// choosing has an edge of the frame selected.
func (s *sitting) choosing() error {
	at, err := s.spots(along("frame", "wire", 0.4))
	if err != nil {
		return err
	}
	s.click(at...)
	return nil
}

// print looks at the map of the pages.
func (s *sitting) print() error {
	s.printPage()
	return nil
}
