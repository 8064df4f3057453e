package window

import (
	"fmt"
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"truemat/app/desk"
	"truemat/app/lesson"
	"truemat/app/look"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
	"truemat/ops/unit"
)

// column stands beside the mat: sizes, what is selected, checks, steps. It
// folds away to its handle.
type column struct {
	w       *Window
	folded  bool
	full    bool              // the checks that hold are listed too
	open    string            // id of the step whose acts are shown
	opened  fyne.CanvasObject // the last of these
	bounds  string            // of the check whose bounds are shown, see checkAt
	ways    map[string]bool   // numbers of which all ways are shown
	signed  []signedRow       // of the numbers of a step being laid out
	wrong   error             // of what was typed in the column
	at      string            // where that belongs: "selection", a step's id, a field of it or a check
	refusal fyne.CanvasObject // what tells it there

	list   *fyne.Container
	page   *roll
	scroll *container.Scroll // of the page
	run    *fyne.Container   // the sizes

	known     facts
	states    []desk.SizeState
	judged    int    // how often the states were asked for
	walked    string // the walk that is shown
	would     would
	rehearsed toldStep // what was told last of the step that is rehearsed
	retold    []*retold
	checks    []check.Check
}

// facts tells one state of the document from another, so that checks are run
// only when something they see has changed.
type facts struct {
	source *pattern.Size
	entry  *step.Entry
	steps  int
	size   string
	look   int
	bounds string
}

func factsOf(doc store.Document) facts {
	f := facts{source: &doc.Source.Sizes[0], steps: len(doc.Recipe), bounds: fmt.Sprint(doc.Bounds)}
	if len(doc.Recipe) > 0 {
		f.entry = &doc.Recipe[0]
	}
	return f
}

const (
	columnInner = 268
	columnPad   = 16
	columnGap   = 8 // between its parts
	handleWidth = 20
)

// forget drops what was opened in the column.
func (c *column) forget() {
	c.open, c.bounds, c.wrong, c.at, c.known, c.ways, c.full = "", "", nil, "", facts{}, map[string]bool{}, false
	if c.scroll != nil {
		rollTo(c.scroll, fyne.Position{})
	}
}

func (c *column) build() fyne.CanvasObject {
	w := c.w
	sign := "aside"
	if c.folded {
		sign = "back"
	}
	handle := newTouch(w.palette, container.New(centred{}, icon(sign, w.palette.Faint, 14)), w.palette.Ground, 1, 1, func() {
		c.folded = !c.folded
		w.set.SetBool(prefFolded, c.folded)
		w.build()
	})
	handle.back.CornerRadius = 0
	c.list = container.New(followed{stack{gap: columnGap}, func() { veil(c.scroll) }})
	c.run = container.New(line{gap: 4, wrap: columnInner})
	c.page = newRoll(container.New(inset{columnPad, columnPad}, canvas.NewRectangle(color.Transparent), c.list))
	c.scroll = &c.page.Scroll
	c.scroll.OnScrolled = func(fyne.Position) {
		veil(c.scroll)
		if w.prompt.about != "" {
			w.prompt.stale()
			w.prompt.refresh()
		}
	}
	flat := container.NewThemeOverride(c.page, flat{look.New(w.dark)})
	if c.folded {
		flat.Hide()
	}
	return container.New(columnShell{}, rule(w.palette.Line), handle, flat)
}

// flat is the theme without shadows, which in a list look like stains.
type flat struct{ look.Theme }

// Color returns the theme's colour, none for shadows.
func (f flat) Color(n fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	if n == theme.ColorNameShadow {
		return color.Transparent
	}
	return f.Theme.Color(n, v)
}

// columnShell lays out left line, handle and list.
type columnShell struct{}

func (columnShell) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(fyne.NewSize(1, size.Height))
	o[1].Move(fyne.NewPos(1, 0))
	o[1].Resize(fyne.NewSize(handleWidth-1, size.Height))
	o[2].Move(fyne.NewPos(handleWidth, 0))
	o[2].Resize(fyne.NewSize(size.Width-handleWidth, size.Height))
}

func (columnShell) MinSize(o []fyne.CanvasObject) fyne.Size {
	if !o[2].Visible() {
		return fyne.NewSize(handleWidth, 100)
	}
	return fyne.NewSize(handleWidth+columnInner+2*columnPad, 100)
}

// measure runs the checks when something they see has changed.
func (c *column) measure() {
	d := c.w.desk
	now := factsOf(d.Document())
	now.size, now.look = d.Size(), d.Looking()
	if now == c.known {
		return
	}
	if now.source != c.known.source || now.entry != c.known.entry || now.steps != c.known.steps || now.bounds != c.known.bounds {
		c.judge(now.source != c.known.source)
	}
	c.known, c.checks = now, d.Checks()
}

// judge finds the states of the sizes; those known before are shown until
// then, when there are any of this pattern.
func (c *column) judge(other bool) {
	c.judged++
	if other {
		c.states = nil
		for _, label := range c.w.desk.Document().Source.Labels() {
			c.states = append(c.states, desk.SizeState{Label: label}) // until they are known
		}
	}
	turn, judge := c.judged, c.w.desk.Judge()
	var states []desk.SizeState
	c.w.away(func() { states = judge() }, func() {
		if turn != c.judged {
			return // another change came meanwhile
		}
		if !slices.Equal(states, c.states) {
			c.states = states
			c.w.renew(c.run, c.fillRun)
		}
	})
}

