package tool_test

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/store"
)

// two returns the run with its first two sizes, as quick to replay as can be
// while sizes differ.
func two(t testing.TB) pattern.Run {
	t.Helper()
	run, err := demo.Tern()
	require.NoError(t, err)
	run.Sizes = run.Sizes[:2]
	return run
}

// A hundred runs of a hundred random events, over all tools.
func TestJunkLeavesTheDocumentValid(t *testing.T) {
	run := two(t)
	lace := demo.TernInLace()
	rapid.Check(t, func(t *rapid.T) {
		first := rapid.SampledFrom([]int{0, 5, 6, 7}).Draw(t, "steps")
		d, err := desk.New(store.Document{Source: run, Recipe: lace[:first]}, "")
		require.NoError(t, err)
		tools := tool.All(d)
		tl := tools[0]
		for range 100 {
			switch rapid.IntRange(0, 19).Draw(t, "what") {
			case 0:
				tl = rapid.SampledFrom(tools).Draw(t, "tool")
			case 1:
				tl.Reset()
			case 2:
				if d.Accept(tl.Proposal()...) == nil {
					for _, s := range d.Document().Source.Sizes {
						require.NoError(t, d.SetSize(s.Label))
						require.NoError(t, d.Pattern().Validate())
					}
				}
			case 3:
				if rapid.Bool().Draw(t, "back") {
					d.Undo()
				} else {
					d.Redo()
				}
			case 4, 5, 6:
				setJunk(t, tl)
			case 7, 8, 9, 10, 11:
				tl.Key(tool.Key{
					Name: rapid.SampledFrom([]tool.KeyName{tool.Left, tool.Right, tool.Up, tool.Down, tool.Next, tool.Previous, tool.Choose, tool.Choose, tool.Delete, "?"}).Draw(t, "key"),
					Step: rapid.SampledFrom([]float64{0.1, 1, 10, 0, math.NaN(), math.Inf(1), 1e300}).Draw(t, "step"),
				})
			default:
				tl.Pointer(tool.Event{
					Act:   rapid.SampledFrom([]tool.Act{tool.Hover, tool.Press, tool.Drag, tool.Drag, tool.Release, tool.Double}).Draw(t, "act"),
					At:    anywhere(t, d.Pattern()),
					Reach: rapid.SampledFrom([]float64{3, 3, 3, 0, 30, -1, math.NaN(), math.Inf(1)}).Draw(t, "reach"),
					Shift: rapid.Bool().Draw(t, "shift"),
					Ctrl:  rapid.Bool().Draw(t, "ctrl"),
				})
			}
			look(t, tl)
			_, _ = d.Try(tl.Proposal()...) // may refuse, must not panic
		}
		require.NoError(t, d.Document().Validate())
		for _, tl := range tools {
			for range 4 {
				tl.Reset()
			}
			require.Empty(t, tl.Proposal(), "%s proposes something after Escape", tl.Name())
			require.False(t, tl.Reset(), "%s has something left after Escape", tl.Name())
		}
	})
}

// anywhere draws a place on the mat, mostly one where something lies.
func anywhere(t *rapid.T, p pattern.Pattern) geom.Point {
	switch rapid.IntRange(0, 9).Draw(t, "where") {
	case 0:
		return geom.Pt(rapid.Float64().Draw(t, "x"), rapid.Float64().Draw(t, "y"))
	case 1:
		return geom.Pt(math.NaN(), math.Inf(-1))
	case 2, 3:
		return geom.Pt(rapid.Float64Range(-200, 800).Draw(t, "x"), rapid.Float64Range(-400, 400).Draw(t, "y"))
	}
	pc := rapid.SampledFrom(p.Pieces).Draw(t, "piece")
	e := rapid.SampledFrom(pc.Edges).Draw(t, "edge")
	at := rapid.SampledFrom([]float64{0, 0.3, 0.5, 1}).Draw(t, "along")
	return pc.Pose.Apply(e.Path.At(at * e.Length()))
}

func setJunk(t *rapid.T, tl tool.Tool) {
	fields := append(tl.Fields(), tool.Field{Name: "nothing"})
	f := rapid.SampledFrom(fields).Draw(t, "field")
	texts := append([]string{"", "1/4", "3 1/8 in", "-6.35mm", "12", "40 %", "1e9", "NaN", "-7.5°", "bridge", "\xff", "y 40", strings.Repeat("9", 400)}, f.Options...)
	text := rapid.SampledFrom(texts).Draw(t, "text")
	was, back := told(t, tl), tool.Remember(tl)
	err := tl.Set(f.Name, text)
	if len(f.Options) == 0 {
		back()
		require.Equal(t, was, told(t, tl), "%s remembers what %s was before %q", tl.Name(), f.Name, text)
		err = tl.Set(f.Name, text)
	}
	if err != nil {
		require.NotEmpty(t, err.Error())
	}
}

// told is all that a tool says, as far as it can be compared.
func told(t require.TestingT, tl tool.Tool) string {
	steps, err := json.Marshal(tl.Proposal())
	require.NoError(t, err)
	return fmt.Sprintln(tl.Hint(), tl.Fields(), string(steps), tl.Overlay().Notes)
}

// look asks a tool for all that it shows, which must make sense.
func look(t require.TestingT, tl tool.Tool) {
	require.NotEmpty(t, tl.Hint())
	seen := map[string]bool{}
	for _, f := range tl.Fields() {
		require.NotEmpty(t, f.Name)
		require.NotEmpty(t, f.Label)
		require.False(t, seen[f.Name], "%s has two fields %q", tl.Name(), f.Name)
		seen[f.Name] = true
	}
	o := tl.Overlay()
	for _, d := range o.Dots {
		require.True(t, d.At.Finite(), "%s shows a dot at %v", tl.Name(), d.At)
	}
	for _, n := range o.Notes {
		require.True(t, n.At.Finite(), "%s shows a note at %v", tl.Name(), n.At)
		require.NotEmpty(t, n.Text)
		require.NotRegexp(t, `NaN ?(mm|cm|in\b|°|sq)`, n.Text) // a maker may call an edge NaN
	}
	for _, s := range o.Strokes {
		require.False(t, s.Path.Empty())
	}
}

func TestAllToolsHaveWordsOfTheirOwn(t *testing.T) {
	d := tern(t, 0)
	seen := map[string]bool{}
	for _, tl := range tool.All(d) {
		look(t, tl)
		require.False(t, seen[tl.Name()], tl.Name())
		seen[tl.Name()] = true
		require.Empty(t, tl.Proposal())
		require.False(t, tl.Reset())
	}
}
