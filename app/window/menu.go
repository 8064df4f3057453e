package window

import (
	"path/filepath"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"truemat/app/lesson"
	"truemat/ops/unit"
)

// menus holds the items whose state changes.
type menus struct {
	main       *fyne.MainMenu
	undo, redo *fyne.MenuItem
	only       *fyne.MenuItem
}

func item(label string, do func(), key fyne.KeyName, mod fyne.KeyModifier) *fyne.MenuItem {
	m := fyne.NewMenuItem(label, do)
	if key != "" {
		m.Shortcut = &desktop.CustomShortcut{KeyName: key, Modifier: mod}
	}
	return m
}

// within is an item that opens further ones.
func within(label string, items ...*fyne.MenuItem) *fyne.MenuItem {
	m := fyne.NewMenuItem(label, nil)
	m.ChildMenu = fyne.NewMenu("", items...)
	return m
}

// unitWords are the units to choose from.
var unitWords = []struct {
	label  string
	system unit.System
}{{"Millimetres", unit.Millimetres}, {"Centimetres", unit.Centimetres}, {"Inches", unit.InchFractions}}

// menu builds the menus anew. None of them may be longer than a low window: the
// toolkit's do not roll along with the keys.
func (w *Window) menu() {
	const ctrl = fyne.KeyModifierShortcutDefault
	recent := within("Recent")
	last := w.lastWork()
	for _, p := range w.set.StringList(prefRecent) {
		var key fyne.KeyName
		if p == last {
			key = fyne.KeyO
		}
		recent.ChildMenu.Items = append(recent.ChildMenu.Items,
			item(filepath.Base(p), func() { w.leave(func() { w.openPath(p) }) }, key, ctrl|fyne.KeyModifierShift))
	}
	recent.Disabled = len(recent.ChildMenu.Items) == 0
	bringIn := within("Bring in",
		item("Bring in a drawing…", func() { w.bringFile(false) }, fyne.KeyB, ctrl),
		item("Add a plain piece…", func() { w.plainPage() }, fyne.KeyN, ctrl|fyne.KeyModifierShift),
		fyne.NewMenuItem("Take steps from another pattern…", w.stepsAsk))
	handOut := within("Save a part of it",
		item("Export a drawing…", w.exportAsk, fyne.KeyE, ctrl),
		fyne.NewMenuItem("Save the steps alone…", w.saveSteps),
		fyne.NewMenuItem("Save the sheet for another maker…", w.sheetAsk))
	files := fyne.NewMenu("File",
		item("New…", w.newAsk, fyne.KeyN, ctrl),
		item("Open…", w.openAsk, fyne.KeyO, ctrl),
		recent,
		bringIn,
		fyne.NewMenuItemSeparator(),
		item("Save", func() { w.save(nil) }, fyne.KeyS, ctrl),
		item("Save as…", func() { w.saveAs(nil) }, fyne.KeyS, ctrl|fyne.KeyModifierShift),
		handOut,
		item("Print…", w.printPage, fyne.KeyP, ctrl),
		fyne.NewMenuItemSeparator(),
	)
	leave := item("Quit", w.quit, fyne.KeyQ, ctrl)
	leave.IsQuit = true
	files.Items = append(files.Items, leave)

	w.menus.undo = item("Undo", w.undo, "", 0)
	w.menus.undo.Shortcut = &fyne.ShortcutUndo{} // as which the toolkit reports Ctrl+Z
	w.menus.redo = item("Redo", w.redo, fyne.KeyZ, ctrl|fyne.KeyModifierShift)
	w.menus.only = fyne.NewMenuItem("Alter only the size shown", func() { w.desk.SetOnly(!w.desk.Only()) })
	edit := fyne.NewMenu("Edit", w.menus.undo, w.menus.redo, fyne.NewMenuItemSeparator(), w.menus.only,
		item("Wires and measures…", func() { w.fitPage() }, fyne.KeyM, ctrl),
		item("Cloth and sewing…", w.clothPage, fyne.KeyL, ctrl))

	dark := item("Dim room", func() { w.setDark(!w.dark) }, fyne.KeyD, ctrl)
	dark.Checked = w.dark
	nested := within("Other sizes beneath")
	for _, o := range w.nestings() {
		m := fyne.NewMenuItem(o.menu, func() { w.setNesting(o.n) })
		m.Checked = w.nested == o.n
		nested.ChildMenu.Items = append(nested.ChildMenu.Items, m)
	}
	units := within("Units")
	for i, u := range unitWords {
		m := fyne.NewMenuItem(u.label, func() { w.setUnit(u.system) })
		m.Checked = w.unit == u.system
		if unitWords[(i+len(unitWords)-1)%len(unitWords)].system == w.unit {
			m.Shortcut = &desktop.CustomShortcut{KeyName: fyne.KeyU, Modifier: ctrl} // goes round
		}
		units.ChildMenu.Items = append(units.ChildMenu.Items, m)
	}
	view := fyne.NewMenu("View",
		item("Checks in every size…", w.sizesPage, fyne.KeyT, ctrl),
		units,
		nested,
		fyne.NewMenuItemSeparator(),
		item("Fit all", w.mat.Fit, fyne.Key0, ctrl),
		fyne.NewMenuItem("Fit what is selected", w.fitSelected),
		item("Nearer", func() { w.mat.Zoom(zoomStep) }, fyne.KeyEqual, ctrl),
		item("Farther", func() { w.mat.Zoom(1 / zoomStep) }, fyne.KeyMinus, ctrl),
		item("Real size", w.realSize, fyne.Key1, ctrl),
		within("This screen", dark, fyne.NewMenuItem("Hold a ruler to the screen…", w.rulerPage)))
	help := fyne.NewMenu("Help", item("Keys", w.keysPage, fyne.KeyF1, 0), item("How an act of the lesson goes by keys", w.tellKeys, fyne.KeyF2, 0),
		fyne.NewMenuItem("The tools", w.toolsPage), fyne.NewMenuItem("The checks", w.checksPage), fyne.NewMenuItem("Signs on the mat", w.signsPage),
		fyne.NewMenuItemSeparator(), fyne.NewMenuItem("Show the steps one by one", w.startPlay))
	lessons := within("Lessons")
	for _, l := range lesson.Lessons() {
		lessons.ChildMenu.Items = append(lessons.ChildMenu.Items, fyne.NewMenuItem(l.Title, func() { w.startOn(l) }))
	}
	help.Items = slices.Insert(help.Items, len(help.Items)-1, lessons)
	w.menus.main = fyne.NewMainMenu(files, edit, view, help)
	w.enable()
	w.win.SetMainMenu(w.menus.main)
}

