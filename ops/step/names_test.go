package step

import (
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// holders are the types of the fields of text that can hold a name.
var holders = []reflect.Type{reflect.TypeFor[string](), reflect.TypeFor[*string](), reflect.TypeFor[[]string](), reflect.TypeFor[map[string]string](), reflect.TypeFor[map[string]Number]()}

// fieldsOf calls f with the name and type of every exported field below t.
func fieldsOf(t reflect.Type, seen map[reflect.Type]bool, f func(name string, field reflect.Type)) {
	switch t.Kind() {
	case reflect.Pointer, reflect.Slice, reflect.Map:
		fieldsOf(t.Elem(), seen, f)
	case reflect.Struct:
		if t == numberType || seen[t] {
			return
		}
		seen[t] = true
		for i := range t.NumField() {
			if !t.Field(i).IsExported() {
				continue
			}
			f(fieldName(t, i), t.Field(i).Type)
			fieldsOf(t.Field(i).Type, seen, f)
		}
	}
}

// Every field of text of every kind of step, however deep, says in [naming]
// what it names; so a recipe misses none of its names when it is opened on
// another pattern.
func TestEveryFieldOfTextSaysWhatItNames(t *testing.T) {
	used := map[string]bool{}
	for _, kind := range Kinds() {
		fieldsOf(reflect.TypeOf(kinds[kind]()), map[reflect.Type]bool{}, func(name string, field reflect.Type) {
			holds := false
			for _, h := range holders {
				holds = holds || field == h
			}
			_, said := naming[name]
			require.Equal(t, holds, said, "%s (%s), of the step %q: add a line to naming.go that says what it names", name, field, kind)
			used[name] = true
			textBelow(t, name, field)
		})
	}
	for name := range naming {
		require.True(t, used[name], "no step has the field %s", name)
	}
}

// textBelow refuses containers of text that the walk does not know.
func textBelow(t *testing.T, name string, field reflect.Type) {
	for _, h := range holders {
		if field == h {
			return
		}
	}
	switch field.Kind() {
	case reflect.Map, reflect.Slice, reflect.Pointer, reflect.Array:
		require.NotEqual(t, reflect.TypeFor[string](), field.Elem(), name)
	case reflect.Interface:
		t.Fatalf("%s is an interface; the walk over names does not look into those", name)
	}
	if field.Kind() == reflect.Map {
		require.NotEqual(t, reflect.Struct, field.Elem().Kind(), "%s: the walk over names does not look into maps", name)
	}
}

// exampleSteps are the steps that the README shows, one or more of each kind.
func exampleSteps(t *testing.T) Recipe {
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	var all Recipe
	for _, row := range regexp.MustCompile("(?m)^\\| `[a-z-]+`[^|]*\\| `(\\{.*\\})` \\|$").FindAllStringSubmatch(string(readme), -1) {
		var e Entry
		require.NoError(t, json.Unmarshal([]byte(row[1]), &e))
		all = append(all, e)
	}
	require.NotEmpty(t, all)
	return all
}

// Every piece of text in a step as it is written in a file, apart from keys,
// kind and words of a fixed set, is one of its mentions; renaming all mentions
// renames each of them, and nothing else.
func TestMentionsCoverTheNamesInTheFile(t *testing.T) {
	for _, e := range exampleSteps(t) {
		c, err := e.Clone()
		require.NoError(t, err)
		ms := c.Mentions()
		require.Equal(t, Name{NameStep, "", e.ID}, ms[0].Name)
		for _, m := range ms {
			m.Set("name for " + m.Name.Name)
		}
		again := c.Mentions()
		require.Len(t, again, len(ms))
		for i, m := range again {
			require.Equal(t, "name for "+ms[i].Name.Name, m.Name.Name, "%s", e.ID)
			require.Equal(t, ms[i].Kind, m.Kind)
		}
		was, err := json.Marshal(e)
		require.NoError(t, err)
		now, err := json.Marshal(c)
		require.NoError(t, err)
		for _, m := range ms {
			quotedName := `"` + m.Name.Name + `"`
			if len(m.Name.Name) > 2 && m.Kind != NameStep && !strings.Contains(string(was), quotedName+":") {
				require.NotContains(t, strings.ReplaceAll(string(now), `"do":`+quotedName, ""), quotedName, "%s is renamed wherever it stands in %s", m.Name, e.ID)
			}
		}
	}
}

func TestMentionsSayWhichPieceAndWhatIsMade(t *testing.T) {
	var e Entry
	require.NoError(t, json.Unmarshal([]byte(`{"id": "t", "do": "tape", "sizes": ["S"],
		"a": {"piece": "bridge", "edge": "side", "end": "end"}, "b": {"piece": "cradle", "edge": "front", "end": "start"},
		"name": "frame", "edges": {"hem": "lower"}, "datum": {"through": [{"piece": "bridge", "edge": "hem", "from": "start"}]}}`), &e))
	type said struct {
		Name
		makes bool
	}
	var got []said
	for _, m := range e.Mentions() {
		got = append(got, said{m.Name, m.Makes})
	}
	require.Equal(t, []said{
		{Name{NameStep, "", "t"}, true}, {Name{NameSize, "", "S"}, false},
		{Name{NamePiece, "", "bridge"}, false}, {Name{NameEdge, "bridge", "side"}, false},
		{Name{NamePiece, "", "cradle"}, false}, {Name{NameEdge, "cradle", "front"}, false},
		{Name{NamePiece, "", "frame"}, true}, {Name{NameEdge, "bridge", "hem"}, false}, {Name{NameEdge, "bridge", "lower"}, true},
		{Name{NamePiece, "", "bridge"}, false}, {Name{NameEdge, "bridge", "hem"}, false},
	}, got)
	require.True(t, e.CanMake(NamePiece))

	require.NoError(t, json.Unmarshal([]byte(`{"id": "n", "do": "notch", "act": "move", "piece": "a", "name": "x", "mm": {"figure": "pattern.wire", "times": 0.5}}`), &e))
	got = nil
	for _, m := range e.Mentions() {
		got = append(got, said{m.Name, m.Makes})
	}
	require.Equal(t, []said{{Name{NameStep, "", "n"}, true}, {Name{NamePiece, "", "a"}, false}, {Name{NameNotch, "a", "x"}, false}, {Name{NameFigure, "", "wire"}, false}}, got)
	require.False(t, e.CanMake(NamePiece))

	require.NoError(t, json.Unmarshal([]byte(`{"id": "a", "do": "allow", "piece": "p", "edge": "e", "width": {"sizes": {"M": 1, "S": 2}}}`), &e))
	for _, m := range e.Mentions() {
		if m.Kind == NameSize {
			m.Set(map[string]string{"S": "M", "M": "S"}[m.Name.Name])
		}
	}
	b, err := json.Marshal(e)
	require.NoError(t, err)
	require.Contains(t, string(b), `{"M":2,"S":1}`, "names that change places")

	require.NoError(t, json.Unmarshal([]byte(`{"id": "s", "do": "sew", "name": "x", "ease": 1}`), &e))
	require.False(t, e.Mentions()[1].Makes, "it changes a seam there is")
	require.NoError(t, json.Unmarshal([]byte(`{"id": "s", "do": "share-out", "amount": {"figure": "t.overlap"}, "onto": [{"piece": "p", "edge": "e", "end": "start"}]}`), &e))
	require.Equal(t, Name{NameStep, "", "t"}, e.Mentions()[1].Name)
	require.Equal(t, Name{NameEdge, "p", "e"}, e.Mentions()[3].Name)
}
