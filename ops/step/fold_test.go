package step

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

// requireAlike compares two patterns: names, seams, lines and all that is
// written exactly, places within 1e-9 mm.
func requireAlike(t require.TestingT, want, got pattern.Pattern) {
	require.Len(t, got.Pieces, len(want.Pieces))
	for i := range want.Pieces {
		w, g := &want.Pieces[i], &got.Pieces[i]
		require.Equal(t, w.Name, g.Name)
		require.Equal(t, edgeNames(w), edgeNames(g))
		for j := range w.Edges {
			a, b := w.Edges[j], g.Edges[j]
			requireSamePath(t, a.Path, b.Path)
			a.Path, b.Path = geom.Path{}, geom.Path{}
			require.Equal(t, a, b)
		}
		require.Len(t, g.Notches, len(w.Notches))
		for j, n := range w.Notches {
			o := g.Notches[j]
			require.InDelta(t, n.At(w.Edge(n.Edge).Length()), o.At(g.Edge(o.Edge).Length()), 1e-9)
			n.Along, o.Along = pattern.Along{}, pattern.Along{}
			require.Equal(t, n, o)
		}
		require.Len(t, g.Inner, len(w.Inner))
		for j, in := range w.Inner {
			requireSamePath(t, in.Path, g.Inner[j].Path)
			require.Equal(t, in.Name+string(in.Kind), g.Inner[j].Name+string(g.Inner[j].Kind))
		}
		require.Len(t, g.Marks, len(w.Marks))
		for j, m := range w.Marks {
			require.InDelta(t, 0, m.At.Dist(g.Marks[j].At), 1e-9)
			require.Equal(t, m.Text, g.Marks[j].Text)
		}
		require.InDelta(t, 0, w.Arrow.From.Dist(g.Arrow.From), 1e-9)
		require.InDelta(t, 0, w.Arrow.To.Dist(g.Arrow.To), 1e-9)
		require.Equal(t, w.Cut, g.Cut)
		for _, q := range []geom.Point{{}, geom.Pt(100, 0), geom.Pt(0, 100)} {
			require.InDelta(t, 0, w.Pose.Apply(q).Dist(g.Pose.Apply(q)), 1e-9)
		}
	}
	require.Len(t, got.Seams, len(want.Seams))
	for i, s := range want.Seams {
		require.Equal(t, s.Name, got.Seams[i].Name)
		require.Equal(t, s.Ease, got.Seams[i].Ease)
		requireSameParts(t, s.A, got.Seams[i].A)
		requireSameParts(t, s.B, got.Seams[i].B)
	}
	require.Len(t, got.Lines, len(want.Lines))
	for i, l := range want.Lines {
		requireSameParts(t, l.Parts, got.Lines[i].Parts)
		got.Lines[i].Parts = l.Parts
		require.Equal(t, l, got.Lines[i])
	}
}

func requireSamePath(t require.TestingT, a, b geom.Path) {
	require.Equal(t, a.Len(), b.Len())
	for i := range a.Len() {
		for k, p := range a.Seg(i).P {
			require.InDelta(t, 0, p.Dist(b.Seg(i).P[k]), 1e-9)
		}
	}
}

func requireSameParts(t require.TestingT, a, b []pattern.Part) {
	require.Len(t, b, len(a))
	for i := range a {
		require.InDelta(t, a[i].From, b[i].From, 1e-12)
		require.InDelta(t, a[i].To, b[i].To, 1e-12)
		c := b[i]
		c.From, c.To = a[i].From, a[i].To
		require.Equal(t, a[i], c)
	}
}

// requireDoubled checks that the whole piece is the half and its mirror image.
func requireDoubled(t require.TestingT, half, whole *pattern.Piece) {
	require.InDelta(t, 2*half.Area(), whole.Area(), 1e-6)
	fold := half.Fold().Path
	over, err := geom.Mirror(fold.Start(), fold.End())
	require.NoError(t, err)
	cut, err := half.CutLine()
	require.NoError(t, err)
	all, err := whole.CutLine()
	require.NoError(t, err)
	require.InDelta(t, 2*cut.Area(), all.Area(), 1e-3*math.Sqrt(all.Area()))
	// Every place on the whole's cut line lies on the half's or its image.
	for i := range 200 {
		q := all.At(all.Length() * float64(i) / 200)
		off := min(cut.Nearest(q).Dist, cut.Nearest(over.Apply(q)).Dist)
		require.Less(t, off, 0.02, "at %v", q)
	}
}

