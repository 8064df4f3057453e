package window

import (
	"errors"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/app/desk"
	"truemat/ops/intake"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
	"truemat/ops/unit"
)

// How a plain piece is cut, and where its arrow points.
const (
	cutOnce   = "once"
	cutPair   = "as a pair"
	cutOnFold = "on the fold"

	arrowUp     = "up"
	arrowAcross = "across"
)

var arrowWords = map[string]pattern.ArrowKind{
	"the grain":        pattern.Grain,
	"greatest stretch": pattern.MostStretch,
	"least stretch":    pattern.LeastStretch,
}

// Measures of the form of a plain piece and of the drawing beside it.
const (
	plainWide   = 404
	plainLabel  = 116
	plainField  = 120
	sketchWide  = 300
	sketchTall  = 250
	plainMargin = 74 // beside the piece drawn
	plainRoom   = 54 // above and below it
)

// plainForm is a plain piece while its measures are typed: the first of a
// pattern of one's own, or one more.
type plainForm struct {
	*form
	begins  bool // it is the first of a pattern
	how     string
	shows   string // what the arrow shows, in words
	points  string
	shown   *fyne.Container // the drawing
	summary *fyne.Container
	sheet   *sheet
}

// newPage lets a pattern be begun: with a piece of one's own, with what is in a
// file, or with the Tern.
func (w *Window) newPage() *plainForm {
	f := w.newPlainForm(true)
	ink := w.palette
	width := f.pageWide()
	instead := func(do func()) func() {
		return func() {
			f.sheet.close()
			do()
		}
	}
	f.sheet = w.openSheet("New", width,
		text("Begin with a piece of your own", normal, true, ink.Text),
		f.lay("Begin with it", f.start),
		rule(ink.Line),
		text("Or with what there is", normal, true, ink.Text),
		container.New(line{gap: 8},
			w.button("Bring in a drawing…", false, instead(func() { w.bringFile(true) })),
			w.button("Open a document…", false, instead(w.openFile)),
			w.button("The Tern, our demo bra", false, instead(func() { w.newTern() }))),
		para("Shapes of your own come in as a drawing in SVG, at true size. A drawing or a document can also be dropped on the window.", width, small, false, ink.Faint))
	f.focus()
	return f
}

// plainPage lets one more plain piece be laid on the mat.
func (w *Window) plainPage() *plainForm {
	f := w.newPlainForm(false)
	f.sheet = w.openSheet("Add a plain piece", f.pageWide(),
		para("A strap, a strip, a band: it is laid to the right of the others, as a step that can be edited and taken back. The tools bend, cut and sew its edges like any other.", f.pageWide(), normal, false, w.palette.Faint),
		f.lay("Add it", f.add))
	f.focus()
	return f
}

func (w *Window) newPlainForm(begins bool) *plainForm {
	f := &plainForm{form: newForm(w, plainWide), begins: begins, how: cutOnce, shows: "the grain", points: arrowUp,
		shown: container.New(stack{}), summary: container.New(stack{})}
	f.live = f.look
	f.field("pattern", "My pattern", plainWide-plainLabel)
	f.field("name", w.freePiece(), plainWide-plainLabel)
	f.measure("wide", 0, plainField)
	f.measure("high", 0, plainField)
	f.measure("allowance", 0, plainField).PlaceHolder = "none"
	f.field("count", "1", 60)
	return f
}

// freePiece is a name that no piece has yet.
func (w *Window) freePiece() string {
	for i := 1; ; i++ {
		name := "strip"
		if i > 1 {
			name = fmt.Sprintf("strip %d", i)
		}
		if w.desk.Pattern().Piece(name) == nil {
			return name
		}
	}
}

func (f *plainForm) pageWide() float32 { return plainWide + 24 + sketchWide }

func (f *plainForm) focus() { f.w.win.Canvas().Focus(f.fields["wide"]) }

