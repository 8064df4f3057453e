package recipe_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/recipe"
	"truemat/ops/step"
	"truemat/ops/store"
)

func tern(t testing.TB) pattern.Run {
	run, err := demo.Tern()
	require.NoError(t, err)
	return run
}

// foreign returns the run with every piece, edge, notch, seam and line called
// otherwise, in a way that depends on its piece.
func foreign(t testing.TB, run pattern.Run) pattern.Run {
	b, err := json.Marshal(run)
	require.NoError(t, err)
	var r pattern.Run
	require.NoError(t, json.Unmarshal(b, &r))
	piece := func(s string) string { return "their " + strings.ToUpper(s) }
	on := func(pc, s string) string { return s[:1] + "x" + s[1:] + " " + pc[:2] }
	for i := range r.Sizes {
		p := &r.Sizes[i].Pattern
		for j := range p.Pieces {
			pc := &p.Pieces[j]
			for k := range pc.Edges {
				pc.Edges[k].Name = on(pc.Name, pc.Edges[k].Name)
			}
			for k := range pc.Notches {
				pc.Notches[k].Edge, pc.Notches[k].Name = on(pc.Name, pc.Notches[k].Edge), on(pc.Name, pc.Notches[k].Name)
			}
			pc.Name = piece(pc.Name)
		}
		parts := func(list []pattern.Part) {
			for k := range list {
				list[k].Edge, list[k].Piece = on(list[k].Piece, list[k].Edge), piece(list[k].Piece)
			}
		}
		for j := range p.Seams {
			p.Seams[j].Name += " joint"
			parts(p.Seams[j].A)
			parts(p.Seams[j].B)
		}
		for j := range p.Lines {
			p.Lines[j].Name += " way"
			parts(p.Lines[j].Parts)
		}
	}
	require.NoError(t, r.Validate())
	return r
}

// mapOnto says what the names of a run are called in another of the same shape.
func mapOnto(a, b pattern.Run) recipe.Map {
	m := recipe.Map{}
	p, q := a.Sizes[0].Pattern, b.Sizes[0].Pattern
	for i, pc := range p.Pieces {
		m[step.Name{Kind: step.NamePiece, Name: pc.Name}] = q.Pieces[i].Name
		for j, e := range pc.Edges {
			m[step.Name{Kind: step.NameEdge, Piece: pc.Name, Name: e.Name}] = q.Pieces[i].Edges[j].Name
		}
		for j, n := range pc.Notches {
			m[step.Name{Kind: step.NameNotch, Piece: pc.Name, Name: n.Name}] = q.Pieces[i].Notches[j].Name
		}
	}
	for i, s := range p.Seams {
		m[step.Name{Kind: step.NameSeam, Name: s.Name}] = q.Seams[i].Name
	}
	for i, l := range p.Lines {
		m[step.Name{Kind: step.NameLine, Name: l.Name}] = q.Lines[i].Name
	}
	return m
}

// spoken leaves of a map what the recipe speaks of.
func spoken(m recipe.Map, r step.Recipe) recipe.Map {
	some := recipe.Map{}
	for n, now := range m {
		some[n] = now
		if _, err := recipe.Rename(r, some, nil); err != nil {
			delete(some, n)
		}
	}
	return some
}

func shapes(t testing.TB, results []step.Result) []string {
	var all []string
	for _, r := range results {
		require.Nil(t, r.Upset(), "%v", r.Upset())
		for _, pc := range r.Size.Pattern.Pieces {
			for _, e := range pc.Edges {
				j, err := json.Marshal([]any{e.Path, e.Allowance, e.Role})
				require.NoError(t, err)
				all = append(all, string(j))
			}
			j, err := json.Marshal([]any{pc.Pose, len(pc.Notches), len(pc.Inner), pc.Marks})
			require.NoError(t, err)
			all = append(all, string(j))
		}
	}
	return all
}

