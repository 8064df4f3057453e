package geom

import "testing"

// benchPaths are the paths the benchmarks run on: two curves and two straight
// segments, and an outline like a bra piece (curved, hollow and straight edges).
func benchPaths(b *testing.B) map[string]Path {
	return map[string]Path{
		"sample": parse(b, samplePath),
		"piece": parse(b, "M0 0 C4 -38 22 -78 62 -92 C88 -101 112 -86 124 -58 C131 -41 134 -22 134 -2 "+
			"C150 -8 158 -10 166 -12 L172 -108 C140 -118 96 -124 60 -124 L18 -122 C14 -110 6 -84 2 -78 L-6 -4 Z"),
	}
}

func benchEach(b *testing.B, f func(Path)) {
	for name, p := range benchPaths(b) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				f(p)
			}
		})
	}
}

func BenchmarkLength(b *testing.B) {
	benchEach(b, func(p Path) {
		sum := 0.0
		for i := range p.segs {
			sum += p.segs[i].lengthTo(1)
		}
		sinkFloat = sum
	})
}

func BenchmarkAt(b *testing.B) {
	benchEach(b, func(p Path) { sinkPoint = p.At(0.2 * p.Length()) })
}

func BenchmarkNearest(b *testing.B) {
	benchEach(b, func(p Path) { sinkPoint = p.Nearest(Pt(30, 60)).Point })
}

func BenchmarkBounds(b *testing.B) {
	benchEach(b, func(p Path) { sinkPoint = p.Bounds().Max })
}

func BenchmarkArea(b *testing.B) {
	benchEach(b, func(p Path) { sinkFloat = p.Area() })
}

func BenchmarkCentroid(b *testing.B) {
	benchEach(b, func(p Path) { sinkPoint = p.Centroid() })
}

func BenchmarkWinding(b *testing.B) {
	benchEach(b, func(p Path) { sinkFloat = float64(p.Winding(Pt(30, 20))) })
}

func BenchmarkCross(b *testing.B) { // with itself turned by 20°
	for name, p := range benchPaths(b) {
		q := p.Transform(Turn(20*Degree, p.Centroid()))
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				sinkFloat = float64(len(Cross(p, q).Crossings))
			}
		})
	}
}

func BenchmarkOverlap(b *testing.B) { // with itself
	benchEach(b, func(p Path) { sinkFloat = float64(len(Cross(p, p).Overlaps)) })
}

func BenchmarkCrossLine(b *testing.B) {
	benchEach(b, func(p Path) { sinkFloat = float64(len(p.CrossLine(Pt(40, 0), Pt(1, 9)))) })
}

func BenchmarkSelfCrossings(b *testing.B) {
	benchEach(b, func(p Path) { sinkFloat = float64(len(p.SelfCrossings())) })
}

func BenchmarkFlatten(b *testing.B) { // to 0.01 mm
	benchEach(b, func(p Path) { sinkPoint = p.Flatten(0.01)[1] })
}

func BenchmarkInflections(b *testing.B) {
	benchEach(b, func(p Path) { sinkFloat = float64(len(p.Inflections())) })
}

func BenchmarkMaxCurvature(b *testing.B) {
	benchEach(b, func(p Path) { sinkFloat, _ = p.MaxCurvature(0, p.Length()) })
}

func BenchmarkCorners(b *testing.B) {
	benchEach(b, func(p Path) { sinkFloat = float64(len(p.Corners(5 * Degree))) })
}

func BenchmarkSub(b *testing.B) {
	benchEach(b, func(p Path) {
		q, err := p.Sub(0.1*p.Length(), 0.9*p.Length())
		if err != nil {
			b.Fatal(err)
		}
		sinkFloat = q.Length()
	})
}

func BenchmarkTransform(b *testing.B) {
	m := Turn(0.3, Pt(10, 20))
	benchEach(b, func(p Path) { sinkPoint = p.Transform(m).End() })
}

func BenchmarkString(b *testing.B) {
	benchEach(b, func(p Path) { sinkFloat = float64(len(p.String())) })
}

func BenchmarkParsePath(b *testing.B) {
	for name, p := range benchPaths(b) {
		text := p.String()
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				q, err := ParsePath(text)
				if err != nil {
					b.Fatal(err)
				}
				sinkFloat = q.Length()
			}
		})
	}
}

// What benchmarks compute goes here, so that it is not optimised away.
var (
	sinkFloat float64
	sinkPoint Point
)
