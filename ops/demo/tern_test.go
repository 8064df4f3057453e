package demo

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/geom"
	"truemat/ops/pattern"
)

// middle is the size whose proportions are stated.
const middleSize = "75C"

func tern(t *testing.T) pattern.Run {
	t.Helper()
	r, err := Tern()
	require.NoError(t, err)
	return r
}

func each(t *testing.T, test func(t *testing.T, p pattern.Pattern)) {
	t.Helper()
	r := tern(t)
	for _, s := range r.Sizes {
		t.Run(s.Label, func(t *testing.T) { test(t, r.Fitted(s)) })
	}
}

func pathOf(t *testing.T, p pattern.Pattern, piece, edge string) geom.Path {
	t.Helper()
	_, e := p.Edge(piece, edge)
	require.NotNil(t, e, "%s of %s", edge, piece)
	return e.Path
}

// bulgeOf returns the greatest distance of a path from the line between its ends.
func bulgeOf(p geom.Path) float64 {
	chord, err := geom.NewLine(p.Start(), p.End())
	if err != nil {
		return math.NaN()
	}
	far := 0.0
	for i := range 2001 {
		far = math.Max(far, math.Abs(chord.Distance(p.At(p.Length()*float64(i)/2000))))
	}
	return far
}

func lowest(p geom.Path) (at geom.Point, s float64) {
	at = p.Start()
	for i := range 4001 {
		d := p.Length() * float64(i) / 4000
		if q := p.At(d); q.Y < at.Y {
			at, s = q, d
		}
	}
	return at, s
}

func TestTernHasTheProportionsOfARealBra(t *testing.T) {
	s, ok := tern(t).Size(middleSize)
	require.True(t, ok)
	p := s.Pattern
	in := func(what string, v, low, high float64) {
		t.Helper()
		t.Logf("%-52s %8.2f  (%g to %g)", what, v, low, high)
		assert.True(t, v >= low && v <= high, "%s is %.2f, not %g to %g", what, v, low, high)
	}

	lay, err := p.LayChain(p.Line("wire line").Parts)
	require.NoError(t, err)
	wire := geom.Must(geom.Join(lay.Paths...))
	bottom, _ := lowest(wire)
	in("wire line along", wire.Length(), 222, 228)
	in("wire line wide", wire.End().X-wire.Start().X, 116, 120)
	in("centre front arm tall", wire.Start().Y-bottom.Y, 78, 82)
	in("underarm arm tall", wire.End().Y-bottom.Y, 90, 94)
	in("bottom from the centre front, share of the width", (bottom.X-wire.Start().X)/(wire.End().X-wire.Start().X), 0.42, 0.49)
	steep := func(a, b geom.Point) float64 { return math.Abs(b.Y-a.Y) / math.Abs(b.X-a.X) }
	assert.Greater(t, steep(wire.Start(), bottom), steep(wire.End(), bottom), "the centre front arm is the steeper")

	bridge := func(edge string) geom.Path { return pathOf(t, p, "bridge", edge) }
	cradle := func(edge string) geom.Path { return pathOf(t, p, "cradle", edge) }
	band := func(edge string) geom.Path { return pathOf(t, p, "band", edge) }
	in("bridge half-width at the top", bridge("wire").End().X-bridge("fold").Start().X, 10, 12)
	in("hem below the bottom of the wire line", bottom.Y-bridge("hem").Start().Y, 27, 30)
	in("bridge seam leaves the wire line at, share", bridge("wire").Length()/wire.Length(), 0.25, 1.0/3)
	in("bridge seam long", bridge("cradle seam").Length(), 42, 50)
	in("side seam beyond the wire line, top", cradle("side seam").End().X-cradle("wire").Start().X, 15, 20)
	in("side seam beyond the wire line, hem", cradle("side seam").Start().X-cradle("wire").Start().X, 15, 20)
	in("hem rises", cradle("hem").End().Y-cradle("hem").Start().Y, 14, 17)
	in("side seam tall", cradle("side seam").Length(), 95, 105)
	in("band long", band("hem").Length(), 160, 170)
	in("closure high", band("closure").Length(), 37.999, 38.001)
	in("band hem off straight", bulgeOf(band("hem")), 0, 4)

	pin, hem := cradle("bridge seam").Start(), cradle("hem").Start()
	level := geom.Line{Point: hem, Dir: geom.Pt(1, 0)}
	turns, err := geom.TurnToLine(pin, cradle("side seam").Start(), level)
	require.NoError(t, err)
	down, ok := geom.FirstTurn(turns, -1)
	require.True(t, ok)
	m := geom.Turn(down, pin)
	in("cradle turns clockwise, degrees", -down.Degrees(), 7.5, 8.5)
	in("overlap at the hem", hem.X-m.Apply(hem).X, 5.5, 6.7)
	in("wire line opens by", m.Apply(wire.End()).Dist(wire.Start())-wire.End().Dist(wire.Start()), 7, 9)

	upper, lower := pathOf(t, p, "upper outer cup", "vertical seam"), pathOf(t, p, "lower outer cup", "vertical seam")
	in("vertical seam bulges, inner cup", bulgeOf(pathOf(t, p, "inner cup", "vertical seam")), 12, 16)
	in("vertical seam bulges, outer cup joined", bulgeOf(geom.Must(geom.Join(upper, lower))), 12, 16)
	in("cross seam bulges, lower outer cup", bulgeOf(pathOf(t, p, "lower outer cup", "cross seam")), 8, 10)
	t.Logf("cross seam bulges, upper outer cup (gentler, so that apex and wire line lie flat) %.2f", bulgeOf(pathOf(t, p, "upper outer cup", "cross seam")))
}

