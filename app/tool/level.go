package tool

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
	"truemat/ops/walk"
)

// Level makes both sides of a seam equally long.
type Level struct {
	base
	seam  string
	bend  string   // "a", "b" or "both"
	share float64  // of the difference that side A takes when both are bent
	ends  int      // of levelEnds
	bow   string   // to which side straight edges bow, "" when they stay
	limit float64  // mm
	held  bool     // the handle is dragged
	lone  Pointing // an edge that was pressed and is in no seam
	try   trial
}

// levelEnds are the ways in which the ends of the sides behave.
var levelEnds = []struct {
	words string
	keep  string
	moves pattern.EndName
	along string
}{
	{words: "ends stay"},
	{words: "ends and their directions stay", keep: "directions"},
	{words: "along the seam", moves: pattern.Start},
	{words: "along the seam", moves: pattern.End},
	{words: "along the edge there", moves: pattern.Start, along: "neighbour"},
	{words: "along the edge there", moves: pattern.End, along: "neighbour"},
}

// Of levelEnds, those that are tried when a seam is chosen.
const (
	levelStays     = 0
	levelStartSeam = 2
	levelEndSeam   = 3
	levelStartEdge = 4
	levelEndEdge   = 5
)

// endsOptions are levelEnds in words, an end named by what is there.
func (l *Level) endsOptions(p pattern.Pattern, s *pattern.Seam) []string {
	start, end := l.endsWords(p, s)
	var out []string
	for _, o := range levelEnds {
		switch o.moves {
		case pattern.Start:
			out = append(out, "moves "+start+", "+o.words)
		case pattern.End:
			out = append(out, "moves "+end+", "+o.words)
		default:
			out = append(out, o.words)
		}
	}
	return out
}

const (
	levelLimit  = 6.35 // mm, as with the step
	levelMetric = 6.5  // mm, the round figure next to it
	levelFine   = 1e-6 // mm under which a seam is level
	sharesSnap  = 0.03 // from its ends the handle snaps to one side alone
	noSeamWords = "none yet"
)

// NewLevel returns the tool for a table.
func NewLevel(t Table) Tool {
	return &Level{base: base{table: t}, bend: "both", share: 0.5, limit: proposedLimit(t)}
}

// proposedLimit is the limit at first, a round figure in the maker's unit.
func proposedLimit(t Table) float64 {
	if system(t) == unit.InchFractions {
		return levelLimit
	}
	return levelMetric
}

// Name returns "level".
func (l *Level) Name() string { return "level" }

// chosen returns the seam that is chosen, while it is there.
func (l *Level) chosen() (pattern.Pattern, *pattern.Seam) {
	p := l.pattern()
	s := p.Seam(l.seam)
	if s == nil {
		l.seam = ""
	}
	return p, s
}

// sideWords names the pieces of both sides of a seam so that they differ.
func sideWords(s *pattern.Seam) [2]string {
	named := func(of func(pattern.Part) string) (out [2]string) {
		for k, side := range []pattern.Side{s.A, s.B} {
			var names []string
			for _, pt := range side {
				if name := of(pt); !slices.Contains(names, name) {
					names = append(names, name)
				}
			}
			out[k] = strings.Join(names, " and ")
		}
		return out
	}
	pieces := [2]string{walk.PieceWords(s.A), walk.PieceWords(s.B)}
	if pieces[0] != pieces[1] {
		return pieces
	}
	if edges := named(func(pt pattern.Part) string { return pt.Edge + " of " + pt.Piece }); edges[0] != edges[1] {
		return edges
	}
	return [2]string{pieces[0] + ", first side", pieces[1] + ", second side"}
}

// Hint says what to do next.
func (l *Level) Hint() string {
	p, s := l.chosen()
	if s == nil && l.lone.Edge != "" {
		return fmt.Sprintf("%s of %s is sewn to nothing; press an edge of a seam, or sew it first: take the walk and press both edges.", l.lone.Edge, l.lone.Piece)
	}
	if s == nil {
		return "Press an edge of the seam whose two sides are to be equally long, or choose the seam by its name."
	}
	sides := sideWords(s)
	a, b := p.SeamLengths(*s)
	if l.Proposal() == nil {
		return fmt.Sprintf("Both sides of %s are level: %s on %s, %s on %s. Choose another seam.", s.Name, unit.MM(a), sides[0], unit.MM(b), sides[1])
	}
	res, err := l.try.of(l.table, l.Proposal()...)
	if err != nil {
		return sentence(err)
	}
	text := fmt.Sprintf("Enter accepts, Escape abandons. What moves furthest moves by %s.", unit.MM(figure(res, "moved")))
	if tilted := tilts(p, res.Size.Pattern); len(tilted) > 0 {
		text += " It tilts " + strings.Join(tilted, " and ") + "."
	}
	if wrong := l.wrongs(res); wrong != "" {
		return text + wrong
	}
	return text + " Drag the handle to the side that is to change more."
}

