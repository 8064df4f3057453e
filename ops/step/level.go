package step

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

func init() { register("level", func() Step { return &Level{} }) }

// Level makes both sides of a seam equally long, apart from the ease that is
// meant, by altering the one, the other or both.
//
// With both ends in place the edges of a side are made fuller or flatter, all
// by the same greatest amount (see [geom.Path.Fuller]); they turn a little at
// their ends. When these directions are kept, each edge swells in its middle
// (see [geom.Path.Swell]), none beyond where it would begin to bend the other
// way. A straight edge is the shortest way between its ends; longer it becomes
// when it may Bow, as a parabola, or swelling when directions are kept. Or one end of the seam moves and the other is held: on
// along the seam's own line, the edge that runs across there bent along with
// it and tapering to nothing at its other end, as [Add] does; or along that
// neighbouring edge, which keeps its line while the sewn edge is bent to reach.
//
// Notches keep their proportion on an edge that is bent. It is refused when a
// place would move farther than Limit.
//
// Figures, in mm: a_before, b_before, a_mm and b_mm, the lengths of the sides;
// difference_before, side A less side B and the ease; moved_a and moved_b, how
// far the edges of each side's pieces moved at most, and moved, the greater; in
// degrees turned, by which an edge of the seam turned at an end at most;
// partner_difference.<seam> for other seams.
type Level struct {
	Seam string `json:"seam"`
	// Bend says which side is altered: "a", "b" or "both", which is meant when
	// nothing is said.
	Bend string `json:"bend,omitempty"`
	// Share is the part of the difference, from 0 to 1, that side A takes when
	// both are altered; half when not given.
	Share *Number `json:"share,omitempty"`
	// Keep is "directions" when edges whose ends stay in place must also keep
	// the directions in which they end, as where a line runs on.
	Keep string `json:"keep,omitempty"`
	// Bow lets straight edges whose ends stay in place bow "out" of the piece or
	// "in" to become longer.
	Bow string `json:"bow,omitempty"`
	// Moves names the end of the seam that moves while the other is held; both
	// stay when nothing is said.
	Moves pattern.EndName `json:"moves,omitempty"`
	// Along says which way it moves: "seam" (meant when nothing is said) or
	// "neighbour".
	Along string `json:"along,omitempty"`
	// Limit is how far any place may move, in mm; 6.35 when not given.
	Limit *Number `json:"limit,omitempty"`
}

// levelLimit is how far in mm a place may move when nothing is said: a greater
// difference is no inaccuracy but wants another alteration (common practice).
const levelLimit = 6.35

// The ways in which a seam's end can move.
const (
	alongSeam      = "seam"
	alongNeighbour = "neighbour"
)

const keepDirections = "directions"

// The sides to which straight edges can bow.
const (
	bowOut = "out"
	bowIn  = "in"
)

// Kind returns "level".
func (s *Level) Kind() string { return "level" }

// Sentence tells in plain words what the step does.
func (s *Level) Sentence() string {
	return s.sentence("seam "+s.Seam, "side a", "side b", string(s.Moves), "edge there")
}

// sentence is Sentence in words for the seam, its sides, the end that moves and
// the edge across there.
func (s *Level) sentence(seam, a, b, end, across string) string {
	text := fmt.Sprintf("Level %s by altering ", seam)
	switch {
	case s.Bend == "a":
		text += a
	case s.Bend == "b":
		text += b
	case s.Share == nil:
		text += "both sides by half"
	default:
		text += "both sides, " + a + " by " + s.Share.Text("of the difference")
	}
	switch {
	case s.Moves == "" && s.Keep != "":
		text += ", its ends and their directions in place"
	case s.Moves == "":
		text += ", its ends in place"
	case s.Along == alongNeighbour:
		text += fmt.Sprintf(", its %s moving along the %s", end, across)
	default:
		text += fmt.Sprintf(", its %s moving along the seam", end)
	}
	if s.Bow != "" {
		text += ", straight edges bowing " + s.Bow
	}
	return text + "."
}