func TestTernRunsOverBandsAndCups(t *testing.T) {
	r := tern(t)
	assert.GreaterOrEqual(t, len(r.Sizes), 8)
	assert.Equal(t, "65C", r.Sizes[0].Label)
	assert.Equal(t, "80E", r.Sizes[len(r.Sizes)-1].Label)
	bands, cups := map[string]bool{}, map[string]bool{}
	for _, s := range r.Sizes {
		assert.Equal(t, s.Label, s.Band+s.Cup)
		bands[s.Band], cups[s.Cup] = true, true
		var band float64
		_, err := fmt.Sscan(s.Band, &band)
		require.NoError(t, err)
		assert.InDelta(t, band*10, s.Pattern.Figures[pattern.FigureUnderbust], 25, "the band is the underbust to the nearest 5 cm")
	}
	assert.Len(t, r.Sizes, len(bands)*len(cups))
}

// Sizes that go up one band and down one cup share the wire.
func TestTernSisterSizesShareTheWire(t *testing.T) {
	r := tern(t)
	wire := func(label string) float64 {
		s, ok := r.Size(label)
		require.True(t, ok)
		return r.Fitted(s).Figures[pattern.FigureWire]
	}
	assert.Equal(t, wire("65E"), wire("70D"))
	assert.Equal(t, wire("70D"), wire("75C"))
	assert.Greater(t, wire("75D"), wire("75C"))
	assert.Greater(t, wire("80C"), wire("75C"))
}

func TestTernSeamsMatch(t *testing.T) {
	each(t, func(t *testing.T, p pattern.Pattern) {
		for _, s := range p.Seams {
			assert.InDelta(t, 0, p.Length(s.A)-p.Length(s.B)-s.Ease, 1e-6, s.Name)
			a, b := p.SideNotches(s.A), p.SideNotches(s.B)
			require.Equal(t, len(a), len(b), s.Name)
			for i := range a {
				assert.Equal(t, a[i].Notch.Name, b[i].Notch.Name, s.Name)
				assert.Equal(t, a[i].Notch.Double, b[i].Notch.Double, a[i].Notch.Name)
				assert.InDelta(t, a[i].At, b[i].At, 1e-6, a[i].Notch.Name)
			}
		}
		for _, name := range []string{"vertical seam", "cross seam", "wire seam"} {
			assert.NotEmpty(t, p.SideNotches(p.Seam(name).A), "curved seam %s has notches", name)
		}
		vertical := p.SideNotches(p.Seam("vertical seam").A)
		require.Len(t, vertical, 2)
		apex := p.PartLength(p.Seam("vertical seam").B[0])
		assert.Less(t, vertical[0].At, apex)
		assert.Greater(t, vertical[1].At, apex)
		assert.NotEqual(t, vertical[0].Notch.Double, vertical[1].Notch.Double)
	})
}

