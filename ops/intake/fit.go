package intake

import (
	"strings"

	"truemat/ops/pattern"
)

// wireStatement reads a wire of the table: its name, its length, and the play
// wanted where the wire line starts and, when it differs, where it ends.
func (c *Companion) wireStatement(st *statement) (err error) {
	var w pattern.Wire
	if w.Name, err = st.name("the wire's name"); err != nil {
		return err
	}
	if c.fit.Wire(w.Name) != nil {
		return st.errorf("wire %q is there twice", w.Name)
	}
	if w.Length, err = st.length("the length along the wire"); err != nil {
		return err
	}
	if st.accept("play") {
		if w.PlayStart, err = st.length("the play at the start of the wire line"); err != nil {
			return err
		}
		w.PlayEnd = w.PlayStart
		if !st.done() {
			if w.PlayEnd, err = st.length("the play at the end of the wire line"); err != nil {
				return err
			}
		}
	}
	c.fit.Wires = append(c.fit.Wires, w)
	return st.finish("play")
}

// fitStatement reads by how much the hem is shorter than the body, and what
// the closure adds to it.
func (c *Companion) fitStatement(st *statement) error {
	for !st.done() {
		var err error
		switch {
		case st.accept("reduction"):
			var text string
			if text, err = st.name("the reduction"); err == nil {
				v, ok := parseShare(text)
				if !ok || !strings.HasSuffix(text, "%") {
					return st.errorf("%q is no reduction; write it in per cent, as 9%%", text)
				}
				c.fit.Reduction = v * 100
			}
		case st.accept("closure"):
			c.fit.Closure, err = st.length("what the closure adds to the hem")
		default:
			return st.finish("reduction", "closure")
		}
		if err != nil {
			return err
		}
	}
	return nil
}