func TestUnfoldedAFrameIsItsHalfTwiceAndFoldsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		bridge := p.Piece(patterntest.Bridge)
		bridge.Marks = []pattern.Mark{{Text: "LACE", At: bridge.Arrow.From.Lerp(bridge.Arrow.To, 0.5), Height: 8}}
		bridge.Inner = []pattern.Inner{{Name: "guide", Kind: pattern.Drawn, Path: geom.Must(geom.Polyline(bridge.Arrow.From, bridge.Edge("hem").Path.End()))}}
		out := applied(t, p, &Unfold{Piece: patterntest.Bridge})
		requireDoubled(t, bridge, out.Pattern.Piece(patterntest.Bridge))
		require.Nil(t, out.Pattern.Piece(patterntest.Bridge).Fold())

		seam := out.Pattern.Seam("bridge seam other")
		require.NotNil(t, seam)
		a, b := out.Pattern.SeamLengths(*seam)
		wasA, wasB := p.SeamLengths(*p.Seam("bridge seam"))
		require.InDelta(t, wasA, a, 1e-9)
		require.InDelta(t, wasB, b, 1e-9)
		require.True(t, seam.B[0].Mirrored)
		line := out.Pattern.Line("hem other")
		require.InDelta(t, p.Length(p.Line("hem").Parts), out.Pattern.Length(line.Parts), 1e-9)
		lay, err := out.Pattern.LayChain(line.Parts)
		require.NoError(t, err)
		for _, j := range lay.Junctions {
			require.InDelta(t, 0, j.Gap, 1e-6)
			require.InDelta(t, 0, j.Kink.Degrees(), 1, "the hem runs on to the mirrored cradle")
		}

		back := applied(t, out.Pattern, &Fold{Piece: patterntest.Bridge, Along: "fold"})
		require.InDelta(t, 0, back.Figures["greatest_deviation"], 1e-9)
		requireAlike(t, p, back.Pattern)
	})
}

func TestAnyHalfUnfoldsAndFoldsBack(t *testing.T) {
	done := 0
	rapid.Check(t, func(t *rapid.T) {
		pc := patterntest.Blob(t)
		k := rapid.IntRange(0, len(pc.Edges)-1).Draw(t, "fold")
		e := &pc.Edges[k]
		pc.Notches = nil
		e.Role, e.Allowance, e.Corner = pattern.Fold, 0, pattern.Corner{}
		e.Path = geom.Must(geom.Polyline(e.Path.Start(), e.Path.End()))
		pc.Edges[pc.Next(k)].Corner = pattern.Corner{}
		for i := range rapid.IntRange(0, 3).Draw(t, "notches") {
			on := &pc.Edges[(k+1+i%(len(pc.Edges)-1))%len(pc.Edges)]
			pc.Notches = append(pc.Notches, pattern.Notch{Name: string(rune('a' + i)), Edge: on.Name, Along: pattern.Along{MM: rapid.Float64Range(1, 30).Draw(t, "at")}})
		}
		p := pattern.Pattern{Pieces: []pattern.Piece{pc}}
		out, ok := tryOn(t, pc, &Unfold{Piece: pc.Name})
		if !ok {
			return // the half lies over its own fold
		}
		// Where an edge nearly runs on into the fold, no cut line of the half
		// could stay on its side.
		if off := offSquare(&pc); off[0] < 45 && off[1] < 45 {
			done++
			requireDoubled(t, &pc, out.Pattern.Piece(pc.Name))
		}
		back := applied(t, out.Pattern, &Fold{Piece: pc.Name, Along: e.Name})
		requireAlike(t, p, back.Pattern)
	})
	assert.Greater(t, done, 20)
}

