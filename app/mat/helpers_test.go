package mat

import (
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/software"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

func tern(t testing.TB) pattern.Pattern {
	run, err := demo.Tern()
	require.NoError(t, err)
	return run.Sizes[len(run.Sizes)/2].Pattern
}

// shown puts a mat of w × h units on a canvas without a window.
func shown(t testing.TB, w, h, scale float32) (*Mat, *[]tool.Event, func() image.Image) {
	test.NewTempApp(t)
	var events []tool.Event
	m := New(func(e tool.Event) { events = append(events, e) })
	c := software.NewCanvas()
	c.SetPadded(false)
	c.SetContent(m)
	c.SetScale(scale)
	c.Resize(fyne.NewSize(w, h))
	return m, &events, func() image.Image { return c.Capture() }
}

// keep writes a picture where TRUEMAT_PICTURES says, to be looked at.
func keep(t testing.TB, name string, img image.Image) {
	dir := os.Getenv("TRUEMAT_PICTURES")
	if dir == "" {
		return
	}
	f, err := os.Create(filepath.Join(dir, name))
	require.NoError(t, err)
	require.NoError(t, png.Encode(f, img))
	require.NoError(t, f.Close())
}

// busy is a view in the midst of an alteration, with every kind of mark.
func busy(t testing.TB) View {
	p := tern(t)
	v := View{Pieces: p.Pieces, Preview: map[string]bool{"cradle": true}}
	run, err := demo.Tern()
	require.NoError(t, err)
	v.Nested = [][]pattern.Piece{run.Sizes[len(run.Sizes)/2+1].Pattern.Pieces}
	cradle := p.Piece("cradle")
	require.NotNil(t, cradle)
	v.Ghost = []pattern.Piece{*cradle}
	turned := cradle.Clone()
	pin := cradle.Pose.Apply(cradle.Edges[0].Path.Start())
	turned.Pose = cradle.Pose.Then(geom.Turn(-8*geom.Degree, pin))
	v.Pieces = append([]pattern.Piece(nil), p.Pieces...)
	for i := range v.Pieces {
		if v.Pieces[i].Name == "cradle" {
			v.Pieces[i] = turned
		}
	}
	v.Selection = tool.Selection{Piece: "cradle", Edge: cradle.Edges[1].Name}
	far := pin.Add(geom.Pt(120, 70))
	v.Overlay = tool.Overlay{
		Strokes: []tool.Stroke{
			{Path: geom.Must(geom.Polyline(pin.Add(geom.Pt(-2000, -8)), pin.Add(geom.Pt(2000, -8)))), Style: tool.Guide},
			{Path: geom.Must(geom.Polyline(pin, far)), Style: tool.Handle},
			{Path: geom.Must(geom.Polyline(far, far.Add(geom.Pt(0, -25)))), Style: tool.Poor},
			{Path: turned.Edges[2].Path.Transform(turned.Pose), Style: tool.Pointed},
		},
		Dots: []tool.Dot{
			{At: pin, Style: tool.Pin}, {At: far, Style: tool.Handle}, {At: far.Add(geom.Pt(-30, -30)), Style: tool.Good},
			{At: far.Add(geom.Pt(-60, -30)), Style: tool.Poor}, {At: far.Add(geom.Pt(-90, -30)), Style: tool.Chosen},
			{At: far.Add(geom.Pt(-110, -30)), Style: tool.Pointed}, {At: far.Add(geom.Pt(-120, -10)), Style: tool.Guide},
		},
		Notes: []tool.Note{{At: far, Text: "turned 8.0° clockwise"}, {At: far.Add(geom.Pt(0, -25)), Text: "gap 25 mm"}},
	}
	return v
}
