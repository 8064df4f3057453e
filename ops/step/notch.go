package step

import (
	"fmt"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/walk"
)

func init() { register("notch", func() Step { return &Notch{} }) }

// NotchAct says what is done with a notch.
type NotchAct string

// What can be done with a notch.
const (
	AddNotch    NotchAct = "add"
	MoveNotch   NotchAct = "move"
	DeleteNotch NotchAct = "delete"
	MakeDouble  NotchAct = "double"
	MakeSingle  NotchAct = "single"
)

var notchActs = []NotchAct{AddNotch, MoveNotch, DeleteNotch, MakeDouble, MakeSingle}

// Notch adds, moves or deletes a notch, or makes it double or single. Where it
// lies is given by an Edge with a distance MM or a Share of the edge's length
// from the end From (both add up), or by a Spot of the piece, at which it is
// then held in mm. With a Seam the Spot, such as a notch, is one of the other
// side of it, across from which the notch comes to lie, ease included.
type Notch struct {
	Act    NotchAct        `json:"act"`
	Piece  string          `json:"piece"`
	Name   string          `json:"name"`
	Edge   string          `json:"edge,omitempty"`
	From   pattern.EndName `json:"from,omitempty"` // start when empty
	MM     Number          `json:"mm,omitzero"`
	Share  Number          `json:"share,omitzero"`
	Spot   *pattern.Spot   `json:"spot,omitempty"`
	Seam   string          `json:"seam,omitempty"`
	Double bool            `json:"double,omitempty"` // of a notch to be added
}

// Kind returns "notch".
func (n *Notch) Kind() string { return "notch" }

// Sentence tells what the step does.
func (n *Notch) Sentence() string { return n.sentence("its " + string(n.from())) }

// SentenceOn is Sentence with the end from which the notch is counted named by
// the edge that is met there.
func (n *Notch) SentenceOn(p pattern.Pattern) string {
	pc := p.Piece(n.Piece)
	if pc == nil {
		return n.Sentence()
	}
	meets := pc.Meets(n.Edge, n.from())
	if meets == "" {
		return n.Sentence()
	}
	return n.sentence("the " + meets)
}

func (n *Notch) from() pattern.EndName {
	if n.From == pattern.End {
		return pattern.End
	}
	return pattern.Start
}

// sentence tells the step, with the end named from which the notch is counted.
func (n *Notch) sentence(end string) string {
	name := pattern.NotchSaid(n.Name)
	switch n.Act {
	case AddNotch:
		if n.Double {
			name = "double " + name
		}
		if n.Spot != nil && n.Seam != "" {
			return sentence(fmt.Sprintf("add %s to %s, across from %s in %s", name, n.Piece, n.partner(), seamWords(n.Seam)))
		}
		if n.Spot != nil {
			return sentence(fmt.Sprintf("add %s to %s at %s", name, n.Piece, placeOn(*n.Spot, n.Piece)))
		}
		return sentence(fmt.Sprintf("add %s to %s of %s, %s", name, n.Edge, n.Piece, n.counted(end)))
	case MoveNotch:
		if n.Spot != nil && n.Seam != "" {
			return sentence(fmt.Sprintf("move %s of %s to lie across from %s in %s", name, n.Piece, n.partner(), seamWords(n.Seam)))
		}
		if n.Spot != nil {
			return sentence(fmt.Sprintf("move %s of %s to %s", name, n.Piece, placeOn(*n.Spot, n.Piece)))
		}
		return sentence(fmt.Sprintf("move %s of %s to %s, %s", name, n.Piece, n.Edge, n.counted(end)))
	case MakeDouble, MakeSingle:
		return sentence(fmt.Sprintf("make %s of %s %s", name, n.Piece, n.Act))
	}
	return sentence(fmt.Sprintf("%s %s of %s", n.Act, name, n.Piece))
}

// partner names what on the other side of the seam the notch lies across from.
func (n *Notch) partner() string {
	if n.Spot.Notch == "" {
		return n.Spot.String()
	}
	return pattern.NotchSaid(n.Spot.Notch) + " of " + n.Spot.Piece
}

// counted tells how far from an end the notch lies.
func (n *Notch) counted(end string) string {
	var parts []string
	if v, one := n.Share.Literal(); !one {
		parts = append(parts, n.Share.String()+" times its length")
	} else if v != 0 {
		parts = append(parts, fmt.Sprintf("%.3g %% of it", 100*v))
	}
	if !isNought(n.MM) {
		parts = append(parts, n.MM.String())
	}
	if v, one := n.Share.Literal(); one && v == 0.5 && len(parts) == 1 {
		return "in its middle"
	}
	if len(parts) == 0 {
		return "at " + end
	}
	return words(parts) + " from " + end
}

