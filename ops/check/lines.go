package check

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
)

// runOn checks that every line runs on without a kink or step where it goes
// from one edge to the next, and that edges meet a fold square.
func runOn(s Subject) []Check {
	var out []Check
	for _, l := range s.After.Lines {
		lay, err := s.After.LayChain(l.Parts)
		if err != nil {
			continue
		}
		for _, j := range lay.Junctions {
			where := fmt.Sprintf("between %s and %s", j.Before.Piece, j.After.Piece)
			c := Check{ID: RunOn, Line: l.Name, Piece: j.Before.Piece, Edge: j.Before.Edge, Measured: math.Abs(j.Kink.Degrees()), Unit: "deg"}
			c.Text = fmt.Sprintf("The %s turns by %.1f° %s", l.Name, c.Measured, where)
			if j.Gap > shownStep {
				c.Text = fmt.Sprintf("The %s turns by %.1f° and jumps by %s %s", l.Name, c.Measured, mm(j.Gap), where)
			}
			c.Allowed = fmt.Sprintf("%g° and %g mm, look to %g° and %g mm", s.Bounds.Kink.Holds, s.Bounds.Step.Holds, s.Bounds.Kink.Look, s.Bounds.Step.Look)
			c.Verdict = worse(s.Bounds.Kink.Verdict(c.Measured), s.Bounds.Step.Verdict(j.Gap))
			out = append(out, c.Remedied("true the line across the seam"))
		}
	}
	for i := range s.After.Pieces {
		out = append(out, foldSquare(s, &s.After.Pieces[i])...)
	}
	return out
}

// shownStep is the jump in mm below which a sentence does not speak of it.
const shownStep = 0.005

func worse(a, b Verdict) Verdict {
	order := []Verdict{Holds, Look, Broken}
	return order[max(slices.Index(order, a), slices.Index(order, b))]
}

func foldSquare(s Subject, pc *pattern.Piece) []Check {
	fold := pc.Fold()
	if fold == nil {
		return nil
	}
	i := pc.EdgeIndex(fold.Name)
	along := fold.Path.TangentAt(0)
	before, after := &pc.Edges[pc.Prev(i)], &pc.Edges[pc.Next(i)]
	var out []Check
	for _, m := range []struct {
		e   *pattern.Edge
		dir geom.Point
	}{{before, before.Path.TangentBefore(before.Length())}, {after, after.Path.TangentAt(0)}} {
		off := 90 - math.Abs(geom.Between(along, m.dir).Degrees())
		c := Check{ID: FoldSquare, Piece: pc.Name, Edge: m.e.Name, Measured: off, Unit: "deg"}
		c.Text = fmt.Sprintf("%s of %s meets the fold %.2f° off square", m.e.Name, pc.Name, math.Abs(off))
		out = append(out, settle(c, s.Bounds.FoldSquare, "unfolded it would have a point or a dip at the centre; make it square to the fold"))
	}
	return out
}

// hem checks hems against before and the cloth left between wire line and hem.
func hem(s Subject) []Check {
	out := lost(s, pattern.LineHem, HemLength, "take back the step that cut it away, or name the line anew")
	for _, l := range s.After.Lines {
		if l.Kind != pattern.LineHem {
			continue
		}
		was := s.Before.Line(l.Name)
		if was == nil {
			continue
		}
		length := s.After.Length(l.Parts)
		at := s.changedMost(l)
		c := Check{ID: HemLength, Line: l.Name, Piece: at.Piece, Edge: at.Edge, Unit: "mm", Measured: length - s.Before.Length(was.Parts)}
		c.Text = fmt.Sprintf("The %s is %s, %s", l.Name, mm(length), sinceBefore(c.Measured))
		out = append(out, settle(c, s.Bounds.HemLength, hemRemedy(s, l, c.Measured)))
	}
	if c, ok := hemBody(s); ok {
		out = append(out, c)
	}
	for i := range s.After.Pieces {
		pc := &s.After.Pieces[i]
		if c, ok := clothBelow(s, pc); ok {
			out = append(out, c)
		}
		if c, ok := bridgeTop(s, pc); ok {
			out = append(out, c)
		}
	}
	return out
}

