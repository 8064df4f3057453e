package window

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/ops/demo"
	"truemat/ops/intake"
	"truemat/ops/step"
	"truemat/ops/store"
	"truemat/render"
)

// laid is a window with the altered Tern, for benchmarks of what its thread
// has to wait for.
func laid(b *testing.B) *Window {
	b.Helper()
	a := test.NewTempApp(b)
	run, err := demo.Tern()
	require.NoError(b, err)
	doc := store.Document{Source: run}
	doc.Recipe, _, err = doc.Recipe.Append(run, demo.TernInLace()...)
	require.NoError(b, err)
	d, err := desk.New(doc, "")
	require.NoError(b, err)
	w := New(a, d)
	w.win.Resize(fyne.NewSize(1280, 800))
	return w
}

func BenchmarkAccept(b *testing.B) {
	w := laid(b)
	for i := 0; b.Loop(); i++ {
		require.NoError(b, w.desk.Accept(&step.Mark{Piece: "band", Text: fmt.Sprint(i)}))
		w.desk.Undo()
	}
}

func BenchmarkDeskAccept(b *testing.B) {
	w := laid(b)
	d, err := desk.New(w.desk.Document(), "")
	require.NoError(b, err)
	for i := 0; b.Loop(); i++ {
		require.NoError(b, d.Accept(&step.Mark{Piece: "band", Text: fmt.Sprint(i)}))
		d.Undo()
	}
}

func BenchmarkUndoRedo(b *testing.B) {
	w := laid(b)
	require.NoError(b, w.desk.Accept(&step.Mark{Piece: "band", Text: "x"}))
	for b.Loop() {
		w.undo()
		w.redo()
	}
}

func BenchmarkDeskUndoRedo(b *testing.B) {
	w := laid(b)
	d, err := desk.New(w.desk.Document(), "")
	require.NoError(b, err)
	require.NoError(b, d.Accept(&step.Mark{Piece: "band", Text: "x"}))
	for b.Loop() {
		d.Undo()
		d.Redo()
	}
}

func BenchmarkEditOfAnEarlierStep(b *testing.B) {
	w := laid(b)
	id := w.desk.Document().Recipe[0].ID
	off := false
	for b.Loop() {
		off = !off
		require.NoError(b, w.desk.Switch(id, off))
	}
}

func BenchmarkSizeStates(b *testing.B) {
	w := laid(b)
	for b.Loop() {
		w.desk.SizeStates()
	}
}

func BenchmarkChecks(b *testing.B) {
	w := laid(b)
	for b.Loop() {
		w.desk.Checks()
	}
}

func BenchmarkSelect(b *testing.B) {
	w := laid(b)
	names := []string{"band", "cradle"}
	i := 0
	for b.Loop() {
		i++
		w.desk.Select(tool.Selection{Piece: names[i%2]})
	}
}

func BenchmarkColumn(b *testing.B) {
	w := laid(b)
	for b.Loop() {
		w.column.refresh()
	}
}

func BenchmarkTray(b *testing.B) {
	w := laid(b)
	for b.Loop() {
		w.layTray()
	}
}

func BenchmarkShowWithNeighbours(b *testing.B) {
	w := laid(b)
	w.nested = nextBands
	require.NoError(b, w.desk.SetSize(w.desk.Document().Source.Labels()[1]))
	for b.Loop() {
		w.show()
	}
}

func BenchmarkShow(b *testing.B) {
	w := laid(b)
	for b.Loop() {
		w.show()
	}
}

func BenchmarkSetSize(b *testing.B) {
	w := laid(b)
	l := w.desk.Document().Source.Labels()
	i := 0
	for b.Loop() {
		i++
		require.NoError(b, w.desk.SetSize(l[i%2]))
	}
}

func BenchmarkOpen(b *testing.B) {
	w := laid(b)
	path := filepath.Join(b.TempDir(), "a.truemat")
	require.NoError(b, w.desk.Save(path))
	for b.Loop() {
		doc, err := store.Load(path)
		require.NoError(b, err)
		_, err = desk.New(doc, path)
		require.NoError(b, err)
	}
}

func BenchmarkSave(b *testing.B) {
	w := laid(b)
	path := filepath.Join(b.TempDir(), "a.truemat")
	for b.Loop() {
		require.NoError(b, store.Save(path, w.desk.Document()))
	}
}

func BenchmarkExport(b *testing.B) {
	w := laid(b)
	for _, e := range []string{".svg", ".png", ".pdf"} {
		b.Run(e, func(b *testing.B) {
			path := filepath.Join(b.TempDir(), "a"+e)
			for b.Loop() {
				require.NoError(b, new(task).export(path, w.desk.Pattern(), "Tern", "65C"))
			}
		})
	}
}

func BenchmarkDraw(b *testing.B) {
	w := laid(b)
	for b.Loop() {
		w.win.Canvas().Capture()
	}
}

func BenchmarkPrintPlan(b *testing.B) {
	w := laid(b)
	paper, _ := render.ParsePaper("a4")
	job := render.Print{Pattern: "Tern", FoldWhole: true, Paper: paper, Overlap: 15, Sizes: []render.SizePieces{{Label: "x", Pieces: w.desk.Pattern().Pieces}}}
	for b.Loop() {
		_, err := layOut(job)
		require.NoError(b, err)
		require.NoError(b, render.Tile(io.Discard, job))
	}
}

func BenchmarkBringLarge(b *testing.B) {
	svg, err := os.ReadFile("../../testdata/intake/irregular.svg")
	require.NoError(b, err)
	for b.Loop() {
		_, err := intake.Bring(bytes.NewReader(svg), nil, intake.Options{Name: "x"})
		require.NoError(b, err)
	}
}

func BenchmarkFolderOfThousands(b *testing.B) {
	home := b.TempDir()
	b.Setenv("HOME", home)
	w, many := laid(b), filepath.Join(home, "many")
	manyFiles(b, many)
	w.openAsk()
	page := w.win.Canvas().Focused().(*nameField).page
	for b.Loop() {
		page.enter(home)
		page.enter(many)
	}
}

func BenchmarkDark(b *testing.B) {
	w := laid(b)
	for b.Loop() {
		w.setDark(!w.dark)
	}
}
