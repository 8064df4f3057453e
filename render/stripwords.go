package render

import (
	"fmt"
	"math"

	"truemat/geom"
)

// stripWords say on the strip that is cut away or covered what to do with it.
type stripWords struct {
	text string
	mid  geom.Point
}

const (
	stripText  = 1.7  // height of capitals in mm
	stripClear = 0.5  // around the words
	stripTries = 41   // places along the strip
	onAlmond   = 1000 // what a place on an almond costs, in mm of line
)

func (w stripWords) label(upper bool) Label {
	l := Label{Text: w.text, Height: stripText, Anchor: Middle, Color: grey}
	if !upper {
		l.Angle = 90 * geom.Degree
	}
	l.At = w.mid.Sub(l.Angle.Unit().Perp().Mul(stripText / 2))
	return l
}

// stripTexts are the words for the first page of a joint and for the second, the
// fullest first.
func (p Plan) stripTexts(j Joint) [2][]string {
	first, second := p.Tiles[j.First].Number, p.Tiles[j.Second].Number
	if j.Loose { // nothing lies there
		return [2][]string{}
	}
	return [2][]string{
		{fmt.Sprintf("page %d lies over this", second), fmt.Sprintf("under page %d", second)},
		{fmt.Sprintf("cut away, then lay this page on page %d", first), fmt.Sprintf("cut, lay on page %d", first), fmt.Sprintf("on page %d", first)},
	}
}

// setWords lays the words on both strips of joint i: the fullest that no line
// crosses, as near to the middle as may be; else where least does.
func (p Plan) setWords(i int, ink inkMap) {
	if p.grid.overlap/2 < stripText*(1+descent)+0.8 {
		return
	}
	j := &p.Joints[i]
	a, b, over := p.glueLine(*j)
	long := a.Dist(b)
	for side, texts := range p.stripTexts(*j) {
		least := math.Inf(1)
		aside := over.Mul(p.grid.overlap / 4 * float64(1-2*side))
		for _, text := range texts {
			half := TextWidth(text, stripText, false)/2 + stripClear
			way := max(long/2-half, 0)
			for n := range stripTries {
				at := long/2 + way*float64(n/2+n%2)/(stripTries/2)*float64(1-2*(n%2)) // from the middle outwards
				mid := a.Lerp(b, at/long).Add(aside)
				w := stripWords{text, mid}
				q := w.label(j.Upper).quad(stripClear)
				cost := ink.in(geom.BoxOf(q[:]...))
				for _, share := range j.at {
					if !j.Loose && math.Abs(share*long-at) < half+almondWidth {
						cost += onAlmond
					}
				}
				if cost < least {
					least, j.words[side] = cost, w
				}
			}
			if least == 0 {
				break
			}
		}
	}
}
