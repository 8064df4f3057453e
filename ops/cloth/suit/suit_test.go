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
	bonded := demo.Goods()
	bonded.Cloths = append(bonded.Cloths, cloth.Cloth{Name: "lace on net", Of: []string{"heron lace", "power net"}})
	bonded, err := bonded.WithLayers("band", "lace on net")
	require.NoError(t, err)
	require.Equal(t, []check.Verdict{check.Broken}, verdicts(suit.Run(bonded, p, suit.Defaults()), suit.LaceOver, "band"), "bonded as well")
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

// An elastic shorter than is usual deserves a look; one within the range is not told.
func TestAnElasticShorterThanUsualDeservesALook(t *testing.T) {
	p := altered(t)[0]
	for percent, want := range map[float64][]check.Verdict{12: nil, 15: nil, 15.5: {check.Look}, 40: {check.Look}} {
		g := demo.Goods()
		g.Elastics[0].Stretches = []cloth.Reduced{{Pieces: []string{"band"}, Percent: percent}}
		require.Equal(t, want, verdicts(suit.Run(g, p, suit.Defaults()), suit.ElasticShort, "band"), percent)
	}
	g := demo.Goods()
	g.Elastics[0].Stretches = []cloth.Reduced{{Pieces: []string{"frame"}, Percent: 12}}
	require.Equal(t, []check.Verdict{check.Look}, verdicts(suit.Run(g, p, suit.Defaults()), suit.ElasticShort, "frame"), "a firm part takes less")
}

// Behind a border the elastic lies above the valley line, and the scallops hang
// below the sew line by their depth, less what the sew line lies below the valley
// line itself; of borders of two depths by either.
func TestWhatHangsBelowTheSewLineIsTold(t *testing.T) {
	p := altered(t)[0]
	said := func(g cloth.Goods, piece string) string {
		require.NoError(t, g.Validate())
		for _, c := range suit.Run(g, p, suit.Defaults()) {
			if c.ID == suit.ElasticRoom && c.Piece == piece {
				return c.Text
			}
		}
		return ""
	}
	g := demo.Goods()
	before := verdictOf(t, g, p)
	require.Contains(t, said(g, "frame"), "the scallops hang 11 mm below the sew line")
	deeper := g.WithWish("heron lace", p, cloth.Wish{Piece: "frame", Depth: 4})
	require.Contains(t, said(deeper, "frame"), "the scallops hang 7 mm below the sew line")
	require.InDelta(t, before-4, verdictOf(t, deeper, p), 1e-9, "the valley line lies 4 mm nearer to the channelling")
	two := *g.Cloths[2].Lace
	two.SecondDepth = 8
	g.Cloths[2].Lace = &two
	require.Contains(t, said(g, "frame"), "hang 11 mm below the sew line, or 8 mm on the second border")

	g = demo.Goods()
	g.Elastics = append(g.Elastics, cloth.Elastic{Name: "neck elastic", Line: "neckline", Width: 6, Loops: 2, PutOn: cloth.BehindLace})
	p.Lines = append(p.Lines, pattern.Line{Name: "neckline", Kind: pattern.LineNeckline, Count: 2, Parts: []pattern.Part{{Piece: "inner cup", Edge: "lace edge"}}})
	require.Contains(t, said(g, "inner cup"), "lies with its loops on the 8 mm of inner cup above the valley line; the scallops hang 11 mm below the sew line")
	require.Empty(t, said(g, "band"), "no lace there")
}

func verdictOf(t *testing.T, g cloth.Goods, p pattern.Pattern) float64 {
	for _, c := range suit.Run(g, p, suit.Defaults()) {
		if c.ID == suit.ElasticRoom && c.Piece == "frame" {
			return c.Measured
		}
	}
	require.FailNow(t, "no room was checked")
	return 0
}
