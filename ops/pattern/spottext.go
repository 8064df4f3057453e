package pattern

import (
	"fmt"
	"strconv"
	"strings"

	"truemat/ops/unit"
)

// NotchWords names a notch where its name stands by itself, as in a list: "notch
// apex", and "notch 1" for one that is called so itself. In sentences [NotchSaid]
// tells the name from the words around it.
func NotchWords(name string) string {
	if calledNotch(name) {
		return name
	}
	return "notch " + name
}

// NotchSaid names a notch in a sentence: notch "apex", and notch 1 for one that is
// called so itself.
func NotchSaid(name string) string {
	if calledNotch(name) {
		return name
	}
	return fmt.Sprintf("notch %q", name)
}

func calledNotch(name string) bool {
	return strings.HasPrefix(name, "notch ") || strings.HasPrefix(name, "notch-")
}

// ParseSpot reads a spot as a person writes it: the piece, a colon, and a
// place on it, which is
//
//	cradle: hem start              an end of an edge: start or end
//	cradle: hem middle             its middle
//	cradle: hem 30%                a share of it, from its start
//	cradle: hem 12mm               a length along it, from its start
//	cradle: hem 1/2 in from end    or from its end, as with a share
//	inner cup: notch apex          a notch by its name
//
// The spot is not looked for; see [Pattern.Find].
func ParseSpot(text string) (Spot, error) {
	piece, place, ok := strings.Cut(text, ":")
	piece, place = strings.TrimSpace(piece), strings.TrimSpace(place)
	if !ok || piece == "" || place == "" {
		return Spot{}, fmt.Errorf("%q is no spot; write the piece, a colon and a place on it, as \"cradle: hem start\" or \"inner cup: notch apex\"", text)
	}
	if name, ok := strings.CutPrefix(place, "notch "); ok {
		return AtNotch(piece, strings.TrimSpace(name)), nil
	}
	words := strings.Fields(place)
	s := Spot{Piece: piece}
	if n := len(words); n > 2 && words[n-2] == "from" && (words[n-1] == string(Start) || words[n-1] == string(End)) {
		s.From = EndName(words[n-1])
		words = words[:n-2]
	}
	last := len(words) - 1
	edge := func(used int) string { return strings.Join(words[:len(words)-used], " ") }
	if last > 0 && s.From == "" {
		switch words[last] {
		case string(Start), string(End):
			s.Edge, s.From = edge(1), EndName(words[last])
			return s, nil
		case "middle":
			s.Edge, s.From, s.Share = edge(1), Start, 0.5
			return s, nil
		}
	}
	if s.From == "" {
		s.From = Start
	}
	if last > 0 && strings.HasSuffix(words[last], "%") {
		if v, err := strconv.ParseFloat(strings.TrimSuffix(words[last], "%"), 64); err == nil && v >= 0 && v <= 100 {
			s.Edge, s.Share = edge(1), v/100
			return s, nil
		}
	}
	for used := min(3, last); used > 0; used-- {
		if v, err := unit.Parse(strings.Join(words[len(words)-used:], " ")); err == nil && v >= 0 {
			s.Edge, s.MM = edge(used), v
			return s, nil
		}
	}
	return Spot{}, fmt.Errorf("%q does not say where on %s; end it with start, end, middle, a share as 30%%, or a length as 12mm", text, piece)
}
