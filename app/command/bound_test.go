package command

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
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
