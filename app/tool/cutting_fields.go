package tool

import (
	"fmt"
	"math"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

const leanSquare = "square"

// shapeFields are the bulge and how the line leans at its ends.
func (c *cutting) shapeFields(b *base, out float64) []Field {
	a, z, _, ok := c.frame(b.pattern())
	if !ok {
		return nil
	}
	now := *c
	if !c.free {
		s, e := c.controls(a, z)
		now.hold(a, z, s, e)
	}
	text := func(l leaned) string {
		if l.square {
			return leanSquare
		}
		return writtenAngle(out * l.degrees)
	}
	return []Field{
		{Name: "bulge", Label: "Bulge", Text: written(b.table, out*c.rise(b.pattern())+0)},
		{Name: "lean from", Label: "Angle at its start", Text: text(now.leans[0])},
		{Name: "lean to", Label: "At its end", Text: text(now.leans[1])},
	}
}

// setShape takes a bulge, which makes the line a plain bow, or how it leans at
// an end, which makes it a free curve.
func (c *cutting) setShape(b *base, out float64, field, text string) error {
	p := b.pattern()
	a, z, _, ok := c.frame(p)
	if !ok {
		return fmt.Errorf("no line is laid yet; choose both its spots first")
	}
	if field == "bulge" {
		v, err := typedLength(b.table, text)
		if err == nil && !(math.Abs(v) <= mostReach) {
			err = fmt.Errorf("a bulge of %s is more than can be cut; the most is %s", unit.MM(v), unit.MM(mostReach))
		}
		if err == nil {
			c.plain()
			c.bulge = out*v + 0
		}
		return err
	}
	var to leaned
	if strings.EqualFold(strings.TrimSpace(text), leanSquare) {
		to.square = true
	} else {
		v, err := typedAngle(text)
		if err != nil {
			return fmt.Errorf("%q is neither degrees nor %q: %w", text, leanSquare, err)
		}
		if math.Abs(v) > mostLean {
			return fmt.Errorf("a line that leans by %s would turn back on itself; the most is %g° either way", writtenAngle(v), mostLean)
		}
		to.degrees = out*v + 0
	}
	if !c.free {
		s, e := c.controls(a, z)
		c.hold(a, z, s, e)
	}
	i := 0
	if field == "lean to" {
		i = 1
	}
	to.reach = c.leans[i].reach
	c.leans[i] = to
	return nil
}

// settleSquare reads from the line as it was cut how its square ends lean, so
// that their handles are shown, and dragged, from where they lie.
func (c *cutting) settleSquare(p pattern.Pattern, cut geom.Path) {
	a, b, _, ok := c.frame(p)
	if !ok || !c.free || cut.Len() != 1 || !(c.leans[0].square || c.leans[1].square) {
		return
	}
	seg := cut.Seg(0)
	if seg.Start().Dist(a) > seg.End().Dist(a) {
		seg = seg.Reverse()
	}
	now := cutting{}
	now.hold(a, b, seg.P[1], seg.P[2])
	for i := range c.leans {
		if c.leans[i].square {
			c.leans[i].degrees = now.leans[i].degrees
		}
	}
}
