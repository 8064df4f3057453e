package render

import (
	"math"

	"truemat/geom"
	"truemat/ops/cloth/border"
	"truemat/ops/pattern"
)

// borderLine draws how the border of a lace lies along the lace edge of a piece
// moved by m: the valley line and, beyond it, the scallops, with their motif
// points where the plan has them. Nothing when no plan has the piece. The
// figures are at true size, as long as the lace edge.
func borderLine(pc *pattern.Piece, m geom.Motion, whole bool, laces []border.Plan) ([]Figure, error) {
	for _, plan := range laces {
		for _, o := range plan.Placed {
			if o.Piece != pc.Name || o.Hand == border.Mirrored {
				continue
			}
			return borderOf(pc, plan, o, m, whole)
		}
	}
	return nil, nil
}

func borderOf(pc *pattern.Piece, plan border.Plan, o border.Placed, m geom.Motion, whole bool) ([]Figure, error) {
	// In the coordinates of the cut the valley line is y = 0 and the spot that
	// is held lies at x = 0, so far behind a motif point as the plan says.
	from, to := math.Inf(1), math.Inf(-1)
	for _, e := range pc.Edges {
		if e.Role != pattern.LaceEdge {
			continue
		}
		on := e.Path.Transform(o.Lay).Bounds()
		if middle := on.Center().Y; on.Height() < bentMost && middle <= bentMost && middle >= -plan.Lace.Lace.DepthOn(o.Second)-bentMost {
			from, to = min(from, on.Min.X), max(to, on.Max.X)
		}
	}
	if !(from < to) {
		return nil, nil
	}
	if whole && pc.Fold() != nil {
		from, to = min(from, -to), max(to, -from)
	}
	line, err := scallops(from, to, plan.Lace.Lace.Repeat, plan.Lace.Lace.DepthOn(o.Second), -o.Motif)
	if err != nil {
		return nil, err
	}
	there := o.Lay.Inverse().Then(m)
	return []Figure{
		{Kind: Valley, Path: polyline(geom.Pt(from, 0), geom.Pt(to, 0)).Transform(there), Pen: borderValleyPen},
		{Kind: Selvedge, Path: line.Transform(there), Pen: borderPen},
	}, nil
}

// bentMost is how far in mm a lace edge may be off a straight line on the border.
const bentMost = 1

var (
	borderPen       = Pen{Width: 0.25, Color: grey}
	borderValleyPen = Pen{Width: 0.2, Color: grey, Dash: []float64{1, 1.5}}
)
