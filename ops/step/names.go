package step

import (
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strings"
)

// NameKind says what a name names.
type NameKind string

// The kinds of name that a step can hold.
const (
	NamePiece  NameKind = "piece"
	NameEdge   NameKind = "edge"
	NameNotch  NameKind = "notch"
	NameInner  NameKind = "inner line"
	NameSeam   NameKind = "seam"
	NameLine   NameKind = "line"
	NameFigure NameKind = "figure" // of the pattern, without "pattern."
	NameSize   NameKind = "size"
	NameStep   NameKind = "step" // id of a step
)

// Name is the name of something in a pattern. Piece is the piece it is on for
// an edge, a notch and an inner line, "" when the step does not say which.
type Name struct {
	Kind  NameKind
	Piece string
	Name  string
}

// OnPiece reports whether names of that kind are told apart by their piece.
func (k NameKind) OnPiece() bool { return k == NameEdge || k == NameNotch || k == NameInner }

func (n Name) String() string {
	if n.Kind.OnPiece() && n.Piece != "" {
		return fmt.Sprintf("%s %q of %q", n.Kind, n.Name, n.Piece)
	}
	return fmt.Sprintf("%s %q", n.Kind, n.Name)
}

// Mention is a place in an entry at which a name stands.
type Mention struct {
	Name
	// Makes says that the step gives this name to something it makes, rather
	// than finding something of that name in the pattern.
	Makes bool
	// Anywhere says that the step finds itself the piece of what it makes; NotOn
	// is one that this is not on.
	Anywhere bool
	NotOn    string
	set      func(string)
}

// Set writes another name there. It changes the entry that the mention came
// from; clone that first when it is shared.
func (m Mention) Set(name string) { m.set(name) }

// Clone returns an entry that shares nothing with e.
func (e Entry) Clone() (Entry, error) {
	b, err := json.Marshal(e)
	if err != nil {
		return Entry{}, err
	}
	var c Entry
	return c, json.Unmarshal(b, &c)
}

// Mentions returns every name that the entry holds, in the order of its fields:
// its own id, the sizes it is meant for, and the names of its step. Which
// fields are names stands in [naming].
func (e *Entry) Mentions() []Mention {
	var w mentions
	w.text(&e.ID, named{kind: NameStep, makes: always}, "", reflect.Value{})
	for i := range e.Sizes {
		w.text(&e.Sizes[i], named{kind: NameSize}, "", reflect.Value{})
	}
	if e.Step != nil {
		w.value(reflect.ValueOf(e.Step), "")
	}
	for i := range e.Varies {
		w.number(&e.Varies[i].Number)
	}
	return w.list
}

// CanMake reports whether steps like e's can give something of that kind a name,
// by a field or, where that is left out, by one of their own finding.
func (e Entry) CanMake(kind NameKind) bool {
	return slices.Contains(ownNames[e.Step.Kind()], kind) || canMake(reflect.TypeOf(e.Step), kind)
}

// ownNames are the kinds of what steps make under names that stand in none of
// their fields: on the other half or hand, where edges join or a dart was.
var ownNames = map[string][]NameKind{
	"fold":   {NameInner},
	"mirror": {NameSeam, NameLine},
	"spread": {NameEdge, NameInner},
	"unfold": {NameEdge, NameNotch, NameInner, NameSeam, NameLine},
}

func canMake(t reflect.Type, kind NameKind) bool {
	switch t.Kind() {
	case reflect.Pointer, reflect.Slice:
		return canMake(t.Elem(), kind)
	case reflect.Struct:
		if t.PkgPath() != numberType.PkgPath() {
			return false // what a pattern is built of makes nothing
		}
		for i := range t.NumField() {
			if !t.Field(i).IsExported() {
				continue
			}
			names, ok := naming[fieldName(t, i)]
			if !ok && canMake(t.Field(i).Type, kind) {
				return true
			}
			for _, n := range names {
				if n.kind == kind && n.makes != nil {
					return true
				}
			}
		}
	}
	return false
}

type mentions struct{ list []Mention }

// value walks a value of a step. Piece is the piece that names on a piece
// belong to when the struct they stand in names none itself.
func (w *mentions) value(v reflect.Value, piece string) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			w.value(v.Elem(), piece)
		}
	case reflect.Slice:
		for i := range v.Len() {
			w.value(v.Index(i), piece)
		}
	case reflect.Struct:
		if v.Type() == numberType {
			w.number(v.Addr().Interface().(*Number))
			return
		}
		if own := v.FieldByName("Piece"); own.IsValid() && own.Kind() == reflect.String && own.String() != "" {
			piece = own.String()
		}
		for i := range v.NumField() {
			if !v.Type().Field(i).IsExported() {
				continue
			}
			names, ok := naming[fieldName(v.Type(), i)]
			if !ok {
				w.value(v.Field(i), piece)
				continue
			}
			for _, n := range names {
				if n.when == nil || n.when(v) {
					w.field(v.Field(i), n, piece, v)
				}
			}
		}
	}
}

