package tool

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/step"
)

// Spread slashes a piece from an edge to a hinge and spreads or closes it.
type Spread struct {
	base
	slashes []slashed
	inside  *insideHinge // the hinge of all slashes, when it lies inside
	closing *Pointing    // where the slash that closes begins
	dart    string       // the seam of the dart that closes
	by      spreadBy
	value   float64   // mm, degrees, or mm of the edge
	fits    string    // the seam whose other side it is then as long as, in every size
	shares  []float64 // of the amount, one a slash; evenly when there are others
	fair    float64   // mm; 0 is not at all
	hinge   float64   // mm within which the hinge is smoothed
	length  float64   // of the edge made fair; 0 is as it comes
	leave   bool      // as a dart
	name    string
	short   float64
	after   bool // the part after the first slash stays
	page    spreadPage
	at      spreadGrip
	held    bool // what at names is dragged
	begun   bool // a slash is pulled from its start
	loose   *geom.Point
	missed  bool // what was pressed last is no hinge
	try     trial
	lain    lain
}

// slashed is one slash: where it starts and, unless the hinge lies inside, the
// place on the outline where it ends.
type slashed struct {
	from Pointing
	to   *Pointing
}

// insideHinge is a hinge inside the piece, held off the chord of the edge on
// which the first slash starts.
type insideHinge struct{ along, off float64 }

// spreadBy says by what the slashes open.
type spreadBy int

const (
	bySpreadNothing spreadBy = iota
	bySpreadAmount
	bySpreadDegrees
	bySpreadLength
)

const (
	spreadFair  = 20.0 // mm within which an opened edge is made fair at first
	spreadShort = 12.0 // mm by which a dart stays short of its hinge at first (common practice)
	spreadName  = "dart"
	firstLeg    = "first leg" // of a dart, in the direction of the outline
	secondLeg   = "second leg"
)

// NewSpread returns the tool for a table.
func NewSpread(t Table) Tool {
	return &Spread{base: base{table: t}, fair: handy(t, spreadFair), short: handy(t, spreadShort)}
}

// Name returns "spread".
func (s *Spread) Name() string { return "spread" }

// Hint says what to do next.
func (s *Spread) Hint() string {
	c, ok := s.cuts()
	switch {
	case !ok:
		return "Press the place on an edge where the piece is to open: the slash begins there."
	case c.needs == needsHinge && s.missed:
		return fmt.Sprintf("That place lies outside %s, where the slash would miss its hinge: press another edge of %s, or a place inside it.", c.pc.Name, c.pc.Name)
	case c.needs == needsHinge:
		return "Now press the hinge: a place on another edge, or inside the piece, such as the apex."
	case c.needs == needsClosing:
		return "Inside the piece paper opens only as much as closes elsewhere: press the edge where it is to close. For a new dart press Escape and hinge it on the opposite edge."
	case s.by == bySpreadNothing && s.dart == "":
		if err := s.cannot(c); err != nil {
			return sentence(err)
		}
		return "Pull the handle to open, with Shift to slide it, or write the amount; press an edge for one more slash."
	}
	res, err := s.trial()
	if err != nil {
		return sentence(err)
	}
	if len(s.slashes) > 1 {
		return s.askew(res) + "Enter keeps it; pulled with Ctrl a slash opens alone." + s.bent(c, res) + s.untilWords(c, res) + s.advice(c, res) + s.kept(c)
	}
	return s.askew(res) + "Enter keeps it; pull the handle to open more or less." + s.bent(c, res) + s.untilWords(c, res) + s.advice(c, res) + s.kept(c)
}

// kept tells, beside the numbers of a slash, how the place where it begins is
// kept in other sizes.
func (s *Spread) kept(c cuts) string {
	i := min(s.at.slash, len(s.slashes)-1)
	from := s.slashes[i].from
	if s.page != pageSlash || from.Kind != OnEdge || !severalSizes(s.table) {
		return ""
	}
	return " In every size the slash begins " + keptWords(s.pattern(), c.pc.Name, from.Edge, from.Spot.Along) + "."
}

// ask says what the pointer looks for.
func (s *Spread) ask() Ask {
	ask := Ask{Kind: OnSpot, Prefer: s.table.Selection().Piece}
	if len(s.slashes) > 0 {
		ask.Only = s.slashes[0].from.Piece
	}
	return ask
}

// Pointer chooses the start, the hinge, what closes, more slashes, and drags
// the handles at both ends of each.
func (s *Spread) Pointer(e Event) {
	if !e.At.Finite() {
		return
	}
	c, ok := s.cuts()
	switch e.Act {
	case Hover:
		s.hover(e, s.ask())
	case Press:
		s.drop()
		s.loose, s.missed = nil, false
		if g, can := s.grip(c, ok, e); can {
			s.at, s.held = g, true
			return
		}
		s.press(e, c, ok)
	case Drag:
		if s.held && ok {
			s.drag(c, e)
		} else if s.begun {
			at := e.At
			s.loose = &at
			s.hover(e, s.ask())
		}
	case Release:
		pulled := s.begun && s.loose != nil && ok && c.needs == needsHinge &&
			c.lines[len(c.lines)-1].from.Dist(e.At) > max(e.Reach, leastReach)
		s.held, s.begun, s.loose = false, false, nil
		if pulled {
			s.press(e, c, ok)
			s.begun = false
		}
	}
}

