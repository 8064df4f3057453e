package step

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/pattern"
)

// Spread until it fits the other side an edge has, in every size, the length
// with which both sides are alike but for the ease.
func TestSpreadUntilTheEdgeFitsTheOtherSide(t *testing.T) {
	sized := func(left, right, ease float64) pattern.Pattern {
		p := single(box("left", left, 60))
		p.Pieces = append(p.Pieces, single(box("right", right, 60)).Pieces...)
		p.Seams = []pattern.Seam{{Name: "join", Ease: ease, A: pattern.Side{pattern.Whole("left", "hem")}, B: pattern.Side{pattern.Whole("right", "hem").Backwards()}}}
		require.NoError(t, p.Validate())
		return p
	}
	for _, c := range []struct{ left, right, ease float64 }{{100, 112, 0}, {120, 112, 0}, {100, 100, 4}} {
		p := sized(c.left, c.right, c.ease)
		s := &Spread{Piece: "left", Slashes: []Slash{{From: on("hem", 50), Hinge: hingeOn("top", 50)}}, Until: &ToLength{Edge: "hem", Seam: "join"}}
		out := applied(t, p, s)
		assert.Contains(t, strings.Join(out.Notes, " "), "until hem fits.")
		if c.right+c.ease != c.left {
			assert.Regexp(t, "after this step its sides fit; before it, they differed by (12|8|4) mm", strings.Join(out.Notes, " "))
		}
		assert.InDelta(t, c.right+c.ease, lengthOf(t, out.Pattern, "left", "hem"), 1e-6)
		assert.Contains(t, s.Sentence(), "until hem is as long as the other side of seam join")
		s.Piece = "right"
		out = applied(t, p, s)
		assert.InDelta(t, c.left-c.ease, lengthOf(t, out.Pattern, "right", "hem"), 1e-6)
	}
	p := sized(100, 112, 0)
	slashed := func(u ToLength) *Spread {
		return &Spread{Piece: "left", Slashes: []Slash{{From: on("hem", 50), Hinge: hingeOn("top", 50)}}, Until: &u}
	}
	assert.Contains(t, refusal(t, p, slashed(ToLength{Edge: "hem"})), "one of them")
	assert.Contains(t, refusal(t, p, slashed(ToLength{Edge: "hem", Length: num(9), Seam: "join"})), "one of them")
	assert.Contains(t, refusal(t, p, slashed(ToLength{Edge: "hem", Seam: "x"})), `no seam "x"`)
	assert.Contains(t, refusal(t, p, slashed(ToLength{Edge: "top", Seam: "join"})), "not sewn in seam join")
}
