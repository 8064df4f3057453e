package command

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/check"
	"truemat/ops/store"
)

func TestCheckByBoundsOfHerOwn(t *testing.T) {
	doc := filepath.Join(t.TempDir(), "lace.truemat")
	fine(t, "demo", "--out", doc, "--altered")
	require.Contains(t, fine(t, "check", doc), "  look    The opening of the wire line")
	require.NotContains(t, fine(t, "check", doc, "--bound", "wire-opening=20"), "The opening of the wire line")
	code, out, _ := run("check", doc, "--bound", "wire-opening=1,2")
	require.Equal(t, Broken, code)
	require.Contains(t, out, "  broken  The opening of the wire line")
	code, out, errOut := run("check", doc, "--bound", "opening=1")
	require.Equal(t, Nothing, code)
	require.Empty(t, out)
	require.Contains(t, errOut, `there is no bound "opening"; there are wire-length=0.5,1.5, wire-opening=5,10`)
}

func TestBoundsAreKeptWithTheDocument(t *testing.T) {
	dir := t.TempDir()
	doc, mine := filepath.Join(dir, "lace.truemat"), filepath.Join(dir, "mine.truemat")
	fine(t, "demo", "--out", doc, "--altered")
	was, err := os.ReadFile(doc)
	require.NoError(t, err)
	require.NotContains(t, string(was), `"bounds"`)
	run("check", doc, "--bound", "wire-opening=1,2", "--out", mine)
	code, out, _ := run("check", mine)
	require.Equal(t, Broken, code)
	require.Contains(t, out, "  broken  The opening of the wire line")

	// For one call others count, and what else is kept stays.
	require.NotContains(t, fine(t, "check", mine, "--bound", "wire-opening=20"), "The opening of the wire line")
	require.Contains(t, fine(t, "check", mine, "--bound", "wire-opening=usual"), "  look    The opening of the wire line")
	list := filepath.Join(dir, "steps.json")
	require.NoError(t, os.WriteFile(list, []byte(`[{"id":"m","do":"move","piece":"band","dx":1,"dy":0}]`), 0o644))
	fine(t, "alter", mine, "--steps", list, "--out", mine)
	kept, err := store.Load(mine)
	require.NoError(t, err)
	require.Equal(t, check.Own{"wire-opening": {1, 2}}, kept.Bounds)

	// Taken back, the document is as it was.
	run("check", doc, "--bound", "wire-opening=1,2", "--out", mine)
	fine(t, "check", mine, "--bound", "wire-opening=usual", "--out", mine)
	is, err := os.ReadFile(mine)
	require.NoError(t, err)
	require.Equal(t, was, is)

	// Bounds that are none are refused as the file is read.
	for text, want := range map[string]string{
		`{"seams": [1]}`:         `no bound "seams"`,
		`{"arrow": [5, 2]}`:      "the second value is the greater",
		`{"arrow": [1, 2, 3]}`:   "not 3 values",
		`{"arrow": "little"}`:    "bounds",
		`{"arrow": [-1]}`:        "from 0 to 1000",
		`{"channelling": [1,2]}`: "takes a length",
	} {
		bad := strings.TrimSuffix(strings.TrimSpace(string(was)), "}") + `, "bounds": ` + text + "}"
		require.NoError(t, os.WriteFile(mine, []byte(bad), 0o644))
		code, _, errOut := run("check", mine)
		require.Equal(t, Nothing, code, text)
		require.Contains(t, errOut, want, text)
	}
}
