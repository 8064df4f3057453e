package window

import (
	"cmp"
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"truemat/app/desk"
	"truemat/ops/demo"
	"truemat/ops/step"
	"truemat/ops/store"
)

var stepRow = regexp.MustCompile("(?m)^\\| `[a-z-]+`[^|]*\\| `(\\{.*\\})` \\|$")

// furtherSteps have what the table of the README has not: lists of several,
// places of every way, numbers that are seldom given.
var furtherSteps = []string{
	`{"id": "two", "do": "spread", "piece": "lower outer cup", "slashes": [{"from": {"edge": "wire", "share": 0.35}, "amount": 2}, {"from": {"edge": "wire", "share": 0.65}, "amount": 3}], "hinge": {"spot": {"edge": "cross seam", "share": 0.5}}, "fair": 20}`,
	`{"id": "inside", "do": "spread", "piece": "lower outer cup", "slashes": [{"from": {"edge": "wire", "share": 0.5}}], "hinge": {"from": {"edge": "wire", "share": 0.5}, "to": {"edge": "cross seam", "share": 0.5}, "along": 0.5, "off": 0.02}, "close": {"at": {"edge": "cross seam", "share": 0.4}}, "degrees": 3}`,
	`{"id": "dart", "do": "spread", "piece": "lower outer cup", "slashes": [{"from": {"edge": "wire", "share": 0.5}}], "hinge": {"spot": {"edge": "cross seam", "share": 0.5}}, "amount": 6, "dart": {"name": "wire dart", "short": 8, "allowance": 6}}`,
	`{"id": "until", "do": "spread", "piece": "lower outer cup", "slashes": [{"from": {"edge": "wire", "share": 0.5}}], "hinge": {"spot": {"edge": "cross seam", "from": "end"}}, "until": {"edge": "wire", "length": {"figure": "pattern.none"}}}`,
	`{"id": "drops", "do": "walk", "seam": "side seam", "drop": [{"on": "a", "name": "low", "mm": 20}, {"on": "b", "name": "low", "mm": 20}, {"on": "a", "mm": 40, "name": "notch 2"}]}`,
	`{"id": "points", "do": "draw", "piece": "band", "name": "line", "points": [{"x": 0.2, "y": 0.3}, {"x": 0.5, "y": 0.6}, {"x": 0.8, "y": 0.4}], "curved": true}`,
	`{"id": "spots", "do": "draw", "piece": "band", "name": "line", "from": {"edge": "top", "mm": 30}, "to": {"edge": "hem", "share": 0.4}, "bulge": 3}`,
	`{"id": "knots", "do": "reshape", "piece": "upper outer cup", "edge": "neckline", "from": {"share": 0.1}, "to": {"share": 0.9}, "start": "free", "end": "free", "knots": [{"out": {"along": 0.2, "off": 0.01}}, {"along": 0.35, "off": 0.04, "in": {"along": -0.1, "off": -0.01}, "out": {"along": 0.1}, "corner": true}, {"along": 0.7, "off": 0.03, "in": {"along": -0.1}, "out": {"along": 0.1}}, {"along": 1, "in": {"along": -0.2}}]}`,
	`{"id": "mark", "do": "mark", "piece": "band", "text": "MINE", "at": {"x": 200, "y": 20}, "height": 9, "count": 2, "layers": 2}`,
	`{"id": "turn", "do": "turn", "piece": "cradle", "pin": {"piece": "cradle", "edge": "hem", "mm": 12}, "direction": "cw", "until": {"touch": "hem", "datum": {"y": -20}}}`,
	`{"id": "level", "do": "level", "seam": "wire seam", "bend": "both", "share": 0.5, "limit": 9}`,
	`{"id": "part", "do": "share-out", "amount": 4, "onto": [{"piece": "cradle", "edge": "side seam", "end": "start", "part": 0.25}, {"piece": "band", "edge": "side seam", "end": "end"}], "limit": 6}`,
	`{"id": "curve", "do": "cut-off", "piece": "inner cup", "from": {"piece": "inner cup", "edge": "wire", "mm": 3}, "to": {"piece": "inner cup", "notch": "above apex"}, "keep": "right", "name": "lace edge", "role": "lace-edge", "curve": {"from": {"degrees": 5, "reach": 0.3}, "to": {"degrees": -5}}, "allowance": 0}`,
	`{"id": "runs", "do": "smooth", "piece": "cradle", "edge": "wire", "from": {"mm": 20}, "to": {"share": 0.6}}`,
	`{"id": "notch", "do": "notch", "act": "add", "piece": "band", "name": "notch 1", "edge": "top", "from": "end", "mm": 30}`,
	`{"id": "spot", "do": "notch", "act": "add", "piece": "band", "name": "notch 2", "spot": {"piece": "band", "edge": "top", "mm": 30}}`,
	`{"id": "reaches", "do": "true", "seam": "side seam", "end": "start", "reach_a": 20, "reach_b": 25}`,
	`{"id": "line", "do": "sew", "name": "edge of all", "line": {"parts": [{"piece": "band", "edge": "hem", "from": 0.1, "to": 0.8}], "kind": "elastic", "count": 2}}`,
	`{"id": "push", "do": "move", "piece": "band", "dx": 5, "dy": -3, "degrees": 4}`,
}

