package main

import (
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"truemat/app/settings"
)

// Two windows share their settings: none of them complains, and what each set
// is there for the next.
func TestRealTwoWindowsShareTheirSettings(t *testing.T) {
	a := newReal(t)
	a.start()
	b := &real{t: t, display: a.display, home: a.home}
	b.start()
	for range 6 {
		for _, k := range []string{"ctrl+d", "t", "h"} {
			a.do("key", k) // whichever window has the keys
		}
		a.do("mousemove", "600", "300", "click", "1")
	}
	time.Sleep(300 * time.Millisecond)
	a.alive()
	b.alive()
	require.Empty(t, a.said.String()+b.said.String())
	set := settings.Open(filepath.Join(a.home, "config", "truemat", "settings.json"))
	require.GreaterOrEqual(t, set.Int("used tape"), 6)
}
