package window

import (
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2/container"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/walk"
)

// pick is a value of a step that is picked from several: where it stands in
// the step's JSON, what it can be, and the JSON of each.
type pick struct {
	path   []string // keys, and places in lists as numbers
	label  string
	words  []string
	values []any // nil takes it out of its list
	now    int
}

// picks returns what of a step is picked: roles, ends, directions, spots of
// the pattern it acts on, and the joints that a list names.
func picks(e step.Entry, p pattern.Pattern) []pick {
	var f picker
	f.pattern, f.step = p, e.Step
	tree := treeOf(e)
	f.piece, _ = tree["piece"].(string)
	f.edge, _ = tree["edge"].(string)
	f.then, _ = tree["then"].(string)
	f.gather(tree, nil)
	f.found = slices.DeleteFunc(f.found, func(k pick) bool { return ofPair(e.Step, k.path) && lastOf(k.path) == "on" })
	for i, k := range f.found {
		if w, n, ok := droppedAt(e.Step, k.path); ok && lastOf(k.path) == "on" {
			f.found[i].label = droppedTitle(w, n) + ", on"
			f.found[i].words = []string{sideOf(w, p, walk.A), sideOf(w, p, walk.B)}
		}
	}
	if s, ok := e.Step.(*step.Smooth); ok {
		k := pick{[]string{"keep"}, "Keep its length", []string{"yes", "no"}, []any{"length", nil}, 1}
		if s.Keep != "" {
			k.now = 0
		}
		f.found = append(f.found, k)
	}
	return f.found
}

// treeOf is the step as JSON, without what belongs to its place in the recipe.
func treeOf(e step.Entry) map[string]any {
	b, err := json.Marshal(e)
	var all map[string]any
	if err != nil || json.Unmarshal(b, &all) != nil {
		return nil
	}
	for _, k := range []string{"id", "do", "off", "sizes"} {
		delete(all, k)
	}
	return all
}

type picker struct {
	pattern pattern.Pattern
	step    step.Step
	piece   string // that of the step, when it has one
	edge    string // likewise
	then    string // the edge on which a run that is begun on that one ends
	found   []pick
}

func (f *picker) gather(m map[string]any, path []string) {
	for _, k := range slices.Sorted(maps.Keys(m)) {
		at := append(path[:len(path):len(path)], k)
		switch v := m[k].(type) {
		case string:
			f.word(m, k, v, at)
		case bool:
			f.found = append(f.found, pick{at, label(at), []string{"yes", "no"}, []any{true, false}, map[bool]int{true: 0, false: 1}[v]})
		case map[string]any:
			f.part(v, at)
		case []any:
			f.list(v, at)
		}
	}
}

// wordsOf are the words that a value can be, by its key; a value that is none
// of them means something else.
var wordsOf = map[string][]string{
	"end": {"start", "end"}, "from": {"start", "end"}, "moves": {"start", "end"},
	"bend": {"both", "a", "b"}, "press": {"open", "a", "b"}, "spread": {"a", "b"}, "on": {"a", "b"}, "hold": {"a", "b", "corner"},
	"keep": {"left", "right"}, "cut": {"single", "double"}, "arrow": {"grain", "greatest-stretch", "least-stretch"},
}

// word offers what a word of a part of a step can be.
func (f *picker) word(m map[string]any, key, now string, at []string) {
	var words []string
	var values []any
	plain := func(names ...string) {
		for _, n := range names {
			words, values = append(words, n), append(values, n)
		}
	}
	switch key {
	case "role":
		for _, r := range pattern.Roles {
			words, values = append(words, r.Word()), append(values, string(r))
		}
	case "bend", "press", "spread", "on", "hold":
		for _, n := range wordsOf[key] {
			words, values = append(words, cmp.Or(stepWords[n], n)), append(values, n)
		}
	case "direction":
		words, values = []string{"clockwise", "anticlockwise"}, []any{"cw", "ccw"}
	case "seam":
		for _, s := range f.pattern.Seams {
			plain(s.Name)
		}
	case "edge":
		if pc := f.pattern.Piece(f.pieceOf(m)); pc != nil {
			for i := range pc.Edges {
				plain(pc.Edges[i].Name)
			}
		}
	default:
		plain(wordsOf[key]...)
	}
	if i := slices.Index(values, any(now)); i >= 0 {
		f.found = append(f.found, pick{at, f.endWords(m, key, at, words), words, values, i})
	}
}

// part offers the spots a spot can be; within anything else it goes on.
func (f *picker) part(m map[string]any, at []string) {
	words, values := f.spots(m)
	if words == nil {
		if len(at) < deepest {
			f.gather(m, at)
		}
		return
	}
	f.offer(m, at, words, values)
}

func (f *picker) offer(m map[string]any, at, words []string, values []any) {
	now := slices.IndexFunc(values, func(v any) bool { return sameJSON(v, m) })
	if now < 0 {
		words, values = append([]string{f.elsewhere(m)}, words...), append([]any{m}, values...)
		now = 0
	}
	f.found = append(f.found, pick{at, label(at), words, values, now})
}

// elsewhere names a spot that is neither an end nor a notch.
func (f *picker) elsewhere(m map[string]any) string {
	edge, _ := m["edge"].(string)
	if m["crosses"] != nil {
		return "where " + edge + " crosses"
	}
	return "along " + edge
}

