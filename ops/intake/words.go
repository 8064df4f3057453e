package intake

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"truemat/geom"
	"truemat/ops/unit"
)

// word is one word of a companion; quoted ones are never keywords or signs.
type word struct {
	text   string
	quoted bool
}

func (w word) is(text string) bool { return !w.quoted && w.text == text }

// statement is one line of a companion being read.
type statement struct {
	line  int
	words []word
	next  int
}

const maxLine = 4000 // characters of a line

// split cuts a line into words. Colons, commas and equals signs at the end of
// a word, or alone, are words of their own; # starts a remark.
func split(line int, text string) (*statement, error) {
	if len(text) > maxLine {
		return nil, fmt.Errorf("companion line %d is longer than %d characters", line, maxLine)
	}
	st := &statement{line: line}
	rest := strings.TrimLeft(text, " \t")
	for rest != "" && rest[0] != '#' {
		if rest[0] == '"' {
			end := strings.IndexByte(rest[1:], '"')
			if end < 0 {
				return nil, st.errorf("a quotation mark is not closed")
			}
			st.words = append(st.words, word{strings.TrimSpace(rest[1 : 1+end]), true})
			rest = rest[end+2:]
		} else if strings.IndexByte(":,=", rest[0]) >= 0 {
			st.words = append(st.words, word{text: rest[:1]})
			rest = rest[1:]
		} else {
			end := strings.IndexAny(rest, " \t\"=")
			if end < 0 {
				end = len(rest)
			}
			w := strings.TrimRight(rest[:end], ":,")
			if w == "" {
				w = rest[:1]
			}
			st.words = append(st.words, word{text: w})
			rest = rest[len(w):]
		}
		rest = strings.TrimLeft(rest, " \t\r")
	}
	return st, nil
}

func (st *statement) errorf(format string, args ...any) error {
	return fmt.Errorf("companion line %d: %w", st.line, fmt.Errorf(format, args...))
}

func (st *statement) done() bool { return st.next >= len(st.words) }

func (st *statement) peek() word {
	if st.done() {
		return word{}
	}
	return st.words[st.next]
}

// accept skips the word if it comes next.
func (st *statement) accept(text string) bool {
	if !st.done() && st.peek().is(text) {
		st.next++
		return true
	}
	return false
}

// expect demands the word.
func (st *statement) expect(text string) error {
	if st.accept(text) {
		return nil
	}
	if st.done() {
		return st.errorf("%q is missing at the end", text)
	}
	return st.errorf("%q is wanted, not %q", text, st.peek().text)
}

// name reads a name; what says of what.
func (st *statement) name(what string) (string, error) {
	if st.done() || !st.peek().quoted && strings.Contains(":,=", st.peek().text) {
		return "", st.errorf("%s is missing", what)
	}
	w := st.words[st.next]
	if w.text == "" {
		return "", st.errorf("%s is empty", what)
	}
	st.next++
	return w.text, nil
}

func (st *statement) length(what string) (float64, error) {
	s, err := st.name(what)
	if err != nil {
		return 0, err
	}
	v, err := unit.Parse(s)
	if err != nil {
		return 0, st.errorf("%s: %w", what, err)
	}
	return v, nil
}

func (st *statement) number(what string) (float64, error) {
	s, err := st.name(what)
	if err != nil {
		return 0, err
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || !(v >= -geom.Reach && v <= geom.Reach) {
		return 0, st.errorf("%s: %q is not a usable number", what, s)
	}
	return v, nil
}

func (st *statement) count(what string) (int, error) {
	s, err := st.name(what)
	if err != nil {
		return 0, err
	}
	n, err := strconv.Atoi(s)
	if err != nil || n < 1 || n > 1000 {
		return 0, st.errorf("%s: %q is not a whole number from 1 to 1000", what, s)
	}
	return n, nil
}

// oneOf reads one of the words of a fixed list.
func oneOf[T ~string](st *statement, what string, list []T) (T, error) {
	s, err := st.name(what)
	if err != nil {
		return "", err
	}
	if !slices.Contains(list, T(s)) {
		return "", st.errorf("there is no %s %q; there are %s", what, s, words(list))
	}
	return T(s), nil
}

// finish demands that nothing is left over.
func (st *statement) finish(known ...string) error {
	switch {
	case st.done():
		return nil
	case len(known) > 0:
		return st.errorf("%q is not understood here; it may say %s", st.peek().text, words(known))
	}
	return st.errorf("%q is one word too many; names of several words stand in quotation marks", st.peek().text)
}

func words[T ~string](list []T) string {
	if len(list) == 0 {
		return "none"
	}
	s := make([]string, len(list))
	for i, w := range list {
		s[i] = string(w)
	}
	return strings.Join(s, ", ")
}

// quoted lists names for an error, at most 40 of them.
func quoted(names []string) string {
	if len(names) == 0 {
		return "none"
	}
	q := make([]string, 0, len(names))
	for i, n := range names {
		if i == 40 {
			q = append(q, fmt.Sprintf("and %d more", len(names)-i))
			break
		}
		q = append(q, strconv.Quote(n))
	}
	return strings.Join(q, ", ")
}
