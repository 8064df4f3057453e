package render

import (
	"fmt"
	"io"
	"strings"

	"truemat/geom"
)

// Leaflet is a document of a few pages with text, tables and small pictures.
type Leaflet struct {
	Title    string
	Subtitle string
	Paper    Paper
	Parts    []Part
}

// Part is a part of a leaflet that stands below the one before it.
type Part interface{ set(s *setter) }

// Heading begins a section; it stands with what follows it.
type Heading string

// Words is a paragraph.
type Words string

// Small is a picture as wide as the page, with words above and a line below it.
type Small struct {
	Lead    string
	Picture Drawing
	Height  float64 // at most, in mm
	Least   float64 // to which it may be made smaller to fit on the page; 0 not to
	Caption string
}

// Table is a table; columns are as wide as their text needs, the last takes
// what is left.
type Table struct {
	Head []string
	Rows [][]string
}

// Drawing draws itself as large as fits into a box of the page, in mm.
type Drawing func(geom.Box) Layer

const (
	leafMargin = 15.0 // mm
	leafText   = 2.1  // height of capitals
	leafLine   = 4.1
	leafHead   = 3.2
	leafGap    = 3.5
	tableGap   = 4.0 // between columns
)

// WriteLeaflet writes a leaflet as a PDF.
func WriteLeaflet(w io.Writer, l Leaflet) error {
	pages, err := l.Pages()
	if err != nil {
		return err
	}
	pdf := newPDF(l.Title)
	for _, page := range pages {
		pdf.page(l.Paper.Width, l.Paper.Height)
		for _, layer := range page.Layers {
			pdf.draw(layer, geom.Point{})
		}
	}
	return pdf.finish(w)
}

// Pages sets a leaflet on its pages, each a scene of the size of the paper.
func (l Leaflet) Pages() ([]Scene, error) {
	if err := l.Paper.check(); err != nil {
		return nil, err
	}
	if l.Paper.Width < leafNarrowest || l.Paper.Height < leafNarrowest {
		return nil, fmt.Errorf("paper of %s is too small for the sheet; take A4 or letter", l.Paper.Name)
	}
	s := &setter{width: l.Paper.Width - 2*leafMargin, height: l.Paper.Height - 2*leafMargin - leafLine}
	s.page()
	s.title(l.Title, l.Subtitle)
	for i, p := range l.Parts {
		if _, ok := p.(Heading); ok && i+1 < len(l.Parts) {
			// A heading never stands alone at the foot of a page.
			s.room(leafHead*2.4 + leafGap + s.least(l.Parts[i+1]))
		}
		if words, ok := p.(Words); ok && i+1 < len(l.Parts) && strings.HasSuffix(string(words), ":") {
			// Nor do words that lead to what follows.
			s.room(float64(len(wrap(string(words), leafText, false, s.width)))*leafLine + leafGap + s.least(l.Parts[i+1]))
		}
		p.set(s)
	}
	var pages []Scene
	for i, page := range s.pages {
		foot := Label{Text: fmt.Sprintf("%s · page %d of %d", l.Title, i+1, len(s.pages)), At: geom.Pt(leafMargin+s.width, leafMargin-2), Height: 1.7, Anchor: Right, Color: grey}
		body := page.Transform(geom.Shift(geom.Pt(leafMargin, leafMargin+leafLine)))
		body.Labels = append(body.Labels, foot)
		pages = append(pages, Scene{Box: geom.Box{Max: geom.Pt(l.Paper.Width, l.Paper.Height)}, Layers: []Layer{body}})
	}
	return pages, nil
}

// leafNarrowest is the shortest side of paper that a sheet is set on, in mm.
const leafNarrowest = 130

// setter sets parts on pages, from the top down.
type setter struct {
	width, height float64
	y             float64 // what is free below
	pages         []Layer
}

func (s *setter) page() {
	s.pages = append(s.pages, Layer{Name: "page"})
	s.y = s.height
}

// room starts a page when less than h mm are left on this one.
func (s *setter) room(h float64) {
	if s.y < h && s.y < s.height {
		s.page()
	}
}

func (s *setter) add(l Layer) {
	last := &s.pages[len(s.pages)-1]
	*last = last.with(l)
}

func (s *setter) line(text string, x, height float64, bold bool) {
	s.add(Layer{Labels: []Label{{Text: text, At: geom.Pt(x, s.y), Height: height, Color: black, Bold: bold}}})
}

func (s *setter) title(title, subtitle string) {
	h := narrowed(title, 6.5, leafHead, true, s.width)
	for _, line := range wrap(title, h, true, s.width) {
		s.y -= h * 1.45
		s.line(line, 0, h, true)
	}
	s.y -= 1.5
	for _, line := range wrap(subtitle, 2.4, false, s.width) {
		s.y -= 5
		s.line(line, 0, 2.4, false)
	}
	s.y -= leafGap
}

func (h Heading) set(s *setter) {
	if s.y < s.height {
		s.y -= leafGap
	}
	s.y -= leafHead * 1.4
	s.line(string(h), 0, leafHead, true)
	s.y -= leafHead * 0.6
	rule := Figure{Kind: Furniture, Path: polyline(geom.Pt(0, s.y), geom.Pt(s.width, s.y)), Pen: Pen{Width: 0.2, Color: faint}}
	s.add(Layer{Figures: []Figure{rule}})
	s.y -= leafGap * 0.4
}

