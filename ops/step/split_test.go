package step

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

// boxSplit splits the left box by an upright line 60 from its front.
func boxSplit() *Split {
	return &Split{
		Piece: "left", Right: "flank", Name: "dividing seam",
		From:    pattern.Spot{Edge: "top", Along: pattern.Along{From: pattern.End, MM: 60}},
		To:      pattern.Spot{Edge: "hem", Along: pattern.Along{MM: 60}},
		Notches: []float64{0.25},
	}
}

func TestSplitABox(t *testing.T) {
	p := twoBoxes()
	left := p.Piece("left")
	left.Inner = []pattern.Inner{
		{Name: "across", Kind: pattern.Drawn, Path: geom.Must(geom.Polyline(geom.Pt(50, 10), geom.Pt(90, 10)))},
		{Name: "wave", Kind: pattern.Drawn, Path: geom.Must(geom.Polyline(geom.Pt(55, 20), geom.Pt(65, 25), geom.Pt(55, 30), geom.Pt(65, 35)))},
		{Name: "front", Kind: pattern.Drawn, Path: geom.Must(geom.Polyline(geom.Pt(10, 10), geom.Pt(20, 20)))},
	}
	left.Marks = []pattern.Mark{{Text: "HI", At: geom.Pt(80, 30), Height: 5}}
	s := boxSplit()
	s.Left, s.Right = "", "front part" // the way leads down: its right is the front
	out := applied(t, p, s)
	l, r := out.Pattern.Piece("left"), out.Pattern.Piece("front part")
	require.NotNil(t, l)
	require.NotNil(t, r)
	assert.Equal(t, []string{"left", "front part", "right"}, []string{out.Pattern.Pieces[0].Name, out.Pattern.Pieces[1].Name, out.Pattern.Pieces[2].Name})
	assert.InDelta(t, 40*60, l.Area(), 1e-9)
	assert.InDelta(t, 60*60, r.Area(), 1e-9)
	assert.InDelta(t, 60, out.Figures["length"], 1e-9)
	assert.InDelta(t, 2400, out.Figures["area_left"], 1e-9)
	assert.InDelta(t, 3600, out.Figures["area_right"], 1e-9)

	seam := out.Pattern.Seam("dividing seam")
	require.NotNil(t, seam)
	assert.InDelta(t, 0, seamDifference(out.Pattern, seam), 1e-12)
	for _, pc := range []*pattern.Piece{l, r} {
		e := pc.Edge("dividing seam")
		assert.Equal(t, pattern.SeamEdge, e.Role)
		assert.InDelta(t, 6.35, e.Allowance, 1e-12)
		assert.Equal(t, geom.Pt(60, 45), notchAt(t, out.Pattern, pc.Name, "dividing seam"), "a quarter of the way down")
		assert.Equal(t, p.Piece("left").Cut, pc.Cut)
		assert.Equal(t, p.Piece("left").Pose, pc.Pose)
		o := geom.Must(pc.Outline())
		assert.True(t, o.Contains(pc.Arrow.From) && o.Contains(pc.Arrow.To))
		assert.InDelta(t, 0, pc.Arrow.To.Sub(pc.Arrow.From).X, 1e-9)
	}
	assert.Equal(t, p.Piece("left").Arrow, r.Arrow, "the arrow lies on the front and stays")
	assert.Equal(t, []pattern.Part{pattern.Whole("front part", "hem"), pattern.Whole("left", "hem"), pattern.Whole("right", "hem")}, out.Pattern.Line("hem line").Parts)
	assert.Equal(t, p.Seam("join"), out.Pattern.Seam("join"))

	names := func(pc *pattern.Piece) (n []string) {
		for _, in := range pc.Inner {
			n = append(n, in.Name)
		}
		return n
	}
	assert.Equal(t, []string{"across", "wave", "wave part 2", "front"}, names(r))
	assert.Equal(t, []string{"across", "wave", "wave part 2"}, names(l))
	assert.InDelta(t, 10, r.Inner[0].Path.Length(), 1e-9)
	assert.InDelta(t, 30, l.Inner[0].Path.Length(), 1e-9)
	assert.Empty(t, r.Marks)
	assert.Len(t, l.Marks, 1)
	all := strings.Join(out.Notes, "\n")
	for _, word := range []string{`"across" is divided between left and front part`, `Line "hem line" and line "top line" now run over both left and front part`, "The arrow of left is drawn anew"} {
		assert.Contains(t, all, word)
	}
	assert.NotNil(t, r.Notch("low"))
	assert.NotNil(t, l.Notch("mid"))
	assert.Nil(t, l.Notch("low"))
}

