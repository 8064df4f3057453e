package window

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"truemat/ops/demo"
	"truemat/ops/step"
	"truemat/ops/store"
)

// renamed is the demo recipe as it would be of a pattern that calls the cradle
// a shell, the band a wing and its hem the lower edge.
func renamed(t *testing.T) step.Recipe {
	t.Helper()
	steps := demo.TernInLace()
	for i := range steps {
		e, err := steps[i].Clone()
		require.NoError(t, err)
		for _, m := range e.Mentions() {
			if m.Kind == step.NameEdge && m.Piece == "band" && m.Name.Name == "hem" {
				m.Set("lower edge")
			}
		}
		for _, m := range e.Mentions() {
			if now := map[string]string{"band": "wing", "cradle": "shell"}[m.Name.Name]; m.Kind == step.NamePiece && now != "" {
				m.Set(now)
			}
		}
		steps[i] = e
	}
	return steps
}

func TestStepsOfAnotherPatternAreDoneInOneActOnceTheirNamesFit(t *testing.T) {
	w := open(t, false)
	before := w.written(t)
	path := filepath.Join(t.TempDir(), "lace.json")
	f, err := os.Create(path)
	require.NoError(t, err)
	require.NoError(t, store.WriteSteps(f, renamed(t)))
	require.NoError(t, f.Close())
	steps, _, err := readSteps(path)
	require.NoError(t, err)

	b := w.stepsPage("lace.json", steps)
	said := strings.Join(texts(w.sheet.pop.Content), " ")
	require.Contains(t, said, `piece "wing"`)
	require.Contains(t, said, `piece "shell"`)
	require.True(t, b.do.disabled)
	test.Tap(b.do)
	require.Equal(t, before, w.written(t), "nothing is done before the names fit")

	for range 4 {
		for _, l := range w.desk.TryRecipe(b.steps, b.names)().Lacks {
			for _, f := range reachable(b.list) {
				c, ok := f.(*choice)
				if !ok || c.name != l.Name.String() {
					continue
				}
				switch l.Name.Name {
				case "shell":
					c.SetSelected("cradle")
				case "wing":
					c.SetSelected("band")
				case "lower edge":
					c.SetSelected("hem")
				}
				break
			}
		}
	}
	require.Empty(t, w.desk.TryRecipe(b.steps, b.names)().Lacks)
	require.False(t, b.do.disabled)
	test.Tap(b.do)
	require.Nil(t, w.sheet, strings.Join(texts(b.sheet.wrong), " "))
	require.Len(t, w.desk.Document().Recipe, len(steps))
	for _, r := range w.desk.Results() {
		require.False(t, r.Behind(), r.Reason())
	}
	w.undo()
	require.Equal(t, before, w.written(t), "one act takes all of it back")
}

func TestStepsThatCannotBeReadAreToldAndChangeNothing(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "torn.json")
	require.NoError(t, os.WriteFile(path, []byte(`[{"id": "a", "do": "fly"}]`), 0o644))
	_, _, err := readSteps(path)
	require.ErrorContains(t, err, "fly")
	run, err := demo.Tern()
	require.NoError(t, err)
	bare := filepath.Join(dir, "bare.truemat")
	require.NoError(t, store.Save(bare, store.Document{Source: run}))
	_, _, err = readSteps(bare)
	require.ErrorContains(t, err, "no steps")
	_, _, err = readSteps(filepath.Join(dir, "none.json"))
	require.Error(t, err)
}

// Each step of another pattern can be left out before they are done; one that
// needs a left-out one says so, and nothing is done before that is settled.
func TestStepsOfAnotherPatternAreLeftOutOneByOne(t *testing.T) {
	w := open(t, false)
	before := w.written(t)
	steps := demo.TernInLace()
	b := w.stepsPage("lace.json", steps)
	set := func(id string, on bool) {
		t.Helper()
		for _, f := range reachable(b.told) {
			if k, ok := f.(*tick); ok && k.Text == strconv.Itoa(steps.Index(id)+1) {
				require.NotEqual(t, on, k.Checked)
				k.SetChecked(on)
				return
			}
		}
		t.Fatal(id)
	}
	said := func() string { return strings.Join(texts(w.sheet.pop.Content), " ") }
	require.Contains(t, said(), "Do all of them")
	require.NotContains(t, said(), `step "`, "steps are named by their places")
	require.False(t, b.do.disabled)

	set("tape", false)
	require.Contains(t, said(), fmt.Sprintf("It needs step %d, left out", steps.Index("tape")+1))
	require.True(t, b.do.disabled, "what is taped is not there")
	require.Contains(t, said(), fmt.Sprintf("Do %d of %d", len(steps)-1, len(steps)))
	test.Tap(b.do)
	require.Equal(t, before, w.written(t))

	set("tape", true)
	require.NotContains(t, said(), "left out")
	for _, e := range steps {
		if e.ID != "band-hem" {
			set(e.ID, false)
		}
	}
	require.False(t, b.do.disabled, said())
	require.NotContains(t, said(), "It needs")
	test.Tap(b.do)
	require.Nil(t, w.sheet, strings.Join(texts(b.sheet.wrong), " "))
	require.Len(t, w.desk.Document().Recipe, 1)
	require.Equal(t, "band-hem", w.desk.Document().Recipe[0].ID)
	w.undo()
	require.Equal(t, before, w.written(t))
}

