package window

import (
	"maps"
	"reflect"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/cloth"
)

const (
	partCloths = "Cloths"
	partLayers = "Layers"
	partSuits  = "Do they suit?"
	partPlans  = "Plans"
	partExtras = "Elastic, notions"
)

// waiting names what was typed under a part and is neither kept nor put back.
func (w *Window) waiting(part string) []string {
	var all []string
	g := w.desk.Goods()
	switch part {
	case partCloths:
		for _, name := range slices.Sorted(maps.Keys(w.describing)) {
			f := w.describing[name]
			if c, known := g.Cloth(name); name == "" {
				all = append(all, "a new cloth")
			} else if known && reflect.DeepEqual(f.base, c) && f.changed() {
				all = append(all, name)
			}
		}
	case partExtras:
		for _, name := range slices.Sorted(maps.Keys(w.elastics)) {
			f := w.elastics[name]
			is := func(e cloth.Elastic) bool { return e.Name == name && reflect.DeepEqual(e, f.base) }
			if name == "" {
				all = append(all, "a new elastic")
			} else if slices.ContainsFunc(g.Elastics, is) && f.changed() {
				all = append(all, name)
			}
		}
		if w.noting != nil && !w.noting.stale() && w.noting.changed() {
			all = append(all, "what is said of notions")
		}
	}
	return all
}

// waits tells on the other parts what they do without, and leads there; nil
// when nothing waits to be kept.
func (w *Window) waits(showing string) fyne.CanvasObject {
	rows := container.New(stack{gap: 4})
	for _, part := range []string{partCloths, partExtras} {
		names := w.waiting(part)
		if part == showing || len(names) == 0 {
			continue
		}
		said := titled(strings.Join(names, ", ")) + " under " + part + ": not kept yet. What stands here is without it."
		there := w.link("Go there", func() { w.clothTo(part) })
		there.name = "to " + part
		wide := w.cloths.wide - there.MinSize().Width - 20
		rows.Add(container.New(columns{wide}, para(said, wide-8, normal, false, w.palette.Look), there))
	}
	if len(rows.Objects) == 0 {
		return nil
	}
	rows.Add(gap(1, 6))
	return rows
}
