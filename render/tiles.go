package render

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/cloth/border"
	"truemat/ops/unit"
)

// Print is what is to be printed in tiles at true size.
type Print struct {
	Pattern   string // the pattern's name
	Sizes     []SizePieces
	Paper     Paper
	Margin    float64       // white around every page in mm; 0 stands for DefaultMargin, see NoMargin
	Overlap   float64       // shared by neighbouring pages in mm; 0 stands for DefaultOverlap
	FoldWhole bool          // pieces on a fold unfolded
	Units     unit.System   // in which what is written is told, mm when empty
	On        []Common      // what of a piece lies on itself in all sizes; see NestScene for the others
	Altered   Alteration    // how it was altered
	Doubts    *check.Doubts // what does not hold in what is printed; nil where that is not told
	Date      string        // of the print, as it is written; none when empty
	// Laces are the plans, by the label of a size, of the laces whose border is
	// drawn along the lace edges; none when that is not asked for.
	Laces map[string][]border.Plan
}

// Plan says how a print is laid out on pages.
type Plan struct {
	Paper      Paper // as it lies
	Rows, Cols int
	Covers     int    // pages before the first tile
	Tiles      []Page // those that are printed, row by row
	Joints     []Joint
	Pieces     []Placed

	grid  tileGrid
	nests []*nest
	cover *placing // where the cover lies on the sheet, when it has no page of its own
}

// Pages returns the number of pages with the covers.
func (p Plan) Pages() int { return p.Covers + len(p.Tiles) }

// Page is a printed page with a tile of the sheet.
type Page struct {
	Row, Col int // from 0, at the upper left
	Number   int // from 1, covers included
	Area     geom.Box
}

// Joint is a glue line between two tiles.
type Joint struct {
	Letter string // empty where it is loose
	First  int    // indices into Tiles: the left or upper one
	Second int
	Upper  bool          // First lies above Second, not beside it
	Loose  bool          // no piece lies on both sides of it, so that it need not be glued
	at     [2]float64    // where along the glue line the almonds lie, as shares
	words  [2]stripWords // on the strip of the first, of the second
}

// Placed says where a piece lies on the sheet, whose origin is at the upper
// left and whose y points up.
type Placed struct {
	Name string
	Move geom.Motion // of the piece in its first size
}

// maxPages bounds a print.
const maxPages = 1000

// bigSheet is the side of paper in mm above which the cover shares the sheet
// with the pieces.
const bigSheet = 400

// PlanTiles lays a print out on pages. An error says what is wrong with the
// paper, or which piece cannot be drawn.
func PlanTiles(doc Print) (Plan, error) {
	grids, err := doc.grids()
	if err != nil {
		return Plan{}, err
	}
	nests, err := nestPieces(doc.Sizes, doc.On)
	if err != nil {
		return Plan{}, err
	}
	var items []item
	var outlines, borders [][]geom.Path
	for _, n := range nests {
		n.base = n.upright()
		for i, label := range n.label {
			n.laces[i] = doc.Laces[label]
		}
		cuts, along, pts, err := n.outline(doc.FoldWhole)
		if err != nil {
			return Plan{}, err
		}
		outlines, borders = append(outlines, cuts), append(borders, along)
		items = append(items, newItem(pts, 0, 2, 1, 3))
	}
	shared := min(grids[0].paper.Width, grids[0].paper.Height) >= bigSheet
	if shared {
		items = append(items, newItem(walkPoints(rectangle(geom.Box{Max: coverOnSheet}), 1), 0))
	}
	a, ok := arrange(items, grids)
	if !ok || a.pages > maxPages {
		return Plan{}, fmt.Errorf("the pattern would need more than %d pages of %s; take larger paper", maxPages, doc.Paper.Name)
	}
	plan := Plan{Paper: a.grid.paper, Cols: a.cols, grid: a.grid, nests: nests}
	var cuts, lines []geom.Path
	for i, n := range nests {
		m := a.places[i].motion()
		plan.Pieces = append(plan.Pieces, Placed{n.name, n.base.Then(m)})
		for _, c := range outlines[i] {
			cuts = append(cuts, c.Transform(m))
		}
		for _, l := range borders[i] {
			lines = append(lines, l.Transform(m))
		}
	}
	all := cuts
	if shared {
		plan.cover = &a.places[len(nests)]
		all = append(all, rectangle(geom.Box{Max: coverOnSheet}).Transform(plan.cover.motion()))
	}
	plan.choose(all, lines)
	plan.join(cuts, lines)
	if !shared {
		plan.number(doc)
	}
	return plan, nil
}

func (doc Print) options() Options {
	return Options{Pattern: doc.Pattern, FoldWhole: doc.FoldWhole, Units: doc.Units}
}

// grids returns the paper upright and lying, when they differ.
func (doc Print) grids() ([]tileGrid, error) {
	margin, overlap := doc.Margin, doc.Overlap
	switch margin {
	case 0:
		margin = DefaultMargin
	case NoMargin:
		margin = 0
	}
	if overlap == 0 {
		overlap = DefaultOverlap
	}
	upright, err := newGrid(doc.Paper, margin, overlap)
	if err != nil {
		return nil, err
	}
	if doc.Paper.Width == doc.Paper.Height {
		return []tileGrid{upright}, nil
	}
	lying, err := newGrid(doc.Paper.Turned(), margin, overlap)
	if err != nil {
		return nil, err
	}
	return []tileGrid{upright, lying}, nil
}