// Apply levels the seam.
func (s *Level) Apply(in Input) (Output, error) {
	p := in.Pattern
	seam := p.Seam(s.Seam)
	if seam == nil {
		return Output{}, fmt.Errorf("there is no seam %q; there are %s", s.Seam, quotedList(seamNames(p)))
	}
	if err := s.check(*seam); err != nil {
		return Output{}, err
	}
	share, err := s.share(in)
	if err != nil {
		return Output{}, err
	}
	limit := float64(levelLimit)
	if s.Limit != nil {
		if limit, err = s.Limit.In(in); err != nil {
			return Output{}, err
		}
		if !(limit > 0) {
			return Output{}, fmt.Errorf("the limit to how far a place may move is %.4g mm; it must be above 0", limit)
		}
	}
	difference := seamDifference(p, seam)
	r := newRedraw(p)
	r.levelled = s.Seam
	for _, side := range []struct {
		name   string
		parts  pattern.Side
		longer float64
	}{{"a", seam.A, -share * difference}, {"b", seam.B, (1 - share) * difference}} {
		if math.Abs(side.longer) <= changeSlack {
			continue
		}
		l := leveling{r: r, side: side.name, parts: side.parts, longer: side.longer, limit: limit, steady: s.Keep == keepDirections, bow: s.Bow}
		if err := l.alter(s.Moves, s.Along); err != nil {
			return Output{}, fmt.Errorf("seam %q along %s: %w", s.Seam, partWords(side.parts), err)
		}
	}
	remedy := s.otherWays(*seam)
	out, err := r.addOutput(map[string]float64{}, remedy)
	if err != nil {
		return Output{}, advised(err, remedy)
	}
	return out, s.report(p, &out, limit, difference)
}

// otherWays says what else levels the seam.
func (s *Level) otherWays(seam pattern.Seam) string {
	other := "let one side of the seam alone change"
	switch s.Bend {
	case "a":
		other = "let " + partWords(seam.B) + " change instead"
	case "b":
		other = "let " + partWords(seam.A) + " change instead"
	}
	if s.Moves == "" {
		return other + ", or let an end move"
	}
	return other + ", let the other end of the seam move, or none"
}

// check refuses choices that do not fit the seam.
func (s *Level) check(seam pattern.Seam) error {
	switch {
	case !slices.Contains([]string{"", "a", "b", "both"}, s.Bend):
		return fmt.Errorf(`the side altered is "a", "b" or "both", not %q`, s.Bend)
	case s.Share != nil && (s.Bend == "a" || s.Bend == "b"):
		return fmt.Errorf(`side %s alone is altered; leave out the share, or alter "both"`, s.Bend)
	case !slices.Contains([]pattern.EndName{"", pattern.Start, pattern.End}, s.Moves):
		return fmt.Errorf("the end of seam %q that moves is %q or %q, not %q", s.Seam, pattern.Start, pattern.End, s.Moves)
	case !slices.Contains([]string{"", alongSeam, alongNeighbour}, s.Along):
		return fmt.Errorf("an end of seam %q moves along the %q or its %q, not %q", s.Seam, alongSeam, alongNeighbour, s.Along)
	case s.Keep != "" && s.Keep != keepDirections:
		return fmt.Errorf("what can be kept is %q, not %q", keepDirections, s.Keep)
	case s.Keep != "" && s.Moves != "":
		return fmt.Errorf("the %s of seam %q moves, so directions change there; leave out \"keep\" or \"moves\"", s.Moves, s.Seam)
	case !slices.Contains([]string{"", bowOut, bowIn}, s.Bow):
		return fmt.Errorf("straight edges bow %q of the piece or %q, not %q", bowOut, bowIn, s.Bow)
	case s.Bow != "" && s.Moves != "":
		return fmt.Errorf("the %s of seam %q moves, so its straight edges stay straight; leave out \"bow\" or \"moves\"", s.Moves, s.Seam)
	case s.Along != "" && s.Moves == "":
		return fmt.Errorf("say by \"moves\" which end of seam %q moves along the %s", s.Seam, s.Along)
	}
	seen := map[[2]string]bool{}
	for _, pt := range slices.Concat(seam.A, seam.B) {
		key := [2]string{pt.Piece, pt.Edge}
		if seen[key] {
			return fmt.Errorf("%s of %s is in seam %q twice, so that one side cannot be altered without the other; split that edge first", pt.Edge, pt.Piece, s.Seam)
		}
		seen[key] = true
	}
	return nil
}

