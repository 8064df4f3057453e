package step_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// A step on a seam names the pieces it alters and the end by what is met there:
// nothing shows which side of a seam is which, nor where it starts.
func TestStepsOnSeamsNamePiecesAndEnds(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	p := run.Sizes[0].Pattern
	lit := func(v float64) *step.Number { n := step.Lit(v); return &n }
	for want, s := range map[string]step.Step{
		"Level side seam by altering cradle, its hem end moving along the seam.":                                     &step.Level{Seam: "side seam", Bend: "a", Moves: hemEnd(p, "side seam")},
		"Level side seam by altering band, its hem end moving along the hem.":                                        &step.Level{Seam: "side seam", Bend: "b", Moves: hemEnd(p, "side seam"), Along: "neighbour"},
		"Level side seam by altering both sides by half, its ends in place.":                                         &step.Level{Seam: "side seam"},
		"Level side seam by altering both sides, cradle by 0.3 of the difference, its ends in place.":                &step.Level{Seam: "side seam", Share: lit(0.3)},
		"True hem of cradle and hem of band at the hem end of side seam over 25 mm to each side.":                    &step.True{Seam: "side seam", End: hemEnd(p, "side seam"), Reach: lit(25)},
		"True hem of cradle and hem of band at the hem end of side seam over 20 mm into cradle and 25 mm into band.": &step.True{Seam: "side seam", End: hemEnd(p, "side seam"), Reach: lit(25), ReachA: lit(20)},
		"True hem of band to hem of cradle, which stays as it is, at the hem end of side seam, over 25 mm.":          &step.True{Seam: "side seam", End: hemEnd(p, "side seam"), Reach: lit(25), Hold: "a"},
		"Level seam that is not there by altering side a, its start moving along the seam.":                          &step.Level{Seam: "that is not there", Bend: "a", Moves: pattern.Start},
	} {
		assert.Equal(t, want, step.Told(s, p))
		assert.Equal(t, want, step.Told(s, pattern.Pattern{}, p), "on the first pattern that has the seam")
	}
	for _, r := range demo.TernInLace().Replay(run) {
		for _, rep := range r.Reports {
			assert.NotContains(t, rep.Sentence, "seam side seam")
			assert.NotRegexp(t, `side [ab]\b|the (start|end) of (seam|side seam)`, rep.Sentence)
		}
	}
}

// hemEnd is the end of a seam at which its first side meets a hem.
func hemEnd(p pattern.Pattern, seam string) pattern.EndName {
	pt := p.Seam(seam).A[0]
	at := pattern.Start
	if pt.From > pt.To {
		at = pattern.End
	}
	if p.Piece(pt.Piece).Meets(pt.Edge, at) == "hem" {
		return pattern.Start
	}
	return pattern.End
}
