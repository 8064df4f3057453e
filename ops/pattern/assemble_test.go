package pattern_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	. "truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

func TestLinesOfAFrameRunOnWhenSewn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		for i := range p.Pieces { // poses must not matter
			p.Pieces[i].Pose = geom.Shift(geom.Pt(1000*float64(i), 0))
		}
		for _, l := range p.Lines {
			lay, err := p.LayChain(l.Parts)
			if err != nil {
				t.Fatal(err)
			}
			if len(lay.Paths) != len(l.Parts) || len(lay.Junctions) != len(l.Parts)-1 {
				t.Fatalf("%s gives %d paths and %d junctions", l.Name, len(lay.Paths), len(lay.Junctions))
			}
			for _, j := range lay.Junctions {
				if math.Abs(j.Kink.Degrees()) > 1e-6 || j.Gap > 1e-9 || j.Seam == "" {
					t.Fatalf("%s has a kink of %v° and a gap of %v at seam %q", l.Name, j.Kink.Degrees(), j.Gap, j.Seam)
				}
			}
		}
		// The opening is that of the wire line as drafted.
		lay, _ := p.LayChain(p.Line(patterntest.WireLine).Parts)
		open := lay.Paths[0].Start().Dist(lay.Paths[1].End())
		if open < 100 || open > 145 {
			t.Fatalf("the opening is %v", open)
		}
	})
}

func TestOpeningOfTheSampleIsAsDrafted(t *testing.T) {
	p := patterntest.Sample()
	lay, err := p.LayChain(p.Line(patterntest.WireLine).Parts)
	require.NoError(t, err)
	s := patterntest.Middle
	assert.InDelta(t, math.Hypot(s.Width, s.SideArm-s.FrontArm), lay.Paths[0].Start().Dist(lay.Paths[1].End()), 1e-9)
}

func TestAKinkAndAStepAreMeasured(t *testing.T) {
	p := patterntest.Sample()
	// Lay the cradle down afresh with its hem starting 2 mm further up the seam and turned by 5°.
	pc := p.Piece(patterntest.Cradle)
	hem := pc.Edge("hem")
	o := hem.Path.Start()
	seam := pc.Edge(patterntest.BridgeSeam)
	up := seam.Path.TangentBefore(seam.Length()).Mul(-1)
	turn := geom.Turn(5*geom.Degree, o).Then(geom.Shift(up.Mul(2)))
	hem.Path = hem.Path.Transform(turn)
	lay, err := p.LayChain(p.Line(patterntest.HemLine).Parts)
	require.NoError(t, err)
	assert.InDelta(t, 5, lay.Junctions[0].Kink.Degrees(), 1e-6)
	assert.InDelta(t, 2, lay.Junctions[0].Gap, 1e-9)
	assert.Equal(t, patterntest.BridgeSeam, lay.Junctions[0].Seam)
	assert.Equal(t, patterntest.Bridge, lay.Junctions[0].Before.Piece)
}

func TestAFoldPieceMeetsItsMirroredHand(t *testing.T) {
	p := patterntest.Sample()
	parts := []Part{
		{Piece: patterntest.Cradle, Edge: "hem", Mirrored: true, From: 1},
		{Piece: patterntest.Bridge, Edge: "hem", Mirrored: true, From: 1},
		Whole(patterntest.Bridge, "hem"),
		Whole(patterntest.Cradle, "hem"),
	}
	lay, err := p.LayChain(parts)
	require.NoError(t, err)
	for _, j := range lay.Junctions {
		assert.InDelta(t, 0, j.Kink.Degrees(), 1e-6)
		assert.InDelta(t, 0, j.Gap, 1e-9)
	}
	side := patterntest.Middle.BridgeTop + patterntest.Middle.Width + patterntest.Middle.Beyond
	assert.InDelta(t, 2*side, lay.Paths[0].Start().Dist(lay.Paths[3].End()), 1e-9)
}

func TestPartsWithoutASeamLieAsOnTheMat(t *testing.T) {
	p := patterntest.Sample()
	p.Seams = nil
	p.Piece(patterntest.Cradle).Pose = geom.Shift(geom.Pt(3, 4)).Then(p.Piece(patterntest.Cradle).Pose)
	lay, err := p.LayChain(p.Line(patterntest.HemLine).Parts[:2])
	require.NoError(t, err)
	assert.InDelta(t, 5, lay.Junctions[0].Gap, 1e-9)
	assert.Empty(t, lay.Junctions[0].Seam)

	_, err = p.LayChain([]Part{Whole(patterntest.Bridge, "hem"), {Piece: patterntest.Cradle, Edge: "hem", Mirrored: true, To: 1}})
	assert.ErrorContains(t, err, "no seam joins")
	_, err = p.LayChain(nil)
	assert.ErrorContains(t, err, "at least one part")
	_, err = p.LayChain([]Part{Whole("x", "hem")})
	assert.ErrorContains(t, err, `no edge "hem" on a piece "x"`)
}
