package window

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// While something is proposed the column says which of two lengths is which.
func TestTheColumnTellsALengthOfNowFromOneProposed(t *testing.T) {
	w := open(t, true)
	said := func() string { return strings.Join(strings.Fields(strings.Join(texts(w.column.list), " ")), " ") }
	w.rune('A')
	w.desk.Select(tool.Selection{Piece: "band", Edge: "side seam"})
	w.show()
	require.NotContains(t, said(), "it would be")

	pc, e := w.desk.Pattern().Edge("band", "side seam")
	at := pc.Pose.Apply(e.Path.At(0.9 * e.Length()))
	w.pointer(tool.Event{Act: tool.Press, At: at, Reach: 3})
	w.pointer(tool.Event{Act: tool.Release, At: at, Reach: 3})
	require.NoError(t, w.tool().Set("amount", "2 mm"))
	w.desk.Select(tool.Selection{Piece: "band", Edge: "side seam"})
	w.show()
	before := e.Length()
	next, err := w.desk.Try(w.tool().Proposal()...)
	require.NoError(t, err)
	then := next.Size.Pattern.Piece("band").Edge("side seam").Length()
	require.NotEqual(t, w.column.write(before), w.column.write(then))
	require.Contains(t, said(), "Length "+w.column.write(before)+" That is now; it would be "+w.column.write(then)+".")
	w.desk.Select(tool.Selection{Piece: "band"})
	w.show()
	require.Contains(t, said(), "As it is now, not as proposed:")
	w.abandon()
	require.NotContains(t, said(), "as proposed")
	require.False(t, w.column.would.box.Visible())
}

// A dart in an edge takes nothing of it: the column says how long the edge is
// with the dart sewn, while it is proposed and when it is there.
func TestTheColumnTellsAnEdgeAcrossItsDart(t *testing.T) {
	w := open(t, true)
	said := func() string { return strings.Join(strings.Fields(strings.Join(texts(w.column.list), " ")), " ") }
	amount, short := step.Lit(12), step.Lit(12)
	middle := pattern.Along{Share: 0.5}
	dart := &step.Spread{
		Piece: "lower outer cup", Slashes: []step.Slash{{From: pattern.Spot{Edge: "wire", Along: middle}}},
		Hinge: &step.Hinge{Spot: &pattern.Spot{Edge: "cross seam", Along: middle}}, Amount: &amount, Dart: &step.NewDart{Name: "dart", Short: &short},
	}
	w.desk.Select(tool.Selection{Piece: "lower outer cup", Edge: "wire"})
	w.show()
	_, e := w.desk.Pattern().Edge("lower outer cup", "wire")
	whole := w.column.write(e.Length())
	require.NotContains(t, said(), "dart sewn")
	paper, err := w.desk.Try(&step.Spread{Piece: dart.Piece, Slashes: dart.Slashes, Hinge: dart.Hinge, Amount: dart.Amount})
	require.NoError(t, err)
	w.shown = against(w.desk.Pattern(), paper.Size.Pattern)
	w.column.followWould()
	require.Contains(t, said(), "That is now; it would be ")
	line := w.column.would.tall()
	next, err := w.desk.Try(dart)
	require.NoError(t, err)
	w.shown = against(w.desk.Pattern(), next.Size.Pattern)
	w.column.followWould()
	require.Contains(t, said(), "That is now. With the dart sewn it would be "+whole+", in 2 stretches")
	require.Greater(t, w.column.would.tall(), line)
	under := float32(0)
	for _, o := range w.column.list.Objects {
		if o.Visible() {
			require.GreaterOrEqual(t, o.Position().Y, under, "nothing lies on what is told")
			under = o.Position().Y + o.MinSize().Height
		}
	}
	require.NoError(t, w.desk.Accept(dart))
	w.desk.Select(tool.Selection{Piece: "lower outer cup", Edge: "wire"})
	w.show()
	require.Contains(t, said(), "Dart sewn "+whole)
}
