package lesson

import (
	"fmt"

	"truemat/ops/check"
)

// Remains tells what the checks of a size do not find as it should be, and with
// which tool one would go on; none when all hold.
func Remains(size string, checks []check.Check) []string {
	var out []string
	broken := false
	for _, c := range checks {
		if c.Verdict == check.Holds {
			continue
		}
		broken = broken || c.Verdict == check.Broken
		text := c.Text
		if on := onward[c.ID]; on != "" {
			text += " " + on
		}
		out = append(out, text)
	}
	if len(out) == 0 {
		return nil
	}
	head := fmt.Sprintf("In size %s there is still something to look at. Yellow means: it sews, look whether you want it so.", size)
	if broken {
		head = fmt.Sprintf("In size %s something is left. Red means: it would not sew or fit so. Yellow means: it sews, look whether you want it so.", size)
	}
	return append([]string{head}, out...)
}

// onward says how one goes on with what a check tells.
var onward = map[string]string{
	check.SeamLength:  "Take level and press the seam.",
	check.CupWire:     "Take level and press the seam.",
	check.RunOn:       "Take true and press the end of that seam.",
	check.FoldSquare:  "Take reshape and press the edge.",
	check.ArrowTurned: "A taped piece keeps the arrow of the edge that was pressed first: leave it when the cloth stretches alike both ways, or tape anew and begin with the other edge.",
	check.AlteredMark: "Take chalk and press the piece.",
}
