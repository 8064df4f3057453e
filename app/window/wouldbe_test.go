package window

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/app/tool"
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
