package tool

import (
	"math"
	"slices"
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
		pt, ok := Point(p, on.Add(off), 2.5, Ask{Kind: OnSpot &^ OnCrossing})
		require.True(t, ok)
		require.LessOrEqual(t, pt.Dist, 2.5)
		at, err := p.Find(pt.Spot)
		require.NoError(t, err)
		require.InDelta(t, 0, at.Mat.Dist(pt.At), 1e-9)
		if far := at.Mat.Dist(on.Add(off)); far <= 2.5 {
			require.InDelta(t, pt.Dist, far, 1e-9)
		} else { // by its stroke, which runs out to the cut line
			require.Equal(t, OnNotch, pt.Kind)
			require.LessOrEqual(t, fromStroke(p.Piece(pt.Piece), pt, on.Add(off)), 2.5)
		}
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

// Where pieces can be meant, a press well inside one takes it, within 5 of 8 of
// the reach of an edge the edge, at a corner or notch these; narrow pieces and
// short edges keep their middle.
func TestPressWellInsideAPieceTakesThePiece(t *testing.T) {
	p := ternPattern(t)
	const reach = 4.0
	kind := func(at geom.Point) Kind {
		pt, _ := Point(p, at, reach, Ask{Kind: OnAnything})
		return pt.Kind
	}
	band := p.Piece("band")
	hem := band.Edge("hem")
	mid := hem.Length() / 2
	in := band.Pose.Vector(hem.Path.TangentAt(mid).Perp())
	on := band.Pose.Apply(hem.Path.At(mid))
	for off, want := range map[float64]Kind{
		0: OnEdge, 2.4: OnEdge, 2.6: OnPiece, 10: OnPiece, -2.4: OnEdge,
		-hem.Allowance: OnEdge, -hem.Allowance / 2: OnPiece, -hem.Allowance - 2.4: OnEdge, -hem.Allowance - 2.6: 0,
	} {
		assert.Equal(t, want, kind(on.Add(in.Mul(off))), "%g mm inside the hem", off)
	}
	start := band.Pose.Apply(hem.Path.Start())
	assert.Equal(t, OnJoint, kind(start.Add(in.Mul(3.9))))

	// The top of the bridge is some 11 mm long: its middle is its own, and the
	// bridge can be taken though the reach is half its width.
	bridge := p.Piece("bridge")
	top := bridge.Edge("top")
	require.Less(t, top.Length(), 13.0)
	pt, ok := Point(p, bridge.Pose.Apply(top.Path.At(top.Length()/2)), 8, Ask{Kind: OnAnything})
	require.True(t, ok)
	assert.Equal(t, "top", pt.Edge)
	assert.Equal(t, OnEdge, pt.Kind)
	o, err := bridge.Outline()
	require.NoError(t, err)
	pt, ok = Point(p, bridge.Pose.Apply(o.Centroid()), 40, Ask{Kind: OnAnything})
	require.True(t, ok)
	assert.Equal(t, OnPiece, pt.Kind)
}

// What lies beneath another piece does not show and is not taken.
func TestEdgesBeneathAPieceAreNotTaken(t *testing.T) {
	p := ternPattern(t)
	band, frame := p.Piece("band"), p.Piece("cradle")
	at := frame.Pose.Apply(frame.Edge("hem").Path.At(40))
	o, err := band.Outline()
	require.NoError(t, err)
	band.Pose = band.Pose.Then(geom.Shift(at.Sub(band.Pose.Apply(o.Centroid()))))
	moved := *band
	p.Pieces = slices.DeleteFunc(p.Pieces, func(pc pattern.Piece) bool { return pc.Name == "band" })
	p.Pieces = append(p.Pieces, moved) // on top
	pt, ok := Point(p, at, 3, Ask{Kind: OnAnything})
	require.True(t, ok)
	assert.Equal(t, "band", pt.Piece)
	assert.Equal(t, OnPiece, pt.Kind)
	pt, ok = Point(p, at, 3, Ask{Kind: OnAnything, Prefer: "cradle"})
	require.True(t, ok)
	assert.Equal(t, "hem", pt.Edge, "what is selected can be taken all the same")
	assert.Equal(t, "cradle", pt.Piece)
}

// bandBelowCradle is the Tern with the band laid so that the cradle's side seam
// runs on over it.
func bandBelowCradle(t require.TestingT) pattern.Pattern {
	p := ternPattern(t)
	band, seam := p.Piece("band"), p.Piece("cradle").Edge("side seam")
	from := p.Piece("cradle").Pose.Apply(seam.Path.Start())
	if end := p.Piece("cradle").Pose.Apply(seam.Path.End()); end.Y < from.Y {
		from = end
	}
	o, err := band.Outline()
	require.NoError(t, err)
	band.Pose = band.Pose.Then(geom.Shift(from.Sub(geom.Pt(0, 40)).Sub(band.Pose.Apply(o.Bounds().Center()))))
	return p
}

// An edge crosses the line on which a straight edge runs on: the spot keeps to
// that line, and to the joint of both when the piece is altered.
func TestCrossingsOfEdgesWithStraightEdgesThatRunOn(t *testing.T) {
	p := bandBelowCradle(t)
	n := 0
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		for j := range pc.Edges {
			for _, x := range crossings(p, pc, &pc.Edges[j]) {
				n++
				got, err := p.Find(x.Spot)
				require.NoError(t, err)
				require.InDelta(t, 0, got.Mat.Dist(x.At), 1e-6)
				line, err := p.FindDatum(*x.Spot.Crosses)
				require.NoError(t, err)
				require.InDelta(t, 0, line.Dir.Unit().Cross(got.Mat.Sub(line.Point)), 1e-6)
				pt, ok := Point(p, x.At.Add(geom.Pt(0.3, -0.2)), 1, Ask{Kind: OnSpot, Only: pc.Name})
				require.True(t, ok)
				require.Contains(t, []Kind{OnCrossing, OnNotch, OnJoint}, pt.Kind)
			}
		}
	}
	require.GreaterOrEqual(t, n, 2)
}