func TestAPieceThatOtherStepsSpeakOfIsOfferedLastAndRefusedWithWords(t *testing.T) {
	w := open(t, false)
	five := step.Lit(5)
	b := w.stepsPage("steps.json", step.Recipe{
		{ID: "a", Step: &step.Allow{Piece: "band", Edge: "hem", Width: &five}},
		{ID: "b", Step: &step.Allow{Piece: "inner cup", Edge: "wire", Width: &five}},
		{ID: "c", Step: &step.Allow{Piece: "band part", Edge: "hem", Width: &five}},
	})
	c := b.field(t, `piece "band part"`)
	require.Equal(t, []string{"band (is band of step 1)", "inner cup (is inner cup of step 2)"}, c.Options[len(c.Options)-2:])
	require.Contains(t, c.Options, "cradle")
	c.SetSelected("band (is band of step 1)")
	require.Contains(t, strings.Join(texts(w.sheet.pop.Content), " "), `Piece "band" and piece "band part" cannot both be "band" here: choose another for one of them, or leave its steps out.`)
	require.True(t, b.do.disabled, "told before it is pressed")
	require.Contains(t, strings.Join(texts(b.list), " "), "band is band already")
	b.field(t, `piece "band part"`).SetSelected("cradle")
	require.False(t, b.do.disabled)
}

// field is the field on the page in which it is said what a name is called here.
func (b *borrowing) field(t *testing.T, name string) *choice {
	t.Helper()
	for _, f := range reachable(b.list) {
		if c, ok := f.(*choice); ok && c.name == name {
			return c
		}
	}
	t.Fatalf("%s is not asked for", name)
	return nil
}

// set ticks a step of the page, or takes its tick off.
func (b *borrowing) set(t *testing.T, place int, on bool) {
	t.Helper()
	for _, f := range reachable(b.told) {
		if k, ok := f.(*tick); ok && k.Text == strconv.Itoa(place) {
			k.SetChecked(on)
			return
		}
	}
	t.Fatal(place)
}

// cupSteps are steps that make themselves what later ones find: cutting off puts
// a notch where the new edge ends, and unfolding leaves the line of the fold.
func cupSteps(t *testing.T) step.Recipe {
	t.Helper()
	steps, err := store.ReadSteps(strings.NewReader(`[
		{"id": "cut-off-2", "do": "cut-off", "piece": "inner cup", "from": {"piece": "inner cup", "edge": "wire", "from": "start"},
		 "to": {"piece": "inner cup", "edge": "vertical seam", "mm": 110}, "keep": "right", "name": "neckline", "role": "neckline"},
		{"id": "walk-3", "do": "walk", "seam": "vertical seam", "drop": [{"on": "a", "spot": {"piece": "upper outer cup", "notch": "neckline end"}}]},
		{"id": "smooth-4", "do": "smooth", "piece": "upper outer cup", "edge": "underarm", "at": {"share": 0.59}, "reach": 15},
		{"id": "unfold-6", "do": "unfold", "piece": "bridge", "other": "her right"},
		{"id": "fold-7", "do": "fold", "piece": "bridge", "along": "fold"},
		{"id": "mark-8", "do": "mark", "pieces": ["inner cup", "upper outer cup", "lower outer cup"], "text": "ALTERED"}]`))
	require.NoError(t, err)
	return steps
}

