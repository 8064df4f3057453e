package tool

import (
	"fmt"
	"slices"

	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/walk"
)

// notchMatch is a notch of the other side of a seam that one is to meet in every
// size.
type notchMatch struct {
	seam string
	spot pattern.Spot
}

// notchHold is a way in which a notch is kept in every size.
type notchHold struct {
	label string
	along pattern.Along
	match *notchMatch // in place of along
}

// asItIs is the way of a notch that is kept both by a length and by a share.
const asItIs = "as it is now"

// kept tells how a notch that is added or moved is kept in other sizes, as a
// sentence with a blank before it.
func (n *Notch) kept() string {
	if n.spot == nil || n.gone || !severalSizes(n.table) {
		return ""
	}
	if m := n.match; m != nil {
		return fmt.Sprintf(" In every size it meets %s of %s.", pattern.NotchSaid(m.spot.Notch), m.spot.Piece)
	}
	return " In every size it lies " + keptWords(n.pattern(), n.piece, n.spot.edge, n.spot.Along) + "."
}

// matched is where it meets what it is to match, in the size shown; nil when
// there is nothing.
func (n *Notch) matched() *notchSpot {
	if n.match == nil {
		return nil
	}
	edge, along, err := step.Across(n.pattern(), n.match.seam, n.piece, n.match.spot)
	if err != nil {
		return nil
	}
	return &notchSpot{edge, along}
}

// holdings are the ways in which a notch at s mm from the start of an edge can be
// kept: by its way from either end, as a share of the edge, or by what it meets
// on the other side of a seam.
func (n *Notch) holdings(pc *pattern.Piece, e *pattern.Edge, s float64) []notchHold {
	p := n.pattern()
	from, to := meets(p, pc.Name, e.Name, pattern.Start), meets(p, pc.Name, e.Name, pattern.End)
	if from == to {
		from, to = "the start of "+e.Name, "the end of "+e.Name
	}
	all := []notchHold{
		{label: "as far from " + from, along: pattern.Along{From: pattern.Start, MM: round4(s)}},
		{label: "as far from " + to, along: pattern.Along{From: pattern.End, MM: round4(e.Length() - s)}},
		{label: "the same part of " + e.Name, along: pattern.Along{From: pattern.Start, Share: s / e.Length()}},
	}
	for _, seam := range p.Seams {
		m := n.partner(p, seam, pc, e, s)
		if m == nil {
			continue
		}
		label := "to match " + m.spot.Piece
		if slices.ContainsFunc(all, func(o notchHold) bool { return o.label == label }) {
			label += " in " + seam.Name
		}
		all = append(all, notchHold{label: label, match: m})
	}
	return all
}

// partner is the notch of the other side of a seam that belongs to the one in the
// hand: for a new one, the nearest of those that have none.
func (n *Notch) partner(p pattern.Pattern, seam pattern.Seam, pc *pattern.Piece, e *pattern.Edge, s float64) *notchMatch {
	wk, err := walk.Seam(p, seam.Name, walk.Way{})
	if err != nil {
		return nil
	}
	match := func(piece, notch string) *notchMatch {
		m := &notchMatch{seam.Name, pattern.AtNotch(piece, notch)}
		if _, _, err := step.Across(p, m.seam, pc.Name, m.spot); err != nil {
			return nil
		}
		return m
	}
	for _, pr := range wk.Pairs {
		switch a, b := pr.NotchA, pr.NotchB; {
		case n.name == "":
		case a.Piece == pc.Name && a.Notch.Name == n.name:
			return match(b.Piece, b.Notch.Name)
		case b.Piece == pc.Name && b.Notch.Name == n.name:
			return match(a.Piece, a.Notch.Name)
		}
	}
	if n.name != "" {
		return nil
	}
	var nearest *notchMatch
	least := e.Length()
	for _, l := range wk.Unmatched() {
		m := match(l.Piece, l.Notch)
		if m == nil {
			continue
		}
		edge, along, _ := step.Across(p, m.seam, pc.Name, m.spot)
		if d := max(along.At(e.Length())-s, s-along.At(e.Length())); edge == e.Name && d <= least {
			nearest, least = m, d
		}
	}
	return nearest
}

// holdField lets her choose what is kept in other sizes, or of one what it meets.
func (n *Notch) holdField(pc *pattern.Piece, e *pattern.Edge, s float64) []Field {
	all := n.holdings(pc, e, s)
	f := Field{Name: "hold", Label: "In every size"}
	if !severalSizes(n.table) {
		f.Label = "It lies"
	}
	for _, k := range all {
		f.Options = append(f.Options, k.label)
		if m := k.match; m != nil && n.match != nil && *m == *n.match {
			f.Text = k.label
		}
	}
	along := pattern.Along{}
	if old := pc.Notch(n.name); old != nil {
		along = old.Along
	}
	if n.spot != nil {
		along = n.spot.Along
	}
	switch {
	case f.Text != "":
	case along.Share == 0 && along.From == pattern.End:
		f.Text = all[1].label
	case along.Share == 0:
		f.Text = all[0].label
	case along.MM == 0:
		f.Text = all[2].label
	default:
		f.Text, f.Options = asItIs, append([]string{asItIs}, f.Options...)
	}
	return []Field{f}
}

// setHold keeps the notch where it is in the size shown in another way.
func (n *Notch) setHold(text string) error {
	pc, e, s, _ := n.where()
	f := n.holdField(pc, e, s)[0]
	o, err := picked(text, f.Options)
	if err != nil || o == f.Text {
		return err
	}
	for _, k := range n.holdings(pc, e, s) {
		if k.label != o {
			continue
		}
		n.spot, n.match = &notchSpot{e.Name, k.along}, k.match
		if at := n.matched(); at != nil {
			n.spot = at
		}
	}
	return nil
}