// enable greys what cannot be done now.
func (w *Window) enable() {
	if w.menus.main == nil {
		return
	}
	w.menus.undo.Disabled, w.menus.redo.Disabled = !w.desk.CanUndo(), !w.desk.CanRedo()
	w.menus.only.Checked, w.menus.only.Disabled = w.desk.Only(), len(w.desk.Document().Source.Sizes) < 2
	w.menus.main.Refresh()
}

// typing returns the field that is being typed into, nil when there is none.
func (w *Window) typing() *entry {
	switch e := w.win.Canvas().Focused().(type) {
	case *entry:
		return e
	case *formField:
		return &e.entry
	}
	return nil
}

func (w *Window) undo() {
	if e := w.typing(); e != nil && e.Text != e.was {
		e.Undo()
		return
	}
	w.tool().Reset()
	w.done = deed{}
	w.again(w.desk.Undoes(), w.desk.Undo)
}

func (w *Window) redo() {
	if e := w.typing(); e != nil && e.Text != e.was {
		e.Redo()
		return
	}
	w.tool().Reset()
	w.again(w.desk.Redoes(), w.desk.Redo)
}

// again takes a change back or up again, and tells which it was and what is wrong
// since.
func (w *Window) again(change string, do func() bool) {
	since := w.since()
	did := do()
	w.prompt.say(nil)
	w.show()
	if did && change != "" {
		since.tell(change)
	}
}

// toolsPage tells what each tool is for.
func (w *Window) toolsPage() {
	wide := w.pageWide(620)
	list := container.New(stack{gap: 12})
	for _, t := range w.tools {
		k := key(t.Name())
		list.Add(w.pair(icon(k, w.palette.Accent, 26), para(titled(t.Name())+". "+lesson.AboutTool(k), wide-60, normal, false, w.palette.Text)))
	}
	w.openSheet("The tools", wide, w.scrolled(list, wide))
}
