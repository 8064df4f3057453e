package main

import (
	"fmt"
	"image"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/BurntSushi/xgb"
	"github.com/BurntSushi/xgb/xproto"
	"github.com/BurntSushi/xgb/xtest"
	"github.com/stretchr/testify/require"
	"truemat/app/mat"
	"truemat/app/window"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/store"
)

// painted reads when the window painted a layer, or showed what the pointer
// did, from the file it was asked to write.
func painted(t *testing.T, path, layer string) (at []time.Time) {
	t.Helper()
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	for _, l := range strings.Split(string(b), "\n") {
		what, when, _ := strings.Cut(l, " ")
		if ns, err := strconv.ParseInt(when, 10, 64); err == nil && what == layer {
			at = append(at, time.Unix(0, ns))
		}
	}
	return at
}

// ticks is the processor time that a process used, in hundredths of a second.
func ticks(t *testing.T, pid int) (n int) {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("/proc", strconv.Itoa(pid), "stat"))
	require.NoError(t, err)
	_, rest, _ := strings.Cut(string(b), ") ")
	for _, i := range []int{11, 12} { // utime and stime, counted from the state
		v, err := strconv.Atoi(strings.Fields(rest)[i])
		require.NoError(t, err)
		n += v
	}
	return n
}

// Frames of the real window are measured when TRUEMAT_BENCH is set: forty
// pieces at 1920×1080, one of which is dragged for some seconds by a mouse
// that tells its place 125 times a second.
func TestFramesOfADragInTheRealWindow(t *testing.T) {
	if os.Getenv("TRUEMAT_BENCH") == "" {
		t.Skip("TRUEMAT_BENCH is not set; it takes a machine that does nothing else")
	}
	r := newRealOf(t, "1920x1080")
	doc := r.byCommand()
	doc.Source.Sizes = doc.Source.Sizes[:1]
	p := &doc.Source.Sizes[0].Pattern
	pieces := p.Pieces
	p.Pieces, p.Seams, p.Lines = nil, nil, nil
	for i := range 40 {
		pc := pieces[i%len(pieces)].Clone()
		pc.Name = fmt.Sprint("piece ", i)
		pc.Pose = geom.Shift(geom.Pt(float64(i%8)*230, -float64(i/8)*230).Sub(pc.Edges[0].Path.Start()))
		for k := range pc.Edges {
			if pc.Edges[k].Role != pattern.Fold {
				pc.Edges[k].Role = pattern.Neckline // wants no partner, of which there is none
			}
		}
		p.Pieces = append(p.Pieces, pc)
	}
	path := r.path("forty.truemat")
	require.NoError(t, store.Save(path, doc))
	log := r.path("frames")
	t.Setenv(window.FramesVariable, log)

	begun := time.Now()
	r.start(path)
	first := painted(t, log, "base")
	require.NotEmpty(t, first)
	t.Logf("first frame after %v", first[0].Sub(begun).Round(time.Millisecond))

	id, err := r.try("search", "--onlyvisible", "--name", "Truemat")
	require.NoError(t, err)
	r.do("windowsize", "--sync", strings.Fields(id)[0], "1918", "1050", "windowmove", strings.Fields(id)[0], "0", "20")
	time.Sleep(time.Second)

	const rest = 5 * time.Second
	before := ticks(t, r.cmd.Process.Pid)
	time.Sleep(rest)
	t.Logf("idle: %.1f %% of a core", float64(ticks(t, r.cmd.Process.Pid)-before)/rest.Seconds())

	xgb.Logger.SetOutput(io.Discard)
	x, err := xgb.NewConnDisplay(r.display)
	require.NoError(t, err)
	defer x.Close()
	require.NoError(t, xtest.Init(x))
	root := xproto.Setup(x).DefaultScreen(x).Root
	fake := func(kind, detail byte, at geom.Point) {
		xtest.FakeInput(x, kind, detail, 0, root, int16(at.X), int16(at.Y), 0)
	}
	at := r.middleOf(p.Pieces[20])
	fake(xproto.MotionNotify, 0, at)
	time.Sleep(300 * time.Millisecond)
	fake(xproto.ButtonPress, 1, at)
	const seconds, rate = 6, 125
	start, used := time.Now(), ticks(t, r.cmd.Process.Pid)
	beat := time.NewTicker(time.Second / rate)
	defer beat.Stop()
	for i := range seconds * rate {
		<-beat.C
		a := float64(i) / rate * 2
		fake(xproto.MotionNotify, 0, at.Add(geom.Pt(150*(1-math.Cos(a)), 150*math.Sin(a)))) // never at rest
	}
	end := time.Now()
	used = ticks(t, r.cmd.Process.Pid) - used
	fake(xproto.ButtonRelease, 1, at)
	time.Sleep(time.Second)

	// where the piece snaps to another it lies still, and its layer is not
	// painted again: the frames are those in which the pointer was shown
	var moved int
	for _, f := range painted(t, log, "moving") {
		if f.After(start.Add(time.Second/2)) && f.Before(end) {
			moved++
		}
	}
	var gaps []time.Duration
	var last time.Time
	for _, f := range painted(t, log, "shown") {
		if f.After(start.Add(time.Second/2)) && f.Before(end) {
			if !last.IsZero() {
				gaps = append(gaps, f.Sub(last))
			}
			last = f
		}
	}
	if len(gaps) == 0 {
		r.keep()
	}
	require.Greater(t, moved, len(gaps)/2, "the piece moves")
	var all time.Duration
	for _, g := range gaps {
		all += g
	}
	slices.Sort(gaps)
	t.Logf("%d frames, in %d of which the piece moved, %.1f a second; time of a frame: least %v, median %v, of 95 in 100 under %v, most %v",
		len(gaps), moved, float64(len(gaps))/all.Seconds(), gaps[0], gaps[len(gaps)/2], gaps[len(gaps)*95/100], gaps[len(gaps)-1])
	t.Logf("processor time of a frame: %.1f ms", float64(used)*10/end.Sub(start).Seconds()*all.Seconds()/float64(len(gaps)))
}

// middleOf finds a piece that lies on the mat by where all of the paper is seen.
func (r *real) middleOf(pc pattern.Piece) geom.Point {
	r.t.Helper()
	d, err := store.Load(r.path("forty.truemat"))
	require.NoError(r.t, err)
	box := geom.NoBox()
	for _, p := range d.Source.Sizes[0].Pattern.Pieces {
		for _, e := range p.Edges {
			box = box.Union(e.Path.Transform(p.Pose).Bounds())
		}
	}
	img, ok := r.look()
	require.True(r.t, ok)
	seen := extentIn(img, image.Rect(30, 80, img.Bounds().Dx()-340, img.Bounds().Dy()-190), mat.Light().Paper)
	k := float64(seen.Dx()) / box.Width()
	mid := box.Center()
	own := geom.NoBox()
	for _, e := range pc.Edges {
		own = own.Union(e.Path.Transform(pc.Pose).Bounds())
	}
	c := own.Center()
	return geom.Pt(float64(seen.Min.X+seen.Max.X)/2+(c.X-mid.X)*k, float64(seen.Min.Y+seen.Max.Y)/2-(c.Y-mid.Y)*k)
}
