// Package suit checks whether cloths and elastics suit the pieces of a pattern.
package suit

import (
	"fmt"
	"math"
	"strings"

	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/cloth"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// IDs of the checks of cloth.
const (
	Firm          = "cloth-firm"
	Stretchy      = "cloth-stretch"
	LaceOver      = "lace-over-stretch"
	ElasticTurned = "elastic-allowance"
	ElasticRoom   = "elastic-room"
	ElasticShort  = "elastic-short"
	ClosureColumn = "closure-column"
	BandStrain    = "band-strain"
	TopstitchHold = "topstitch"
)

// Bounds are the limits of the checks of cloth (common practice, without a
// published source), in per cent of stretch and in mm.
type Bounds struct {
	Firm      check.Bound // greatest stretch of a piece that is to keep its shape
	Stretchy  check.Bound // least stretch of a piece that is to give
	Allowance check.Bound // of a turned elastic, off its width
	Room      check.Bound // least room to spare for an elastic behind a border
	Column    check.Bound // of the hem in a column of eyes, off the reduction wanted, per cent of the body
	Spare     check.Bound // least stretch that a worn band has left
	Caught    check.Bound // least allowance beyond a row of topstitching
}

// Defaults returns the bounds that apply unless the maker sets others.
func Defaults() Bounds {
	return Bounds{
		Firm:      check.Bound{Holds: 10, Look: 20},
		Stretchy:  check.Bound{Holds: 30, Look: 20},
		Allowance: check.Bound{Holds: 0.5, Look: 2},
		Room:      check.Bound{Holds: 0, Look: -2},
		Column:    check.Bound{Holds: 2, Look: 4},
		Spare:     check.Bound{Holds: 10, Look: 0},
		Caught:    check.Bound{Holds: 1, Look: 0},
	}
}

// Run returns the checks of the cloths and elastics on a pattern of one size. Pieces whose layers are not named are passed over.
func Run(g cloth.Goods, p pattern.Pattern, b Bounds) []check.Check {
	var out []check.Check
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		if layers := g.Layers(pc.Name); len(layers) > 0 {
			out = append(out, stretches(g, pc, layers, b)...)
		}
	}
	for _, e := range g.Elastics {
		if l := p.Line(e.Line); l != nil {
			out = append(out, putOn(g, p, e, *l, b)...)
		}
	}
	out = append(out, closing(g, p, b)...)
	return append(out, topstitched(g, p, b)...)
}

// together returns the stretch in per cent that all layers allow in a direction.
func together(g cloth.Goods, layers []cloth.Cloth, pc *pattern.Piece, direction geom.Angle) float64 {
	least := math.Inf(1)
	for _, c := range layers {
		least = min(least, g.Lay(c, pc).In(direction))
	}
	return least
}

// stretches checks whether a piece is as firm, or gives as much, as its arrow asks.
func stretches(g cloth.Goods, pc *pattern.Piece, layers []cloth.Cloth, b Bounds) []check.Check {
	arrow := pc.Arrow.To.Sub(pc.Arrow.From).Direction()
	at := check.Check{Piece: pc.Name, Unit: "%"}
	switch pc.Arrow.Kind {
	case pattern.LeastStretch:
		c := at
		c.ID = Firm
		for degrees := range 180 {
			c.Measured = max(c.Measured, together(g, layers, pc, geom.Angle(degrees)*geom.Degree))
		}
		c.Allowed = fmt.Sprintf("at most %g %%, look to %g", b.Firm.Holds, b.Firm.Look)
		c.Text = fmt.Sprintf("%s of %s stretches by %.0f %% at most", pc.Name, names(layers), c.Measured)
		remedy := "it is to keep its shape; take a firmer cloth, or lay a firm layer beneath"
		if g.Sheets(pc.Name)[0].Lace != nil {
			remedy = "stretch lace does not hold a frame or cup by itself; lay a firm layer beneath"
		}
		c.Verdict = b.Firm.Verdict(c.Measured)
		return []check.Check{c.Remedied(remedy)}
	case pattern.MostStretch:
		c := at
		c.ID, c.Measured = Stretchy, together(g, layers, pc, arrow)
		c.Allowed = fmt.Sprintf("at least %g %%, look from %g", b.Stretchy.Holds, b.Stretchy.Look)
		c.Text = fmt.Sprintf("%s of %s stretches by %.0f %% along its arrow", pc.Name, names(layers), c.Measured)
		c.Verdict = b.Stretchy.Least(c.Measured)
		out := []check.Check{c.Remedied("it is to give where it goes round the body; take a cloth that stretches more, and leave firm layers out")}
		if over, ok := laceOver(g, pc, g.Sheets(pc.Name), arrow); ok {
			out = append(out, over)
		}
		return out
	}
	return nil
}

