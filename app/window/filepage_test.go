package window

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"truemat/ops/store"
)

// paged is a window with a page for files open, worked by its field.
type paged struct {
	*Window
	t    *testing.T
	home string
}

func atHome(t *testing.T) *paged {
	t.Helper()
	home := t.TempDir()
	t.Setenv("HOME", home)
	return &paged{open(t, false), t, home}
}

func (p *paged) file(name, content string) string {
	p.t.Helper()
	path := filepath.Join(p.home, name)
	require.NoError(p.t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(p.t, os.WriteFile(path, []byte(content), 0o644))
	return path
}

func (p *paged) document(name string) string {
	p.t.Helper()
	path := p.file(name, "")
	require.NoError(p.t, store.Save(path, p.desk.Document()))
	return path
}

// field is what has the keys.
func (p *paged) field() *nameField {
	p.t.Helper()
	n, ok := p.win.Canvas().Focused().(*nameField)
	require.True(p.t, ok, "the field for the name has the keys, not %T", p.win.Canvas().Focused())
	return n
}

func (p *paged) press(keys ...fyne.KeyName) {
	p.t.Helper()
	for _, k := range keys {
		p.field().TypedKey(&fyne.KeyEvent{Name: k})
	}
}

func (p *paged) names() (out []string) {
	for _, f := range p.field().page.shown {
		out = append(out, f.name)
	}
	return out
}

func (p *paged) told() string { return strings.Join(texts(p.field().page.wrong), " ") }

func TestFileIsFoundByTypingAndOpenedWithEnter(t *testing.T) {
	p := atHome(t)
	p.document("lace/a frame.truemat")
	p.document("lace/b frame.truemat")
	p.file("lace/notes.txt", "x")
	p.file("lace/.hidden.truemat", "x")
	p.openAsk()
	require.Equal(t, []string{above, "lace"}, p.names())
	p.press(fyne.KeyDown, fyne.KeyDown, fyne.KeyReturn)
	require.Equal(t, []string{above, "a frame.truemat", "b frame.truemat"}, p.names())
	test.Type(p.field(), "B F")
	require.Equal(t, []string{"b frame.truemat"}, p.names())
	p.press(fyne.KeyReturn)
	require.Nil(t, p.sheet)
	require.Equal(t, "b frame, size 65C — Truemat", p.win.Title())
	require.Same(t, p.mat, p.win.Canvas().Focused(), "the keys are the mat's again")
	p.openAsk()
	require.Contains(t, p.names(), "a frame.truemat", "it begins where the document lies")
	p.press(fyne.KeyBackspace)
	require.Equal(t, []string{above, "lace"}, p.names(), "Backspace in an empty field goes up")
	p.press(fyne.KeyEscape)
	require.Nil(t, p.sheet, "Escape leaves")
}

func TestWhatCannotBeOpenedIsToldOnThePageWhichStays(t *testing.T) {
	p := atHome(t)
	good := p.written(t)
	p.file("torn.truemat", good[:3000])
	p.file("notes.txt", "hello")
	title := p.win.Title()
	for typed, told := range map[string]string{
		"torn.truemat": "the file is damaged there", "notes.txt": "not a Truemat document", "nowhere": "No file of this kind", "a/b": "There is no", "": "No file is chosen",
	} {
		p.openAsk()
		p.field().SetText(typed)
		p.press(fyne.KeyReturn)
		assert.Contains(t, p.told(), told, typed)
		assert.Equal(t, good, p.written(t), typed)
		assert.Equal(t, title, p.win.Title(), typed)
		p.press(fyne.KeyEscape)
		require.Nil(t, p.sheet)
	}
}

func TestKindsShowOtherFiles(t *testing.T) {
	p := atHome(t)
	p.file("a.svg", "x")
	p.file("b.txt", "x")
	p.document("c.truemat")
	p.openAsk()
	for i, want := range [][]string{{above, "c.truemat"}, {above, "a.svg"}, {above, "a.svg", "b.txt", "c.truemat"}} {
		p.field().page.sort(i)
		require.Equal(t, want, p.names())
	}
}

func TestSavingOverAFileAsksFirst(t *testing.T) {
	p := atHome(t)
	other := p.document("other.truemat")
	precious, err := os.ReadFile(other)
	require.NoError(t, err)
	p.nudged()
	p.saveAs(nil)
	require.Equal(t, "tern.truemat", p.field().Text)
	p.field().SetText("other")
	p.press(fyne.KeyReturn)
	focused := p.win.Canvas().Focused()
	p.backOut()
	require.NotNil(t, p.sheet, "Escape takes back the question alone")
	p.press(fyne.KeyReturn)
	b, err := os.ReadFile(other)
	require.NoError(t, err)
	require.Equal(t, precious, b)
	require.IsType(t, &touch{}, focused, "on what keeps it")
	test.Tap(p.win.Canvas().Focused().(*touch))
	b, err = os.ReadFile(other)
	require.NoError(t, err)
	require.Equal(t, precious, b, "Enter twice replaces nothing")
	require.NotNil(t, p.sheet, "another name can be given")
	p.field().SetText("other")
	p.press(fyne.KeyReturn)
	require.Regexp(t, `saved today \d\d:\d\d, Tern with \d+ steps?\. What it holds now is replaced, and kept beside it as other\.truemat\.previous\.`, p.onPage())
	test.Tap(findTouch(t, p.sheet.pop.Content, "Write over it"))
	require.Nil(t, p.sheet, "the page closes")
	old, err := os.ReadFile(other + store.Previous)
	require.NoError(t, err)
	require.Equal(t, precious, old)
	doc, err := store.Load(other)
	require.NoError(t, err)
	require.Len(t, doc.Recipe, 1)
}

// A pattern that was never saved is offered a name that the folder has not yet.
func TestAFreshPatternIsOfferedAFreeName(t *testing.T) {
	p := atHome(t)
	p.document("tern.truemat")
	p.saveAs(nil)
	require.Equal(t, "tern 2.truemat", p.field().Text)
	p.press(fyne.KeyReturn)
	require.Nil(t, p.sheet, "nothing is asked")
	p.saveAs(nil)
	require.Equal(t, "tern 2.truemat", p.field().Text, "its own from then on")
}

func TestFileThatIsNoDocumentIsNotSavedOver(t *testing.T) {
	p := atHome(t)
	notes := p.file("notes.truemat", "precious")
	p.saveAs(nil)
	p.field().SetText("notes")
	p.press(fyne.KeyReturn)
	require.Contains(t, p.onPage(), ", 1 kB. What it holds")
	require.NotContains(t, p.onPage(), ".previous", "what is no document is not kept so")
	test.Tap(findTouch(t, p.sheet.pop.Content, "Write over it"))
	require.Contains(t, p.told(), "choose another name")
	b, err := os.ReadFile(notes)
	require.NoError(t, err)
	require.Equal(t, "precious", string(b))
}

func TestFolderIsMadeWhenSaving(t *testing.T) {
	p := atHome(t)
	p.saveAs(nil)
	p.field().SetText("autumn/first/tern")
	p.press(fyne.KeyReturn)
	require.NoDirExists(t, filepath.Join(p.home, "autumn"), "it asks first")
	test.Tap(p.win.Canvas().Focused().(*touch))
	require.FileExists(t, filepath.Join(p.home, "autumn/first/tern.truemat"))
	require.Equal(t, "tern, size 65C — Truemat", p.win.Title())
}

func TestFileThatCannotBeWrittenKeepsThePage(t *testing.T) {
	p := atHome(t)
	p.file("file", "x")
	p.saveAs(nil)
	p.field().SetText("file/tern")
	p.press(fyne.KeyReturn)
	require.NotEmpty(t, p.told())
	p.field().SetText("")
	p.press(fyne.KeyReturn)
	require.Contains(t, p.told(), "name")
	p.press(fyne.KeyEscape)
	require.Nil(t, p.sheet)
}

func TestExportTakesTheEndingOfTheKind(t *testing.T) {
	p := atHome(t)
	p.exportAsk()
	p.field().page.sort(1)
	require.Equal(t, "tern-65C.png", p.field().Text)
	p.field().SetText("piece 3.5")
	p.press(fyne.KeyReturn)
	b, err := os.ReadFile(filepath.Join(p.home, "piece 3.5.png"))
	require.NoError(t, err)
	require.True(t, bytes.HasPrefix(b, []byte("\x89PNG")))
}

func TestPageForFilesLiesOverThePrint(t *testing.T) {
	p := atHome(t)
	p.printPage()
	under := p.sheet
	test.Tap(findTouch(t, under.pop.Content, "Save as PDF…"))
	require.NotSame(t, under, p.sheet)
	p.press(fyne.KeyEscape)
	require.Same(t, under, p.sheet)
	test.Tap(findTouch(t, under.pop.Content, "Save as PDF…"))
	p.press(fyne.KeyReturn)
	require.Same(t, under, p.sheet)
	require.FileExists(t, filepath.Join(p.home, "tern.pdf"))
}

func TestAFolderOfThousandsIsShown(t *testing.T) {
	p := atHome(t)
	manyFiles(t, filepath.Join(p.home, "many"))
	p.openAsk()
	p.field().page.enter(filepath.Join(p.home, "many"))
	test.Type(p.field(), "99")
	require.NotEmpty(t, p.names())
	for _, name := range p.names() {
		require.Contains(t, name, "99")
	}
}

func manyFiles(t testing.TB, dir string) {
	require.NoError(t, os.Mkdir(dir, 0o755))
	for i := range 3000 {
		name := strings.Repeat("n", i%9) + string(rune('a'+i%26)) + time.Duration(i).String() + ending
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), nil, 0o644))
	}
}

