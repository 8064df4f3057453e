package demo

import (
	"truemat/geom"
)

// frame is the draft of bridge and cradle, sewn together, seen from outside
// with the fold at x = 0 and the bottom of the wire line at y = 0.
type frame struct {
	wire             geom.Path // from the centre front to the underarm
	toSeam, toBottom float64   // mm along the wire line
	bridgeWire       geom.Path // all paths below counter-clockwise about their piece
	cradleWire       geom.Path
	fold, bridgeTop  geom.Path
	seam             geom.Path // bridge to cradle, from the wire line down
	bridgeHem        geom.Path
	cradleHem        geom.Path
	hemLeave         geom.Angle // in which the hem passes the side seam
	side             geom.Path  // from the hem up
	cradleTop        geom.Path  // from the side seam to the wire line
}

const (
	bridgeTopHalf = 11.0  // half the width between the wire lines
	bridgeTopRise = 2.5   // of the upper edge, from the fold to the wire line
	hemBelow      = 27.0  // hem under the bottom of the wire line
	seamAlong     = 0.275 // where the bridge ends on the wire line, share of it
	seamFlare     = 3.0   // by which the bridge widens along its seam
	sideBeyond    = 15.5  // side seam beyond the wire line's end, at the top
	sideStand     = 4.0   // by which the side seam stands out at the hem
	sideDrop      = 8.0   // of the upper edge, from the wire line to the side seam
	hemRise       = 16.1  // of the hem, from the bridge to the side seam
	hemCurve      = 1.12  // how much steeper it passes the side seam than it rises on the whole
)

// draftFrame drafts bridge and cradle around the wire line.
func draftFrame(m measures) (frame, error) {
	var f frame
	var err error
	if f.wire, err = wireLine(bridgeTopHalf, m.wire); err != nil {
		return f, err
	}
	f.toSeam = seamAlong * f.wire.Length()
	f.toBottom = f.wire.LengthTo(0, 1)
	front, rest, err := f.wire.Split(f.toSeam)
	if err != nil {
		return f, err
	}
	f.bridgeWire, f.cradleWire = front.Reverse(), rest.Reverse()

	a, p, u := f.wire.Start(), rest.Start(), f.wire.End()
	foldTop, foldHem := geom.Pt(0, a.Y-bridgeTopRise), geom.Pt(0, -hemBelow)
	seamHem := geom.Pt(p.X+seamFlare, -hemBelow)
	sideTop := geom.Pt(u.X+sideBeyond, u.Y-sideDrop)
	sideHem := geom.Pt(sideTop.X+sideStand, hemRise-hemBelow)

	// The upper edge of the bridge leaves the fold square, so that unfolded it
	// dips without a point.
	f.bridgeTop = geom.Must(geom.NewPath(sweep(foldTop, 0, 0.45, a, deg(24), third))).Reverse()
	f.fold = geom.Must(line(foldTop, foldHem))
	f.bridgeHem = geom.Must(line(foldHem, seamHem))
	f.seam = geom.Must(line(p, seamHem))
	f.hemLeave = hemCurve * sideHem.Sub(seamHem).Direction()
	f.cradleHem = geom.Must(geom.NewPath(hollow(seamHem, 0, sideHem, f.hemLeave)))
	f.side = geom.Must(line(sideHem, sideTop))
	topLeave := sideTop.Sub(u).Direction()
	f.cradleTop = geom.Must(geom.NewPath(hollow(u, topLeave-deg(2), sideTop, topLeave+deg(2)))).Reverse()
	return f, nil
}
