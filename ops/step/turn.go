package step

import (
	"errors"
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

func init() { register("turn", func() Step { return &Turn{} }) }

// Direction is the way in which a piece turns, seen from above.
type Direction string

// The two directions.
const (
	Clockwise        Direction = "cw"
	CounterClockwise Direction = "ccw"
)

// sign is +1 counter-clockwise, −1 clockwise.
func (d Direction) sign() int {
	if d == Clockwise {
		return -1
	}
	return 1
}

func (d Direction) String() string {
	if d == Clockwise {
		return "clockwise"
	}
	return "counter-clockwise"
}

// Turn turns a piece about a pin, by an angle or until something is met. Only
// its pose changes. Turning until something is met takes the first answer met
// in the direction, less than a full turn, so that all sizes turn alike; what
// is met already is met by no turn at all.
type Turn struct {
	Piece     string       `json:"piece"`
	Pin       pattern.Spot `json:"pin"`
	Direction Direction    `json:"direction"`
	By        *Number      `json:"by,omitempty"` // degrees
	Until     *Until       `json:"until,omitempty"`
}

// Until says when a turn ends, in one of four ways.
//
//   - Spot and Datum: the spot of the piece lies on the datum.
//   - Touch and Datum: the edge of the piece of that name just touches the
//     datum, with an end or a tangent.
//   - Spot and Near: the spot of the piece comes nearest to a spot that stays.
//   - Chord and Datum: the straight way between two spots of the piece lies
//     parallel to the datum.
type Until struct {
	Spot  *pattern.Spot  `json:"spot,omitempty"`
	Touch string         `json:"touch,omitempty"`
	Chord []pattern.Spot `json:"chord,omitempty"`
	Near  *pattern.Spot  `json:"near,omitempty"`
	Datum *pattern.Datum `json:"datum,omitempty"`
}

// Kind returns "turn".
func (t *Turn) Kind() string { return "turn" }

// Sentence tells what the step does.
func (t *Turn) Sentence() string {
	s := fmt.Sprintf("turn %s %s about %s", t.Piece, t.Direction, t.Pin)
	u := t.Until
	switch {
	case t.By != nil:
		s += " by " + t.By.Text("°")
	case u == nil:
	case u.Touch != "":
		s += fmt.Sprintf(" until %s touches %s", u.Touch, u.Datum)
	case u.Spot != nil && u.Near != nil:
		s += fmt.Sprintf(" until %s is nearest to %s", u.Spot, u.Near)
	case u.Spot != nil:
		s += fmt.Sprintf(" until %s lies on %s", u.Spot, u.Datum)
	case len(u.Chord) == 2:
		s += fmt.Sprintf(" until %s and %s lie along %s", u.Chord[0], u.Chord[1], u.Datum)
	}
	return sentence(s)
}

// Apply changes the piece's pose. It reports turned_deg, counter-clockwise
// positive, and, when turned until something is met, gap: the distance in mm
// that is left between what was to meet (for a chord, of its first spot from
// the datum).
func (t *Turn) Apply(in Input) (Output, error) {
	p := in.Pattern.Clone()
	pc, err := pieceIn(p, t.Piece)
	if err != nil {
		return Output{}, err
	}
	if t.Direction != Clockwise && t.Direction != CounterClockwise {
		return Output{}, fmt.Errorf("the direction in which %s turns is %q or %q, not %q", t.Piece, string(Clockwise), string(CounterClockwise), string(t.Direction))
	}
	if (t.By == nil) == (t.Until == nil) {
		return Output{}, fmt.Errorf("say how far %s turns: either \"by\" degrees or \"until\" something is met", t.Piece)
	}
	pin, err := in.Pattern.Find(t.Pin)
	if err != nil {
		return Output{}, fmt.Errorf("the pin: %w", err)
	}
	var angle geom.Angle
	var m meeting
	if t.By != nil {
		deg, err := t.By.In(in)
		if err != nil {
			return Output{}, err
		}
		angle = geom.Angle(t.Direction.sign()) * geom.Angle(deg) * geom.Degree
	} else {
		if m, err = t.meeting(in.Pattern, pc); err != nil {
			return Output{}, err
		}
		if angle, err = m.turn(pin.Mat, t.Direction.sign()); err != nil {
			return Output{}, t.missed(err)
		}
	}
	turn := geom.Turn(angle, pin.Mat)
	pc.Pose = pc.Pose.Then(turn)
	out := Output{Pattern: p, Figures: map[string]float64{"turned_deg": angle.Degrees()}}
	if t.Until != nil {
		out.Figures["gap"] = m.gap(turn)
		if math.Abs(float64(angle)) > math.Pi {
			out.Notes = []string{fmt.Sprintf("%s turned by more than half a turn (%.4g°); the other direction may be meant.", t.Piece, math.Abs(angle.Degrees()))}
		}
	}
	return out, nil
}

// missed says in the maker's words why a turn is refused.
func (t *Turn) missed(err error) error {
	var miss *geom.MissError
	switch {
	case errors.As(err, &miss):
		return fmt.Errorf("%s cannot be reached: turned by %.4g° about %s it comes nearest and still misses by %.4g mm; move %s nearer, or pin it elsewhere",
			t.Until.what(), miss.Turn.Degrees(), t.Pin, miss.Miss, t.Piece)
	case errors.Is(err, geom.ErrMeetsAlready):
		return fmt.Errorf("%s of %s touches or crosses the line already; turn it clear of the line first", t.Until.Touch, t.Piece)
	}
	return fmt.Errorf("turning %s about %s: %w", t.Piece, t.Pin, err)
}

func (u *Until) what() string {
	if u.Touch != "" {
		return "touching the line with " + u.Touch
	}
	return "the line with " + u.Spot.String()
}

// meeting is what a turn is to bring about, on the mat.
type meeting struct {
	turn func(pin geom.Point, dir int) (geom.Angle, error)
	gap  func(turned geom.Motion) float64
}

func (t *Turn) meeting(p pattern.Pattern, pc *pattern.Piece) (meeting, error) {
	u := t.Until
	given := 0
	for _, g := range []bool{u.Spot != nil, u.Touch != "", len(u.Chord) > 0} {
		if g {
			given++
		}
	}
	if given != 1 || (u.Datum == nil) == (u.Near == nil) || u.Near != nil && u.Spot == nil {
		return meeting{}, errors.New(`a turn ends when a "spot" meets a "datum" or comes "near" another spot, when an edge to "touch" meets a "datum", or when a "chord" of two spots is parallel to a "datum": give one of these`)
	}
	if u.Near != nil {
		return t.nearest(p)
	}
	if err := stays(*u.Datum, t.Piece, 0); err != nil {
		return meeting{}, err
	}
	line, err := p.FindDatum(*u.Datum)
	if err != nil {
		return meeting{}, err
	}
	switch {
	case u.Touch != "":
		_, e, err := edgeIn(p, t.Piece, u.Touch)
		if err != nil {
			return meeting{}, err
		}
		path := e.Path.Transform(pc.Pose)
		return meeting{
			func(pin geom.Point, dir int) (geom.Angle, error) { return geom.TurnToTouch(path, pin, line, dir) },
			func(turned geom.Motion) float64 { return clearance(path.Transform(turned), line) },
		}, nil
	case u.Spot != nil:
		q, err := t.own(p, *u.Spot)
		if err != nil {
			return meeting{}, err
		}
		return meeting{
			func(pin geom.Point, dir int) (geom.Angle, error) {
				return first(dir)(geom.TurnToLine(pin, q, line))
			},
			func(turned geom.Motion) float64 { return math.Abs(line.Distance(turned.Apply(q))) },
		}, nil
	}
	if len(u.Chord) != 2 {
		return meeting{}, fmt.Errorf("a chord has two spots, not %d", len(u.Chord))
	}
	a, err := t.own(p, u.Chord[0])
	if err != nil {
		return meeting{}, err
	}
	b, err := t.own(p, u.Chord[1])
	if err != nil {
		return meeting{}, err
	}
	if a.Dist(b) <= lieTogether {
		return meeting{}, fmt.Errorf("%s and %s lie at the same place; a chord needs two", u.Chord[0], u.Chord[1])
	}
	return meeting{
		func(_ geom.Point, dir int) (geom.Angle, error) { return first(dir)(geom.TurnParallel(a, b, line), nil) },
		func(turned geom.Motion) float64 { return math.Abs(line.Distance(turned.Apply(a))) },
	}, nil
}

func (t *Turn) nearest(p pattern.Pattern) (meeting, error) {
	q, err := t.own(p, *t.Until.Spot)
	if err != nil {
		return meeting{}, err
	}
	if t.Until.Near.Piece == t.Piece {
		return meeting{}, fmt.Errorf("%s turns with %s; name a spot of another piece", t.Until.Near, t.Piece)
	}
	r, err := p.Find(*t.Until.Near)
	if err != nil {
		return meeting{}, err
	}
	return meeting{
		func(pin geom.Point, dir int) (geom.Angle, error) {
			if q.Dist(pin) <= lieTogether || r.Mat.Dist(pin) <= lieTogether {
				return 0, errors.New("one of the two spots lies on the pin, so that no turn brings them nearer; choose others")
			}
			return first(dir)([]geom.Angle{geom.TurnNearest(pin, q, r.Mat)}, nil)
		},
		func(turned geom.Motion) float64 { return turned.Apply(q).Dist(r.Mat) },
	}, nil
}

// own returns where a spot of the piece itself lies on the mat.
func (t *Turn) own(p pattern.Pattern, s pattern.Spot) (geom.Point, error) {
	if s.Piece != t.Piece {
		return geom.Point{}, fmt.Errorf("%s does not turn with %s; name a spot of %s", s, t.Piece, t.Piece)
	}
	at, err := p.Find(s)
	return at.Mat, err
}

// first returns the answer that is met first in a direction.
func first(dir int) func([]geom.Angle, error) (geom.Angle, error) {
	return func(answers []geom.Angle, err error) (geom.Angle, error) {
		if err != nil {
			return 0, err
		}
		a, ok := geom.FirstTurn(answers, dir)
		if !ok {
			return 0, errors.New("there is no such turn")
		}
		return a, nil
	}
}

// clearance returns the least distance of a path from a line in mm, 0 where it
// crosses the line.
func clearance(path geom.Path, line geom.Line) float64 {
	level := geom.Turn(-line.Dir.Direction(), line.Point)
	b := path.Transform(level).Bounds()
	return max(b.Min.Y-line.Point.Y, line.Point.Y-b.Max.Y, 0)
}