func sameJSON(a, b any) bool {
	x, err := json.Marshal(a)
	y, err2 := json.Marshal(b)
	return err == nil && err2 == nil && string(x) == string(y)
}

const leftOut = "leave it out"

// list offers the spots of a list; joints can be left out, and more be added.
func (f *picker) list(all []any, at []string) {
	for i, v := range all {
		m, ok := v.(map[string]any)
		if !ok {
			continue
		}
		own := append(at[:len(at):len(at)], strconv.Itoa(i))
		words, values := f.spots(m)
		_, joint := m["end"].(string)
		if words == nil || !joint {
			f.part(m, own)
			continue
		}
		if len(all) > 1 {
			words, values = append(words, leftOut), append(values, nil)
		}
		f.offer(m, own, words, values)
		if i == len(all)-1 {
			words, values = f.joints()
			f.found = append(f.found, pick{append(at[:len(at):len(at)], strconv.Itoa(len(all))), "And also", append([]string{"nothing more"}, words...), append([]any{nil}, values...), 0})
		}
	}
}

// with returns the step with the i-th choice in the pick's place.
func (k pick) with(e step.Entry, i int) (step.Entry, error) {
	return altered(e, k.path, k.values[i])
}

// altered returns the step with another value at a path of its JSON.
func altered(e step.Entry, path []string, v any) (step.Entry, error) {
	b, err := json.Marshal(e)
	if err != nil {
		return e, err
	}
	var all map[string]any
	if err := json.Unmarshal(b, &all); err != nil {
		return e, err
	}
	root, err := put(all, path, v)
	if err != nil {
		return e, err
	}
	if b, err = json.Marshal(root); err != nil {
		return e, err
	}
	var next step.Entry
	err = json.Unmarshal(b, &next)
	return next, err
}

// put sets, appends or takes out (nil) the value at a path.
func put(at any, path []string, v any) (any, error) {
	if len(path) == 0 {
		return v, nil
	}
	gone := fmt.Errorf("the step has no %s any more", label(path))
	switch now := at.(type) {
	case map[string]any:
		if len(path) == 1 {
			now[path[0]] = v
			return now, nil
		}
		next, err := put(now[path[0]], path[1:], v)
		now[path[0]] = next
		return now, err
	case []any:
		i, err := strconv.Atoi(path[0])
		if err != nil || i < 0 || i > len(now) {
			return at, gone
		}
		switch {
		case len(path) > 1 && i < len(now):
			now[i], err = put(now[i], path[1:], v)
			return now, err
		case v == nil && i < len(now):
			return slices.Delete(now, i, i+1), nil
		case v == nil:
			return now, nil
		case i == len(now):
			return append(now, v), nil
		}
		now[i] = v
		return now, nil
	}
	return at, gone
}

// namesOf returns the lists of names in a step, by their key.
func namesOf(e step.Entry) map[string][]string {
	out := map[string][]string{}
	for k, v := range treeOf(e) {
		list, ok := v.([]any)
		if !ok {
			continue
		}
		var names []string
		for _, x := range list {
			if s, ok := x.(string); ok {
				names = append(names, s)
			}
		}
		if len(names) == len(list) && len(list) > 0 {
			out[k] = names
		}
	}
	return out
}

// namesThere are the names that a list of a step can hold.
func namesThere(key string, e step.Entry, p pattern.Pattern) []string {
	var out []string
	piece, _ := treeOf(e)["piece"].(string)
	for i := range p.Pieces {
		if key == "pieces" {
			out = append(out, p.Pieces[i].Name)
		} else if p.Pieces[i].Name == piece || piece == "" {
			for _, ed := range p.Pieces[i].Edges {
				out = append(out, ed.Name)
			}
		}
	}
	return out
}

// named reads names with commas between, each of which must be known.
func named(typed string, known []string) ([]any, error) {
	var out []any
	for _, s := range strings.Split(typed, ",") {
		s = strings.TrimSpace(s)
		if s == "" {
			continue
		}
		if !slices.Contains(known, s) {
			return nil, fmt.Errorf("there is no %q here; there are %s", s, strings.Join(known, ", "))
		}
		out = append(out, s)
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("one name is needed at least, of %s", strings.Join(known, ", "))
	}
	return out, nil
}

// pickRows shows what of the step at place i of the recipe can be picked, and
// its lists of names.
func (c *column) pickRows(i int, e step.Entry) {
	w := c.w
	p := w.desk.Before(i)
	replace := func(next step.Entry, err error) {
		if err == nil {
			err = w.desk.Replace(next)
		}
		c.edit(e.ID, err)
	}
	row := func(name string) { c.add(text(name, small, false, w.palette.Faint)) }
	for _, k := range picks(e, p) {
		box := newChoice(k.words, k.words[k.now], func(s string) {
			if n := slices.Index(k.words, s); n >= 0 && n != k.now {
				replace(k.with(e, n))
			}
		})
		box.tell = w.prompt.explain
		row(k.label)
		c.add(container.New(atWidth{columnInner}, box))
	}
	lists := namesOf(e)
	for _, key := range slices.Sorted(maps.Keys(lists)) {
		in := newEntry(strings.Join(lists[key], ", "), columnInner, func(s string, changed bool) {
			if !changed {
				return
			}
			names, err := named(s, namesThere(key, e, p))
			if err != nil {
				c.edit(e.ID, err)
				return
			}
			replace(altered(e, []string{key}, names))
		}, w.backOut)
		row(label([]string{key}))
		c.add(in)
	}
}
