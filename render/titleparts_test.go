package render

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

// Marked as altered every piece of every size still tells all its title block
// does, and no writing lies on other writing, on the arrow or on the fold's sign.
func TestWritingOnMarkedPiecesCanBeReadInEverySize(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	for _, size := range run.Sizes {
		for _, pc := range size.Pattern.Pieces {
			pc.Marks = []pattern.Mark{{Text: "ALTERED · LACE", At: pc.Arrow.From.Lerp(pc.Arrow.To, 0.5), Height: 12}}
			where := fmt.Sprintf("%s in %s", pc.Name, size.Label)
			l, err := onePiece(pc, geom.Identity(), Options{Pattern: "Tern", Size: size.Label})
			require.NoError(t, err)
			all := ""
			for i, a := range l.Labels {
				all += a.Text + " "
				for _, b := range l.Labels[:i] {
					assert.False(t, quadsMeet(a.quad(-0.1), b.quad(-0.1)), "%s: %q and %q lie on each other", where, a.Text, b.Text)
				}
				for _, f := range l.Figures {
					if f.Kind != ArrowLine && f.Kind != FoldSign {
						continue
					}
					for _, q := range walkPoints(f.Path, 0.5) {
						at := [4]geom.Point{q, q.Add(geom.Pt(0.01, 0)), q.Add(geom.Pt(0.01, 0.01)), q.Add(geom.Pt(0, 0.01))}
						if quadsMeet(a.quad(-0.1), at) {
							assert.Failf(t, "a sign is written over", "%s: %q", where, a.Text)
							break
						}
					}
				}
			}
			for _, want := range []string{pc.Name, "size " + size.Label, "cut 1", "allowance", "ALTERED"} {
				assert.Contains(t, all, want, where)
			}
		}
	}
}
