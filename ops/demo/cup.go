package demo

import (
	"truemat/geom"
)

// cup is the draft of the three parts of the cup. Upper and lower outer cup
// are drafted together: joined at the apex, the cross seam opens between them
// like a dart.
type cup struct {
	innerWire, innerVertical, neckline geom.Path // each piece counter-clockwise
	lowerWire, lowerCross              geom.Path
	lowerVertical                      geom.Path
	upperCross, upperWire, underarm    geom.Path
	strap, upperNeckline               geom.Path
	upperVertical                      geom.Path
	outerApex                          geom.Point // in the draft of the outer cup
}

const (
	verticalBefore = 10.0 // where the vertical seam meets the wire line, before its bottom, for the model wire
	lowerShare     = 0.57 // of the outer cup's stretch of the wire line, for the lower part
	innerUnbent    = 0.72 // share of the wire line's bend that the cup's edges keep
	lowerUnbent    = 0.28
	upperUnbent    = 0.40
	innerBulge     = 13.0 // of the vertical seam, for cup C
	outerBulge     = 12.3
	lowerBulge     = 8.6  // of the cross seam
	upperBulge     = 4.0  // gentler, so that the corners at the apex and the wire line lie flat
	upperDepth     = 0.90 // the vertical seam over the apex, share of that below
	crossAlong     = 0.96 // the cross seam, share of the depth
	neckTurn       = 12.0 // degrees by which the neckline is hollow on the inner cup
	shoulder       = 0.54 // the neckline of the outer cup, share of the depth
	strapTurn      = 28.0 // degrees by which it turns up towards the strap
	strapWidth     = 12.0
	underarmLeave  = 24.0 // degrees between the underarm edge and the wire edge run on
	underarmEnd    = 0.6  // its bend towards the strap over that towards the wire
)

// draftCup drafts the cup to the frame's wire line.
func draftCup(m measures, f frame) (cup, error) {
	var c cup
	k := m.wire / wireModel
	swell := k * m.fullness
	total := f.wire.Length()
	atVertical := f.toBottom - verticalBefore*k
	atCross := atVertical + lowerShare*(total-atVertical)
	inner, lower, upper, err := threeParts(f.wire, atVertical, atCross)
	if err != nil {
		return c, err
	}

	below, above := m.depth, upperDepth*m.depth
	vertical, err := crest(below, above, innerBulge*swell)
	if err != nil {
		return c, err
	}
	outer, err := crest(below, above, -outerBulge*swell)
	if err != nil {
		return c, err
	}
	c.innerVertical = vertical
	c.outerApex = outer.Seg(0).End()
	lowerEdge, upperEdge := geom.Must(geom.NewPath(outer.Seg(0))), geom.Must(geom.NewPath(outer.Seg(1)))
	c.lowerVertical, c.upperVertical = lowerEdge.Reverse(), upperEdge.Reverse()

	// The lower outer cup: the cross seam leaves the apex so that its far end
	// lies a wire edge's width from the bottom of the vertical seam.
	low, err := bow(crossAlong*m.depth, lowerBulge*swell)
	if err != nil {
		return c, err
	}
	bottom := geom.Point{}
	wire := lower
	width := wire.Start().Dist(wire.End())
	cross := geom.Must(geom.NewPath(low))
	lean, err := solve(float64(deg(-50)), float64(deg(30)), func(a float64) float64 {
		return laid(cross, c.outerApex, geom.Angle(a)).End().Dist(bottom) - width
	})
	if err != nil {
		return c, err
	}
	lowCross := laid(cross, c.outerApex, geom.Angle(lean))
	c.lowerCross = lowCross.Reverse()
	onto, err := geom.Carry(wire.Start(), wire.End(), bottom, lowCross.End())
	if err != nil {
		return c, err
	}
	c.lowerWire = geom.Must(wire.Transform(onto).WithEnds(bottom, lowCross.End()))

	// The upper outer cup: its cross seam leaves the apex in the same
	// direction, and the wire line runs on from the lower to the upper cup.
	up, err := bow(crossAlong*m.depth, upperBulge*swell)
	if err != nil {
		return c, err
	}
	mirror, _ := geom.Mirror(geom.Point{}, geom.Pt(1, 0))
	c.upperCross = laid(geom.Must(geom.NewPath(up)).Transform(mirror), c.outerApex, geom.Angle(lean))
	wireLeave := grip(c.upperCross.Reverse()) - runsOn(end(c.lowerWire)-grip(c.lowerCross))
	c.upperWire = laid(upper, c.upperCross.End(), wireLeave)

	// The inner cup: the wire line runs on from it to the lower outer cup.
	arrive := grip(c.innerVertical) + runsOn(grip(c.lowerVertical.Reverse())-start(c.lowerWire))
	c.innerWire = laid(inner.Reverse(), bottom, arrive).Reverse()

	// Neckline: from the inner cup's wire edge hollow to the vertical seam and
	// on to the strap; both parts have one direction where they are sewn.
	neck, front := c.innerVertical.End(), c.innerWire.Start()
	chord := front.Sub(neck).Direction()
	c.neckline = geom.Must(geom.NewPath(hollow(neck, chord+deg(neckTurn), front, chord-deg(neckTurn))))
	neckOuter := c.upperVertical.Start()
	leave := grip(c.upperVertical) + runsOn(grip(c.innerVertical.Reverse())-start(c.neckline))
	strapFront := neckOuter.Add((leave + deg(strapTurn/2)).Unit().Mul(shoulder * m.depth))
	upward := leave + deg(strapTurn)
	strapBack := strapFront.Add((upward - deg(90)).Unit().Mul(strapWidth))
	c.upperNeckline = geom.Must(geom.NewPath(hollow(neckOuter, leave, strapFront, upward))).Reverse()
	c.strap = geom.Must(line(strapBack, strapFront))

	u := c.upperWire.End()
	wireUp := c.upperWire.TangentBefore(c.upperWire.Length()).Direction()
	chord = strapBack.Sub(u).Direction()
	turn := (wireUp + deg(underarmLeave) - chord).Normalized()
	c.underarm = geom.Must(geom.NewPath(hollow(u, chord+turn, strapBack, chord-underarmEnd*turn)))
	return c, nil
}

