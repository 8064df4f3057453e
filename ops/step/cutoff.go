package step

import (
	"fmt"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
)

func init() { register("cut-off", func() Step { return &CutOff{} }) }

// CutOff trims a piece from a spot to a spot along a straight line, a curve
// that bulges outward (above 0) or is hollow (below 0), or a free curve, and
// takes away what lies on the other side of the kept one. Where an edge remains
// on both sides of the new one, the later part is called "<edge> after <new
// edge>". A line that leaves the piece on its way is refused.
//
// A seam that lost part of a side is shortened: its partner is walked from
// the end they still share, split where what remains ends, the ease taken in
// proportion, and marked there with a notch; the partner's rest becomes an
// edge of its own, turned back unless another role is given. A seam cut on both
// sides (a dart) is sewn as far as the shorter one reaches. A line that lost
// exactly one whole edge runs on over the new edge, and is divided where a seam
// across it was shortened. Inner lines are cut at
// the new edge, and an arrow that would not lie clear on the piece moves on it.
//
// Figures: trimmed, the paper taken away in mm²; length of the new edge in
// mm; rest.<seam>, the length of the partner that is no longer sewn, in mm.
type CutOff struct {
	Piece string       `json:"piece"`
	From  pattern.Spot `json:"from"`
	To    pattern.Spot `json:"to"`
	// Keep is the side kept, left or right of the way from From to To; or Kept
	// is a spot on the outline that stays.
	Keep string        `json:"keep,omitempty"`
	Kept *pattern.Spot `json:"kept,omitempty"`
	// Bulge is how far in mm the middle of the cut lies outside (above 0) or
	// inside the straight line, seen from what is kept; the cut is a parabola.
	Bulge *Number      `json:"bulge,omitempty"`
	Curve *Curve       `json:"curve,omitempty"` // instead of a bulge
	Name  string       `json:"name"`            // of the new edge
	Role  pattern.Role `json:"role"`
	// Allowance of the new edge. When not given it is that of the first edge
	// cut away, and none on a lace edge.
	Allowance *Number `json:"allowance,omitempty"`
	Partner   Partner `json:"partner,omitzero"`
}

// Partner says what becomes of the edges that were sewn to what is cut away.
type Partner struct {
	// Rest names the edge that is no longer sewn; "<edge> rest" when empty.
	Rest string       `json:"rest,omitempty"`
	Role pattern.Role `json:"role,omitempty"` // of the rest; turned-back when empty
	// Notch names the notch where the sewing ends; "<new edge> end" when empty.
	// Where several seams end, those after the first add their seam's name.
	Notch string `json:"notch,omitempty"`
	// KeepNotches leaves the notches of the partner that match nothing any more.
	KeepNotches bool `json:"keep_notches,omitempty"`
	// Line names what a line that ran on over the seam is beyond its end;
	// "<line> rest" when empty.
	Line string `json:"line,omitempty"`
}

// Kind returns "cut-off".
func (c *CutOff) Kind() string { return "cut-off" }

// Sentence tells in plain words what the step does.
func (c *CutOff) Sentence() string {
	keep := "what lies " + c.Keep + " of that way"
	if c.Kept != nil {
		keep = spotOn(*c.Kept, c.Piece).String()
	}
	return fmt.Sprintf("Cut %s %s from %s to %s, keeping %s; the new edge is %s (%s).",
		c.Piece, c.line().how(), spotOn(c.From, c.Piece), spotOn(c.To, c.Piece), keep, c.Name, c.Role.Word())
}

// Apply cuts.
func (c *CutOff) Apply(in Input) (Output, error) {
	if c.Name == "" || c.Role == "" {
		return Output{}, fmt.Errorf("the new edge of %s needs a name and a role", c.Piece)
	}
	r := newRedraw(in.Pattern)
	o, err := r.piece(c.Piece)
	if err != nil {
		return Output{}, err
	}
	off, err := c.cut(in, o)
	if err != nil {
		return Output{}, err
	}
	made, _ := o.index(c.Name)
	length := o.runs[made].edge.Length()
	shorts, err := c.shortenSeams(r, o)
	if err != nil {
		return Output{}, err
	}
	line, part, relay := c.lostLine(o)
	if relay {
		r.old = withoutPart(in.Pattern, line, part)
	}
	next, m, done, err := r.finish()
	if err != nil {
		return Output{}, err
	}
	out := Output{Pattern: next, Map: m, Figures: map[string]float64{"trimmed": off.Area(), "length": length}, Notes: done.Notes}
	for _, s := range shorts {
		if err := s.settle(&out); err != nil {
			return Output{}, err
		}
	}
	if relay {
		if err := c.runOn(in.Pattern, line, part, &out); err != nil {
			return Output{}, err
		}
		c.divideLine(&out, in.Pattern.Lines[line].Name, shorts)
	}
	pc := out.Pattern.Piece(c.Piece)
	out.Notes = append(out.Notes, trimDrawn(pc, c.Name, off)...)
	out.Notes = append(out.Notes, placeArrow(pc, in.Pattern.Piece(c.Piece), c.Name)...)
	out.Notes = append(out.Notes, pointAtFold(pc, c.Name)...)
	reportSeams(in.Pattern, out.Pattern, &out)
	return out, nil
}

func (c *CutOff) line() cutLine {
	return cutLine{piece: c.Piece, from: c.From, to: c.To, bulge: c.Bulge, curve: c.Curve}
}

