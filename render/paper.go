package render

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Paper is a size of paper in mm, upright.
type Paper struct {
	Name          string
	Width, Height float64
}

// The papers with names (ISO 216; ANSI/ASME Y14.1 for letter). Both fits the
// smaller width and the smaller height of A4 and letter, so that its pages
// can be printed on either.
var (
	A4     = Paper{"A4", 210, 297}
	A3     = Paper{"A3", 297, 420}
	A0     = Paper{"A0", 841, 1189}
	Letter = Paper{"letter", 215.9, 279.4}
	Both   = Paper{"A4 or letter", 210, 279.4}
)

// namedPapers are the papers by the names under which they are asked for.
var namedPapers = []struct {
	name  string
	paper Paper
}{{"a4", A4}, {"letter", Letter}, {"both", Both}, {"a3", A3}, {"a0", A0}}

// minPaperSide and maxPageSide bound the sides of paper, in mm.
const minPaperSide = 50

// ParsePaper reads a4, letter, both, a3, a0, or a width and height in mm such
// as 900x2000.
func ParsePaper(s string) (Paper, error) {
	name := strings.ToLower(strings.TrimSpace(s))
	names := make([]string, len(namedPapers))
	for i, n := range namedPapers {
		if n.name == name {
			return n.paper, nil
		}
		names[i] = n.name
	}
	if w, h, ok := strings.Cut(strings.ReplaceAll(strings.TrimSuffix(name, "mm"), "×", "x"), "x"); ok {
		width, err1 := strconv.ParseFloat(strings.TrimSpace(w), 64)
		height, err2 := strconv.ParseFloat(strings.TrimSpace(h), 64)
		if err1 == nil && err2 == nil {
			p := Paper{fmt.Sprintf("%g × %g mm", width, height), width, height}
			return p, p.check()
		}
	}
	return Paper{}, fmt.Errorf("%q is not a paper; there are %s, and width x height in mm such as 900x2000", s, strings.Join(names, ", "))
}

func (p Paper) check() error {
	if !(p.Width >= minPaperSide && p.Height >= minPaperSide && p.Width <= maxPageSide && p.Height <= maxPageSide) {
		return fmt.Errorf("paper of %g × %g mm cannot be printed on; its sides must be %d to %.0f mm", p.Width, p.Height, minPaperSide, math.Floor(maxPageSide))
	}
	return nil
}

// Turned returns the paper lying on its side.
func (p Paper) Turned() Paper { return Paper{p.Name, p.Height, p.Width} }
