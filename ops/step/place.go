package step

import (
	"errors"
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

func init() { register("place", func() Step { return &Place{} }) }

// Place lays a piece on the mat by something it meets there, in one of two
// ways; only its pose changes.
//
//   - Two Spots of the piece on a Datum: the first goes to its foot on the
//     datum, and the piece turns about it, the shorter way round, until the
//     second lies on the datum too.
//   - The End of an Edge of the piece on an end of another piece's edge (Onto),
//     the edges side by side there: both leave that place in one direction,
//     with the pieces on opposite sides.
type Place struct {
	Piece string          `json:"piece"`
	Spots []pattern.Spot  `json:"spots,omitempty"`
	Datum *pattern.Datum  `json:"datum,omitempty"`
	Edge  string          `json:"edge,omitempty"`
	End   pattern.EndName `json:"end,omitempty"`
	Onto  *EdgeEnd        `json:"onto,omitempty"`
}

// Kind returns "place".
func (pl *Place) Kind() string { return "place" }

// Sentence tells what the step does.
func (pl *Place) Sentence() string {
	if pl.Onto != nil {
		return sentence(fmt.Sprintf("lay %s with the %s of %s on %s, edges side by side", pl.Piece, pl.End, pl.Edge, pl.Onto))
	}
	s := fmt.Sprintf("lay %s on %s", pl.Piece, pl.Datum)
	if len(pl.Spots) == 2 {
		s += fmt.Sprintf(" by %s and %s", pl.Spots[0], pl.Spots[1])
	}
	return sentence(s)
}

// Apply changes the piece's pose. It reports moved_mm, by how much the first
// spot or the edge's end moved, and turned_deg, counter-clockwise.
func (pl *Place) Apply(in Input) (Output, error) {
	p := in.Pattern.Clone()
	pc, err := pieceIn(p, pl.Piece)
	if err != nil {
		return Output{}, err
	}
	byDatum := pl.Datum != nil || len(pl.Spots) > 0
	byEdge := pl.Onto != nil || pl.Edge != "" || pl.End != ""
	var from, to placement
	switch {
	case byDatum == byEdge:
		return Output{}, fmt.Errorf("say how %s is to be placed: by two \"spots\" on a \"datum\", or by \"edge\" and \"end\" \"onto\" another piece's", pl.Piece)
	case byDatum:
		from, to, err = pl.onDatum(in.Pattern)
	default:
		from, to, err = pl.onEdge(in.Pattern)
	}
	if err != nil {
		return Output{}, err
	}
	turn := geom.Between(from.along, to.along)
	pc.Pose = pc.Pose.Then(geom.Turn(turn, from.at)).Then(geom.Shift(to.at.Sub(from.at)))
	return Output{Pattern: p, Figures: map[string]float64{
		"moved_mm":   to.at.Dist(from.at),
		"turned_deg": turn.Degrees(),
	}}, nil
}

// placement is a place on the mat and a direction there.
type placement struct{ at, along geom.Point }

func (pl *Place) onDatum(p pattern.Pattern) (from, to placement, err error) {
	if pl.Datum == nil || len(pl.Spots) != 2 {
		return from, to, fmt.Errorf("%s is laid on a line by a \"datum\" and exactly two \"spots\" of the piece", pl.Piece)
	}
	var at [2]geom.Point
	for i, s := range pl.Spots {
		if s.Piece != pl.Piece {
			return from, to, fmt.Errorf("%s is not on %s, the piece to be placed", s, pl.Piece)
		}
		f, err := p.Find(s)
		if err != nil {
			return from, to, err
		}
		at[i] = f.Mat
	}
	if err := stays(*pl.Datum, pl.Piece, 0); err != nil {
		return from, to, err
	}
	line, err := p.FindDatum(*pl.Datum)
	if err != nil {
		return from, to, err
	}
	along := at[1].Sub(at[0])
	if along.Norm() <= lieTogether {
		return from, to, fmt.Errorf("%s and %s lie at the same place; two different ones are needed", pl.Spots[0], pl.Spots[1])
	}
	share := along.Dot(line.Dir)
	if math.Abs(share) <= squareSlack*along.Norm() {
		return from, to, fmt.Errorf("%s and %s stand square to the line, so both ways round are equally near; turn %s a little first", pl.Spots[0], pl.Spots[1], pl.Piece)
	}
	foot := line.Point.Add(line.Dir.Mul(at[0].Sub(line.Point).Dot(line.Dir)))
	return placement{at[0], along}, placement{foot, line.Dir.Mul(math.Copysign(1, share))}, nil
}

func (pl *Place) onEdge(p pattern.Pattern) (from, to placement, err error) {
	if pl.Onto == nil || pl.Edge == "" || pl.End == "" {
		return from, to, fmt.Errorf("%s is laid against another piece by \"edge\", \"end\" and \"onto\", all three", pl.Piece)
	}
	own := EdgeEnd{pl.Piece, pl.Edge, pl.End}
	if pl.Onto.Piece == pl.Piece {
		return from, to, fmt.Errorf("%s cannot be laid against itself; name another piece in \"onto\"", pl.Piece)
	}
	pc, e, err := own.find(p)
	if err != nil {
		return from, to, err
	}
	other, oe, err := pl.Onto.find(p)
	if err != nil {
		return from, to, err
	}
	// Seen along the edges away from the shared end, the inside lies left of an
	// edge that starts there and right of one that ends there, the other way
	// round on a piece that lies turned over.
	if (own.End == pattern.Start) != pc.Pose.Mirrors() == ((pl.Onto.End == pattern.Start) != other.Pose.Mirrors()) {
		return from, to, errors.New(opposite(own, *pl.Onto))
	}
	at, along := own.point(e)
	onto, ontoAlong := pl.Onto.point(oe)
	return placement{pc.Pose.Apply(at), pc.Pose.Vector(along)}, placement{other.Pose.Apply(onto), other.Pose.Vector(ontoAlong)}, nil
}

// opposite says that two ends laid together put the pieces on top of each other.
func opposite(a, b EdgeEnd) string {
	return fmt.Sprintf("%s on %s would lay the pieces on top of each other; take the other end of one of the two edges", a, b)
}

const (
	// lieTogether is the distance in mm within which spots count as one place:
	// no direction can be taken from closer ones with any meaning.
	lieTogether = 1e-6

	// squareSlack is the cosine of the angle within which a direction counts
	// as square to a line.
	squareSlack = 1e-9
)

// stays refuses a datum that lies on the piece that is about to move.
func stays(d pattern.Datum, piece string, depth int) error {
	for _, s := range d.Through {
		if s.Piece == piece {
			return fmt.Errorf("the line goes through %s and would move with the piece; give a line that stays", s)
		}
		if s.Crosses != nil && depth < maxNesting {
			if err := stays(*s.Crosses, piece, depth+1); err != nil {
				return err
			}
		}
	}
	if d.Arrow == piece {
		return fmt.Errorf("the line is held by the arrow of %s and would move with the piece; give a line that stays", piece)
	}
	if d.To != nil && depth < maxNesting {
		return stays(*d.To, piece, depth+1)
	}
	return nil
}

// maxNesting bounds how far lines that refer to each other are followed;
// deeper ones are refused where they are found.
const maxNesting = 16