// cut replaces the run that is taken away by the new edge and returns the
// outline of the paper that goes.
func (c *CutOff) cut(in Input, o *outline) (geom.Path, error) {
	i, n, err := o.ends(c.From, c.To)
	if err != nil {
		return geom.Path{}, err
	}
	right, err := c.keepsRight(o, i, n)
	if err != nil {
		return geom.Path{}, err
	}
	if right {
		// The piece runs on from From to To; the way back is cut away.
		i, n = (i+n)%len(o.runs), len(o.runs)-n
	}
	was, _, err := o.span(i, n)
	if err != nil {
		return geom.Path{}, err
	}
	e := pattern.Edge{Name: c.Name, Role: c.Role, Allowance: o.runs[i].edge.Allowance}
	if c.Role == pattern.LaceEdge || c.Role == pattern.Fold {
		e.Allowance = 0
	}
	if err := dress(&e, in, c.Role, c.Allowance); err != nil {
		return geom.Path{}, err
	}
	if e.Path, err = c.line().lead(in, o, i, n, right); err != nil {
		return geom.Path{}, err
	}
	off, err := geom.NewClosed(append(was.Segments(), e.Path.Reverse().Segments()...)...)
	if err != nil || !(off.Area() > leastPaper) {
		return geom.Path{}, fmt.Errorf("%s takes no paper off %s; there is nothing to cut off: choose other spots", c.line(), c.Piece)
	}
	e.Corner = cornerBefore(o.runs[i].edge.Corner)
	next := &o.runs[(i+n)%len(o.runs)].edge
	next.Corner = cornerAfter(next.Corner)
	o.nameRests(o.replace(i, n, e, nil))
	return off, nil
}

// keepsRight reports whether the run of n edges from i on, which lies right
// of the way from From to To, is kept.
func (c *CutOff) keepsRight(o *outline, i, n int) (bool, error) {
	if c.Kept == nil {
		switch c.Keep {
		case "left":
			return false, nil
		case "right":
			return true, nil
		}
		return false, fmt.Errorf(`say which side of the cut on %s is kept: "left" or "right" of the way from the first spot to the second, or a spot by "kept"`, c.Piece)
	}
	if c.Keep != "" {
		return false, fmt.Errorf(`give the kept side of %s by "keep" or by "kept", not by both`, c.Piece)
	}
	at, err := o.find(*c.Kept)
	if err != nil {
		return false, err
	}
	j, s, err := o.locate(at.Edge, at.S)
	if err != nil {
		return false, err
	}
	k := (j - i + len(o.runs)) % len(o.runs)
	if onStart := s <= placeSlack; onStart && (k == 0 || k == n) || s >= o.runs[j].edge.Length()-placeSlack && (k == n-1 || k == len(o.runs)-1) {
		return false, fmt.Errorf("%s, which is to be kept, lies at an end of the cut; name a spot on one side of it", spotOn(*c.Kept, c.Piece))
	}
	return k < n, nil
}

// lostLine returns the line and the part of it that is a whole edge cut away,
// when there is exactly one.
func (c *CutOff) lostLine(o *outline) (line, part int, ok bool) {
	found := 0
	for i, l := range o.all.Lines {
		for j, pt := range l.Parts {
			if pt.Piece == c.Piece && o.gone(pt.Edge) {
				line, part = i, j
				found++
			}
		}
	}
	return line, part, found == 1
}

// runOn puts the new edge into the line in the place of the part that was cut away.
func (c *CutOff) runOn(old pattern.Pattern, line, part int, out *Output) error {
	l := old.Lines[line]
	made := pattern.Whole(c.Piece, c.Name)
	if made.Mirrored = l.Parts[part].Mirrored; l.Parts[part].From > l.Parts[part].To {
		made = made.Backwards()
	}
	if now := out.Pattern.Line(l.Name); now != nil {
		// Carrying the parts in front of it alone tells where it belongs.
		front := old.Clone()
		front.Seams, front.Lines = nil, nil
		if part > 0 {
			front.Lines = []pattern.Line{{Name: l.Name, Kind: l.Kind, Parts: l.Parts[:part]}}
		}
		carried, _, err := pattern.Carry(front, out.Pattern, out.Map)
		if err != nil {
			return err
		}
		at := 0
		if f := carried.Line(l.Name); f != nil {
			at = min(len(f.Parts), len(now.Parts))
		}
		now.Parts = slices.Insert(now.Parts, at, made)
	} else {
		l.Parts = []pattern.Part{made}
		out.Pattern.Lines = slices.Insert(out.Pattern.Lines, min(line, len(out.Pattern.Lines)), l)
	}
	if was := l.Parts[part]; was.Piece != c.Piece || was.Edge != c.Name {
		out.Notes = append(out.Notes, fmt.Sprintf("The line %q, once sewn, now runs along %s of %s.", l.Name, c.Name, c.Piece))
	}
	return nil
}

// withoutPart returns the pattern whose line lacks one part, or that lacks
// the line when it has no other.
func withoutPart(p pattern.Pattern, line, part int) pattern.Pattern {
	p = p.Clone()
	l := &p.Lines[line]
	if l.Parts = slices.Delete(l.Parts, part, part+1); len(l.Parts) == 0 {
		p.Lines = slices.Delete(p.Lines, line, line+1)
	}
	return p
}