func entryOf(t *testing.T, text string) (e step.Entry) {
	t.Helper()
	require.NoError(t, json.Unmarshal([]byte(text), &e), text)
	return e
}

// exampleSteps are those of the README's table of steps.
func exampleSteps(t *testing.T) (table []step.Entry) {
	t.Helper()
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	for _, row := range stepRow.FindAllStringSubmatch(string(readme), -1) {
		table = append(table, entryOf(t, row[1]))
	}
	require.Greater(t, len(table), len(step.Kinds()))
	return table
}

// someSizes is a window with the Tern in two of its sizes and those steps.
func someSizes(t *testing.T, steps ...step.Entry) *Window {
	t.Helper()
	run, err := demo.Tern()
	require.NoError(t, err)
	run.Sizes = run.Sizes[:2:2]
	d, err := desk.New(store.Document{Source: run, Recipe: steps}, "")
	require.NoError(t, err)
	w := New(test.NewTempApp(t), d)
	w.win.Resize(fyne.NewSize(1280, 800))
	return w
}

// wordless is what no name of a number may hold: keys of the file.
var wordless = regexp.MustCompile(`(?i)_|\bmm\b|\bdx\b|\bdy\b|\bbox\b|\bshares?\b|^[xy]$|, [xy]$|: [xy]$|^\d|^$| $|#|\||pull-in|\bdatum\b`)

// Every number of every step is opened beside the mat under a name in words,
// is drawn along by an arrow and back without a change, and is kept only where
// its step still applies.
func TestNumbersOfEveryStepAreToldAndDrawnAlong(t *testing.T) {
	table := exampleSteps(t)
	w := someSizes(t, table...)
	for _, e := range table {
		w.tryNumbers(t, e.ID)
	}
	for _, text := range furtherSteps {
		e := entryOf(t, text)
		w := someSizes(t, e)
		w.tryNumbers(t, e.ID)
	}
}

func (w *Window) stateOf(id string) (states []step.State) {
	for _, r := range w.desk.Results() {
		for _, rep := range r.Reports {
			if rep.ID == id {
				states = append(states, rep.State)
			}
		}
	}
	return states
}

