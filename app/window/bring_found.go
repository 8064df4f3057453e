package window

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"truemat/ops/intake"
	"truemat/ops/unit"
)

// taken says in a sentence what the outer lines are taken for.
func (b *bringing) taken() string {
	cut := slices.ContainsFunc(b.res.Pieces, func(p intake.Brought) bool { return p.Drawn })
	told := slices.ContainsFunc(b.res.Pieces, func(p intake.Brought) bool { return p.Told })
	nothing := " Of an edge of which nothing is said it is guessed that it is a seam whose partner is not known yet; press it in the picture and say what it is."
	if b.companion != "" {
		nothing = ""
	}
	switch {
	case told:
		return "The drawing says itself which lines are sew lines, what their allowances are and how the pieces are sewn."
	case cut && b.allowance == "":
		return "The outer lines are taken for cut lines; the sew lines lie inside them by the allowances of the text file."
	case cut:
		return "The outer lines are taken for cut lines; the sew lines lie " + b.wide() + " inside them." + nothing
	case b.allowance != "":
		return "The outer lines are taken for sew lines; the cut lines lie " + b.wide() + " outside them." + nothing
	}
	return "The outer lines are taken for sew lines, without an allowance unless a text file states one." + nothing
}

// wide is the allowance as it was understood.
func (b *bringing) wide() string {
	mm, err := b.w.read(b.allowance)
	if err != nil {
		return b.allowance
	}
	return unit.Format(mm, b.w.unit)
}

// offerCut says of pieces with a second line inside their outline that the
// outer one may be the cut line, and offers to take it so.
func (b *bringing) offerCut() {
	var names []string
	var far []float64
	for _, p := range b.res.Pieces {
		if p.Inside > 0 && !p.Drawn && !slices.Contains(names, p.Piece) {
			names, far = append(names, p.Piece), append(far, p.Inside)
		}
	}
	if len(names) == 0 {
		return
	}
	slices.Sort(far)
	width := unit.Format(far[len(far)/2], b.w.unit)
	b.found.Add(para(fmt.Sprintf("A second line runs some %s inside the outline of %s. The outer line is likely the cut line there, and this its allowance.", width, strings.Join(names, ", ")), foundWide, normal, true, b.w.palette.Look))
	b.found.Add(b.w.button("The outer line is the cut line, "+width, false, func() {
		b.outer, b.allowance = intake.CutLine, width
		b.which.set(outerWords[b.outer])
		b.width.set(width)
		b.look()
	}))
}

// room is what the window leaves to the drawing of what was found.
func (b *bringing) room() fyne.Size {
	window := b.w.win.Canvas().Size()
	return fyne.NewSize(min(max(window.Width-foundWide-scrollBar-110, 320), 1100), min(max(window.Height-430, 220), 760))
}

// layFound draws what was found, with the keys where they were.
func (b *bringing) layFound() {
	told := slices.ContainsFunc(b.res.Pieces, func(p intake.Brought) bool { return p.Told })
	had, was := b.board != nil && b.w.win.Canvas().Focused() == fyne.Focusable(b.board), b.board
	b.board = newFoundBoard(b.w, b.res.Run.Sizes[0].Pattern, b.room(), told)
	b.board.tell, b.board.change, b.board.choose, b.board.guess = b.hint, b.divide, b.row.show, b.guessed
	b.shown.RemoveAll()
	b.shown.Add(b.board)
	b.shown.Refresh()
	if had {
		b.w.win.Canvas().Focus(b.board)
	}
	b.board.chosen = foundPlace{noJoint, noJoint, 0}
	if len(b.board.pieces) > 0 {
		pc := &b.board.pieces[0]
		b.board.chosen = foundPlace{0, noJoint, pc.Edges[0].Length() / 2}
	}
	if was != nil && was.chosen.piece >= 0 && was.chosen.piece < len(b.board.pieces) {
		pc := &b.board.pieces[was.chosen.piece]
		b.board.chosen = b.board.near(b.board.position(pc.outline.At(pc.outline.Nearest(was.pieces[was.chosen.piece].outline.At(was.chosen.s)).S)))
	}
	b.row.show()
	b.hint(b.board.says())
}

// hint says beneath the drawing what a press on it does.
func (b *bringing) hint(s string) {
	b.says.RemoveAll()
	b.says.Add(para(s, b.room().Width, small, false, b.w.palette.Faint))
	b.says.Refresh()
}

// offerAsFound lets the corners be as they were found again.
func (b *bringing) offerAsFound() {
	if len(b.words.divisions) > 0 {
		b.found.Add(b.w.link("Corners as they were found", func() {
			next := b.words.clone()
			next.divisions = nil
			b.change(next)
		}))
	}
}
