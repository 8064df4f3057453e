package demo

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

func eachLace(t *testing.T, test func(t *testing.T, r step.Result)) {
	t.Helper()
	_, results, err := step.Recipe(nil).Append(tern(t), TernInLace()...)
	require.NoError(t, err)
	require.Len(t, results, len(run()))
	for _, r := range results {
		t.Run(r.Size.Label, func(t *testing.T) { test(t, r) })
	}
}

func figure(t *testing.T, r step.Result, id, name string) float64 {
	t.Helper()
	for _, rep := range r.Reports {
		if rep.ID == id {
			v, ok := rep.Figures[name]
			require.True(t, ok, "%s reports %s", id, name)
			return v
		}
	}
	require.Fail(t, "no step "+id)
	return 0
}

func TestTernInLaceAppliesInEverySize(t *testing.T) {
	eachLace(t, func(t *testing.T, r step.Result) {
		require.Nil(t, r.Upset())
		require.NoError(t, r.Size.Pattern.Validate())
		for _, rep := range r.Reports {
			assert.Equal(t, step.Applied, rep.State, rep.ID)
		}
		assert.InDelta(t, -7.8, figure(t, r, "turn", "turned_deg"), 1.1)
		assert.InDelta(t, 6.5, figure(t, r, "tape", "overlap"), 0.6)
		assert.InDelta(t, figure(t, r, "tape", "overlap"), figure(t, r, "share-out", "given_back"), 1e-9)
	})
}

func TestTernInLaceKeepsTheLengths(t *testing.T) {
	eachLace(t, func(t *testing.T, r step.Result) {
		before, after := r.Before, r.Size.Pattern
		length := func(p pattern.Pattern, line string) float64 { return p.Length(p.Line(line).Parts) }
		assert.InDelta(t, length(before, "wire line"), length(after, "wire line"), 1e-6)
		assert.InDelta(t, length(before, "hem"), length(after, "hem"), 1)
		for _, s := range after.Seams {
			assert.InDelta(t, 0, after.Length(s.A)-after.Length(s.B)-s.Ease, 0.5, s.Name)
		}
		for _, l := range after.Lines {
			lay, err := after.LayChain(l.Parts)
			require.NoError(t, err)
			for _, j := range lay.Junctions {
				assert.LessOrEqual(t, math.Abs(j.Kink.Degrees()), 3.0, l.Name)
				assert.LessOrEqual(t, j.Gap, 0.3, l.Name)
			}
		}
		_, closure := after.Edge(bandPiece, "closure")
		assert.InDelta(t, closureHeight, closure.Length(), 0.1)
	})
}

func TestTernInLaceHasStraightLaceEdges(t *testing.T) {
	eachLace(t, func(t *testing.T, r step.Result) {
		p := r.Size.Pattern
		for _, at := range [][2]string{{framePiece, "hem"}, {bandPiece, "hem"}, {innerPiece, laceEdge}} {
			_, e := p.Edge(at[0], at[1])
			require.NotNil(t, e, at)
			assert.Equal(t, pattern.LaceEdge, e.Role)
			assert.True(t, e.Path.IsStraight(), at)
			assert.Zero(t, e.Allowance)
		}
		_, rest := p.Edge(upperPiece, turnedEdge)
		require.NotNil(t, rest)
		assert.Equal(t, pattern.TurnedBack, rest.Role)
		a, b := p.SideNotches(p.Seam("vertical seam").A), p.SideNotches(p.Seam("vertical seam").B)
		require.Len(t, b, len(a))
		for i := range a {
			assert.InDelta(t, a[i].At, b[i].At, 0.5)
			assert.Equal(t, a[i].Notch.Double, b[i].Notch.Double)
		}
	})
}

func TestTernInLaceJoinsBridgeAndCradleOnTheFold(t *testing.T) {
	eachLace(t, func(t *testing.T, r step.Result) {
		p := r.Size.Pattern
		assert.Nil(t, p.Piece(bridgePiece))
		assert.Nil(t, p.Piece(cradlePiece))
		frame := p.Piece(framePiece)
		require.NotNil(t, frame)
		require.NotNil(t, frame.Fold())
		assert.False(t, frame.Cut.Pair)
		for i := range p.Pieces {
			pc := &p.Pieces[i]
			assert.Equal(t, pc.Name != lowerPiece, pc.Altered(), "%s is marked when altered", pc.Name)
		}
		// The smoothed wire line bends one way all along.
		wire := frame.Edge("wire").Path
		for s := 0.5; s < wire.Length(); s += 0.5 {
			require.LessOrEqual(t, wire.CurvatureAt(s), 1e-6, "at %.1f mm", s)
		}
		for i := 1; i < wire.Len(); i++ {
			assert.InDelta(t, 0, geom.Between(wire.Seg(i-1).Tangent(1), wire.Seg(i).Tangent(0)).Degrees(), 0.01)
		}
	})
}

func TestTernAsDraftedPassesEveryCheck(t *testing.T) {
	each(t, func(t *testing.T, p pattern.Pattern) {
		checks := check.Run(p, p, check.Defaults())
		assert.NotEmpty(t, checks)
		for _, c := range checks {
			assert.Equal(t, check.Holds, c.Verdict, "%s: %s", c.ID, c.Text)
		}
	})
}

// What the maker must know stays for a look: the wire line is wider open, the
// wire has less cloth below it, the frame's cloth lies turned.
func TestTernInLaceBreaksNoCheck(t *testing.T) {
	know := map[string]bool{
		check.WireOpening: true, check.WireDepth: true, check.ClothBelow: true, check.ArrowTurned: true,
	}
	eachLace(t, func(t *testing.T, r step.Result) {
		told := map[string]bool{}
		for _, c := range check.Run(r.Before, r.Size.Pattern, check.Defaults()) {
			assert.NotEqual(t, check.Broken, c.Verdict, "%s: %s", c.ID, c.Text)
			if c.Verdict == check.Look {
				t.Log(c.Text)
				assert.True(t, know[c.ID], "%s: %s", c.ID, c.Text)
			}
			told[c.ID] = told[c.ID] || c.Verdict == check.Look
		}
		assert.True(t, told[check.WireOpening], "she is told of the opening of the wire line")
		assert.True(t, told[check.ClothBelow], "she is told of the cloth below it")
	})
}

func TestAWireLineThatIsTapedAndNotSmoothedHasACorner(t *testing.T) {
	recipe, _, err := step.Recipe(nil).Append(tern(t), TernInLace()...)
	require.NoError(t, err)
	corner := func(r step.Result) (found check.Check) {
		for _, c := range check.Run(r.Before, r.Size.Pattern, check.Defaults()) {
			if c.ID == check.LineCorner && c.Line == "wire line" {
				found = c
			}
		}
		return found
	}
	for _, r := range recipe.Replay(tern(t)) {
		assert.Equal(t, check.Holds, corner(r).Verdict, r.Size.Label)
	}
	recipe[recipe.Index("smooth-wire")].Off = true
	for _, r := range recipe.Replay(tern(t)) {
		c := corner(r)
		assert.Equal(t, check.Broken, c.Verdict, r.Size.Label)
		assert.Contains(t, c.Text, "no wire lies in a corner; smooth it there")
	}
}

func TestTernInLaceIsKeptInAFile(t *testing.T) {
	data, err := json.Marshal(TernInLace())
	require.NoError(t, err)
	var back step.Recipe
	require.NoError(t, json.Unmarshal(data, &back))
	assert.Equal(t, TernInLace(), back)
	again, err := json.Marshal(back)
	require.NoError(t, err)
	assert.JSONEq(t, string(data), string(again))
}
