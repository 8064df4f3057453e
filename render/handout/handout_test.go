package handout_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/cloth"
	"truemat/ops/demo"
	"truemat/ops/step"
	"truemat/ops/store"
	"truemat/render"
	"truemat/render/handout"
)

func tern(t *testing.T) store.Document {
	run, err := demo.Tern()
	require.NoError(t, err)
	return store.Document{Source: run, Recipe: demo.TernInLace(), Goods: demo.Goods()}
}

func written(t *testing.T, doc store.Document, size string, paper render.Paper) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, handout.Write(&b, doc, handout.Wish{Size: size, Paper: paper}))
	return b.Bytes()
}

// text returns what a reader of the PDF reads, blanks made one.
func text(t *testing.T, pdf []byte) string {
	t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("pdftotext is not installed")
	}
	file := filepath.Join(t.TempDir(), "sheet.pdf")
	require.NoError(t, os.WriteFile(file, pdf, 0o644))
	out, err := exec.Command("pdftotext", "-layout", file, "-").Output()
	require.NoError(t, err)
	return strings.Join(strings.Fields(string(out)), " ")
}

func TestTheSheetTellsItAll(t *testing.T) {
	doc := tern(t)
	read := text(t, written(t, doc, "75C", render.A4))
	for _, want := range []string{
		"Tern, size 75C", "Before and after", "The steps", "Checks", "All sizes", "What is cut", "What is bought", "In which order it is sewn", "Before you begin",
		"hem of band", "65C", "80E", "heron lace", "power net", "elastic 10 mm wide", "B · Sew \"wire seam\"", "Equal letters meet", "page 1 of",
		"to centre front", "The cloths", "heron lace on sheer tricot", "handled as one", "6 %, 0.5 % stays", "How it lies on the cloth", "sheer tricot, 1400 mm wide (the pieces take 318 mm) 40 cm", "How it closes", "change of wire", "opening, wire line", "Closed round a body of 750 mm", "Under it lie:", "No lining hides it", "As cut: 2.6 mm thick", "With folded edges: 4 mm thick", "Trimmed: 2.6 mm thick up to 3 mm", "at 2.5 × true size", "professional fitter go first", "fresh air", "latex", "Blades", "healing",
	} {
		require.Contains(t, read, want)
	}
	for _, r := range doc.Results() {
		if r.Size.Label != "75C" {
			continue
		}
		for _, rep := range r.Reports {
			words := strings.Fields(rep.Sentence)
			require.Contains(t, read, strings.Join(words[:min(4, len(words))], " "))
		}
	}
}

func TestTheSheetFitsItsPaperAndIsTheSameEachTime(t *testing.T) {
	doc := tern(t)
	for _, paper := range []render.Paper{render.A4, render.Letter} {
		pdf := written(t, doc, "65C", paper)
		require.Equal(t, pdf, written(t, doc, "65C", paper))
		require.Less(t, len(pdf), 400_000, "light enough to send")
		pages := bytes.Count(pdf, []byte("/Type /Page\n")) + bytes.Count(pdf, []byte("/Type /Page "))
		require.LessOrEqual(t, pages, 8)
	}
}

func TestPartsAreLeftOutButNeverTheCautions(t *testing.T) {
	doc := tern(t)
	heads := map[handout.Part]string{
		handout.Shapes: "Before and after", handout.Steps: "The steps", handout.Checks: "Checks", handout.Sizes: "All sizes",
		handout.Cutting: "What is cut", handout.Buying: "What is bought", handout.Sewing: "In which order",
	}
	require.Len(t, heads, len(handout.Parts))
	var b bytes.Buffer
	require.NoError(t, handout.Write(&b, doc, handout.Wish{Size: "75C", Paper: render.A4, Without: handout.Parts}))
	read := text(t, b.Bytes())
	for _, head := range heads {
		require.NotContains(t, read, head)
	}
	require.Contains(t, read, "Before you begin")
	for _, p := range handout.Parts {
		b.Reset()
		require.NoError(t, handout.Write(&b, doc, handout.Wish{Size: "75C", Paper: render.A4, Without: []handout.Part{p}}))
		read := text(t, b.Bytes())
		for o, head := range heads {
			if o == p {
				require.NotContains(t, read, head)
			} else {
				require.Contains(t, read, head)
			}
		}
	}
	parts, err := handout.ParseParts(" steps, before and after ,")
	require.NoError(t, err)
	require.Equal(t, []handout.Part{handout.Steps, handout.Shapes}, parts)
	_, err = handout.ParseParts("steps,recipe")
	require.ErrorContains(t, err, `"recipe"`)
}

// What is shown of a page is what is written: as many pages, of the paper's size,
// with nothing beyond its rim.
func TestPagesAreShownAsTheyAreWritten(t *testing.T) {
	doc := tern(t)
	for _, paper := range []render.Paper{render.A4, render.Letter} {
		pages, err := handout.Pages(doc, handout.Wish{Size: "75C", Paper: paper})
		require.NoError(t, err)
		pdf := written(t, doc, "75C", paper)
		require.Equal(t, len(pages), bytes.Count(pdf, []byte("/Type /Page\n"))+bytes.Count(pdf, []byte("/Type /Page ")))
		for _, p := range pages {
			require.InDelta(t, paper.Width, p.Box.Width(), 1e-9)
			for _, f := range p.Layers[0].Figures {
				box := f.Path.Bounds()
				require.Greater(t, box.Min.X, 5.0)
				require.Less(t, box.Max.X, paper.Width-5)
				require.Greater(t, box.Min.Y, 5.0)
				require.Less(t, box.Max.Y, paper.Height-5)
			}
		}
	}
}

// A pattern that was not altered, or whose cloth was not described, has a
// sheet too.
func TestAPlainPatternHasASheet(t *testing.T) {
	doc := tern(t)
	doc.Recipe, doc.Goods = nil, cloth.Goods{}
	read := text(t, written(t, doc, "70D", render.Letter))
	require.Contains(t, read, "No edge has another length")
	require.Contains(t, read, "Every check holds in every size")
	require.NotContains(t, read, "The steps")
}

func TestAWrongSheetIsRefused(t *testing.T) {
	doc := tern(t)
	require.ErrorContains(t, handout.Write(&bytes.Buffer{}, doc, handout.Wish{Size: "99Z", Paper: render.A4}), `"99Z"`)
	require.ErrorContains(t, handout.Write(&bytes.Buffer{}, doc, handout.Wish{Size: "75C", Paper: render.Paper{Name: "stamp", Width: 60, Height: 60}}), "too small")
	doc.Goods.Elastics[0].Line = "waist"
	require.ErrorContains(t, handout.Write(&bytes.Buffer{}, doc, handout.Wish{Size: "75C", Paper: render.A4}), "waist")
}

func TestTheSheetNamesEdgesThatNoActSews(t *testing.T) {
	doc := tern(t)
	require.NotContains(t, text(t, written(t, doc, "75C", render.A4)), "no partner")
	doc.Recipe = append(doc.Recipe, step.Entry{ID: "apart", Step: &step.Sew{Name: "side seam", Apart: true}})
	require.Contains(t, text(t, written(t, doc, "75C", render.A4)), "have no partner and do not come in this order")
}
