package window

import (
	"fmt"
	"image/color"
	"slices"
	"strings"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"truemat/ops/unit"
)

// about says of each tool, by its word, which letter takes it up and what it
// is for.
type about struct {
	letter rune
	what   string
}

var abouts = map[string]about{
	"hand":      {'h', "The hand selects a piece, edge, corner or notch, and lays pieces elsewhere. It alters no shape."},
	"pin":       {'i', "A pin holds one spot of a piece; the piece turns about it until an edge or spot settles on a line."},
	"tape":      {'t', "Tape joins two pieces along an edge of each; overlap or gap is kept, to be given back later."},
	"ruler":     {'r', "The ruler lays a straight edge from one spot to another, as a border of lace asks for."},
	"smooth":    {'s', "Smoothing draws a fair curve over a dent, if asked at exactly the length there was."},
	"add":       {'a', "Paper added at the end of an edge, or an amount shared out onto several."},
	"spread":    {'d', "Spreading opens a piece along a slash, or closes it, about a hinge; so fullness and darts move."},
	"reshape":   {'b', "Reshaping draws an edge anew by knots and handles, its length in view all the while."},
	"shears":    {'e', "Shears cut a piece off along a line; what it was sewn to is marked where it ends now."},
	"split":     {'v', "Splitting divides a piece along a line, straight or curved, and sews the parts together again."},
	"fold":      {'f', "Folding unfolds a half, folds a symmetric piece, turns a piece over, or makes its lining."},
	"draw":      {'g', "Draws a line on a piece, from spot to spot, beside an edge or through points; it moves with the piece."},
	"walk":      {'c', "Walking rolls one side of a seam along the other, shows where their notches meet, and drops new ones."},
	"true":      {'u', "Truing makes two edges run on without a corner where they meet across a seam."},
	"level":     {'l', "Levelling makes both sides of a seam equally long, by changing the one, the other or both."},
	"notch":     {'o', "A notch marks a place on an edge, to be matched with the other side of the seam."},
	"allowance": {'w', "The allowance lies between the sew line and the cut line; it may end differently at each corner."},
	"chalk":     {'k', "Chalk writes on pieces, so that an altered one is not taken for the original."},
	"measure":   {'m', "The tape measure tells lengths along edges and straight across; it alters nothing."},
}

// key returns the word under which a tool's icon and explanation are found.
func key(name string) string {
	name = strings.ToLower(name)
	if _, ok := abouts[name]; ok {
		return name
	}
	first, _, _ := strings.Cut(name, " ")
	return first
}

func titled(s string) string {
	_, n := utf8.DecodeRuneInString(s)
	return strings.ToUpper(s[:n]) + s[n:]
}

// layTray lays the tools in the tray, the one in the hand marked, when they are
// not so already: their words have to be measured for it.
func (w *Window) layTray() {
	now := fmt.Sprint(w.active, w.dark, w.opened, w.win.Canvas().Size().Width, w.desk.CanUndo(), w.desk.CanRedo(), w.set.StringList(prefFoldedGroups), w.wanted())
	for _, t := range w.tools {
		now += fmt.Sprint(" ", w.used(key(t.Name())))
	}
	if now == w.trayLaid && len(w.tray.Objects) > 0 {
		return
	}
	w.trayLaid = now
	w.renew(w.tray, w.fillTray)
}

// wanted is the word of the tool that the lesson asks for now, "" when none.
func (w *Window) wanted() string {
	if w.lesson == nil {
		return ""
	}
	act, _ := w.lesson.Current()
	return act.Tool
}

// acts are what stands at the end of the tray.
type trayAct struct {
	icon, word, what string
	which            func() string // tells which change it is about; may be nil
	can              bool
	do               func()
}

func (w *Window) trayActs() []trayAct {
	return []trayAct{
		{"undo", "Undo", "Takes the last change back. Ctrl+Z", w.desk.Undoes, w.desk.CanUndo(), w.undo},
		{"redo", "Redo", "Takes a change up again that was taken back. Ctrl+Shift+Z", w.desk.Redoes, w.desk.CanRedo(), w.redo},
		{"fit", "Fit", "Shows all pieces. 0", nil, true, w.mat.Fit},
	}
}

