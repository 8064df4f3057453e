package window

import (
	"bytes"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/unit"
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
	w.bring(ownDrawing(t, true), true)
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
	w.bring(ownDrawing(t, false), true)
	require.Contains(t, w.pageSays(), "taken for sew lines")
	require.Contains(t, w.pageSays(), "A second line runs some")
	require.Len(t, w.boardOf(t).pieces, 3, "a picture shows what was found")
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
	w.bring(ownDrawing(t, false), true)
	for _, f := range reachable(w.sheet.pop.Content) {
		if c, ok := f.(*choice); ok {
			c.SetSelected("the cut line")
		}
	}
	require.Contains(t, w.pageSays(), "the allowance must be stated")
	require.Len(t, w.boardOf(t).pieces, 3, "what was seen before stays while a field is wrong")
	for _, f := range reachable(w.sheet.pop.Content) {
		if b, ok := f.(*touch); ok && strings.Join(texts(b.body), "") == "Take it as a new document" {
			require.True(t, b.disabled)
		}
	}
}

// boardOf returns the drawing of what was found.
func (w *Window) boardOf(t *testing.T) *foundBoard {
	t.Helper()
	for _, f := range reachable(w.sheet.pop.Content) {
		if b, ok := f.(*foundBoard); ok {
			return b
		}
	}
	require.FailNow(t, "no drawing of what was found")
	return nil
}

// twoPieces is a drawing of a front and a side with a curved seam.
const twoPieces = `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="140mm" viewBox="0 0 300 140">
<g id="front"><path d="M20 20 L20 110 L120 112 C126 90 118 60 96 24 C70 34 44 30 20 20 Z"/></g>
<g id="side"><path d="M160 26 C176 60 186 92 180 114 L270 108 L270 60 C230 52 196 42 160 26 Z"/></g>
</svg>`

func TestCornersAreMadeAndTakenAwayOnThePage(t *testing.T) {
	w := open(t, false)
	path := filepath.Join(t.TempDir(), "wren.svg")
	require.NoError(t, os.WriteFile(path, []byte(twoPieces), 0o600))
	w.bring(path, true)
	b := w.boardOf(t)
	require.Greater(t, b.Size().Width*b.Size().Height, float32(250_000), "large enough to read")
	corners := func() (n []int) {
		for _, pc := range w.boardOf(t).pieces {
			n = append(n, len(pc.joints))
		}
		return n
	}
	require.Equal(t, []int{4, 4}, corners())
	press := func(piece int, s float64) {
		b := w.boardOf(t)
		at := b.position(b.pieces[piece].outline.At(s))
		b.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}})
		b.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
		if b.chosen.joint >= 0 {
			w.pressOnPage(t, "Take this corner away")
		} else {
			w.pressOnPage(t, "Make a corner here")
		}
	}
	press(0, b.pieces[0].joints[1]+40)
	require.Equal(t, []int{5, 4}, corners())
	require.Contains(t, w.pageSays(), "edge-5")
	require.Equal(t, fyne.Focusable(w.boardOf(t)), w.win.Canvas().Focused(), "the keys go on from there")
	press(1, b.pieces[1].joints[2])
	require.Equal(t, []int{5, 3}, corners())
	w.shoot(t, "bring-corners")
	require.Contains(t, w.pageSays(), "Corners as they were found")

	// Beside all outlines nothing comes of it.
	at := fyne.NewPos(3, 3)
	b = w.boardOf(t)
	b.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	require.Equal(t, []int{5, 3}, corners())

	// By keys: from corner to corner, along the outline, and the space bar.
	key := func(names ...fyne.KeyName) {
		for _, n := range names {
			w.boardOf(t).TypedKey(&fyne.KeyEvent{Name: n})
		}
	}
	for on := (foundEdge{}); on != (foundEdge{0, 1}); on = w.boardOf(t).on(w.boardOf(t).chosen) {
		w.boardOf(t).TypedRune('n')
	}
	require.Equal(t, 1, w.boardOf(t).chosen.joint)
	key(fyne.KeyRight, fyne.KeyRight, fyne.KeyRight)
	require.Equal(t, noJoint, w.boardOf(t).chosen.joint)
	key(fyne.KeySpace)
	require.Equal(t, []int{6, 3}, corners())
	require.InDelta(t, 3, w.boardOf(t).pieces[0].Edges[1].Length(), 0.05)
	key(fyne.KeySpace)
	require.Equal(t, []int{5, 3}, corners(), "the corner just made is where the keys are")

	w.pressOnPage(t, "Corners as they were found")
	require.Equal(t, []int{4, 4}, corners())
	press(0, 40)
	w.pressOnPage(t, "Take it")
	require.Len(t, w.desk.Pattern().Piece("front").Edges, 5)
}

