package window

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"truemat/ops/demo"
	"truemat/render"
)

// ownDrawing writes the Tern in one size as Truemat draws it, with or without
// the words that say what its lines are.
func ownDrawing(t *testing.T, words bool) string {
	t.Helper()
	run, err := demo.Tern()
	require.NoError(t, err)
	p := run.Sizes[0].Pattern.Clone()
	p.Pieces = p.Pieces[3:] // the cups, whose allowances are all alike but at the neckline
	p.Seams, p.Lines = nil, nil
	for i := range p.Pieces {
		for k := range p.Pieces[i].Edges {
			p.Pieces[i].Edges[k].Free = true
		}
	}
	scene, err := render.PatternScene(p, render.Options{Pattern: "Tern cups", Size: run.Sizes[0].Label})
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, render.WriteSVG(&b, "cups", scene))
	s := b.String()
	if !words {
		s = regexp.MustCompile(` data-[a-z]+="[^"]*"`).ReplaceAllString(s, "")
	}
	path := filepath.Join(t.TempDir(), "cups.svg")
	require.NoError(t, os.WriteFile(path, []byte(s), 0o600))
	return path
}

func (w *Window) pageSays() string { return strings.Join(texts(w.sheet.pop.Content), " ") }

// press presses the button of the page whose words begin so.
func (w *Window) pressOnPage(t *testing.T, words string) {
	t.Helper()
	var found *touch
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *fyne.Container:
			for _, c := range o.Objects {
				walk(c)
			}
		case *container.Scroll:
			walk(o.Content)
		case *touch:
			if strings.HasPrefix(strings.Join(texts(o.body), " "), words) {
				found = o
			}
		}
	}
	walk(w.sheet.pop.Content)
	require.NotNil(t, found, words)
	test.Tap(found)
}

// shoot keeps a picture of the window where TRUEMAT_SHOTS says.
func (w *Window) shoot(t *testing.T, name string) {
	t.Helper()
	dir := os.Getenv("TRUEMAT_SHOTS")
	if dir == "" {
		return
	}
	f, err := os.Create(filepath.Join(dir, name+".png"))
	require.NoError(t, err)
	defer f.Close()
	require.NoError(t, png.Encode(f, w.win.Canvas().Capture()))
}

func TestOwnDrawingIsToldAndTakenAsItWas(t *testing.T) {
	w := open(t, false)
	w.bring(ownDrawing(t, true))
	require.Contains(t, w.pageSays(), "says itself which lines are sew lines")
	require.NotContains(t, w.pageSays(), "likely the cut line")
	w.shoot(t, "bring-own")
	w.pressOnPage(t, "Take it")
	require.Nil(t, w.sheet)
	require.Equal(t, "Tern cups", w.desk.Document().Source.Name)
	require.NotNil(t, w.desk.Document().Source.Sizes[0].Pattern.Piece("inner cup").Edge("wire"))
}

func TestASecondLineInsideIsToldAndTheCutLineOffered(t *testing.T) {
	w := open(t, false)
	w.bring(ownDrawing(t, false))
	require.Contains(t, w.pageSays(), "taken for sew lines")
	require.Contains(t, w.pageSays(), "A second line runs some")
	require.Len(t, w.bringShown(t), 1, "a picture shows what was found")
	w.shoot(t, "bring-plain")
	w.pressOnPage(t, "The outer line is the cut line, 6.35 mm")
	require.Contains(t, w.pageSays(), "taken for cut lines; the sew lines lie 6.35 mm inside")
	require.NotContains(t, w.pageSays(), "likely the cut line")
	w.shoot(t, "bring-cut")
	w.pressOnPage(t, "Take it")
	for _, pc := range w.desk.Document().Source.Sizes[0].Pattern.Pieces {
		for _, e := range pc.Edges {
			require.InDelta(t, 6.35, e.Allowance, 0.011, pc.Name+" "+e.Name)
		}
	}
}

func TestACutLineNeedsItsAllowance(t *testing.T) {
	w := open(t, false)
	w.bring(ownDrawing(t, false))
	for _, f := range reachable(w.sheet.pop.Content) {
		if c, ok := f.(*choice); ok {
			c.SetSelected("the cut line")
		}
	}
	require.Contains(t, w.pageSays(), "the allowance must be stated")
	require.Len(t, w.bringShown(t), 1, "what was seen before stays while a field is wrong")
	for _, f := range reachable(w.sheet.pop.Content) {
		if b, ok := f.(*touch); ok && strings.Join(texts(b.body), "") == "Take it" {
			require.True(t, b.disabled)
		}
	}
}

// bringShown returns the picture of what was found, as a list of one or none.
func (w *Window) bringShown(t *testing.T) []fyne.CanvasObject {
	t.Helper()
	var found []fyne.CanvasObject
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		if c, ok := o.(*fyne.Container); ok {
			if f, ok := c.Layout.(fixed); ok && f.Width == shownWide && f.Height == foundTall {
				found = c.Objects
			}
			for _, o := range c.Objects {
				walk(o)
			}
		}
	}
	walk(w.sheet.pop.Content)
	return found
}
