package window

import (
	"image/color"
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"truemat/ops/cloth"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// clothParts are the parts of the page of cloth and sewing, each with what
// shows it. A part is as wide as the page's wide, and best no taller than its
// tall; what is taller rolls.
func clothParts() []clothPart {
	return []clothPart{
		{partCloths, (*Window).clothPartGoods},
		{partLayers, (*Window).clothPartLayers},
		{partSuits, (*Window).clothPartSuits},
		{partExtras, (*Window).clothPartNotions},
		{"To buy", (*Window).clothPartBuy},
		{partPlans, (*Window).clothPartPlans},
		{"As worn, sewing", (*Window).clothPartSewing},
		{"The sheet", (*Window).clothPartSheet},
	}
}

// clothPart is one of them.
type clothPart struct {
	name string
	show func(*Window) fyne.CanvasObject
}

// clothPage is the page of what the garment is cut from, finished with and
// sewn in which order. It fills the window and shows one part at a time.
type clothPage struct {
	w     *Window
	sheet *sheet
	at    int // the part that shows
	tabs  []*touch
	rail  *fyne.Container // the names of the parts
	above bool            // they stand above the part, not beside it
	part  *fyne.Container
	roll  *container.Scroll
	wrong *fyne.Container

	wide, tall float32 // room of a part
	seen       clothSeen
	bought     *bought // nil until it is worked out
}

const (
	clothRail   = 158 // width of the names of the parts
	clothMost   = 1320
	clothNarrow = 1060 // width of a window in which they stand above the part
)

// clothPage opens the page at the part that was seen last.
func (w *Window) clothPage() { w.clothPageAt(w.clothAt) }

// clothPageAt opens the page at a part.
func (w *Window) clothPageAt(at int) {
	for w.sheet != nil {
		w.sheet.close()
	}
	c := &clothPage{w: w, at: at, rail: container.NewWithoutLayout()}
	w.cloths = c
	for i, p := range clothParts() {
		wide := roomy{func() fyne.Size {
			if c.above {
				return fyne.Size{}
			}
			return fyne.NewSize(clothRail-20, 0)
		}}
		t := newTouch(w.palette, container.New(layered{}, container.New(wide), text(p.name, normal, i == at, w.palette.Text)), color.Transparent, 10, 8, func() {
			if c.at == i {
				c.enter()
				return
			}
			c.turn(i)
		})
		t.name = "part " + p.name
		t.arrows = func(k fyne.KeyName) { c.step(k) }
		c.tabs = append(c.tabs, t)
		c.rail.Add(t)
	}
	width := c.measure()
	veiling := func() { veil(c.roll) }
	c.part, c.wrong = container.New(followed{stack{}, veiling}), container.New(stack{})
	c.roll = container.NewVScroll(c.part)
	c.roll.OnScrolled = func(fyne.Position) { veiling() }
	body := container.New(followed{clothShell{c}, veiling}, c.rail, rule(w.palette.Line), c.wrong, c.roll)
	c.sheet = w.openSheet("Cloth and sewing, "+pattern.SizeWords(w.desk.Size()), width, body)
	c.sheet.room = func() {
		c.sheet.width = c.measure()
		c.sheet.wide.SetMinSize(fyne.NewSize(c.sheet.width, 0))
		c.again()
	}
	c.turn(at)
	w.win.Canvas().Focus(c.tabs[at])
}

// measure finds the room of a part in the window as large as it is, and
// returns the width of the page.
func (c *clothPage) measure() float32 {
	room := c.w.win.Canvas().Size()
	width := min(max(room.Width-72, 520), clothMost)
	if c.above = room.Width < clothNarrow; c.above {
		c.rail.Layout = line{gap: 2, wrap: width}
		c.wide, c.tall = width-scrollBar, max(room.Height-100-c.rail.MinSize().Height-clothGap, 120)
	} else {
		c.rail.Layout = stack{gap: 2}
		c.wide, c.tall = width-clothRail-2*clothGap-1, max(room.Height-100, 320)
	}
	return width
}

// turn shows a part.
func (c *clothPage) turn(at int) {
	c.at, c.w.clothAt = at, at
	for i, t := range c.tabs {
		t.fill = color.Transparent
		if i == at {
			t.fill = c.w.palette.Soft
		}
		for _, o := range written(t.body) {
			o.TextStyle.Bold = i == at
			o.Refresh()
		}
		t.paint()
	}
	c.say(nil)
	if len(reachable(c.part)) > 0 { // the keys do not go from part to part
		c.w.win.Canvas().Focus(c.tabs[at])
	}
	c.again()
	rollTo(c.roll, fyne.Position{})
}

// clothTo shows the part of a name, with the keys at it.
func (w *Window) clothTo(name string) {
	for i, p := range clothParts() {
		if p.name == name {
			w.cloths.turn(i)
			w.win.Canvas().Focus(w.cloths.tabs[i])
		}
	}
}

// enter gives the keys to the first thing of the part, to the drawing of a
// plan.
func (c *clothPage) enter() {
	if p := c.w.plans; clothParts()[c.at].name == partPlans && p != nil && p.board != nil {
		c.w.win.Canvas().Focus(p.board)
		return
	}
	if all := reachable(c.part); len(all) > 0 {
		c.w.win.Canvas().Focus(all[0])
	}
}

// step goes to the part before or after with the arrows, or into the part.
func (c *clothPage) step(k fyne.KeyName) {
	at, back, on, in := c.at, fyne.KeyUp, fyne.KeyDown, fyne.KeyRight
	if c.above {
		back, on, in = fyne.KeyLeft, fyne.KeyRight, fyne.KeyDown
	}
	switch k {
	case back:
		at--
	case on:
		at++
	case in:
		c.enter()
		return
	}
	if at >= 0 && at < len(c.tabs) {
		c.turn(at)
		c.w.win.Canvas().Focus(c.tabs[at])
	}
}

// clothSeen is what a part was shown for.
type clothSeen struct {
	facts facts
	goods cloth.Goods
	unit  unit.System
}

// follow shows the part anew when what it tells of is another by now; a list
// that is open stays so through a mere saving.
func (c *clothPage) follow() {
	now := c.sees()
	if c.sheet.open() && (now.facts != c.seen.facts || now.unit != c.seen.unit || !reflect.DeepEqual(now.goods, c.seen.goods)) {
		c.again()
	}
}

func (c *clothPage) sees() clothSeen {
	d := c.w.desk
	f := factsOf(d.Document())
	f.size, f.look = d.Size(), d.Looking()
	return clothSeen{f, d.Goods(), c.w.unit}
}

// again shows the part as things are now; the keys stay where they were.
func (c *clothPage) again() {
	if !c.sheet.open() {
		return
	}
	c.seen = c.sees()
	c.w.renew(c.part, func() {
		part := clothParts()[c.at]
		if o := c.w.waits(part.name); o != nil {
			c.part.Add(o)
		}
		c.part.Add(part.show(c.w))
	})
	rolls(c.part, c.roll)
	c.roll.Refresh()
}

// say tells above the part what is wrong.
func (c *clothPage) say(err error) {
	c.wrong.RemoveAll()
	if err != nil {
		c.wrong.Add(container.New(inset{0, 4}, canvas.NewRectangle(color.Transparent), para(sentence(err), c.wide, normal, false, c.w.palette.Poor)))
	}
	if c.sheet != nil {
		c.sheet.pop.Content.Refresh()
	}
}

const clothGap = 20 // on either side of the line beside the names

// clothShell lays out the names of the parts, a line, what is wrong, and the
// part below that.
type clothShell struct{ c *clothPage }

func (s clothShell) Layout(o []fyne.CanvasObject, size fyne.Size) {
	if s.c.above {
		rail, wrong := o[0].MinSize().Height, up(o[2].MinSize().Height)
		lay(o[0], fyne.Position{}, fyne.NewSize(size.Width, rail))
		lay(o[1], fyne.NewPos(0, rail+clothGap/2), fyne.NewSize(size.Width, 1))
		lay(o[2], fyne.NewPos(0, rail+clothGap), fyne.NewSize(s.c.wide, wrong))
		lay(o[3], fyne.NewPos(0, rail+clothGap+wrong), fyne.NewSize(size.Width, size.Height-rail-clothGap-wrong))
		return
	}
	lay(o[0], fyne.Position{}, fyne.NewSize(clothRail, size.Height))
	lay(o[1], fyne.NewPos(clothRail+clothGap, 0), fyne.NewSize(1, size.Height))
	x, wrong := float32(clothRail+2*clothGap+1), up(o[2].MinSize().Height)
	lay(o[2], fyne.NewPos(x, 0), fyne.NewSize(s.c.wide, wrong))
	lay(o[3], fyne.NewPos(x, wrong), fyne.NewSize(size.Width-x, size.Height-wrong))
}

func (s clothShell) MinSize(o []fyne.CanvasObject) fyne.Size {
	if s.c.above {
		return fyne.NewSize(s.c.wide+scrollBar, o[0].MinSize().Height+clothGap+s.c.tall)
	}
	return fyne.NewSize(clothRail+2*clothGap+1+s.c.wide, s.c.tall)
}

// clothHead is a heading within a part.
func (w *Window) clothHead(s string) fyne.CanvasObject {
	return container.New(inset{0, 4}, gap(0, 0), text(s, large, true, w.palette.Text))
}

// clothRow is a name and what is told of it.
func (w *Window) clothRow(name, told string) fyne.CanvasObject {
	return container.New(columns{clothLabel}, text(shortened(name, clothLabel-8, normal), normal, true, w.palette.Text), para(told, w.cloths.wide-clothLabel-20, normal, false, w.palette.Text))
}

const clothLabel = 210 // of what stands before a text
