package demo

import (
	"truemat/geom"
	"truemat/ops/pattern"
)

// Allowances: a quarter of an inch, which is common practice on lingerie, and
// a hem wide enough to take the elastic.
const (
	quarterInch = 6.35
	hemWidth    = 12.0
)

// edge returns an edge with the allowance its role asks for.
func edge(name string, role pattern.Role, path geom.Path) pattern.Edge {
	e := pattern.Edge{Name: name, Role: role, Path: path, Allowance: quarterInch}
	switch role {
	case pattern.Hem:
		e.Allowance = hemWidth
	case pattern.Fold:
		e.Allowance = 0
	}
	return e
}

// cornered returns the edge with the way the allowances end where it starts.
func cornered(e pattern.Edge, end pattern.CornerEnd, of pattern.Neighbour) pattern.Edge {
	e.Corner = pattern.Corner{End: end, Of: of}
	return e
}

func notch(name, edge string, from pattern.EndName, mm float64) pattern.Notch {
	return pattern.Notch{Name: name, Edge: edge, Along: pattern.Along{From: from, MM: mm}}
}

func double(n pattern.Notch) pattern.Notch {
	n.Double = true
	return n
}

// arrow returns an arrow of that length around the middle of an outline,
// parallel to the direction along.
func arrow(kind pattern.ArrowKind, paths []geom.Path, along geom.Point, length float64) pattern.Arrow {
	middle := geom.Must(geom.JoinClosed(paths...)).Centroid()
	half := along.Unit().Mul(length / 2)
	return pattern.Arrow{Kind: kind, From: middle.Sub(half), To: middle.Add(half)}
}

// piece returns a piece cut in one pair that lies turned on the mat.
func piece(name, cloth string, edges []pattern.Edge, turn geom.Angle) pattern.Piece {
	return pattern.Piece{
		Name:  name,
		Edges: edges,
		Cut:   pattern.Cut{Count: 1, Pair: true, Cloth: cloth},
		Pose:  geom.Turn(turn, geom.Point{}),
	}
}

// onMat returns the box that a piece's sew line covers on the mat.
func onMat(pc pattern.Piece) geom.Box {
	return geom.Must(geom.JoinClosed(paths(pc.Edges)...)).Transform(pc.Pose).Bounds()
}

// lay shifts a piece so that the lower left corner of its box lies at a place.
func lay(pc *pattern.Piece, at geom.Point) {
	pc.Pose = pc.Pose.Then(geom.Shift(at.Sub(onMat(*pc).Min)))
}

func paths(edges []pattern.Edge) []geom.Path {
	p := make([]geom.Path, len(edges))
	for i, e := range edges {
		p[i] = e.Path
	}
	return p
}

// Distances of the pieces on the mat in mm: room for the allowances of both
// and a finger between.
const (
	besideCradle = 22.0
	besideBand   = 22.0
	sideNotch    = 32.0 // of the model wire, from the underarm end
)

// framePieces returns bridge, cradle and band, beside each other as they are sewn.
func framePieces(m measures, f frame, b band) []pattern.Piece {
	k := m.wire / wireModel
	across := geom.Pt(1, 0)

	bridge := piece(bridgePiece, "firm tulle", []pattern.Edge{
		edge("hem", pattern.Hem, f.bridgeHem),
		cornered(edge("cradle seam", pattern.SeamEdge, f.seam.Reverse()), pattern.FoldsBack, pattern.Before),
		cornered(edge("wire", pattern.WireLine, f.bridgeWire), pattern.Square, pattern.Before),
		edge("top", pattern.Neckline, f.bridgeTop),
		edge("fold", pattern.Fold, f.fold),
	}, 0)
	bridge.Cut.Pair = false
	bridge.Arrow = arrow(pattern.LeastStretch, paths(bridge.Edges), across, 0.5*f.bridgeHem.Length())
	bridge.Notches = []pattern.Notch{notch("bridge end", "wire", pattern.Start, 0)}

	cradle := piece(cradlePiece, "firm tulle", []pattern.Edge{
		edge("hem", pattern.Hem, f.cradleHem),
		cornered(edge("side seam", pattern.SeamEdge, f.side), pattern.FoldsBack, pattern.Before),
		cornered(edge("top", pattern.Underarm, f.cradleTop), pattern.Square, pattern.Before),
		edge("wire", pattern.WireLine, f.cradleWire),
		cornered(edge("bridge seam", pattern.SeamEdge, f.seam), pattern.Square, pattern.After),
	}, 0)
	cradle.Pose = geom.Shift(geom.Pt(besideCradle, 0))
	cradle.Edges[0] = cornered(cradle.Edges[0], pattern.FoldsBack, pattern.After)
	// The middle of the hollow piece may lie off it: put the arrow under the wire.
	low := geom.Pt(f.wire.Seg(0).End().X, -0.55*hemBelow)
	cradle.Arrow = pattern.Arrow{Kind: pattern.LeastStretch, From: low, To: low.Add(across.Mul(0.3 * m.wire))}
	cradle.Notches = []pattern.Notch{
		double(notch("bottom", "wire", pattern.End, f.toBottom-f.toSeam)),
		notch("side", "wire", pattern.Start, sideNotch*k),
	}

	back := piece(bandPiece, "stretch tulle", []pattern.Edge{
		cornered(edge("hem", pattern.Hem, b.hem), pattern.FoldsBack, pattern.After),
		cornered(edge("closure", pattern.Closure, b.closure), pattern.FoldsBack, pattern.Before),
		edge("top", pattern.Underarm, b.top),
		cornered(edge("side seam", pattern.SeamEdge, f.side.Reverse()), pattern.Square, pattern.After),
	}, 0)
	back.Pose = geom.Shift(geom.Pt(besideCradle+besideBand, 0))
	back.Arrow = arrow(pattern.MostStretch, paths(back.Edges), b.hem.End().Sub(b.hem.Start()), 0.4*b.hem.Length())
	return []pattern.Piece{bridge, cradle, back}
}

