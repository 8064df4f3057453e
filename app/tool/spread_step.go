package tool

import (
	"fmt"
	"slices"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// Proposal is the spreading, once it is said by how much.
func (s *Spread) Proposal() []step.Step {
	c, ok := s.cuts()
	if !ok || c.needs != needsNothing || s.by == bySpreadNothing && s.dart == "" {
		return nil
	}
	return []step.Step{s.made(c)}
}

// made is the spreading with what is said so far.
func (s *Spread) made(c cuts) *step.Spread {
	out := &step.Spread{Piece: c.pc.Name}
	apart := s.by == bySpreadAmount && len(s.shares) == len(s.slashes)
	for i, l := range s.slashes {
		sl := step.Slash{From: l.from.Spot}
		if apart {
			n := step.Lit(s.value * s.shareOf(i))
			sl.Amount = &n
		}
		if l.to != nil && s.inside == nil {
			spot := l.to.Spot
			sl.Hinge = &step.Hinge{Spot: &spot}
		}
		out.Slashes = append(out.Slashes, sl)
	}
	if s.inside != nil {
		a, b := pattern.AtEnd(c.pc.Name, c.edge.Name, pattern.Start), pattern.AtEnd(c.pc.Name, c.edge.Name, pattern.End)
		out.Hinge = &step.Hinge{From: &a, To: &b, Along: s.inside.along, Off: s.inside.off}
	}
	switch {
	case s.dart != "":
		out.Close = &step.Closing{Dart: s.dart}
	case s.closing != nil && s.inside != nil:
		at := s.closing.Spot
		out.Close = &step.Closing{At: &at}
	}
	lit := func(v float64) *step.Number {
		n := step.Lit(v)
		return &n
	}
	switch {
	case apart:
	case s.by == bySpreadAmount:
		out.Amount = lit(s.value)
	case s.by == bySpreadDegrees:
		out.Degrees = lit(s.value)
	case s.by == bySpreadLength:
		if out.Until = (&step.ToLength{Edge: c.edge.Name, Seam: s.fits}); s.fits == "" {
			out.Until.Length = lit(s.value)
		}
	}
	if s.leave {
		out.Dart = &step.NewDart{Name: s.dartName(), First: firstLeg, Second: secondLeg}
		if s.shortens() && s.short > 0 {
			out.Dart.Short = lit(s.short)
		}
	}
	if s.fair > 0 {
		out.Fair = lit(s.fair)
		if s.length > 0 && !s.leave {
			out.FairLength = lit(s.length)
		}
	}
	if s.hinge > 0 && s.smoothable() {
		out.HingeReach = lit(s.hinge)
	}
	if s.after {
		share := 1.0
		for _, l := range s.slashes {
			if l.from.Edge == c.edge.Name {
				share = min(share, 1-l.from.S/c.edge.Length())
			}
		}
		hold := pattern.Spot{Piece: c.pc.Name, Edge: c.edge.Name, Along: pattern.Along{From: pattern.End, Share: share / 2}}
		out.Hold = &hold
	}
	return out
}

// shortens reports whether a dart that is left has to stay short of its hinge
// or may: only in the place of a dart that closes entirely it runs to its point.
func (s *Spread) shortens() bool { return s.dart == "" || s.by != bySpreadNothing }

// smoothable reports whether the hinges lie on an edge, not at a corner.
func (s *Spread) smoothable() bool {
	return s.inside == nil && s.dart == "" && slices.ContainsFunc(s.slashes, func(l slashed) bool { return l.to != nil && l.to.Kind != OnJoint })
}

// dartName returns the name of the dart that is left.
func (s *Spread) dartName() string {
	if s.name != "" {
		return s.name
	}
	p := s.pattern()
	name := spreadName
	for i := 2; p.Seam(name) != nil; i++ {
		name = fmt.Sprint(spreadName, " ", i)
	}
	return name
}
