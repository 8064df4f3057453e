package tool

import (
	"cmp"
	"fmt"
	"slices"

	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
	"truemat/ops/walk"
)

// walkPage is the kind of fields that are shown: they are too many for one row.
type walkPage string

// The kinds of fields, of which the first is shown at first.
const (
	pageNotches walkPage = "the notches"
	pageEase    walkPage = "the ease"
	pageWay     walkPage = "the way"
)

var walkPages = []string{string(pageNotches), string(pageEase), string(pageWay)}

// Choices of the fields.
const (
	rolledByHand  = "as I drag it"
	rollsByItself = "by itself"
	dropChoose    = "choose where"
	wholeSeam     = "all of it"
	spreadNone    = "as the notches lie"
	noSeam        = "two edges"
)

// Fields are the walked length and those of the page that is shown.
func (w *Walk) Fields() []Field {
	if !w.chosen() {
		return []Field{{Name: "seam", Label: "Seam", Text: noSeam, Options: w.seams()}}
	}
	page := Field{Name: "page", Label: "Settings of", Text: string(w.page), Options: walkPages, Turns: true}
	if page.Text == "" {
		page.Text = walkPages[0]
	}
	wk, err := w.walked()
	if err != nil {
		page.Text = string(pageWay)
		out := []Field{w.seamField()}
		if w.what.next != nil {
			out = append(out, w.sewField())
		}
		return append(out, page)
	}
	c := wk.At(w.s, w.piv)
	out := []Field{{Name: "walked", Label: "Walked on " + sideLabel(wk, walk.A), Text: written(w.table, c.A)}}
	end, _ := wk.End()
	switch w.page {
	case pageEase:
		out = append(out, w.easeFields(wk)...)
	case pageWay:
		out = append(out, w.wayFields(wk)...)
	default:
		out = append(out, Field{Name: "left", Label: "Left to the end", Text: written(w.table, end-c.A)})
		out = append(out, w.dropFields(wk)...)
	}
	return append(out, page)
}

func (w *Walk) dropFields(wk *walk.Walk) []Field {
	still := Field{Name: "play", Label: "Roll " + sideLabel(wk, wk.Rolls()), Text: rolledByHand, Options: []string{rolledByHand, rollsByItself}}
	if w.play.on {
		still.Text = rollsByItself
	}
	drop := Field{Name: "drop", Label: "Drop a notch", Text: dropChoose, Options: []string{dropChoose}}
	for _, o := range w.offers(wk) {
		drop.Options = append(drop.Options, o.label)
	}
	out := append([]Field{still, drop}, w.holdField(wk)...)
	if n := len(w.drops); n > 0 && !w.drops[n-1].drops[0].All {
		d := w.drops[n-1].drops[0]
		name := d.Name
		if name == "" && d.Spot != nil {
			name = d.Spot.Notch
		}
		out = append(out,
			Field{Name: "name", Label: "It is called", Text: name},
			Field{Name: "kind", Label: "It is", Text: w.cut(d), Options: []string{singleNotch, doubleNotch}})
	}
	return out
}

// cut says how a dropped notch is cut.
func (w *Walk) cut(d step.Drop) string {
	if d.Cut != "" {
		return d.Cut
	}
	if d.Spot != nil && d.Spot.Notch != "" {
		if pc := w.pattern().Piece(d.Spot.Piece); pc != nil {
			if n := pc.Notch(d.Spot.Notch); n != nil && n.Double {
				return doubleNotch
			}
		}
	}
	return singleNotch
}

// stretches are what ease can be stated or spread for: the whole, and from
// each pair of notches to the next.
func (w *Walk) stretches() (labels []string, bounds []*step.Between) {
	labels, bounds = []string{wholeSeam}, []*step.Between{nil}
	s := w.pattern().Seam(w.what.seam)
	if s == nil {
		return labels, bounds
	}
	plain := *s
	plain.Ease, plain.Stretches = 0, nil
	wk, err := walk.New(w.pattern(), plain, walk.Way{})
	if err != nil || len(wk.Pairs) == 0 {
		return labels, bounds
	}
	last := pattern.NotchName{}
	for i := 0; i <= len(wk.Pairs); i++ {
		to := pattern.NotchName{}
		if i < len(wk.Pairs) {
			n := wk.Pairs[i].NotchA
			to = pattern.NotchName{Piece: n.Piece, Notch: n.Notch.Name}
		}
		labels = append(labels, cmp.Or(last.Notch, "start")+" to "+cmp.Or(to.Notch, "end"))
		bounds = append(bounds, &step.Between{From: last, To: to})
		last = to
	}
	return labels, bounds
}