// The lace recipe does the same to a Tern in which everything is called
// otherwise, when it is told what is called how.
func TestARecipeIsDoneOnAPatternWithOtherNames(t *testing.T) {
	run := tern(t)
	theirs := foreign(t, run)
	lace := demo.TernInLace()
	m := spoken(mapOnto(run, theirs), lace)
	opened, err := recipe.Open(theirs, nil, step.Recipe{}.Replay(theirs), lace, m)
	require.NoError(t, err)
	require.Equal(t, len(lace), opened.Added)
	require.Equal(t, shapes(t, lace.Replay(run)), shapes(t, opened.Results))
	again, err := recipe.Rename(lace, recipe.Map{}, nil)
	require.NoError(t, err)
	a, err := json.Marshal(lace)
	require.NoError(t, err)
	b, err := json.Marshal(again)
	require.NoError(t, err)
	require.Equal(t, string(a), string(b), "without a map nothing changes")
}

// Without the map all that is missing is said at once, and each missing name
// that one pair mends is gone from the list.
func TestAllThatIsMissingIsSaidAtOnce(t *testing.T) {
	run := tern(t)
	theirs := foreign(t, run)
	lace := demo.TernInLace()
	known := step.Recipe{}.Replay(theirs)
	_, err := recipe.Open(theirs, nil, known, lace, nil)
	var lacking *recipe.Lacking
	require.True(t, errors.As(err, &lacking))
	for _, piece := range []string{"bridge", "cradle", "band", "inner cup", "upper outer cup"} {
		require.ErrorContains(t, err, `piece "`+piece+`"`)
	}
	require.NotContains(t, err.Error(), `"frame"`, "the recipe makes the frame")
	require.ErrorContains(t, err, `seam "side seam" (steps true-side, true-underarm) is not there; there is "side seam joint"`)

	// Name by name: pieces first, then what is on them.
	all := mapOnto(run, theirs)
	m := recipe.Map{}
	for rounds := 0; ; rounds++ {
		require.Less(t, rounds, 100)
		lacks := recipe.Lacks(lace, m, known)
		if len(lacks) == 0 {
			break
		}
		mended := 0
		for _, l := range lacks {
			if now, ok := all[l.Name]; ok {
				require.NotContains(t, m, l.Name)
				m[l.Name] = now
				mended++
			}
			if l.Name.Kind == step.NameSeam || l.Name.Kind == step.NameLine {
				require.Equal(t, all[l.Name], l.Near[0], "%s", l)
			}
		}
		if mended == 0 {
			// What is left is on a piece that the recipe makes, and so belongs to
			// one of those this is made of.
			for _, l := range lacks {
				require.False(t, l.Sure, "%s", l)
				for n, now := range all {
					if n.Kind == l.Name.Kind && n.Name == l.Name.Name && (n.Piece == "bridge" || n.Piece == "cradle") {
						m[n] = now
					}
				}
			}
		}
	}
	opened, err := recipe.Open(theirs, nil, known, lace, m)
	require.NoError(t, err)
	require.Equal(t, shapes(t, lace.Replay(run)), shapes(t, opened.Results))
}

func TestSavedStepsComeBackAsTheyWere(t *testing.T) {
	var b, c bytes.Buffer
	require.NoError(t, store.WriteSteps(&b, demo.TernInLace()))
	steps, err := store.ReadSteps(bytes.NewReader(b.Bytes()))
	require.NoError(t, err)
	require.NoError(t, store.WriteSteps(&c, steps))
	require.Equal(t, b.String(), c.String())
}

