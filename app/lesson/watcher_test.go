package lesson

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/desk"
	"truemat/ops/check"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
	"truemat/ops/unit"
)

func tern(t *testing.T, recipe step.Recipe) *desk.Desk {
	t.Helper()
	run, err := demo.Tern()
	require.NoError(t, err)
	d, err := desk.New(store.Document{Source: run, Recipe: recipe}, "")
	require.NoError(t, err)
	return d
}

func title(w *Watcher) string {
	a, ok := w.Current()
	if !ok {
		return "done"
	}
	return a.Title
}

// at returns how many acts are behind.
func at(w *Watcher) int {
	n, _ := w.Progress()
	return n
}

func TestRealStepsOfTheDemoLeadToTheEnd(t *testing.T) {
	for _, size := range []string{"", "75C"} {
		d := tern(t, nil)
		if size != "" {
			require.NoError(t, d.SetSize(size))
		}
		w := New(d)
		told := 0
		w.OnChange(func() { told++ })
		after := map[string]int{"pin": 1, "turn": 2, "tape": 3, "straight-hem": 4, "smooth-wire": 5, "share-out": 6, "mark": 7}
		want, tape := 0, ""
		for _, e := range demo.TernInLace() {
			s := e.Step
			if share, ok := s.(*step.ShareOut); ok {
				copied := *share
				copied.Amount = step.Figure(tape+".overlap", 1) // the desk gives its own ids
				s = &copied
			}
			require.NoError(t, d.Accept(s), e.ID)
			if r := d.Document().Recipe; s.Kind() == "tape" {
				tape = r[len(r)-1].ID
			}
			want = max(want, after[e.ID])
			require.Equal(t, want, at(w), "after %s", e.ID)
		}
		_, ok := w.Current()
		require.False(t, ok)
		require.Equal(t, len(w.Lesson().Steps), told)

		again := New(d)
		require.Equal(t, 7, at(again), "found again as far as it came")
		for d.Undo() {
		}
		require.Equal(t, 0, at(w))
		for d.Redo() {
		}
		require.Equal(t, 7, at(w))
	}
}

func TestLessonCanBeDoneInEverySizeAndShowsWhere(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	for _, label := range []string{run.Labels()[0], "75C", run.Labels()[len(run.Labels())-1]} {
		d := tern(t, nil)
		require.NoError(t, d.SetSize(label))
		w := New(d)
		for i := range w.Lesson().Steps {
			require.Equal(t, i, at(w))
			a, ok := w.Current()
			require.True(t, ok)
			places := a.Where(d.Pattern())
			assert.NotEmpty(t, places, a.Title)
			for _, q := range places {
				assert.True(t, onMat(d.Pattern(), q.X, q.Y), "%s shows a place where nothing lies", a.Title)
			}
			require.NoError(t, w.Do(), a.Title)
		}
		require.Equal(t, "done", title(w))
		require.ErrorContains(t, w.Do(), "done")
		for _, c := range d.Checks() {
			if c.ID == check.WireLength || c.ID == check.HemLength || c.ID == check.LaceStraight {
				assert.Equal(t, check.Holds, c.Verdict, c.Text)
			}
		}
		for _, s := range d.SizeStates() {
			assert.False(t, s.Behind, s.Label)
		}
	}
}

func onMat(p pattern.Pattern, x, y float64) bool {
	for i := range p.Pieces {
		b := box(&p.Pieces[i])
		if x >= b.Min.X-1 && x <= b.Max.X+1 && y >= b.Min.Y-1 && y <= b.Max.Y+1 {
			return true
		}
	}
	return false
}

// While the hem is short the lesson says so, by how much, and in which act that
// is mended; before and after it says nothing.
func TestTheShortHemIsExplainedUntilItIsGivenBack(t *testing.T) {
	d := tern(t, nil)
	w := New(d)
	for i, a := range w.Lesson().Steps {
		switch {
		case i < 3:
			require.Empty(t, w.Aside(), a.Title)
		case i > 5:
			require.Contains(t, w.Aside(), "carry no mark")
			require.NotContains(t, w.Aside(), "shorter")
		default:
			short := unit.Format(hemLength(d.Source())-hemLength(d.Pattern()), unit.Millimetres)
			require.Contains(t, w.Aside(), short+" shorter")
			require.Contains(t, w.Aside(), "expected")
		}
		if i == 3 || i == 4 {
			require.Contains(t, w.Aside(), "act 6")
			require.Contains(t, w.Lesson().Steps[5].Title, "Give back")
		}
		require.NoError(t, w.Do())
	}
	for _, c := range d.Checks() {
		require.NotEqual(t, check.Broken, c.Verdict, c.Text)
	}
}