func (c *column) refresh() {
	c.measure()
	c.walked = c.walkNow()
	if c.folded {
		return
	}
	left, at := c.rolledFrom(), c.scroll.Offset
	c.keepStill(func() {
		c.w.renew(c.list, func() {
			c.rehearsed, c.retold = toldStep{}, nil
			c.guide()
			c.lastTime()
			c.heading("Size")
			c.sizes()
			c.heading("Selected")
			c.selection()
			c.heading("Checks")
			c.verdicts()
			c.heading("Steps")
			c.steps()
		})
		c.scroll.Refresh()
	})
	now := c.w.win.Canvas().Focused()
	switch {
	case left:
		rollTo(c.scroll, at)
	case now != nil && slices.Contains(reachable(c.list), now):
		if r, ok := now.(interface{ reveal(fyne.CanvasObject) }); ok {
			r.reveal(now.(fyne.CanvasObject))
		}
	}
	c.tellRehearsed()
}

// rolledFrom reports whether something in the column has the keys but was rolled
// out of view, by the wheel: she reads elsewhere in the column.
func (c *column) rolledFrom() bool {
	now, ok := c.w.win.Canvas().Focused().(fyne.CanvasObject)
	if !ok || !slices.Contains(reachable(c.list), c.w.win.Canvas().Focused()) {
		return false
	}
	y, there := depth(c.scroll.Content, now)
	return there && (y+now.Size().Height <= c.scroll.Offset.Y || y >= c.scroll.Offset.Y+c.scroll.Size().Height)
}

// keepStill changes the column, rolled so that its anchor stays where it is.
func (c *column) keepStill(change func()) {
	anchor := c.anchor()
	stood, held := c.stands(anchor)
	change()
	if now, there := c.stands(anchor); held && there && now != stood && stood >= 0 && stood < c.scroll.Size().Height {
		rollTo(c.scroll, fyne.NewPos(0, max(c.scroll.Offset.Y+now-stood, 0)))
	}
}

// anchor is what stays where it is on the screen while what is above it changes:
// the field that has the keys, else the sentence of the step that is open.
func (c *column) anchor() (name string) {
	if f := c.w.win.Canvas().Focused(); f != nil && slices.Contains(reachable(c.list), f) {
		if n, ok := f.(interface{ named() string }); ok && n.named() != "" {
			return n.named()
		}
	}
	if c.open != "" {
		return "step " + c.open
	}
	return ""
}

// stands is how far below the upper edge of the column what has a name stands;
// false when there is no such thing.
func (c *column) stands(name string) (float32, bool) {
	for _, f := range reachable(c.list) {
		if n, ok := f.(interface{ named() string }); ok && name != "" && n.named() == name {
			y, there := depth(c.scroll.Content, f.(fyne.CanvasObject))
			return y - c.scroll.Offset.Y, there
		}
	}
	return 0, false
}

// add puts something at the end of the list, which is laid once it is whole.
func (c *column) add(o fyne.CanvasObject) {
	rolls(o, c.scroll)
	c.tabs(o)
	c.list.Objects = append(c.list.Objects, o)
}

func (c *column) heading(s string) {
	if len(c.list.Objects) > 0 {
		c.add(gap(1, 4))
		c.add(rule(c.w.palette.Line))
		c.add(gap(1, 0))
	}
	c.add(text(s, normal, true, c.w.palette.Faint))
}

func (c *column) note(s string, ink color.Color) {
	c.add(para(s, columnInner, normal, false, ink))
}

func (c *column) ink(v check.Verdict) color.NRGBA {
	switch v {
	case check.Broken:
		return c.w.palette.Poor
	case check.Look:
		return c.w.palette.Look
	}
	return c.w.palette.Good
}

// verdicts lists the checks, broken first; those that hold are counted until
// they are asked for.
func (c *column) verdicts() {
	holds := 0
	for _, v := range []check.Verdict{check.Broken, check.Look, check.Holds} {
		for _, ch := range c.checks {
			if ch.Verdict != v {
				continue
			}
			if v == check.Holds {
				holds++
				if !c.full {
					continue
				}
			}
			at, now, fill := checkAt(ch), checkAt(ch), color.Color(color.Transparent)
			if c.bounds == at {
				fill = c.w.palette.Soft
			}
			told := unit.Restate(asSentence(ch.Text), c.w.unit)
			if on := lesson.Onward(ch.ID); on != "" && v != check.Holds {
				told += " " + on
			}
			c.row(icon(string(v), c.ink(v), 16), told, c.w.palette.Text, fill, func() {
				if c.bounds == at {
					now = ""
				}
				c.bounds, c.wrong = now, nil
				c.goTo(ch)
				c.refresh()
				c.toCheck(at)
			}).name = at
			if c.bounds == at {
				c.boundRows(ch)
			}
		}
	}
	word := fmt.Sprintf("Show the %d that hold", holds)
	if c.full {
		word = "Hide those that hold"
	}
	if holds > 0 {
		c.add(container.New(line{}, c.w.link(word, func() {
			c.full = !c.full
			c.refresh()
		})))
	}
}

// row is a sentence with a sign in front, to be pressed.
func (c *column) row(sign fyne.CanvasObject, s string, ink, fill color.Color, tap func()) *touch {
	body := container.New(beside{}, sign, para(s, columnInner-24, normal, false, ink))
	b := newTouch(c.w.palette, container.New(inset{0, 4}, gap(0, 0), body), fill, 0, 0, tap)
	b.ring = 4
	c.add(b)
	return b
}

// beside lays a sign beside the first line of a paragraph.
type beside struct{}

func (beside) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.NewPos(0, 1))
	o[0].Resize(o[0].MinSize())
	o[1].Move(fyne.NewPos(24, 0))
	o[1].Resize(fyne.NewSize(size.Width-24, size.Height))
}

func (beside) MinSize(o []fyne.CanvasObject) fyne.Size {
	m := o[1].MinSize()
	return fyne.NewSize(m.Width+24, max(m.Height, o[0].MinSize().Height))
}
