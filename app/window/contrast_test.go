package window

import (
	"image"
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// shownText is a text where it stands in a picture of the window.
type shownText struct {
	of   *canvas.Text
	at   image.Rectangle
	dead bool // on what cannot be pressed now
}

// textsShown lists all that is written and seen, toolkit's fields included.
func textsShown(o fyne.CanvasObject, pos fyne.Position, clip image.Rectangle, dead bool) (all []shownText) {
	if !o.Visible() {
		return nil
	}
	box := func(p fyne.Position, s fyne.Size) image.Rectangle {
		return image.Rect(int(p.X), int(p.Y), int(p.X+s.Width), int(p.Y+s.Height))
	}
	var inside []fyne.CanvasObject
	switch o := o.(type) {
	case *canvas.Text:
		size := o.MinSize()
		p := pos
		switch o.Alignment {
		case fyne.TextAlignTrailing:
			p.X += o.Size().Width - size.Width
		case fyne.TextAlignCenter:
			p.X += (o.Size().Width - size.Width) / 2
		}
		if at := box(p, size); o.Text != "" && at.In(clip) {
			return []shownText{{o, at, dead}}
		}
		return nil
	case *roll:
		return textsShown(&o.Scroll, pos, clip, dead)
	case *container.Scroll:
		clip = clip.Intersect(box(pos, o.Size()))
		inside = []fyne.CanvasObject{o.Content}
	case *fyne.Container:
		inside = o.Objects
	case *touch:
		dead = dead || o.disabled
		inside = test.WidgetRenderer(o).Objects()
	case fyne.Widget:
		inside = test.WidgetRenderer(o).Objects()
	}
	for _, c := range inside {
		all = append(all, textsShown(c, pos.Add(c.Position()), clip, dead)...)
	}
	return all
}

// groundOf is the colour that most of a text and the rim around it has.
func groundOf(img image.Image, at image.Rectangle) color.NRGBA {
	seen := map[color.NRGBA]int{}
	at = at.Inset(-3).Intersect(img.Bounds())
	for x := at.Min.X; x < at.Max.X; x++ {
		for y := at.Min.Y; y < at.Max.Y; y++ {
			seen[color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA)]++
		}
	}
	var most color.NRGBA
	for c, n := range seen {
		if n > seen[most] {
			most = c
		}
	}
	return most
}

// All that is written in the window, in every scene of which there is a
// picture, in the other light than there and mostly in both, has a contrast of 4.5:1 to what it is seen
// on (WCAG 2.2, success criterion 1.4.3, which leaves out what cannot be
// pressed now; that has 3:1 here).
func TestAllWritingIsReadableOnWhatItStandsOn(t *testing.T) {
	told := map[string]bool{}
	count := 0
	for i, s := range Scenes() {
		if s.scale != 1 {
			continue // the same colours
		}
		for _, dark := range []bool{s.dark, !s.dark} {
			if dark == s.dark && i%3 > 0 {
				continue // their pictures are looked at
			}
			s.dark = dark
			done := make(chan struct{})
			go func() {
				defer close(done)
				w, err := s.sit(test.NewTempApp(t))
				if !assert.NoError(t, err, s.Name) {
					return
				}
				img := w.win.Canvas().Capture()
				top := w.win.Canvas().Overlays().Top()
				if top == nil {
					top = w.win.Canvas().Content()
				}
				for _, x := range textsShown(top, fyne.CurrentApp().Driver().AbsolutePositionForObject(top), img.Bounds(), false) {
					ground, least := groundOf(img, x.at), 4.5
					if x.dead {
						least = 3
					}
					count++
					ink := color.NRGBAModel.Convert(x.of.Color).(color.NRGBA)
					if c := contrast(blended(ink, ground), ground); c < least && !told[x.of.Text] {
						told[x.of.Text] = true
						assert.GreaterOrEqual(t, c, least, "%s, dark %v: %q, %v on %v at %v", s.Name, dark, x.of.Text, ink, ground, x.at)
					}
				}
			}()
			<-done
		}
	}
	require.Greater(t, count, 2000, "much is written")
}
