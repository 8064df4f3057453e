package settings_test

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/app/settings"
)

func TestSettingsAreReadAsTheyWereWritten(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a", "settings.json")
	f := settings.Open(path)
	require.False(t, f.Bool("dark"))
	require.Equal(t, "mm", f.StringWithFallback("unit", "mm"))
	f.SetBool("dark", true)
	f.SetFloat("scale", 3.75)
	f.SetInt("used", 4)
	f.SetString("unit", "cm")
	f.SetStringList("recent", []string{"b", "a"})
	require.NoError(t, f.Wrong())
	for _, g := range []*settings.File{f, settings.Open(path)} {
		require.True(t, g.Bool("dark"))
		require.Equal(t, 3.75, g.Float("scale"))
		require.Equal(t, 4, g.Int("used"))
		require.Equal(t, "cm", g.String("unit"))
		require.Equal(t, []string{"b", "a"}, g.StringList("recent"))
	}
}

// Two programs on one file: neither loses what the other set, and at no moment
// is the file anything but whole.
func TestTwoProgramsShareTheirSettings(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settings.json")
	a, b := settings.Open(path), settings.Open(path)
	a.SetString("unit", "cm")
	b.SetBool("dark", true)
	a.SetInt("used", 1)
	now := settings.Open(path)
	require.Equal(t, "cm", now.String("unit"))
	require.True(t, now.Bool("dark"))
	require.Equal(t, 1, now.Int("used"))

	done := make(chan struct{})
	go func() {
		defer close(done)
		for i := range 60 {
			for n, f := range []*settings.File{a, b} {
				f.SetString(fmt.Sprint("key ", n), fmt.Sprintf("%0500d", i))
			}
		}
	}()
	for whole := 0; ; whole++ {
		raw, err := os.ReadFile(path)
		require.NoError(t, err)
		var all map[string]any
		require.NoError(t, json.Unmarshal(raw, &all), "after %d readings", whole)
		select {
		case <-done:
			return
		default:
		}
	}
}

func TestADamagedFileIsAsGoodAsNone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settings.json")
	require.NoError(t, os.WriteFile(path, []byte(`{"dark": tr`), 0o600))
	f := settings.Open(path)
	require.False(t, f.Bool("dark"))
	f.SetBool("dark", true)
	require.NoError(t, f.Wrong())
	require.True(t, settings.Open(path).Bool("dark"))

	none := settings.Open("")
	none.SetBool("dark", true)
	require.True(t, none.Bool("dark"))
	require.NoError(t, none.Wrong())
}
