package render

import (
	"fmt"
	"math"

	"truemat/geom"
)

// tileGrid divides a large sheet into tiles of one size. The sheet has its
// origin at the upper left, x to the right, y up, so that it lies below 0.
// Neighbouring tiles share a strip; in the middle of it runs the glue line,
// where the one page is cut and laid on the other.
type tileGrid struct {
	paper         Paper // as it lies
	margin        float64
	overlap       float64
	width, height float64 // of what a tile shows
	dx, dy        float64 // from tile to tile
}

const (
	// DefaultMargin is left white around every page: home printers leave up
	// to about 6 mm.
	DefaultMargin = 10
	// DefaultOverlap is the width of the strip that neighbouring pages share.
	DefaultOverlap = 10

	// NoMargin asks for pages without a margin, for printers that reach the
	// paper's edge.
	NoMargin = -1

	minTileSide = 40 // the least that a tile must show beyond its strips, in mm
	minOverlap  = 4
)

func newGrid(paper Paper, margin, overlap float64) (tileGrid, error) {
	if err := paper.check(); err != nil {
		return tileGrid{}, err
	}
	if !(margin >= 0) {
		return tileGrid{}, fmt.Errorf("a margin of %g mm is not possible; give 0 or more", margin)
	}
	if !(overlap >= minOverlap) {
		return tileGrid{}, fmt.Errorf("an overlap of %g mm is too narrow to glue; give %d mm or more", overlap, minOverlap)
	}
	g := tileGrid{paper: paper, margin: margin, overlap: overlap, width: paper.Width - 2*margin, height: paper.Height - 2*margin}
	g.dx, g.dy = g.width-overlap, g.height-overlap
	if !(g.dx-overlap >= minTileSide && g.dy-overlap >= minTileSide) {
		return tileGrid{}, fmt.Errorf("%s with margins of %g mm and an overlap of %g mm leaves no room for the pattern; take larger paper, or a smaller margin or overlap", paper.Name, margin, overlap)
	}
	return g, nil
}

// sheetWidth returns the width that n columns of tiles show together.
func (g tileGrid) sheetWidth(n int) float64 { return float64(n-1)*g.dx + g.width }

// column returns the column of n that keeps x after gluing, row the row that
// keeps the depth v below the sheet's upper edge (rows have no last one).
func (g tileGrid) column(x float64, n int) int {
	return min(max(int(math.Floor((x-g.overlap/2)/g.dx)), 0), n-1)
}

func (g tileGrid) row(v float64) int { return max(int(math.Floor((v-g.overlap/2)/g.dy)), 0) }

// area returns what the tile in row r and column c shows, in the sheet's
// coordinates.
func (g tileGrid) area(r, c int) geom.Box {
	x, y := float64(c)*g.dx, -float64(r)*g.dy
	return geom.Box{Min: geom.Pt(x, y-g.height), Max: geom.Pt(x+g.width, y)}
}

// glueX and glueY return the glue lines before column c and above row r.
func (g tileGrid) glueX(c int) float64 { return float64(c)*g.dx + g.overlap/2 }
func (g tileGrid) glueY(r int) float64 { return -float64(r)*g.dy - g.overlap/2 }

// kept returns what is left of the tile after gluing, if all its neighbours
// in a grid of rows × cols are there.
func (g tileGrid) kept(r, c, rows, cols int) geom.Box {
	b := g.area(r, c)
	if c > 0 {
		b.Min.X = g.glueX(c)
	}
	if c < cols-1 {
		b.Max.X = g.glueX(c + 1)
	}
	if r > 0 {
		b.Max.Y = g.glueY(r)
	}
	if r < rows-1 {
		b.Min.Y = g.glueY(r + 1)
	}
	return b
}
