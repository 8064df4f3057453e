package pattern

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
)

// polygon is a piece with straight edges named in order.
func polygon(name string, pts []geom.Point, edges ...string) Piece {
	pc := Piece{
		Name:  name,
		Arrow: Arrow{Kind: Grain, From: pts[0], To: pts[0].Add(geom.Pt(0, 10))},
		Cut:   Cut{Count: 1, Pair: true},
		Pose:  geom.Identity(),
	}
	for i, e := range edges {
		pc.Edges = append(pc.Edges, Edge{
			Name: e, Role: SeamEdge,
			Path: geom.Must(geom.Polyline(pts[i], pts[(i+1)%len(pts)])),
		})
	}
	return pc
}

func rectangle(name string, x, y, w, h float64) Piece {
	return polygon(name, []geom.Point{geom.Pt(x, y), geom.Pt(x+w, y), geom.Pt(x+w, y+h), geom.Pt(x, y+h)}, "hem", "side", "top", "front")
}

// twoPanels is a left and a right rectangle sewn along left.side and
// right.front, 50 high, 100 and 80 wide.
func twoPanels() Pattern {
	left, right := rectangle("left", 0, 0, 100, 50), rectangle("right", 0, 0, 80, 50)
	left.Notches = []Notch{
		{Name: "mid", Edge: "side", Along: Along{MM: 20}, Double: true},
		{Name: "low", Edge: "hem", Along: Along{From: End, MM: 10}},
		{Name: "share", Edge: "top", Along: Along{Share: 0.25}},
	}
	right.Notches = []Notch{
		{Name: "mid", Edge: "front", Along: Along{From: End, MM: 20}},
		{Name: "low", Edge: "hem", Along: Along{MM: 15}},
	}
	left.Inner = []Inner{{Name: "guide", Kind: Drawn, Path: geom.Must(geom.Polyline(geom.Pt(10, 10), geom.Pt(20, 10)))}}
	right.Inner = []Inner{{Name: "guide", Kind: Drawn, Path: geom.Must(geom.Polyline(geom.Pt(10, 10), geom.Pt(20, 10)))}}
	right.Marks = []Mark{{Text: "LACE", At: geom.Pt(40, 25), Height: 8}}
	return Pattern{
		Pieces: []Piece{left, right},
		Seams: []Seam{
			{Name: "join", A: Side{Whole("left", "side")}, B: Side{Whole("right", "front").Backwards()}},
			{Name: "centre", A: Side{Whole("left", "front")}, B: Side{{Piece: "left", Edge: "front", Mirrored: true, To: 1}}, Ease: 0},
			{Name: "over", A: Side{{Piece: "left", Edge: "top", From: 0.5, To: 0}}, B: Side{{Piece: "right", Edge: "top", From: 0.375, To: 1}}},
		},
		Lines: []Line{{Name: "hem line", Kind: LineHem, Parts: []Part{Whole("left", "hem"), Whole("right", "hem")}}},
	}
}

func TestCarryThroughNothingKeepsEverything(t *testing.T) {
	p := twoPanels()
	next := p.Clone()
	next.Pieces[0].Notches, next.Seams, next.Lines = nil, nil, nil
	got, done, err := Carry(p, next, Map{})
	require.NoError(t, err)
	assert.Equal(t, p, got)
	assert.Empty(t, done)
}

// tapedPanels is twoPanels taped side to side: one piece "left", 180 wide.
func tapedPanels(old Pattern) (Pattern, Map) {
	one := rectangle("left", 0, 0, 180, 50)
	one.Edges[1].Name = "far side"
	next := Pattern{Pieces: []Piece{one}}
	var m Map
	m.Move("right", "left", geom.Shift(geom.Pt(100, 0)))
	m.Gone("left", "side")
	m.Gone("right", "front")
	pc, right := &next.Pieces[0], old.Piece("right")
	m.Span(WholeSpan("left", old.Piece("left").Edge("hem")), Span{"left", "hem", 0, 100})
	m.Span(WholeSpan("right", right.Edge("hem")), Span{"left", "hem", 100, 180})
	m.Span(WholeSpan("right", right.Edge("top")), Span{"left", "top", 0, 80})
	m.Span(WholeSpan("left", old.Piece("left").Edge("top")), Span{"left", "top", 80, 180})
	m.WholeEdge("right", right.Edge("side"), "left", pc.Edge("far side"))
	return next, m
}