func TestCornersThatADrawingTellsItselfStay(t *testing.T) {
	w := open(t, false)
	w.bring(ownDrawing(t, true), true)
	b := w.boardOf(t)
	n := len(b.pieces[0].joints)
	b.pick(foundPlace{0, noJoint, 5})
	b.change()
	require.Len(t, w.boardOf(t).pieces[0].joints, n)
	require.Contains(t, w.pageSays(), "as the drawing says")
}

func TestACornerThatTheTextFileDoesNotAllowIsNotMade(t *testing.T) {
	w := open(t, false)
	path := filepath.Join(t.TempDir(), "wren.svg")
	require.NoError(t, os.WriteFile(path, []byte(twoPieces), 0o600))
	require.NoError(t, os.WriteFile(strings.TrimSuffix(path, ".svg")+".txt", []byte("piece front\nedges from top-left: fold hem seam top\n"), 0o600))
	w.bring(path, true)
	require.Contains(t, w.pageSays(), "hem")
	b := w.boardOf(t)
	b.pick(foundPlace{0, noJoint, b.pieces[0].joints[1] + 40})
	b.change()
	require.Contains(t, w.pageSays(), "The corner stays as it was")
	require.Len(t, w.boardOf(t).pieces[0].joints, 4)
	w.pressOnPage(t, "Take it")
	require.NotNil(t, w.desk.Pattern().Piece("front"))
}

func TestNamesAndRolesAreSaidOnThePage(t *testing.T) {
	w := open(t, false)
	path := filepath.Join(t.TempDir(), "wren.svg")
	require.NoError(t, os.WriteFile(path, []byte(twoPieces), 0o600))
	row := w.bring(path, true).row
	pressEdge := func(piece, edge int) *pattern.Edge {
		b := w.boardOf(t)
		e := &b.pieces[piece].Edges[edge]
		at := b.position(e.Path.Transform(b.pieces[piece].Pose).At(e.Length() / 2))
		b.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}})
		b.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
		return e
	}
	edge := func(piece, edge int) pattern.Edge { return w.boardOf(t).pieces[piece].Edges[edge] }

	// A press in the picture chooses the edge; it is told that its role is a guess.
	e := pressEdge(0, 0)
	require.Equal(t, "front", row.piece.Text)
	require.Equal(t, e.Name, row.edge.Text)
	require.Equal(t, "seam", row.role.Selected)
	require.Contains(t, w.pageSays(), "as guessed")
	require.Contains(t, w.pageSays(), e.Name+" (seam?)")
	row.role.SetSelected("fold")
	require.Equal(t, pattern.Fold, edge(0, 0).Role)
	require.Equal(t, "as said", row.how.Text)
	require.Contains(t, w.pageSays(), e.Name+" (fold)")

	// By keys: N goes to the next corner, and what begins there has another role.
	w.boardOf(t).TypedRune('n')
	on := w.boardOf(t).on(w.boardOf(t).chosen)
	require.Equal(t, foundEdge{0, 1}, on)
	row.role.SetSelected("hem")
	row.edge.SetText("bottom")
	row.edge.OnSubmitted("bottom")
	require.Equal(t, pattern.Hem, edge(0, 1).Role)
	require.Equal(t, "bottom", edge(0, 1).Name)
	row.piece.SetText("bodice")
	row.piece.OnSubmitted("bodice")
	require.Equal(t, "bodice", w.boardOf(t).pieces[0].Name)
	w.shoot(t, "bring-said")

	// A corner in the hem leaves two hems.
	pressEdge(0, 1)
	w.boardOf(t).TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	require.Equal(t, []pattern.Role{pattern.Hem, pattern.Hem}, []pattern.Role{edge(0, 1).Role, edge(0, 2).Role})
	require.Equal(t, "bottom", edge(0, 1).Name)

	// What cannot be is told, and stays.
	pressEdge(0, 3)
	row.role.SetSelected("fold")
	require.Contains(t, w.pageSays(), "stays as it was")
	require.Equal(t, "seam", row.role.Selected)
	row.piece.SetText("side")
	row.piece.OnSubmitted("side")
	require.Contains(t, w.pageSays(), `two pieces cannot both be called "side"`)
	require.Equal(t, "bodice", row.piece.Text)

	w.pressOnPage(t, "Take it")
	pc := w.desk.Pattern().Piece("bodice")
	require.NotNil(t, pc)
	require.NotNil(t, pc.Fold())
	require.Equal(t, pattern.Hem, pc.Edge("bottom").Role)
}

