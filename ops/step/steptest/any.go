// Package steptest draws random steps of every kind for property tests.
package steptest

import (
	"fmt"

	"pgregory.net/rapid"

	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/walk"
)

// Draw draws steps for a pattern.
type Draw struct {
	*rapid.T
	Pattern pattern.Pattern
	// Name is what a step calls what it makes.
	Name string
	// Number makes the number of a step from a value; step.Lit when nil.
	Number func(float64) step.Number

	piece *pattern.Piece
	edge  *pattern.Edge
}

// Steps draws a step of a kind; those that have to be done before it so that it
// can apply come first. Many can be applied. It returns none for a kind that
// it does not know.
func (d Draw) Steps(kind string) []step.Step {
	draw, ok := draws[kind]
	if !ok {
		return nil
	}
	if d.Number == nil {
		d.Number = step.Lit
	}
	pieces := d.Pattern.Pieces
	d.piece = &pieces[rapid.IntRange(0, len(pieces)-1).Draw(d.T, "piece")]
	d.edge = d.other()
	return draw(&d)
}

// draws has the kinds of step.
var draws = map[string]func(*Draw) []step.Step{
	"add": func(d *Draw) []step.Step {
		return one(&step.Add{EdgeEnd: d.edgeEnd(), Amount: d.mm(-5, 12)})
	},
	"allow": func(d *Draw) []step.Step {
		return one(&step.Allow{Piece: d.piece.Name, Edge: d.edge.Name, Width: d.to(0, 15)})
	},
	"bring": func(d *Draw) []step.Step {
		pc := d.piece.Clone()
		pc.Name = d.Name
		shape, err := step.NewShape(pc)
		if err != nil {
			return nil
		}
		return one(&step.Bring{From: "drawing.svg", Pieces: []step.Shape{shape}})
	},
	"copy": func(d *Draw) []step.Step {
		return one(&step.Copy{Piece: d.piece.Name, Name: d.Name, DX: d.mm(-50, 50), DY: d.mm(-50, 50)})
	},
	"cut-off": func(d *Draw) []step.Step {
		to := d.spotOn(d.other())
		return one(&step.CutOff{Piece: d.piece.Name, From: d.spot(), To: to, Keep: d.word("left", "right"), Name: d.Name, Role: pattern.TurnedBack, Bulge: d.to(-1, 1)})
	},
	"draw": func(d *Draw) []step.Step {
		return one(&step.Draw{Piece: d.piece.Name, Name: d.Name, Edge: d.edge.Name, Distance: d.to(3, 12)})
	},
	"fold": func(d *Draw) []step.Step {
		f := d.onFold()
		return []step.Step{&step.Unfold{Piece: f}, &step.Fold{Piece: f, Along: "fold"}}
	},
	"level": func(d *Draw) []step.Step {
		s := d.seam()
		longer := &step.Add{EdgeEnd: step.EdgeEnd{Piece: s.A[0].Piece, Edge: d.beside(s.A[0]), End: pattern.End}, Amount: d.mm(0.3, 1.5)}
		level := &step.Level{Seam: s.Name, Bend: d.word("a", "b", "both"), Moves: pattern.EndName(d.word("", "start", "end"))}
		if rapid.Bool().Draw(d.T, "unlevel") {
			return []step.Step{longer, level}
		}
		return one(level)
	},
	"line-it": func(d *Draw) []step.Step {
		return one(&step.LineIt{Piece: d.piece.Name, Name: d.Name, Cloth: "lining", PullIn: d.to(0, 2)})
	},
	"mark": func(d *Draw) []step.Step { return one(&step.Mark{Pieces: []string{d.piece.Name}, Text: d.Name}) },
	"mirror": func(d *Draw) []step.Step {
		if rapid.Bool().Draw(d.T, "copied") {
			return one(&step.Mirror{Piece: d.piece.Name, Name: d.Name})
		}
		return one(&step.Mirror{Piece: d.piece.Name})
	},
	"move": func(d *Draw) []step.Step {
		s := d.spot()
		return one(&step.Move{Piece: d.piece.Name, DX: d.mm(-50, 50), DY: d.mm(-50, 50), Degrees: d.mm(-90, 90), About: &s})
	},
	"notch": func(d *Draw) []step.Step {
		return one(&step.Notch{Act: step.AddNotch, Piece: d.piece.Name, Name: d.Name, Edge: d.edge.Name, Share: d.mm(0.1, 0.9)})
	},
	"piece": func(d *Draw) []step.Step {
		pair := rapid.Bool().Draw(d.T, "pair")
		return one(&step.Plain{Name: d.Name, Width: d.mm(5, 300), Height: d.mm(5, 300), Allowance: d.mm(0, 12), Pair: pair, Fold: !pair, Across: pair})
	},
	"place": func(d *Draw) []step.Step { place, _ := d.layAlong(d.seam()); return one(place) },
	"remove": func(d *Draw) []step.Step {
		return []step.Step{
			&step.Draw{Piece: d.piece.Name, Name: d.Name, Edge: d.edge.Name, Distance: d.to(3, 12)},
			&step.Remove{Piece: d.piece.Name, Inner: d.Name},
		}
	},
	"rename": func(d *Draw) []step.Step {
		return one(&step.Rename{Piece: d.piece.Name, Edge: d.edge.Name, To: d.Name})
	},
	"reshape": func(d *Draw) []step.Step {
		knots, err := step.KnotsOf(d.edge.Path)
		if err != nil {
			return nil
		}
		for i := range knots[1 : len(knots)-1] {
			knots[i+1].Along += rapid.Float64Range(-0.02, 0.02).Draw(d.T, "push")
		}
		return one(&step.Reshape{Piece: d.piece.Name, Edge: d.edge.Name, Knots: knots})
	},
	"sew": func(d *Draw) []step.Step {
		s := d.seam()
		if rapid.IntRange(0, 3).Draw(d.T, "apart") == 0 {
			return one(&step.Sew{Name: s.Name, Apart: true})
		}
		return one(&step.Sew{Name: s.Name, Ease: d.to(-1, 2)})
	},
	"share-out": func(d *Draw) []step.Step {
		a := step.Share{EdgeEnd: d.edgeEnd()}
		d.edge = d.other()
		return one(&step.ShareOut{Amount: d.mm(-3, 6), Onto: []step.Share{a, {EdgeEnd: d.edgeEnd()}}})
	},
	"smooth": func(d *Draw) []step.Step {
		return one(&step.Smooth{Piece: d.piece.Name, Edge: d.edge.Name, At: &pattern.Along{From: d.end(), Share: d.share() / 4}, Reach: d.to(5, 25)})
	},
	"split": func(d *Draw) []step.Step {
		to := d.spotOn(d.other())
		return one(&step.Split{Piece: d.piece.Name, From: d.spot(), To: to, Left: d.Name, Name: "seam " + d.Name})
	},
	"spread": func(d *Draw) []step.Step {
		to := d.spotOn(d.other())
		return one(&step.Spread{Piece: d.piece.Name, Slashes: []step.Slash{{From: d.spot()}}, Hinge: &step.Hinge{Spot: &to}, Amount: d.to(-3, 8)})
	},
	"straighten": func(d *Draw) []step.Step {
		return one(&step.Straighten{Piece: d.piece.Name, From: pattern.AtEnd(d.piece.Name, d.edge.Name, pattern.Start), To: pattern.AtEnd(d.piece.Name, d.edge.Name, pattern.End), Name: d.Name})
	},
	"tape": func(d *Draw) []step.Step {
		s := d.seam()
		place, pin := d.layAlong(s)
		none := func(e step.EdgeEnd) step.Step {
			return &step.Allow{Piece: e.Piece, Edge: e.Edge, Width: new(step.Lit(0))}
		}
		moved := step.EdgeEnd{Piece: place.Piece, Edge: place.Edge, End: place.End}
		return []step.Step{none(pin), none(moved), place, &step.Tape{A: pin, B: moved, Name: d.Name}}
	},
	"true": func(d *Draw) []step.Step {
		return one(&step.True{Seam: d.seam().Name, End: d.end(), Reach: d.to(8, 30)})
	},
	"turn": func(d *Draw) []step.Step {
		return one(&step.Turn{Piece: d.piece.Name, Pin: d.spot(), Direction: step.Clockwise, By: d.to(0, 20)})
	},
	"unfold": func(d *Draw) []step.Step { return one(&step.Unfold{Piece: d.onFold()}) },
	"walk": func(d *Draw) []step.Step {
		return one(&step.Walk{Seam: d.seam().Name, From: d.end(), Drop: []step.Drop{{On: walk.Hand(d.word("a", "b")), Name: d.Name, MM: d.to(2, 30)}}})
	},
}

