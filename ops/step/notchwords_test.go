package step

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

// The sentence of a notch tells how far it lies from what is there at that end.
func TestSentenceOfANotchTellsWhereItLies(t *testing.T) {
	p := patterntest.Sample()
	pc := &p.Pieces[0]
	edge := pc.Edges[0].Name
	before, after := pc.Meets(edge, pattern.Start), pc.Meets(edge, pattern.End)
	require.NotEmpty(t, before)
	on := edge + " of " + pc.Name + ", "
	for want, n := range map[string]Notch{
		"Add notch 1 to " + on + "30 mm from the " + before + ".":         {Act: AddNotch, Name: "notch 1", MM: Lit(30)},
		`Add double notch "a" to ` + on + "30 mm from the " + after + ".": {Act: AddNotch, Name: "a", MM: Lit(30), From: pattern.End, Double: true},
		`Add notch "a" to ` + on + "in its middle.":                       {Act: AddNotch, Name: "a", Share: Lit(0.5)},
		`Add notch "a" to ` + on + "25 % of it from the " + before + ".":  {Act: AddNotch, Name: "a", Share: Lit(0.25)},
		`Add notch "a" to ` + on + "at the " + after + ".":                {Act: AddNotch, Name: "a", From: pattern.End},
		`Move notch "a" of ` + pc.Name + " to " + edge + ", a number per size from the " + before + ".": {Act: MoveNotch, Name: "a",
			MM: PerSize(map[string]float64{"S": 3, "M": 4})},
	} {
		n.Piece, n.Edge = pc.Name, edge
		require.Equal(t, want, Told(&n, p))
	}
	far := Notch{Act: AddNotch, Name: "a", Piece: "none", Edge: "top", MM: Lit(3), From: pattern.End}
	require.Equal(t, `Add notch "a" to top of none, 3 mm from its end.`, Told(&far, p))
	gone := Notch{Act: DeleteNotch, Name: "a", Piece: pc.Name}
	require.Equal(t, `Delete notch "a" of `+pc.Name+".", Told(&gone, p))
	spot := pattern.Spot{Piece: pc.Name, Edge: edge, Along: pattern.Along{MM: 20}}
	by := Notch{Act: AddNotch, Name: "a", Piece: pc.Name, Spot: &spot}
	require.Equal(t, `Add notch "a" to `+pc.Name+" at the place 20 mm along "+edge+".", Told(&by, p))
}
