package pattern_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	. "truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

// shape is a piece with straight edges between the points, called a, b, c …
func shape(allowances []float64, pts ...geom.Point) *Piece {
	pc := &Piece{Name: "shape"}
	for i, p := range pts {
		pc.Edges = append(pc.Edges, Edge{
			Name: string(rune('a' + i)), Role: SeamEdge, Allowance: allowances[i],
			Path: geom.Must(geom.Polyline(p, pts[(i+1)%len(pts)])),
		})
	}
	return pc
}

// corners returns the start points of the segments of the cut line.
func corners(t *testing.T, pc *Piece) []geom.Point {
	cut, err := pc.CutLine()
	require.NoError(t, err)
	var pts []geom.Point
	for _, c := range cut.Segments() {
		pts = append(pts, c.Start())
	}
	return pts
}

// has asserts that the cut line has a corner at (x, y).
func has(t *testing.T, pts []geom.Point, x, y float64) {
	t.Helper()
	for _, p := range pts {
		if p.Near(geom.Pt(x, y), 1e-6) {
			return
		}
	}
	assert.Failf(t, "corner missing", "(%v, %v) is not among %v", x, y, pts)
}

func TestCutLineOfARectangle(t *testing.T) {
	pc := shape([]float64{12, 6, 5, 0}, geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 50), geom.Pt(0, 50))
	cut, err := pc.CutLine()
	require.NoError(t, err)
	assert.True(t, cut.Closed())
	assert.InDelta(t, 106*67, cut.Area(), 1e-9)
	area, err := pc.CutArea()
	require.NoError(t, err)
	assert.Equal(t, cut.Area(), area)
	assert.InDelta(t, 5000, pc.Area(), 1e-9)
	pts := corners(t, pc)
	has(t, pts, 0, -12)
	has(t, pts, 106, -12)
	has(t, pts, 106, 55)
	has(t, pts, 0, 55)
}

func TestCutLineWithoutAllowancesIsTheSewLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pc := patterntest.Blob(t)
		for i := range pc.Edges {
			pc.Edges[i].Allowance = 0
		}
		cut, err := pc.CutLine()
		if err != nil {
			t.Fatal(err)
		}
		sew, _ := pc.Outline()
		if cut.Len() != sew.Len() || cut.Area() != sew.Area() {
			t.Fatalf("area %v instead of %v", cut.Area(), sew.Area())
		}
	})
}

// Steiner's formula: a convex outline without corners of length L and area A,
// grown by w, has the area A + L·w + π·w² and the length L + 2π·w.
func TestCutLineOfARoundPieceFollowsSteiner(t *testing.T) {
	const r, n = 60.0, 8
	for _, w := range []float64{1, 6.35, 12} {
		pc := &Piece{}
		h := 4.0 / 3 * math.Tan(math.Pi/(2*n)) * r // handles of n arcs of a circle
		for i := range n {
			a, b := geom.Angle(2*math.Pi*float64(i)/n).Unit(), geom.Angle(2*math.Pi*float64(i+1)/n).Unit()
			pc.Edges = append(pc.Edges, Edge{Name: string(rune('a' + i)), Role: SeamEdge, Allowance: w, Path: geom.Must(geom.NewPath(
				geom.Curve(a.Mul(r), a.Mul(r).Add(a.Perp().Mul(h)), b.Mul(r).Sub(b.Perp().Mul(h)), b.Mul(r))))})
		}
		sew, err := pc.Outline()
		require.NoError(t, err)
		cut, err := pc.CutLine()
		require.NoError(t, err)
		assert.InDelta(t, sew.Length()+2*math.Pi*w, cut.Length(), 0.01)
		assert.InDelta(t, sew.Area()+sew.Length()*w+math.Pi*w*w, cut.Area(), 0.005*cut.Length())
	}
}

