package suit_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/cloth"
	"truemat/ops/cloth/suit"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

// hoop is a hem of a firm front and a band that gives, lying flat, its
// lengths those of half the round.
func hoop(front, band, body, fastened, wanted float64) pattern.Pattern {
	strip := func(name string, length float64, arrow pattern.ArrowKind) pattern.Piece {
		at := []geom.Point{{}, geom.Pt(length, 0), geom.Pt(length, 40), geom.Pt(0, 40)}
		pc := pattern.Piece{Name: name, Pose: geom.Identity(), Cut: pattern.Cut{Count: 1, Pair: true}, Arrow: pattern.Arrow{Kind: arrow, To: geom.Pt(10, 0)}}
		for i, e := range []string{"hem", "back", "top", "front"} {
			pc.Edges = append(pc.Edges, pattern.Edge{Name: e, Role: pattern.SeamEdge, Free: true, Path: geom.Must(geom.Polyline(at[i], at[(i+1)%4]))})
		}
		return pc
	}
	return pattern.Pattern{
		Pieces:  []pattern.Piece{strip("front", front, pattern.LeastStretch), strip("band", band, pattern.MostStretch)},
		Lines:   []pattern.Line{{Name: "hem", Kind: pattern.LineHem, Parts: []pattern.Part{pattern.Whole("front", "hem"), pattern.Whole("band", "hem")}, Count: 2}},
		Figures: map[string]float64{pattern.FigureUnderbust: body, pattern.FigureFastened: fastened, pattern.FigureReduction: wanted},
	}
}

func found(t *testing.T, checks []check.Check, id string) check.Check {
	t.Helper()
	for _, c := range checks {
		if c.ID == id {
			return c
		}
	}
	require.Fail(t, "no such check", id)
	return check.Check{}
}

// Worked by hand: 2·(140 + 160) + 50 = 650 mm round a body of 750 is 100/750
// less, worn a strain of 100/650; the band is drawn from 320 mm to
// 750 − 50 − 280 = 420 mm. A column farther in is 20 mm less all round.
func TestEveryColumnOfEyesIsWorkedOut(t *testing.T) {
	g := cloth.Goods{
		Elastics: []cloth.Elastic{{Name: "hem elastic", Line: "hem", Width: 10, PutOn: cloth.BehindLace, Overlap: 20, Stretches: []cloth.Reduced{{Pieces: []string{"band"}, Percent: 20}}}},
		Notions:  cloth.Notions{Eyes: cloth.Eyes{Columns: 3, Spacing: 20, Worn: 2}},
	}
	c, ok := suit.Close(g, hoop(140, 160, 750, 50, 13))
	require.True(t, ok)
	require.InDelta(t, 280, c.Firm, 1e-9)
	require.InDelta(t, 320, c.Gives, 1e-9)
	require.Len(t, c.Columns, 3)
	require.Equal(t, 2, c.Nearest)
	for k, over := range []float64{20, 0, -20} {
		col := c.Columns[k]
		require.Equal(t, k == 1, col.Worn)
		require.InDelta(t, 50+over, col.Fastened, 1e-9)
		require.InDelta(t, 650+over, col.Girth, 1e-9)
		require.InDelta(t, 650+over-0.2*320, col.Drawn, 1e-9)
		require.InDelta(t, 100*(100-over)/750, col.Reduction, 1e-9)
		require.InDelta(t, 100*(100-over)/(650+over), col.Strain, 1e-9)
		require.InDelta(t, 100*((420-over)/320-1), col.Band, 1e-9)
		require.InDelta(t, 100*((420-over)/(0.8*320)-1), col.Elastic, 1e-9)
	}
}

func TestTheColumnThatIsWornIsJudged(t *testing.T) {
	eyes := func(worn int) cloth.Goods {
		return cloth.Goods{Notions: cloth.Notions{Eyes: cloth.Eyes{Columns: 3, Spacing: 20, Worn: worn}}}
	}
	judged := func(g cloth.Goods, wanted float64) check.Check {
		return found(t, suit.Run(g, hoop(140, 160, 750, 50, wanted), suit.Defaults()), suit.ClosureColumn)
	}
	require.Equal(t, check.Holds, judged(eyes(1), 13).Verdict)
	tighter := judged(eyes(1), 18.5)
	require.Equal(t, check.Look, tighter.Verdict)
	require.Contains(t, tighter.Text, "column 3 comes nearer")
	require.Contains(t, tighter.Text, "worn in the loosest")
	none := judged(eyes(1), 30)
	require.Equal(t, check.Broken, none.Verdict)
	require.Contains(t, none.Text, "shorten the band")
	require.Contains(t, judged(eyes(1), 1).Text, "lengthen the band")

	g := eyes(1)
	g.Cloths = []cloth.Cloth{{Name: "net", Width: 1000, Along: cloth.Pull{Before: 100, Under: 120}, Across: cloth.Pull{Before: 100, Under: 120}}}
	g.Made = []cloth.Made{{Piece: "band", Cloths: []string{"net"}}}
	tight := found(t, suit.Run(g, hoop(140, 160, 750, 50, 13), suit.Defaults()), suit.BandStrain)
	require.Equal(t, check.Broken, tight.Verdict, "31 %% asked of a net that gives by 20")
	require.InDelta(t, 20-31.25, tight.Measured, 1e-9)
}

// Reduction and strain are two sides of one thing: the strained hem is as
// long as the body.
func TestStrainDrawsTheHemOutToTheBody(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.Float64Range(50, 400)
		front, band := side.Draw(t, "front"), side.Draw(t, "band")
		g := cloth.Goods{Notions: cloth.Notions{Eyes: cloth.Eyes{Columns: rapid.IntRange(2, 6).Draw(t, "columns"), Spacing: rapid.Float64Range(5, 20).Draw(t, "spacing")}}}
		c, ok := suit.Close(g, hoop(front, band, 2*(front+band)*rapid.Float64Range(0.9, 1.5).Draw(t, "body"), rapid.Float64Range(100, 120).Draw(t, "fastened"), 10))
		require.True(t, ok)
		for _, col := range c.Columns {
			require.InDelta(t, c.Underbust, col.Girth*(1+col.Strain/100), 1e-6)
			require.InDelta(t, c.Underbust, col.Fastened+c.Firm+c.Gives*(1+col.Band/100), 1e-6)
		}
	})
}

func TestTopstitchingThatMissesItsAllowanceIsNamed(t *testing.T) {
	p := altered(t)[0]
	at := func(away float64) []check.Verdict {
		g := demo.Goods()
		g.Topstitch = []cloth.Topstitch{{Seam: "side seam", Class: "301", Away: away}}
		require.NoError(t, g.Validate())
		return verdicts(suit.Run(g, p, suit.Defaults()), suit.TopstitchHold, "band")
	}
	require.Equal(t, []check.Verdict{check.Holds}, at(2))
	require.Equal(t, []check.Verdict{check.Look}, at(6))
	require.Equal(t, []check.Verdict{check.Broken}, at(7))
}