func TestNamesAreSortedAsPeopleCount(t *testing.T) {
	for _, c := range [][2]string{{"tern 2", "tern 10"}, {"a", "b"}, {"a", "a1"}, {"a01", "a2"}, {"a9b", "a9c"}, {"", "a"}} {
		assert.Negative(t, byName(c[0], c[1]), c)
		assert.Positive(t, byName(c[1], c[0]), c)
		assert.Zero(t, byName(c[0], c[0]), c)
	}
}

func findTouch(t *testing.T, o fyne.CanvasObject, word string) *touch {
	t.Helper()
	for _, f := range reachable(o) {
		if b, ok := f.(*touch); ok && slices.Contains(texts(b.body), word) {
			return b
		}
	}
	require.FailNow(t, "there is no such word to press", word)
	return nil
}

// What is wrong takes its room from the list: the field, the button and the page
// stay where they are.
func TestAPageForFilesStaysStillWhenSomethingIsWrong(t *testing.T) {
	w := atHome(t)
	w.openAsk()
	p := w.field().page
	at := func(o fyne.CanvasObject) fyne.Position {
		return fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
	}
	name, list, tall := at(p.name), at(p.scroll), p.sheet.pop.MinSize().Height
	p.say(errors.New("this file is no document of Truemat: it ends in the middle"))
	require.True(t, p.wrong.Visible())
	require.Equal(t, tall, p.sheet.pop.MinSize().Height)
	require.Equal(t, name, at(p.name))
	require.Equal(t, list, at(p.scroll))
	p.say(nil)
	require.Equal(t, name, at(p.name))
}
