package demo

import "truemat/ops/cloth"

// Names of the Tern's cloths.
const (
	sheerCloth = "sheer tricot"
	netCloth   = "power net"
	laceCloth  = "heron lace"
	backedLace = "heron lace on sheer tricot"
)

// Goods returns what the Tern in lace is cut from and finished with: a stretch
// lace with a firm layer beneath on frame and cups, a band of power net alone,
// and a plush elastic behind the lace and along the band. The figures are of
// our own invention, of the size that pull tests give (common practice).
func Goods() cloth.Goods {
	return cloth.Goods{
		Cloths: []cloth.Cloth{
			{Name: sheerCloth, Width: 1400, Thickness: 0.2, Along: cloth.Pull{Before: 100, Under: 103, After: 100}, Across: cloth.Pull{Before: 100, Under: 106, After: 100.5}},
			{Name: netCloth, Width: 1500, Thickness: 0.45, Along: cloth.Pull{Before: 100, Under: 140, After: 102}, Across: cloth.Pull{Before: 100, Under: 165, After: 103}},
			{
				Name: laceCloth, Width: 230, Thickness: 0.35, Along: cloth.Pull{Before: 100, Under: 130, After: 102}, Across: cloth.Pull{Before: 100, Under: 112, After: 101}, OneWay: true,
				Lace: &cloth.Lace{Repeat: 96, Depth: 11, Both: true, Second: cloth.Mirrored},
			},
			{Name: backedLace, Of: []string{laceCloth, sheerCloth}},
		},
		Made: []cloth.Made{
			{Piece: framePiece, Cloths: []string{backedLace}},
			{Piece: bandPiece, Cloths: []string{netCloth}},
			{Piece: innerPiece, Cloths: []string{backedLace}},
			{Piece: upperPiece, Cloths: []string{sheerCloth}},
			{Piece: lowerPiece, Cloths: []string{sheerCloth}},
		},
		Elastics: []cloth.Elastic{{
			Name: "hem elastic", Line: "hem", Sort: "plush back", Width: 10, PutOn: cloth.BehindLace, Overlap: 20,
			Stretches: []cloth.Reduced{
				{Pieces: []string{framePiece}, Percent: cloth.FrameReduction},
				{Pieces: []string{bandPiece}, Percent: cloth.BandReduction},
			},
		}},
		Notions: cloth.Notions{
			ChannelEnds: 20,
			Straps:      cloth.Straps{Count: 2, Width: 12, Length: 420},
			Eyes:        cloth.Eyes{Columns: 3, Spacing: 19, Worn: 1},
			Sewing:      []cloth.Sewing{{Class: "301", Rows: 2}, {Class: "304", Elastics: []string{"hem elastic"}, Rows: 2}},
			Waste:       15,
		},
	}
}