func TestInnerCornerIsTrimmed(t *testing.T) {
	pc := shape([]float64{10, 10, 4, 6, 10, 10},
		geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 50), geom.Pt(40, 50), geom.Pt(40, 120), geom.Pt(0, 120))
	has(t, corners(t, pc), 46, 54)
	area, err := pc.CutArea()
	require.NoError(t, err)
	assert.InDelta(t, 120*64+56*(130-54), area, 1e-9)

	// With no allowance on one of them the other runs on until it meets it.
	pc.Edges[3].Allowance = 0
	has(t, corners(t, pc), 40, 54)
}

func TestSharpCornerIsCutOff(t *testing.T) {
	// The corner at the origin is 2·atan(0.1) = 11.4° sharp.
	pc := shape([]float64{5, 5, 5}, geom.Pt(0, 0), geom.Pt(200, -20), geom.Pt(200, 20))
	for _, p := range corners(t, pc) {
		assert.GreaterOrEqual(t, p.X, -20.0-1e-9)
	}
	cut, err := pc.CutLine()
	require.NoError(t, err)
	assert.InDelta(t, -20, cut.Bounds().Min.X, 1e-9, "4 widths from the joint")
}

// An obtuse and an acute corner at the hem b of a leaning piece.
func leaning(end CornerEnd, of Neighbour) *Piece {
	// hem a from (0,0) to (100,0); b leans outwards 45°, d inwards.
	pc := shape([]float64{10, 5, 5, 5}, geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(140, 40), geom.Pt(40, 40))
	pc.Edges[1].Corner = Corner{End: end, Of: of}
	pc.Edges[0].Corner = Corner{End: end, Of: map[Neighbour]Neighbour{Before: After, After: Before}[of]}
	return pc
}

func TestSquareCorner(t *testing.T) {
	d := 5 * math.Sqrt2 // along the hem's line from the joint to the side's cut line
	pts := corners(t, leaning(Square, Before))
	has(t, pts, 100+d, -10)
	has(t, pts, 100+d, 0)
	has(t, pts, -d, -10)
	has(t, pts, -d, 0)
}

func TestFoldedBackHemLiesOnThePiece(t *testing.T) {
	d := 5 * math.Sqrt2
	pts := corners(t, leaning(FoldsBack, Before))
	has(t, pts, 100+d, 0)
	has(t, pts, 100+d+10, -10) // as far out as the cut line at height 10
	has(t, pts, -d, 0)
	has(t, pts, -d+10, -10)
}

// Whatever the sides' curves, the allowance below the hem is the mirror image
// of the cut line above it.
func TestFoldedBackHemMirrorsCurvedSides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lean := rapid.Float64Range(-25, 25)
		l, r := lean.Draw(t, "left"), lean.Draw(t, "right")
		bow := rapid.Float64Range(-8, 8)
		bl, br := bow.Draw(t, "left bow"), bow.Draw(t, "right bow")
		hem := rapid.Float64Range(5, 20).Draw(t, "hem")
		pc := shape([]float64{hem, 6, 6, 6}, geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100+r, 80), geom.Pt(l, 80))
		pc.Edges[1].Path = geom.Must(geom.NewPath(geom.Curve(geom.Pt(100, 0), geom.Pt(100+r/3+br, 27), geom.Pt(100+2*r/3+br, 53), geom.Pt(100+r, 80))))
		pc.Edges[3].Path = geom.Must(geom.NewPath(geom.Curve(geom.Pt(l, 80), geom.Pt(2*l/3+bl, 53), geom.Pt(l/3+bl, 27), geom.Pt(0, 0))))
		pc.Edges[1].Corner = Corner{End: FoldsBack, Of: Before}
		pc.Edges[0].Corner = Corner{End: FoldsBack, Of: After}
		cut, err := pc.CutLine()
		if err != nil {
			t.Fatal(err)
		}
		for _, y := range []float64{0.25, 0.5, 0.99} {
			inside, below := cut.CrossLine(geom.Pt(0, y*hem), geom.Pt(1, 0)), cut.CrossLine(geom.Pt(0, -y*hem), geom.Pt(1, 0))
			if len(inside) != 2 || len(below) != 2 {
				t.Fatalf("%d and %d crossings at ±%v", len(inside), len(below), y*hem)
			}
			for _, w := range [][2]float64{
				{min(inside[0].Point.X, inside[1].Point.X), min(below[0].Point.X, below[1].Point.X)},
				{max(inside[0].Point.X, inside[1].Point.X), max(below[0].Point.X, below[1].Point.X)},
			} {
				if math.Abs(w[0]-w[1]) > 1e-6 {
					t.Fatalf("at %v above the hem %v, below %v", y*hem, w[0], w[1])
				}
			}
		}
		if b := cut.Bounds(); math.Abs(b.Min.Y+hem) > 1e-6 {
			t.Fatalf("the hem allowance ends at %v", b.Min.Y)
		}
	})
}

