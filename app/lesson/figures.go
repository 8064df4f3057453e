package lesson

import (
	"regexp"
	"strconv"

	"truemat/ops/unit"
)

// round stands before a figure that need not be exact.
const round = "\u2060"

// handy writes a length that in inches may be told by the nearest eighth.
func handy(mm float64) string { return round + unit.Format(mm, unit.Millimetres) }

var handyFigure = regexp.MustCompile(round + `(\d+(?:\.\d+)?) mm`)

// In tells a text of the lesson with its lengths in a system.
func In(text string, system unit.System) string {
	text = handyFigure.ReplaceAllStringFunc(text, func(s string) string {
		figure := s[len(round):]
		mm, err := strconv.ParseFloat(handyFigure.FindStringSubmatch(s)[1], 64)
		if err != nil || system != unit.InchFractions {
			return figure
		}
		return unit.Inches(mm, 8)
	})
	return unit.Restate(text, system)
}