// skirt is a whole piece 100 wide and 60 high, its hem one edge, its sides
// sewn to nothing.
func skirt() pattern.Pattern {
	pc := cloth("skirt", fourSides, 0, 0, 100, 0, 90, 60, 10, 60)
	pc.Cut.Pair = false
	for i := range pc.Edges {
		pc.Edges[i].Allowance = 6
	}
	pc.Notches = []pattern.Notch{
		{Name: "front", Edge: "hem", Along: pattern.Along{MM: 20}},
		{Name: "side", Edge: "hem", Along: pattern.Along{From: pattern.End, MM: 20}},
		{Name: "centre", Edge: "hem", Along: pattern.Along{Share: 0.5}},
	}
	pc.Inner = []pattern.Inner{
		{Name: "centre line", Kind: pattern.Drawn, Path: geom.Must(geom.Polyline(geom.Pt(50, 55), geom.Pt(50, 5)))},
		{Name: "yoke", Kind: pattern.Drawn, Path: geom.Must(geom.Polyline(geom.Pt(5, 30), geom.Pt(95, 30)))},
		{Name: "pocket", Kind: pattern.Drawn, Path: geom.Must(geom.Polyline(geom.Pt(20, 30), geom.Pt(30, 30)))},
	}
	pc.Marks = []pattern.Mark{{Text: "OLD", At: geom.Pt(20, 40), Height: 5}}
	return pattern.Pattern{
		Pieces: []pattern.Piece{pc},
		Lines:  []pattern.Line{{Name: "hem line", Kind: pattern.LineHem, Parts: []pattern.Part{pattern.Whole("skirt", "hem")}}},
	}
}

func TestFoldDividesEdgesThatRunAcross(t *testing.T) {
	for _, f := range []*Fold{
		{Piece: "skirt", Along: "centre line"},
		{Piece: "skirt", From: &pattern.Spot{Edge: "top", Along: pattern.Along{Share: 0.5}}, To: &pattern.Spot{Edge: "hem", Along: pattern.Along{Share: 0.5}}, Name: "centre line"},
	} {
		out := apply(t, skirt(), f)
		pc := out.Pattern.Piece("skirt")
		require.Equal(t, []string{"hem", "side", "top", "centre line"}, edgeNames(pc))
		require.InDelta(t, 50, pc.Edge("hem").Length(), 1e-9)
		require.InDelta(t, 40, pc.Edge("top").Length(), 1e-9)
		require.InDelta(t, 60, pc.Fold().Length(), 1e-9)
		require.InDelta(t, 2700, pc.Area(), 1e-6)
		require.InDelta(t, 0, out.Figures["greatest_deviation"], 1e-9)
		// The line runs over both halves: it is there on the mirrored hand too.
		require.InDelta(t, 100, out.Pattern.Length(out.Pattern.Line("hem line").Parts), 1e-9)
		require.Equal(t, []pattern.Part{{Piece: "skirt", Edge: "hem", Mirrored: true, From: 1}, {Piece: "skirt", Edge: "hem", To: 1}}, out.Pattern.Line("hem line").Parts)
		lay, err := out.Pattern.LayChain(out.Pattern.Line("hem line").Parts)
		require.NoError(t, err)
		require.InDelta(t, 0, lay.Junctions[0].Gap, 1e-9)
		names := []string{}
		for _, n := range pc.Notches {
			names = append(names, n.Name)
		}
		require.ElementsMatch(t, []string{"side", "centre"}, names)
		for _, n := range pc.Notches {
			e := pc.Edge(n.Edge)
			require.Greater(t, e.Path.At(n.At(e.Length())).X, 50-1e-9)
		}
		yoke := pc.InnerLine("yoke")
		require.InDelta(t, 45, yoke.Path.Length(), 1e-6)
		require.InDelta(t, 75, pc.InnerLine("pocket").Path.At(5).X, 1e-6, "drawn on the half that stays")
		require.InDelta(t, 80, pc.Marks[0].At.X, 1e-9)

		whole := apply(t, out.Pattern, &Unfold{Piece: "skirt"}).Pattern
		require.InDelta(t, skirt().Pieces[0].Area(), whole.Piece("skirt").Area(), 1e-6)
		require.InDelta(t, 100, whole.Length(whole.Line("hem line").Parts), 1e-9)
	}
}

func TestFoldKeepsTheHalfAskedFor(t *testing.T) {
	p := skirt()
	out := apply(t, p, &Fold{Piece: "skirt", Along: "centre line", Keep: "right"})
	require.Equal(t, []string{"hem", "fold", "top", "front"}, func() []string {
		names := edgeNames(out.Pattern.Piece("skirt"))
		for i, n := range names {
			if n == "centre line" {
				names[i] = "fold"
			}
		}
		return names
	}())
}

