package step

import (
	"encoding/json"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

// corners returns a piece with straight edges between the points.
func corners(name string, pts []geom.Point, edges ...string) pattern.Piece {
	pc := pattern.Piece{
		Name:  name,
		Arrow: pattern.Arrow{Kind: pattern.Grain, From: geom.Pt(5, 5), To: geom.Pt(5, 15)},
		Cut:   pattern.Cut{Count: 1, Pair: true},
		Pose:  geom.Identity(),
	}
	for i, e := range edges {
		pc.Edges = append(pc.Edges, pattern.Edge{
			Name: e, Role: pattern.SeamEdge, Allowance: 6.35,
			Path: geom.Must(geom.Polyline(pts[i], pts[(i+1)%len(pts)])),
		})
	}
	return pc
}

// box is a rectangle with the edges hem, side, top and front from its lower
// left corner at the origin.
func box(name string, w, h float64) pattern.Piece {
	pc := corners(name, []geom.Point{geom.Pt(0, 0), geom.Pt(w, 0), geom.Pt(w, h), geom.Pt(0, h)}, "hem", "side", "top", "front")
	pc.Edge("hem").Role = pattern.Hem
	pc.Edge("top").Role = pattern.Neckline
	return pc
}

// twoBoxes are a left box, 100 wide, and a right one, 80 wide, sewn together
// along left.side and right.front, 60 high.
func twoBoxes() pattern.Pattern {
	left, right := box("left", 100, 60), box("right", 80, 60)
	left.Notches = []pattern.Notch{
		{Name: "low", Edge: "hem", Along: pattern.Along{MM: 30}},
		{Name: "mid", Edge: "side", Along: pattern.Along{Share: 0.5}},
	}
	right.Notches = []pattern.Notch{{Name: "mid", Edge: "front", Along: pattern.Along{Share: 0.5}}}
	return pattern.Pattern{
		Pieces: []pattern.Piece{left, right},
		Seams: []pattern.Seam{{
			Name: "join",
			A:    pattern.Side{pattern.Whole("left", "side")},
			B:    pattern.Side{pattern.Whole("right", "front").Backwards()},
		}},
		Lines: []pattern.Line{
			{Name: "hem line", Kind: pattern.LineHem, Parts: []pattern.Part{pattern.Whole("left", "hem"), pattern.Whole("right", "hem")}},
			{Name: "top line", Kind: pattern.LineNeckline, Parts: []pattern.Part{pattern.Whole("right", "top"), pattern.Whole("left", "top")}},
		},
	}
}

// applied applies a step and checks what every step must keep: a valid
// pattern that fits its map, the old one as it was, and the same after a
// round trip through the file.
func applied(t require.TestingT, p pattern.Pattern, s Step) Output {
	before, err := json.Marshal(p)
	require.NoError(t, err)
	figures := Figures{"tape.overlap": 6.35}
	out, err := s.Apply(Input{Pattern: p, Size: "M", Figures: figures})
	require.NoError(t, err)
	require.NoError(t, out.Pattern.Validate())
	after, err := json.Marshal(p)
	require.NoError(t, err)
	require.Equal(t, string(before), string(after), "the pattern before the step must stay as it was")

	written, err := json.Marshal(Entry{ID: "x", Step: s})
	require.NoError(t, err)
	var back Entry
	require.NoError(t, json.Unmarshal(written, &back))
	require.Equal(t, s.Sentence(), back.Step.Sentence())
	again, err := back.Step.Apply(Input{Pattern: p, Size: "M", Figures: figures})
	require.NoError(t, err)
	one, err := json.Marshal(out.Pattern)
	require.NoError(t, err)
	two, err := json.Marshal(again.Pattern)
	require.NoError(t, err)
	require.Equal(t, string(one), string(two), "the step read back must do the same, byte for byte")

	carriesSpots(t, p, out)
	for name, v := range out.Figures {
		require.False(t, math.IsNaN(v) || math.IsInf(v, 0), name)
	}
	return out
}

// carriesSpots requires that every place of the old outline is found again or
// said to be cut away, and stays where it was on edges that did not change.
func carriesSpots(t require.TestingT, p pattern.Pattern, out Output) {
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		for j := range pc.Edges {
			e := &pc.Edges[j]
			_, n := out.Pattern.Edge(pc.Name, e.Name)
			same := n != nil && slices.Equal(e.Path.Segments(), n.Path.Segments())
			for _, share := range []float64{0, 0.1, 0.5, 0.9, 1} {
				s := pattern.Spot{Piece: pc.Name, Edge: e.Name, Along: pattern.Along{Share: share}}
				to, err := out.Map.Spot(p, out.Pattern, s)
				if err != nil {
					require.Contains(t, err.Error(), "cut away")
					require.False(t, same)
					continue
				}
				at, err := out.Pattern.Find(to)
				require.NoError(t, err)
				if was, err := p.Find(s); same {
					require.NoError(t, err)
					require.LessOrEqual(t, was.Point.Dist(at.Point), 1e-9)
				}
			}
		}
	}
}

// refusal returns why a step is refused, after checking that it changed nothing.
func refusal(t require.TestingT, p pattern.Pattern, s Step) string {
	before, err := json.Marshal(p)
	require.NoError(t, err)
	_, why := s.Apply(Input{Pattern: p, Size: "M", Figures: Figures{}})
	require.Error(t, why)
	after, err := json.Marshal(p)
	require.NoError(t, err)
	require.Equal(t, string(before), string(after))
	return why.Error()
}

