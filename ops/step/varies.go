package step

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// A place along an edge, a datum and a hinge belong to the pattern's own words,
// in which a number is a plain one. In the file each of their numbers may be a
// [Number] as well: a table per size, a figure with a factor, or a length as a
// person writes it. What is not the same in every size is kept beside the step
// and put in where it is applied.

// standIn is what stands in a step for a figure that only applying it gives.
const standIn = 0.5

var unmarshaler = reflect.TypeFor[json.Unmarshaler]()

// pull takes the numbers that are no plain ones out of what is to be read as a
// value of type t; it returns that with plain ones in their places.
func pull(t reflect.Type, raw json.RawMessage, path []string) (json.RawMessage, []NumberAt, error) {
	raw = bytes.TrimSpace(raw)
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch {
	case len(raw) == 0 || t == numberType || reflect.PointerTo(t).Implements(unmarshaler):
		return raw, nil, nil
	case t.Kind() == reflect.Float64 && (raw[0] == '{' || raw[0] == '"'):
		return plain(raw, path)
	case t.Kind() == reflect.Slice && raw[0] == '[':
		var items []json.RawMessage
		if err := json.Unmarshal(raw, &items); err != nil {
			return nil, nil, err
		}
		var all []NumberAt
		for i := range items {
			item, found, err := pull(t.Elem(), items[i], with(path, strconv.Itoa(i)))
			if err != nil {
				return nil, nil, err
			}
			items[i], all = item, append(all, found...)
		}
		b, err := json.Marshal(items)
		return b, all, err
	case t.Kind() == reflect.Struct && raw[0] == '{':
		var fields map[string]json.RawMessage
		if err := json.Unmarshal(raw, &fields); err != nil {
			return nil, nil, err
		}
		all, err := pullFields(t, fields, path)
		if err != nil {
			return nil, nil, err
		}
		b, err := json.Marshal(fields)
		return b, all, err
	}
	return raw, nil, nil
}

// pullFields is pull for the fields of a struct, embedded ones included.
func pullFields(t reflect.Type, fields map[string]json.RawMessage, path []string) (all []NumberAt, err error) {
	for i := range t.NumField() {
		field := t.Field(i)
		name, _, _ := strings.Cut(field.Tag.Get("json"), ",")
		var found []NumberAt
		switch raw, ok := fields[name]; {
		case field.Anonymous && name == "" && field.Type.Kind() == reflect.Struct:
			found, err = pullFields(field.Type, fields, path)
		case ok && field.IsExported() && name != "-":
			fields[name], found, err = pull(field.Type, raw, with(path, name))
		}
		if err != nil {
			return nil, err
		}
		all = append(all, found...)
	}
	return all, nil
}

// plain reads a number that is not written as one; a table or a figure is
// returned as such, with something that stands for it.
func plain(raw json.RawMessage, path []string) (json.RawMessage, []NumberAt, error) {
	var n Number
	if err := json.Unmarshal(raw, &n); err != nil {
		return nil, nil, fmt.Errorf("%s: %w", strings.Join(path, " "), err)
	}
	v, literal := n.Literal()
	var held []NumberAt
	if !literal {
		held, v = []NumberAt{{path, n}}, standIn
		if n.sizes != nil {
			v = n.sizes[slices.Sorted(maps.Keys(n.sizes))[0]]
		}
		if v == 0 {
			v = standIn // a field that is nought may be left out of the file
		}
	}
	b, err := json.Marshal(v)
	return b, held, err
}

func with(path []string, name string) []string { return append(slices.Clip(path), name) }

// put returns the JSON b with another value at a path that stands in it.
func put(b []byte, path []string, value json.RawMessage) ([]byte, error) {
	if len(path) == 0 {
		return value, nil
	}
	d := json.NewDecoder(bytes.NewReader(b))
	open, err := d.Token()
	if err != nil {
		return nil, err
	}
	for i := 0; d.More(); i++ {
		key := strconv.Itoa(i)
		if open == json.Delim('{') {
			t, err := d.Token()
			if err != nil {
				return nil, err
			}
			key = fmt.Sprint(t)
		}
		var raw json.RawMessage
		if err := d.Decode(&raw); err != nil {
			return nil, err
		}
		if key != path[0] {
			continue
		}
		end := int(d.InputOffset())
		inner, err := put(raw, path[1:], value)
		return slices.Concat(b[:end-len(raw)], inner, b[end:]), err
	}
	return nil, fmt.Errorf("there is no %q", path[0])
}

// Sentence tells what the step does, and what of its places and datums is not
// the same in every size.
func (e Entry) Sentence() string {
	text := e.Step.Sentence()
	for _, at := range e.Varies {
		told := at.Number.words
		if table := at.Number.sizes; table != nil {
			told = func() string {
				var each []string
				for _, size := range slices.Sorted(maps.Keys(table)) {
					each = append(each, fmt.Sprintf("%.5g in %s", table[size], size))
				}
				return words(each)
			}
		} else if at.Number.times != 1 {
			told = func() string { return partWord(at.Number.times) + " " + at.Number.words() }
		}
		text += fmt.Sprintf(" There %q varies: %s.", strings.Join(at.Path, " "), told())
	}
	return text
}

// in returns the step as it is applied there, with the numbers that vary.
func (e Entry) in(in Input) (Step, error) {
	if len(e.Varies) == 0 {
		return e.Step, nil
	}
	b, err := json.Marshal(e.Step)
	if err != nil {
		return nil, err
	}
	for _, at := range e.Varies {
		v, err := at.Number.In(in)
		if err != nil {
			return nil, err
		}
		text, err := json.Marshal(v)
		if err != nil {
			return nil, err
		}
		if b, err = put(b, at.Path, text); err != nil {
			return nil, err
		}
	}
	s := kinds[e.Step.Kind()]()
	return s, json.Unmarshal(b, s)
}
