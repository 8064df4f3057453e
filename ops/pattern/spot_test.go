package pattern

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/geom"
)

// crossing is the spot where the top of the left panel crosses a datum.
func crossing(d Datum) Spot { return Spot{Piece: "left", Edge: "top", Crosses: &d} }

func TestFindSpots(t *testing.T) {
	p := twoPanels()
	p.Pieces[0].Pose = geom.Turn(90*geom.Degree, geom.Pt(0, 0)) // left stands on its side
	x := -25.0
	for _, c := range []struct {
		spot  Spot
		point geom.Point
		s     float64
	}{
		{AtEnd("left", "side", Start), geom.Pt(100, 0), 0},
		{AtEnd("left", "side", End), geom.Pt(100, 50), 50},
		{AtNotch("left", "low"), geom.Pt(90, 0), 90},
		{AtNotch("left", "share"), geom.Pt(75, 50), 25},
		{Spot{Piece: "left", Edge: "top", Along: Along{MM: 10, Share: 0.5}}, geom.Pt(40, 50), 60},
		{Spot{Piece: "left", Edge: "front", Along: Along{From: End, MM: 5}}, geom.Pt(0, 5), 45},
		{Spot{Piece: "left", Edge: "front", Crosses: &Datum{X: &x}}, geom.Pt(0, 25), 25},
		{crossing(LineThrough(AtEnd("left", "hem", Start), AtEnd("left", "side", End))), geom.Pt(100, 50), 0},
	} {
		at, err := p.Find(c.spot)
		require.NoError(t, err, c.spot)
		assert.InDelta(t, c.s, at.S, 1e-9, c.spot)
		assert.True(t, c.point.Near(at.Point, 1e-9), "%s is at %v", c.spot, at.Point)
		assert.True(t, geom.Pt(-c.point.Y, c.point.X).Near(at.Mat, 1e-9), "%s is at %v of the mat", c.spot, at.Mat)
	}
}

func TestFindSaysWhatIsMissing(t *testing.T) {
	p := twoPanels()
	far, across := 1000.0, Datum{}
	across.To = &across // refers to itself for ever
	across.Through = []Spot{AtEnd("left", "hem", Start)}
	for want, s := range map[string]Spot{
		`there is no piece "x"; there are "left", "right"`: AtEnd("x", "hem", Start),
		`no edge "x"; it has "hem", "side"`:                AtEnd("left", "x", Start),
		`no notch "x"; it has "mid", "low", "share"`:       AtNotch("left", "x"),
		`lies off hem of left, which is 100 mm long`:       {Piece: "left", Edge: "hem", Along: Along{MM: 101}},
		`NaN mm lies off`:                       {Piece: "left", Edge: "hem", Along: Along{MM: math.NaN()}},
		`does not cross the line`:               crossing(Datum{X: &far}),
		`exactly one of them`:                   crossing(Datum{}),
		`lie at the same place`:                 crossing(LineThrough(AtEnd("left", "hem", End), AtEnd("left", "side", Start))),
		`one or two spots, not 3`:               crossing(Datum{Through: make([]Spot, 3)}),
		`more than 8 lines refer to each other`: crossing(across),
		`there is no piece "y"`:                 crossing(Datum{Through: []Spot{AtEnd("left", "hem", Start)}, Arrow: "y"}),
	} {
		if s.Crosses != nil && len(s.Crosses.Through) == 3 {
			s.Crosses.Through = []Spot{AtEnd("left", "hem", Start), AtEnd("left", "hem", End), AtEnd("left", "top", End)}
		}
		_, err := p.Find(s)
		assert.ErrorContains(t, err, want)
	}
}

func TestFindDatum(t *testing.T) {
	p := twoPanels()
	p.Pieces[1].Pose = geom.Turn(30*geom.Degree, geom.Pt(0, 0)) // its arrow points to 120°
	y := 7.0
	corner := []Spot{AtEnd("left", "hem", End)}
	for _, c := range []struct {
		datum Datum
		angle float64
	}{
		{Datum{Y: &y}, 0},
		{Datum{Through: corner, Degrees: 15}, 15},
		{Datum{Through: corner, Arrow: "right"}, 120},
		{Datum{Through: corner, Arrow: "right", Degrees: -90}, 30},
		{Datum{Through: corner, Degrees: 10, To: &Datum{Through: corner, Degrees: 20}}, 30},
	} {
		l, err := p.FindDatum(c.datum)
		require.NoError(t, err)
		assert.InDelta(t, c.angle, l.Dir.Direction().Degrees(), 1e-9)
		if c.datum.Through != nil {
			assert.InDelta(t, 0, l.Distance(geom.Pt(100, 0)), 1e-9)
		}
	}
}

