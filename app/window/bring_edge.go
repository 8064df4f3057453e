package window

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"truemat/geom"
	"truemat/ops/intake"
	"truemat/ops/pattern"
)

// wording is what the maker said of a drawing: where corners are, what edges are,
// and what pieces are called.
type wording struct {
	divisions []intake.Division
	said      []intake.Said
	names     map[string]string
	changes   int
}

// clone returns it for one change more.
func (wd wording) clone() wording {
	names := map[string]string{}
	for k, v := range wd.names {
		names[k] = v
	}
	return wording{slices.Clone(wd.divisions), slices.Clone(wd.said), names, wd.changes + 1}
}

// foundRow tells of the edge chosen in the drawing of what was found, and lets it
// be said anew.
type foundRow struct {
	b           *bringing
	piece, edge *entry
	role        *choice
	how         *canvas.Text
	make, take  *touch
	all         *fyne.Container
	tall        float32 // with all that it can show
}

func (b *bringing) newRow() *foundRow {
	r := &foundRow{b: b, how: text("", small, false, b.w.palette.Faint)}
	words, roles := edgeRoles()
	field := func(width float32, keep func(string)) *entry {
		e := newEntry("", width, func(s string, changed bool) {
			if changed {
				keep(strings.TrimSpace(s))
			}
		}, b.w.backOut)
		e.tell = b.hint
		e.OnSubmitted = func(s string) {
			e.done(s)
			r.toPicture()
		}
		return e
	}
	r.piece, r.edge = field(110, b.callPiece), field(110, func(s string) { b.say("", s) })
	r.role = newChoice(words, "", func(s string) { b.say(roles[slices.Index(words, s)], "") })
	r.role.chosen = r.toPicture
	r.make = b.w.button("Make a corner here", false, b.divide)
	r.take = b.w.button("Take this corner away", false, b.divide)
	label := func(s string) fyne.CanvasObject { return text(s, normal, false, b.w.palette.Text) }
	r.all = container.New(line{gap: 8}, label("Piece"), r.piece, label("has the edge"), r.edge, label("which is a"), r.role, r.how, r.make, r.take)
	r.show()
	return r
}

// toPicture gives the keys to the picture, for the next edge.
func (r *foundRow) toPicture() { r.b.w.win.Canvas().Focus(r.b.board) }

// show tells of what is chosen now.
func (r *foundRow) show() {
	r.all.Layout = line{gap: 8, wrap: r.b.room().Width}
	board := r.b.board
	on := foundEdge{noJoint, noJoint}
	if board != nil {
		on = board.on(board.chosen)
	}
	for _, o := range r.all.Objects {
		o.Show()
	}
	r.tall = r.all.MinSize().Height
	if on.piece < 0 {
		for _, o := range r.all.Objects {
			o.Hide()
		}
		return
	}
	pc := &board.pieces[on.piece]
	e := &pc.Edges[on.edge]
	again := func(f *entry, s string) { // what was refused gives way, too
		f.was = s
		f.SetText(s)
		f.roll()
	}
	again(r.piece, pc.Name)
	again(r.edge, e.Name)
	r.role.set(e.Role.Word())
	r.how.Text = "as said"
	if board.guess(on) {
		r.how.Text = "as guessed: nothing is said of it"
	}
	r.edge.Enable()
	r.role.Enable()
	if board.fixed {
		r.edge.Disable()
		r.role.Disable()
		r.how.Text = "as the drawing says"
		r.make.Hide()
		r.take.Hide()
		r.all.Refresh()
		return
	}
	if board.chosen.joint >= 0 {
		r.make.Hide()
	} else {
		r.take.Hide()
	}
	r.all.Refresh()
}

// list opens the list of what the edge chosen may be.
func (r *foundRow) list() {
	if r.role.Visible() && !r.role.Disabled() {
		r.b.w.win.Canvas().Focus(r.role)
		r.role.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	}
}

// as is what the drawing or its text file calls a piece.
func (b *bringing) as(piece string) string {
	for _, p := range b.res.Pieces {
		if p.Piece == piece {
			return p.As
		}
	}
	return piece
}

