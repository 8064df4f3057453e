package demo

import (
	"errors"

	"truemat/geom"
)

// band is the draft of the band, lying where it is sewn to the cradle.
type band struct {
	hem     geom.Path // from the side seam to the closure
	closure geom.Path // from the hem up
	top     geom.Path // from the closure to the side seam
}

const (
	closureHeight = 38.0
	closureHalf   = 25.0 // of the closed hook and eye, to the centre back
	bandStretch   = 0.82 // length of the band over the way it has to reach
)

// draftBand drafts the band onto the side seam of the cradle.
func draftBand(m measures, f frame) (band, error) {
	var b band
	reach := m.underbust/2 - closureHalf - f.bridgeHem.Length() - f.cradleHem.Length()
	length := bandStretch * reach
	from, top := f.side.Start(), f.side.End()
	leave := f.hemLeave
	chord, err := straightHem(f)
	if err != nil {
		return b, err
	}
	arrive := 2*chord - leave
	end := from.Add(chord.Unit().Mul(length))
	b.hem = geom.Must(geom.NewPath(hollow(from, leave, end, arrive)))
	up := (arrive + deg(90)).Unit()
	b.closure = geom.Must(line(end, end.Add(up.Mul(closureHeight))))
	// Hollow: it falls from the side seam on in the direction of the cradle's
	// upper edge and comes to the closure square.
	fall := f.cradleTop.Reverse().TangentBefore(f.cradleTop.Length()).Direction()
	b.top = geom.Must(geom.NewPath(hollow(top, fall, b.closure.End(), arrive))).Reverse()
	return b, nil
}

// straightHem returns the direction of the straight line between the ends of
// the band's hem. It is chosen for those who want the hem straight from the
// fold to the closure: when the cradle is turned about the upper end of the
// bridge seam until its side comes down to the line of the bridge's hem, and
// the overlap there is given back in halves at the hem end of both sides of
// the side seam, the band's hem has the direction of the frame's.
func straightHem(f frame) (geom.Angle, error) {
	pin, hem := f.seam.Start(), f.seam.End()
	level, err := geom.NewLine(hem.Sub(geom.Pt(1, 0)), hem)
	if err != nil {
		return 0, err
	}
	turns, err := geom.TurnToLine(pin, f.side.Start(), level)
	if err != nil {
		return 0, err
	}
	down, ok := geom.FirstTurn(turns, -1)
	if !ok {
		return 0, errors.New("the cradle's hem does not come down to the bridge's")
	}
	overlap := hem.X - geom.Turn(down, pin).Apply(hem).X
	return -down - geom.Angle(overlap/f.side.Length()), nil
}
