package window

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"truemat/app/lesson"
	"truemat/app/mat"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
	"truemat/ops/walk"
)

// still watches that the mat is not moved while work is done on it, and that
// nothing which is worked on is covered.
type still struct {
	t *testing.T
	*Window
	view mat.Camera
}

func watch(t *testing.T, w *Window) *still {
	w.mat.Fit()
	s := &still{t, w, w.mat.Camera()}
	w.mat.OnCamera = func(mat.Camera) { require.Fail(t, "the mat was moved") }
	return s
}

func (s *still) look(what string) {
	s.t.Helper()
	s.show()
	require.Equal(s.t, s.view, s.mat.Camera(), what)
	free := s.mat.Size().Height - s.prompt.extra()
	for _, d := range s.tool().Overlay().Dots {
		require.Less(s.t, s.mat.Camera().ToScreen(d.At).Y, free, "%s: a place is covered", what)
	}
	if s.prompt.extra() > s.prompt.spare() {
		return
	}
	for _, pc := range s.desk.Pattern().Pieces {
		for _, e := range pc.Edges {
			low := s.mat.Camera().ToScreen(e.Path.Transform(pc.Pose).Bounds().Min).Y
			require.Less(s.t, low, free, "%s: %s is covered", what, pc.Name)
		}
	}
}

func (s *still) take(name string) {
	s.t.Helper()
	require.NoError(s.t, (&sitting{Window: s.Window}).take(name))
	s.look(name)
}

func (s *still) point(act tool.Act, at geom.Point, shift bool) {
	s.t.Helper()
	s.pointer(tool.Event{Act: act, At: at, Reach: 3, Shift: shift})
	s.look(s.tool().Name())
}

func (s *still) press(at ...geom.Point) {
	s.t.Helper()
	for i, q := range at {
		s.point(tool.Press, q, i > 0 && s.tool().Name() == "chalk")
		s.point(tool.Release, q, false)
	}
}

func (s *still) drag(at ...geom.Point) {
	s.t.Helper()
	s.point(tool.Press, at[0], false)
	for _, q := range at[1:] {
		s.point(tool.Drag, q, false)
	}
	s.point(tool.Release, at[len(at)-1], false)
}

func (s *still) pick(field, option string) {
	s.t.Helper()
	s.prompt.set(field, option)
	require.Nil(s.t, s.prompt.said)
	s.look(field)
}

func (s *still) agree() {
	s.t.Helper()
	s.accept()
	require.Nil(s.t, s.prompt.said)
	s.look("accepted")
}

// The acts of both lessons, by hand: the mat stays where it is under the hand,
// however many fields and lines come and go below it.
func TestTheMatStaysStillThroughTheLessons(t *testing.T) {
	acts := [][]func(*still, []geom.Point){{
		func(s *still, at []geom.Point) { s.drag(at[0], at[0].Lerp(at[1], 0.5), at[1]) },
		func(s *still, at []geom.Point) {
			s.press(at[0])
			down := func(deg geom.Angle) geom.Point { return geom.Turn(-deg*geom.Degree, at[0]).Apply(at[1]) }
			s.drag(at[1], down(2), down(5), down(8.5))
			s.agree()
		},
		func(s *still, at []geom.Point) { s.press(at...); s.agree() },
		func(s *still, at []geom.Point) { s.drag(at...); s.pick("role", "lace edge"); s.agree() },
		func(s *still, at []geom.Point) { s.press(at...); s.agree() },
		func(s *still, at []geom.Point) {
			for _, f := range s.tool().Fields() {
				if f.Name == "share" {
					s.pick("share", f.Options[1])
				}
			}
			s.press(at...)
			s.agree()
		},
		func(s *still, at []geom.Point) { s.press(at...); s.agree() },
	}, {
		func(s *still, at []geom.Point) { s.press(at...); s.pick("role", "lace edge"); s.agree() },
		func(s *still, at []geom.Point) {
			s.press(at...)
			wk, err := walk.Seam(s.desk.Pattern(), "vertical seam", walk.Way{})
			require.NoError(t, err)
			end, _ := wk.End()
			for _, mm := range []float64{30, end / 2, end - 10} {
				s.pick("walked", unit.Format(mm, unit.Millimetres))
			}
			s.key(&fyne.KeyEvent{Name: fyne.KeySpace})
			s.look("notch dropped")
			s.agree()
		},
		func(s *still, at []geom.Point) { s.press(at...); s.agree() },
	}}
	for _, size := range []fyne.Size{{Width: 1280, Height: 800}, {Width: 960, Height: 540}} {
		w := open(t, false)
		w.win.Resize(size)
		s := watch(t, w)
		for i, l := range lesson.Lessons() {
			w.startOn(l)
			s.look("begun")
			for n, do := range acts[i] {
				act, more := w.lesson.Current()
				require.True(t, more)
				s.take(act.Tool)
				do(s, act.Where(w.desk.Pattern()))
				done, _ := w.lesson.Progress()
				require.Equal(t, n+1, done, act.Title)
			}
		}
	}
}

// Spreading to a dart asks most.
func TestTheMatStaysStillWhileADartIsSpread(t *testing.T) {
	s := watch(t, open(t, false))
	const piece = "lower outer cup"
	at, err := (&sitting{Window: s.Window}).spots(along(piece, "wire", 0.5), pattern.AtEnd(piece, "cross seam", pattern.End))
	require.NoError(t, err)
	s.take("spread")
	s.press(at...)
	s.drag(at[0], geom.Turn(3*geom.Degree, at[1]).Apply(at[0]), geom.Turn(6*geom.Degree, at[1]).Apply(at[0]))
	for _, f := range s.tool().Fields() {
		if f.Name == "leave" {
			s.pick("leave", "a dart")
		}
	}
	s.agree()
}