func TestTernWireLineHasNotchesAtItsBottomAndAtTheBridgeSeam(t *testing.T) {
	each(t, func(t *testing.T, p pattern.Pattern) {
		lay, err := p.LayChain(p.Line("wire line").Parts)
		require.NoError(t, err)
		wire := geom.Must(geom.Join(lay.Paths...))
		_, bottom := lowest(wire)
		found := map[string]float64{}
		for _, n := range p.SideNotches(p.Seam("wire seam").B) {
			found[n.Notch.Name] = n.At
		}
		assert.InDelta(t, bottom, found["bottom"], 0.1)
		_, e := p.Edge("bridge", "wire")
		assert.InDelta(t, e.Length(), found["bridge end"], 1e-6)
	})
}

func TestTernLinesRunOn(t *testing.T) {
	each(t, func(t *testing.T, p pattern.Pattern) {
		kinds := map[pattern.LineKind]bool{}
		for _, l := range p.Lines {
			kinds[l.Kind] = true
			lay, err := p.LayChain(l.Parts)
			require.NoError(t, err)
			for _, j := range lay.Junctions {
				assert.NotEmpty(t, j.Seam, l.Name)
				assert.LessOrEqual(t, math.Abs(j.Kink.Degrees()), 3.0, l.Name)
				assert.LessOrEqual(t, j.Gap, 0.3, l.Name)
			}
		}
		assert.Len(t, kinds, 4, "wire line, hem, neckline and underarm")
	})
}

// The cup's edge runs on along the wire where its parts are sewn together.
func TestTernCupEdgeRunsOnAlongTheWire(t *testing.T) {
	each(t, func(t *testing.T, p pattern.Pattern) {
		lay, err := p.LayChain(p.Seam("wire seam").A)
		require.NoError(t, err)
		for _, j := range lay.Junctions {
			assert.LessOrEqual(t, math.Abs(j.Kink.Degrees()), 3.0, "%s to %s", j.Before.Piece, j.After.Piece)
		}
	})
}

func TestTernEdgesAreFairAndBendTheRightWay(t *testing.T) {
	// +1 bulges out, -1 is hollow, all along the edge.
	bends := map[[2]string]float64{
		{"bridge", "wire"}: -1, {"cradle", "wire"}: -1, {"cradle", "hem"}: 1,
		{"band", "top"}: -1, {"inner cup", "vertical seam"}: 1, {"inner cup", "neckline"}: -1,
		{"inner cup", "wire"}: 1, {"lower outer cup", "wire"}: 1, {"upper outer cup", "wire"}: 1,
		{"lower outer cup", "vertical seam"}: 1, {"upper outer cup", "vertical seam"}: 1,
		{"lower outer cup", "cross seam"}: 1, {"upper outer cup", "cross seam"}: 1,
		{"upper outer cup", "underarm"}: -1, {"upper outer cup", "neckline"}: -1,
	}
	each(t, func(t *testing.T, p pattern.Pattern) {
		for key, way := range bends {
			path := pathOf(t, p, key[0], key[1])
			for s := 0.5; s < path.Length(); s += 0.5 {
				assert.GreaterOrEqual(t, way*path.CurvatureAt(s), -1e-5, "%s of %s at %.1f of %.1f mm", key[1], key[0], s, path.Length())
				if t.Failed() {
					break
				}
			}
		}
		for _, pc := range p.Pieces {
			for _, e := range pc.Edges {
				for i := 1; i < e.Path.Len(); i++ {
					kink := geom.Between(e.Path.Seg(i-1).Tangent(1), e.Path.Seg(i).Tangent(0))
					assert.InDelta(t, 0, kink.Degrees(), 0.01, "%s of %s", e.Name, pc.Name)
				}
			}
		}
	})
}

