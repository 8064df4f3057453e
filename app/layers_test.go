package main

import (
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// deps are all packages that some packages use, of their own and of others.
func deps(t *testing.T, args ...string) []string {
	t.Helper()
	out, err := exec.Command("go", append([]string{"list", "-deps"}, args...)...).Output()
	require.NoError(t, err)
	return strings.Fields(string(out))
}

// Only main uses the toolkit's package that needs a display; what works on the
// document knows no toolkit at all, and the mat knows neither document nor
// window.
func TestLayersKnowOnlyWhatLiesBelow(t *testing.T) {
	const toolkit = "fyne.io/fyne/v2"
	require.Contains(t, deps(t, "."), toolkit+"/app")
	for _, p := range []string{"./window", "./mat", "./look"} {
		require.NotContains(t, deps(t, p), toolkit+"/app", p)
	}
	for _, p := range []string{"./tool", "./desk", "./lesson", "./plan", "./settings", "./command", "../render/...", "../ops/...", "../geom/..."} {
		for _, d := range deps(t, p) {
			require.False(t, strings.HasPrefix(d, toolkit), "%s uses %s", p, d)
		}
	}
	for _, d := range deps(t, "./mat") {
		require.NotContains(t, []string{"truemat/app/desk", "truemat/app/window", "truemat/ops/store"}, d)
	}
	for _, d := range deps(t, "./tool") {
		require.NotContains(t, []string{"truemat/app/desk", "truemat/app/mat", "truemat/app/window"}, d)
	}
}