func TestBluntCorner(t *testing.T) {
	pc := shape([]float64{10, 6, 10, 6}, geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 50), geom.Pt(0, 50))
	for i := range pc.Edges {
		pc.Edges[i].Corner.End = Blunt
	}
	pts := corners(t, pc)
	has(t, pts, 100, -10)
	has(t, pts, 106, 0)
	area, err := pc.CutArea()
	require.NoError(t, err)
	assert.InDelta(t, 5000+2*1000+2*300+4*30, area, 1e-9)
}

func TestAllowanceFadesOut(t *testing.T) {
	pc := shape([]float64{10, 6, 6, 6}, geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 50), geom.Pt(0, 50))
	pc.Edges[1].Corner = Corner{End: FadesOut, Of: Before}
	pts := corners(t, pc)
	has(t, pts, 60, -10) // 4 widths before the joint
	has(t, pts, 100, 0)
	has(t, pts, 106, 0)
	cut, err := pc.CutLine()
	require.NoError(t, err)
	assert.InDelta(t, 5, cut.Nearest(geom.Pt(80, 0)).Dist/math.Cos(math.Atan(0.25)), 1e-9)
	// At both ends of a short edge each fade has half of it.
	pc = shape([]float64{10, 6, 6, 6}, geom.Pt(0, 0), geom.Pt(40, 0), geom.Pt(40, 50), geom.Pt(0, 50))
	pc.Edges[0].Corner, pc.Edges[1].Corner = Corner{End: FadesOut, Of: After}, Corner{End: FadesOut, Of: Before}
	pts = corners(t, pc)
	has(t, pts, 0, 0)
	has(t, pts, 20, -10)
	has(t, pts, 40, 0)
}

func TestUnequalAllowancesAtASmoothJointStepSquare(t *testing.T) {
	pc := shape([]float64{12, 6, 6, 6, 6}, geom.Pt(0, 0), geom.Pt(50, 0), geom.Pt(100, 0), geom.Pt(100, 50), geom.Pt(0, 50))
	pts := corners(t, pc)
	has(t, pts, 50, -12)
	has(t, pts, 50, -6)
	// The same where the outline turns a little, either way.
	for _, dy := range []float64{2, -2} {
		pc = shape([]float64{12, 6, 6, 6, 6}, geom.Pt(0, 0), geom.Pt(50, 0), geom.Pt(100, dy), geom.Pt(100, 50), geom.Pt(0, 50))
		pts = corners(t, pc)
		has(t, pts, 50, -12)
		has(t, pts, 50, -6/math.Cos(math.Atan(dy/50)))
	}
}

func TestTheFoldRunsOnToTheHem(t *testing.T) {
	p := patterntest.Sample()
	pc := p.Piece(patterntest.Bridge)
	pts := corners(t, pc)
	has(t, pts, 0, -patterntest.Middle.Hem)
	has(t, pts, 0, patterntest.Middle.Bottom+patterntest.Middle.FrontArm+patterntest.Middle.Seam)
}

