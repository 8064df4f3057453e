package render

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
	"truemat/ops/unit"
)

func TestLinesAreThoseOfThePiece(t *testing.T) {
	pc := cup()
	s, err := PieceScene(pc, Options{})
	require.NoError(t, err)
	cut, err := pc.CutLine()
	require.NoError(t, err)

	drawn := ofKind(s, CutLine)
	require.Len(t, drawn, 1)
	assert.Equal(t, cut.String(), drawn[0].Path.String())
	assert.Empty(t, drawn[0].Pen.Dash, "the cut line is solid")
	sewn := ofKind(s, SewLine)
	require.Len(t, sewn, 2, "an edge without allowance has no sew line of its own")
	for i, f := range sewn {
		assert.Equal(t, pc.Edges[i].Path.String(), f.Path.String())
		assert.NotEmpty(t, f.Pen.Dash, "the sew line is dashed")
	}
	assert.Len(t, ofKind(s, InnerLine), 2)
	for _, f := range append(drawn, sewn...) {
		b := figureBox(f)
		assert.True(t, s.Box.Contains(b.Min) && s.Box.Contains(b.Max))
	}
}

func TestNotchesCrossTheCutLine(t *testing.T) {
	pc := cup()
	s, err := PieceScene(pc, Options{})
	require.NoError(t, err)
	cut, _ := pc.CutLine()
	out, err := pc.Outline()
	require.NoError(t, err)

	across, inside := 0, 0
	for _, f := range ofKind(s, NotchMark) {
		a, b := f.Path.Start(), f.Path.End()
		if f.Path.Closed() { // the ring of a mark
			continue
		}
		if pc.Edge("neckline").Path.Nearest(a).Dist < 3 {
			inside++
			for _, p := range []geom.Point{a, b} {
				assert.True(t, out.Contains(p), "a mark on an edge without allowance lies inside")
				assert.GreaterOrEqual(t, cut.Nearest(p).Dist, markGap-1e-9, "and does not touch the edge")
			}
			continue
		}
		across++
		assert.True(t, cut.Contains(a))
		assert.False(t, cut.Contains(b))
		assert.False(t, out.Contains(a), "the stroke ends before the sew line")
		assert.InDelta(t, notchBeyond, cut.Nearest(b).Dist, 0.01)
	}
	assert.Equal(t, 3, across, "one stroke of the single notch, two of the double one")
	assert.Equal(t, 1, inside)
	assert.Len(t, ofKind(s, ApexSign), 3, "a crossed circle")
}

func TestDoubleNotchStandsAroundItsPlace(t *testing.T) {
	pc := cup()
	s, err := shapeOf(pc, geom.Identity())
	require.NoError(t, err)
	wire := pc.Edge("wire").Path
	at := wire.At(wire.Length() / 2)
	assert.InDelta(t, doubleGap, s.notches[1].at.Dist(s.notches[2].at), 0.01)
	assert.InDelta(t, 0, s.notches[1].at.Lerp(s.notches[2].at, 0.5).Dist(at), 0.05)
}

func TestWordsOfATitleBlock(t *testing.T) {
	s, err := PieceScene(cup(), Options{Pattern: "Sample", Size: "75C"})
	require.NoError(t, err)
	all := strings.Join(texts(s), "|")
	for _, want := range []string{"inner cup", "Sample", "size 75C", "cut 1 pair", "6.35 mm (1/4 in)", "wire line", "lace edge", "vertical seam", "grain"} {
		assert.Contains(t, all, want)
	}

	bridge := sample()[0]
	s, err = PieceScene(bridge, Options{Pattern: "Sample", Size: "75C"})
	require.NoError(t, err)
	all = strings.Join(texts(s), "|")
	for _, want := range []string{"cut 1 on the fold", "main", "hem 12 mm"} {
		assert.Contains(t, all, want)
	}
	assert.NotEmpty(t, ofKind(s, FoldSign))

	s, err = PieceScene(sample()[1], Options{})
	require.NoError(t, err)
	big := 0.0
	for _, l := range s.Layers[0].Labels {
		if strings.Contains(l.Text, "ALTERED") {
			big = max(big, l.Height)
		}
	}
	assert.Equal(t, 5.0, big, "the mark is written as tall as asked where it fits")
}

