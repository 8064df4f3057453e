package step

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"truemat/ops/unit"
)

// Number is a number of a step: a literal, a table per size, or a figure that
// the pattern or an earlier step gives, times a factor. In JSON it is
//
//	6.35                                     millimetres or degrees
//	"1/4 in"                                 a length as a person writes it
//	{"sizes": {"70C": 6, "75C": 6.5}}        a table, for every size
//	{"figure": "tape.overlap", "times": 0.5}
type Number struct {
	value  float64
	sizes  map[string]float64
	figure string
	times  float64
}

// Lit returns the literal number v, without a sign when it is nought.
func Lit(v float64) Number { return Number{value: v + 0} }

// PerSize returns the number that stands in the table for each size.
func PerSize(table map[string]float64) Number { return Number{sizes: maps.Clone(table)} }

// Figure returns the figure of that name ("step id.name" or "pattern.name")
// times a factor.
func Figure(name string, times float64) Number { return Number{figure: name, times: times} }

// absent is the error of a figure that nothing before gives.
type absent struct {
	figure string
	there  []string
}

func (a absent) Error() string {
	return fmt.Sprintf("no earlier step reports %q; there are %s", a.figure, strings.Join(a.there, ", "))
}

// In returns the value of n where the step is applied.
func (n Number) In(in Input) (float64, error) {
	switch {
	case n.sizes != nil:
		v, ok := n.sizes[in.Size]
		if !ok {
			return 0, fmt.Errorf("the table of numbers has none for size %q; it has %s", in.Size, strings.Join(slices.Sorted(maps.Keys(n.sizes)), ", "))
		}
		return sensible(v)
	case n.figure != "":
		v, ok := in.Figures[n.figure]
		if !ok {
			return 0, absent{n.figure, slices.Sorted(maps.Keys(in.Figures))}
		}
		return sensible(v * n.times)
	}
	return sensible(n.value)
}

// sensible refuses numbers that are beyond every measure, or none at all.
func sensible(v float64) (float64, error) {
	if math.Abs(v) <= numberLimit { // false for NaN
		return v, nil
	}
	return 0, fmt.Errorf("%g is beyond every sensible measure (%g)", v, numberLimit)
}

// below reports whether the number is one that is below 0 whatever a figure
// will be: a literal or a table for every size.
func (n *Number) below() bool {
	switch {
	case n == nil || n.figure != "":
		return false
	case n.sizes != nil:
		return !slices.ContainsFunc(slices.Collect(maps.Values(n.sizes)), func(v float64) bool { return v >= 0 })
	}
	return n.value < 0
}

// unsigned returns the number without the sign of a literal.
func (n Number) unsigned() Number {
	n.value = math.Abs(n.value)
	return n
}

// words tells a figure as the maker reads it.
func (n Number) words() string {
	of, what, _ := strings.Cut(n.figure, ".")
	what = strings.ReplaceAll(what, "_", " ")
	if of == "pattern" {
		return "the pattern's " + what
	}
	return fmt.Sprintf("the %s of step %q", what, of)
}

// String tells the number as the maker reads it, a literal with its unit.
func (n Number) String() string { return n.Text("mm") }

// Text is like String with another unit for a literal.
func (n Number) Text(unit string) string {
	switch {
	case n.sizes != nil:
		return "a number per size"
	case n.figure != "" && n.times == 1:
		return n.words()
	case n.figure != "":
		return partWord(n.times) + " " + n.words()
	}
	return strconv.FormatFloat(n.value, 'g', 5, 64) + " " + unit
}

// partWord tells a factor: "half", "a quarter of", "1.2 times".
func partWord(part float64) string {
	switch part {
	case 1:
		return "all of"
	case 0.5:
		return "half"
	case 0.25:
		return "a quarter of"
	case 0.75:
		return "three quarters of"
	}
	if math.Abs(part-1./3) < 1e-4 {
		return "a third of"
	}
	return strconv.FormatFloat(part, 'g', 4, 64) + " times"
}

type numberJSON struct {
	Sizes  map[string]float64 `json:"sizes,omitempty"`
	Figure string             `json:"figure,omitempty"`
	Times  *float64           `json:"times,omitempty"`
}

// MarshalJSON writes the number in the form it is held in.
func (n Number) MarshalJSON() ([]byte, error) {
	switch {
	case n.sizes != nil:
		return json.Marshal(numberJSON{Sizes: n.sizes})
	case n.figure != "":
		return json.Marshal(numberJSON{Figure: n.figure, Times: &n.times})
	}
	return json.Marshal(n.value)
}

// UnmarshalJSON reads any of the four forms of a number.
func (n *Number) UnmarshalJSON(b []byte) error {
	b = bytes.TrimSpace(b)
	if len(b) == 0 || bytes.Equal(b, []byte("null")) {
		return errors.New("a number is missing")
	}
	switch b[0] {
	case '"':
		var s string
		if err := json.Unmarshal(b, &s); err != nil {
			return err
		}
		v, err := unit.Parse(s)
		*n = Lit(v)
		return err
	case '{':
		d := json.NewDecoder(bytes.NewReader(b))
		d.DisallowUnknownFields()
		var j numberJSON
		if err := d.Decode(&j); err != nil {
			return err
		}
		switch {
		case len(j.Sizes) > 0 && j.Figure == "" && j.Times == nil:
			*n = Number{sizes: j.Sizes}
		case j.Figure != "" && len(j.Sizes) == 0:
			times := 1.0
			if j.Times != nil {
				times = *j.Times
			}
			*n = Figure(j.Figure, times)
		default:
			return errors.New(`a number is given by "sizes" or by "figure" with "times", one of them`)
		}
		return nil
	}
	var v float64
	if err := json.Unmarshal(b, &v); err != nil {
		return fmt.Errorf("%s is not a number", b)
	}
	v, err := sensible(v)
	*n = Lit(v)
	return err
}

// numberLimit bounds every number: 100 m or 100,000 degrees.
const numberLimit = 1e5
