package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestCommandsSayNothingOfTheirOwnInAnyLocale(t *testing.T) {
	bin := filepath.Join(t.TempDir(), "truemat")
	out, err := exec.Command("go", "build", "-o", bin, ".").CombinedOutput()
	require.NoError(t, err, "%s", out)
	for _, locale := range []string{"C.UTF-8", "C", "", "en_US.UTF-8", "de_DE.UTF-8"} {
		cmd := exec.Command(bin, "help")
		cmd.Env = append(os.Environ(), "LANG="+locale, "LC_ALL="+locale)
		var errOut bytes.Buffer
		cmd.Stderr = &errOut
		require.NoError(t, cmd.Run())
		require.Empty(t, errOut.String(), "LANG=%s", locale)
	}
}
