package cloth

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
)

// Place is where a piece lies on a border of a lace because she laid it there.
type Place struct {
	Size     string `json:"size,omitempty"` // for which it was laid; empty for every size
	Piece    string `json:"piece"`
	Mirrored bool   `json:"mirrored,omitempty"` // the other hand of a pair
	Second   bool   `json:"second,omitempty"`   // on the second border
	// At is how far along the lace the held spot lies, in mm from a motif point
	// of the first border, the same for all pieces.
	At float64 `json:"at"`
	// Loose says that it was not she who laid it: it stays where it lay when she
	// laid another one, unless all that is loose no longer fits there.
	Loose bool `json:"loose,omitempty"`
}

// Pin holds a piece on plain cloth where she wants it: the middle of its
// outline's extent.
type Pin struct {
	Size   string     `json:"size,omitempty"` // for which it was pinned; empty for every size
	Piece  string     `json:"piece"`
	Layer  int        `json:"layer"`
	Turned bool       `json:"turned,omitempty"` // turned over: the other hand of a pair
	At     geom.Point `json:"at"`
	Half   bool       `json:"half,omitempty"` // turned half round
	// Loose says that it is not pinned, but stays where it lay when she pinned
	// another one, unless all that is loose no longer fits there.
	Loose bool `json:"loose,omitempty"`
}

// Firm returns what she laid herself.
func Firm(places []Place) []Place {
	return slices.DeleteFunc(slices.Clone(places), func(p Place) bool { return p.Loose })
}

// FirmPins returns what she pinned herself.
func FirmPins(pins []Pin) []Pin {
	return slices.DeleteFunc(slices.Clone(pins), func(p Pin) bool { return p.Loose })
}

// In returns the places that hold in a size: those laid for it, or otherwise
// those for every size.
func (o OnLace) In(size string) []Place {
	return heldIn(o.Places, size, func(p Place) string { return p.Size })
}

// In returns the pins that hold in a size: those made for it, or otherwise
// those for every size.
func (l Laid) In(size string) []Pin {
	return heldIn(l.Pins, size, func(p Pin) string { return p.Size })
}

func heldIn[T any](all []T, size string, of func(T) string) []T {
	var own, every []T
	for _, t := range all {
		switch of(t) {
		case size:
			own = append(own, t)
		case "":
			every = append(every, t)
		}
	}
	if len(own) > 0 {
		return own
	}
	return every
}

// without leaves out what holds in a size.
func without[T any](all []T, size string, of func(T) string) []T {
	return slices.DeleteFunc(slices.Clone(all), func(t T) bool { return of(t) == size || of(t) == "" })
}

// WithPlaces returns the goods with the places of a lace that hold in a size
// replaced by others; none lets the plan be laid anew. What held in every size
// goes with them.
func (g Goods) WithPlaces(lace, size string, places []Place) Goods {
	i := slices.IndexFunc(g.Laces, func(o OnLace) bool { return o.Cloth == lace })
	g.Laces = slices.Clone(g.Laces)
	if i < 0 {
		i = len(g.Laces)
		g.Laces = append(g.Laces, OnLace{Cloth: lace})
	}
	o := &g.Laces[i]
	o.Places = without(o.Places, size, func(p Place) string { return p.Size })
	for _, p := range places {
		p.Size = size
		o.Places = append(o.Places, p)
	}
	if len(o.Places)+len(o.Wishes) == 0 && o.Gap == 0 {
		g.Laces = slices.Delete(g.Laces, i, i+1)
	}
	return g
}

// WithPins returns the goods with the pins of a plain cloth that hold in a
// size replaced by others; none lets it be laid anew. What held in every size
// goes with them.
func (g Goods) WithPins(name, size string, pins []Pin) Goods {
	i := slices.IndexFunc(g.Laid, func(l Laid) bool { return l.Cloth == name })
	g.Laid = slices.Clone(g.Laid)
	if i < 0 {
		i = len(g.Laid)
		g.Laid = append(g.Laid, Laid{Cloth: name})
	}
	l := &g.Laid[i]
	l.Pins = without(l.Pins, size, func(p Pin) string { return p.Size })
	for _, p := range pins {
		p.Size = size
		l.Pins = append(l.Pins, p)
	}
	if len(l.Pins) == 0 && l.Gap == 0 {
		g.Laid = slices.Delete(g.Laid, i, i+1)
	}
	return g
}

// HandSizes returns the sizes for which something was laid by hand, each once.
func (g Goods) HandSizes() []string {
	var out []string
	add := func(size string) {
		if size != "" && !slices.Contains(out, size) {
			out = append(out, size)
		}
	}
	for _, o := range g.Laces {
		for _, p := range o.Places {
			add(p.Size)
		}
	}
	for _, l := range g.Laid {
		for _, p := range l.Pins {
			add(p.Size)
		}
	}
	return out
}