func one(s step.Step) []step.Step { return []step.Step{s} }

func (d *Draw) mm(lo, hi float64) step.Number {
	return d.Number(rapid.Float64Range(lo, hi).Draw(d.T, "number"))
}

func (d *Draw) to(lo, hi float64) *step.Number { n := d.mm(lo, hi); return &n }

func (d *Draw) word(words ...string) string { return rapid.SampledFrom(words).Draw(d.T, "word") }

func (d *Draw) end() pattern.EndName { return pattern.EndName(d.word("start", "end")) }

func (d *Draw) share() float64 { return rapid.Float64Range(0.1, 0.9).Draw(d.T, "share") }

// other draws another edge of the piece.
func (d *Draw) other() *pattern.Edge {
	return &d.piece.Edges[rapid.IntRange(0, len(d.piece.Edges)-1).Draw(d.T, "edge")]
}

func (d *Draw) edgeEnd() step.EdgeEnd {
	return step.EdgeEnd{Piece: d.piece.Name, Edge: d.edge.Name, End: d.end()}
}

func (d *Draw) spot() pattern.Spot { return d.spotOn(d.edge) }

func (d *Draw) spotOn(e *pattern.Edge) pattern.Spot {
	return pattern.Spot{Piece: d.piece.Name, Edge: e.Name, Along: pattern.Along{From: d.end(), Share: d.share()}}
}

