package step

import (
	"errors"
	"fmt"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

func init() { register("draw", func() Step { return &Draw{} }) }

// Draw draws an inner line on a piece, which moves with it: from a spot of its
// outline to another, straight or bulging; beside an edge at a distance; or
// through points given as shares of the box around the piece, so that it fits
// every size.
type Draw struct {
	Piece string `json:"piece"`
	Name  string `json:"name"`
	// From and To are the ends of a line on the outline; Bulge is how far in mm
	// its middle lies to the right of the straight way (left when below 0), the
	// curve being a parabola.
	From  *pattern.Spot `json:"from,omitempty"`
	To    *pattern.Spot `json:"to,omitempty"`
	Bulge *Number       `json:"bulge,omitempty"`
	// Edge is run beside at Distance mm inside, from side to side of the piece.
	Edge     string  `json:"edge,omitempty"`
	Distance *Number `json:"distance,omitempty"`
	// Points are shares of the box around the outline in the piece's
	// coordinates: (0, 0) lower left, (1, 1) upper right. With Curved the line
	// runs through them in one sweep, else straight from each to the next.
	Points []geom.Point `json:"points,omitempty"`
	Curved bool         `json:"curved,omitempty"`
}

// Kind returns "draw".
func (d *Draw) Kind() string { return "draw" }

// Sentence tells what the step does.
func (d *Draw) Sentence() string {
	where := fmt.Sprintf("through %d points", len(d.Points))
	switch {
	case d.Edge != "" && d.Distance != nil:
		where = fmt.Sprintf("%s beside %s", *d.Distance, d.Edge)
	case d.From != nil && d.To != nil:
		where = fmt.Sprintf("from %s to %s", spotOn(*d.From, d.Piece), spotOn(*d.To, d.Piece))
	}
	return sentence(fmt.Sprintf("draw %q on %s %s", d.Name, d.Piece, where))
}

// Apply draws. It reports length, that of the line in mm.
func (d *Draw) Apply(in Input) (Output, error) {
	p := in.Pattern.Clone()
	pc, err := pieceIn(p, d.Piece)
	switch {
	case err != nil:
		return Output{}, err
	case d.Name == "":
		return Output{}, fmt.Errorf("the line drawn on %s needs a name", d.Piece)
	case pc.InnerLine(d.Name) != nil:
		return Output{}, fmt.Errorf("%s has an inner line %q already; give the new one another name", d.Piece, d.Name)
	}
	ways := 0
	for _, given := range []bool{d.From != nil || d.To != nil, d.Edge != "", len(d.Points) > 0} {
		if given {
			ways++
		}
	}
	if ways != 1 {
		return Output{}, fmt.Errorf("say how %q runs on %s: \"from\" a spot \"to\" a spot, beside an \"edge\" at a \"distance\", or through \"points\"; one of them", d.Name, d.Piece)
	}
	outline, err := pc.Outline()
	if err != nil {
		return Output{}, err
	}
	var path geom.Path
	switch {
	case d.Edge != "":
		path, err = d.beside(in, pc, outline)
	case len(d.Points) > 0:
		path, err = d.through(outline.Bounds())
	default:
		path, err = d.between(in)
	}
	if err != nil {
		return Output{}, err
	}
	if edge := alongEdge(pc, path); edge != "" {
		return Output{}, fmt.Errorf("line %q would lie on %s of %s, where there is a line already; choose other ends, or let it bulge", d.Name, edge, d.Piece)
	}
	out := Output{Pattern: p, Figures: map[string]float64{"length": path.Length()}}
	if !outline.Contains(path.At(path.Length() / 2)) {
		out.Notes = []string{fmt.Sprintf("Line %q runs outside %s.", d.Name, d.Piece)}
	}
	pc.Inner = append(pc.Inner, pattern.Inner{Name: d.Name, Kind: pattern.Drawn, Path: path})
	return out, nil
}

// alongEdge returns the edge that a line lies on for all its length, "" when it
// leaves each somewhere.
func alongEdge(pc *pattern.Piece, line geom.Path) string {
	for i := range pc.Edges {
		off := 0.0
		for k := range onEdgeSamples + 1 {
			at := line.At(line.Length() * float64(k) / onEdgeSamples)
			off = max(off, pc.Edges[i].Path.Nearest(at).Dist)
		}
		if off <= onEdgeWithin {
			return pc.Edges[i].Name
		}
	}
	return ""
}

// A line whose places lie no farther than so many mm from an edge, the width of
// a thin pencil line, is not to be told from it.
const (
	onEdgeSamples = 16
	onEdgeWithin  = 0.1
)

func (d *Draw) between(in Input) (geom.Path, error) {
	if d.From == nil || d.To == nil {
		return geom.Path{}, fmt.Errorf("line %q needs both ends, \"from\" and \"to\"", d.Name)
	}
	var ends [2]geom.Point
	for i, s := range []pattern.Spot{spotOn(*d.From, d.Piece), spotOn(*d.To, d.Piece)} {
		if s.Piece != d.Piece {
			return geom.Path{}, fmt.Errorf("%s does not lie on %s, on which %q is drawn", s, d.Piece, d.Name)
		}
		at, err := in.Pattern.Find(s)
		if err != nil {
			return geom.Path{}, err
		}
		ends[i] = at.Point
	}
	from, to := ends[0], ends[1]
	if from.Dist(to) <= placeSlack {
		return geom.Path{}, fmt.Errorf("both ends of %q are at the same place on %s; choose two different ones", d.Name, d.Piece)
	}
	bulge := 0.0
	if d.Bulge != nil {
		var err error
		if bulge, err = d.Bulge.In(in); err != nil {
			return geom.Path{}, err
		}
	}
	if bulge == 0 {
		return geom.Polyline(from, to)
	}
	// A parabola of rise h has its control point at twice h.
	control := from.Lerp(to, 0.5).Sub(to.Sub(from).Unit().Perp().Mul(2 * bulge))
	return geom.NewPath(geom.Curve(from, from.Lerp(control, 2.0/3), to.Lerp(control, 2.0/3), to))
}

func (d *Draw) beside(in Input, pc *pattern.Piece, outline geom.Path) (geom.Path, error) {
	_, e, err := edgeIn(in.Pattern, d.Piece, d.Edge)
	if err != nil {
		return geom.Path{}, err
	}
	if d.Distance == nil {
		return geom.Path{}, fmt.Errorf("line %q runs beside %s of %s; give its \"distance\" in mm", d.Name, d.Edge, d.Piece)
	}
	width, err := d.Distance.In(in)
	if err != nil {
		return geom.Path{}, err
	}
	if !(width > geom.Coincident) {
		return geom.Path{}, fmt.Errorf("a line at %.4g mm from %s of %s is not inside; give a distance above 0", width, d.Edge, d.Piece)
	}
	path, err := e.Path.Parallel(width, drawTolerance)
	if err != nil {
		return geom.Path{}, fmt.Errorf("a line at %.4g mm from %s of %s: %w", width, d.Edge, d.Piece, err)
	}
	// Run on at both ends until it leaves the piece.
	reach := outline.Bounds().Width() + outline.Bounds().Height()
	start, end := path.Start(), path.End()
	segs := append([]geom.Cubic{geom.Straight(start.Sub(path.TangentAt(0).Mul(reach)), start)}, path.Segments()...)
	segs = append(segs, geom.Straight(end, end.Add(path.TangentBefore(path.Length()).Mul(reach))))
	long, err := geom.NewPath(segs...)
	if err != nil {
		return geom.Path{}, err
	}
	middle := reach + path.Length()/2
	at := []float64{}
	for _, x := range geom.Cross(long, outline).Crossings {
		at = append(at, x.S)
	}
	slices.Sort(at)
	var best geom.Path
	for k := 1; k < len(at); k++ {
		part, err := long.Sub(at[k-1], at[k])
		if err != nil || !outline.Contains(part.At(part.Length()/2)) {
			continue
		}
		if at[k-1] <= middle && at[k] >= middle {
			return part, nil
		}
		if best.Empty() || part.Length() > best.Length() {
			best = part
		}
	}
	if best.Empty() {
		return best, fmt.Errorf("%s is not %.4g mm wide beside %s; choose a smaller distance", d.Piece, width, d.Edge)
	}
	return best, nil
}

// drawTolerance is how far in mm a line drawn beside an edge may be from its
// distance: under what a pencil shows.
const drawTolerance = 0.01

// maxDrawn bounds the number of points of a line.
const maxDrawn = 500

func (d *Draw) through(box geom.Box) (geom.Path, error) {
	switch n := len(d.Points); {
	case n < 2:
		return geom.Path{}, fmt.Errorf("line %q has %d point; it needs at least two", d.Name, n)
	case n > maxDrawn:
		return geom.Path{}, fmt.Errorf("line %q has %d points; at most %d are allowed", d.Name, n, maxDrawn)
	}
	pts := make([]geom.Point, 0, len(d.Points))
	for i, s := range d.Points {
		if !(s.X >= 0 && s.X <= 1 && s.Y >= 0 && s.Y <= 1) {
			return geom.Path{}, fmt.Errorf("point %d of %q would lie %s of %s; choose a place on it", i+1, d.Name, besideBox(s, box), d.Piece)
		}
		q := geom.Pt(box.Min.X+s.X*box.Width(), box.Min.Y+s.Y*box.Height())
		if n := len(pts); n > 0 && pts[n-1].Dist(q) <= placeSlack {
			return geom.Path{}, fmt.Errorf("points %d and %d of %q are the same place; leave one out", i, i+1, d.Name)
		}
		pts = append(pts, q)
	}
	if !d.Curved || len(pts) == 2 {
		return geom.Polyline(pts...)
	}
	return sweep(pts)
}

// besideBox tells how far a point in shares of a box lies out of it.
func besideBox(s geom.Point, box geom.Box) string {
	x, y := s.X*box.Width(), s.Y*box.Height()
	switch {
	case s.X < 0:
		return unit.MM(-x) + " left"
	case s.X > 1:
		return unit.MM(x-box.Width()) + " right"
	case s.Y < 0:
		return unit.MM(-y) + " below the lowest place"
	case s.Y > 1:
		return unit.MM(y-box.Height()) + " above the highest place"
	}
	return "nowhere near any place"
}

// sweep returns a smooth curve through points: the natural cubic spline over
// their distances (de Boor, A Practical Guide to Splines, 1978, chapter IV),
// which bends least of all curves near to straight ones.
func sweep(pts []geom.Point) (geom.Path, error) {
	n := len(pts) - 1
	h := make([]float64, n)
	for i := range h {
		if h[i] = pts[i].Dist(pts[i+1]); !(h[i] > 0) {
			return geom.Path{}, errors.New("two points are the same place")
		}
	}
	// Slopes m by the tridiagonal system of continuous second derivatives,
	// which are 0 at both ends; solved by elimination.
	diag, rhs, m := make([]float64, n+1), make([]geom.Point, n+1), make([]geom.Point, n+1)
	slope := func(i int) geom.Point { return pts[i+1].Sub(pts[i]).Mul(1 / h[i]) }
	low, high := make([]float64, n+1), make([]float64, n+1)
	diag[0], high[0], rhs[0] = 2, 1, slope(0).Mul(3)
	for i := 1; i < n; i++ {
		low[i], diag[i], high[i] = h[i], 2*(h[i-1]+h[i]), h[i-1]
		rhs[i] = slope(i - 1).Mul(3 * h[i]).Add(slope(i).Mul(3 * h[i-1]))
	}
	low[n], diag[n], rhs[n] = 1, 2, slope(n-1).Mul(3)
	for i := 1; i <= n; i++ {
		k := low[i] / diag[i-1]
		diag[i] -= k * high[i-1]
		rhs[i] = rhs[i].Sub(rhs[i-1].Mul(k))
	}
	m[n] = rhs[n].Mul(1 / diag[n])
	for i := n - 1; i >= 0; i-- {
		m[i] = rhs[i].Sub(m[i+1].Mul(high[i])).Mul(1 / diag[i])
	}
	segs := make([]geom.Cubic, n)
	for i := range segs {
		third := h[i] / 3
		segs[i] = geom.Curve(pts[i], pts[i].Add(m[i].Mul(third)), pts[i+1].Sub(m[i+1].Mul(third)), pts[i+1])
	}
	return geom.NewPath(segs...)
}
