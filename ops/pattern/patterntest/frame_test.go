package patterntest

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
)

func TestSampleLooksLikeAFrame(t *testing.T) {
	p := Sample()
	require.NoError(t, p.Validate())
	assert.InDelta(t, 235, p.Length(p.Line(WireLine).Parts), 20)
	_, seam := p.Edge(Bridge, CradleSeam)
	assert.InDelta(t, 46, seam.Length(), 8)
}

func TestFramesAreValidAndTheirSeamsMatch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Frame(t)
		if err := p.Validate(); err != nil {
			t.Fatal(err)
		}
		for _, s := range p.Seams {
			if d := p.Length(s.A) - p.Length(s.B); d > 1e-9 || d < -1e-9 {
				t.Fatalf("%s differs by %v", s.Name, d)
			}
			a, b := p.SideNotches(s.A), p.SideNotches(s.B)
			if len(a) != 1 || len(b) != 1 || a[0].Notch.Double != b[0].Notch.Double {
				t.Fatalf("%s has the notches %v and %v", s.Name, a, b)
			}
			if d := a[0].At - b[0].At; d > 1e-9 || d < -1e-9 {
				t.Fatalf("the notches of %s differ by %v", s.Name, d)
			}
		}
		for i := range p.Pieces {
			simple(t, &p.Pieces[i])
		}
	})
}

func TestBlobsAreValid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pc := Blob(t)
		if err := (pattern.Pattern{Pieces: []pattern.Piece{pc}}).Validate(); err != nil {
			t.Fatal(err)
		}
		simple(t, &pc)
	})
}

// simple fails when the outline, taken as a polygon of short sides, crosses itself.
func simple(t *rapid.T, pc *pattern.Piece) {
	var pts []geom.Point
	for _, e := range pc.Edges {
		const steps = 12
		for i := range steps {
			pts = append(pts, e.Path.At(e.Length()*float64(i)/steps))
		}
	}
	n := len(pts)
	for i := range n {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			a, b, c, d := pts[i], pts[i+1], pts[j], pts[(j+1)%n]
			if b.Sub(a).Cross(c.Sub(a))*b.Sub(a).Cross(d.Sub(a)) < -1e-9 && d.Sub(c).Cross(a.Sub(c))*d.Sub(c).Cross(b.Sub(c)) < -1e-9 {
				t.Fatalf("%s crosses itself near %v", pc.Name, a)
			}
		}
	}
}
