package window

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/cloth"
	"truemat/ops/unit"
)

const (
	topName  = 190 // width of the name of a seam
	topClass = 232
	topAway  = 1.5 // mm from the seam, where nothing was said
)

// notTopstitched is what is picked for a seam that is not topstitched.
const notTopstitched = "not topstitched"

// topstitching says of each seam whether it is stitched once more from the
// right side, with which stitch and how far from the seam.
func (w *Window) topstitching(letters map[string]string) fyne.CanvasObject {
	g := w.desk.Goods()
	box := container.New(stack{gap: 4})
	options := []string{notTopstitched}
	for _, s := range cloth.Stitches() {
		options = append(options, s.Class+" "+s.Name)
	}
	for _, seam := range w.desk.Pattern().Seams {
		t, has := g.Topstitched(seam.Name)
		now := notTopstitched
		for _, o := range options {
			if has && strings.HasPrefix(o, t.Class+" ") {
				now = o
			}
		}
		if has && now == notTopstitched {
			now = t.Class // of her own, with its ratio
			options = append(options, now)
		}
		class := newChoice(slices.Clone(options), now, func(said string) {
			if said == notTopstitched {
				w.topstitch(seam.Name, nil)
				return
			}
			next := t
			if !has {
				next.Away = topAway
			}
			next.Seam = seam.Name
			if next.Class, _, _ = strings.Cut(said, " "); next.Class != t.Class {
				next.Ratio = 0
			}
			w.topstitch(seam.Name, &next)
		})
		class.wide, class.name = topClass, "topstitch "+seam.Name
		row := container.New(line{gap: 8}, container.New(atWidth{topName}, text(shortened(strings.TrimSpace(letters[seam.Name]+"  "+seam.Name), topName-8, normal), normal, true, w.palette.Text)), class)
		if has {
			length := func(label, name string, value float64, set func(*cloth.Topstitch, float64)) {
				e := newEntry(unit.Format(value, w.unit), 84, func(said string, changed bool) {
					w.readTopstitch(said, changed, w.read, t, set)
				}, w.backOut)
				w.counting(e)
				e.name = "topstitch " + seam.Name + " " + name
				row.Add(text(label, normal, false, w.palette.Faint))
				row.Add(e)
			}
			length("from the seam", "away", t.Away, func(t *cloth.Topstitch, mm float64) { t.Away = mm })
			rows := newEntry(fmt.Sprint(max(t.Rows, 1)), 48, func(said string, changed bool) {
				w.readTopstitch(said, changed, func(said string) (float64, error) {
					n, err := strconv.Atoi(strings.TrimSpace(said))
					if err != nil || n < 1 {
						return 0, fmt.Errorf("%q is no number of rows; give 1 or more", said)
					}
					return float64(n), nil
				}, t, func(t *cloth.Topstitch, n float64) {
					if t.Rows = int(n); t.Rows > 1 && t.Between == 0 {
						t.Between = 3
					} else if t.Rows <= 1 {
						t.Between = 0
					}
				})
			}, w.backOut)
			rows.name = "topstitch " + seam.Name + " rows"
			row.Add(text("rows", normal, false, w.palette.Faint))
			row.Add(rows)
			if t.Rows > 1 {
				length("apart", "between", t.Between, func(t *cloth.Topstitch, mm float64) { t.Between = mm })
			}
		}
		box.Add(row)
	}
	return box
}

// readTopstitch takes a number of a topstitching, as one change.
func (w *Window) readTopstitch(said string, changed bool, read func(string) (float64, error), t cloth.Topstitch, set func(*cloth.Topstitch, float64)) {
	if !changed {
		return
	}
	v, err := read(said)
	if err != nil {
		w.cloths.say(err)
		return
	}
	set(&t, v)
	w.topstitch(t.Seam, &t)
}

// topstitch keeps how a seam is topstitched, or with nil that it is not.
func (w *Window) topstitch(seam string, t *cloth.Topstitch) {
	g := w.desk.Goods()
	i := slices.IndexFunc(g.Topstitch, func(o cloth.Topstitch) bool { return o.Seam == seam })
	g.Topstitch = slices.Clone(g.Topstitch)
	switch {
	case t == nil && i >= 0:
		g.Topstitch = slices.Delete(g.Topstitch, i, i+1)
	case t != nil && i >= 0:
		g.Topstitch[i] = *t
	case t != nil:
		g.Topstitch = append(g.Topstitch, *t)
	}
	if len(g.Topstitch) == 0 {
		g.Topstitch = nil
	}
	err := w.desk.SetGoods(g)
	w.cloths.say(err)
}
