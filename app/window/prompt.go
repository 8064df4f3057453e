package window

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"truemat/app/tool"
	"truemat/ops/check"
	"truemat/ops/unit"
)

// prompt is what stands above the tray: what to do next and the live measure,
// and beneath them the tool's fields, with what is wrong beside them.
type prompt struct {
	w      *Window
	hint   *canvas.Text
	hints  [moreLines]*canvas.Text // its further lines
	live   *canvas.Text
	fields *fyne.Container
	turns  *fyne.Container // the field that chooses which others there are, beside the acts
	acts   *fyne.Container
	wrong  *canvas.Text
	more   [moreLines]*canvas.Text // its further lines
	idle   *canvas.Text            // what the tool is for, while it asks nothing
	top    *fyne.Container
	row    *fyne.Container

	shape    string // which fields there are
	page     int    // which of them show, when they need more than two rows
	pages    [][]int
	paged    float32 // the width for which they were divided
	rows     int     // and the rows that show at most
	boxes    map[string]fyne.CanvasObject
	said     error
	news     string        // what was done, told where what is wrong is told
	tone     check.Verdict // how it stands since
	about    string        // told in place of the hint
	promised string        // word of the button that accepts
	filled   bool          // accept and abandon are there
	refused  bool          // what is proposed cannot be accepted
	above    bool          // what is wrong stands over the fields
	tall     float32
	room     hintRoom
	typing   typing
	tried    func()            // gives the tool back what it was told before an option of an open list was lit; nil while none is
	left     string            // the field from which the keys went back to the mat
	stay     map[string]*entry // fields with what was typed and not kept
	owed     bool              // something was typed and waits to be accepted
}

const promptPad = 16

// moreLines is how many lines beyond the first a text above the tray may have.
const moreLines = 4

func (p *prompt) build() fyne.CanvasObject {
	c := p.w.palette
	p.hint = text("", large, false, c.Text)
	p.live = text("", normal, true, c.Text)
	p.live.Alignment = fyne.TextAlignTrailing
	p.wrong = text("", normal, false, c.Poor)
	for i := range moreLines {
		p.hints[i], p.more[i] = text("", normal, false, c.Text), text("", normal, false, c.Poor)
	}
	p.idle = text("", normal, false, c.Faint)
	p.fields = container.New(line{gap: 8, wrap: 1})
	p.turns = container.New(line{gap: 8})
	p.acts = container.New(line{gap: 8}, p.w.button(p.accepting(), true, p.w.accept), p.w.button("Abandon", false, p.w.abandon))
	p.promised = p.accepting()
	p.acts.Hide()
	p.filled, p.refused = false, false
	p.forget()
	p.top = container.New(promptTop{p}, p.hint, p.live)
	p.row = container.New(promptRow{p}, p.fields, p.wrong, p.turns, p.acts, p.idle)
	for i := range moreLines {
		p.top.Add(p.hints[i])
		p.row.Add(p.more[i])
	}
	return container.New(stack{}, p.top, p.row)
}

// accepting is the word of the button that accepts.
func (p *prompt) accepting() string {
	if d := p.w.desk; d.Only() {
		return "Accept for " + d.Size() + "  ↵"
	}
	return "Accept  ↵"
}

// forget lets the fields be made anew.
func (p *prompt) forget() { p.shape, p.boxes, p.page = "\x00", nil, 0 }

// say tells what is wrong beside the fields; nil takes it away.
func (p *prompt) say(err error) { p.said, p.news = err, "" }

// report tells what was done, until the next act.
func (p *prompt) report(news string) { p.reportWith(news, check.Holds) }

// reportWith tells what was done, in the colour of how it stands since.
func (p *prompt) reportWith(news string, tone check.Verdict) {
	p.said, p.news, p.tone = nil, news, tone
	p.refresh()
}

// explain tells what something is in place of the hint; "" ends it.
func (p *prompt) explain(s string) {
	p.about = s
	p.refresh()
}

// stale ends what is told of a thing under the pointer, which may be another by
// now; what is under way stays told.
func (p *prompt) stale() {
	if p.w.task == nil {
		p.about = ""
	}
}