func TestStepsWhoseIdsAreTakenGetNewOnes(t *testing.T) {
	run := tern(t)
	number := step.Lit(-3)
	wide := step.Lit(3)
	have := step.Recipe{{ID: "add", Step: &step.Allow{Piece: "band", Edge: "hem", Width: &wide}}}
	half := step.Figure("add.partner_difference.side seam", 0.5)
	add := step.Recipe{
		{ID: "add", Step: &step.Add{EdgeEnd: step.EdgeEnd{Piece: "band", Edge: "side seam", End: pattern.End}, Amount: number}},
		{ID: "half", Step: &step.Allow{Piece: "band", Edge: "top", Width: &half}},
	}
	results := have.Replay(run)
	opened, err := recipe.Open(run, have, results, add, nil)
	require.NoError(t, err)
	require.Equal(t, map[string]string{"add": "add-2"}, opened.IDs)
	b, err := json.Marshal(opened.Recipe[2])
	require.NoError(t, err)
	require.Contains(t, string(b), `"figure":"add-2.partner_difference.side seam"`)
	require.Equal(t, "add", add[0].ID, "what was opened is as it was")
}

func TestAWrongMapIsRefused(t *testing.T) {
	run := tern(t)
	lace := demo.TernInLace()
	known := step.Recipe{}.Replay(run)
	for _, c := range []struct {
		pairs []string
		want  string
	}{
		{[]string{"cradle"}, "does not say what is called how"},
		{[]string{"cradle="}, "gives no new name"},
		{[]string{"=x"}, "names nothing"},
		{[]string{"notch apex=x"}, "does not say on which piece"},
		{[]string{"cradle=a", "cradle=b"}, `called both "a" and "b"`},
		{[]string{"cradle/hem=band/hem"}, `say "cradle=band" as well`},
		{[]string{"sleeve=band"}, `speak of no piece "sleeve"; they speak of "band"`},
		{[]string{"cradle/cuff=hem"}, `speak of no edge "cuff" of "cradle"`},
		{[]string{"cradle=bridge"}, "would both become"},
		{[]string{"cradle/bridge seam=hem"}, "would both become"},
		{[]string{"cradle=sleeve"}, `piece "cradle" (steps hem-off-cradle`},
		{[]string{"seam side seam=centre seam"}, `called "centre seam" here, is not there`},
		{[]string{"frame=band"}, `piece "frame" (step tape), called "band" here, is made by the recipe, but the pattern has one already`},
	} {
		m, err := recipe.ParseMap(c.pairs...)
		if err == nil {
			_, err = recipe.Open(run, nil, known, lace, m)
		}
		require.ErrorContains(t, err, c.want, "%v", c.pairs)
	}
	for text, want := range map[string]string{"[]": "object of texts", "{}": "empty", `{"a":1}`: "object of texts", `{"a=b":"c"}`: "cannot hold", `{"a`: "object of texts"} {
		_, err := recipe.ReadMap(strings.NewReader(text))
		require.ErrorContains(t, err, want)
	}
	m, err := recipe.ReadMap(strings.NewReader(`{"cradle": "front", "cradle/hem": "front/lower edge", "notch inner cup/apex": "tip", "inner line a/b": "c", "seam side seam": "seam side"}`))
	require.NoError(t, err)
	require.Equal(t, recipe.Map{
		{Kind: step.NamePiece, Name: "cradle"}:                   "front",
		{Kind: step.NameEdge, Piece: "cradle", Name: "hem"}:      "lower edge",
		{Kind: step.NameNotch, Piece: "inner cup", Name: "apex"}: "tip",
		{Kind: step.NameInner, Piece: "a", Name: "b"}:            "c",
		{Kind: step.NameSeam, Name: "side seam"}:                 "side",
	}, m)
	for n, now := range m {
		from, to, err := recipe.ParsePair(recipe.Pair(n, now))
		require.NoError(t, err)
		require.Equal(t, n, from)
		require.Equal(t, now, to.Name)
	}
}

func TestAFreshPieceMayBeCalledOtherwise(t *testing.T) {
	run := tern(t)
	m, err := recipe.ParseMap("frame=front")
	require.NoError(t, err)
	opened, err := recipe.Open(run, nil, step.Recipe{}.Replay(run), demo.TernInLace(), m)
	require.NoError(t, err)
	require.NotNil(t, opened.Results[0].Size.Pattern.Piece("front"))
	require.Equal(t, shapes(t, demo.TernInLace().Replay(run)), shapes(t, opened.Results))
}

