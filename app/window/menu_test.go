package window

import (
	"fmt"
	"image/color"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"
	"truemat/app/lesson"
	"truemat/ops/unit"
)

// blended is a colour laid over another.
func blended(over color.Color, ground color.NRGBA) color.NRGBA {
	c := color.NRGBAModel.Convert(over).(color.NRGBA)
	part := func(v, g uint8) uint8 {
		return uint8((int(v)*int(c.A) + int(g)*(255-int(c.A)) + 127) / 255)
	}
	return color.NRGBA{part(c.R, ground.R), part(c.G, ground.G), part(c.B, ground.B), 255}
}

// contrast is that of WCAG 2.2 of two opaque colours.
func contrast(a, b color.NRGBA) float64 {
	luminance := func(c color.NRGBA) float64 {
		part := func(v uint8) float64 {
			s := float64(v) / 255
			if s <= 0.04045 {
				return s / 12.92
			}
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		return 0.2126*part(c.R) + 0.7152*part(c.G) + 0.0722*part(c.B)
	}
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// Names and shortcuts of the menus are read at rest and under the pointer.
func TestMenusAreReadableInLightAndDark(t *testing.T) {
	w := open(t, false)
	for _, dark := range []bool{false, true} {
		w.setDark(dark)
		th := fyne.CurrentApp().Settings().Theme()
		ground := color.NRGBAModel.Convert(th.Color(theme.ColorNameMenuBackground, 0)).(color.NRGBA)
		grounds := []color.NRGBA{ground, blended(th.Color(theme.ColorNameFocus, 0), ground)}
		shortcuts := 0
		for _, m := range everyMenu(w) {
			for _, o := range test.LaidOutObjects(widget.NewMenu(m)) {
				c, ok := o.(*canvas.Text)
				if !ok || c.Text == "" {
					continue
				}
				if strings.HasPrefix(c.Text, "Ctrl+") {
					shortcuts++
				}
				for i, g := range grounds {
					if i > 0 && c.Color == th.Color(theme.ColorNameDisabled, 0) {
						continue // what cannot be done is not marked under the pointer
					}
					require.GreaterOrEqual(t, contrast(blended(c.Color, g), g), 4.5, "dark %v, %s, ground %d, %v", dark, c.Text, i, c.Color)
				}
			}
		}
		require.Greater(t, shortcuts, 5)
	}
}

// Every key that a menu tells stands in the table of keys too.
func TestTheTableOfKeysHasThoseOfTheMenus(t *testing.T) {
	w := open(t, false)
	all := map[string]bool{}
	for _, g := range lesson.Keys() {
		for _, k := range g.Keys {
			for one := range strings.SplitSeq(k.Keys, " or ") {
				all[one] = true
			}
		}
	}
	for _, m := range everyMenu(w) {
		for _, item := range m.Items {
			k, ok := item.Shortcut.(*desktop.CustomShortcut)
			if !ok || k.Modifier == 0 || k.KeyName == fyne.KeyEqual || k.KeyName == fyne.KeyMinus {
				continue // + and − are told without Ctrl
			}
			words := "Ctrl + "
			if k.Modifier&fyne.KeyModifierShift != 0 {
				words += "Shift + "
			}
			require.True(t, all[words+string(k.KeyName)], "%s: %s%s", item.Label, words, k.KeyName)
		}
	}
}

// everyMenu is each menu with those that open from it.
func everyMenu(w *Window) []*fyne.Menu {
	all := slices.Clone(w.menus.main.Items)
	for i := 0; i < len(all); i++ {
		for _, item := range all[i].Items {
			if item.ChildMenu != nil {
				all = append(all, item.ChildMenu)
			}
		}
	}
	return all
}

// A menu does not roll along with the keys, so each has room in the lowest
// window: that of a screen of 800 dots at scale 2, below its frame and the bar.
func TestEveryMenuHasRoomAtScaleTwo(t *testing.T) {
	const frame, bar = 10, 26
	w := open(t, false)
	for i := range recentMost {
		w.remember(filepath.Join("somewhere", fmt.Sprintf("pattern %d.truemat", i)))
	}
	for _, m := range everyMenu(w) {
		require.LessOrEqual(t, widget.NewMenu(m).MinSize().Height, float32(800/2-frame-bar), "%s with %s first", m.Label, m.Items[0].Label)
	}
}

// One key goes through the units, whichever is in use.
func TestOneKeyGoesThroughTheUnits(t *testing.T) {
	w := open(t, false)
	var seen []unit.System
	for range 3 {
		for _, m := range everyMenu(w) {
			for _, item := range m.Items {
				if k, ok := item.Shortcut.(*desktop.CustomShortcut); ok && k.KeyName == fyne.KeyU {
					item.Action()
					seen = append(seen, w.unit)
				}
			}
		}
	}
	require.Equal(t, []unit.System{unit.Centimetres, unit.InchFractions, unit.Millimetres}, seen)
}

// Of the document that lay there before nothing is told any more.
func TestANewDocumentBeginsWithoutWordsOfTheOld(t *testing.T) {
	w := open(t, true)
	w.prompt.report("lace.truemat is saved.")
	require.NotEmpty(t, w.prompt.wrong.Text)
	w.rune('K')
	require.Equal(t, "chalk", w.tool().Name())
	w.typeIn(t, "text", "MINE")
	require.True(t, w.newTern())
	require.Empty(t, w.prompt.wrong.Text)
	require.Equal(t, "ALTERED", w.prompt.boxes["text"].(*entry).Text)
}
