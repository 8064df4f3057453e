package main

import (
	"encoding/json"
	"image"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"truemat/app/look"
	"truemat/ops/cloth"
	"truemat/ops/store"
)

// The parts of the page of cloth and sewing, from above.
const (
	partCloths = iota
	partLayers
)

// clothDocument opens the altered demo with its cloths, and the page of cloth
// and sewing at its first part.
func (r *real) clothDocument() {
	r.t.Helper()
	r.doc = r.path("work.truemat")
	r.command("demo", "--out", r.doc, "--altered")
	r.start(r.doc)
	r.key("ctrl+l")
	r.until("the page shows", func() bool { return !r.partShown().Empty() })
}

// partShown is where the name of the part that shows lies on the display.
func (r *real) partShown() image.Rectangle {
	img, ok := r.look()
	if !ok {
		return image.Rectangle{}
	}
	return extentIn(img, image.Rect(30, 90, 200, 520), look.Light.Soft)
}

// part presses the name of a part with the mouse, counted from the one that
// shows.
func (r *real) part(from, to int) {
	r.t.Helper()
	at := r.partShown()
	const pitch = 35
	y := (at.Min.Y+at.Max.Y)/2 + (to-from)*pitch
	r.do("mousemove", strconv.Itoa((at.Min.X+at.Max.X)/2), strconv.Itoa(y))
	time.Sleep(450 * time.Millisecond) // not a double press
	r.do("click", "1")
	r.until("the part shows", func() bool {
		now := r.partShown()
		return !now.Empty() && abs(now.Min.Y-at.Min.Y-(to-from)*pitch) < 8
	})
}

func abs(v int) int { return max(v, -v) }

// into goes from the name of a part, pressed with the mouse, to the nth thing
// in it.
func (r *real) into(part, n int) {
	r.t.Helper()
	r.part(part, part) // pressed again the part has the keys
	r.times(n, "Tab")
}

// fields types into fields one after another, from the one that has the keys.
func (r *real) fields(texts ...string) {
	r.t.Helper()
	for i, s := range texts {
		if i > 0 {
			r.key("Tab")
		}
		if s != "" {
			r.key("ctrl+a")
			r.write(s)
		}
	}
}

// option opens the list of a choice and takes the nth option from above.
func (r *real) option(n int) {
	r.t.Helper()
	r.key("space")
	time.Sleep(250 * time.Millisecond)
	r.times(n+1, "Down")
	time.Sleep(250 * time.Millisecond)
	r.key("Return")
}

// rested saves until what is on disk is as wanted, and the window told so.
func (r *real) rested(as func(store.Document) bool) store.Document {
	r.t.Helper()
	doc := r.saved(as)
	r.until("the title tells of nothing unsaved", func() bool { return !strings.Contains(r.title(), "unsaved") })
	time.Sleep(300 * time.Millisecond)
	return doc
}

// A lace is described by its pull test; laid over the band it is warned off,
// in the window and by command; taken back, the document is as it was.
func TestALaceIsDescribedAndWarnedOffTheBand(t *testing.T) {
	r := newReal(t)
	r.clothDocument()
	first, err := store.Load(r.doc)
	require.NoError(t, err)
	before := len(first.Goods.Cloths)

	r.into(partCloths, before+1) // past the cloths and what adds a cloth
	r.key("Return")              // a lace more; its name has the keys
	r.fields("egret lace", "0", "0.3", "", "", "3 3/4 in", "11", "", "250", "310", "256")
	r.key("Return")
	r.until("it is told that a lace without width cannot be", func() bool {
		img, ok := r.look()
		return ok && !extentIn(img, image.Rect(440, 565, 860, 625), look.Light.Poor).Empty()
	})
	r.fields("180mm") // the width has the keys again
	r.key("Return")
	doc := r.rested(func(d store.Document) bool { return len(d.Goods.Cloths) == before+1 })
	lace := doc.Goods.Cloths[before]
	require.Equal(t, "egret lace", lace.Name)
	require.Equal(t, cloth.Pull{Before: 250, Under: 310, After: 256}, lace.Along)
	require.InDelta(t, 95.25, lace.Lace.Repeat, 1e-9)
	require.InDelta(t, 180-22, lace.Usable(), 1e-9)

	r.part(partCloths, partLayers)
	r.into(partLayers, 2) // past the layers of the frame
	r.option(before + 1)
	r.rested(func(d store.Document) bool { return d.Goods.Cuts("band", "egret lace") })
	r.key("Tab")
	r.option(2)
	r.rested(func(d store.Document) bool { return len(d.Goods.Layers("band")) == 2 })

	cmd := exec.Command(program, "cloth", r.doc, "--size", "75C", "--json")
	cmd.Env = r.env()
	out, err := cmd.Output()
	require.Error(t, err, "a check is broken")
	var told struct {
		Cloths []struct {
			Name  string
			Along map[string]float64
		}
		Sizes []struct {
			Checks []struct{ ID, Piece, Verdict, Text string }
		}
	}
	require.NoError(t, json.Unmarshal(out, &told))
	require.Equal(t, map[string]float64{"stretch_percent": 24, "growth_percent": 2.4, "recovery_percent": 90}, told.Cloths[before].Along)
	warned := ""
	for _, c := range told.Sizes[0].Checks {
		if c.ID == "lace-over-stretch" && c.Verdict == "broken" && c.Piece == "band" {
			warned = c.Text
		}
	}
	require.Contains(t, warned, "egret lace", "%s", out)
	require.Contains(t, warned, "cut band from the stretch cloth alone")

	r.times(3, "ctrl+z")
	r.rested(func(d store.Document) bool { return len(d.Goods.Cloths) == before })
	last, err := os.ReadFile(r.doc)
	require.NoError(t, err)
	var b strings.Builder
	require.NoError(t, store.Write(&b, first))
	require.Equal(t, b.String(), string(last))
}
