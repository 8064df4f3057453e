package render

import (
	"math"
	"slices"

	"truemat/geom"
)

// room is the free space for writing on a piece: a grid of small squares over
// its box, each free or taken.
type room struct {
	min    geom.Point
	cell   float64
	nx, ny int
	taken  []bool // by lines, or outside the cut line
	seamed []bool // outside the sew line, where only an edge's own text stands
	glued  []bool // near a glue line; nil when there is none
}

// roomCell is the side of a square in mm; a large piece has larger ones, so
// that the grid stays within maxRoom squares a side.
const (
	roomCell = 1.0
	maxRoom  = 400
)

// newRoom returns the room inside all the cut lines and, for writing on the
// piece itself, inside all the sew lines, with squares of at least that side.
func newRoom(cuts, sews []geom.Path, cell float64) *room {
	b := geom.NoBox()
	for _, p := range cuts {
		b = b.Union(p.Bounds())
	}
	r := &room{min: b.Min, cell: max(cell, b.Width()/maxRoom, b.Height()/maxRoom)}
	r.nx, r.ny = int(b.Width()/r.cell)+1, int(b.Height()/r.cell)+1
	r.taken = make([]bool, r.nx*r.ny)
	r.seamed = make([]bool, r.nx*r.ny)
	for _, p := range cuts {
		r.outside(p, r.taken)
	}
	for _, p := range sews {
		r.outside(p, r.seamed)
	}
	return r
}

// outside sets the squares whose middle lies outside a closed path.
func (r *room) outside(p geom.Path, set []bool) {
	pts := walkPoints(p, r.cell/2)
	var xs []float64 // where the path crosses a row
	for j := range r.ny {
		y := r.min.Y + (float64(j)+0.5)*r.cell
		xs = xs[:0]
		for i, a := range pts {
			b := pts[(i+1)%len(pts)]
			if (a.Y > y) != (b.Y > y) {
				xs = append(xs, a.X+(b.X-a.X)*(y-a.Y)/(b.Y-a.Y))
			}
		}
		slices.Sort(xs)
		k := 0
		for i := range r.nx {
			x := r.min.X + (float64(i)+0.5)*r.cell
			for k < len(xs) && xs[k] <= x {
				k++
			}
			if k%2 == 0 {
				set[j*r.nx+i] = true
			}
		}
	}
}

// walkPoints returns points along a path, at most step mm apart.
func walkPoints(p geom.Path, step float64) []geom.Point {
	var pts []geom.Point
	for i := range p.Len() {
		c := p.Seg(i)
		n := max(int(math.Ceil(c.Length()/step)), 1)
		for k := range n {
			pts = append(pts, c.At(float64(k)/float64(n)))
		}
	}
	if !p.Closed() && p.Len() > 0 {
		pts = append(pts, p.End())
	}
	return pts
}

// takePath takes what lies within margin of a path.
func (r *room) takePath(p geom.Path, margin float64) {
	for _, q := range walkPoints(p, r.cell/2) {
		r.takeDisc(q, margin)
	}
}

// glue keeps large writing off a glue line, where it can.
func (r *room) glue(line geom.Path) {
	const clear = 1.5
	if !line.Bounds().Grow(clear).Overlaps(geom.Box{Min: r.min, Max: r.middle(r.nx, r.ny)}) {
		return
	}
	if r.glued == nil {
		r.glued = make([]bool, len(r.taken))
	}
	taken := r.taken
	r.taken = r.glued
	r.takePath(line, clear)
	r.taken = taken
}

func (r *room) takeDisc(c geom.Point, margin float64) {
	reach := margin + r.cell*0.4
	i0, j0 := r.index(c.Sub(geom.Pt(reach, reach)))
	i1, j1 := r.index(c.Add(geom.Pt(reach, reach)))
	for j := max(j0, 0); j <= min(j1, r.ny-1); j++ {
		for i := max(i0, 0); i <= min(i1, r.nx-1); i++ {
			if r.middle(i, j).Dist(c) <= reach {
				r.taken[j*r.nx+i] = true
			}
		}
	}
}

// takeQuad takes what lies in a turned rectangle.
func (r *room) takeQuad(q [4]geom.Point) {
	r.eachIn(q, func(i, j int) bool {
		if i >= 0 && i < r.nx && j >= 0 && j < r.ny {
			r.taken[j*r.nx+i] = true
		}
		return true
	})
}

