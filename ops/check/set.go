package check

import (
	"fmt"
	"strconv"
	"strings"

	"truemat/ops/unit"
)

// setting is a bound that the maker can set.
type setting struct {
	name, unit string // mm, % or deg
	holds      *float64
	look       *float64 // nil when there is one value only
	least      bool     // what is measured must not be under it
}

// settings lists the bounds under the names of their checks.
func (b *Bounds) settings() []setting {
	most := func(name, unit string, b *Bound) setting { return setting{name, unit, &b.Holds, &b.Look, false} }
	return []setting{
		most(WireLength, "mm", &b.WireLength),
		most(WireOpening, "mm", &b.WireOpening),
		{WirePlay, "mm", &b.PlayHolds, &b.PlayLeast, true},
		{WirePlay + "-most", "mm", &b.PlayMost, nil, false},
		most(WirePlay+"-off", "mm", &b.PlayOff),
		most(SeamLength, "mm", &b.Seam),
		most(SeamEase, "%", &b.Ease),
		most(SeamEnds, "mm", &b.SeamEnds),
		most(RunOn, "mm", &b.Step),
		most(RunOn+"-kink", "deg", &b.Kink),
		most(LineCorner, "deg", &b.Corner),
		most(FoldSquare, "deg", &b.FoldSquare),
		most(HemLength, "mm", &b.HemLength),
		most(HemBody, "%", &b.HemBody),
		{ClothBelow, "mm", &b.Cloth.Holds, &b.Cloth.Look, true},
		{ClothBelow + "-under", "mm", &b.ClothUnder, nil, false},
		{"channelling", "mm", &b.Channelling, nil, false},
		most(LaceStraight, "mm", &b.Lace),
		most(TurnedBack, "%", &b.TurnedBack),
		most(TurnedRound, "%", &b.TurnedRound),
		most(ClosureHeight, "mm", &b.Closure),
		most(ArrowTurned, "deg", &b.Arrow),
		most(HalvesAlike, "mm", &b.Halves),
		{ShortEdge, "mm", &b.Shortest, nil, true},
	}
}

// BoundNames lists what can be set, each as "name=value" or "name=value,value"
// with the value that applies now.
func (b Bounds) BoundNames() []string {
	var names []string
	for _, s := range b.settings() {
		text := s.name + "=" + strconv.FormatFloat(*s.holds, 'g', 4, 64)
		if s.look != nil {
			text += "," + strconv.FormatFloat(*s.look, 'g', 4, 64)
		}
		if s.unit != "mm" {
			text += " " + s.unit
		}
		names = append(names, text)
	}
	return names
}

// maxBound is the greatest bound in mm, per cent or degrees.
const maxBound = 1000

// Set returns the bounds with one set, written "name=HOLDS,LOOK": up to the
// first value a measure holds, up to the second it deserves a look, beyond it
// is broken. With one value nothing lies between. Values in mm may be written
// as lengths ("1/16 in"); the others are per cent or degrees.
func (b Bounds) Set(text string) (Bounds, error) {
	name, value, ok := strings.Cut(text, "=")
	name = strings.TrimSpace(name)
	for _, s := range b.settings() {
		if s.name == name && ok {
			return b, s.set(value)
		}
	}
	if !ok {
		return b, fmt.Errorf("%q sets no bound; write name=value, of %s", text, strings.Join(b.BoundNames(), ", "))
	}
	return b, fmt.Errorf("there is no bound %q; there are %s", name, strings.Join(b.BoundNames(), ", "))
}

func (s setting) set(text string) error {
	parts := strings.Split(text, ",")
	if len(parts) > 2 || len(parts) > 1 && s.look == nil {
		return fmt.Errorf("bound %q takes %s, not %q", s.name, s.takes(), text)
	}
	values := make([]float64, len(parts))
	for i, part := range parts {
		v, err := s.parse(strings.TrimSpace(part))
		if err != nil || !(v >= 0 && v <= maxBound) {
			return fmt.Errorf("bound %q takes %s from 0 to %d, not %q", s.name, s.takes(), maxBound, part)
		}
		values[i] = v
	}
	return s.put(values)
}

// put sets the bound to one value or to two.
func (s setting) put(values []float64) error {
	if len(values) == 0 || len(values) > 2 || len(values) > 1 && s.look == nil {
		return fmt.Errorf("bound %q takes %s, not %d values", s.name, s.takes(), len(values))
	}
	for _, v := range values {
		if !(v >= 0 && v <= maxBound) {
			return fmt.Errorf("bound %q takes %s from 0 to %d, not %g", s.name, s.takes(), maxBound, v)
		}
	}
	holds, look := values[0], values[len(values)-1]
	switch {
	case !s.least && look < holds:
		return fmt.Errorf("bound %q: what deserves a look (%g) begins where it no longer holds (%g); the second value is the greater", s.name, look, holds)
	case s.least && look > holds:
		return fmt.Errorf("bound %q is a least one: what deserves a look (%g) begins under what holds (%g); the second value is the smaller", s.name, look, holds)
	}
	if *s.holds = holds; s.look != nil {
		*s.look = look
	}
	return nil
}

// values returns the bound as put takes it.
func (s setting) values() []float64 {
	if s.look == nil {
		return []float64{*s.holds}
	}
	return []float64{*s.holds, *s.look}
}

func (s setting) takes() string {
	what := map[string]string{"mm": "a length", "%": "a number of per cent", "deg": "a number of degrees"}[s.unit]
	if s.look != nil {
		what += ", or two with a comma between them,"
	}
	return what
}

func (s setting) parse(text string) (float64, error) {
	if s.unit == "mm" {
		return unit.Parse(text)
	}
	return strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(text, s.unit)), 64)
}
