package unit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestParse(t *testing.T) {
	for s, want := range map[string]float64{
		"6.35":                     6.35,
		"6,35":                     6.35,
		"6":                        6,
		"6.":                       6,
		".5":                       0.5,
		"6.35mm":                   6.35,
		" 6.35 MM ":                6.35,
		"0.6 cm":                   6,
		"0.6cm":                    6,
		"1/4":                      6.35,
		"1/4 in":                   6.35,
		"1/4in.":                   6.35,
		`1/4"`:                     6.35,
		"3 1/8 in":                 79.375,
		`3-1/8"`:                   79.375,
		"3 1/8":                    79.375,
		"3 - 1 / 8":                79.375,
		"3⅛ in":                    79.375,
		"½":                        12.7,
		"1 inch":                   25.4,
		"2.5 inches":               63.5,
		"1″":                       25.4,
		"-1/4":                     -6.35,
		"+1/4":                     6.35,
		"-3 1/8 in":                -79.375,
		"−6.35":                    -6.35,
		"- 2 mm":                   -2,
		"-0":                       0,
		"1/2 cm":                   5,
		"1/2 mm":                   0.5,
		"0.27 in (about 9/32 in)":  6.858,
		"0.27\u00a0in ≈ 9/32":      6.858,
		"3.375 in = 3 3/8":         85.725,
		"-0.27 in (about 9/32 in)": -6.858,
		"12 mm (about 15/32 in)":   12,
		"about 15/32 in":           11.90625,
		"100000":                   1e5,
	} {
		v, err := Parse(s)
		require.NoError(t, err, s)
		assert.InDelta(t, want, v, 1e-12, s)
		assert.False(t, v == 0 && math.Signbit(v), "%s gives −0", s)
	}
}

func TestParseRefuses(t *testing.T) {
	for s, want := range map[string]string{
		"":                   "a length is missing",
		"   ":                "a length is missing",
		"abc":                "is not a length",
		"NaN":                "is not a length",
		"Inf":                "is not a length",
		"1e5":                "is not a length",
		"0x10":               "is not a length",
		"1/0":                "cannot have 0 below",
		"3 1/0 in":           "cannot have 0 below",
		"1/2/3":              "is not a length",
		"1.5/2":              "is not a length",
		"3 4":                "is not a length",
		"6.35 ft":            `no unit "ft"`,
		"--6":                "is not a length",
		"6 mm mm":            "is not a length",
		"1.2.3":              "is not a length",
		"100001":             "longer than 100 m",
		"99999 in":           "longer than 100 m",
		"6_000":              "is not a length",
		"1 in 2 mm":          "is not a length",
		"5 (3)":              "is not a length",
		"1 in (2 in)":        "is not a length",
		"1 in ≈":             "is not a length",
		"1 in (1 in) (1 in)": "is not a length",
		"٣":                  "is not a length",
		"9999999999999999999999999999999999999999999": "too long",
		"999999999999999999999999999999/1":            "longer than 100 m",
	} {
		v, err := Parse(s)
		assert.ErrorContains(t, err, want, s)
		assert.Zero(t, v)
	}
}

func TestInches(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		den  int
		want string
	}{
		{0, 16, "0 in"},
		{6.35, 16, "1/4 in"},
		{79.375, 16, "3 1/8 in"},
		{-79.375, 16, "-3 1/8 in"},
		{25.4, 16, "1 in"},
		{25.3, 16, "1 in"},
		{-0.1, 16, "0 in"},
		{1.5875, 16, "1/16 in"},
		{1.5875, 8, "1/8 in"}, // halves go away from zero
		{1.5, 8, "0 in"},
		{0.79375, 32, "1/32 in"},
		{6.35, 0, "1/4 in"},
		{math.NaN(), 16, "NaN in"},
	} {
		assert.Equal(t, c.want, Inches(c.mm, c.den), "%v mm in 1/%d", c.mm, c.den)
	}
}

