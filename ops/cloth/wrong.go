package cloth

import (
	"errors"
	"fmt"
)

// Wrong is why a part of a cloth, an elastic or the notions cannot be.
type Wrong struct {
	// Field names the part as JSON does, with points between what lies within
	// another and numbers for places in a list: "lace.repeat", "stretches.0".
	Field string
	Err   error
}

func (w Wrong) Error() string { return w.Err.Error() }

func (w Wrong) Unwrap() error { return w.Err }

func wrong(field, format string, a ...any) error { return Wrong{field, fmt.Errorf(format, a...)} }

// within says in which part the field of an error lies, which holds a Wrong.
func within(part string, err error) Wrong {
	var w Wrong
	errors.As(err, &w)
	return Wrong{part + "." + w.Field, err}
}
