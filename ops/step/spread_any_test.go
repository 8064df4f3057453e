package step

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

// Opening by x and closing by x gives the piece back, whichever part stays.
func TestSpreadAndCloseGiveTheFrameBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		between := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		hem, wire := p.Piece("cradle").Edge("hem").Length(), p.Piece("cradle").Edge("wire").Length()
		a := between("first", 0.2, 0.45) * hem
		b := a + between("apart", 0.1, 0.3)*hem
		v := between("hinge", 0.7, 0.9) * wire
		w := v - between("hinges apart", 0, 0.2)*wire
		s := &Spread{Piece: "cradle", Slashes: []Slash{{From: on("hem", a), Hinge: hingeOn("wire", v)}, {From: on("hem", b), Hinge: hingeOn("wire", w)}}}
		x := []float64{between("amount", 0.5, 15), between("another", 0.5, 15)}
		s.Slashes[0].Amount, s.Slashes[1].Amount = num(x[0]), num(x[1])
		if rapid.Bool().Draw(t, "the other part stays") {
			h := pattern.AtEnd("cradle", "top", pattern.Start)
			s.Hold = &h
		}
		if _, err := s.Apply(Input{Pattern: p}); err != nil {
			require.Contains(t, err.Error(), "runs out of", "only a slash that leaves the hollow piece is refused")
			return
		}
		out := applied(t, p, s)
		sameLengths(t, p, out.Pattern, "cradle", "hem")
		require.InDelta(t, hem+x[0]+x[1], lengthOf(t, out.Pattern, "cradle", "hem"), 1e-9)
		back := &Spread{Piece: "cradle", Hold: s.Hold, Slashes: []Slash{s.Slashes[0], s.Slashes[1]}}
		back.Slashes[1].From = on("hem", b+x[0])
		back.Slashes[0].Amount, back.Slashes[1].Amount = num(-x[0]), num(-x[1])
		again := applied(t, out.Pattern, back)
		alike(t, p.Piece("cradle"), again.Pattern.Piece("cradle"))
		for _, n := range p.Piece("cradle").Notches {
			require.InDelta(t, 0, notchAt(t, p, "cradle", n.Name).Dist(notchAt(t, again.Pattern, "cradle", n.Name)), 1e-6)
		}
		require.Equal(t, len(p.Seams), len(again.Pattern.Seams))
		for _, l := range again.Pattern.Lines {
			require.InDelta(t, p.Length(p.Line(l.Name).Parts), again.Pattern.Length(l.Parts), 1e-6)
		}
	})
}

// On any shape a slash across turns what lies beyond it rigidly.
func TestSpreadAnyShape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pc := patterntest.Blob(t)
		i := rapid.IntRange(0, len(pc.Edges)-1).Draw(t, "slashed")
		j := rapid.IntRange(0, len(pc.Edges)-1).Draw(t, "hinged")
		share := func(edge int, what string) pattern.Spot {
			return pattern.Spot{Edge: pc.Edges[edge].Name, Along: pattern.Along{Share: rapid.SampledFrom([]float64{0, 0.2, 0.5, 0.8, 1}).Draw(t, what)}}
		}
		from, to := share(i, "from"), share(j, "to")
		s := &Spread{Piece: pc.Name, Slashes: []Slash{{From: from}}, Hinge: &Hinge{Spot: &to}, Amount: num(rapid.Float64Range(-20, 25).Draw(t, "amount"))}
		if rapid.Bool().Draw(t, "fair") {
			s.Fair = num(rapid.Float64Range(5, 30).Draw(t, "reach"))
		}
		out, ok := tryOn(t, pc, s)
		if !ok {
			return
		}
		is := out.Pattern.Piece(pc.Name)
		require.Len(t, is.Edges, len(pc.Edges))
		for k := range pc.Edges {
			if k != i {
				require.InDelta(t, pc.Edges[k].Length(), is.Edge(pc.Edges[k].Name).Length(), 1e-9)
			}
		}
	})
}

