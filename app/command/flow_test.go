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
