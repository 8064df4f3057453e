package window

import (
	"context"
	"fmt"
	"slices"

	"fyne.io/fyne/v2/container"
	"truemat/geom"
	"truemat/ops/intake"
	"truemat/ops/unit"
)

// What the outer line of a piece can be, in the order of intake.Drawn. The first
// word tells what it is taken for, and why, once the drawing was read.
var outerWords = []string{"as the drawing says", "the sew line", "the cut line"}

// What stands in place of the first of them where the drawing does not say.
const (
	sewByText  = "the sew line, as the text says"
	cutByText  = "the cut line, as the text says"
	sewByGuess = "the sew line: nothing is said"
)

// brought is a drawing that was read, and where nothing says what its outer lines
// are, also read with these for cut lines.
type brought struct {
	intake.Result
	cut *intake.Result
}

// readBoth reads a drawing; an allowance that was typed does not change what its
// outer lines are.
func readBoth(ctx context.Context, path, companion string, opt intake.Options) (brought, error) {
	res, err := read(ctx, path, companion, opt)
	b := brought{Result: res}
	if err == nil && opt.Allowance > 0 && opt.Drawn == intake.AsSaid && !b.says() {
		opt.Drawn = intake.CutLine
		if cut, err := read(ctx, path, companion, opt); err == nil {
			b.cut = &cut
		}
	}
	return b, err
}

// says reports whether the drawing or its text file says what the outer lines are.
func (b *brought) says() bool { return b.Stated || b.told() }

// told reports whether the drawing itself says it.
func (b *brought) told() bool {
	return slices.ContainsFunc(b.Pieces, func(p intake.Brought) bool { return p.Told })
}

// isCut reports whether the outer lines were taken for cut lines.
func (b *brought) isCut() bool {
	return slices.ContainsFunc(b.Pieces, func(p intake.Brought) bool { return p.Drawn })
}

// newOuter is the choice of what the outer line is, as wide as all that it tells.
func (b *bringing) newOuter() *choice {
	c := newChoice(append([]string{sewByText, cutByText, sewByGuess}, outerWords...), outerWords[b.outer], func(string) {
		b.outer = intake.Drawn(b.which.SelectedIndex())
		b.look()
	})
	c.Options = slices.Clone(outerWords)
	c.tell = b.w.prompt.explain
	return c
}

// tellOuter shows in the choice what the outer line is taken for and why, and
// asks where nothing says it and an allowance was typed.
func (b *bringing) tellOuter() {
	first := outerWords[0]
	switch {
	case b.res.told():
	case !b.res.Stated:
		first = sewByGuess
	case b.outer == intake.AsSaid && b.res.isCut():
		first = cutByText
	case b.outer == intake.AsSaid:
		first = sewByText
	}
	b.which.Options[0] = first
	b.which.set(b.which.Options[b.outer])
	b.ask.RemoveAll()
	if b.outer == intake.AsSaid && b.res.cut != nil {
		b.ask.Add(para(b.question(), b.across, normal, true, b.w.palette.Look))
		b.ask.Add(container.New(line{gap: 8}, b.w.button("It is the sew line", false, func() { b.isLine(intake.SewLine) }), b.w.button("It is the cut line", false, func() { b.isLine(intake.CutLine) })))
	}
	b.ask.Refresh()
	b.sheet.fit()
}

// isLine says what the outer line is.
func (b *bringing) isLine(d intake.Drawn) {
	b.outer = d
	b.which.set(outerWords[d])
	b.w.win.Canvas().Focus(b.which)
	b.look()
}

// question asks what the outer line is, with how large the first piece is sewn
// and cut by each answer.
func (b *bringing) question() string {
	sew, cut := &b.res.Run.Sizes[0].Pattern.Pieces[0], &b.res.cut.Run.Sizes[0].Pattern.Pieces[0]
	drawn := b.large(sew.Outline())
	return fmt.Sprintf("Nothing says which line was drawn outermost; until you do, it is taken for the sew line. The sew line: %s is sewn %s as drawn, cut %s. The cut line: cut %s as drawn, sewn %s.",
		sew.Name, drawn, b.large(sew.CutLine()), drawn, b.large(cut.Outline()))
}

// large tells how wide and high an outline is.
func (b *bringing) large(o geom.Path, err error) string {
	if err != nil {
		return "not known"
	}
	box := o.Bounds()
	return unit.Restate(unit.MM(box.Width())+" × "+unit.MM(box.Height()), b.w.unit)
}

// farOff tells how far the drawn cut line of a piece is from that which its
// allowances make.
func (b *bringing) farOff(p intake.Brought) string {
	switch {
	case !p.Drawn:
		return ""
	case p.CutError < 0.0005:
		return "; the cut line that its allowances give is the drawn one"
	}
	s := "; the cut line that its allowances give lies at most " + unit.Tell(p.CutError, b.w.unit) + " from the drawn one"
	if b.marks(p) {
		s += ", at the ring in the picture"
	}
	return s
}

// marks reports whether the place where a drawn cut line is farthest from that
// which its allowances make is marked in the picture.
func (b *bringing) marks(p intake.Brought) bool {
	return p.Drawn && p.CutError > toldLonger && p.Size == b.res.Run.Sizes[0].Label
}

// rings are the places on the mat that are marked.
func (b *bringing) rings() (at []geom.Point) {
	for _, p := range b.res.Pieces {
		if b.marks(p) {
			at = append(at, p.Apart.Sub(b.res.Origin))
		}
	}
	return at
}