// change looks again after something else was said.
func (b *bringing) change(next wording) {
	b.words = next
	b.look()
}

// callPiece gives the piece chosen another name; its own when that is empty.
func (b *bringing) callPiece(name string) {
	on := b.board.on(b.board.chosen)
	if on.piece < 0 {
		return
	}
	next := b.words.clone()
	next.names[b.as(b.board.pieces[on.piece].Name)] = name
	b.change(next)
}

// say gives the edge chosen a role or a name; what is empty stays.
func (b *bringing) say(role pattern.Role, name string) {
	on := b.board.on(b.board.chosen)
	if on.piece < 0 {
		return
	}
	next := b.words.clone()
	next.said = next.said[:0:0]
	for _, s := range b.words.said {
		if b.saidOn(s) == on {
			if role != "" {
				s.Role = ""
			}
			if name != "" {
				s.Name = ""
			}
		}
		if s.Role != "" || s.Name != "" {
			next.said = append(next.said, s)
		}
	}
	pc := &b.board.pieces[on.piece]
	next.said = append(next.said, intake.Said{Piece: b.as(pc.Name), At: b.middle(on, 0, pc.Edges[on.edge].Length()), Role: role, Name: name})
	b.change(next)
}

// middle is half the way between two places along an edge, in mm of the drawing.
func (b *bringing) middle(on foundEdge, from, to float64) geom.Point {
	pc := &b.board.pieces[on.piece]
	return pc.Pose.Apply(pc.Edges[on.edge].Path.At((from + to) / 2)).Add(b.res.Origin)
}

// saidOn finds the edge of which something was said.
func (b *bringing) saidOn(s intake.Said) foundEdge {
	best, least := foundEdge{noJoint, noJoint}, 0.0
	for i := range b.board.pieces {
		pc := &b.board.pieces[i]
		if b.as(pc.Name) != s.Piece {
			continue
		}
		for k := range pc.Edges {
			if d := pc.Edges[k].Path.Transform(pc.Pose).Nearest(s.At.Sub(b.res.Origin)).Dist; best.edge < 0 || d < least {
				best, least = foundEdge{i, k}, d
			}
		}
	}
	return best
}

// guessed reports whether nobody said what an edge is.
func (b *bringing) guessed(on foundEdge) bool {
	e := &b.board.pieces[on.piece].Edges[on.edge]
	return !b.board.fixed && e.Free && e.Role == pattern.SeamEdge &&
		!slices.ContainsFunc(b.words.said, func(s intake.Said) bool { return s.Role != "" && b.saidOn(s) == on })
}

// divide makes a corner at the place chosen, or takes the one there away. What
// was said of an edge holds for both of its parts; its name stays with the first.
func (b *bringing) divide() {
	f := b.board
	on := f.on(f.chosen)
	if on.piece < 0 || f.fixed {
		return
	}
	pc := &f.pieces[on.piece]
	next := b.words.clone()
	next.divisions = append(next.divisions, intake.Division{Piece: b.as(pc.Name), At: pc.outline.At(f.chosen.s).Add(b.res.Origin), Smooth: f.chosen.joint >= 0})
	if f.chosen.joint < 0 {
		s := f.chosen.s - pc.joints[on.edge]
		next.said = next.said[:0:0]
		for _, said := range b.words.said {
			if b.saidOn(said) != on {
				next.said = append(next.said, said)
				continue
			}
			said.At = b.middle(on, 0, s)
			next.said = append(next.said, said)
			said.At, said.Name = b.middle(on, s, pc.Edges[on.edge].Length()), ""
			if said.Role != "" {
				next.said = append(next.said, said)
			}
		}
	}
	b.w.win.Canvas().Focus(f)
	b.change(next)
}

// stays tells what a refused change left as it was.
func (b *bringing) stays(err error) error {
	if len(b.words.divisions) != len(b.good.divisions) {
		return fmt.Errorf("the corner stays as it was: %w", err)
	}
	return fmt.Errorf("it stays as it was: %w", err)
}
