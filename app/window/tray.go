package window

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
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
	"tape":      {'t', "Tape joins two pieces along two edges into one; overlap or gap is kept to be given back elsewhere."},
	"ruler":     {'r', "The ruler lays a straight edge from one spot to another, as a border of lace asks for."},
	"smooth":    {'s', "Smoothing draws a fair curve over a dent, if asked at exactly the length there was."},
	"add":       {'a', "Paper added at the end of an edge, or an amount shared out onto several."},
	"shears":    {'e', "Shears cut a piece off along a straight or curved line; what was sewn there learns of it."},
	"true":      {'u', "Truing makes two edges run on without a corner where they meet across a seam."},
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
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// layTray lays the tools in the tray, the one in the hand marked.
func (w *Window) layTray() { w.renew(w.tray, w.fillTray) }

func (w *Window) fillTray() {
	for i, t := range w.tools {
		k := key(t.Name())
		w.tray.Add(w.trayTool(k, titled(t.Name()), abouts[k], i == w.active, func() { w.choose(i) }))
	}
	w.tray.Add(gap(8, 48))
	for _, a := range []struct {
		icon, word, what string
		can              bool
		do               func()
	}{
		{"undo", "Undo", "Takes the last change back. Ctrl+Z", w.desk.CanUndo(), w.undo},
		{"redo", "Redo", "Takes a change up again that was taken back. Ctrl+Shift+Z", w.desk.CanRedo(), w.redo},
		{"fit", "Fit", "Shows all pieces. 0", true, w.mat.Fit},
	} {
		b := w.trayTool(a.icon, a.word, about{0, a.what}, false, a.do)
		if !a.can {
			b.disabled = true
			b.body = w.trayFace(a.icon, a.word, 0, w.palette.Line, w.palette.Faint, false)
			b.Refresh()
		}
		w.tray.Add(b)
	}
}

const trayWidth = 68

func (w *Window) trayFace(icn, word string, letter rune, ink, wordInk color.NRGBA, bold bool) fyne.CanvasObject {
	t := text(word, small, bold, wordInk)
	t.Alignment = fyne.TextAlignCenter
	face := container.New(stack{gap: 2}, container.New(layout.NewCenterLayout(), icon(icn, ink, 26)), t)
	wide := canvas.NewRectangle(color.Transparent)
	wide.SetMinSize(fyne.NewSize(trayWidth, 0))
	if letter == 0 {
		return container.New(layered{}, wide, face)
	}
	faint := wordInk
	if !bold {
		faint = w.palette.Faint
	}
	l := text(strings.ToUpper(string(letter)), 10, false, faint)
	l.Alignment = fyne.TextAlignTrailing
	return container.New(layered{}, wide, face, container.New(inset{4, 0}, gap(0, 0), container.New(stack{}, l)))
}

func (w *Window) trayTool(icn, word string, a about, active bool, tap func()) *touch {
	ink, fill := w.palette.Text, color.Color(color.Transparent)
	wordInk := ink
	if active {
		ink, wordInk, fill = w.palette.OnAccent, w.palette.OnAccent, w.palette.Accent
	}
	b := newTouch(w.palette, w.trayFace(icn, word, a.letter, ink, wordInk, active), fill, 2, 6, tap)
	b.hover = func(in bool) {
		s := ""
		if in {
			s = a.what
			if a.letter != 0 {
				s += "  Key " + strings.ToUpper(string(a.letter)) + "."
			}
		}
		w.prompt.explain(s)
	}
	return b
}