// press takes what is pressed next.
func (s *Spread) press(e Event, c cuts, ok bool) {
	p := s.pattern()
	pt, found := Point(p, e.At, e.Reach, s.ask())
	switch {
	case ok && c.needs == needsHinge && !found:
		if in, hit := Point(p, e.At, e.Reach, Ask{Kind: OnPiece, Only: c.pc.Name}); hit {
			s.layHingeInside(c, in.At)
		} else {
			s.missed = true
		}
	case !found:
	case !ok:
		s.begin(pt)
	default:
		s.next(pt, c)
	}
}

// begin starts the first slash.
func (s *Spread) begin(pt Pointing) {
	s.forget()
	s.slashes = []slashed{{from: s.inEdge(pt)}}
	s.begun, s.at = true, spreadGrip{}
	s.table.Select(Selection{Piece: pt.Piece, Edge: pt.Edge})
	s.walk = goingOn(pt)
}

// inEdge keeps the start of a slash off the corners.
func (s *Spread) inEdge(pt Pointing) Pointing {
	pc, e := s.pattern().Edge(pt.Piece, pt.Edge)
	if l := e.Length(); pt.Kind == OnNotch && pt.S >= leastReach && pt.S <= l-leastReach {
		return pt
	}
	return within(pc, e, pt.S)
}

// next takes a spot once the first slash is begun: its hinge, what closes, or
// where another slash starts.
func (s *Spread) next(pt Pointing, c cuts) {
	last := &s.slashes[len(s.slashes)-1]
	switch c.needs {
	case needsHinge:
		if pt.At.Dist(last.from.At) <= samePlace {
			return
		}
		last.to = &pt
		s.at = spreadGrip{hingeGrip, len(s.slashes) - 1}
		for _, d := range s.darts() {
			if at, err := s.pattern().Find(d.Point); err == nil && at.Mat.Dist(pt.At) <= pinMeets && len(s.slashes) == 1 {
				s.dart, last.to, s.at = d.Seam, nil, spreadGrip{}
			}
		}
	case needsClosing:
		at := s.inEdge(pt)
		s.closing, s.at = &at, spreadGrip{what: closerGrip}
	default:
		s.slashes = append(s.slashes, slashed{from: s.inEdge(pt)})
		s.begun, s.at = true, spreadGrip{slash: len(s.slashes) - 1}
		s.walk = goingOn(pt)
		return
	}
	s.walk.Reset()
}

// hingeInside lays the hinge at a place inside the piece.
func (s *Spread) hingeInside(c cuts, at geom.Point) {
	way := c.edge.Path.End().Sub(c.edge.Path.Start())
	n := way.Dot(way)
	if n == 0 || len(s.slashes) > 1 && s.inside == nil {
		return
	}
	v := c.pc.Pose.Inverse().Apply(at).Sub(c.edge.Path.Start())
	s.inside = &insideHinge{v.Dot(way) / n, way.Cross(v) / n}
	s.at = spreadGrip{what: hingeGrip}
}

// layHingeInside lays the hinge inside and goes on to what closes.
func (s *Spread) layHingeInside(c cuts, at geom.Point) {
	s.hingeInside(c, at)
	s.walk = Finger{at: Pointing{Kind: OnPiece, Piece: c.pc.Name}, inside: true}
}

// opened returns the amount in all by which the slashes open at the edge, in
// the size shown.
func (s *Spread) opened() (float64, bool) {
	if s.by == bySpreadAmount {
		return s.value, true
	}
	if len(s.Proposal()) == 0 {
		return 0, false
	}
	res, err := s.trial()
	return figure(res, "opened"), err == nil
}

// shareOf returns the share of the amount by which a slash opens.
func (s *Spread) shareOf(i int) float64 {
	if len(s.shares) != len(s.slashes) {
		return 1 / float64(len(s.slashes))
	}
	sum := 0.0
	for _, v := range s.shares {
		sum += v
	}
	return s.shares[i] / sum
}

// Key walks to the spots; the arrows left and right slide the one that was
// chosen or dragged last, up and down open and close; Delete takes the last
// slash away.
func (s *Spread) Key(k Key) bool {
	if s.held || s.begun && s.loose != nil {
		return false
	}
	s.missed = false
	p := s.pattern()
	c, ok := s.cuts()
	if d, is := arrow(k); is {
		if !ok {
			return false
		}
		if d.Y == 0 {
			s.slide(p, c, d.X)
			return true
		}
		if c.needs != needsNothing {
			return false
		}
		amount, _ := s.opened()
		if v := math.Round((amount+d.Y)*1e6) / 1e6; math.Abs(v) <= mostReach {
			if s.by, s.value = bySpreadAmount, v; v == 0 {
				s.by = bySpreadNothing
			}
		}
		return true
	}
	if k.Name == Delete && ok {
		if s.slashes = s.slashes[:len(s.slashes)-1]; len(s.slashes) == 0 {
			s.forget()
		}
		s.at = spreadGrip{slash: max(len(s.slashes)-1, 0)}
		s.walk.Reset()
		return true
	}
	chosen, took, used := s.keyed(k, s.ask())
	switch {
	case !took:
	case !ok:
		s.begin(chosen)
		s.begun = false
	default:
		s.next(chosen, c)
		s.begun = false
	}
	return used
}

func (s *Spread) forget() {
	*s = Spread{base: s.base, fair: handy(s.table, spreadFair), short: handy(s.table, spreadShort), try: s.try}
}

func (s *Spread) trial() (step.Result, error) { return s.try.of(s.table, s.Proposal()...) }

// Reset forgets the slashes.
func (s *Spread) Reset() bool {
	walked := s.drop()
	was := len(s.slashes) > 0
	*s = Spread{base: s.base, fair: handy(s.table, spreadFair), short: handy(s.table, spreadShort)}
	return was || walked
}
