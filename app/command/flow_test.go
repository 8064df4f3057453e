package command

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// run carries out a command line and returns its exit code and what it wrote.
func run(args ...string) (code int, out, errOut string) {
	var o, e bytes.Buffer
	code = Run(args, &o, &e)
	return code, o.String(), e.String()
}

// fine is run for a command that must end well.
func fine(t *testing.T, args ...string) string {
	t.Helper()
	code, out, errOut := run(args...)
	require.Equal(t, Fine, code, "%s\n%s%s", strings.Join(args, " "), out, errOut)
	require.Empty(t, errOut)
	return out
}

type measured struct {
	Pattern string
	Sizes   []struct {
		Size   string
		Pieces []struct {
			Name    string
			Area    float64 `json:"area_mm2"`
			CutArea float64 `json:"cut_area_mm2"`
			Edges   []struct {
				Name, Role string
				Length     float64 `json:"length_mm"`
				Allowance  float64 `json:"allowance_mm"`
				Straight   bool
			}
			Notches []struct {
				Edge string
				At   float64 `json:"at_mm"`
			}
		}
		Seams []struct {
			Name       string
			A          float64 `json:"a_mm"`
			B          float64 `json:"b_mm"`
			Ease       float64 `json:"ease_mm"`
			Difference float64 `json:"difference_mm"`
		}
		Lines []struct {
			Name, Kind string
			Length     float64 `json:"length_mm"`
		}
	}
}

func measure(t *testing.T, file string) measured {
	t.Helper()
	var m measured
	require.NoError(t, json.Unmarshal([]byte(fine(t, "measure", file, "--all", "--json")), &m))
	return m
}

func line(t *testing.T, m measured, size int, name string) float64 {
	t.Helper()
	for _, l := range m.Sizes[size].Lines {
		if l.Name == name {
			return l.Length
		}
	}
	t.Fatalf("no line %q", name)
	return 0
}

type verdicts struct {
	Sizes []struct {
		Size   string
		Checks []struct {
			ID, Verdict, Text, Unit, Allowed string
			Measured                         float64
		}
	}
}

func TestDemoInLaceKeepsWhatMustHoldInEverySize(t *testing.T) {
	dir := t.TempDir()
	plain, lace := filepath.Join(dir, "tern.truemat"), filepath.Join(dir, "lace.truemat")
	fine(t, "demo", "--out", plain)
	fine(t, "demo", "--out", lace, "--altered")
	before, after := measure(t, plain), measure(t, lace)
	require.GreaterOrEqual(t, len(before.Sizes), 8)
	require.Len(t, after.Sizes, len(before.Sizes))
	for i, s := range after.Sizes {
		require.InDelta(t, line(t, before, i, "wire line"), line(t, after, i, "wire line"), 1e-6, "wire line of size %s", s.Size)
		require.InDelta(t, line(t, before, i, "hem"), line(t, after, i, "hem"), 1, "hem of size %s", s.Size)
		require.Len(t, s.Pieces, len(before.Sizes[i].Pieces)-1, "bridge and cradle are one")
		for _, p := range s.Pieces {
			require.Greater(t, p.CutArea, p.Area)
			for _, e := range p.Edges {
				if e.Role == "lace-edge" {
					require.True(t, e.Straight)
					require.Zero(t, e.Allowance)
				}
			}
		}
		for _, seam := range s.Seams {
			require.InDelta(t, seam.A-seam.B-seam.Ease, seam.Difference, 1e-9)
		}
	}
	var v verdicts
	require.NoError(t, json.Unmarshal([]byte(fine(t, "check", lace, "--all", "--json")), &v))
	for _, s := range v.Sizes {
		for _, c := range s.Checks {
			require.NotEqual(t, "broken", c.Verdict, "%s: %s", s.Size, c.Text)
		}
	}
}

