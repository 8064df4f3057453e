package demo

import (
	"encoding/json"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
	"truemat/ops/step"
	"truemat/ops/step/steptest"
)

// Whatever step is done, in each of the sizes it is done in the pattern keeps
// what a pattern must keep, all sizes have the same structure, and pieces stay
// byte for byte that the step does not name, nor a seam to one that it names.
// Every kind of step is applied to the demo pattern and to random frames.
func TestEveryStepKeepsTheInvariantsInEverySize(t *testing.T) {
	run := tern(t)
	applied := map[string]int{}
	anyOf := func(t *rapid.T, kinds []string, of string) {
		source := run
		if of == frames {
			source = pattern.Run{Name: "any"}
			for _, label := range []string{"S", "M", "L"} {
				source.Sizes = append(source.Sizes, pattern.Size{Label: label, Pattern: patterntest.Frame(t)})
			}
		}
		before := step.Recipe{}.Replay(source)
		for range 6 {
			kind := rapid.SampledFrom(kinds).Draw(t, "kind")
			entries := steptest.Entries("s", steptest.Draw{T: t, Pattern: before[0].Size.Pattern, Name: "made"}.Steps(kind))
			_, after, err := step.Recipe{}.Extend(source, before, entries...)
			if err != nil || len(entries) == 0 {
				continue
			}
			applied[kind+" of "+of]++
			altered := pattern.Run{Name: source.Name, Fit: source.Fit}
			for i, res := range after {
				p := res.Size.Pattern
				require.NoError(t, p.Validate(), "%s in %s", kind, res.Size.Label)
				altered.Sizes = append(altered.Sizes, res.Size)
				touched := touchedBy(entries, before[i].Size.Pattern)
				for _, pc := range before[i].Size.Pattern.Pieces {
					if now := p.Piece(pc.Name); !slices.Contains(touched, pc.Name) {
						require.NotNil(t, now, "%s of %s", kind, pc.Name)
						require.Equal(t, bytesOf(t, pc), bytesOf(t, *now), "%s touched %s", kind, pc.Name)
					}
				}
			}
			require.NoError(t, altered.Validate(), kind)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		anyOf(t, step.Kinds(), rapid.SampledFrom([]string{tern12, frames}).Draw(t, "of"))
	})
	for _, kind := range step.Kinds() {
		for _, of := range []string{tern12, frames} {
			if applied[kind+" of "+of] == 0 { // it was never drawn, or never could be done
				rapid.Check(t, func(t *rapid.T) { anyOf(t, []string{kind}, of) })
			}
			require.Positive(t, applied[kind+" of "+of], "no %q was applied to %s", kind, of)
		}
	}
}

// What steps are applied to.
const (
	tern12 = "the demo pattern"
	frames = "random frames"
)

// touchedBy returns the pieces that steps name, those of the seams they name,
// and those sewn to them.
func touchedBy(entries []step.Entry, p pattern.Pattern) []string {
	var named, touched []string
	for i := range entries {
		for _, m := range entries[i].Mentions() {
			switch m.Kind {
			case step.NamePiece:
				named = append(named, m.Name.Name)
			case step.NameSeam:
				if s := p.Seam(m.Name.Name); s != nil {
					for _, pt := range slices.Concat(s.A, s.B) {
						named = append(named, pt.Piece)
					}
				}
			}
		}
	}
	touched = slices.Clone(named)
	for _, s := range p.Seams {
		all := slices.Concat(s.A, s.B)
		if slices.ContainsFunc(all, func(pt pattern.Part) bool { return slices.Contains(named, pt.Piece) }) {
			for _, pt := range all {
				touched = append(touched, pt.Piece)
			}
		}
	}
	return touched
}

func bytesOf(t require.TestingT, pc pattern.Piece) string {
	b, err := json.Marshal(pc)
	require.NoError(t, err)
	return string(b)
}
