package step

import (
	"encoding/json"
	"fmt"
	"maps"
	"reflect"
	"strconv"
	"strings"
)

// Literal returns the value of a number that is the same in every size.
func (n Number) Literal() (v float64, ok bool) {
	return n.value, n.sizes == nil && n.figure == ""
}

// Table returns the values of a number that has one for each size, or nil.
func (n Number) Table() map[string]float64 { return maps.Clone(n.sizes) }

// Of returns the figure that a number is taken from, times what; "" when it is
// not taken from one.
func (n Number) Of() (figure string, times float64) { return n.figure, n.times }

// NumberAt is a number of a step that may be one for all sizes, a table per
// size or a figure. Path says where it stands, by the names of the fields in
// the file; an item of a list by its place from 0.
type NumberAt struct {
	Path   []string
	Number Number
}

// NumbersOf lists the numbers that a step has, in the order of its fields.
func NumbersOf(s Step) []NumberAt {
	var all []NumberAt
	visit(reflect.ValueOf(s), nil, func(path []string, v reflect.Value) {
		all = append(all, NumberAt{path, v.Interface().(Number)})
	})
	return all
}

// WithNumber returns the entry with another number at a path: one that
// NumbersOf gave, one of Varies, or that of a plain number of a place, datum or
// hinge, which so may come to vary. The entry itself stays as it is.
func (e Entry) WithNumber(path []string, n Number) (Entry, error) {
	b, err := json.Marshal(e)
	if err != nil {
		return e, err
	}
	value, err := json.Marshal(n)
	if err != nil {
		return e, err
	}
	if b, err = put(b, path, value); err != nil {
		return e, fmt.Errorf("step %q has no number %q", e.ID, strings.Join(path, " "))
	}
	var next Entry
	if err := json.Unmarshal(b, &next); err != nil {
		return e, err
	}
	return next, nil
}

var numberType = reflect.TypeFor[Number]()

// visit calls f with every number of a step that its file form has.
func visit(v reflect.Value, path []string, f func([]string, reflect.Value)) {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			visit(v.Elem(), path, f)
		}
	case reflect.Slice:
		for i := range v.Len() {
			visit(v.Index(i), append(path[:len(path):len(path)], strconv.Itoa(i)), f)
		}
	case reflect.Map:
		if v.Type().Elem() != numberType {
			return
		}
		for _, key := range sortedNames(v.Interface().(map[string]Number)) {
			item := reflect.New(numberType).Elem()
			item.Set(v.MapIndex(reflect.ValueOf(key)))
			f(append(path[:len(path):len(path)], key), item)
			if !reflect.DeepEqual(item.Interface(), v.MapIndex(reflect.ValueOf(key)).Interface()) {
				v.SetMapIndex(reflect.ValueOf(key), item)
			}
		}
	case reflect.Struct:
		if v.Type() == numberType {
			f(path, v)
			return
		}
		for i := range v.NumField() {
			field := v.Type().Field(i)
			tag, options, _ := strings.Cut(field.Tag.Get("json"), ",")
			if !field.IsExported() || tag == "-" || strings.Contains(options, "omitzero") && v.Field(i).IsZero() {
				continue
			}
			at := path
			if !field.Anonymous || tag != "" {
				if tag == "" {
					tag = field.Name
				}
				at = append(path[:len(path):len(path)], tag)
			}
			visit(v.Field(i), at, f)
		}
	}
}
