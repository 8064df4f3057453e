package demo

import (
	"fmt"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// Case is a Tern with one fault, for proving that the checks find it.
type Case struct {
	Name string
	// Before is the pattern before its alteration; where the fault came in
	// with the pattern it is the faulty one itself.
	Before pattern.Pattern
	// Sound is the pattern without the fault, altered or not.
	Sound pattern.Pattern
	// Damaged has the fault.
	Damaged pattern.Pattern
	// Check is the id of the one check that comes out worse than on Sound, and
	// Verdict how it comes out at worst.
	Check, Verdict string
}

const (
	broken = "broken"
	look   = "look"
)

// fault is how a case is made.
type fault struct {
	name, check, verdict string
	// from says what is damaged: the Tern as it comes in, the Tern on the way
	// of an alteration, or the Tern in lace.
	from source
	do   func(p *pattern.Pattern) error
}

type source int

const (
	asItCame source = iota
	altered
	inLace
	opened // its bridge unfolded
)

// Damaged returns Terns of a middle size, each with one fault that turns
// exactly one check.
func Damaged() ([]Case, error) {
	run, err := Tern()
	if err != nil {
		return nil, err
	}
	var whole, lace pattern.Pattern
	for _, r := range TernInLace().Replay(run) {
		if r.Size.Label != damagedSize {
			continue
		}
		if u := r.Upset(); u != nil {
			return nil, fmt.Errorf("the Tern in lace, step %s: %s", u.ID, u.Error)
		}
		whole, lace = r.Before, r.Size.Pattern
	}
	var cases []Case
	for _, f := range faults {
		c := Case{Name: f.name, Check: f.check, Verdict: f.verdict, Before: whole, Sound: whole}
		switch f.from {
		case inLace:
			c.Sound = lace
		case opened:
			if c.Sound, err = withWholeBridge(whole); err != nil {
				return nil, err
			}
		}
		c.Damaged = c.Sound.Clone()
		if err := f.do(&c.Damaged); err != nil {
			return nil, fmt.Errorf("the damaged Tern %q: %w", f.name, err)
		}
		if f.from == asItCame {
			c.Before = c.Damaged
		}
		cases = append(cases, c)
	}
	return cases, nil
}

const damagedSize = "75C"

var faults = []fault{
	{"cross seam 1 mm longer on one side", "seam-length", look, asItCame, func(p *pattern.Pattern) error {
		return longer(*p, lowerPiece, "cross seam", 1)
	}},
	{"cross seam 2 mm longer on one side", "seam-length", broken, asItCame, func(p *pattern.Pattern) error {
		return longer(*p, lowerPiece, "cross seam", 2)
	}},
	{"side seam pressed open, its corners cut square", "seam-ends", broken, asItCame, func(p *pattern.Pattern) error {
		p.Seam("side seam").Press = pattern.PressedOpen
		return nil
	}},
	{"notch moved by 2 mm", "seam-notches", broken, asItCame, func(p *pattern.Pattern) error {
		p.Piece(innerPiece).Notch("below apex").MM -= 2
		return nil
	}},
	{"notch single on one side and double on the other", "seam-notches", broken, asItCame, func(p *pattern.Pattern) error {
		p.Piece(innerPiece).Notch("above apex").Double = false
		return nil
	}},
	{"cup 2 mm longer than the wire line", "cup-wire", broken, asItCame, func(p *pattern.Pattern) error {
		p.Piece(upperPiece).Notch("side").MM += 2 // the notches still meet
		return longer(*p, lowerPiece, "wire", 2)
	}},
	{"wire line 2 mm longer, and the cup with it", "wire-length", broken, altered, func(p *pattern.Pattern) error {
		marked(*p, cradlePiece, lowerPiece)
		if err := longer(*p, lowerPiece, "wire", 2); err != nil { // between its notches
			return err
		}
		return edit(*p, cradlePiece, "wire", func(w geom.Path) (geom.Path, error) { return fuller(w, 2) })
	}},
	{"wire line closed by 11 mm, its length kept", "wire-opening", broken, altered, func(p *pattern.Pattern) error {
		marked(*p, cradlePiece)
		return wireClosed(*p, geom.Pt(-12, 6.5))
	}},
	{"wire line 7 mm shallower, its length and ends kept", "wire-depth", look, altered, func(p *pattern.Pattern) error {
		marked(*p, cradlePiece)
		return wireShallower(*p, 7)
	}},
	{"wire line 11 mm shallower, its length and ends kept", "wire-depth", broken, altered, func(p *pattern.Pattern) error {
		marked(*p, cradlePiece)
		return wireShallower(*p, 11)
	}},
	{"wire too long for its line", "wire-play", broken, asItCame, func(p *pattern.Pattern) error {
		p.Figures[pattern.FigureWire] += 8
		return nil
	}},
	{"wire line bends back at the underarm", "wire-inflection", broken, asItCame, wireBentBack},
	{"ease of 3.5 % in the cross seam", "seam-ease", broken, asItCame, eased},
	{"side seam with unequal allowances", "seam-allowance", broken, asItCame, func(p *pattern.Pattern) error {
		p.Piece(cradlePiece).Edge("side seam").Allowance = 10
		return nil
	}},
	{"cross seam forgotten", "partner", broken, asItCame, func(p *pattern.Pattern) error {
		for i, s := range p.Seams {
			if s.Name == "cross seam" {
				p.Seams = append(p.Seams[:i], p.Seams[i+1:]...)
				return nil
			}
		}
		return fmt.Errorf("there is no cross seam")
	}},
	{"corner in the wire line", "line-corner", broken, asItCame, func(p *pattern.Pattern) error {
		return reshape(*p, cradlePiece, "wire", func(h geom.Path) geom.Path { return kinked(h, wireCorner) })
	}},
	{"underarm with unlike allowances across the side seam", "line-allowance", look, asItCame, func(p *pattern.Pattern) error {
		_, top := p.Edge(bandPiece, "top")
		top.Allowance = 12
		return nil
	}},
	{"hem kinked at the side seam", "run-on", broken, asItCame, func(p *pattern.Pattern) error {
		return reshape(*p, bandPiece, "hem", func(h geom.Path) geom.Path { return handled(h, 9, 0) })
	}},
	{"hem not square to the fold", "fold-square", broken, asItCame, func(p *pattern.Pattern) error {
		return reshape(*p, bridgePiece, "hem", func(h geom.Path) geom.Path { return handled(h, 5, 0) })
	}},
	{"band 8 mm longer", "hem-length", broken, altered, func(p *pattern.Pattern) error {
		marked(*p, bandPiece)
		return bandLonger(*p, 8)
	}},
	{"body 5 cm smaller than the band was drafted for", "hem-body", broken, asItCame, func(p *pattern.Pattern) error {
		p.Figures[pattern.FigureUnderbust] -= 50
		return nil
	}},
	{"elastic too wide for the cloth below the wire", "cloth-below-wire", broken, asItCame, func(p *pattern.Pattern) error {
		p.Figures[pattern.FigureElastic] = 25
		return nil
	}},
	{"bridge too narrow for two channellings", "bridge-top", broken, asItCame, bridgeNarrowed},
	{"closure bought 2 mm too low", "closure", broken, asItCame, func(p *pattern.Pattern) error {
		p.Figures[pattern.FigureClosure] = closureHeight - 2
		return nil
	}},
	{"underarm crosses the neckline", "outline", broken, asItCame, func(p *pattern.Pattern) error {
		return reshape(*p, upperPiece, "underarm", func(u geom.Path) geom.Path { return bowed(u, 60) })
	}},
	{"slot in the band too narrow for its allowances", "cut-line", broken, asItCame, func(p *pattern.Pattern) error {
		return slotted(*p, 10, 20)
	}},
	{"edge of 0.6 mm", "short-edge", broken, asItCame, edgeTooShort},
	{"altered without a mark", "mark", look, altered, func(p *pattern.Pattern) error {
		p.Piece(bridgePiece).Edge("top").Allowance = 8
		return nil
	}},
	{"arrow of the band turned by 8 degrees", "arrow", broken, altered, func(p *pattern.Pattern) error {
		a := &p.Piece(bandPiece).Arrow
		a.To = geom.Turn(deg(8), a.From).Apply(a.To)
		return nil
	}},
	{"upper edge of the bridge altered a little on one half only", "halves-alike", look, opened, func(p *pattern.Pattern) error {
		return reshape(*p, bridgePiece, "top other", func(e geom.Path) geom.Path { return bowed(e, 2) })
	}},
	{"upper edge of the bridge altered on one half only", "halves-alike", broken, opened, func(p *pattern.Pattern) error {
		return reshape(*p, bridgePiece, "top other", func(e geom.Path) geom.Path { return bowed(e, 3) })
	}},
	{"lace edge bent by 0.8 mm", "lace-straight", broken, inLace, func(p *pattern.Pattern) error {
		return reshape(*p, bandPiece, "hem", func(h geom.Path) geom.Path { return bowed(h, 0.8) })
	}},
	{"lace edge with an allowance", "lace-allowance", broken, inLace, func(p *pattern.Pattern) error {
		p.Piece(bandPiece).Edge("hem").Allowance = quarterInch
		return nil
	}},
	{"turned-back edge too wide for its hollow curve", "turned-back", broken, inLace, func(p *pattern.Pattern) error {
		return reshape(*p, upperPiece, turnedEdge, func(e geom.Path) geom.Path { return bowed(e, 6) })
	}},
	{"turned-back edge too wide for its round curve", "turned-back-round", broken, inLace, func(p *pattern.Pattern) error {
		return reshape(*p, upperPiece, turnedEdge, func(e geom.Path) geom.Path { return bowed(e, -6) })
	}},
}

// withWholeBridge returns the pattern with its bridge unfolded and marked.
func withWholeBridge(p pattern.Pattern) (pattern.Pattern, error) {
	for _, s := range []step.Step{&step.Unfold{Piece: bridgePiece}, &step.Mark{Piece: bridgePiece, Text: "WHOLE"}} {
		out, err := s.Apply(step.Input{Pattern: p})
		if err != nil {
			return p, fmt.Errorf("the Tern with its bridge unfolded: %w", err)
		}
		p = out.Pattern
	}
	return p, nil
}

// longer makes an edge longer, its ends and the directions there kept.
func longer(p pattern.Pattern, piece, name string, by float64) error {
	return edit(p, piece, name, func(q geom.Path) (geom.Path, error) { return pushed(q, by) })
}

// marked writes on pieces that they are altered.
func marked(p pattern.Pattern, pieces ...string) {
	for _, name := range pieces {
		pc := p.Piece(name)
		pc.Marks = append(pc.Marks, pattern.Mark{Text: laceMark, At: pc.Arrow.From, Height: 12})
	}
}

// wireBentBack turns the wire line outwards at the underarm, its length kept.
func wireBentBack(p *pattern.Pattern) error {
	return edit(*p, cradlePiece, "wire", func(w geom.Path) (geom.Path, error) {
		segs := w.Segments() // from the underarm on
		c, length := segs[0], segs[0].Length()
		bent := func(k float64) geom.Cubic {
			back := geom.Turn(deg(-25), c.P[0]).Apply(c.P[1])
			return geom.Curve(c.P[0], back, c.P[3].Add(c.P[2].Sub(c.P[3]).Mul(k)), c.P[3])
		}
		k, err := solve(0.3, 2, func(k float64) float64 { return bent(k).Length() - length })
		if err != nil {
			return geom.Path{}, err
		}
		segs[0] = bent(k)
		return geom.NewPath(segs...)
	})
}

// wireClosed moves the underarm end of the wire line, its length kept.
func wireClosed(p pattern.Pattern, in geom.Point) error {
	top := p.Piece(cradlePiece).Edge("top")
	t := top.Path.Seg(0)
	top.Path = geom.Must(geom.NewPath(geom.Curve(t.P[0], t.P[1], t.P[2].Add(in), t.P[3].Add(in))))
	return edit(p, cradlePiece, "wire", func(w geom.Path) (geom.Path, error) {
		segs := w.Segments() // from the underarm on
		c := segs[0]
		arm, err := armOfLength(c.Start().Add(in), c.End(), c.Tangent(1), c.Length())
		if err != nil {
			return geom.Path{}, err
		}
		segs[0] = arm
		return geom.NewPath(segs...)
	})
}

// wireShallower lifts the bottom of the wire line, its length, its ends and
// the direction in which it passes the seam of bridge and cradle kept.
func wireShallower(p pattern.Pattern, by float64) error {
	return edit(p, cradlePiece, "wire", func(w geom.Path) (geom.Path, error) {
		segs := w.Segments() // from the underarm on
		side, front := segs[0], segs[1]
		bottom := side.End().Add(geom.Pt(0, by))
		along, at, leave := side.Tangent(1), front.End(), front.Tangent(1)
		meet := bottom.Add(along.Mul(at.Sub(bottom).Cross(leave) / along.Cross(leave)))
		segs[1] = geom.Curve(bottom, bottom.Lerp(meet, 0.6), at.Lerp(meet, 0.6), at)
		arm, err := armOfLength(side.Start(), bottom, along, w.Length()-segs[1].Length())
		if err != nil {
			return geom.Path{}, err
		}
		segs[0] = arm
		return geom.NewPath(segs...)
	})
}

// armOfLength returns the arm of a wire line from its end at the underarm to
// its bottom, where it runs along; its tangents meet so far before the bottom
// that it has that length.
func armOfLength(end, bottom, along geom.Point, length float64) (geom.Cubic, error) {
	arm := func(far float64) geom.Cubic {
		meet := bottom.Sub(along.Mul(far))
		return geom.Curve(end, end.Lerp(meet, 0.6), bottom.Lerp(meet, 0.6), bottom)
	}
	far, err := solve(1, 2*length, func(far float64) float64 { return arm(far).Length() - length })
	if err != nil {
		return geom.Cubic{}, err
	}
	return arm(far), nil
}

// eased makes the upper side of the cross seam longer and says so, with the
// notches where the ease, spread evenly, puts them.
func eased(p *pattern.Pattern) error {
	seam := p.Seam("cross seam")
	seam.Ease = 0.035 * p.Length(seam.B)
	if err := longer(*p, upperPiece, "cross seam", seam.Ease); err != nil {
		return err
	}
	p.Piece(lowerPiece).Notch("cross").MM *= 1 - seam.Ease/p.Length(seam.A)
	return nil
}

// bandLonger moves the closure along the hem.
func bandLonger(p pattern.Pattern, by float64) error {
	back := p.Piece(bandPiece)
	hem := back.Edge("hem").Path
	far := hem.TangentBefore(hem.Length()).Mul(by)
	c := hem.Seg(0)
	t := back.Edge("top").Path.Seg(0)
	back.Edge("hem").Path = geom.Must(geom.NewPath(geom.Curve(c.P[0], c.P[1], c.P[2].Add(far), c.P[3].Add(far))))
	back.Edge("closure").Path = back.Edge("closure").Path.Transform(geom.Shift(far))
	back.Edge("top").Path = geom.Must(geom.NewPath(geom.Curve(t.P[0].Add(far), t.P[1].Add(far), t.P[2], t.P[3])))
	return nil
}

// bridgeNarrowed moves the fold 2 mm towards the wire line.
func bridgeNarrowed(p *pattern.Pattern) error {
	b := p.Piece(bridgePiece)
	in := geom.Pt(2, 0)
	hem, top := b.Edge("hem"), b.Edge("top")
	t := top.Path.Seg(0)
	hem.Path = geom.Must(line(hem.Path.Start().Add(in), hem.Path.End()))
	top.Path = geom.Must(geom.NewPath(geom.Curve(t.P[0], t.P[1], t.P[2].Add(in), t.P[3].Add(in))))
	b.Edge("fold").Path = b.Edge("fold").Path.Transform(geom.Shift(in))
	return nil
}

// edgeTooShort makes the last 0.6 mm of the cup's underarm an edge of its own.
func edgeTooShort(p *pattern.Pattern) error {
	pc := p.Piece(upperPiece)
	i := pc.EdgeIndex("underarm")
	e := pc.Edges[i]
	long, short, err := e.Path.Split(e.Length() - 0.6)
	if err != nil {
		return err
	}
	tip := e
	tip.Name, tip.Path, tip.Corner = "underarm tip", short, pattern.Corner{}
	pc.Edges[i].Path = long
	pc.Edges = slices.Insert(pc.Edges, i+1, tip)
	return nil
}

// slotted cuts a slot of that width and depth into the upper edge of the band.
func slotted(p pattern.Pattern, wide, deep float64) error {
	pc := p.Piece(bandPiece)
	i := pc.EdgeIndex("top")
	top := pc.Edges[i]
	at := 0.4 * top.Length()
	far, rest, err := top.Path.Split(at)
	if err != nil {
		return err
	}
	_, near, err := rest.Split(wide)
	if err != nil {
		return err
	}
	in := near.Start().Sub(far.End()).Unit().Perp().Mul(deep)
	back, front := far.End().Add(in), near.Start().Add(in)
	slot := []pattern.Edge{
		edge("top behind the slot", top.Role, far),
		edge("slot back", top.Role, geom.Must(line(far.End(), back))),
		edge("slot floor", top.Role, geom.Must(line(back, front))),
		edge("slot front", top.Role, geom.Must(line(front, near.Start()))),
	}
	slot[0].Corner = top.Corner
	top.Path, top.Corner = near, pattern.Corner{}
	pc.Edges = slices.Replace(pc.Edges, i, i+1, append(slot, top)...)
	return nil
}
