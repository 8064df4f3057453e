package check

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// Own are the bounds that a maker has set for a pattern, under the names that
// [Bounds.Set] knows: up to where a measure holds and up to where it deserves
// a look, or one value where there is no shade between; in mm, per cent or
// degrees. The others are as usual.
type Own map[string][]float64

// Validate refuses a name that is none, and values that do not suit it.
func (o Own) Validate() error {
	_, err := o.over(Defaults())
	return err
}

// Bounds returns the bounds that apply: the maker's own, the others as usual.
// It takes nothing from bounds that are not valid.
func (o Own) Bounds() Bounds {
	b, err := o.over(Defaults())
	if err != nil {
		return Defaults()
	}
	return b
}

func (o Own) over(b Bounds) (Bounds, error) {
	settings := b.settings()
	for _, name := range slices.Sorted(maps.Keys(o)) {
		i := slices.IndexFunc(settings, func(s setting) bool { return s.name == name })
		if i < 0 {
			return b, fmt.Errorf("there is no bound %q; there are %s", name, strings.Join(Defaults().BoundNames(), ", "))
		}
		if err := settings[i].put(o[name]); err != nil {
			return b, err
		}
	}
	return b, nil
}

// With returns the bounds with one set anew; with no values it is as usual
// again. Values in which nothing differs from what is usual are not kept.
func (o Own) With(name string, values ...float64) (Own, error) {
	next := maps.Clone(o)
	delete(next, name)
	if len(values) > 0 {
		if next == nil {
			next = Own{}
		}
		next[name] = slices.Clone(values)
	}
	b, err := next.over(Defaults())
	if err != nil {
		return o, err
	}
	if b == next.without(name).Bounds() {
		next = next.without(name)
	}
	if len(next) == 0 {
		return nil, nil
	}
	return next, nil
}

func (o Own) without(name string) Own {
	next := maps.Clone(o)
	delete(next, name)
	return next
}

// asUsual is written in place of values for a bound that is as usual again.
const asUsual = "usual"

// Set returns the bounds with one set as [Bounds.Set] writes it, or as usual
// again by "name=usual".
func (o Own) Set(text string) (Own, error) {
	name, value, _ := strings.Cut(text, "=")
	if strings.TrimSpace(value) == asUsual {
		name = strings.TrimSpace(name)
		b := Defaults()
		if !slices.ContainsFunc(b.settings(), func(s setting) bool { return s.name == name }) {
			return o, fmt.Errorf("there is no bound %q; there are %s", name, strings.Join(b.BoundNames(), ", "))
		}
		return o.With(name)
	}
	b, err := o.Bounds().Set(text)
	if err != nil {
		return o, err
	}
	for _, s := range b.settings() {
		if s.name == strings.TrimSpace(name) {
			return o.With(s.name, s.values()...)
		}
	}
	return o, nil
}

// Setting is a bound that decides about a check.
type Setting struct {
	Name   string
	Unit   string // mm, % or deg
	Of     string // what of the check it bounds, "" for what is measured
	Least  bool   // what is bounded must not be under it
	Values []float64
}

// Settings lists the bounds that decide about the check with an id, as they
// are; none where a check has no shade.
func (b Bounds) Settings(id string) []Setting {
	of, ok := map[string]string{CupWire: SeamLength, SeamNotches: SeamLength, WireDepth: WireOpening}[id]
	if !ok {
		of = id
	}
	var out []Setting
	for _, s := range b.settings() {
		if what, ok := partsOf[of][s.name]; ok || s.name == of {
			out = append(out, Setting{s.name, s.unit, what, s.least, s.values()})
		}
	}
	return out
}

// partsOf says what the bounds of a check are about that has several.
var partsOf = map[string]map[string]string{
	WirePlay:   {WirePlay: "play where the wire states none", WirePlay + "-most": "most play there", WirePlay + "-off": "off the play the wire states"},
	RunOn:      {RunOn: "how far it jumps", RunOn + "-kink": "how far it turns"},
	ClothBelow: {ClothBelow: "where no elastic is stated", ClothBelow + "-under": "short of channelling and elastic"},
}
