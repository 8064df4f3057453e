package main

import (
	"os"
	"os/exec"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"truemat/app/desk"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/store"
)

func (r *real) shot(name string) {
	time.Sleep(400 * time.Millisecond)
	cmd := exec.Command("import", "-window", "root", "-silent", "/tmp/lshots/"+name+".png")
	cmd.Env = r.env()
	_ = cmd.Run()
}

// firstStart starts the program as one who never did, and keeps the Tern it
// shows on disk.
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
	r.calibrate()
}

func TestFirstLessonByHand(t *testing.T) {
	os.MkdirAll("/tmp/lshots", 0o755)
	r := newReal(t)
	r.firstStart()
	r.shot("a0")
	pin := pattern.AtEnd("cradle", "bridge seam", pattern.Start)
	corner := pattern.AtEnd("cradle", "hem", pattern.End)

	r.take("h", "hand")
	from, to := r.at(pin), r.at(pattern.AtEnd("bridge", "cradle seam", pattern.End))
	r.hold(from)
	r.drag(from, to)
	r.shot("a1-drag")
	r.letGo(to)
	r.accepted()
	r.shot("a1-done")

	r.take("i", "pin")
	r.press(r.at(pin))
	r.shot("a2-pin")
	from = r.at(corner)
	r.hold(from)
	at := from
	for _, deg := range []float64{-2, -5, -8.1} {
		next := geom.Turn(geom.Angle(deg)*geom.Degree, r.at(pin)).Apply(from)
		r.drag(at, next)
		at = next
	}
	r.shot("a2-turning")
	r.letGo(at)
	r.shot("a2-letgo")
	r.accept()
	r.shot("a2-done")

	r.take("t", "tape")
	r.shot("a3-tape")
	r.press(r.along("bridge", "cradle seam", 0.1))
	r.shot("a3-one")
	r.press(r.along("cradle", "bridge seam", 0.5))
	r.shot("a3-two")
	r.accept()
	r.shot("a3-done")
	f := "frame"
	r.take("r", "ruler")
	a, b := r.along(f, "hem", 0), r.along(f, "hem", 1)
	r.hold(a)
	r.drag(a, b)
	r.letGo(b)
	r.shot("a4-ruled")
	r.accept()
	r.shot("a4-done")
	_, wire := r.desk.Pattern().Edge(f, "wire")
	kinks := wire.Path.Corners(pattern.SmoothTurn)
	r.take("s", "smooth")
	r.press(r.along(f, "wire", kinks[0]/wire.Length()))
	r.shot("a5-smooth")
	r.accept()
	r.shot("a5-done")
	r.take("a", "add")
	r.shot("a6-add")
	var label string
	for _, fl := range r.tool.Fields() {
		if fl.Name == "share" {
			label = fl.Options[1]
		}
	}
	r.pick("share", label)
	r.shot("a6-share")
	r.press(r.along(f, "side seam", 0.1))
	r.press(r.along("band", "side seam", 0.9))
	r.shot("a6-both")
	r.accept()
	r.shot("a6-done")
	r.take("k", "chalk")
	r.press(r.along(f, "hem", 0.7).Add(geom.Pt(0, 15)))
	r.shot("a7-one")
	r.do("keydown", "shift")
	r.press(r.along("band", "hem", 0.5).Add(geom.Pt(0, 15)))
	r.do("keyup", "shift")
	r.shot("a7-both")
	r.key("Return")
	r.shot("a7-done")
}
