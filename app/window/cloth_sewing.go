package window

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"truemat/geom"
	"truemat/ops/cloth/bulk"
	"truemat/ops/cloth/order"
	"truemat/ops/cloth/worn"
	"truemat/ops/unit"
	"truemat/render"
)

const (
	wornTall    = 330 // of the picture of the pieces as worn
	paperUnit   = 3.6 // units of the window for a mm of paper, in pictures
	sewingSharp = 2.0 // pixels for a unit, so that pictures are sharp at scale 2
	wayWide     = 112 // of a column of the table of ways
)

// sewing is what the part as worn and sewing remembers.
type sewing struct {
	limit  float64 // mm of cloth that may lie on each other; 0 for the usual
	serial int     // of the pictures that were asked for last
	// What shows until it is worked out anew.
	worn  image.Image
	thick []image.Image
	ways  []worn.Way
}

// clothPartSewing shows the pieces as they are worn, the order of sewing, and
// where seams grow thick.
func (w *Window) clothPartSewing() fyne.CanvasObject {
	p, g := w.desk.Pattern(), w.desk.Goods()
	box := container.New(stack{gap: 8})
	acts, err := order.Sorted(order.Acts(p, g), g.Order)
	if err != nil {
		box.Add(para(sentence(err), w.cloths.wide-20, normal, false, w.palette.Poor))
		return box
	}
	limits := bulk.DefaultsIn(w.unit)
	if w.sewing.limit > 0 {
		limits.Thickness = w.sewing.limit
	}
	var thick []bulk.Place
	for _, pl := range bulk.Places(p, g, limits) {
		if pl.Over {
			thick = append(thick, pl)
		}
	}
	letters := order.Letters(p, acts)

	picture, ways := container.New(layered{}), container.New(stack{gap: 3})
	box.Add(w.clothHead("As worn"))
	box.Add(picture)
	box.Add(para("Seen from outside, up is up; the broken line is centre front, the wearer's left at the right. Equal letters meet.", w.cloths.wide-20, small, false, w.palette.Faint))
	box.Add(ways)
	box.Add(w.clothHead("In which order it is sewn"))
	box.Add(para("Drag an act up or down by its number, or reach it with Tab and move it with the arrows up and down. What must come first stays first.", w.cloths.wide-20, small, false, w.palette.Faint))
	box.Add(w.actList(order.Tell(p, g, acts, w.desk.Checks()), letters))
	if lone := order.Lone(p); lone != "" {
		box.Add(para(unit.Restate(lone, w.unit), w.cloths.wide-20, normal, false, w.palette.Look))
	}
	if len(g.Order) > 0 {
		box.Add(container.New(line{}, w.button("Use the suggested order", false, func() { w.sewIn(nil, "") })))
	}
	box.Add(w.clothHead("Pressing"))
	box.Add(para("What is chosen here becomes a step: the allowances end so that they lie on the side they are pressed to.", w.cloths.wide-20, small, false, w.palette.Faint))
	box.Add(w.pressing(letters))
	box.Add(w.clothHead("Topstitching"))
	box.Add(w.topstitching(letters))
	box.Add(w.clothHead("Where it grows thick"))
	box.Add(container.New(line{gap: 8}, text("More than", normal, false, w.palette.Text),
		w.counting(newEntry(unit.Format(limits.Thickness, w.unit), 84, w.limitThick, w.backOut)),
		text("of cloth on each other is too much.", normal, false, w.palette.Text)))
	pictures := make([]*fyne.Container, len(thick))
	for i, pl := range thick {
		pictures[i] = container.New(layered{})
		box.Add(para(unit.Restate(pl.Remedy+".", w.unit), w.cloths.wide-20, normal, false, w.palette.Text))
		box.Add(pictures[i])
	}
	switch {
	case len(g.Cloths) == 0:
		box.Add(para("How thick it grows is told once the cloths are described and laid on the pieces.", w.cloths.wide-20, normal, false, w.palette.Faint))
	case len(thick) == 0:
		box.Add(para("Nowhere does more lie on each other.", w.cloths.wide-20, normal, false, w.palette.Text))
	}
	if lacking := bulk.Unmeasured(p, g); len(lacking) > 0 && len(g.Cloths) > 0 {
		box.Add(para("Counted for nothing, since no thickness is described: "+strings.Join(lacking, "; ")+".", w.cloths.wide-20, normal, false, w.palette.Look))
	}
	w.drawSewing(thick, letters, picture, ways, pictures)
	return box
}