func TestSizesAndFiguresAreMissedToo(t *testing.T) {
	run := tern(t)
	known := step.Recipe{}.Replay(run)
	table := step.PerSize(map[string]float64{"75C": 5, "34C": 6})
	figure, gone := step.Figure("pattern.girth", 1), step.Figure("tape.overlap", 1)
	steps := step.Recipe{
		{ID: "a", Sizes: []string{"75C"}, Step: &step.Allow{Piece: "band", Edge: "hem", Width: &table}},
		{ID: "b", Step: &step.Allow{Piece: "band", Edge: "hem", Width: &figure}},
		{ID: "c", Step: &step.Allow{Piece: "band", Edge: "top", Width: &gone}},
	}
	_, err := recipe.Open(run, nil, known, steps, nil)
	for _, want := range []string{`size "34C" (step a) is not there; there is`, `figure "girth" (step b)`, `step "tape" (step c), whose figure is asked for, is no earlier step`} {
		require.ErrorContains(t, err, want)
	}
	require.Equal(t, []step.Name{
		{Kind: step.NamePiece, Name: "band"}, {Kind: step.NameEdge, Piece: "band", Name: "hem"}, {Kind: step.NameEdge, Piece: "band", Name: "top"},
		{Kind: step.NameFigure, Name: "girth"}, {Kind: step.NameSize, Name: "34C"}, {Kind: step.NameSize, Name: "75C"},
	}, recipe.Needs(steps))

	_, err = recipe.Only(steps, []string{"75C"})
	require.ErrorContains(t, err, `step "a" says itself`)
	only, err := recipe.Only(steps[1:2], []string{"75C"})
	require.NoError(t, err)
	require.Equal(t, []string{"75C"}, only[0].Sizes)
	require.Empty(t, steps[1].Sizes)
}

// What taping calls by the names of the pieces follows these.
func TestInnerLinesOfAJointFollowThePieces(t *testing.T) {
	run := tern(t)
	lace := demo.TernInLace()
	i := lace.Index("tape")
	steps := append(lace[:i+1:i+1],
		step.Entry{ID: "clear", Step: &step.Remove{Piece: "frame", Inner: "joint of bridge and cradle"}},
		step.Entry{ID: "call", Step: &step.Rename{Piece: "frame", Inner: "arrow of cradle", To: "old arrow"}})
	theirs := foreign(t, run)
	m := spoken(mapOnto(run, theirs), steps)
	opened, err := recipe.Open(theirs, nil, step.Recipe{}.Replay(theirs), steps, m)
	require.NoError(t, err)
	require.Equal(t, shapes(t, steps.Replay(run)), shapes(t, opened.Results))
}

