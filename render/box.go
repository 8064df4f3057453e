package render

import "truemat/geom"

// figureBox returns the box around a figure, its pen included.
func figureBox(f Figure) geom.Box { return f.Path.Bounds().Grow(f.Pen.Width / 2) }

// labelBox returns the box around a label.
func labelBox(l Label) geom.Box {
	q := l.quad(0)
	return geom.BoxOf(q[:]...)
}

// boxed is a layer with the boxes of what it holds, for drawing it in parts.
type boxed struct {
	Layer
	figures, labels []geom.Box
}

func newBoxed(l Layer) boxed {
	b := boxed{Layer: l, figures: make([]geom.Box, len(l.Figures)), labels: make([]geom.Box, len(l.Labels))}
	for i, f := range l.Figures {
		b.figures[i] = figureBox(f)
	}
	for i, t := range l.Labels {
		b.labels[i] = labelBox(t)
	}
	return b
}

// in returns the layer without what lies wholly outside a box.
func (b boxed) in(clip geom.Box) Layer {
	l := Layer{Name: b.Name}
	for i, f := range b.Figures {
		if b.figures[i].Overlaps(clip) {
			l.Figures = append(l.Figures, f)
		}
	}
	for i, t := range b.Labels {
		if b.labels[i].Overlaps(clip) {
			l.Labels = append(l.Labels, t)
		}
	}
	return l
}

// layersBox returns the box around layers, pens and labels included.
func layersBox(layers []Layer) geom.Box {
	b := geom.NoBox()
	for _, l := range layers {
		for _, f := range l.Figures {
			b = b.Union(figureBox(f))
		}
		for _, t := range l.Labels {
			b = b.Union(labelBox(t))
		}
	}
	return b
}