// Apply changes the notch. Adding and moving report at_mm, its distance from
// the start of its edge.
func (n *Notch) Apply(in Input) (Output, error) {
	p := in.Pattern.Clone()
	pc, err := pieceIn(p, n.Piece)
	if err != nil {
		return Output{}, err
	}
	if !slices.Contains(notchActs, n.Act) {
		return Output{}, fmt.Errorf("a notch cannot be %q; what can be done is %q", n.Act, notchActs)
	}
	i := slices.IndexFunc(pc.Notches, func(o pattern.Notch) bool { return o.Name == n.Name })
	if err := n.checkFields(pc, i >= 0); err != nil {
		return Output{}, err
	}
	out := Output{Pattern: p}
	switch n.Act {
	case DeleteNotch:
		pc.Notches = slices.Delete(pc.Notches, i, i+1)
		out.Notes = p.Unstretch()
		return out, nil
	case MakeDouble, MakeSingle:
		pc.Notches[i].Double = n.Act == MakeDouble
		return out, nil
	case AddNotch:
		i = len(pc.Notches)
		pc.Notches = append(pc.Notches, pattern.Notch{Name: n.Name, Double: n.Double})
	}
	edge, along, err := n.where(in)
	if err != nil {
		return Output{}, err
	}
	pc.Notches[i].Edge, pc.Notches[i].Along = edge, along
	e := pc.Edge(edge)
	out.Figures = map[string]float64{"at_mm": along.At(e.Length())}
	out.Notes = crowded(pc, pc.Notches[i])
	if e.Allowance == 0 {
		out.Notes = append(out.Notes, fmt.Sprintf("%s of %s has no allowance: mark %s, never snip it.", edge, n.Piece, pattern.NotchSaid(n.Name)))
	}
	if n.Act == MoveNotch {
		out.Notes = append(out.Notes, p.Unstretch()...)
	}
	return out, nil
}

func (n *Notch) checkFields(pc *pattern.Piece, known bool) error {
	placed := n.Edge != "" || n.Spot != nil
	places := n.Act == AddNotch || n.Act == MoveNotch
	switch {
	case n.Name == "":
		return fmt.Errorf("the notch of %s needs a name", n.Piece)
	case n.Act == AddNotch && known:
		return fmt.Errorf("%s already has a notch %q; give the new one another name, or move the old one", n.Piece, n.Name)
	case n.Act != AddNotch && !known:
		names := make([]string, len(pc.Notches))
		for i := range pc.Notches {
			names[i] = pc.Notches[i].Name
		}
		return fmt.Errorf("%s has no notch %q; it has %q", n.Piece, n.Name, names)
	case n.Act != AddNotch && n.Double:
		return fmt.Errorf("\"double\" belongs to a notch that is added; use the act %q", MakeDouble)
	case places && (n.Edge != "") == (n.Spot != nil):
		return fmt.Errorf("say where %s of %s goes: by \"edge\" with \"mm\" or \"share\", or by \"spot\"", pattern.NotchSaid(n.Name), n.Piece)
	case n.Seam != "" && n.Spot == nil:
		return fmt.Errorf("say by \"spot\" across from what on the other side of %s %s of %s is to lie, or leave out \"seam\"", seamWords(n.Seam), pattern.NotchSaid(n.Name), n.Piece)
	case !places && placed:
		return fmt.Errorf("%s of %s: to %q needs no place; leave it out", pattern.NotchSaid(n.Name), n.Piece, n.Act)
	case n.Spot == nil && n.From != "" && n.From != pattern.Start && n.From != pattern.End:
		return fmt.Errorf("a place is held from %q or %q, not %q", pattern.Start, pattern.End, n.From)
	case n.Spot != nil && (n.From != "" || !isNought(n.MM) || !isNought(n.Share)):
		return fmt.Errorf("%s of %s is placed by a spot; leave out \"from\", \"mm\" and \"share\"", pattern.NotchSaid(n.Name), n.Piece)
	}
	return nil
}

// where returns the edge and the place on it.
func (n *Notch) where(in Input) (string, pattern.Along, error) {
	if n.Seam != "" {
		return Across(in.Pattern, n.Seam, n.Piece, *n.Spot)
	}
	if n.Spot != nil {
		if n.Spot.Piece != n.Piece {
			return "", pattern.Along{}, fmt.Errorf("%s is not on %s, which is to carry the notch", n.Spot, n.Piece)
		}
		at, err := in.Pattern.Find(*n.Spot)
		return at.Edge, pattern.Along{MM: at.S}, err
	}
	_, e, err := edgeIn(in.Pattern, n.Piece, n.Edge)
	if err != nil {
		return "", pattern.Along{}, err
	}
	mm, err := n.MM.In(in)
	if err != nil {
		return "", pattern.Along{}, err
	}
	share, err := n.Share.In(in)
	if err != nil {
		return "", pattern.Along{}, err
	}
	along := pattern.Along{From: n.From, MM: mm, Share: share}
	if at := along.At(e.Length()); !(at >= -geom.Coincident && at <= e.Length()+geom.Coincident) {
		return "", pattern.Along{}, fmt.Errorf("%.4g mm from its start lies off %s of %s, which is %.4g mm long; choose a place on it", at, n.Edge, n.Piece, e.Length())
	}
	return n.Edge, along, nil
}

// Across returns the edge of a piece and the place on it that meets a spot of
// the other side when a seam is sewn, ease included.
func Across(p pattern.Pattern, seam, piece string, spot pattern.Spot) (string, pattern.Along, error) {
	wk, err := walk.Seam(p, seam, walk.Way{})
	if err != nil {
		return "", pattern.Along{}, err
	}
	elsewhere := ""
	for _, h := range []walk.Hand{walk.A, walk.B} {
		at, on, err := wk.Find(p, h.Other(), spot)
		if err != nil {
			return "", pattern.Along{}, err
		}
		if !on {
			continue
		}
		met, edge, along, err := wk.Place(p, h, wk.On(h, at))
		if err != nil {
			return "", pattern.Along{}, err
		}
		if met == piece {
			return edge, along, nil
		}
		elsewhere = met
	}
	if elsewhere != "" {
		return "", pattern.Along{}, fmt.Errorf("%s meets %s in %s, not %s, which is to carry the notch", spot, elsewhere, seamWords(seam), piece)
	}
	return "", pattern.Along{}, fmt.Errorf("%s is not sewn in %s; choose a place on the other side of it", spot, seamWords(seam))
}