func TestOtherActsDoNotCount(t *testing.T) {
	d := tern(t, nil)
	w := New(d)
	lit := func(v float64) step.Number { return step.Lit(v) }
	wrong := func(s step.Step, why string) {
		t.Helper()
		was := at(w)
		require.NoError(t, d.Accept(s))
		require.Equal(t, was, at(w), why)
		require.True(t, d.Undo())
		require.Equal(t, was, at(w))
	}
	do := func() {
		t.Helper()
		require.NoError(t, w.Do())
	}
	wrong(&step.Move{Piece: cradle, DX: lit(-3)}, "moved, but not to the bridge")
	wrong(&step.Move{Piece: band, DX: lit(-3)}, "another piece")
	do()
	turn := func(deg float64) step.Step {
		by := lit(deg)
		return &step.Turn{Piece: cradle, Pin: cradlePin.Spot(), Direction: step.Clockwise, By: &by}
	}
	wrong(turn(2), "turned, but not to the line")
	wrong(&step.Move{Piece: cradle, DX: lit(1)}, "pushed away")
	do()
	wrong(&step.Move{Piece: band, DX: lit(1)}, "nothing is taped")
	do()
	f := frame(d.Pattern()).Name
	wrong(&step.Mark{Pieces: []string{f}, Text: "early"}, "marking comes last")
	do()
	from, to := &pattern.Along{From: pattern.End, Share: 0.9}, &pattern.Along{From: pattern.End, Share: 0.8}
	wrong(&step.Smooth{Piece: f, Edge: "wire", Keep: "length", From: from, To: to}, "smoothed where there is no corner")
	act, _ := w.Current()
	smooth := *act.Do(w.stages[len(w.stages)-1]).(*step.Smooth)
	smooth.Keep = ""
	wrong(&smooth, "smoothed without keeping the length")
	do()
	tape := d.Document().Recipe[2].ID
	wrong(&step.ShareOut{Amount: step.Figure(tape+".overlap", 1), Onto: []step.Share{{EdgeEnd: sideEnd(band, pattern.End)}}}, "all at one side")
	wrong(&step.ShareOut{Amount: step.Figure(tape+".overlap", 0.2), Onto: []step.Share{{EdgeEnd: sideEnd(f, pattern.Start)}, {EdgeEnd: sideEnd(band, pattern.End)}}}, "too little")
	do()
	wrong(&step.Mark{Pieces: []string{band}, Text: "altered"}, "the wrong piece")
	do()
	require.Equal(t, "done", title(w))
}

func TestUndoSwitchSkipAndRestart(t *testing.T) {
	d := tern(t, nil)
	w := New(d)
	for range 3 {
		require.NoError(t, w.Do())
	}
	require.Equal(t, 3, at(w))
	d.Undo()
	require.Equal(t, 2, at(w))
	d.Redo()
	require.Equal(t, 3, at(w))
	id := d.Document().Recipe[1].ID
	require.NoError(t, d.Switch(id, true))
	require.Equal(t, 1, at(w), "the turn is left out, so it is to be done")
	require.NoError(t, d.Switch(id, false))
	require.Equal(t, 3, at(w))

	w.Skip()
	require.Equal(t, 4, at(w))
	d.Undo()
	d.Undo()
	require.NoError(t, d.SetSize("75C"))
	require.NoError(t, w.Do())
	w.Restart()
	require.Equal(t, 0, at(w))
	require.ErrorContains(t, w.Do(), `no piece "cradle"`, "what is taped cannot be laid again")
	for d.Undo() {
	}
	require.Equal(t, 0, at(w))
	require.NoError(t, w.Do())
	require.Equal(t, 1, at(w), "after a restart and undo acts count again")
	for range 20 {
		w.Skip()
	}
	require.Equal(t, "done", title(w))
}

func TestLessonIsForPatternsThatHaveWhatItSpeaksOf(t *testing.T) {
	d := tern(t, nil)
	require.True(t, Fits(d.Source()))
	require.False(t, Fits(pattern.Pattern{}))
	done := tern(t, demo.TernInLace())
	require.False(t, Fits(done.Pattern()))
	for _, a := range First().Steps {
		require.Empty(t, a.Where(pattern.Pattern{}), a.Title)
		require.False(t, a.Done(Stage{}, Stage{}), a.Title)
	}
}

func TestTapingTheOtherWayRoundAndUnnamedWillDo(t *testing.T) {
	for _, ends := range [][2]step.EdgeEnd{{bridgePin, cradlePin}, {cradlePin, bridgePin}} {
		d := tern(t, nil)
		w := New(d)
		require.NoError(t, w.Do())
		require.NoError(t, w.Do())
		require.NoError(t, d.Accept(&step.Tape{A: ends[0], B: ends[1]}))
		require.Equal(t, ends[0].Piece, frame(d.Pattern()).Name)
		for at(w) < 7 {
			was := at(w)
			require.NoError(t, w.Do())
			require.Equal(t, was+1, at(w))
		}
		require.InDelta(t, hemLength(d.Source()), hemLength(d.Pattern()), 0.1)
	}
}

func TestALessonThatIsDoneStaysSoWhileAStepIsOff(t *testing.T) {
	d := tern(t, nil)
	w := New(d)
	for range w.Lesson().Steps {
		require.NoError(t, w.Do())
	}
	for _, e := range d.Document().Recipe {
		require.NoError(t, d.Switch(e.ID, true))
		require.Equal(t, "done", title(w), e.ID)
		require.NoError(t, d.Switch(e.ID, false))
	}
	last := d.Document().Recipe[6].ID
	require.NoError(t, d.Remove(last))
	require.Equal(t, 6, at(w), "a step that is taken out is to be done again")

	half := tern(t, nil)
	w = New(half)
	for range 4 {
		require.NoError(t, w.Do())
	}
	tape := half.Document().Recipe[2].ID
	require.NoError(t, half.Switch(tape, true))
	require.Equal(t, 2, at(w), "one that is off in the midst of it is asked for again")
}
