package demo

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// Fullness on the lower outer cup: from the wire line to the apex, from the
// cross seam to the wire about a place inside, and as a dart that moves on.
const movedFullness = `[
 {"id": "wider", "do": "spread", "piece": "lower outer cup", "slashes": [{"from": {"edge": "wire", "share": 0.5}}], "hinge": {"spot": {"edge": "cross seam", "from": "end"}}, "amount": 4, "fair": 20, "hold": {"edge": "vertical seam", "share": 0.5}},
 {"id": "about", "do": "spread", "piece": "lower outer cup", "slashes": [{"from": {"edge": "wire", "share": 0.4}}], "hinge": {"from": {"edge": "wire"}, "to": {"edge": "wire", "from": "end"}, "along": 0.5, "off": 0.5}, "close": {"at": {"edge": "cross seam", "share": 0.4}}, "degrees": 4, "fair": 15},
 {"id": "dart", "do": "spread", "piece": "upper outer cup", "slashes": [{"from": {"edge": "underarm", "share": 0.5}}], "hinge": {"spot": {"edge": "vertical seam", "from": "end"}}, "degrees": 9, "dart": {"name": "dart", "short": "1/2 in"}},
 {"id": "moved", "do": "spread", "piece": "upper outer cup", "slashes": [{"from": {"edge": "wire", "share": 0.5}}], "close": {"dart": "dart"}, "dart": {"name": "side dart"}, "hold": {"edge": "vertical seam", "share": 0.5}},
 {"id": "long", "do": "spread", "piece": "inner cup", "slashes": [{"from": {"edge": "neckline", "share": 0.4}}], "hinge": {"spot": {"edge": "wire", "share": 0.5}}, "until": {"edge": "neckline", "length": {"sizes": %s}}, "fair": 30}
]`

func TestFullnessMovesInEverySize(t *testing.T) {
	r := tern(t)
	necklines := map[string]float64{}
	for _, s := range r.Sizes {
		_, e := s.Pattern.Edge(innerPiece, "neckline")
		necklines[s.Label] = e.Length() - 6
	}
	table, err := json.Marshal(necklines)
	require.NoError(t, err)
	var entries []step.Entry
	require.NoError(t, json.Unmarshal([]byte(fmt.Sprintf(movedFullness, table)), &entries))
	recipe, results, err := step.Recipe(nil).Append(r, entries...)
	require.NoError(t, err)
	require.Len(t, recipe, len(entries))
	for i, res := range results {
		require.NoError(t, res.Size.Pattern.Validate())
		before, after := r.Sizes[i].Pattern, res.Size.Pattern
		same := func(piece, edge string) {
			_, was := before.Edge(piece, edge)
			_, is := after.Edge(piece, edge)
			assert.InDelta(t, was.Length(), is.Length(), 1e-9, edge)
		}
		same(lowerPiece, "vertical seam")
		same(innerPiece, "wire")
		same(innerPiece, "vertical seam")
		same(upperPiece, "cross seam")
		same(upperPiece, "strap")
		same(upperPiece, "underarm")
		assert.InDelta(t, 4, figure(t, res, "wider", "opened"), 1e-9)
		assert.InDelta(t, 4, figure(t, res, "about", "degrees"), 1e-9)
		// The angle of a dart about its point stays when it moves.
		d := after.Seam("side dart")
		require.NotNil(t, d, "the closed dart is gone and the new one sewn")
		require.Nil(t, after.Seam("dart"))
		a, b := after.Length(d.A), after.Length(d.B)
		assert.InDelta(t, a, b, 1e-9)
		for _, name := range []string{"side dart before", "side dart after"} {
			_, e := after.Edge(upperPiece, name)
			assert.Equal(t, pattern.DartEdge, e.Role)
		}
		cut, err := after.Piece(upperPiece).CutLine()
		require.NoError(t, err)
		assert.Empty(t, cut.SelfCrossings(), "it is cut straight over the dart's mouth")
		opened := figure(t, res, "moved", "opened")
		assert.InDelta(t, figure(t, res, "moved", "degrees"), 2*math.Asin(opened/(2*a))*180/math.Pi, 1e-6)
		assert.InDelta(t, necklines[res.Size.Label], figure(t, res, "long", "length"), 1e-6)
		_, e := after.Edge(innerPiece, "neckline")
		assert.Empty(t, e.Path.Corners(pattern.SmoothTurn))
	}
}

// A neckline drawn anew in shares of its chord has the same shape, and with
// its length kept the same length, in every size.
func TestTheNecklineIsReshapedInEverySize(t *testing.T) {
	r := tern(t)
	_, e := r.Sizes[0].Pattern.Edge(innerPiece, "neckline")
	knots, err := step.KnotsOf(e.Path)
	require.NoError(t, err)
	knots[0].Out.Off += 0.03
	drawn := &step.Reshape{Piece: innerPiece, Edge: "neckline", Knots: knots, Start: step.TangentFree}
	kept := *drawn
	kept.Keep = "length"
	for _, s := range []*step.Reshape{drawn, &kept} {
		_, results, err := step.Recipe(nil).Append(r, step.Entry{ID: "neck", Step: s})
		require.NoError(t, err)
		ratio := 0.0
		for i, res := range results {
			require.NoError(t, res.Size.Pattern.Validate())
			_, was := r.Sizes[i].Pattern.Edge(innerPiece, "neckline")
			_, is := res.Size.Pattern.Edge(innerPiece, "neckline")
			if s.Keep != "" {
				assert.InDelta(t, was.Length(), is.Length(), 1e-6)
				continue
			}
			now := is.Length() / is.Path.Start().Dist(is.Path.End())
			if i > 0 {
				assert.InDelta(t, ratio, now, 2e-3)
			}
			ratio = now
		}
	}
}