func TestTernPiecesAreWhole(t *testing.T) {
	each(t, func(t *testing.T, p pattern.Pattern) {
		require.NoError(t, p.Validate())
		require.Len(t, p.Pieces, 6)
		for i := range p.Pieces {
			pc := &p.Pieces[i]
			outline, err := pc.Outline()
			require.NoError(t, err)
			assert.Empty(t, outline.SelfCrossings(), pc.Name)
			cut, err := pc.CutLine()
			require.NoError(t, err, pc.Name)
			assert.Empty(t, cut.SelfCrossings(), "cut line of %s", pc.Name)
			assert.Greater(t, cut.Area(), outline.Area())
			for _, e := range pc.Edges {
				assert.Greater(t, e.Length(), 5.0, "%s of %s", e.Name, pc.Name)
				want := map[pattern.Role]float64{pattern.Hem: 12, pattern.Fold: 0}
				if w, ok := want[e.Role]; ok {
					assert.Equal(t, w, e.Allowance)
				} else {
					assert.Equal(t, 6.35, e.Allowance, "%s of %s", e.Name, pc.Name)
				}
			}
			for _, at := range []geom.Point{pc.Arrow.From, pc.Arrow.To} {
				assert.True(t, outline.Contains(at), "the arrow of %s lies on it", pc.Name)
			}
			assert.Equal(t, pattern.Cut{Count: 1, Pair: pc.Name != "bridge", Cloth: pc.Cut.Cloth}, pc.Cut)
			assert.Equal(t, pc.Name == "band", pc.Arrow.Kind == pattern.MostStretch)
		}
	})
}

func TestTernMeetsTheFoldSquare(t *testing.T) {
	each(t, func(t *testing.T, p pattern.Pattern) {
		hem, top := pathOf(t, p, "bridge", "hem"), pathOf(t, p, "bridge", "top")
		assert.InDelta(t, 0, hem.TangentAt(0).Y, 1e-9)
		assert.InDelta(t, 0, top.TangentBefore(top.Length()).Y, 1e-9)
		assert.Zero(t, pathOf(t, p, "bridge", "fold").Start().X)
	})
}

func TestTernLeavesRoomForWireChannellingAndElastic(t *testing.T) {
	each(t, func(t *testing.T, p pattern.Pattern) {
		play := (p.Length(p.Line("wire line").Parts) - p.Figures[pattern.FigureWire]) / 2
		assert.True(t, play >= 5 && play <= 7, "play %g", play)
		wire, hem := pathOf(t, p, "cradle", "wire"), pathOf(t, p, "cradle", "hem")
		for s := 0.0; s <= wire.Length(); s += 1 {
			assert.GreaterOrEqual(t, hem.Nearest(wire.At(s)).Dist, 22.0)
		}
		// The wires of both sides lie beside each other at the centre front.
		assert.GreaterOrEqual(t, 2*pathOf(t, p, "bridge", "wire").End().X, 20.0)
		assert.InDelta(t, 38, pathOf(t, p, "band", "closure").Length(), 1e-9)
	})
}

func TestTernPiecesLieApartOnTheMat(t *testing.T) {
	each(t, func(t *testing.T, p pattern.Pattern) {
		cuts := make([]geom.Path, len(p.Pieces))
		for i := range p.Pieces {
			cut, err := p.Pieces[i].CutLine()
			require.NoError(t, err)
			cuts[i] = cut.Transform(p.Pieces[i].Pose)
		}
		for i, a := range cuts {
			for j, b := range cuts {
				if i == j {
					continue
				}
				name := p.Pieces[i].Name + " and " + p.Pieces[j].Name
				for s := 0.0; s < a.Length(); s += 1 {
					require.False(t, b.Contains(a.At(s)), name)
				}
			}
		}
	})
}

func TestTernGrowsWithTheSize(t *testing.T) {
	r := tern(t)
	area := func(label, piece string) float64 {
		s, ok := r.Size(label)
		require.True(t, ok)
		o, err := s.Pattern.Piece(piece).Outline()
		require.NoError(t, err)
		return o.Area()
	}
	for _, piece := range []string{"bridge", "cradle", "inner cup", "upper outer cup", "lower outer cup"} {
		assert.Less(t, area("65C", piece), area("65D", piece), piece)
		assert.Less(t, area("65D", piece), area("70D", piece), piece)
		assert.Less(t, area("70D", piece), area("80E", piece), piece)
	}
	assert.Less(t, area("65C", "band"), area("80C", "band"))
}

func TestTernIsTheSameEachTime(t *testing.T) {
	assert.Equal(t, tern(t), tern(t))
}
