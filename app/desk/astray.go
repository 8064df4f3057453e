package desk

import (
	"fmt"
	"slices"
	"strings"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// Astray is a notch added by a change that lies on another piece in some sizes
// than in the one shown.
type Astray struct {
	Notch       string
	Here, There string // the pieces
	Sizes       []string
}

// String tells it in a sentence.
func (a Astray) String() string {
	in := strings.Join(a.Sizes, ", ")
	if len(a.Sizes) > sizesNamed {
		in = fmt.Sprintf("%d other sizes", len(a.Sizes))
	}
	return fmt.Sprintf("In %s %s lies on %s, not on %s as here.", in, pattern.NotchSaid(a.Notch), a.There, a.Here)
}

// sizesNamed is how many sizes are named at most.
const sizesNamed = 4

// added lists the notches that a change adds, each as its name and its piece.
func added(was, is step.Result) (all [][2]string) {
	for _, pc := range is.Size.Pattern.Pieces {
		before := was.Size.Pattern.Piece(pc.Name)
		for _, n := range pc.Notches {
			if before != nil && before.Notch(n.Name) == nil {
				all = append(all, [2]string{n.Name, pc.Name})
			}
		}
	}
	return all
}

// strays adds to what was found before what of the notches added in a size lies
// on another piece than in the size shown.
func strays(found []Astray, size string, here, there [][2]string) []Astray {
	for _, h := range here {
		if slices.Contains(there, h) {
			continue
		}
		for _, o := range there {
			if o[0] != h[0] || slices.Contains(here, o) {
				continue
			}
			i := slices.IndexFunc(found, func(a Astray) bool { return a.Notch == h[0] && a.Here == h[1] && a.There == o[1] })
			if i < 0 {
				i = len(found)
				found = append(found, Astray{Notch: h[0], Here: h[1], There: o[1]})
			}
			found[i].Sizes = append(found[i].Sizes, size)
		}
	}
	return found
}
