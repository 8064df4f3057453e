package tool

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
	"truemat/ops/walk"
)

// Walk rolls one side of a seam along the other, by hand or by itself, and
// drops notches where they meet.
type Walk struct {
	base
	what         walkedSeam
	s            float64 // walked on side A
	piv          float64 // share of the turn done at a corner
	grip         *walkGrip
	laid         *geom.Motion // where the standing side lies, when not as on the mat
	play         play
	drops        []dropped
	moves        []step.Notch // to where they meet those of the other side
	holds        walkHold
	ease         *float64      // to be stated
	bound        *step.Between // of ease and spread; nil is the whole seam
	even         walk.Hand     // whose notches are spread evenly
	page         walkPage
	sewn         string // the seam as which two edges of her own are to be sewn
	try, easeTry trial
	known, noted known // the walk, and that with what was dropped
	cuts         map[string]geom.Path
	of           *pattern.Piece // cuts are those of the pattern that starts with it
}

// walkedSeam says what is walked and how: a seam by its name, or two edges.
type walkedSeam struct {
	seam  string
	first *pattern.Part // of two edges, each walked from where the other starts
	next  *pattern.Part
	start walkStart
	rolls walk.Hand
}

// walkStart is where a walk starts, and the direction in which it goes.
type walkStart struct {
	from pattern.EndName
	a, b *pattern.Spot
}

// walkGrip is how the walk is dragged: by the seam, where the contact follows
// the pointer, or by the rolling piece, which goes off by ahead mm.
type walkGrip struct {
	ahead float64
}

// NewWalk returns the tool for a table.
func NewWalk(t Table) Tool { return &Walk{base: base{table: t}} }

// Name returns "walk".
func (w *Walk) Name() string { return "walk" }

// chosen reports whether there is something to be walked.
func (w *Walk) chosen() bool {
	return w.what.seam != "" || w.what.next != nil
}

// Hint says what to do next.
func (w *Walk) Hint() string {
	if !w.chosen() {
		if w.what.first != nil {
			return fmt.Sprintf("Now press the edge along which %s of %s is walked, near the end they share.", w.what.first.Edge, w.what.first.Piece)
		}
		return "Press an edge of the seam to be walked, or pick the seam. Of two edges that no seam joins press the one, then the other, each near the end they share."
	}
	wk, err := w.walked()
	if err != nil {
		if w.sewn != "" {
			return fmt.Sprintf("Enter sews the two edges together as %s, Escape abandons.", w.sewn)
		}
		return sentence(err)
	}
	crowded := ""
	if steps := w.Proposal(); len(steps) > 0 {
		res, err := w.try.of(w.table, steps...)
		if err != nil {
			return sentence(err)
		}
		crowded = w.crowded(wk, res)
	}
	c := wk.At(w.s, w.piv)
	told := fmt.Sprintf("%s on %s, %s on %s, %s", unit.MM(c.A), sideLabel(wk, walk.A), unit.MM(c.B), sideLabel(wk, walk.B), differsBy(wk, c))
	if end, _ := wk.End(); end-c.A > pinMeets {
		told += fmt.Sprintf(", %s left to the end", unit.MM(end-c.A))
	}
	kept := w.holdWords(wk)
	if kept != "" && len(w.drops) > 0 {
		told += ". In every size the notch lies " + kept
	}
	switch n := len(w.drops); {
	case w.play.on:
		return told + ". Down stops it."
	case n > 0:
		return told + ". Enter keeps it, Escape abandons, Delete takes the last notch away." + crowded
	case len(w.moves) > 0:
		last := w.moves[len(w.moves)-1]
		return fmt.Sprintf("%s. %s of %s moves here, and in every size to where it meets %s of %s. Enter accepts it, Escape abandons.",
			told, titled(pattern.NotchSaid(last.Name)), last.Piece, pattern.NotchSaid(last.Spot.Notch), last.Spot.Piece)
	case len(w.Proposal()) > 0:
		return told + ". Enter accepts it, Escape abandons."
	}
	does := ". Drag the ring along the seam, N goes on to the next notch, Up lets it roll by itself"
	if o := w.offer(wk); len(o.drops) > 0 {
		does += ", the space bar drops one " + o.words
		if kept != "" {
			does += ", in every size " + kept
		}
	}
	return told + does + "."
}

