package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// A step tells a place in the words and the unit of the tool that made it, and
// keeps it as the part of the edge that it is.
func TestPlacesOfStepsAreLengthsFromAnEdgeAsInTheirTools(t *testing.T) {
	w := open(t, true)
	reach := step.Lit(20)
	require.NoError(t, w.desk.Accept(&step.Smooth{Piece: "frame", Edge: "wire", At: &pattern.Along{Share: 0.4}, Reach: &reach, Keep: "length"}))
	recipe := w.desk.Document().Recipe
	at := len(recipe) - 1
	id := recipe[at].ID
	_, wire := w.desk.Before(at).Edge("frame", "wire")
	first := w.desk.Before(at).Piece("frame").Meets("wire", pattern.Start)
	w.openStep(t, id)
	said := func() string { return strings.Join(texts(w.column.list), " ") }
	require.Contains(t, said(), "Place on wire, from "+first)
	require.Contains(t, said(), "40 % of wire, kept in every size")
	place := func() *dial {
		for _, d := range w.dials() {
			if d.name == id+" at share" {
				return d
			}
		}
		return nil
	}
	d := place()
	require.Equal(t, w.column.exact(0.4*wire.Length()), d.Text)

	w.win.Canvas().Focus(d)
	d.SetText(w.column.exact(wire.Length() / 2))
	require.NotContains(t, said(), "40 % of wire", "the share follows what is typed")
	d.done(d.Text)
	made := w.desk.Document().Recipe[at].Step.(*step.Smooth)
	require.InDelta(t, 0.5, made.At.Share, 1e-4)
	require.Zero(t, made.At.MM)
	require.Contains(t, said(), "50 % of wire, kept in every size")

	// Names beside the fields are whole.
	for _, e := range w.desk.Document().Recipe {
		if len(step.NumbersOf(e.Step)) == 0 {
			continue
		}
		w.column.open = e.ID
		w.column.refresh()
		for _, o := range w.column.list.Objects {
			row, ok := o.(*fyne.Container)
			if !ok || len(row.Objects) == 0 {
				continue
			}
			if g, ok := row.Objects[0].(*grip); ok {
				require.NotContains(t, strings.Join(texts(g.face), ""), "…", e.ID)
			}
		}
	}
}
