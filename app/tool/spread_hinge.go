package tool

import (
	"fmt"

	"truemat/geom"
	"truemat/ops/step"
)

// bend is a corner that a slash leaves in the edge of its hinge.
type bend struct {
	edge    string
	at      geom.Point // on the mat
	degrees float64
}

// bends returns the corners that are left at the hinges, as they would lie.
func (s *Spread) bends(c cuts, res step.Result) (out []bend) {
	for i, m := range s.mouths(c) {
		to := s.slashes[i].to
		if s.inside != nil || to == nil {
			continue
		}
		pc, e := res.Size.Pattern.Edge(c.pc.Name, to.Edge)
		if e == nil {
			continue
		}
		for _, at := range kinks(e) {
			if place := pc.Pose.Apply(e.Path.At(at)); place.Dist(m.Hinge) <= samePlace {
				out = append(out, bend{e.Name, place, geom.Angle(turnAt(e, at)).Degrees()})
			}
		}
	}
	return out
}

// bent tells, as sentences with a blank before them, of the corners at the
// hinges, which stay once a dart is sewn, since its point stays short of them.
// Beside the settings of the slash the step's own words tell it.
func (s *Spread) bent(c cuts, res step.Result) (text string) {
	if s.page == pageSlash {
		return ""
	}
	for _, b := range s.bends(c, res) {
		sewn := ""
		if s.leave {
			sewn = ", also once the dart is sewn"
		}
		text += fmt.Sprintf(" At the hinge %s turns by %.1f°%s; smooth takes it.", b.edge, b.degrees, sewn)
	}
	return text
}
