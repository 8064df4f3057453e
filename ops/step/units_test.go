package step

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every length of a sentence carries its unit, since only what does is restated
// in the unit that is read: never "from 3.0 to 12 mm".
func TestEveryLengthOfASentenceHasItsUnit(t *testing.T) {
	bare := regexp.MustCompile(`%(\.\d+)?[gf],? (to|and|or|…) %((\.\d+)?[gf] mm|s)`)
	require.Regexp(t, bare, "from %.1f to %s", "what was wrong once")
	for _, dir := range []string{"../step", "../walk", "../check", "../pattern", "../cloth", "../../geom"} {
		require.NoError(t, filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			text, err := os.ReadFile(path)
			for _, line := range strings.Split(string(text), "\n") {
				if !strings.Contains(line, ".Allowed") {
					require.NotRegexp(t, bare, line, path)
				}
			}
			return err
		}))
	}
}
