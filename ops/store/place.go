package store

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"truemat/geom"
)

// things are what the lists of a file hold, in a sewist's words.
var things = map[string]string{
	"sizes": "size", "pieces": "piece", "edges": "edge", "notches": "notch", "inner": "inner line", "marks": "mark",
	"seams": "seam", "lines": "line", "recipe": "step", "wires": "wire",
	"cloths": "cloth", "elastics": "elastic", "laces": "lace", "notions": "notion",
}

// partWords are words for entries of a file that a sewist calls otherwise.
var partWords = map[string]string{"path": "line", "pose": "place on the mat", "goods": "cloth and notions", "source": "pattern", "a": "first side", "b": "second side"}

// level is an object or a list of a file while it is walked through.
type level struct {
	of   string // the entry that holds it
	list bool
	name string // what it is called, as soon as that was read
	key  string // the entry that is being read
	next bool   // an entry's name comes next
}

// walkFile goes through a file and calls f after each name and value with where
// that is, until f says that it is enough or the file cannot be read on.
func walkFile(b []byte, f func(at []level, value json.Token, offset int64) (enough bool)) {
	d := json.NewDecoder(bytes.NewReader(b))
	at := []level{{}}
	for {
		tok, err := d.Token()
		if err != nil {
			return
		}
		top := &at[len(at)-1]
		delim, isDelim := tok.(json.Delim)
		switch {
		case isDelim && (delim == '{' || delim == '['):
			of := top.key
			switch {
			case top.list:
				of = top.of
			case len(at) == 1 && delim == '[':
				of = "recipe" // a list of steps by itself
			}
			top.next = true
			at = append(at, level{of: of, list: delim == '[', next: true})
		case isDelim:
			at = at[:len(at)-1]
		case top.next && !top.list:
			top.key, top.next = tok.(string), false
		default:
			if s, ok := tok.(string); ok && (top.key == "name" || top.key == "label" || top.key == "id") {
				top.name = s
			}
			top.next = true
			if f(at, tok, d.InputOffset()) {
				return
			}
			continue
		}
		if f(at, nil, d.InputOffset()) {
			return
		}
	}
}

// placeWords says what a file holds at a place: the allowance of edge "hem" of
// piece "band" of size "75C"; nothing when that has no name.
func placeWords(at []level) string {
	var parts []string
	inside := true // not yet at something of a name
	for i := len(at) - 1; i > 0; i-- {
		l := at[i]
		if l.list {
			continue
		}
		if inside && l.key != "" {
			word := strings.ReplaceAll(l.key, "_", " ")
			if partWords[l.key] != "" {
				word = partWords[l.key]
			}
			if things[l.key] == "" {
				parts = append(parts, "the "+word)
			}
		}
		if thing := things[l.of]; thing != "" {
			inside = false
			if l.name != "" {
				thing += fmt.Sprintf(" %q", l.name)
			} else {
				thing = "a " + thing
			}
			parts = append(parts, thing)
		}
	}
	return strings.Join(parts, " of ")
}

// placeAt says what a file holds at an offset.
func placeAt(b []byte, offset int64) (words string) {
	walkFile(b, func(at []level, _ json.Token, now int64) bool {
		words = placeWords(at)
		return now >= offset
	})
	return words
}

// wrongLine finds the first line of a file that cannot be drawn.
func wrongLine(b []byte) (found error) {
	walkFile(b, func(at []level, value json.Token, now int64) bool {
		s, ok := value.(string)
		if !ok || at[len(at)-1].key != "path" || s == "" {
			return false
		}
		if _, err := geom.ParsePath(s); err != nil {
			found = fmt.Errorf("%s: %s cannot be drawn (%w); %s", position(b, now), placeWords(at), err, howToMend)
		}
		return found != nil
	})
	return found
}

// strangeEntry finds where an entry stands that a file has no use for.
func strangeEntry(b []byte, entry string) (found error) {
	walkFile(b, func(at []level, value json.Token, now int64) bool {
		if top := at[len(at)-1]; value == nil && !top.list && !top.next && top.key == entry {
			named := slices.Clone(at)
			for i := range named {
				named[i].key = ""
			}
			in := placeWords(named)
			if in == "" {
				in = "a document"
			}
			found = fmt.Errorf("%s: %q says nothing of %s; take it away there, or use a newer Truemat", position(b, now), entry, in)
		}
		return found != nil
	})
	return found
}

// howToMend ends what is told of a value that cannot be.
const howToMend = "take an undamaged copy of it, or mend it there"
