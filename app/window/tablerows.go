package window

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/check"
)

// tableRows are the rows of the table of checks. There may be hundreds, of a
// dozen cells each: a row is made when it first comes near the view, and is
// hidden where it is out of it.
type tableRows struct {
	of    []check.Row
	boxes *fyne.Container // one for each row
	high  float32         // of a row
	roll  *container.Scroll
}

// list shows rows in a width, below the heads of the columns.
func (s *sizeTable) list(of []check.Row, width float32) *container.Scroll {
	s.cells = append(s.cells[:1], make([][]*touch, len(of))...)
	if len(of) == 0 {
		s.rows = tableRows{}
		none := container.New(inset{0, 8}, gap(0, 0), text("Every check holds in every size.", normal, false, s.w.palette.Text))
		s.names = append(s.names, none)
		return container.NewVScroll(container.New(namedRow{s}, gap(width, 0), none))
	}
	like, _ := s.row(of[0])
	high := up(like.MinSize().Height)
	boxes := container.New(rowsOf{s, fixed(fyne.NewSize(width, high*float32(len(of))))})
	for i := range of {
		box := container.New(layered{})
		box.Hide()
		lay(box, fyne.NewPos(0, high*float32(i)), fyne.NewSize(width, high))
		boxes.Objects = append(boxes.Objects, box)
	}
	s.rows = tableRows{of, boxes, high, container.NewVScroll(boxes)}
	s.rows.roll.OnScrolled = func(fyne.Position) { veil(s.rows.roll) }
	return s.rows.roll
}

// rowsOf lays out the rows of a table.
type rowsOf struct {
	*sizeTable
	fixed
}

// view shows the rows that are in view or next to it.
func (s rowsOf) view(y, high float32) {
	r := s.rows
	first, last := int(y/r.high)-rowsAround, int((y+high)/r.high)+rowsAround
	keys, _ := s.w.win.Canvas().Focused().(*touch)
	for i, box := range r.boxes.Objects {
		switch {
		case first <= i && i <= last:
			s.made(i + 1)
		case box.Visible() && (keys == nil || !slices.Contains(s.cells[i+1], keys)):
			box.Hide()
		}
	}
}

// rowsAround is how many rows are shown above and below those in view.
const rowsAround = 2

// made returns the cells of a row of the table, the heads for 0, and shows them.
func (s *sizeTable) made(y int) []*touch {
	if y > 0 && s.cells[y] == nil {
		row, cells := s.row(s.rows.of[y-1])
		s.cells[y] = cells
		s.names = append(s.names, row.Objects[1].(*fyne.Container))
		s.steer(y, cells)
		rolls(row, s.rows.roll)
		s.rows.boxes.Objects[y-1].(*fyne.Container).Add(row)
	}
	if y > 0 {
		s.rows.boxes.Objects[y-1].Show()
	}
	return s.cells[y]
}

// steer lets the arrow keys go from the cells of a row to others, and Tab to the
// words above them all.
func (s *sizeTable) steer(y int, row []*touch) {
	step := map[fyne.KeyName][2]int{fyne.KeyLeft: {0, -1}, fyne.KeyRight: {0, 1}, fyne.KeyUp: {-1, 0}, fyne.KeyDown: {1, 0}}
	for x, b := range row {
		if b == nil {
			continue
		}
		b.leave = s.leave
		b.arrows = func(k fyne.KeyName) {
			by := step[k]
			for y, x := y+by[0], x+by[1]; y >= 0 && y < len(s.cells) && x >= 0 && x < len(row); y, x = y+by[0], x+by[1] {
				if next := s.made(y)[x]; next != nil {
					s.w.win.Canvas().Focus(next)
					s.rollTo(x)
					return
				}
			}
		}
	}
}
