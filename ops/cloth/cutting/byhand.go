package cutting

import (
	"fmt"
	"slices"

	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/cloth/slice"
)

// beyond is how far in mm a piece may reach over the edge of the cloth by rounding.
const beyond = 1e-6

// centred returns the motion that lays the middle of a piece's extent at a place.
func (o one) centred(at geom.Point, turned bool) geom.Motion {
	way := geom.Identity()
	if turned {
		way = half
	}
	return way.Then(geom.Shift(at.Sub(o.outline.Transform(way).Bounds().Center())))
}

func (p Placed) profile() slice.Profile { return slice.Of(p.Outline, geom.Identity()) }

// Middle is where the middle of the piece's extent lies.
func (p Placed) Middle() geom.Point { return p.Outline.Bounds().Center() }

// Name names the piece, its hand when it is turned over, and its layer when
// that is not the outermost.
func (p Placed) Name() string {
	name := p.Piece
	if p.Turned {
		name += ", turned over"
	}
	if p.Layer > 1 {
		name += fmt.Sprintf(", layer %d", p.Layer)
	}
	return name
}

// Moved returns the layout with piece i pinned with its middle at a place,
// turned half round or not. It may overlap others or the edge of the cloth
// after that.
func (l Layout) Moved(i int, at geom.Point, turned bool) Layout {
	l.Placed = slices.Clone(l.Placed)
	p := &l.Placed[i]
	m := p.of.centred(at, turned)
	p.Half, p.Pinned = turned, true
	p.Motion, p.Outline = p.of.motion.Then(m), p.of.outline.Transform(m)
	l.Length = 0
	for _, o := range l.Placed {
		l.Length = max(l.Length, o.Outline.Bounds().Max.X)
	}
	return l
}

// Within returns the place nearest to at where the middle of piece i may be so
// that it lies within the cloth's width and not before its beginning.
func (l Layout) Within(i int, at geom.Point) geom.Point {
	box := l.Placed[i].Outline.Bounds()
	w, h := box.Width()/2, box.Height()/2
	return geom.Pt(max(at.X, w), max(min(at.Y, l.Cloth.Width-h), h))
}

// Beyond reports whether piece i reaches over the edge of the cloth.
func (l Layout) Beyond(i int) bool {
	box := l.Placed[i].Outline.Bounds()
	return !(box.Min.X >= -beyond && box.Min.Y >= -beyond && box.Max.Y <= l.Cloth.Width+beyond)
}

// Overlaps returns the pairs of pieces that lie over each other, or nearer
// than the gap, as indices into Placed.
func (l Layout) Overlaps() [][2]int {
	profiles := make([]slice.Profile, len(l.Placed))
	for i, o := range l.Placed {
		profiles[i] = o.profile()
	}
	var out [][2]int
	for i := range l.Placed {
		grown := profiles[i].Grown(l.Gap)
		for k := range i {
			if grown.Over(profiles[k]) {
				out = append(out, [2]int{k, i})
			}
		}
	}
	return out
}

// Firm returns the layout of the pinned pieces alone.
func (l Layout) Firm() Layout {
	l.Placed = slices.DeleteFunc(slices.Clone(l.Placed), func(o Placed) bool { return !o.Pinned })
	return l
}

// GivesWay returns the pieces that lie under a pinned one and are not pinned
// themselves, as indices into Placed.
func (l Layout) GivesWay() []int {
	var out []int
	for _, o := range l.Overlaps() {
		for k, i := range o {
			if !l.Placed[i].Pinned && l.Placed[o[1-k]].Pinned && !slices.Contains(out, i) {
				out = append(out, i)
			}
		}
	}
	return out
}

// Wrong tells of a piece over the edge, or of two that lie over each other.
func (l Layout) Wrong() error {
	for i, o := range l.Placed {
		if l.Beyond(i) {
			return fmt.Errorf("%s reaches beyond the edge of %q; pin it further in, or forget what was laid by hand", o.Name(), l.Cloth.Name)
		}
	}
	over := l.Overlaps()
	if len(over) == 0 {
		return nil
	}
	a, b := l.Placed[over[0][0]], l.Placed[over[0][1]]
	if l.Gap > 0 {
		return fmt.Errorf("%s and %s are pinned nearer to each other on %q than the %g mm that are to be between them; move one of them, or forget what was laid by hand", a.Name(), b.Name(), l.Cloth.Name, l.Gap)
	}
	return fmt.Errorf("%s and %s are pinned over each other on %q; move one of them, or forget what was laid by hand", a.Name(), b.Name(), l.Cloth.Name)
}

// Pins returns the pins that keep every piece where it lies, those loose that
// she did not pin; none when she pinned none of them. It leaves out those that
// are let go.
func (l Layout) Pins(letGo func(i int) bool) []cloth.Pin {
	var out []cloth.Pin
	for i, o := range l.Placed {
		if letGo == nil || !letGo(i) {
			out = append(out, cloth.Pin{Piece: o.Piece, Layer: o.Layer, Turned: o.Turned, At: o.Middle(), Half: o.Half, Loose: !o.Pinned})
		}
	}
	if len(cloth.FirmPins(out)) == 0 {
		return nil
	}
	return out
}
