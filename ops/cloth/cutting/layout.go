package cutting

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/cloth/slice"
	"truemat/ops/pattern"
)

// Layout is pieces laid on a length of plain cloth. Its selvedges run along
// x, the lower one at y = 0; it is cut off at x = 0 and x = Length.
type Layout struct {
	Cloth  cloth.Cloth
	Gap    float64 // mm between cut lines
	Length float64 // mm to buy
	Placed []Placed
}

// Placed is one piece laid on the cloth.
type Placed struct {
	Piece   string
	Layer   int
	Turned  bool // turned over: the other hand of a pair
	Half    bool // turned half round
	Motion  geom.Motion
	Outline geom.Path // cut line, on the cloth; of a piece on the fold whole
	Pinned  bool

	of one
}

// one is a piece to be laid, in the direction its arrow asks for.
type one struct {
	entry   Entry
	turned  bool
	motion  geom.Motion // from the piece's coordinates, arrow laid right
	outline geom.Path
}

// raster is the distance in mm between the heights at which a piece is tried.
const raster = 20 * slice.Band

// Of lays what is cut from a plain cloth as the goods say, with the pins for
// the size.
func Of(g cloth.Goods, c cloth.Cloth, p pattern.Pattern, size string) (Layout, error) {
	how := g.LaidOn(c.Name)
	pins := how.In(size)
	l, err := Lay(p, g, c, how.Gap, pins)
	if firm := cloth.FirmPins(pins); err != nil && len(firm) < len(pins) {
		return Lay(p, g, c, how.Gap, firm)
	}
	return l, err
}

// Lay lays everything that is to be cut from a plain cloth in its width, gap
// mm apart, on a short length: one piece after the other, the longest first,
// each as far left as it goes at any height. Arrows are kept; a cloth without
// an up and down may be turned half round. Pinned pieces come first, where
// they are pinned.
func Lay(p pattern.Pattern, g cloth.Goods, c cloth.Cloth, gap float64, pins []cloth.Pin) (Layout, error) {
	return lay(p, g, c, gap, pins, Layout.Wrong)
}

// AsLaid returns the layout that Of refuses because pinned pieces lie over each
// other or beyond the cloth, as after an alteration: all of those where they were
// pinned, the rest around them.
func AsLaid(g cloth.Goods, c cloth.Cloth, p pattern.Pattern, size string) (Layout, error) {
	how := g.LaidOn(c.Name)
	return lay(p, g, c, how.Gap, how.In(size), func(Layout) error { return nil })
}

// lay lays all pieces, unless those that are pinned are wrong.
func lay(p pattern.Pattern, g cloth.Goods, c cloth.Cloth, gap float64, pins []cloth.Pin, wrong func(Layout) error) (Layout, error) {
	if !(gap >= 0 && gap <= c.Width) {
		return Layout{}, fmt.Errorf("pieces are to keep a gap of %g mm on %q; give 0 or more, below its width", gap, c.Name)
	}
	if len(c.Of) > 0 || !(c.Width > 0) {
		return Layout{}, fmt.Errorf("%q has no width of its own to lay pieces in; lay out the cloths it is made of", c.Name)
	}
	pieces, err := wanted(p, g, c)
	if err != nil {
		return Layout{}, err
	}
	out := Layout{Cloth: c, Gap: gap}
	var down []slice.Profile
	pieces, down, err = out.pin(pieces, pins, gap)
	if err == nil {
		err = wrong(out)
	}
	if err != nil {
		return Layout{}, err
	}
	slices.SortStableFunc(pieces, func(a, b one) int {
		x, y := a.outline.Bounds(), b.outline.Bounds()
		switch {
		case x.Width() > y.Width():
			return -1
		case x.Width() < y.Width():
			return 1
		}
		return 0
	})
	for _, o := range pieces {
		at, prof, half, ok := o.leftmost(c, down)
		if !ok {
			return Layout{}, fmt.Errorf("%s is wider across its arrow than %q (%.0f mm); take a wider cloth, or split the piece", o.entry.Piece, c.Name, c.Width)
		}
		down = append(down, prof.Grown(gap))
		out.add(o, at, half, false)
	}
	return out, nil
}

