package intake

import (
	"fmt"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// Said is what the maker says of an edge, over what the companion does. A drawing
// that says itself what its edges are takes none.
type Said struct {
	// Piece is what the drawing or the companion calls it.
	Piece string
	// At is a place on or near the edge, in the way of [Division].
	At geom.Point
	// Role and Name stay as they are when empty.
	Role pattern.Role
	Name string
}

// share gives in mm where a place is on a piece whose outline has that box. The
// first size fixes where it is in shares of it.
func (b *bringer) share(at *geom.Point, box geom.Box) geom.Point {
	if b.shares == nil {
		b.shares = map[*geom.Point]geom.Point{}
	}
	share, known := b.shares[at]
	if !known {
		b.shares[at] = geom.Pt((at.X-box.Min.X)/box.Width(), (at.Y-box.Min.Y)/box.Height())
		return *at
	}
	return geom.Pt(box.Min.X+share.X*box.Width(), box.Min.Y+share.Y*box.Height())
}

// say gives the edges of a piece the roles that the maker says, and notes what
// they will be called.
func (b *bringer) say(edges []pattern.Edge, cut *cutUp, piece string, box geom.Box) error {
	for i := range b.opt.Said {
		s := &b.opt.Said[i]
		if s.Piece != piece {
			continue
		}
		near := cut.edges[cut.edgeNear(b.share(&s.At, box))].Start()
		for k := range edges {
			e := &edges[k]
			if e.Path.Start() != near {
				continue
			}
			if s.Name != "" {
				b.called[[2]string{piece, e.Name}] = s.Name
			}
			if s.Role != "" {
				e.Role = s.Role
			}
			if s.Role != pattern.Fold {
				continue
			}
			if !e.Path.IsStraight() {
				return fmt.Errorf("edge %q is on the fold but is not one straight line", e.Name)
			}
			e.Allowance, e.Free = 0, false
		}
	}
	return nil
}

// name gives pieces and edges the names that the maker says, all at once: two
// may change theirs for each other.
func (b *bringer) name(run pattern.Run) (pattern.Run, error) {
	for piece, name := range b.opt.Names {
		b.called[[2]string{piece}] = name
	}
	for i := range run.Sizes {
		p := run.Sizes[i].Pattern
		var first, then []step.Step
		for k := range p.Pieces {
			pc := &p.Pieces[k]
			called := pc.Name
			if to := b.called[[2]string{pc.Name}]; to != "" && to != pc.Name {
				called = fmt.Sprintf("\x00%d", k)
				first, then = append(first, &step.Rename{Piece: pc.Name, To: called}), append(then, &step.Rename{Piece: called, To: to})
			}
			var own []step.Step
			for j, e := range pc.Edges {
				if to := b.called[[2]string{pc.Name, e.Name}]; to != "" && to != e.Name {
					by := fmt.Sprintf("\x00%d", j)
					first = append(first, &step.Rename{Piece: called, Edge: e.Name, To: by})
					own = append(own, &step.Rename{Piece: called, Edge: by, To: to})
				}
			}
			then = append(own, then...) // while the piece still has the name it goes by meanwhile
		}
		for _, s := range append(first, then...) {
			r := s.(*step.Rename)
			out, err := r.Apply(step.Input{Pattern: p})
			switch {
			case err != nil && r.Edge != "":
				return run, fmt.Errorf("two edges of a piece cannot both be called %q", r.To)
			case err != nil:
				return run, fmt.Errorf("two pieces cannot both be called %q", r.To)
			}
			p = out.Pattern
		}
		run.Sizes[i].Pattern = p
	}
	for i := range b.res.Pieces {
		did := &b.res.Pieces[i]
		if did.As = did.Piece; b.opt.Names[did.As] != "" {
			did.Piece = b.opt.Names[did.As]
		}
	}
	return run, run.Validate()
}
