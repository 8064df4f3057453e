package main

import (
	"fmt"
	"image"
	"math"
	"os/exec"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"truemat/app/look"
	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/store"
)

// planInner is where a plan lies on the display, within the ring that shows
// that it has the keys.
var planInner = image.Rect(250, 175, 1215, 585)

// A lace plan is laid by hand with a real mouse, the mirror partner following
// in what is saved, and told on the sheet.
func TestALaceIsLaidByHandAndToldOnTheSheet(t *testing.T) {
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("pdftotext is not here; it is needed to read the sheet")
	}
	r := newReal(t)
	path := r.path("lace.truemat")
	r.command("demo", "--altered", "--out", path)
	r.open(path)
	size, p := r.desk.Size(), r.desk.Pattern()
	lace, ok := r.desk.Goods().Cloth("heron lace")
	require.True(t, ok)
	before, err := border.Of(r.desk.Goods(), lace, p, size)
	require.NoError(t, err)

	r.key("ctrl+l")
	r.until("the page shows", func() bool { return !r.partShown().Empty() })
	const plans, sheet = 5, 7 // the parts of the page
	r.part(0, plans)
	time.Sleep(time.Second)
	r.until("the plan shows", r.calm)
	r.do("mousemove", strconv.Itoa(planInner.Min.X+8), strconv.Itoa(planInner.Min.Y+230), "click", "1")
	r.key("n", "n")
	require.Equal(t, "inner cup", before.Placed[1].Name())
	outline := before.Placed[1].Outline().Bounds()
	var cup image.Rectangle
	scale := 0.0
	r.until("the inner cup is chosen and seen true to scale", func() bool {
		img, ok := r.look()
		if ok {
			cup = extentIn(img, planInner, look.Light.Accent)
			scale = float64(cup.Dx()) / outline.Width()
		}
		return !cup.Empty() && math.Abs(float64(cup.Dy())/outline.Height()-scale) < 0.03*scale && r.calm()
	})
	side := 1 // away from the other one
	if before.Placed[2].At > before.Placed[1].At {
		side = -1
	}
	const far = 60
	x, y := (cup.Min.X+cup.Max.X)/2, (cup.Min.Y+cup.Max.Y)/2
	r.do("mousemove", strconv.Itoa(x), strconv.Itoa(y), "mousedown", "1")
	for _, by := range []int{6, 25, 48, far} {
		r.do("mousemove", strconv.Itoa(x+side*by), strconv.Itoa(y+2))
	}
	r.do("mouseup", "1")
	r.until("it lies still", r.calm)
	r.key("Escape")
	r.until("the page is closed", r.matShows)
	r.key("ctrl+s")
	var doc store.Document
	r.until("the plan is saved", func() bool {
		r.alive()
		doc, err = store.Load(path)
		return err == nil && len(doc.Goods.Laces) == 1
	})
	places := doc.Goods.Laces[0].In(size)
	require.Len(t, places, 3)
	at := func(mirrored bool) cloth.Place {
		for _, p := range places {
			if p.Piece == "inner cup" && p.Mirrored == mirrored {
				return p
			}
		}
		require.Fail(t, "not kept")
		return cloth.Place{}
	}
	moved := at(false).At - before.Placed[1].At
	require.InDelta(t, side*far, moved*scale, before.Step()*scale/2+2, "where the mouse let it go")
	require.InDelta(t, -moved, at(true).At-before.Placed[2].At, 1e-9, "its partner went as far the other way")
	after, err := border.Of(doc.Goods, lace, p, size)
	require.NoError(t, err, "it can be laid so")

	r.key("ctrl+l")
	r.until("the page shows", func() bool { return !r.partShown().Empty() })
	r.part(plans, sheet)
	r.pressMain()
	time.Sleep(time.Second)
	r.until("the page for files shows", r.calm)
	r.key("ctrl+a")
	r.write("sheet.pdf")
	r.key("Return")
	r.until("the sheet is written", func() bool { return factsOf(r.path("sheet.pdf")) != nil })
	text, err := exec.Command("pdftotext", "-layout", r.path("sheet.pdf"), "-").Output()
	require.NoError(t, err)
	require.Contains(t, string(text), fmt.Sprintf("heron lace, %.0f mm wide: %.0f mm", lace.Width, after.Length))
}