func (w *Walk) easeFields(wk *walk.Walk) []Field {
	labels, bounds := w.stretches()
	at := 0
	for i, b := range bounds {
		if b != nil && w.bound != nil && *b == *w.bound {
			at = i
		}
	}
	even := Field{Name: "spread", Label: "Spread it evenly", Text: spreadNone, Options: []string{spreadNone}}
	for _, h := range []walk.Hand{walk.A, walk.B} {
		even.Options = append(even.Options, "moving those of "+sideLabel(wk, h))
		if w.even == h {
			even.Text = even.Options[len(even.Options)-1]
		}
	}
	out := []Field{{Name: "between", Label: "Ease from", Text: labels[at], Options: labels}}
	if w.what.seam != "" {
		label := fmt.Sprintf("Ease, %s longer by", sideLabel(wk, walk.A))
		out = append(out, Field{Name: "ease", Label: label, Text: written(w.table, w.easeThere())})
	}
	return append(out, even)
}

// easeThere is the ease stated for the stretch that is chosen.
func (w *Walk) easeThere() float64 {
	if w.ease != nil {
		return *w.ease
	}
	p := w.pattern()
	s := p.Seam(w.what.seam)
	if s == nil || w.bound == nil {
		if s == nil {
			return 0
		}
		return s.Ease
	}
	lo, hi, err := p.StretchOn(*s, pattern.Stretch{From: w.bound.From, To: w.bound.To})
	if err != nil {
		return 0
	}
	sp := p.Spread(*s)
	return sp.EaseTo(hi) - sp.EaseTo(lo)
}

func (w *Walk) seams() []string {
	out := []string{noSeam}
	for _, s := range w.pattern().Seams {
		out = append(out, s.Name)
	}
	return out
}

func (w *Walk) seamField() Field {
	return Field{Name: "seam", Label: "Seam", Text: cmp.Or(w.what.seam, noSeam), Options: w.seams()}
}

// starts are where the walk can start: the ends, and the notches of both sides
// that belong together, on from there and back.
func (w *Walk) starts() (labels []string, starts []walkStart) {
	labels = []string{"the start", "the end"}
	starts = []walkStart{{}, {from: pattern.End}}
	p := w.pattern()
	s := pattern.Seam{}
	if old := p.Seam(w.what.seam); old != nil {
		s = *old
		s.Ease, s.Stretches = 0, nil
	} else if w.what.next != nil {
		s = w.own()
	}
	wk, err := walk.New(p, s, walk.Way{})
	if err != nil {
		return labels, starts
	}
	for _, pr := range wk.Pairs {
		a, b := pattern.AtNotch(pr.NotchA.Piece, pr.NotchA.Notch.Name), pattern.AtNotch(pr.NotchB.Piece, pr.NotchB.Notch.Name)
		name := pattern.NotchWords(pr.NotchA.Notch.Name)
		labels = append(labels, name, name+", back")
		starts = append(starts, walkStart{"", &a, &b}, walkStart{pattern.End, &a, &b})
	}
	return labels, starts
}

func (s walkStart) same(o walkStart) bool {
	return s.from == o.from && sameSpot(s.a, o.a) && sameSpot(s.b, o.b)
}

func sameSpot(a, b *pattern.Spot) bool {
	return a == nil && b == nil || a != nil && b != nil && *a == *b
}

func (w *Walk) wayFields(wk *walk.Walk) []Field {
	labels, starts := w.starts()
	start := Field{Name: "start", Label: "Walk from", Text: labels[0], Options: labels}
	for i, s := range starts {
		if s.same(w.what.start) {
			start.Text = labels[i]
		}
	}
	rolls := Field{Name: "rolls", Label: "Rolls", Options: []string{sideLabel(wk, walk.A), sideLabel(wk, walk.B)}}
	rolls.Text = sideLabel(wk, wk.Rolls())
	out := []Field{w.seamField(), start, rolls}
	if w.what.seam == "" {
		out = append(out, w.sewField())
	}
	return out
}

func (w *Walk) sewField() Field {
	return Field{Name: "sew", Label: "Sew them together as", Text: w.sewn}
}

