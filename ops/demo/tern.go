package demo

import (
	"fmt"

	"truemat/ops/pattern"
)

// Names of the pieces.
const (
	bridgePiece = "bridge"
	cradlePiece = "cradle"
	bandPiece   = "band"
	innerPiece  = "inner cup"
	upperPiece  = "upper outer cup"
	lowerPiece  = "lower outer cup"
)

// Tern returns the Tern in all its sizes. It is drafted anew with each call;
// an error means that a formula does not work out in a size.
func Tern() (pattern.Run, error) {
	all := pattern.Run{Name: "Tern", Fit: pattern.Fit{Reduction: hemReduction, Closure: 2 * closureHalf}}
	for _, m := range run() {
		p, wire, err := draft(m)
		if err != nil {
			return pattern.Run{}, fmt.Errorf("the Tern in size %s: %w", m.label(), err)
		}
		if all.Fit.Wire(wire.Name) == nil {
			all.Fit.Wires = append(all.Fit.Wires, wire)
		}
		all.Sizes = append(all.Sizes, pattern.Size{Label: m.label(), Band: m.band, Cup: m.cup, Wire: wire.Name, Pattern: p})
	}
	if err := all.Validate(); err != nil {
		return pattern.Run{}, err
	}
	return all.AsSaved()
}

// hemReduction is by how much per cent the finished hem is shorter than the
// body: what the draft of the band comes to, within half a per cent.
const hemReduction = 9

// draft returns the pattern of one size and its wire.
func draft(m measures) (pattern.Pattern, pattern.Wire, error) {
	f, err := draftFrame(m)
	if err != nil {
		return pattern.Pattern{}, pattern.Wire{}, fmt.Errorf("the frame: %w", err)
	}
	b, err := draftBand(m, f)
	if err != nil {
		return pattern.Pattern{}, pattern.Wire{}, fmt.Errorf("the band: %w", err)
	}
	c, err := draftCup(m, f)
	if err != nil {
		return pattern.Pattern{}, pattern.Wire{}, fmt.Errorf("the cup: %w", err)
	}
	return pattern.Pattern{
		Pieces: append(framePieces(m, f, b), cupPieces(m, f, c)...),
		Seams:  seams(),
		Lines:  lines(),
		Figures: map[string]float64{
			pattern.FigureClosure:     closureHeight,
			pattern.FigureUnderbust:   m.underbust,
			pattern.FigureChannelling: 10,
			pattern.FigureElastic:     12,
		},
	}, m.bought(f.wire.Length()), nil
}

// bought is the wire of a size, on a line of that length. It is named by its
// diameter, and sizes that have the same take the same.
func (m measures) bought(line float64) pattern.Wire {
	return pattern.Wire{Name: fmt.Sprintf("%.0f", m.wire), Length: line - 2*wirePlay, PlayStart: wirePlay, PlayEnd: wirePlay}
}

// seams joins the pieces, each walked from the end named first.
func seams() []pattern.Seam {
	whole := pattern.Whole
	return []pattern.Seam{
		{ // from the wire line down
			Name: "bridge seam",
			A:    pattern.Side{whole(bridgePiece, "cradle seam").Backwards()},
			B:    pattern.Side{whole(cradlePiece, "bridge seam")},
		},
		{ // from the upper edge down
			Name: "side seam",
			A:    pattern.Side{whole(cradlePiece, "side seam").Backwards()},
			B:    pattern.Side{whole(bandPiece, "side seam")},
		},
		{ // from the centre front to the underarm
			Name: "wire seam",
			A:    pattern.Side{whole(innerPiece, "wire"), whole(lowerPiece, "wire"), whole(upperPiece, "wire")},
			B:    pattern.Side{whole(bridgePiece, "wire").Backwards(), whole(cradlePiece, "wire").Backwards()},
		},
		{ // from the wire line up
			Name: "vertical seam",
			A:    pattern.Side{whole(innerPiece, "vertical seam")},
			B:    pattern.Side{whole(lowerPiece, "vertical seam").Backwards(), whole(upperPiece, "vertical seam").Backwards()},
		},
		{ // from the apex to the wire line
			Name: "cross seam",
			A:    pattern.Side{whole(upperPiece, "cross seam")},
			B:    pattern.Side{whole(lowerPiece, "cross seam").Backwards()},
		},
	}
}

// lines names the edges that run on through seams, twice each in the garment.
func lines() []pattern.Line {
	whole := pattern.Whole
	return []pattern.Line{
		{Name: "wire line", Kind: pattern.LineWire, Count: 2, Parts: []pattern.Part{
			whole(bridgePiece, "wire").Backwards(), whole(cradlePiece, "wire").Backwards(),
		}},
		{Name: "hem", Kind: pattern.LineHem, Count: 2, Parts: []pattern.Part{
			whole(bridgePiece, "hem"), whole(cradlePiece, "hem"), whole(bandPiece, "hem"),
		}},
		{Name: "neckline", Kind: pattern.LineNeckline, Count: 2, Parts: []pattern.Part{
			whole(innerPiece, "neckline").Backwards(), whole(upperPiece, "neckline").Backwards(),
		}},
		{Name: "underarm", Kind: pattern.LineUnderarm, Count: 2, Parts: []pattern.Part{
			whole(cradlePiece, "top").Backwards(), whole(bandPiece, "top").Backwards(),
		}},
		{Name: "cup underarm", Kind: pattern.LineUnderarm, Count: 2, Parts: []pattern.Part{
			whole(upperPiece, "underarm"),
		}},
	}
}
