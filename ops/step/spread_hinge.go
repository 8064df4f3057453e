package step

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// hingeIn is a hinge within an edge of the sew line, as the edge runs now.
type hingeIn struct {
	edge string
	at   geom.Point
}

// bent tells of the corners that are left in edges at the hinges. A dart that
// stays short of its hinge leaves the cloth flat there, so that the corner is
// in the seam as well as on paper.
func (b *spreading) bent(pc *pattern.Piece, out *Output) {
	for _, h := range b.hinges {
		e := pc.Edge(h.edge)
		if e == nil {
			continue
		}
		foot := e.Path.Nearest(h.at)
		for _, s := range e.Path.Corners(pattern.SmoothTurn) {
			if math.Abs(s-foot.S) > placeSlack {
				continue
			}
			turn := math.Abs(geom.Between(e.Path.TangentBefore(s), e.Path.TangentAt(s)).Degrees())
			out.Figures["hinge_turn_deg"] = max(out.Figures["hinge_turn_deg"], turn)
			sewn := ""
			if len(b.darts) > 0 {
				sewn = ", on paper and once the dart is sewn"
			}
			out.Notes = append(out.Notes, fmt.Sprintf("At the hinge %s of %s turns by %.1f°%s; smooth takes the corner.", h.edge, pc.Name, turn, sewn))
		}
	}
}
