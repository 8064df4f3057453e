package step

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

func TestRenamedThereAndBackNothingChanged(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		to := rapid.StringMatching(`[A-Z][a-z ]{0,8}[a-z]`).Draw(t, "name")
		pair := rapid.SampledFrom([][2]*Rename{
			{{Piece: patterntest.Cradle, To: to}, {Piece: to, To: patterntest.Cradle}},
			{{Piece: patterntest.Cradle, Edge: "side", To: to}, {Piece: patterntest.Cradle, Edge: to, To: "side"}},
			{{Piece: patterntest.Cradle, Notch: "wire bottom", To: to}, {Piece: patterntest.Cradle, Notch: to, To: "wire bottom"}},
			{{Piece: patterntest.Cradle, Inner: "guide", To: to}, {Piece: patterntest.Cradle, Inner: to, To: "guide"}},
			{{Seam: "side seam", To: to}, {Seam: to, To: "side seam"}},
			{{Line: "hem", To: to}, {Line: to, To: "hem"}},
		}).Draw(t, "what")
		once := applied(t, p, pair[0]).Pattern
		require.NotEqual(t, p, once)
		require.Equal(t, p, applied(t, once, pair[1]).Pattern)
	})
}

func TestRenamedWhatRefersToItFollows(t *testing.T) {
	p := patterntest.Sample()
	q := apply(t, p, &Rename{Piece: patterntest.Cradle, To: "flank"}).Pattern
	q = apply(t, q, &Rename{Piece: "flank", Edge: "side", To: "outer"}).Pattern
	require.Equal(t, pattern.Whole("flank", "outer"), q.Seam("side seam").A[0])
	require.Equal(t, "outer", q.Piece("flank").Notch("side middle").Edge)
	require.Equal(t, "flank", q.Line("hem").Parts[1].Piece)
	spot, err := apply(t, p, &Rename{Piece: patterntest.Cradle, To: "flank"}).Map.Spot(p, apply(t, p, &Rename{Piece: patterntest.Cradle, To: "flank"}).Pattern, pattern.AtEnd(patterntest.Cradle, "side", pattern.End))
	require.NoError(t, err)
	require.Equal(t, pattern.AtEnd("flank", "side", pattern.End), spot)
}

func TestRenamingIsNoAlterationToBefore(t *testing.T) {
	run := pattern.Run{Name: "x", Sizes: []pattern.Size{{Label: "S", Pattern: patterntest.Sample()}}}
	r := Recipe{{ID: "a", Step: &Rename{Piece: patterntest.Cradle, To: "flank"}}, {ID: "b", Step: &Rename{Line: "wire line", To: "wire"}}}.Replay(run)[0]
	require.False(t, r.Behind())
	require.Equal(t, r.Size.Pattern, r.Before)
	require.Equal(t, patterntest.Cradle, run.Sizes[0].Pattern.Pieces[1].Name, "what came in stays")
}

func TestRenameRefuses(t *testing.T) {
	p := patterntest.Sample()
	for want, r := range map[string]*Rename{
		"say what is to be called":     {To: "x"},
		"is empty":                     {Piece: patterntest.Cradle},
		"called so already":            {Piece: patterntest.Cradle, To: patterntest.Cradle},
		"there already is a piece":     {Piece: patterntest.Cradle, To: patterntest.Band},
		"there already is an edge":     {Piece: patterntest.Cradle, Edge: "side", To: "hem"},
		"there already is a notch":     {Piece: patterntest.Bridge, Notch: "seam middle", To: "hem quarter"},
		"there already is a seam":      {Seam: "side seam", To: "bridge seam"},
		"there already is a line":      {Line: "hem", To: "wire line"},
		"no piece \"y\"":               {Piece: "y", To: "x"},
		"no edge \"y\"":                {Piece: patterntest.Cradle, Edge: "y", To: "x"},
		"no notch \"y\"":               {Piece: patterntest.Cradle, Notch: "y", To: "x"},
		"no inner line \"y\"":          {Piece: patterntest.Cradle, Inner: "y", To: "x"},
		"no seam \"y\"":                {Seam: "y", To: "x"},
		"no line \"y\"":                {Line: "y", To: "x"},
		"only one thing at a time":     {Piece: patterntest.Cradle, Edge: "side", Notch: "x", To: "x"},
		"name its \"piece\" too":       {Edge: "side", To: "x"},
		"can be called \"x\"; make it": {Seam: "side seam", Line: "hem", To: "x"},
	} {
		require.Contains(t, refusal(t, p, r), want)
	}
	// What cannot be shown is refused where the recipe applies it.
	_, err := Recipe{}.Replay(pattern.Run{Sizes: []pattern.Size{{Label: "S", Pattern: p}}})[0].Try(&Rename{Piece: patterntest.Cradle, To: "a\nb"})
	require.ErrorContains(t, err, "cannot be shown")
}

