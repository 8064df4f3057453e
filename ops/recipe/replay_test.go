package recipe_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
	"truemat/ops/recipe"
	"truemat/ops/step"
	"truemat/ops/store"
)

// anyStep draws a step for a pattern; many can be applied.
func anyStep(t *rapid.T, p pattern.Pattern, n int) step.Step {
	pc := &p.Pieces[rapid.IntRange(0, len(p.Pieces)-1).Draw(t, "piece")]
	edge := pc.Edges[rapid.IntRange(0, len(pc.Edges)-1).Draw(t, "edge")].Name
	other := pc.Edges[rapid.IntRange(0, len(pc.Edges)-1).Draw(t, "other edge")].Name
	end := rapid.SampledFrom([]pattern.EndName{pattern.Start, pattern.End}).Draw(t, "end")
	share := rapid.Float64Range(0.1, 0.9).Draw(t, "share")
	mm := rapid.Float64Range(-9, 15).Draw(t, "mm")
	number := step.Lit(mm)
	if rapid.Bool().Draw(t, "per size") {
		number = step.PerSize(map[string]float64{"S": mm, "L": mm * 1.1})
	}
	wide := step.Lit(max(mm, 0))
	spot := pattern.Spot{Piece: pc.Name, Edge: edge, Along: pattern.Along{From: end, Share: share}}
	name := fmt.Sprintf("made %d", n)
	switch rapid.IntRange(0, 12).Draw(t, "kind") {
	case 0:
		return &step.Allow{Piece: pc.Name, Edge: edge, Width: &wide}
	case 1:
		return &step.Move{Piece: pc.Name, DX: number, DY: step.Lit(share), Degrees: number, About: &spot}
	case 2:
		by := step.Lit(share * 20)
		return &step.Turn{Piece: pc.Name, Pin: spot, Direction: step.Clockwise, By: &by}
	case 3:
		return &step.Add{EdgeEnd: step.EdgeEnd{Piece: pc.Name, Edge: edge, End: end}, Amount: number}
	case 4:
		reach := step.Lit(5 + 20*share)
		return &step.Smooth{Piece: pc.Name, Edge: edge, At: &pattern.Along{From: end, Share: share / 4}, Reach: &reach}
	case 5:
		return &step.Straighten{Piece: pc.Name, From: pattern.AtEnd(pc.Name, edge, pattern.Start), To: pattern.AtEnd(pc.Name, edge, pattern.End), Name: name}
	case 6:
		return &step.CutOff{Piece: pc.Name, From: spot, To: pattern.Spot{Piece: pc.Name, Edge: other, Along: pattern.Along{Share: 1 - share}}, Keep: "left", Name: name, Role: pattern.TurnedBack}
	case 7:
		return &step.Split{Piece: pc.Name, From: spot, To: pattern.Spot{Piece: pc.Name, Edge: other, Along: pattern.Along{Share: 1 - share}}, Left: name, Name: "seam " + name}
	case 8:
		return &step.Notch{Act: step.AddNotch, Piece: pc.Name, Name: name, Edge: edge, Share: step.Lit(share)}
	case 9:
		return &step.Copy{Piece: pc.Name, Name: name, DX: number, DY: number}
	case 10:
		return &step.Mark{Pieces: []string{pc.Name}, Text: name}
	case 11:
		return &step.Mirror{Piece: pc.Name}
	}
	return &step.Rename{Piece: pc.Name, Edge: edge, To: name}
}

func resultBytes(t require.TestingT, results []step.Result) string {
	b, err := json.Marshal(results)
	require.NoError(t, err)
	return string(b)
}

// Whatever was done, the document that is saved and read gives the same bytes,
// in every size, and so do its steps saved alone and opened on the source.
func TestRecipesReplayToTheSameBytes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		source, err := pattern.Run{Name: "any", Sizes: []pattern.Size{
			{Label: "S", Pattern: patterntest.Frame(t)}, {Label: "L", Pattern: patterntest.Frame(t)},
		}}.AsSaved()
		require.NoError(t, err)
		doc := store.Document{Source: source}
		results := doc.Results()
		for n := range rapid.IntRange(1, 10).Draw(t, "steps") {
			e := step.Entry{ID: fmt.Sprint("s", n), Step: anyStep(t, results[0].Size.Pattern, n)}
			if rapid.IntRange(0, 4).Draw(t, "only") == 0 {
				e.Sizes = []string{"L"}
			}
			if next, after, err := doc.Recipe.Extend(source, results, e); err == nil {
				doc.Recipe, results = next, after
			}
		}
		want := resultBytes(t, results)
		require.Equal(t, want, resultBytes(t, doc.Results()), "step by step or at once")

		var saved, again bytes.Buffer
		require.NoError(t, store.Write(&saved, doc))
		read, err := store.Read(bytes.NewReader(saved.Bytes()))
		require.NoError(t, err)
		require.NoError(t, store.Write(&again, read))
		require.Equal(t, saved.String(), again.String())
		require.Equal(t, want, resultBytes(t, read.Results()), "after a reading")

		if len(doc.Recipe) == 0 {
			return
		}
		var alone bytes.Buffer
		require.NoError(t, store.WriteSteps(&alone, doc.Recipe))
		steps, err := store.ReadSteps(&alone)
		require.NoError(t, err)
		plain := step.Recipe{}.Replay(source)
		for _, l := range recipe.Lacks(steps, nil, plain) {
			require.False(t, l.Sure, "what the steps made is not asked of the pattern: %s", l)
		}
		opened, err := recipe.Open(source, nil, plain, steps, nil)
		require.NoError(t, err)
		require.Equal(t, want, resultBytes(t, opened.Results), "opened alone")
	})
}
