package main

import (
	"image"
	"image/color"
	"os"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"truemat/app/look"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
)

// widened is the Tern whose band is made wider at its side seam by an amount,
// and whose hem is then laid straight.
func widened(t *testing.T, amount step.Number) store.Document {
	t.Helper()
	run, err := demo.Tern()
	require.NoError(t, err)
	lace := demo.TernInLace()
	doc := store.Document{Source: run, Recipe: step.Recipe{
		{ID: "wider", Step: &step.Add{EdgeEnd: step.EdgeEnd{Piece: "band", Edge: "side seam", End: pattern.End}, Amount: amount}},
		lace[lace.Index("band-hem")],
	}}
	require.NoError(t, doc.Validate())
	return doc
}

// column is where the column lies on the display.
var column = image.Rect(976, 20, 1276, 640)

// fieldWithKeys finds the field of the column that has the keys, by the line around it.
func (r *real) fieldWithKeys() image.Rectangle {
	r.t.Helper()
	var found, was image.Rectangle
	r.until("a field of the column that lies still has the keys", func() bool {
		was, found = found, image.Rectangle{}
		img, ok := r.look()
		if !ok {
			return false
		}
		for y := column.Min.Y; y < column.Max.Y; y++ {
			for x, from := column.Min.X, -1; x <= column.Max.X; x++ {
				if x < column.Max.X && reddish(img.At(x, y)) {
					if from < 0 {
						from = x
					}
				} else if from >= 0 {
					if x-from > 90 {
						found = image.Rect(from, y, x, y+30)
						return found == was
					}
					from = -1
				}
			}
		}
		return false
	})
	return found
}

// reddish reports whether a pixel is nearer to the accent than to the paper, as
// those of a thin line are.
func reddish(c color.Color) bool {
	n, a := color.NRGBAModel.Convert(c).(color.NRGBA), look.Light.Accent
	return n.R < a.R+24 && n.R > a.R-24 && n.G > a.G-24 && n.G < a.G+64 && int(n.R)-int(n.G) > 40
}

// Editing a number of an early step, by keys and then by the mouse, is seen
// on the mat while it moves and alters every size; each edit is one change.
func TestEarlyNumberIsEditedAndTheSizesFollow(t *testing.T) {
	r := newReal(t)
	path := r.path("work.truemat")
	require.NoError(t, store.Save(path, widened(t, step.Lit(4))))
	first, err := os.ReadFile(path)
	require.NoError(t, err)
	r.open(path)

	r.times(2, "shift+Tab") // from the mat back to the first of two steps
	r.key("Return")
	r.key("Tab") // to its first number
	r.fieldWithKeys()
	still, _ := r.look()
	r.times(3, "Up")
	r.times(5, "ctrl+Down")
	r.until("the mat follows", func() bool {
		img, ok := r.look()
		return ok && !same(crop(still), crop(img))
	})
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, first, b)
	r.key("Return")
	got := r.saved(func(doc store.Document) bool { return amount(doc) == 6.5 })
	r.sameLengths(widened(t, step.Lit(6.5)), got)
	byKeys, err := os.ReadFile(path)
	require.NoError(t, err)

	box := r.fieldWithKeys()
	x, y := box.Min.X-40, box.Min.Y+14
	at := func(dx int) { r.do("mousemove", strconv.Itoa(x+dx), strconv.Itoa(y)) }
	at(0)
	time.Sleep(2 * beat)
	still, _ = r.look()
	r.do("mousedown", "1")
	for dx := 4; dx <= 24; dx += 4 {
		at(dx)
	}
	r.until("the mat follows", func() bool {
		img, ok := r.look()
		return ok && !same(crop(still), crop(img))
	})
	r.do("mouseup", "1")
	got = r.saved(func(doc store.Document) bool { return amount(doc) > 6.5 })
	require.InDelta(t, 6.5+2.4, amount(got), 0.5, "a tenth of a millimetre for each pixel")
	r.sameLengths(widened(t, step.Lit(amount(got))), got)

	r.key("ctrl+z")
	r.saved(func(doc store.Document) bool { return amount(doc) == 6.5 })
	b, err = os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, byKeys, b)
	r.key("ctrl+z")
	r.saved(func(doc store.Document) bool { return amount(doc) == 4 })
	b, err = os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, first, b)
}

// crop is the part of the display where the mat lies.
func crop(img image.Image) image.Image {
	return img.(interface {
		SubImage(image.Rectangle) image.Image
	}).SubImage(image.Rect(30, 30, 940, 640))
}

func amount(doc store.Document) float64 {
	v, _ := doc.Recipe[0].Step.(*step.Add).Amount.Literal()
	return v
}

// saved saves until the document on disk is as wanted.
func (r *real) saved(as func(store.Document) bool) store.Document {
	r.t.Helper()
	var doc store.Document
	r.until("it is saved", func() bool {
		r.key("ctrl+s")
		var err error
		doc, err = store.Load(r.doc)
		return err == nil && as(doc)
	})
	return doc
}
