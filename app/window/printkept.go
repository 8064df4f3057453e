package window

import (
	"slices"

	"truemat/ops/unit"
)

// printKept is what was chosen on the print page, while the document is open.
type printKept struct {
	sizes   []string // nil until one is ticked: the size shown then is printed
	overlap *float64 // mm, nil for the usual one
	halved  bool     // pieces on the fold
	border  bool
}

// chosen are the sizes of the run to print: those ticked last that there still are,
// else the one shown.
func (k printKept) chosen(run []string, shown string) []string {
	left := slices.DeleteFunc(slices.Clone(run), func(s string) bool { return !slices.Contains(k.sizes, s) })
	if len(left) == 0 {
		return []string{shown}
	}
	return left
}

// strip is the overlap as it is typed.
func (k printKept) strip(u unit.System) string {
	if k.overlap != nil {
		return unit.Format(*k.overlap, u)
	}
	return unit.Format(usualOverlap(u), u)
}
