package window

import (
	"fmt"
	"image/color"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"truemat/ops/check"
	"truemat/ops/unit"
)

// sizeTable is the page of all checks in all sizes.
type sizeTable struct {
	w     *Window
	table check.Table
	full  bool // what holds in every size is listed too
	sheet *sheet
	told  *fyne.Container // about the cell that is pointed at or has the keys
	cells [][]*touch      // by row and column, nil where there is none and in rows not yet made
	rows  tableRows

	across *container.Scroll // where the table is wider than the window, else nil
	names  []*fyne.Container // of the rows made, and what is above them: they stay where the rest rolls across
}

const (
	tableName = 292 // width of the names of what is checked
	tableCell = 68
)

// sizesPage shows the checks of all sizes as a table.
func (w *Window) sizesPage() {
	var table check.Table
	work := w.desk.Tabulate()
	w.away(func() { table = work() }, func() {
		s := &sizeTable{w: w, table: table}
		s.show()
	})
}

func (s *sizeTable) show() {
	w := s.w
	columns := len(s.table.Columns)
	width := float32(tableName + columns*tableCell)
	room := w.win.Canvas().Size().Width - 80
	s.told, s.across = container.New(stack{}), nil
	heads := make([]*touch, columns)
	s.cells = [][]*touch{heads}
	head := container.New(line{}, gap(tableName, 1))
	s.names = []*fyne.Container{container.New(layered{}, canvas.NewRectangle(w.palette.Ground))}
	for i, col := range s.table.Columns {
		sign, ink := string(col.Worst), w.column.ink(col.Worst)
		told := "Size " + col.Size + ": " + columnWords(col)
		if col.Behind != "" {
			sign, ink = "behind", w.palette.Poor
		}
		b := s.cell(sign, col.Size, ink, col.Size == w.desk.Size(), told, func() { s.visit(col.Size, nil) })
		heads[i] = b
		head.Add(b)
	}
	s.steer(0, heads)
	var shown []check.Row
	holds := 0
	for _, r := range s.table.Rows {
		if r.Worst == check.Holds {
			holds++
			if !s.full {
				continue
			}
		}
		shown = append(shown, r)
	}
	list, least := s.list(shown, width), float32(160)
	if w.prompt.low() {
		least = 112 // so that what is told of a cell is seen below
	}
	var body fyne.CanvasObject = container.New(stack{gap: 4}, container.New(namedRow{s}, head, s.names[0]), rule(w.palette.Line), container.New(followed{layered{}, func() { veil(list) }}, w.within(list, width, 330, least)))
	if width > room {
		s.across = container.NewHScroll(container.New(stack{}, body, gap(0, scrollBar)))
		s.across.OnScrolled = func(fyne.Position) { s.placeNames() }
		tall := s.across.Content
		body, width = container.New(roomy{func() fyne.Size { return fyne.NewSize(room, tall.MinSize().Height) }}, s.across), room
	}
	counts := text(fmt.Sprintf("%d to look at, %d broken, %d hold in every size", s.table.Count(check.Look), s.table.Count(check.Broken), holds), normal, false, w.palette.Faint)
	word := "Show those that hold"
	if s.full {
		word = "Hide those that hold"
	}
	foot := container.New(line{gap: 12}, counts)
	if holds > 0 {
		foot.Add(w.link(word, func() { s.full = !s.full; s.show() }))
	}
	tall := container.New(layered{}, gap(width, 60), s.told)
	if behind := s.behind(); behind != "" {
		s.sheet = w.openSheet("The checks in every size", width, foot, body, para(behind, width, normal, false, w.palette.Poor), tall)
	} else {
		s.sheet = w.openSheet("The checks in every size", width, foot, body, tall)
	}
	at := w.win.Canvas().Size().Width
	s.sheet.room = func() {
		if w.sheet == s.sheet && w.win.Canvas().Size().Width != at {
			s.show()
		}
	}
	s.tell("Press a value to go to that size and place.", width)
	for i, col := range s.table.Columns {
		if col.Size == w.desk.Size() {
			w.win.Canvas().Focus(heads[i])
			s.rollTo(i)
		}
	}
}

