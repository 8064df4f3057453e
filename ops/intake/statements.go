package intake

import (
	"slices"
	"strconv"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
)

// topStatements read the lines that do not belong to a piece.
var topStatements = map[string]func(*Companion, *statement) error{
	"pattern": func(c *Companion, st *statement) (err error) {
		if c.name, err = st.name("the pattern's name"); err != nil {
			return err
		}
		return st.finish()
	},
	"drawn": func(c *Companion, st *statement) error {
		line, err := oneOf(st, "drawn line", []string{"cut", "sew"})
		c.drawn = line
		if err != nil {
			return err
		}
		st.accept("line")
		return st.finish()
	},
	"allowance": func(c *Companion, st *statement) (err error) {
		c.allowed = true
		if c.allowance, err = allowance(st); err != nil {
			return err
		}
		return st.finish()
	},
	"corners": func(c *Companion, st *statement) (err error) {
		c.corners, err = cornerAngle(st)
		return err
	},
	"unit": func(c *Companion, st *statement) (err error) {
		if c.size.Scale, err = st.length("the length of one unit"); err != nil {
			return err
		}
		return st.finish()
	},
	"known": func(c *Companion, st *statement) (err error) {
		if c.size.Known.Name, err = st.name("the name of a line of known length"); err != nil {
			return err
		}
		if c.size.Known.MM, err = st.length("the known length"); err != nil {
			return err
		}
		return st.finish()
	},
	"ignore": func(c *Companion, st *statement) error {
		for {
			name, err := st.name("the name of what is ignored")
			if err != nil {
				return err
			}
			c.ignore = append(c.ignore, name)
			st.accept(",")
			if st.done() {
				return nil
			}
		}
	},
	"size":   (*Companion).sizeStatement,
	"wire":   (*Companion).wireStatement,
	"fit":    (*Companion).fitStatement,
	"figure": (*Companion).figureStatement,
	"seam":   (*Companion).seamStatement,
	"line":   (*Companion).lineStatement,
}

func allowance(st *statement) (float64, error) {
	v, err := st.length("the allowance")
	if err == nil && !(v >= 0 && v <= pattern.MaxAllowance) {
		err = st.errorf("an allowance of %g mm is not between 0 and %d", v, pattern.MaxAllowance)
	}
	return v, err
}

func cornerAngle(st *statement) (geom.Angle, error) {
	deg, err := st.number("the least angle of a corner, in degrees")
	if err != nil {
		return 0, err
	}
	if !(deg > 0 && deg < 180) {
		return 0, st.errorf("the least angle of a corner is between 0 and 180 degrees, not %g", deg)
	}
	return geom.Angle(deg) * geom.Degree, st.finish()
}

func (c *Companion) sizeStatement(st *statement) (err error) {
	var s sizeSpec
	if s.label, err = st.name("the size's label"); err != nil {
		return err
	}
	if slices.Contains(c.labels(), s.label) {
		return st.errorf("size %q is there twice", s.label)
	}
	for !st.done() {
		switch {
		case st.accept("in"):
			s.group, err = st.name("the size's group")
		case st.accept("band"):
			s.band, err = st.name("the band")
		case st.accept("cup"):
			s.cup, err = st.name("the cup")
		case st.accept("wire"):
			s.wire, err = st.name("the size's wire")
		default:
			return st.finish("in", "band", "cup", "wire")
		}
		if err != nil {
			return err
		}
	}
	c.sizes = append(c.sizes, s)
	return nil
}

func (c *Companion) figureStatement(st *statement) (err error) {
	f := figureSpec{line: st.line}
	if f.name, err = st.name("the figure's name"); err != nil {
		return err
	}
	if f.mm, err = st.length("the figure"); err != nil {
		return err
	}
	if st.accept("in") {
		if f.size, err = st.name("the size"); err != nil {
			return err
		}
	}
	c.figures = append(c.figures, f)
	return st.finish("in")
}

func (c *Companion) seamStatement(st *statement) (err error) {
	s := seamSpec{line: st.line}
	if s.seam.Name, err = st.name("the seam's name"); err != nil {
		return err
	}
	if err = st.expect(":"); err != nil {
		return err
	}
	if s.seam.A, err = parts(st); err != nil {
		return err
	}
	if err = st.expect("="); err != nil {
		return err
	}
	b, err := parts(st)
	if err != nil {
		return err
	}
	// Two pieces laid seam to seam run past each other.
	for _, pt := range b {
		s.seam.B = append(s.seam.B, pt.Backwards())
	}
	if st.accept("ease") {
		if s.seam.Ease, err = st.length("the ease"); err != nil {
			return err
		}
	}
	c.seams = append(c.seams, s)
	return st.finish("mirrored", "reversed", "from", "ease")
}

var lineKinds = []pattern.LineKind{pattern.LineWire, pattern.LineHem, pattern.LineNeckline, pattern.LineUnderarm}

func (c *Companion) lineStatement(st *statement) (err error) {
	l := lineSpec{line: st.line}
	if l.it.Name, err = st.name("the line's name"); err != nil {
		return err
	}
	if l.it.Kind, err = oneOf(st, "kind of line", lineKinds); err != nil {
		return err
	}
	if st.accept("count") {
		if l.it.Count, err = st.count("the count"); err != nil {
			return err
		}
	}
	if err = st.expect(":"); err != nil {
		return err
	}
	if l.it.Parts, err = parts(st); err != nil {
		return err
	}
	c.lines = append(c.lines, l)
	return st.finish("mirrored", "reversed", "from")
}

// parts reads "EDGE of PIECE [mirrored] [reversed] [from SHARE to SHARE], …".
func parts(st *statement) ([]pattern.Part, error) {
	var list []pattern.Part
	for {
		edge, err := st.name("an edge")
		if err != nil {
			return nil, err
		}
		if err := st.expect("of"); err != nil {
			return nil, err
		}
		piece, err := st.name("a piece")
		if err != nil {
			return nil, err
		}
		pt := pattern.Whole(piece, edge)
		reversed := false
	words:
		for {
			switch {
			case st.accept("mirrored"):
				pt.Mirrored = true
			case st.accept("reversed"):
				reversed = true
			case st.accept("from"):
				if pt.From, err = share(st); err != nil {
					return nil, err
				}
				if err = st.expect("to"); err != nil {
					return nil, err
				}
				if pt.To, err = share(st); err != nil {
					return nil, err
				}
			default:
				break words
			}
		}
		if reversed {
			pt = pt.Backwards()
		}
		list = append(list, pt)
		if !st.accept(",") {
			return list, nil
		}
	}
}

// share reads a share of an edge as 0.25, 1/4 or 25%.
func share(st *statement) (float64, error) {
	s, err := st.name("a share of the edge")
	if err != nil {
		return 0, err
	}
	v, ok := parseShare(s)
	if !ok || !(v >= 0 && v <= 1) {
		return 0, st.errorf("%q is not a share of an edge; write 0.25, 1/4 or 25%%", s)
	}
	return v, nil
}

func parseShare(s string) (float64, bool) {
	if p, ok := strings.CutSuffix(s, "%"); ok {
		v, err := strconv.ParseFloat(p, 64)
		return v / 100, err == nil
	}
	over, under, fraction := strings.Cut(s, "/")
	v, err := strconv.ParseFloat(over, 64)
	if err != nil || !fraction {
		return v, err == nil
	}
	u, err := strconv.ParseFloat(under, 64)
	return v / u, err == nil
}
