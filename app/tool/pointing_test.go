package tool

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

func ternPattern(t require.TestingT) pattern.Pattern {
	run, err := demo.Tern()
	require.NoError(t, err)
	size, ok := run.Size("75C")
	require.True(t, ok)
	return size.Pattern
}

func TestPointTakesCornersBeforeEdgesBeforePieces(t *testing.T) {
	p := ternPattern(t)
	band := p.Piece("band")
	hem := band.Edge("hem")
	at := func(s float64) geom.Point { return band.Pose.Apply(hem.Path.At(s)) }
	for s, want := range map[float64]Kind{2: OnJoint, 60: OnEdge} {
		pt, ok := Point(p, at(s), 3, Ask{Kind: OnAnything})
		require.True(t, ok)
		assert.Equal(t, want, pt.Kind)
		assert.Equal(t, "hem", pt.Edge)
	}
	inside := at(60).Add(geom.Pt(0, 20))
	pt, ok := Point(p, inside, 3, Ask{Kind: OnAnything})
	require.True(t, ok)
	assert.Equal(t, OnPiece, pt.Kind)
	_, ok = Point(p, inside, 3, Ask{Kind: OnSpot})
	assert.False(t, ok)
	_, ok = Point(p, inside, 3, Ask{Kind: OnAnything, Not: "band"})
	assert.False(t, ok)
	_, ok = Point(p, geom.Pt(math.NaN(), 0), 3, Ask{Kind: OnAnything})
	assert.False(t, ok)
}

// Where corners of two pieces lie together, the preferred piece counts, and
// the upper one when there is none.
func TestPointPrefersAndElseTakesTheUpperPiece(t *testing.T) {
	p := ternPattern(t)
	b, err := p.Find(pattern.AtEnd("bridge", "cradle seam", pattern.End))
	require.NoError(t, err)
	c, err := p.Find(pattern.AtEnd("cradle", "bridge seam", pattern.Start))
	require.NoError(t, err)
	cradle := p.Piece("cradle")
	cradle.Pose = cradle.Pose.Then(geom.Shift(b.Mat.Sub(c.Mat)))
	for prefer, want := range map[string]string{"": "cradle", "bridge": "bridge", "cradle": "cradle", "band": "cradle"} {
		pt, ok := Point(p, b.Mat, 2, Ask{Kind: OnJoint, Prefer: prefer})
		require.True(t, ok)
		assert.Equal(t, want, pt.Piece, "preferring %q", prefer)
	}
}

// A spot that was pointed at is found again where it was pointed at, in this
// size, and is there in every other.
func TestSpotsPointedAtLast(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	p := ternPattern(t)
	rapid.Check(t, func(t *rapid.T) {
		pc := rapid.SampledFrom(p.Pieces).Draw(t, "piece")
		e := rapid.SampledFrom(pc.Edges).Draw(t, "edge")
		on := pc.Pose.Apply(e.Path.At(rapid.Float64Range(0, 1).Draw(t, "share") * e.Length()))
		off := geom.Angle(rapid.Float64Range(0, 7).Draw(t, "to")).Unit().Mul(rapid.Float64Range(0, 2).Draw(t, "off"))
		pt, ok := Point(p, on.Add(off), 2.5, Ask{Kind: OnSpot})
		require.True(t, ok)
		require.LessOrEqual(t, pt.Dist, 2.5)
		at, err := p.Find(pt.Spot)
		require.NoError(t, err)
		require.InDelta(t, 0, at.Mat.Dist(pt.At), 1e-9)
		require.InDelta(t, pt.Dist, at.Mat.Dist(on.Add(off)), 1e-9)
		for _, s := range run.Sizes {
			_, err := s.Pattern.Find(pt.Spot)
			require.NoError(t, err)
		}
	})
}

func TestSnapToAGrid(t *testing.T) {
	assert.Equal(t, geom.Pt(20, 33), Snap(geom.Pt(21, 33), 10, 1.5))
	assert.Equal(t, geom.Pt(-10, 30), Snap(geom.Pt(-9, 29), 10, 1.5))
	assert.Equal(t, geom.Pt(21, 33), Snap(geom.Pt(21, 33), 0, 1.5))
}

func TestTheFingerGoesThroughEverything(t *testing.T) {
	p := ternPattern(t)
	var w Finger
	ask := Ask{Kind: OnAnything, Not: "band"}
	for range p.Pieces[1:] {
		_, took, used := w.Key(p, Key{Name: Next}, ask)
		require.True(t, used)
		require.False(t, took)
		at, ok := w.At(p)
		require.True(t, ok)
		require.NotEqual(t, "band", at.Piece)
	}
	first, _ := w.At(p)
	got, took, _ := w.Key(p, Key{Name: Choose}, ask)
	require.True(t, took)
	assert.Equal(t, first, got)
	seen := map[Kind]int{}
	pc := p.Piece(got.Piece)
	n := 2*len(pc.Edges) + len(pc.Notches)
	for range n {
		w.Key(p, Key{Name: Previous}, ask)
		at, ok := w.At(p)
		require.True(t, ok)
		require.Equal(t, pc.Name, at.Piece)
		seen[at.Kind]++
	}
	assert.Equal(t, map[Kind]int{OnEdge: len(pc.Edges), OnJoint: len(pc.Edges), OnNotch: len(pc.Notches)}, seen)

	// A walk to what is no more is left.
	gone := p.Clone()
	gone.Pieces = gone.Pieces[:0]
	_, ok := w.At(gone)
	assert.False(t, ok)
	_, _, used := w.Key(gone, Key{Name: Next}, ask)
	assert.False(t, used)
	assert.False(t, w.Reset())
}

func TestTypedAngles(t *testing.T) {
	for text, want := range map[string]float64{"8": 8, "-7.5°": -7.5, " 7,25 deg": 7.25, "−3 degrees": -3} {
		got, err := typedAngle(text)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
	for _, text := range []string{"", "NaN", "Inf", "400", "eight"} {
		_, err := typedAngle(text)
		assert.Error(t, err, text)
	}
	assert.Equal(t, "-7.88°", writtenAngle(-7.8812))
	assert.Equal(t, "0°", writtenAngle(-0.001))
}