// free reports whether a turned rectangle lies on free squares.
func (r *room) free(q [4]geom.Point) bool {
	ok := true
	r.eachIn(q, func(i, j int) bool {
		ok = i >= 0 && i < r.nx && j >= 0 && j < r.ny && !r.taken[j*r.nx+i]
		return ok
	})
	return ok
}

// eachIn calls f for the squares that a turned rectangle touches, until f
// returns false.
func (r *room) eachIn(q [4]geom.Point, f func(i, j int) bool) {
	u, v := q[1].Sub(q[0]), q[3].Sub(q[0])
	nu := int(math.Ceil(2*u.Norm()/r.cell)) + 1
	nv := int(math.Ceil(2*v.Norm()/r.cell)) + 1
	for a := range nu {
		for b := range nv {
			i, j := r.index(q[0].Add(u.Mul(float64(a) / float64(nu-1))).Add(v.Mul(float64(b) / float64(nv-1))))
			if !f(i, j) {
				return
			}
		}
	}
}

func (r *room) index(p geom.Point) (i, j int) {
	return int(math.Floor((p.X - r.min.X) / r.cell)), int(math.Floor((p.Y - r.min.Y) / r.cell))
}

func (r *room) middle(i, j int) geom.Point {
	return r.min.Add(geom.Pt((float64(i)+0.5)*r.cell, (float64(j)+0.5)*r.cell))
}

// center returns the centre of gravity of the free squares on the piece.
func (r *room) center() geom.Point {
	var sum geom.Point
	n := 0.0
	for j := range r.ny {
		for i := range r.nx {
			if k := j*r.nx + i; !r.taken[k] && !r.seamed[k] {
				sum = sum.Add(r.middle(i, j))
				n++
			}
		}
	}
	if n == 0 {
		return r.middle(r.nx/2, r.ny/2)
	}
	return sum.Mul(1 / n)
}

// plan is the room's state summed up, for asking about many upright boxes.
type plan struct {
	*room
	sum []int32 // taken squares to the lower left, (nx+1) × (ny+1)
}

// how far a search for a place may go over what is taken.
type strictness int

const (
	offGlue  strictness = iota // free squares inside the sew line and off glue lines
	onFree                     // free squares inside the sew line
	onPaper                    // free squares inside the cut line
	inSeam                     // over lines and text, inside the sew line
	withinIt                   // anywhere on the paper inside the cut line
)

// plan sums the room up for that strictness; bare holds what lies outside
// the cut line, without what was taken since.
func (r *room) plan(s strictness, bare []bool) plan {
	p := plan{r, make([]int32, (r.nx+1)*(r.ny+1))}
	for j := range r.ny {
		row := int32(0)
		for i := range r.nx {
			k := j*r.nx + i
			blocked := bare[k]
			switch s {
			case offGlue:
				blocked = r.taken[k] || r.seamed[k] || r.glued[k]
			case onFree:
				blocked = r.taken[k] || r.seamed[k]
			case onPaper:
				blocked = r.taken[k]
			case inSeam:
				blocked = bare[k] || r.seamed[k]
			}
			if blocked {
				row++
			}
			p.sum[(j+1)*(r.nx+1)+i+1] = p.sum[j*(r.nx+1)+i+1] + row
		}
	}
	return p
}

// place returns the lower left corner of a free upright box of that size, the
// one whose middle is nearest to near.
func (p plan) place(width, height float64, near geom.Point) (geom.Point, bool) {
	w, h := int(math.Ceil(width/p.cell)), int(math.Ceil(height/p.cell))
	best, found := math.Inf(1), false
	var at geom.Point
	for j := 0; j+h <= p.ny; j++ {
		for i := 0; i+w <= p.nx; i++ {
			n := p.nx + 1
			if p.sum[(j+h)*n+i+w]-p.sum[j*n+i+w]-p.sum[(j+h)*n+i]+p.sum[j*n+i] != 0 {
				continue
			}
			// The box stands in the middle of its squares.
			c := p.min.Add(geom.Pt((float64(i)+float64(w)/2)*p.cell, (float64(j)+float64(h)/2)*p.cell))
			if d := c.Dist(near); d < best {
				best, found = d, true
				at = c.Sub(geom.Pt(width/2, height/2))
			}
		}
	}
	return at, found
}
