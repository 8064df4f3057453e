package window

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/step"
	"truemat/ops/unit"
)

func TestNumbersOfAStepAreWrittenInWords(t *testing.T) {
	read := func(n step.Number) number {
		e := step.Entry{ID: "a", Step: &step.Mark{Piece: "band", Text: "x", Height: n}}
		for _, n := range numbers(e) {
			if n.path[0] == "height" {
				return n
			}
		}
		t.Fatal("the height is not there")
		return number{}
	}
	require.Equal(t, "19.05", read(step.Lit(0.75*25.4)).text)
	require.Equal(t, "tape-4.overlap × 0.5", read(step.Figure("tape-4.overlap", 0.5)).text)
	require.Equal(t, "tape.overlap", read(step.Figure("tape.overlap", 1)).text)

	for words, want := range map[string]string{
		"tape.overlap":       `{"figure":"tape.overlap","times":1}`,
		"tape.overlap × 0.5": `{"figure":"tape.overlap","times":0.5}`,
		"65C 3, 65D 4.5":     `{"sizes":{"65C":3,"65D":4.5}}`,
		"6.35mm":             `"6.35mm"`,
		"3 1/8 in":           `"3 1/8 in"`,
		".5in":               `".5in"`,
		"wide":               `"wide"`,
		"":                   `""`,
	} {
		b, err := json.Marshal(fromWords(words))
		require.NoError(t, err)
		require.Equal(t, want, string(b), words)
	}
	m := map[string]any{"65D": 4.5, "65C": 3.0}
	require.Equal(t, "65C 3, 65D 4.5", inWords(map[string]any{"sizes": m}))
}

func TestFractionsOfAnInchHideNoLength(t *testing.T) {
	c := &column{w: &Window{unit: unit.InchFractions}}
	require.Equal(t, "12 mm", c.exact(12))
	require.Equal(t, "1/2 in (12 mm)", c.both(12))
	require.Equal(t, "1/4 in", c.exact(6.35))
	require.Equal(t, "1/4 in", c.both(6.35))
	c.w.unit = unit.Millimetres
	require.Equal(t, "136.69 mm", c.both(136.6904))
}
