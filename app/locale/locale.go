// Package locale keeps the toolkit from complaining, on the error output of
// every command, of the locale "C.UTF-8" that containers have: it names no
// language. It is imported for its effect, which must come before the toolkit
// reads the environment: Go initialises packages that wait for nothing in the
// order of their paths (since Go 1.21), and this one waits only for os. A test
// of the built program proves that it does.
package locale

import (
	"os"
	"strings"
)

func init() {
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		if v := os.Getenv(name); strings.HasPrefix(v, "C.") {
			os.Setenv(name, "C")
		}
	}
}
