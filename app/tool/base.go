package tool

import (
	"encoding/json"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// Finisher is a tool whose act may be complete by itself, such as a piece
// dragged and let go: its proposal need not be asked about.
type Finisher interface {
	// Done reports whether the proposal is to be accepted at once.
	Done() bool
	// Held reports whether letting go will complete the act.
	Held() bool
}

// Abandoner is a tool that does several kinds of work: abandoning one of them
// leaves the tool set to its kind.
type Abandoner interface {
	// Abandon drops what was begun, as Reset does, but for the kind of work; it
	// reports whether there was anything to drop.
	Abandon() bool
}

// Abandon drops what a tool has begun, as Escape does.
func Abandon(t Tool) bool {
	if a, ok := t.(Abandoner); ok {
		return a.Abandon()
	}
	return t.Reset()
}

// Stayer is a tool that may go on where it was once its steps are kept.
type Stayer interface {
	// Stays reports whether it has something in hand still.
	Stays() bool
}

// Teller is a tool that tells in its own words what its proposal alters.
type Teller interface {
	// Tells gives what is told, the weightiest first; none leaves it to the
	// lengths that change.
	Tells() []string
}

// Tracer is a tool that wants to be seen what lies under pieces.
type Tracer interface {
	// Traced names the pieces that are shown as if of tracing paper.
	Traced() map[string]bool
}

// base is what the tools share: the table, what the pointer is over and the
// finger that keys move.
type base struct {
	table Table
	over  Pointing
	walk  Finger
}

func (b *base) pattern() pattern.Pattern { return b.table.Pattern() }

// hover remembers what the pointer is over.
func (b *base) hover(e Event, ask Ask) (Pointing, bool) {
	pt, ok := Point(b.pattern(), e.At, e.Reach, ask)
	b.over = pt
	return pt, ok
}

// pointed shows and names what the pointer is over, which a press would take,
// and what the walk is at.
func (b *base) pointed(o *Overlay) {
	p := b.pattern()
	if b.over.Kind != 0 {
		o.Show(p, b.over, Pointed)
		o.Notes = append(o.Notes, Note{b.over.At, b.over.label(p)})
	}
	if at, ok := b.walk.At(p); ok {
		o.Show(p, at, Pointed)
		o.Notes = append(o.Notes, Note{at.At, at.label(p)})
	}
}

// Unpoint lets go of what the keys point at, so that they begin at what is selected.
func (b *base) Unpoint() { b.walk.Reset() }

// drop leaves the walk and what the pointer is over; it reports whether there
// was a walk.
func (b *base) drop() bool {
	b.over = Pointing{}
	return b.walk.Reset()
}

// label names a thing in words.
func (pt Pointing) label(p pattern.Pattern) string {
	switch pt.Kind {
	case OnEdge:
		return pt.Edge + " of " + pt.Piece
	case OnInner:
		return "line " + pt.Inner + " in " + pt.Piece
	case OnCrossing:
		on := pt.Spot.Crosses.Through[0]
		whose := on.Edge
		if on.Piece != pt.Piece {
			whose += " of " + on.Piece
		}
		return pt.Edge + " of " + pt.Piece + ", where the line of the " + whose + " crosses it"
	case OnNotch:
		return pattern.NotchWords(pt.Notch) + " of " + pt.Piece
	case OnJoint:
		if pc := p.Piece(pt.Piece); pc != nil {
			return cornerLabel(pc, pt) + " of " + pt.Piece
		}
	}
	return pt.Piece
}

// cornerLabel names a joint by the two edges that meet there.
func cornerLabel(pc *pattern.Piece, pt Pointing) string {
	i := pc.EdgeIndex(pt.Edge)
	if i < 0 {
		return pt.Edge
	}
	if pt.Spot.From == pattern.End {
		i = pc.Next(i)
	}
	return "corner of " + pc.Edges[pc.Prev(i)].Name + " and " + pc.Edges[i].Name
}

// endWords tells which end of an edge is meant by the edge it meets there.
func endWords(p pattern.Pattern, e step.EdgeEnd) string {
	if pc := p.Piece(e.Piece); pc != nil {
		if meets := pc.Meets(e.Edge, e.End); meets != "" {
			return "at the " + meets
		}
	}
	return "at its " + string(e.End)
}

// trial remembers what trying steps gave, so that asking again costs nothing.
type trial struct {
	key   string
	piece *pattern.Piece // the first one tells one replayed pattern from another
	res   step.Result
	err   error
}

// of returns what the steps would do, in the size shown.
func (c *trial) of(t Table, steps ...step.Step) (step.Result, error) {
	p := t.Pattern()
	key, err := json.Marshal(steps)
	if err != nil || len(p.Pieces) == 0 {
		return t.Try(steps...)
	}
	k := t.Size() + string(key)
	if c.key != k || c.piece != &p.Pieces[0] {
		c.key, c.piece = k, &p.Pieces[0]
		c.res, c.err = t.Try(steps...)
	}
	return c.res, c.err
}

// figure returns a figure that the last step of a result reported.
func figure(r step.Result, name string) float64 {
	if len(r.Reports) == 0 {
		return 0
	}
	return r.Reports[len(r.Reports)-1].Figures[name]
}

// extent is a box around all pieces as they lie on the mat.
func extent(p pattern.Pattern) geom.Box {
	box := geom.NoBox()
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		for j := range pc.Edges {
			box = box.Union(pc.Edges[j].Path.Transform(pc.Pose).Bounds())
		}
	}
	return box
}

// across returns the line as a stroke that runs through all that lies on the mat.
func across(p pattern.Pattern, l geom.Line) (geom.Path, error) {
	box := extent(p)
	if box.Empty() {
		box = geom.BoxOf(l.Point)
	}
	c := l.Along(box.Center())
	r := box.Width() + box.Height() + lineBeyond
	return geom.Polyline(l.At(c-r), l.At(c+r))
}

// lineBeyond is how far in mm a datum is drawn beyond what lies on the mat.
const lineBeyond = 50
