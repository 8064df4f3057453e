package render

import (
	"fmt"

	"truemat/geom"
)

// Entry is a numbered paragraph with what is said below it, and maybe a picture
// beside it.
type Entry struct {
	Number  int
	Text    string
	Below   []string
	Picture Drawing // none when nil
}

// Entries are set in two columns and read row by row.
type Entries []Entry

const (
	entryGap    = 6.0  // between the columns
	entryIndent = 6.5  // of what stands right of the number
	entryWide   = 30.0 // of the picture of an entry
	entryHigh   = 20.0
	entryBelow  = 3.5  // between entries
	entryNarrow = 75.0 // the narrowest column
)

func (all Entries) set(s *setter) {
	n := s.columns()
	for i := 0; i < len(all); i += n {
		row := all[i:min(i+n, len(all))]
		high := s.rowHeight(row)
		if high > s.height {
			s.running(row)
			continue
		}
		s.room(high)
		for k, e := range row {
			s.entry(e, float64(k)*(s.columnWide()+entryGap))
		}
		s.y -= high + entryBelow
	}
	s.y += entryBelow - leafGap*0.4
}

// columns returns how many columns of entries the page has room for.
func (s *setter) columns() int {
	if s.width < 2*entryNarrow+entryGap {
		return 1
	}
	return 2
}

func (s *setter) columnWide() float64 {
	n := float64(s.columns())
	return (s.width - (n-1)*entryGap) / n
}

// running sets entries that are taller than a page as paragraphs that run on.
func (s *setter) running(row []Entry) {
	for _, e := range row {
		s.paragraph(fmt.Sprintf("%d  %s", e.Number, e.Text), 0, s.width)
		for _, b := range e.Below {
			s.paragraph(b, entryIndent, s.width-entryIndent)
		}
		s.y -= entryBelow
	}
}

// rowHeight returns how tall the tallest of entries is.
func (s *setter) rowHeight(row []Entry) float64 {
	high := 0.0
	for _, e := range row {
		text, below := s.lines(e)
		h := float64(len(text)) * leafLine
		if e.Picture != nil {
			h = max(h, entryHigh)
		}
		high = max(high, h+float64(len(below))*leafLine)
	}
	return high
}

// lines breaks the text of an entry, which stands beside its picture, and what
// is said below both.
func (s *setter) lines(e Entry) (text, below []string) {
	width := s.columnWide() - entryIndent
	for _, b := range e.Below {
		below = append(below, wrap(b, leafText, false, width)...)
	}
	if e.Picture != nil {
		width -= entryWide + leafGap
	}
	return wrap(e.Text, leafText, true, width), below
}

// entry writes an entry x mm from the left, without taking room.
func (s *setter) entry(e Entry, x float64) {
	text, below := s.lines(e)
	y, left := s.y, x+entryIndent
	put := func(line string, bold bool) {
		y -= leafLine
		s.add(Layer{Labels: []Label{{Text: line, At: geom.Pt(left, y), Height: leafText, Color: black, Bold: bold}}})
	}
	s.add(Layer{Labels: []Label{{Text: fmt.Sprint(e.Number), At: geom.Pt(left-2.2, y-leafLine), Height: leafText, Anchor: Right, Color: black, Bold: true}}})
	if e.Picture != nil {
		s.add(e.Picture(geom.Box{Min: geom.Pt(left, y-entryHigh+1), Max: geom.Pt(left+entryWide, y-1)}))
		left += entryWide + leafGap
	}
	for _, line := range text {
		put(line, true)
	}
	if e.Picture != nil {
		y, left = min(y, s.y-entryHigh), x+entryIndent
	}
	for _, line := range below {
		put(line, false)
	}
}