// start returns the direction in which an edge leaves its start, end the one
// back from its end.
func start(p geom.Path) geom.Angle { return p.TangentAt(0).Direction() }

func end(p geom.Path) geom.Angle {
	return p.TangentBefore(p.Length()).Mul(-1).Direction()
}

// runsOn returns the angle that the second of two pieces must have at the end
// of their seam for the edge across it to run on, from that of the first.
func runsOn(first geom.Angle) geom.Angle { return deg(180) - first.Normalized() }

// threeParts returns the three wire edges of the cup, unbent.
func threeParts(wire geom.Path, a, b float64) (inner, lower, upper geom.Path, err error) {
	for _, part := range []struct {
		to              *geom.Path
		from, end, keep float64
	}{{&inner, 0, a, innerUnbent}, {&lower, a, b, lowerUnbent}, {&upper, b, wire.Length(), upperUnbent}} {
		p, err := wire.Sub(part.from, part.end)
		if err != nil {
			return inner, lower, upper, err
		}
		if *part.to, err = unbent(p, part.keep); err != nil {
			return inner, lower, upper, err
		}
	}
	return inner, lower, upper, nil
}

// crest returns the vertical seam from the origin up: two cubics that meet at
// the apex, bulge to the right of the line between its ends, with the given
// lengths below and above. It runs out straight at both ends.
func crest(below, above, bulge float64) (geom.Path, error) {
	h := crestPull * below
	rise := func(reach float64) geom.Cubic {
		apex := geom.Pt(bulge, reach)
		b := apex.Sub(geom.Pt(0, h))
		return geom.Curve(geom.Point{}, b.Mul(0.45), b, apex)
	}
	// Both halves have the same shape, so the bend is one at the apex.
	half := func(length float64) (geom.Cubic, error) {
		reach, err := solve(length/2, length, func(r float64) float64 { return rise(r).Length() - length })
		return rise(reach), err
	}
	low, err := half(below)
	if err != nil {
		return geom.Path{}, err
	}
	high, err := half(above)
	if err != nil {
		return geom.Path{}, err
	}
	top := low.End().Y + high.End().Y
	for i, p := range high.P {
		high.P[i] = geom.Pt(p.X, top-p.Y)
	}
	return geom.NewPath(low, high.Reverse())
}

// crestPull is the handle at the apex as a share of the depth.
const crestPull = 0.24
