package window

import (
	"fmt"

	"truemat/app/tool"
	"truemat/ops/step"
)

func (w *Window) tool() tool.Tool { return w.tools[w.active] }

// choose takes a tool of the tray into the hand.
func (w *Window) choose(i int) {
	dropped := w.prompt.waits()
	w.prompt.left = ""
	if i != w.active {
		w.tool().Reset()
		w.active = i
		w.count(key(w.tool().Name()))
	} else {
		dropped = ""
	}
	if act, more := w.actOn(); more && act.Tool == w.tool().Name() {
		w.column.bounds = "" // the marks of a check would stand beside those of the act
	}
	w.prompt.say(nil)
	w.prompt.dropped(dropped)
	w.refresh()
	w.focusMat()
}

func (w *Window) focusMat() { w.win.Canvas().Focus(w.mat) }

// pointer hands what the pointer did on the mat to the tool.
func (w *Window) pointer(e tool.Event) {
	switch e.Act {
	case tool.Press, tool.Double:
		w.held, w.prompt.left = true, ""
	case tool.Release, tool.Hover:
		w.held = false
	}
	dropped := w.prompt.waits()
	w.tool().Pointer(e)
	if e.Act == tool.Release && w.finish() {
		return
	}
	if e.Act == tool.Hover || e.Act == tool.Drag {
		w.soon()
		return
	}
	if e.Act != tool.Release { // which ends what the press began
		w.prompt.say(nil)
	}
	if len(w.tool().Proposal()) == 0 {
		w.prompt.dropped(dropped)
	}
	w.show()
}

// finish accepts the proposal of a tool whose act is complete by itself.
func (w *Window) finish() bool {
	f, ok := w.tool().(tool.Finisher)
	if !ok || !f.Done() {
		return false
	}
	w.prompt.clear()
	w.accept()
	return true
}

// accept adds what the tool proposes to the recipe, or keeps the edit that is
// rehearsed.
func (w *Window) accept() {
	if w.rehearsal != nil {
		w.keepRehearsed()
		return
	}
	if !w.prompt.settle() {
		return
	}
	steps := w.tool().Proposal()
	if len(steps) == 0 {
		return
	}
	w.do(steps...)
}

// do adds steps to the recipe; a refusal is told beside the tool.
func (w *Window) do(steps ...step.Step) bool {
	t, before := w.tool(), w.desk.Pattern()
	since, seen := w.since(), w.column.seesSteps()
	since.lays = laysOnly(steps)
	w.keeping = true // the tool still proposes what becomes a second one now
	err := w.desk.Accept(steps...)
	w.keeping = false
	if err != nil {
		w.prompt.say(err)
		w.show()
		return false
	}
	t.Reset()
	w.prompt.say(nil)
	w.prompt.clear()
	w.prompt.left = ""
	w.show()
	told := since.kept()
	if s, ok := t.(tool.Stayer); ok && s.Stays() {
		told += fmt.Sprintf(" The %s goes on; Escape ends it.", t.Name())
	}
	if beyond := w.unseen(before, w.desk.Pattern().Pieces); beyond != "" {
		told += " " + beyond
	}
	since.tell(told)
	if seen {
		w.column.seeLast()
	}
	if w.sheet == nil {
		w.focusMat() // a list above the tray would keep the letters of the tools to itself
	}
	return true
}

// abandon drops what was begun.
func (w *Window) abandon() {
	w.prompt.left = ""
	w.prompt.clear()
	w.prompt.say(nil)
	if w.dropRehearsed() || w.stopPlay() {
		return
	}
	if !tool.Abandon(w.tool()) {
		w.desk.Select(tool.Selection{})
		if w.desk.Looking() >= 0 {
			w.desk.Look(-1)
		}
	}
	w.show()
}
