package window

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/pattern"
)

// would tells, below figures of what is selected, that something else is
// proposed; it is hidden while nothing is.
type would struct {
	box  *fyne.Container
	said string
}

// tall is the height of what is told, 0 while nothing is.
func (t would) tall() float32 {
	if !t.box.Visible() {
		return 0
	}
	return t.box.MinSize().Height
}

// wouldRow adds the place where it is told what would become of the selected.
func (c *column) wouldRow() {
	c.would = would{box: container.New(stack{})}
	c.would.box.Hide()
	c.add(c.would.box)
	c.followWould()
}

// followWould tells it as it is now.
func (c *column) followWould() {
	said := c.wouldBe()
	if c.would.box == nil || said == c.would.said {
		return
	}
	tall := c.would.tall()
	c.would.said = said
	c.would.box.RemoveAll()
	if said == "" {
		c.would.box.Hide()
	} else {
		c.would.box.Add(para(said, columnInner, normal, false, c.w.palette.Text))
		c.would.box.Show()
	}
	if c.would.box.Refresh(); c.would.tall() != tall {
		c.list.Layout.Layout(c.list.Objects, c.list.Size())
		c.list.Refresh()
	}
}

// wouldBe says what the proposal makes of the length of the edge that is
// selected, or that the lengths of the piece are those of now; "" when it
// leaves them as they are.
func (c *column) wouldBe() string {
	s, shown := c.w.desk.Selection(), c.w.shown
	now := c.w.desk.Pattern()
	was, is := now.Piece(s.Piece), (pattern.Pattern{Pieces: shown.pieces}).Piece(s.Piece)
	if !shown.asked || shown.err != nil || was == nil || is == nil || s.Notch != "" || s.Inner != "" || s.Joint {
		return ""
	}
	if s.Edge == "" {
		for i := range was.Edges {
			if e := is.Edge(was.Edges[i].Name); e == nil || math.Abs(e.Length()-was.Edges[i].Length()) > toldLonger {
				return "As it is now, not as proposed:"
			}
		}
		return ""
	}
	a, b := was.Edge(s.Edge), is.Edge(s.Edge)
	if a == nil || b == nil || math.Abs(a.Length()-b.Length()) <= toldLonger {
		return ""
	}
	if sewn, edges := (pattern.Pattern{Pieces: shown.pieces, Seams: shown.seams}).AsSewn(s.Piece, s.Edge); len(edges) > 1 {
		return fmt.Sprintf("That is now. With the dart sewn it would be %s, in %d stretches, this one %s.", c.write(sewn), len(edges), c.write(b.Length()))
	}
	return "That is now; it would be " + c.write(b.Length()) + "."
}

// toldLonger is the least difference of a length in mm that is told.
const toldLonger = 0.005
