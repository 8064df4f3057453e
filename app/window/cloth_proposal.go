package window

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/cloth"
)

// proposal offers to cut the pieces from the described cloths of the very names
// that they carry, all of them by one press; only those of one cloth where it
// is named. Nil when there is nothing to propose.
func (w *Window) proposal(of string, wide float32) fyne.CanvasObject {
	proposed := w.desk.Goods().Proposed(w.desk.Pattern())
	if of != "" {
		proposed = slices.DeleteFunc(proposed, func(m cloth.Made) bool { return m.Cloths[0] != of })
	}
	if len(proposed) == 0 {
		return nil
	}
	said, word := fmt.Sprintf("On %d pieces stands the name of a cloth that you have described. Proposed: each is cut from that cloth.", len(proposed)), fmt.Sprintf("Cut all %d as they name it", len(proposed))
	if len(proposed) == 1 {
		said, word = fmt.Sprintf("On the piece %s stands %s, a cloth that you have described. Proposed: it is cut from that.", proposed[0].Piece, proposed[0].Cloths[0]), "Cut it as it names it"
	}
	take := w.button(word, true, func() {
		g, err := w.desk.Goods().Accepting(proposed)
		if err == nil {
			err = w.desk.SetGoods(g)
		}
		w.cloths.say(err)
	})
	take.name = "take proposed"
	return container.New(stack{gap: 6}, para(said, wide, normal, false, w.palette.Text), container.New(line{}, take))
}

// lacking tells below a list to shop from what it leaves out since that is not
// described, each with the way there.
func (w *Window) lacking(box *fyne.Container, tell func(string)) {
	all := w.desk.Goods().Lacking(w.desk.Pattern())
	if len(all) == 0 {
		return
	}
	ways := map[cloth.LackOf]struct {
		word string
		to   func()
	}{
		cloth.LackLayers: {"Say it under Layers", func() { w.clothTo(partLayers) }},
		cloth.LackExtras: {"Describe it under " + partExtras, func() { w.clothTo(partExtras) }},
		cloth.LackWires:  {"State it under Wires and measures", func() { w.fitPage() }},
	}
	box.Add(w.clothHead("Not described yet, so not on this list"))
	for i, l := range all {
		there := w.link(ways[l.Of].word, ways[l.Of].to)
		there.name = fmt.Sprint("lack ", i)
		wide := w.cloths.wide - there.MinSize().Width - 24
		box.Add(container.New(columns{wide}, para(l.Text, wide-8, normal, false, w.palette.Look), there))
		tell(l.Text)
	}
}
