// Package plan is the laying of pieces on a length of lace or cloth by hand: a
// state machine without a toolkit, fed by pointer and keys in mm, that says
// what it would keep.
//
// Its coordinates are those of the cloth: x along it, y across. On a lace x is
// counted from a motif point of the first border and y from that border's
// valley line; a plain cloth begins at x = 0, its lower selvedge at y = 0.
package plan

import (
	"fmt"
	"math"
	"slices"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/unit"
)

// Board is a length of cloth with the pieces on it.
type Board struct {
	now, kept ground
	base      ground // from which the chosen piece is moved: as kept, but for turns
	least     float64
	chosen    int // −1 when none is
	follow    []int
	grip      geom.Point // from the pointer to the chosen piece's place
	held      bool       // by the pointer
	moved     bool       // since it was kept
}

// ground is a cloth with pieces on it. It is not changed once handed out.
type ground interface {
	count() int
	piece(i int) Piece
	place(i int) geom.Point // what is dragged
	// move lays a piece at the place nearest to one that is possible, with what
	// follows it.
	move(i int, to geom.Point) (ground, []int)
	step(i int, k tool.KeyName, mm float64) geom.Point // where an arrow takes it
	turn(i int) (ground, []int, error)
	overlaps() [][2]int
	wrong() error
	ends() (from, to float64)
	goods(g cloth.Goods, size string, letGo func(int) bool) cloth.Goods
	where(i int, u unit.System) string
}

// Piece is a piece as it lies.
type Piece struct {
	Piece   string // its name in the pattern
	Name    string // with its hand and layer
	Motion  geom.Motion
	Outline geom.Path
	Held    geom.Point // what is held: the spot on the border, or the middle
	ByHand  bool
	Way     string // the same for pieces that differ in their place alone
}

// Count returns how many pieces there are.
func (b *Board) Count() int { return b.now.count() }

// Piece returns piece i as it lies now.
func (b *Board) Piece(i int) Piece { return b.now.piece(i) }

// Chosen returns the piece that is chosen, −1 when none is.
func (b *Board) Chosen() int { return b.chosen }

// Follows reports whether piece i moved along with the chosen one.
func (b *Board) Follows(i int) bool { return slices.Contains(b.follow, i) }

// Moved reports whether something lies otherwise than it is kept.
func (b *Board) Moved() bool { return b.moved }

// Held reports whether the pointer holds a piece.
func (b *Board) Held() bool { return b.held }

// Ends returns where the length in use begins and ends.
func (b *Board) Ends() (from, to float64) { return b.now.ends() }

// Length returns the length to buy as it lies now, in mm.
func (b *Board) Length() float64 {
	from, to := b.now.ends()
	return to - from
}

// Least returns the least length that was found when nothing is laid by hand.
func (b *Board) Least() float64 { return b.least }

// ByHand reports whether any piece lies where she laid it.
func (b *Board) ByHand() bool {
	for i := range b.Count() {
		if b.Piece(i).ByHand {
			return true
		}
	}
	return false
}

// Wrong tells what keeps the pieces from being kept as they lie; nil when
// nothing does.
func (b *Board) Wrong() error { return b.now.wrong() }

// Overlapping reports whether piece i lies over another one.
func (b *Board) Overlapping(i int) bool {
	return slices.ContainsFunc(b.now.overlaps(), func(o [2]int) bool { return o[0] == i || o[1] == i })
}

// at returns the piece at a place, the smallest of those that lie there.
func (b *Board) at(q geom.Point) int {
	found, size := -1, math.Inf(1)
	for i := range b.Count() {
		if o := b.Piece(i).Outline; o.Contains(q) && math.Abs(o.Area()) < size {
			found, size = i, math.Abs(o.Area())
		}
	}
	return found
}

// Press takes hold of the piece at a place; none is chosen after a press
// beside all of them. What was moved by keys and not kept goes back.
func (b *Board) Press(q geom.Point) {
	b.Cancel()
	b.chosen = b.at(q)
	if b.chosen >= 0 {
		b.held, b.grip = true, b.now.place(b.chosen).Sub(q)
	}
}

// Drag moves the piece that is held along.
func (b *Board) Drag(q geom.Point) {
	if b.held {
		b.put(q.Add(b.grip))
	}
}

// put lays the chosen piece, and what follows it, as from where all was.
func (b *Board) put(to geom.Point) {
	b.now, b.follow = b.base.move(b.chosen, to)
	b.look()
}

// look finds whether anything lies otherwise than it is kept.
func (b *Board) look() {
	b.moved = b.now.place(b.chosen).Dist(b.kept.place(b.chosen)) > still || b.piece().Way != b.kept.piece(b.chosen).Way
	if !b.moved {
		b.now, b.base, b.follow = b.kept, b.kept, nil
	}
}