// changedMost returns the part of a line whose edge has changed its length most,
// the first where none that was there before has.
func (s Subject) changedMost(l pattern.Line) pattern.Part {
	at, most := l.Parts[0], slack
	for _, part := range l.Parts {
		_, was := s.Before.Edge(part.Piece, part.Edge)
		_, is := s.After.Edge(part.Piece, part.Edge)
		if was == nil || is == nil {
			continue
		}
		if by := math.Abs(is.Length() - was.Length()); by > most {
			at, most = part, by
		}
	}
	return at
}

// hemRemedy says what mends a hem that is longer by so many mm than before.
func hemRemedy(s Subject, l pattern.Line, longer float64) string {
	switch {
	case longer > 0:
		return "take it in at the side seams, half at each"
	case slices.ContainsFunc(l.Parts, func(pt pattern.Part) bool { return joints(s.After, pt.Piece) > joints(s.Before, pt.Piece) }):
		return "the tape took that where pieces were joined; share it out at the side seams, half at each"
	}
	return "give it back at the side seams, half at each"
}

// joints counts the places where a piece was put together by tape.
func joints(p pattern.Pattern, piece string) int {
	n := 0
	if pc := p.Piece(piece); pc != nil {
		for _, in := range pc.Inner {
			if in.Kind == pattern.OldJoint {
				n++
			}
		}
	}
	return n
}

// clothBelow measures the least distance between the wire line and the hem of
// a piece, which must hold the channelling and the elastic.
func clothBelow(s Subject, pc *pattern.Piece) (Check, bool) {
	b := s.Bounds.Cloth
	channel, elastic := s.After.Figures[pattern.FigureChannelling], s.After.Figures[pattern.FigureElastic]
	if channel > 0 && elastic > 0 {
		b = Bound{channel + elastic, channel + elastic - s.Bounds.ClothUnder}
	}
	least := math.Inf(1)
	c := Check{ID: ClothBelow, Piece: pc.Name, Unit: "mm"}
	for j := range pc.Edges {
		h := &pc.Edges[j]
		if !inLine(s.After, pc.Name, h.Name, pattern.LineHem) && h.Role != pattern.Hem {
			continue
		}
		if d, ok := BelowWire(pc, h); ok && d < least {
			least, c.Edge = d, h.Name
		}
	}
	if math.IsInf(least, 1) {
		return c, false
	}
	c.Measured = least
	c.Verdict = b.Least(least)
	c.Allowed = fmt.Sprintf("at least %g mm, look from %g", b.Holds, b.Look)
	c.Text = fmt.Sprintf("%s leaves %s of cloth between wire line and %s", pc.Name, mm(least), c.Edge)
	return c.Remedied("channelling and elastic must fit there side by side; lower the hem or take a narrower elastic"), true
}

// BelowWire returns the least distance in mm between an edge of a piece and
// the piece's wire line; false when it has none.
func BelowWire(pc *pattern.Piece, edge *pattern.Edge) (float64, bool) {
	a, b, ok := Narrowest(pc, edge)
	return a.Dist(b), ok
}

// Narrowest returns where an edge of a piece and the piece's wire line come
// nearest to each other, on the wire line and on the edge in the coordinates of
// the piece; false when it has no wire line.
func Narrowest(pc *pattern.Piece, edge *pattern.Edge) (a, b geom.Point, ok bool) {
	least := math.Inf(1)
	for i := range pc.Edges {
		if w := &pc.Edges[i]; w.Role == pattern.WireLine {
			if x, y := nearest(w.Path, edge.Path); x.Dist(y) < least {
				least, a, b = x.Dist(y), x, y
			}
		}
	}
	return a, b, !math.IsInf(least, 1)
}