// laceOver checks that a lace on a stretch part, bonded to it or not, stretches at
// least as much as the cloth under it (common practice).
func laceOver(g cloth.Goods, pc *pattern.Piece, layers []cloth.Cloth, arrow geom.Angle) (check.Check, bool) {
	if layers[0].Lace == nil || len(layers) < 2 {
		return check.Check{}, false
	}
	lace, under := g.Lay(layers[0], pc).In(arrow), together(g, layers[1:], pc, arrow)
	c := check.Check{ID: LaceOver, Piece: pc.Name, Unit: "%", Measured: lace - under, Allowed: "at least as much as the cloth under it", Verdict: check.Holds}
	c.Text = fmt.Sprintf("On %s the lace %q stretches by %.0f %% along the arrow, %s under it by %.0f %%", pc.Name, layers[0].Name, lace, names(layers[1:]), under)
	if lace < under {
		c.Verdict = check.Broken
	}
	return c.Remedied(fmt.Sprintf("the lace would hold it back and tear; cut %s from the stretch cloth alone, or take a lace that stretches more", pc.Name)), true
}

// putOn checks the allowance for an elastic, the room behind a border, and where it
// is shorter than usual.
func putOn(g cloth.Goods, p pattern.Pattern, e cloth.Elastic, l pattern.Line, b Bounds) []check.Check {
	var out []check.Check
	for _, pt := range e.Along(p) {
		pc, edge := p.Edge(pt.Piece, pt.Edge)
		if edge == nil {
			continue
		}
		wanted := 0.0
		if e.PutOn == cloth.Turned {
			wanted = e.Width
		}
		c := check.Check{ID: ElasticTurned, Piece: pc.Name, Edge: edge.Name, Line: l.Name, Unit: "mm", Measured: edge.Allowance - wanted}
		c.Allowed = fmt.Sprintf("%g mm, ± %g, look to ± %g", wanted, b.Allowance.Holds, b.Allowance.Look)
		c.Text = fmt.Sprintf("%s of %s has %s of allowance, and %q %s", edge.Name, pc.Name, unit.Format(edge.Allowance, unit.Millimetres), e.Name, wants(e.PutOn, wanted, outerLace(g, pc) != nil))
		c.Verdict = b.Allowance.Verdict(c.Measured)
		out = append(out, c.Remedied(fmt.Sprintf("set the allowance to %g mm, or put the elastic on in another way", wanted)))
		if short, ok := shorter(e, pc, edge, l); ok {
			out = append(out, short)
		}
		if e.PutOn == cloth.BehindLace {
			if room, ok := room(g, p, e, pc, edge, b); ok && l.Kind == pattern.LineHem {
				out = append(out, room)
			} else if hang, ok := hangs(g, p, e, pc, edge); ok {
				out = append(out, hang)
			}
		}
	}
	return out
}

// shorter tells of an elastic that is shorter than the usual range goes; false
// within it.
func shorter(e cloth.Elastic, pc *pattern.Piece, edge *pattern.Edge, l pattern.Line) (check.Check, bool) {
	_, from, to := cloth.UsualReduction(pc, l.Kind)
	c := check.Check{ID: ElasticShort, Piece: pc.Name, Edge: edge.Name, Line: l.Name, Unit: "%", Measured: e.Reduction(pc.Name), Verdict: check.Look}
	if c.Measured <= to {
		return c, false
	}
	c.Allowed = fmt.Sprintf("%g to %g %%", from, to)
	c.Text = fmt.Sprintf("On %s of %s %q is %.3g %% shorter, where %g to %g %% is usual", edge.Name, pc.Name, e.Name, c.Measured, from, to)
	return c.Remedied("it draws the cloth in and presses; sew a sample and try it on, or make it less short"), true
}

