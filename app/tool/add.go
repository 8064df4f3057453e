package tool

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// Add moves an end of an edge outward, by dragging it or by a typed amount, or
// gives back in parts what taping took.
type Add struct {
	base
	onto   []step.EdgeEnd // one, or when sharing out all that get a part
	amount float64        // mm
	evenly bool
	figure string // the recorded overlap that is shared out
	pulled bool
	from   geom.Point // where it was taken hold of
	before float64    // amount then
	far    Pointing   // the edge at whose other end the keys are
	try    trial
}

// NewAdd returns the tool for a table.
func NewAdd(t Table) Tool { return &Add{base: base{table: t}} }

// Name returns "add".
func (a *Add) Name() string { return "add" }

// Hint says what to do next.
func (a *Add) Hint() string {
	onto := a.ends()
	next, named := a.next()
	switch {
	case a.pulled:
		return "Drag outward to add, inward to take in; with Ctrl it is not rounded to a tenth of a millimetre."
	case named && a.Proposal() == nil && (a.figure == "" || len(onto) == 0):
		text := fmt.Sprintf("The space bar takes the %s, which moves out %s", edgeOf(next), endWords(a.pattern(), next))
		if !a.turned() {
			text += fmt.Sprintf("; N goes to its other end, %s", endWords(a.pattern(), atOtherEnd(next)))
		}
		return text + "."
	case a.figure != "" && len(onto) == 0:
		return fmt.Sprintf("Press the first edge that gets a part of the %s back, near the end where it is to grow.", a.shareLabel(a.figure))
	case a.figure != "" && len(onto) == 1:
		text := "Now press the second edge near its end."
		_, walking := a.walk.At(a.pattern())
		if with, ok := a.partner(onto[0]); ok && named {
			text += fmt.Sprintf(" The %s is sewn there; the space bar takes the %s, %s; Escape leaves that.", edgeOf(with), edgeOf(next), endWords(a.pattern(), next))
		} else if ok && walking {
			text += fmt.Sprintf(" The %s is sewn there; the space bar takes what N is at, Escape leaves that.", edgeOf(with))
		} else if ok {
			text += fmt.Sprintf(" The %s is sewn there: the space bar takes it.", edgeOf(with))
		}
		return text
	case len(onto) == 0:
		text := "Press an edge near the end that is to move, and drag outward."
		if len(a.overlaps()) > 0 {
			text += " What taping took can be shared out: pick it below."
		}
		return text
	case a.Proposal() == nil:
		text := fmt.Sprintf("Drag %s outward %s, or write how much to add.", edgeOf(onto[0]), endWords(a.pattern(), onto[0]))
		if grows := a.grows(onto[0]); grows != "" {
			text += fmt.Sprintf(" The %s grows by it, or with a minus gets shorter.", grows)
		}
		return text
	}
	res, err := a.trial()
	if err != nil {
		return sentence(err)
	}
	text := "Enter adds it, Escape abandons."
	if a.amount < 0 {
		text = "Enter takes it in, Escape abandons."
	}
	if a.figure != "" {
		text = "Enter shares it out, Escape abandons."
	} else if grows := a.grows(onto[0]); grows != "" && !a.evenly {
		way, than := "longer", "out"
		if a.amount < 0 {
			way, than = "shorter", "in"
		}
		text += fmt.Sprintf(" The %s gets %s by %s: the %s moves %s. To alter the %s itself, press the %s.",
			grows, way, unit.MM(math.Abs(a.amount)), onto[0].Edge, than, onto[0].Edge, grows)
	}
	if d := a.differences(res); d != "" {
		return text + " Then " + d + "; level makes them alike."
	}
	if a.figure != "" {
		text += " Press one more edge, or one of these to leave it out."
	}
	return text
}

// ends returns the chosen ends that are still there.
func (a *Add) ends() []step.EdgeEnd {
	p := a.pattern()
	a.onto = slices.DeleteFunc(a.onto, func(e step.EdgeEnd) bool { _, edge := p.Edge(e.Piece, e.Edge); return edge == nil })
	if a.figure != "" && !slices.Contains(a.overlaps(), a.figure) {
		a.figure = ""
	}
	if a.figure == "" && len(a.onto) > 1 {
		a.onto = a.onto[:1]
	}
	if len(a.onto) == 0 {
		a.pulled = false
	}
	return a.onto
}

// grows names the edge that gets longer when an end moves out: the one that it
// meets there, "" when there is none but itself.
func (a *Add) grows(e step.EdgeEnd) string {
	if pc := a.pattern().Piece(e.Piece); pc != nil {
		return pc.Meets(e.Edge, e.End)
	}
	return ""
}

// overlaps returns the recorded figures that can be shared out.
func (a *Add) overlaps() []string {
	return slices.DeleteFunc(slices.Sorted(maps.Keys(a.table.Figures())), func(n string) bool { return !strings.HasSuffix(n, overlapFigure) })
}

