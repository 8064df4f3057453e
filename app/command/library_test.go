package command

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestClothsGoFromADocumentToAnotherByTheLibrary(t *testing.T) {
	home := t.TempDir()
	t.Setenv("XDG_CONFIG_HOME", home)
	doc := altered(t)
	require.Contains(t, fine(t, "cloth", "--library"), "no cloth yet")
	code, _, said := run("cloth", doc, "--to-library", "heron lace on sheer tricot")
	require.Equal(t, Fine, code, said)
	require.Contains(t, said, "is kept")
	var got struct {
		File   string
		Cloths []struct {
			Name  string
			Along struct {
				Stretch float64 `json:"stretch_percent"`
			}
		}
	}
	read(t, fine(t, "cloth", "--library", "--json"), &got)
	require.Equal(t, filepath.Join(home, "truemat", "cloths.json"), got.File)
	require.Len(t, got.Cloths, 3, "with those it is made of")
	require.InDelta(t, 3, got.Cloths[2].Along.Stretch, 1e-9)

	plain := filepath.Join(filepath.Dir(doc), "plain.truemat")
	fine(t, "demo", "--out", plain)
	code, _, said = run("cloth", plain, "--from-library", "heron lace", "--out", plain)
	require.Equal(t, Fine, code, said)
	require.Contains(t, fine(t, "cloth", plain), "heron lace")
	require.NotContains(t, fine(t, "cloth", "--library", "--drop", "heron lace on sheer tricot"), "on sheer")

	file := filepath.Join(home, "truemat", "cloths.json")
	require.NoError(t, os.WriteFile(file, []byte("{"), 0o644))
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"cloth", "--library"}, "cannot be read"},
		{[]string{"cloth", plain, "--from-library", "heron lace", "--out", plain}, "cannot be read"},
		{[]string{"cloth", "--library", "--drop", "heron lace"}, "cannot be read"},
		{[]string{"cloth", doc, "--to-library", "tulle"}, "tulle"},
		{[]string{"cloth", doc, "--from-library", "heron lace"}, "--out"},
		{[]string{"cloth", doc, "--drop", "heron lace"}, "--library"},
		{[]string{"cloth", doc, "--library"}, "alone"},
	} {
		code, _, errOut := run(c.args...)
		require.Equal(t, Nothing, code, c.args)
		require.Contains(t, errOut, c.says, c.args)
	}
	kept, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, "{", string(kept), "left as it is")
	_, _, errOut := run("cloth", doc, "--to-library", "power net")
	require.Contains(t, errOut, "put aside")
	require.Contains(t, fine(t, "cloth", "--library"), "power net")
}