// share returns the part of the difference that side A takes.
func (s *Level) share(in Input) (float64, error) {
	switch s.Bend {
	case "a":
		return 1, nil
	case "b":
		return 0, nil
	}
	if s.Share == nil {
		return 0.5, nil
	}
	v, err := s.Share.In(in)
	if err == nil && !(v >= 0 && v <= 1) {
		return 0, fmt.Errorf("the share of the difference that side a takes is %.4g; it lies between 0 and 1", v)
	}
	return v, err
}

// report adds the figures and the sentence; it refuses a result that is not
// level, or that moved a place too far.
func (s *Level) report(old pattern.Pattern, out *Output, limit, difference float64) error {
	was, is := old.Seam(s.Seam), out.Pattern.Seam(s.Seam)
	if is == nil {
		return fmt.Errorf("seam %q would lose a side; let the other end move, or none", s.Seam)
	}
	if left := seamDifference(out.Pattern, is); math.Abs(left) > levelSlack {
		return fmt.Errorf("seam %q would still differ by %.3g mm, since what moves is part of it more than once; let the other end move, or none", s.Seam, left)
	}
	f := out.Figures
	f["a_before"], f["b_before"], f["difference_before"] = old.Length(was.A), old.Length(was.B), difference
	f["a_mm"], f["b_mm"] = out.Pattern.Length(is.A), out.Pattern.Length(is.B)
	where := ""
	for _, side := range []struct {
		name  string
		parts pattern.Side
	}{{"moved_a", was.A}, {"moved_b", was.B}} {
		f[side.name] = 0
		for _, pt := range side.parts {
			v, edge := mostMoved(old.Piece(pt.Piece), out.Pattern.Piece(pt.Piece))
			if v > f["moved"] {
				where = edge + " of " + pt.Piece
			}
			f[side.name] = max(f[side.name], v)
			f["turned"] = max(f["turned"], endsTurned(old, out.Pattern, pt))
			f["moved"] = max(f["moved"], v)
		}
	}
	if f["moved"] > limit+levelSlack {
		return fmt.Errorf("%s would move by %.3g mm, more than the limit of %.3g mm; share the difference between both sides, let an end move, or raise the limit", where, f["moved"], limit)
	}
	text := fmt.Sprintf("Seam %q: %s was %s and is %s, %s was %s and is %s", s.Seam,
		sideName(was.A), unit.MM(f["a_before"]), unit.MM(f["a_mm"]), sideName(was.B), unit.MM(f["b_before"]), unit.MM(f["b_mm"]))
	if where == "" {
		text += "; it was level already."
	} else {
		text += fmt.Sprintf("; what moved farthest is %s, by %s; at their ends its edges turned by %.1f degrees at most.", where, unit.MM(f["moved"]), f["turned"])
	}
	out.Notes = append(out.Notes, text)
	return nil
}

// levelSlack is the difference in mm that rounding may leave.
const levelSlack = 1e-6

// endsTurned returns by how many degrees an edge turned at its ends at most.
func endsTurned(old, now pattern.Pattern, pt pattern.Part) float64 {
	_, was := old.Edge(pt.Piece, pt.Edge)
	_, is := now.Edge(pt.Piece, pt.Edge)
	if was == nil || is == nil {
		return 0
	}
	a := geom.Between(was.Path.TangentAt(0), is.Path.TangentAt(0)).Degrees()
	b := geom.Between(was.Path.TangentBefore(was.Length()), is.Path.TangentBefore(is.Length())).Degrees()
	return max(math.Abs(a), math.Abs(b))
}

// mostMoved returns by how much the sew line of a piece moved at most, and on
// which edge.
func mostMoved(was, is *pattern.Piece) (most float64, edge string) {
	for i := range was.Edges {
		e := &was.Edges[i]
		n := is.Edge(e.Name)
		if n == nil || n.Path.String() == e.Path.String() {
			continue
		}
		if v := farthest(e.Path, n.Path); v > most {
			most, edge = v, e.Name
		}
	}
	return most, edge
}