// Pointer chooses a seam, or rolls the piece along it.
func (w *Walk) Pointer(e Event) {
	if !e.At.Finite() {
		return
	}
	switch e.Act {
	case Hover:
		w.over = Pointing{}
		if !w.chosen() {
			w.over, _ = w.point(e)
		}
	case Press:
		w.press(e)
	case Double:
		if wk, err := w.walked(); w.chosen() && err == nil && len(w.drops) == 0 {
			w.let(wk, w.offer(wk))
		}
	case Drag:
		w.roll(e)
	case Release:
		w.grip = nil
	}
}

func (w *Walk) ask() Ask { return Ask{Kind: OnEdge, Prefer: w.table.Selection().Piece} }

// point finds the edge that a press takes. Where one edge was taken already it
// is best one of another piece: the two may lie on each other.
func (w *Walk) point(e Event) (Pointing, bool) {
	ask := w.ask()
	if w.what.first != nil {
		ask.Not = w.what.first.Piece
		if pt, ok := Point(w.pattern(), e.At, e.Reach, ask); ok {
			return pt, true
		}
		ask.Not = ""
	}
	return Point(w.pattern(), e.At, e.Reach, ask)
}

func (w *Walk) press(e Event) {
	w.drop()
	w.play.on = false
	wk, err := w.walked()
	if w.chosen() && err == nil {
		if w.take(wk, e) || len(w.steps()) > 0 {
			return
		}
	}
	if pt, ok := w.point(e); ok {
		w.choose(pt)
		w.bring(pt)
	}
}

// bring begins the walk at the place that was pressed, which is then held: that
// piece stays where it lies, and the others come to it.
func (w *Walk) bring(pt Pointing) {
	wk, err := w.walked()
	if !w.chosen() || err != nil {
		return
	}
	p := w.eased()
	for _, h := range []walk.Hand{wk.Rolls().Other(), wk.Rolls()} {
		s, on, err := wk.Find(p, h, pt.Spot)
		if !on || err != nil {
			continue
		}
		if h == walk.B {
			s = wk.On(walk.A, s)
		}
		w.to(wk, s)
		c := wk.At(w.s, w.piv)
		m := c.Pose
		if pieces, motions := wk.Laid(); h != wk.Rolls() {
			m = motions[slices.Index(pieces, pt.Piece)]
		} else if c.Rolling != pt.Piece {
			return
		}
		base := m.Inverse().Then(p.Piece(pt.Piece).Pose)
		if base.Mirrors() == p.Piece(wk.Base()).Pose.Mirrors() {
			w.laid, w.grip = &base, &walkGrip{}
		}
		return
	}
}

// take takes hold of the seam or of the rolling piece.
func (w *Walk) take(wk *walk.Walk, e Event) bool {
	base := w.basePose(wk)
	q := base.Inverse().Apply(e.At)
	s := wk.Nearest(q)
	if wk.At(s, 1).Point.Dist(q) <= e.Reach {
		w.grip = &walkGrip{}
		w.roll(e)
		return true
	}
	c := wk.At(w.s, w.piv)
	pc := w.eased().Piece(c.Rolling)
	if pc == nil {
		return false
	}
	if o, err := pc.Outline(); err == nil && o.Contains(c.Pose.Inverse().Apply(q)) {
		w.grip = &walkGrip{ahead: w.s - s}
		return true
	}
	return false
}

// roll brings the contact to where the pointer drags it; it settles at
// notches and corners unless Shift is held.
func (w *Walk) roll(e Event) {
	if w.grip == nil {
		return
	}
	wk, err := w.walked()
	if err != nil {
		w.grip = nil
		return
	}
	s := wk.Nearest(w.basePose(wk).Inverse().Apply(e.At)) + w.grip.ahead
	if !e.Shift {
		for _, st := range wk.Stops() {
			if math.Abs(st.A-s) <= min(e.Reach/2, settles) {
				s = st.A
			}
		}
	}
	w.to(wk, s)
	w.holds = holdNearer
}

// settles is the greatest distance in mm from which a drag settles at a notch.
const settles = 3

// to walks to a length of side A. At a corner the piece lies as it came there.
func (w *Walk) to(wk *walk.Walk, s float64) {
	end, _ := wk.End()
	s = min(max(s, 0), end)
	switch {
	case s > w.s:
		w.piv = 0
	case s < w.s:
		w.piv = 1
	}
	w.s = s
}

