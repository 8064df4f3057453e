package main

import (
	"bufio"
	"bytes"
	"fmt"
	"image"
	"image/color"
	_ "image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"truemat/app/desk"
	"truemat/app/look"
	"truemat/app/mat"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/store"
)

// program is the built program, "" when it could not be built.
var program string

func TestMain(m *testing.M) {
	dir, err := os.MkdirTemp("", "truemat")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	path := filepath.Join(dir, "truemat")
	if out, err := exec.Command("go", "build", "-o", path, ".").CombinedOutput(); err == nil {
		program = path
	} else {
		fmt.Fprintf(os.Stderr, "the program does not build: %v\n%s", err, out)
	}
	code := m.Run()
	os.RemoveAll(dir)
	os.Exit(code)
}

// real is the program running on a display of its own, worked by a mouse and
// keys that are the display's. Beside it a desk and a tool are worked in the
// same way, so that a test knows where things lie and which field is which.
type real struct {
	t       *testing.T
	display string
	home    string
	doc     string // what is open
	cmd     *exec.Cmd
	done    chan struct{}
	said    noise

	desk *desk.Desk
	tool tool.Tool

	scale  float64    // pixels per mm
	corner geom.Point // mm at the display's upper left corner
}

// noise is what the program writes to its terminal.
type noise struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (n *noise) Write(p []byte) (int, error) {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.b.Write(p)
}

func (n *noise) String() string {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.b.String()
}

// patience bounds every wait for the window.
const patience = 20 * time.Second

// newReal starts a display with a window manager, for a program with a home
// of its own.
func newReal(t *testing.T) *real { return newRealOf(t, "1280x800") }

// newRealOf is newReal with a display of so many pixels.
func newRealOf(t *testing.T, screen string) *real {
	t.Helper()
	for _, need := range []string{"Xvfb", "xdotool", "openbox", "import"} {
		if _, err := exec.LookPath(need); err != nil {
			t.Skipf("%s is not here; it is needed to work the window with a real mouse and keys", need)
		}
	}
	require.NotEmpty(t, program, "the program was built")
	r := &real{t: t, home: t.TempDir()}
	r.serve(screen)
	require.True(t, r.background("openbox"))
	return r
}

// background starts a helper that ends with the test.
func (r *real) background(name string, args ...string) bool {
	cmd := exec.Command(name, args...)
	cmd.Env = r.env()
	if cmd.Start() != nil {
		return false
	}
	r.t.Cleanup(func() {
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
	})
	return true
}

// serve starts a display under a number that the server chooses and tells
// when it is ready.
func (r *real) serve(screen string) {
	r.t.Helper()
	tell, told, err := os.Pipe()
	require.NoError(r.t, err)
	cmd := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", screen+"x24", "-nolisten", "tcp", "-noreset")
	cmd.ExtraFiles = []*os.File{told}
	require.NoError(r.t, cmd.Start())
	r.t.Cleanup(func() {
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
	})
	told.Close()
	defer tell.Close()
	require.NoError(r.t, tell.SetReadDeadline(time.Now().Add(patience)))
	line, err := bufio.NewReader(tell).ReadString('\n')
	require.NoError(r.t, err, "the number of the display")
	r.display = ":" + strings.TrimSpace(line)
}

// env is the surroundings of the program: the display, and a home of its own.
func (r *real) env() []string {
	var out []string
	for _, e := range os.Environ() {
		if name, _, _ := strings.Cut(e, "="); name != "DISPLAY" && name != "HOME" && !strings.HasPrefix(name, "XDG_") && name != "LANG" && name != "LC_ALL" {
			out = append(out, e)
		}
	}
	return append(out, "DISPLAY="+r.display, "HOME="+r.home, "LANG=en_GB.UTF-8", "FYNE_SCALE=1",
		"XDG_STATE_HOME="+r.path("state"), "XDG_CACHE_HOME="+r.path("cache"), "XDG_CONFIG_HOME="+r.path("config"))
}

func (r *real) path(name string) string { return filepath.Join(r.home, name) }

