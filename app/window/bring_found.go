package window

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"truemat/app/tool"
	"truemat/ops/intake"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// taken says in a sentence what the outer lines are taken for.
func (b *bringing) taken() string {
	cut := b.res.isCut()
	nothing := " Of an edge of which nothing is said it is guessed that it is a seam whose partner is not known yet; press it in the picture and say what it is."
	if b.companion != "" {
		nothing = ""
	}
	switch {
	case b.res.told() && b.allowance != "":
		return "The drawing says itself which lines are sew lines and what their allowances are, so the one typed is not used; say what the outer line is to have it so."
	case b.res.told():
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

// beside are the pieces found as they are laid beside those on the mat, under
// names that are free there, and what is to be told of it.
func (b *bringing) beside() (pieces []pattern.Piece, told []string) {
	now := b.w.desk.Pattern()
	taken := map[string]bool{}
	for _, pc := range now.Pieces {
		taken[pc.Name] = true
	}
	for _, pc := range b.res.Run.Sizes[0].Pattern.Pieces {
		taken[pc.Name] = taken[pc.Name] || now.Piece(pc.Name) == nil
	}
	for _, pc := range b.res.Run.Sizes[0].Pattern.Pieces {
		if now.Piece(pc.Name) != nil {
			name := pc.Name
			for n := 2; taken[name]; n++ {
				name = fmt.Sprintf("%s %d", pc.Name, n)
			}
			taken[name] = true
			told = append(told, fmt.Sprintf("A piece on the mat is called %s already: laid beside it, this one is called %s.", pc.Name, name))
			pc.Name = name
		}
		pieces = append(pieces, pc)
	}
	doc := b.w.desk.Document()
	if labels := b.res.Run.Labels(); len(labels) > 1 {
		told = append(told, fmt.Sprintf("Laid beside what is on the mat, it comes in one size: %s.", labels[0]))
	}
	if len(doc.Source.Sizes) > 1 {
		told = append(told, fmt.Sprintf("Laid beside what is on the mat, it is the same in all %d sizes there.", len(doc.Source.Sizes)))
	}
	if n := len(b.res.Run.Sizes[0].Pattern.Seams); n > 0 {
		told = append(told, "Laid beside what is on the mat, it is sewn to nothing yet.")
	}
	return pieces, told
}

// add lays what was found beside what is on the mat, as a step.
func (b *bringing) add() {
	s := &step.Bring{From: filepath.Base(b.path)}
	pieces, _ := b.beside()
	for _, pc := range pieces {
		shape, err := step.NewShape(pc)
		if err != nil {
			b.sheet.say(err)
			return
		}
		s.Pieces = append(s.Pieces, shape)
	}
	since := b.w.since()
	if err := b.w.desk.Accept(s); err != nil {
		b.sheet.say(err)
		return
	}
	b.sheet.close()
	b.w.desk.Select(tool.Selection{Piece: pieces[0].Name})
	b.w.show()
	b.w.mat.Fit()
	since.tell(since.kept())
}

// room is what the window leaves to the drawing of what was found.
func (b *bringing) room() fyne.Size {
	window := b.w.win.Canvas().Size()
	return fyne.NewSize(min(max(window.Width-foundWide-scrollBar-110, 320), 1100), min(max(window.Height-430-b.asked(), 220), 760))
}

// asked is the height of what is asked above the drawing.
func (b *bringing) asked() float32 {
	if len(b.ask.Objects) == 0 {
		return 0
	}
	return b.ask.MinSize().Height + 8
}

// layFound draws what was found, with the keys where they were; when the page
// opens it has them.
func (b *bringing) layFound() {
	was, keys := b.board, b.w.win.Canvas().Focused()
	had := keys == nil
	if was != nil {
		had = keys == fyne.Focusable(was)
	}
	b.board = newFoundBoard(b.w, b.res.Run.Sizes[0].Pattern, b.room(), b.res.told(), b.rings())
	b.board.tell, b.board.change, b.board.choose, b.board.guess, b.board.enter = b.hint, b.divide, b.row.show, b.guessed, b.row.list
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

// hintRoom is the height of what is told beneath the drawing.
func (b *bringing) hintRoom() float32 {
	told := para(pressAnEdge, b.room().Width, small, false, b.w.palette.Faint)
	return max(hintTall, told.MinSize().Height) + 4
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
