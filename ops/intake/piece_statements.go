package intake

import (
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

func (c *Companion) piece(st *statement) (*pieceSpec, error) {
	name, err := st.name("the piece's name")
	if err != nil {
		return nil, err
	}
	if slices.ContainsFunc(c.pieces, func(p *pieceSpec) bool { return p.name == name }) {
		return nil, st.errorf("piece %q is there twice", name)
	}
	p := &pieceSpec{line: st.line, name: name, cut: pattern.Cut{Count: 1}}
	c.pieces = append(c.pieces, p)
	if st.accept("from") {
		return p, p.fromStatement(st)
	}
	return p, st.finish("from")
}

// pieceStatements read the lines that belong to a piece.
var pieceStatements = map[string]func(*pieceSpec, *statement) error{
	"from":    (*pieceSpec).fromStatement,
	"cut":     (*pieceSpec).cutStatement,
	"arrow":   (*pieceSpec).arrowStatement,
	"edges":   (*pieceSpec).edgesStatement,
	"edge":    (*pieceSpec).edgeStatement,
	"corner":  (*pieceSpec).cornerStatement,
	"notch":   (*pieceSpec).notchStatement,
	"notches": (*pieceSpec).notchesStatement,
	"hand": func(p *pieceSpec, st *statement) error {
		hand, err := oneOf(st, "hand", []string{"left", "right"})
		if err != nil {
			return err
		}
		p.right = hand == "right"
		return st.finish()
	},
	"corners": func(p *pieceSpec, st *statement) (err error) {
		p.corners, err = cornerAngle(st)
		return err
	},
	"joint":  func(p *pieceSpec, st *statement) error { return p.jointStatement(st, false) },
	"smooth": func(p *pieceSpec, st *statement) error { return p.jointStatement(st, true) },
}

func (p *pieceSpec) fromStatement(st *statement) error {
	for {
		name, err := st.name("the name of a group or shape")
		if err != nil {
			return err
		}
		from := sizedName{name: name}
		if st.accept("in") {
			if from.size, err = st.name("the size"); err != nil {
				return err
			}
		}
		p.from = append(p.from, from)
		if !st.accept(",") {
			return st.finish("in")
		}
	}
}

func (p *pieceSpec) cutStatement(st *statement) (err error) {
	if p.cut.Count, err = st.count("how often it is cut"); err != nil {
		return err
	}
	for !st.done() {
		switch {
		case st.accept("pair"), st.accept("pairs"):
			p.cut.Pair = true
		case st.accept("layers"):
			p.cut.Layers, err = st.count("the layers")
		case st.accept("cloth"):
			p.cut.Cloth, err = st.name("the cloth")
		default:
			return st.finish("pair", "layers", "cloth")
		}
		if err != nil {
			return err
		}
	}
	return nil
}

var arrowKinds = []pattern.ArrowKind{pattern.Grain, pattern.MostStretch, pattern.LeastStretch}

func (p *pieceSpec) arrowStatement(st *statement) (err error) {
	p.arrow.given = true
	if p.arrow.kind, err = oneOf(st, "arrow", arrowKinds); err != nil {
		return err
	}
	if st.accept("along") {
		if p.arrow.along, err = st.name("the name of a drawn line"); err != nil {
			return err
		}
		return st.finish()
	}
	if p.arrow.degrees, err = st.number("the arrow's angle in degrees, or along with the name of a line"); err != nil {
		return err
	}
	return st.finish()
}

// near reads "X Y [in SIZE]" behind the word near.
func (st *statement) near() (place, error) {
	var p place
	shares := 0
	for _, v := range []*float64{&p.x, &p.y} {
		s, err := st.name("the place, as x and y")
		if err != nil {
			return p, err
		}
		f, ok := parseShare(s)
		if !ok || strings.Contains(s, "/") || !(f >= -geom.Reach && f <= geom.Reach) {
			return p, st.errorf("%q is not a coordinate; write two numbers in units of the drawing, or two percentages of the piece's width and height from its top left", s)
		}
		if strings.HasSuffix(s, "%") {
			shares++
		}
		*v = f
	}
	if shares == 1 {
		return p, st.errorf("a place has two numbers or two percentages, not one of each")
	}
	p.share = shares == 2
	if st.accept("in") {
		var err error
		if p.size, err = st.name("the size"); err != nil {
			return p, err
		}
	}
	return p, nil
}

func (p *pieceSpec) jointStatement(st *statement, smooth bool) error {
	if err := st.expect("near"); err != nil {
		return err
	}
	at, err := st.near()
	if err != nil {
		return err
	}
	p.joints = append(p.joints, jointSpec{st.line, smooth, at})
	return st.finish("in")
}

// compass gives, for each named place of a box, its shares of the width from
// the left and of the height from the bottom; −1 where any will do.
var compass = map[string][2]float64{
	"top-left": {0, 1}, "top-right": {1, 1}, "bottom-left": {0, 0}, "bottom-right": {1, 0},
	"top": {-1, 1}, "bottom": {-1, 0}, "left": {0, -1}, "right": {1, -1},
}

func (p *pieceSpec) edgesStatement(st *statement) error {
	if p.order != nil {
		return st.errorf("the edges of %s were put in order in line %d already", p.name, p.order.line)
	}
	o := &orderSpec{line: st.line}
	o.clockwise = st.accept("clockwise")
	if err := st.expect("from"); err != nil {
		return err
	}
	if st.accept("near") {
		for {
			at, err := st.near()
			if err != nil {
				return err
			}
			o.near = append(o.near, at)
			if !st.accept(",") {
				break
			}
		}
	} else {
		name, err := oneOf(st, "corner to start from", append(sortedKeys(compass), "near"))
		if err != nil {
			return err
		}
		o.compass = name
	}
	if err := st.expect(":"); err != nil {
		return err
	}
	for !st.done() {
		name, err := st.name("an edge")
		if err != nil {
			return err
		}
		if slices.Contains(o.names, name) {
			return st.errorf("edge %q is there twice", name)
		}
		o.names = append(o.names, name)
		st.accept(",")
	}
	if len(o.names) == 0 {
		return st.errorf("the edges are missing")
	}
	p.order = o
	return nil
}

func (p *pieceSpec) edgeStatement(st *statement) error {
	name, err := st.name("the edge's name")
	if err != nil {
		return err
	}
	e := p.edge(name, st.line)
	for !st.done() {
		switch {
		case st.accept("near"):
			var at place
			if at, err = st.near(); err == nil {
				e.near = append(e.near, at)
			}
		case st.accept("role"):
			e.role, err = oneOf(st, "role", pattern.Roles)
		case st.accept("allow"):
			e.allowed = true
			e.allow, err = allowance(st)
		case st.accept("free"):
			e.free = true
		case st.accept(","):
		default:
			return st.finish("near", "role", "allow", "free")
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (p *pieceSpec) cornerStatement(st *statement) (err error) {
	m := meetSpec{line: st.line}
	if m.a, err = st.name("the first edge"); err != nil {
		return err
	}
	if m.b, err = st.name("the second edge"); err != nil {
		return err
	}
	if err = st.expect(":"); err != nil {
		return err
	}
	if m.end, err = oneOf(st, "corner end", pattern.CornerEnds); err != nil {
		return err
	}
	if m.end != pattern.RunsOn && m.end != pattern.Blunt {
		if m.of, err = st.name("the edge that the corner end refers to"); err != nil {
			return err
		}
		if m.of != m.a && m.of != m.b {
			return st.errorf("the corner end refers to %q or %q, not %q", m.a, m.b, m.of)
		}
	}
	p.meets = append(p.meets, m)
	return st.finish()
}

func (p *pieceSpec) notchStatement(st *statement) (err error) {
	n := notchSpec{line: st.line}
	if n.it.Name, err = st.name("the notch's name"); err != nil {
		return err
	}
	if err = st.expect("on"); err != nil {
		return err
	}
	if n.it.Edge, err = st.name("the edge"); err != nil {
		return err
	}
	if err = st.expect("at"); err != nil {
		return err
	}
	s, err := st.name("a length or a percentage")
	if err != nil {
		return err
	}
	if v, ok := parseShare(s); ok && strings.HasSuffix(s, "%") && v >= 0 && v <= 1 {
		n.it.Share = v
	} else if n.it.MM, err = unit.Parse(s); err != nil {
		return st.errorf("the notch's place: %w", err)
	}
	for !st.done() {
		switch {
		case st.accept("from"):
			n.it.From, err = oneOf(st, "end", []pattern.EndName{pattern.Start, pattern.End})
		case st.accept("double"):
			n.it.Double = true
		default:
			return st.finish("from start", "from end", "double")
		}
		if err != nil {
			return err
		}
	}
	p.notches = append(p.notches, n)
	return nil
}

func (p *pieceSpec) notchesStatement(st *statement) error {
	if err := st.expect("on"); err != nil {
		return err
	}
	called := calledSpec{line: st.line}
	var err error
	if called.edge, err = st.name("the edge"); err != nil {
		return err
	}
	if err := st.expect(":"); err != nil {
		return err
	}
	for !st.done() {
		name, err := st.name("a notch")
		if err != nil {
			return err
		}
		called.names = append(called.names, name)
		st.accept(",")
	}
	p.called = append(p.called, called)
	return nil
}