// wanted returns the pieces cut from a plain cloth, each laid by its arrow.
func wanted(p pattern.Pattern, g cloth.Goods, c cloth.Cloth) ([]one, error) {
	var out []one
	for _, e := range List(p, g) {
		if e.Cloth != c.Name || e.Lace {
			continue
		}
		pc := p.Piece(e.Piece)
		outline, err := cloth.WholeCut(pc)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", e.Piece, err)
		}
		for k := range e.Count {
			o := one{entry: e, turned: e.Pair && k%2 == 1}
			along, across := g.Stretch(c)
			// The axis of the cloth that the arrow lies along: x is the selvedge.
			axis := geom.Pt(1, 0)
			if pc.Arrow.Kind == pattern.MostStretch && across > along || pc.Arrow.Kind == pattern.LeastStretch && across < along {
				axis = geom.Pt(0, 1)
			}
			o.motion = geom.Turn(geom.Between(pc.Arrow.To.Sub(pc.Arrow.From), axis), geom.Point{})
			if o.turned {
				over, err := geom.Mirror(geom.Point{}, axis)
				if err != nil {
					return nil, err
				}
				o.motion = o.motion.Then(over)
			}
			o.outline = outline.Transform(o.motion)
			out = append(out, o)
		}
	}
	return out, nil
}

// half turns a layout half round.
var half = geom.Turn(math.Pi, geom.Point{})

// leftmost returns the motion that lays the piece farthest left, and its profile there.
func (o one) leftmost(c cloth.Cloth, down []slice.Profile) (motion geom.Motion, profile slice.Profile, turned, found bool) {
	best := math.Inf(1)
	ways := []geom.Motion{geom.Identity()}
	if !c.OneWay {
		ways = append(ways, half)
	}
	for k, way := range ways {
		box := o.outline.Transform(way).Bounds()
		low := way.Then(geom.Shift(geom.Pt(-box.Min.X, -box.Min.Y)))
		prof := slice.Of(o.outline, low)
		for y := 0.0; y+box.Height() <= c.Width+1e-9; y += raster {
			up := prof.Raised(int(math.Round(y / slice.Band)))
			if x := firstFree(up, down); x+box.Width() < best-1e-9 {
				best, turned, found = x+box.Width(), k > 0, true
				motion, profile = low.Then(geom.Shift(geom.Pt(x, y))), up.Shifted(x)
			}
		}
	}
	return motion, profile, turned, found
}

// firstFree returns the least x ≥ 0 at which a profile overlaps none of those
// that are down; it may lie between them, or in a hollow.
func firstFree(p slice.Profile, down []slice.Profile) float64 {
	var taken []slice.Span
	for _, d := range down {
		taken = append(taken, d.Taken(p)...)
	}
	slices.SortFunc(taken, func(a, b slice.Span) int { return cmp.Compare(a.From, b.From) })
	x := 0.0
	for _, s := range taken {
		if x > s.From+1e-9 && x < s.To {
			x = s.To
		}
	}
	return x
}

// pin lays the pinned pieces and returns the others.
func (l *Layout) pin(pieces []one, pins []cloth.Pin, gap float64) ([]one, []slice.Profile, error) {
	var down []slice.Profile
	for _, pin := range pins {
		i := slices.IndexFunc(pieces, func(o one) bool {
			return o.entry.Piece == pin.Piece && o.entry.Layer == max(pin.Layer, 1) && o.turned == pin.Turned
		})
		if i < 0 {
			return nil, nil, fmt.Errorf("%q is pinned on %q, but no such piece is left to be cut from it; lay it anew", pin.Piece, l.Cloth.Name)
		}
		if pin.Half && l.Cloth.OneWay {
			return nil, nil, fmt.Errorf("%q is pinned turned half round, but %q has an up and a down; lay it anew", pin.Piece, l.Cloth.Name)
		}
		o := pieces[i]
		l.add(o, o.centred(pin.At, pin.Half), pin.Half, !pin.Loose)
		pieces = slices.Delete(slices.Clone(pieces), i, i+1)
	}
	for _, o := range l.Placed {
		down = append(down, o.profile().Grown(gap))
	}
	return pieces, down, nil
}

func (l *Layout) add(o one, at geom.Motion, half, pinned bool) {
	outline := o.outline.Transform(at)
	l.Length = max(l.Length, outline.Bounds().Max.X)
	l.Placed = append(l.Placed, Placed{Piece: o.entry.Piece, Layer: o.entry.Layer, Turned: o.turned, Half: half, Motion: o.motion.Then(at), Outline: outline, Pinned: pinned, of: o})
}
