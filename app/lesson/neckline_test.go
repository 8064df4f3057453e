package lesson

import (
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

func TestSecondLessonIsDoneInEverySizeAndBreaksNothing(t *testing.T) {
	d := tern(t, nil)
	require.True(t, Second().Fits(d.Source()))
	for _, label := range d.Document().Source.Labels() {
		d := tern(t, nil)
		require.NoError(t, d.SetSize(label))
		w := Follow(d, Second())
		for n := range w.Lesson().Steps {
			require.Equal(t, n, at(w))
			act, _ := w.Current()
			require.NotEmpty(t, act.Where(d.Pattern()), act.Title)
			require.NoError(t, w.Do(), act.Title)
		}
		_, more := w.Current()
		require.False(t, more)
		for _, l := range d.Document().Source.Labels() {
			require.NoError(t, d.SetSize(l))
			for _, c := range d.Checks() {
				require.NotEqual(t, check.Broken, c.Verdict, "%s: %s", l, c.Text)
			}
		}
	}
}

func TestSecondLessonCountsOnlyWhatIsMeant(t *testing.T) {
	d := tern(t, nil)
	w := Follow(d, Second())
	require.NoError(t, d.Accept(&step.Mark{Pieces: []string{inner, upper}, Text: "x"}))
	require.Zero(t, at(w))
	kept := pattern.AtEnd(inner, wireEdge, pattern.End)
	cut := &step.CutOff{Piece: inner, From: pattern.AtEnd(inner, wireEdge, pattern.Start), To: pattern.AtNotch(inner, aboveApex), Kept: &kept, Name: "new", Role: pattern.TurnedBack}
	require.NoError(t, d.Accept(cut))
	require.Zero(t, at(w), "it is no lace edge")
	d.Undo()
	lace := *cut
	lace.Role = pattern.LaceEdge
	require.NoError(t, d.Accept(&lace))
	require.Equal(t, 1, at(w))
	require.Contains(t, w.Aside(), "double notch")
	w.Skip()
	require.Equal(t, 2, at(w))
	require.Empty(t, w.Aside())
	d.Undo()
	require.Zero(t, at(w))
}

func TestSecondLessonIsForPatternsThatHaveWhatItSpeaksOf(t *testing.T) {
	d := tern(t, nil)
	p := d.Source().Clone()
	p.Piece(inner).Notches = nil
	require.False(t, Second().Fits(p))
	require.False(t, Second().Fits(pattern.Pattern{}))
}

// A neckline that was cut without becoming a lace edge is told of, and counts
// once it is made one.
func TestACutThatIsNoLaceEdgeIsTold(t *testing.T) {
	d := tern(t, nil)
	w := Follow(d, Second())
	cut, ok := Second().Steps[0].Do(Stage{}).(*step.CutOff)
	require.True(t, ok)
	cut.Role = pattern.Neckline
	require.NoError(t, d.Accept(cut))
	require.Equal(t, 0, at(w))
	require.Contains(t, w.Aside(), "not to a straight lace edge")
	nought := step.Lit(0)
	require.NoError(t, d.Accept(&step.Allow{Piece: inner, Edge: cut.Name, Width: &nought, Role: pattern.LaceEdge}))
	require.Equal(t, 1, at(w))
}