func TestSplitASewnEdgeRunsItsSeamOverBothParts(t *testing.T) {
	p := twoBoxes()
	// Across: front and side are split, the side half way between its notches.
	s := &Split{Piece: "left", Left: "upper", Right: "lower", Name: "waist",
		From:    pattern.Spot{Edge: "front", Along: pattern.Along{Share: 0.5}},
		To:      pattern.Spot{Edge: "side", Along: pattern.Along{MM: 40}},
		Notches: []float64{1.0 / 3, 2.0 / 3}, Curve: &Curve{From: lean(25, 0), To: lean(-25, 0)}, Allowance: exactly(10),
	}
	out := applied(t, p, s)
	assert.Nil(t, out.Pattern.Piece("left"))
	assert.Equal(t, pattern.Side{pattern.Whole("lower", "side"), pattern.Whole("upper", "side")}, out.Pattern.Seam("join").A)
	assert.InDelta(t, 60, out.Pattern.Length(out.Pattern.Seam("join").A), 1e-9)
	assert.Equal(t, 10.0, out.Pattern.Piece("upper").Edge("waist").Allowance)
	for _, n := range []string{"waist 1", "waist 2"} {
		assert.LessOrEqual(t, notchAt(t, out.Pattern, "upper", n).Dist(notchAt(t, out.Pattern, "lower", n)), 1e-9)
	}
	assert.NotNil(t, out.Pattern.Piece("lower").Notch("mid"), "the notch half way up the side lies below")
	// The notch still meets its partner.
	assert.LessOrEqual(t, notchAt(t, out.Pattern, "lower", "mid").Dist(geom.Pt(100, 30)), 1e-9)
}

func TestSplitAFoldPiece(t *testing.T) {
	p := patterntest.Sample()
	// Across the fold, straight from a spot level with it.
	at := p.Piece("bridge").Edge("fold").Path.At(40)
	y := p.Piece("bridge").Pose.Apply(at).Y
	level := pattern.Spot{Piece: "bridge", Edge: "cradle seam", Along: pattern.Along{MM: 20}, Crosses: &pattern.Datum{Y: &y}}
	s := &Split{Piece: "bridge", Right: "upper bridge", Name: "bridge split", From: level, To: pattern.Spot{Edge: "fold", Along: pattern.Along{MM: 40}}, Notches: []float64{0.5}}
	if _, err := p.Find(level); err != nil {
		// The sample's seam lies lower than the wire line: take the wire.
		s.From.Edge = "wire"
	}
	out := applied(t, p, s)
	for _, name := range []string{"bridge", "upper bridge"} {
		pc := out.Pattern.Piece(name)
		require.NotNil(t, pc.Fold(), name)
		assert.Equal(t, p.Piece("bridge").Cut, pc.Cut)
	}
	assert.InDelta(t, p.Piece("bridge").Area(), out.Pattern.Piece("bridge").Area()+out.Pattern.Piece("upper bridge").Area(), 1e-6)

	// Aslant it is refused, unless it arrives square.
	s.From = pattern.Spot{Edge: "wire", Along: pattern.Along{Share: 0.8}}
	assert.Contains(t, refusal(t, p, s), "degrees off square")
	s.Curve = &Curve{To: Lean{Square: true}}
	applied(t, p, s)

	// Beside the fold: the part off it is cut as a pair.
	s = &Split{Piece: "bridge", Left: "flank", Name: "bridge split",
		From: pattern.Spot{Edge: "hem", Along: pattern.Along{Share: 0.4}}, To: pattern.Spot{Edge: "top", Along: pattern.Along{Share: 0.5}}}
	s.Left, s.Right = "", "flank"
	out = applied(t, p, s)
	center, flank := out.Pattern.Piece("bridge"), out.Pattern.Piece("flank")
	if center.Fold() == nil {
		center, flank = flank, center
	}
	assert.NotNil(t, center.Fold())
	assert.Nil(t, flank.Fold())
	assert.Equal(t, pattern.Cut{Count: 1, Cloth: "main"}, center.Cut)
	assert.Equal(t, pattern.Cut{Count: 1, Pair: true, Cloth: "main"}, flank.Cut)
}

