package main

import (
	"image/color"
	"math/rand/v2"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"truemat/app/look"
	"truemat/app/settings"
	"truemat/ops/store"
)

// pressMain presses the lowest word that is filled with the accent.
func (r *real) pressMain() {
	r.t.Helper()
	const wide = 60
	r.until("a main word shows", func() bool {
		img, ok := r.look()
		if !ok {
			return false
		}
		b := img.Bounds()
		for y := b.Max.Y - 1; y >= b.Min.Y; y-- {
			run := 0
			for x := b.Min.X; x < b.Max.X; x++ {
				if color.NRGBAModel.Convert(img.At(x, y)) != look.Light.Accent {
					run = 0
					continue
				}
				if run++; run == wide {
					r.do("mousemove", strconv.Itoa(x-wide/2), strconv.Itoa(y-6), "click", "1")
					return true
				}
			}
		}
		return false
	})
}

var pdfFacts = regexp.MustCompile(`(?s)Pages:\s+(\d+).*Page size:\s+([\d.]+) x ([\d.]+) pts`)

// factsOf returns pages, width and height of a PDF in points; nil when it is none.
func factsOf(path string) []float64 {
	out, err := exec.Command("pdfinfo", path).CombinedOutput()
	found := pdfFacts.FindStringSubmatch(string(out))
	if err != nil || found == nil {
		return nil
	}
	var facts []float64
	for _, f := range found[1:] {
		v, err := strconv.ParseFloat(f, 64)
		if err != nil {
			return nil
		}
		facts = append(facts, v)
	}
	return facts
}

func TestPrintIsSavedFromTheWindow(t *testing.T) {
	if _, err := exec.LookPath("pdfinfo"); err != nil {
		t.Skip("pdfinfo is not here; it is needed to look into the print")
	}
	r := newReal(t)
	r.fresh()
	r.key("ctrl+p")
	r.covered()
	time.Sleep(time.Second)
	r.until("the pages are laid out", r.calm)
	r.pressMain()
	time.Sleep(time.Second)
	r.until("the page for files shows", r.calm)
	r.key("ctrl+a")
	r.write("print.pdf")
	r.key("Return")
	r.command("print", r.doc, "--size", r.desk.Size(), "--whole", "--paper", "a4", "--out", r.path("command.pdf"))
	want := factsOf(r.path("command.pdf"))
	require.NotNil(t, want)
	require.InDeltaSlice(t, []float64{210 * 72 / 25.4, 297 * 72 / 25.4}, want[1:], 0.1, "A4")
	require.Greater(t, want[0], 1.0)
	var got []float64
	r.until("the print is written", func() bool {
		got = factsOf(r.path("print.pdf"))
		return got != nil
	})
	require.Equal(t, want, got, "as many pages of the same paper as by command")
	require.Empty(t, r.save(0).Recipe, "printing alters nothing")
}

// A thousand random events leave the program alive and what it saved whole.
func TestJunkOnTheRealWindowLeavesItAlive(t *testing.T) {
	r := newReal(t)
	r.fresh()
	const seed = 20260214
	rnd := rand.New(rand.NewPCG(seed, 1))
	keys := []string{
		"n", "n", "p", "space", "Return", "Escape", "Tab", "shift+Tab", "Left", "Right", "Up", "Down", "shift+Up", "ctrl+Left",
		"h", "i", "t", "r", "s", "a", "d", "b", "e", "v", "f", "c", "o", "u", "l", "w", "k", "m", "g", "0", "1", "plus", "minus", "Delete", "BackSpace", "question",
		"ctrl+z", "ctrl+shift+z", "ctrl+s", "ctrl+p", "ctrl+d", "ctrl+t", "ctrl+l", "F1", "ctrl+a", "5", "slash",
	}
	at := func() []string {
		return []string{"mousemove", strconv.Itoa(rnd.IntN(1276) + 2), strconv.Itoa(rnd.IntN(740) + 52)}
	}
	for range 50 {
		var batch []string
		for range 20 {
			switch rnd.IntN(10) {
			case 0, 1, 2:
				batch = append(append(batch, at()...), "click", "1")
			case 3, 4:
				batch = append(append(append(append(batch, at()...), "mousedown", "1"), at()...), "mouseup", "1")
			case 5:
				batch = append(append(batch, at()...), "click", strconv.Itoa(4+rnd.IntN(2)))
			default:
				batch = append(batch, "key", keys[rnd.IntN(len(keys))])
			}
		}
		r.do(batch...)
	}
	r.key("Escape", "Escape", "Escape")
	if settings.Open(filepath.Join(r.home, "config", "truemat", "settings.json")).Bool("dark") {
		r.key("ctrl+d") // writing is looked for in the colour it has by day
	}
	r.until("the window answers again", r.calm)
	r.alive()
	doc, err := store.Load(r.doc)
	require.NoError(t, err, "seed %d", seed)
	require.NoError(t, doc.Validate())
	require.NotContains(t, r.said.String(), "panic")
}