func (p *prompt) refresh() {
	w := p.w
	t := w.tool()
	hint, live := unit.Restate(t.Hint(), w.unit), w.shown.live
	if w.shown.asked && w.shown.err == nil && !w.held && !strings.Contains(hint, "Enter") {
		hint = "Enter accepts, Escape abandons. " + hint
	}
	if w.shown.asked && w.shown.err == nil {
		if told := w.unseen(w.desk.Pattern(), w.shown.pieces); told != "" {
			hint = told + " " + hint
		}
	}
	if n := w.desk.Looking(); n >= 0 {
		hint = "You look at an earlier state; Escape returns to the end of the steps."
	}
	if w.rehearsal != nil {
		if hint = unit.Restate(w.rehearsal.hint(), w.unit); w.shown.err != nil {
			hint = "Escape goes back."
		}
	}
	hint = w.withElsewhere(hint)
	typing := p.typing.box != nil
	if typing {
		hint = p.whileTyping(hint)
	}
	if p.about != "" {
		hint, live = p.about, ""
	}
	if word := p.accepting(); word != p.promised {
		p.promised = word
		p.acts.Objects[0] = w.button(word, true, w.accept)
		p.refused = false
		p.acts.Refresh()
	}
	if refused := w.shown.err != nil; refused != p.refused {
		p.refused = refused
		p.acts.Objects[0].(*touch).able(!refused)
	}
	width := w.win.Canvas().Size().Width - 2*promptPad
	live, liveWidth := fitting(live, width/2)
	beside := float32(0)
	if live != "" {
		beside = liveWidth + 24
	}
	size := float32(large)
	if p.low() {
		size = normal
	}
	p.hint.TextSize = size
	if p.low() && p.news != "" && p.said == nil && w.shown.err == nil && !w.shown.asked && !typing {
		hint = toSentence(hint, width-beside) // what was done has its further line
	}
	p.lines(hint, size, width-beside, width, p.hint, p.hints)
	shape := p.shape
	change(p.live, live)
	room := width - p.acts.MinSize().Width - promptPad // also while there is nothing to accept, so that nothing jumps
	p.layFields(t, room)
	_, itself := t.(tool.Finisher) // which has fields for all that is selected
	p.room.hold(len(p.fields.Objects) > 0 && !itself || w.shown.asked, shape != p.shape, width, filledLines(p.hints))
	if turns := p.turns.MinSize().Width; turns > 0 {
		room -= turns + turnsGap
	}
	wrong := ""
	switch {
	case p.said != nil:
		wrong = sentence(p.said)
	case w.shown.err != nil && !typing: // which tells it more quietly
		wrong = sentence(w.shown.err)
	}
	wrong = unit.Restate(wrong, w.unit)
	if wrong == hint {
		wrong = "" // the hint tells it whole
	}
	ink := w.palette.Poor
	if wrong == "" && !w.shown.asked {
		wrong, ink = unit.Restate(p.news, w.unit), w.column.ink(p.tone)
	}
	p.wrong.Color = ink
	for _, more := range p.more {
		more.Color = ink
	}
	p.fields.Layout = line{gap: 8, wrap: room}
	beside = room - p.fields.MinSize().Width - promptPad
	p.above = wrong != "" && (beside < leastWrong || fyne.MeasureText(wrong, normal, fyne.TextStyle{}).Width > beside)
	if p.above {
		beside = room
	}
	p.lines(wrong, normal, beside, room, p.wrong, p.more)
	idle := ""
	if wrong == "" && !w.shown.asked && len(p.fields.Objects) == 0 && p.about == "" {
		idle = abouts[key(t.Name())].what
	}
	change(p.idle, toClause(idle, width))
	if w.shown.asked != p.filled {
		p.filled = w.shown.asked
		if p.filled {
			p.acts.Show()
		} else {
			p.acts.Hide()
		}
	}
	for _, c := range []*fyne.Container{p.top, p.row, p.fields, p.turns} {
		c.Layout.Layout(c.Objects, c.Size()) // refreshing would paint all their words again
	}
	if tall := p.row.MinSize().Height + p.top.MinSize().Height; tall != p.tall && w.body != nil {
		p.tall = tall
		w.body.Layout.Layout(w.body.Objects, w.body.Size()) // refreshing would draw the whole mat again
		w.mat.Cover(p.extra())
	}
}