func TestRemovedPieceTellsWhatLostItsPartner(t *testing.T) {
	p := patterntest.Sample()
	out := apply(t, p, &Remove{Piece: patterntest.Band})
	require.Nil(t, out.Pattern.Piece(patterntest.Band))
	require.Nil(t, out.Pattern.Seam("side seam"))
	require.Len(t, out.Pattern.Line("hem").Parts, 2)
	require.Equal(t, []string{`Seam "side seam" lost one side; side of cradle has no partner now.`}, out.Notes)
	require.Equal(t, p.Pieces[:2], out.Pattern.Pieces)
}

func TestRemoveTakesLinesAndMarks(t *testing.T) {
	p := patterntest.Sample()
	p.Piece(patterntest.Cradle).Marks = []pattern.Mark{{Text: "LACE", At: geom.Pt(1, 1), Height: 4}, {Text: "OLD", At: geom.Pt(1, 1), Height: 4}}
	q := applied(t, p, &Remove{Piece: patterntest.Cradle, Inner: "guide"}).Pattern
	require.Empty(t, q.Piece(patterntest.Cradle).Inner)
	q = applied(t, p, &Remove{Piece: patterntest.Cradle, Mark: "LACE"}).Pattern
	require.Equal(t, "OLD", q.Piece(patterntest.Cradle).Marks[0].Text)
	q = applied(t, p, &Remove{Line: "hem"}).Pattern
	require.Nil(t, q.Line("hem"))
	require.Len(t, q.Lines, 2)
}

func TestRemoveRefuses(t *testing.T) {
	p := patterntest.Sample()
	for want, r := range map[string]*Remove{
		"say what is to be removed": {},
		"only one thing at a time":  {Piece: patterntest.Cradle, Inner: "guide", Mark: "x"},
		"no piece \"y\"":            {Piece: "y"},
		"no line \"y\"":             {Line: "y"},
		"no inner line \"y\"":       {Piece: patterntest.Cradle, Inner: "y"},
		"no mark \"y\"":             {Piece: patterntest.Cradle, Mark: "y"},
	} {
		require.Contains(t, refusal(t, p, r), want)
	}
	require.Contains(t, refusal(t, skirt(), &Remove{Piece: "skirt"}), "only piece")
}

// The ease stated between two notches stays stated when they, or their piece,
// are called otherwise.
func TestRenamedNotchesStillBoundTheEase(t *testing.T) {
	p := patterntest.Sample()
	s := p.Seam("side seam")
	s.Ease = 0.5
	s.Stretches = []pattern.Stretch{{To: pattern.NotchName{Piece: patterntest.Cradle, Notch: "side middle"}, Ease: 0.4}}
	require.NoError(t, p.Validate())
	want := p.Spread(*s)
	for _, r := range []*Rename{
		{Piece: patterntest.Cradle, Notch: "side middle", To: "elastic"},
		{Piece: patterntest.Cradle, To: "flank"},
		{Piece: patterntest.Cradle, Edge: "side", To: "outer"},
	} {
		now := applied(t, p, r).Pattern
		require.NoError(t, now.Validate())
		require.Len(t, now.Seam("side seam").Stretches, 1)
		require.Equal(t, want, now.Spread(*now.Seam("side seam")))
	}
	require.Equal(t, "side middle", s.Stretches[0].To.Notch, "the pattern before is untouched")
}
