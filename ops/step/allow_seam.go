package step

import (
	"fmt"
	"math"
	"slices"

	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// seamSentence tells what the step does to both sides of a seam.
func (a *Allow) seamSentence() string {
	text := fmt.Sprintf("let the allowances of seam %q end on the piece they are pressed to", a.Seam)
	if a.Width != nil {
		text = fmt.Sprintf("make the allowances of seam %q %s and let them end on the piece they are pressed to", a.Seam, a.Width)
	}
	return sentence(text + pressWords(", pressed", a.Press))
}

// applySeam sets both sides of a seam. It reports sticks_out, how far in mm an
// allowance sticks out beyond the cut line of the piece it is pressed to, and
// short, how far one ends before it, at most.
func (a *Allow) applySeam(in Input) (Output, error) {
	switch {
	case a.Seam == "":
		return Output{}, fmt.Errorf("say by \"seam\" which seam is pressed to %q", a.Press)
	case a.Piece != "" || a.Edge != "" || len(a.Edges) > 0 || a.Start != nil || a.End != nil || a.Role != "" || a.Free != nil:
		return Output{}, fmt.Errorf("the step speaks of seam %q and also of single edges; make it two steps", a.Seam)
	case a.Press != "" && !slices.Contains(pattern.Presses, a.Press):
		return Output{}, fmt.Errorf("seam %q cannot be pressed to %q; there are %q", a.Seam, a.Press, pattern.Presses)
	}
	p := in.Pattern.Clone()
	seam := p.Seam(a.Seam)
	if seam == nil {
		return Output{}, fmt.Errorf("there is no seam %q; there are %s", a.Seam, quotedList(seamNames(p)))
	}
	switch {
	case a.Press != "":
		seam.Press = a.Press
	case seam.Press == "":
		seam.Press = pattern.PressedOpen
	}
	if a.Width != nil {
		for _, pt := range slices.Concat(seam.A, seam.B) {
			_, e, err := edgeIn(p, pt.Piece, pt.Edge)
			if err != nil {
				return Output{}, err
			}
			if e.Allowance, err = a.width(in, pt.Edge, pt.Piece); err != nil {
				return Output{}, err
			}
		}
	}
	out := Output{Figures: map[string]float64{"sticks_out": 0, "short": 0}}
	ends := seam.Ends()
	if len(ends) == 0 {
		return Output{}, fmt.Errorf("both ends of seam %q lie inside an edge, where no corner is; split that edge first", a.Seam)
	}
	for _, se := range ends {
		if se.TurnsUp(p) {
			out.Notes = append(out.Notes, fmt.Sprintf("At the %s of %s the edge across %s is turned up as one with the seam; its corner stays as it is.", seamEndWords(p, seam.A, se.At), seamWords(a.Seam), se.Own.Piece))
			continue
		}
		if joint, c, ok := se.Corner(p, seam.Press); ok {
			p.Piece(se.Own.Piece).Edges[joint].Corner = c
		}
	}
	out.Pattern = p.Guided()
	for _, se := range out.Pattern.Seam(a.Seam).Ends() {
		sticks, short, ok := out.Pattern.EndOff(se, seam.Press)
		if !ok {
			continue
		}
		out.Figures["sticks_out"] = math.Max(out.Figures["sticks_out"], sticks)
		out.Figures["short"] = math.Max(out.Figures["short"], short)
		if sticks > toldMove || short > toldMove {
			text := fmt.Sprintf("At the %s of %s the allowance of %s cannot lie on the cut line it is pressed to, since the corner is too blunt or too sharp: it ", seamEndWords(p, seam.A, se.At), seamWords(a.Seam), se.Own.Piece)
			if sticks > short {
				text += fmt.Sprintf("sticks out by %s; trim it after sewing.", unit.MM(sticks))
			} else {
				text += fmt.Sprintf("ends %s before it, which does no harm.", unit.MM(short))
			}
			out.Notes = append(out.Notes, text)
		}
	}
	return out, nil
}
