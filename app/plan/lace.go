package plan

import (
	"fmt"
	"math"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/unit"
)

// OnLace returns the board of a plan on a lace; least is the length of the
// shortest plan with nothing laid by hand.
func OnLace(p border.Plan, least float64) *Board {
	g := lace{p}
	return &Board{now: g, kept: g, base: g, least: least, chosen: -1}
}

type lace struct{ border.Plan }

func (l lace) count() int { return len(l.Placed) }

func (l lace) piece(i int) Piece {
	o := l.Placed[i]
	on := geom.Shift(geom.Pt(l.Start, 0))
	p := Piece{Piece: o.Piece, Name: o.Name(), Motion: o.Motion.Then(on), Outline: o.Outline().Transform(on), ByHand: o.ByHand}
	p.Held = p.Motion.Apply(o.Lay.Inverse().Apply(geom.Point{}))
	p.Way = fmt.Sprint(o.Second)
	return p
}

func (l lace) place(i int) geom.Point {
	if o := l.Placed[i]; o.Second {
		return geom.Pt(o.At, l.Lace.Usable())
	}
	return geom.Pt(l.Placed[i].At, 0)
}

func (l lace) move(i int, to geom.Point) (ground, []int) {
	second := to.Y > l.Lace.Usable()/2
	if !l.LiesOn(i, second) {
		second = l.Placed[i].Second
	}
	p, follow := l.Moved(i, second, l.Near(i, second, to.X))
	return lace{p}, follow
}

// step goes by a step of the motif, by a whole repeat where the place in the
// motif is chosen or the step is far, or to the other border.
func (l lace) step(i int, k tool.KeyName, mm float64) geom.Point {
	by := l.Plan.Step()
	if l.Placed[i].Held || mm >= far {
		by = l.Lace.Lace.Repeat
	}
	at := l.place(i)
	switch k {
	case tool.Left:
		return at.Add(geom.Pt(-by, 0))
	case tool.Right:
		return at.Add(geom.Pt(by, 0))
	case tool.Up:
		return geom.Pt(at.X, l.Lace.Usable())
	}
	return geom.Pt(at.X, 0)
}

// far is the step in mm of an arrow with Shift.
const far = 10

func (l lace) turn(i int) (ground, []int, error) {
	if !l.Lace.Lace.Both {
		return nil, nil, fmt.Errorf("%q has a border on one side only, so its pieces cannot be turned half round", l.Lace.Name)
	}
	second := !l.Placed[i].Second
	if !l.LiesOn(i, second) {
		return nil, nil, fmt.Errorf("%s lies deeper below the valley line than the other border is scalloped, so it cannot be turned half round", l.Placed[i].Name())
	}
	p, follow := l.Moved(i, second, l.Near(i, second, l.Placed[i].At))
	return lace{p}, follow, nil
}

func (l lace) overlaps() [][2]int { return l.Overlaps() }
func (l lace) wrong() error       { return l.Wrong() }

func (l lace) ends() (from, to float64) { return l.Start, l.Start + l.Length }

func (l lace) goods(g cloth.Goods, size string, letGo func(int) bool) cloth.Goods {
	return g.WithPlaces(l.Lace.Name, size, l.Places(letGo))
}

func (l lace) where(i int, u unit.System) string {
	o := l.Placed[i]
	at := "on the first border"
	if o.Second {
		at = "on the second border"
	}
	if !l.Lace.Lace.Both {
		at = "on the border"
	}
	return at + unit.Restate(fmt.Sprintf(", %s along, %s behind a motif point", unit.MM(math.Round(o.X)), unit.MM(math.Round(o.Motif*10)/10)), u)
}
