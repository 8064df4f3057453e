package check_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

func notchCheck(t *testing.T, p pattern.Pattern, seam string) check.Check {
	t.Helper()
	for _, c := range check.Run(p, p, check.Defaults()) {
		if c.ID == check.SeamNotches && c.Seam == seam {
			return c
		}
	}
	t.Fatal("no such check")
	return check.Check{}
}

// Of a straight seam of 100 mm the notches are put where they are told, in mm
// from its start; the side with more goes on beyond it by 30 mm.
func TestANotchAtTheEndOfASeamHasItsPartnerInTheOtherSidesEnd(t *testing.T) {
	strip := func(name string, wide, from float64) pattern.Piece {
		ring := []geom.Point{{X: from, Y: 0}, {X: 100, Y: 0}, {X: from + wide, Y: 0}, {X: from + wide, Y: 40}, {X: from, Y: 40}}
		names := []string{"seam", "rest", "right", "top", "left"}
		if wide == 100 {
			ring, names = append(ring[:1:1], ring[2:]...), append(names[:1:1], names[2:]...)
		}
		pc := pattern.Piece{Name: name, Cut: pattern.Cut{Count: 1}}
		for i, n := range names {
			role := pattern.TurnedBack
			if n == "seam" {
				role = pattern.SeamEdge
			}
			path := geom.Must(geom.Polyline(ring[i], ring[(i+1)%len(ring)]))
			pc.Edges = append(pc.Edges, pattern.Edge{Name: n, Role: role, Path: path, Allowance: 6})
		}
		return pc
	}
	for _, c := range []struct {
		what          string
		short, long   []float64
		double, holds bool
	}{
		{"where the other side ends", []float64{40}, []float64{40, 100}, false, true},
		{"double there", []float64{40}, []float64{40, 100}, true, true},
		{"at the other end of the seam", []float64{40}, []float64{0, 40}, false, true},
		{"the only one", nil, []float64{100}, false, true},
		{"on both sides", []float64{40, 100}, []float64{40, 100}, false, true},
		{"short of the end", []float64{40}, []float64{40, 97}, false, false},
		{"one too many besides", []float64{40}, []float64{40, 70, 100}, false, false},
		{"one that misses besides", []float64{40}, []float64{45, 100}, false, false},
		{"in place of one that is missing", []float64{40, 70}, []float64{40, 100}, false, false},
		{"one at the end and one missing", []float64{40, 70, 90}, []float64{40, 100}, false, false},
	} {
		for _, turned := range []bool{false, true} {
			short, long := strip("short", 100, 0), strip("long", 130, 0)
			put := func(pc *pattern.Piece, at []float64) {
				for i, mm := range at {
					pc.Notches = append(pc.Notches, pattern.Notch{Name: string(rune('a' + i)), Edge: "seam", Along: pattern.Along{MM: mm}, Double: c.double && mm == 100})
				}
			}
			put(&short, c.short)
			put(&long, c.long)
			p := pattern.Pattern{Pieces: []pattern.Piece{short, long}, Seams: []pattern.Seam{{Name: "join",
				A: pattern.Side{pattern.Whole("short", "seam")}, B: pattern.Side{pattern.Whole("long", "seam")}}}}
			if turned {
				s := &p.Seams[0]
				s.A, s.B = pattern.Side{s.B[0].Backwards()}, pattern.Side{s.A[0].Backwards()}
			}
			got := notchCheck(t, p, "join")
			require.Equal(t, c.holds, got.Verdict == check.Holds, "%s: %s", c.what, got.Text)
		}
	}
}

// The shears put a notch on the partner where what is cut ends; to a free place
// of the seam that breaks nothing in any size.
func TestCuttingToAFreePlaceOfASeamBreaksNoNotches(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	kept := pattern.AtEnd("inner cup", "wire", pattern.End)
	cut := &step.CutOff{
		Piece: "inner cup",
		From:  pattern.AtEnd("inner cup", "wire", pattern.Start),
		To:    pattern.Spot{Piece: "inner cup", Edge: "vertical seam", Along: pattern.Along{Share: 0.22}},
		Kept:  &kept,
		Name:  "neckline", Role: pattern.TurnedBack,
	}
	for _, r := range (step.Recipe{{ID: "cut", Step: cut}}).Replay(run) {
		require.False(t, r.Behind())
		at := slices.IndexFunc(r.Size.Pattern.Pieces, func(pc pattern.Piece) bool { return pc.Notch("neckline end") != nil })
		require.GreaterOrEqual(t, at, 0)
		require.Contains(t, r.Size.Pattern.Pieces[at].Name, "outer cup")
		c := notchCheck(t, r.Size.Pattern, "vertical seam")
		require.Equal(t, check.Holds, c.Verdict, "%s: %s", r.Size.Label, c.Text)
	}
}
