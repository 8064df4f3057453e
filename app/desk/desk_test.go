package desk

import (
	"bytes"
	"math"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/demo"
	"truemat/ops/step"
	"truemat/ops/store"
)

var _ tool.Table = (*Desk)(nil)

func tern(t require.TestingT) *Desk {
	run, err := demo.Tern()
	require.NoError(t, err)
	d, err := New(store.Document{Source: run}, "")
	require.NoError(t, err)
	return d
}

func inLace(t require.TestingT) *Desk {
	run, err := demo.Tern()
	require.NoError(t, err)
	d, err := New(store.Document{Source: run, Recipe: demo.TernInLace()}, "")
	require.NoError(t, err)
	return d
}

func bytesOf(t require.TestingT, d *Desk) string {
	var b bytes.Buffer
	require.NoError(t, store.Write(&b, d.Document()))
	return b.String()
}

func move(piece string, dx, dy float64) step.Step {
	return &step.Move{Piece: piece, DX: step.Lit(dx), DY: step.Lit(dy)}
}

// entry returns the entry of the demo recipe with that id.
func entry(t *testing.T, d *Desk, id string) step.Entry {
	t.Helper()
	r := d.Document().Recipe
	i := r.Index(id)
	require.GreaterOrEqual(t, i, 0, id)
	return r[i]
}

func states(d *Desk) map[string]step.State {
	m := map[string]step.State{}
	for _, r := range d.Reports() {
		m[r.ID] = r.State
	}
	return m
}

func TestUndoAndRedoGiveTheSameBytes(t *testing.T) {
	d := tern(t)
	versions := []string{bytesOf(t, d)}
	for _, e := range demo.TernInLace() {
		if e.ID == "share-out" {
			continue // refers to the tape step by the id it has in the demo
		}
		require.NoError(t, d.Accept(e.Step), e.ID)
		versions = append(versions, bytesOf(t, d))
	}
	require.Equal(t, d.Document().Results(), d.results, "as when the file is opened again")
	last := len(versions) - 1
	for i := last - 1; i >= 0; i-- {
		require.True(t, d.CanUndo())
		require.True(t, d.Undo())
		require.Equal(t, versions[i], bytesOf(t, d))
	}
	require.False(t, d.CanUndo())
	require.False(t, d.Undo())
	for i := 1; i <= last; i++ {
		require.True(t, d.CanRedo())
		require.True(t, d.Redo())
		require.Equal(t, versions[i], bytesOf(t, d))
	}
	require.False(t, d.Redo())
}

func TestDragsOfOnePieceBecomeOneStepAndEachCanBeTakenBack(t *testing.T) {
	d := tern(t)
	at := d.Pattern().Piece("band").Pose
	require.NoError(t, d.Accept(move("band", 3, 4)))
	require.NoError(t, d.Accept(move("bridge", 1, 0)))
	require.NoError(t, d.Accept(move("band", 10, 20)))
	require.Len(t, d.Document().Recipe, 2)
	moved := d.Pattern().Piece("band").Pose
	require.InDelta(t, 13, moved.Apply(geom.Point{}).X-at.Apply(geom.Point{}).X, 1e-9)
	require.InDelta(t, 24, moved.Apply(geom.Point{}).Y-at.Apply(geom.Point{}).Y, 1e-9)
	require.True(t, d.Undo())
	require.InDelta(t, 3, d.Pattern().Piece("band").Pose.Apply(geom.Point{}).X-at.Apply(geom.Point{}).X, 1e-9)
}

func TestRefusalChangesNothing(t *testing.T) {
	d := tern(t)
	require.NoError(t, d.Accept(move("band", 1, 1)))
	require.True(t, d.Undo(), "so that there is something to redo")
	before, called := bytesOf(t, d), 0
	d.OnChange(func() { called++ })
	refused := []error{
		d.Accept(move("no such piece", 1, 1)),
		d.Accept(move("band", math.NaN(), 0)),
		d.Accept(move("band", 1, 1), &step.Straighten{Piece: "band"}),
		d.Replace(step.Entry{ID: "none", Step: move("band", 1, 1)}),
		d.Remove("none"),
		d.Switch("none", true),
		d.SetSize("none"),
		d.Save(filepath.Join(t.TempDir(), "no", "folder")),
	}
	for i, err := range refused {
		require.Error(t, err, i)
	}
	require.Equal(t, before, bytesOf(t, d))
	require.True(t, d.CanRedo())
	require.Zero(t, called)
	require.Empty(t, d.Path())
	require.ErrorContains(t, d.SetSize("none"), "75C")

	require.NoError(t, d.Accept(move("band", 1, 1)))
	before = bytesOf(t, d)
	require.Error(t, d.Accept(move("band", math.NaN(), 0)), "nor does it slip into an earlier move")
	require.Equal(t, before, bytesOf(t, d))
}