// choose takes a seam that an edge is sewn in, of several the one after that
// which was walked; or the edge as one of two of her own.
func (w *Walk) choose(pt Pointing) {
	p := w.pattern()
	w.table.Select(pt.Selection())
	if f := w.what.first; f != nil && (f.Piece != pt.Piece || f.Edge != pt.Edge) {
		part := w.fromNearer(pt)
		w.what.next = &part
		w.start()
		return
	}
	var seams []string
	for _, s := range p.Seams {
		for _, part := range slices.Concat(s.A, s.B) {
			if part.Piece == pt.Piece && part.Edge == pt.Edge && holds(p, part, pt.S) {
				seams = append(seams, s.Name)
				break
			}
		}
	}
	if len(seams) == 0 {
		w.forget()
		part := w.fromNearer(pt)
		w.what.first = &part
		return
	}
	w.takeSeam(seams[(slices.Index(seams, w.what.seam)+1)%len(seams)])
}

func holds(p pattern.Pattern, pt pattern.Part, s float64) bool {
	_, e := p.Edge(pt.Piece, pt.Edge)
	l := e.Length()
	return s >= min(pt.From, pt.To)*l-samePlace && s <= max(pt.From, pt.To)*l+samePlace
}

// fromNearer returns the edge walked from the end nearer to the pointer.
func (w *Walk) fromNearer(pt Pointing) pattern.Part {
	part := pattern.Whole(pt.Piece, pt.Edge)
	if pc, e := w.pattern().Edge(pt.Piece, pt.Edge); e != nil && NearEnd(pc, e, pt.At) == pattern.End {
		part = part.Backwards()
	}
	return part
}

func (w *Walk) takeSeam(name string) {
	w.forget()
	w.what.seam = name
	if s := w.pattern().Seam(name); s != nil && len(s.A) > 0 {
		w.table.Select(Selection{})
	}
	w.start()
}

// start lays both sides at the start of the walk.
func (w *Walk) start() {
	w.s, w.piv, w.play, w.grip, w.laid, w.holds = 0, 1, play{}, nil, nil, holdNearer
}

func (w *Walk) forget() { *w = Walk{base: w.base, page: w.page} }

// Key walks: Left and Right by a step, Next and Previous from stop to stop, Up
// plays and Down stops. Choose drops a notch, Delete takes the last one away.
func (w *Walk) Key(k Key) bool {
	if !w.chosen() {
		return w.keyToSeam(k)
	}
	wk, err := w.walked()
	if err != nil {
		return false
	}
	stops := wk.Stops()
	switch k.Name {
	case Left, Right:
		d, ok := arrow(k)
		if !ok {
			return false
		}
		w.play.on = false
		w.to(wk, w.s+d.X)
		w.holds = holdNearer
	case Up:
		w.setPlay(wk, true)
	case Down:
		w.play.on = false
	case Next, Previous:
		w.play.on = false
		if k.Name == Previous {
			slices.Reverse(stops)
		}
		for _, st := range stops {
			if on := st.A - w.s; on > samePlace && k.Name == Next || on < -samePlace && k.Name == Previous {
				w.to(wk, st.A)
				w.holds = holdNearer
				return true
			}
		}
	case Choose:
		w.play.on = false
		w.let(wk, w.offer(wk))
	case Delete:
		switch d, m := len(w.drops), len(w.moves); {
		case d > 0:
			w.drops = w.drops[:d-1]
		case m > 0:
			w.moves = w.moves[:m-1]
		default:
			return false
		}
	default:
		return false
	}
	return true
}

// keyToSeam goes through the seams; within a piece, through its edges.
func (w *Walk) keyToSeam(k Key) bool {
	chosen, took, used := w.keyed(k, w.ask())
	if took {
		w.choose(chosen)
		if w.chosen() {
			w.walk.Reset()
		}
	}
	return used
}

// Stays reports whether a seam is walked.
func (w *Walk) Stays() bool { return w.chosen() }

// Reset drops what was begun; with nothing to be kept it leaves the seam.
func (w *Walk) Reset() bool {
	walked := w.drop()
	switch {
	case w.play.on:
		w.play.on, w.grip = false, nil
		return true
	case len(w.steps()) > 0:
		sewn := w.sewn
		w.drops, w.moves, w.ease, w.even, w.bound, w.grip, w.sewn = nil, nil, nil, "", nil, nil, ""
		if sewn != "" && w.pattern().Seam(sewn) != nil {
			w.takeSeam(sewn) // they are a seam now
		}
		return true
	}
	was := w.chosen() || w.what.first != nil || w.what.next != nil
	w.forget()
	return was || walked
}
