package command

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"truemat/ops/cloth/order"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
)

// press adds a step for every --press to a document, and returns its sizes as
// they then are, the one that was asked for alone.
func (c *call) press(doc *store.Document, results []step.Result) ([]step.Result, error) {
	said, _ := c.flags.GetStringArray("press")
	if len(said) == 0 {
		return results, nil
	}
	var more []step.Entry
	for _, text := range said {
		name, to, ok := strings.Cut(text, "=")
		name, to = strings.TrimSpace(name), strings.TrimSpace(to)
		p := results[0].Size.Pattern
		seam := p.Seam(name)
		if !ok || seam == nil {
			return nil, usageError(fmt.Sprintf("--press %q names no seam and where it is pressed, such as \"side seam=open\" or \"side seam=band\"", text))
		}
		press, err := pressTo(p, *seam, to)
		if err != nil {
			return nil, usageError(err.Error())
		}
		more = append(more, step.Entry{ID: doc.Recipe.NewID("allow", more), Step: &step.Allow{Seam: name, Press: press}})
	}
	recipe, all, err := doc.Recipe.Append(doc.Source, more...)
	if err != nil {
		return nil, err
	}
	doc.Recipe = recipe
	return slices.DeleteFunc(all, func(r step.Result) bool { return r.Size.Label != results[0].Size.Label }), nil
}

// pressTo returns where a seam is pressed when that is said by "open", by a side
// or by a piece of one side; a dart as its pressing is told.
func pressTo(p pattern.Pattern, s pattern.Seam, to string) (pattern.Press, error) {
	if _, ok := p.FoldedDart(s); ok {
		var ways []string
		for _, press := range []pattern.Press{pattern.PressedToA, pattern.PressedToB} {
			way := order.PressedTo(p, s, press)
			if to == way || to == string(press) {
				return press, nil
			}
			ways = append(ways, strconv.Quote(way))
		}
		return "", fmt.Errorf("the cloth of dart %q is folded and lies to one side; say %s", s.Name, strings.Join(ways, " or "))
	}
	if slices.Contains(pattern.Presses, pattern.Press(to)) {
		return pattern.Press(to), nil
	}
	on := func(side pattern.Side) bool {
		return slices.ContainsFunc(side, func(pt pattern.Part) bool { return pt.Piece == to })
	}
	switch a, b := on(s.A), on(s.B); {
	case a && b:
		return "", fmt.Errorf("both sides of %q are on %s; say \"a\", \"b\" or \"open\"", s.Name, to)
	case a:
		return pattern.PressedToA, nil
	case b:
		return pattern.PressedToB, nil
	}
	return "", fmt.Errorf("seam %q cannot be pressed to %q; say \"open\" or a piece that is sewn in it", s.Name, to)
}
