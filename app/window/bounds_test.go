package window

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/check"
	"truemat/ops/unit"
)

// entryNamed returns the field of the column with a name.
func (w *Window) entryNamed(t *testing.T, name string) *entry {
	t.Helper()
	for _, f := range reachable(w.column.list) {
		if e, ok := f.(*entry); ok && e.name == name {
			return e
		}
	}
	t.Fatalf("no field %q", name)
	return nil
}

func (w *Window) pressNamed(t *testing.T, name string) {
	t.Helper()
	for _, f := range reachable(w.column.list) {
		if b, ok := f.(*touch); ok && b.name == name {
			b.tap()
			return
		}
	}
	t.Fatalf("nothing named %q", name)
}

func TestBoundOfACheckIsSetBesideIt(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetSize("75C"))
	before := w.written(t)
	find := func() check.Check {
		i := slices.IndexFunc(w.column.checks, func(c check.Check) bool { return c.ID == check.WireOpening })
		require.GreaterOrEqual(t, i, 0)
		return w.column.checks[i]
	}
	require.Equal(t, check.Look, find().Verdict)
	at := checkAt(find())
	w.pressNamed(t, at)
	require.Equal(t, at, w.win.Canvas().Focused().(*touch).name, "the keys stay with the check")
	require.Equal(t, "5 mm", w.entryNamed(t, "bound wire-opening 0").Text)
	require.Equal(t, "10 mm", w.entryNamed(t, "bound wire-opening 1").Text)

	w.entryNamed(t, "bound wire-opening 1").done("1 in")
	require.Equal(t, check.Own{"wire-opening": {5, 25.4}}, w.desk.OwnBounds())
	w.entryNamed(t, "bound wire-opening 0").done("30")
	require.Equal(t, check.Own{"wire-opening": {30, 30}}, w.desk.OwnBounds(), "what deserves a look begins no sooner")
	require.Equal(t, check.Holds, find().Verdict)
	for _, s := range w.desk.SizeStates() {
		require.NotEqual(t, check.Broken, s.Worst, s.Label)
	}
	w.column.full = true
	w.column.refresh()

	for _, junk := range []string{"wide", "-1", "2000"} {
		w.entryNamed(t, "bound wire-opening 0").done(junk)
		require.Equal(t, check.Own{"wire-opening": {30, 30}}, w.desk.OwnBounds(), junk)
		require.NotNil(t, w.column.wrong, junk)
	}
	w.entryNamed(t, "bound wire-opening 1").done("20")
	require.Contains(t, strings.Join(texts(w.column.list), " "), "the second value is the greater")

	w.pressNamed(t, "usual "+at)
	require.Equal(t, before, w.written(t))
	w.undo()
	require.Equal(t, check.Own{"wire-opening": {30, 30}}, w.desk.OwnBounds())
	w.undo()
	w.undo()
	require.Equal(t, before, w.written(t), "each is one change")

	w.unit = unit.InchFractions
	w.column.refresh()
	require.Contains(t, w.entryNamed(t, "bound wire-opening 0").Text, " in", "in the unit she chose")
}
