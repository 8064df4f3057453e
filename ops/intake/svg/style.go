package svg

import (
	"slices"
	"strings"
)

// sheet is the part of the style rules that bears on lines: which elements
// are shown. Selectors read are an element, a class, an id, * and an element
// with one class or id.
type sheet struct {
	rules []rule
	// skipped are selectors that were not read but say something about
	// what is shown or where.
	skipped []string
}

// maxRules bounds the rules that are tried on every element.
const maxRules = 1000

type rule struct {
	element, class, id string
	props              map[string]string
}

// telling lists the properties that bear on what is drawn where.
var telling = []string{
	"display", "visibility", "transform", "transform-origin", "d", "cx", "cy", "r", "rx", "ry", "x", "y", "width", "height",
	"clip-path", "mask", "filter", "marker", "marker-start", "marker-mid", "marker-end",
}

// declarations reads "name: value; …" and keeps what is telling.
func declarations(s string) map[string]string {
	var props map[string]string
	for d := range strings.SplitSeq(s, ";") {
		name, value, ok := strings.Cut(d, ":")
		name = strings.ToLower(strings.TrimSpace(name))
		if !ok || !slices.Contains(telling, name) {
			continue
		}
		value, _, _ = strings.Cut(value, "!")
		if props == nil {
			props = map[string]string{}
		}
		props[name] = strings.TrimSpace(value)
	}
	return props
}

// add reads the rules of a style element.
func (sh *sheet) add(css string) {
	css = withoutComments(css)
	for {
		open := strings.IndexByte(css, '{')
		if open < 0 {
			return
		}
		end := blockEnd(css[open:])
		selectors, body := css[:open], css[open+1:open+end]
		css = css[min(open+end+1, len(css)):]
		if i := strings.LastIndexByte(selectors, ';'); i >= 0 {
			selectors = selectors[i+1:] // an @import or @charset before it
		}
		props := declarations(strings.ReplaceAll(body, "{", ";"))
		if len(props) == 0 {
			continue
		}
		for sel := range strings.SplitSeq(selectors, ",") {
			sel = strings.TrimSpace(sel)
			if r, ok := selector(sel); ok {
				r.props = props
				sh.rules = append(sh.rules, r)
			} else {
				sh.skipped = append(sh.skipped, sel)
			}
		}
	}
}

func withoutComments(css string) string {
	var b strings.Builder
	for {
		before, after, ok := strings.Cut(css, "/*")
		b.WriteString(before)
		if !ok {
			return b.String()
		}
		_, css, _ = strings.Cut(after, "*/")
	}
}

// blockEnd returns the place of the brace that closes the one at s[0], or
// the end of s.
func blockEnd(s string) int {
	depth := 0
	for i := range len(s) {
		switch s[i] {
		case '{':
			depth++
		case '}':
			if depth--; depth == 0 {
				return i
			}
		}
	}
	return len(s)
}

func selector(s string) (rule, bool) {
	if s == "" || strings.ContainsAny(s, " \t\n\r\f>+~[:@") {
		return rule{}, false
	}
	i := strings.IndexAny(s, ".#")
	if i < 0 {
		return rule{element: s}, true
	}
	r := rule{element: s[:i]}
	rest := s[i+1:]
	if rest == "" || strings.ContainsAny(rest, ".#*") {
		return rule{}, false
	}
	if s[i] == '.' {
		r.class = rest
	} else {
		r.id = rest
	}
	return r, true
}

func (r rule) matches(e *element, classes []string) bool {
	return (r.element == "" || r.element == "*" || r.element == e.name) &&
		(r.class == "" || slices.Contains(classes, r.class)) &&
		(r.id == "" || r.id == e.get("id"))
}

// weight is the specificity of the selector (CSS Selectors, section 16).
func (r rule) weight() int {
	switch {
	case r.id != "":
		return 3
	case r.class != "":
		return 2
	case r.element != "" && r.element != "*":
		return 1
	}
	return 0
}

// style returns the telling properties that rules and the style attribute
// give an element; they outrank its presentation attributes.
func (sh *sheet) style(e *element) map[string]string {
	props := map[string]string{}
	if len(sh.rules) > 0 {
		classes := strings.Fields(e.get("class"))
		for w := range 4 {
			for _, r := range sh.rules {
				if r.weight() == w && r.matches(e, classes) {
					for k, v := range r.props {
						props[k] = v
					}
				}
			}
		}
	}
	for k, v := range declarations(e.get("style")) {
		props[k] = v
	}
	return props
}