// partner returns the end that is sewn to one.
func (a *Add) partner(to step.EdgeEnd) (step.EdgeEnd, bool) {
	for _, s := range a.pattern().Seams {
		for _, pair := range seamEnds(s) {
			switch to {
			case pair[0]:
				return pair[1], true
			case pair[1]:
				return pair[0], true
			}
		}
	}
	return step.EdgeEnd{}, false
}

// outward returns where an end of an edge lies on the mat and the direction in
// which it moves when something is added.
func outward(p pattern.Pattern, e step.EdgeEnd) (at, dir geom.Point, ok bool) {
	pc := p.Piece(e.Piece)
	if pc == nil {
		return at, dir, false
	}
	i := pc.EdgeIndex(e.Edge)
	if i < 0 {
		return at, dir, false
	}
	own, next := &pc.Edges[i], &pc.Edges[pc.Next(i)]
	if e.End == pattern.Start {
		next = &pc.Edges[pc.Prev(i)]
		at, dir = own.Path.Start(), next.Path.TangentBefore(next.Length())
	} else {
		at, dir = own.Path.End(), next.Path.TangentAt(0).Mul(-1)
	}
	return pc.Pose.Apply(at), pc.Pose.Vector(dir), true
}

// Pointer chooses an end and drags it.
func (a *Add) Pointer(e Event) {
	if !e.At.Finite() {
		return
	}
	p := a.pattern()
	onto := a.ends()
	ask := Ask{Kind: OnEdge, Prefer: a.table.Selection().Piece}
	switch e.Act {
	case Hover:
		a.hover(e, ask)
	case Press:
		a.drop()
		if pt, ok := Point(p, e.At, e.Reach, ask); ok {
			pc, edge := p.Edge(pt.Piece, pt.Edge)
			a.take(step.EdgeEnd{Piece: pt.Piece, Edge: pt.Edge, End: NearEnd(pc, edge, e.At)})
			a.hold(e.At)
		} else if at, dir, ok := a.handle(); ok && a.figure == "" && at.Add(dir.Mul(a.amount)).Dist(e.At) <= e.Reach {
			a.hold(e.At)
		}
	case Drag:
		if _, dir, ok := a.handle(); ok && a.pulled && len(onto) > 0 {
			v := a.before + e.At.Sub(a.from).Dot(dir)
			if !e.Ctrl {
				v = math.Round(v*10) / 10
			}
			if math.Abs(v) <= mostReach {
				a.amount = v
			}
		}
	case Release:
		a.pulled = false
	}
}

func (a *Add) hold(at geom.Point) {
	if a.figure == "" {
		a.pulled, a.from, a.before = true, at, a.amount
	}
}

// handle is where the end that is dragged lay, and its direction outward.
func (a *Add) handle() (at, dir geom.Point, ok bool) {
	if onto := a.ends(); len(onto) > 0 {
		return outward(a.pattern(), onto[0])
	}
	return at, dir, false
}

// take takes an end; when sharing out one more, or one that was taken out again.
func (a *Add) take(e step.EdgeEnd) {
	onto := a.ends()
	i := slices.Index(onto, e)
	switch {
	case a.figure == "" && i < 0:
		a.onto, a.amount, a.evenly = []step.EdgeEnd{e}, 0, false
	case a.figure == "":
	case i >= 0:
		a.onto = slices.Delete(slices.Clone(onto), i, i+1)
	default:
		a.onto = append(slices.Clone(onto), e)
	}
	a.table.Select(Selection{Piece: e.Piece, Edge: e.Edge})
	a.walk.Reset()
	a.far = Pointing{}
}

const shareNone = "no"

// overlapFigure ends the names of the figures that taping measures.
const overlapFigure = ".overlap"

// Proposal is the adding, or the sharing out once two edges are chosen.
func (a *Add) Proposal() []step.Step {
	onto := a.ends()
	if a.figure != "" {
		if len(onto) < 2 {
			return nil
		}
		s := &step.ShareOut{Amount: step.Figure(a.figure, 1)}
		for _, e := range onto {
			s.Onto = append(s.Onto, step.Share{EdgeEnd: e})
		}
		return []step.Step{s}
	}
	if len(onto) == 0 || a.amount == 0 {
		return nil
	}
	return []step.Step{&step.Add{EdgeEnd: onto[0], Amount: step.Lit(a.amount), Evenly: a.evenly}}
}

func (a *Add) trial() (step.Result, error) { return a.try.of(a.table, a.Proposal()...) }

// signed writes an amount with its sign.
func signed(mm float64) string {
	if mm > 0 {
		return "+" + unit.MM(mm)
	}
	return unit.MM(mm)
}

// Abandon leaves the walk; else it forgets the ends, and what is shared out once
// no end is chosen.
func (a *Add) Abandon() bool {
	if a.drop() {
		return true
	}
	figure := a.figure
	chosen := len(a.ends()) > 0
	dropped := a.Reset()
	if chosen {
		a.figure = figure
	}
	return dropped
}

// Reset forgets the ends.
func (a *Add) Reset() bool {
	walked := a.drop()
	was := len(a.onto) > 0 || a.figure != ""
	*a = Add{base: a.base}
	return was || walked
}
