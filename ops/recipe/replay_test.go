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
	"truemat/ops/step/steptest"
	"truemat/ops/store"
)

func resultBytes(t require.TestingT, results []step.Result) string {
	b, err := json.Marshal(results)
	require.NoError(t, err)
	return string(b)
}

// Whatever was done, the document that is saved and read gives the same bytes,
// in every size, and so do its steps saved alone and opened on the source.
func TestRecipesReplayToTheSameBytes(t *testing.T) {
	applied := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		source, err := pattern.Run{Name: "any", Sizes: []pattern.Size{
			{Label: "S", Pattern: patterntest.Frame(t)}, {Label: "L", Pattern: patterntest.Frame(t)},
		}}.AsSaved()
		require.NoError(t, err)
		doc := store.Document{Source: source}
		results := doc.Results()
		for n := range rapid.IntRange(1, 10).Draw(t, "steps") {
			kind := rapid.SampledFrom(step.Kinds()).Draw(t, "kind")
			only := rapid.IntRange(0, 4).Draw(t, "only") == 0
			draw := steptest.Draw{T: t, Pattern: results[0].Size.Pattern, Name: fmt.Sprint("made ", n), Number: func(v float64) step.Number {
				if rapid.Bool().Draw(t, "per size") {
					return step.PerSize(map[string]float64{"S": v, "L": v * 1.05})
				}
				return step.Lit(v)
			}}
			entries := steptest.Entries(fmt.Sprint("s", n), draw.Steps(kind))
			for i := range entries {
				if only {
					entries[i].Sizes = []string{"L"}
				}
			}
			if next, after, err := doc.Recipe.Extend(source, results, entries...); err == nil && len(entries) > 0 {
				doc.Recipe, results = next, after
				applied[kind]++
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
	for _, kind := range step.Kinds() {
		require.Positive(t, applied[kind], "no %q was applied", kind)
	}
}
