package render

import (
	"iter"
	"math"
	"math/bits"
	"slices"

	"truemat/geom"
)

// Arranging pieces on a sheet of tiles: each piece is known by the upper and
// lower bound of its cut line in narrow columns, and is slid up against the
// pieces above it (a skyline, bottom-left packing turned upside down, after
// Chazelle 1983) where it needs the fewest new pages. Several orders, sheet
// widths and ways to lay the paper are tried; the same pieces always give the
// same arrangement.

const (
	columnWidth = 4.0 // of the columns in which bounds are known, in mm
	pieceGap    = 6.0 // between cut lines, in mm
	maxColumns  = 6   // widths of the sheet that are tried, from the fewest columns of tiles
)

// profile is a piece in one quarter turn, its upper left corner at 0, depths
// growing downwards; half the gap is included on every side.
type profile struct {
	turn          int // quarter turns counter-clockwise
	min           geom.Point
	max           geom.Point
	width, height float64
	top, bottom   []float64 // per column
	tops, bottoms ranges
}

// ranges answers the least value of any stretch of a list at once (a sparse
// table): ranges[k][i] is the least of the 2^k values from i.
type ranges [][]float64

func newRanges(values []float64) ranges {
	r := ranges{values}
	for span := 2; span <= len(values); span *= 2 {
		last := r[len(r)-1]
		next := make([]float64, len(values)-span+1)
		for i := range next {
			next[i] = min(last[i], last[i+span/2])
		}
		r = append(r, next)
	}
	return r
}

// least returns the least value from i up to, not including, j.
func (r ranges) least(i, j int) float64 {
	k := bits.Len(uint(j-i)) - 1
	return min(r[k][i], r[k][j-(1<<k)])
}

// item is something to be arranged.
type item struct {
	profiles []profile // in the order in which they are preferred
	area     float64
}

// newItem returns the item with that outline (points along it, close to each
// other) that may be turned by those quarter turns.
func newItem(outline []geom.Point, turns ...int) item {
	var it item
	for _, turn := range turns {
		m := quarterTurn(turn)
		pts := make([]geom.Point, len(outline))
		for i, p := range outline {
			pts[i] = m.Apply(p)
		}
		it.profiles = append(it.profiles, newProfile(pts, turn))
	}
	first := it.profiles[0]
	for i := range first.top {
		it.area += (first.bottom[i] - first.top[i]) * columnWidth
	}
	return it
}

func quarterTurn(n int) geom.Motion {
	m, err := geom.Carry(geom.Pt(0, 0), geom.Pt(1, 0), geom.Pt(0, 0), [4]geom.Point{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}}[n%4])
	if err != nil {
		return geom.Identity()
	}
	return m
}

func newProfile(pts []geom.Point, turn int) profile {
	b := geom.BoxOf(pts...)
	const half = pieceGap / 2
	p := profile{turn: turn, min: b.Min, max: b.Max, width: b.Width() + pieceGap, height: b.Height() + pieceGap}
	n := int(math.Ceil(p.width / columnWidth))
	p.top, p.bottom = make([]float64, n), make([]float64, n)
	for i := range n {
		p.top[i], p.bottom[i] = math.Inf(1), math.Inf(-1)
	}
	for _, q := range pts {
		x, v := q.X-b.Min.X+half, b.Max.Y-q.Y+half
		for i := max(int((x-half)/columnWidth), 0); i <= min(int((x+half)/columnWidth), n-1); i++ {
			p.top[i], p.bottom[i] = min(p.top[i], v-half), max(p.bottom[i], v+half)
		}
	}
	up := make([]float64, n)
	for i, b := range p.bottom {
		up[i] = -b
	}
	p.tops, p.bottoms = newRanges(p.top), newRanges(up)
	return p
}

// placing is where an item lies: the profile chosen and the place of its
// upper left corner.
type placing struct {
	profile *profile
	x, v    float64
}

// motion returns what brings the piece onto the sheet.
func (p placing) motion() geom.Motion {
	const half = pieceGap / 2
	return quarterTurn(p.profile.turn).Then(geom.Shift(geom.Pt(p.x+half-p.profile.min.X, -p.v-half-p.profile.max.Y)))
}

// arrangement is a way to lay all items on a grid of tiles.
type arrangement struct {
	grid   tileGrid
	cols   int
	places []placing // as the items are
	pages  int
	splits int // pages that pieces lie on beyond one each
	depth  float64
}

// better reports whether a is to be preferred over b.
func (a arrangement) better(b arrangement) bool {
	switch {
	case a.pages != b.pages:
		return a.pages < b.pages
	case a.splits != b.splits:
		return a.splits < b.splits
	}
	return a.depth*a.grid.sheetWidth(a.cols) < b.depth*b.grid.sheetWidth(b.cols)-1e-6
}

// arrange lays the items out on the grids (the paper upright and lying). It
// returns false when a piece is too large for the most columns allowed.
func arrange(items []item, grids []tileGrid) (arrangement, bool) {
	var best arrangement
	found := false
	for _, g := range grids {
		fewest := 1
		for _, it := range items {
			narrow := math.Inf(1)
			for _, p := range it.profiles {
				narrow = min(narrow, p.width)
			}
			for g.sheetWidth(fewest) < narrow {
				fewest++
			}
		}
		for cols := fewest; cols < fewest+maxColumns; cols++ {
			for _, order := range orders(items) {
				limit := math.MaxInt
				if found {
					limit = best.pages
				}
				a, ok := pack(items, order, g, cols, limit)
				if ok && (!found || a.better(best)) {
					best, found = a, true
				}
			}
			if found && len(items) > 0 && best.pages == 1 {
				break
			}
		}
	}
	return best, found
}