// sameExcept requires that all edges but those named "piece.edge" have the
// path they had.
func sameExcept(t require.TestingT, before, after pattern.Pattern, changed ...string) {
	may := map[string]bool{}
	for _, c := range changed {
		may[c] = true
	}
	for i := range before.Pieces {
		pc := &before.Pieces[i]
		for j := range pc.Edges {
			e := &pc.Edges[j]
			if may[pc.Name+"."+e.Name] {
				continue
			}
			_, n := after.Edge(pc.Name, e.Name)
			require.NotNil(t, n, "%s of %s", e.Name, pc.Name)
			require.InDelta(t, e.Length(), n.Length(), 1e-9, "%s of %s", e.Name, pc.Name)
			require.LessOrEqual(t, e.Path.Start().Dist(n.Path.Start())+e.Path.End().Dist(n.Path.End()), 1e-9, "%s of %s", e.Name, pc.Name)
		}
	}
}

func lengthOf(t require.TestingT, p pattern.Pattern, piece, edge string) float64 {
	_, e := p.Edge(piece, edge)
	require.NotNil(t, e, "%s of %s", edge, piece)
	return e.Length()
}

func notchAt(t require.TestingT, p pattern.Pattern, piece, notch string) geom.Point {
	at, err := p.Find(pattern.AtNotch(piece, notch))
	require.NoError(t, err)
	return at.Point
}

// renamed gives every piece, edge and notch of a frame a random name, and
// returns how to find the new names.
func renamed(t *rapid.T, p pattern.Pattern) (pattern.Pattern, func(string) string) {
	word := rapid.StringMatching(`[a-zäöß][a-z0-9 -]{0,12}[a-z0-9]`)
	names := map[string]string{}
	taken := map[string]bool{}
	name := func(old string) string {
		if n, ok := names[old]; ok {
			return n
		}
		n := word.Filter(func(s string) bool { return !taken[s] }).Draw(t, "name for "+old)
		names[old], taken[n] = n, true
		return n
	}
	p = p.Clone()
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		pc.Name = name(pc.Name)
		for j := range pc.Edges {
			pc.Edges[j].Name = name(pc.Edges[j].Name)
		}
		for j := range pc.Notches {
			pc.Notches[j].Edge = name(pc.Notches[j].Edge)
			pc.Notches[j].Name = name(pc.Notches[j].Name)
		}
	}
	part := func(parts []pattern.Part) {
		for i := range parts {
			parts[i].Piece, parts[i].Edge = name(parts[i].Piece), name(parts[i].Edge)
		}
	}
	for i := range p.Seams {
		p.Seams[i].Name = name(p.Seams[i].Name)
		part(p.Seams[i].A)
		part(p.Seams[i].B)
	}
	for i := range p.Lines {
		p.Lines[i].Name = name(p.Lines[i].Name)
		part(p.Lines[i].Parts)
	}
	return p, name
}

func frame(t *rapid.T) (pattern.Pattern, func(string) string) {
	return renamed(t, patterntest.Frame(t))
}

func TestCuttingAnOutlineKeepsItsLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pc := patterntest.Blob(t)
		p := pattern.Pattern{Pieces: []pattern.Piece{pc}}
		was, err := pc.Outline()
		require.NoError(t, err)
		o, err := newRedraw(p).piece(pc.Name)
		require.NoError(t, err)
		for range rapid.IntRange(1, 5).Draw(t, "cuts") {
			e := &pc.Edges[rapid.IntRange(0, len(pc.Edges)-1).Draw(t, "edge")]
			s := e.Length() * rapid.Float64Range(0, 1).Draw(t, "share")
			i, err := o.cut(e.Name, s)
			require.NoError(t, err)
			require.LessOrEqual(t, o.runs[i].edge.Path.Start().Dist(e.Path.At(s)), 2*placeSlack)
		}
		sum := 0.0
		for i, r := range o.runs {
			sum += r.edge.Length()
			require.Equal(t, r.edge.Path.End(), o.runs[o.next(i)].edge.Path.Start())
			covered := 0.0
			for _, tr := range r.traces {
				covered += tr.b - tr.a
			}
			require.InDelta(t, r.edge.Length(), covered, 1e-8)
		}
		require.InDelta(t, was.Length(), sum, 1e-8)
	})
}

func TestFeetFallBackToProportion(t *testing.T) {
	// The second stop projects behind the first one: no order to keep.
	old := geom.Must(geom.Polyline(geom.Pt(0, 0), geom.Pt(40, 10), geom.Pt(20, 20), geom.Pt(60, 0)))
	now := geom.Must(geom.Polyline(geom.Pt(0, 0), geom.Pt(60, 0)))
	l := old.Length()
	stops := []float64{math.Hypot(40, 10), math.Hypot(40, 10) + math.Hypot(20, 10)}
	assert.Equal(t, proportion(l, 60), feet(old, now, stops, false))
	assert.Equal(t, proportion(l, 60), feet(old, now, stops[:1], true), "sewn edges keep the proportion")
	k := feet(old, now, stops[:1], false)
	require.Len(t, k, 3)
	assert.InDelta(t, 40, k[1].t, 1e-9)
}