func TestCarryThroughTaping(t *testing.T) {
	old := twoPanels()
	next, m := tapedPanels(old)
	got, done, err := Carry(old, next, m)
	require.NoError(t, err)

	one := got.Piece("left")
	assert.Equal(t, []Notch{
		{Name: "low", Edge: "hem", Along: Along{From: End, MM: 90}}, // 10 from the old end at 100
		{Name: "share", Edge: "top", Along: Along{Share: (80 + 25) / 180.0}},
		{Name: "right low", Edge: "hem", Along: Along{MM: 115}},
	}, one.Notches)
	require.Len(t, one.Inner, 2)
	assert.Equal(t, "guide", one.Inner[0].Name)
	assert.Equal(t, "right guide", one.Inner[1].Name)
	assert.Equal(t, geom.Pt(110, 10), one.Inner[1].Path.Start())
	assert.Equal(t, []Mark{{Text: "LACE", At: geom.Pt(140, 25), Height: 8}}, one.Marks)

	require.Len(t, done.LostNotches, 2)
	assert.Equal(t, LostNotch{"left", old.Pieces[0].Notches[0], geom.Pt(100, 20)}, done.LostNotches[0])
	assert.Equal(t, LostNotch{"right", old.Pieces[1].Notches[0], geom.Pt(0, 20)}, done.LostNotches[1])
	assert.Equal(t, []Renamed{{"right", "low", "left", "right low"}, {"right", "guide", "left", "right guide"}}, done.Renamed)
	assert.Equal(t, []LostSeam{{Name: "join"}}, done.LostSeams)
	assert.Contains(t, done.Notes, `Seam "join" is gone with both its sides.`)
	assert.Contains(t, done.Notes, `Notch "mid" of left went with the stretch of side it was on.`)

	// Two whole hems are one whole hem, exactly.
	assert.Equal(t, []Part{Whole("left", "hem")}, got.Line("hem line").Parts)
	over := got.Seam("over")
	assert.InDelta(t, 130.0/180, over.A[0].From, 1e-15)
	assert.InDelta(t, 80.0/180, over.A[0].To, 1e-15)
	assert.Equal(t, old.Seam("centre"), got.Seam("centre"))
}

func TestCarryOntoSeveralEdges(t *testing.T) {
	old := twoPanels()
	next := old.Clone()
	// The side of the left panel becomes two edges and loses its last 5 mm.
	next.Pieces[0] = polygon("left",
		[]geom.Point{geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 30), geom.Pt(100, 45), geom.Pt(0, 50)},
		"hem", "side low", "side high", "top", "front")
	var m Map
	m.Span(Span{"left", "side", 30, 0}, Span{"left", "side low", 30, 0})
	m.Span(Span{"left", "side", 30, 45}, Span{"left", "side high", 0, 15})
	m.Span(Span{"left", "side", 0, 50}, Span{"left", "top", 10, 20}) // the rest: later entries yield
	got, _, err := Carry(old, next, m)
	require.NoError(t, err)
	side := got.Seam("join").A
	require.Len(t, side, 3)
	assert.Equal(t, Side{Whole("left", "side low"), Whole("left", "side high")}, side[:2])
	assert.Equal(t, "top", side[2].Edge)
	assert.InDelta(t, 1, got.PartLength(side[2]), 1e-9, "the last tenth of the 10 mm")
	assert.Equal(t, Notch{Name: "mid", Edge: "side low", Along: Along{MM: 20}, Double: true}, *got.Piece("left").Notch("mid"))

	// Walked backwards the parts come in the other order.
	old.Seams[0].A[0] = old.Seams[0].A[0].Backwards()
	got, _, err = Carry(old, next, m)
	require.NoError(t, err)
	assert.Equal(t, Whole("left", "side low").Backwards(), got.Seam("join").A[2])
}

