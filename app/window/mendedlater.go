package window

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"truemat/ops/step"
)

// mendedLater adds to the notes of a step, of each seam whose sides differ after
// it, that a later one makes it fit again, so that at the end of all steps it does.
func mendedLater(notes []string, res step.Result, id string) []string {
	at := slices.IndexFunc(res.Reports, func(r step.Report) bool { return r.ID == id })
	if at < 0 {
		return notes
	}
	notes = slices.Clone(notes)
	const figure = "partner_difference."
	for _, name := range slices.Sorted(maps.Keys(res.Reports[at].Figures)) {
		seam, ok := strings.CutPrefix(name, figure)
		s := res.Size.Pattern.Seam(seam)
		if !ok || s == nil || math.Abs(res.Reports[at].Figures[name]) < unlike {
			continue
		}
		if p := res.Size.Pattern; math.Abs(p.Length(s.A)-p.Length(s.B)-s.Ease) >= unlike {
			continue
		}
		by := "A later step"
		for i := len(res.Reports) - 1; i > at; i-- {
			if v, reports := res.Reports[i].Figures[name]; reports && math.Abs(v) < unlike {
				by = fmt.Sprintf("Step %d", i+1)
				break
			}
		}
		for i, n := range notes {
			if strings.HasPrefix(n, fmt.Sprintf("Seam %q: ", seam)) {
				notes[i] += fmt.Sprintf(" %s makes them fit again.", by)
			}
		}
	}
	return notes
}

// unlike is the least difference in mm of two sides that do not fit.
const unlike = 0.005