// Pointer chooses a seam and drags the handle.
func (l *Level) Pointer(e Event) {
	if !e.At.Finite() {
		return
	}
	ask := Ask{Kind: OnEdge, Prefer: l.table.Selection().Piece}
	switch e.Act {
	case Hover:
		if pt, ok := l.hover(e, ask); ok && len(seamsOn(l.pattern(), pt)) == 0 {
			l.over = Pointing{}
		}
	case Press:
		l.drop()
		if at, ok := l.handle(); ok && at.Dist(e.At) <= e.Reach {
			l.held = true
			return
		}
		if pt, ok := Point(l.pattern(), e.At, e.Reach, ask); ok {
			l.take(pt)
		}
	case Drag:
		if a, b, ok := l.rail(); ok && l.held {
			way := a.Sub(b)
			if n := way.Dot(way); n > 0 {
				v := e.At.Sub(b).Dot(way) / n
				if math.Abs(v-0.5) > 0.5-sharesSnap {
					v = math.Round(v)
				}
				l.setShare(v)
			}
		}
	case Release:
		l.held = false
	}
}

// seamsOn returns the names of the seams that an edge belongs to.
func seamsOn(p pattern.Pattern, pt Pointing) []string {
	var names []string
	for _, s := range p.Seams {
		if slices.ContainsFunc(slices.Concat(s.A, s.B), func(o pattern.Part) bool { return o.Piece == pt.Piece && o.Edge == pt.Edge }) {
			names = append(names, s.Name)
		}
	}
	return names
}

// take chooses the seam of an edge; of several the one after that which is
// chosen, so that pressing again goes on.
func (l *Level) take(pt Pointing) {
	names := seamsOn(l.pattern(), pt)
	if l.lone = (Pointing{}); len(names) == 0 {
		l.lone = pt
		return
	}
	i := (slices.Index(names, l.seam) + 1) % len(names)
	l.choose(names[i])
	l.table.Select(pt.Selection())
}

func (l *Level) forget() {
	*l = Level{base: l.base, bend: "both", share: 0.5, limit: proposedLimit(l.table), try: l.try}
}

// setShare sets the share of the difference that side A takes.
func (l *Level) setShare(v float64) {
	switch v = math.Round(v*1000) / 1000; {
	case math.IsNaN(v):
	case v >= 1:
		l.bend, l.share = "a", 1
	case v <= 0:
		l.bend, l.share = "b", 0
	default:
		l.bend, l.share = "both", v
	}
}

// rail returns the middles of both sides on the mat, between which the handle
// is dragged: it lies nearer to the side that changes more.
func (l *Level) rail() (a, b geom.Point, ok bool) {
	p, s := l.chosen()
	if s == nil {
		return a, b, false
	}
	middle := func(side pattern.Side) geom.Point {
		rest := p.Length(side) / 2
		for _, pt := range side {
			pc, e := p.Edge(pt.Piece, pt.Edge)
			length := p.PartLength(pt)
			if rest <= length {
				at := pt.From * e.Length()
				if pt.From > pt.To {
					rest = -rest
				}
				return pc.Pose.Apply(e.Path.At(at + rest))
			}
			rest -= length
		}
		return geom.Point{}
	}
	a, b = middle(s.A), middle(s.B)
	if a.Dist(b) < leastRail {
		out := b.Sub(a)
		if out.Norm() < samePlace {
			out = geom.Pt(1, 0)
		}
		out = out.Unit().Mul(leastRail / 2)
		m := a.Lerp(b, 0.5)
		a, b = m.Sub(out), m.Add(out)
	}
	return a, b, true
}

// leastRail is the least length in mm on which the handle is dragged.
const leastRail = 40

// handle returns where the handle lies, when there is something to share.
func (l *Level) handle() (geom.Point, bool) {
	a, b, ok := l.rail()
	if !ok || l.Proposal() == nil {
		return geom.Point{}, false
	}
	return b.Lerp(a, l.share), true
}

// Key walks to an edge of the seam; the arrows share the difference by 1 % and more.
func (l *Level) Key(k Key) bool {
	if l.held {
		return false
	}
	if d, ok := counted(k); ok {
		if _, s := l.chosen(); s == nil {
			return false
		}
		l.setShare(l.share + (d.X+d.Y)/100)
		return true
	}
	chosen, took, used := l.keyed(k, Ask{Kind: OnEdge})
	if took {
		l.take(chosen)
		l.walk.Reset()
	}
	return used
}

// levelBows are what straight edges can do while the ends of the seam stay.
var levelBows = []struct{ words, bow string }{
	{"stay straight", ""}, {"bow out", "out"}, {"bow in", "in"},
}

// bendWords are what a step calls the choices of bends.
var bendWords = []string{"both", "a", "b"}

// mostLevel is the greatest limit in mm that can be typed.
const mostLevel = 50

// Proposal is the levelling, when the sides differ in the size shown.
func (l *Level) Proposal() []step.Step {
	p, s := l.chosen()
	if s == nil {
		return nil
	}
	if a, b := p.SeamLengths(*s); math.Abs(a-b-s.Ease) <= levelFine {
		return nil
	}
	way := levelEnds[l.ends]
	out := &step.Level{Seam: s.Name, Bend: l.bend, Keep: way.keep, Moves: way.moves, Along: way.along}
	if way.moves == "" {
		out.Bow = l.bow
	}
	if l.bend == "both" && l.share != 0.5 {
		n := step.Lit(l.share)
		out.Share = &n
	}
	if l.limit != levelLimit {
		n := step.Lit(l.limit)
		out.Limit = &n
	}
	return []step.Step{out}
}

// Reset forgets the seam.
func (l *Level) Reset() bool {
	walked := l.drop()
	_, s := l.chosen()
	l.forget()
	return s != nil || walked
}
