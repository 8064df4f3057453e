package demo

import "truemat/geom"

// wireShape is the shape of a wire laid flat for a diameter of 118, scaled to
// others: the arm at the centre front is steeper and shorter than the one at
// the underarm, and the bottom lies a little nearer the centre front.
const (
	wireModel     = 118.0
	wireAlong     = 226.2 // along the line
	wireFrontArm  = 79.4  // height of its ends over the bottom
	wireSideArm   = 92.4
	wireBottom    = 0.46 // of the diameter, from the centre front end
	wireFrontLean = -86  // degrees in which the arms run at their ends
	wireSideLean  = 75
	wirePlay      = 6.0 // room for the wire at each end of its line
)

// wireLine returns the line on which the wire lies, from its end at the
// centre front over its bottom to its end at the underarm. The bottom is at
// height 0, the front end at a distance front from the fold.
func wireLine(front, diameter float64) (geom.Path, error) {
	k := diameter / wireModel
	a := geom.Pt(front, wireFrontArm*k)
	m := geom.Pt(front+wireBottom*diameter, 0)
	u := geom.Pt(front+diameter, wireSideArm*k)
	with := func(pull float64) (geom.Path, error) {
		// The handles at the bottom are as long as an ellipse's; on the side
		// of the underarm so that the bend is the same on both sides of it.
		front := sweep(a, deg(wireFrontLean), pull, m, 0, bottomPull)
		bend := front.Curvature(1)
		h, err := solve(0.1, 0.9, func(h float64) float64 {
			return sweep(m, 0, h, u, deg(wireSideLean), pull).Curvature(0) - bend
		})
		if err != nil {
			return geom.Path{}, err
		}
		return geom.NewPath(front, sweep(m, 0, h, u, deg(wireSideLean), pull))
	}
	var failed error
	pull, err := solve(0.2, 0.7, func(pull float64) float64 {
		p, err := with(pull)
		if err != nil {
			failed = err
			return 0
		}
		return p.Length() - wireAlong*k
	})
	if failed != nil {
		return geom.Path{}, failed
	}
	if err != nil {
		return geom.Path{}, err
	}
	return with(pull)
}

// bottomPull is the handle at the bottom of the wire line, as a share of the
// distance to the front end.
const bottomPull = 0.335