func (w *Window) fillTray() {
	shelves := w.shelves()
	room := w.win.Canvas().Size().Width - 2*trayEdge
	w.toolLeast = widestTool
	folded := w.folds(shelves, room)
	for w.toolLeast > leastTool && (w.trayWidth(shelves, folded) > room || w.gaveWay(folded)) {
		w.toolLeast -= 2
		folded = w.folds(shelves, room)
	}
	w.inTray = map[string]*touch{}
	for g, shelf := range shelves {
		if len(shelf) == 0 {
			continue
		}
		row := container.New(line{gap: trayGap})
		for _, m := range w.out(shelf, folded[g]) {
			b := w.trayTool(m.word, titled(m.word), abouts[m.word], m.index == w.active, func() { w.choose(m.index) })
			if m.word == w.wanted() && m.index != w.active {
				b.fill = w.palette.Soft
				b.paint()
			}
			w.inTray[m.word] = b
			row.Add(b)
		}
		w.tray.Add(container.New(stack{}, w.trayHead(groups[g].name, shelf, folded[g]), row))
	}
	acts := container.New(line{gap: trayGap})
	for _, a := range w.trayActs() {
		b := w.trayTool(a.icon, a.word, about{0, a.what}, false, a.do)
		if a.which != nil {
			b.hover = func(in bool) {
				told := ""
				if in {
					told = a.what + ".  " + unit.Restate(a.which(), w.unit)
				}
				w.prompt.explain(told)
			}
		}
		if !a.can {
			b.disabled = true
			b.body = w.trayFace(a.icon, a.word, 0, w.palette.Line, w.palette.Faint, false)
			b.Refresh()
		}
		acts.Add(b)
	}
	w.tray.Add(container.New(stack{}, gap(0, headHeight), acts))
}

// Measures of the tray: at its ends, between tools, between groups, and a tool
// itself, which is narrower where many are out.
const (
	trayEdge   = 12
	trayGap    = 2
	shelfGap   = 14
	headHeight = 18
	leastTool  = 50
	widestTool = 64
)

// toolWidth is as wide as a tool's word wants.
func (w *Window) toolWidth(word string) float32 {
	return max(w.toolLeast, up(fyne.MeasureText(word, small, fyne.TextStyle{Bold: true}).Width)+8)
}

// shelfWidth is that of a group with its tools or its heading.
func (w *Window) shelfWidth(name string, shelf []member, folded bool) float32 {
	width := float32(-trayGap)
	for _, m := range w.out(shelf, folded) {
		width += w.toolWidth(titled(m.word)) + trayGap
	}
	return max(width, up(w.headFace(name, shelf, folded).MinSize().Width))
}

// trayWidth is that of the tray with some groups folded.
func (w *Window) trayWidth(shelves [][]member, folded []bool) float32 {
	width := float32(-trayGap)
	for _, a := range w.trayActs() {
		width += w.toolWidth(a.word) + trayGap
	}
	for g, shelf := range shelves {
		if len(shelf) > 0 {
			width += w.shelfWidth(groups[g].name, shelf, folded[g]) + shelfGap
		}
	}
	return width
}

// headFace is the name of a group over a line as long as the group; a folded
// one tells how many more tools there are.
func (w *Window) headFace(name string, shelf []member, folded bool) fyne.CanvasObject {
	sign := "fold away"
	if folded {
		sign, name = "unfold out", fmt.Sprintf("%s +%d", name, len(shelf)-1)
	}
	face := container.New(line{gap: 2}, text(name, headText, false, w.palette.Faint))
	if len(shelf) > 1 {
		face.Add(icon(sign, w.palette.Faint, 11))
	}
	return face
}

const headText = 12

