package tool

import (
	"encoding/json"
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// spreadGrip names what of the slashes can be dragged, and slid by keys: both
// ends of each, and the place that closes.
type spreadGrip struct {
	what  gripKind
	slash int
}

type gripKind int

const (
	mouthGrip gripKind = iota // where a slash begins
	hingeGrip
	closerGrip
)

// lain remembers how slashes lie.
type lain struct {
	key    string
	piece  *pattern.Piece
	mouths []step.Mouth
	err    error // why the slashes cannot be cut
}

// mouths returns how the slashes lie as they are opened; nil where they cannot
// be cut.
func (s *Spread) mouths(c cuts) []step.Mouth {
	s.lie(c)
	return s.lain.mouths
}

// cannot returns why the slashes cannot be cut.
func (s *Spread) cannot(c cuts) error {
	s.lie(c)
	return s.lain.err
}

// lie finds out how the slashes lie, unless it is known.
func (s *Spread) lie(c cuts) {
	made := s.made(c)
	if s.by == bySpreadNothing && s.dart == "" {
		none := step.Lit(0)
		made.Degrees = &none
	}
	b, err := json.Marshal(made)
	if err != nil {
		s.lain = lain{err: err}
		return
	}
	p := s.pattern()
	if key := s.table.Size() + string(b); s.lain.key != key || s.lain.piece != &p.Pieces[0] {
		mouths, err := made.Mouths(s.input())
		s.lain = lain{key, &p.Pieces[0], mouths, err}
	}
}

func (s *Spread) input() step.Input {
	return step.Input{Pattern: s.pattern(), Size: s.table.Size(), Figures: s.table.Figures()}
}

// handle returns where the handle of a slash lies: at its start, on the part
// that turns, as it has been opened.
func (s *Spread) handle(c cuts, i int) geom.Point {
	if m := s.mouths(c); i < len(m) {
		return m[i].Turns
	}
	return c.lines[i].from
}

// grip returns what lies within reach of the pointer to be dragged.
func (s *Spread) grip(c cuts, ok bool, e Event) (found spreadGrip, can bool) {
	if !ok || c.needs != needsNothing {
		return found, false
	}
	best := e.Reach
	near := func(at geom.Point, g spreadGrip) {
		if d := at.Dist(e.At); d <= best && (!can || d < best-samePlace) {
			found, best, can = g, d, true
		}
	}
	for i := range c.lines {
		near(s.handle(c, i), spreadGrip{mouthGrip, i})
	}
	for i, l := range c.lines {
		if s.dart == "" {
			near(l.to, spreadGrip{hingeGrip, i})
		}
	}
	if s.inside != nil && c.closing != nil {
		near(*c.closing, spreadGrip{what: closerGrip})
	}
	return found, can
}

// drag drags what was taken hold of.
func (s *Spread) drag(c cuts, e Event) {
	i := s.at.slash
	switch {
	case i >= len(c.lines):
	case s.at.what == mouthGrip && e.Shift:
		_, edge := s.pattern().Edge(c.pc.Name, s.slashes[i].from.Edge)
		s.slashes[i].from = s.inEdge(nearestOn(c.pc, edge, e.At))
	case s.at.what == mouthGrip:
		s.pull(c, e)
	case s.at.what == hingeGrip && s.inside != nil:
		if _, in := Point(s.pattern(), e.At, e.Reach, Ask{Kind: OnPiece, Only: c.pc.Name}); in {
			s.hingeInside(c, e.At)
		}
	case s.at.what == hingeGrip:
		s.moveHinge(c, i, s.nearest(c, e))
	default:
		at := s.inEdge(s.nearest(c, e))
		s.closing = &at
	}
}

// nearest returns the spot of the slashed piece next to the pointer.
func (s *Spread) nearest(c cuts, e Event) Pointing {
	pt, _ := Point(s.pattern(), e.At, math.Inf(1), Ask{Kind: OnEdge, Only: c.pc.Name})
	if spot, ok := Point(s.pattern(), e.At, e.Reach, Ask{Kind: OnJoint | OnNotch, Only: c.pc.Name}); ok {
		pt = spot
	}
	return pt
}

// moveHinge lays the hinge of a slash on another spot of the outline; those
// that meet there go with it.
func (s *Spread) moveHinge(c cuts, i int, to Pointing) {
	was := c.lines[i].to
	for k := range s.slashes {
		if l := &s.slashes[k]; l.to != nil && l.to.At.Dist(was) <= samePlace && to.At.Dist(l.from.At) > leastReach {
			at := to
			l.to = &at
		}
	}
}

// mostPull is the greatest angle to which a slash is pulled open.
const mostPull = 80 * geom.Degree

// pull opens the slashes so far that the handle follows the pointer: all of
// them as they share the amount, or with Ctrl the one alone.
func (s *Spread) pull(c cuts, e Event) {
	i := s.at.slash
	mouths := s.mouths(c)
	if i >= len(mouths) {
		s.by = bySpreadNothing // what cannot be cut so is pulled anew
		return
	}
	m := mouths[i]
	r := m.Stays.Dist(m.Hinge)
	alone := len(c.lines) == 1 || e.Ctrl && s.dart == ""
	if !alone {
		s.pullAll(c, i, r, e.At)
		return
	}
	turn := geom.Between(m.Stays.Sub(m.Hinge), e.At.Sub(m.Hinge))
	if m.Clockwise {
		turn = -turn
	}
	turn = min(max(turn, -mostPull), mostPull)
	if s.allOfDart(c, turn) {
		return
	}
	s.open(mouths, i, math.Round(20*r*math.Sin(float64(turn)/2))/10)
}

// allOfDart closes the dart entirely when a slash is opened nearly that far.
func (s *Spread) allOfDart(c cuts, turn geom.Angle) bool {
	d := s.ownDart()
	if d == nil || turn <= geom.Angle(d.Degrees)*geom.Degree/geom.Angle(len(c.lines))-geom.Degree/2 {
		return false
	}
	s.by = bySpreadNothing
	return true
}

// open opens one slash by an amount in mm and leaves the others as they are.
func (s *Spread) open(mouths []step.Mouth, i int, amount float64) {
	amounts, sum, any := make([]float64, len(mouths)), 0.0, false
	for k, m := range mouths {
		amounts[k] = math.Round(m.Opened*1e6) / 1e6
		if k == i {
			amounts[k] = amount
		}
		sum, any = sum+amounts[k], any || amounts[k] != 0
	}
	switch {
	case !any:
		s.by, s.shares = bySpreadNothing, nil
	case math.Abs(sum) < 1e-3: // as much closes as opens, which has no shares
		return
	default:
		s.by, s.value = bySpreadAmount, math.Round(sum*1e6)/1e6
		if len(amounts) > 1 {
			s.shares = amounts
		}
	}
}

// pullAll looks for the amount in all at which the handle of one of several
// slashes lies next to the pointer: each is turned by those before it.
func (s *Spread) pullAll(c cuts, i int, r float64, at geom.Point) {
	trial := s.made(c)
	trial.Degrees, trial.Until = nil, nil
	share := s.shareOf(i)
	total := func(turn geom.Angle) float64 { return 2 * r * math.Sin(float64(turn)/2) / share }
	miss := func(turn geom.Angle) float64 {
		v := total(turn)
		if len(s.shares) == len(s.slashes) {
			for k := range trial.Slashes {
				n := step.Lit(v * s.shareOf(k))
				trial.Slashes[k].Amount = &n
			}
			trial.Amount = nil
		} else {
			n := step.Lit(v)
			trial.Amount = &n
		}
		mouths, err := trial.Mouths(s.input())
		if err != nil {
			return math.Inf(1)
		}
		return mouths[i].Turns.Dist(at)
	}
	best, bestMiss := geom.Angle(0), math.Inf(1)
	search := func(from, width geom.Angle, n int) {
		for k := range n {
			turn := from + geom.Angle(k)*width
			if d := miss(turn); d < bestMiss {
				best, bestMiss = turn, d
			}
		}
	}
	search(-mostPull, mostPull/20, 41)
	for width := mostPull / 80; width > geom.Degree/200 && !math.IsInf(bestMiss, 1); width /= 4 {
		search(best-4*width, width, 9)
	}
	if math.IsInf(bestMiss, 1) || s.allOfDart(c, best) {
		return
	}
	if s.by, s.value = bySpreadAmount, math.Round(total(best)*10)/10; s.value == 0 {
		s.by = bySpreadNothing
	}
}

// slide moves what was chosen or dragged last along the outline.
func (s *Spread) slide(p pattern.Pattern, c cuts, d float64) {
	i := min(s.at.slash, len(s.slashes)-1)
	switch {
	case s.at.what == closerGrip && s.closing != nil:
		if pt, ok := slide(p, *s.closing, d); ok {
			pt = s.inEdge(pt)
			s.closing = &pt
		}
	case s.at.what == hingeGrip && s.inside != nil:
		s.hingeInside(c, c.pivot.Add(c.pivot.Sub(c.lines[0].from).Unit().Mul(d)))
	case s.at.what == hingeGrip && s.slashes[i].to != nil:
		if pt, ok := slide(p, *s.slashes[i].to, d); ok {
			s.moveHinge(c, i, pt)
		}
	default:
		if pt, ok := slide(p, s.slashes[i].from, d); ok {
			s.slashes[i].from = s.inEdge(pt)
		}
	}
}

// grips are what can be slid, in words.
func (s *Spread) grips(c cuts) (words []string, grips []spreadGrip) {
	for i := range s.slashes {
		name := "slash"
		if len(s.slashes) > 1 {
			name = fmt.Sprint("slash ", i+1)
		}
		words, grips = append(words, "start of "+name), append(grips, spreadGrip{mouthGrip, i})
		if s.dart == "" && (s.inside == nil || i == 0) {
			words, grips = append(words, "hinge of "+name), append(grips, spreadGrip{hingeGrip, i})
		}
	}
	if s.inside != nil && c.closing != nil {
		words, grips = append(words, "what closes"), append(grips, spreadGrip{what: closerGrip})
	}
	return words, grips
}
