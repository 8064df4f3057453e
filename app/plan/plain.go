package plan

import (
	"fmt"
	"math"
	"slices"

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

// overlaps leaves out the pieces that are not pinned, which give way.
func (p plain) overlaps() [][2]int {
	return slices.DeleteFunc(p.Overlaps(), func(o [2]int) bool { return p.Placed[o[0]].Pinned != p.Placed[o[1]].Pinned })
}

func (p plain) wrong() error { return p.Firm().Wrong() }

func (p plain) ends() (from, to float64) { return 0, p.Length }

func (p plain) goods(g cloth.Goods, size string, letGo func(int) bool) cloth.Goods {
	gives := p.GivesWay()
	return g.WithPins(p.Cloth.Name, size, p.Pins(func(i int) bool {
		return slices.Contains(gives, i) || letGo != nil && letGo(i)
	}))
}

func (p plain) where(i int, u unit.System) string {
	box := p.Placed[i].Outline.Bounds()
	told := unit.Restate(fmt.Sprintf("from %s to %s along, %s from the selvedge", unit.MM(math.Round(box.Min.X)), unit.MM(math.Round(box.Max.X)), unit.MM(math.Round(box.Min.Y))), u)
	gives := p.GivesWay()
	for n, k := range gives {
		switch {
		case n == 0:
			told += "; "
		case n == len(gives)-1:
			told += " and "
		default:
			told += ", "
		}
		told += p.Placed[k].Name()
	}
	switch len(gives) {
	case 0:
	case 1:
		told += " gives way"
	default:
		told += " give way"
	}
	return told
}