// What the steps make themselves is not asked for; left out, the step that makes
// it is named, and what stands for it can be taken back.
func TestWhatTheStepsMakeThemselvesIsNotAskedFor(t *testing.T) {
	w := open(t, false)
	b := w.stepsPage("cup.json", cupSteps(t))
	said := func() string { return strings.Join(texts(w.sheet.pop.Content), " ") }
	require.Contains(t, said(), "Every name they speak of is here, and every step can be done.")
	require.Empty(t, reachable(b.list))

	b.set(t, 1, false)
	require.Contains(t, said(), `One name is not here`)
	require.Contains(t, said(), "It needs step 1, left out")
	c := b.field(t, `notch "neckline end" of "upper outer cup"`)
	require.NotContains(t, c.Options, asIs)
	c.SetSelected("cross")
	c = b.field(t, `notch "neckline end" of "upper outer cup"`)
	require.Equal(t, asIs, c.Options[0])
	require.Contains(t, said(), "Step 2 cannot be done here: ")
	tall, rows := b.sheet.pop.Content.Size().Height, b.told.MinSize().Height
	require.NotContains(t, said(), "walk-3")
	require.True(t, b.do.disabled)
	c.SetSelected(asIs)
	require.Contains(t, said(), "It needs step 1, left out", "as if nothing had been said")
	require.Empty(t, b.names)

	b.set(t, 1, true)
	require.Empty(t, reachable(b.list))
	require.Equal(t, tall, b.sheet.pop.Content.Size().Height, "the page stays as tall")
	require.LessOrEqual(t, b.told.MinSize().Height, rows)
	test.Tap(b.do)
	require.Nil(t, w.sheet)
	require.Len(t, w.desk.Document().Recipe, 6)
}

// On a strip every edge can be what the steps call otherwise, and the rows of a
// step that is left out go.
func TestEveryEdgeIsOfferedAndRowsOfLeftOutStepsGo(t *testing.T) {
	w := open(t, false)
	require.NoError(t, w.desk.Accept(&step.Plain{Name: "strip", Width: step.Lit(200), Height: step.Lit(90), Allowance: step.Lit(6)}))
	b := w.stepsPage("cup.json", cupSteps(t)[2:])
	b.names[step.Name{Kind: step.NamePiece, Name: "upper outer cup"}] = "strip"
	b.look(b.lay)
	c := b.field(t, `edge "underarm" of "upper outer cup"`)
	require.ElementsMatch(t, []string{"left", "bottom", "right", "top"}, c.Options)
	c.SetSelected("top")
	require.False(t, b.do.disabled, strings.Join(texts(w.sheet.pop.Content), " "))
	b.set(t, 1, false)
	require.Empty(t, b.list.Objects)
	b.set(t, 1, true)
	require.Equal(t, "top", b.field(t, `edge "underarm" of "upper outer cup"`).Selected, "what was said is kept")

	w.stepsPage("seam.json", step.Recipe{{ID: "walk-1", Step: &step.Walk{Seam: "shoulder", Ease: new(step.Lit(2))}}})
	require.NotContains(t, strings.Join(texts(w.sheet.pop.Content), " "), "nor anything", "there are other seams")
	b = w.stepsPage("line.json", step.Recipe{{ID: "fold-1", Step: &step.Fold{Piece: "strip", Along: "crease"}}})
	require.Contains(t, strings.Join(texts(w.sheet.pop.Content), " "), "nor anything that could stand for it: leave those steps out, or make it first.")
	require.Contains(t, strings.Join(texts(b.list), " "), `inner line "crease" of "strip", in step 1; there is no inner line here that could stand for it: leave step 1 out`)
	require.True(t, b.do.disabled)
}

// A step whose left-out maker is made up for by saying what is meant here is told
// so no more; the line above the tools then says that they are done and what
// broke.
func TestANameThatWasSaidIsNotAskedForAndWhatStepsBreakIsTold(t *testing.T) {
	w := open(t, false)
	nine := step.Lit(9)
	steps := step.Recipe{
		{ID: "pocket", Step: &step.Plain{Name: "pocket", Width: step.Lit(60), Height: step.Lit(80), Allowance: step.Lit(6)}},
		{ID: "wide", Step: &step.Allow{Piece: "pocket", Edge: "top", Width: &nine}},
		{ID: "side", Step: &step.Allow{Piece: "cradle", Edge: "side seam", Width: &nine}},
	}
	b := w.stepsPage("pocket.json", steps)
	said := func() string { return strings.Join(texts(w.sheet.pop.Content), " ") }
	for _, f := range reachable(b.told) {
		if k, ok := f.(*tick); ok && k.Text == "1" {
			k.SetChecked(false)
			break
		}
	}
	require.Contains(t, said(), "It needs step 1, left out")
	for _, name := range []string{"pocket", "top"} {
		for _, f := range reachable(b.list) {
			if c, ok := f.(*choice); ok && strings.Contains(c.name, `"`+name+`"`) {
				c.SetSelected(map[string]string{"pocket": "band", "top": "top"}[name])
				break
			}
		}
	}
	require.Equal(t, "band", b.names[step.Name{Kind: step.NamePiece, Name: "pocket"}], said())
	require.NotContains(t, said(), "It needs")
	require.Contains(t, said(), "Every name they speak of is here, and every step can be done.")
	test.Tap(b.do)
	line := strings.Join(texts(w.prompt.row), " ")
	require.Contains(t, line, "2 steps are done; Ctrl+Z takes all of them back. Red now: Allowances of side seam.")
}
