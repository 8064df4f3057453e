package demo

import (
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// What the lace recipe makes.
const (
	framePiece = "frame"       // bridge and cradle in one
	laceEdge   = "lace edge"   // of the inner cup, in place of its neckline
	turnedEdge = "turned edge" // of the upper outer cup, where the inner cup was cut off
	laceMark   = "ALTERED · LACE"
	smoothOver = 0.16 // reach to each side of the joint, share of the wire line

	// Reach in mm of truing the underarm line into frame and band: the frame
	// has only a short edge there.
	underarmReachA, underarmReachB = 14, 40
)

// TernInLace returns the recipe that prepares the Tern for lace with a straight
// border: bridge and cradle become one piece with a straight hem, the band's
// hem follows, and the neckline of the inner cup becomes straight. It applies
// in every size.
func TernInLace() step.Recipe {
	return step.Recipe{
		// The border of the lace is the finished hem; taped edges need no allowance.
		{ID: "hem-off-bridge", Step: laceHem(bridgePiece)},
		{ID: "hem-off-cradle", Step: laceHem(cradlePiece)},
		{ID: "seam-off-bridge", Step: &step.Allow{Piece: bridgePiece, Edge: "cradle seam", Width: number(0)}},
		{ID: "seam-off-cradle", Step: &step.Allow{Piece: cradlePiece, Edge: "bridge seam", Width: number(0)}},

		// Cradle to bridge, pinned at the wire line, down to the line of its hem.
		{ID: "pin", Step: &step.Place{
			Piece: cradlePiece, Edge: "bridge seam", End: pattern.Start, Onto: &bridgePin,
		}},
		{ID: "turn", Step: &step.Turn{
			Piece: cradlePiece, Pin: cradlePin.Spot(), Direction: step.Clockwise,
			Until: &step.Until{Spot: spot(pattern.AtEnd(cradlePiece, "hem", pattern.End)), Datum: hemDatum(bridgePiece)},
		}},
		{ID: "tape", Step: &step.Tape{A: bridgePin, B: cradlePin, Name: framePiece, Datum: hemDatum(bridgePiece)}},
		{ID: "straight-hem", Step: straight(framePiece)},
		{ID: "smooth-wire", Step: &step.Smooth{
			Piece: framePiece, Edge: "wire", Keep: "length",
			From: &pattern.Along{From: pattern.End, Share: seamAlong + smoothOver},
			To:   &pattern.Along{From: pattern.End, Share: seamAlong - smoothOver},
		}},

		// What the overlap took from the hem comes back beside the side seam.
		{ID: "band-hem", Step: straight(bandPiece)},
		{ID: "share-out", Step: &step.ShareOut{
			Amount: step.Figure("tape.overlap", 1),
			Onto: []step.Share{
				{EdgeEnd: step.EdgeEnd{Piece: framePiece, Edge: "side seam", End: pattern.Start}},
				{EdgeEnd: step.EdgeEnd{Piece: bandPiece, Edge: "side seam", End: pattern.End}},
			},
		}},
		{ID: "true-side", Step: &step.True{Seam: "side seam", End: pattern.End}},

		{ID: "true-underarm", Step: &step.True{
			Seam: "side seam", End: pattern.Start, ReachA: number(underarmReachA), ReachB: number(underarmReachB),
		}},

		// The neckline: straight on the inner cup, turned back on the outer, whose
		// old notch gives way to a double one where the sewing ends.
		{ID: "neckline", Step: &step.CutOff{
			Piece: innerPiece,
			From:  pattern.AtEnd(innerPiece, "wire", pattern.Start),
			To:    pattern.AtNotch(innerPiece, "above apex"),
			Kept:  spot(pattern.AtEnd(innerPiece, "wire", pattern.End)),
			Name:  laceEdge, Role: pattern.LaceEdge,
			Partner: step.Partner{Rest: turnedEdge, Role: pattern.TurnedBack, Notch: "above apex", Line: "strap edge"},
		}},

		{ID: "mark", Step: &step.Mark{Pieces: []string{framePiece, bandPiece, innerPiece, upperPiece}, Text: laceMark}},
	}
}

// The ends of the bridge seam at the wire line, where the pieces are pinned.
var (
	bridgePin = step.EdgeEnd{Piece: bridgePiece, Edge: "cradle seam", End: pattern.End}
	cradlePin = step.EdgeEnd{Piece: cradlePiece, Edge: "bridge seam", End: pattern.Start}
)

func laceHem(piece string) step.Step {
	return &step.Allow{Piece: piece, Edge: "hem", Width: number(0), Role: pattern.LaceEdge}
}

// straight makes the hem of a piece a straight lace edge.
func straight(piece string) step.Step {
	return &step.Straighten{
		Piece: piece,
		From:  pattern.AtEnd(piece, "hem", pattern.Start),
		To:    pattern.AtEnd(piece, "hem", pattern.End),
		Name:  "hem", Role: pattern.LaceEdge, Allowance: number(0),
	}
}

// hemDatum is the line of a piece's hem.
func hemDatum(piece string) *pattern.Datum {
	d := pattern.LineThrough(pattern.AtEnd(piece, "hem", pattern.Start), pattern.AtEnd(piece, "hem", pattern.End))
	return &d
}

func number(mm float64) *step.Number {
	n := step.Lit(mm)
	return &n
}

func spot(s pattern.Spot) *pattern.Spot { return &s }
