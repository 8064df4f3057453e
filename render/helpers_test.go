package render

import (
	"fmt"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

// need skips a test when a tool that looks at PDFs is not installed.
func need(t testing.TB, tools ...string) {
	t.Helper()
	for _, tool := range tools {
		if _, err := exec.LookPath(tool); err != nil {
			t.Skipf("%s is not installed (Debian: qpdf, poppler-utils)", tool)
		}
	}
}

// saved writes data into a file of its own.
func saved(t testing.TB, data []byte, name string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, data, 0o600))
	return path
}

// output runs a tool and returns what it prints.
func output(t testing.TB, tool string, args ...string) string {
	t.Helper()
	out, err := exec.Command(tool, args...).CombinedOutput()
	require.NoError(t, err, "%s %v: %s", tool, args, out)
	return string(out)
}

// rasterized returns page n of a PDF at that resolution, of which more
// arguments may ask for a part.
func rasterized(t testing.TB, pdf, n, dpi string, more ...string) *image.Gray {
	t.Helper()
	stem := filepath.Join(t.TempDir(), "page")
	output(t, "pdftoppm", append(more, "-gray", "-r", dpi, "-f", n, "-l", n, "-singlefile", pdf, stem)...)
	data, err := os.ReadFile(stem + ".pgm")
	require.NoError(t, err)
	var w, h int
	_, err = fmt.Sscanf(string(data[:min(len(data), 40)]), "P5\n%d %d\n255\n", &w, &h)
	require.NoError(t, err)
	img := image.NewGray(image.Rect(0, 0, w, h))
	img.Pix = data[len(data)-w*h:]
	return img
}

// sample is a frame of bridge (on the fold), cradle and band, marked and with
// an arrow of each kind, and a cup piece with an apex and edges without
// allowance.
func sample() []pattern.Piece {
	p := patterntest.Sample()
	cradle := p.Piece(patterntest.Cradle)
	cradle.Marks = []pattern.Mark{{Text: "ALTERED · LACE", At: cradle.Arrow.From, Height: 5}}
	p.Piece(patterntest.Band).Arrow.Kind = pattern.MostStretch
	return append(p.Pieces, cup())
}

// cup is a quarter disc of radius 100 mm: a neckline for lace without
// allowance from the tip, a seam, and a wire line.
func cup() pattern.Piece {
	tip, foot, side := geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(0, 100)
	k := 55.22847498
	arc := geom.Must(geom.NewPath(geom.Curve(foot, geom.Pt(100, k), geom.Pt(k, 100), side)))
	return pattern.Piece{
		Name: "inner cup",
		Edges: []pattern.Edge{
			{Name: "vertical-seam", Role: pattern.SeamEdge, Path: geom.Must(geom.Polyline(tip, foot)), Allowance: 6.35},
			{Name: "wire", Role: pattern.WireLine, Path: arc, Allowance: 6.35},
			{Name: "neckline", Role: pattern.LaceEdge, Path: geom.Must(geom.Polyline(side, tip))},
		},
		Notches: []pattern.Notch{
			{Name: apexName, Edge: "vertical-seam", Along: pattern.Along{MM: 60}},
			{Name: "n2", Edge: "wire", Along: pattern.Along{Share: 0.5}, Double: true},
			{Name: "n3", Edge: "neckline", Along: pattern.Along{MM: 40}},
		},
		Inner: []pattern.Inner{
			{Name: "joint", Kind: pattern.OldJoint, Path: geom.Must(geom.Polyline(geom.Pt(20, 5), geom.Pt(10, 60)))},
			{Name: "guide", Kind: pattern.Drawn, Path: geom.Must(geom.Polyline(geom.Pt(30, 5), geom.Pt(20, 60)))},
		},
		Arrow: pattern.Arrow{Kind: pattern.Grain, From: geom.Pt(60, 20), To: geom.Pt(60, 60)},
		Cut:   pattern.Cut{Count: 1, Pair: true},
		Pose:  geom.Identity(),
	}
}

// ofKind returns the figures of a kind in a scene.
func ofKind(s Scene, kind Kind) []Figure {
	var figs []Figure
	for _, l := range s.Layers {
		for _, f := range l.Figures {
			if f.Kind == kind {
				figs = append(figs, f)
			}
		}
	}
	return figs
}

// texts returns all that is written in a scene.
func texts(s Scene) []string {
	var all []string
	for _, l := range s.Layers {
		for _, t := range l.Labels {
			all = append(all, t.Text)
		}
	}
	return all
}
