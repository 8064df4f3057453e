package patterntest

import (
	"fmt"
	"math"

	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
)

// Blob draws a single piece of any shape: a roundish outline of three to
// eight smooth or hollow edges with corners between them, random names,
// allowances and corner ends, and some notches.
func Blob(t *rapid.T) pattern.Piece {
	n := rapid.IntRange(3, 8).Draw(t, "edges")
	names := rapid.SliceOfNDistinct(rapid.StringMatching(`[a-zäß][a-z0-9 ]{0,10}[a-z0-9]`), n, n, rapid.ID).Draw(t, "edge names")
	corners := make([]geom.Point, n)
	for i := range corners {
		r := rapid.Float64Range(70, 110).Draw(t, "radius")
		at := (float64(i) + rapid.Float64Range(-0.15, 0.15).Draw(t, "angle")) / float64(n)
		corners[i] = geom.Angle(2 * math.Pi * at).Unit().Mul(r)
	}
	pc := pattern.Piece{
		Name:  rapid.StringMatching(`[a-z][a-z ]{0,10}[a-z]`).Draw(t, "piece"),
		Arrow: pattern.Arrow{Kind: pattern.Grain, From: geom.Pt(0, -10), To: geom.Pt(0, 10)},
		Cut:   pattern.Cut{Count: 1},
		Pose:  geom.Identity(),
	}
	for i, a := range corners {
		b := corners[(i+1)%n]
		e := pattern.Edge{
			Name:      names[i],
			Role:      rapid.SampledFrom([]pattern.Role{pattern.SeamEdge, pattern.Hem, pattern.Neckline, pattern.TurnedBack}).Draw(t, "role"),
			Allowance: rapid.SampledFrom([]float64{0, 5, 6.35, 10, 12}).Draw(t, "allowance"),
			Corner:    corner(t),
			Path:      geom.Must(geom.Polyline(a, b)),
		}
		if rapid.Bool().Draw(t, "curved") {
			e.Path = bowed(a, b, rapid.Float64Range(-0.1, 0.2).Draw(t, "bulge")*a.Dist(b))
		}
		pc.Edges = append(pc.Edges, e)
	}
	for i := range rapid.IntRange(0, 4).Draw(t, "notches") {
		notch(&pc, fmt.Sprint("n", i), rapid.SampledFrom(names).Draw(t, "notched"),
			pattern.Along{Share: rapid.Float64Range(0, 1).Draw(t, "share")}, false)
	}
	return pc
}

// ownEnds are the corner ends that need no other piece.
var ownEnds = []pattern.CornerEnd{pattern.RunsOn, pattern.Square, pattern.FoldsBack, pattern.FadesOut, pattern.Blunt}

func corner(t *rapid.T) pattern.Corner {
	c := pattern.Corner{End: rapid.SampledFrom(ownEnds).Draw(t, "corner")}
	if c.End != pattern.RunsOn && c.End != pattern.Blunt {
		c.Of = rapid.SampledFrom([]pattern.Neighbour{pattern.Before, pattern.After}).Draw(t, "of")
	}
	return c
}
