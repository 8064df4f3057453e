package tool

import (
	"fmt"
	"math"

	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// nearNotch is the distance in mm within which one notch is easily taken for
// another at the table (common practice).
const nearNotch = 10

// nearCorner is the distance in mm from the end of its edge within which a notch
// is told to lie near what is met there: most allowances are wider, so that it
// is lost in the next seam (common practice).
const nearCorner = 5

// crowded tells of what lies near a notch that is dropped: a notch that is there
// already, which may be the one that was to be moved, or the end of its edge.
func (w *Walk) crowded(res step.Result) string {
	before := w.pattern()
	cornered := ""
	for i := range res.Size.Pattern.Pieces {
		is := &res.Size.Pattern.Pieces[i]
		was := before.Piece(is.Name)
		if was == nil {
			continue
		}
		for _, n := range is.Notches {
			e := is.Edge(n.Edge)
			if was.Notch(n.Name) != nil || e == nil {
				continue
			}
			at := n.At(e.Length())
			for _, old := range was.Notches {
				if old.Edge != n.Edge {
					continue
				}
				if d := math.Abs(old.At(e.Length()) - at); d < nearNotch {
					return fmt.Sprintf(" On %s a notch lies %s from there already: if that one is to move, take it with the notch tool instead.", is.Name, unit.MM(d))
				}
			}
			end, d := pattern.Start, at
			if e.Length()-at < d {
				end, d = pattern.End, e.Length()-at
			}
			if met := is.Meets(e.Name, end); met != "" && d < nearCorner {
				cornered = fmt.Sprintf(" On %s it lies only %s from %s.", is.Name, unit.MM(d), met)
			}
		}
	}
	return cornered
}
