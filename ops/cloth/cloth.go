package cloth

import (
	"fmt"
	"slices"
	"strconv"
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
	// SecondDepth is the depth of the second border, in mm; 0 when it is that of
	// the first.
	SecondDepth float64 `json:"second_depth,omitempty"`
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
		return c.Width - c.Lace.Depth - c.Lace.DepthOn(true)
	}
	return c.Width - c.Lace.Depth
}

// DepthOn returns how deep the scallops of the first or the second border are.
func (l Lace) DepthOn(second bool) float64 {
	if second && l.SecondDepth != 0 {
		return l.SecondDepth
	}
	return l.Depth
}

// Depths says how deep the scallops are in mm: one figure, or that of the first
// border and that of the second.
func (l Lace) Depths() string {
	first := strconv.FormatFloat(l.Depth, 'f', -1, 64)
	if second := l.DepthOn(true); l.Both && second != l.Depth {
		return first + " and " + strconv.FormatFloat(second, 'f', -1, 64)
	}
	return first
}

// Validate refuses a cloth that cannot be; the error holds a [Wrong].
func (c Cloth) Validate() error {
	all := c.Wrongs()
	if len(all) == 0 {
		return nil
	}
	if all[0].Field == "name" {
		return all[0]
	}
	return fmt.Errorf("cloth %q: %w", c.Name, all[0])
}

// Wrongs returns all that cannot be about a cloth by itself, one for each
// field at most.
func (c Cloth) Wrongs() []Wrong {
	var out []Wrong
	fail := func(field, format string, a ...any) { out = append(out, Wrong{field, fmt.Errorf(format, a...)}) }
	if strings.TrimSpace(c.Name) == "" {
		fail("name", "a cloth has no name; give it one, such as what stands on its label")
	}
	switch {
	case len(c.Of) == 1:
		fail("of", "it is said to be made of %q alone; name two or more cloths, or none", c.Of[0])
	case slices.Contains(c.Of, c.Name):
		fail("of", "it is said to be made of itself")
	case len(c.Of) > 0 && (c.Along.Measured() || c.Across.Measured() || c.Width != 0 || c.Thickness != 0 || c.Lace != nil):
		fail("of", "what is made of other cloths has their numbers; leave out its own")
	}
	if len(c.Of) > 0 {
		return out
	}
	if !(c.Width > 0 && c.Width <= longest) {
		fail("width", "its width is %g mm; measure the usable width between the selvedges", c.Width)
	}
	if !(c.Thickness >= 0 && c.Thickness <= thickest) {
		fail("thickness", "its thickness is %g mm; a cloth has between 0 and %d", c.Thickness, thickest)
	}
	if err := c.Along.Validate(); c.Along.Measured() && err != nil {
		out = append(out, within("along", fmt.Errorf("pulled along: %w", err)))
	}
	if err := c.Across.Validate(); c.Across.Measured() && err != nil {
		out = append(out, within("across", fmt.Errorf("pulled across: %w", err)))
	}
	if c.Lace != nil {
		for _, w := range c.Lace.wrongs(c.Width) {
			out = append(out, within("lace", w))
		}
	}
	return out
}

func (l Lace) wrongs(width float64) []Wrong {
	var out []Wrong
	fail := func(field, format string, a ...any) { out = append(out, Wrong{field, fmt.Errorf(format, a...)}) }
	repeats := l.Repeat > 0 && l.Repeat <= longest
	if !repeats {
		fail("repeat", "its repeat is %g mm; measure from a point of the motif to the next one like it", l.Repeat)
	}
	const measure = "measure from the valley line to the outermost points"
	switch second := l.DepthOn(true); {
	case !(l.Depth >= 0 && l.Depth < width):
		fail("depth", "its scallops are %g mm deep on a lace %g mm wide; "+measure, l.Depth, width)
	case !l.Both && l.SecondDepth != 0:
		fail("second_depth", "it has one border only; leave out how deep the second one is")
	case l.Both && !(second >= 0 && l.Depth+second < width):
		field := "depth"
		if l.SecondDepth != 0 {
			field = "second_depth"
		}
		fail(field, "its scallops are %g mm and %g mm deep on a lace %g mm wide; "+measure, l.Depth, second, width)
	}
	switch {
	case l.Both && l.Second != Mirrored && l.Second != Shifted:
		fail("second", "its second border is %q; it is %q or %q", l.Second, Mirrored, Shifted)
	case !l.Both && l.Second != "":
		fail("second", "it has one border only; leave out how the second lies")
	case l.Shift != 0 && l.Second != Shifted:
		fail("shift", "a shift of %g mm is given, but the second border is not %s", l.Shift, Shifted)
	case repeats && !(l.Shift >= 0 && l.Shift < l.Repeat):
		fail("shift", "its second border is shifted by %g mm; a shift lies between 0 and the repeat of %g mm", l.Shift, l.Repeat)
	}
	return out
}

// thickest bounds the thickness of a cloth in mm.
const thickest = 50
