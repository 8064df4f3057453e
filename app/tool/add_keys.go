package tool

import (
	"math"
	"slices"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// Key walks to an end of an edge, which can still be changed, and adds by the arrows;
// Choose takes the sewn partner when sharing out.
func (a *Add) Key(k Key) bool {
	if a.pulled {
		return false
	}
	onto := a.ends()
	if d, ok := arrow(k); ok && a.figure == "" && len(onto) > 0 {
		if v := a.amount + d.X + d.Y; math.Abs(v) <= mostReach {
			a.amount = math.Round(v*1e6) / 1e6 // steps of a tenth add up
		}
		return true
	}
	if _, walking := a.walk.At(a.pattern()); !walking && k.Name == Choose && a.figure != "" && len(onto) == 1 {
		if with, ok := a.partner(onto[0]); ok {
			a.take(with)
			return true
		}
	}
	next, atEdge := a.next()
	if atEdge && a.turn(k) {
		return true
	}
	_, took, used := a.keyed(k, Ask{Kind: OnEdge})
	switch at, _ := a.walk.At(a.pattern()); {
	case took:
		a.take(next)
	case !atEdge:
		a.far = Pointing{}
	case k.Name == Previous && at.Kind == OnEdge:
		a.far = at
	}
	return used
}

// next is the end that the space bar takes, while keys have gone to an edge.
func (a *Add) next() (step.EdgeEnd, bool) {
	at, ok := a.walk.At(a.pattern())
	if !ok || at.Kind != OnEdge {
		return step.EdgeEnd{}, false
	}
	e := a.meant(at, a.ends())
	if a.turned() {
		e = atOtherEnd(e)
	}
	return e, true
}

// turn lets Next and Previous go over both ends of an edge, first over the one
// that is meant when nothing is said; it reports whether the key was used so.
func (a *Add) turn(k Key) bool {
	at, _ := a.walk.At(a.pattern())
	was := a.turned()
	switch {
	case k.Name == Next && !was:
		a.far = at
		return true
	case k.Name == Previous && was:
		a.far = Pointing{}
		return true
	case k.Name == Next:
		a.far = Pointing{}
	}
	return false
}

// turned reports whether the keys are at the other end of an edge than is meant.
func (a *Add) turned() bool {
	at, ok := a.walk.At(a.pattern())
	return ok && a.far.Kind != 0 && at.same(a.far)
}

func atOtherEnd(e step.EdgeEnd) step.EdgeEnd {
	e.End = otherEnd(e.End)
	return e
}

// meant is the end of an edge chosen by keys: when sharing out the one that is
// sewn to an end chosen before; else the one nearer to a marked place, or that at
// the hem, which taping made shorter, and not that at a fold.
func (a *Add) meant(chosen Pointing, onto []step.EdgeEnd) step.EdgeEnd {
	if a.figure != "" {
		for _, e := range onto {
			if with, ok := a.partner(e); ok && with.Piece == chosen.Piece && with.Edge == chosen.Edge {
				return with
			}
		}
	}
	out := step.EdgeEnd{Piece: chosen.Piece, Edge: chosen.Edge, End: pattern.Start}
	p := a.pattern()
	pc, e := p.Edge(chosen.Piece, chosen.Edge)
	if e == nil {
		return out
	}
	i := pc.EdgeIndex(e.Name)
	before, after := pc.Prev(i), pc.Next(i)
	switch at := a.marked(Ask{Kind: OnEdge, Only: pc.Name}); {
	case at.Edge == e.Name:
		out.End = NearEnd(pc, e, at.At)
	case a.figure != "" && inHem(p, pc, after) && !inHem(p, pc, before), pc.Edges[before].Role == pattern.Fold:
		out.End = pattern.End
	}
	return out
}

// inHem reports whether an edge is part of a hem.
func inHem(p pattern.Pattern, pc *pattern.Piece, i int) bool {
	return slices.ContainsFunc(p.Lines, func(l pattern.Line) bool {
		return l.Kind == pattern.LineHem && slices.ContainsFunc(l.Parts, func(pt pattern.Part) bool {
			return pt.Piece == pc.Name && pt.Edge == pc.Edges[i].Name
		})
	})
}