// command runs the program without a window.
func (r *real) command(args ...string) string {
	r.t.Helper()
	cmd := exec.Command(program, args...)
	cmd.Env = r.env()
	out, err := cmd.CombinedOutput()
	require.NoError(r.t, err, "%s", out)
	return string(out)
}

// start runs the program and waits until its window shows something.
func (r *real) start(args ...string) {
	r.t.Helper()
	r.cmd = exec.Command(program, args...)
	r.cmd.Env, r.cmd.Dir = r.env(), r.home
	r.cmd.Stdout, r.cmd.Stderr = &r.said, &r.said
	require.NoError(r.t, r.cmd.Start())
	cmd, done := r.cmd, make(chan struct{})
	r.done = done
	go func() {
		_ = cmd.Wait()
		close(done)
	}()
	r.t.Cleanup(func() {
		_ = cmd.Process.Kill()
		<-done
	})
	r.until("the window shows", func() bool {
		r.alive()
		id, _ := r.try("search", "--onlyvisible", "--name", "Truemat")
		return strings.TrimSpace(id) != "" && r.calm()
	})
}

// calm reports whether writing stands still on the display.
func (r *real) calm() bool {
	a, ok := r.look()
	if !ok || extentIn(a, a.Bounds(), look.Light.Text).Empty() {
		return false
	}
	time.Sleep(150 * time.Millisecond)
	b, ok := r.look()
	return ok && same(a, b)
}

func same(a, b image.Image) bool {
	for y := a.Bounds().Min.Y; y < a.Bounds().Max.Y; y += 2 {
		for x := a.Bounds().Min.X; x < a.Bounds().Max.X; x += 2 {
			if a.At(x, y) != b.At(x, y) {
				return false
			}
		}
	}
	return true
}

// alive fails the test when the program has ended.
func (r *real) alive() {
	r.t.Helper()
	select {
	case <-r.done:
		require.FailNow(r.t, "the program has ended", r.said.String())
	default:
	}
}

// kill ends the program as a power cut would.
func (r *real) kill() {
	_ = r.cmd.Process.Kill()
	<-r.done
}

func (r *real) until(what string, f func() bool) {
	r.t.Helper()
	for end := time.Now().Add(patience); ; time.Sleep(60 * time.Millisecond) {
		if f() {
			return
		}
		if time.Now().After(end) {
			r.keep()
			require.FailNow(r.t, "waited too long", "%s\n%s", what, r.said.String())
		}
	}
}

// keep saves a picture of the display for who looks why a test failed.
func (r *real) keep() {
	path := filepath.Join(os.TempDir(), "truemat-"+strings.ReplaceAll(r.t.Name(), "/", "-")+".png")
	cmd := exec.Command("import", "-window", "root", "-silent", path)
	cmd.Env = r.env()
	if cmd.Run() == nil {
		r.t.Logf("the display as it was: %s", path)
	}
}

func (r *real) try(args ...string) (string, error) {
	cmd := exec.Command("xdotool", args...)
	cmd.Env = r.env()
	out, err := cmd.CombinedOutput()
	return string(out), err
}

func (r *real) do(args ...string) {
	r.t.Helper()
	out, err := r.try(args...)
	require.NoError(r.t, err, "xdotool %v: %s", args, out)
	time.Sleep(beat)
	r.alive()
}

// beat is the time left to the window between acts, shorter than a hand's.
const beat = 60 * time.Millisecond

// key presses keys one after another.
func (r *real) key(keys ...string) {
	r.t.Helper()
	for _, k := range keys {
		r.do("key", k)
	}
}

func (r *real) times(n int, key string) {
	r.t.Helper()
	for range n {
		r.key(key)
	}
}

func (r *real) write(text string) {
	r.t.Helper()
	r.do("type", "--delay", "25", text)
}

// look takes a picture of the display.
func (r *real) look() (image.Image, bool) {
	cmd := exec.Command("import", "-window", "root", "-silent", "png:-")
	cmd.Env = r.env()
	out, err := cmd.Output()
	if err != nil {
		return nil, false
	}
	img, _, err := image.Decode(bytes.NewReader(out))
	return img, err == nil
}