func TestIrregularFrameComesInGoesThroughItsRecipeAndIsPrinted(t *testing.T) {
	dir := t.TempDir()
	data := filepath.Join("..", "..", "testdata", "intake")
	doc, lace, pdf := filepath.Join(dir, "in.truemat"), filepath.Join(dir, "lace.truemat"), filepath.Join(dir, "lace.pdf")
	out := fine(t, "bring", filepath.Join(data, "irregular.svg"), "--with", filepath.Join(data, "irregular.txt"), "--out", doc)
	require.Contains(t, out, "drawn and computed cut line differ by at most 0.00")
	fine(t, "alter", doc, "--steps", filepath.Join(data, "irregular-lace.json"), "--out", lace)
	before, after := measure(t, doc), measure(t, lace)
	require.Len(t, after.Sizes, 2)
	for i := range after.Sizes {
		require.InDelta(t, line(t, before, i, "wire line"), line(t, after, i, "wire line"), 1e-6)
		require.InDelta(t, line(t, before, i, "hem"), line(t, after, i, "hem"), 1)
	}
	fine(t, "check", lace, "--all")
	out = fine(t, "print", lace, "--paper", "letter", "--all", "--whole", "--out", pdf)
	require.Contains(t, out, "pages of letter")
	b, err := os.ReadFile(pdf)
	require.NoError(t, err)
	require.True(t, bytes.HasPrefix(b, []byte("%PDF-1.7")))
}

func TestCheckEndsWith1WhenSomethingIsBroken(t *testing.T) {
	dir := t.TempDir()
	doc, bad := filepath.Join(dir, "a.truemat"), filepath.Join(dir, "b.truemat")
	steps := filepath.Join(dir, "steps.json")
	fine(t, "demo", "--out", doc)
	require.NoError(t, os.WriteFile(steps, []byte(`[{"id":"wide","do":"allow","piece":"cradle","edge":"side seam","width":"1/2 in"}]`), 0o644))
	fine(t, "alter", doc, "--steps", steps, "--out", bad)
	code, out, errOut := run("check", bad, "--size", "75C")
	require.Equal(t, Broken, code)
	require.Empty(t, errOut)
	require.Contains(t, out, "give both sides the same allowance")
}

func TestDrawWritesEveryKindOfSheetTheSameTwice(t *testing.T) {
	dir := t.TempDir()
	doc := filepath.Join(dir, "a.truemat")
	fine(t, "demo", "--out", doc, "--altered")
	for _, ending := range []string{".svg", ".png", ".pdf"} {
		var first []byte
		for range 2 {
			file := filepath.Join(dir, "out"+ending)
			fine(t, "draw", doc, "--size", "70D", "--before", "--dpi", "40", "--out", file)
			b, err := os.ReadFile(file)
			require.NoError(t, err)
			require.NotEmpty(t, b)
			if first != nil {
				require.Equal(t, first, b, ending)
			}
			first = b
		}
	}
}

func TestHelpTeachesEveryCommand(t *testing.T) {
	overview := fine(t)
	require.Equal(t, overview, fine(t, "help"))
	for _, c := range commands {
		require.Contains(t, overview, c.name)
		text := fine(t, "help", c.name)
		require.Equal(t, text, fine(t, c.name, "--help"))
		require.Contains(t, text, "Example")
		require.Contains(t, text, "truemat "+c.name)
	}
}