func TestAmounts(t *testing.T) {
	for mm, want := range map[float64]string{
		6.35: "6.35 mm (1/4 in)", 12: "12 mm", 12.7: "12.7 mm (1/2 in)", 3.175: "3.18 mm (1/8 in)", 10: "10 mm", 25.4: "25.4 mm (1 in)",
	} {
		assert.Equal(t, want, amount(mm, unit.Millimetres))
	}
	assert.Equal(t, "0.635 cm (1/4 in)", amount(6.35, unit.Centimetres))
	assert.Equal(t, "1/4 in", amount(6.35, unit.InchFractions))
}

func TestWritingStaysOnThePieceAndApart(t *testing.T) {
	for _, pc := range sample() {
		for _, m := range []geom.Motion{geom.Identity(), geom.Turn(37*geom.Degree, geom.Pt(50, 50)), geom.Turn(math.Pi/2, geom.Pt(0, 0))} {
			l, err := onePiece(pc, m, Options{Pattern: "Sample", Size: "75C"})
			require.NoError(t, err)
			cut, _ := pc.CutLine()
			cut = cut.Transform(m)
			for i, a := range l.Labels {
				for _, c := range a.quad(0) {
					assert.True(t, cut.Contains(c), "%s: %q reaches over the cut line", pc.Name, a.Text)
				}
				for _, b := range l.Labels[:i] {
					assert.False(t, quadsMeet(a.quad(-0.1), b.quad(-0.1)), "%s: %q and %q lie on each other", pc.Name, a.Text, b.Text)
				}
			}
		}
	}
}

// quadsMeet reports whether two turned rectangles have a point in common, by
// the separating axis theorem.
func quadsMeet(a, b [4]geom.Point) bool {
	for _, q := range [2][4]geom.Point{a, b} {
		for _, axis := range []geom.Point{q[1].Sub(q[0]), q[3].Sub(q[0])} {
			lo := [2]float64{math.Inf(1), math.Inf(1)}
			hi := [2]float64{math.Inf(-1), math.Inf(-1)}
			for k, r := range [2][4]geom.Point{a, b} {
				for _, p := range r {
					lo[k], hi[k] = min(lo[k], axis.Dot(p)), max(hi[k], axis.Dot(p))
				}
			}
			if hi[0] < lo[1] || hi[1] < lo[0] {
				return false
			}
		}
	}
	return true
}

func TestFoldPieceDrawnWhole(t *testing.T) {
	bridge := sample()[0]
	half, err := PieceScene(bridge, Options{})
	require.NoError(t, err)
	whole, err := PieceScene(bridge, Options{FoldWhole: true})
	require.NoError(t, err)

	a, b := ofKind(half, CutLine)[0].Path, ofKind(whole, CutLine)[0].Path
	assert.InDelta(t, 2*a.Area(), b.Area(), 1e-6)
	assert.Empty(t, ofKind(whole, FoldSign))
	assert.Len(t, ofKind(whole, FoldLine), 1)
	assert.Equal(t, 2*len(ofKind(half, NotchMark)), len(ofKind(whole, NotchMark)))
	assert.NotContains(t, strings.Join(texts(whole), " "), "on the fold")

	fold := bridge.Fold().Path
	mirror, err := geom.Mirror(fold.Start(), fold.End())
	require.NoError(t, err)
	for s := 0.0; s < b.Length(); s += 3 {
		assert.InDelta(t, 0, b.Nearest(mirror.Apply(b.At(s))).Dist, 1e-6, "the whole piece is symmetric")
	}

	band := sample()[2]
	same, err := PieceScene(band, Options{FoldWhole: true})
	require.NoError(t, err)
	plain, err := PieceScene(band, Options{})
	require.NoError(t, err)
	assert.Equal(t, plain, same, "a piece without a fold stays as it is")
}

