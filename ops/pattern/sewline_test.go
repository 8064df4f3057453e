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

// cutOf returns the edges of a piece with their stretches of the cut line.
func cutOf(pc *Piece) ([]Edge, error) {
	paths, err := pc.CutEdges()
	if err != nil {
		return nil, err
	}
	edges := append([]Edge(nil), pc.Edges...)
	for i := range edges {
		edges[i].Path = paths[i]
	}
	return edges, nil
}

// apart is the greatest distance between two edges at equal shares of their lengths.
func apart(a, b geom.Path) float64 {
	most := 0.0
	for k := range 33 {
		s := float64(k) / 32
		most = max(most, a.At(s*a.Length()).Dist(b.At(s*b.Length())))
	}
	return most
}

func TestSewLineOfARectangle(t *testing.T) {
	cut := shape([]float64{12, 6, 5, 0}, geom.Pt(0, -12), geom.Pt(106, -12), geom.Pt(106, 55), geom.Pt(0, 55))
	edges, off, err := SewEdges(cut.Edges)
	require.NoError(t, err)
	assert.InDelta(t, 0, off, 1e-9)
	want := shape([]float64{12, 6, 5, 0}, geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 50), geom.Pt(0, 50))
	for i, e := range edges {
		assert.Less(t, apart(want.Edges[i].Path, e.Path), 1e-9)
		assert.True(t, e.Path.IsStraight())
	}
}

func TestSewLineInAnInnerCorner(t *testing.T) {
	want := shape([]float64{10, 10, 4, 6, 10, 10},
		geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 50), geom.Pt(40, 50), geom.Pt(40, 120), geom.Pt(0, 120))
	cut, err := cutOf(want)
	require.NoError(t, err)
	edges, off, err := SewEdges(cut)
	require.NoError(t, err)
	assert.InDelta(t, 0, off, 1e-9)
	for i, e := range edges {
		assert.Less(t, apart(want.Edges[i].Path, e.Path), 1e-9)
	}
}

func TestSewLineOfShapedCorners(t *testing.T) {
	for _, end := range CornerEnds {
		for _, of := range []Neighbour{Before, After} {
			want := leaning(end, of)
			if end == FadesOut {
				want.Edges[0].Corner = Corner{} // one of the two corners is enough
			}
			cut, err := cutOf(want)
			require.NoError(t, err)
			edges, off, err := SewEdges(cut)
			require.NoError(t, err, end)
			slack := 1e-9
			if end == FadesOut { // by its share of the cut line, not of the sew line
				slack = 0.3
			}
			assert.LessOrEqual(t, off, slack, "%s %s", end, of)
			for i, e := range edges {
				assert.LessOrEqual(t, apart(want.Edges[i].Path, e.Path), slack, "%s %s: %s", end, of, e.Name)
			}
		}
	}
}

// hollow is the greatest curvature of a hollow stretch of the sew line in 1/mm.
func hollow(pc *Piece) float64 {
	most := 0.0
	for _, e := range pc.Edges {
		for k := range 65 {
			most = max(most, -e.Path.CurvatureAt(e.Length()*float64(k)/64))
		}
	}
	return most
}

// From the sew line to the cut line and back changes nothing to see.
func TestSewLineRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		w := rapid.Float64Range(0, 12).Draw(t, "allowance")
		for i := range p.Pieces {
			pc := &p.Pieces[i]
			for j := range pc.Edges {
				if pc.Edges[j].Role != Fold {
					pc.Edges[j].Allowance = w
				}
			}
			if hollow(pc)*w > 0.9 {
				continue // the allowance hides how the sew line ran
			}
			cut, err := cutOf(pc)
			if err != nil {
				t.Fatal(err)
			}
			edges, off, err := SewEdges(cut)
			if err != nil {
				t.Fatal(err)
			}
			if off > 0.02 { // at a sharp corner the tip goes many times as far as the sew line
				t.Fatalf("%s: the cut lines are %v apart", pc.Name, off)
			}
			for j, e := range edges {
				if d := apart(pc.Edges[j].Path, e.Path); d > 0.01 {
					t.Fatalf("%s of %s is %v off", e.Name, pc.Name, d)
				}
				if e.Path.End() != edges[pc.Next(j)].Path.Start() {
					t.Fatalf("%s of %s does not end where the next starts", e.Name, pc.Name)
				}
			}
		}
	})
}

func TestTheDistanceTellsOfAWrongAllowance(t *testing.T) {
	// A short edge between two that take all of it.
	cut := shape([]float64{6, 6, 6, 6}, geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 50), geom.Pt(0, 50))
	cut.Edges[0].Corner, cut.Edges[1].Corner = Corner{End: Blunt}, Corner{End: Blunt}
	_, off, err := SewEdges(cut.Edges)
	require.NoError(t, err)
	assert.InDelta(t, 6/math.Sqrt2, off, 1e-6, "the drawn corners are not blunt")
}

func TestSewEdgesRefuses(t *testing.T) {
	cut := shape([]float64{30, 30, 30, 30}, geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 50), geom.Pt(0, 50))
	_, _, err := SewEdges(cut.Edges)
	assert.ErrorContains(t, err, "leave nothing of its sew line")
	_, _, err = SewEdges(cut.Edges[:1])
	assert.ErrorContains(t, err, "at least two")
	cut.Edges[0].Allowance = math.NaN()
	_, _, err = SewEdges(cut.Edges)
	assert.ErrorContains(t, err, "allowance of NaN")
	_, _, err = SewEdges(cut.Edges[1:])
	assert.Error(t, err)
	back := shape([]float64{1, 1, 1}, geom.Pt(0, 0), geom.Pt(0, 50), geom.Pt(100, 0))
	_, _, err = SewEdges(back.Edges)
	assert.ErrorContains(t, err, "clockwise")
}
