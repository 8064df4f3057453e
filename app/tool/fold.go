package tool

import (
	"fmt"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// Fold unfolds a half on the fold, folds a symmetric whole, mirrors a piece or
// lines it.
type Fold struct {
	base
	piece string
	do    string // one of the dos, "" is the first that the piece allows
	try   trial

	way   way // the fold from spot to spot
	along string
	keep  string
	slack float64 // mm

	mirror string // one of the mirrorings
	image  string // name of the mirror image

	lining lining
}

// What the tool does.
const (
	doUnfold = "unfold"
	doFold   = "fold"
	doMirror = "mirror"
	doLine   = "line it"
)

// How a piece is mirrored.
const (
	mirrorTurn  = "turn it over"
	mirrorCopy  = "a mirrored copy"
	mirrorApart = "set both hands apart"
)

const (
	betweenSpots = "two spots"
	sewnFree     = "on its own"
	sewnIn       = "into the same seams"
)

// NewFold returns the tool for a table.
func NewFold(t Table) Tool { return &Fold{base: base{table: t}, slack: pattern.SymmetrySlack} }

// Name returns "fold".
func (f *Fold) Name() string { return "fold" }

// chosen returns the piece while it is there.
func (f *Fold) chosen() *pattern.Piece {
	pc := f.pattern().Piece(f.piece)
	if pc == nil && f.piece != "" {
		f.forget()
	}
	return pc
}

func (f *Fold) forget() {
	*f = Fold{base: f.base, slack: f.slack, lining: lining{pull: f.lining.pull, turned: f.lining.turned}}
}

// dos returns what can be done with a piece, the likeliest first.
func dos(pc *pattern.Piece) []string {
	if pc.Fold() != nil {
		return []string{doUnfold, doMirror, doLine}
	}
	if pc.Cut.Pair {
		return []string{doMirror, doLine}
	}
	return []string{doFold, doMirror, doLine}
}

func (f *Fold) doing(pc *pattern.Piece) string {
	if list := dos(pc); !slices.Contains(list, f.do) {
		return list[0]
	}
	return f.do
}

// folding reports whether a fold is being looked for.
func (f *Fold) folding() bool {
	pc := f.chosen()
	return pc != nil && f.doing(pc) == doFold
}

// axes returns what a piece can be folded along.
func axes(pc *pattern.Piece) []string {
	var out []string
	for _, in := range pc.Inner {
		if in.Kind == pattern.OldFold {
			out = append(out, in.Name)
		}
	}
	out = append(out, betweenSpots)
	for _, in := range pc.Inner {
		if in.Kind == pattern.Drawn && in.Path.IsStraight() {
			out = append(out, in.Name)
		}
	}
	return out
}

func (f *Fold) axis(pc *pattern.Piece) string {
	if list := axes(pc); !slices.Contains(list, f.along) {
		return list[0]
	}
	return f.along
}

// Hint says what to do next.
func (f *Fold) Hint() string {
	pc := f.chosen()
	if pc == nil {
		return "Press the piece that is to be folded, unfolded, mirrored or lined."
	}
	steps := f.Proposal()
	if len(steps) == 0 {
		return fmt.Sprintf("Press two spots of %s between which it is folded, or pick an inner line. If it is half a piece already, press its straight edge with the hand and make its role the fold.", pc.Name)
	}
	if off, edge, ok := f.deviation(steps[0]); ok && off > f.slack {
		return fmt.Sprintf("The halves of %s are up to %s apart, at %s; that is more than %s.", pc.Name, unit.MM(off), edge, unit.MM(f.slack))
	}
	res, err := f.try.of(f.table, steps...)
	if err != nil {
		return sentence(err)
	}
	switch f.doing(pc) {
	case doUnfold:
		return fmt.Sprintf("Enter unfolds %s to the whole piece; up and down choose mirror or lining.", pc.Name)
	case doFold:
		return fmt.Sprintf("The halves lie on each other within %s; Enter folds %s and keeps the marked half.", unit.MM(figure(res, "greatest_deviation")), pc.Name)
	case doMirror:
		switch f.mirroring(pc) {
		case mirrorCopy:
			return fmt.Sprintf("Enter lays %q beside %s, its mirror image.", f.imageName(pc), pc.Name)
		case mirrorApart:
			return fmt.Sprintf("Enter sets the hands of %s apart; %q can then be altered on its own.", pc.Name, f.imageName(pc))
		}
		return fmt.Sprintf("Enter turns %s over to its other hand; its seams go with it.", pc.Name)
	}
	return f.liningHint(pc)
}

// deviation returns by how much the halves of a fold miss each other.
func (f *Fold) deviation(s step.Step) (mm float64, edge string, ok bool) {
	fold, ok := s.(*step.Fold)
	if !ok {
		return 0, "", false
	}
	mm, edge, err := fold.Deviation(step.Input{Pattern: f.pattern(), Size: f.table.Size(), Figures: f.table.Figures()})
	return mm, edge, err == nil
}

// Pointer chooses a piece; while a fold is looked for, spots of its outline.
func (f *Fold) Pointer(e Event) {
	ask := Ask{Kind: OnPiece, Prefer: f.table.Selection().Piece}
	onSpots := false
	if pc := f.chosen(); pc != nil && f.folding() && f.axis(pc) == betweenSpots {
		_, onSpots = Point(f.pattern(), e.At, e.Reach, Ask{Kind: OnSpot, Only: f.piece})
		onSpots = onSpots || f.way.pulled != pullNone
	}
	switch {
	case e.Act == Hover && !onSpots:
		f.hover(e, ask)
	case onSpots || e.Act == Drag || e.Act == Release:
		if f.folding() {
			f.way.pointer(&f.base, e)
			f.dropElsewhere()
		}
	case e.Act == Press:
		f.drop()
		if f.pressLined(e) {
			return
		}
		if pt, ok := Point(f.pattern(), e.At, e.Reach, ask); ok && pt.Piece != f.piece {
			f.take(pt)
		}
	}
}

// dropElsewhere forgets a way that has come to another piece.
func (f *Fold) dropElsewhere() {
	if from, _ := f.way.ends(f.pattern()); from != nil && from.Piece != f.piece {
		f.way = way{}
	}
}

func (f *Fold) take(pt Pointing) {
	do := f.do
	f.forget()
	f.piece, f.do = pt.Piece, do
	f.table.Select(Selection{Piece: pt.Piece})
	f.walk = Finger{}
}

// Key walks the pieces, and the spots of the one to be folded; up and down
// choose what is done, left and right an edge of the one to be lined.
func (f *Fold) Key(k Key) bool {
	pc := f.chosen()
	if pc != nil && (k.Name == Up || k.Name == Down) {
		list := dos(pc)
		i := slices.Index(list, f.doing(pc))
		if k.Name == Up {
			i += len(list) - 1
		} else {
			i++
		}
		f.do = list[i%len(list)]
		f.walk = Finger{}
		return true
	}
	if pc != nil && f.doing(pc) == doLine && (k.Name == Left || k.Name == Right) {
		return f.nextLined(pc, k.Name == Right)
	}
	if pc != nil && f.folding() && f.axis(pc) == betweenSpots {
		if !f.walk.inside {
			f.walk = f.inside()
		}
		used := f.way.key(&f.base, k)
		f.dropElsewhere()
		return used
	}
	chosen, took, used := f.keyed(k, Ask{Kind: OnPiece})
	if took {
		f.take(chosen)
		if f.folding() && f.axis(f.chosen()) == betweenSpots {
			f.walk = f.inside()
		}
	}
	return used
}

// inside is a walk along the outline of the chosen piece.
func (f *Fold) inside() Finger {
	return Finger{at: Pointing{Kind: OnPiece, Piece: f.piece}, inside: true}
}

func (f *Fold) mirroring(pc *pattern.Piece) string {
	if !slices.Contains(mirrorings(pc), f.mirror) {
		return mirrorTurn
	}
	return f.mirror
}

func mirrorings(pc *pattern.Piece) []string {
	if pc.Cut.Pair {
		return []string{mirrorTurn, mirrorApart, mirrorCopy}
	}
	return []string{mirrorTurn, mirrorCopy}
}

func (f *Fold) imageName(pc *pattern.Piece) string {
	switch {
	case f.image != "":
		return f.image
	case f.mirroring(pc) == mirrorApart:
		return freePiece(f.pattern(), pc.Name+" right")
	}
	return freePiece(f.pattern(), pc.Name+" mirrored")
}

// herRight is what stands behind the names on the other half or hand of a
// piece: pieces are kept as they lie on the wearer's left.
const herRight = "her right"

// freePiece returns a name that no piece has.
func freePiece(p pattern.Pattern, name string) string {
	free := name
	for n := 2; p.Piece(free) != nil; n++ {
		free = fmt.Sprintf("%s %d", name, n)
	}
	return free
}

// Proposal is what is done with the piece.
func (f *Fold) Proposal() []step.Step {
	pc := f.chosen()
	if pc == nil {
		return nil
	}
	switch f.doing(pc) {
	case doUnfold:
		return []step.Step{&step.Unfold{Piece: pc.Name, Other: herRight}}
	case doFold:
		out := &step.Fold{Piece: pc.Name, Keep: f.keep}
		if f.slack != pattern.SymmetrySlack {
			t := step.Lit(f.slack)
			out.Tolerance = &t
		}
		if out.Along = f.axis(pc); out.Along == betweenSpots {
			from, to := f.way.ends(f.pattern())
			if to == nil {
				return nil
			}
			a, b := from.Spot, to.Spot
			out.Along, out.From, out.To = "", &a, &b
		}
		return []step.Step{out}
	case doMirror:
		out := &step.Mirror{Piece: pc.Name}
		if m := f.mirroring(pc); m != mirrorTurn {
			if out.Name, out.Apart = f.imageName(pc), m == mirrorApart; out.Apart {
				out.Other = herRight
			}
		}
		return []step.Step{out}
	}
	return []step.Step{f.lineIt(pc)}
}

// Overlay shows the piece, what will be, and how far the halves of a fold miss
// each other.
func (f *Fold) Overlay() Overlay {
	var o Overlay
	f.pointed(&o)
	pc := f.chosen()
	if pc == nil {
		return o
	}
	p := f.pattern()
	steps := f.Proposal()
	if f.doing(pc) != doFold || len(steps) == 0 {
		o.Show(p, Pointing{Kind: OnPiece, Piece: pc.Name}, Chosen)
	}
	if f.folding() && f.axis(pc) == betweenSpots {
		f.way.show(&f.base, &o)
	}
	if len(steps) == 0 {
		return o
	}
	res, err := f.try.of(f.table, steps...)
	if fold, ok := steps[0].(*step.Fold); ok {
		f.showHalves(&o, pc, fold, err == nil)
	}
	switch {
	case err != nil:
	case f.doing(pc) == doFold:
		o.Show(res.Size.Pattern, Pointing{Kind: OnPiece, Piece: pc.Name}, Chosen) // the half kept
	default:
		o.altered(p, res.Size.Pattern, Good, anyPiece)
		if f.doing(pc) == doLine {
			f.showLining(&o, pc, res)
		}
	}
	return o
}

// showHalves shows a fold and the mirror image of the piece about it.
func (f *Fold) showHalves(o *Overlay, pc *pattern.Piece, fold *step.Fold, fits bool) {
	off, _, ok := f.deviation(fold)
	a, b, err := fold.Axis(step.Input{Pattern: f.pattern(), Size: f.table.Size(), Figures: f.table.Figures()})
	if !ok || err != nil {
		return
	}
	style := Good
	if !fits {
		style = Poor
	}
	if line, err := geom.Polyline(pc.Pose.Apply(a), pc.Pose.Apply(b)); err == nil {
		o.Strokes = append(o.Strokes, Stroke{line, style})
	}
	if over, err := geom.Mirror(a, b); err == nil {
		if out, err := pc.Outline(); err == nil {
			o.Strokes = append(o.Strokes, Stroke{out.Transform(over).Transform(pc.Pose), Guide})
		}
	}
	o.Notes = append(o.Notes, Note{pc.Pose.Apply(a.Lerp(b, 0.5)), "halves within " + unit.MM(off)})
}

// Reset forgets the axis, then the piece.
func (f *Fold) Reset() bool {
	walked := f.drop()
	pc := f.chosen()
	if from, _ := f.way.ends(f.pattern()); from != nil {
		f.way = way{}
		return true
	}
	f.forget()
	return pc != nil || walked
}
