package render

import (
	"math"

	"truemat/geom"
)

// Page joining marks. In the middle of the strip that two pages share runs a
// dotted glue line; across it lie two almonds, each half of which carries the
// joint's letter and a hairline along its length. The half on the page below
// and the half on the page above complete each other. Marks are drawn in the
// sheet's coordinates on both pages and so meet exactly.

const (
	almondLength = 11.0 // from the glue line to the tip, in mm
	almondWidth  = 3.4  // from its axis to its side
	letterHeight = 3.2
	letterAt     = 5.2 // from the glue line to the middle of the letter
)

// almondsAt is where on a glue line its almonds lie when nothing is in the way.
var almondsAt = [2]float64{0.25, 0.75}

var (
	gluePen   = Pen{Width: 0.2, Color: faint, Dash: []float64{0.4, 1.6}}
	almondPen = Pen{Width: 0.2, Color: grey}
)

// joints draws the marks of the joints of tile i, in the sheet's coordinates.
func (p Plan) joints(i int) Layer {
	l := Layer{Name: "joining marks"}
	if p.Glued() == 0 {
		return l // nothing is cut along a page's side
	}
	for _, j := range p.Joints {
		if j.First == i || j.Second == i {
			l = l.with(p.joint(j, i))
		}
	}
	return l
}

// glueLine returns the ends of a joint's glue line and the direction across it
// to the second page.
func (p Plan) glueLine(j Joint) (a, b, over geom.Point) {
	first := p.Tiles[j.First]
	kept := p.grid.kept(first.Row, first.Col, p.Rows, p.Cols)
	corner := geom.Pt(kept.Max.X, kept.Min.Y)
	if j.Upper {
		return kept.Min, corner, geom.Pt(0, -1)
	}
	return kept.Max, corner, geom.Pt(1, 0)
}

// joint draws one joint as seen on tile i.
func (p Plan) joint(j Joint, i int) Layer {
	a, b, over := p.glueLine(j)
	l := Layer{Figures: []Figure{{Kind: JoinMark, Path: polyline(a, b), Pen: gluePen}}}
	if !j.Loose {
		for _, share := range j.at {
			l = l.with(almond(a.Lerp(b, share), over, j.Letter))
		}
	}
	side := 1
	if j.First == i {
		side = 0
	}
	if w := j.words[side]; w.text != "" {
		l.Labels = append(l.Labels, w.label(j.Upper))
	}
	return l
}

// clear moves the almonds of all joints along their glue lines, each on its
// half, to where they cover least of what is drawn, and finds the places of the
// words on their strips.
func (p *Plan) clear(ink inkMap) {
	const (
		reach = 0.19 // of the glue line to either side, so that the two stay apart
		tries = 19
	)
	for i, j := range p.Joints {
		a, b, over := p.glueLine(j)
		along := b.Sub(a).Unit().Mul(almondWidth + 1)
		near := ink.within(geom.BoxOf(a, b).Grow(almondLength), boxed{})
		for k, usual := range almondsAt {
			least := math.Inf(1)
			for n := range tries {
				share := usual + reach*float64(n/2+n%2)/(tries/2)*float64(1-2*(n%2)) // from the middle outwards
				c := a.Lerp(b, share)
				box := geom.BoxOf(c.Add(over.Mul(almondLength)).Add(along), c.Sub(over.Mul(almondLength)).Sub(along))
				if covered := near.in(box); covered < least {
					least, p.Joints[i].at[k] = covered, share
				}
			}
		}
		p.setWords(i, near)
	}
}

// almond draws the mark at c on a glue line that over crosses.
func almond(c, over geom.Point, letter string) Layer {
	along := over.Perp()
	tip0, tip1 := c.Sub(over.Mul(almondLength)), c.Add(over.Mul(almondLength))
	// The middle of a cubic lies at three quarters of its handles' height.
	w := along.Mul(almondWidth * 4 / 3)
	reach := over.Mul(almondLength * 0.75)
	left := geom.Curve(tip0, tip0.Add(reach).Add(w), tip1.Sub(reach).Add(w), tip1)
	right := geom.Curve(tip1, tip1.Sub(reach).Sub(w), tip0.Add(reach).Sub(w), tip0)
	body, err := geom.NewClosed(left, right)
	if err != nil {
		return Layer{}
	}
	l := Layer{Figures: []Figure{{Kind: JoinMark, Path: body, Pen: almondPen}}}
	// The hairline leaves room for the letters.
	room := letterHeight * 0.75
	hair := func(a, b float64) {
		l.Figures = append(l.Figures, Figure{Kind: JoinMark, Path: polyline(c.Add(over.Mul(a)), c.Add(over.Mul(b))), Pen: almondPen})
	}
	hair(-almondLength, -letterAt-room)
	hair(-letterAt+room, letterAt-room)
	hair(letterAt+room, almondLength)
	for _, side := range []float64{-1, 1} {
		at := c.Add(over.Mul(side * letterAt)).Sub(geom.Pt(0, letterHeight/2))
		l.Labels = append(l.Labels, Label{Text: letter, At: at, Height: letterHeight, Anchor: Middle, Color: grey, Bold: true})
	}
	return l
}
