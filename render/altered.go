package render

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"truemat/ops/check"
	"truemat/ops/step"
)

// Alteration is what a print tells of how the pattern was altered.
type Alteration struct {
	Steps  int      // that were done
	Pieces []string // that are cut differently
	Marks  []string // what is written on each, "" for nothing
}

// AlterationOf tells what the steps of some sizes altered: the pieces of all of
// them that are cut differently than before.
func AlterationOf(results []step.Result) Alteration {
	var a Alteration
	for _, r := range results {
		done := 0
		for _, rep := range r.Reports {
			if rep.State == step.Applied {
				done++
			}
		}
		a.Steps = max(a.Steps, done)
		for _, pc := range check.Altered(r.Before, r.Size.Pattern) {
			name := words(pc.Name)
			if slices.Contains(a.Pieces, name) {
				continue
			}
			var marks []string
			for _, m := range pc.Marks {
				marks = append(marks, m.Text)
			}
			a.Pieces, a.Marks = append(a.Pieces, name), append(a.Marks, strings.Join(marks, ", "))
		}
	}
	return a
}

// Today is the date as a print tells it.
func Today() string { return time.Now().Format("2 January 2006") }

// altered tells how the pattern was altered, "" when it is as it came.
func (doc Print) altered() string {
	if len(doc.Altered.Pieces) == 0 {
		return ""
	}
	var groups []string
	for i, mark := range doc.Altered.Marks {
		if slices.Index(doc.Altered.Marks, mark) < i {
			continue // told with the first of them
		}
		var names []string
		for k, m := range doc.Altered.Marks {
			if m == mark {
				names = append(names, doc.Altered.Pieces[k])
			}
		}
		if mark == "" {
			mark = "not marked"
		} else {
			mark = "marked " + mark
		}
		groups = append(groups, strings.Join(names, ", ")+", "+mark)
	}
	return fmt.Sprintf("Altered by %s: %s.", counted(doc.Altered.Steps, "step"), strings.Join(groups, "; "))
}

// headed is what is printed, as the cover and the file are headed.
func (doc Print) headed() string {
	head := joined(" · ", doc.Pattern, doc.sizeText())
	if len(doc.Altered.Pieces) > 0 {
		head += " · altered"
	}
	return head
}

// heads is what stands below that on the cover.
func (doc Print) heads(p Plan) []headLine {
	lines := []headLine{{text: p.summary(doc)}}
	if doc.Date != "" {
		lines[0].text += " · made on " + doc.Date
	}
	if told := doc.altered(); told != "" {
		lines = append(lines, headLine{text: told})
	}
	if doc.Doubts != nil {
		lines = append(lines, headLine{doc.doubted(), len(doc.Doubts.Broken) > 0})
	}
	return lines
}
