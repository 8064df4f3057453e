package step

import (
	"encoding/json"
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/pattern"
)

// shift is a step for these tests: it moves the only piece by X mm on the mat
// and refuses to go beyond its limit.
type shift struct {
	X Number `json:"x"`
}

func (shift) Kind() string     { return "test-shift" }
func (shift) Sentence() string { return "shift the piece" }

func (s shift) Apply(in Input) (Output, error) {
	x, err := s.X.In(in)
	if err != nil {
		return Output{}, err
	}
	if x > 100 {
		return Output{}, errors.New("that is off the mat")
	}
	p := in.Pattern.Clone()
	p.Pieces[0].Pose = p.Pieces[0].Pose.Then(geom.Shift(geom.Pt(x, 0)))
	return Output{Pattern: p, Figures: map[string]float64{"x": x}}, nil
}

func init() { register("test-shift", func() Step { return &shift{} }) }

func square(side float64) pattern.Pattern {
	corner := []geom.Point{geom.Pt(0, 0), geom.Pt(side, 0), geom.Pt(side, side), geom.Pt(0, side)}
	pc := pattern.Piece{
		Name:  "patch",
		Arrow: pattern.Arrow{Kind: pattern.Grain, From: geom.Pt(1, 1), To: geom.Pt(1, side-1)},
		Cut:   pattern.Cut{Count: 1},
		Pose:  geom.Identity(),
	}
	for i, name := range []string{"bottom", "right", "top", "left"} {
		pc.Edges = append(pc.Edges, pattern.Edge{Name: name, Role: pattern.Hem, Path: geom.Must(geom.Polyline(corner[i], corner[(i+1)%4]))})
	}
	return pattern.Pattern{Pieces: []pattern.Piece{pc}, Figures: map[string]float64{"wire": side}}
}

func squares() pattern.Run {
	return pattern.Run{Name: "patch", Sizes: []pattern.Size{
		{Label: "S", Pattern: square(30)}, {Label: "L", Pattern: square(60)},
	}}
}

func entry(id string, x Number) Entry { return Entry{ID: id, Step: &shift{X: x}} }

func at(t *testing.T, r Result) float64 {
	t.Helper()
	return r.Size.Pattern.Pieces[0].Pose.Apply(geom.Point{}).X
}

func TestReplayTakesNumbersFromPatternTableAndEarlierSteps(t *testing.T) {
	recipe, results, err := Recipe(nil).Append(squares(),
		entry("own", Figure("pattern.wire", 0.5)),
		entry("table", PerSize(map[string]float64{"S": 1, "L": 2})),
		entry("half", Figure("own.x", 0.5)),
	)
	require.NoError(t, err)
	require.Len(t, recipe, 3)
	require.InDelta(t, 15+1+7.5, at(t, results[0]), 1e-12)
	require.InDelta(t, 30+2+15, at(t, results[1]), 1e-12)
}

func TestAppendIsRefusedWholeNamingStepAndSize(t *testing.T) {
	run := squares()
	recipe, _, err := Recipe(nil).Append(run, entry("a", Lit(5)))
	require.NoError(t, err)
	_, _, err = recipe.Append(run, entry("b", Lit(1)), entry("c", Figure("pattern.wire", 2)))
	require.ErrorContains(t, err, `step "c" (test-shift) in size L: that is off the mat`)
	require.Len(t, recipe, 1)
}

func TestEditedStepUpsetsLaterOnesWhichStayAndOthersGoOn(t *testing.T) {
	run := squares()
	recipe, _, err := Recipe(nil).Append(run, entry("a", Lit(5)), entry("b", Figure("a.x", 10)), entry("c", Lit(3)))
	require.NoError(t, err)
	edited, err := recipe.Replace(entry("a", Lit(20)))
	require.NoError(t, err)
	for _, r := range edited.Replay(run) {
		require.True(t, r.Behind())
		require.Equal(t, []State{Applied, Upset, Applied}, []State{r.Reports[0].State, r.Reports[1].State, r.Reports[2].State})
		require.Equal(t, "that is off the mat", r.Upset().Error)
		require.InDelta(t, 23, at(t, r), 1e-12)
	}
	for _, r := range recipe.Replay(run) {
		require.InDelta(t, 5+50+3, at(t, r), 1e-12, "the recipe before the edit is untouched")
	}
}

