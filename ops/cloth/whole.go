package cloth

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// WholeCut returns the cut line of a piece; of a piece on the fold that of
// both halves together.
func WholeCut(pc *pattern.Piece) (geom.Path, error) {
	cut, err := pc.CutLine()
	if err != nil || pc.Fold() == nil {
		return cut, err
	}
	return whole(cut, pc.Fold().Path)
}

// whole joins the outline of a half with its mirror image about the fold.
func whole(half, fold geom.Path) (geom.Path, error) {
	over, err := geom.Mirror(fold.Start(), fold.End())
	if err != nil {
		return geom.Path{}, err
	}
	line, err := geom.NewLine(fold.Start(), fold.End())
	if err != nil {
		return geom.Path{}, err
	}
	var open []geom.Cubic
	segs := half.Segments()
	on := func(s geom.Cubic) bool {
		return math.Abs(line.Distance(s.Start())) <= onFold && math.Abs(line.Distance(s.End())) <= onFold
	}
	start := -1
	for i, s := range segs {
		if !on(s) && on(segs[(i+len(segs)-1)%len(segs)]) {
			start = i
		}
	}
	if start < 0 {
		return geom.Path{}, fmt.Errorf("its cut line does not run along the fold")
	}
	for k := range segs {
		s := segs[(start+k)%len(segs)]
		if on(s) {
			break
		}
		open = append(open, s)
	}
	side, err := geom.NewPath(open...)
	if err != nil {
		return geom.Path{}, err
	}
	return geom.JoinClosed(side, side.Transform(over).Reverse())
}

// onFold is how far in mm a cut line may be off the fold that it runs along.
const onFold = 0.01