func (t Words) set(s *setter) {
	if n := len(wrap(string(t), leafText, false, s.width)); n <= shortWords {
		s.room(float64(n) * leafLine)
	}
	s.paragraph(string(t), 0, s.width)
	s.y -= leafGap * 0.4
}

// paragraph writes text x mm from the left, width mm wide.
func (s *setter) paragraph(text string, x, width float64) {
	for _, line := range wrap(text, leafText, false, width) {
		s.room(leafLine)
		s.y -= leafLine
		s.line(line, x, leafText, false)
	}
}

func (p Small) set(s *setter) {
	h := s.high(p)
	lead := 0.0
	if p.Lead != "" {
		lead = float64(len(wrap(p.Lead, leafText, false, s.width)))*leafLine + leafGap
	}
	if left := s.y - lead - 2*leafLine; p.Least > 0 && left >= p.Least {
		h = min(h, left)
	}
	s.room(lead + h + leafLine)
	if p.Lead != "" {
		if s.y < s.height {
			s.y -= leafGap * 0.6
		}
		s.paragraph(p.Lead, 0, s.width)
		s.y -= leafGap * 0.4
	}
	s.add(p.Picture(geom.Box{Min: geom.Pt(0, s.y-h), Max: geom.Pt(s.width, s.y)}))
	s.y -= h
	if p.Caption != "" {
		s.paragraph(p.Caption, 0, s.width)
	}
	s.y -= leafGap * 0.4
}

// high returns how tall a picture is in the width of the page, at most as tall
// as it may be.
func (s *setter) high(p Small) float64 {
	h := min(p.Height, s.height-leafLine)
	drawn := layersBox([]Layer{p.Picture(geom.Box{Max: geom.Pt(s.width, h)})})
	if drawn.Empty() {
		return h
	}
	return min(h, drawn.Height()+2*beforeAfterRim)
}

// columns returns the left ends and widths of a table's columns.
func (t Table) columns(total float64) (x, width []float64) {
	n := len(t.Head)
	x, width = make([]float64, n), make([]float64, n)
	for i := range n {
		width[i] = TextWidth(t.Head[i], leafText, true)
		for _, row := range t.Rows {
			width[i] = max(width[i], TextWidth(row[i], leafText, false))
		}
	}
	sum := tableGap * float64(n-1)
	for _, w := range width {
		sum += w
	}
	// What is too wide is taken from the widest column, whose text is broken.
	for sum > total {
		widest := 0
		for i := range width {
			if width[i] > width[widest] {
				widest = i
			}
		}
		cut := min(sum-total, width[widest]*0.25)
		if cut < 0.01 {
			break
		}
		width[widest] -= cut
		sum -= cut
	}
	for i := 1; i < n; i++ {
		x[i] = x[i-1] + width[i-1] + tableGap
	}
	return x, width
}

func (t Table) set(s *setter) {
	x, width := t.columns(s.width)
	var row func(cells []string, bold bool)
	head := func() {
		row(t.Head, true)
		s.y -= 0.8
		s.add(Layer{Figures: []Figure{{Kind: Furniture, Path: polyline(geom.Pt(0, s.y), geom.Pt(s.width, s.y)), Pen: Pen{Width: 0.15, Color: faint}}}})
	}
	row = func(cells []string, bold bool) {
		lines := make([][]string, len(cells))
		most := 1
		for i, c := range cells {
			lines[i] = wrap(c, leafText, bold, width[i]+0.01)
			most = max(most, len(lines[i]))
		}
		if page := len(s.pages); !bold {
			s.room(float64(most) * leafLine)
			if len(s.pages) > page {
				head() // what runs on has its head again
			}
		}
		top := s.y
		for i := range cells {
			for k, text := range lines[i] {
				s.add(Layer{Labels: []Label{{Text: text, At: geom.Pt(x[i], top-float64(k+1)*leafLine), Height: leafText, Color: black, Bold: bold}}})
			}
		}
		s.y = top - float64(most)*leafLine
	}
	s.room(s.least(t))
	head()
	for _, cells := range t.Rows {
		row(cells, false)
	}
	s.y -= leafGap * 0.6
}

// least returns the height that a part needs at the least to begin.
func (s *setter) least(p Part) float64 {
	switch p := p.(type) {
	case Small:
		if h := s.high(p); p.Least == 0 || h < p.Least {
			return h + leafLine
		}
		return p.Least + 2*leafLine + 1
	case Entries:
		return min(s.rowHeight(p[:min(s.columns(), len(p))]), s.height/2)
	case Table:
		if len(p.Rows) <= shortTable {
			return float64(len(p.Rows)+1)*leafLine + 0.8
		}
		return 4 * leafLine
	}
	return 2 * leafLine
}

// shortWords is the number of lines up to which a paragraph stays on one page.
const shortWords = 4

// shortTable is the number of rows up to which a table stays on one page.
const shortTable = 6

// leastRead is the height of capitals in mm below which print is not read.
const leastRead = 1.15
