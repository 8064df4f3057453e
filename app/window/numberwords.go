package window

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"truemat/ops/step"
)

// ofPlace tells whether a plain number says where a place or a datum lies, and
// so may vary by size as the step's own do.
func ofPlace(path []string) bool {
	return len(path) > 1 && slices.Contains([]string{"mm", "share", "x", "y", "degrees"}, lastOf(path))
}

// lastOf and firstOf are the ends of a path; "" of an empty one.
func lastOf(path []string) string {
	if len(path) == 0 {
		return ""
	}
	return path[len(path)-1]
}

func firstOf(path []string) string {
	if len(path) == 0 {
		return ""
	}
	return path[0]
}

// counts tells what the number at a path counts.
func counts(kind string, path []string) measure {
	last := lastOf(path)
	switch {
	case last == "degrees" || last == "by" && kind == "turn" || strings.Contains(last, "angle"):
		return degrees
	case last == "reach" && len(path) > 1 || firstOf(path) == "notches":
		return shares // of a cut
	case last == "share" || last == "part":
		return shares
	case (last == "x" || last == "y") && firstOf(path) == "points":
		return shares // of a piece
	case (last == "from" || last == "to") && len(path) > 1:
		return shares // of an edge, which a part of a side has
	case last == "along" || last == "off":
		return shares // of a straight way
	case last == "times" || last == "count" || last == "layers":
		return bare
	}
	return lengths
}

// numberNames are what the numbers of the steps are called, by kind and path;
// "#" is a place in a list, told as it is counted from 1. What stands behind "|"
// is said where the whole has no room. Others are called by their path.
var numberNames = map[string]string{
	"split notches #":          "Notch # along the new seam|Notch #",
	"cut-off curve from reach": "Held at its start for|Held for",
	"cut-off curve to reach":   "Held at its end for|Held for",
	"split curve from reach":   "Held at its start for|Held for",
	"split curve to reach":     "Held at its end for|Held for",
	"draw points # x":          "Point #, from the left|From left",
	"draw points # y":          "Point #, from below|From below",
	"mark at x":                "Writing, from the left|From left",
	"mark at y":                "Writing, from below|From below",
	"add amount":               "Added",
	"add limit":                "May move at most|At most",
	"allow width":              "Allowance",
	"copy dx":                  "Across",
	"copy dy":                  "Up",
	"cut-off curve from":       "Leaves its start",
	"cut-off curve to":         "Reaches its end",
	"cut-off bulge":            "Bulge",
	"draw bulge":               "Bulge",
	"draw distance":            "Distance",
	"fold tolerance":           "Halves alike within|Alike within",
	"level share":              "Of it, on the first side|First side",
	"level limit":              "May move at most|At most",
	"line-it pull-in":          "Pulled in",
	"mark count":               "Times it is cut|Times",
	"mark height":              "Height",
	"move dx":                  "Across",
	"move dy":                  "Up",
	"move degrees":             "Turned by",
	"notch mm":                 "Distance",
	"notch share":              "Part of its edge|Part",
	"piece count":              "Times it is cut|Times",
	"sew ease":                 "Ease",
	"sew line count":           "Times in the garment|Times",
	"share-out limit":          "May move at most|At most",
	"smooth reach":             "Reach",
	"split curve from":         "Leaves its start",
	"split curve to":           "Reaches its end",
	"spread amount":            "Opens by",
	"spread degrees":           "Turns by",
	"spread dart allowance":    "Dart allowance|Allowance",
	"spread dart short":        "Point short by|Short by",
	"spread fair":              "Fair within",
	"spread fair_length":       "To length",
	"spread hinge_reach":       "Hinge smooth within|Smooth within",
	"spread slashes # amount":  "Slash # opens by|Opens by",
	"spread until length":      "Until it has",
	"true reach":               "Reach",
	"true reach_a":             "Reach on the first side|Reach",
	"true reach_b":             "Reach on the second side|Reach",
	"turn by":                  "Turned by",
	"walk drop # mm":           "Notch #, walked|Walked",
	"walk ease":                "Ease",
}

// numberName is what the number at a path of a step is called.
func numberName(s step.Step, path []string) rowName {
	whole, short, _ := strings.Cut(numberWords(s, path), "|")
	return rowName{whole, short}
}

