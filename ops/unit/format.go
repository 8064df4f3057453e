package unit

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// System is a way of writing lengths.
type System string

// The systems a maker can choose.
const (
	Millimetres   System = "mm"
	Centimetres   System = "cm"
	InchFractions System = "in" // with fractions down to 1/16
)

// Sixteenths is the denominator of inches unless another is asked for.
const Sixteenths = 16

// Format writes a length in a system: "6.35 mm" and "0.635 cm" to a hundredth
// of a millimetre, or inches to the nearest sixteenth.
func Format(mm float64, system System) string {
	switch system {
	case Centimetres:
		return decimal(mm/mmPerCM, 3) + " cm"
	case InchFractions:
		if v := math.Abs(mm); v >= hundredth && v < mmPerInch/Sixteenths/2 {
			return decimal(mm/mmPerInch, 4) + " in" // no length is told as none
		}
		return Inches(mm, Sixteenths)
	}
	return decimal(mm, 2) + " mm"
}

const hundredth = 0.005 // mm, below which decimals tell nothing either

// fractionLoss is how far in mm a fraction may be from its length, for Exact.
const fractionLoss = 0.02

// Exact writes a length for a field, in which it is read again: as Format, but
// inches that lie off the sixteenths by more than 0.02 mm as decimals.
func Exact(mm float64, system System) string {
	if system == InchFractions {
		steps := mm / mmPerInch * Sixteenths
		if math.Abs(steps-math.Round(steps))/Sixteenths*mmPerInch > fractionLoss {
			return decimal(mm/mmPerInch, 4) + " in"
		}
	}
	return Format(mm, system)
}

var inMillimetres = regexp.MustCompile(`(-|−)?\b\d+(\.\d+)? mm\b(²?)`)

// Restate writes the lengths in mm within a sentence, such as "12.5 mm", in
// another system; areas and everything else stay.
func Restate(sentence string, system System) string {
	if system != Centimetres && system != InchFractions {
		return sentence
	}
	return inMillimetres.ReplaceAllStringFunc(sentence, func(s string) string {
		mm, err := strconv.ParseFloat(strings.Replace(strings.TrimSuffix(s, " mm"), "−", "-", 1), 64)
		if err != nil {
			return s // an area
		}
		return Format(mm, system)
	})
}

// decimal writes v with at most that many decimals and no idle zeros.
func decimal(v float64, decimals int) string {
	scale := math.Pow10(decimals)
	if r := math.Round(v*scale) / scale; r != 0 {
		v = r
	} else {
		v = 0 // never −0
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// Inches writes a length in inches to the nearest fraction with the
// denominator (16 when it is under 1), reduced: "3 1/8 in", "1/4 in", "−2 in"
// with an ASCII minus. It rounds; halves go away from zero.
func Inches(mm float64, denominator int) string {
	if denominator < 1 {
		denominator = Sixteenths
	}
	if math.IsNaN(mm) || math.Abs(mm) > Longest {
		return strconv.FormatFloat(mm/mmPerInch, 'g', 6, 64) + " in"
	}
	parts := int64(math.Round(math.Abs(mm) / mmPerInch * float64(denominator)))
	whole, over, under := parts/int64(denominator), parts%int64(denominator), int64(denominator)
	sign := ""
	if mm < 0 && parts > 0 {
		sign = "-"
	}
	if over == 0 {
		return fmt.Sprintf("%s%d in", sign, whole)
	}
	g := gcd(over, under)
	over, under = over/g, under/g
	if whole == 0 {
		return fmt.Sprintf("%s%d/%d in", sign, over, under)
	}
	return fmt.Sprintf("%s%d %d/%d in", sign, whole, over, under)
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
