package window

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// group is a part of the tray: the tools for one kind of work, the one that is
// needed most first.
type group struct {
	name  string
	tools []string // words of abouts
}

// groups are the parts of the tray. A tool that is in none lies in the last.
var groups = []group{
	{"Lay", []string{"hand", "pin", "tape"}},
	{"Shape", []string{"ruler", "smooth", "add", "spread", "reshape"}},
	{"Cut", []string{"shears", "split", "fold"}},
	{"Seam", []string{"walk", "notch", "true", "level", "allowance"}},
	{"Note", []string{"chalk", "measure", "draw"}},
}

// prefFoldedGroups names the groups of the tray that are folded; prefUsed with
// a tool's word behind it is how often it was taken up.
const (
	prefFoldedGroups = "tray folded"
	prefUsed         = "used "
)

// member is a tool in a group: its word, and its place among the tools.
type member struct {
	word  string
	index int
}

// shelves divides the tools there are among the groups.
func (w *Window) shelves() [][]member {
	all := make([][]member, len(groups))
	for i, t := range w.tools {
		word, at := key(t.Name()), len(groups)-1
		for g := range groups {
			if slices.Contains(groups[g].tools, word) {
				at = g
			}
		}
		all[at] = append(all[at], member{word, i})
	}
	for g := range all {
		place := func(m member) int {
			if i := slices.Index(groups[g].tools, m.word); i >= 0 {
				return i
			}
			return len(groups[g].tools)
		}
		slices.SortStableFunc(all[g], func(a, b member) int { return place(a) - place(b) })
	}
	return all
}

// out returns the tools of a group that show: all of them, or when it is
// folded the one in the hand, else the one that the lesson asks for or that was
// taken up most.
func (w *Window) out(shelf []member, folded bool) []member {
	if !folded || len(shelf) < 2 {
		return shelf
	}
	best := shelf[0]
	for _, m := range shelf {
		if m.index == w.active {
			return []member{m}
		}
		if w.used(m.word) > w.used(best.word) && best.word != w.wanted() || m.word == w.wanted() {
			best = m
		}
	}
	return []member{best}
}

func (w *Window) used(word string) int { return w.set.Int(prefUsed + word) }

// count remembers that a tool was taken up.
func (w *Window) count(word string) { w.set.SetInt(prefUsed+word, w.used(word)+1) }

// folds tells of each group whether it is folded: because she folded it, or
// because the tray has no room; then the groups give way from the last, of
// that of the tool in the hand all but this tool, then those with what is
// needed at every turn, hand, pin and tape, at the very end the one she opened
// last.
func (w *Window) folds(shelves [][]member, room float32) []bool {
	asked := w.set.StringList(prefFoldedGroups)
	folded := make([]bool, len(groups))
	for g := range groups {
		folded[g] = slices.Contains(asked, groups[g].name)
	}
	give := func(spare func(g int) bool) {
		for g := len(groups) - 1; g >= 0; g-- {
			if w.trayWidth(shelves, folded) > room && !folded[g] && len(shelves[g]) > 1 && !spare(g) {
				folded[g] = true
			}
		}
	}
	inHand := func(g int) bool {
		return slices.ContainsFunc(shelves[g], func(m member) bool { return m.index == w.active })
	}
	opened := func(g int) bool { return groups[g].name == w.opened }
	give(func(g int) bool { return g == 0 || opened(g) || inHand(g) })
	give(func(g int) bool { return g == 0 || opened(g) })
	give(opened)
	give(func(int) bool { return false })
	return folded
}

// gaveWay reports whether a group is folded that she did not fold.
func (w *Window) gaveWay(folded []bool) bool {
	asked := w.set.StringList(prefFoldedGroups)
	for g, f := range folded {
		if f && !slices.Contains(asked, groups[g].name) {
			return true
		}
	}
	return false
}

// openGroup opens a group of the tray, or where the tray has no room for all of it
// lists its tools above its heading.
func (w *Window) openGroup(name string, shelf []member, head fyne.Position) {
	was := w.opened
	w.setFolded(name, false)
	if !slices.ContainsFunc(shelf, func(m member) bool { return w.inTray[m.word] == nil }) {
		return
	}
	w.opened = was
	w.layTray()
	items := make([]*fyne.MenuItem, len(shelf))
	for i, m := range shelf {
		items[i] = fyne.NewMenuItem(titled(m.word)+"   "+strings.ToUpper(string(abouts[m.word].letter)), func() { w.choose(m.index) })
	}
	list := widget.NewPopUpMenu(fyne.NewMenu("", items...), w.win.Canvas())
	list.ShowAtPosition(head.SubtractXY(0, list.MinSize().Height))
}

// setFolded folds a group of the tray away, or opens it.
func (w *Window) setFolded(name string, folded bool) {
	list := slices.DeleteFunc(slices.Clone(w.set.StringList(prefFoldedGroups)), func(s string) bool { return s == name })
	w.opened = name
	if folded {
		list, w.opened = append(list, name), ""
	}
	w.set.SetStringList(prefFoldedGroups, list)
	w.layTray()
}
