package cloth

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
)

// WithCloth returns the goods with a cloth in the place of the one that was
// called so, or one more when was is empty or unknown. What spoke of it by its
// old name speaks of it by the new one; a cloth that is no lace any more is not
// laid by its border. Refused is what [Goods.Validate] refuses.
func (g Goods) WithCloth(was string, c Cloth) (Goods, error) {
	g = g.clone()
	i := slices.IndexFunc(g.Cloths, func(x Cloth) bool { return x.Name == was })
	if i < 0 {
		g.Cloths = append(g.Cloths, c)
		return g, g.Validate()
	}
	g.Cloths[i] = c
	if c.Lace == nil {
		g.Laces = slices.DeleteFunc(g.Laces, func(o OnLace) bool { return o.Cloth == was })
	}
	if len(c.Of) > 0 {
		g.Laid = slices.DeleteFunc(g.Laid, func(l Laid) bool { return l.Cloth == was })
	}
	g.renameCloth(was, c.Name)
	return g, g.Validate()
}

// renameCloth changes the name by which all but the cloth itself calls it.
func (g *Goods) renameCloth(was, name string) {
	rename := func(list []string) {
		for i := range list {
			if list[i] == was {
				list[i] = name
			}
		}
	}
	for i := range g.Cloths {
		rename(g.Cloths[i].Of)
	}
	for i := range g.Made {
		rename(g.Made[i].Cloths)
	}
	for i := range g.Laces {
		if g.Laces[i].Cloth == was {
			g.Laces[i].Cloth = name
		}
	}
	for i := range g.Laid {
		if g.Laid[i].Cloth == was {
			g.Laid[i].Cloth = name
		}
	}
}

// WithoutCloth returns the goods without a cloth: pieces lose it as a layer,
// and what is laid on it is forgotten. It is refused while another cloth is
// made of it.
func (g Goods) WithoutCloth(name string) (Goods, error) {
	if _, ok := g.Cloth(name); !ok {
		return g, g.unknown(name)
	}
	for _, c := range g.Cloths {
		if slices.Contains(c.Of, name) {
			return g, fmt.Errorf("%q is made of %q; remove that first, or make it of others", c.Name, name)
		}
	}
	g = g.clone()
	g.Cloths = slices.DeleteFunc(g.Cloths, func(c Cloth) bool { return c.Name == name })
	for i := range g.Made {
		g.Made[i].Cloths = slices.DeleteFunc(g.Made[i].Cloths, func(s string) bool { return s == name })
	}
	g.Made = slices.DeleteFunc(g.Made, func(m Made) bool { return len(m.Cloths) == 0 })
	g.Laces = slices.DeleteFunc(g.Laces, func(o OnLace) bool { return o.Cloth == name })
	g.Laid = slices.DeleteFunc(g.Laid, func(l Laid) bool { return l.Cloth == name })
	return g, g.Validate()
}

// WithLayers returns the goods with a piece cut from other cloths, the
// outermost first; without any, nothing is said of the piece any more.
func (g Goods) WithLayers(piece string, cloths ...string) (Goods, error) {
	g = g.clone()
	i := slices.IndexFunc(g.Made, func(m Made) bool { return m.Piece == piece })
	switch {
	case len(cloths) == 0 && i >= 0:
		g.Made = slices.Delete(g.Made, i, i+1)
	case len(cloths) == 0:
	case i < 0:
		g.Made = append(g.Made, Made{piece, slices.Clone(cloths)})
	default:
		g.Made[i].Cloths = slices.Clone(cloths)
	}
	g.unlay(piece)
	return g, g.Validate()
}

// unlay forgets how a piece lies on cloths that it is not cut from any more.
func (g *Goods) unlay(piece string) {
	g.Laces = slices.DeleteFunc(g.Laces, func(o OnLace) bool {
		return !g.Cuts(piece, o.Cloth) && len(o.Wishes) == 1 && o.Wishes[0].Piece == piece
	})
	for i := range g.Laces {
		if o := &g.Laces[i]; !g.Cuts(piece, o.Cloth) {
			o.Wishes = slices.DeleteFunc(slices.Clone(o.Wishes), func(w Wish) bool { return w.Piece == piece })
			o.Places = slices.DeleteFunc(slices.Clone(o.Places), func(p Place) bool { return p.Piece == piece })
		}
	}
	for i := range g.Laid {
		if l := &g.Laid[i]; !g.Cuts(piece, l.Cloth) {
			l.Pins = slices.DeleteFunc(slices.Clone(l.Pins), func(p Pin) bool { return p.Piece == piece })
		}
	}
}

