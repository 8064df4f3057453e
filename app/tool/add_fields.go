package tool

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// shareLabel names what taping took, and the step that took it when there are
// several.
func (a *Add) shareLabel(figure string) string {
	mm, word := a.table.Figures()[figure], "overlap"
	if mm < 0 {
		word = "gap"
	}
	label := fmt.Sprintf("%s of %s", word, written(a.table, math.Abs(mm)))
	if len(a.overlaps()) > 1 {
		id := strings.TrimSuffix(figure, overlapFigure)
		if t, ok := a.table.(interface{ StepNumber(id string) int }); ok && t.StepNumber(id) > 0 {
			id = fmt.Sprint("step ", t.StepNumber(id))
		}
		label += " of " + id
	}
	return label
}

func (a *Add) endLabel(e step.EdgeEnd) string {
	return edgeOf(e) + ", " + endWords(a.pattern(), e)
}

// instead returns what may move in place of an end: itself first, its edge at
// the other end, and the edges it meets, since a press at a corner may have taken the wrong one.
func (a *Add) instead(e step.EdgeEnd) []step.EdgeEnd {
	out := []step.EdgeEnd{e, atOtherEnd(e)}
	pc, edge := a.pattern().Edge(e.Piece, e.Edge)
	if edge == nil {
		return out
	}
	i := pc.EdgeIndex(e.Edge)
	for _, o := range []step.EdgeEnd{
		{Piece: e.Piece, Edge: pc.Edges[pc.Prev(i)].Name, End: pattern.End},
		{Piece: e.Piece, Edge: pc.Edges[pc.Next(i)].Name, End: pattern.Start},
	} {
		if _, met := a.pattern().Edge(o.Piece, o.Edge); met.Role != pattern.Fold {
			out = append(out, o)
		}
	}
	return out
}

// endField names the field of one of the ends: "end", "end 2" …
func endField(i int) string {
	if i == 0 {
		return "end"
	}
	return fmt.Sprintf("end %d", i+1)
}

// Fields are the amount, whether both ends move, the ends, and what is shared out.
func (a *Add) Fields() []Field {
	onto := a.ends()
	var out []Field
	if len(onto) > 0 && a.figure == "" {
		out = append(out,
			Field{Name: "amount", Label: "Add", Text: written(a.table, a.amount)},
			Field{Name: "evenly", Label: "Evenly, at both ends", Text: yesNo(a.evenly), Options: []string{no, yes}})
	}
	for i, e := range onto {
		f := Field{Name: endField(i), Label: "Moves out", Text: a.endLabel(e)}
		for _, o := range a.instead(e) {
			f.Options = append(f.Options, a.endLabel(o))
		}
		out = append(out, f)
	}
	if overlaps := a.overlaps(); len(overlaps) > 0 {
		f := Field{Name: "share", Label: "Share out", Text: shareNone, Options: []string{shareNone}}
		for _, n := range overlaps {
			f.Options = append(f.Options, a.shareLabel(n))
			if n == a.figure {
				f.Text = a.shareLabel(n)
			}
		}
		out = append(out, f)
	}
	return out
}

// Set takes an amount, evenly, an end or what is shared out.
func (a *Add) Set(field, text string) error {
	onto := a.ends()
	if field == "share" {
		return a.setShare(text)
	}
	if len(onto) == 0 {
		return unknownField("add", field)
	}
	for i, e := range onto {
		if field != endField(i) {
			continue
		}
		instead := a.instead(e)
		var labels []string
		for _, o := range instead {
			labels = append(labels, a.endLabel(o))
		}
		o, err := picked(text, labels)
		if err != nil {
			return err
		}
		e = instead[slices.Index(labels, o)]
		if k := slices.Index(onto, e); k >= 0 && k != i {
			return fmt.Errorf("%s already gets a part", o)
		}
		a.onto = slices.Clone(onto)
		a.onto[i] = e
		a.table.Select(Selection{Piece: e.Piece, Edge: e.Edge})
		return nil
	}
	switch {
	case a.figure != "":
	case field == "amount":
		v, err := typedLength(a.table, text)
		if err == nil && math.Abs(v) > mostReach {
			err = fmt.Errorf("%s is more than can be added at once; the most is %s", unit.MM(v), unit.MM(mostReach))
		}
		if err == nil {
			a.amount = v
		}
		return err
	case field == "evenly":
		o, err := picked(text, []string{no, yes})
		if err == nil {
			a.evenly = o == yes
		}
		return err
	}
	return unknownField("add", field)
}

func (a *Add) setShare(text string) error {
	overlaps := a.overlaps()
	if len(overlaps) == 0 {
		return fmt.Errorf("nothing was taped with an overlap or a gap yet, so there is nothing to share out")
	}
	options := []string{shareNone}
	for _, n := range overlaps {
		options = append(options, a.shareLabel(n))
	}
	o, err := picked(text, options)
	if err != nil {
		return err
	}
	a.figure, a.pulled = "", false
	if i := slices.Index(options, o); i > 0 {
		a.figure, a.amount, a.evenly = overlaps[i-1], 0, false
	}
	return nil
}
