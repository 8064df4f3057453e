package suit_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/check"
	"truemat/ops/cloth"
	"truemat/ops/cloth/suit"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

// altered returns the Tern in lace, in every size.
func altered(t *testing.T) []pattern.Pattern {
	run, err := demo.Tern()
	require.NoError(t, err)
	var out []pattern.Pattern
	for _, r := range demo.TernInLace().Replay(run) {
		require.False(t, r.Behind())
		out = append(out, r.Size.Pattern)
	}
	return out
}

func verdicts(checks []check.Check, id, piece string) []check.Verdict {
	var out []check.Verdict
	for _, c := range checks {
		if c.ID == id && c.Piece == piece {
			out = append(out, c.Verdict)
		}
	}
	return out
}

func TestTheTernsGoodsSuitIt(t *testing.T) {
	for _, p := range altered(t) {
		for _, c := range suit.Run(demo.Goods(), p, suit.Defaults()) {
			require.NotEqual(t, check.Broken, c.Verdict, c.Text)
		}
	}
}

// A lace over the band must give at least as much as the net under it; a
// stretch lace on the frame wants a firm layer beneath.
func TestLaceThatDoesNotSuitIsNamed(t *testing.T) {
	p := altered(t)[0]
	set := func(piece string, layers ...string) []check.Check {
		g := demo.Goods()
		for i := range g.Made {
			if g.Made[i].Piece == piece {
				g.Made[i].Cloths = layers
			}
		}
		require.NoError(t, g.Validate())
		return suit.Run(g, p, suit.Defaults())
	}
	require.Equal(t, []check.Verdict{check.Broken}, verdicts(set("band", "heron lace", "power net"), suit.LaceOver, "band"))
	require.Equal(t, []check.Verdict{check.Broken}, verdicts(set("band", "sheer tricot"), suit.Stretchy, "band"))
	require.Equal(t, []check.Verdict{check.Broken}, verdicts(set("frame", "heron lace"), suit.Firm, "frame"))
	require.Equal(t, []check.Verdict{check.Holds}, verdicts(set("frame", "heron lace", "sheer tricot"), suit.Firm, "frame"))
	for _, c := range set("frame", "heron lace") {
		if c.ID == suit.Firm && c.Piece == "frame" {
			require.Contains(t, c.Text, "firm layer beneath")
		}
	}
}

func TestElasticWantsItsAllowanceAndItsRoom(t *testing.T) {
	p := altered(t)[0]
	g := demo.Goods()
	require.Equal(t, []check.Verdict{check.Holds}, verdicts(suit.Run(g, p, suit.Defaults()), suit.ElasticTurned, "frame"))
	g.Elastics[0].PutOn = cloth.Turned
	require.Equal(t, []check.Verdict{check.Broken}, verdicts(suit.Run(g, p, suit.Defaults()), suit.ElasticTurned, "frame"))
	g.Elastics[0].PutOn, g.Elastics[0].Width = cloth.BehindLace, 30
	require.Equal(t, []check.Verdict{check.Broken}, verdicts(suit.Run(g, p, suit.Defaults()), suit.ElasticRoom, "frame"))
}
