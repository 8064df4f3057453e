package pattern_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	. "truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

// The cut line of a polygon whose allowances run on is the polygon of its
// sides' lines, each moved out and crossed with its neighbours' (worked out
// here by Cramer's rule, with nothing of the code under test).
func TestCutLineOfAPolygonIsThatOfItsLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 7).Draw(t, "sides")
		pts := make([]geom.Point, n)
		widths := make([]float64, n)
		for i := range pts {
			r := rapid.Float64Range(70, 140).Draw(t, "radius")
			at := (float64(i) + rapid.Float64Range(-0.2, 0.2).Draw(t, "angle")) / float64(n)
			pts[i] = geom.Angle(2 * math.Pi * at).Unit().Mul(r)
			widths[i] = rapid.Float64Range(4, 8).Draw(t, "width")
		}
		pc := shape(widths, pts...)
		// a·x + b·y = c is the line of each side, moved out.
		type line struct{ a, b, c float64 }
		lines := make([]line, n)
		for i, p := range pts {
			q := pts[(i+1)%n]
			l := math.Hypot(q.X-p.X, q.Y-p.Y)
			a, b := (q.Y-p.Y)/l, -(q.X-p.X)/l
			lines[i] = line{a, b, a*p.X + b*p.Y + widths[i]}
		}
		want := 0.0
		corners := make([]geom.Point, n)
		for i, m := range lines {
			if turn := math.Abs(pc.JointTurn(i).Degrees()); turn < 50 || turn > 140 {
				t.Skip("a corner that does not run on")
			}
			k := lines[(i+n-1)%n]
			det := k.a*m.b - m.a*k.b
			corners[i] = geom.Pt((k.c*m.b-m.c*k.b)/det, (k.a*m.c-m.a*k.c)/det)
		}
		for i, p := range corners {
			q := corners[(i+1)%n]
			want += (p.X*q.Y - q.X*p.Y) / 2
		}
		got, err := pc.CutArea()
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(got-want) > 1e-6 {
			t.Fatalf("cut area %v, should be %v", got, want)
		}
	})
}

// Whatever is drawn, there is a line or an error, soon and without NaN.
func TestNoDrawingUpsetsCutAndSewLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 7).Draw(t, "edges")
		at := func(name string) geom.Point {
			coordinate := rapid.OneOf(rapid.Float64Range(-100, 100), rapid.SampledFrom([]float64{-50, 0, 1e-7, 50}))
			return geom.Pt(coordinate.Draw(t, name+" x"), coordinate.Draw(t, name+" y"))
		}
		joints := make([]geom.Point, n)
		for i := range joints {
			joints[i] = at("joint")
		}
		pc := Piece{Name: "wild"}
		for i, a := range joints {
			b := joints[(i+1)%n]
			c := geom.Straight(a, b)
			if rapid.Bool().Draw(t, "curved") {
				c = geom.Curve(a, at("handle"), at("handle"), b)
			}
			path, err := geom.NewPath(c)
			if err != nil {
				t.Skip("an edge without length")
			}
			e := Edge{Name: string(rune('a' + i)), Role: SeamEdge, Path: path, Allowance: rapid.SampledFrom([]float64{0, 0.1, 6.35, 12, 200}).Draw(t, "allowance")}
			e.Corner = Corner{End: rapid.SampledFrom(CornerEnds).Draw(t, "end"), Of: rapid.SampledFrom([]Neighbour{Before, After}).Draw(t, "of")}
			pc.Edges = append(pc.Edges, e)
		}
		if cut, err := pc.CutLine(); err == nil {
			if !cut.Closed() || math.IsNaN(cut.Area()) || math.IsNaN(cut.Length()) {
				t.Fatalf("area %v, length %v", cut.Area(), cut.Length())
			}
			if _, err := pc.CutEdges(); err != nil {
				t.Fatal(err)
			}
		}
		if edges, off, err := SewEdges(pc.Edges); err == nil {
			if math.IsNaN(off) || len(edges) != n {
				t.Fatalf("%d edges, %v apart", len(edges), off)
			}
			for i, e := range edges {
				if e.Path.End() != edges[(i+1)%n].Path.Start() {
					t.Fatalf("edge %d ends at %v, the next starts at %v", i, e.Path.End(), edges[(i+1)%n].Path.Start())
				}
			}
		}
	})
}

func BenchmarkCutLine(b *testing.B) {
	p := patterntest.Sample()
	pc := p.Piece(patterntest.Cradle)
	for b.Loop() {
		_, err := pc.CutLine()
		require.NoError(b, err)
	}
}