func TestCrossingSpotsAreCarried(t *testing.T) {
	old := twoPanels()
	next, m := tapedPanels(old)
	next.Pieces[0].Arrow = Arrow{Kind: Grain, To: geom.Pt(0, 10)}
	got, _, err := Carry(old, next, m)
	require.NoError(t, err)
	// Up from the notch of the right panel's hem, along its arrow.
	s := Spot{Piece: "right", Edge: "top", Crosses: &Datum{Through: []Spot{AtNotch("right", "low")}, Arrow: "right"}}
	before, err := old.Find(s)
	require.NoError(t, err)
	assert.True(t, geom.Pt(15, 50).Near(before.Point, 1e-9))
	carried, err := m.Spot(old, got, s)
	require.NoError(t, err)
	assert.Equal(t, "left", carried.Crosses.Arrow)
	assert.Equal(t, []Spot{AtNotch("left", "right low")}, carried.Crosses.Through)
	after, err := got.Find(carried)
	require.NoError(t, err)
	assert.True(t, geom.Pt(115, 50).Near(after.Point, 1e-9), "%v", after.Point)

	s.Crosses.Through[0] = Spot{Piece: "right", Edge: "front", Along: Along{MM: 45}}
	s.Crosses.Degrees = -45
	_, err = m.Spot(old, got, s)
	assert.ErrorContains(t, err, "the place 45 mm along front of right was cut away")
}

func TestSideNotchesAreMetInOrder(t *testing.T) {
	p := twoPanels()
	p.Pieces[0].Notches = append(p.Pieces[0].Notches, Notch{Name: "first", Edge: "side", Along: Along{MM: 5}})
	met := p.SideNotches(Side{Whole("left", "hem"), Whole("left", "side"), {Piece: "left", Edge: "top", From: 1, To: 0.5}, Whole("left", "none")})
	var names []string
	var at []float64
	for _, n := range met {
		names, at = append(names, n.Notch.Name), append(at, n.At)
	}
	assert.Equal(t, []string{"low", "first", "mid"}, names, "the notch at a quarter of the top is not on its second half")
	assert.InDeltaSlice(t, []float64{90, 105, 120}, at, 1e-9)

	met = p.SideNotches(Side{Whole("left", "top").Backwards(), Whole("left", "side").Backwards()})
	require.Len(t, met, 3)
	assert.InDelta(t, 75, met[0].At, 1e-9)
	assert.InDelta(t, 130, met[1].At, 1e-9)
	assert.Equal(t, "first", met[2].Notch.Name)
}

func TestCloneSharesNothing(t *testing.T) {
	p := twoPanels()
	p.Figures = map[string]float64{FigureWire: 220}
	want := p.Clone()
	q := p.Clone()
	q.Pieces[0].Notches[0].MM, q.Pieces[0].Edges[0].Name = 1, "x"
	q.Pieces[0].Inner[0].Name, q.Pieces[1].Marks[0].Text = "x", "x"
	q.Seams[0].A[0].Edge, q.Seams[0].B[0].Edge, q.Lines[0].Parts[0].Edge = "x", "x", "x"
	q.Figures[FigureWire] = 1
	assert.Equal(t, want, p)
}

// A spot in words says where it is, with its number.
func TestSpotsInWords(t *testing.T) {
	for want, s := range map[string]Spot{
		`notch "apex" of cup`:                             AtNotch("cup", "apex"),
		"notch 1 of cup":                                  AtNotch("cup", "notch 1"),
		"the start of hem of cup":                         AtEnd("cup", "hem", Start),
		"the end of hem of cup":                           AtEnd("cup", "hem", End),
		"the middle of hem of cup":                        {Piece: "cup", Edge: "hem", Along: Along{From: End, Share: 0.5}},
		"the place 41.4 % along hem of cup":               {Piece: "cup", Edge: "hem", Along: Along{From: Start, Share: 0.4137}},
		"the place 12.5 mm along hem of cup from its end": {Piece: "cup", Edge: "hem", Along: Along{From: End, MM: 12.5}},
	} {
		assert.Equal(t, want, s.String())
	}
}

func TestDatumsInWords(t *testing.T) {
	at, level := 12.5, 0.0
	hem := LineThrough(AtEnd("cup", "hem", Start), AtEnd("cup", "hem", End))
	for want, d := range map[string]*Datum{
		"the upright line of the mat at 12.5 mm":                                  {X: &at},
		"the level line of the mat at 0 mm":                                       {Y: &level},
		"the line of hem of cup":                                                  &hem,
		`the line through notch "a" of cup and notch "b" of cup`:                  {Through: []Spot{AtNotch("cup", "a"), AtNotch("cup", "b")}},
		"the line through the start of hem of cup along the arrow of cup":         {Through: []Spot{AtEnd("cup", "hem", Start)}, Arrow: "cup"},
		"the line through the end of hem of cup at 30° to the line of hem of cup": {Through: []Spot{AtEnd("cup", "hem", End)}, Degrees: 30, To: &hem},
		"the level line through the end of hem of cup":                            {Through: []Spot{AtEnd("cup", "hem", End)}},
		"a line": nil,
	} {
		assert.Equal(t, want, d.String())
	}
}