func TestSwitchedOffAndRemovedSteps(t *testing.T) {
	run := squares()
	off := entry("a", Lit(5))
	off.Off = true
	only := entry("b", Lit(7))
	only.Sizes = []string{"L"}
	recipe := Recipe{off, only, entry("c", Lit(1))}
	results := recipe.Replay(run)
	require.InDelta(t, 1, at(t, results[0]), 1e-12)
	require.InDelta(t, 8, at(t, results[1]), 1e-12)
	require.Equal(t, Off, results[0].Reports[1].State)
	shorter, err := recipe.Remove("b")
	require.NoError(t, err)
	require.InDelta(t, 1, at(t, shorter.Replay(run)[1]), 1e-12)
	require.Len(t, recipe, 3)
	_, err = recipe.Remove("x")
	require.ErrorContains(t, err, `has a, b, c`)
}

func TestRecipeRefusesUnusableIDs(t *testing.T) {
	run := squares()
	for want, r := range map[string]Recipe{
		"has no id":      {entry("", Lit(1))},
		"already used":   {entry("a", Lit(1)), entry("a", Lit(1))},
		"full stop":      {entry("a.b", Lit(1))},
		"meant for size": {{ID: "a", Sizes: []string{"XL"}, Step: &shift{}}},
	} {
		require.ErrorContains(t, r.Validate(run), want)
	}
	require.ErrorContains(t, Recipe{entry("pattern", Lit(1))}.Validate(run), "already used")
}

func TestEntryRoundTripsAsOneFlatObject(t *testing.T) {
	const text = `[{"id":"a","do":"test-shift","sizes":["S"],"x":6.35},` +
		`{"id":"b","do":"test-shift","off":true,"x":{"figure":"a.x","times":0.5}},` +
		`{"id":"c","do":"test-shift","x":{"sizes":{"L":2,"S":1}}}]`
	var r Recipe
	require.NoError(t, json.Unmarshal([]byte(text), &r))
	back, err := json.Marshal(r)
	require.NoError(t, err)
	require.Equal(t, text, string(back))
}

func TestEntryRefusesWhatItDoesNotKnow(t *testing.T) {
	for text, want := range map[string]string{
		`{"id":"a","do":"fly"}`:                                           "there is no step",
		`{"id":"a","do":"test-shift","y":1}`:                              `unknown field "y"`,
		`{"id":"a","do":"test-shift","x":"three"}`:                        "three",
		`{"id":"a","do":"test-shift","x":1e9}`:                            "beyond every sensible measure",
		`{"id":"a","do":"test-shift","x":{"figure":"a","sizes":{}}}`:      "",
		`{"id":"a","do":"test-shift","x":{"times":2}}`:                    "one of them",
		`{"id":"a","do":"test-shift","x":{"figure":"a","sizes":{"S":1}}}`: "one of them",
	} {
		var e Entry
		err := json.Unmarshal([]byte(text), &e)
		if want == "" {
			require.NoError(t, err, text)
			continue
		}
		require.ErrorContains(t, err, want, text)
	}
}

func TestNumberReadsLengthsAsWritten(t *testing.T) {
	for text, want := range map[string]float64{`"1/4 in"`: 6.35, `"6.35mm"`: 6.35, `"0.6 cm"`: 6, `-3`: -3} {
		var n Number
		require.NoError(t, json.Unmarshal([]byte(text), &n), text)
		v, err := n.In(Input{})
		require.NoError(t, err)
		require.InDelta(t, want, v, 1e-12, text)
	}
}

func TestAFigureOfAStepThatDidNotApplyIsToldByItsPlace(t *testing.T) {
	recipe := Recipe{entry("first", Lit(1)), entry("gives", Lit(2)), entry("takes", Figure("gives.y", 1))}
	why := func() string {
		rep := recipe.Replay(squares())[0].Reports[2]
		require.Equal(t, Upset, rep.State)
		return rep.Error
	}
	require.Contains(t, why(), "no earlier step reports", "it applied, without that figure")
	recipe[1].Off = true
	require.Contains(t, why(), "step 2, which is switched off")
	recipe[1] = entry("gives", Lit(1000))
	require.Contains(t, why(), "step 2, which could not apply either")
}

func TestNumberSaysWhatIsMissing(t *testing.T) {
	_, err := PerSize(map[string]float64{"S": 1}).In(Input{Size: "L"})
	require.ErrorContains(t, err, `none for size "L"; it has S`)
	_, err = Figure("tape.overlap", 1).In(Input{Figures: Figures{"turn.deg": 1}})
	require.ErrorContains(t, err, `no earlier step reports "tape.overlap"; there are turn.deg`)
}

