package patterntest

import (
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
)

// Names of the frame's pieces and of those edges that tests need to name.
// Bridge: hem, cradle seam, wire, top, fold. Cradle: hem, side, top, wire,
// bridge seam. Band: hem, closure, top, side.
const (
	Bridge = "bridge" // on the fold
	Cradle = "cradle"
	Band   = "band"

	BridgeSeam = "bridge seam" // of the cradle, and the name of the seam
	CradleSeam = "cradle seam" // of the bridge
	SideSeam   = "side seam"   // the name of the seam of cradle.side and band.side
	WireLine   = "wire line"   // the line over bridge.wire and cradle.wire
	HemLine    = "hem"         // the line over all three hems
	UpperLine  = "upper edge"  // the line over band.top and cradle.top
)

// Shape holds the measures of a frame, in mm unless named otherwise.
type Shape struct {
	BridgeTop  float64 // half the width of the bridge at the top
	Width      float64 // of the wire line
	FrontArm   float64 // height of the wire line at the centre front
	SideArm    float64 // and at the underarm
	Bottom     float64 // of the wire line above the hem at the centre front
	Round      float64 // handles of the wire line as a share of its box
	SeamShare  float64 // of the wire line that lies on the bridge
	SeamSlant  float64 // how far the bridge seam runs outwards on the way down
	SeamBulge  float64
	Beyond     float64 // side seam beyond the end of the wire line
	Rise       float64 // of the hem from the centre front to the side seam
	SideHeight float64
	BandLength float64
	Closure    float64 // height
	Hollow     float64 // of the band's upper edge
	Hem, Seam  float64 // allowances
	Turn       geom.Angle
}

// Middle is the shape of [Sample].
var Middle = Shape{
	BridgeTop: 11, Width: 118, FrontArm: 80, SideArm: 92, Bottom: 28, Round: 0.56, SeamShare: 0.28,
	SeamSlant: -2, SeamBulge: 2, Beyond: 17, Rise: 15, SideHeight: 100, BandLength: 165, Closure: 38,
	Hollow: 12, Hem: 12, Seam: 6.35,
}

// Sample returns the frame of the shape [Middle].
func Sample() pattern.Pattern { return Middle.Frame(geom.Identity(), geom.Identity(), geom.Identity()) }

