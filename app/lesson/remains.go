package lesson

import (
	"fmt"

	"truemat/ops/check"
)

// Remains tells that the checks of a size do not all find it as it should be,
// and what that means; "" when all hold. What it is they say themselves.
func Remains(size string, checks []check.Check) string {
	look, broken := 0, 0
	for _, c := range checks {
		switch c.Verdict {
		case check.Look:
			look++
		case check.Broken:
			broken++
		}
	}
	if look+broken == 0 {
		return ""
	}
	text := fmt.Sprintf("The checks below still name %s in size %s.", things(look+broken), size)
	if broken > 0 {
		text += " Red means: it would not sew or fit so."
	}
	if look > 0 {
		text += " Yellow means: it sews, look whether you want it so."
	}
	return text + " Press one to see its place."
}

func things(n int) string {
	if n == 1 {
		return "one thing"
	}
	return fmt.Sprintf("%d things", n)
}

// Onward says with which tool one goes on with what a check tells, by the
// check's id; "" when its sentence says all.
func Onward(id string) string { return onward[id] }

var onward = map[string]string{
	check.SeamLength:  "Take level and press the seam.",
	check.CupWire:     "Take level and press the seam.",
	check.RunOn:       "Take true and press the end of that seam.",
	check.FoldSquare:  "Take reshape and press the edge.",
	check.ArrowTurned: "A taped piece keeps the arrow of the edge that was pressed first: leave it when the cloth stretches alike both ways, or tape anew and begin with the other edge.",
	check.AlteredMark: "Take chalk and press the piece.",
}