func TestInnerLinesArePointedAtAndReachedByKeys(t *testing.T) {
	p := ternPattern(t)
	pc := p.Piece("band")
	o, err := pc.Outline()
	require.NoError(t, err)
	c := o.Centroid()
	pc.Inner = append(pc.Inner, pattern.Inner{Name: "yoke", Kind: pattern.Drawn, Path: geom.Must(geom.Polyline(c.Sub(geom.Pt(20, 0)), c.Add(geom.Pt(20, 0))))})
	at := pc.Pose.Apply(c.Add(geom.Pt(3, 1)))
	pt, ok := Point(p, at, 3, Ask{Kind: OnAnything})
	require.True(t, ok)
	assert.Equal(t, Selection{Piece: "band", Inner: "yoke"}, pt.Selection())
	assert.InDelta(t, 23, pt.S, 1e-9)
	assert.Equal(t, "line yoke in band", pt.label(p))
	pt, _ = Point(p, pc.Pose.Apply(c.Add(geom.Pt(3, 2.5))), 3, Ask{Kind: OnAnything})
	assert.Equal(t, OnPiece, pt.Kind)
	_, ok = Point(p, at, 3, Ask{Kind: OnSpot})
	assert.False(t, ok, "no spot lies on it")

	f := Finger{at: Pointing{Kind: OnPiece, Piece: "band"}, inside: true}
	f.Key(p, Key{Name: Previous}, Ask{Kind: OnAnything})
	got, took, _ := f.Key(p, Key{Name: Choose}, Ask{Kind: OnAnything})
	require.True(t, took)
	assert.Equal(t, "yoke", got.Inner)
	p = bandBelowCradle(t)
	f = Finger{at: Pointing{Kind: OnPiece, Piece: "band"}, inside: true}
	f.Key(p, Key{Name: Previous}, Ask{Kind: OnSpot})
	got, took, _ = f.Key(p, Key{Name: Choose}, Ask{Kind: OnSpot})
	require.True(t, took)
	assert.Equal(t, OnCrossing, got.Kind)
	assert.Contains(t, got.label(p), "crosses it")
}

// A piece is taken from a little beside any of its edges, whatever their
// allowance, and the one whose paper is pressed is taken before one beside it.
func TestAPieceIsTakenAlikeFromBesideEveryEdge(t *testing.T) {
	p := ternPattern(t)
	const reach = 4.0
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		for _, e := range pc.Edges {
			out := pc.Pose.Vector(e.Path.TangentAt(e.Length() / 2).Perp().Mul(-1)).Unit()
			rim := pc.Pose.Apply(e.Path.At(e.Length() / 2)).Add(out.Mul(e.Allowance))
			ask := Ask{Kind: OnPiece, Only: pc.Name}
			_, ok := Point(p, rim.Add(out.Mul(0.6*reach)), reach, ask)
			require.True(t, ok, "%s of %s", e.Name, pc.Name)
			pt, ok := Point(p, rim.Sub(out.Mul(0.2)), reach, Ask{Kind: OnPiece, Prefer: p.Pieces[(i+1)%len(p.Pieces)].Name})
			require.True(t, ok)
			require.Equal(t, pc.Name, pt.Piece)
		}
	}
}