func fieldName(t reflect.Type, i int) string { return t.String() + "." + t.Field(i).Name }

// field notes the names in a field of the struct in.
func (w *mentions) field(f reflect.Value, n named, piece string, in reflect.Value) {
	switch p := f.Addr().Interface().(type) {
	case *string:
		w.text(p, n, piece, in)
	case **string:
		if *p != nil {
			w.text(*p, n, piece, in)
		}
	case *[]string:
		for i := range *p {
			w.text(&(*p)[i], n, piece, in)
		}
	case *map[string]string:
		w.pairs(p, n, piece, in)
	case *map[string]Number:
		w.numbered(p, n, piece, in)
	}
}

// text notes one name, unless it is empty.
func (w *mentions) text(p *string, n named, piece string, in reflect.Value) {
	if *p == "" {
		return
	}
	m := Mention{Name: n.name(*p, piece, in), Makes: n.makes != nil && n.makes(in), set: func(s string) { *p = s }}
	if n.on == anyPiece {
		m.Anywhere, m.NotOn = true, piece
	}
	w.list = append(w.list, m)
}

// name is the name that a field holds.
func (n named) name(text, piece string, in reflect.Value) Name {
	switch {
	case !n.kind.OnPiece() || n.on == anyPiece:
		piece = ""
	case n.on != "":
		piece = in.FieldByName(n.on).FieldByName("Piece").String()
	}
	return Name{n.kind, piece, text}
}

// pairs notes the keys of a map, which name what there is, and its values,
// which name what becomes of it.
func (w *mentions) pairs(m *map[string]string, n named, piece string, in reflect.Value) {
	type pair struct{ from, to string }
	var all []*pair
	write := func() {
		next := make(map[string]string, len(all))
		for _, p := range all {
			next[p.from] = p.to
		}
		*m = next
	}
	for _, from := range sortedNames(*m) {
		p := &pair{from, (*m)[from]}
		all = append(all, p)
		w.list = append(w.list,
			Mention{Name: n.name(p.from, piece, in), set: func(s string) { p.from = s; write() }},
			Mention{Name: n.name(p.to, piece, in), Makes: true, set: func(s string) { p.to = s; write() }})
	}
}

// numbered notes the keys of a map of numbers.
func (w *mentions) numbered(m *map[string]Number, n named, piece string, in reflect.Value) {
	type pair struct {
		name string
		v    *Number
	}
	var all []*pair
	write := func() {
		next := make(map[string]Number, len(all))
		for _, p := range all {
			next[p.name] = *p.v
		}
		*m = next
	}
	for _, name := range sortedNames(*m) {
		v := (*m)[name]
		p := &pair{name, &v}
		all = append(all, p)
		w.list = append(w.list, Mention{Name: n.name(name, piece, in), set: func(s string) { p.name = s; write() }})
		first := len(w.list)
		w.number(p.v)
		for i := first; i < len(w.list); i++ {
			set := w.list[i].set
			w.list[i].set = func(s string) { set(s); write() }
		}
	}
}

// number notes the sizes of a table, or the figure.
func (w *mentions) number(n *Number) {
	if n.sizes != nil {
		type cell struct {
			size string
			v    float64
		}
		var all []*cell
		for _, size := range sortedNames(n.sizes) {
			c := &cell{size, n.sizes[size]}
			all = append(all, c)
			w.list = append(w.list, Mention{Name: Name{Kind: NameSize, Name: size}, set: func(s string) {
				c.size = s
				n.sizes = make(map[string]float64, len(all))
				for _, c := range all {
					n.sizes[c.size] = c.v
				}
			}})
		}
		return
	}
	of, figure, ok := strings.Cut(n.figure, ".")
	switch {
	case !ok:
	case of == patternFigures:
		w.list = append(w.list, Mention{Name: Name{Kind: NameFigure, Name: figure}, set: func(s string) { n.figure = of + "." + s }})
	default:
		w.list = append(w.list, Mention{Name: Name{Kind: NameStep, Name: of}, set: func(s string) { n.figure = s + "." + figure }})
	}
}