func TestCarryToTheOtherDirection(t *testing.T) {
	old := twoPanels()
	next := old.Clone()
	e := next.Piece("left").Edge("side")
	var m Map
	m.Span(Span{"left", "side", 0, 50}, Span{"left", "side", e.Length(), 0})
	got, _, err := Carry(old, next, m)
	require.NoError(t, err)
	assert.Equal(t, Along{From: End, MM: 20}, got.Piece("left").Notch("mid").Along)
	assert.Equal(t, Side{Whole("left", "side").Backwards()}, got.Seam("join").A)
}

func TestCarryReportsASeamThatLostOneSide(t *testing.T) {
	old := twoPanels()
	next := old.Clone()
	var m Map
	m.Gone("left", "side")
	got, done, err := Carry(old, next, m)
	require.NoError(t, err)
	assert.Nil(t, got.Seam("join"))
	assert.Equal(t, []LostSeam{{Name: "join", Left: []Part{Whole("right", "front").Backwards()}}}, done.LostSeams)
	assert.Contains(t, done.Notes, `Seam "join" lost one side; front of right has no partner now.`)
}

func TestCarryRemovesAPiece(t *testing.T) {
	old := twoPanels()
	next := old.Clone()
	next.Pieces = next.Pieces[:1]
	var m Map
	m.Remove("right")
	got, done, err := Carry(old, next, m)
	require.NoError(t, err)
	assert.Equal(t, []Part{Whole("left", "hem")}, got.Line("hem line").Parts)
	assert.Len(t, done.LostNotches, 2)
	assert.Len(t, done.LostSeams, 2)
	assert.NotNil(t, got.Seam("centre"))
}

func TestCarrySplitsInnerLinesAmongTheParts(t *testing.T) {
	old := Pattern{Pieces: []Piece{rectangle("left", 0, 0, 100, 50)}}
	old.Pieces[0].Inner = []Inner{
		{Name: "near", Kind: Drawn, Path: geom.Must(geom.Polyline(geom.Pt(10, 10), geom.Pt(20, 10)))},
		{Name: "far", Kind: Drawn, Path: geom.Must(geom.Polyline(geom.Pt(80, 10), geom.Pt(90, 10)))},
	}
	next := Pattern{Pieces: []Piece{rectangle("left", 0, 0, 60, 50), rectangle("rest", 0, 0, 40, 50)}}
	var m Map
	m.Move("left", "left", geom.Identity())
	m.Move("left", "rest", geom.Shift(geom.Pt(-60, 0)))
	m.Span(Span{"left", "hem", 0, 60}, Span{"left", "hem", 0, 60})
	m.Span(Span{"left", "hem", 60, 100}, Span{"rest", "hem", 0, 40})
	m.Span(Span{"left", "top", 40, 100}, Span{"left", "top", 0, 60})
	m.Span(Span{"left", "top", 0, 40}, Span{"rest", "top", 0, 40})
	m.WholeEdge("left", old.Pieces[0].Edge("side"), "rest", next.Pieces[1].Edge("side"))
	got, _, err := Carry(old, next, m)
	require.NoError(t, err)
	assert.Equal(t, []string{"near"}, got.Piece("left").innerNames())
	require.Equal(t, []string{"far"}, got.Piece("rest").innerNames())
	assert.Equal(t, geom.Pt(20, 10), got.Piece("rest").Inner[0].Path.Start())
}

