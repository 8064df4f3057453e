package main

import (
	"bytes"
	"image"
	"image/color"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"truemat/app/look"
	"truemat/app/mat"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
)

// toldWrong waits until something is told in the colour of what is wrong.
func (r *real) toldWrong() {
	r.t.Helper()
	r.until("a sentence says what is wrong", func() bool {
		r.alive()
		img, ok := r.look()
		return ok && extentIn(img, img.Bounds(), look.Light.Poor).Dx() > 100
	})
}

// files is what lies in the home of the program, apart from what it keeps of
// itself.
func (r *real) files() map[string]string {
	r.t.Helper()
	out := map[string]string{}
	all, err := filepath.Glob(r.path("*"))
	require.NoError(r.t, err)
	for _, f := range all {
		if b, err := os.ReadFile(f); err == nil {
			out[filepath.Base(f)] = string(b)
		}
	}
	return out
}

func TestDamagedDrawingIsToldAndChangesNothing(t *testing.T) {
	r := newReal(t)
	path := r.path("torn.svg")
	require.NoError(t, os.WriteFile(path, []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="90mm"><path d="M0 0L5`), 0o644))
	before := r.files()
	r.start(path)
	r.toldWrong()
	require.Equal(t, before, r.files())
	r.key("Escape") // leaves it
	r.key("h")
	r.alive()
}

func TestDamagedDocumentIsToldWithoutTouchingIt(t *testing.T) {
	r := newReal(t)
	path := r.path("torn.truemat")
	var b bytes.Buffer
	require.NoError(t, store.Write(&b, r.byCommand(mainSteps...)))
	require.NoError(t, os.WriteFile(path, b.Bytes()[:b.Len()/2], 0o644))
	before := r.files()
	r.start(path)
	r.toldWrong()
	require.Equal(t, before, r.files())
	r.key("h")
	r.alive()
}

func TestDamagedDocumentIsToldWithoutADisplay(t *testing.T) {
	path := filepath.Join(t.TempDir(), "torn.truemat")
	require.NoError(t, os.WriteFile(path, []byte(`{"format":`), 0o644))
	cmd := exec.Command(program, path)
	cmd.Env = []string{"HOME=" + t.TempDir()}
	out, err := cmd.CombinedOutput()
	require.Error(t, err)
	require.Contains(t, string(out), "torn.truemat")
	require.Contains(t, string(out), "truemat help")
	require.NotContains(t, string(out), "goroutine")
}

func TestWorkIsSavedUnderAnotherName(t *testing.T) {
	r := newReal(t)
	first := r.fresh()
	r.take("h", "hand")
	r.walkTo("cradle")
	r.key("Right")
	r.key("ctrl+shift+s")
	r.name("other.truemat")
	var doc store.Document
	r.until("it is saved", func() bool {
		var err error
		doc, err = store.Load(r.path("other.truemat"))
		return err == nil
	})
	require.Len(t, doc.Recipe, 1)
	r.command("check", r.path("other.truemat"))
	b, err := os.ReadFile(r.doc)
	require.NoError(t, err)
	require.True(t, bytes.Equal(first, b), "the document it came from stays as it was")
	r.until("the title tells the new name", func() bool { return strings.HasPrefix(r.title(), "other") })
}

// A pattern of one's own is begun by its measures, gets a second piece, and is
// saved, by keys alone.
func TestAPatternOfOnesOwnIsBegunAndSaved(t *testing.T) {
	r := newReal(t)
	r.fresh()
	r.key("ctrl+n")
	r.until("the page is there", r.calm)
	for _, s := range []string{"80 mm", "60 mm", "1/4 in"} {
		r.write(s)
		r.key("Tab")
	}
	r.key("Return")
	r.until("it is begun", func() bool { return strings.HasPrefix(r.title(), "My pattern") })
	r.key("ctrl+shift+n")
	r.until("the page is there", r.calm)
	r.write("70 mm")
	r.key("Tab")
	r.write("60.6 mm")
	r.key("Return")
	r.until("the page is gone", r.calm)
	r.key("ctrl+s")
	r.name("own.truemat")
	var doc store.Document
	r.until("it is saved", func() bool {
		var err error
		doc, err = store.Load(r.path("own.truemat"))
		return err == nil
	})
	p := doc.Results()[0].Size.Pattern
	require.Len(t, p.Pieces, 2)
	require.InDelta(t, 80, p.Piece("strip").Edge("top").Length(), 1e-9)
	require.InDelta(t, 6.35, p.Piece("strip").Edge("top").Allowance, 1e-9)
	require.InDelta(t, 60.6, p.Piece("strip 2").Edge("left").Length(), 1e-9)
	r.command("print", r.path("own.truemat"), "--out", r.path("own.pdf"))
}

// What is damaged or of another kind is told, whichever way it comes to the
// window; the work on the table, its title and what lies on disk stay.
func TestDamagedFilesComeToNothingWhicheverWayTheyCome(t *testing.T) {
	r := newReal(t)
	first := r.fresh()
	for name, content := range map[string]string{
		"torn.truemat": string(first[:len(first)/2]), "notes.txt": "buy elastic", "notes.truemat": "buy elastic",
		"torn.svg": `<svg xmlns="http://www.w3.org/2000/svg" width="90mm"><path d="M0 0L5`,
	} {
		require.NoError(t, os.WriteFile(r.path(name), []byte(content), 0o644))
	}
	r.take("h", "hand")
	r.walkTo("cradle")
	r.key("Right")
	r.until("it is unsaved", func() bool { return strings.Contains(r.title(), "unsaved") })
	before, title := r.files(), r.title()

	same := func(how string) {
		t.Helper()
		require.Equal(t, title, r.title(), how)
		require.Equal(t, before, r.files(), how)
	}
	goOn := func() { // without saving
		r.covered()
		r.key("Tab", "Return")
	}
	for _, name := range []string{"torn.truemat", "notes.txt", "notes.truemat", "nowhere.truemat"} {
		r.key("ctrl+o")
		goOn()
		r.name(name)
		r.toldWrong()
		same("opened " + name)
		r.key("Escape")
		r.bare()
	}
	r.key("ctrl+b") // which may come beside the work
	r.name("torn.svg")
	r.toldWrong()
	same("brought in")
	r.key("Escape")
	r.bare()

	for _, name := range []string{"torn.truemat", "notes.txt", "torn.svg"} {
		r.drop(r.path(name))
		if name != "torn.svg" {
			goOn()
		}
		r.toldWrong()
		same("dropped " + name)
		r.key("Escape")
		r.bare()
	}
	doc := r.save(1)
	require.Equal(t, &step.Move{Piece: "cradle", DX: step.Lit(1), DY: step.Lit(0)}, doc.Recipe[0].Step)
}

func TestADrawingComesBesideTheWorkAsAStep(t *testing.T) {
	r := newReal(t)
	r.fresh()
	require.NoError(t, os.WriteFile(r.path("tabs.svg"), []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="50mm" viewBox="0 0 60 50"><path id="tab" d="M10 10 h40 v30 h-40 z"/></svg>`), 0o644))
	r.key("ctrl+b")
	r.name("tabs.svg")
	r.until("what was found shows", func() bool {
		img, ok := r.look()
		if !ok {
			return false
		}
		ring := extentIn(img, img.Bounds(), look.Light.Accent) // of the picture, not of the field for a name
		return ring.Dx() > 400 && ring.Dy() > 200
	})
	r.pressMain()
	r.bare()
	doc := r.save(1)
	require.Equal(t, "Bring in tab from tabs.svg.", doc.Recipe[0].Step.Sentence())
	results := doc.Recipe.Replay(doc.Source)
	require.Len(t, results, 12)
	for _, done := range results {
		require.InDelta(t, 40*30, done.Size.Pattern.Piece("tab").Area(), 1e-6)
	}
	r.key("ctrl+z")
	r.save(0)
	r.key("ctrl+y")
	r.save(1)
}

func TestDroppedDocumentIsOpened(t *testing.T) {
	r := newReal(t)
	r.fresh()
	other := r.byCommand(mainSteps...)
	require.NoError(t, store.Save(r.path("other one.truemat"), other))
	r.drop(r.path("other one.truemat"))
	r.until("the title tells the new name", func() bool { return strings.HasPrefix(r.title(), "other one") })
	r.doc = r.path("other one.truemat")
	r.save(len(other.Recipe))
}

// bare waits until nothing lies over the mat.
func (r *real) bare() {
	r.t.Helper()
	r.until("the mat shows", func() bool { r.alive(); return r.matShows() })
	time.Sleep(5 * beat)
}

// matShows reports whether the ground of the mat is seen in the middle of the
// window.
func (r *real) matShows() bool {
	img, ok := r.look()
	if !ok {
		return false
	}
	area, seen := image.Rect(300, 300, 900, 600), 0
	for y := area.Min.Y; y < area.Max.Y; y++ {
		for x := area.Min.X; x < area.Max.X; x++ {
			if color.NRGBAModel.Convert(img.At(x, y)) == mat.Light().Ground {
				seen++
			}
		}
	}
	return seen > 600
}

// covered waits until something lies over the mat.
func (r *real) covered() {
	r.t.Helper()
	r.until("something covers the mat", func() bool { return !r.matShows() })
	time.Sleep(5 * beat)
}

// name waits for the page for files and writes a name there.
func (r *real) name(file string) {
	r.t.Helper()
	r.covered()
	r.key("ctrl+a")
	r.write(file)
	r.key("Return")
}

func TestWorkIsOfferedBackAfterAKillDuringADrag(t *testing.T) {
	r := newReal(t)
	r.fresh()
	r.take("h", "hand")
	r.walkTo("cradle")
	r.key("Right", "Up", "Up")
	from := r.at(pattern.AtEnd("band", "hem", pattern.End))
	r.hold(from)
	r.do("mousemove_relative", "--", "-30", "-20")
	r.do("mousemove_relative", "--", "-10", "-10")
	r.kill()
	_, _ = r.try("mouseup", "1")
	saved, err := store.Load(r.doc)
	require.NoError(t, err)
	require.Empty(t, saved.Recipe, "nothing was saved by itself")

	r.start(r.doc)
	r.covered()
	r.key("Return")
	r.until("the work is taken up again", func() bool { return strings.Contains(r.title(), "unsaved") })
	r.doc = r.path("back.truemat")
	r.key("ctrl+shift+s")
	r.name("back.truemat")
	r.until("it is saved", func() bool {
		saved, err = store.Load(r.doc)
		return err == nil
	})
	require.Len(t, saved.Recipe, 1, "only the act in progress is lost; pushes in a row are one move")
	require.Equal(t, &step.Move{Piece: "cradle", DX: step.Lit(1), DY: step.Lit(2)}, saved.Recipe[0].Step)
}

// Closing the window asks for what is not saved: Escape stays, and the program
// ends only by an answer.
func TestClosingAsksForWhatIsNotSaved(t *testing.T) {
	r := newReal(t)
	r.fresh()
	r.take("h", "hand")
	r.walkTo("cradle")
	r.key("Right")
	r.until("it is unsaved", func() bool { return strings.Contains(r.title(), "unsaved") })
	before := r.files()
	r.key("alt+F4") // the window manager's
	r.covered()
	r.alive()
	r.key("Escape")
	r.bare()
	r.key("ctrl+q")
	r.covered()
	_, _ = r.try("key", "Tab", "Return") // go on without saving
	r.until("the program ends", func() bool {
		select {
		case <-r.done:
			return true
		default:
			return false
		}
	})
	require.Equal(t, before, r.files(), "nothing was saved")
	require.NotContains(t, r.said.String(), "panic")
}