const (
	apexNotch   = 26.0 // from the apex along the vertical seam, for the model wire
	crossNotch  = 34.0 // from the apex along the cross seam
	cupAbove    = 26.0 // of the cup over the frame on the mat
	besideInner = 24.0
	aboveLower  = 22.0
	outerTurn   = 5.0  // degrees by which the outer cup's parts lie turned
	innerTurn   = -4.0 // the inner cup
)

// cupPieces returns the parts of the cup, over the frame as they are sewn.
func cupPieces(m measures, f frame, c cup) []pattern.Piece {
	k := m.wire / wireModel
	bottom := c.innerWire.Length()

	inner := piece(innerPiece, "cup cloth", []pattern.Edge{
		edge("wire", pattern.WireLine, c.innerWire),
		edge("vertical seam", pattern.SeamEdge, c.innerVertical),
		cornered(edge("neckline", pattern.Neckline, c.neckline), pattern.Square, pattern.Before),
	}, deg(innerTurn))
	inner.Arrow = arrow(pattern.LeastStretch, paths(inner.Edges), c.neckline.Start().Sub(c.neckline.End()), 0.4*m.depth)
	inner.Notches = []pattern.Notch{
		notch("bridge end", "wire", pattern.Start, f.toSeam),
		notch("below apex", "vertical seam", pattern.Start, m.depth-apexNotch*k),
		double(notch("above apex", "vertical seam", pattern.Start, m.depth+apexNotch*k)),
	}

	lower := piece(lowerPiece, "cup cloth", []pattern.Edge{
		edge("wire", pattern.WireLine, c.lowerWire),
		edge("cross seam", pattern.SeamEdge, c.lowerCross),
		edge("vertical seam", pattern.SeamEdge, c.lowerVertical),
	}, deg(outerTurn))
	lower.Arrow = arrow(pattern.LeastStretch, paths(lower.Edges), c.outerApex, 0.4*m.depth)
	lower.Notches = []pattern.Notch{
		double(notch("bottom", "wire", pattern.Start, f.toBottom-bottom)),
		notch("cross", "cross seam", pattern.End, crossNotch*k),
		notch("below apex", "vertical seam", pattern.Start, apexNotch*k),
	}

	upper := piece(upperPiece, "cup cloth", []pattern.Edge{
		edge("cross seam", pattern.SeamEdge, c.upperCross),
		edge("wire", pattern.WireLine, c.upperWire),
		edge("underarm", pattern.Underarm, c.underarm),
		edge("strap", pattern.SeamEdge, c.strap),
		edge("neckline", pattern.Neckline, c.upperNeckline),
		cornered(edge("vertical seam", pattern.SeamEdge, c.upperVertical), pattern.Square, pattern.After),
	}, deg(outerTurn))
	upper.Edges[3].Free = true // the strap is a ready-made one
	upper.Arrow = arrow(pattern.LeastStretch, paths(upper.Edges), c.upperVertical.Start().Sub(c.upperVertical.End()), 0.5*m.depth)
	upper.Notches = []pattern.Notch{
		notch("cross", "cross seam", pattern.Start, crossNotch*k),
		notch("side", "wire", pattern.End, sideNotch*k),
		double(notch("above apex", "vertical seam", pattern.End, apexNotch*k)),
	}

	// On the mat: the inner cup over the wire, the outer cup beside it.
	floor := f.wire.End().Y + cupAbove
	lay(&inner, geom.Pt(bridgeTopHalf, floor))
	lay(&lower, geom.Pt(onMat(inner).Max.X+besideInner, floor))
	lay(&upper, geom.Pt(onMat(inner).Max.X+besideInner, onMat(lower).Max.Y+aboveLower))
	return []pattern.Piece{inner, upper, lower}
}