func TestCarryRefusesAMapThatDoesNotFit(t *testing.T) {
	old := twoPanels()
	next := old.Clone()
	for want, m := range map[string]Map{
		`piece "x" that was not there`:            {Pieces: []PieceMove{{From: "x", To: "left", Motion: geom.Identity()}}},
		`to a piece "x" that is not there`:        {Pieces: []PieceMove{{From: "left", To: "x", Motion: geom.Identity()}}},
		`edge "x" of "left" that was not there`:   {Spans: []SpanMove{{Old: Span{"left", "x", 0, 1}, New: Span{"left", "hem", 0, 1}}}},
		`an edge "x" of "left" that is not there`: {Spans: []SpanMove{{Old: Span{"left", "hem", 0, 1}, New: Span{"left", "x", 0, 1}}}},
		`which is 100 mm long`:                    {Spans: []SpanMove{{Old: Span{"left", "hem", 0, 1}, New: Span{"left", "hem", 99, 101}}}},
	} {
		_, _, err := Carry(old, next, m)
		assert.ErrorContains(t, err, want)
	}
	next.Pieces[0].Edges[1].Name = "renamed"
	_, _, err := Carry(old, next, Map{})
	assert.ErrorContains(t, err, `where "side" of "left" went`)
}

func TestSpotsAreCarried(t *testing.T) {
	old := twoPanels()
	next, m := tapedPanels(old)
	got, _, err := Carry(old, next, m)
	require.NoError(t, err)

	for _, c := range []struct{ was, want Spot }{
		{AtNotch("right", "low"), AtNotch("left", "right low")},
		{AtNotch("left", "low"), AtNotch("left", "low")},
		{AtEnd("right", "hem", End), AtEnd("left", "hem", End)},
		{AtEnd("left", "hem", Start), AtEnd("left", "hem", Start)},
		{AtEnd("left", "hem", End), Spot{Piece: "left", Edge: "hem", Along: Along{From: End, MM: 80}}},
		{Spot{Piece: "right", Edge: "side", Along: Along{MM: 7}}, Spot{Piece: "left", Edge: "far side", Along: Along{MM: 7}}},
	} {
		s, err := m.Spot(old, got, c.was)
		require.NoError(t, err)
		assert.Equal(t, c.want, s)
	}
	_, err = m.Spot(old, got, AtEnd("left", "side", End))
	assert.ErrorContains(t, err, "was cut away")
	_, err = m.Spot(old, got, AtNotch("left", "mid"))
	assert.ErrorContains(t, err, "was cut away")
	_, err = m.Spot(old, got, AtNotch("left", "none"))
	assert.ErrorContains(t, err, "no notch")
}

// Cutting an edge at random places into edges of their own, some of them
// turned round, moves no notch and changes no length of a side.
func TestCarryKeepsPlacesWhenAnEdgeIsCutUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		old := twoPanels()
		length := old.Piece("left").Edge("side").Length()
		from, to := rapid.Float64Range(0, 1).Draw(t, "from"), rapid.Float64Range(0, 1).Draw(t, "to")
		if d := (to - from) * length; d < 0.1 && d > -0.1 {
			t.Skip("no length")
		}
		old.Seams[0].A[0] = Part{Piece: "left", Edge: "side", From: from, To: to}
		at := rapid.Float64Range(0, length).Draw(t, "notch")
		old.Pieces[0].Notches[0].Along = Along{MM: at}

		cuts := rapid.SliceOfNDistinct(rapid.IntRange(1, 49), 1, 4, rapid.ID).Draw(t, "cuts")
		marks := []float64{0}
		for y := 1; y < 50; y++ {
			for _, c := range cuts {
				if c == y {
					marks = append(marks, float64(y))
				}
			}
		}
		marks = append(marks, length)
		next := old.Clone()
		pc := next.Piece("left")
		edges := []Edge{pc.Edges[0]}
		var m Map
		for i := 1; i < len(marks); i++ {
			e := Edge{Name: string(rune('a' + i)), Role: SeamEdge, Path: geom.Must(geom.Polyline(geom.Pt(100, marks[i-1]), geom.Pt(100, marks[i])))}
			edges = append(edges, e)
			m.Span(Span{"left", "side", marks[i-1], marks[i]}, WholeSpan("left", &e))
		}
		pc.Edges = slices.Concat(edges, pc.Edges[2:])
		got, done, err := Carry(old, next, m)
		if err != nil {
			t.Fatal(err)
		}
		if len(done.LostNotches) != 0 {
			t.Fatalf("lost %v", done.LostNotches)
		}
		n := got.Piece("left").Notch("mid")
		e := got.Piece("left").Edge(n.Edge)
		if p := e.Path.At(n.At(e.Length())); p.Dist(geom.Pt(100, at)) > mapSlack {
			t.Fatalf("the notch moved from %v to %v", at, p)
		}
		a := got.Seam("join").A
		if d := got.Length(a) - old.Length(old.Seams[0].A); d > 2*mapSlack || d < -2*mapSlack {
			t.Fatalf("the side is %v longer", d)
		}
		for i, pt := range a {
			if (pt.To > pt.From) != (to > from) {
				t.Fatalf("part %d is walked the wrong way", i)
			}
			if i > 0 && i < len(a)-1 && (pt.From+pt.To != 1 || pt.From*pt.To != 0) {
				t.Fatalf("part %d should be whole: %v", i, pt)
			}
		}
	})
}

