package step

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

func TestAllowChangesOnlyWhatIsGiven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pc := patterntest.Blob(t)
		p := pattern.Pattern{Pieces: []pattern.Piece{pc}}
		i := rapid.IntRange(0, len(pc.Edges)-1).Draw(t, "edge")
		e := &pc.Edges[i]
		width := rapid.Float64Range(0, pattern.MaxAllowance).Draw(t, "width")
		out := apply(t, p, &Allow{Piece: pc.Name, Edge: e.Name, Width: num(width)})
		want := p.Clone()
		want.Pieces[0].Edges[i].Allowance = width
		require.Equal(t, want, out.Pattern)
		require.Equal(t, e.Allowance, out.Figures["before"])

		free := rapid.Bool().Draw(t, "free")
		corner := pattern.Corner{End: pattern.Square, Of: pattern.Before}
		blunt := pattern.Corner{End: pattern.Blunt}
		out = apply(t, p, &Allow{Piece: pc.Name, Edges: []string{e.Name}, Start: &corner, End: &blunt, Role: pattern.LaceEdge, Free: &free})
		want = p.Clone()
		got := &want.Pieces[0].Edges[i]
		got.Corner, got.Role, got.Free = corner, pattern.LaceEdge, free
		want.Pieces[0].Edges[pc.Next(i)].Corner = blunt
		require.Equal(t, want, out.Pattern)
	})
}

func TestAllowSeveralEdgesByATable(t *testing.T) {
	p := patterntest.Sample()
	table := PerSize(map[string]float64{"S": 3, "L": 4})
	out := apply(t, p, &Allow{Piece: "band", Edges: []string{"hem", "top"}, Width: &table})
	for _, e := range out.Pattern.Piece("band").Edges {
		want := p.Piece("band").Edge(e.Name).Allowance
		if e.Name == "hem" || e.Name == "top" {
			want = 3
		}
		require.Equal(t, want, e.Allowance)
	}
}

func TestAllowRefuses(t *testing.T) {
	p := patterntest.Sample()
	for want, s := range map[string]*Allow{
		"lies on the fold":       {Piece: "bridge", Edge: "fold", Width: num(5)},
		`there is no role "hat"`: {Piece: "bridge", Edge: "hem", Role: "hat"},
		"not between 0 and 200":  {Piece: "bridge", Edge: "hem", Width: num(-1)},
		"nothing is to be set":   {Piece: "bridge", Edge: "hem"},
		"no edge is named":       {Piece: "bridge", Width: num(1)},
		"not both":               {Piece: "bridge", Edge: "hem", Edges: []string{"top"}, Width: num(1)},
		`has no edge "x"`:        {Piece: "bridge", Edges: []string{"hem", "x"}, Width: num(1)},
		"must say of which edge": {Piece: "bridge", Edge: "hem", Start: &pattern.Corner{End: pattern.Square}},
		"is of both edges":       {Piece: "bridge", Edge: "hem", End: &pattern.Corner{End: pattern.Blunt, Of: pattern.After}},
		"no corner end":          {Piece: "bridge", Edge: "hem", End: &pattern.Corner{End: "round"}},
	} {
		require.Contains(t, refused(t, p, s), want)
	}
}