func TestFormat(t *testing.T) {
	assert.Equal(t, "6.35 mm", Format(6.35, Millimetres))
	assert.Equal(t, "6 mm", Format(6.0000001, Millimetres))
	assert.Equal(t, "0 mm", Format(-0.001, Millimetres))
	assert.Equal(t, "-12.7 mm", Format(-12.7, Millimetres))
	assert.Equal(t, "0.635 cm", Format(6.35, Centimetres))
	assert.Equal(t, "3 1/8 in", Format(79.375, InchFractions))
}

// What is written reads back within half of the last place written.
func TestWrittenLengthsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(-5000, 5000).Draw(t, "mm")
		for system, slack := range map[System]float64{Millimetres: 0.005, Centimetres: 0.005, InchFractions: 0.025} {
			text := Format(mm, system)
			back, err := Parse(text)
			if err != nil {
				t.Fatal(err)
			}
			if d := math.Abs(back - mm); d > slack*(1+1e-9) {
				t.Fatalf("%v became %s and that %v", mm, text, back)
			}
			if text2 := Format(back, system); text2 != text {
				t.Fatalf("%s became %s", text, text2)
			}
		}
	})
}

// Nor is anything beside a fraction written otherwise the second time.
func TestInchesBesideAFractionAreWrittenAlikeAgain(t *testing.T) {
	for i := range 4000 {
		for _, near := range []float64{0, 1.5875, -4.7625, 25.4} {
			text := Format(near+float64(i-2000)*1e-4*0.997, InchFractions)
			back, err := Parse(text)
			require.NoError(t, err)
			require.Equal(t, text, Format(back, InchFractions))
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"1/4", "3 1/8 in", `3-1/8"`, "6.35mm", "0,6 cm", "½", "-", "1/0", "9/9/9", "\x80"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		v, err := Parse(s)
		if err != nil {
			if v != 0 || err.Error() == "" {
				t.Fatal("a refusal must give 0 and a reason")
			}
			return
		}
		if !(math.Abs(v) <= Longest) {
			t.Fatalf("%q gave %v", s, v)
		}
	})
}

func TestFieldsReadBackWhatTheyShow(t *testing.T) {
	for _, system := range []System{Millimetres, Centimetres, InchFractions} {
		for _, mm := range []float64{0, 6.35, 3.175, 112, 107.67, -0.4, 0.03, 1, 25.4} {
			back, err := Parse(Format(mm, system))
			require.NoError(t, err)
			require.InDelta(t, mm, back, 0.02, "%s", Format(mm, system))
		}
	}
	require.Equal(t, "1/4 in", Format(6.35, InchFractions))
	require.Equal(t, "4.409 in", Format(112, InchFractions))
	require.Equal(t, "0.012 in", Format(0.3, InchFractions), "a small length is not told as none")
	require.Equal(t, "0 in", Format(0, InchFractions))
}

func TestAPlainNumberIsInTheUnitThatIsRead(t *testing.T) {
	for system, want := range map[System]float64{Millimetres: 3, Centimetres: 30, InchFractions: 76.2} {
		v, err := ParseIn("3", system)
		require.NoError(t, err)
		require.InDelta(t, want, v, 1e-12)
		for typed, mm := range map[string]float64{"3 mm": 3, "0.3 cm": 3, "1/4": 6.35, "2 in": 50.8} {
			v, err := ParseIn(typed, system)
			require.NoError(t, err)
			require.InDelta(t, mm, v, 1e-12, "%s with %s", typed, system)
		}
	}
	_, err := ParseIn("x", InchFractions)
	require.ErrorContains(t, err, "a plain number is inches")
}

// What is written never contradicts a difference that is written beside it.
func TestRoundedInchesDoNotContradictTheirDifference(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0, 500).Draw(t, "a")
		b := a + rapid.Float64Range(0.05, 3).Draw(t, "more")
		if Format(a, InchFractions) == Format(b, InchFractions) {
			t.Fatalf("%v and %v are both %s", a, b, Format(a, InchFractions))
		}
	})
	require.Equal(t, "5.152 in", Format(130.87, InchFractions))
	require.Equal(t, "5 1/8 in", Format(130.175, InchFractions))
	require.Equal(t, "19.07 sq in", Area(12300, InchFractions))
	require.Equal(t, "123 cm²", Area(12300, Centimetres))
}
