package recipe_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/recipe"
	"truemat/ops/step"
)

// joined is a pattern of two squares that are sewn along "joint", with those
// names of their edges above.
func joined(bridge, cradle string) pattern.Pattern {
	b, c := square("bridge", "hem", "joint", bridge, "front"), square("cradle", "hem", "side", cradle, "joint")
	c.Pose = geom.Shift(geom.Pt(100, 0))
	for _, pc := range []*pattern.Piece{&b, &c} {
		for i := range pc.Edges {
			pc.Edges[i].Free = true
		}
	}
	return pattern.Pattern{Pieces: []pattern.Piece{b, c}}
}

// Names on a joined piece are those of the pieces it was joined of, and get one
// in front where both have the name: which of them that is goes by the pattern
// on which the steps are done.
func TestNamesOnAJointAreFoundWhereOthersClash(t *testing.T) {
	one := func(p pattern.Pattern) pattern.Run {
		return pattern.Run{Name: "x", Sizes: []pattern.Size{{Label: "S", Pattern: p}}}
	}
	tape := step.Entry{ID: "tape", Step: &step.Tape{Name: "frame",
		A: step.EdgeEnd{Piece: "bridge", Edge: "joint", End: pattern.End}, B: step.EdgeEnd{Piece: "cradle", Edge: "joint", End: pattern.Start}}}
	five, seven := step.Lit(5), step.Lit(7)
	allow := func(id, piece, edge string, w step.Number) step.Entry {
		return step.Entry{ID: id, Step: &step.Allow{Piece: piece, Edge: edge, Width: &w}}
	}
	for _, c := range []struct {
		name          string
		bridge, other string // edges above in the recipe's pattern
		b2, o2        string // and in that on which it is done
		steps         step.Recipe
		pairs         []string
		wide5, wide7  string // which edges of the frame get 5 and 7 mm there
		refused       string
	}{
		{name: "a clash there and none here", bridge: "top", other: "top", b2: "rim", o2: "edge",
			steps: step.Recipe{tape, allow("a", "frame", "top", five), allow("b", "frame", "cradle top", seven)},
			pairs: []string{"bridge/top=rim", "cradle/top=edge"}, wide5: "rim", wide7: "edge"},
		{name: "no clash there and one here", bridge: "top", other: "rim", b2: "rim", o2: "rim",
			steps: step.Recipe{tape, allow("a", "frame", "top", five), allow("b", "frame", "rim", seven)},
			pairs: []string{"bridge/top=rim"}, wide5: "rim", wide7: "cradle rim"},
		{name: "crossed over", bridge: "top", other: "rim", b2: "rim", o2: "top",
			steps: step.Recipe{tape, allow("a", "frame", "top", five), allow("b", "frame", "rim", seven)},
			pairs: []string{"bridge/top=rim", "cradle/rim=top"}, wide5: "rim", wide7: "top"},
		{name: "other pieces too", bridge: "top", other: "rim", b2: "rim", o2: "rim",
			steps: step.Recipe{tape, allow("a", "frame", "top", five), allow("b", "frame", "rim", seven)},
			pairs: []string{"bridge=middle", "cradle=flank", "bridge/top=rim"}, wide5: "rim", wide7: "flank rim"},
		{name: "in doubt", bridge: "top", other: "rim", b2: "rim", o2: "rim",
			steps: step.Recipe{allow("a", "cradle", "rim", five), tape, allow("b", "frame", "rim", seven)},
			pairs: []string{"cradle=flank"}, refused: "edge \"rim\" of \"frame\" (step b) may be what will be called \"rim\" or \"flank rim\" here; say which\nsay what it is called here, as \"frame/rim=rim\""},
		{name: "doubt cleared", bridge: "top", other: "rim", b2: "rim", o2: "rim",
			steps: step.Recipe{tape, allow("b", "frame", "rim", seven)},
			pairs: []string{"frame/rim=cradle rim"}, wide7: "cradle rim"},
	} {
		for _, e := range c.steps.Replay(one(joined(c.bridge, c.other)))[0].Reports {
			require.Equal(t, step.Applied, e.State, "%s, %s: %s", c.name, e.ID, e.Error)
		}
		m, err := recipe.ParseMap(c.pairs...)
		require.NoError(t, err, c.name)
		p := joined(c.b2, c.o2)
		for i, pc := range p.Pieces {
			if now, ok := m[step.Name{Kind: step.NamePiece, Name: pc.Name}]; ok {
				p.Pieces[i].Name = now
			}
		}
		theirs := one(p)
		opened, err := recipe.Open(theirs, nil, step.Recipe{}.Replay(theirs), c.steps, m)
		if c.refused != "" {
			require.ErrorContains(t, err, c.refused, c.name)
			continue
		}
		require.NoError(t, err, c.name)
		frame := opened.Results[0].Size.Pattern.Piece("frame")
		for _, e := range frame.Edges {
			require.Equal(t, e.Name == c.wide5, e.Allowance == 5, "%s: %s", c.name, e.Name)
			require.Equal(t, e.Name == c.wide7, e.Allowance == 7, "%s: %s", c.name, e.Name)
		}
	}
}

// Of what is lacking on a joined piece each name there is is offered once.
func TestNamesOfBothJoinedPiecesAreOfferedOnce(t *testing.T) {
	p := joined("top", "top")
	run := pattern.Run{Name: "x", Sizes: []pattern.Size{{Label: "S", Pattern: p}}}
	five := step.Lit(5)
	steps := step.Recipe{
		{ID: "tape", Step: &step.Tape{Name: "frame", A: step.EdgeEnd{Piece: "bridge", Edge: "joint", End: pattern.End}, B: step.EdgeEnd{Piece: "cradle", Edge: "joint", End: pattern.Start}}},
		{ID: "a", Step: &step.Allow{Piece: "frame", Edge: "sole", Width: &five}},
	}
	lacks := recipe.Lacks(steps, nil, step.Recipe{}.Replay(run))
	require.Len(t, lacks, 1)
	require.ElementsMatch(t, []string{"side", "top", "joint", "front", "hem"}, lacks[0].Near, "every edge")
}