// behind says which sizes are behind and why, those of one reason together.
func (s *sizeTable) behind() string {
	var reasons []string
	sizes := map[string][]string{}
	for _, c := range s.table.Columns {
		if c.Behind == "" {
			continue
		}
		if sizes[c.Behind] == nil {
			reasons = append(reasons, c.Behind)
		}
		sizes[c.Behind] = append(sizes[c.Behind], c.Size)
	}
	var lines []string
	for _, why := range reasons[:min(len(reasons), reasonsShown)] {
		lines = append(lines, "Behind: "+strings.Join(sizes[why], ", ")+". "+titled(why)+".")
	}
	if more := len(reasons) - reasonsShown; more > 0 {
		lines = append(lines, fmt.Sprintf("And %d more, each told at its size.", more))
	}
	return unit.Restate(strings.Join(lines, "\n"), s.w.unit)
}

// reasonsShown is how many reasons the table tells at once.
const reasonsShown = 3

func columnWords(c check.Column) string {
	switch {
	case c.Behind != "":
		return "it is behind; " + c.Behind + "."
	case c.Worst == check.Broken:
		return "a check is broken."
	case c.Worst == check.Look:
		return "something deserves a look."
	}
	return "all checks hold."
}

// row shows one check in every size, and returns its cells.
func (s *sizeTable) row(r check.Row) (*fyne.Container, []*touch) {
	w := s.w
	name := titled(r.What())
	if p := r.Place(); p != "" {
		name += ", " + p
	}
	of := ""
	if r.Unit != "" {
		of = " (" + tableUnit(r.Unit, w.unit) + ")"
	}
	room := tableName - 8 - fyne.MeasureText(of, normal, fyne.TextStyle{}).Width
	all := []fyne.CanvasObject{gap(tableName, 1)}
	cells := make([]*touch, len(r.Cells))
	var lengths []float64
	for _, c := range r.Cells {
		if c != nil {
			lengths = append(lengths, c.Measured)
		}
	}
	told := tableLengths(lengths, w.unit)
	for i, c := range r.Cells {
		if c == nil {
			none := text("–", normal, false, w.palette.Faint)
			all = append(all, container.New(atWidth{tableCell}, container.New(centred{}, none)))
			continue
		}
		size := s.table.Columns[i].Size
		figure := tableValue(*c, told[0])
		told = told[1:]
		cells[i] = s.cell(string(c.Verdict), figure, w.column.ink(c.Verdict), size == w.desk.Size(), size+": "+c.Text, func() { s.visit(size, c) })
		all = append(all, cells[i])
	}
	called := container.New(layered{}, canvas.NewRectangle(w.palette.Ground),
		container.New(line{}, container.New(atWidth{tableName}, text(shortened(name, room, normal)+of, normal, false, w.palette.Text))))
	return container.New(namedRow{s}, container.New(line{}, all...), called), cells
}

// tableUnit and tableValue write a measure as short as a table wants it: the
// unit once a row.
func tableUnit(measured string, u unit.System) string {
	if measured != "mm" {
		return measured
	}
	words := strings.Fields(unit.Format(1, u))
	return words[len(words)-1]
}

func tableValue(c check.Check, length string) string {
	switch c.Unit {
	case "":
		return fmt.Sprintf("%.0f", c.Measured)
	case "mm":
		return length
	case "%":
		return fmt.Sprintf("%.1f", c.Measured) // as its sentence tells it
	}
	return fmt.Sprintf("%.2f", c.Measured)
}