func TestNotchIsAddedMovedDoubledAndDeleted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		e := p.Piece("cradle").Edge("side")
		mm := rapid.Float64Range(0, e.Length()).Draw(t, "mm")
		from := rapid.SampledFrom([]pattern.EndName{pattern.Start, pattern.End}).Draw(t, "from")
		out := apply(t, p, &Notch{Act: AddNotch, Piece: "cradle", Name: "new", Edge: "side", From: from, MM: Lit(mm), Double: true})
		want := mm
		if from == pattern.End {
			want = e.Length() - mm
		}
		require.InDelta(t, want, out.Figures["at_mm"], 1e-9)
		at, err := out.Pattern.Find(pattern.AtNotch("cradle", "new"))
		require.NoError(t, err)
		require.InDelta(t, 0, at.Point.Dist(e.Path.At(want)), 1e-9)

		spot := pattern.Spot{Piece: "cradle", Edge: "wire", Along: pattern.Along{Share: rapid.Float64Range(0, 1).Draw(t, "share")}}
		moved := apply(t, out.Pattern, &Notch{Act: MoveNotch, Piece: "cradle", Name: "new", Spot: &spot})
		require.InDelta(t, 0, mat(t, moved.Pattern, pattern.AtNotch("cradle", "new")).Dist(mat(t, p, spot)), 1e-9)
		require.True(t, moved.Pattern.Piece("cradle").Notch("new").Double)

		single := apply(t, moved.Pattern, &Notch{Act: MakeSingle, Piece: "cradle", Name: "new"})
		require.False(t, single.Pattern.Piece("cradle").Notch("new").Double)
		double := apply(t, single.Pattern, &Notch{Act: MakeDouble, Piece: "cradle", Name: "new"})
		require.Equal(t, moved.Pattern, double.Pattern)
		require.Equal(t, p, apply(t, double.Pattern, &Notch{Act: DeleteNotch, Piece: "cradle", Name: "new"}).Pattern)
	})
}

func TestNotchOnABareEdgeIsAMark(t *testing.T) {
	p := apply(t, patterntest.Sample(), &Allow{Piece: "band", Edge: "hem", Width: num(0)}).Pattern
	out := apply(t, p, &Notch{Act: AddNotch, Piece: "band", Name: "mid", Edge: "hem", Share: Lit(0.5)})
	require.Len(t, out.Notes, 1)
	require.Contains(t, out.Notes[0], "never snip")
}

func TestNotchRefuses(t *testing.T) {
	p := patterntest.Sample()
	spot := pattern.AtEnd("band", "hem", pattern.End)
	for want, s := range map[string]*Notch{
		"already has a notch":   {Act: AddNotch, Piece: "cradle", Name: "side middle", Edge: "hem"},
		"has no notch":          {Act: MoveNotch, Piece: "cradle", Name: "x", Edge: "hem"},
		`cannot be "snip"`:      {Act: "snip", Piece: "cradle", Name: "x"},
		"lies off side":         {Act: AddNotch, Piece: "cradle", Name: "x", Edge: "side", MM: Lit(1000)},
		"say where":             {Act: AddNotch, Piece: "cradle", Name: "x"},
		"needs no place":        {Act: DeleteNotch, Piece: "cradle", Name: "side middle", Edge: "side"},
		"is not on cradle":      {Act: AddNotch, Piece: "cradle", Name: "x", Spot: &spot},
		"leave out":             {Act: AddNotch, Piece: "band", Name: "x", Spot: &spot, MM: Lit(2)},
		"needs a name":          {Act: AddNotch, Piece: "band", Edge: "hem"},
		`"double" belongs to`:   {Act: MoveNotch, Piece: "cradle", Name: "side middle", Edge: "side", Double: true},
		"is held from":          {Act: AddNotch, Piece: "cradle", Name: "x", Edge: "side", From: "middle"},
		`there is no piece "x"`: {Act: AddNotch, Piece: "x", Name: "x", Edge: "side"},
	} {
		require.Contains(t, refused(t, p, s), want)
	}
}

func TestMarkIsWrittenInsideThePiece(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		out := apply(t, p, &Mark{Pieces: []string{"bridge", "cradle", "band"}, Text: "ALTERED"})
		out = apply(t, out.Pattern, &Mark{Piece: "cradle", Text: "LACE", Height: Lit(8)})
		for _, pc := range out.Pattern.Pieces {
			o, err := pc.Outline()
			require.NoError(t, err)
			require.True(t, pc.Altered())
			require.True(t, o.Contains(pc.Marks[0].At), pc.Name)
		}
		marks := out.Pattern.Piece("cradle").Marks
		require.Len(t, marks, 2)
		require.InDelta(t, 1.5*(12+8)/2, marks[0].At.Y-marks[1].At.Y, 1e-9)
	})
}

