package main

import (
	"image"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/app/desk"
	"truemat/app/lesson"
	"truemat/app/look"
	"truemat/app/mat"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/store"
	"truemat/ops/walk"
)

// firstStart starts the program as one who never did, and keeps the Tern that
// it shows on disk.
func (r *real) firstStart() {
	r.t.Helper()
	run, err := demo.Tern()
	require.NoError(r.t, err)
	r.desk, err = desk.New(store.Document{Source: run}, "")
	require.NoError(r.t, err)
	r.start()
	r.key("ctrl+shift+s")
	r.name("lesson.truemat")
	r.doc = r.path("lesson.truemat")
	r.until("it is saved", func() bool { _, err := store.Load(r.doc); return err == nil })
	r.until("the page is gone", func() bool {
		img, ok := r.look()
		return ok && !extent(img, mat.Light().Paper).Empty()
	})
	r.calibrate()
}

// follow does the acts of a lesson in their order, each at the places that the
// lesson shows, and sees that it goes on to the next one.
func (r *real) follow(l lesson.Lesson, acts []func(at []geom.Point)) {
	r.t.Helper()
	w := lesson.Follow(r.desk, l)
	require.Len(r.t, acts, len(l.Steps))
	for i, do := range acts {
		a, more := w.Current()
		require.True(r.t, more)
		letters := map[string]string{"hand": "h", "pin": "i", "tape": "t", "ruler": "r", "smooth": "s", "add": "a", "chalk": "k", "shears": "e", "walk": "c"}
		r.take(letters[a.Tool], a.Tool)
		do(a.Where(r.desk.Pattern()))
		done, _ := w.Progress()
		require.Equal(r.t, i+1, done, a.Title)
	}
}

// drawn holds one place and drags it by others, and lets go at the last.
func (r *real) drawn(at ...geom.Point) {
	r.t.Helper()
	r.hold(at[0])
	for i := range at[1:] {
		r.drag(at[i], at[i+1])
	}
	r.letGo(at[len(at)-1])
}

// chalked presses one piece, and another with Shift.
func (r *real) chalked(at []geom.Point) {
	r.t.Helper()
	r.press(at[0])
	r.move(at[1])
	r.do("keydown", "shift")
	r.do("click", "1")
	r.do("keyup", "shift")
	for _, act := range []tool.Act{tool.Press, tool.Release} {
		r.tool.Pointer(tool.Event{Act: act, At: at[1], Reach: 8 / r.scale, Shift: true})
	}
	r.accept()
}

// Both lessons are done by mouse as one who reads nothing else, the second by
// what the first one leads to; then no check is broken in any size.
func TestLessonsAreDoneAtThePlacesTheyShow(t *testing.T) {
	r := newReal(t)
	r.firstStart()
	r.follow(lesson.First(), []func([]geom.Point){
		func(at []geom.Point) { r.drawn(at[0], at[1]); r.accepted() },
		func(at []geom.Point) {
			r.press(at[0])
			turned := func(deg geom.Angle) geom.Point { return geom.Turn(deg*geom.Degree, at[0]).Apply(at[1]) }
			r.drawn(at[1], turned(-2), turned(-5), turned(-8.5))
			r.accept()
		},
		func(at []geom.Point) { r.press(at[0]); r.press(at[1]); r.accept() },
		func(at []geom.Point) {
			r.drawn(at[0], at[1])
			r.pick("role", pattern.LaceEdge.Word())
			r.accept()
		},
		func(at []geom.Point) { r.press(at[0]); r.accept() },
		func(at []geom.Point) {
			for _, f := range r.tool.Fields() {
				if f.Name == "share" {
					r.pick("share", f.Options[1])
				}
			}
			r.press(at[0])
			r.press(at[1])
			r.accept()
		},
		r.chalked,
	})
	require.NotNil(t, r.desk.Pattern().Piece("frame"), "the joined piece has a name of its own")

	r.next()
	const inner, seam = "inner cup", "vertical seam"
	r.follow(lesson.Second(), []func([]geom.Point){
		func(at []geom.Point) {
			r.press(at[0])
			r.press(at[1])
			r.pick("role", pattern.LaceEdge.Word())
			r.accept()
		},
		func(at []geom.Point) {
			r.press(at[0])
			wk, err := walk.Seam(r.desk.Pattern(), seam, walk.Way{})
			require.NoError(t, err)
			p := r.desk.Pattern()
			pose, ok := r.tool.(tool.Layer).Lays()[wk.Base()]
			if !ok {
				pose = p.Piece(wk.Base()).Pose
			}
			end, _ := wk.End()
			on := func(s float64) geom.Point { return pose.Apply(wk.At(s, 1).Point) }
			r.drawn(on(end/2), on(end-10))
			r.choose()
			r.accept()
		},
		r.chalked,
	})
	for _, size := range r.desk.Document().Source.Labels() {
		require.NoError(t, r.desk.SetSize(size))
		for _, c := range r.desk.Checks() {
			require.NotEqual(t, check.Broken, c.Verdict, "%s: %s", size, c.Text)
		}
	}
}

// next presses the first link of the column, which leads to the next lesson.
func (r *real) next() {
	r.t.Helper()
	img, ok := r.look()
	require.True(r.t, ok)
	for y := 60; y < 400; y++ {
		if line := extentIn(img, image.Rect(990, y, 1100, y+1), look.Light.Accent); !line.Empty() {
			r.do("mousemove", "1040", strconv.Itoa(y+6))
			r.do("click", "1")
			return
		}
	}
}
