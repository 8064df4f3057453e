package check

import (
	"fmt"
	"strings"
)

// Doubt is a check that does not hold in some of the sizes looked at, as it is
// in the first of them.
type Doubt struct {
	Check Check
	Sizes []string // in which it has this verdict
	Alike bool     // whether its sentence is the same in all of these
}

// Doubts are the checks that do not hold in some sizes, each told once.
type Doubts struct {
	Broken []Doubt
	Look   []Doubt
}

// Doubts returns what does not hold in the sizes of the table, in its order.
// What is broken in one size and deserves a look in another is broken.
func (t Table) Doubts() (all Doubts) {
	for _, r := range t.Rows {
		if r.Worst == Holds {
			continue
		}
		d := Doubt{Alike: true}
		for i, c := range r.Cells {
			switch {
			case c == nil || c.Verdict != r.Worst:
				continue
			case len(d.Sizes) == 0:
				d.Check = *c
			}
			d.Sizes, d.Alike = append(d.Sizes, t.Columns[i].Size), d.Alike && c.Text == d.Check.Text
		}
		if r.Worst == Broken {
			all.Broken = append(all.Broken, d)
		} else {
			all.Look = append(all.Look, d)
		}
	}
	return all
}

// mostSizes is how many sizes are named before they are counted.
const mostSizes = 4

// In tells in which of so many sizes it is so: "in 65C and 80E", and where its sentence is
// that of the first only, "in 65C, with other figures in 80E".
func (d Doubt) In(of int) string {
	named := d.Sizes
	if n := len(named); n == of && n > mostSizes && d.Alike {
		return fmt.Sprintf("in all %d sizes", n)
	} else if n > mostSizes {
		named = []string{named[0], fmt.Sprintf("%d sizes more", n-1)}
	}
	if d.Alike || len(named) == 1 {
		return "in " + listed(named)
	}
	return "in " + named[0] + ", with other figures in " + listed(named[1:])
}

func listed(words []string) string {
	if last := len(words) - 1; last > 0 {
		return strings.Join(words[:last], ", ") + " and " + words[last]
	}
	return words[0]
}
