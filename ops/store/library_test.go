package store_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/cloth"
	"truemat/ops/demo"
	"truemat/ops/store"
)

func TestClothsAreKeptBeyondADocument(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new", "cloths.json")
	all, err := store.ReadLibrary(path)
	require.NoError(t, err)
	require.Empty(t, all, "none yet")
	g := demo.Goods()
	aside, err := store.KeepCloth(path, g, "heron lace on sheer tricot")
	require.NoError(t, err)
	require.Empty(t, aside)
	all, err = store.ReadLibrary(path)
	require.NoError(t, err)
	require.Len(t, all, 3, "with those it is made of")

	taken, err := cloth.Goods{}.Taking(all, "heron lace on sheer tricot")
	require.NoError(t, err)
	require.Equal(t, all, taken.Cloths)
	again, err := taken.Taking(all, "heron lace")
	require.NoError(t, err)
	require.Equal(t, taken, again, "what is there stays")

	g.Cloths[2].Width = 180
	_, err = store.KeepCloth(path, g, "heron lace")
	require.NoError(t, err)
	all, err = store.ReadLibrary(path)
	require.NoError(t, err)
	require.Len(t, all, 3, "the new measures take the place of the old")
	_, err = taken.Taking(all, "heron lace")
	require.ErrorContains(t, err, "another cloth called")

	require.ErrorContains(t, store.DropCloth(path, "heron lace"), "remove that first")
	require.NoError(t, store.DropCloth(path, "heron lace on sheer tricot"))
	require.NoError(t, store.DropCloth(path, "heron lace"))
	all, err = store.ReadLibrary(path)
	require.NoError(t, err)
	require.Len(t, all, 1)
	_, err = store.KeepCloth(path, g, "tulle")
	require.ErrorContains(t, err, "tulle")
}

// A damaged library is told, left as it is, and put aside rather than lost
// when another cloth is kept.
func TestADamagedLibraryIsNotLost(t *testing.T) {
	for text, says := range map[string]string{
		"":                                     "damaged there",
		"{\"format\": \"truemat cloths\", ":    "damaged there",
		`[]`:                                   "cannot be read",
		`{"format": "recipes"}`:                "truemat cloths",
		`{"format": "truemat cloths", "x": 1}`: "x",
		`{"format": "truemat cloths", "version": 1, "cloths": [{"name": "net"}]}`: "width",
	} {
		path := filepath.Join(t.TempDir(), "cloths.json")
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
		_, err := store.ReadLibrary(path)
		require.ErrorContains(t, err, says, text)
		require.ErrorContains(t, err, path)
		require.Error(t, store.DropCloth(path, "net"))
		kept, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, text, string(kept), "left as it is")
		aside, err := store.KeepCloth(path, demo.Goods(), "power net")
		require.NoError(t, err)
		kept, err = os.ReadFile(aside)
		require.NoError(t, err)
		require.Equal(t, text, string(kept))
		all, err := store.ReadLibrary(path)
		require.NoError(t, err)
		require.Len(t, all, 1)
	}
}

// What a newer program wrote is neither read nor put aside.
func TestALibraryOfANewerProgramIsLeftAlone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "cloths.json")
	text := `{"format": "truemat cloths", "version": 99, "dyes": []}`
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	_, err := store.KeepCloth(path, demo.Goods(), "power net")
	require.ErrorContains(t, err, "newer Truemat")
	kept, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, text, string(kept))
}
