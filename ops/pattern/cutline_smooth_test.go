package pattern_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/pattern"
)

// Two edges with unlike allowances meet where the outline turns by next to
// nothing, to either side: the cut line takes a step there and stays simple.
func TestUnlikeAllowancesMeetAtAJointThatHardlyTurns(t *testing.T) {
	for _, turn := range []float64{0, 1e-15, -1e-15, 1e-12, -1e-12, 1e-9, -1e-9, 1e-6, -1e-6, 1e-3, -1e-3, 0.05, -0.05, 0.3, -0.3, 1, -1} {
		for _, widths := range [][2]float64{{5, 6.35}, {6.35, 5}, {8, 6.35}, {6.35, 8}, {0, 6.35}, {6.35, 0}, {12, 2}, {2, 12}, {6.35, 6.35}} {
			for _, end := range []pattern.Corner{{}, {End: pattern.Square, Of: pattern.Before}, {End: pattern.Square, Of: pattern.After}, {End: pattern.Blunt}} {
				way := (geom.Angle(180+turn) * geom.Degree).Unit()
				corners := []geom.Point{geom.Pt(0, 0), geom.Pt(200, 0), geom.Pt(200, 100), geom.Pt(100, 100), geom.Pt(100, 100).Add(way.Mul(100))}
				pc := pattern.Piece{Name: "box", Pose: geom.Identity()}
				for i, a := range corners {
					e := pattern.Edge{Name: string(rune('a' + i)), Role: pattern.SeamEdge, Path: geom.Must(geom.Polyline(a, corners[(i+1)%len(corners)])), Allowance: 6.35}
					switch i {
					case 2:
						e.Allowance = widths[0]
					case 3:
						e.Allowance, e.Corner = widths[1], end
					}
					pc.Edges = append(pc.Edges, e)
				}
				cut, err := pc.CutLine()
				require.NoError(t, err)
				require.Empty(t, cut.SelfCrossings(), "turn by %g°, allowances %v, corner %v", turn, widths, end)
				sewn, err := pc.Outline()
				require.NoError(t, err)
				grown := sewn.Area() + 6.35*400 + (widths[0]+widths[1])*100
				require.InDelta(t, grown, cut.Area(), 450, "corners and a step at the most: turn by %g°, allowances %v, corner %v", turn, widths, end)
			}
		}
	}
}