func TestARecipeIsSavedAloneAndDoneOnAnotherPattern(t *testing.T) {
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	fine(t, "demo", "--out", in("lace.truemat"), "--altered")
	fine(t, "demo", "--out", in("plain.truemat"))
	require.Contains(t, fine(t, "recipe", in("lace.truemat"), "--out", in("lace.json")), "15 steps of Tern")
	fine(t, "alter", in("plain.truemat"), "--steps", in("lace.json"), "--out", in("again.truemat"))
	fine(t, "recipe", in("again.truemat"), "--out", in("again.json"))
	a, err := os.ReadFile(in("lace.json"))
	require.NoError(t, err)
	b, err := os.ReadFile(in("again.json"))
	require.NoError(t, err)
	require.Equal(t, string(a), string(b), "the same steps, byte for byte")
	require.Equal(t, fine(t, "measure", in("lace.truemat"), "--all", "--json"), fine(t, "measure", in("again.truemat"), "--all", "--json"))

	list := fine(t, "recipe", in("lace.truemat"))
	require.Contains(t, list, "tape: Tape cradle to bridge along bridge seam and cradle seam")
	require.Contains(t, list, "    notch inner cup/above apex\n")
	require.NotContains(t, list, "    frame")
	require.Contains(t, list, "  notches\n")
	require.Contains(t, fine(t, "recipe", in("lace.truemat"), "--step", "mark,turn", "--out", in("two.json")), "2 steps of Tern")

	// Another pattern, with other names for some of it.
	plain, err := os.ReadFile(in("plain.truemat"))
	require.NoError(t, err)
	theirs := strings.NewReplacer(`"cradle"`, `"side frame"`, `"bridge seam"`, `"joint"`, `"above apex"`, `"upper"`).Replace(string(plain))
	require.NoError(t, os.WriteFile(in("theirs.truemat"), []byte(theirs), 0o644))
	code, _, errOut := run("alter", in("theirs.truemat"), "--steps", in("lace.json"), "--out", in("theirs-lace.truemat"))
	require.Equal(t, Nothing, code)
	for _, want := range []string{`piece "cradle" (steps hem-off-cradle, seam-off-cradle, pin, turn, tape) is not there; there is "side frame"`, `notch "above apex" of "inner cup" (step neckline) is not there; there is "below apex", "upper", "bridge end"`} {
		require.Contains(t, errOut, want)
	}
	require.Contains(t, errOut, `as "cradle=side frame"`)
	require.Contains(t, errOut, "given by --name")
	require.NoFileExists(t, in("theirs-lace.truemat"))
	require.NoError(t, os.WriteFile(in("names.json"), []byte(`{"notch inner cup/above apex": "upper"}`), 0o644))
	fine(t, "alter", in("theirs.truemat"), "--steps", in("lace.json"), "--names", in("names.json"),
		"--name", "cradle=side frame", "--name", "cradle/bridge seam=side frame/joint", "--out", in("theirs-lace.truemat"))
	lengths := func(doc string) []float64 {
		var m measured
		require.NoError(t, json.Unmarshal([]byte(fine(t, "measure", doc, "--all", "--json")), &m))
		var all []float64
		for _, s := range m.Sizes {
			for _, p := range s.Pieces {
				for _, e := range p.Edges {
					all = append(all, e.Length)
				}
			}
		}
		return all
	}
	require.Equal(t, lengths(in("lace.truemat")), lengths(in("theirs-lace.truemat")))

	// Done again on what it has altered, it finds nothing to do it on.
	code, _, errOut = run("alter", in("lace.truemat"), "--steps", in("lace.json"), "--out", in("twice.truemat"))
	require.Equal(t, Nothing, code)
	require.Contains(t, errOut, `piece "frame" (step tape) is made by the recipe, but the pattern has one already`)
}

func TestAlterOneSizeAndLeaveTheOthers(t *testing.T) {
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	fine(t, "demo", "--out", in("t.truemat"))
	steps := in("steps.json")
	require.NoError(t, os.WriteFile(steps, []byte(`[{"id":"a","do":"allow","piece":"band","edge":"hem","width":{"sizes":{"75C":7,"75D":8}}}]`), 0o644))
	code, _, errOut := run("alter", in("t.truemat"), "--steps", steps, "--out", in("t.truemat"))
	require.Equal(t, Nothing, code)
	require.Contains(t, errOut, `in size 65C: the table of numbers has none for size "65C"; it has 75C, 75D`)
	require.Contains(t, fine(t, "alter", in("t.truemat"), "--steps", steps, "--only", "75C,75D", "--out", in("t.truemat")), "size 75C (mm)")
	var m measured
	require.NoError(t, json.Unmarshal([]byte(fine(t, "measure", in("t.truemat"), "--all", "--json")), &m))
	for _, s := range m.Sizes {
		for _, p := range s.Pieces {
			for _, e := range p.Edges {
				if p.Name == "band" && e.Name == "hem" {
					require.InDelta(t, map[string]float64{"75C": 7, "75D": 8, "": 12}[map[bool]string{true: s.Size}[s.Size == "75C" || s.Size == "75D"]], e.Allowance, 1e-9, s.Size)
				}
			}
		}
	}
	code, _, errOut = run("alter", in("t.truemat"), "--steps", steps, "--only", "75C", "--out", in("t.truemat"))
	require.Equal(t, Fine, code)
	require.Contains(t, errOut, "the id a is taken; the new step is a-2")
	code, _, errOut = run("alter", in("t.truemat"), "--steps", steps, "--only", "34B", "--out", in("t.truemat"))
	require.Equal(t, Nothing, code)
	require.Contains(t, errOut, `no size "34B"`)
}