// orders returns the orders in which the items are tried: by their larger
// side, by area, by their smaller side; the largest first.
func orders(items []item) [][]int {
	keys := []func(it item) float64{
		func(it item) float64 { return max(it.profiles[0].width, it.profiles[0].height) },
		func(it item) float64 { return it.area },
		func(it item) float64 { return min(it.profiles[0].width, it.profiles[0].height) },
	}
	all := make([][]int, 0, len(keys))
	for _, key := range keys {
		o := make([]int, len(items))
		for i := range o {
			o[i] = i
		}
		slices.SortStableFunc(o, func(a, b int) int {
			ka, kb := key(items[a]), key(items[b])
			switch {
			case ka > kb:
				return -1
			case ka < kb:
				return 1
			}
			return 0
		})
		if !slices.ContainsFunc(all, func(have []int) bool { return slices.Equal(have, o) }) {
			all = append(all, o)
		}
	}
	return all
}

// packer is a sheet being filled.
type packer struct {
	grid  tileGrid
	cols  int
	sky   []float64 // depth filled, per column
	tile  []int     // column of tiles, per column
	last  []int     // where that column of tiles ends, per column
	used  []bool    // pages in use: row × cols + column
	pages int       // how many those are
}

// pack lays the items in that order on cols columns of tiles; false when one
// does not fit or more pages than limit are needed.
func pack(items []item, order []int, g tileGrid, cols, limit int) (arrangement, bool) {
	n := int(g.sheetWidth(cols) / columnWidth)
	p := packer{grid: g, cols: cols, sky: make([]float64, n), tile: make([]int, n), last: make([]int, n)}
	for i := range n {
		p.tile[i] = g.column(float64(i)*columnWidth, cols)
	}
	for i := n - 1; i >= 0; i-- {
		p.last[i] = i + 1
		if i+1 < n && p.tile[i+1] == p.tile[i] {
			p.last[i] = p.last[i+1]
		}
	}
	a := arrangement{grid: g, cols: cols, places: make([]placing, len(items))}
	for _, i := range order {
		c, ok := p.best(items[i].profiles)
		if !ok {
			return arrangement{}, false
		}
		p.put(c)
		a.places[i] = c.placing
		a.splits += c.pages - 1
		a.depth = max(a.depth, c.v+c.profile.height)
		if p.pages > limit {
			return arrangement{}, false
		}
	}
	a.pages = p.pages
	return a, true
}

// candidate is a possible place with what it costs.
type candidate struct {
	placing
	column int
	fresh  int // pages not in use yet
	pages  int // pages it lies on
	depth  float64
}

func (c candidate) better(d candidate) bool {
	switch {
	case c.fresh != d.fresh:
		return c.fresh < d.fresh
	case c.pages != d.pages:
		return c.pages < d.pages
	case c.depth != d.depth:
		return c.depth < d.depth
	}
	return c.column < d.column
}

func (p *packer) best(profiles []profile) (candidate, bool) {
	var best candidate
	found := false
	for i := range profiles {
		pr := &profiles[i]
		for col := 0; col+len(pr.top) <= len(p.sky); col++ {
			v := 0.0
			sky := p.sky[col : col+len(pr.top)]
			for k, t := range pr.top {
				v = max(v, sky[k]-t)
			}
			// Where it comes to rest, and further down where the next row
			// begins if that could keep it on fewer rows.
			depths := [2]float64{v, float64(p.grid.row(v)+1)*p.grid.dy + p.grid.overlap/2}
			tries := depths[:1]
			if float64(p.grid.row(v+pr.height)-p.grid.row(v)) > pr.height/p.grid.dy {
				tries = depths[:]
			}
			for _, depth := range tries {
				c := candidate{placing: placing{pr, float64(col) * columnWidth, depth}, column: col, depth: depth + pr.height}
				if found && best.fresh == 0 && best.pages == 1 && c.depth >= best.depth {
					break // no page could make it better
				}
				p.cost(&c)
				if !found || c.better(best) {
					best, found = c, true
				}
			}
		}
	}
	return best, found
}

// cost counts the pages that a candidate lies on.
func (p *packer) cost(c *candidate) {
	for page := range p.pagesOf(c) {
		c.pages++
		if page >= len(p.used) || !p.used[page] {
			c.fresh++
		}
	}
}

// pagesOf yields the pages that a candidate lies on.
func (p *packer) pagesOf(c *candidate) iter.Seq[int] {
	return func(yield func(int) bool) {
		const half = pieceGap / 2 // the gap itself needs no page
		n := len(c.profile.top)
		for k := 0; k < n; {
			from, t := k, p.tile[c.column+k]
			k = min(p.last[c.column+k]-c.column, n)
			top, bottom := c.profile.tops.least(from, k), -c.profile.bottoms.least(from, k)
			if top > bottom {
				continue
			}
			last := p.grid.row(c.v + bottom - half)
			for r := p.grid.row(c.v + top + half); r <= last; r++ {
				if !yield(r*p.cols + t) {
					return
				}
			}
		}
	}
}

func (p *packer) put(c candidate) {
	for page := range p.pagesOf(&c) {
		for page >= len(p.used) {
			p.used = append(p.used, false)
		}
		if !p.used[page] {
			p.used[page] = true
			p.pages++
		}
	}
	for k, b := range c.profile.bottom {
		p.sky[c.column+k] = max(p.sky[c.column+k], c.v+b)
	}
}
