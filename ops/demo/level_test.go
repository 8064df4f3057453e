package demo

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// In every size each seam of the Tern that was given other ease is made level
// again, in each way that suits it.
func TestEverySeamIsLevelledInEverySize(t *testing.T) {
	run, err := Tern()
	require.NoError(t, err)
	number := func(v float64) *step.Number { n := step.Lit(v); return &n }
	for _, c := range []struct {
		seam string
		ease float64
		how  step.Level
	}{
		{"vertical seam", 1, step.Level{Share: number(0.9)}},
		{"vertical seam", -1, step.Level{Bend: "a"}},
		{"vertical seam", -0.5, step.Level{Bend: "b"}},
		{"cross seam", 0.8, step.Level{Share: number(0.3)}},
		{"cross seam", -0.8, step.Level{}},
		{"wire seam", 2, step.Level{Bend: "a"}},
		{"wire seam", -1, step.Level{Bend: "b", Keep: "directions"}},
		{"side seam", 1.5, step.Level{Moves: pattern.End}},
		{"side seam", -1.5, step.Level{Share: number(0.7), Moves: pattern.Start}},
		{"bridge seam", 1, step.Level{Bend: "b", Moves: pattern.End}},
	} {
		c.how.Seam = c.seam
		recipe := step.Recipe{
			{ID: "ease", Step: &step.Sew{Name: c.seam, Ease: number(c.ease)}},
			{ID: "level", Step: &c.how},
		}
		for _, res := range recipe.Replay(run) {
			require.Nil(t, res.Upset(), "%s in %s: %+v", c.how.Sentence(), res.Size.Label, res.Upset())
			p := res.Size.Pattern
			a, b := p.SeamLengths(*p.Seam(c.seam))
			assert.InDelta(t, c.ease, a-b, 1e-6, "%s in %s", c.seam, res.Size.Label)
			f := res.Figures()
			assert.InDelta(t, a, f["level.a_mm"], 1e-9)
			assert.Positive(t, f["level.moved"])
			assert.LessOrEqual(t, f["level.moved"], 4.0, "%s in %s", c.how.Sentence(), res.Size.Label)
			for i := range res.Before.Seams {
				s := &res.Before.Seams[i]
				x, y := p.SeamLengths(*p.Seam(s.Name))
				if s.Name != c.seam && c.how.Moves == "" {
					wa, wb := res.Before.SeamLengths(*s)
					assert.InDelta(t, wa, x, 1e-9)
					assert.InDelta(t, wb, y, 1e-9)
				}
			}
		}
	}
}