// validatePlaces refuses places by hand that cannot be.
func (o OnLace) validatePlaces(c Cloth) error {
	for _, p := range o.Places {
		switch {
		case p.Piece == "":
			return fmt.Errorf("a place on %q is set for no piece; name the piece", o.Cloth)
		case !(math.Abs(p.At) <= longest):
			return fmt.Errorf("%q is set %g mm along %q; give a place within %d mm", p.Piece, p.At, o.Cloth, int(longest))
		case p.Second && !c.Lace.Both:
			return fmt.Errorf("%q is set on the second border of %q, which has one only; set it on the first", p.Piece, o.Cloth)
		}
	}
	return nil
}

func (l Laid) validatePins() error {
	for _, p := range l.Pins {
		switch {
		case p.Piece == "":
			return fmt.Errorf("a pin on %q holds no piece; name the piece", l.Cloth)
		case p.Layer < 0:
			return fmt.Errorf("%q is pinned on %q in layer %d; layers count from 1, the outermost", p.Piece, l.Cloth, p.Layer)
		case !(math.Abs(p.At.X) <= longest && math.Abs(p.At.Y) <= longest):
			return fmt.Errorf("%q is pinned at (%g, %g) mm on %q; give a place within %d mm", p.Piece, p.At.X, p.At.Y, l.Cloth, int(longest))
		}
	}
	return nil
}

// fitsLaying refuses pieces laid on cloth that the pattern does not have.
func (g Goods) fitsLaying(p pattern.Pattern) error {
	lacks := func(piece, how, on string) error {
		if p.Piece(piece) != nil {
			return nil
		}
		return fmt.Errorf("%q is %s %q, but the pattern has no such piece; it has %s", piece, how, on, pieceNames(p))
	}
	for _, o := range g.Laces {
		for _, w := range o.Wishes {
			if err := lacks(w.Piece, "to be laid on", o.Cloth); err != nil {
				return err
			}
		}
		for _, at := range o.Places {
			if err := lacks(at.Piece, "set by hand on", o.Cloth); err != nil {
				return err
			}
		}
	}
	for _, l := range g.Laid {
		for _, pin := range l.Pins {
			if err := lacks(pin.Piece, "pinned on", l.Cloth); err != nil {
				return err
			}
		}
	}
	return nil
}

// WithWish returns the goods with a piece lying on a lace as is wished, where
// every other piece with a lace edge lies as before. Places by hand of a piece
// that is held at another spot, or at another place of the motif, go.
func (g Goods) WithWish(lace string, p pattern.Pattern, wish Wish) Goods {
	o := g.OnLaceOf(lace, p)
	o.Wishes = slices.Clone(o.Wishes)
	i := slices.IndexFunc(o.Wishes, func(w Wish) bool { return w.Piece == wish.Piece })
	if i < 0 {
		i = len(o.Wishes)
		o.Wishes = append(o.Wishes, Wish{Piece: wish.Piece})
	}
	was := o.Wishes[i]
	o.Wishes[i] = wish
	if !same(was.Motif, wish.Motif) || !same(was.Spot, wish.Spot) || was.Edge != wish.Edge {
		o.Places = slices.DeleteFunc(slices.Clone(o.Places), func(at Place) bool { return at.Piece == wish.Piece })
	}
	return g.withLace(o)
}

func same[T comparable](a, b *T) bool { return a == b || a != nil && b != nil && *a == *b }

// WithGap returns the goods with the pieces on a lace or a plain cloth so many
// mm apart.
func (g Goods) WithGap(c Cloth, gap float64) Goods {
	if c.Lace != nil {
		o := OnLace{Cloth: c.Name}
		for _, said := range g.Laces {
			if said.Cloth == c.Name {
				o = said
			}
		}
		o.Gap = gap
		return g.withLace(o)
	}
	l := g.LaidOn(c.Name)
	l.Gap = gap
	i := slices.IndexFunc(g.Laid, func(o Laid) bool { return o.Cloth == c.Name })
	g.Laid = slices.Clone(g.Laid)
	if i < 0 {
		g.Laid = append(g.Laid, l)
	} else {
		g.Laid[i] = l
	}
	return g
}

func (g Goods) withLace(o OnLace) Goods {
	i := slices.IndexFunc(g.Laces, func(said OnLace) bool { return said.Cloth == o.Cloth })
	g.Laces = slices.Clone(g.Laces)
	if i < 0 {
		g.Laces = append(g.Laces, o)
	} else {
		g.Laces[i] = o
	}
	return g
}