// Set takes the seam, a walked length, where notches are dropped, their name
// and cut, the ease and how it is spread, and how the seam is walked.
func (w *Walk) Set(field, text string) error {
	if field == "seam" {
		return w.setSeam(text)
	}
	wk, err := w.walked()
	switch {
	case w.chosen() && w.what.next != nil && field == "sew":
		return w.setSewn(text)
	case !w.chosen() || err != nil && field != "page":
		return unknownField("the walk", field)
	}
	switch field {
	case "page":
		o, err := picked(text, walkPages)
		if err == nil {
			w.page = walkPage(o)
		}
		return err
	case "walked":
		v, err := typedLength(w.table, text)
		if err != nil {
			return err
		}
		if end, _ := wk.End(); !(v >= 0 && v <= end+samePlace) {
			return fmt.Errorf("%s lies beyond the end of the walk, which is %s long on %s", unit.MM(v), unit.MM(end), sideLabel(wk, walk.A))
		}
		w.play.on = false
		w.to(wk, v)
		w.holds = holdStart
		return nil
	case "left":
		v, err := typedLength(w.table, text)
		if err != nil {
			return err
		}
		end, _ := wk.End()
		if !(v >= 0 && v <= end+samePlace) {
			return fmt.Errorf("%s lies before the start of the walk, which is %s long on %s", unit.MM(v), unit.MM(end), sideLabel(wk, walk.A))
		}
		w.play.on = false
		w.to(wk, end-v)
		w.holds = holdEnd
		return nil
	case "hold":
		return w.setHold(wk, text)
	case "play":
		o, err := picked(text, []string{rolledByHand, rollsByItself})
		if err == nil {
			w.setPlay(wk, o == rollsByItself)
		}
		return err
	case "drop":
		return w.setDrop(wk, text)
	case "name", "kind":
		n := len(w.drops)
		if n == 0 || w.drops[n-1].drops[0].All {
			return unknownField("the walk", field)
		}
		if field == "name" {
			return w.rename(wk, text)
		}
		o, err := picked(text, []string{singleNotch, doubleNotch})
		if err == nil {
			for i := range w.drops[n-1].drops {
				w.drops[n-1].drops[i].Cut = o
			}
		}
		return err
	}
	return w.setWay(wk, field, text)
}

func (w *Walk) setSeam(text string) error {
	o, err := picked(text, w.seams())
	if err != nil {
		return err
	}
	if o == noSeam {
		w.forget()
		return nil
	}
	w.takeSeam(o)
	return nil
}

func (w *Walk) setDrop(wk *walk.Walk, text string) error {
	offers := w.offers(wk)
	labels := []string{dropChoose}
	for _, o := range offers {
		labels = append(labels, o.label)
	}
	o, err := picked(text, labels)
	if i := slices.Index(labels, o); err == nil && i > 0 {
		w.let(wk, offers[i-1])
	}
	return err
}

// setWay takes the fields of ease and of the way.
func (w *Walk) setWay(wk *walk.Walk, field, text string) error {
	switch field {
	case "between":
		labels, bounds := w.stretches()
		o, err := picked(text, labels)
		if err == nil {
			w.bound, w.ease = bounds[slices.Index(labels, o)], nil
		}
		return err
	case "ease":
		if w.what.seam == "" {
			return fmt.Errorf("ease is stated for a seam; sew the two edges together first")
		}
		v, err := typedLength(w.table, text)
		if err != nil {
			return err
		}
		was := w.ease
		w.ease = &v
		if _, err := w.table.Try(w.easeSteps()...); err != nil {
			w.ease = was
			return err
		}
		return nil
	case "spread":
		labels := []string{spreadNone, "moving those of " + sideLabel(wk, walk.A), "moving those of " + sideLabel(wk, walk.B)}
		o, err := picked(text, labels)
		if err == nil {
			w.even = []walk.Hand{"", walk.A, walk.B}[slices.Index(labels, o)]
		}
		return err
	case "start":
		labels, starts := w.starts()
		o, err := picked(text, labels)
		if err == nil {
			w.what.start = starts[slices.Index(labels, o)]
			w.start()
		}
		return err
	case "rolls":
		o, err := picked(text, []string{sideLabel(wk, walk.A), sideLabel(wk, walk.B)})
		if err == nil {
			w.what.rolls, w.laid = walk.A, nil
			if o == sideLabel(wk, walk.B) {
				w.what.rolls = walk.B
			}
		}
		return err
	}
	return unknownField("the walk", field)
}
