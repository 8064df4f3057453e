package render

import (
	"fmt"
	"strings"

	"truemat/ops/unit"
)

// mostTold is how many broken checks a cover tells.
const mostTold = 3

// doubted tells whoever cuts by the paper alone which checks are broken in what
// is printed, in which sizes where there are several, and how many deserve a look.
func (doc Print) doubted() string {
	broken, look := doc.Doubts.Broken, len(doc.Doubts.Look)
	looked := "1 thing deserves a look before cutting"
	if look != 1 {
		looked = fmt.Sprintf("%d things deserve a look before cutting", look)
	}
	if len(broken) == 0 {
		if look == 0 {
			return "All checks hold."
		}
		return "No check is broken; " + looked + "."
	}
	var told []string
	for _, b := range broken[:min(len(broken), mostTold)] {
		found := unit.Restate(b.Check.Found(), doc.Units)
		if len(doc.Sizes) > 1 {
			found = b.In(len(doc.Sizes)) + ": " + found
		}
		told = append(told, found)
	}
	said := "Broken, mend before cutting: "
	if len(broken) > 1 {
		said = fmt.Sprintf("%d checks broken, mend before cutting: ", len(broken))
	}
	said += strings.Join(told, "; ")
	if more := len(broken) - mostTold; more > 0 {
		said += fmt.Sprintf("; and %d more", more)
	}
	if look > 0 {
		said += ". Besides, " + looked
	}
	return said + "."
}