func TestFoldTellsHowFarTheHalvesMiss(t *testing.T) {
	p := skirt()
	e := &p.Pieces[0].Edges[1]
	e.Path = geom.Must(geom.NewPath(geom.Curve(geom.Pt(100, 0), geom.Pt(98, 20), geom.Pt(95, 40), geom.Pt(90, 60))))
	f := &Fold{Piece: "skirt", Along: "centre line"}
	off, edge, err := f.Deviation(Input{Pattern: p})
	require.NoError(t, err)
	require.Contains(t, []string{"side", "front"}, edge)
	require.Greater(t, off, 0.5)
	require.Contains(t, refused(t, p, f), "over the 0.5 mm allowed")
	f.Tolerance = exactly(off + 0.01)
	out := apply(t, p, f)
	require.InDelta(t, off, out.Figures["greatest_deviation"], 1e-9)
	require.Contains(t, out.Notes[len(out.Notes)-1], "now both are as the kept one")
}

func TestFoldAndUnfoldRefuse(t *testing.T) {
	frame := patterntest.Sample()
	along := func(p pattern.Pattern, change func(pc *pattern.Piece)) (pattern.Pattern, Step) {
		change(&p.Pieces[0])
		return p, &Fold{Piece: "skirt", Along: "centre line"}
	}
	type try struct {
		p    pattern.Pattern
		s    Step
		want string
	}
	with := func(want string, change func(pc *pattern.Piece)) try {
		p, s := along(skirt(), change)
		return try{p, s, want}
	}
	spot := func(edge string, share float64) *pattern.Spot {
		return &pattern.Spot{Edge: edge, Along: pattern.Along{Share: share}}
	}
	for _, c := range []try{
		{frame, &Unfold{Piece: "cup"}, "no piece"},
		{frame, &Unfold{Piece: patterntest.Cradle}, "not on the fold"},
		{frame, &Fold{Piece: patterntest.Bridge, Along: "x"}, "on the fold already"},
		{frame, &Fold{Piece: patterntest.Cradle, Along: "guide"}, "cut in pairs"},
		{skirt(), &Fold{Piece: "skirt"}, "say where"},
		{skirt(), &Fold{Piece: "skirt", Along: "x"}, "no inner line \"x\""},
		{skirt(), &Fold{Piece: "skirt", Along: "centre line", Keep: "up"}, "not \"up\""},
		{skirt(), &Fold{Piece: "skirt", Along: "centre line", Name: "hem"}, "another name"},
		{skirt(), &Fold{Piece: "skirt", From: spot("hem", 0.2), To: spot("top", 0.5)}, "do not lie on each other"},
		{skirt(), &Fold{Piece: "skirt", From: spot("hem", 0.5), To: spot("hem", 0.5)}, "two different places"},
		{skirt(), &Fold{Piece: "skirt", Along: "centre line", Tolerance: exactly(80)}, "not between"},
		with("make both halves alike", func(pc *pattern.Piece) { pc.Edge("side").Allowance = 8 }),
		with("make both halves alike", func(pc *pattern.Piece) { pc.Edge("side").Role = pattern.Closure }),
		with("no mirror image", func(pc *pattern.Piece) { pc.Notches = pc.Notches[1:] }),
		with("no mirror image", func(pc *pattern.Piece) { pc.Notches[0].Double = true }),
		with("a fold is straight", func(pc *pattern.Piece) {
			pc.Inner[0].Path = geom.Must(geom.NewPath(geom.Curve(geom.Pt(50, 55), geom.Pt(60, 40), geom.Pt(60, 20), geom.Pt(50, 5))))
		}),
	} {
		require.Contains(t, refused(t, c.p, c.s), c.want)
	}
	clash := frame.Clone()
	clash.Piece(patterntest.Bridge).Edge("top").Name = "hem other"
	require.Contains(t, refused(t, clash, &Unfold{Piece: patterntest.Bridge}), "give another word")
	apply(t, clash, &Unfold{Piece: patterntest.Bridge, Other: "right"})
	clash = frame.Clone()
	clash.Seams[1].Name = "bridge seam other"
	require.Contains(t, refused(t, clash, &Unfold{Piece: patterntest.Bridge}), "give another word")
}
