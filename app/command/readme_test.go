package command

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/step"
)

var stepRow = regexp.MustCompile("(?m)^\\| `([a-z-]+)`[^|]*\\| `(\\{.*\\})` \\|$")

func TestStepsOfTheReadmeApplyInTheirOrder(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	var steps []json.RawMessage
	shown := map[string]bool{}
	for _, row := range stepRow.FindAllStringSubmatch(string(readme), -1) {
		steps = append(steps, json.RawMessage(row[2]))
		shown[row[1]] = true
	}
	for _, kind := range step.Kinds() {
		require.True(t, shown[kind], "the README shows no %q", kind)
	}
	dir := t.TempDir()
	list, err := json.Marshal(steps)
	require.NoError(t, err)
	file := filepath.Join(dir, "steps.json")
	require.NoError(t, os.WriteFile(file, list, 0o644))
	doc := filepath.Join(dir, "tern.truemat")
	fine(t, "demo", "--out", doc)
	fine(t, "alter", doc, "--steps", file, "--out", doc)
}

func TestFilesNamedInTheReadmeAreThere(t *testing.T) {
	root := filepath.Join("..", "..")
	readme, err := os.ReadFile(filepath.Join(root, "README.md"))
	require.NoError(t, err)
	named := regexp.MustCompile(`(?:assets|testdata|app)/[\w./-]*\w`).FindAllString(string(readme), -1)
	require.NotEmpty(t, named)
	for _, name := range named {
		require.FileExists(t, filepath.Join(root, name))
	}
}
