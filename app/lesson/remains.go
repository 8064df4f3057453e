package lesson

import (
	"cmp"
	"fmt"
	"strings"

	"truemat/ops/check"
)

// AfterByKeys says how one goes on by keys after a lesson.
const AfterByKeys = "By keys: Shift + Tab on the mat goes to the steps and on up to the checks; Enter on a check shows its place. Each tool has its letter: level L, true U, smooth S, reshape B, add A, chalk K. Level and chalk offer the seam or the pieces in a list: Tab goes there. For the others N goes to the place and the space bar takes it. Enter accepts. Ctrl + P prints."

// Remains tells that the checks of a size do not all find it as it should be,
// and of each what to do or why it may stay; none when all hold. Their figures
// the checks say themselves.
func Remains(size string, checks []check.Check) []string {
	var told []string
	broken := 0
	for _, c := range checks {
		switch c.Verdict {
		case check.Look:
			told = append(told, Called(c)+": "+cmp.Or(mayStay[c.ID], "see what the check says."))
		case check.Broken:
			broken++
			told = append(told, Called(c)+": red. "+cmp.Or(onward[c.ID], "It would not sew or fit so: do what the check says."))
		}
	}
	if len(told) == 0 {
		return nil
	}
	head := fmt.Sprintf("In size %s the checks below still name %s. Press one there to see its place.", size, things(len(told)))
	if broken == 0 {
		head = fmt.Sprintf("In size %s %s yellow below: it sews, look whether you want it so. Press one there to see its place.", size, things(len(told))+isOrAre(len(told)))
	}
	return append([]string{head}, told...)
}

func things(n int) string {
	if n == 1 {
		return "one thing"
	}
	return fmt.Sprintf("%d things", n)
}

func isOrAre(n int) string {
	if n == 1 {
		return " is"
	}
	return " are"
}

// Called says of what a check is, in a few words that begin a sentence.
func Called(c check.Check) string {
	what := whatOf[c.ID]
	where := cmp.Or(c.Seam, c.Line, c.Piece)
	switch {
	case what == "":
		what = "Check " + c.ID
	case strings.Contains(what, "%s"):
		return titled(fmt.Sprintf(what, where))
	}
	return what
}

func titled(s string) string {
	r := []rune(s)
	return strings.ToUpper(string(r[:1])) + string(r[1:])
}

// whatOf names what a check looks at; %s is its seam, line or piece.
var whatOf = map[string]string{
	check.WireLength:     "Length of the wire line",
	check.WireOpening:    "Opening of the wire line",
	check.WireDepth:      "Depth of the wire line",
	check.WireInflection: "Curve of the wire line",
	check.WirePlay:       "Play of the wire",
	check.CupWire:        "Cup and wire line",
	check.SeamLength:     "%s",
	check.SeamNotches:    "Notches of %s",
	check.SeamEase:       "Ease of %s",
	check.SeamAllowance:  "Allowances of %s",
	check.SeamEnds:       "Ends of %s",
	check.LineAllowance:  "Allowances along the %s",
	check.RunOn:          "%s where two pieces meet",
	check.LineCorner:     "A corner in the %s",
	check.FoldSquare:     "%s at the fold",
	check.HemLength:      "Length of the %s",
	check.HemBody:        "Hem and body",
	check.ClothBelow:     "Cloth below the wire line of %s",
	check.BridgeTop:      "Top of the bridge",
	check.LaceStraight:   "Lace edge of %s",
	check.LaceAllowance:  "Lace edge of %s",
	check.TurnedBack:     "Turned-back edge of %s",
	check.TurnedRound:    "Turned-back edge of %s",
	check.AlteredMark:    "Mark of %s",
	check.Partner:        "An edge of %s without a partner",
	check.ClosureHeight:  "Closure of %s",
	check.ArrowTurned:    "Arrow of %s",
	check.HalvesAlike:    "Halves of %s",
}

// mayStay says what can be done about what deserves a look, or when it may stay
// as it is.
var mayStay = map[string]string{
	check.WireOpening:   "it may stay where the wire, tried in the sewn line, lies without force; else turn the piece less.",
	check.WireDepth:     "it may stay where the wire, tried in the sewn line, lies without force.",
	check.SeamLength:    "take level and press the seam, and both sides are alike; so little can also be eased in while sewing.",
	check.CupWire:       "take level and press the seam; so little can also be eased in while sewing.",
	check.LineAllowance: "it may stay where the step is meant, or trimmed once the seam is sewn.",
	check.RunOn:         "take true and press the end of that seam there, and it runs on.",
	check.LineCorner:    "take smooth and press the corner.",
	check.FoldSquare:    "take reshape and press the edge; left so, it makes a small point or dip at the middle.",
	check.ClothBelow:    "it may stay where channelling and elastic, laid side by side, are no wider.",
	check.ArrowTurned:   "it may stay where the cloth stretches alike both ways; else tape anew, pressing the other edge first.",
	check.SeamAllowance: "it may stay where it is sewn by the sew lines and trimmed afterwards.",
	check.SeamEnds:      "what sticks out is trimmed after sewing.",
	check.TurnedBack:    "it may stay where the allowance is clipped before it is folded.",
	check.TurnedRound:   "it may stay where notches are cut out of the allowance, or it is drawn in by a row of stitches, before it is folded.",
	check.HemLength:     "it may stay where it was meant; else take add and give it back.",
}

// Onward says with which tool one goes on with what a check tells, by the
// check's id; "" when its sentence says all.
func Onward(id string) string { return onward[id] }

var onward = map[string]string{
	check.SeamLength:  "Take level and press the seam.",
	check.CupWire:     "Take level and press the seam.",
	check.RunOn:       "Take true and press the end of that seam.",
	check.LineCorner:  "Take smooth and press the corner.",
	check.FoldSquare:  "Take reshape and press the edge.",
	check.ArrowTurned: "A taped piece keeps the arrow of the edge that was pressed first: leave it when the cloth stretches alike both ways, or tape anew and begin with the other edge.",
	check.AlteredMark: "Take chalk and press the piece.",

	check.WireLength:     "Take smooth and press the wire line, or level and press its seam.",
	check.WireInflection: "Take smooth and press the wire line.",
	check.WirePlay:       "Another wire is stated under " + wiresAndMeasures + "; level, at the wire seam, lengthens the line.",
	check.HemBody:        "The measure of the body is stated under " + wiresAndMeasures + "; add, at the band, lengthens or shortens it.",
	check.HemLength:      "Take add and press the side seams near the hem.",
	check.BridgeTop:      "Take add and press the wire line of the bridge near its top.",
	check.ClothBelow:     "Take reshape and press the hem.",
	check.ClosureHeight:  "Take add and press the hem or the top near the closure.",
	check.SeamNotches:    "Take notch, press either of the two and let it match the other side in every size, or walk and press the seam.",
	check.SeamAllowance:  "Take allowance, press one side and let the other be as wide.",
	check.LaceStraight:   "Take ruler and press the edge.",
	check.LaceAllowance:  "Take allowance and press the edge.",
	check.TurnedBack:     "Take allowance and press the edge.",
	check.TurnedRound:    "Take allowance and press the edge.",
	check.CutLine:        "Take allowance and press the edge.",
}

// wiresAndMeasures is where wires and body measures are stated in the window.
const wiresAndMeasures = "Edit > Wires and measures (Ctrl+M)"

// Stated reports whether what a check compares with is stated on the page of
// wires and measures.
func Stated(id string) bool { return id == check.WirePlay || id == check.HemBody }
