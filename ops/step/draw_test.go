package step

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

func TestDrawFromSpotToSpot(t *testing.T) {
	p := twoBoxes()
	at := func(edge string, share float64) *pattern.Spot {
		return &pattern.Spot{Edge: edge, Along: pattern.Along{Share: share}}
	}
	d := &Draw{Piece: "left", Name: "yoke", From: at("hem", 0.5), To: at("top", 0.5)}
	out := applied(t, p, d)
	line := out.Pattern.Piece("left").InnerLine("yoke")
	require.Equal(t, pattern.Drawn, line.Kind)
	require.InDelta(t, out.Figures["length"], line.Path.Length(), 1e-12)
	require.True(t, line.Path.IsStraight())
	d.Bulge = exactly(10)
	line = applied(t, p, d).Pattern.Piece("left").InnerLine("yoke")
	chord := geom.Must(geom.Polyline(line.Path.Start(), line.Path.End()))
	far, _ := line.Path.Farthest(chord)
	require.InDelta(t, 10, far, 1e-9, "a parabola's middle lies at the bulge")
}

func TestDrawBesideAnEdgeFromSideToSide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		width := rapid.Float64Range(2, 15).Draw(t, "distance")
		out := applied(t, p, &Draw{Piece: patterntest.Band, Name: "channel", Edge: "top", Distance: exactly(width)})
		pc := out.Pattern.Piece(patterntest.Band)
		line := pc.InnerLine("channel").Path
		e, o := pc.Edge("top").Path, geom.Must(pc.Outline())
		for i := 1; i < 50; i++ {
			q := line.At(line.Length() * float64(i) / 50)
			require.True(t, o.Contains(q))
			if f := e.Nearest(q); f.S > 1e-6 && f.S < e.Length()-1e-6 {
				require.InDelta(t, width, f.Dist, 0.02)
			}
		}
		require.InDelta(t, 0, o.Nearest(line.Start()).Dist, 1e-6)
		require.InDelta(t, 0, o.Nearest(line.End()).Dist, 1e-6)
	})
}

func TestDrawThroughPointsFollowsThePieceInEverySize(t *testing.T) {
	p := twoBoxes()
	pts := []geom.Point{geom.Pt(0.1, 0.2), geom.Pt(0.4, 0.6), geom.Pt(0.8, 0.5), geom.Pt(0.9, 0.9)}
	for _, curved := range []bool{false, true} {
		out := applied(t, p, &Draw{Piece: "left", Name: "style", Points: pts, Curved: curved})
		pc := out.Pattern.Piece("left")
		line, b := pc.InnerLine("style").Path, geom.Must(pc.Outline()).Bounds()
		require.Equal(t, 3, line.Len())
		for i, s := range pts {
			q := geom.Pt(b.Min.X+s.X*b.Width(), b.Min.Y+s.Y*b.Height())
			require.InDelta(t, 0, line.Nearest(q).Dist, 1e-9)
			if curved && i > 0 && i < 3 {
				s := line.LengthTo(i, 0)
				require.InDelta(t, 0, geom.Between(line.TangentBefore(s), line.TangentAt(s)).Degrees(), 1e-6)
				require.InDelta(t, line.CurvatureAt(s-1e-7), line.CurvatureAt(s+1e-7), 1e-3)
			}
		}
	}
}

func TestSweepOfPointsOnALineIsStraight(t *testing.T) {
	path, err := sweep([]geom.Point{geom.Pt(0, 0), geom.Pt(10, 5), geom.Pt(40, 20), geom.Pt(60, 30)})
	require.NoError(t, err)
	require.InDelta(t, math.Hypot(60, 30), path.Length(), 1e-9)
}

func TestDrawRefuses(t *testing.T) {
	p := twoBoxes()
	a, b := &pattern.Spot{Edge: "hem"}, &pattern.Spot{Edge: "top"}
	p.Pieces[0].Inner = []pattern.Inner{{Name: "there", Kind: pattern.Drawn, Path: geom.Must(geom.Polyline(geom.Pt(1, 1), geom.Pt(2, 2)))}}
	for want, d := range map[string]*Draw{
		"no piece":              {Piece: "x", Name: "n", From: a, To: b},
		"needs a name":          {Piece: "left", From: a, To: b},
		"inner line \"there\"":  {Piece: "left", Name: "there", From: a, To: b},
		"one of them":           {Piece: "left", Name: "n"},
		"needs both ends":       {Piece: "left", Name: "n", From: a},
		"two different":         {Piece: "left", Name: "n", From: a, To: a},
		"does not lie on left":  {Piece: "left", Name: "n", From: a, To: &pattern.Spot{Piece: "right", Edge: "hem"}},
		"no edge \"collar\"":    {Piece: "left", Name: "n", Edge: "collar", Distance: exactly(3)},
		"give its \"distance\"": {Piece: "left", Name: "n", Edge: "hem"},
		"above 0":               {Piece: "left", Name: "n", Edge: "hem", Distance: exactly(-3)},
		"smaller distance":      {Piece: "left", Name: "n", Edge: "hem", Distance: exactly(3000)},
		"at least two":          {Piece: "left", Name: "n", Points: []geom.Point{{}}},
		"100 mm right of left":  {Piece: "left", Name: "n", Points: []geom.Point{{}, geom.Pt(2, 0)}},
		"would lie on hem":      {Piece: "left", Name: "n", From: a, To: &pattern.Spot{Edge: "hem", Along: pattern.Along{Share: 0.5}}},
		"the same place":        {Piece: "left", Name: "n", Points: []geom.Point{{}, {}}},
	} {
		require.Contains(t, refusal(t, p, d), want)
	}
}
