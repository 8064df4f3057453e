package svg

import (
	"fmt"
	"math"
	"strconv"
)

// scanner reads numbers as SVG writes them: signs and points also separate,
// and the flags of an arc may stand without any space.
type scanner struct {
	s string
	i int
}

func space(c byte) bool { return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f' }
func digit(c byte) bool { return c >= '0' && c <= '9' }

func (sc *scanner) end() bool { return sc.i >= len(sc.s) }

func (sc *scanner) skipSpace() {
	for !sc.end() && space(sc.s[sc.i]) {
		sc.i++
	}
}

// skipComma skips space around at most one comma and reports whether there
// was a comma.
func (sc *scanner) skipComma() bool {
	sc.skipSpace()
	if !sc.end() && sc.s[sc.i] == ',' {
		sc.i++
		sc.skipSpace()
		return true
	}
	return false
}

// atNumber reports whether a number can start here.
func (sc *scanner) atNumber() bool {
	if sc.end() {
		return false
	}
	c := sc.s[sc.i]
	return digit(c) || c == '.' || c == '-' || c == '+'
}

// maxNumber bounds what is taken for a coordinate or length, in any unit.
const maxNumber = 1e9

// number reads one number.
func (sc *scanner) number() (float64, error) {
	start := sc.i
	i := sc.i
	if i < len(sc.s) && (sc.s[i] == '+' || sc.s[i] == '-') {
		i++
	}
	digits := 0
	for i < len(sc.s) && digit(sc.s[i]) {
		i++
		digits++
	}
	if i < len(sc.s) && sc.s[i] == '.' {
		i++
		for i < len(sc.s) && digit(sc.s[i]) {
			i++
			digits++
		}
	}
	if digits == 0 {
		return 0, sc.fault("a number")
	}
	if i < len(sc.s) && (sc.s[i] == 'e' || sc.s[i] == 'E') {
		j := i + 1
		if j < len(sc.s) && (sc.s[j] == '+' || sc.s[j] == '-') {
			j++
		}
		if j < len(sc.s) && digit(sc.s[j]) { // else the e starts a unit
			for j < len(sc.s) && digit(sc.s[j]) {
				j++
			}
			i = j
		}
	}
	v, err := strconv.ParseFloat(sc.s[start:i], 64)
	if err != nil || !(math.Abs(v) <= maxNumber) {
		return 0, fmt.Errorf("the number %.20s at character %d is out of range", sc.s[start:i], start+1)
	}
	sc.i = i
	return v, nil
}

// flag reads one flag of an arc.
func (sc *scanner) flag() (bool, error) {
	if !sc.end() && (sc.s[sc.i] == '0' || sc.s[sc.i] == '1') {
		sc.i++
		return sc.s[sc.i-1] == '1', nil
	}
	return false, sc.fault("a flag (0 or 1)")
}

// fault says what was wanted and what stands there.
func (sc *scanner) fault(wanted string) error {
	if sc.end() {
		return fmt.Errorf("%s is missing at the end", wanted)
	}
	return fmt.Errorf("%s is wanted at character %d, not %.12q", wanted, sc.i+1, sc.s[sc.i:])
}

// numbers reads a list of numbers to its end. On an error the numbers before
// it are returned too.
func numbers(s string) ([]float64, error) {
	sc := &scanner{s: s}
	var out []float64
	sc.skipSpace()
	for !sc.end() {
		v, err := sc.number()
		if err != nil {
			return out, err
		}
		out = append(out, v)
		if sc.skipComma() && sc.end() {
			return out, sc.fault("a number")
		}
	}
	return out, nil
}
