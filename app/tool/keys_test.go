package tool_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// walkTo presses Next until the tool shows what is wanted.
func walkTo(t testing.TB, tl tool.Tool, want string) {
	t.Helper()
	var seen []string
	for range 60 {
		require.True(t, tl.Key(tool.Key{Name: tool.Next}))
		for _, n := range tl.Overlay().Notes {
			if n.Text == want {
				return
			}
			seen = append(seen, n.Text)
		}
	}
	require.Failf(t, "not found by keys", "%q in %q", want, seen)
}

func geomText(mm float64) string { return strconv.FormatFloat(mm, 'f', 6, 64) + " mm" }

// The finger begins at the piece that is selected, in whichever tool.
func TestKeysBeginAtTheSelectedPiece(t *testing.T) {
	d := tern(t, 0)
	for _, tl := range tool.All(d) {
		d.Select(tool.Selection{Piece: "band"})
		if tl.Name() == "true" { // goes from seam end to seam end
			continue
		}
		if !tl.Key(tool.Key{Name: tool.Next}) {
			continue
		}
		if tl.Name() == "hand" {
			continue // has it in hand
		}
		require.Contains(t, notes(tl), "band", tl.Name())
		tl.Reset()
	}
}

// What the hand selected is where the keys begin: the space bar pins it at once,
// and going into the piece is going to it.
func TestKeysBeginAtWhatIsSelected(t *testing.T) {
	d := tern(t, 0)
	pc := d.Pattern().Piece("cradle")
	corner := tool.Selection{Piece: "cradle", Edge: "side seam", Joint: true}
	want := pattern.AtEnd("cradle", "side seam", pattern.Start)
	d.Select(corner)
	pin := tool.NewPin(d)
	require.Contains(t, pin.Hint(), "The space bar takes the corner of hem and side seam of cradle.")
	require.True(t, pin.Key(tool.Key{Name: tool.Choose}))
	require.NoError(t, pin.Set("angle", "1"))
	require.Equal(t, want, pin.Proposal()[0].(*step.Turn).Pin)

	d.Select(corner)
	ruler := tool.NewRuler(d)
	for _, k := range []tool.KeyName{tool.Next, tool.Choose} {
		require.True(t, ruler.Key(tool.Key{Name: k}))
	}
	require.Contains(t, notes(ruler), "corner of hem and side seam")

	d.Select(tool.Selection{Piece: "cradle", Notch: pc.Notches[0].Name})
	add := tool.NewAdd(d)
	for _, k := range []tool.KeyName{tool.Next, tool.Choose} {
		require.True(t, add.Key(tool.Key{Name: k}))
	}
	require.NotContains(t, notes(add), pc.Notches[0].Name, "it takes edges only")
}

// marking is a desk that marks places, as a lesson does.
type marking struct {
	*desk.Desk
	at []geom.Point
}

func (m marking) Marked() []geom.Point { return m.at }

// A place that is marked comes before what is selected; adding begins at the
// end of the edge that it is nearer to.
func TestKeysBeginAtAMarkedPlace(t *testing.T) {
	d := tern(t, 0)
	for share, end := range map[float64]pattern.EndName{0.1: pattern.Start, 0.9: pattern.End} {
		d.Select(tool.Selection{Piece: "band", Edge: "hem"})
		tl := tool.NewAdd(marking{d, []geom.Point{midEdge(t, d, "cradle", "side seam", share)}})
		for _, k := range []tool.KeyName{tool.Next, tool.Choose, tool.Choose} {
			require.True(t, tl.Key(tool.Key{Name: k}))
		}
		require.NoError(t, tl.Set("amount", "2"))
		s := tl.Proposal()[0].(*step.Add)
		require.Equal(t, step.EdgeEnd{Piece: "cradle", Edge: "side seam", End: end}, s.EdgeEnd)
	}
}

// Once a spot was taken the keys go on from there, round the piece either way.
func TestKeysGoOnFromTheSpotThatWasTaken(t *testing.T) {
	d := tern(t, 0)
	round := tool.NewRuler(d)
	var all []string
	d.Select(tool.Selection{Piece: "band"})
	require.True(t, round.Key(tool.Key{Name: tool.Next}))
	require.True(t, round.Key(tool.Key{Name: tool.Choose}))
	for len(all) < 2 || notes(round) != all[0] {
		all = append(all, notes(round))
		require.True(t, round.Key(tool.Key{Name: tool.Next}))
	}
	for at := range all {
		for _, to := range []struct {
			key  tool.KeyName
			next int
		}{{tool.Next, at + 1}, {tool.Previous, at + len(all) - 1}} {
			tl := tool.NewRuler(d)
			require.True(t, tl.Key(tool.Key{Name: tool.Next}))
			require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
			for range at {
				require.True(t, tl.Key(tool.Key{Name: tool.Next}))
			}
			require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
			require.True(t, tl.Key(tool.Key{Name: to.key}))
			require.Contains(t, notes(tl), all[to.next%len(all)])
		}
	}
}

// Escape leaves a piece that was gone into by mistake, and N goes on to the next.
func TestKeysGoOnFromThePieceThatWasLeft(t *testing.T) {
	d := tern(t, 0)
	d.Select(tool.Selection{})
	tl := tool.NewSmooth(d)
	next := func() string {
		require.True(t, tl.Key(tool.Key{Name: tool.Next}))
		return notes(tl)
	}
	var all []string
	for range d.Pattern().Pieces {
		all = append(all, next())
	}
	tl = tool.NewSmooth(d)
	for range 3 {
		next()
	}
	require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
	next()
	require.True(t, tl.Reset())
	require.Equal(t, all[3], next())

	require.True(t, tl.Reset())
	d.Select(tool.Selection{Piece: "cradle"})
	require.Contains(t, next(), "cradle", "what was selected meanwhile comes first")
}