// still is how far in mm a piece may be off its place and count as lying there.
const still = 1e-6

// Release lets go; it reports whether there is something to keep. Pieces that
// overlap go back, and the error says which.
func (b *Board) Release() (bool, error) {
	if !b.held {
		return false, nil
	}
	b.held = false
	return b.Keep()
}

// Keep reports whether there is something to keep. Moved pieces that overlap
// others go back to where they lay, and the error says which they are.
func (b *Board) Keep() (bool, error) {
	if !b.moved {
		return false, nil
	}
	if err := b.Wrong(); err != nil && b.amiss() {
		b.Cancel()
		return false, fmt.Errorf("it went back; where it was put, %w", err)
	}
	return true, nil
}

// amiss reports whether what was moved is what is wrong. Pieces that overlapped
// before, after an alteration, are moved apart one after the other.
func (b *Board) amiss() bool {
	over := b.now.overlaps()
	if len(over) == 0 || len(b.kept.overlaps()) == 0 {
		return true
	}
	return slices.ContainsFunc(over, func(o [2]int) bool {
		return slices.ContainsFunc(append(slices.Clone(b.follow), b.chosen), func(i int) bool { return o[0] == i || o[1] == i })
	})
}

// Cancel lays everything back to where it is kept; it reports whether anything
// had been moved.
func (b *Board) Cancel() bool {
	was := b.moved || b.held
	b.now, b.base, b.follow, b.held, b.moved = b.kept, b.kept, nil, false, false
	return was
}

// Turn turns the chosen piece half round. On a lace it goes to the other border.
func (b *Board) Turn() error {
	if b.chosen < 0 {
		return nil
	}
	turned, follow, err := b.now.turn(b.chosen)
	if err != nil {
		return err
	}
	b.now, b.base, b.follow, b.held = turned, turned, follow, false
	b.look()
	return nil
}

// Key takes a key; it reports whether it knew it.
func (b *Board) Key(k tool.Key) (bool, error) {
	switch k.Name {
	case tool.Next, tool.Previous:
		b.Cancel()
		n := b.Count()
		if n == 0 {
			return true, nil
		}
		switch {
		case k.Name == tool.Next:
			b.chosen = (b.chosen + 1) % n
		case b.chosen < 0:
			b.chosen = n - 1
		default:
			b.chosen = (b.chosen + n - 1) % n
		}
		return true, nil
	case tool.Choose:
		return true, b.Turn()
	case tool.Left, tool.Right, tool.Up, tool.Down:
		if b.chosen < 0 {
			b.chosen = 0
			return true, nil
		}
		b.held = false
		b.put(b.now.step(b.chosen, k.Name, k.Step))
		return true, nil
	}
	return false, nil
}

func (b *Board) piece() Piece { return b.now.piece(b.chosen) }

// Goods returns the goods with every piece laid by hand where it lies now.
func (b *Board) Goods(g cloth.Goods, size string) cloth.Goods { return b.now.goods(g, size, nil) }

// LetGo returns the goods with the pieces of the chosen one's name no longer
// laid by hand, the others where they are.
func (b *Board) LetGo(g cloth.Goods, size string) cloth.Goods {
	name := b.piece().Piece
	return b.kept.goods(g, size, func(i int) bool { return b.kept.piece(i).Piece == name })
}

// Around returns the goods with all that is laid by hand where it is, and the
// others to be laid around it.
func (b *Board) Around(g cloth.Goods, size string) cloth.Goods {
	return b.kept.goods(g, size, func(i int) bool { return !b.kept.piece(i).ByHand })
}

// Anew returns the goods with nothing laid by hand.
func (b *Board) Anew(g cloth.Goods, size string) cloth.Goods {
	return b.kept.goods(g, size, func(int) bool { return true })
}

// Tell says where the chosen piece lies, and what moves with it.
func (b *Board) Tell(u unit.System) string {
	if b.chosen < 0 || b.chosen >= b.Count() {
		return ""
	}
	told := b.piece().Name + ": " + b.now.where(b.chosen, u)
	for n, i := range b.follow {
		word := "; with it "
		if n > 0 {
			word = " and "
		}
		told += word + b.Piece(i).Name
	}
	if len(b.follow) > 0 {
		told += ", onto the mirrored place"
	}
	return told
}

// ChooseAgain chooses the piece that was chosen on another board, when that is
// here too.
func (b *Board) ChooseAgain(of *Board) {
	if of == nil || of.chosen < 0 {
		return
	}
	name := of.piece().Name
	if of.chosen < b.Count() && b.Piece(of.chosen).Name == name {
		b.chosen = of.chosen
		return
	}
	for i := range b.Count() {
		if b.Piece(i).Name == name {
			b.chosen = i
			return
		}
	}
}