// drawSewing draws the pictures of the part away from the window's thread; the
// ones that were drawn before show meanwhile.
func (w *Window) drawSewing(thick []bulk.Place, letters map[string]string, picture, ways *fyne.Container, places []*fyne.Container) {
	p, system := w.desk.Pattern(), w.unit
	mm := float64(w.cloths.wide-24) / paperUnit
	tallOf := func(pl bulk.Place) float32 {
		return up(float32(render.Section(pl, mm, system).Box.Height())*paperUnit) + 2*sectionRim
	}
	w.hang(picture, w.sewing.worn, wornTall)
	w.fillWays(ways, w.sewing.ways, letters)
	for i, pl := range thick {
		var was image.Image
		if len(w.sewing.thick) == len(thick) {
			was = w.sewing.thick[i]
		}
		w.hang(places[i], was, tallOf(pl))
	}
	w.sewing.serial++
	serial, page := w.sewing.serial, w.cloths
	var laid worn.Layout
	var shown image.Image
	var sections []image.Image
	var err error
	w.away(func() {
		if laid, err = worn.Lay(p); err != nil {
			return
		}
		box := geom.Box{Max: geom.Pt(mm, wornTall/paperUnit)}
		if shown, err = pictureOf(render.Scene{Box: box, Layers: []render.Layer{render.Worn(laid, letters)(box)}}); err != nil {
			return
		}
		for _, pl := range thick {
			sc := render.Section(pl, mm, system)
			sc.Box = sc.Box.Grow(sectionRim / paperUnit)
			var img image.Image
			if img, err = pictureOf(sc); err != nil {
				return
			}
			sections = append(sections, img)
		}
	}, func() {
		if serial != w.sewing.serial || w.cloths != page || !page.sheet.open() {
			return
		}
		if err != nil {
			for _, box := range append(places, picture, ways) {
				box.RemoveAll()
			}
			page.say(err)
			return
		}
		w.sewing.worn, w.sewing.thick, w.sewing.ways = shown, sections, worn.Ways(p, laid)
		w.hang(picture, shown, wornTall)
		for i, pl := range thick {
			w.hang(places[i], sections[i], tallOf(pl))
		}
		w.fillWays(ways, w.sewing.ways, letters)
		for _, o := range append(page.part.Objects, page.part) {
			o.Refresh() // lays out what has become taller
		}
		page.roll.Refresh()
		if r, ok := w.win.Canvas().Focused().(*actRow); ok {
			r.reveal(r) // it was pushed down
		}
	})
}

// hang shows a picture on a ground as wide as the part; where it is not drawn
// yet, it says so.
func (w *Window) hang(box *fyne.Container, img image.Image, tall float32) {
	box.RemoveAll()
	back := canvas.NewRectangle(w.palette.Raised)
	back.CornerRadius = 6
	back.SetMinSize(fyne.NewSize(w.cloths.wide-20, tall))
	box.Add(back)
	if img != nil {
		box.Add(w.contained(w.onPaper(img)))
	} else {
		box.Add(container.NewCenter(text(beingDrawn, normal, false, w.palette.Faint)))
	}
	box.Refresh()
}

// beingDrawn stands in a picture that is not there yet.
const beingDrawn = "Being drawn …"

// sectionRim is the white around the picture of a thick place, in units.
const sectionRim = 10

// pictureOf draws a scene for the window, without the white around it.
func pictureOf(sc render.Scene) (image.Image, error) {
	dpi := unit.Inch * paperUnit * sewingSharp
	img, err := render.Picture(sc, dpi)
	if err != nil {
		return nil, err
	}
	return withoutRim(img, dpi), nil
}

const pictureRim = 10.0 // mm of white that render.Picture leaves around a scene

// withoutRim cuts off the white that pictures have around them.
func withoutRim(img *image.RGBA, dpi float64) image.Image {
	rim := int(math.Round(pictureRim * dpi / unit.Inch))
	b := img.Bounds()
	return img.SubImage(image.Rect(b.Min.X+rim, b.Min.Y+rim, b.Max.X-rim, b.Max.Y-rim))
}

// fillWays is a table of which way round each piece goes.
func (w *Window) fillWays(box *fyne.Container, ways []worn.Way, letters map[string]string) {
	row := func(cells []string, ink color.Color) {
		var objects []fyne.CanvasObject
		widths := make([]float32, len(cells))
		for i, c := range cells {
			widths[i] = wayWide
			objects = append(objects, para(c, wayWide-6, normal, false, ink))
		}
		box.Add(container.New(across{widths, 4}, objects...))
	}
	box.RemoveAll()
	defer box.Refresh()
	if ways == nil {
		box.Add(para("Which way round each piece goes is being worked out …", w.cloths.wide-20, normal, false, w.palette.Faint))
		return
	}
	row([]string{"piece", "up", "down", "to centre front", "to the side", "meets at"}, w.palette.Faint)
	for _, way := range ways {
		var meets []string
		for _, s := range way.Seams {
			if letters[s] != "" {
				meets = append(meets, letters[s])
			}
		}
		row([]string{way.Piece, worn.Looks(way.Up), worn.Looks(way.Down), worn.Looks(way.Front), worn.Looks(way.Side), strings.Join(meets, ", ")}, w.palette.Text)
	}
}

// limitThick takes how many mm of cloth may lie on each other.
func (w *Window) limitThick(said string, changed bool) {
	if !changed {
		return
	}
	mm, err := w.read(said)
	if err == nil && !(mm > 0 && mm < 100) {
		err = fmt.Errorf("%s is no thickness; give millimetres above 0", said)
	}
	if err != nil {
		w.cloths.say(err)
		return
	}
	w.sewing.limit = mm
	w.cloths.say(nil)
	w.cloths.again()
}