// unfolded is the left panel opened out along its front: 200 wide, the other
// half's edges with "other" behind their names.
func unfolded(old Pattern) (Pattern, Map) {
	whole := polygon("left",
		[]geom.Point{geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 50), geom.Pt(0, 50), geom.Pt(-100, 50), geom.Pt(-100, 0)},
		"hem", "side", "top", "top other", "side other", "hem other")
	next := Pattern{Pieces: []Piece{whole, old.Pieces[1].Clone()}}
	var m Map
	for _, name := range []string{"hem", "side", "top"} {
		s := WholeSpan("left", old.Pieces[0].Edge(name))
		m.HandSpan(s, ThisHand, s, ThisHand)
		m.HandSpan(s, MirroredHand, Span{"left", name + " other", s.To, 0}, ThisHand)
	}
	m.Gone("left", "front")
	return next, m
}

func TestTheMirroredHandOfAFoldBecomesEdgesOfItsOwn(t *testing.T) {
	p := twoPanels()
	p.Seams[1] = Seam{ // the other half, to the other hand of the right panel
		Name: "join other",
		A:    Side{{Piece: "left", Edge: "side", Mirrored: true, From: 0.2, To: 1}},
		B:    Side{{Piece: "right", Edge: "front", Mirrored: true, From: 0.8, To: 0}},
	}
	p.Lines[0].Parts = []Part{{Piece: "left", Edge: "hem", Mirrored: true, From: 1}, Whole("left", "hem"), Whole("right", "hem")}
	next, m := unfolded(p)
	got, done, err := Carry(p, next, m)
	require.NoError(t, err)
	require.NoError(t, got.Validate())
	assert.Equal(t, p.Seam("join"), got.Seam("join"), "this hand stays where it was")
	assert.Equal(t, Side{{Piece: "left", Edge: "side other", From: 0.8, To: 0}}, got.Seam("join other").A)
	assert.Equal(t, p.Seam("join other").B, got.Seam("join other").B)
	assert.Equal(t, []Part{Whole("left", "hem other"), Whole("left", "hem"), Whole("right", "hem")}, got.Lines[0].Parts)
	assert.Equal(t, p.Pieces[0].Notches, got.Pieces[0].Notches)
	assert.Empty(t, done.LostSeams)

	// Folded again, all is as it was.
	var back Map
	for _, sp := range m.Spans {
		if sp.From != BothHands {
			back.HandSpan(sp.New, sp.To, sp.Old, sp.From)
		}
	}
	again, _, err := Carry(got, p, back)
	require.NoError(t, err)
	assert.Equal(t, p.Lines, again.Lines)
	assert.Equal(t, p.Seams, again.Seams)
}
