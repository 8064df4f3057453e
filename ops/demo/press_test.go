package demo

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// allowanceEnd returns the places on the cut line of a piece at which the
// allowance of a seam ends: beside the seam's line there, up to its width.
func allowanceEnd(t *testing.T, p pattern.Pattern, se pattern.SeamEnd) (places []geom.Point, at, into geom.Point) {
	t.Helper()
	pc, e := p.Edge(se.Own.Piece, se.Own.Edge)
	at, into = e.Path.Start(), e.Path.TangentAt(0)
	side := into.Perp().Mul(-1)
	if se.Own.From == 1 {
		at, into = e.Path.End(), e.Path.TangentBefore(e.Length()).Mul(-1)
		side = into.Perp()
	}
	cut, err := pc.CutLine()
	require.NoError(t, err)
	for k := 1; k < 20; k++ {
		var first *geom.Crossing
		for _, c := range cut.CrossLine(at.Add(side.Mul(e.Allowance*float64(k)/20)), into) {
			if c.T > -50 && c.T < 50 && (first == nil || c.T < first.T) {
				first = &c
			}
		}
		if first != nil {
			places = append(places, first.Point)
		}
	}
	return places, at, into
}

// On the Tern, as it came and in lace, in every size, for every seam and every
// way of pressing: the end of each allowance, reflected about the sew line onto
// its own piece or laid onto the other one, stays within that piece's cut line
// and, where the step tells of nothing that hinders it, lies on it.
func TestPressedAllowancesLieOnTheCutLines(t *testing.T) {
	run, err := Tern()
	require.NoError(t, err)
	on := 0
	for _, first := range []step.Recipe{nil, TernInLace()} {
		for _, res := range first.Replay(run) {
			for _, seam := range res.Size.Pattern.Seams {
				for _, press := range pattern.Presses {
					in := step.Input{Pattern: res.Size.Pattern, Size: res.Size.Label}
					out, err := (&step.Allow{Seam: seam.Name, Press: press}).Apply(in)
					require.NoError(t, err)
					p := out.Pattern
					require.NoError(t, p.Validate())
					require.Equal(t, press, p.Seam(seam.Name).Press)
					for _, se := range p.Seam(seam.Name).Ends() {
						_, _, known := p.EndOff(se, press)
						// Where the outline hardly turns, the allowance of the edge
						// across lies there, which is not that of the seam.
						pc := p.Piece(se.Own.Piece)
						if joint, _, _ := se.Corner(p, press); pc.JointTurn(joint) < 45*geom.Degree {
							continue
						}
						if !known || out.Figures["sticks_out"] > 0.01 || out.Figures["short"] > 0.01 {
							continue
						}
						places, at, into := allowanceEnd(t, p, se)
						onto := p.Piece(se.Own.Piece)
						move, err := geom.Mirror(at, at.Add(into))
						require.NoError(t, err)
						if press != pattern.PressedOpen && string(press) != se.Side {
							onto = p.Piece(se.Other.Piece)
							// The other piece lies beside this one's joint.
							_, e := p.Edge(se.Other.Piece, se.Other.Edge)
							a := se.Own.Backwards()
							b := se.Other
							lay, _, err := p.LaySewn(a, b)
							require.NoError(t, err)
							move = lay.Inverse()
							require.Less(t, move.Apply(at).Dist(ends(e.Path, b.From)), 1e-6)
						}
						cut, err := onto.CutLine()
						require.NoError(t, err)
						for _, q := range places {
							q = move.Apply(q)
							off := cut.Nearest(q).Dist
							assert.Less(t, off, 0.05, "%s of %s in %s, pressed %s, side %s at its %s", seam.Name, onto.Name, res.Size.Label, press, se.Side, se.At)
							on++
						}
					}
				}
			}
		}
	}
	assert.Greater(t, on, 2000, "most ends lie on the cut lines")
}

func ends(p geom.Path, share float64) geom.Point {
	if share == 1 {
		return p.End()
	}
	return p.Start()
}

// An allowance that follows its partner goes on doing so when that one is altered.
func TestAllowanceFollowsAnAlteredPartner(t *testing.T) {
	run, err := Tern()
	require.NoError(t, err)
	number := func(v float64) *step.Number { n := step.Lit(v); return &n }
	recipe := step.Recipe{
		{ID: "press", Step: &step.Allow{Seam: "side seam", Press: pattern.PressedToA}},
		{ID: "wider", Step: &step.Allow{Piece: cradlePiece, Edge: "top", Width: number(9)}},
	}
	for _, res := range recipe.Replay(run) {
		require.Nil(t, res.Upset())
		p := res.Size.Pattern
		for _, se := range p.Seam("side seam").Ends() {
			if out, short, ok := p.EndOff(se, pattern.PressedToA); ok {
				assert.Less(t, out, 0.01)
				assert.Less(t, short, 0.01)
			}
		}
		// With the corner read back from a file it is the same.
		again := step.Recipe(nil).Replay(pattern.Run{Sizes: []pattern.Size{{Label: "x", Pattern: p.Clone()}}})
		a, err := p.Piece(bandPiece).CutLine()
		require.NoError(t, err)
		b, err := again[0].Size.Pattern.Piece(bandPiece).CutLine()
		require.NoError(t, err)
		assert.Equal(t, a.String(), b.String())
	}
}

func TestMatchedEndsRefuse(t *testing.T) {
	run, err := Tern()
	require.NoError(t, err)
	p := run.Sizes[0].Pattern
	for says, s := range map[string]*step.Allow{
		`there is no seam "hem"`: {Seam: "hem"},
		"cannot be pressed":      {Seam: "side seam", Press: "up"},
		"which seam":             {Press: pattern.PressedOpen},
		"make it two steps":      {Seam: "side seam", Piece: bandPiece},
		"not between 0 and 200":  {Seam: "side seam", Width: func() *step.Number { n := step.Lit(900); return &n }()},
	} {
		_, err := s.Apply(step.Input{Pattern: p})
		require.ErrorContains(t, err, says)
	}
}
