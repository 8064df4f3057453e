package step

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"
)

var kinds = map[string]func() Step{}

// register makes a kind of step known; each step's file calls it once.
func register(kind string, blank func() Step) { kinds[kind] = blank }

// Kinds lists the known kinds of step in alphabetical order.
func Kinds() []string { return slices.Sorted(maps.Keys(kinds)) }

// Entry is a step in a recipe. In JSON the step's own fields stand beside id,
// do, off and sizes:
//
//	{"id": "turn", "do": "turn", "piece": "cradle", …}
type Entry struct {
	// ID is the lasting name by which later steps refer to its figures.
	ID string
	// Off leaves the step out without forgetting it.
	Off bool
	// Sizes are the labels the step is meant for; all when empty.
	Sizes []string
	Step  Step
	// Varies are the numbers of places, datums and hinges that are not the same
	// in every size, with where they stand in the step. There something else
	// stands in for them.
	Varies []NumberAt
}

type entryHead struct {
	ID    string   `json:"id"`
	Do    string   `json:"do"`
	Off   bool     `json:"off,omitempty"`
	Sizes []string `json:"sizes,omitempty"`
}

// MarshalJSON writes the entry as one flat object.
func (e Entry) MarshalJSON() ([]byte, error) {
	head, err := json.Marshal(entryHead{e.ID, e.Step.Kind(), e.Off, e.Sizes})
	if err != nil {
		return nil, err
	}
	body, err := json.Marshal(e.Step)
	if err != nil {
		return nil, err
	}
	for _, at := range e.Varies {
		n, err := json.Marshal(at.Number)
		if err != nil {
			return nil, err
		}
		if body, err = put(body, at.Path, n); err != nil {
			return nil, fmt.Errorf("step %q: %w", e.ID, err)
		}
	}
	if len(body) == len("{}") {
		return head, nil
	}
	return slices.Concat(head[:len(head)-1], []byte{','}, body[1:]), nil
}

// UnmarshalJSON reads what MarshalJSON writes; it refuses unknown kinds of
// step and unknown fields, naming those there are.
func (e *Entry) UnmarshalJSON(b []byte) error {
	var head entryHead
	if err := json.Unmarshal(b, &head); err != nil {
		return head.wrong(err)
	}
	blank, ok := kinds[head.Do]
	if !ok {
		return fmt.Errorf("step %q: there is no step %q; there are %s", head.ID, head.Do, strings.Join(Kinds(), ", "))
	}
	var fields map[string]json.RawMessage
	if err := json.Unmarshal(b, &fields); err != nil {
		return err
	}
	for _, own := range []string{"id", "do", "off", "sizes"} {
		delete(fields, own)
	}
	body, err := json.Marshal(fields)
	if err != nil {
		return err
	}
	s := blank()
	body, varies, err := pull(reflect.TypeOf(s), body, nil)
	if err != nil {
		return fmt.Errorf("step %q (%s): %w", head.ID, head.Do, err)
	}
	d := json.NewDecoder(bytes.NewReader(body))
	d.DisallowUnknownFields()
	if err := d.Decode(s); err != nil {
		return head.wrong(err)
	}
	*e = Entry{ID: head.ID, Off: head.Off, Sizes: head.Sizes, Step: s, Varies: varies}
	return nil
}

// wrong tells of which step something cannot be read; where it stands in the step
// would be taken for a place in the file.
func (h entryHead) wrong(err error) error {
	var typ *json.UnmarshalTypeError
	if errors.As(err, &typ) {
		err = fmt.Errorf("its %q is %s, and something else belongs there", typ.Field, ValueWords(typ.Value))
	}
	if h.Do == "" {
		return fmt.Errorf("step %q: %w", h.ID, err)
	}
	return fmt.Errorf("step %q (%s): %w", h.ID, h.Do, err)
}

// ValueWords says what kind of value stands in a file, by its kind in JSON.
func ValueWords(value string) string {
	kind, _, _ := strings.Cut(value, " ") // a number may be told with its digits
	switch kind {
	case "string":
		return "a text"
	case "bool":
		return "true or false"
	case "array":
		return "a list"
	case "object":
		return "an object"
	}
	return "a " + value
}
