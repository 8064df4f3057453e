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
	used := func() int {
		return settings.Open(filepath.Join(a.home, "config", "truemat", "settings.json")).Int("used tape")
	}
	for i := range 6 {
		a.do("key", "ctrl+d")
		a.until("the tape is taken in whichever window has the keys", func() bool {
			a.do("key", "h")
			a.do("key", "t")
			return used() > i
		})
		a.do("mousemove", "600", "300", "click", "1")
	}
	time.Sleep(300 * time.Millisecond)
	a.alive()
	b.alive()
	require.Empty(t, a.said.String()+b.said.String())
}
