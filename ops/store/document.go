package store

import (
	"bytes"
	"context"
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strconv"
	"strings"

	"truemat/ops/check"
	"truemat/ops/cloth"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// Document is a source and the recipe applied to it, with what the garment is
// cut from and finished with and by which bounds it is checked. It is a value.
type Document struct {
	Source pattern.Run
	Recipe step.Recipe
	Goods  cloth.Goods
	Bounds check.Own // of the checks, where they are not as usual
}

// Results applies the recipe in every size.
func (d Document) Results() []step.Result { return d.Recipe.Replay(d.Source) }

// ResultsContext is Results that gives up once the context is done.
func (d Document) ResultsContext(ctx context.Context) ([]step.Result, error) {
	return d.Recipe.ReplayContext(ctx, d.Source)
}

// SetFit returns the document with another wire table, reduction and closure,
// and with other wires and body measures in the sizes that the map names. It
// is refused, naming size or wire, as [pattern.Run.WithFit] says.
func (d Document) SetFit(f pattern.Fit, sizes map[string]pattern.SizeFit) (Document, error) {
	run, err := d.Source.WithFit(f, sizes)
	if err != nil {
		return Document{}, err
	}
	d.Source = run
	return d, nil
}

// Validate refuses a document whose source, recipe, goods or bounds break the model's
// rules.
func (d Document) Validate() error {
	if err := d.Source.Validate(); err != nil {
		return err
	}
	if err := d.Recipe.Validate(d.Source); err != nil {
		return err
	}
	if err := d.Bounds.Validate(); err != nil {
		return err
	}
	return d.Goods.Validate()
}

// SetBounds returns the document checked by other bounds of the maker's own.
func (d Document) SetBounds(o check.Own) (Document, error) {
	if err := o.Validate(); err != nil {
		return Document{}, err
	}
	d.Bounds = o
	return d, nil
}

const (
	formatName = "truemat pattern"
	// Version is the newest version of the file that this program reads, and
	// the one it writes.
	Version = 1
	// MaxSize is the largest file accepted, in bytes. A pattern of eight
	// sizes takes well under one million.
	MaxSize = 64 << 20
)

type file struct {
	Format  string      `json:"format"`
	Version int         `json:"version"`
	Source  pattern.Run `json:"source"`
	Recipe  step.Recipe `json:"recipe"`
	Goods   cloth.Goods `json:"goods,omitzero"`
	Bounds  check.Own   `json:"bounds,omitempty"`
}

// Write writes the document as JSON; the same document gives the same bytes.
func Write(w io.Writer, d Document) error {
	if err := d.Validate(); err != nil {
		return err
	}
	recipe := d.Recipe
	if recipe == nil {
		recipe = step.Recipe{}
	}
	b, err := json.MarshalIndent(file{formatName, Version, d.Source, recipe, d.Goods, d.Bounds}, "", " ")
	if err != nil {
		return err
	}
	_, err = w.Write(append(b, '\n'))
	return err
}

// Read reads a document. The error says what is wrong and where: the line and
// column of broken JSON, or the size, piece and edge of an impossible shape.
func Read(r io.Reader) (Document, error) { return readContext(context.Background(), r) }

// readContext is Read that gives up once the context is done: while it reads,
// and before what it read is taken apart and judged.
func readContext(ctx context.Context, r io.Reader) (Document, error) {
	r = Heeding(ctx, r)
	b, err := io.ReadAll(io.LimitReader(r, MaxSize+1))
	if err != nil {
		return Document{}, err
	}
	if len(b) > MaxSize {
		return Document{}, fmt.Errorf("the file is over %d MB, more than any pattern takes", MaxSize>>20)
	}
	switch text := bytes.TrimSpace(b); {
	case len(text) == 0:
		return Document{}, errors.New("the file is empty")
	case text[0] != '{':
		return Document{}, errors.New("this is not a Truemat document; a drawing (.svg) is brought in instead")
	}
	var head struct {
		Format  string `json:"format"`
		Version int    `json:"version"`
	}
	if err := json.Unmarshal(b, &head); err != nil {
		return Document{}, located(b, err)
	}
	if err := ctx.Err(); err != nil {
		return Document{}, err
	}
	switch {
	case head.Format != formatName:
		return Document{}, fmt.Errorf("this is not a Truemat document (its \"format\" is not %q)", formatName)
	case head.Version > Version:
		return Document{}, fmt.Errorf("the document was saved in version %d of the format, which is newer than the %d this program reads; use a newer Truemat", head.Version, Version)
	case head.Version < 1:
		return Document{}, fmt.Errorf("the document's version %d does not exist", head.Version)
	}
	var f file
	d := json.NewDecoder(bytes.NewReader(b))
	d.DisallowUnknownFields()
	if err := d.Decode(&f); err != nil {
		return Document{}, located(b, err)
	}
	if err := ctx.Err(); err != nil {
		return Document{}, err
	}
	doc := Document{f.Source, f.Recipe, f.Goods, f.Bounds}
	return doc, doc.Validate()
}

// Heeding returns a reader that fails with the context's error once that is
// done.
func Heeding(ctx context.Context, r io.Reader) io.Reader { return heeding{ctx, r} }

type heeding struct {
	ctx context.Context
	io.Reader
}

func (h heeding) Read(b []byte) (int, error) {
	if err := h.ctx.Err(); err != nil {
		return 0, err
	}
	return h.Reader.Read(b)
}

// ReadSteps reads a list of recipe entries, as the command line takes them.
func ReadSteps(r io.Reader) (step.Recipe, error) {
	b, err := io.ReadAll(io.LimitReader(r, MaxSize+1))
	if err != nil {
		return nil, err
	}
	if len(b) > MaxSize {
		return nil, fmt.Errorf("the file is over %d MB", MaxSize>>20)
	}
	var steps step.Recipe
	if err := json.Unmarshal(b, &steps); err != nil {
		return nil, located(b, err)
	}
	if len(steps) == 0 {
		return nil, errors.New("the list holds no step")
	}
	return steps, nil
}

// WriteSteps writes a list of recipe entries as [ReadSteps] reads it; the same
// list gives the same bytes.
func WriteSteps(w io.Writer, steps step.Recipe) error {
	b, err := json.MarshalIndent(steps, "", " ")
	if err != nil {
		return err
	}
	_, err = w.Write(append(b, '\n'))
	return err
}

// located adds the line and column to an error of the JSON decoder.
func located(b []byte, err error) error {
	var syntax *json.SyntaxError
	var typ *json.UnmarshalTypeError
	switch {
	case errors.As(err, &syntax) && !strings.HasPrefix(syntax.Error(), "unexpected end"):
		return fmt.Errorf("%s: the file is damaged there%s, %q does not belong; take an undamaged copy of it", position(b, syntax.Offset), within(b, syntax.Offset), string(b[max(syntax.Offset-1, 0):][:1]))
	case errors.As(err, &syntax), errors.Is(err, io.ErrUnexpectedEOF):
		return fmt.Errorf("%s: the file is damaged there%s, it ends too early; take an undamaged copy of it", position(b, int64(len(b))), within(b, int64(len(b))))
	case errors.As(err, &typ):
		what := placeAt(b, typ.Offset)
		if what == "" {
			what = "what stands there"
		}
		return fmt.Errorf("%s: %s is %s, and %s belongs there; %s", position(b, typ.Offset), what, step.ValueWords(typ.Value), wantedWords(typ.Type), howToMend)
	}
	if _, entry, ok := strings.Cut(err.Error(), "json: unknown field "); ok {
		if name, unquoted := strconv.Unquote(entry); unquoted == nil {
			if found := strangeEntry(b, name); found != nil {
				return found
			}
		}
	}
	if found := wrongLine(b); found != nil {
		return found
	}
	return err
}

// within names the part of a file that is damaged.
func within(b []byte, offset int64) string {
	if at := placeAt(b, offset); at != "" {
		return ", in " + at
	}
	return ""
}

// wantedWords says what kind of value is wanted in a file.
func wantedWords(t reflect.Type) string {
	switch t.Kind() {
	case reflect.Pointer:
		return wantedWords(t.Elem())
	case reflect.Struct:
		if reflect.PointerTo(t).Implements(reflect.TypeFor[encoding.TextUnmarshaler]()) {
			return "a text"
		}
	case reflect.Float64, reflect.Float32:
		return "a number"
	case reflect.Int, reflect.Int64:
		return "a whole number"
	case reflect.Bool:
		return "true or false"
	case reflect.String:
		return "a text"
	case reflect.Slice, reflect.Array:
		return "a list"
	}
	return "an object"
}

func position(b []byte, offset int64) string {
	offset = min(max(offset, 0), int64(len(b)))
	before := b[:offset]
	line := bytes.Count(before, []byte{'\n'}) + 1
	column := len(before) - bytes.LastIndexByte(before, '\n')
	return fmt.Sprintf("line %d, column %d", line, max(column-1, 1))
}
