package unit

import (
	"fmt"
	"math"
	"strconv"
)

// System is a way of writing lengths.
type System string

// The systems a maker can choose.
const (
	Millimetres   System = "mm"
	Centimetres   System = "cm"
	InchFractions System = "in" // fractions down to 1/16, else decimals
)

// Sixteenths is the denominator of inches unless another is asked for.
const Sixteenths = 16

// Format writes a length in a system: "6.35 mm" and "0.635 cm" to a hundredth
// of a millimetre. Inches stand as a fraction where a sixteenth tells the length
// to 0.02 mm, and else as decimals to a thousandth, so that two lengths that
// are written alike are alike; that is for fields, [Restate] and [Brief] are for
// what is read only. All are rounded to a hundredth of a millimetre
// first, as sentences tell them, so that a length reads the same wherever it stands.
func Format(mm float64, system System) string {
	mm = math.Round(mm*100) / 100
	switch system {
	case Centimetres:
		return decimal(mm/mmPerCM, 3) + " cm"
	case InchFractions:
		return inches(mm)
	}
	return decimal(mm, 2) + " mm"
}

// fractionLoss is how far in mm a fraction may be from its length.
const fractionLoss = 0.02

// IsFraction tells whether a sixteenth of an inch is all of a length.
func IsFraction(mm float64) bool {
	steps := mm / Inch * Sixteenths
	whole := math.Round(steps)
	return math.Abs(steps-whole)/Sixteenths*Inch <= fractionLoss && (whole != 0 || math.Abs(mm) < hundredth)
}

const hundredth = 0.005 // mm, below which decimals tell nothing either

// inchDecimals is how many decimals of an inch are written.
const inchDecimals = 3

// inches writes a fraction or decimals, and more where these would be
// read as a fraction; the last of those is rounded towards the fraction, so that
// what is read is written alike again.
func inches(mm float64) string {
	if IsFraction(mm) {
		return Inches(mm, Sixteenths)
	}
	in := mm / Inch
	near := math.Round(in*Sixteenths) / Sixteenths
	for places := inchDecimals; places < 6; places++ {
		rounded := in
		if scale := math.Pow10(places); places > inchDecimals {
			rounded = near + math.Copysign(math.Floor(math.Abs(in-near)*scale+1e-6)/scale, in-near)
		}
		s := decimal(rounded, places)
		if v, err := strconv.ParseFloat(s, 64); err == nil && !IsFraction(v*Inch) {
			return s + " in"
		}
	}
	return decimal(in, 6) + " in"
}

// Area writes an area in the square of a system: cm² to a tenth, or square
// inches to a hundredth.
func Area(mm2 float64, system System) string {
	if system == InchFractions {
		return decimal(mm2/(Inch*Inch), 2) + " sq in"
	}
	return decimal(mm2/(mmPerCM*mmPerCM), 1) + " cm²"
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
		return strconv.FormatFloat(mm/Inch, 'g', 6, 64) + " in"
	}
	parts := int64(math.Round(math.Abs(mm) / Inch * float64(denominator)))
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

// MM writes a length in millimetres, as sentences tell it before they are
// restated in the unit that is read.
func MM(mm float64) string { return Format(mm, Millimetres) }
