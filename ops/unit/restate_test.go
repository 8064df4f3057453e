package unit

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A length reads the same alone and within a sentence that tells it in mm; in
// inches the sentence may add what a tape shows.
func TestALengthHasOneFigureEverywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(-600, 600).Draw(t, "mm")
		for _, system := range []System{Millimetres, Centimetres, InchFractions} {
			alone := Format(mm, system)
			told, _, _ := strings.Cut(Restate(Format(mm, Millimetres), system), " (")
			require.Equal(t, alone, told)
			told, _, _ = strings.Cut(Restate(fmt.Sprintf("%.2f mm", math.Round(mm*100)/100), system), " (")
			require.Equal(t, strings.TrimPrefix(alone, "-"), strings.TrimPrefix(told, "-"), "%g", mm)
			require.Equal(t, Restate(MM(mm), system), Tell(mm, system))
		}
	})
}

func TestLengthsInASentenceAreRestated(t *testing.T) {
	s := "The opening is 114.3 mm, −6.35 mm off; 12 mm² are lost."
	require.Equal(t, s, Restate(s, Millimetres))
	require.Equal(t, "The opening is 4 1/2 in, −1/4 in off; 0.019 sq in are lost.", Restate(s, InchFractions))
	require.Equal(t, "The opening is 11.43 cm, −0.635 cm off; 12 mm² are lost.", Restate(s, Centimetres))
}

// A tape of 32 parts to the inch is what the fractions are checked on, and below
// half an inch a ruler of 64.
func TestALengthOffTheTapeHasTheNearestFractionBesideIt(t *testing.T) {
	for mm, want := range map[float64][2]string{
		264.13: {"10.399 in (about 10 13/32 in)", "10.399 in ≈ 10 13/32"},
		146.33: {"5.761 in (about 5 3/4 in)", "5.761 in ≈ 5 3/4"},
		6.86:   {"0.27 in (about 17/64 in)", "0.27 in ≈ 17/64"},
		-6.86:  {"-0.27 in (about 17/64 in)", "-0.27 in ≈ 17/64"},
		85.73:  {"3 3/8 in", "3 3/8 in"},
		3.43:   {"0.135 in (about 9/64 in)", "0.135 in ≈ 9/64"}, // half of 0.27
		0.79:   {"0.031 in (about 1/32 in)", "0.031 in ≈ 1/32"},
		0.6:    {"0.024 in (about 1/32 in)", "0.024 in ≈ 1/32"},
		0.59:   {"0.023 in", "0.023 in"}, // 1/32 would be a third too much
		0:      {"0 in", "0 in"},
		24.95:  {"0.982 in (about 31/32 in)", "0.982 in ≈ 31/32"},
		25.2:   {"0.992 in (about 1 in)", "0.992 in ≈ 1"},
	} {
		require.Equal(t, want[0], Tell(mm, InchFractions))
		require.Equal(t, want[1], Brief(MM(mm), InchFractions))
	}
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(0, 3000).Draw(t, "mm")
		_, beside, ok := strings.Cut(Tell(mm, InchFractions), "(about ")
		if !ok {
			return
		}
		tape, err := Parse(strings.TrimSuffix(beside, ")"))
		require.NoError(t, err)
		off := float64(Inch) / 64
		if mm < Inch/2 {
			off = Inch / 128
		}
		require.LessOrEqual(t, math.Abs(tape-mm), off+0.005)
		for _, text := range []string{Tell(mm, InchFractions), Brief(MM(mm), InchFractions)} {
			back, err := Parse(text)
			require.NoError(t, err)
			require.InDelta(t, mm, back, 0.02, text)
		}
	})
}

func TestLengthsOfASentenceHaveOneForm(t *testing.T) {
	s := "It is 85.73 mm on the frame and 86.49 mm on the band, 0.76 mm apart. The next is 6.35 mm, 2 times 50.8 mm and 0 mm."
	require.Equal(t, "It is 3.375 in (3 3/8 in) on the frame and 3.405 in (about 3 13/32 in) on the band, 0.03 in (about 1/32 in) apart. "+
		"The next is 1/4 in, 2 times 2 in and 0 in.", Restate(s, InchFractions))
	require.Equal(t, "hem 3.375 in = 3 3/8 (+0.27 in ≈ 17/64), 2 in wide", Brief("hem 85.73 mm (+6.86 mm), 50.8 mm wide", InchFractions))
	require.Equal(t, "hem 85.73 mm (+6.8 mm)", Brief("hem 85.73 mm (+6.80 mm)", Millimetres))
	require.Equal(t, "A mark 1/2 in high\nand one 0.5 in (1/2 in), not 0.453 in (about 29/64 in)", Restate("A mark 12.7 mm high\nand one 12.7 mm, not 11.5 mm", InchFractions))
}

func TestANumberIsKeptWithItsUnit(t *testing.T) {
	for s, want := range map[string]string{
		"hem 10.399 in (about 10 13/32 in), 3 of 4": "hem 10.399_in (about_10_13/32_in), 3 of 4",
		"0.27 in ≈ 17/64, 5 mm 6 cm²; 12 %":         "0.27_in_≈_17/64, 5_mm 6_cm²; 12_%",
		"4 million, 19.07 sq in":                    "4 million, 19.07_sq_in",
	} {
		require.Equal(t, want, strings.ReplaceAll(Kept(s), "\u00a0", "_"))
		require.Equal(t, s, Loose(Kept(s)))
	}
}
