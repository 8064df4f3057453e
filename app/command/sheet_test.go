package command

import (
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The sheet as data tells what the other commands tell of the same document, and
// leaves out what it is asked to.
func TestTheSheetIsToldAsData(t *testing.T) {
	doc := altered(t)
	var sheet struct {
		Pattern, Size string
		Pages         int
		BeforeAfter   []struct {
			Piece, Edge string
			After       float64 `json:"after_mm"`
		} `json:"before_after"`
		Steps    []struct{ ID, Sentence, State string }
		Checks   []struct{ ID string }
		Sizes    []struct{ Size, Worst string }
		Cut      []struct{ Piece string }
		Buy      []struct{ What string }
		Acts     []struct{ ID, Title string }
		Thick    []struct{ Over bool }
		Letters  map[string]string
		Cautions []string
	}
	read(t, fine(t, "sheet", doc, "--size", "75C", "--json"), &sheet)
	require.Equal(t, "75C", sheet.Size)
	require.Greater(t, sheet.Pages, 3)
	require.NotEmpty(t, sheet.BeforeAfter)
	require.Len(t, sheet.Sizes, 12)
	require.NotEmpty(t, sheet.Cut)
	require.NotEmpty(t, sheet.Buy)
	require.Len(t, sheet.Cautions, 3)
	require.NotEmpty(t, sheet.Letters["side seam"])
	for _, pl := range sheet.Thick {
		require.True(t, pl.Over)
	}
	var check struct {
		Sizes []struct{ Checks []struct{ ID string } }
	}
	_, out, _ := run("check", doc, "--size", "75C", "--json")
	read(t, out, &check)
	require.Equal(t, check.Sizes[0].Checks, sheet.Checks)
	var sewing struct {
		Acts []struct{ ID, Title string }
	}
	read(t, fine(t, "sewing", doc, "--size", "75C", "--json"), &sewing)
	require.Equal(t, sewing.Acts, sheet.Acts)

	var some map[string]any
	pdf := filepath.Join(filepath.Dir(doc), "beside.pdf")
	read(t, fine(t, "sheet", doc, "--json", "--out", pdf, "--without", "steps,sizes"), &some)
	require.FileExists(t, pdf)
	require.NotContains(t, some, "steps")
	require.NotContains(t, some, "sizes")
	require.Contains(t, some, "acts")

	code, _, errOut := run("sheet", doc)
	require.Equal(t, Nothing, code)
	require.Contains(t, errOut, "--out is missing")
	code, _, errOut = run("sheet", doc, "--json", "--units", "ells")
	require.Equal(t, Nothing, code)
	require.Contains(t, errOut, "ells")
}

// In inches no length on the sheet is left in mm.
func TestTheSheetIsWrittenInInches(t *testing.T) {
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("pdftotext is not installed")
	}
	doc := altered(t)
	pdf := filepath.Join(filepath.Dir(doc), "inches.pdf")
	fine(t, "sheet", doc, "--size", "75C", "--paper", "letter", "--units", "in", "--out", pdf)
	out, err := exec.Command("pdftotext", "-layout", pdf, "-").Output()
	require.NoError(t, err)
	for _, line := range strings.Split(string(out), "\n") {
		require.NotRegexp(t, `[0-9] mm`, line)
	}
	require.Contains(t, string(out), "allowance 1/4 in")
	require.Contains(t, string(out), "3/16 in")
}

// Where a seam is pressed is said from the sewing, as a step of the document.
func TestASeamIsPressedFromTheSewing(t *testing.T) {
	doc := altered(t)
	kept := filepath.Join(filepath.Dir(doc), "pressed.truemat")
	require.Contains(t, fine(t, "sewing", doc), "press it to band (proposed)")
	_, _, errOut := run("sewing", doc, "--press", "side seam=frame", "--press", "cross seam=open", "--keep", kept)
	require.Contains(t, errOut, "sewn so")
	said := fine(t, "sewing", kept)
	require.Contains(t, said, "press it to frame.")
	require.Contains(t, said, "press it open.")
	for to, says := range map[string]string{"waist seam=open": "names no seam", "side seam": "names no seam", "side seam=moon": "cannot be pressed"} {
		code, _, errOut := run("sewing", doc, "--press", to)
		require.Equal(t, Nothing, code)
		require.Contains(t, errOut, says)
	}
}