// outerLace returns the lace that a piece shows, nil when its outermost layer is
// none.
func outerLace(g cloth.Goods, pc *pattern.Piece) *cloth.Cloth {
	if sheets := g.Sheets(pc.Name); len(sheets) > 0 && sheets[0].Lace != nil {
		return &sheets[0]
	}
	return nil
}

func wants(w cloth.PutOn, mm float64, lace bool) string {
	switch w {
	case cloth.Turned:
		return fmt.Sprintf("is turned, which takes its width of %g mm", mm)
	case cloth.BehindLace:
		if !lace {
			return "lies behind the edge, which takes none"
		}
		return "lies behind the lace, which takes none"
	}
	return "is folded over the cut edge, which takes none"
}

// room checks that an elastic with its loops fits between the channelling and
// the valley line; the sew line lies on that, or below it by what was wished.
func room(g cloth.Goods, p pattern.Pattern, e cloth.Elastic, pc *pattern.Piece, edge *pattern.Edge, b Bounds) (check.Check, bool) {
	below, ok := check.BelowWire(pc, edge)
	if !ok {
		return check.Check{}, false
	}
	channel := p.Figures[pattern.FigureChannelling]
	if channel == 0 {
		channel = check.Defaults().Channelling
	}
	deeper, hang := border(g, p, pc, edge)
	free := below - channel - deeper
	c := check.Check{ID: ElasticRoom, Piece: pc.Name, Edge: edge.Name, Unit: "mm", Measured: free - e.Width - e.Loops}
	c.Allowed = fmt.Sprintf("at least %g mm", e.Width+e.Loops)
	c.Text = fmt.Sprintf("Between the channelling and the valley line %s leaves %s for %q, which takes %s with its loops", pc.Name, unit.MM(free), e.Name, unit.MM(e.Width+e.Loops))
	c.Text += hang
	c.Verdict = b.Room.Least(c.Measured)
	return c.Remedied("it would show below the valley line or lie on the channelling; take a narrower elastic or lower the hem"), true
}

// hangs says how an elastic lies behind a border where no wire line limits it.
func hangs(g cloth.Goods, p pattern.Pattern, e cloth.Elastic, pc *pattern.Piece, edge *pattern.Edge) (check.Check, bool) {
	_, hang := border(g, p, pc, edge)
	if hang == "" {
		return check.Check{}, false
	}
	c := check.Check{ID: ElasticRoom, Piece: pc.Name, Edge: edge.Name, Unit: "mm", Measured: e.Width + e.Loops, Allowed: "above the valley line", Verdict: check.Holds}
	c.Text = fmt.Sprintf("%q lies with its loops on the %s of %s above the valley line%s", e.Name, unit.MM(e.Width+e.Loops), pc.Name, hang)
	return c, true
}

// border says how far in mm the sew line of an edge lies below the valley line
// of the lace that a piece shows, and in words how far the cloth hangs below it;
// nothing where it shows none or the edge is not on the border.
func border(g cloth.Goods, p pattern.Pattern, pc *pattern.Piece, edge *pattern.Edge) (deeper float64, hang string) {
	lace := outerLace(g, pc)
	if lace == nil || edge.Role != pattern.LaceEdge {
		return 0, ""
	}
	for _, w := range g.OnLaceOf(lace.Name, p).Wishes {
		if w.Piece == pc.Name && (w.Edge == "" || w.Edge == edge.Name) {
			deeper = w.Depth
		}
	}
	l := lace.Lace
	hang = fmt.Sprintf("; the scallops hang %s below the sew line", unit.MM(l.Depth-deeper))
	if second := l.DepthOn(true); l.Both && second != l.Depth {
		switch {
		case deeper > l.Depth:
			hang = fmt.Sprintf("; the scallops hang %s below the sew line", unit.MM(second-deeper))
		case deeper <= second:
			hang += fmt.Sprintf(", or %s on the second border", unit.MM(second-deeper))
		}
	}
	return deeper, hang
}

func names(layers []cloth.Cloth) string {
	list := make([]string, len(layers))
	for i, c := range layers {
		list[i] = fmt.Sprintf("%q", c.Name)
	}
	return strings.Join(list, " over ")
}
