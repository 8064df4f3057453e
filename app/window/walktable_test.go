package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"truemat/app/tool"
)

// The column shows the walk from notch to notch while it is walked, with the
// ease as it would be; a row leads to where it ends.
func TestWalkIsShownAsATable(t *testing.T) {
	w := open(t, false)
	test.Tap(w.trayAt(t, "walk"))
	told := func() string { return strings.Join(texts(w.column.list), " ") }
	assert.NotContains(t, told(), "below apex")
	w.prompt.set("seam", "vertical seam")
	assert.Contains(t, told(), "start to below apex")
	assert.Contains(t, told(), "In all")
	assert.Contains(t, told(), "along inner cup, along lower and upper outer cup", "both sides by name")
	assert.Contains(t, told(), "inner cup lower and upper outer cup ", "and the head of the table has them whole")
	w.shoot(t, "walk-head")
	assert.NotContains(t, told(), "ease 1.00")
	w.prompt.set("page", "the ease")
	w.prompt.set("between", "start to below apex")
	w.prompt.set("ease", "1 mm")
	assert.Contains(t, told(), "ease 1.00")

	for _, f := range reachable(w.column.list) {
		if b, ok := f.(*touch); ok && b.name == "walk row 0" {
			test.Tap(b)
		}
	}
	table, ok := w.walkTable()
	require.True(t, ok)
	for _, f := range w.tool().Fields() {
		if f.Name == "walked" {
			assert.Equal(t, w.column.write(table.Rows[0].A), f.Text)
		}
	}
	w.desk.Select(tool.Selection{Piece: "band"})
	assert.NotContains(t, told(), "start to below apex", "what is selected goes first")
}
