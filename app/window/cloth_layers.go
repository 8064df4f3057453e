package window

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/cloth"
	"truemat/ops/cloth/suit"
)

// layersMost is how many layers of a piece can be named.
const layersMost = 6

const (
	layerPiece = 156 // width of the names of the pieces
	layersWide = 524 // of the choices of its layers, where there is room
)

// layerColumns is how many choices of layers stand beside a piece: one more
// than any piece has, up to the most, and never only one.
func layerColumns(g cloth.Goods) int {
	n := 2
	for _, m := range g.Made {
		n = max(n, len(m.Cloths)+1)
	}
	return min(n, layersMost)
}

// layerWide is the width of the choice of layer k, counted from 0; three share
// it so that the outermost, which is often several as one, is told whole.
func (w *Window) layerWide(g cloth.Goods, k int) float32 {
	n := layerColumns(g)
	all := w.layersWide() - 8*float32(n-1)
	if n == 3 {
		return down(all * []float32{212, 156, 140}[k] / 508)
	}
	return all / float32(n)
}

// layersWide is the width of the choices of the layers of a piece.
func (w *Window) layersWide() float32 {
	return min(layersWide, w.cloths.wide-layerPiece-8)
}

// layerWord heads the layers with k above them.
func layerWord(k int) string {
	return []string{"Outermost layer", "Beneath it", "And beneath"}[min(k, 2)]
}

// clothPartLayers says which piece is cut from which cloths, each change of it
// one step back, with the verdict on the cloths beside it.
func (w *Window) clothPartLayers() fyne.CanvasObject {
	g, p := w.desk.Goods(), w.desk.Pattern()
	if len(g.Cloths) == 0 {
		return para("Describe the cloths first; then say here what each piece is cut from.", w.cloths.wide-20, normal, false, w.palette.Text)
	}
	box := container.New(stack{gap: 8})
	if offer := w.proposal("", w.cloths.wide-20); offer != nil {
		box.Add(offer)
	}
	head := container.New(line{gap: 8}, gap(layerPiece, 1))
	for k := range layerColumns(g) {
		head.Add(container.New(atWidth{w.layerWide(g, k)}, text(shortened(layerWord(k), w.layerWide(g, k), small), small, false, w.palette.Faint)))
	}
	box.Add(head)
	suits := suit.Run(g, p, suit.Defaults())
	for i := range p.Pieces {
		piece := p.Pieces[i].Name
		row := container.New(line{gap: 8}, container.New(atWidth{layerPiece}, text(shortened(piece, layerPiece-4, normal), normal, true, w.palette.Text)))
		for k := range layerColumns(g) {
			row.Add(w.layerChoice(g, piece, k))
		}
		told := container.New(stack{gap: 2})
		for _, c := range suits {
			if c.Piece == piece && ofCloth(c) {
				told.Add(w.verdict(c, w.layersTold()))
			}
		}
		if w.layersBelow() {
			box.Add(row)
			box.Add(told)
		} else {
			box.Add(container.New(across{[]float32{layerPiece + w.layersWide() + 8}, 12}, row, told))
		}
		box.Add(rule(w.palette.Line))
	}
	box.Add(para("Layers that are sewn in the same seams count as one cloth with the smallest stretch. A lining or a stabiliser that is cut from the same piece is a layer; one with an outline of its own is a piece of its own (made from this one by the tool Fold, “line it”).", w.cloths.wide-20, small, false, w.palette.Faint))
	return box
}

// layersBelow reports whether the verdicts stand below the layers, for lack of
// room beside them.
func (w *Window) layersBelow() bool {
	return w.cloths.wide-layerPiece-layersWide-8-12-16 < leastDrawing
}

// layersTold is the width of the verdicts beside the layers, or below them.
func (w *Window) layersTold() float32 {
	if w.layersBelow() {
		return w.cloths.wide - 16
	}
	return w.cloths.wide - layerPiece - layersWide - 8 - 12 - 16
}

const noLayer = "–"

// layerChoice lets the cloth of one layer of a piece be chosen; a layer that
// is left out lets those beneath move up.
func (w *Window) layerChoice(g cloth.Goods, piece string, k int) fyne.CanvasObject {
	var layers []string
	for _, m := range g.Made {
		if m.Piece == piece {
			layers = m.Cloths
		}
	}
	if k > len(layers) {
		return gap(w.layerWide(g, k), 1)
	}
	none := noLayer
	if pc := w.desk.Pattern().Piece(piece); len(layers) == 0 && pc.Cut.Cloth != "" {
		none = "names " + pc.Cut.Cloth
	}
	for _, m := range g.Proposed(w.desk.Pattern()) {
		if m.Piece == piece {
			none = m.Cloths[0] + " (proposed)"
		}
	}
	options, now := []string{none}, none
	for _, c := range g.Cloths {
		options = append(options, c.Name)
	}
	if k < len(layers) {
		now = layers[k]
	}
	c := newChoice(options, now, func(s string) {
		next := slices.Clone(layers)
		switch {
		case s == now:
			return
		case s == none:
			next = slices.Delete(next, k, k+1)
		case k == len(next):
			next = append(next, s)
		default:
			next[k] = s
		}
		changed, err := w.desk.Goods().WithLayers(piece, next...)
		if err == nil {
			err = w.desk.SetGoods(changed)
		}
		w.cloths.say(err)
	})
	c.wide = w.layerWide(g, k)
	c.name = "layer " + piece + " " + string(rune('1'+k))
	return container.New(atWidth{w.layerWide(g, k)}, c)
}
