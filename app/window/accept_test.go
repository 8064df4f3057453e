package window

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// Whatever waits to be accepted says so above the tray and shows the button;
// what letting go completes shows none.
func TestWhatWaitsToBeAcceptedSaysSo(t *testing.T) {
	scenes := map[string]func(*sitting) error{
		"tape": (*sitting).taping, "shears": (*sitting).cuttingOff, "walk": (*sitting).walking,
	}
	for name, act := range scenes {
		w := open(t, false)
		if name == "tape" {
			for _, e := range demo.TernInLace()[:6] {
				require.NoError(t, w.desk.Accept(e.Step))
			}
		}
		s := &sitting{Window: w}
		require.NoError(t, act(s), name)
		w.pointer(tool.Event{Act: tool.Release})
		require.True(t, w.shown.asked, name)
		require.Contains(t, hinted(w), "Enter", name)
		require.Contains(t, hinted(w), "Escape", name)
		require.True(t, w.prompt.acts.Visible(), name)
	}
}

func TestADragThatLettingGoCompletesAsksNothing(t *testing.T) {
	w := open(t, false)
	at, err := (&sitting{Window: w}).spots(along("band", "hem", 0.5))
	require.NoError(t, err)
	from, to := at[0], at[0].Add(geom.Pt(40, 0))
	w.pointer(tool.Event{Act: tool.Press, At: from, Reach: 3})
	w.pointer(tool.Event{Act: tool.Drag, At: to, Reach: 3})
	w.show()
	require.NotNil(t, w.shown.pieces, "the piece is shown where it goes")
	require.False(t, w.prompt.acts.Visible())
	require.NotContains(t, w.prompt.hint.Text, "Enter")
	w.pointer(tool.Event{Act: tool.Release, At: to, Reach: 3})
	require.Len(t, w.desk.Document().Recipe, 1)
	w.prompt.set("x", "5 mm")
	require.True(t, w.prompt.acts.Visible(), "a number waits to be accepted")
	require.Contains(t, w.prompt.hint.Text, "Enter")
}

// What cannot be done cannot be accepted, and nothing of it stays in the prompt.
func TestWhatCannotBeDoneIsNotOffered(t *testing.T) {
	w := open(t, false)
	w.rune('t')
	s := &sitting{Window: w}
	at, err := s.spots(along("bridge", "cradle seam", 0.5), along("cradle", "bridge seam", 0.5))
	require.NoError(t, err)
	s.click(at...)
	require.Error(t, w.shown.err, "their ends lie apart")
	button := w.prompt.acts.Objects[0].(*touch)
	require.True(t, button.disabled)
	w.abandon()
	require.Empty(t, w.prompt.wrong.Text)
	for _, more := range w.prompt.more {
		require.Empty(t, more.Text)
	}
	require.NoError(t, w.desk.Accept(&step.Place{Piece: "cradle", Edge: "bridge seam", End: pattern.Start, Onto: &step.EdgeEnd{Piece: "bridge", Edge: "cradle seam", End: pattern.End}}))
	s.click(at[0])
	require.False(t, strings.HasPrefix(w.prompt.wrong.Text, "…"))
}

// hinted is all that the line above the tray says to do.
func hinted(w *Window) string {
	all := w.prompt.hint.Text
	for _, t := range w.prompt.hints {
		all += " " + t.Text
	}
	return all
}

// What an act newly breaks is told where she looks, although the checks are
// rolled out of sight.
func TestWhatAnActBreaksIsToldAtOnce(t *testing.T) {
	w := open(t, true)
	width := step.Lit(9)
	require.True(t, w.do(&step.Allow{Piece: "band", Edge: "side seam", Width: &width}))
	said := strings.Join(texts(w.prompt.row), " ")
	require.Regexp(t, `^Step \d+ is kept\. Red now: \S`, said)
	require.Equal(t, w.palette.Poor, w.prompt.wrong.Color)

	w.undo()
	require.NotContains(t, strings.Join(texts(w.prompt.row), " "), "Red now")
	require.NoError(t, w.column.length("8 mm", func(mm float64) step.Step {
		width := step.Lit(mm)
		return &step.Allow{Piece: "band", Edge: "side seam", Width: &width}
	}))
	require.Contains(t, strings.Join(texts(w.prompt.row), " "), "is kept. Red now:", "a figure typed beside the mat")
}