// tableLengths writes the lengths of a row without their unit; in inches all are
// fractions or none is, so that they can be compared.
func tableLengths(all []float64, u unit.System) []string {
	decimals := slices.ContainsFunc(all, func(mm float64) bool { return !unit.IsFraction(math.Round(mm*100) / 100) })
	told := make([]string, len(all))
	for i, mm := range all {
		mm = math.Round(mm*100)/100 + 0 // as sentences tell it, and never −0
		switch {
		case u == unit.Millimetres:
			told[i] = fmt.Sprintf("%.2f", mm)
		case u == unit.Centimetres:
			told[i] = fmt.Sprintf("%.3f", mm/10)
		case decimals:
			told[i] = fmt.Sprintf("%.3f", mm/unit.Inch)
		default:
			told[i] = strings.TrimSuffix(unit.Format(mm, u), " "+tableUnit("mm", u))
		}
	}
	return told
}

// cell is a sign and a figure that lead to a size.
func (s *sizeTable) cell(sign, figure string, ink color.NRGBA, shown bool, told string, tap func()) *touch {
	w := s.w
	face := container.New(line{gap: 4}, icon(sign, ink, 14), text(figure, 13, shown, w.palette.Text))
	wide := container.New(layered{}, gap(tableCell-8, 0), face)
	fill := color.Color(color.Transparent)
	if shown {
		fill = w.palette.Soft
	}
	b := newTouch(w.palette, wide, fill, 4, 4, tap)
	b.hover = func(in bool) {
		if in {
			s.tell(unit.Restate(told, w.unit), s.sheet.width)
		}
	}
	return b
}

func (s *sizeTable) tell(told string, width float32) {
	s.told.RemoveAll()
	s.told.Add(para(unit.Restate(told, s.w.unit), width, normal, false, s.w.palette.Text))
	s.told.Refresh()
}

// leave takes the keys from the cells: to the first that is none, with Shift to
// the last.
func (s *sizeTable) leave() {
	var others []fyne.Focusable
	for _, f := range reachable(s.sheet.pop.Content) {
		if !slices.ContainsFunc(s.cells, func(row []*touch) bool {
			return slices.ContainsFunc(row, func(b *touch) bool { return fyne.Focusable(b) == f })
		}) {
			others = append(others, f)
		}
	}
	if len(others) == 0 {
		return
	}
	to := others[0]
	if s.w.modifiers()&fyne.KeyModifierShift != 0 {
		to = others[len(others)-1]
	}
	s.w.win.Canvas().Focus(to)
}

// rollTo rolls a table that is wider than the window, by as little as is needed,
// until a column is seen beside the names.
func (s *sizeTable) rollTo(column int) {
	if s.across == nil {
		return
	}
	start, end := float32(column*tableCell), float32(tableName+(column+1)*tableCell)
	s.across.ScrollToOffset(fyne.NewPos(min(max(s.across.Offset.X, end-s.across.Size().Width), start), 0))
	s.placeNames()
}

// placeNames keeps the names of the rows in view where the table rolls across.
func (s *sizeTable) placeNames() {
	for _, n := range s.names {
		n.Move(s.rolledAcross())
	}
}

func (s *sizeTable) rolledAcross() fyne.Position {
	if s.across == nil {
		return fyne.Position{}
	}
	return fyne.NewPos(s.across.Offset.X, 0)
}

// namedRow lays out the cells of a row of the table and its name over them.
type namedRow struct{ *sizeTable }

func (r namedRow) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(size)
	lay(o[1], r.rolledAcross(), fyne.NewSize(tableName, size.Height))
}

func (namedRow) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize().Max(o[1].MinSize()) }

// visit shows a size, and the place of one of its checks.
func (s *sizeTable) visit(size string, c *check.Check) {
	s.sheet.close()
	if err := s.w.desk.SetSize(size); err != nil {
		s.w.prompt.say(err)
		return
	}
	s.w.keepShown()
	if c == nil {
		s.w.mat.FitAgain()
		return
	}
	s.w.column.open, s.w.column.folded = "", false
	s.w.build()
	s.w.column.showCheck(*c)
}