func numberWords(s step.Step, path []string) string {
	if _, ok := s.(*step.Reshape); ok && len(path) > 2 && path[0] == "knots" {
		return knotWords(path)
	}
	key, places := s.Kind(), []string{}
	for _, p := range path {
		if n, err := strconv.Atoi(p); err == nil {
			p = "#"
			places = append(places, strconv.Itoa(n+1))
		}
		key += " " + p
	}
	name, rest, known := "", "", false
	if name, known = numberNames[key]; !known {
		at := strings.LastIndexByte(key, ' ')
		if name, known = numberNames[key[:max(at, 0)]]; known && at > 0 {
			rest = cmp.Or(measured[key[at+1:]], key[at+1:])
		}
	}
	if !known {
		return label(path)
	}
	for _, n := range places {
		name = strings.ReplaceAll(name, "#", n)
	}
	if rest != "" {
		whole, _, _ := strings.Cut(name, "|")
		name = whole + ": " + rest
	}
	switch s := s.(type) {
	case *step.Spread:
		if s.Until != nil && firstOf(path) == "until" {
			return "Until " + s.Until.Edge + " has"
		}
	}
	return name
}

// knotWords calls a number of a knot or handle, which beside its place along the
// straight line has one of its own.
func knotWords(path []string) string {
	name := "Knot " + path[1]
	switch path[2] {
	case "in":
		name += ", handle before"
	case "out":
		name += ", handle after"
	}
	return name + map[string]string{"along": ", along|Along", "off": ", in from the line|In", "along_mm": ", farther along by|Farther", "off_mm": ", farther in by|In by"}[lastOf(path)]
}

// label is where a value stands, in words: "Slash 1, from: share along".
func label(path []string) string {
	if said := wholeWords[strings.Join(path, " ")]; said != "" {
		return said
	}
	var words []string
	before := ""
	for i, p := range path {
		key, last := p, i == len(path)-1
		switch n, err := strconv.Atoi(p); {
		case err == nil:
			p = strconv.Itoa(n + 1)
			if !last && i > 0 {
				p += ","
			}
		case i > 0 && p == "spot":
			continue // the place of what was named
		case last && len(words) > 0 && measured[p] != "" && (p != "from" || ofSpot[before]):
			of := len(words) - 1
			words[of] = strings.TrimSuffix(words[of], ",") + ":"
			p = measured[p]
		case p == "to" && (before == "crosses" || before == "datum"):
			p = "towards the line"
		case !last && manyOf[p] != "":
			p = manyOf[p]
		case stepWords[p] != "":
			p = stepWords[p]
		}
		before = key
		words = append(words, strings.ReplaceAll(p, "_", " "))
	}
	return titled(strings.TrimSuffix(strings.Join(words, " "), ","))
}

// lastWord is the last word of a name before the edge that it tells, where the
// whole has no room.
func lastWord(name string) string {
	at, _, _ := strings.Cut(name, " on ")
	at, _, _ = strings.Cut(at, ", from ")
	for _, part := range []string{at, name} {
		if words := strings.Fields(part); len(words) > 0 {
			word := words[len(words)-1]
			if _, err := strconv.Atoi(word); err != nil {
				return titled(word)
			}
		}
	}
	return titled(name)
}

// measured is how a value within a place is called.
var measured = map[string]string{"share": "part of its length", "mm": "distance along", "from": "counted from", "x": "an upright line of the mat at", "y": "a level line of the mat at",
	"degrees": "angle", "part": "its part"}

// ofSpot are the keys of places, within which "from" is an end of an edge.
var ofSpot = map[string]bool{"from": true, "to": true, "at": true, "spot": true}

// manyOf calls one of several by what it is.
var manyOf = map[string]string{"slashes": "slash", "notches": "notch", "drop": "notch", "onto": "gets a part", "hinges": "hinge", "points": "point", "spots": "spot", "chord": "spot", "parts": "part",
	"a": "first side, part", "b": "second side, part", "through": "line through"}

// wholeWords are what is called by its whole path.
var wholeWords = map[string]string{"until edge": "Opens until this edge", "until seam": "Is as long as the other side of"}

// stepWords are words for what a step's own stand for.
var stepWords = map[string]string{"a": "first side", "b": "second side", "onto": "against", "until": "until", "bend": "bends", "press": "pressed", "hold": "holds still",
	"dx": "across", "dy": "up", "curve_to": "curve", "hinge_spot": "hinge", "datum": "line", "crosses": "where it crosses"}