// On any shape, too, opening by x and closing by x gives the piece back, with
// its notches, whichever edge the hinge lies on.
func TestSpreadAndCloseGiveAnyShapeBack(t *testing.T) {
	opened := 0
	rapid.Check(t, func(t *rapid.T) {
		pc := patterntest.Blob(t)
		i := rapid.IntRange(0, len(pc.Edges)-1).Draw(t, "slashed")
		j := (i + rapid.IntRange(1, len(pc.Edges)-1).Draw(t, "hinged")) % len(pc.Edges)
		to := pattern.Spot{Edge: pc.Edges[j].Name, Along: pattern.Along{Share: rapid.Float64Range(0, 1).Draw(t, "hinge")}}
		from := on(pc.Edges[i].Name, rapid.Float64Range(0.1, 0.9).Draw(t, "from")*pc.Edges[i].Length())
		x := rapid.Float64Range(0.1, 20).Draw(t, "amount")
		out, ok := tryOn(t, pc, &Spread{Piece: pc.Name, Slashes: []Slash{{From: from}}, Hinge: &Hinge{Spot: &to}, Amount: num(x)})
		if !ok {
			return
		}
		opened++
		require.InDelta(t, x, out.Figures["opened"], 1e-9)
		require.InDelta(t, pc.Edges[i].Length()+x, out.Figures["length"], 1e-9)
		again := applied(t, out.Pattern, &Spread{Piece: pc.Name, Slashes: []Slash{{From: from}}, Hinge: &Hinge{Spot: &to}, Amount: num(-x)})
		back := again.Pattern.Piece(pc.Name)
		alike(t, &pc, back)
		require.Len(t, back.Notches, len(pc.Notches))
		for k, n := range pc.Notches {
			require.InDelta(t, n.At(pc.Edge(n.Edge).Length()), back.Notches[k].At(back.Edge(n.Edge).Length()), 1e-6)
		}
	})
	require.Greater(t, opened, 20, "most slashes can be opened")
}

// Fullness moves about any apex of any shape: each edge is turned by the angle
// or not at all, and the area grows by the triangle opened, half r²·sin θ, less
// the paper between the slash that closes and the line turned by θ.
func TestFullnessMovesAboutAnyApex(t *testing.T) {
	moved := 0
	rapid.Check(t, func(t *rapid.T) {
		pc := patterntest.Blob(t)
		i := rapid.IntRange(0, len(pc.Edges)-1).Draw(t, "opens")
		j := (i + rapid.IntRange(1, len(pc.Edges)-1).Draw(t, "closes")) % len(pc.Edges)
		a, b := &pc.Edges[i], &pc.Edges[j]
		apex := geom.Pt(rapid.Float64Range(-25, 25).Draw(t, "x"), rapid.Float64Range(-25, 25).Draw(t, "y"))
		way := a.Path.End().Sub(a.Path.Start())
		v := apex.Sub(a.Path.Start())
		from, to := pattern.AtEnd("", a.Name, pattern.Start), pattern.AtEnd("", a.Name, pattern.End)
		at := on(b.Name, rapid.Float64Range(0.1, 0.7).Draw(t, "at")*b.Length())
		open := on(a.Name, rapid.Float64Range(0.1, 0.9).Draw(t, "from")*a.Length())
		degrees := rapid.Float64Range(0.5, 15).Draw(t, "degrees")
		out, ok := tryOn(t, pc, &Spread{Piece: pc.Name, Slashes: []Slash{{From: open}}, Degrees: num(degrees), Close: &Closing{At: &at},
			Hinge: &Hinge{From: &from, To: &to, Along: v.Dot(way) / way.Dot(way), Off: way.Cross(v) / way.Dot(way)}})
		if !ok {
			return
		}
		moved++
		is := out.Pattern.Piece(pc.Name)
		theta := degrees * math.Pi / 180
		for k := range pc.Edges {
			if k == i || k == j {
				continue
			}
			was, now := pc.Edges[k].Path, is.Edge(pc.Edges[k].Name).Path
			require.InDelta(t, was.Length(), now.Length(), 1e-9)
			turn := math.Abs(float64(geom.Between(was.TangentAt(0), now.TangentAt(0))))
			require.InDelta(t, 0, math.Min(turn, math.Abs(turn-theta)), 1e-9)
		}
		r := apex.Dist(a.Path.At(open.MM))
		require.InDelta(t, 2*r*math.Sin(theta/2), out.Figures["opened"], 1e-9)
		second := geom.Turn(geom.Angle(theta), apex).Apply(b.Path.At(at.MM)).Sub(apex)
		folded := math.Inf(1)
		for _, x := range b.Path.CrossLine(apex, second) {
			if x.T > 0 && x.S > at.MM {
				part, err := b.Path.Sub(at.MM, x.S)
				require.NoError(t, err)
				loop, err := geom.NewClosed(append(part.Segments(), geom.Straight(part.End(), apex), geom.Straight(apex, part.Start()))...)
				require.NoError(t, err)
				folded = math.Min(folded, loop.Area())
			}
		}
		require.InDelta(t, 0.5*r*r*math.Sin(theta)-folded, out.Figures["area_change"], 1e-6)
	})
	require.Greater(t, moved, 20, "about most places fullness can be moved")
}
