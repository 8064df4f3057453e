package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/ops/step"
)

// drawn lists the words that an object shows.
func drawn(o fyne.CanvasObject) (all []string) {
	for _, x := range test.LaidOutObjects(o) {
		if t, ok := x.(*canvas.Text); ok && t.Text != "" && t.Visible() {
			all = append(all, t.Text)
		}
	}
	return all
}

// What is picked is shown whole, or shortened with an ellipsis and then told
// whole; the list that opens has room for every option.
func TestChoicesTellEverythingWhole(t *testing.T) {
	w := open(t, false)
	require.NoError(t, w.desk.Accept(&step.Rename{Piece: "bridge", To: "bridge between the cups, lengthened by the breadth of a hand and then narrowed"}))
	for _, scale := range []float32{1, 2} {
		w.win.Canvas().(test.WindowlessCanvas).SetScale(scale)
		w.choose(0)
		w.desk.Select(tool.Selection{Piece: "cradle"})
		for _, f := range w.tool().Fields() {
			if f.Name == "lay" {
				w.prompt.set("lay", f.Options[1])
			}
		}
		require.NoError(t, w.prompt.said)
		cut := 0
		for _, b := range w.prompt.boxes {
			c, ok := b.(*choice)
			if !ok {
				continue
			}
			whole := strings.Join(drawn(c), "") == c.Selected
			require.Equal(t, whole, !c.cut(), "%q shows %q", c.Selected, drawn(c))
			if !whole {
				cut++
				require.True(t, strings.HasSuffix(drawn(c)[0], "…"), drawn(c))
				for _, in := range []func(){func() { c.MouseIn(&desktop.MouseEvent{}) }, c.FocusGained} {
					in()
					require.Equal(t, titled(c.Selected)+".", w.prompt.hint.Text)
					c.MouseOut()
					c.FocusLost()
					require.NotEqual(t, titled(c.Selected)+".", w.prompt.hint.Text)
				}
			}
			pop := c.open()
			require.GreaterOrEqual(t, pop.Size().Width, c.Size().Width)
			for _, o := range c.Options {
				require.Contains(t, drawn(pop), o)
				require.LessOrEqual(t, fyne.MeasureText(o, normal, fyne.TextStyle{}).Width, pop.Size().Width)
			}
			require.LessOrEqual(t, pop.Position().X+pop.Size().Width, w.win.Canvas().Size().Width)
			pop.close()
		}
		require.Positive(t, cut)
	}
}

// Long hints and errors go on in further lines, and nothing above the tray
// covers them.
func TestLongHintsAreToldWhole(t *testing.T) {
	w := open(t, true)
	for range 5 {
		w.undo()
	}
	require.NoError(t, (&sitting{Window: w}).cuttingOff())
	whole := func(first *canvas.Text, more [moreLines]*canvas.Text) string {
		s := first.Text
		for _, l := range more {
			require.LessOrEqual(t, l.MinSize().Width, float32(1280-2*promptPad))
			s = strings.TrimSpace(s + " " + l.Text)
		}
		return s
	}
	require.Equal(t, w.tool().Hint(), whole(w.prompt.hint, w.prompt.hints))
	require.NotEmpty(t, w.prompt.hints[0].Text)
	live := w.prompt.live
	require.LessOrEqual(t, w.prompt.hint.Position().X+w.prompt.hint.MinSize().Width, live.Position().X)
	last := w.prompt.hints[0]
	require.LessOrEqual(t, w.prompt.top.Position().Y+last.Position().Y+last.MinSize().Height, w.prompt.row.Position().Y+w.prompt.fields.Position().Y)
	require.InDelta(t, topHeight+hintHeight*filledLines(w.prompt.hints), w.prompt.top.Size().Height, 0.5)
	w.abandon()
	w.choose(0)
	require.Empty(t, w.prompt.hints[0].Text)
	require.InDelta(t, topHeight, w.prompt.top.Size().Height, 0.5)
}

func TestListsOpenWithinTheWindow(t *testing.T) {
	for _, c := range []struct{ y, list, at, tall float32 }{
		{100, 300, 130, 300},
		{700, 300, 400, 300},
		{700, 900, 4, 696},
		{100, 900, 130, 666},
	} {
		at, tall := beneathOrAbove(c.y, 30, c.list, 800)
		require.Equal(t, c.at, at)
		require.Equal(t, c.tall, tall)
	}
}

// What is picked shows whole where the row has room for it.
func TestWhatIsPickedIsNotCutWhereThereIsRoom(t *testing.T) {
	w := open(t, false)
	w.choose(0)
	w.desk.Select(tool.Selection{Piece: "cradle"})
	for _, f := range w.tool().Fields() {
		if f.Name == "lay" {
			w.prompt.set("lay", f.Options[1])
		}
	}
	c := w.prompt.boxes["lay"].(*choice)
	require.Greater(t, c.whole, float32(widestChoice))
	require.Equal(t, []string{c.Selected}, drawn(c))
}
