package tool

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

const (
	spreadPaper  = "paper"
	spreadDart   = "a dart"
	spreadOff    = "no"
	spreadEvenly = "evenly"
	spreadFree   = "as it comes"
	spreadRim    = "on the edge"
	closeNothing = "nothing"
	staysBefore  = "before the slash"
	staysAfter   = "after the slash"
)

// spreadPage is the kind of fields that are shown: all at once would need
// three rows.
type spreadPage string

const (
	pageAmount spreadPage = "the opening"
	pageEdge   spreadPage = "the edge"
	pageSlash  spreadPage = "the slash"
)

var spreadPages = []string{string(pageAmount), string(pageEdge), string(pageSlash)}

// Fields are by how much the slashes open and what is left, what is done to
// the edge, or what closes, which part stays and where each slash lies.
func (s *Spread) Fields() []Field {
	c, ok := s.cuts()
	switch {
	case !ok || c.needs == needsHinge:
		return nil
	case c.needs == needsClosing:
		return s.slashFields(c)
	}
	var out []Field
	page := s.page
	switch page {
	case pageEdge:
		out = s.edgeFields()
	case pageSlash:
		out = s.slashFields(c)
	default:
		page = pageAmount
		out = s.amountFields(c)
	}
	return append(out, Field{Name: "page", Label: "Settings of", Text: string(page), Options: spreadPages, Turns: true})
}

func (s *Spread) amountFields(c cuts) []Field {
	amount, degrees, length := "", "", ""
	if len(s.Proposal()) > 0 {
		if res, err := s.trial(); err == nil {
			amount, degrees, length = written(s.table, figure(res, "opened")), writtenAngle(figure(res, "degrees")), written(s.table, figure(res, "length"))
		}
	}
	switch s.by {
	case bySpreadAmount:
		amount = written(s.table, s.value)
	case bySpreadDegrees:
		degrees = writtenAngle(s.value)
	case bySpreadLength:
		length = written(s.table, s.value)
	}
	out := []Field{
		{Name: "amount", Label: "Open", Text: amount},
		{Name: "degrees", Label: "Degrees", Text: degrees},
	}
	if !s.leave || s.by == bySpreadLength {
		out = append(out, Field{Name: "length", Label: "Until " + c.edge.Name + " has", Text: length})
		out = append(out, s.fitsField(c)...)
	}
	if len(s.slashes) > 1 && s.by == bySpreadAmount {
		out = append(out, Field{Name: "shares", Label: "Shared as", Text: s.sharing()})
	}
	out = append(out, Field{Name: "leave", Label: "The opening is", Text: s.leaves(), Options: []string{spreadPaper, spreadDart}})
	if s.leave {
		out = append(out, Field{Name: "name", Label: "Name", Text: s.dartName()})
		if s.shortens() {
			out = append(out, Field{Name: "short", Label: "Point short by", Text: written(s.table, s.short)})
		}
	}
	return out
}

// edgeFields are how the edge is made fair and the hinge smooth.
func (s *Spread) edgeFields() []Field {
	var out []Field
	if !s.leave || s.dart != "" || s.closing != nil {
		out = append(out, Field{Name: "fair", Label: "Fair within", Text: s.orNot(s.fair, spreadOff)})
		if s.fair > 0 && s.by != bySpreadLength && !s.leave {
			out = append(out, Field{Name: "fair length", Label: "To length", Text: s.orNot(s.length, spreadFree)})
		}
	}
	if s.smoothable() {
		out = append(out, Field{Name: "hinge", Label: "Hinge smooth within", Text: s.orNot(s.hinge, spreadOff)})
	}
	return out
}

// slashFields are where the slashes lie, what closes and which part stays.
func (s *Spread) slashFields(c cuts) []Field {
	closes := closeNothing
	if s.dart != "" {
		closes = s.dart
	} else if s.closing != nil && s.inside != nil {
		closes = s.closing.Edge
	}
	depth := spreadRim
	if s.inside != nil {
		depth = written(s.table, c.lines[0].from.Dist(c.pivot))
	}
	parts := s.parts(c)
	stays := parts[0]
	if c.back {
		stays = parts[1]
	}
	out := []Field{{Name: "depth", Label: "Hinge in by", Text: depth}}
	if options := s.closers(c); len(options) > 1 {
		out = append(out, Field{Name: "close", Label: "Closes", Text: closes, Options: options})
	}
	out = append(out, Field{Name: "stays", Label: "Stays put", Text: stays, Options: parts[:]})
	return append(out, s.gripFields(c)...)
}

// gripFields are which end of which slash the arrows slide, and the numbers of
// that slash.
func (s *Spread) gripFields(c cuts) []Field {
	words, grips := s.grips(c)
	now := max(slices.Index(grips, s.at), 0)
	i, name := grips[now].slash, "Slash"
	if len(s.slashes) > 1 {
		name = fmt.Sprint("Slash ", i+1)
	}
	out := []Field{
		{Name: "slides", Label: "Arrows slide", Text: words[now], Options: words},
		{Name: "at", Label: name + " from " + s.startOf(i), Text: written(s.table, s.slashes[i].from.S)},
	}
	if m := s.mouths(c); len(s.slashes) > 1 && i < len(m) && c.needs == needsNothing && s.dart == "" {
		out = append(out, Field{Name: "own", Label: name + " opens", Text: written(s.table, m[i].Opened)})
	}
	return out
}

// parts names what lies at both ends of the edge on which the first slash begins,
// one of which stays put.
func (s *Spread) parts(c cuts) [2]string {
	i := c.pc.EdgeIndex(c.edge.Name)
	before, after := c.pc.Edges[c.pc.Prev(i)].Name, c.pc.Edges[c.pc.Next(i)].Name
	if before == after || before == c.edge.Name {
		return [2]string{staysBefore, staysAfter}
	}
	return [2]string{"towards " + before, "towards " + after}
}

// startOf names the edge at the end from which the start of a slash is counted.
func (s *Spread) startOf(i int) string {
	from := s.slashes[i].from
	pc := s.pattern().Piece(from.Piece)
	at := pc.EdgeIndex(from.Edge)
	if pc.Prev(at) == pc.Next(at) {
		return "the start of " + from.Edge
	}
	return pc.Edges[pc.Prev(at)].Name
}

func (s *Spread) leaves() string {
	if s.leave {
		return spreadDart
	}
	return spreadPaper
}

// sharing writes how the amount is shared among the slashes.
func (s *Spread) sharing() string {
	if len(s.shares) != len(s.slashes) {
		return spreadEvenly
	}
	var parts []string
	for _, v := range s.shares {
		parts = append(parts, strconv.FormatFloat(v, 'g', 4, 64))
	}
	return strings.Join(parts, " : ")
}

// orNot writes a length, or a word for none.
func (s *Spread) orNot(v float64, word string) string {
	if v == 0 {
		return word
	}
	return written(s.table, v)
}

// closers are what may close: nothing about a hinge on the edge, the darts,
// and about a hinge inside the edges.
func (s *Spread) closers(c cuts) []string {
	var out []string
	if s.inside == nil {
		out = append(out, closeNothing)
	}
	for _, d := range s.darts() {
		out = append(out, d.Seam)
	}
	if s.inside != nil {
		for i := range c.pc.Edges {
			if e := &c.pc.Edges[i]; e.Length() > 2*leastReach {
				out = append(out, e.Name)
			}
		}
	}
	return out
}