// By keys the page opens with the picture chosen; Enter lists what an edge may
// be, and once that is taken the next edge is one key away.
func TestEdgesAreSaidOneAfterTheOtherByKeys(t *testing.T) {
	w := open(t, false)
	path := filepath.Join(t.TempDir(), "wren.svg")
	require.NoError(t, os.WriteFile(path, []byte(twoPieces), 0o600))
	w.bring(path, true)
	on := w.win.Canvas()
	for i, downs := range []int{1, 2} {
		require.Equal(t, fyne.Focusable(w.boardOf(t)), on.Focused(), "the picture has the keys")
		require.NotEqual(t, color.Transparent, w.boardOf(t).ring.StrokeColor, "which is seen")
		on.Focused().TypedRune('n')
		edge := w.boardOf(t).on(w.boardOf(t).chosen)
		require.Equal(t, foundEdge{0, i + 1}, edge)
		was := w.boardOf(t).pieces[0].Edges[edge.edge].Role
		on.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		for range downs {
			on.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
		}
		on.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		require.NotEqual(t, was, w.boardOf(t).pieces[0].Edges[edge.edge].Role)
	}
}

// Enter keeps a name that was typed and gives the keys back to the picture, so that
// what is typed next is no part of the name.
func TestEnterInANameGivesTheKeysBackToThePicture(t *testing.T) {
	w := open(t, false)
	path := filepath.Join(t.TempDir(), "wren.svg")
	require.NoError(t, os.WriteFile(path, []byte(twoPieces), 0o600))
	row := w.bring(path, true).row
	on := w.win.Canvas()
	name := func(field *entry, s string) {
		on.Focus(field)
		for _, r := range s {
			on.Focused().TypedRune(r)
		}
		on.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		require.Equal(t, fyne.Focusable(w.boardOf(t)), on.Focused(), "the picture has the keys")
	}
	name(row.piece, "pocket")
	on.Focused().TypedRune('n')
	require.Equal(t, foundEdge{0, 1}, w.boardOf(t).on(w.boardOf(t).chosen))
	name(row.edge, "bottom")
	on.Focused().TypedRune('n')
	name(row.edge, "right side")
	on.Focused().TypedRune('n')
	name(row.edge, w.boardOf(t).pieces[0].Edges[3].Name)
	pc := w.boardOf(t).pieces[0]
	require.Equal(t, "pocket", pc.Name)
	require.Equal(t, []string{"bottom", "right side"}, []string{pc.Edges[1].Name, pc.Edges[2].Name})

	name(row.edge, "bottom")
	require.Contains(t, w.pageSays(), "stays as it was", "what cannot be is told, and the keys go on from the picture")
}

func TestADrawingIsLaidBesideWhatIsOnTheMat(t *testing.T) {
	w := open(t, false)
	path := filepath.Join(t.TempDir(), "wren.svg")
	drawing := strings.Replace(twoPieces, `id="front"`, `id="bridge"`, 1) // as a piece of the Tern is called
	require.NoError(t, os.WriteFile(path, []byte(drawing), 0o600))
	was := w.desk.Document()
	n := len(w.desk.Pattern().Pieces)
	w.bring(path, false)
	require.Contains(t, w.pageSays(), "A piece on the mat is called bridge already: laid beside it, this one is called bridge 2.")
	require.Contains(t, w.pageSays(), "the same in all 12 sizes")
	w.shoot(t, "bring-beside")
	w.pressOnPage(t, "Lay it beside what is on the mat")
	require.Nil(t, w.sheet)
	require.Len(t, w.desk.Pattern().Pieces, n+2)
	require.Equal(t, "bridge 2", w.desk.Selection().Piece)
	steps := w.desk.Document().Recipe
	require.Len(t, steps, len(was.Recipe)+1)
	require.Equal(t, "Bring in bridge 2 and side from wren.svg.", steps[len(steps)-1].Step.Sentence())
	w.shoot(t, "bring-laid")
	outline := func(name string) geom.Path {
		o, err := w.desk.Pattern().Piece(name).Outline()
		require.NoError(t, err)
		return o
	}
	side := outline("side")
	require.NoError(t, w.desk.SetSize("80C"))
	require.Equal(t, side, outline("side"), "in every size the same")
	w.desk.Undo()
	require.Len(t, w.desk.Pattern().Pieces, n)
	w.desk.Redo()
	require.Len(t, w.desk.Pattern().Pieces, n+2)

	// Once more: all names are taken, and both are told.
	w.bring(path, false)
	require.Contains(t, w.pageSays(), "this one is called bridge 3.")
	require.Contains(t, w.pageSays(), "this one is called side 2.")

	// As a document of its own it asks first what becomes of the one on the mat.
	page := w.sheet
	w.pressOnPage(t, "Take it as a new document")
	require.Contains(t, w.pageSays(), "Save first?")
	w.pressOnPage(t, "Stay here")
	require.Equal(t, page, w.sheet, "the page is still there")
	w.pressOnPage(t, "Take it as a new document")
	w.pressOnPage(t, "Go on without saving")
	require.Nil(t, w.sheet)
	require.Len(t, w.desk.Pattern().Pieces, 2)
}

