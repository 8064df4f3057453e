package command

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/demo"
	"truemat/ops/store"
)

func TestChecksOfAllSizesComeAsATable(t *testing.T) {
	dir := t.TempDir()
	doc := filepath.Join(dir, "tern.truemat")
	fine(t, "demo", "--out", doc, "--altered")
	out := fine(t, "check", doc, "--all")
	lines := strings.Split(out, "\n")
	require.Contains(t, lines[0], "Tern, 12 sizes: ")
	var head, row string
	for _, l := range lines {
		require.LessOrEqual(t, len([]rune(l)), max(tableWidth, 400))
		if strings.Contains(l, "65C") && strings.Contains(l, "70E") {
			head = l
		}
		if strings.HasPrefix(l, "change of wire opening, wire line (mm)") && row == "" {
			row = l
		}
	}
	require.Equal(t, strings.Index(head, "65C")+len("65C")+1, strings.Index(row, "?")+1, "values stand below their size")
	require.Equal(t, 6, strings.Count(row, "?"), "each size in its own column, marked as something to look at")
	require.NotContains(t, out, "sides differ by", "what holds is counted")
	require.Contains(t, fine(t, "check", doc, "--all", "--full"), "sides differ by, cross seam (mm)")

	// A size in which a step fails is named with the reason.
	sizes, err := demo.Tern()
	require.NoError(t, err)
	d := store.Document{Source: sizes, Recipe: demo.TernInLace()}
	i := d.Recipe.Index("tape")
	d.Recipe[i].Sizes = []string{"75C", "75D"}
	require.NoError(t, store.Save(doc, d))
	code, out, _ := run("check", doc, "--size", "75C,80C,80D")
	require.Equal(t, Broken, code)
	require.Contains(t, out, `size 80C* is behind: step 8 (straight-hem) could not apply: there is no piece "frame"`)
	require.NotContains(t, out, "size 75C*")
	code, out, _ = run("check", doc, "--size", "80C", "--json")
	require.Equal(t, Broken, code)
	require.Contains(t, out, `"reason": "step 8 (straight-hem) could not`)
	code, out, errOut := run("measure", doc, "--size", "80C", "--json")
	require.Equal(t, Fine, code)
	require.Contains(t, out, `"reason": "step 8 (straight-hem) could not`)
	require.Contains(t, errOut, `size 80C is behind: step 8 (straight-hem)`)
}

func TestSizesAreDrawnOnASpotOfHerChoice(t *testing.T) {
	dir := t.TempDir()
	doc, svg := filepath.Join(dir, "tern.truemat"), filepath.Join(dir, "nest.svg")
	fine(t, "demo", "--out", doc)
	require.Contains(t, fine(t, "draw", doc, "--size", "75C,80D", "--on", "cradle: hem start", "--along", "cradle: hem end", "--out", svg), "size 75C, 80D")
	fine(t, "print", doc, "--size", "75C,80D", "--on", "inner cup: notch below apex", "--out", filepath.Join(dir, "nest.pdf"))
	for want, args := range map[string][]string{
		"goes with one size":            {"--all", "--before"},
		"lie on each other":             {"--on", "cradle: hem start"},
		"does not say where":            {"--all", "--on", "cradle: hem"},
		"needs an --on":                 {"--all", "--along", "cradle: hem end"},
		`no edge "bottom"`:              {"--all", "--on", "cradle: bottom end"},
		"two places are named on which": {"--all", "--on", "cradle: hem end", "--on", "cradle: hem start"},
	} {
		code, _, errOut := run(append([]string{"draw", doc, "--out", filepath.Join(dir, "x.svg")}, args...)...)
		require.Equal(t, Nothing, code, want)
		require.Contains(t, errOut, want)
	}
}
