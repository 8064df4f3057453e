package tool

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// The choices of what the chalk writes down.
const (
	chalkMark = "a large mark"
	chalkCut  = "how it is cut"
	cutSingle = "as it lies"
	cutPair   = "in mirrored pairs"
)

var chalkWrites = []string{chalkMark, chalkCut}

// cutChange is what of the cut of the chosen pieces is to be otherwise.
type cutChange struct {
	count, layers int
	pair          *bool
	cloth         *string
}

// cut returns how the first of the chosen pieces will be cut.
func (c *Chalk) cut(pc *pattern.Piece) pattern.Cut {
	cut := pc.Cut
	if c.change.count > 0 {
		cut.Count = c.change.count
	}
	if cut.Layers = max(cut.Layers, 1); c.change.layers > 0 {
		cut.Layers = c.change.layers
	}
	if c.change.pair != nil {
		cut.Pair = *c.change.pair
	}
	if c.change.cloth != nil {
		cut.Cloth = *c.change.cloth
	}
	return cut
}

func (c *Chalk) cutFields(pc *pattern.Piece) []Field {
	cut := c.cut(pc)
	out := []Field{{Name: "count", Label: "Cut", Text: strconv.Itoa(cut.Count)}}
	if pc.Fold() == nil {
		as := cutSingle
		if cut.Pair {
			as = cutPair
		}
		out = append(out, Field{Name: "pair", Label: "times", Text: as, Options: []string{cutSingle, cutPair}})
	}
	return append(out,
		Field{Name: "layers", Label: "Layers", Text: strconv.Itoa(cut.Layers)},
		Field{Name: "cloth", Label: "Of the cloth", Text: cut.Cloth})
}

func (c *Chalk) setCut(field, text string) error {
	switch field {
	case "count", "layers":
		n, err := strconv.Atoi(strings.TrimSpace(text))
		if err != nil || n < 1 || n > mostCut {
			return fmt.Errorf("%q is no number of times; write one from 1 to %d", text, mostCut)
		}
		if field == "count" {
			c.change.count = n
		} else {
			c.change.layers = n
		}
		return nil
	case "pair":
		o, err := picked(text, []string{cutSingle, cutPair})
		if err == nil {
			pair := o == cutPair
			c.change.pair = &pair
		}
		return err
	}
	name, err := typedName(text)
	if err == nil {
		c.change.cloth = &name
	}
	return err
}

// mostCut bounds how often a piece is cut, and in how many layers.
const mostCut = 99

// cutting is the change of how the chosen pieces are cut, where it is one.
func (c *Chalk) cutting() *step.Mark {
	m := &step.Mark{Count: c.change.count, Layers: c.change.layers, Pair: c.change.pair, Cloth: c.change.cloth}
	p := c.pattern()
	alters := slices.ContainsFunc(c.chosen(), func(n string) bool {
		pc := p.Piece(n)
		was := pc.Cut
		was.Layers = max(was.Layers, 1)
		return c.cut(pc) != was
	})
	if !alters {
		return nil
	}
	return m
}
