package window

import (
	"fmt"
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/cloth"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// notionsTab stands for the form of straps, closure and thread in the list.
const notionsTab = "\x00notions"

// clothPartNotions lists the elastics and the other notions beside the form of
// what is chosen.
func (w *Window) clothPartNotions() fyne.CanvasObject {
	g := w.desk.Goods()
	known := func(name string) bool {
		return slices.ContainsFunc(g.Elastics, func(e cloth.Elastic) bool { return e.Name == name })
	}
	if w.elastic != notionsTab && !known(w.elastic) {
		switch {
		case w.elastics[""] != nil:
			w.elastic = ""
		case len(g.Elastics) > 0:
			w.elastic = g.Elastics[0].Name
		default:
			w.elastic = notionsTab
		}
	}
	list := container.New(stack{gap: 4})
	tab := func(key, head, facts string) {
		fill := color.Color(color.Transparent)
		if key == w.elastic {
			fill = w.palette.Soft
		}
		body := container.New(stack{}, text(shortened(head, w.listWide()-20, normal), normal, true, w.palette.Text), text(shortened(facts, w.listWide()-20, small), small, false, w.palette.Faint))
		t := newTouch(w.palette, body, fill, 8, 5, func() {
			w.elastic = key
			w.cloths.again()
		})
		t.name = "notion " + key
		list.Add(t)
	}
	for _, e := range g.Elastics {
		facts := "along the " + e.Line
		if cut, err := e.Cut(w.desk.Pattern()); err == nil {
			facts = "cut " + unit.Brief(cut.Told(unit.MM), w.unit)
		}
		if f := w.elastics[e.Name]; f != nil && f.changed() {
			facts = "changed, not kept yet"
		}
		tab(e.Name, e.Name, facts)
	}
	if f := w.elastics[""]; f != nil {
		tab("", f.said("name"), "not kept yet")
	}
	facts := "straps, closure, thread"
	if w.noting != nil && w.noting.stale() {
		w.noting = nil
	}
	if w.noting != nil && w.noting.changed() {
		facts = "changed, not kept yet"
	}
	tab(notionsTab, "Other notions", facts)
	list.Add(gap(1, 4))
	b := w.button("Add an elastic", false, w.addElastic)
	b.name = "Add an elastic"
	list.Add(b)
	var body fyne.CanvasObject
	if w.elastic == notionsTab {
		if w.noting == nil {
			w.noting = w.newNotionsForm()
		}
		body = w.noting.lay()
	} else {
		body = w.elasticFormOf(w.elastic).lay()
	}
	return container.New(across{[]float32{w.listWide()}, clothGap}, list, body)
}

// addElastic begins one more elastic, along the first line that has none.
func (w *Window) addElastic() {
	p, g := w.desk.Pattern(), w.desk.Goods()
	line := ""
	for _, l := range p.Lines {
		taken := slices.ContainsFunc(g.Elastics, func(e cloth.Elastic) bool { return e.Line == l.Name })
		if l.Kind != pattern.LineWire && (line == "" || !taken) {
			line = l.Name
			if !taken {
				break
			}
		}
	}
	if line == "" {
		w.cloths.say(fmt.Errorf("the pattern has no line an elastic could run along; name a hem, a neckline or an underarm as a line first"))
		return
	}
	e := cloth.Elastic{Name: line + " elastic", Line: line, PutOn: cloth.Turned, Overlap: 20}
	if l := p.Line(line); l != nil && slices.ContainsFunc(l.Parts, func(pt pattern.Part) bool {
		_, edge := p.Edge(pt.Piece, pt.Edge)
		return edge != nil && edge.Role == pattern.LaceEdge
	}) {
		e.PutOn = cloth.BehindLace
	}
	f := w.newElasticForm("", e)
	f.base = cloth.Elastic{}
	w.elastics[""], w.elastic = f, ""
	w.cloths.again()
	w.win.Canvas().Focus(f.fields["width"])
}