func inLine(p pattern.Pattern, piece, edge string, kind pattern.LineKind) bool {
	for _, l := range p.Lines {
		if l.Kind == kind && slices.ContainsFunc(l.Parts, func(pt pattern.Part) bool { return pt.Piece == piece && pt.Edge == edge }) {
			return true
		}
	}
	return false
}

// distance returns the least distance between two paths.
func distance(a, b geom.Path) float64 {
	x, y := nearest(a, b)
	return x.Dist(y)
}

// nearest returns where two paths come nearest to each other, within
// sampleStep/2 along and far less across: the foot of every sample is exact.
func nearest(a, b geom.Path) (onA, onB geom.Point) {
	least := math.Inf(1)
	n := int(a.Length()/sampleStep) + 1
	for i := range n + 1 {
		at := a.At(a.Length() * float64(i) / float64(n))
		if foot := b.Nearest(at); foot.Dist < least {
			least, onA, onB = foot.Dist, at, foot.Point
		}
	}
	return onA, onB
}

// sampleStep is the distance in mm between the places looked at on an edge.
const sampleStep = 0.5

// bridgeTop measures the narrowest width, whole, of a fold piece that carries
// wire line on both sides: two channellings must lie beside each other.
func bridgeTop(s Subject, pc *pattern.Piece) (Check, bool) {
	fold := pc.Fold()
	if fold == nil {
		return bridgeWhole(s, pc)
	}
	line, err := geom.NewLine(fold.Path.Start(), fold.Path.End())
	if err != nil {
		return Check{}, false
	}
	least := math.Inf(1)
	c := Check{ID: BridgeTop, Piece: pc.Name, Unit: "mm"}
	for i := range pc.Edges {
		e := &pc.Edges[i]
		if e.Role != pattern.WireLine {
			continue
		}
		for _, q := range e.Path.Flatten(depthFlat) {
			if d := 2 * math.Abs(line.Distance(q)); d < least {
				least, c.Edge = d, e.Name
			}
		}
	}
	if math.IsInf(least, 1) {
		return c, false
	}
	return bridgeWide(s, c, least), true
}

// bridgeWhole is bridgeTop of a piece that is not on the fold and carries two
// wire lines, as an unfolded bridge does.
func bridgeWhole(s Subject, pc *pattern.Piece) (Check, bool) {
	least := math.Inf(1)
	c := Check{ID: BridgeTop, Piece: pc.Name, Unit: "mm"}
	for i := range pc.Edges {
		for j := i + 1; j < len(pc.Edges); j++ {
			a, b := &pc.Edges[i], &pc.Edges[j]
			if a.Role != pattern.WireLine || b.Role != pattern.WireLine || besideEachOther(s.After, pc, i, j) || besideEachOther(s.After, pc, j, i) {
				continue
			}
			if d := distance(a.Path, b.Path); d < least {
				least, c.Edge = d, a.Name
			}
		}
	}
	if math.IsInf(least, 1) {
		return c, false
	}
	return bridgeWide(s, c, least), true
}

// besideEachOther reports whether edge j follows edge i, at once or over a dart.
func besideEachOther(p pattern.Pattern, pc *pattern.Piece, i, j int) bool {
	if pc.Next(i) == j {
		return true
	}
	_, dart := p.Dart(pc, pc.Next(i))
	return dart && pc.Next(pc.Next(pc.Next(i))) == j
}

func bridgeWide(s Subject, c Check, least float64) Check {
	channel := s.After.Figures[pattern.FigureChannelling]
	if channel == 0 {
		channel = s.Bounds.Channelling
	}
	c.Measured = least
	c.Text = fmt.Sprintf("%s is %s wide, whole, at its narrowest between the wire lines", c.Piece, mm(least))
	return yes(c, least >= 2*channel-slack, fmt.Sprintf("at least %g mm", 2*channel), "two channellings must fit side by side; widen the top")
}
