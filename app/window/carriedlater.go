package window

import (
	"fmt"
	"math"

	"truemat/ops/step"
	"truemat/ops/unit"
)

// carriedLater tells of each notch that a step drops at a length of a seam where it
// lies at the end of all steps, when a later one carried it off that length.
func carriedLater(res step.Result, e step.Entry) (told []string) {
	s, ok := e.Step.(*step.Walk)
	if !ok || e.Off {
		return nil
	}
	p := res.Size.Pattern
	from := "the start of the walk"
	if meets := s.Whence(p); meets != "" {
		from = "the " + meets
	}
	for _, d := range s.Drop {
		if d.MM == nil {
			continue
		}
		at, err := d.MM.In(step.Input{Size: res.Size.Label, Figures: res.Figures()})
		mm, piece, there := s.Lies(p, d)
		if err != nil || !there || math.Abs(mm-at) < carried {
			continue
		}
		told = append(told, fmt.Sprintf("A later step carries notch %q: at the end of all steps it lies %s from %s on %s.", d.Name, unit.MM(mm), from, piece))
	}
	return told
}

// carried is the least way in mm by which a notch is told to be carried off.
const carried = 0.05
