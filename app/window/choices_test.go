package window

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// choose picks by label and words in the step that is opened.
func (w *Window) choosePick(t *testing.T, id, label, words string) step.Entry {
	t.Helper()
	recipe := w.desk.Document().Recipe
	i := recipe.Index(id)
	require.GreaterOrEqual(t, i, 0)
	var have []string
	for _, k := range picks(recipe[i], w.desk.Before(i)) {
		for n, o := range k.words {
			if k.label == label && o == words {
				next, err := k.with(recipe[i], n)
				require.NoError(t, err)
				require.NoError(t, w.desk.Replace(next))
				return w.desk.Document().Recipe[i]
			}
			if k.label == label {
				have = append(have, o)
			}
		}
	}
	require.FailNow(t, "it cannot be picked", "%s of %s: %q", label, id, have)
	return step.Entry{}
}

func TestSpotsRolesAndEndsOfAStepArePicked(t *testing.T) {
	w := open(t, true)
	e := w.choosePick(t, "straight-hem", "Role", "hem")
	require.Equal(t, pattern.Hem, e.Step.(*step.Straighten).Role)
	e = w.choosePick(t, "neckline", "To", "notch below apex, inner cup")
	require.Equal(t, pattern.AtNotch("inner cup", "below apex"), e.Step.(*step.CutOff).To)
	e = w.choosePick(t, "turn", "Direction", "anticlockwise")
	b, err := json.Marshal(e)
	require.NoError(t, err)
	require.Contains(t, string(b), `"ccw"`)
}

func TestJointsOfAListAreAddedAndLeftOut(t *testing.T) {
	w := open(t, true)
	e := w.choosePick(t, "share-out", "And also", "hem at the side seam, frame")
	require.Len(t, e.Step.(*step.ShareOut).Onto, 3)
	e = w.choosePick(t, "share-out", "Gets a part 1", leftOut)
	onto := e.Step.(*step.ShareOut).Onto
	require.Len(t, onto, 2)
	require.Equal(t, "band", onto[0].Piece)
	e = w.choosePick(t, "share-out", "Gets a part 1", "side seam at the top, band")
	require.Equal(t, pattern.Start, e.Step.(*step.ShareOut).Onto[0].End)
}

func TestNamesOfAListAreTyped(t *testing.T) {
	w := open(t, true)
	i := w.desk.Document().Recipe.Index("mark")
	w.column.open = "mark"
	w.refresh()
	in := entryHolding(t, w.column.list, "frame, band, inner cup, upper outer cup")
	in.SetText("frame, sleeve")
	in.OnSubmitted(in.Text)
	require.ErrorContains(t, w.column.wrong, `"sleeve"`)
	in = entryHolding(t, w.column.list, "frame, band, inner cup, upper outer cup")
	in.SetText("frame,band")
	in.OnSubmitted(in.Text)
	require.NoError(t, w.column.wrong)
	require.Equal(t, []string{"frame", "band"}, w.desk.Document().Recipe[i].Step.(*step.Mark).Pieces)
}

func TestEveryPickGivesAStepThatIsRead(t *testing.T) {
	w := open(t, true)
	n := 0
	for i, e := range w.desk.Document().Recipe {
		for _, k := range picks(e, w.desk.Before(i)) {
			same, err := k.with(e, k.now)
			require.NoError(t, err)
			if k.label != "And also" {
				require.Equal(t, e.Step, same.Step, "%s of %s", k.label, e.ID)
			}
			for j := range k.words {
				_, err := k.with(e, j)
				require.NoError(t, err, "%s %s of %s", k.label, k.words[j], e.ID)
				n++
			}
		}
	}
	require.Greater(t, n, 100)
}

// The parts of lists can be edited, too: where a slash begins, on another edge
// and at a typed share of it; seams and edges are picked by name.
func TestPlacesAlongEdgesSeamsAndSidesAreEdited(t *testing.T) {
	w := open(t, false)
	hinge := pattern.AtEnd("lower outer cup", "cross seam", pattern.End)
	by := step.Lit(5)
	require.NoError(t, w.desk.Accept(&step.Spread{Piece: "lower outer cup", Amount: &by, Slashes: []step.Slash{{
		From: pattern.Spot{Piece: "lower outer cup", Edge: "wire", Along: pattern.Along{Share: 0.4}}, Hinge: &step.Hinge{Spot: &hinge}}}}))
	require.NoError(t, w.desk.Accept(&step.Level{Seam: "wire seam", Bend: "both", Limit: ptr(step.Lit(9))}))
	recipe := w.desk.Document().Recipe
	spread, level := recipe[0].ID, recipe[1].ID

	var share number
	for _, n := range numbers(recipe[0]) {
		if label(n.path) == "Slash 1, from: part of its length" {
			share = n
		}
	}
	require.Equal(t, 0.4, share.value)
	next, err := share.with(recipe[0], "0.3")
	require.NoError(t, err)
	require.NoError(t, w.desk.Replace(next))
	from := func() pattern.Spot { return w.desk.Document().Recipe[0].Step.(*step.Spread).Slashes[0].From }
	require.InDelta(t, 0.3, from().Share, 0)
	w.choosePick(t, spread, "Slash 1, from", "along vertical seam, from its middle, lower outer cup")
	require.Equal(t, pattern.Spot{Piece: "lower outer cup", Edge: "vertical seam", Along: pattern.Along{Share: 0.5}}, from())

	e := w.choosePick(t, level, "Seam", "vertical seam")
	require.Equal(t, "vertical seam", e.Step.(*step.Level).Seam)
	e = w.choosePick(t, level, "Bends", "second side")
	require.Equal(t, "b", e.Step.(*step.Level).Bend)
}

func ptr[T any](v T) *T { return &v }

func TestKeepingTheLengthOfASmoothingIsPicked(t *testing.T) {
	w := open(t, true)
	id, at := "", 0
	for i, e := range w.desk.Document().Recipe {
		if _, ok := e.Step.(*step.Smooth); ok {
			id, at = e.ID, i
		}
	}
	require.NotEmpty(t, id)
	w.choosePick(t, id, "Keep its length", "no")
	require.Empty(t, w.desk.Document().Recipe[at].Step.(*step.Smooth).Keep)
	w.choosePick(t, id, "Keep its length", "yes")
	require.Equal(t, "length", w.desk.Document().Recipe[at].Step.(*step.Smooth).Keep)
}

// Labels say in the maker's words what a value of a step is.
func TestLabelsOfStepsAreWords(t *testing.T) {
	for path, want := range map[string]string{
		"from":                 "From",
		"from from":            "From: counted from",
		"from share":           "From: part of its length",
		"slashes 0 from":       "Slash 1, from",
		"slashes 0 from from":  "Slash 1, from: counted from",
		"slashes 0 hinge spot": "Slash 1, hinge",
		"a":                    "First side",
		"onto 1":               "Gets a part 2",
		"until spot":           "Until",
		"keep_length":          "Keep length",
	} {
		require.Equal(t, want, label(strings.Fields(path)), path)
	}
}