func TestMirroredPieceKeepsItsInside(t *testing.T) {
	pc := cup()
	m, err := geom.Mirror(geom.Pt(0, -20), geom.Pt(100, 30))
	require.NoError(t, err)
	pc.Pose = m
	s, err := PatternScene(pattern.Pattern{Pieces: []pattern.Piece{pc}}, Options{})
	require.NoError(t, err)
	cut := ofKind(s, CutLine)[0].Path
	assert.Positive(t, cut.Area(), "counter-clockwise again")
	for _, f := range ofKind(s, NotchMark) {
		if !f.Path.Closed() {
			assert.True(t, cut.Contains(f.Path.Start()), "notches start inside the cut line")
		}
	}
	for _, l := range s.Layers[0].Labels {
		for _, q := range l.quad(0) {
			assert.True(t, cut.Contains(q), "%q is written on the piece", l.Text)
		}
	}
}

func TestGhostLiesBelow(t *testing.T) {
	p := pattern.Pattern{Pieces: sample()[1:2]}
	s, err := PatternScene(p, Options{Ghost: sample()[:2]})
	require.NoError(t, err)
	require.Len(t, s.Layers, 2)
	assert.Equal(t, ghostLayer, s.Layers[0].Name)
	assert.NotEmpty(t, ofKind(s, GhostLine))
	assert.Empty(t, s.Layers[0].Labels)
}

func TestAnyPieceCanBeDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pc := patterntest.Blob(t)
		if _, err := pc.CutLine(); err != nil {
			t.Skip("no cut line")
		}
		s, err := PieceScene(pc, Options{Pattern: "Sample", Size: "75C", FoldWhole: rapid.Bool().Draw(t, "whole")})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range []geom.Point{s.Box.Min, s.Box.Max} {
			if !p.Finite() {
				t.Fatalf("the box is %v", s.Box)
			}
		}
		for _, l := range s.Layers[0].Labels {
			if !l.At.Finite() || !(l.Height > 0) || !s.Box.Contains(l.At) {
				t.Fatalf("label %+v", l)
			}
		}
	})
}

func TestTinyAndHugePiecesEnd(t *testing.T) {
	for _, k := range []float64{1e-6, 1e-3, 0.3, 20, 900} {
		pc := cup()
		for i := range pc.Edges {
			pc.Edges[i].Path = scaled(pc.Edges[i].Path, k, geom.Point{})
			pc.Edges[i].Allowance *= min(k, 1)
		}
		pc.Notches, pc.Inner = nil, nil
		s, err := PieceScene(pc, Options{Pattern: "Sample"})
		require.NoError(t, err, "%g times as large", k)
		assert.False(t, s.Box.Empty())
		_, err = PlanTiles(Print{Sizes: []SizePieces{{"", []pattern.Piece{pc}}}, Paper: A4})
		if k > 100 {
			assert.ErrorContains(t, err, "pages")
		} else {
			assert.NoError(t, err, "%g times as large", k)
		}
	}
}