// Frame draws a frame: a bridge on the fold, a cradle and a band, sewn
// together, with a wire line, a hem and an upper edge that run on smoothly,
// matching notches, and each piece in coordinates and at a pose of its own.
// Both sides of each seam are congruent.
func Frame(t *rapid.T) pattern.Pattern {
	between := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	s := Shape{
		BridgeTop:  between("bridge top", 9, 14),
		Width:      between("width", 105, 135),
		FrontArm:   between("front arm", 70, 90),
		SideArm:    between("side arm", 80, 100),
		Bottom:     between("bottom", 26, 33),
		Round:      between("round", 0.5, 0.62),
		SeamShare:  between("seam share", 0.24, 0.34),
		SeamSlant:  between("seam slant", -6, 4),
		SeamBulge:  between("seam bulge", -3, 4),
		Beyond:     between("beyond", 14, 22),
		Rise:       between("rise", 8, 18),
		SideHeight: between("side height", 92, 106),
		BandLength: between("band length", 130, 190),
		Closure:    between("closure", 30, 60),
		Hollow:     between("hollow", 2, 18),
		Hem:        between("hem allowance", 0, 15),
		Seam:       between("seam allowance", 0, 12),
	}
	motion := func(name string) geom.Motion {
		m, err := geom.NewMotion(
			geom.Angle(between(name+" turn", -3, 3)),
			geom.Pt(between(name+" x", -300, 300), between(name+" y", -300, 300)),
			false)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	p := s.Frame(motion("bridge"), motion("cradle"), motion("band"))
	for i := range p.Pieces {
		p.Pieces[i].Pose = motion("pose of " + p.Pieces[i].Name)
	}
	return p
}

// Frame drafts the frame as it lies sewn, the centre front on the y axis, and
// then moves each piece into coordinates of its own; the poses on the mat put
// them together again.
func (s Shape) Frame(bridge, cradle, band geom.Motion) pattern.Pattern {
	// Wire line from the centre front to the underarm.
	a := geom.Pt(s.BridgeTop, s.Bottom+s.FrontArm)
	b := geom.Pt(s.BridgeTop+0.45*s.Width, s.Bottom)
	c := geom.Pt(s.BridgeTop+s.Width, s.Bottom+s.SideArm)
	wire := path(
		geom.Curve(a, a.Add(geom.Pt(1, -s.Round*s.FrontArm)), b.Add(geom.Pt(-s.Round*(b.X-a.X), 0)), b),
		geom.Curve(b, b.Add(geom.Pt(s.Round*(c.X-b.X), 0)), c.Add(geom.Pt(-3, -s.Round*s.SideArm)), c),
	)
	bridgeWire, cradleWire := split(wire, s.SeamShare)

	// Hem from the centre front, square to the fold, to the closure.
	side := geom.Pt(c.X+s.Beyond, s.Rise)
	along := geom.Pt(1, 0.12).Unit()
	back := side.Add(geom.Pt(s.BandLength, 6))
	hem := path(geom.Curve(geom.Pt(0, 0), geom.Pt(0.4*side.X, 0), side.Sub(along.Mul(0.3*side.X)), side))
	bandHem := path(geom.Curve(side, side.Add(along.Mul(0.3*s.BandLength)), back.Sub(geom.Pt(0.3*s.BandLength, 0)), back))
	bridgeHem, cradleHem := split(hem, (cradleWire.Start().X+s.SeamSlant)/side.X)

	seam := bowed(bridgeHem.End(), cradleWire.Start(), s.SeamBulge)
	sideTop := side.Add(geom.Pt(4, s.SideHeight))
	sideEdge := bowed(side, sideTop, 1.5)

	// Upper edge from the closure over the side seam to the wire line.
	closureTop := back.Add(geom.Pt(2, s.Closure))
	up := geom.Pt(-1, 0.25).Unit()
	bandTop := path(geom.Curve(closureTop, closureTop.Sub(geom.Pt(0.35*s.BandLength, s.Hollow/3)), sideTop.Sub(up.Mul(0.3*s.BandLength)), sideTop))
	reach := c.Dist(sideTop) / 3
	cradleTop := path(geom.Curve(sideTop, sideTop.Add(up.Mul(reach)), c.Add(geom.Pt(reach, 0)), c))

	top := geom.Must(geom.Polyline(a, geom.Pt(0, a.Y)))
	fold := geom.Must(geom.Polyline(geom.Pt(0, a.Y), geom.Pt(0, 0)))

	p := pattern.Pattern{
		Pieces: []pattern.Piece{
			s.piece(Bridge, bridge, pattern.Cut{Count: 1, Cloth: "main"},
				edge("hem", pattern.Hem, bridgeHem, s.Hem),
				edge(CradleSeam, pattern.SeamEdge, seam, s.Seam),
				edge("wire", pattern.WireLine, bridgeWire.Reverse(), s.Seam),
				edge("top", pattern.Neckline, top, s.Seam),
				edge("fold", pattern.Fold, fold, 0)),
			s.piece(Cradle, cradle, pattern.Cut{Count: 1, Pair: true, Cloth: "main"},
				edge("hem", pattern.Hem, cradleHem, s.Hem),
				edge("side", pattern.SeamEdge, sideEdge, s.Seam),
				edge("top", pattern.Underarm, cradleTop, s.Seam),
				edge("wire", pattern.WireLine, cradleWire.Reverse(), s.Seam),
				edge(BridgeSeam, pattern.SeamEdge, seam.Reverse(), s.Seam)),
			s.piece(Band, band, pattern.Cut{Count: 1, Pair: true, Cloth: "stretch"},
				edge("hem", pattern.Hem, bandHem, s.Hem),
				edge("closure", pattern.Closure, geom.Must(geom.Polyline(back, closureTop)), s.Seam),
				edge("top", pattern.Underarm, bandTop, s.Seam),
				edge("side", pattern.SeamEdge, sideEdge.Reverse(), s.Seam)),
		},
		Seams: []pattern.Seam{
			{Name: BridgeSeam, A: pattern.Side{pattern.Whole(Bridge, CradleSeam).Backwards()}, B: pattern.Side{pattern.Whole(Cradle, BridgeSeam)}},
			{Name: SideSeam, A: pattern.Side{pattern.Whole(Cradle, "side")}, B: pattern.Side{pattern.Whole(Band, "side").Backwards()}},
		},
		Lines: []pattern.Line{
			{Name: WireLine, Kind: pattern.LineWire, Count: 2, Parts: []pattern.Part{pattern.Whole(Bridge, "wire").Backwards(), pattern.Whole(Cradle, "wire").Backwards()}},
			{Name: HemLine, Kind: pattern.LineHem, Count: 2, Parts: []pattern.Part{pattern.Whole(Bridge, "hem"), pattern.Whole(Cradle, "hem"), pattern.Whole(Band, "hem")}},
			{Name: UpperLine, Kind: pattern.LineUnderarm, Count: 2, Parts: []pattern.Part{pattern.Whole(Band, "top"), pattern.Whole(Cradle, "top")}},
		},
		Figures: map[string]float64{pattern.FigureWire: wire.Length() - 12, pattern.FigureClosure: s.Closure},
	}
	notch(p.Piece(Bridge), "seam middle", CradleSeam, pattern.Along{From: pattern.End, MM: 20}, false)
	notch(p.Piece(Bridge), "hem quarter", "hem", pattern.Along{Share: 0.25}, false)
	notch(p.Piece(Cradle), "seam middle", BridgeSeam, pattern.Along{MM: 20}, false)
	notch(p.Piece(Cradle), "wire bottom", "wire", pattern.Along{Share: 0.6}, false)
	notch(p.Piece(Cradle), "side middle", "side", pattern.Along{MM: 40}, true)
	notch(p.Piece(Band), "side middle", "side", pattern.Along{From: pattern.End, MM: 40}, true)
	cr := p.Piece(Cradle)
	cr.Inner = []pattern.Inner{{Name: "guide", Kind: pattern.Drawn, Path: geom.Must(geom.Polyline(
		cradle.Apply(side.Add(geom.Pt(-12, 20))), cradle.Apply(side.Add(geom.Pt(-12, 40)))))}}
	return p
}

// piece moves the drafted edges into the piece's own coordinates.
func (s Shape) piece(name string, m geom.Motion, cut pattern.Cut, edges ...pattern.Edge) pattern.Piece {
	at := edges[0].Path.At(edges[0].Length() / 2)
	pc := pattern.Piece{
		Name: name,
		Cut:  cut,
		Pose: m.Inverse(),
		Arrow: pattern.Arrow{
			Kind: pattern.LeastStretch,
			From: m.Apply(at.Add(geom.Pt(-8, 15))),
			To:   m.Apply(at.Add(geom.Pt(8, 15))),
		},
	}
	for _, e := range edges {
		e.Path = e.Path.Transform(m)
		pc.Edges = append(pc.Edges, e)
	}
	return pc
}

func edge(name string, role pattern.Role, path geom.Path, allowance float64) pattern.Edge {
	return pattern.Edge{Name: name, Role: role, Path: path, Allowance: allowance, Free: role == pattern.WireLine}
}

func notch(pc *pattern.Piece, name, edge string, at pattern.Along, double bool) {
	pc.Notches = append(pc.Notches, pattern.Notch{Name: name, Edge: edge, Along: at, Double: double})
}

func path(segs ...geom.Cubic) geom.Path { return geom.Must(geom.NewPath(segs...)) }

// split cuts a path at a share of its length.
func split(p geom.Path, share float64) (geom.Path, geom.Path) {
	a, b, err := p.Split(share * p.Length())
	if err != nil {
		panic(err)
	}
	return a, b
}

// bowed returns the curve from a to b whose middle lies that far to the right
// of the straight way.
func bowed(a, b geom.Point, bulge float64) geom.Path {
	out := b.Sub(a).Unit().Perp().Mul(-bulge * 4 / 3)
	return path(geom.Curve(a, a.Lerp(b, 1.0/3).Add(out), a.Lerp(b, 2.0/3).Add(out), b))
}
