package intake

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/intake/svg"
	"truemat/ops/pattern"
)

// Companion says what the lines of a drawing mean. It is read from a text
// file by [ReadCompanion]; the package comment describes the file.
type Companion struct {
	name      string
	sizes     []sizeSpec
	pieces    []*pieceSpec
	seams     []seamSpec
	lines     []lineSpec
	figures   []figureSpec
	fit       pattern.Fit
	ignore    []string
	allowance float64
	allowed   bool
	drawn     string // "cut", "sew" or not stated
	corners   geom.Angle
	size      svg.Options
}

type sizeSpec struct{ label, group, band, cup, wire string }

type figureSpec struct {
	name, size string
	mm         float64
	line       int
}

type seamSpec struct {
	line int
	seam pattern.Seam
}

type lineSpec struct {
	line int
	it   pattern.Line
}

type pieceSpec struct {
	line    int
	name    string
	from    []sizedName
	cut     pattern.Cut
	right   bool // drawn as the wearer's right
	arrow   arrowSpec
	corners geom.Angle
	joints  []jointSpec
	order   *orderSpec
	edges   []*edgeSpec
	meets   []meetSpec
	notches []notchSpec
	called  []calledSpec
}

// sizedName is a name that holds in one size, or in all when size is empty.
type sizedName struct{ name, size string }

type arrowSpec struct {
	given   bool
	kind    pattern.ArrowKind
	along   string // name of a line
	degrees float64
}

// place is a point in the units of the drawing, y down, or in shares of the
// piece's box from its left and its top.
type place struct {
	x, y  float64
	share bool
	size  string
}

type jointSpec struct {
	line   int
	smooth bool // take the joint away
	at     place
}

// orderSpec names the edges in order from a corner.
type orderSpec struct {
	line      int
	compass   string
	near      []place
	clockwise bool
	names     []string
}

type edgeSpec struct {
	line    int
	name    string
	near    []place
	role    pattern.Role
	allow   float64
	allowed bool
	free    bool
}

type meetSpec struct {
	line int
	a, b string
	end  pattern.CornerEnd
	of   string
}

type notchSpec struct {
	line int
	it   pattern.Notch
}

// calledSpec names the notches drawn on an edge, in its direction.
type calledSpec struct {
	line  int
	edge  string
	names []string
}

// Limits on a companion.
const (
	maxCompanion = 1 << 20 // bytes
	maxListed    = 2000    // pieces, edges, seams …
)

// ReadCompanion reads a companion. The error names the line and says what is
// understood there.
func ReadCompanion(r io.Reader) (*Companion, error) {
	c := &Companion{}
	sc := bufio.NewScanner(io.LimitReader(r, maxCompanion+1))
	sc.Buffer(nil, maxCompanion+2)
	var piece *pieceSpec
	read, line := 0, 0
	for sc.Scan() {
		line++
		if read += len(sc.Bytes()) + 1; read > maxCompanion {
			return nil, fmt.Errorf("the companion is longer than %d kB", maxCompanion>>10)
		}
		text := sc.Text()
		if line == 1 {
			text = strings.TrimPrefix(text, "\ufeff")
		}
		if strings.IndexByte(text, 0) >= 0 {
			return nil, fmt.Errorf("companion line %d: this is not a text file", line)
		}
		st, err := split(line, text)
		if err != nil {
			return nil, err
		}
		if st.done() {
			continue
		}
		if err := c.statement(st, &piece); err != nil {
			return nil, err
		}
	}
	if err := sc.Err(); err != nil {
		return nil, fmt.Errorf("cannot read the companion: %w", err)
	}
	return c, c.check()
}

func (c *Companion) statement(st *statement, piece **pieceSpec) error {
	key := st.words[0]
	st.next = 1
	if !key.quoted {
		if read, ok := topStatements[key.text]; ok && !(key.text == "corners" && *piece != nil) {
			*piece = nil
			return read(c, st)
		}
		if key.text == "piece" {
			p, err := c.piece(st)
			*piece = p
			return err
		}
		if read, ok := pieceStatements[key.text]; ok {
			if *piece == nil {
				return st.errorf("%q belongs to a piece; it stands after a line that starts with piece", key.text)
			}
			return read(*piece, st)
		}
	}
	return st.errorf("no statement starts with %q; there are piece, %s, and within a piece %s", key.text, words(sortedKeys(topStatements)), words(sortedKeys(pieceStatements)))
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

// check looks at what can only be known at the end of the file.
func (c *Companion) check() error {
	if len(c.pieces) > maxListed || len(c.seams) > maxListed || len(c.lines) > maxListed || len(c.sizes) > maxListed {
		return fmt.Errorf("the companion names more than %d things of a kind", maxListed)
	}
	labels := c.labels()
	sized := func(line int, size string) error {
		if size != "" && !slices.Contains(labels, size) {
			return fmt.Errorf("companion line %d: there is no size %q; there are %s", line, size, quoted(labels))
		}
		return nil
	}
	var errs []error
	for _, f := range c.figures {
		errs = append(errs, sized(f.line, f.size))
	}
	for _, p := range c.pieces {
		for _, f := range p.from {
			errs = append(errs, sized(p.line, f.size))
		}
		for _, j := range p.joints {
			errs = append(errs, sized(j.line, j.at.size))
		}
		for _, e := range p.edges {
			for _, n := range e.near {
				errs = append(errs, sized(e.line, n.size))
			}
		}
		if p.order != nil {
			for _, n := range p.order.near {
				errs = append(errs, sized(p.order.line, n.size))
			}
		}
	}
	if err := errors.Join(errs...); err != nil {
		return err
	}
	if len(c.pieces) == 0 && (len(c.seams) > 0 || len(c.lines) > 0) {
		return errors.New("the companion has seams or lines but names no piece")
	}
	return nil
}

func (c *Companion) labels() []string {
	labels := make([]string, len(c.sizes))
	for i, s := range c.sizes {
		labels[i] = s.label
	}
	return labels
}

// edge returns what is said of an edge, a new entry when nothing was yet.
func (p *pieceSpec) edge(name string, line int) *edgeSpec {
	for _, e := range p.edges {
		if e.name == name {
			return e
		}
	}
	e := &edgeSpec{line: line, name: name}
	p.edges = append(p.edges, e)
	return e
}

// in returns the place that holds in a size: its own, else the one for all.
func in(places []place, size string) (place, bool) {
	for _, want := range []string{size, ""} {
		for _, p := range places {
			if p.size == want {
				return p, true
			}
		}
	}
	return place{}, false
}
