package window

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"github.com/stretchr/testify/require"
	"truemat/ops/intake"
)

var bringOptions = intake.Options{Name: "open"}

func textOf(o fyne.CanvasObject) string {
	if t, ok := o.(*canvas.Text); ok {
		return t.Text
	}
	return ""
}

// texts returns what is written within an object.
func texts(o fyne.CanvasObject) []string {
	var all []string
	switch o := o.(type) {
	case *canvas.Text:
		all = append(all, o.Text)
	case *fyne.Container:
		for _, c := range o.Objects {
			all = append(all, texts(c)...)
		}
	case *container.Scroll:
		all = texts(o.Content)
	case *roll:
		all = texts(o.Content)
	case *touch:
		all = texts(o.body)
	}
	return all
}

func TestTextIsBrokenAtWords(t *testing.T) {
	width := func(s string) float32 { return float32(len(s)) }
	require.Equal(t, []string{"one two", "three", "extraordinary", "x"}, broken("one two three extraordinary x", 8, width))
	require.Equal(t, []string{"a", "b"}, broken("a\nb", 8, width))
	require.Equal(t, []string{""}, broken("", 8, width))
}

// entryHolding returns the field that shows a text.
func entryHolding(t *testing.T, o fyne.CanvasObject, shown string) *entry {
	t.Helper()
	for _, f := range reachable(o) {
		if e, ok := f.(*entry); ok && e.Text == shown {
			return e
		}
	}
	require.FailNow(t, "no field shows it", shown)
	return nil
}
