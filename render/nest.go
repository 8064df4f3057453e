package render

import (
	"errors"
	"fmt"
	"image/color"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
)

// nestStyles are the cut lines of nested sizes. The colours are told apart
// also with impaired colour vision (Okabe & Ito) and have 3:1 on white; the
// dashes tell the sizes apart without them.
var nestStyles = []Pen{
	{Color: black},
	{Color: color.NRGBA{R: 0x00, G: 0x72, B: 0xb2, A: 255}, Dash: []float64{8, 2}},
	{Color: color.NRGBA{R: 0xd5, G: 0x5e, B: 0x00, A: 255}, Dash: []float64{3, 1.5}},
	{Color: color.NRGBA{R: 0x00, G: 0x9e, B: 0x73, A: 255}, Dash: []float64{10, 1.5, 1.5, 1.5}},
	{Color: color.NRGBA{R: 0xcc, G: 0x79, B: 0xa7, A: 255}, Dash: []float64{10, 1.5, 1.5, 1.5, 1.5, 1.5}},
	{Color: black, Dash: []float64{1.2, 1.2}},
	{Color: color.NRGBA{R: 0x00, G: 0x72, B: 0xb2, A: 255}, Dash: []float64{6, 1.2, 6, 1.2, 1.2, 1.2}},
	{Color: color.NRGBA{R: 0xd5, G: 0x5e, B: 0x00, A: 255}, Dash: []float64{16, 3}},
}

// nestWidths tell apart sizes of the same style, when there are more sizes
// than styles.
var nestWidths = []float64{0.4, 0.22, 0.65}

// nestPens returns the cut, sew and notch pens of size i of several.
func nestPens(i int) (cut, sew, notch Pen) {
	style := nestStyles[i%len(nestStyles)]
	cut, sew, notch = style, style, style
	cut.Width = nestWidths[i/len(nestStyles)%len(nestWidths)]
	sew.Width, sew.Dash = 0.12, []float64{0.8, 1.6}
	notch.Width, notch.Dash = 0.4, nil
	return cut, sew, notch
}

// longestSize is how many letters of a size's label stand on its cut line.
const longestSize = 10

// shortSize returns a label to stand on a cut line; the title block has it
// whole.
func shortSize(label string) string {
	if r := []rune(label); len(r) > longestSize {
		return string(r[:longestSize-1]) + "…"
	}
	return label
}

// nestPieces gathers the pieces of the sizes by name, in the order in which
// they are first met.
func nestPieces(sizes []SizePieces, on []Common) ([]*nest, error) {
	if len(sizes) == 0 {
		return nil, errors.New("no size is given to draw")
	}
	var nests []*nest
	byName := map[string]*nest{}
	for i, s := range sizes {
		for _, pc := range s.Pieces {
			n := byName[pc.Name]
			if n == nil {
				n = &nest{name: pc.Name, pose: pc.Pose, total: len(sizes)}
				byName[pc.Name] = n
				nests = append(nests, n)
			}
			n.sizes = append(n.sizes, i)
			n.each = append(n.each, pc)
			n.label = append(n.label, s.Label)
			n.laces = append(n.laces, nil)
			n.moves = append(n.moves, geom.Shift(nestAnchor(&n.each[0]).Sub(nestAnchor(&pc))))
		}
	}
	if len(nests) == 0 {
		return nil, errors.New("the pattern has no piece to draw")
	}
	for i, c := range on {
		n := byName[c.At.Piece]
		switch {
		case n == nil:
			return nil, fmt.Errorf("the sizes cannot lie on %s: there is no piece %q to draw", c.At, c.At.Piece)
		case slices.ContainsFunc(on[:i], func(o Common) bool { return o.At.Piece == c.At.Piece }):
			return nil, fmt.Errorf("two places are named on which the sizes of %s lie; a piece lies on one", c.At.Piece)
		}
		if err := n.lieOn(c); err != nil {
			return nil, err
		}
	}
	return nests, nil
}

// Common says on what of a piece its sizes lie: a spot of the piece, the same
// in every size, and, when Along is given, the straight line from there
// through a second spot of the piece, which gives the direction.
type Common struct {
	At    pattern.Spot
	Along *pattern.Spot
}

// ParseCommon reads what lies on itself in all sizes from the text of a spot
// and, when along is not empty, that of a second spot of the same piece; see
// [pattern.ParseSpot].
func ParseCommon(at, along string) (Common, error) {
	spot, err := pattern.ParseSpot(at)
	if err != nil || along == "" {
		return Common{At: spot}, err
	}
	second, err := pattern.ParseSpot(along)
	return Common{spot, &second}, err
}

// lieOn lays the sizes of a piece on a common spot, or on a common line.
func (n *nest) lieOn(c Common) error {
	if c.Along != nil && c.Along.Piece != n.name {
		return fmt.Errorf("the line from %s on goes through %s; both must be of one piece", c.At, c.Along)
	}
	var at0, along0 geom.Point
	for i := range n.each {
		at, err := n.spot(i, c.At)
		if err != nil {
			return err
		}
		if i == 0 {
			at0 = at
		}
		n.moves[i] = geom.Shift(at0.Sub(at))
		if c.Along == nil {
			continue
		}
		along, err := n.spot(i, *c.Along)
		if err != nil {
			return err
		}
		if i == 0 {
			along0 = along
		}
		if n.moves[i], err = geom.Carry(at, along, at0, along0); err != nil {
			return fmt.Errorf("size %s: %s and %s of %s lie at the same place; a line needs two", n.label[i], c.At, c.Along, n.name)
		}
	}
	return nil
}

// spot returns where a spot lies in the coordinates of the piece.
func (n *nest) spot(i int, s pattern.Spot) (geom.Point, error) {
	place, err := pattern.Pattern{Pieces: n.each[i : i+1]}.Find(s)
	if err != nil {
		return geom.Point{}, fmt.Errorf("size %s: %w", n.label[i], err)
	}
	return place.Point, nil
}

// nestAnchor is the place of a piece that lies on that of the other sizes.
func nestAnchor(pc *pattern.Piece) geom.Point {
	if f := pc.Fold(); f != nil {
		return f.Path.At(f.Path.Length() / 2)
	}
	b := geom.NoBox()
	for _, e := range pc.Edges {
		b = b.Union(e.Path.Bounds())
	}
	return b.Center()
}

// draw draws the nest moved by m: a layer for each size asked for and one for
// what they have in common.
func (n *nest) draw(m geom.Motion, opt Options, glue []geom.Path) ([]Layer, error) {
	vs := make([]version, len(n.each))
	for i, pc := range n.each {
		v, err := newVersion(pc, n.moves[i].Then(m), n.label[i], opt.FoldWhole, n.laces[i]...)
		if err != nil {
			return nil, err
		}
		if n.total > 1 {
			v.nth = n.sizes[i]
			v.cut, v.sew, v.notch = nestPens(v.nth)
		}
		v.units = opt.Units
		vs[i] = v
	}
	common, own := drawPiece(vs, opt.Pattern, glue)
	layers := make([]Layer, n.total+1)
	for i, l := range own {
		layers[n.sizes[i]] = l
	}
	layers[n.total] = common
	return layers, nil
}
