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
	steps, err := readSteps(path)
	require.NoError(t, err)

	b := w.stepsPage("lace.json", steps)
	said := strings.Join(texts(w.sheet.pop.Content), " ")
	require.Contains(t, said, `piece "wing"`)
	require.Contains(t, said, `piece "shell"`)
	require.True(t, b.do.disabled)
	test.Tap(b.do)
	require.Equal(t, before, w.written(t), "nothing is done before the names fit")

	for range 4 {
		for _, l := range w.desk.Lacks(b.steps, b.names) {
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
	require.Empty(t, w.desk.Lacks(b.steps, b.names))
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
	_, err := readSteps(path)
	require.ErrorContains(t, err, "fly")
	run, err := demo.Tern()
	require.NoError(t, err)
	bare := filepath.Join(dir, "bare.truemat")
	require.NoError(t, store.Save(bare, store.Document{Source: run}))
	_, err = readSteps(bare)
	require.ErrorContains(t, err, "no steps")
	_, err = readSteps(filepath.Join(dir, "none.json"))
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
	require.False(t, b.do.disabled)

	set("tape", false)
	require.Contains(t, said(), fmt.Sprintf("It needs step %d, left out", steps.Index("tape")+1))
	require.Contains(t, said(), "Left out: Tape")
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

func TestAPieceThatOtherStepsSpeakOfIsToldNotToStandForAnother(t *testing.T) {
	w := open(t, false)
	five := step.Lit(5)
	w.stepsPage("steps.json", step.Recipe{
		{ID: "a", Step: &step.Allow{Piece: "band", Edge: "hem", Width: &five}},
		{ID: "b", Step: &step.Allow{Piece: "inner cup", Edge: "wire", Width: &five}},
		{ID: "c", Step: &step.Allow{Piece: "band part", Edge: "hem", Width: &five}},
	})
	require.Contains(t, strings.Join(texts(w.sheet.pop.Content), " "), `piece "band part", in step 3; band cannot stand for it, since other steps speak of that too`)
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
	require.Contains(t, said(), "Every name they speak of is here.")
	test.Tap(b.do)
	line := strings.Join(texts(w.prompt.row), " ")
	require.Contains(t, line, "2 steps are done; Ctrl+Z takes all of them back. Red now: Allowances of side seam.")
}
