package desk

import (
	"math"

	"truemat/ops/check"
	"truemat/ops/step"
)

// Since is how the checks of a size stand compared with another state of it.
type Since struct {
	Size   string
	Broken []check.Check // and were not before, one of each thing
	Worse  []check.Check // broken before as well, by less
	Still  []check.Check // broken before as well, by as much or more
}

// Since returns what works out how every size stands compared with other
// results of it, in the order of the run. It may run in another goroutine while
// the desk is used on.
func (d *Desk) Since(was []step.Result) func() []Since {
	now, bounds := d.results, d.Document().Bounds.Bounds()
	return func() []Since {
		before := map[string]step.Result{}
		for _, r := range was {
			before[r.Size.Label] = r
		}
		all := make([]Since, 0, len(now))
		for _, r := range now {
			b, known := before[r.Size.Label]
			if !known {
				continue
			}
			all = append(all, since(r.Size.Label, check.Run(b.Before, b.Size.Pattern, bounds), check.Run(r.Before, r.Size.Pattern, bounds)))
		}
		return all
	}
}

func since(size string, was, now []check.Check) Since {
	s, before, told := Since{Size: size}, byThing(was), map[check.Thing]bool{}
	worst := byThing(now)
	for _, c := range now {
		thing := c.Thing()
		if c.Verdict != check.Broken || told[thing] {
			continue
		}
		told[thing] = true
		c = worst[thing]
		switch b := before[thing]; {
		case b.Verdict != check.Broken:
			s.Broken = append(s.Broken, c)
		case math.Abs(c.Measured)-math.Abs(b.Measured) > worse:
			s.Worse = append(s.Worse, c)
		default:
			s.Still = append(s.Still, c)
		}
	}
	return s
}

// worse is by how much of its unit a broken figure must grow to be told.
const worse = 0.05
