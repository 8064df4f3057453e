package window

import (
	"maps"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"truemat/app/mat"
	"truemat/app/tool"
	"truemat/ops/pattern"
)

// play lets the tool in the hand go on by itself, a picture at a time, for as
// long as it says that it plays; then nothing is left running.
func (w *Window) play() {
	p, ok := w.tool().(tool.Player)
	if !ok || !p.Playing() || w.rolling {
		return
	}
	w.rolling = true
	last := time.Now()
	var next func()
	next = func() {
		time.AfterFunc(w.pace(frame), func() {
			fyne.Do(func() {
				now, ok := w.tool().(tool.Player)
				if !ok || now != p || !p.Playing() {
					w.rolling = false
					return
				}
				p.Tick(time.Since(last).Seconds())
				last = time.Now()
				w.show()
				next()
			})
		})
	}
	next()
}

// layElsewhere shows pieces where the tool lays them for now, their places on
// the mat faintly.
func (w *Window) layElsewhere(v *mat.View) {
	l, ok := w.tool().(tool.Layer)
	if !ok || w.rehearsal != nil {
		return
	}
	poses := l.Lays()
	if len(poses) == 0 {
		return
	}
	v.Pieces, v.Ghost, v.Preview = slices.Clone(v.Pieces), slices.Clone(v.Ghost), maps.Clone(v.Preview)
	if v.Preview == nil {
		v.Preview = map[string]bool{}
	}
	for i, pc := range v.Pieces {
		pose, elsewhere := poses[pc.Name]
		if !elsewhere {
			continue
		}
		if !slices.ContainsFunc(v.Ghost, func(g pattern.Piece) bool { return g.Name == pc.Name }) {
			v.Ghost = append(v.Ghost, pc)
		}
		v.Pieces[i].Pose, v.Preview[pc.Name] = pose, true
	}
}
