package command

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestWiresAndBodiesAreStatedByCommand(t *testing.T) {
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	fine(t, "demo", "--out", in("t.truemat"), "--altered")
	out := fine(t, "fit", in("t.truemat"))
	require.Contains(t, out, "9 % shorter than the body; the closure adds 50.0 mm")
	require.Contains(t, out, "118   214.20  6.0 and 6.0  65E, 70D, 75C")
	require.Regexp(t, `(?m)^75C +118 +226\.2 +6\.00 +0\.00 +750\.0 +677\.8 +9\.6 %`, out)

	out = fine(t, "fit", in("t.truemat"), "--wire", "W4=8 3/4 in", "--play", "W4=5mm,1/4in", "--take", "75C=W4", "--take", "75D=",
		"--underbust", "75C=76cm", "--reduction", "10%", "--closure", "48mm", "--out", in("u.truemat"))
	require.Regexp(t, `(?m)^W4 +222\.25 +5\.0 and 6\.3 +75C$`, out)
	require.Regexp(t, `(?m)^75C +W4 +226\.2 +1\.30 and 2\.65! `, out)
	require.Regexp(t, `(?m)^75D +- +237\.7 +- `, out)
	code, out, _ := run("check", in("u.truemat"), "--size", "75C")
	require.Equal(t, Broken, code)
	require.Contains(t, out, "take a shorter wire or lengthen the line")

	// As JSON it goes out and comes in again.
	_, js, _ := run("fit", in("u.truemat"), "--json")
	var f struct {
		Wires   []struct{ Name string }
		Sizes   map[string]struct{ Underbust float64 }
		Numbers []struct {
			Size string
			Less float64 `json:"less_percent"`
		}
	}
	require.NoError(t, json.Unmarshal([]byte(js), &f))
	require.Len(t, f.Wires, 7)
	require.InDelta(t, 760, f.Sizes["75C"].Underbust, 1e-9)
	require.Len(t, f.Numbers, 12)
	require.NoError(t, os.WriteFile(in("fit.json"), []byte(js), 0o644))
	fine(t, "fit", in("t.truemat"), "--from", in("fit.json"), "--out", in("v.truemat"))
	_, again, _ := run("fit", in("v.truemat"), "--json")
	require.Equal(t, js, again)
	fine(t, "fit", in("v.truemat"), "--take", "75C=118", "--without", "W4", "--out", in("v.truemat"))

	good := contents(t, dir)
	require.NoError(t, os.WriteFile(in("odd.json"), []byte(`{"wires": [{"name": "a", "size": 3}]}`), 0o644))
	defer os.Remove(in("odd.json"))
	for _, c := range []struct {
		args []string
		want string
	}{
		{nil, "nothing is stated"},
		{[]string{"--wire", "a=-3"}, `wire "a": a length of -3 mm`},
		{[]string{"--wire", "a"}, "not of the form"},
		{[]string{"--wire", "a=long"}, "not a length"},
		{[]string{"--play", "a=3"}, `no wire "a"; state its length`},
		{[]string{"--play", "106=3,x"}, "not a length"},
		{[]string{"--play", "106=300"}, "a play of 300 mm"},
		{[]string{"--take", "75C=none"}, `size 75C takes the wire "none"`},
		{[]string{"--take", "34B=106"}, `no size "34B"`},
		{[]string{"--underbust", "75C=-1"}, "an underbust of -1"},
		{[]string{"--underbust", "34B=1"}, `no size "34B"`},
		{[]string{"--without", "106"}, `size 65C takes the wire "106", which the table does not have`},
		{[]string{"--without", "none"}, "no such wire"},
		{[]string{"--reduction", "much"}, "not a number of per cent"},
		{[]string{"--reduction", "-2"}, "a reduction of -2 %"},
		{[]string{"--closure", "wide"}, "--closure"},
		{[]string{"--from", in("odd.json")}, `unknown field "size"`},
		{[]string{"--from", in("none.json")}, "there is no file"},
	} {
		code, _, errOut := run(append([]string{"fit", in("t.truemat"), "--out", in("t.truemat")}, c.args...)...)
		require.Equal(t, Nothing, code, "%v", c.args)
		require.Contains(t, errOut, c.want)
	}
	code, _, errOut := run("fit", in("t.truemat"), "--reduction", "8%")
	require.Equal(t, Nothing, code)
	require.Contains(t, errOut, "--out is missing")
	require.NoError(t, os.Remove(in("odd.json")))
	require.Equal(t, good, contents(t, dir), "nothing changed")
}
