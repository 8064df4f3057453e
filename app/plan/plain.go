package plan

import (
	"fmt"
	"math"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/cloth/cutting"
	"truemat/ops/unit"
)

// OnCloth returns the board of a layout of plain cloth; least is the length of
// the one with nothing pinned.
func OnCloth(l cutting.Layout, least float64) *Board {
	g := plain{l}
	return &Board{now: g, kept: g, base: g, least: least, chosen: -1}
}

type plain struct{ cutting.Layout }

func (p plain) count() int { return len(p.Placed) }

func (p plain) piece(i int) Piece {
	o := p.Placed[i]
	return Piece{Piece: o.Piece, Name: o.Name(), Motion: o.Motion, Outline: o.Outline, Held: o.Middle(), ByHand: o.Pinned, Way: fmt.Sprint(o.Half)}
}

func (p plain) place(i int) geom.Point { return p.Placed[i].Middle() }

func (p plain) move(i int, to geom.Point) (ground, []int) {
	return plain{p.Moved(i, p.Within(i, to), p.Placed[i].Half)}, nil
}

func (p plain) step(i int, k tool.KeyName, mm float64) geom.Point {
	by := map[tool.KeyName]geom.Point{tool.Left: geom.Pt(-mm, 0), tool.Right: geom.Pt(mm, 0), tool.Up: geom.Pt(0, mm), tool.Down: geom.Pt(0, -mm)}
	return p.place(i).Add(by[k])
}

func (p plain) turn(i int) (ground, []int, error) {
	if p.Cloth.OneWay {
		return nil, nil, fmt.Errorf("%q has an up and a down, so its pieces cannot be turned half round", p.Cloth.Name)
	}
	return plain{p.Moved(i, p.place(i), !p.Placed[i].Half)}, nil, nil
}

func (p plain) overlaps() [][2]int { return p.Overlaps() }
func (p plain) wrong() error       { return p.Wrong() }

func (p plain) ends() (from, to float64) { return 0, p.Length }

func (p plain) goods(g cloth.Goods, size string, letGo func(int) bool) cloth.Goods {
	return g.WithPins(p.Cloth.Name, size, p.Pins(letGo))
}

func (p plain) where(i int, u unit.System) string {
	box := p.Placed[i].Outline.Bounds()
	return unit.Restate(fmt.Sprintf("from %s to %s along, %s from the selvedge", unit.MM(math.Round(box.Min.X)), unit.MM(math.Round(box.Max.X)), unit.MM(math.Round(box.Min.Y))), u)
}