// seam draws a seam, or one that is not there when the pattern has none.
func (d *Draw) seam() pattern.Seam {
	if len(d.Pattern.Seams) == 0 {
		pt := []pattern.Part{pattern.Whole(d.piece.Name, d.edge.Name)}
		return pattern.Seam{Name: "none", A: pt, B: pt}
	}
	return d.Pattern.Seams[rapid.IntRange(0, len(d.Pattern.Seams)-1).Draw(d.T, "seam")]
}

// layAlong lays the piece of side B beside that of side A, at the start of the
// seam, and returns the end on which it is laid.
func (d *Draw) layAlong(s pattern.Seam) (*step.Place, step.EdgeEnd) {
	at := func(pt pattern.Part) step.EdgeEnd {
		e := step.EdgeEnd{Piece: pt.Piece, Edge: pt.Edge, End: pattern.Start}
		if pt.From > pt.To {
			e.End = pattern.End
		}
		return e
	}
	a, b := at(s.A[0]), at(s.B[0])
	return &step.Place{Piece: b.Piece, Edge: b.Edge, End: b.End, Onto: &a}, a
}

// beside returns the edge before that of a part.
func (d *Draw) beside(pt pattern.Part) string {
	pc := d.Pattern.Piece(pt.Piece)
	return pc.Edges[pc.Prev(pc.EdgeIndex(pt.Edge))].Name
}

// onFold names a piece on the fold, or the piece drawn when there is none.
func (d *Draw) onFold() string {
	for i := range d.Pattern.Pieces {
		if d.Pattern.Pieces[i].Fold() != nil {
			return d.Pattern.Pieces[i].Name
		}
	}
	return d.piece.Name
}

// Entries gives steps ids that begin with the same word.
func Entries(id string, steps []step.Step) []step.Entry {
	out := make([]step.Entry, len(steps))
	for i, s := range steps {
		out[i] = step.Entry{ID: fmt.Sprintf("%s-%d", id, i), Step: s}
	}
	return out
}