func TestNumberRefusesWhatNoMeasureReaches(t *testing.T) {
	for _, text := range []string{`1e9`, `{"sizes":{"S":1e300}}`, `{"figure":"a.x","times":1e308}`} {
		var n Number
		err := json.Unmarshal([]byte(text), &n)
		if err == nil {
			_, err = n.In(Input{Size: "S", Figures: Figures{"a.x": 100}})
		}
		require.ErrorContains(t, err, "beyond every sensible measure", text)
	}
	_, err := Lit(math.NaN()).In(Input{})
	require.ErrorContains(t, err, "beyond every sensible measure")
}

func TestTryGoesOnFromAResultAndStopsAtTheFirstThatCannotApply(t *testing.T) {
	_, results, err := Recipe(nil).Append(squares(), entry("a", Lit(5)))
	require.NoError(t, err)
	from := results[0]
	tried, err := from.Try(&shift{X: Lit(2)}, &shift{X: Figure("a.x", 2)})
	require.NoError(t, err)
	require.InDelta(t, 5+2+10, at(t, tried), 1e-12)
	require.Len(t, from.Reports, 1, "the result it started from is untouched")
	require.InDelta(t, 5, at(t, from), 1e-12)

	stopped, err := from.Try(&shift{X: Lit(2)}, &shift{X: Lit(101)}, &shift{X: Lit(1)})
	require.ErrorContains(t, err, "that is off the mat")
	require.InDelta(t, 7, at(t, stopped), 1e-12)
	require.Len(t, stopped.Reports, 3)
}

func TestFiguresCarryTheNamesOfPatternAndSteps(t *testing.T) {
	_, results, err := Recipe(nil).Append(squares(), entry("a", Lit(5)), entry("b", Figure("a.x", 2)))
	require.NoError(t, err)
	figures := results[0].Figures()
	require.Equal(t, 30.0, figures["pattern.wire"])
	require.Equal(t, 5.0, figures["a.x"])
	require.Equal(t, 10.0, figures["b.x"])
}

func TestNewIDIsFreeInTheRecipeAndAmongWhatIsAdded(t *testing.T) {
	r := Recipe{entry("turn-3", Lit(1)), entry("b", Lit(1))}
	require.Equal(t, "turn-4", r.NewID("turn", nil))
	require.Equal(t, "turn-5", r.NewID("turn", []Entry{entry("turn-4", Lit(1))}))
	require.Equal(t, "tape-3", r.NewID("tape", nil))
}

func TestATableForASizeThePatternLacksIsRefused(t *testing.T) {
	r := Recipe{entry("a", PerSize(map[string]float64{"S": 1, "L": 2, "XL": 3}))}
	require.ErrorContains(t, r.Validate(squares()), `step "a" has a number (x) for size "XL", which the pattern does not have; take it out of the table, which is for S, L`)
	r = Recipe{entry("a", PerSize(map[string]float64{"S": 1}))}
	require.NoError(t, r.Validate(squares()))
	_, _, err := Recipe{}.Append(squares(), r...)
	require.ErrorContains(t, err, `step "a" (test-shift) in size L: the table of numbers has none for size "L"`)
	r[0].Sizes = []string{"S"}
	_, _, err = Recipe{}.Append(squares(), r...)
	require.NoError(t, err)
}

func TestASizeInWhichAStepFailsIsNamedWithTheOthers(t *testing.T) {
	run := squares()
	run.Sizes = append(run.Sizes, pattern.Size{Label: "XL", Pattern: square(90)})
	r := Recipe{entry("a", Lit(1)), entry("b", Figure("pattern.wire", 2)), entry("c", Lit(500))}
	_, _, err := Recipe{}.Append(run, r...)
	require.EqualError(t, err, `step "b" (test-shift) in size L: that is off the mat (it fails in XL as well)`)
}

func TestStepsInWords(t *testing.T) {
	for want, places := range map[string][]int{
		"step 3":                {2},
		"steps 1 and 2":         {0, 1},
		"steps 4 to 7":          {3, 4, 5, 6},
		"steps 2, 4 to 6 and 9": {1, 3, 4, 5, 8},
		"steps 1, 2, 4 and 5":   {0, 1, 3, 4},
	} {
		require.Equal(t, want, StepsInWords(places))
	}
}
