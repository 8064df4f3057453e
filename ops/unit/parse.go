package unit

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// Inch is an inch in mm, exactly, since 1959.
const Inch = 25.4

const mmPerCM = 10.0

// Longest is the greatest length accepted, in mm either way (100 m).
const Longest = 1e5

// maxInput bounds what is looked at; no length needs as many characters.
const maxInput = 40

// length is a signed number in one of three forms, then a unit or none: a
// decimal "6.35" or "6,35", a fraction "1/4", a whole number and a fraction
// "3 1/8" or "3-1/8".
var length = regexp.MustCompile(`^([+-]?)\s*(?:(\d+)(?:\s+|\s*-\s*)(\d+)\s*/\s*(\d+)|(\d+)\s*/\s*(\d+)|(\d+(?:[.,]\d*)?|[.,]\d+))\s*([a-z"″”]*)\.?$`)

// vulgar are the fractions that have a character of their own.
var vulgar = strings.NewReplacer(
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4",
	"⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
	"⅓", " 1/3", "⅔", " 2/3",
	"⁄", "/", "−", "-", "–", "-", unbroken, " ",
)

// nearby is the fraction that stands beside a length which is told exactly, as
// in "10.399 in (about 10 13/32 in)" or "10.399 in ≈ 10 13/32".
var nearby = regexp.MustCompile(`^([^(≈=]+?)\s*(?:\(([^(≈=]+)\)|[≈=]\s*([^(≈=]+))$`)

// exactly returns the length beside which a fraction is told that agrees with it.
func exactly(text string, system System) (string, bool) {
	m := nearby.FindStringSubmatch(text)
	if m == nil {
		return "", false
	}
	exact, err := ParseIn(m[1], system)
	if m[3] != "" {
		system = InchFractions
	}
	tape, err2 := ParseIn(m[2]+m[3], system)
	const slack = 0.01 // mm
	return m[1], err == nil && err2 == nil && math.Abs(math.Abs(exact)-math.Abs(tape)) <= leastOnTape+slack
}

// Parse returns the length in millimetres that s means.
//
// Units are mm, cm, and in (also inch, inches and "). Without a unit a decimal
// number means millimetres, and a fraction, alone or behind a whole number,
// means inches, since nobody writes millimetres as fractions. The decimal sign is a point or
// a comma. A sign in front is for the whole length. A fraction that is told beside
// the length, as in "10.399 in (about 10 13/32 in)", is read over. The error is
// a sentence that says what is accepted.
func Parse(s string) (float64, error) { return ParseIn(s, Millimetres) }

// ParseIn is Parse for a maker who reads lengths in a system: there a decimal
// or whole number without a unit means that, as she sees it written.
func ParseIn(s string, system System) (float64, error) {
	plain, examples := 1.0, examples
	switch system {
	case Centimetres:
		plain, examples = mmPerCM, strings.Replace(examples, "a plain number is mm", "a plain number is cm", 1)
	case InchFractions:
		plain, examples = Inch, strings.Replace(examples, "a plain number is mm, a plain fraction inches", "a plain number is inches", 1)
	}
	text := strings.ToLower(strings.TrimSpace(s))
	if text == "" {
		return 0, fmt.Errorf("a length is missing; %s", examples)
	}
	if len(text) > maxInput {
		return 0, fmt.Errorf("%q… is too long for a length; %s", strings.ToValidUTF8(text[:maxInput], ""), examples)
	}
	text = strings.TrimSpace(vulgar.Replace(text))
	if exact, ok := exactly(text, system); ok {
		text = exact
	}
	m := length.FindStringSubmatch(strings.TrimPrefix(text, "about "))
	if m == nil {
		return 0, fmt.Errorf("%q is not a length; %s", s, examples)
	}
	v, fraction, err := value(m[2:8])
	if err != nil {
		return 0, fmt.Errorf("%q: %w", s, err)
	}
	scale := plain
	switch m[8] {
	case "mm":
		scale = 1
	case "cm":
		scale = mmPerCM
	case "in", "inch", "inches", `"`, "″", "”":
		scale = Inch
	case "":
		if fraction {
			scale = Inch
		}
	default:
		return 0, fmt.Errorf("%q: there is no unit %q; use mm, cm or in", s, m[8])
	}
	v *= scale
	if !(v <= Longest) {
		return 0, fmt.Errorf("%q is longer than %g m, beyond every pattern", s, Longest/1000)
	}
	if m[1] == "-" && v != 0 {
		v = -v
	}
	return v, nil
}

const examples = "write it like 6.35, 6.35mm, 0.6 cm, 1/4 or 3 1/8 in (a plain number is mm, a plain fraction inches)"

// value returns the number in the groups of [length] after the sign, and
// whether it was written with a fraction.
func value(g []string) (v float64, fraction bool, err error) {
	switch {
	case g[0] != "":
		v, err = ratio(g[1], g[2])
		return number(g[0]) + v, true, err
	case g[3] != "":
		v, err = ratio(g[3], g[4])
		return v, true, err
	}
	return number(strings.Replace(g[5], ",", ".", 1)), false, nil
}

func ratio(over, under string) (float64, error) {
	d := number(under)
	if d == 0 {
		return 0, fmt.Errorf("a fraction cannot have 0 below its bar")
	}
	return number(over) / d, nil
}

// number reads digits with at most one point, which the pattern ensures.
func number(digits string) float64 {
	v, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return math.Inf(1)
	}
	return v
}
