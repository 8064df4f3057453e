package cloth

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Goods is all that a pattern is cut from and finished with.
type Goods struct {
	Cloths   []Cloth   `json:"cloths,omitempty"`
	Made     []Made    `json:"made,omitempty"`
	Elastics []Elastic `json:"elastics,omitempty"`
	Notions  Notions   `json:"notions,omitzero"`
	Laces    []OnLace  `json:"laces,omitempty"`
	Laid     []Laid    `json:"laid,omitempty"`
	// Topstitch says which seams are stitched once more from the right side.
	Topstitch []Topstitch `json:"topstitch,omitempty"`
	// Order names acts of sewing in the order in which she wants them.
	Order []string `json:"order,omitempty"`
}

// Made says which cloths a piece is cut from, the outermost first. Layers
// that are sewn in the same seams are handled as one cloth.
type Made struct {
	Piece  string   `json:"piece"`
	Cloths []string `json:"cloths"`
}

// Cloth returns the cloth of that name.
func (g Goods) Cloth(name string) (Cloth, bool) {
	i := slices.IndexFunc(g.Cloths, func(c Cloth) bool { return c.Name == name })
	if i < 0 {
		return Cloth{}, false
	}
	return g.Cloths[i], true
}

// Layers returns the cloths a piece is made of, the outermost first; nil when
// that was not said.
func (g Goods) Layers(piece string) []Cloth {
	var out []Cloth
	for _, m := range g.Made {
		if m.Piece != piece {
			continue
		}
		for _, name := range m.Cloths {
			if c, ok := g.Cloth(name); ok {
				out = append(out, c)
			}
		}
	}
	return out
}

// Sheets returns the layers of a piece with those handled as one taken apart,
// the outermost first.
func (g Goods) Sheets(piece string) []Cloth {
	var out []Cloth
	for _, c := range g.Layers(piece) {
		if len(c.Of) == 0 {
			out = append(out, c)
		}
		for _, name := range c.Of {
			part, _ := g.Cloth(name)
			out = append(out, part)
		}
	}
	return out
}

// Cuts reports whether a piece is cut from the cloth of that name.
func (g Goods) Cuts(piece, name string) bool {
	return slices.ContainsFunc(g.Sheets(piece), func(c Cloth) bool { return c.Name == name })
}

// Stretch returns by how many per cent a cloth stretches along its selvedge
// and across it. Of cloths handled as one it is the smallest stretch of each
// direction, the cloths lying the same way.
func (g Goods) Stretch(c Cloth) (along, across float64) {
	if len(c.Of) == 0 {
		return c.Along.percent(), c.Across.percent()
	}
	for i, name := range c.Of {
		part, _ := g.Cloth(name)
		a, b := part.Along.percent(), part.Across.percent()
		if i == 0 {
			along, across = a, b
			continue
		}
		along, across = min(along, a), min(across, b)
	}
	return along, across
}

// Pulled reports along and across whether a cloth was pulled that way; of cloths
// handled as one, whether each of them was.
func (g Goods) Pulled(c Cloth) (along, across bool) {
	if len(c.Of) == 0 {
		return c.Along.Measured(), c.Across.Measured()
	}
	along, across = true, true
	for _, name := range c.Of {
		part, _ := g.Cloth(name)
		along, across = along && part.Along.Measured(), across && part.Across.Measured()
	}
	return along, across
}

// Gives says how far a cloth stretches each way, in per cent to a tenth, and
// which way it was not pulled.
func (g Goods) Gives(c Cloth) string {
	one := func(percent float64, pulled bool, way string) string {
		if !pulled {
			return "not pulled " + way
		}
		return strconv.FormatFloat(math.Round(percent*10)/10, 'f', -1, 64) + " % " + way
	}
	a, b := g.Stretch(c)
	along, across := g.Pulled(c)
	if !along && !across {
		return "not pulled"
	}
	return one(a, along, "along") + ", " + one(b, across, "across")
}

func (p Pull) percent() float64 {
	if !p.Measured() {
		return 0
	}
	return p.Stretch()
}

// Thickness returns the thickness of a cloth in mm, of cloths handled as one
// their sum.
func (g Goods) Thickness(c Cloth) float64 {
	sum := c.Thickness
	for _, name := range c.Of {
		part, _ := g.Cloth(name)
		sum += part.Thickness
	}
	return sum
}

// Validate refuses goods that name what they do not hold. What they say of
// pieces and lines is looked at by [Goods.Fits].
func (g Goods) Validate() error {
	seen := map[string]bool{}
	for _, c := range g.Cloths {
		if err := c.Validate(); err != nil {
			return err
		}
		if seen[c.Name] {
			return wrong("name", "two cloths are called %q; give one another name", c.Name)
		}
		seen[c.Name] = true
	}
	for _, c := range g.Cloths {
		for _, name := range c.Of {
			part, ok := g.Cloth(name)
			switch {
			case !ok:
				return fmt.Errorf("cloth %q: %w", c.Name, g.unknown(name))
			case len(part.Of) > 0:
				return fmt.Errorf("cloth %q is made of %q, which is made of others itself; name those", c.Name, name)
			}
		}
	}
	pieces := map[string]bool{}
	for _, m := range g.Made {
		switch {
		case pieces[m.Piece]:
			return fmt.Errorf("piece %q is made twice; name all its layers at once", m.Piece)
		case len(m.Cloths) == 0:
			return fmt.Errorf("no layer of piece %q is named; name its cloths, the outermost first", m.Piece)
		}
		pieces[m.Piece] = true
		for _, name := range m.Cloths {
			if !seen[name] {
				return fmt.Errorf("piece %q: %w", m.Piece, g.unknown(name))
			}
		}
	}
	names := map[string]bool{}
	for _, e := range g.Elastics {
		if err := e.Validate(); err != nil {
			return err
		}
		if names[e.Name] {
			return wrong("name", "two elastics are called %q; give one another name", e.Name)
		}
		names[e.Name] = true
	}
	if err := g.Notions.Validate(); err != nil {
		return err
	}
	if err := g.validateTopstitch(); err != nil {
		return err
	}
	return g.validateLaying()
}

func (g Goods) unknown(name string) error {
	if len(g.Cloths) == 0 {
		return fmt.Errorf("there is no cloth %q; describe it first", name)
	}
	known := make([]string, len(g.Cloths))
	for i, c := range g.Cloths {
		known[i] = strconv.Quote(c.Name)
	}
	return fmt.Errorf("there is no cloth %q; there are %s", name, strings.Join(known, ", "))
}
