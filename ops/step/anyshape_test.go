package step

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

// tryOn applies a step to a single piece. It either is refused with a
// sentence or gives a valid pattern whose every place can be followed.
func tryOn(t *rapid.T, pc pattern.Piece, s Step) (Output, bool) {
	p := pattern.Pattern{Pieces: []pattern.Piece{pc}}
	if _, err := s.Apply(Input{Pattern: p}); err != nil {
		require.Greater(t, len(err.Error()), 20)
		return Output{}, false
	}
	return applied(t, p, s), true
}

func anySpot(t *rapid.T, pc pattern.Piece, what string) pattern.Spot {
	return pattern.Spot{
		Piece: pc.Name,
		Edge:  pc.Edges[rapid.IntRange(0, len(pc.Edges)-1).Draw(t, what+" edge")].Name,
		Along: pattern.Along{Share: rapid.SampledFrom([]float64{0, 0.2, 0.5, 0.8, 1}).Draw(t, what)},
	}
}

func anyEnd(t *rapid.T, pc pattern.Piece) EdgeEnd {
	return EdgeEnd{
		Piece: pc.Name,
		Edge:  pc.Edges[rapid.IntRange(0, len(pc.Edges)-1).Draw(t, "edge")].Name,
		End:   rapid.SampledFrom([]pattern.EndName{pattern.Start, pattern.End}).Draw(t, "end"),
	}
}

func TestStraightenAnyRunOfAnyShape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pc := patterntest.Blob(t)
		s := &Straighten{Piece: pc.Name, From: anySpot(t, pc, "from"), To: anySpot(t, pc, "to"), Name: "Straightened"}
		out, ok := tryOn(t, pc, s)
		if !ok {
			return
		}
		is := out.Pattern.Piece(pc.Name)
		require.InDelta(t, is.Area()-pc.Area(), out.Figures["filled"]-out.Figures["trimmed"], 1e-6)
		require.Len(t, is.Notches, len(pc.Notches), "straightening loses no notch")
	})
}

func TestCutAnyShapeInTwo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pc := patterntest.Blob(t)
		c := &CutOff{Piece: pc.Name, From: anySpot(t, pc, "from"), To: anySpot(t, pc, "to"), Keep: "left", Name: "Cut", Role: pattern.TurnedBack}
		a, ok := tryOn(t, pc, c)
		c.Keep = "right"
		b, both := tryOn(t, pc, c)
		require.Equal(t, ok, both, "a line that can be cut can be cut from both sides")
		if !ok {
			return
		}
		left, right := a.Pattern.Piece(pc.Name), b.Pattern.Piece(pc.Name)
		require.InDelta(t, pc.Area(), left.Area()+right.Area(), 1e-6)
		require.InDelta(t, right.Area(), a.Figures["trimmed"], 1e-6)
		l := func(pc *pattern.Piece) float64 { o := geom.Must(pc.Outline()); return o.Length() }
		require.InDelta(t, l(&pc)+2*a.Figures["length"], l(left)+l(right), 1e-6)
		// A notch on the cut's end stays on both; all others on one of them.
		require.GreaterOrEqual(t, len(left.Notches)+len(right.Notches), len(pc.Notches))
	})
}

func TestAddToAnyShape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pc := patterntest.Blob(t)
		a := &Add{EdgeEnd: anyEnd(t, pc), Amount: Lit(rapid.Float64Range(-12, 20).Draw(t, "amount")), Evenly: rapid.Bool().Draw(t, "evenly")}
		out, ok := tryOn(t, pc, a)
		if !ok {
			return
		}
		amount, err := a.Amount.In(Input{})
		require.NoError(t, err)
		is, i := out.Pattern.Piece(pc.Name), pc.EdgeIndex(a.Edge)
		grown := 0
		for _, j := range []int{pc.Prev(i), pc.Next(i)} {
			if d := is.Edges[j].Length() - pc.Edges[j].Length(); d > 1e-9 || d < -1e-9 {
				require.InDelta(t, amount, d, 1e-7)
				grown++
			}
		}
		if amount > 1e-6 || amount < -1e-6 {
			want := 1
			if a.Evenly {
				want = 2
			}
			require.Equal(t, want, grown)
		}
	})
}

func TestSmoothAnyCornerOfAnyShape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pc := patterntest.Blob(t)
		end := anyEnd(t, pc)
		s := &Smooth{Piece: pc.Name, Edge: end.Edge, At: &pattern.Along{From: end.End}, Reach: exactly(rapid.Float64Range(2, 30).Draw(t, "reach"))}
		if rapid.Bool().Draw(t, "keep") {
			s.Keep = keepLength
		}
		out, ok := tryOn(t, pc, s)
		if !ok {
			return
		}
		is := out.Pattern.Piece(pc.Name)
		i := is.EdgeIndex(end.Edge)
		if end.End == pattern.End {
			i = is.Next(i)
		}
		require.InDelta(t, 0, is.JointTurn(i).Degrees(), 1e-4)
		if s.Keep != "" {
			j := is.Prev(i)
			require.InEpsilon(t, pc.Edges[i].Length()+pc.Edges[j].Length(), is.Edges[i].Length()+is.Edges[j].Length(), 1e-9)
		}
	})
}

func TestHostileNumbersAreRefused(t *testing.T) {
	p := twoBoxes()
	huge := exactly(1e300)
	for _, s := range []Step{
		&Add{EdgeEnd: endOf("left", "side", pattern.Start), Amount: *huge},
		&Add{EdgeEnd: endOf("left", "side", pattern.Start), Amount: Lit(-1e300)},
		&ShareOut{Amount: *huge, Onto: []Share{{EdgeEnd: endOf("left", "side", pattern.Start)}}},
		&CutOff{Piece: "left", From: pattern.AtEnd("", "hem", pattern.Start), To: pattern.AtEnd("", "side", pattern.End), Keep: "left", Bulge: huge, Name: "x", Role: pattern.Hem},
		&Straighten{Piece: "left", From: pattern.AtEnd("", "hem", pattern.Start), To: pattern.AtEnd("", "hem", pattern.End), Allowance: huge},
		&Smooth{Piece: "left", Edge: "hem", From: &pattern.Along{MM: -1e300}, To: &pattern.Along{MM: 1e300}},
	} {
		require.NotEmpty(t, refusal(t, p, s))
	}
	for _, bad := range []string{`{"id":"a","do":"smooth","piece":"x","edge":"y","rech":3}`, `{"id":"a","do":"add","amount":"much"}`} {
		var e Entry
		require.Error(t, json.Unmarshal([]byte(bad), &e))
	}
}
