// Package settings keeps what the maker set on disk: the unit, the colours, the
// groups that are folded. Several programs may use one file: each value is
// written whole or not at all, and those that another wrote stay.
package settings

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"truemat/ops/store"
)

// File are settings in a file of JSON. It is used from one goroutine.
type File struct {
	path   string
	values map[string]any
	wrong  error
}

// Path returns where settings are kept.
func Path() (string, error) {
	dir, err := os.UserConfigDir()
	if err != nil {
		return "", fmt.Errorf("there is no folder for your settings: %w", err)
	}
	return filepath.Join(dir, "truemat", "settings.json"), nil
}

// Open reads settings. Without a file, or with one that is damaged, none is set;
// with an empty path they are not kept.
func Open(path string) *File {
	f := &File{path: path}
	f.read()
	return f
}

func (f *File) read() {
	now := map[string]any{}
	if f.path != "" {
		if b, err := os.ReadFile(f.path); err == nil && json.Unmarshal(b, &now) == nil {
			f.values = now
		}
	}
	if f.values == nil {
		f.values = now
	}
}

// Wrong is why settings could not be written the last time; nil when they were.
func (f *File) Wrong() error { return f.wrong }

// set keeps a value, with all that others wrote since.
func (f *File) set(key string, v any) {
	f.read()
	f.values[key] = v
	if f.path == "" {
		return
	}
	if f.wrong = os.MkdirAll(filepath.Dir(f.path), 0o755); f.wrong != nil {
		return
	}
	f.wrong = store.WriteFile(f.path, func(w io.Writer) error {
		e := json.NewEncoder(w)
		e.SetIndent("", " ")
		return e.Encode(f.values)
	})
}

// Bool returns a setting, false when it is not set.
func (f *File) Bool(key string) bool {
	v, _ := f.values[key].(bool)
	return v
}

// SetBool sets it.
func (f *File) SetBool(key string, v bool) { f.set(key, v) }

// Float returns a setting, 0 when it is not set.
func (f *File) Float(key string) float64 {
	v, _ := f.values[key].(float64)
	return v
}

// SetFloat sets it.
func (f *File) SetFloat(key string, v float64) { f.set(key, v) }

// Int returns a setting, 0 when it is not set.
func (f *File) Int(key string) int { return int(f.Float(key)) }

// SetInt sets it.
func (f *File) SetInt(key string, v int) { f.set(key, float64(v)) }

// String returns a setting, "" when it is not set.
func (f *File) String(key string) string { return f.StringWithFallback(key, "") }

// StringWithFallback returns a setting, or another value when it is not set.
func (f *File) StringWithFallback(key, other string) string {
	if v, ok := f.values[key].(string); ok {
		return v
	}
	return other
}

// SetString sets it.
func (f *File) SetString(key, v string) { f.set(key, v) }

// StringList returns a setting, none when it is not set.
func (f *File) StringList(key string) []string {
	var out []string
	switch all := f.values[key].(type) {
	case []string:
		return all
	case []any:
		for _, v := range all {
			if s, ok := v.(string); ok {
				out = append(out, s)
			}
		}
	}
	return out
}

// SetStringList sets it.
func (f *File) SetStringList(key string, v []string) { f.set(key, v) }
