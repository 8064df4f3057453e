package tool

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
	"truemat/render"
)

// What the chalk writes unless told otherwise: on a pattern with a lace edge, and
// on one without.
const (
	AlteredMark = "ALTERED · LACE"
	plainMark   = "ALTERED"
)

// Chalk writes a mark on pieces, or how they are cut.
type Chalk struct {
	base
	pieces []string
	at     *geom.Point // in the piece's coordinates, of a single piece
	text   string      // "" for what it writes unless told otherwise
	height float64
	cuts   bool // how they are cut is written
	change cutChange
}

// NewChalk returns the chalk for a table.
func NewChalk(t Table) Tool {
	return &Chalk{base: base{table: t}, height: handy(t, step.MarkHeight)}
}

// Name returns "chalk".
func (c *Chalk) Name() string { return "chalk" }

// words are what is written.
func (c *Chalk) words() string {
	if c.text != "" {
		return c.text
	}
	for _, pc := range c.pattern().Pieces {
		for _, e := range pc.Edges {
			if e.Role == pattern.LaceEdge {
				return AlteredMark
			}
		}
	}
	return plainMark
}

// Hint says what to do next.
func (c *Chalk) Hint() string {
	switch pieces := c.chosen(); {
	case len(pieces) == 0 && len(check.Unmarked(c.table.Source(), c.pattern())) > 0:
		return fmt.Sprintf("Press a piece to write on, with Shift held more of them; %s altered and not marked yet.", isAre(check.Unmarked(c.table.Source(), c.pattern())))
	case len(pieces) == 0:
		return "Press a piece where the writing is to stand, or several pieces with Shift."
	case c.cuts && len(c.Proposal()) == 0:
		return fmt.Sprintf("Say how often and of what %s is cut.", strings.Join(pieces, ", "))
	case c.cuts:
		return fmt.Sprintf("Enter writes down how %s is cut; with Shift press more pieces.", strings.Join(pieces, ", "))
	default:
		return fmt.Sprintf("Enter writes %q on %s, Escape abandons.%s%s With Shift press more pieces.", c.words(), strings.Join(pieces, ", "), c.asItWas(), c.made())
	}
}

// asItWas tells which of the pieces the mark would call altered that are not.
func (c *Chalk) asItWas() string {
	if c.words() != plainMark && c.words() != AlteredMark {
		return ""
	}
	var told []string
	altered := check.Altered(c.table.Source(), c.pattern())
	for _, name := range c.chosen() {
		if !slices.ContainsFunc(altered, func(pc pattern.Piece) bool { return pc.Name == name }) {
			told = append(told, name)
		}
	}
	if len(told) == 0 {
		return ""
	}
	return fmt.Sprintf(" But %s not altered.", isAre(told))
}

// made tells on which of the pieces the letters are made smaller to fit, and
// how tall.
func (c *Chalk) made() string {
	res, err := c.table.Try(c.Proposal()...)
	if err != nil {
		return ""
	}
	var told []string
	for _, name := range c.chosen() {
		w, err := render.Inscribe(*res.Size.Pattern.Piece(name))
		if err != nil || len(w.Marks) == 0 {
			continue
		}
		if mk := w.Marks[len(w.Marks)-1]; mk.Smaller() {
			told = append(told, unit.MM(mk.Height)+" on "+name)
		}
	}
	if len(told) == 0 {
		return ""
	}
	return " Made smaller to fit: " + strings.Join(told, ", ") + "."
}

func isAre(names []string) string {
	if len(names) == 1 {
		return names[0] + " is"
	}
	return strings.Join(names, ", ") + " are"
}

// chosen returns the chosen pieces that are still there.
func (c *Chalk) chosen() []string {
	p := c.pattern()
	c.pieces = slices.DeleteFunc(c.pieces, func(n string) bool { return p.Piece(n) == nil })
	return c.pieces
}

// Pointer chooses a piece and the place on it; with Shift one more piece.
func (c *Chalk) Pointer(e Event) {
	ask := Ask{Kind: OnPiece, Prefer: c.table.Selection().Piece}
	switch e.Act {
	case Hover:
		c.hover(e, ask)
	case Press:
		c.drop()
		if pt, ok := Point(c.pattern(), e.At, e.Reach, ask); ok {
			c.take(pt, e.Shift)
		}
	}
}

func (c *Chalk) take(pt Pointing, more bool) {
	c.table.Select(Selection{Piece: pt.Piece})
	pieces := c.chosen()
	i := slices.Index(pieces, pt.Piece)
	switch {
	case !more:
		at := c.pattern().Piece(pt.Piece).Pose.Inverse().Apply(pt.At)
		c.pieces, c.at = []string{pt.Piece}, &at
	case i >= 0:
		c.pieces, c.at = slices.Delete(slices.Clone(pieces), i, i+1), nil
	default:
		c.pieces, c.at = append(slices.Clone(pieces), pt.Piece), nil
	}
}