// extent is the box of all pixels of a colour in the part of the display
// where the mat lies.
func extent(img image.Image, want color.NRGBA) image.Rectangle {
	return extentIn(img, image.Rect(30, 70, 940, 640), want)
}

func extentIn(img image.Image, area image.Rectangle, want color.NRGBA) image.Rectangle {
	var box image.Rectangle
	for y := area.Min.Y; y < area.Max.Y; y++ {
		for x := area.Min.X; x < area.Max.X; x++ {
			if c := color.NRGBAModel.Convert(img.At(x, y)); c == want {
				box = box.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return box
}

// open starts the program with a document and finds where it lies on the display.
func (r *real) open(doc string) {
	r.t.Helper()
	d, err := store.Load(doc)
	require.NoError(r.t, err)
	r.desk, err = desk.New(d, doc)
	require.NoError(r.t, err)
	r.doc = doc
	r.start(doc)
	r.calibrate()
}

// calibrate finds scale and place of the mat, once the window is laid out;
// nothing but the maker moves it then.
func (r *real) calibrate() {
	r.t.Helper()
	r.measure()
	for still := 0; still < 3; still++ {
		time.Sleep(200 * time.Millisecond)
		corner, scale := r.corner, r.scale
		if r.measure(); r.corner != corner || r.scale != scale {
			still = -1
		}
	}
}

// measure finds scale and place of the mat from where the paper within the sew
// lines is seen now.
func (r *real) measure() {
	r.t.Helper()
	sewn := geom.NoBox()
	for _, pc := range r.desk.Pattern().Pieces {
		for _, e := range pc.Edges {
			sewn = sewn.Union(e.Path.Transform(pc.Pose).Bounds())
		}
	}
	img, ok := r.look()
	require.True(r.t, ok)
	seen := extent(img, mat.Light().Paper)
	require.False(r.t, seen.Empty(), "paper is seen")
	x, y := float64(seen.Dx())/sewn.Width(), float64(seen.Dy())/sewn.Height()
	require.InDelta(r.t, x, y, 0.02*x, "a millimetre is as long up as across")
	r.scale = (x + y) / 2
	mid := sewn.Center()
	r.corner = geom.Pt(mid.X-float64(seen.Min.X+seen.Max.X)/2/r.scale, mid.Y+float64(seen.Min.Y+seen.Max.Y)/2/r.scale)
}

// pixel is where a place on the mat lies on the display.
func (r *real) pixel(at geom.Point) (x, y string) {
	return strconv.Itoa(int((at.X-r.corner.X)*r.scale + 0.5)), strconv.Itoa(int((r.corner.Y-at.Y)*r.scale + 0.5))
}

func (r *real) move(at geom.Point) {
	r.t.Helper()
	x, y := r.pixel(at)
	r.do("mousemove", x, y)
}

func (r *real) event(act tool.Act, at geom.Point) {
	r.tool.Pointer(tool.Event{Act: act, At: at, Reach: 8 / r.scale})
}

// press presses the button at a place on the mat, and lets it go.
func (r *real) press(at geom.Point) {
	r.t.Helper()
	r.hold(at)
	r.letGo(at)
}

func (r *real) hold(at geom.Point) {
	r.t.Helper()
	r.move(at)
	time.Sleep(450 * time.Millisecond) // not a double press
	r.do("mousedown", "1")
	r.event(tool.Press, at)
}

// drag moves the held button to a place on the mat.
func (r *real) drag(from, to geom.Point) {
	r.t.Helper()
	for _, k := range []float64{0.1, 0.5, 0.9, 1} {
		r.move(from.Lerp(to, k))
		r.event(tool.Drag, from.Lerp(to, k))
	}
}

func (r *real) letGo(at geom.Point) {
	r.t.Helper()
	r.do("mouseup", "1")
	r.event(tool.Release, at)
}

// take takes a tool by its letter.
func (r *real) take(letter, name string) {
	r.t.Helper()
	r.key(letter)
	for _, tl := range tool.All(r.desk) {
		if tl.Name() == name {
			r.tool = tl
			return
		}
	}
	require.FailNow(r.t, "no such tool", name)
}

// walkTo presses N until the tool is at what is wanted, and takes it.
func (r *real) walkTo(want string) {
	r.t.Helper()
	for range 60 {
		r.key("n")
		require.True(r.t, r.tool.Key(tool.Key{Name: tool.Next}))
		for _, n := range r.tool.Overlay().Notes {
			if n.Text == want {
				r.choose()
				return
			}
		}
	}
	require.FailNow(r.t, "not found by keys", want)
}

// walkInto goes into a piece and takes what is wanted of it.
func (r *real) walkInto(piece, what string) {
	r.t.Helper()
	r.walkTo(piece)
	for _, n := range r.tool.Overlay().Notes {
		if n.Text == what+" of "+piece {
			r.choose()
			return
		}
	}
	r.walkTo(what + " of " + piece)
}

func (r *real) choose() {
	r.t.Helper()
	r.key("space")
	require.True(r.t, r.tool.Key(tool.Key{Name: tool.Choose}))
}

// field goes from the mat to a field of the tool.
func (r *real) field(name string) (tool.Field, int) {
	r.t.Helper()
	tabs := 0
	for _, f := range r.tool.Fields() {
		if f.Seldom { // gives way to the others
			continue
		}
		tabs++
		if f.Name == name {
			r.times(tabs, "Tab")
			return f, tabs
		}
	}
	require.FailNow(r.t, "no field that shows at once", "%s of %s", name, r.tool.Name())
	return tool.Field{}, 0
}

// fill types into a field.
func (r *real) fill(name, text string) {
	r.t.Helper()
	_, tabs := r.field(name)
	r.key("ctrl+a")
	r.write(text)
	r.key("Return") // the keys are on the mat then, and Tab goes on from the field
	require.NoError(r.t, r.tool.Set(name, text))
	r.times(tabs+1, "shift+Tab")
}

// pick chooses an option of a field from its list.
func (r *real) pick(name, option string) {
	r.t.Helper()
	f, tabs := r.field(name)
	now, want := -1, -1
	for i, o := range f.Options {
		if o == f.Text {
			now = i
		}
		if o == option {
			want = i
		}
	}
	require.GreaterOrEqual(r.t, want, 0, "%q is one of %q", option, f.Options)
	require.GreaterOrEqual(r.t, now, 0, "%q is one of %q", f.Text, f.Options)
	if want == now {
		r.times(tabs, "shift+Tab")
		return
	}
	r.key("space")
	r.times(want-now, "Down")
	r.times(now-want, "Up")
	r.key("Return") // as after what is typed
	require.NoError(r.t, r.tool.Set(name, option))
	r.times(tabs+1, "shift+Tab")
}

// accept presses Enter on the mat and waits until the step is in what is saved.
func (r *real) accept() {
	r.t.Helper()
	r.key("Return")
	r.accepted()
}

func (r *real) accepted() {
	r.t.Helper()
	require.NotEmpty(r.t, r.tool.Proposal(), r.tool.Hint())
	require.NoError(r.t, r.desk.Accept(r.tool.Proposal()...))
	r.tool.Reset()
	r.save(len(r.desk.Document().Recipe))
}

// save saves until the document on disk has that many steps.
func (r *real) save(steps int) store.Document {
	r.t.Helper()
	r.key("ctrl+s")
	var doc store.Document
	r.until(fmt.Sprintf("%d steps are saved", steps), func() bool {
		r.alive()
		var err error
		doc, err = store.Load(r.doc)
		return err == nil && len(doc.Recipe) == steps
	})
	return doc
}

// title is what stands over the window.
func (r *real) title() string {
	out, _ := r.try("search", "--onlyvisible", "--name", "Truemat", "getwindowname")
	return strings.TrimSpace(out)
}
