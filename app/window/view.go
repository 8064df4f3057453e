package window

import (
	"truemat/app/look"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/unit"
)

// lookAt brings a place of the pattern into view and selects it.
func (w *Window) lookAt(s tool.Selection) {
	p := w.desk.Pattern()
	pc := p.Piece(s.Piece)
	if pc == nil {
		return
	}
	if s.Edge != "" && pc.Edge(s.Edge) == nil {
		s.Edge = ""
	}
	w.desk.Select(s)
	box := geom.NoBox()
	for i := range pc.Edges {
		if s.Edge == "" || pc.Edges[i].Name == s.Edge {
			box = box.Union(pc.Edges[i].Path.Transform(pc.Pose).Bounds())
		}
	}
	w.mat.FitBox(box.Grow(beyond))
	w.focusMat()
}

// fitSelected shows what is selected as large as there is room, and all when
// nothing is.
func (w *Window) fitSelected() {
	if s := w.desk.Selection(); s.Piece != "" {
		w.lookAt(s)
		return
	}
	w.mat.Fit()
}

// realSize shows the pieces as large as they are, and says so when that rests
// on what the screen is taken for.
func (w *Window) realSize() {
	w.mat.RealSize()
	if w.set.Float(prefScale) == 0 {
		w.prompt.report("Real size, if this screen has 96 dots to the inch; hold a ruler to it once (View, This screen, Hold a ruler to the screen) to be sure.")
	}
}

// What is shown around pieces that are spoken of, and around a place that is
// looked at, in mm.
const (
	around = 25
	beyond = 60
)

func (w *Window) setDark(dark bool) {
	w.dark, w.palette = dark, look.New(dark).Palette
	w.set.SetBool(prefDark, dark)
	w.win.SetContent(gap(0, 0)) // to give what there is the other colours, and then make it anew, takes seven times as long
	w.app.Settings().SetTheme(look.New(dark))
	w.build()
}

func (w *Window) setUnit(u unit.System) {
	w.unit = u
	w.set.SetString(prefUnit, string(u))
	for i, t := range tool.All(table{w.desk, w}) { // they propose round lengths
		if i != w.active {
			w.tools[i] = t
		}
	}
	w.prompt.forget()
	w.refresh()
	w.menu()
}