func TestMarkOnAHollowPieceStandsBesideTheMiddle(t *testing.T) {
	// A horseshoe 100 wide with walls 10 thick, open at the top: its centre of
	// gravity lies in the hollow.
	pts := []geom.Point{{X: 0, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 100}, {X: 90, Y: 100}, {X: 90, Y: 10}, {X: 10, Y: 10}, {X: 10, Y: 100}, {X: 0, Y: 100}}
	p := square(1)
	p.Pieces[0].Edges = []pattern.Edge{
		{Name: "low", Role: pattern.Hem, Path: geom.Must(geom.Polyline(pts[:4]...))},
		{Name: "high", Role: pattern.Hem, Path: geom.Must(geom.Polyline(append(pts[3:len(pts):len(pts)], pts[0])...))},
	}
	out := apply(t, p, &Mark{Piece: "patch", Text: "ALTERED"})
	at := out.Pattern.Pieces[0].Marks[0].At
	require.Contains(t, []float64{5, 95}, at.X)
	o, err := p.Pieces[0].Outline()
	require.NoError(t, err)
	require.False(t, o.Contains(o.Centroid()))
	require.True(t, o.Contains(at))
}

func TestMarkSetsTheCut(t *testing.T) {
	p := patterntest.Sample()
	single, cloth := false, "lace"
	out := apply(t, p, &Mark{Piece: "cradle", Count: 2, Pair: &single, Layers: 2, Cloth: &cloth})
	want := p.Clone()
	want.Piece("cradle").Cut = pattern.Cut{Count: 2, Layers: 2, Cloth: "lace"}
	require.Equal(t, want, out.Pattern)
}

func TestMarkRefuses(t *testing.T) {
	p := apply(t, patterntest.Sample(), &Mark{Piece: "band", Text: "LACE"}).Pattern
	pair := true
	for want, s := range map[string]*Mark{
		"already carries":        {Pieces: []string{"cradle", "band"}, Text: "LACE"},
		"nothing is to be":       {Piece: "band"},
		"is blank":               {Piece: "band", Text: "  "},
		"no \"text\"":            {Piece: "band", Height: Lit(3), Count: 1},
		"one place cannot serve": {Pieces: []string{"cradle", "band"}, Text: "X", At: &geom.Point{}},
		"not between 0 and 500":  {Piece: "band", Text: "X", Height: Lit(-1)},
		"cannot be a pair":       {Piece: "bridge", Pair: &pair},
		"give numbers above 0":   {Piece: "band", Count: -1},
		"no piece is named":      {Text: "X"},
	} {
		require.Contains(t, refused(t, p, s), want)
	}
}

func TestCopyIsTheSamePieceElsewhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		out := apply(t, p, &Copy{Piece: "cradle", Name: "second", DX: Lit(30), DY: Lit(-40)})
		twin := *out.Pattern.Piece("second")
		require.InDelta(t, 50, twin.Pose.Apply(geom.Pt(7, 9)).Dist(p.Piece("cradle").Pose.Apply(geom.Pt(7, 9))), 1e-9)
		twin.Name, twin.Pose = "cradle", p.Piece("cradle").Pose
		require.Equal(t, *p.Piece("cradle"), twin)
		out.Pattern.Pieces = out.Pattern.Pieces[:3]
		require.Equal(t, p, out.Pattern)
	})
	p := patterntest.Sample()
	require.Contains(t, refused(t, p, &Copy{Piece: "cradle", Name: "band"}), "another name")
	require.Contains(t, refused(t, p, &Copy{Piece: "cradle"}), "needs a name")
}

