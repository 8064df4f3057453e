package pattern_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/demo"
	"truemat/ops/pattern"
)

// A line is told from where to where where an edge is called as it is, so that
// nobody takes the one for the other.
func TestLineWords(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	p := run.Sizes[0].Pattern.Clone()
	assert.Equal(t, "hem from fold to closure", p.LineWords("hem"))
	assert.Equal(t, "neckline from wire to strap", p.LineWords("neckline"))
	assert.Equal(t, "wire line", p.LineWords("wire line"))
	assert.Equal(t, "cuff", p.LineWords("cuff"))
	hem := p.Line("hem")
	hem.Parts = []pattern.Part{hem.Parts[0], {Piece: "cradle", Edge: "hem", To: 0.5}}
	assert.Equal(t, "hem over all pieces", p.LineWords("hem"), "it ends within an edge")
}