func TestNestedSizesLieOnEachOther(t *testing.T) {
	small, large := sample(), grown(sample())
	s, err := NestScene([]SizePieces{{"75C", small}, {"75D", large}}, Options{Pattern: "Sample"})
	require.NoError(t, err)
	require.Len(t, s.Layers, 3)
	assert.Equal(t, []string{"size 75C", "size 75D", commonLayer}, []string{s.Layers[0].Name, s.Layers[1].Name, s.Layers[2].Name})
	for i, l := range s.Layers[:2] {
		n := 0
		for _, t := range l.Labels {
			if t.Text == []string{"75C", "75D"}[i] {
				n++
			}
		}
		assert.GreaterOrEqual(t, n, len(small), "every cut line says its size")
	}
	cutA, cutB := s.Layers[0].Figures, s.Layers[1].Figures
	assert.NotEqual(t, dashOf(t, cutA), dashOf(t, cutB), "dashes tell sizes apart")

	nests, err := nestPieces([]SizePieces{{"75C", small}, {"75D", large}}, nil)
	require.NoError(t, err)
	bridge := nests[0]
	fold := func(i int) geom.Path { return bridge.each[i].Fold().Path.Transform(bridge.moves[i]) }
	assert.InDelta(t, 0, fold(0).At(fold(0).Length()/2).Dist(fold(1).At(fold(1).Length()/2)), 1e-9, "fold on fold")

	looks := map[string]bool{}
	for i := range 24 {
		cut, _, _ := nestPens(i)
		looks[fmt.Sprint(cut.Width, cut.Dash)] = true
	}
	assert.Len(t, looks, 24, "without colour two dozen sizes look different")
	assert.Equal(t, []string{"75C", "75C (NOT …"}, []string{shortSize("75C"), shortSize("75C (NOT ALL STEPS DONE)")})

	_, err = NestScene(nil, Options{})
	assert.Error(t, err)
}

func dashOf(t *testing.T, figs []Figure) []float64 {
	for _, f := range figs {
		if f.Kind == CutLine {
			return f.Pen.Dash
		}
	}
	t.Fatal("no cut line")
	return nil
}

// grown returns the pieces with every coordinate a tenth larger.
func grown(pieces []pattern.Piece) []pattern.Piece {
	for i := range pieces {
		for k := range pieces[i].Edges {
			e := &pieces[i].Edges[k]
			e.Path = scaled(e.Path, 1.1, geom.Point{})
		}
	}
	return pieces
}

func TestSizesLieOnACommonSpotOrLineOfHerChoice(t *testing.T) {
	small, large := sample(), grown(sample())
	sizes := []SizePieces{{"75C", small}, {"75D", large}}
	name := small[0].Name
	edge := small[0].Edges[0].Name
	at, err := ParseCommon(name+": "+edge+" start", "")
	require.NoError(t, err)
	line, err := ParseCommon(name+": "+edge+" start", name+": "+edge+" end")
	require.NoError(t, err)
	where := func(on Common, share float64) (a, b geom.Point) {
		nests, err := nestPieces(sizes, []Common{on})
		require.NoError(t, err)
		n := nests[0]
		p := func(i int) geom.Point {
			path := n.each[i].Edge(edge).Path
			return n.moves[i].Apply(path.At(share * path.Length()))
		}
		return p(0), p(1)
	}
	a, b := where(at, 0)
	assert.InDelta(t, 0, a.Dist(b), 1e-9)
	// On a line the starts coincide and the ends lie the same way.
	a, b = where(line, 0)
	assert.InDelta(t, 0, a.Dist(b), 1e-9)
	a1, b1 := where(line, 1)
	assert.InDelta(t, 0, geom.Between(a1.Sub(a), b1.Sub(b)).Degrees(), 1e-9)
	assert.Greater(t, a1.Dist(b1), 1.0, "the larger size goes further")

	for _, c := range []struct {
		on   []Common
		want string
	}{
		{[]Common{at, line}, "two places"},
		{[]Common{{At: pattern.AtEnd("sleeve", "hem", pattern.Start)}}, `no piece "sleeve"`},
		{[]Common{{At: pattern.AtEnd(name, "none", pattern.Start)}}, "size 75C: "},
		{[]Common{{At: at.At, Along: &at.At}}, "same place"},
		{[]Common{{At: at.At, Along: &pattern.Spot{Piece: small[1].Name}}}, "one piece"},
	} {
		_, err := NestScene(sizes, Options{On: c.on})
		assert.ErrorContains(t, err, c.want)
	}
	_, err = ParseCommon("hem", "")
	assert.Error(t, err)
	_, err = ParseCommon(name+": "+edge+" start", "hem")
	assert.Error(t, err)
}