// Key walks the pieces; Choose takes or leaves one.
func (c *Chalk) Key(k Key) bool {
	chosen, took, used := c.keyed(k, Ask{Kind: OnPiece})
	if took {
		c.take(chosen, true)
	}
	return used
}

// Fields are the text and its height, or how the pieces are cut, and the pieces.
func (c *Chalk) Fields() []Field {
	var out []Field
	if pieces := c.chosen(); c.cuts && len(pieces) > 0 {
		out = c.cutFields(c.pattern().Piece(pieces[0]))
	} else if !c.cuts {
		out = []Field{
			{Name: "text", Label: "Write", Text: c.words()},
			{Name: "height", Label: "Height", Text: written(c.table, c.height)},
		}
	}
	out = append(out, Field{Name: "pieces", Label: "On", Text: strings.Join(c.chosen(), ", "), Wants: "press pieces, or name them"})
	if all := check.Unmarked(c.table.Source(), c.pattern()); len(all) > 0 {
		which := byHand
		if slices.Equal(slices.Sorted(slices.Values(all)), slices.Sorted(slices.Values(c.chosen()))) {
			which = allAltered
		}
		out = append(out, Field{Name: "offer", Label: "Choose", Text: which, Options: []string{byHand, allAltered}})
	}
	what := chalkMark
	if c.cuts {
		what = chalkCut
	}
	out = append(out, Field{Name: "what", Label: "The chalk writes", Text: what, Options: chalkWrites})
	return out
}

// The choices of pieces.
const (
	byHand     = "by pressing"
	allAltered = "all that are altered"
)

// Set takes the text, its height, how the pieces are cut, or the pieces, with
// commas between them.
func (c *Chalk) Set(field, text string) error {
	switch field {
	case "what":
		o, err := picked(text, chalkWrites)
		if err == nil {
			c.cuts = o == chalkCut
		}
		return err
	case "count", "pair", "layers", "cloth":
		if !c.cuts || len(c.chosen()) == 0 {
			return unknownField("the chalk", field)
		}
		return c.setCut(field, text)
	case "text":
		s := strings.Join(strings.Fields(text), " ")
		if s == "" || !utf8.ValidString(s) {
			return errors.New("the mark is blank; write a word such as " + plainMark)
		}
		if utf8.RuneCountInString(s) > longestName {
			return fmt.Errorf("the mark is too long; use at most %d letters", longestName)
		}
		c.text = s
		return nil
	case "height":
		h, err := typedLength(c.table, text)
		if err != nil {
			return err
		}
		if !(h >= 1 && h <= highestMark) {
			return fmt.Errorf("a mark %s high is not between 1 mm and %d mm", unit.MM(h), highestMark)
		}
		c.height = h
		return nil
	case "offer":
		o, err := picked(text, []string{byHand, allAltered})
		if err == nil && o == allAltered {
			c.pieces, c.at = check.Unmarked(c.table.Source(), c.pattern()), nil
		}
		return err
	case "pieces":
		var pieces []string
		for name := range strings.SplitSeq(text, ",") {
			name = strings.TrimSpace(name)
			switch {
			case name == "" || slices.Contains(pieces, name):
			case c.pattern().Piece(name) == nil:
				return fmt.Errorf("there is no piece %q", name)
			default:
				pieces = append(pieces, name)
			}
		}
		c.pieces, c.at = pieces, nil
		return nil
	}
	return unknownField("the chalk", field)
}

// highestMark bounds the height of a mark in mm.
const highestMark = 200

// Proposal is the mark on the chosen pieces.
func (c *Chalk) Proposal() []step.Step {
	pieces := c.chosen()
	if len(pieces) == 0 {
		return nil
	}
	m := &step.Mark{Text: c.words()}
	if c.cuts {
		if m = c.cutting(); m == nil {
			return nil
		}
		if m.Piece = pieces[0]; len(pieces) > 1 {
			m.Piece, m.Pieces = "", slices.Clone(pieces)
		}
		return []step.Step{m}
	}
	if c.height != step.MarkHeight {
		m.Height = step.Lit(c.height)
	}
	if len(pieces) == 1 {
		m.Piece, m.At = pieces[0], c.at
	} else {
		m.Pieces = slices.Clone(pieces)
	}
	return []step.Step{m}
}

// Overlay shows the chosen pieces.
func (c *Chalk) Overlay() Overlay {
	var o Overlay
	c.pointed(&o)
	p := c.pattern()
	pieces := c.chosen()
	for _, n := range pieces {
		o.Show(p, Pointing{Kind: OnPiece, Piece: n}, Chosen)
	}
	if len(pieces) == 1 && c.at != nil && !c.cuts {
		o.Dots = append(o.Dots, Dot{p.Piece(pieces[0]).Pose.Apply(*c.at), Handle})
	}
	return o
}

// Reset forgets the pieces; the text stays for the next.
func (c *Chalk) Reset() bool {
	walked := c.drop()
	was := len(c.pieces) > 0
	c.pieces, c.at, c.change = nil, nil, cutChange{}
	return was || walked
}
