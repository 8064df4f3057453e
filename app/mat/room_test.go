package mat

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/demo"
)

// A mark must not take the ground on which it says how often a piece is cut.
func TestMarkedPiecesStillSayHowTheyAreCut(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	for _, r := range demo.TernInLace().Replay(run) {
		says := func(marked bool) map[string]bool {
			m, _, capture := shown(t, 936, 530, 1)
			pieces := r.Size.Pattern.Clone().Pieces
			for i := range pieces {
				if !marked {
					pieces[i].Marks = nil
				}
			}
			m.Lay(View{Pieces: pieces})
			m.Fit()
			capture()
			p := &painter{brush: &brush{}, palette: m.palette, camera: m.camera, px: 1}
			p.begin(936, 530)
			cut := map[string]bool{}
			for _, l := range m.still {
				on := p.onto(l.pose)
				l.flatten(on.scale())
				n, ok := p.naming(l, on)
				cut[l.piece.Name] = ok && len(n.under) > 0
				for _, mk := range l.marks {
					assert.GreaterOrEqual(t, mk.size*capHeight, 3.0, "%s in %s", l.piece.Name, r.Size.Label)
				}
			}
			return cut
		}
		before, after := says(false), says(true)
		assert.True(t, before["frame"] && before["band"] && before["inner cup"], r.Size.Label)
		for name, said := range before {
			assert.True(t, !said || after[name], "%s in %s", name, r.Size.Label)
		}
	}
}
