package window

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/cloth/order"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

const pressWide = 400 // of the choice where a seam is pressed

// pressing says of each seam where it is pressed. It is a step of the pattern,
// since the allowances end to suit it.
func (w *Window) pressing(letters map[string]string) fyne.CanvasObject {
	p, g := w.desk.Pattern(), w.desk.Goods()
	box := container.New(stack{gap: 4})
	for _, s := range p.Seams {
		now, proposed := order.Pressed(p, g, s)
		by := map[string]pattern.Press{}
		var options []string
		at := "not said yet"
		for _, press := range pattern.Presses {
			words := order.PressedTo(p, s, press)
			if words == "" {
				continue // a folded dart has no way of lying open
			}
			if by[words] != "" {
				words += ", on side " + strings.ToUpper(string(press)) // both sides are of one piece
			}
			if press == now {
				if at = words; proposed {
					at += " (proposed)"
				}
				words = at
			}
			by[words] = press
			options = append(options, words)
		}
		if now == "" {
			options = append(options, at)
		}
		where := newChoice(options, at, func(said string) {
			if press, ok := by[said]; ok {
				w.pressSeam(s.Name, press)
			}
		})
		where.wide, where.name = pressWide, "press "+s.Name
		box.Add(container.New(line{gap: 8}, container.New(atWidth{topName}, text(shortened(strings.TrimSpace(letters[s.Name]+"  "+s.Name), topName-8, normal), normal, true, w.palette.Text)), where))
	}
	return box
}

// pressSeam keeps where a seam is pressed: in the last step that says so of it,
// or else in a new one.
func (w *Window) pressSeam(seam string, press pattern.Press) {
	for _, e := range slices.Backward(w.desk.Document().Recipe) {
		a, ok := e.Step.(*step.Allow)
		if !ok || a.Seam != seam || e.Off || len(e.Sizes) > 0 {
			continue
		}
		next := *a
		next.Press = press
		e.Step = &next
		w.cloths.say(w.desk.Replace(e))
		return
	}
	w.cloths.say(w.desk.Accept(&step.Allow{Seam: seam, Press: press}))
}
