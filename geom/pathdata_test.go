package geom

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// samplePath is a closed outline of two curves and two straight segments.
const samplePath = "M0 0 C20 60 80 60 100 0 L120 40 C90 100 10 100 -20 40 Z"

func parse(t testing.TB, s string) Path {
	t.Helper()
	p, err := ParsePath(s)
	require.NoError(t, err)
	return p
}

func TestPathDataText(t *testing.T) {
	for in, out := range map[string]string{
		samplePath:                  "M 0 0 C 20 60 80 60 100 0 L 120 40 C 90 100 10 100 -20 40 L 0 0 Z",
		"M1,2L3,4":                  "M 1 2 L 3 4",
		" M 1 , 2\n\tL\r3 4 ":       "M 1 2 L 3 4",
		"M.5-1e1L+1.25E+1 5.":       "M 0.5 -10 L 12.5 5",
		"M 0 0 L 0 0 L 1 0":         "M 0 0 L 1 0",
		"M0 0L1e-7 0":               "M 0 0 L 1e-07 0",
		"M-0 0L1 -0":                "M -0 0 L 1 -0",
		"M0 0L1 0L1 1L0 0Z":         "M 0 0 L 1 0 L 1 1 L 0 0 Z",
		"M0 0C1 1,2 2,3 0":          "M 0 0 C 1 1 2 2 3 0",
		"M0 0L1 0L1 1L0 0.5e-9Z":    "M 0 0 L 1 0 L 1 1 L 0 0 Z",
		"M0 0L1 0L1 1L0 0L1e-10 0Z": "M 0 0 L 1 0 L 1 1 L 0 0 Z",
	} {
		assert.Equal(t, out, parse(t, in).String(), in)
	}
}

func TestPathDataRefused(t *testing.T) {
	for in, want := range map[string]string{
		"":                        "ends too early: a path starts with M",
		"L 0 0":                   "at 1 ('L'): a path starts with M",
		"M 0 0 l 1 1":             "at 7 ('l'): only L, C and Z",
		"M 0 0 L 1 1 2 2":         "at 13 ('2'): only L, C and Z",
		"M 0 0 L 1":               "ends too early: a number",
		"M 0 0 L 1 x":             "at 11 ('x'): a number",
		"M 0 0 L 1,,2":            "at 11 (','): a number",
		"M 0 0 L NaN 0":           "at 9 ('N'): a number",
		"M 0 0 L Inf 0":           "at 9 ('I'): a number",
		"M 0 0 L 0x10 0":          "at 10 ('x'): a number",
		"M 0 0 L 1e 0":            "at 11 (' '): an exponent",
		"M 0 0 L 1e999 0":         "at 9 ('1'): a coordinate must lie within 100000 mm",
		"M 0 0 L 100001 0":        "at 9 ('1'): a coordinate must lie",
		"M 0 0":                   "a segment with some length",
		"M 0 0 L 0 0":             "a segment with some length",
		"M 0 0 L 1 0 L 1 1 Z Z":   "at 21 ('Z'): nothing may follow Z",
		"M 0 0 L 1 0 Z M 0 0 L11": "at 15 ('M'): nothing may follow Z",
	} {
		_, err := ParsePath(in)
		assert.ErrorContains(t, err, want, in)
	}
	_, err := ParsePath("M 0 0 L" + strings.Repeat(" 1", 1<<16))
	assert.Error(t, err)
}

func TestPathDataInJSON(t *testing.T) {
	type doc struct{ Outline Path }
	in := doc{parse(t, samplePath)}
	b, err := json.Marshal(in)
	require.NoError(t, err)
	var out doc
	require.NoError(t, json.Unmarshal(b, &out))
	requireSame(t, in.Outline, out.Outline)

	require.Error(t, json.Unmarshal([]byte(`{"Outline":"M 0 0 Q 1 1 2 2"}`), &out))
	requireSame(t, in.Outline, out.Outline)

	require.NoError(t, json.Unmarshal([]byte(`{"Outline":""}`), &out))
	assert.True(t, out.Outline.Empty())
}

// requireSame wants the same segments bit for bit, telling 0 from −0.
func requireSame(t require.TestingT, want, got Path) {
	require.Equal(t, want.Closed(), got.Closed())
	require.Equal(t, want.Len(), got.Len(), "%s\n%s", want, got)
	for i := range want.segs {
		a, b := want.segs[i], got.segs[i]
		require.Equal(t, a.straight, b.straight)
		for k := range a.P {
			require.Equal(t, math.Float64bits(a.P[k].X), math.Float64bits(b.P[k].X), "segment %d point %d", i, k)
			require.Equal(t, math.Float64bits(a.P[k].Y), math.Float64bits(b.P[k].Y), "segment %d point %d", i, k)
		}
	}
}

func TestPathDataRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t, "path")
		for _, q := range []Path{p, p.Reverse(), p.Transform(drawMotion(t)), p.Transform(Turn(1, Pt(3, 4))).Reverse()} {
			back, err := ParsePath(q.String())
			require.NoError(t, err)
			requireSame(t, q, back)
		}
	})
}

func FuzzParsePath(f *testing.F) {
	for _, s := range []string{samplePath, "M1,2L3,4", "M 0 0", "M0 0L1 0L1 1L0 1e-10Z", "M0 0C1 1 1 1 0 0Z",
		"M-0 0L0 -0L1 1", "M0 0L1e-9 0L1 1L0 0Z", "M 0 0 L 1e5 -1e5", "M0 0c1 1", "M0,0,L1,1", "M0 0L1 0Z", "M0 0L9.9e-10 0Z"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		p, err := ParsePath(s)
		if err != nil {
			return
		}
		for _, c := range p.segs {
			require.NoError(t, c.check())
		}
		require.Greater(t, p.Length(), 0.0)
		back, err := ParsePath(p.String())
		require.NoError(t, err)
		requireSame(t, p, back)
	})
}
