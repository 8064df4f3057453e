package store

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

func sample(t testing.TB) Document {
	t.Helper()
	corner := []geom.Point{geom.Pt(0, 0), geom.Pt(100.0/3, 0.1), geom.Pt(90, 40), geom.Pt(-5, 30)}
	pc := pattern.Piece{
		Name:    "patch",
		Arrow:   pattern.Arrow{Kind: pattern.Grain, From: geom.Pt(1, 1), To: geom.Pt(1, 20)},
		Cut:     pattern.Cut{Count: 1, Pair: true},
		Pose:    geom.Turn(0.3, geom.Pt(1.1, 7)),
		Notches: []pattern.Notch{{Name: "n", Edge: "hem", Along: pattern.Along{From: pattern.End, MM: 3.1}}},
	}
	for i, name := range []string{"hem", "side seam", "top", "front"} {
		a, b := corner[i], corner[(i+1)%4]
		path := geom.Must(geom.Polyline(a, b))
		if name == "top" {
			path = geom.Must(geom.NewPath(geom.Curve(a, a.Lerp(b, 0.3).Add(geom.Pt(0, 7)), a.Lerp(b, 0.7).Add(geom.Pt(0, 7.7)), b)))
		}
		pc.Edges = append(pc.Edges, pattern.Edge{Name: name, Role: pattern.Hem, Path: path, Allowance: 6.35})
	}
	p := pattern.Pattern{Pieces: []pattern.Piece{pc}, Figures: map[string]float64{"wire": 200.0 / 3}}
	var steps step.Recipe
	steps, err := ReadSteps(strings.NewReader(`[{"id":"over","do":"move","piece":"patch","dx":{"figure":"pattern.wire","times":0.1},"dy":0}]`))
	require.NoError(t, err)
	return Document{Source: pattern.Run{Name: "patch", Sizes: []pattern.Size{{Label: "one", Pattern: p}}}, Recipe: steps}
}

func written(t testing.TB, d Document) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Write(&b, d))
	return b.Bytes()
}

func TestReadGivesBackWhatWasWritten(t *testing.T) {
	first := written(t, sample(t))
	d, err := Read(bytes.NewReader(first))
	require.NoError(t, err)
	require.Equal(t, string(first), string(written(t, d)))
	for i, e := range sample(t).Source.Sizes[0].Pattern.Pieces[0].Edges {
		require.Equal(t, e.Path.Segments(), d.Source.Sizes[0].Pattern.Pieces[0].Edges[i].Path.Segments(), "every number bit for bit")
	}
}

func TestReadRefusesNamingThePlace(t *testing.T) {
	good := string(written(t, sample(t)))
	swap := func(old, new string) string {
		require.Contains(t, good, old)
		return strings.Replace(good, old, new, 1)
	}
	for name, c := range map[string]struct{ text, want string }{
		"empty":        {"  \n", "empty"},
		"cut short":    {good[:len(good)/2], "line "},
		"not JSON":     {"<svg/>", "not a Truemat document"},
		"other format": {`{"format":"something"}`, "not a Truemat document"},
		"newer":        {swap(`"version": 1`, `"version": 99`), "newer"},
		"no version":   {swap(`"version": 1`, `"version": 0`), "version 0"},
		"NaN":          {swap(`6.35`, `NaN`), "line "},
		"text number":  {swap(`6.35`, `"wide"`), "allowance"},
		"new field":    {swap(`"role"`, `"rule"`), "rule"},
		"open outline": {swap("L 90 40", "L 91 40"), "patch"},
		"path junk":    {swap("L 90 40", "Q 90 40"), "Q"},
		"unknown step": {swap(`"do": "move"`, `"do": "fly"`), "fly"},
		"huge number":  {swap(`6.35`, `1e300`), "allowance"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Read(strings.NewReader(c.text))
			require.ErrorContains(t, err, c.want)
		})
	}
}

func TestSaveKeepsTheGoodVersionBefore(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.truemat")
	d := sample(t)
	require.NoError(t, Save(path, d))
	old, err := os.ReadFile(path)
	require.NoError(t, err)
	require.NoFileExists(t, path+Previous)

	d.Recipe = nil
	require.NoError(t, Save(path, d))
	kept, err := os.ReadFile(path + Previous)
	require.NoError(t, err)
	require.Equal(t, old, kept)

	require.NoError(t, os.WriteFile(path, old[:len(old)/2], 0o644))
	require.NoError(t, Save(path, d))
	kept, err = os.ReadFile(path + Previous)
	require.NoError(t, err)
	require.Equal(t, old, kept, "a damaged file does not push out the last good one")
	entries, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	require.Len(t, entries, 2, "no temporary file is left")
}

func TestSaveLeavesFilesThatAreNoDocuments(t *testing.T) {
	path := filepath.Join(t.TempDir(), "drawing.svg")
	require.NoError(t, os.WriteFile(path, []byte("<svg/>"), 0o644))
	require.ErrorContains(t, Save(path, sample(t)), "not a pattern")
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, "<svg/>", string(b))

	empty := filepath.Join(t.TempDir(), "empty.truemat")
	require.NoError(t, os.WriteFile(empty, nil, 0o644))
	require.NoError(t, Save(empty, sample(t)), "an empty file holds nothing to lose")
}

func TestLoadPointsToTheVersionBefore(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.truemat")
	require.NoError(t, Save(path, sample(t)))
	require.NoError(t, Save(path, sample(t)))
	require.NoError(t, os.WriteFile(path, []byte("{"), 0o644))
	_, err := Load(path)
	require.ErrorContains(t, err, path+Previous)
	_, err = Load(filepath.Join(t.TempDir(), "none.truemat"))
	require.ErrorContains(t, err, "there is no file")
}

func TestWriterThatFailsHalfWayLeavesTheFileAsItWas(t *testing.T) {
	path := filepath.Join(t.TempDir(), "out.pdf")
	require.NoError(t, os.WriteFile(path, []byte("old"), 0o600))
	err := WriteFile(path, func(w io.Writer) error {
		_, _ = w.Write(bytes.Repeat([]byte("x"), 1<<20))
		return errors.New("the disk is full")
	})
	require.ErrorContains(t, err, "is as it was: the disk is full")
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, "old", string(b))
	entries, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	require.Len(t, entries, 1)
	st, err := os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o600), st.Mode().Perm())
}

func TestSaveFollowsALinkAndRefusesAFolder(t *testing.T) {
	dir := t.TempDir()
	real, link := filepath.Join(dir, "real.truemat"), filepath.Join(dir, "link.truemat")
	require.NoError(t, Save(real, sample(t)))
	require.NoError(t, os.Symlink(real, link))
	require.NoError(t, Save(link, sample(t)))
	st, err := os.Lstat(link)
	require.NoError(t, err)
	require.NotZero(t, st.Mode()&os.ModeSymlink)
	require.ErrorContains(t, Save(dir, sample(t)), "not an ordinary file")
	require.Error(t, Save(filepath.Join(dir, "no", "such", "x.truemat"), sample(t)))
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(`{"format":"truemat pattern","version":1,"source":{},"recipe":[]}`))
	f.Fuzz(func(t *testing.T, b []byte) {
		d, err := Read(bytes.NewReader(b))
		if err != nil {
			return
		}
		again, err := Read(bytes.NewReader(written(t, d)))
		require.NoError(t, err, "what was read can be written and read again")
		require.Equal(t, written(t, d), written(t, again))
	})
}
