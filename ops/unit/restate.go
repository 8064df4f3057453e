package unit

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

// TapeParts is the denominator of the fraction that is told beside a length that
// no sixteenth is all of, RulerParts beside one shorter than fineBelow mm: of an
// amount added at two sides the whole would else be told 1/32 in off twice the half.
const (
	TapeParts  = 32
	RulerParts = 64
	fineBelow  = Inch / 2
)

// onTape writes the fraction of an inch nearest to a length in mm.
func onTape(mm float64) string {
	parts := TapeParts
	if math.Abs(mm) < fineBelow {
		parts = RulerParts
	}
	return Inches(math.Abs(mm), parts)
}

// leastOnTape is the shortest length in mm that has a fraction beside it.
const leastOnTape = 3 * Inch / (4 * TapeParts)

// Tell writes a length for a sentence: as [Format] does, and in inches with what
// is read on a tape beside decimals: "10.399 in (about 10 13/32 in)".
func Tell(mm float64, system System) string { return Restate(MM(mm), system) }

// Nearest writes the fraction of an inch that a tape shows for a length.
func Nearest(mm float64) string { return "about " + onTape(mm) }

var inMillimetres = regexp.MustCompile(`(-|−)?\b(\d+(?:\.\d+)?) ([mc]m\b²?)`)

var sentenceEnd = regexp.MustCompile(`[.!?][ \n]+|\n`)

// Restate writes the lengths in mm within sentences, such as "12.50 mm", in
// a system and without idle zeros, and for inches areas in mm² and cm² as well;
// everything else stays. Where a length of a sentence is no sixteenth of an
// inch, all of them stand as decimals with the fraction that a tape shows:
// "3.375 in (3 3/8 in) and 3.405 in (about 3 13/32 in)", so that they can be compared.
func Restate(text string, system System) string {
	return restate(text, system, func(mm float64) string {
		exact, fraction := beside(mm)
		switch {
		case fraction == "":
			return exact
		case IsFraction(mm):
			return exact + " (" + fraction + ")"
		}
		return exact + " (about " + fraction + ")"
	})
}

// Brief is Restate for labels: "3.405 in ≈ 3 13/32", "3.375 in = 3 3/8".
func Brief(text string, system System) string {
	return restate(text, system, func(mm float64) string {
		exact, fraction := beside(mm)
		switch {
		case fraction == "":
			return exact
		case IsFraction(mm):
			return exact + " = " + strings.TrimSuffix(fraction, " in")
		}
		return exact + " ≈ " + strings.TrimSuffix(fraction, " in")
	})
}

// beside writes decimals and the fraction that a tape shows for a length; none
// for whole inches and for what is too short for a tape.
func beside(mm float64) (exact, fraction string) {
	if !IsFraction(mm) {
		exact = inches(mm)
	} else if exact = decimal(mm/Inch, inchDecimals) + " in"; exact == Inches(mm, Sixteenths) {
		return exact, ""
	}
	if math.Abs(mm) < leastOnTape {
		return exact, ""
	}
	return exact, onTape(mm)
}

func restate(text string, system System, tape func(mm float64) string) string {
	if system != InchFractions {
		return inMillimetres.ReplaceAllStringFunc(text, func(s string) string { return restated(s, system, nil) })
	}
	var out strings.Builder
	for text != "" {
		one := text
		if end := sentenceEnd.FindStringIndex(text); end != nil {
			one = text[:end[1]]
		}
		text = text[len(one):]
		form := func(mm float64) string { return Format(mm, system) }
		if hasDecimals(one) {
			form = func(mm float64) string { return tape(math.Round(mm*100) / 100) }
		}
		out.WriteString(inMillimetres.ReplaceAllStringFunc(one, func(s string) string { return restated(s, system, form) }))
	}
	return out.String()
}

// hasDecimals tells whether a length of a sentence is no fraction.
func hasDecimals(sentence string) bool {
	for _, m := range inMillimetres.FindAllStringSubmatch(sentence, -1) {
		if v, err := strconv.ParseFloat(m[2], 64); err == nil && m[3] == "mm" && !IsFraction(math.Round(v*100)/100) {
			return true
		}
	}
	return false
}

// restated writes one measure in mm, mm² or cm² in a system; lengths in inches
// as form has them.
func restated(s string, system System, form func(mm float64) string) string {
	m := inMillimetres.FindStringSubmatch(s)
	sign, number, of := m[1], m[2], m[3]
	v, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return s
	}
	told := ""
	switch {
	case of == "mm" && system == InchFractions:
		told = form(v)
	case of == "mm" && system == Centimetres:
		told = Format(v, system)
	case of == "mm" && strings.Contains(number, "."):
		told = strings.TrimRight(strings.TrimRight(number, "0"), ".") + " mm" // no idle zeros
	case of == "mm²" && system == InchFractions:
		told = decimal(v/(Inch*Inch), 3) + " sq in"
	case of == "cm²" && system == InchFractions, of == "cm²" && system == Centimetres:
		told = Area(v*mmPerCM*mmPerCM, system)
	default:
		return s
	}
	if strings.HasPrefix(told, "0 ") {
		sign = ""
	}
	return sign + told
}

// unbroken is a space at which no line ends.
const unbroken = "\u00a0"

// measure is a number, with a fraction or without, and its unit.
var measure = regexp.MustCompile(`\d+(?:\.\d+)? in [≈=] \d+(?: \d+/\d+|/\d+)?|(?:\babout )?(?:\d+ \d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?)(?: (?:mm²?|cm²?|sq in|in|m|yd|%|degrees?)(?:$|[^\pL\d]))?`)

// Kept writes a text with each number held to its unit by spaces at which no
// line ends; [Loose] takes them away again.
func Kept(text string) string {
	return measure.ReplaceAllStringFunc(text, func(s string) string {
		body := strings.TrimRight(s, " \n")
		return strings.ReplaceAll(body, " ", unbroken) + s[len(body):]
	})
}

// Loose undoes Kept.
func Loose(text string) string { return strings.ReplaceAll(text, unbroken, " ") }