// upright returns the turn that lays the arrow along or across the paper,
// whichever is nearer, so that the arrows of all pieces are parallel or square
// to each other however the pieces lie in their own coordinates.
func (n *nest) upright() geom.Motion {
	d := n.each[0].Arrow.To.Sub(n.each[0].Arrow.From)
	if d.Norm() < 1 {
		return geom.Identity()
	}
	quarters := math.Round(float64(d.Direction()) / (math.Pi / 2))
	return geom.Turn(geom.Angle(quarters*math.Pi/2)-d.Direction(), geom.Point{})
}

// outline returns the cut lines of the nest and the borders of lace along them,
// turned upright, and points along all that must lie on the paper.
func (n *nest) outline(whole bool) (cuts, borders []geom.Path, pts []geom.Point, err error) {
	for i, pc := range n.each {
		v, err := newVersion(pc, n.moves[i].Then(n.base), n.label[i], whole, n.laces[i]...)
		if err != nil {
			return nil, nil, nil, err
		}
		for _, f := range v.along {
			borders = append(borders, f.Path)
			pts = append(pts, walkPoints(f.Path, 1)...)
		}
		cuts = append(cuts, v.shape.cut)
		pts = append(pts, walkPoints(v.shape.cut, 1)...)
		for _, nt := range v.shape.notches {
			pts = append(pts, nt.at.Add(nt.out.Mul(nt.allowance+notchBeyond)))
		}
	}
	return cuts, borders, pts, nil
}

// choose keeps the tiles that something lies on after gluing. Cut lines enclose
// something, the other lines do not.
func (p *Plan) choose(cuts, lines []geom.Path) {
	all := geom.NoBox()
	for _, c := range append(slices.Clone(cuts), lines...) {
		all = all.Union(c.Bounds())
	}
	p.Rows = 1
	for float64(p.Rows)*p.grid.dy+p.grid.overlap < -all.Min.Y && p.Rows <= maxPages {
		p.Rows++
	}
	for p.Cols > 1 && float64(p.Cols-1)*p.grid.dx+p.grid.overlap >= all.Max.X {
		p.Cols--
	}
	needed := make([]bool, p.Rows*p.Cols)
	for _, c := range cuts {
		p.mark(c, needed)
	}
	for _, l := range lines {
		p.touched(l, needed)
	}
	for r := range p.Rows {
		for c := range p.Cols {
			if needed[r*p.Cols+c] {
				p.Tiles = append(p.Tiles, Page{Row: r, Col: c, Number: len(p.Tiles) + 1, Area: p.grid.area(r, c)})
			}
		}
	}
}

// mark sets the tiles that keep a part of what a closed path encloses.
func (p *Plan) mark(cut geom.Path, needed []bool) {
	b := cut.Bounds()
	for r := range p.Rows {
		for c := range p.Cols {
			if k := p.grid.kept(r, c, p.Rows, p.Cols); k.Overlaps(b) && !needed[r*p.Cols+c] && cut.Contains(k.Center()) {
				needed[r*p.Cols+c] = true
			}
		}
	}
	p.touched(cut, needed)
}

// touched sets the tiles that keep a part of a line.
func (p *Plan) touched(line geom.Path, needed []bool) {
	for _, q := range walkPoints(line, 0.5) {
		c := p.grid.column(q.X, p.Cols)
		r := min(p.grid.row(-q.Y), p.Rows-1)
		needed[r*p.Cols+c] = true
	}
}

// number gives the tiles their pages behind the covers, whose number depends
// on how much there is to tell.
func (p *Plan) number(doc Print) {
	p.Covers = len(coverPages(doc, *p, p.grid.width, p.grid.height))
	for i := range p.Tiles {
		p.Tiles[i].Number = i + 1 + p.Covers
	}
}

// Tile prints a pattern in tiles as a PDF: a cover with the map of the pages,
// two test squares and what to know, then the pages. Several sizes lie on each
// other as layers that a reader can switch. The same print gives the same
// bytes.
func Tile(w io.Writer, doc Print) error {
	if w == nil {
		return errors.New("there is nowhere to print to")
	}
	plan, err := PlanTiles(doc)
	if err != nil {
		return err
	}
	return writeTiles(w, doc, plan)
}

// cutOutlines returns the cut lines of the largest extent of every piece on
// the sheet, for the map.
func (p Plan) cutOutlines(doc Print) ([][]geom.Path, error) {
	all := make([][]geom.Path, len(p.nests))
	for i, n := range p.nests {
		cuts, _, _, err := n.outline(doc.FoldWhole)
		if err != nil {
			return nil, err
		}
		m := n.base.Inverse().Then(p.Pieces[i].Move)
		for _, c := range cuts {
			all[i] = append(all[i], c.Transform(m))
		}
	}
	return all, nil
}