// A name that only begins like another is a name of its own: nothing of it is
// taken for a piece, or an edge, that is called otherwise.
func TestANameThatBeginsLikeAnotherIsItsOwn(t *testing.T) {
	side := pattern.Pattern{Pieces: []pattern.Piece{square("side", "side", "side seam", "hem"), square("front", "side", "hem", "top")}}
	run := pattern.Run{Name: "x", Sizes: []pattern.Size{{Label: "S", Pattern: side}}}
	theirs := pattern.Run{Name: "y", Sizes: []pattern.Size{{Label: "S", Pattern: side.Clone()}}}
	p := theirs.Sizes[0].Pattern
	p.Pieces[0].Name, p.Pieces[0].Edges[0].Name = "flank", "long"
	three := step.Lit(3)
	cut := &step.CutOff{Piece: "side", From: pattern.Spot{Edge: "side", Along: pattern.Along{Share: 0.3}}, To: pattern.Spot{Edge: "side", Along: pattern.Along{Share: 0.7}},
		Bulge: new(step.Lit(-4)), Keep: "left", Name: "dent", Role: pattern.TurnedBack}
	steps := step.Recipe{
		{ID: "own", Step: &step.Allow{Piece: "side", Edge: "side seam", Width: &three}},
		{ID: "cut", Step: cut},
		{ID: "made", Step: &step.Allow{Piece: "side", Edge: "side after dent", Width: &three}},
		{ID: "again", Step: &step.Allow{Piece: "side", Edge: "side seam", Width: &three}},
	}
	for _, e := range steps.Replay(run)[0].Reports {
		require.Equal(t, step.Applied, e.State, "%s: %s", e.ID, e.Error)
	}
	m, err := recipe.ParseMap("side=flank", "side/side=long")
	require.NoError(t, err)
	opened, err := recipe.Open(theirs, nil, step.Recipe{}.Replay(theirs), steps, m)
	require.NoError(t, err)
	require.Equal(t, "side seam", opened.Recipe[0].Step.(*step.Allow).Edge)
	require.Equal(t, "long after dent", opened.Recipe[2].Step.(*step.Allow).Edge)
	require.Equal(t, "side seam", opened.Recipe[3].Step.(*step.Allow).Edge)

	// Spoken of only after a step that can have put names together.
	opened, err = recipe.Open(theirs, nil, step.Recipe{}.Replay(theirs), append(step.Recipe{steps[1]}, steps[3]), m)
	require.NoError(t, err)
	require.Equal(t, "side seam", opened.Recipe[1].Step.(*step.Allow).Edge)
}

// square is a piece of 100 by 100 whose first edges have those names.
func square(name string, edges ...string) pattern.Piece {
	corners := []geom.Point{geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 100), geom.Pt(0, 100)}
	pc := pattern.Piece{Name: name, Pose: geom.Identity(), Cut: pattern.Cut{Count: 1}, Arrow: pattern.Arrow{Kind: pattern.Grain, From: geom.Pt(50, 30), To: geom.Pt(50, 70)}}
	for i, a := range corners {
		e := pattern.Edge{Name: "last", Role: pattern.Hem, Path: geom.Must(geom.Polyline(a, corners[(i+1)%4]))}
		if i < len(edges) {
			e.Name = edges[i]
		}
		pc.Edges = append(pc.Edges, e)
	}
	return pc
}

// That the band is not offered for a part that a step left out would have cut
// off it is told, where the steps speak of the band too.
func TestANameLikeOneThatIsSpokenOfIsTold(t *testing.T) {
	five := step.Lit(5)
	steps := step.Recipe{
		{ID: "a", Step: &step.Allow{Piece: "band", Edge: "hem", Width: &five}},
		{ID: "b", Step: &step.Allow{Piece: "inner cup", Edge: "wire", Width: &five}},
		{ID: "c", Step: &step.Allow{Piece: "band part", Edge: "hem", Width: &five}},
	}
	known := step.Recipe{}.Replay(tern(t))
	part := step.Name{Kind: step.NamePiece, Name: "band part"}
	lacks := recipe.Lacks(steps, nil, known)
	require.Len(t, lacks, 1)
	require.Equal(t, part, lacks[0].Name)
	require.NotContains(t, lacks[0].Near, "band")
	require.Equal(t, []string{"band", "inner cup"}, lacks[0].Spoken, "the likest first")
	_, err := recipe.Open(tern(t), nil, known, steps, recipe.Map{part: "band"})
	require.ErrorContains(t, err, "would both become piece")

	lacks = recipe.Lacks(steps[1:], nil, known)
	require.Equal(t, "band", lacks[0].Near[0], "where no other step speaks of it")
	require.Equal(t, []string{"inner cup"}, lacks[0].Spoken)
	_, err = recipe.Open(tern(t), nil, known, steps[1:], recipe.Map{part: "band"})
	require.NoError(t, err)
}
