package step

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

func TestMirroredTwiceAPieceIsAsItWas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		name := rapid.SampledFrom([]string{patterntest.Bridge, patterntest.Cradle, patterntest.Band}).Draw(t, "piece")
		if rapid.Bool().Draw(t, "single") {
			p.Piece(name).Cut.Pair = false
		}
		m := &Mirror{Piece: name}
		once := apply(t, p, m).Pattern
		pc, is := p.Piece(name), once.Piece(name)
		require.InDelta(t, pc.Area(), is.Area(), 1e-6)
		cut, err := pc.CutArea()
		require.NoError(t, err)
		cutNow, err := is.CutArea()
		require.NoError(t, err)
		require.InDelta(t, cut, cutNow, 1)
		for _, s := range once.Seams {
			a, b := once.SeamLengths(s)
			wasA, wasB := p.SeamLengths(*p.Seam(s.Name))
			require.InDelta(t, wasA, a, 1e-9)
			require.InDelta(t, wasB, b, 1e-9)
			for _, pt := range append(s.A, s.B...) {
				require.Equal(t, pt.Piece == name && (pc.Cut.Pair || pc.Fold() != nil), pt.Mirrored)
			}
		}
		requireAlike(t, p, apply(t, once, m).Pattern)
	})
}

func TestMirroredLinesStillRunOn(t *testing.T) {
	p := patterntest.Sample()
	once := apply(t, p, &Mirror{Piece: patterntest.Cradle}).Pattern
	for _, l := range once.Lines {
		was, err := p.LayChain(p.Line(l.Name).Parts)
		require.NoError(t, err)
		lay, err := once.LayChain(l.Parts)
		require.NoError(t, err)
		for i, j := range lay.Junctions {
			require.InDelta(t, 0, j.Gap, 1e-6)
			require.InDelta(t, abs(was.Junctions[i].Kink.Degrees()), abs(j.Kink.Degrees()), 1e-6, l.Name)
		}
	}
}

func abs(v float64) float64 { return max(v, -v) }

func TestHandsOfAPairSetApartAreSewnEachOnItsSide(t *testing.T) {
	p := patterntest.Sample()
	out := apply(t, p, &Mirror{Piece: patterntest.Cradle, Name: "cradle right", Apart: true})
	q := out.Pattern
	left, right := q.Piece(patterntest.Cradle), q.Piece("cradle right")
	require.False(t, left.Cut.Pair)
	require.False(t, right.Cut.Pair)
	require.InDelta(t, left.Area(), right.Area(), 1e-6)
	require.Len(t, right.Notches, len(left.Notches))
	require.Equal(t, p.Seam("bridge seam"), q.Seam("bridge seam"))
	s := q.Seam("bridge seam other")
	require.Equal(t, pattern.Side{{Piece: patterntest.Bridge, Edge: "cradle seam", Mirrored: true, From: 1}}, s.A)
	require.Equal(t, pattern.Side{{Piece: "cradle right", Edge: "bridge seam", From: 1}}, s.B)
	require.Equal(t, 1, q.Line("wire line").Count)
	require.Equal(t, 1, q.Line("wire line other").Count)
	for _, l := range q.Lines {
		lay, err := q.LayChain(l.Parts)
		require.NoError(t, err)
		for _, j := range lay.Junctions {
			require.InDelta(t, 0, j.Gap, 1e-6, l.Name)
			require.InDelta(t, 0, j.Kink.Degrees(), 1, l.Name)
		}
	}
}

func TestMirroredCopyStandsAlone(t *testing.T) {
	p := patterntest.Sample()
	out := apply(t, p, &Mirror{Piece: patterntest.Band, Name: "band right"})
	require.Len(t, out.Notes, 1)
	require.Equal(t, p.Seams, out.Pattern.Seams)
	require.Equal(t, p.Pieces, out.Pattern.Pieces[:3])
	copied := out.Pattern.Piece("band right")
	require.InDelta(t, p.Piece(patterntest.Band).Area(), copied.Area(), 1e-6)
}

func TestMirrorRefusesWhatItCannotDo(t *testing.T) {
	p := patterntest.Sample()
	for want, s := range map[string]*Mirror{
		"no piece \"cup\"":    {Piece: "cup"},
		"needs a name":        {Piece: patterntest.Cradle, Apart: true},
		"cut single":          {Piece: patterntest.Bridge, Name: "b", Apart: true},
		"already is a piece":  {Piece: patterntest.Bridge, Name: patterntest.Band},
		"leave out \"other\"": {Piece: patterntest.Bridge, Other: "x"},
	} {
		require.Contains(t, refused(t, p, s), want)
	}
}