func TestSewPressesASeam(t *testing.T) {
	p := patterntest.Sample()
	for _, press := range pattern.Presses {
		s := &Sew{Name: "side seam", Press: press}
		out := apply(t, p, s)
		require.Equal(t, press, out.Pattern.Seam("side seam").Press)
		require.NoError(t, out.Pattern.Validate())
		require.Contains(t, s.Sentence(), "Press seam")
		out.Pattern.Seam("side seam").Press = ""
		require.Equal(t, p.Seams, out.Pattern.Seams)
	}
	bad := p.Clone()
	bad.Seam("side seam").Press = "up"
	require.ErrorContains(t, bad.Validate(), "cannot be pressed")
}

func TestSewDeclaresChangesAndTakesApart(t *testing.T) {
	p := patterntest.Sample()
	band, cradle := p.Piece("band").Edge("top").Length(), p.Piece("cradle").Edge("top").Length()
	out := apply(t, p, &Sew{Name: "odd", Ease: num(2),
		A: []pattern.Part{{Piece: "band", Edge: "top"}},
		B: []pattern.Part{{Piece: "cradle", Edge: "top", From: 1, To: 0.5}}})
	require.Equal(t, pattern.Side{pattern.Whole("band", "top")}, out.Pattern.Seam("odd").A)
	require.InDelta(t, band-cradle/2-2, out.Figures["difference"], 1e-9)
	require.Len(t, out.Notes, 1)

	eased := apply(t, out.Pattern, &Sew{Name: "odd", Ease: num(-1)})
	require.InDelta(t, band-cradle/2+1, eased.Figures["difference"], 1e-9)
	require.Equal(t, out.Pattern.Seam("odd").B, eased.Pattern.Seam("odd").B)
	require.Equal(t, p.Seams, apply(t, eased.Pattern, &Sew{Name: "odd", Apart: true}).Pattern.Seams)

	line := apply(t, p, &Sew{Line: &SewLine{Name: "closing", Kind: pattern.LineHem, Count: 2, Parts: []pattern.Part{{Piece: "band", Edge: "closure"}}}})
	require.InDelta(t, 38, line.Figures["length"], 0.1)
	require.Equal(t, pattern.Line{Name: "closing", Kind: pattern.LineHem, Count: 2, Parts: []pattern.Part{pattern.Whole("band", "closure")}}, *line.Pattern.Line("closing"))
	require.Equal(t, 4, apply(t, line.Pattern, &Sew{Line: &SewLine{Name: "closing", Count: 4}}).Pattern.Line("closing").Count)
}

func TestSewRefuses(t *testing.T) {
	p := patterntest.Sample()
	top := []pattern.Part{{Piece: "band", Edge: "top"}}
	for want, s := range map[string]*Sew{
		"needs a \"name\"":        {A: top, B: top},
		"nothing is to be":        {Name: "side seam"},
		"give both sides":         {Name: "odd", A: top},
		"cannot be pressed to":    {Name: "side seam", Press: "up"},
		"cannot be sewn in":       {Name: "side seam", Ease: new(Lit(500))},
		"to take apart":           {Name: "odd", Apart: true},
		"leave out its sides":     {Name: "side seam", Apart: true, A: top},
		`has no edge "x"`:         {Name: "odd", A: top, B: []pattern.Part{{Piece: "band", Edge: "x"}}},
		"between 0 and 1":         {Name: "odd", A: top, B: []pattern.Part{{Piece: "band", Edge: "hem", From: 1, To: 1}}},
		"also speaks of a seam":   {Name: "odd", Line: &SewLine{Name: "l"}},
		"the line needs":          {Line: &SewLine{}},
		`give its "kind"`:         {Line: &SewLine{Name: "l", Kind: pattern.LineHem}},
		`there is no piece "x"`:   {Line: &SewLine{Name: "l", Kind: pattern.LineHem, Parts: []pattern.Part{{Piece: "x"}}}},
		`no earlier step reports`: {Name: "side seam", Ease: new(Figure("x.y", 1))},
	} {
		require.Contains(t, refused(t, p, s), want)
	}
}

