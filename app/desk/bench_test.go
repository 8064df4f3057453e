package desk

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
)

// forty is a run of forty pieces in twelve sizes with a recipe of some fifty steps.
func forty(b *testing.B) *Desk {
	b.Helper()
	run, err := demo.Tern()
	require.NoError(b, err)
	for i := range run.Sizes {
		p := &run.Sizes[i].Pattern
		first := p.Pieces
		all := []pattern.Piece{}
		for j := range 40 {
			pc := first[j%len(first)].Clone()
			if j >= len(first) {
				pc.Name = fmt.Sprint(pc.Name, " ", j)
			}
			all = append(all, pc)
		}
		p.Pieces = all
	}
	doc := store.Document{Source: run, Recipe: demo.TernInLace()}
	for j, pc := range run.Sizes[0].Pattern.Pieces[9:] {
		doc.Recipe = append(doc.Recipe, step.Entry{ID: fmt.Sprint("m", j), Step: move(pc.Name, 1, 1)})
	}
	d, err := New(doc, "")
	require.NoError(b, err)
	return d
}

func BenchmarkForty(b *testing.B) {
	d := forty(b)
	b.Run("accept", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			require.NoError(b, d.Accept(&step.Mark{Piece: "band", Text: fmt.Sprint(i)}))
			d.Undo()
		}
	})
	b.Run("edit", func(b *testing.B) {
		id, off := d.Document().Recipe[0].ID, false
		for b.Loop() {
			off = !off
			require.NoError(b, d.Switch(id, off))
		}
	})
	b.Run("edit anew", func(b *testing.B) { // to what it was not before, so that all is replayed
		for b.Loop() {
			require.NoError(b, d.Replace(demo.TernInLace()[0]))
		}
	})
	b.Run("push again", func(b *testing.B) {
		for b.Loop() {
			require.NoError(b, d.Accept(move("band", 1, 0)))
		}
	})
	b.Run("states", func(b *testing.B) {
		for b.Loop() {
			d.SizeStates()
		}
	})
	b.Run("checks", func(b *testing.B) {
		for b.Loop() {
			d.Checks()
		}
	})
	b.Run("try", func(b *testing.B) {
		for b.Loop() {
			_, err := d.Try(move("band", 1, 0))
			require.NoError(b, err)
		}
	})
	b.Run("open", func(b *testing.B) {
		var w bytes.Buffer
		require.NoError(b, store.Write(&w, d.Document()))
		for b.Loop() {
			doc, err := store.Read(bytes.NewReader(w.Bytes()))
			require.NoError(b, err)
			_, err = New(doc, "")
			require.NoError(b, err)
		}
	})
	b.Run("write", func(b *testing.B) {
		var w bytes.Buffer
		for b.Loop() {
			w.Reset()
			require.NoError(b, store.Write(&w, d.Document()))
		}
		b.ReportMetric(float64(w.Len()), "bytes")
	})
}
