package main

import (
	"image"
	"os"
	"slices"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"truemat/app/look"
	"truemat/ops/store"
)

// The parts that tell how it is sewn, and hold the sheet.
const (
	partSewing = 6
	partSheet  = 7
)

// ringed is where the left side of the ring around the act that has the keys
// lies, left of the letters.
func (r *real) ringed() image.Rectangle {
	img, ok := r.look()
	if !ok {
		return image.Rectangle{}
	}
	return extentIn(img, image.Rect(225, 90, 262, 770), look.Light.Accent)
}

// An act is moved down by keys and up again by the mouse, each as one change;
// one that must wait stays where it is. Then the sheet is saved on letter.
func TestTheOrderOfSewingIsMovedAndTheSheetSaved(t *testing.T) {
	r := newReal(t)
	r.clothDocument()
	r.part(partCloths, partSewing)
	r.into(partSewing, 0) // the first act
	r.key("Down")
	at := func(d store.Document) int { return slices.Index(d.Goods.Order, "join side seam") }
	r.saved(func(d store.Document) bool { return at(d) == 1 })
	r.key("Down")
	r.saved(func(d store.Document) bool { return at(d) == 2 })
	r.key("ctrl+z")
	r.saved(func(d store.Document) bool { return at(d) == 1 })

	// The act that has the keys is dragged by its number to the top.
	row := image.Rectangle{}
	time.Sleep(1500 * time.Millisecond)
	r.until("nothing is drawn any more", r.calm)
	r.until("the act has the keys, and the page lies still", func() bool {
		was := row
		time.Sleep(400 * time.Millisecond)
		row = r.ringed()
		return row == was && row.Dy() > 20 && row.Dy() < 120
	})
	x, y := row.Min.X+14, row.Min.Y+14
	r.do("mousemove", strconv.Itoa(x), strconv.Itoa(y), "sleep", "0.2", "mousedown", "1")
	for i := range 8 {
		r.do("mousemove", strconv.Itoa(x), strconv.Itoa(y-12*(i+1)))
		time.Sleep(30 * time.Millisecond)
	}
	r.do("mouseup", "1")
	r.saved(func(d store.Document) bool { return at(d) == 0 })

	r.part(partSewing, partSheet)
	r.into(partSheet, 0) // the paper
	r.option(1)
	time.Sleep(time.Second)
	r.until("the pages are set", r.calm)
	r.times(8, "Tab") // past the seven parts
	r.key("Return")
	time.Sleep(time.Second)
	r.until("the page for files shows", r.calm)
	out := r.path("told.pdf")
	r.key("ctrl+a")
	r.write("told.pdf")
	r.key("Return")
	var facts []float64
	r.until("the sheet is written", func() bool { facts = factsOf(out); return facts != nil })
	require.InDelta(t, 612, facts[1], 0.5, "letter is 8 1/2 in wide")
	require.LessOrEqual(t, facts[0], 8.0)
	info, err := os.Stat(out)
	require.NoError(t, err)
	require.Less(t, info.Size(), int64(400_000), "light enough to send")
}
