package cloth

import (
	"fmt"
	"slices"
	"strings"
)

// Cloth is a material to cut from.
type Cloth struct {
	Name string `json:"name"`
	// Width is the usable width in mm; of a lace from outermost to outermost
	// point.
	Width     float64 `json:"width,omitempty"`
	Thickness float64 `json:"thickness,omitempty"` // mm
	// Along and Across are pulled along the selvedge and across it. A
	// direction that was not pulled counts as firm.
	Along  Pull `json:"along,omitzero"`
	Across Pull `json:"across,omitzero"`
	// OneWay says that the cloth has an up and a down: a nap or a motif.
	OneWay bool  `json:"one_way,omitempty"`
	Lace   *Lace `json:"lace,omitempty"`
	// Of names cloths that are bonded or sewn together and handled as this one.
	Of []string `json:"of,omitempty"`
}

// Lace is what a cloth with a scalloped border has besides.
type Lace struct {
	Repeat float64 `json:"repeat"` // length after which the motif comes again, mm
	Depth  float64 `json:"depth"`  // from the valley line to the outermost points, mm
	// Both says that the other border is scalloped too, as Second tells.
	Both   bool   `json:"both,omitempty"`
	Second Border `json:"second,omitempty"`
	// Shift is how far in mm along the lace a shifted second border lies
	// behind the first.
	Shift float64 `json:"shift,omitempty"`
}

// Border says how the second border of a lace lies to the first.
type Border string

// The ways in which a second border lies.
const (
	Mirrored Border = "mirrored" // the first, turned over
	Shifted  Border = "shifted"  // the first, turned over and moved along
)

// Usable returns the width of a lace between its valley lines, or the width
// of another cloth, in mm.
func (c Cloth) Usable() float64 {
	switch {
	case c.Lace == nil:
		return c.Width
	case c.Lace.Both:
		return c.Width - 2*c.Lace.Depth
	}
	return c.Width - c.Lace.Depth
}

// Validate refuses a cloth that cannot be.
func (c Cloth) Validate() error {
	if strings.TrimSpace(c.Name) == "" {
		return fmt.Errorf("a cloth has no name; give it one, such as what stands on its label")
	}
	fail := func(format string, a ...any) error {
		return fmt.Errorf("cloth %q: %w", c.Name, fmt.Errorf(format, a...))
	}
	switch {
	case len(c.Of) == 1:
		return fail("it is said to be made of %q alone; name two or more cloths, or none", c.Of[0])
	case slices.Contains(c.Of, c.Name):
		return fail("it is said to be made of itself")
	case len(c.Of) == 0 && !(c.Width > 0 && c.Width <= longest):
		return fail("its width is %g mm; measure the usable width between the selvedges", c.Width)
	case !(c.Thickness >= 0 && c.Thickness <= thickest):
		return fail("its thickness is %g mm; a cloth has between 0 and %d", c.Thickness, thickest)
	case len(c.Of) > 0 && (c.Along.Measured() || c.Across.Measured() || c.Width != 0 || c.Thickness != 0 || c.Lace != nil):
		return fail("what is made of other cloths has their numbers; leave out its own")
	}
	for _, d := range []struct {
		name string
		pull Pull
	}{{"along", c.Along}, {"across", c.Across}} {
		if !d.pull.Measured() {
			continue
		}
		if err := d.pull.Validate(); err != nil {
			return fail("pulled %s: %w", d.name, err)
		}
	}
	if c.Lace != nil {
		if err := c.Lace.validate(c.Width); err != nil {
			return fail("%w", err)
		}
	}
	return nil
}

func (l Lace) validate(width float64) error {
	borders := 1.0
	if l.Both {
		borders = 2
	}
	switch {
	case !(l.Repeat > 0 && l.Repeat <= longest):
		return fmt.Errorf("its repeat is %g mm; measure from a point of the motif to the next one like it", l.Repeat)
	case !(l.Depth >= 0 && l.Depth*borders < width):
		return fmt.Errorf("its scallops are %g mm deep on a lace %g mm wide; measure from the valley line to the outermost points", l.Depth, width)
	case l.Both && l.Second != Mirrored && l.Second != Shifted:
		return fmt.Errorf("its second border is %q; it is %q or %q", l.Second, Mirrored, Shifted)
	case !l.Both && l.Second != "":
		return fmt.Errorf("it has one border only; leave out how the second lies")
	case l.Shift != 0 && l.Second != Shifted:
		return fmt.Errorf("a shift of %g mm is given, but the second border is not %s", l.Shift, Shifted)
	case !(l.Shift >= 0 && l.Shift < l.Repeat):
		return fmt.Errorf("its second border is shifted by %g mm; a shift lies between 0 and the repeat of %g mm", l.Shift, l.Repeat)
	}
	return nil
}

// thickest bounds the thickness of a cloth in mm.
const thickest = 50
