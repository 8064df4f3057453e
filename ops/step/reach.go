package step

import "fmt"

// mostReach is the greatest reach in mm: longer than any edge, so that a slip of
// the keys is refused (common practice).
const mostReach = 1000

// reachIn reads the reach of a blend on what is named.
func reachIn(in Input, n Number, on string) (float64, error) {
	v, err := n.In(in)
	switch {
	case err != nil:
		return 0, err
	case !(v > placeSlack):
		return 0, fmt.Errorf("the reach on %s is %.4g mm; it must be above 0", on, v)
	case v > mostReach:
		return 0, fmt.Errorf("the reach on %s is %.7g mm, which is longer than any edge; write %d mm at most", on, v, mostReach)
	}
	return v, nil
}

// beyond tells that a reach goes beyond what it is on, at one end or both, which
// is then altered up to there, and how far in mm it moves at most.
func beyond(reach float64, on string, both bool, moved float64) string {
	text := fmt.Sprintf("A reach of %.4g mm goes beyond %s", reach, on)
	if both {
		text += " at both ends: all of it is altered"
	} else {
		text += ": it is altered to its very end"
	}
	return text + fmt.Sprintf(", and moves by %.2f mm at most.", moved)
}
