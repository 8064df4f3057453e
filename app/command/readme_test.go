package command

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/recipe"
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

// The commands shown for sizes, recipes and fit do what they say, in their
// order, on the Tern and on one in which some things are called otherwise.
func TestCommandsOfTheReadmeForSizesRecipesAndFitRun(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	fine(t, "demo", "--out", "tern.truemat")
	fine(t, "demo", "--out", "lace.truemat", "--altered")
	tern, err := os.ReadFile("tern.truemat")
	require.NoError(t, err)
	other := strings.NewReplacer(`"cradle"`, `"side frame"`, `"bridge seam"`, `"joint"`).Replace(string(tern))
	require.NoError(t, os.WriteFile("other.truemat", []byte(other), 0o644))
	require.NoError(t, os.WriteFile("wider.json", []byte(`[{"id": "wider", "do": "allow", "piece": "band", "edge": "hem", "width": 14}]`), 0o644))

	_, section, ok := strings.Cut(string(readme), "\n### All sizes, recipes, fit\n")
	require.True(t, ok)
	section, _, _ = strings.Cut(section, "\n### ")
	lines := regexp.MustCompile(`(?m)^truemat (.*)$`).FindAllStringSubmatch(section, -1)
	require.Greater(t, len(lines), 8)
	for _, line := range lines {
		var args []string
		for _, word := range regexp.MustCompile(`"([^"]*)"|(\S+)`).FindAllStringSubmatch(line[1], -1) {
			args = append(args, word[1]+word[2])
		}
		fine(t, args...)
	}
	m, err := recipe.ReadMap(strings.NewReader(regexp.MustCompile("`(\\{\"cradle\".*?\\})`").FindStringSubmatch(section)[1]))
	require.NoError(t, err)
	require.Len(t, m, 4)
}