// stepTexts holds each step as it stands in a file.
var stepTexts = []string{
	`{"id":"allow","do":"allow","piece":"bridge","edges":["hem","top"],"width":0,"role":"lace-edge"}`,
	`{"id":"allow","do":"allow","piece":"band","edge":"side","width":6.35,"start":{"end":"folds-back","of":"before"},"end":{"end":"blunt"},"free":true}`,
	`{"id":"copy","do":"copy","piece":"band","name":"band lining","dx":5,"dy":-150}`,
	`{"id":"mark","do":"mark","pieces":["bridge","cradle"],"text":"ALTERED · LACE"}`,
	`{"id":"mark","do":"mark","piece":"band","text":"LACE","at":{"x":10,"y":20},"height":15,"count":2,"pair":true,"layers":2,"cloth":"lace"}`,
	`{"id":"move","do":"move","piece":"cradle","dx":10,"dy":{"sizes":{"L":3,"S":2}},"degrees":5,"about":{"piece":"cradle","notch":"side middle"}}`,
	`{"id":"notch","do":"notch","act":"add","piece":"cradle","name":"walked","edge":"side","from":"end","mm":{"figure":"walk.at","times":0.5},"double":true}`,
	`{"id":"notch","do":"notch","act":"move","piece":"cradle","name":"walked","spot":{"piece":"cradle","edge":"hem","share":0.5}}`,
	`{"id":"notch","do":"notch","act":"delete","piece":"cradle","name":"walked"}`,
	`{"id":"piece","do":"piece","name":"strap","width":24,"height":{"figure":"pattern.wire","times":2},"allowance":6,"fold":true,"count":2,"cloth":"satin","arrow":"grain","across":true}`,
	`{"id":"place","do":"place","piece":"cradle","edge":"bridge seam","end":"start","onto":{"piece":"bridge","edge":"cradle seam","end":"end"}}`,
	`{"id":"place","do":"place","piece":"band","spots":[{"piece":"band","edge":"hem","from":"start"},{"piece":"band","edge":"hem","from":"end"}],"datum":{"y":0}}`,
	`{"id":"sew","do":"sew","name":"side seam","a":[{"piece":"cradle","edge":"side","from":0,"to":1}],"b":[{"piece":"band","edge":"side","from":1,"to":0}],"ease":1.5}`,
	`{"id":"sew","do":"sew","name":"side seam","apart":true}`,
	`{"id":"sew","do":"sew","line":{"name":"hem","kind":"hem","parts":[{"piece":"bridge","edge":"hem","from":0,"to":1}],"count":2}}`,
	`{"id":"turn","do":"turn","piece":"cradle","pin":{"piece":"cradle","edge":"bridge seam","from":"start"},"direction":"cw","by":8}`,
	`{"id":"turn","do":"turn","piece":"cradle","pin":{"piece":"cradle","edge":"bridge seam","from":"start"},"direction":"cw","until":{"spot":{"piece":"cradle","edge":"hem","from":"end"},"datum":{"through":[{"piece":"bridge","edge":"hem","from":"start"},{"piece":"bridge","edge":"hem","from":"end"}]}}}`,
	`{"id":"turn","do":"turn","piece":"cradle","pin":{"piece":"cradle","notch":"side middle"},"direction":"ccw","until":{"touch":"hem","datum":{"y":-20}}}`,
}

func TestStepsReadBackAsTheyWereWritten(t *testing.T) {
	for _, text := range stepTexts {
		var e Entry
		require.NoError(t, json.Unmarshal([]byte(text), &e), text)
		back, err := json.Marshal(e)
		require.NoError(t, err)
		require.JSONEq(t, text, string(back))
		require.NotContains(t, e.Step.Sentence(), "%!")
		require.Regexp(t, `^[A-Z].*\.$`, e.Step.Sentence())
	}
}