// Everywhere beside an edge there is cloth as wide as its allowance, except
// near a wide corner whose other edge has a narrower one.
func TestCutLineLeavesTheAllowanceEverywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		for i := range p.Pieces {
			pc := &p.Pieces[i]
			cut, err := pc.CutLine()
			if err != nil {
				t.Fatal(err)
			}
			widest := 0.0
			for _, e := range pc.Edges {
				widest = max(widest, e.Allowance)
			}
			for j, e := range pc.Edges {
				for k := 1; k < 40; k++ {
					s := e.Length() * float64(k) / 40
					out := e.Path.TangentAt(s).Perp().Mul(-1)
					in := e.Path.At(s).Sub(out.Mul(0.01))
					if !cut.Contains(in) {
						t.Fatalf("%s of %s: the sew line at %v lies outside the cut line", e.Name, pc.Name, s)
					}
					if e.Allowance < 0.02 ||
						s < 1.5*widest && pc.JointAngle(j) > 90*geom.Degree ||
						e.Length()-s < 1.5*widest && pc.JointAngle(pc.Next(j)) > 90*geom.Degree {
						continue
					}
					if at := e.Path.At(s).Add(out.Mul(e.Allowance - 0.01)); !cut.Contains(at) {
						t.Fatalf("%s of %s: less than %v of allowance at %v of %v", e.Name, pc.Name, e.Allowance, s, e.Length())
					}
				}
			}
		}
	})
}

func TestEveryKindOfCornerGivesAClosedLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pc := patterntest.Blob(t)
		cut, err := pc.CutLine()
		if err != nil {
			t.Fatal(err)
		}
		if !cut.Closed() || !(cut.Area() > pc.Area()-1) {
			t.Fatalf("cut area %v, area %v", cut.Area(), pc.Area())
		}
		if paths, err := pc.CutEdges(); err != nil {
			t.Fatal(err)
		} else {
			whole, err := geom.JoinClosed(paths...)
			if err != nil {
				t.Fatal(err)
			}
			if d := whole.Area() - cut.Area(); d > 1e-6 || d < -1e-6 {
				t.Fatalf("the stretches enclose %v more", d)
			}
		}
		for _, e := range pc.Edges {
			if d := cut.Nearest(e.Path.At(e.Length() / 2)).Dist; d > e.Allowance+0.01 {
				t.Fatalf("the middle of %s is %v from the cut line", e.Name, d)
			}
		}
	})
}

func TestATightHollowEdgeIsSwallowedByItsNeighbours(t *testing.T) {
	// An inner corner at (40, 50), rounded with a radius of 3, between
	// allowances of 6: the cut line has a plain inner corner.
	pc := shape([]float64{6, 6, 6, 6, 6, 6, 6},
		geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 50), geom.Pt(43, 50), geom.Pt(40, 53), geom.Pt(40, 120), geom.Pt(0, 120))
	h := 3 * (1 - 4.0/3*math.Tan(math.Pi/8))
	pc.Edges[3].Path = geom.Must(geom.NewPath(geom.Curve(geom.Pt(43, 50), geom.Pt(40+h, 50), geom.Pt(40, 50+h), geom.Pt(40, 53))))
	pts := corners(t, pc)
	has(t, pts, 46, 56)
	area, err := pc.CutArea()
	require.NoError(t, err)
	assert.InDelta(t, 112*62+52*70, area, 1e-9)
	paths, err := pc.CutEdges()
	require.NoError(t, err)
	assert.True(t, paths[3].Empty())
	assert.Equal(t, paths[2].End(), paths[4].Start())

	// A slot narrower than twice its allowance is refused by name.
	pc = shape([]float64{6, 6, 6, 6, 6, 6}, geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 80), geom.Pt(54, 80), geom.Pt(46, 80), geom.Pt(0, 80))
	pc.Edges[3].Path = geom.Must(geom.Polyline(geom.Pt(54, 80), geom.Pt(54, 20), geom.Pt(46, 20), geom.Pt(46, 80)))
	_, err = pc.CutLine()
	assert.ErrorContains(t, err, `the allowance of edge "d"`)
}
