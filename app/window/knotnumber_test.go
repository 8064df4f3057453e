package window

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// typed types a number into the field of that name of the open step, and Enter.
func (w *Window) typed(t *testing.T, name, text string) {
	t.Helper()
	all := w.dials()
	i := slices.IndexFunc(all, func(d *dial) bool { return d.name == name })
	require.GreaterOrEqual(t, i, 0, name)
	w.win.Canvas().Focus(all[i])
	w.pending = true
	all[i].SetText(text)
	w.typeHere(fyne.KeyReturn)
}

// How deep a knot lies and where along is read and edited in the step, in the
// same lengths as in its tool, and its sentence tells it.
func TestKnotsOfAReshapingAreReadAndEdited(t *testing.T) {
	w := open(t, false)
	w.unit = unit.Centimetres
	k := &step.Reshape{Piece: "upper outer cup", Edge: "neckline", Knots: []step.Knot{{Out: &step.Offset{Along: 0.3}},
		{Offset: step.Offset{Along: 0.5, Off: 0.07}, In: &step.Offset{Along: -0.15}, Out: &step.Offset{Along: 0.15}}, {Offset: step.Offset{Along: 1}, In: &step.Offset{Along: -0.3}}}}
	require.NoError(t, w.desk.Accept(k))
	id := w.desk.Document().Recipe[0].ID
	way, err := k.Chord(w.desk.Source())
	require.NoError(t, err)
	from := w.desk.Source().Piece("upper outer cup").Meets("neckline", pattern.Start)
	w.openStep(t, id)
	said := func() string { return strings.Join(texts(w.column.list), " ") }
	require.Contains(t, said(), "Knot 1, from "+from)
	require.Contains(t, said(), "Knot 1, in from the straight line (− is out)")
	require.Contains(t, said(), "In every size in proportion to the straight line between its ends, here "+unit.Format(way, w.unit)+": where that is longer, further in.")

	w.typed(t, id+" knots 1 off", "0.3")
	w.typed(t, id+" knots 1 along", "1.2 cm")
	now := w.desk.Document().Recipe[0].Step.(*step.Reshape).Knots[1]
	require.InDelta(t, 3, now.Off*way, 1e-9)
	require.InDelta(t, 12, now.Along*way, 1e-9)
	require.Equal(t, k.Knots[1].Out, now.Out, "its handles go along")
	require.Contains(t, w.desk.Reports()[0].Sentence, "3 mm in from the straight line at 12 mm from "+from)

	// The place is where it says, inside the piece.
	pc, e := w.desk.Pattern().Edge("upper outer cup", "neckline")
	a, b := e.Path.Start(), e.Path.End()
	u := b.Sub(a).Unit()
	at := a.Add(u.Mul(12)).Add(u.Perp().Mul(3))
	require.InDelta(t, 0, e.Path.Nearest(at).Dist, 1e-6)
	before, err := w.desk.Source().Piece(pc.Name).Outline()
	require.NoError(t, err)
	require.True(t, before.Contains(a.Add(u.Mul(12)).Add(u.Perp().Mul(8))), "to the left of the way is in")
}

// A point beside its piece is refused in words of a length, and stays to be mended.
func TestPointOfALineBesideItsPieceIsNotKept(t *testing.T) {
	w := open(t, false)
	w.unit = unit.Centimetres
	require.NoError(t, w.desk.Accept(entryOf(t, furtherSteps[5]).Step))
	id := w.desk.Document().Recipe[0].ID
	outline, err := w.desk.Source().Piece("band").Outline()
	require.NoError(t, err)
	box := outline.Bounds()
	w.openStep(t, id)
	before := w.written(t)
	w.typed(t, id+" points 2 x", "40")
	require.Equal(t, before, w.written(t))
	said := strings.Join(texts(w.column.list), " ")
	require.Contains(t, said, "Point 3 of")
	require.Contains(t, said, "right of band")
	d, ok := w.win.Canvas().Focused().(*dial)
	require.True(t, ok)
	require.Equal(t, "40", d.Text)

	w.typed(t, id+" points 2 x", "11")
	now := w.desk.Document().Recipe[0].Step.(*step.Draw).Points[2]
	require.InDelta(t, 110, now.X*box.Width(), 1e-9)
	require.NotContains(t, strings.Join(texts(w.column.list), " "), "right of band")
}