// leastWrong is the room in units beside the fields for what is wrong; with
// less it stands beneath them.
const leastWrong = 320

// extra is how much taller than usual it is; it then covers some of the mat,
// which so stays where it is.
func (p *prompt) extra() float32 {
	return p.row.MinSize().Height - rowHeight + p.top.MinSize().Height - topHeight
}

// spare is how much taller than usual it may become without covering what was
// fitted to the view: by a second row of fields and a second line of the hint,
// or, in a low window, by that line alone, in which it is told what was done.
func (p *prompt) spare() float32 {
	if p.low() {
		return wrongHeight
	}
	return secondRow + hintHeight
}

// low reports whether the window has room for one row of fields only, and for
// two lines of a hint.
func (p *prompt) low() bool { return p.w.win.Canvas().Size().Height < lowWindow }

// lowWindow is the height of a window in units below which the mat has little
// room.
const lowWindow = 460

// lines writes a text into a line of one size and width and further lines of
// normal size and another width; only what these do not hold is cut.
func (p *prompt) lines(s string, size, width, further float32, first *canvas.Text, more [moreLines]*canvas.Text) {
	measure := func(size float32) func(string) float32 {
		return func(s string) float32 { return fyne.MeasureText(s, size, fyne.TextStyle{}).Width }
	}
	now, rest := s, ""
	if lines := broken(s, width, measure(size)); len(lines) > 1 {
		now, rest = lines[0], strings.Join(lines[1:], " ")
		if i := strings.LastIndex(now+" ", ". "); i >= 0 && strings.HasPrefix(s, now) && size > normal { // no sentence begins large and goes on small
			now, rest = s[:i+1], strings.TrimSpace(s[i+1:])
		}
	}
	if now != "" {
		now = shortened(now, width, size)
	}
	change(first, now)
	lines := broken(rest, further, measure(normal))
	most := moreLines
	if p.low() {
		most = 1
	}
	if len(lines) > most {
		lines = append(lines[:most-1:most-1], strings.Join(lines[most-1:], " "))
	}
	for i, t := range more {
		line := ""
		if i < len(lines) {
			line = shortened(lines[i], further, normal)
		}
		change(t, line)
	}
}

// toClause is a sentence of normal size up to the last of its clauses that there
// is room for.
func toClause(s string, width float32) string {
	whole := s
	for i := len(s); i >= 0; i = max(strings.LastIndex(s, "; "), strings.LastIndex(s, ", ")) {
		if s = s[:i]; fyne.MeasureText(s+".", normal, fyne.TextStyle{}).Width <= width {
			if len(s) < len(whole) {
				s += "."
			}
			return s
		}
	}
	return shortened(whole, width, normal)
}

// toSentence is a text of normal size up to the last of its sentences that there
// is room for, whole where there is room for none.
func toSentence(s string, width float32) string {
	for i := len(s); i > 0; i = strings.LastIndex(s[:i-1], ". ") + 1 {
		if fyne.MeasureText(s[:i], normal, fyne.TextStyle{}).Width <= width {
			return s[:i]
		}
	}
	return s
}

// filledLines is how many of some lines have words.
func filledLines(lines [moreLines]*canvas.Text) (n float32) {
	for _, t := range lines {
		if t.Text != "" {
			n++
		}
	}
	return n
}

// fitting drops the last of the live differences until they fit, and returns
// their width.
func fitting(live string, room float32) (string, float32) {
	for {
		width := fyne.MeasureText(live, normal, fyne.TextStyle{Bold: true}).Width
		i := strings.LastIndex(live, betweenDifferences)
		if width <= room || i < 0 {
			return live, width
		}
		live = live[:i]
	}
}

func change(t *canvas.Text, s string) {
	if t.Text != s {
		t.Text = s
		t.Refresh()
	}
}