// lay lays the fields beside their drawing, and below what does it.
func (f *plainForm) lay(act string, do func()) fyne.CanvasObject {
	f.form.begin()
	f.keep = do
	pick := func(options []string, now *string) *choice {
		return newChoice(options, *now, func(s string) { *now = s; f.look() })
	}
	word := func(s string) fyne.CanvasObject { return text(s, normal, false, f.w.palette.Text) }
	rows := []fyne.CanvasObject{}
	if f.begins {
		rows = append(rows, f.row("Pattern", plainLabel, f.fields["pattern"], "pattern"))
	}
	rows = append(rows,
		f.row("Piece", plainLabel, f.fields["name"], "name"),
		f.row("Width", plainLabel, f.fields["wide"], "wide"),
		f.row("Height", plainLabel, f.fields["high"], "high"),
		f.row("Allowance", plainLabel, f.fields["allowance"], "allowance"),
		f.row("Cut", plainLabel, container.New(line{gap: 8}, f.fields["count"], word("×"), pick([]string{cutOnce, cutPair, cutOnFold}, &f.how)), "count"),
		f.row("Arrow", plainLabel, container.New(line{gap: 8}, pick([]string{"the grain", "greatest stretch", "least stretch"}, &f.shows), pick([]string{arrowUp, arrowAcross}, &f.points))),
		f.wrongs)
	f.look()
	return container.New(stack{gap: 12},
		container.New(across{[]float32{plainWide, sketchWide}, 24}, container.New(stack{gap: 8}, rows...), f.shown),
		f.summary,
		container.New(line{}, f.w.button(act, true, do)))
}

// read returns the piece that the fields describe, and what is wrong by field.
func (f *plainForm) read() (pattern.Plain, map[string]error) {
	wrong := map[string]error{}
	r := pattern.Plain{Name: f.said("name"), Fold: f.how == cutOnFold, Arrow: arrowWords[f.shows], Across: f.points == arrowAcross}
	r.Width, r.Height, r.Allowance = f.lengthOr(0, "wide", wrong), f.lengthOr(0, "high", wrong), f.lengthOr(0, "allowance", wrong)
	r.Cut = pattern.Cut{Count: 1, Pair: f.how == cutPair}
	count, err := f.readNumber("count")
	if n := int(count); err != nil || float64(n) != count || n < 1 {
		wrong["count"] = errors.New("how often it is cut is a whole number from 1; two times as a pair are four pieces")
	} else {
		r.Cut.Count = n
	}
	switch {
	case r.Name == "":
		wrong["name"] = errors.New("the piece needs a name")
	case !f.begins && f.w.desk.Pattern().Piece(r.Name) != nil:
		wrong["name"] = errors.New("there is a piece of that name already; give this one another")
	}
	for field, what := range map[string]string{"wide": "width", "high": "height"} {
		if f.said(field) == "" {
			wrong[field] = errors.New("type its " + what + ", along the sew line without the allowance")
		}
	}
	if len(wrong) == 0 {
		if _, err := r.Piece(); err != nil {
			wrong[f.about(r)] = err
		}
	}
	return r, wrong
}

// about is the field that a measure which cannot be stands in.
func (f *plainForm) about(r pattern.Plain) string {
	for _, m := range []struct {
		field string
		mm    float64
	}{{"wide", r.Width}, {"high", r.Height}} {
		if !(m.mm >= pattern.MinPlain && m.mm <= pattern.MaxPlain) {
			return m.field
		}
	}
	if !(r.Allowance >= 0 && r.Allowance <= pattern.MaxAllowance) {
		return "allowance"
	}
	return "name"
}

// complete returns the piece when nothing is wrong; otherwise that is told and
// the first field concerned gets the keys.
func (f *plainForm) complete() (pattern.Plain, bool) {
	r, wrong := f.read()
	f.asked = true
	f.look()
	f.refused(wrong)
	return r, len(wrong) == 0
}

// start makes a pattern of the piece.
func (f *plainForm) start() {
	r, ok := f.complete()
	if !ok {
		return
	}
	pc, err := r.Piece()
	var run pattern.Run
	if err == nil {
		run, err = pattern.Run{Name: f.said("pattern"), Sizes: []pattern.Size{{Label: intake.OneSize, Pattern: pattern.Pattern{Pieces: []pattern.Piece{pc}}}}}.AsSaved()
	}
	var d *desk.Desk
	if err == nil {
		d, err = desk.New(store.Document{Source: run}, "")
	}
	if err != nil {
		f.sheet.say(err)
		return
	}
	f.sheet.close()
	f.w.prompt.say(nil)
	d.Treasure()
	f.w.replace(d)
}