func TestSplitRefuses(t *testing.T) {
	p := twoBoxes()
	for want, change := range map[string]func(*Split){
		`seam "join" already`:           func(s *Split) { s.Name = "join" },
		"needs a name":                  func(s *Split) { s.Name = "" },
		`two edges called "hem"`:        func(s *Split) { s.Name = "hem" },
		`piece "right" already`:         func(s *Split) { s.Right = "right" },
		`both parts of left`:            func(s *Split) { s.Right = "left" },
		"same place":                    func(s *Split) { s.To = s.From },
		`no edge "seat"`:                func(s *Split) { s.To.Edge = "seat" },
		"lies off hem":                  func(s *Split) { s.To.MM = 300 },
		"share of its own":              func(s *Split) { s.Notches = []float64{0.5, 0.5} },
		"between 0 and 1":               func(s *Split) { s.Notches = []float64{1} },
		`cannot be "hem"`:               func(s *Split) { s.Role = pattern.Hem },
		`there is no piece "hat"`:       func(s *Split) { s.Piece = "hat" },
		"nothing to cut off":            func(s *Split) { s.To = pattern.AtEnd("", "top", pattern.Start) },
		"not between 0 and 200":         func(s *Split) { s.Allowance = exactly(900) },
		"does not stay within left":     func(s *Split) { s.Bulge = exactly(90) },
		`has a notch "low" already`:     func(s *Split) { s.Name = "low" },
		"does not lie on piece":         func(s *Split) { s.To.Piece = "right" },
		"are more than the 50 that can": func(s *Split) { s.Notches = make([]float64, 51) },
	} {
		s := boxSplit()
		change(s)
		assert.Contains(t, refusal(t, p, s), want)
	}
	f := folded()
	s := &Split{Piece: f.Pieces[0].Name, Right: "bit", Name: "bite"}
	fold := f.Pieces[0].Fold().Name
	s.From, s.To = pattern.Spot{Edge: fold, Along: pattern.Along{MM: 10}}, pattern.Spot{Edge: fold, Along: pattern.Along{MM: 30}}
	s.Bulge = exactly(-8)
	why := refusal(t, f, s)
	assert.True(t, strings.Contains(why, "two edges") || strings.Contains(why, "outside") || strings.Contains(why, "two edges called"), why)
}

// The parts of any split piece lie where they lay; laid together along the
// new seam they are the old piece, and nothing that is sewn changes its length.
func TestSplitAnyPieceOfAFrame(t *testing.T) {
	split := 0
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		pc := rapid.SampledFrom(p.Pieces).Draw(t, "piece")
		s := &Split{Piece: pc.Name, From: anySpot(t, pc, "from"), To: anySpot(t, pc, "to"), Right: "other", Name: "Divide", Notches: []float64{0.5}}
		if rapid.Bool().Draw(t, "curved") {
			any := func(what string) Lean {
				return lean(rapid.Float64Range(-40, 40).Draw(t, what), rapid.Float64Range(0.1, 0.6).Draw(t, what+" reach"))
			}
			s.Curve = &Curve{From: any("from lean"), To: any("to lean")}
		}
		if _, err := s.Apply(Input{Pattern: p}); err != nil {
			require.Greater(t, len(err.Error()), 20)
			return
		}
		split++
		out := applied(t, p, s)
		l, r := out.Pattern.Piece(pc.Name), out.Pattern.Piece("other")
		require.InDelta(t, pc.Area(), l.Area()+r.Area(), 1e-6)
		for _, sm := range p.Seams {
			a, b := p.SeamLengths(sm)
			now := out.Pattern.Seam(sm.Name)
			na, nb := out.Pattern.SeamLengths(*now)
			require.InDelta(t, a, na, 1e-9, sm.Name)
			require.InDelta(t, b, nb, 1e-9, sm.Name)
			require.Equal(t, sm.Ease, now.Ease)
		}
		for _, ln := range p.Lines {
			require.InDelta(t, p.Length(ln.Parts), out.Pattern.Length(out.Pattern.Line(ln.Name).Parts), 1e-9, ln.Name)
		}
		require.InDelta(t, 0, seamDifference(out.Pattern, out.Pattern.Seam("Divide")), 1e-12)
		require.LessOrEqual(t, notchAt(t, out.Pattern, pc.Name, "Divide").Dist(notchAt(t, out.Pattern, "other", "Divide")), 1e-9)
		require.Len(t, slices.Concat(l.Notches, r.Notches), len(pc.Notches)+2)

		// Taped together again the outline is the old one.
		square := pattern.Datum{Through: []pattern.Spot{pattern.AtEnd("other", "Divide", pattern.Start)}, Degrees: 90, To: &pattern.Datum{
			Through: []pattern.Spot{pattern.AtEnd("other", "Divide", pattern.Start), pattern.AtEnd("other", "Divide", pattern.End)}}}
		tape := &Tape{Datum: &square, A: EdgeEnd{pc.Name, "Divide", pattern.Start}, B: EdgeEnd{"other", "Divide", pattern.End}, Name: "whole"}
		whole, err := tape.Apply(Input{Pattern: out.Pattern})
		require.NoError(t, err)
		got, was := geom.Must(whole.Pattern.Piece("whole").Outline()), geom.Must(pc.Outline())
		require.InDelta(t, was.Length(), got.Length(), 1e-6)
		require.InDelta(t, was.Area(), got.Area(), 1e-5)
		for k := range 40 {
			s := was.Length() * float64(k) / 40
			require.LessOrEqual(t, got.Nearest(was.At(s)).Dist, 1e-6)
		}
	})
	require.Positive(t, split)
}