// trayHead is the heading of a group; pressing it folds the group away or opens it.
func (w *Window) trayHead(name string, shelf []member, folded bool) fyne.CanvasObject {
	face := container.New(head{}, rule(w.palette.Line), w.headFace(name, shelf, folded))
	wide := container.New(atWidth{w.shelfWidth(name, shelf, folded)}, face)
	if len(shelf) < 2 {
		return wide
	}
	var b *touch
	b = newTouch(w.palette, wide, color.Transparent, 0, 0, func() {
		if folded {
			w.openGroup(name, shelf, fyne.CurrentApp().Driver().AbsolutePositionForObject(b))
		} else {
			w.setFolded(name, true)
		}
	})
	b.ring = 4
	if want := w.wanted(); w.inTray[want] == nil && slices.ContainsFunc(shelf, func(m member) bool { return m.word == want }) {
		b.fill = w.palette.Soft
		b.paint()
	}
	b.hover = func(in bool) {
		told := ""
		if in && folded {
			told = "Press " + name + " (Enter or Space) to open it: " + words(shelf) + "."
		} else if in {
			told = name + ": " + words(shelf) + ". Press its name (Enter or Space) to fold all but one of them away."
		}
		w.prompt.explain(told)
	}
	return b
}

// words lists the tools of a group with their letters.
func words(shelf []member) string {
	var all []string
	for _, m := range shelf {
		all = append(all, m.word+" ("+strings.ToUpper(string(abouts[m.word].letter))+")")
	}
	return strings.Join(all, ", ")
}

// head lays out a line and, over its beginning, a heading.
type head struct{}

func (head) Layout(o []fyne.CanvasObject, size fyne.Size) {
	m := o[1].MinSize()
	o[1].Move(fyne.NewPos(0, 0))
	o[1].Resize(m)
	o[0].Move(fyne.NewPos(m.Width+4, down(size.Height/2)))
	rest := size.Width - m.Width - 4
	if rest < leastRule {
		rest = 0 // would look like a stroke of the heading
	}
	o[0].Resize(fyne.NewSize(rest, 1))
}

// leastRule is how long the line beside a heading of the tray is at least, in units.
const leastRule = 12

func (head) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(o[1].MinSize().Width, headHeight)
}

func (w *Window) trayFace(icn, word string, letter rune, ink, wordInk color.NRGBA, bold bool) fyne.CanvasObject {
	t := text(word, small, bold, wordInk)
	t.Alignment = fyne.TextAlignCenter
	face := container.New(stack{gap: 1}, container.New(centred{}, icon(icn, ink, 24)), t)
	wide := canvas.NewRectangle(color.Transparent)
	wide.SetMinSize(fyne.NewSize(w.toolWidth(word), 0))
	if letter == 0 {
		return container.New(layered{}, wide, face)
	}
	faint := wordInk
	if !bold {
		faint = w.palette.Faint
	}
	l := text(strings.ToUpper(string(letter)), 10, false, faint)
	l.Alignment = fyne.TextAlignTrailing
	return container.New(layered{}, wide, face, container.New(inset{3, 0}, gap(0, 0), container.New(stack{}, l)))
}

func (w *Window) trayTool(icn, word string, a about, active bool, tap func()) *touch {
	ink, fill := w.palette.Text, color.Color(color.Transparent)
	wordInk := ink
	if active {
		ink, wordInk, fill = w.palette.OnAccent, w.palette.OnAccent, w.palette.Accent
	}
	b := newTouch(w.palette, w.trayFace(icn, word, a.letter, ink, wordInk, active), fill, 0, 4, func() {
		tap()
		w.prompt.explain("") // what was told of it while it was only pointed at
	})
	b.hover = func(in bool) {
		s := ""
		if in && key(w.tool().Name()) != icn { // of the tool in the hand the hint says what to do next
			s = a.what
			if a.letter != 0 {
				s += "  Key " + strings.ToUpper(string(a.letter)) + "."
			}
		}
		w.prompt.explain(s)
	}
	return b
}
