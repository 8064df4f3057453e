package svg

import (
	"errors"
	"fmt"
	"io"
	"math"

	"truemat/geom"
)

// Limits on a drawing. They are far above any real pattern and keep a
// hostile file from holding up the machine.
const (
	MaxBytes    = 32 << 20 // size of the file
	MaxDepth    = 100      // elements inside elements
	MaxElements = 200_000  // elements, copies made by use included
	MaxSegments = 500_000  // lines and curves, copies included
)

// Options says how large the drawing is when the drawing itself does not say
// so, or says it wrongly. At most one of Scale and Known is given.
type Options struct {
	// Scale is the length in mm of one unit of the outermost coordinate
	// system; 0 takes it from the drawing.
	Scale float64
	// Known names a shape of known length.
	Known Known
}

// Known is a shape, by id, label or title, and the true length of its lines in mm.
type Known struct {
	Name string
	MM   float64
}

// Drawing is what was read.
type Drawing struct {
	Nodes   []Node
	Labels  []Label
	LeftOut []LeftOut
	// Notes says what the reader took for granted about the size.
	Notes []string
	Data  map[string]string // of the outermost element, as in a Node
	page  matrix
}

// Place returns the place in mm, y up, of a point in the outermost
// coordinate system of the drawing as it is written in the file, y down.
func (d Drawing) Place(x, y float64) geom.Point { return d.page.apply(geom.Pt(x, y)) }

// Node is a group with its children or a shape with its lines.
type Node struct {
	Kind     string // name of the element
	ID       string
	Label    string // attribute with the local name label, of any namespace
	Title    string // text of a title child
	Line     int    // line in the file
	Serial   int    // tells nodes of a drawing apart, copies made by use too
	Class    string
	Data     map[string]string // attributes data-…, without that beginning
	Paths    []geom.Path
	Children []Node
}

// Name returns what a person would call the node: its label, else its id,
// else its title, else its element and line.
func (n Node) Name() string {
	for _, s := range []string{n.Label, n.ID, n.Title} {
		if s != "" {
			return s
		}
	}
	return fmt.Sprintf("%s in line %d", n.Kind, n.Line)
}

// Named reports whether name is the id, the label or the title of the node.
func (n Node) Named(name string) bool {
	return name != "" && (n.ID == name || n.Label == name || n.Title == name)
}

// Length returns the length in mm of the lines of the node itself.
func (n Node) Length() float64 {
	sum := 0.0
	for _, p := range n.Paths {
		sum += p.Length()
	}
	return sum
}

// Walk calls f for every node with the groups around it, outermost first,
// until f returns false.
func (d Drawing) Walk(f func(n Node, around []Node) bool) { walk(d.Nodes, nil, f) }

func walk(nodes, around []Node, f func(Node, []Node) bool) bool {
	for _, n := range nodes {
		if !f(n, around) || !walk(n.Children, append(around[:len(around):len(around)], n), f) {
			return false
		}
	}
	return true
}

// Find returns the first node with that id, label or title.
func (d Drawing) Find(name string) (Node, bool) {
	var found Node
	ok := false
	d.Walk(func(n Node, _ []Node) bool {
		if n.Named(name) {
			found, ok = n, true
		}
		return !ok
	})
	return found, ok
}

// Label is writing on the drawing.
type Label struct {
	Text string
	At   geom.Point
	ID   string
	Line int
}

// LeftOut is something of the drawing that was not taken, or not in full.
type LeftOut struct {
	Kind   string // name of the element
	ID     string
	Line   int
	Reason string
	// Before is what path data drew before the fault in it.
	Before []geom.Path
}

func (l LeftOut) String() string {
	if l.ID != "" {
		return fmt.Sprintf("line %d: %s %q: %s", l.Line, l.Kind, l.ID, l.Reason)
	}
	return fmt.Sprintf("line %d: %s: %s", l.Line, l.Kind, l.Reason)
}

// ErrNoSize is the error, wrapped, for a drawing without physical size.
var ErrNoSize = errors.New("the drawing does not say how large it is: its width and height have no unit such as mm or in; give the true length of one of its lines, or the length of one unit")

// Read reads a drawing. The error says in which line what is wrong: not an
// SVG drawing, broken XML, entities declared in the file, a limit passed, no
// size (see [ErrNoSize]).
func Read(r io.Reader, opt Options) (Drawing, error) {
	if err := opt.check(); err != nil {
		return Drawing{}, err
	}
	root, err := parseXML(r)
	if err != nil {
		return Drawing{}, err
	}
	page, view, notes, err := pageOf(root, opt.Scale)
	sized := err == nil
	if opt.Known.Name == "" && !sized {
		return Drawing{}, err
	}
	if !sized && !errors.Is(err, ErrNoSize) {
		return Drawing{}, err
	}
	if opt.Known.Name != "" {
		trial, err := build(root, page, view)
		if err != nil {
			return Drawing{}, err
		}
		n, ok := trial.Find(opt.Known.Name)
		if !ok {
			return Drawing{}, fmt.Errorf("the drawing has no shape %q to take the size from", opt.Known.Name)
		}
		length := n.Length()
		if !(length > 0) {
			return Drawing{}, fmt.Errorf("%q has no lines to take the size from; name a line or a shape, not a group", opt.Known.Name)
		}
		f := opt.Known.MM / length
		if sized && math.Abs(f-1) > 0.002 {
			notes = append(notes, fmt.Sprintf("by the size of the page %q is %.2f mm long; everything was scaled by %.5g to make it %.2f mm", opt.Known.Name, length, f, opt.Known.MM))
		}
		page = page.then(matrix{f, 0, 0, f, 0, 0})
	}
	d, err := build(root, page, view)
	if err != nil {
		return Drawing{}, err
	}
	d.Notes = append(notes, d.Notes...)
	return d, nil
}

func (o Options) check() error {
	for _, v := range []float64{o.Scale, o.Known.MM} {
		if !(v >= 0 && v <= geom.Reach) {
			return fmt.Errorf("a scale or known length of %g cannot be; give millimetres", v)
		}
	}
	switch {
	case o.Scale > 0 && o.Known.Name != "":
		return errors.New("give the scale or a known length, not both")
	case (o.Known.MM > 0) != (o.Known.Name != ""):
		return errors.New("a known length needs the name of a shape and its length in mm, over 0")
	}
	return nil
}