func (w *Window) tryNumbers(t *testing.T, id string) {
	t.Helper()
	w.column.open = id
	w.column.refresh()
	before := w.written(t)
	for _, o := range w.column.list.Objects {
		row, ok := o.(*fyne.Container)
		if !ok || len(row.Objects) == 0 {
			continue
		}
		if g, ok := row.Objects[0].(*grip); ok {
			name := strings.Join(texts(g.face), "")
			require.NotRegexp(t, wordless, name, g.d.name)
			require.NotContains(t, name, "…", g.d.name)
			t.Log(id, "|", name, "|", g.d.Text)
		}
	}
	stood := w.stateOf(id)
	press := func(d *dial, key fyne.KeyName) {
		w.pending = true // shown below, and not by a clock
		pressed(d, key)
	}
	for i := range w.dials() {
		d := w.dials()[i]
		name := d.name
		w.win.Canvas().Focus(d)
		was := d.Text
		press(d, fyne.KeyUp)
		require.NotEqual(t, was, d.Text, name)
		press(d, fyne.KeyDown)
		require.Equal(t, was, d.Text, name)
		w.show()
		require.Nil(t, w.rehearsal, name)
		press(d, fyne.KeyReturn)
		require.Equal(t, before, w.written(t), name)

		for _, typed := range []string{"100000", "-100000"} {
			d = w.dials()[i]
			w.win.Canvas().Focus(d)
			w.pending = true
			d.SetText(typed)
			w.show()
			press(d, fyne.KeyReturn)
			if now := w.written(t); now != before {
				require.Equal(t, stood, w.stateOf(id), "%s, %s", name, typed)
				w.undo()
				require.Equal(t, before, w.written(t), name)
				continue
			}
			d, ok := w.win.Canvas().Focused().(*dial)
			require.True(t, ok, name)
			require.Equal(t, name, d.name)
			require.Equal(t, typed, d.Text, "it stays to be mended")
			require.Error(t, w.column.wrong, name)
			require.Contains(t, strings.Join(texts(w.column.list), " "), sentence(w.column.wrong)[:10])
			require.NotRegexp(t, `\bbox\b|shares`, w.column.wrong.Error())
			w.typeHere(fyne.KeyEscape)
			require.Equal(t, before, w.written(t), name)
		}
	}
}

// Every number that a step can have is called something, whatever its path.
func TestEveryNumberThatAStepCanHaveHasAName(t *testing.T) {
	w := someSizes(t)
	for _, kind := range step.Kinds() {
		e := entryOf(t, `{"id": "a", "do": "`+kind+`"}`)
		for _, path := range numberPaths(reflect.TypeOf(e.Step).Elem(), nil, 0) {
			name := numberName(e.Step, path)
			short := cmp.Or(name.short, lastWord(name.whole))
			t.Log(kind, path, "|", name.whole, "|", short, "|", counts(kind, path))
			require.NotRegexp(t, wordless, name.whole, "%s %q", kind, path)
			require.NotRegexp(t, wordless, short, "%s %q", kind, path)
		}
	}
	for _, path := range [][]string{nil, {""}, {"share"}, {"0"}, {"spot"}, {"0", "1"}, {"spot", "mm"}, {"a", "spot", "0", "share"}} {
		require.NotPanics(t, func() {
			lastWord(label(path))
			counts("draw", path)
			numberName(&step.Draw{}, path)
			placeOf(step.Entry{ID: "a", Step: &step.Draw{}}, w.desk.Pattern(), path)
		})
	}
	for _, s := range []string{"", " ", " on ", ", from ", " on x"} {
		lastWord(s)
	}
}

// numberPaths lists the paths in the file of all numbers that a type can hold.
func numberPaths(of reflect.Type, path []string, depth int) (all [][]string) {
	for of.Kind() == reflect.Pointer {
		of = of.Elem()
	}
	switch {
	case of == reflect.TypeFor[step.Number]() || of.Kind() == reflect.Float64 || of.Kind() == reflect.Int:
		return [][]string{slices.Clone(path)}
	case depth > 6:
	case of.Kind() == reflect.Slice:
		return numberPaths(of.Elem(), append(slices.Clip(path), "1"), depth+1)
	case of.Kind() == reflect.Struct:
		for i := range of.NumField() {
			field := of.Field(i)
			tag, _, _ := strings.Cut(field.Tag.Get("json"), ",")
			at := append(slices.Clip(path), tag)
			if field.Anonymous && tag == "" {
				at = path
			}
			if field.IsExported() && tag != "-" {
				all = append(all, numberPaths(field.Type, at, depth+1)...)
			}
		}
	}
	return all
}