// WithElastic returns the goods with an elastic in the place of the one that
// was called so, or one more when was is empty or unknown; the stitches that
// sew it and the order of sewing follow its name.
func (g Goods) WithElastic(was string, e Elastic) (Goods, error) {
	g = g.clone()
	i := slices.IndexFunc(g.Elastics, func(x Elastic) bool { return x.Name == was })
	if i < 0 {
		g.Elastics = append(g.Elastics, e)
		return g, g.Validate()
	}
	g.Elastics[i] = e
	for _, s := range g.Notions.Sewing {
		for k, name := range s.Elastics {
			if name == was {
				s.Elastics[k] = e.Name
			}
		}
	}
	for k, act := range g.Order {
		if kind, name, _ := strings.Cut(act, " "); kind == "elastic" && name == was {
			g.Order[k] = "elastic " + e.Name
		}
	}
	return g, g.Validate()
}

// WithoutElastic returns the goods without an elastic; a stitch that sewed
// nothing else goes with it.
func (g Goods) WithoutElastic(name string) (Goods, error) {
	g = g.clone()
	g.Elastics = slices.DeleteFunc(g.Elastics, func(e Elastic) bool { return e.Name == name })
	g.Notions.Sewing = slices.DeleteFunc(g.Notions.Sewing, func(s Sewing) bool {
		return slices.Equal(s.Elastics, []string{name}) && len(s.Seams)+len(s.Lines) == 0
	})
	for i := range g.Notions.Sewing {
		s := &g.Notions.Sewing[i]
		s.Elastics = slices.DeleteFunc(s.Elastics, func(e string) bool { return e == name })
	}
	return g, g.Validate()
}

// clone copies all that a change may write to.
func (g Goods) clone() Goods {
	g.Cloths = slices.Clone(g.Cloths)
	for i := range g.Cloths {
		g.Cloths[i].Of = slices.Clone(g.Cloths[i].Of)
	}
	g.Made = slices.Clone(g.Made)
	for i := range g.Made {
		g.Made[i].Cloths = slices.Clone(g.Made[i].Cloths)
	}
	g.Elastics, g.Laces, g.Laid, g.Order = slices.Clone(g.Elastics), slices.Clone(g.Laces), slices.Clone(g.Laid), slices.Clone(g.Order)
	for i := range g.Elastics {
		e := &g.Elastics[i]
		e.On, e.Stretches = slices.Clone(e.On), slices.Clone(e.Stretches)
		for k := range e.Stretches {
			e.Stretches[k].Pieces = slices.Clone(e.Stretches[k].Pieces)
		}
	}
	for i := range g.Laces {
		o := &g.Laces[i]
		o.Wishes, o.Places = slices.Clone(o.Wishes), slices.Clone(o.Places)
	}
	for i := range g.Laid {
		g.Laid[i].Pins = slices.Clone(g.Laid[i].Pins)
	}
	g.Topstitch = slices.Clone(g.Topstitch)
	g.Notions.Sewing = slices.Clone(g.Notions.Sewing)
	for i := range g.Notions.Sewing {
		s := &g.Notions.Sewing[i]
		s.Seams, s.Lines, s.Elastics = slices.Clone(s.Seams), slices.Clone(s.Lines), slices.Clone(s.Elastics)
	}
	return g
}

// With returns the cloth of a name from a list, behind those it is made of. An
// error says which there are.
func With(list []Cloth, name string) ([]Cloth, error) {
	g := Goods{Cloths: list}
	c, ok := g.Cloth(name)
	if !ok {
		return nil, g.unknown(name)
	}
	var out []Cloth
	for _, part := range c.Of {
		p, ok := g.Cloth(part)
		if !ok {
			return nil, fmt.Errorf("cloth %q: %w", name, g.unknown(part))
		}
		out = append(out, p)
	}
	return append(out, c), nil
}

// Taking returns the goods with a cloth from a list, and those it is made of.
// What is there already stays; it is refused when another cloth has the name.
func (g Goods) Taking(list []Cloth, name string) (Goods, error) {
	wanted, err := With(list, name)
	if err != nil {
		return g, err
	}
	g = g.clone()
	for _, c := range wanted {
		there, ok := g.Cloth(c.Name)
		switch {
		case !ok:
			g.Cloths = append(g.Cloths, c)
		case !reflect.DeepEqual(there, c):
			return g, fmt.Errorf("the document has another cloth called %q already; give that one another name, or remove it, first", c.Name)
		}
	}
	return g, g.Validate()
}
