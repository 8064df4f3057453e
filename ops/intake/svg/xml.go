package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
)

const (
	nsSVG   = "http://www.w3.org/2000/svg"
	nsXLink = "http://www.w3.org/1999/xlink"
)

// element is one element of the file with its line.
type element struct {
	name     string // local name
	foreign  bool   // of another namespace than SVG
	attrs    []xml.Attr
	text     []byte
	title    string
	line     int
	children []*element
	// first and last bound the serial numbers of the element and all in it.
	first, last int
}

// attr returns the value of an attribute without namespace.
func (e *element) attr(name string) (string, bool) {
	for _, a := range e.attrs {
		if a.Name.Space == "" && a.Name.Local == name {
			return a.Value, true
		}
	}
	return "", false
}

func (e *element) get(name string) string {
	v, _ := e.attr(name)
	return v
}

// data returns the attributes data-…, nil when there are none.
func (e *element) data() map[string]string {
	var all map[string]string
	for _, a := range e.attrs {
		if name, ok := strings.CutPrefix(a.Name.Local, "data-"); ok && a.Name.Space == "" {
			if all == nil {
				all = map[string]string{}
			}
			all[name] = a.Value
		}
	}
	return all
}

// href returns the reference of a use element: SVG 2 writes it without a
// namespace, SVG 1.1 in that of XLink.
func (e *element) href() string {
	if v, ok := e.attr("href"); ok {
		return strings.TrimSpace(v)
	}
	for _, a := range e.attrs {
		if a.Name.Local == "href" && (a.Name.Space == nsXLink || a.Name.Space == "xlink") {
			return strings.TrimSpace(a.Value)
		}
	}
	return ""
}

// label returns the name that a drawing program shows for the element.
func (e *element) label() string {
	for _, a := range e.attrs {
		if a.Name.Local == "label" && strings.TrimSpace(a.Value) != "" {
			return strings.TrimSpace(a.Value)
		}
	}
	return ""
}

// holds reports whether x is e or lies in it.
func (e *element) holds(x *element) bool { return x.first >= e.first && x.last <= e.last }

func (e *element) allText() string {
	var b strings.Builder
	b.Write(e.text)
	for _, c := range e.children {
		b.WriteString(" " + c.allText())
	}
	return b.String()
}

// otherKind tells files of other kinds by how they begin, "" when none of those.
func otherKind(data []byte) string {
	for begin, kind := range map[string]string{
		"\x89PNG": "a picture (PNG)", "\xff\xd8\xff": "a picture (JPEG)", "GIF8": "a picture (GIF)", "RIFF": "a picture (WebP)",
		"%PDF": "a PDF", "%!PS": "a PostScript file", "PK\x03\x04": "a packed file (zip)",
	} {
		if bytes.HasPrefix(data, []byte(begin)) {
			return kind
		}
	}
	return ""
}

// parseXML reads the whole file within the limits and returns the svg element.
func parseXML(r io.Reader) (*element, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	switch {
	case err != nil:
		return nil, fmt.Errorf("cannot read the drawing: %w", err)
	case len(data) > MaxBytes:
		return nil, fmt.Errorf("the drawing is larger than %d MB", MaxBytes>>20)
	case len(bytes.TrimSpace(data)) == 0:
		return nil, errors.New("the file is empty; an SVG drawing is wanted")
	case bytes.HasPrefix(data, []byte{0x1f, 0x8b}):
		return nil, errors.New("the file is compressed (.svgz); save it as plain SVG")
	}
	if kind := otherKind(data); kind != "" {
		return nil, fmt.Errorf("the file is %s, whatever its name says; bring in an SVG drawing of it, its lines traced in a drawing program", kind)
	}
	dec := xml.NewDecoder(bytes.NewReader(data))
	dec.CharsetReader = charset
	var root *element
	var stack []*element
	count := 0
	for {
		line, _ := dec.InputPos()
		tok, err := dec.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			var syntax *xml.SyntaxError
			if errors.As(err, &syntax) {
				if strings.HasPrefix(syntax.Msg, "unexpected EOF") {
					return nil, fmt.Errorf("line %d: the drawing ends too early; take an undamaged copy of it", syntax.Line)
				}
				return nil, fmt.Errorf("line %d: not an SVG drawing, or a broken one: %s", syntax.Line, syntax.Msg)
			}
			return nil, fmt.Errorf("line %d: not an SVG drawing, or a broken one: %w", line, err)
		}
		switch t := tok.(type) {
		case xml.Directive:
			if bytes.Contains(bytes.ToUpper(t), []byte("<!ENTITY")) {
				return nil, fmt.Errorf("line %d: the file declares entities, which are not read; save it as plain SVG", line)
			}
		case xml.StartElement:
			if count++; count > MaxElements {
				return nil, fmt.Errorf("line %d: the drawing has more than %d elements", line, MaxElements)
			}
			if len(stack) >= MaxDepth {
				return nil, fmt.Errorf("line %d: elements are nested more than %d deep", line, MaxDepth)
			}
			e := &element{
				name:    t.Name.Local,
				foreign: t.Name.Space != "" && t.Name.Space != nsSVG && t.Name.Space != "svg",
				attrs:   t.Copy().Attr,
				line:    line,
				first:   count,
			}
			if len(stack) > 0 {
				up := stack[len(stack)-1]
				up.children = append(up.children, e)
			} else if root == nil {
				root = e
				if e.name != "svg" || e.foreign {
					return nil, fmt.Errorf("line %d: not an SVG drawing: it starts with <%s>, not <svg>", line, e.name)
				}
			}
			stack = append(stack, e)
		case xml.EndElement:
			e := stack[len(stack)-1]
			e.last = count
			stack = stack[:len(stack)-1]
			if e.name == "title" && !e.foreign && len(stack) > 0 {
				if up := stack[len(stack)-1]; up.title == "" {
					up.title = strings.Join(strings.Fields(e.allText()), " ")
				}
			}
		case xml.CharData:
			if len(stack) > 0 {
				if up := stack[len(stack)-1]; holdsText(up.name) {
					up.text = append(up.text, t...)
				}
			} else if len(bytes.TrimSpace(bytes.TrimPrefix(t, []byte("\ufeff")))) > 0 {
				return nil, fmt.Errorf("line %d: not an SVG drawing: text outside of it", line)
			}
		}
	}
	if root == nil {
		return nil, errors.New("not an SVG drawing: there is no <svg> in it")
	}
	return root, nil
}

func holdsText(name string) bool {
	switch name {
	case "title", "text", "tspan", "textPath", "style", "a":
		return true
	}
	return false
}

// charset reads the one-byte encodings that are still met; XML itself knows UTF-8.
func charset(label string, in io.Reader) (io.Reader, error) {
	switch strings.ToLower(label) {
	case "utf-8", "utf8":
		return in, nil
	case "us-ascii", "ascii", "iso-8859-1", "latin1":
		b, err := io.ReadAll(in)
		if err != nil {
			return nil, err
		}
		var s strings.Builder
		for _, c := range b {
			s.WriteRune(rune(c))
		}
		return strings.NewReader(s.String()), nil
	}
	return nil, fmt.Errorf("the encoding %q is not read; save the drawing in UTF-8", label)
}
