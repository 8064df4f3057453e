package step

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestNumbersOfAStepAreFoundAndReplacedWhereTheyStand(t *testing.T) {
	six := Lit(6)
	e := Entry{ID: "share", Step: &ShareOut{Amount: Figure("tape.overlap", 0.5), Limit: &six}}
	all := NumbersOf(e.Step)
	require.Len(t, all, 2)
	require.Equal(t, []string{"amount"}, all[0].Path)
	figure, times := all[0].Number.Of()
	require.Equal(t, "tape.overlap", figure)
	require.InDelta(t, 0.5, times, 0)
	v, ok := all[1].Number.Literal()
	require.True(t, ok)
	require.InDelta(t, 6, v, 0)

	for _, n := range all {
		same, err := e.WithNumber(n.Path, n.Number)
		require.NoError(t, err)
		require.Equal(t, e, same)
	}
	next, err := e.WithNumber([]string{"amount"}, PerSize(map[string]float64{"S": 1, "M": 2}))
	require.NoError(t, err)
	b, err := json.Marshal(next)
	require.NoError(t, err)
	require.Contains(t, string(b), `"amount":{"sizes":{"M":2,"S":1}}`)
	figure, _ = e.Step.(*ShareOut).Amount.Of()
	require.Equal(t, "tape.overlap", figure, "the entry before is untouched")
	_, err = e.WithNumber([]string{"width"}, Lit(1))
	require.ErrorContains(t, err, "width")
}

func TestNumbersThatAreNotGivenAreNotListed(t *testing.T) {
	require.Empty(t, NumbersOf(&Allow{Piece: "band", Edge: "hem"}))
	require.Len(t, NumbersOf(&Move{Piece: "band", DX: Lit(1)}), 1)
}
