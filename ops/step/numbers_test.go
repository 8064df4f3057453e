package step

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/ops/pattern"
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

func TestNumbersAreToldInPlainWords(t *testing.T) {
	end := func(piece string) Share { return Share{EdgeEnd: endOf(piece, "side", pattern.Start)} }
	third := 0.3
	for want, s := range map[string]Step{
		`Give back the overlap of step "tape": half of it at the start of side of left and half of it at the start of side of right.`: &ShareOut{Amount: Figure("tape.overlap", 1), Onto: []Share{end("left"), end("right")}},
		`Give back half the overlap of step "tape" at the start of side of left.`:                                                     &ShareOut{Amount: Figure("tape.overlap", 0.5), Onto: []Share{end("left")}},
		`Give back 6 mm: 30 % of it at the start of side of left.`:                                                                    &ShareOut{Amount: Lit(6), Onto: []Share{{EdgeEnd: endOf("left", "side", pattern.Start), Part: &third}}},
	} {
		require.Equal(t, want, s.Sentence())
	}
	for want, n := range map[string]Number{
		"1.2 times the wire length of step \"smooth\"": Figure("smooth.wire_length", 1.2),
		"a quarter of the pattern's underbust":         Figure("pattern.underbust", 0.25),
		"a third of the pattern's underbust":           Figure("pattern.underbust", 1./3),
		"three quarters of the pattern's underbust":    Figure("pattern.underbust", 0.75),
		"-1 times the overlap of step \"tape\"":        Figure("tape.overlap", -1),
		"a number per size":                            PerSize(map[string]float64{"S": 1}),
	} {
		require.Equal(t, want, n.String())
	}
	// Opening and closing are told as what they are, without a sign.
	slash := []Slash{{From: on("right", 50)}}
	for want, s := range map[string]*Spread{
		"and spread it by 6 mm":             {Piece: "front", Slashes: slash, Amount: num(6)},
		"and close it by 6 mm":              {Piece: "front", Slashes: slash, Amount: num(-6)},
		"and close it by 2.5 degrees":       {Piece: "front", Slashes: slash, Degrees: num(-2.5)},
		"and close it by a number per size": {Piece: "front", Slashes: slash, Amount: new(PerSize(map[string]float64{"S": -1, "L": -2}))},
		"and close it":                      {Piece: "front", Slashes: []Slash{{From: on("right", 50), Amount: num(-6)}}},
	} {
		require.Contains(t, s.Sentence(), want)
	}
}
