package tool

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"truemat/ops/unit"
)

// written writes a length in the unit the maker reads, which a table may tell.
func written(t Table, mm float64) string { return unit.Format(mm, system(t)) }

// handy is a length that a tool proposes, round in the unit that is read: in
// inches the nearest quarter, or eighth below half an inch.
func handy(t Table, mm float64) float64 {
	if system(t) != unit.InchFractions {
		return mm
	}
	part := unit.Inch / 4.0
	if mm < unit.Inch/2 {
		part = unit.Inch / 8.0
	}
	return max(math.Round(mm/part), 1) * part
}

func system(t Table) unit.System {
	if u, ok := t.(interface{ Unit() unit.System }); ok {
		return u.Unit()
	}
	return unit.Millimetres
}

// gridPitch is the pitch in mm of the grid to which things snap: a centimetre,
// or half an inch.
func gridPitch(t Table) float64 {
	if system(t) == unit.InchFractions {
		return unit.Inch / 2
	}
	return 10
}

// typedLength reads a length as it was typed into a field; a plain number is in
// the unit the maker reads.
func typedLength(t Table, text string) (float64, error) { return unit.ParseIn(text, system(t)) }

// typedAngle reads an angle in degrees: "8", "-7.5°", "7,5 deg".
func typedAngle(text string) (float64, error) {
	s := strings.ToLower(strings.TrimSpace(text))
	for _, u := range []string{"°", "degrees", "degree", "deg"} {
		s = strings.TrimSuffix(s, u)
	}
	s = strings.NewReplacer(",", ".", "−", "-", "–", "-").Replace(strings.TrimSpace(s))
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsNaN(v) || math.Abs(v) > maxTurn {
		return 0, fmt.Errorf("%q is not an angle; write degrees such as 8 or -7.5, at most %d either way", text, maxTurn)
	}
	return v, nil
}

// maxTurn is the greatest angle that can be typed, in degrees.
const maxTurn = 360

// writtenAngle writes degrees to a hundredth.
func writtenAngle(deg float64) string {
	if r := math.Round(deg*100) / 100; r != 0 {
		return strconv.FormatFloat(r, 'f', -1, 64) + "°"
	}
	return "0°"
}

// unknownField says that a tool has no such field now.
func unknownField(tool, field string) error {
	return fmt.Errorf("%s has no field %q now; point at something first", tool, field)
}

// picked reads one of the options of a field.
func picked(text string, options []string) (string, error) {
	for _, o := range options {
		if strings.EqualFold(strings.TrimSpace(text), o) {
			return o, nil
		}
	}
	return "", fmt.Errorf("%q is none of the choices; there are %s", text, strings.Join(options, ", "))
}

// sentence writes an error as a sentence.
func sentence(err error) string {
	s := err.Error()
	r, n := utf8.DecodeRuneInString(s)
	s = string(unicode.ToUpper(r)) + s[n:]
	if !strings.HasSuffix(s, ".") {
		s += "."
	}
	return s
}

// Answers of fields that ask for yes or no.
const (
	yes = "yes"
	no  = "no"
)

func yesNo(b bool) string {
	if b {
		return yes
	}
	return no
}