// flap is a drawing that says nothing of what its outer line is: 140 × 120 mm,
// hollow on one side.
const flap = `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="200mm" viewBox="0 0 200 200">
<path id="flap" d="M20 20 L140 20 L140 160 L20 160 C40 120 40 60 20 20 Z"/></svg>`

// An allowance that is typed does not change what the outer line is taken for:
// it is asked, with what both answers make of the piece.
func TestATypedAllowanceDoesNotChangeWhatTheOuterLineIs(t *testing.T) {
	w := open(t, false)
	w.setUnit(unit.Centimetres)
	path := filepath.Join(t.TempDir(), "flap.svg")
	require.NoError(t, os.WriteFile(path, []byte(flap), 0o600))
	b := w.bring(path, true)
	require.Equal(t, "the sew line: nothing is said", b.which.Selected)
	require.NotContains(t, w.pageSays(), "Nothing says which line")
	w.win.Canvas().Focus(b.width)
	b.width.SetText("1")
	b.width.OnSubmitted("1")
	wide := func() float64 {
		o, err := w.boardOf(t).pieces[0].Outline()
		require.NoError(t, err)
		return o.Bounds().Width()
	}
	require.InDelta(t, 120, wide(), 1e-6, "it is as it was")
	require.Equal(t, "the sew line: nothing is said", b.which.Selected)
	require.Contains(t, w.pageSays(), "until you do, it is taken for the sew line. The sew line: flap is sewn 12 cm × 14 cm as drawn, cut 14")
	require.Contains(t, w.pageSays(), "The cut line: cut 12 cm × 14 cm as drawn, sewn 9.")
	w.shoot(t, "bring-asked")
	w.pressOnPage(t, "It is the cut line")
	require.Equal(t, "the cut line", b.which.Selected)
	require.NotContains(t, w.pageSays(), "Nothing says which line")
	require.Less(t, wide(), 105.0)
	require.Contains(t, w.pageSays(), "at the ring in the picture")
	require.NotContains(t, w.pageSays(), " mm")
	rings := w.boardOf(t).rings
	require.Len(t, rings, 1)
	o, err := w.boardOf(t).pieces[0].CutLine()
	require.NoError(t, err)
	require.InDelta(t, b.res.Pieces[0].CutError, o.Transform(w.boardOf(t).pieces[0].Pose).Nearest(rings[0]).Dist, 0.05, "where it is farthest")
	w.shoot(t, "bring-asked-cut")

	// A text that says it has the last word.
	require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(path), "flap.txt"), []byte("drawn sew\n"), 0o600))
	b = w.bring(path, true)
	require.Equal(t, "the sew line, as the text says", b.which.Selected)
	w.win.Canvas().Focus(b.width)
	b.width.SetText("1")
	b.width.OnSubmitted("1")
	require.NotContains(t, w.pageSays(), "Nothing says which line")
	require.InDelta(t, 120, wide(), 1e-6)
}

// Only of a drawing that does not say how large it is a known length is asked,
// and what was asked stays to be mended.
func TestAKnownLengthIsAskedOnlyWhereTheDrawingDoesNotSayItsSize(t *testing.T) {
	w := open(t, false)
	path := filepath.Join(t.TempDir(), "flap.svg")
	require.NoError(t, os.WriteFile(path, []byte(flap), 0o600))
	b := w.bring(path, true)
	require.False(t, b.known.Visible())
	w.sheet.close()

	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(flap, ` width="200mm" height="200mm"`, "", 1)), 0o600))
	b = w.bring(path, true)
	require.True(t, b.known.Visible())
	b.knownID, b.knownMM = "flap", "560 mm"
	b.look()
	require.True(t, b.known.Visible())
	require.NotEmpty(t, b.res.Run.Sizes, w.pageSays())
}