func TestEditOfAnEarlyStepUpsetsLaterOnesUntilItIsMended(t *testing.T) {
	d := inLace(t)
	good := bytesOf(t, d)
	tape := entry(t, d, "tape")
	other := *tape.Step.(*step.Tape)
	other.Name = "whole front"
	edited := tape
	edited.Step = &other
	require.NoError(t, d.Replace(edited))
	s := states(d)
	assert.Equal(t, step.Applied, s["tape"])
	assert.Equal(t, step.Upset, s["straight-hem"])
	assert.Equal(t, step.Applied, s["band-hem"], "what does not hang on it still applies")
	require.NotNil(t, d.Pattern().Piece("whole front"))
	for _, st := range d.SizeStates() {
		assert.True(t, st.Behind, st.Label)
	}
	require.NoError(t, d.Pattern().Validate())
	require.NoError(t, d.Replace(tape))
	require.Equal(t, good, bytesOf(t, d))
	require.NotContains(t, states(d), step.Upset)
}

func TestSwitchLeavesAStepOutAndTakesItInAgain(t *testing.T) {
	d := inLace(t)
	good := bytesOf(t, d)
	require.NoError(t, d.Switch("mark", true))
	require.Equal(t, step.Off, states(d)["mark"])
	require.Empty(t, d.Pattern().Piece("frame").Marks)
	require.NoError(t, d.Switch("mark", false))
	require.Equal(t, good, bytesOf(t, d))
	require.NotEmpty(t, d.Pattern().Piece("frame").Marks)
	require.NoError(t, d.Remove("mark"))
	require.Less(t, d.Document().Recipe.Index("mark"), 0)
}

func TestLookShowsEarlierStatesAndChangesNothing(t *testing.T) {
	d := inLace(t)
	doc := bytesOf(t, d)
	d.Look(0)
	require.NotNil(t, d.Pattern().Piece("cradle"))
	require.Equal(t, 0, d.Looking())
	require.Len(t, d.Reports(), len(demo.TernInLace()), "the list of steps stays whole")
	tape := d.Document().Recipe.Index("tape")
	d.Look(tape)
	require.NotNil(t, d.Pattern().Piece("cradle"))
	require.NotContains(t, d.Figures(), "tape.overlap")
	d.Look(tape + 1)
	require.Nil(t, d.Pattern().Piece("cradle"))
	require.Contains(t, d.Figures(), "tape.overlap")
	d.Look(1000)
	require.NotEmpty(t, d.Pattern().Piece("frame").Marks)
	d.Look(3)
	require.Equal(t, doc, bytesOf(t, d))
	require.NoError(t, d.Accept(move("band", 1, 1)))
	require.Equal(t, -1, d.Looking(), "an act comes after all steps and shows them")
}

func TestTryKeepsNothing(t *testing.T) {
	d := tern(t)
	before := bytesOf(t, d)
	res, err := d.Try(move("band", 5, 0))
	require.NoError(t, err)
	require.NotEqual(t, d.Pattern().Piece("band").Pose, res.Size.Pattern.Piece("band").Pose)
	_, err = d.Try(move("nobody", 5, 0))
	require.Error(t, err)
	require.Equal(t, before, bytesOf(t, d))
	require.False(t, d.CanUndo())
}

func TestSizesAreShownOneByOneWithTheirStates(t *testing.T) {
	d := inLace(t)
	labels := d.Document().Source.Labels()
	require.Equal(t, labels[0], d.Size())
	st := d.SizeStates()
	require.Len(t, st, len(labels))
	for i, label := range labels {
		require.Equal(t, label, st[i].Label)
		require.False(t, st[i].Behind)
		require.NotEqual(t, check.Broken, st[i].Worst, label)
		require.NoError(t, d.SetSize(label))
		require.Equal(t, label, d.Size())
		require.Equal(t, st[i].Worst, check.Worst(d.Checks()))
	}
	source, _ := d.Document().Source.Size(d.Size())
	require.Equal(t, source.Pattern.Piece("band").Edges[0].Path, d.Source().Piece("band").Edges[0].Path)

	e := entry(t, d, "tape")
	e.Sizes = labels[:1]
	require.NoError(t, d.Replace(e))
	for i, s := range d.SizeStates() {
		require.Equal(t, i > 0, s.Behind, s.Label)
	}
}

func TestSelectionIsDroppedWithWhatIsGone(t *testing.T) {
	d := inLace(t)
	called := 0
	d.OnChange(func() { called++ })
	d.Select(tool.Selection{Piece: "frame", Edge: "hem"})
	d.Select(tool.Selection{Piece: "frame", Edge: "hem"})
	require.Equal(t, 1, called, "selecting the same again is no change")
	require.NoError(t, d.SetSize("75C"))
	require.Equal(t, "frame", d.Selection().Piece)
	d.Look(0)
	require.Empty(t, d.Selection())
	d.Select(tool.Selection{Piece: "upper", Notch: "no such notch"})
	d.Look(-1)
	require.Empty(t, d.Selection())
	d.Select(tool.Selection{Piece: "frame", Edge: "wire", Joint: true})
	require.NoError(t, d.Remove("tape"))
	require.Empty(t, d.Selection())
}