// A walk that goes on once its notches are kept says that they are.
func TestAToolThatGoesOnSaysThatItsStepIsKept(t *testing.T) {
	w := open(t, false)
	require.NoError(t, (&sitting{Window: w}).walking())
	w.accept()
	require.Len(t, w.desk.Document().Recipe, 1)
	said := strings.Join(texts(w.prompt.row), " ")
	require.Contains(t, said, "Step 1 is kept. The walk goes on; Escape ends it.")
	require.Equal(t, w.palette.Good, w.prompt.wrong.Color)
	w.abandon()
	require.NotContains(t, strings.Join(texts(w.prompt.row), " "), "is kept")
}

// Every act says that it is kept and what is red; where nothing is red any more,
// only that.
func TestEveryActSaysThatItIsKeptAndWhatIsStillRed(t *testing.T) {
	w := open(t, false)
	said := func() string { return strings.Join(texts(w.prompt.row), " ") }
	width := step.Lit(9)
	allow := func(piece string) step.Step {
		return &step.Allow{Piece: piece, Edge: "side seam", Width: &width}
	}
	require.True(t, w.do(&step.Mark{Piece: "band", Text: "one"}))
	require.Contains(t, said(), "Step 1 is kept.")
	require.NotContains(t, said(), "red")
	require.Equal(t, w.palette.Good, w.prompt.wrong.Color)
	require.True(t, w.do(allow("band")))
	require.Contains(t, said(), "Step 2 is kept. Red now: Allowances of side seam.")
	require.Equal(t, w.palette.Poor, w.prompt.wrong.Color)
	require.True(t, w.do(&step.Mark{Piece: "band", Text: "two"}))
	require.Contains(t, said(), "Step 3 is kept. Still red: Allowances of side seam.")
	require.NotContains(t, said(), "Red now")
	require.Equal(t, w.palette.Look, w.prompt.wrong.Color)
	require.True(t, w.do(&step.Move{Piece: "band", DX: step.Lit(4)}))
	require.Contains(t, said(), "Step 4 is kept.")
	require.NotContains(t, said(), "red", "nothing was altered")
	require.True(t, w.do(&step.Mark{Piece: "band", Text: "three"}, allow("cradle")))
	require.Contains(t, said(), "Steps 5 and 6 are kept.")
	require.NotContains(t, said(), "red")
}

// What an act breaks in sizes that are not shown is told after it as well, newly
// or more than before.
func TestWhatAnActBreaksInOtherSizesIsToldAfterIt(t *testing.T) {
	w := open(t, false)
	require.NoError(t, w.desk.SetSize("65C"))
	said := func() string { return strings.Join(texts(w.prompt.row), " ") }
	allow := func(mm map[string]float64) step.Step {
		width := step.PerSize(mm)
		return &step.Allow{Piece: "band", Edge: "side seam", Width: &width}
	}
	each := map[string]float64{}
	_, seam := w.desk.Pattern().Edge("band", "side seam")
	for _, label := range w.desk.Document().Source.Labels() {
		each[label] = seam.Allowance
	}
	each["80E"], each["75D"] = 9, 8
	require.True(t, w.do(allow(each)))
	require.Contains(t, said(), "Step 1 is kept. Red now in 80E and 1 size more: Allowances of side seam.")
	require.Equal(t, w.palette.Poor, w.prompt.wrong.Color)
	each["80E"] = 10
	require.True(t, w.do(allow(each)))
	require.Contains(t, said(), "Step 2 is kept. ")
	each["80E"] = 12
	require.True(t, w.do(allow(each)))
	require.Contains(t, said(), "Step 3 is kept. Worse in 80E: Allowances of side seam.")
	require.True(t, w.do(&step.Mark{Piece: "band", Text: "one"}))
	require.Contains(t, said(), "Step 4 is kept. Still red in ")
	require.Equal(t, w.palette.Look, w.prompt.wrong.Color)
}
