package worn

import (
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// DartWay says where the fold of a dart lies in the garment when it is pressed
// to either side.
type DartWay struct {
	// ToA and ToB are in words, "" where they cannot be told apart.
	ToA, ToB string
	// Usual is the side to which such a dart is pressed (common practice): an
	// upright one towards centre front, one that lies across down.
	Usual pattern.Press
}

// Dart tells of a dart which way it may be pressed.
func Dart(p pattern.Pattern, d pattern.FoldedDart) DartWay {
	l, err := laid(p)
	if err != nil {
		return DartWay{Usual: pattern.PressedToA}
	}
	i := l.index(d.Piece)
	tip, mouth := d.Fold()
	leg := d.Mouth[0] // at the side of leg A
	if d.A != d.First {
		leg = d.Mouth[1]
	}
	at := func(q geom.Point) geom.Point {
		if l.hands[i] == right {
			q = over(q)
		}
		return l.at[i].Apply(q)
	}
	along := at(mouth).Sub(at(tip))
	toA := at(leg).Sub(at(mouth))
	words := func(a, b string, isA bool) DartWay {
		if isA {
			return DartWay{a, b, pattern.PressedToA}
		}
		return DartWay{b, a, pattern.PressedToB}
	}
	if math.Abs(along.X) > math.Abs(along.Y) {
		return words("down", "up", toA.Y < 0)
	}
	middle := at(tip).Lerp(at(mouth), 0.5).X
	if math.Abs(middle) < onFront {
		return DartWay{Usual: pattern.PressedToA}
	}
	return words("towards centre front", "away from centre front", toA.X*middle < 0)
}

// onFront is how near in mm to centre front a dart lies on it.
const onFront = 1.0