func TestUnsavedTellsWhetherTheDiskHasIt(t *testing.T) {
	d := tern(t)
	require.True(t, d.Unsaved(), "it was never saved")
	path := filepath.Join(t.TempDir(), "a.truemat")
	require.NoError(t, d.Save(path))
	require.Equal(t, path, d.Path())
	require.False(t, d.Unsaved())
	require.NoError(t, d.Accept(move("band", 1, 1)))
	require.True(t, d.Unsaved())
	d.Undo()
	require.False(t, d.Unsaved())
	d.Redo()
	require.NoError(t, d.Save(path))
	d.Undo()
	require.True(t, d.Unsaved())
	require.NoError(t, d.Accept(move("band", 2, 2)))
	require.True(t, d.Unsaved(), "as many changes, but another one")
	d.Undo()
	require.True(t, d.Unsaved())

	doc, err := store.Load(path)
	require.NoError(t, err)
	again, err := New(doc, path)
	require.NoError(t, err)
	require.False(t, again.Unsaved())
}

func TestNewRefusesADamagedDocument(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	_, err = New(store.Document{}, "")
	require.Error(t, err)
	_, err = New(store.Document{Source: run, Recipe: step.Recipe{{ID: ""}}}, "")
	require.Error(t, err)
}

func TestNoOrderOfActsLeavesAnInvalidDocument(t *testing.T) {
	steps := demo.TernInLace()
	rapid.Check(t, func(t *rapid.T) {
		d := tern(t)
		for range rapid.IntRange(1, 6).Draw(t, "acts") {
			i := rapid.IntRange(0, len(steps)-1).Draw(t, "step")
			switch rapid.IntRange(0, 6).Draw(t, "act") {
			case 0, 1:
				_ = d.Accept(steps[i].Step)
			case 2:
				d.Undo()
			case 3:
				d.Redo()
			case 4:
				d.Look(rapid.IntRange(-3, 9).Draw(t, "n"))
			default:
				if r := d.Document().Recipe; len(r) > 0 {
					e := r[i%len(r)]
					_ = d.Switch(e.ID, !e.Off)
					_ = d.Replace(step.Entry{ID: e.ID, Step: steps[(i*7)%len(steps)].Step})
				}
			}
			require.NoError(t, d.Document().Validate())
			require.NoError(t, d.Pattern().Validate())
			require.Len(t, d.Reports(), len(d.Document().Recipe))
		}
	})
}

// What is refused is told as it is, without what the step is called inside.
func TestARefusedStepIsToldWithoutItsId(t *testing.T) {
	d := tern(t)
	level := &step.Level{Seam: "side seam", Bend: "up"}
	err := d.Accept(level)
	require.Error(t, err)
	assert.NotContains(t, err.Error(), "level-")
	assert.NotContains(t, err.Error(), "in size "+d.Size())
	_, want := d.Try(level)
	assert.EqualError(t, err, want.Error())
	assert.Empty(t, d.Document().Recipe)
}

// A number that the step itself refuses is not kept, in whichever size it is
// refused; one that upsets only later steps is.
func TestNumberThatItsStepRefusesIsNotKept(t *testing.T) {
	d := tern(t)
	at := func(x float64) *step.Draw {
		return &step.Draw{Piece: "band", Name: "line", Points: []geom.Point{geom.Pt(0.2, 0.3), geom.Pt(x, 0.5)}}
	}
	require.NoError(t, d.Accept(at(0.8)))
	require.NoError(t, d.Accept(&step.Notch{Act: step.AddNotch, Piece: "cradle", Name: "mine", Edge: "hem", MM: step.Lit(20)}))
	before := bytesOf(t, d)
	line, notch := d.Document().Recipe[0], d.Document().Recipe[1]
	require.ErrorContains(t, d.Amend(step.Entry{ID: line.ID, Step: at(11)}), "point 2")
	least, most := math.Inf(1), 0.0
	for _, r := range d.Results() {
		_, hem := r.Size.Pattern.Edge("cradle", "hem")
		least, most = min(least, hem.Length()), max(most, hem.Length())
	}
	require.Less(t, least, most)
	between := step.Lit((least + most) / 2)
	require.Error(t, d.Amend(step.Entry{ID: notch.ID, Step: &step.Notch{Act: step.AddNotch, Piece: "cradle", Name: "mine", Edge: "hem", MM: between}}), "it lies off the hem in the small sizes")
	require.Equal(t, before, bytesOf(t, d))
	require.NoError(t, d.Amend(step.Entry{ID: line.ID, Step: at(0.7)}))

	other := inLace(t)
	tape := entry(t, other, "tape")
	renamed := *tape.Step.(*step.Tape)
	renamed.Name = "whole front"
	require.NoError(t, other.Amend(step.Entry{ID: "tape", Step: &renamed}))
	require.Equal(t, step.Upset, states(other)["straight-hem"])
}