// add lays the piece on the mat as a step.
func (f *plainForm) add() {
	r, ok := f.complete()
	if !ok {
		return
	}
	s := &step.Plain{Name: r.Name, Width: step.Lit(r.Width), Height: step.Lit(r.Height), Allowance: step.Lit(r.Allowance), Fold: r.Fold,
		Pair: r.Cut.Pair, Arrow: r.Arrow, Across: r.Across}
	if r.Cut.Count > 1 {
		s.Count = r.Cut.Count
	}
	since := f.w.since()
	if err := f.w.desk.Accept(s); err != nil {
		f.sheet.say(err)
		return
	}
	f.sheet.close()
	f.w.show()
	f.w.mat.Fit()
	since.tell(since.kept())
}

// look draws what the fields say, and tells what is wrong with them.
func (f *plainForm) look() {
	r, wrong := f.read()
	f.tell(wrong, nil)
	f.shown.RemoveAll()
	f.shown.Add(f.picture(r))
	f.shown.Refresh()
	f.summary.RemoveAll()
	f.summary.Add(para(f.says(r), f.pageWide(), small, false, f.w.palette.Faint))
	f.summary.Refresh()
	if f.sheet != nil && f.sheet.open() {
		f.sheet.fit()
	}
}

// says tells what will be cut.
func (f *plainForm) says(r pattern.Plain) string {
	if r.Width == 0 || r.Height == 0 {
		return "Width and height are those of the sew line; the allowance is added around it. Every edge is a seam without a partner until you say beside the mat what it is."
	}
	wide, high := r.Width+2*r.Allowance, r.Height+2*r.Allowance
	if r.Fold {
		wide -= r.Allowance
		return unit.Restate("Cut "+unit.MM(wide)+" × "+unit.MM(high)+" with its left edge on the fold; unfolded it is "+unit.MM(2*wide)+" wide.", f.w.unit) + " Every other edge is a seam without a partner until you say beside the mat what it is."
	}
	return unit.Restate("Cut "+unit.MM(wide)+" × "+unit.MM(high)+".", f.w.unit) + " Every edge is a seam without a partner until you say beside the mat what it is."
}

// picture draws the piece in its proportions, the sew line dashed within the
// cut line, with the measures that are being typed lit.
func (f *plainForm) picture(r pattern.Plain) fyne.CanvasObject {
	ink := f.w.palette
	s := newSketch(ink, sketchWide, sketchTall)
	s.ground()
	wide, high := float32(r.Width), float32(r.Height)
	if wide <= 0 || high <= 0 {
		wide, high = 3, 2
	}
	k := min((sketchWide-2*plainMargin)/wide, (sketchTall-2*plainRoom)/high)
	w, h := max(wide*k, 4), max(high*k, 4)
	x, y := (sketchWide-w)/2, (sketchTall-h)/2
	rim := min(float32(r.Allowance)*k, plainRoom/3)
	left := rim
	if r.Fold {
		left = 0
	}
	s.box(x-left, y-rim, w+left+rim, h+2*rim, ink.Soft, ink.Text, 1.5)
	if rim > 1 {
		s.dashes(x, x+w, y, ink.Faint)
		s.dashes(x, x+w, y+h, ink.Faint)
		for v := y; v < y+h; v += 8 {
			if !r.Fold {
				s.line(x, v, x, min(v+4, y+h), ink.Faint, 1)
			}
			s.line(x+w, v, x+w, min(v+4, y+h), ink.Faint, 1)
		}
	}
	if r.Fold {
		s.line(x, y-rim-8, x, y+h+rim+8, ink.Accent, 2)
		s.label("fold", x-6, y+h/2, fromRight, true)
	}
	if f.points == arrowAcross {
		s.arrow(x+w*0.25, y+h/2, x+w*0.75, y+h/2, ink.Faint, 1.5)
	} else {
		s.arrow(x+w/2, y+h*0.75, x+w/2, y+h*0.25, ink.Faint, 1.5)
	}
	s.across(x, x+w, y+h+rim+12, f.lit == "wide")
	s.upward(x+w+rim+12, y, y+h, f.lit == "high")
	s.label(f.labelled("wide", "width"), x+w/2, y+h+rim+26, atMiddle, f.lit == "wide")
	s.label(f.labelled("high", "height"), x+w+rim+18, y+h/2, fromLeft, f.lit == "high")
	return s.object()
}

// labelled is what is typed in a field, or what it is for.
func (f *plainForm) labelled(field, word string) string {
	if mm, err := f.readLength(field); err == nil && mm > 0 {
		return strings.TrimSpace(f.size(mm))
	}
	return word
}
