package lesson

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
	"truemat/ops/walk"
)

// hands do an act with the tool it names, at the places it shows.
type hands struct {
	t    *testing.T
	desk *desk.Desk
	tool tool.Tool
}

func (h hands) do(act tool.Act, at geom.Point, shift bool) {
	h.tool.Pointer(tool.Event{Act: act, At: at, Reach: 3, Shift: shift})
}

func (h hands) press(at ...geom.Point) {
	for i, q := range at {
		h.do(tool.Press, q, i > 0 && h.tool.Name() == "chalk")
		h.do(tool.Release, q, false)
	}
}

func (h hands) drag(at ...geom.Point) {
	h.do(tool.Press, at[0], false)
	for _, q := range at[1:] {
		h.do(tool.Drag, q, false)
	}
	h.do(tool.Release, at[len(at)-1], false)
}

func (h hands) pick(field, option string) {
	h.t.Helper()
	require.NoError(h.t, h.tool.Set(field, option))
}

// byHand does all acts of a lesson as they tell.
func byHand(t *testing.T, d *desk.Desk, l Lesson, acts []func(hands, []geom.Point)) {
	t.Helper()
	w := Follow(d, l)
	require.Len(t, acts, len(l.Steps))
	for i, do := range acts {
		a, more := w.Current()
		require.True(t, more)
		h := hands{t, d, nil}
		for _, x := range tool.All(d) {
			if x.Name() == a.Tool {
				h.tool = x
			}
		}
		do(h, a.Where(d.Pattern()))
		require.NoError(t, d.Accept(h.tool.Proposal()...), a.Title)
		require.Equal(t, i+1, at(w), a.Title)
	}
}

var firstByHand = []func(hands, []geom.Point){
	func(h hands, at []geom.Point) { h.drag(at[0], at[0].Lerp(at[1], 0.5), at[1]) },
	func(h hands, at []geom.Point) {
		h.press(at[0])
		down := func(deg geom.Angle) geom.Point { return geom.Turn(-deg*geom.Degree, at[0]).Apply(at[1]) }
		h.drag(at[1], down(2), down(5), down(8.5))
	},
	func(h hands, at []geom.Point) { h.press(at...) },
	func(h hands, at []geom.Point) { h.drag(at...); h.pick("role", "lace edge") },
	func(h hands, at []geom.Point) { h.press(at...) },
	func(h hands, at []geom.Point) {
		for _, f := range h.tool.Fields() {
			if f.Name == "share" {
				h.pick("share", f.Options[1])
			}
		}
		h.press(at...)
	},
	func(h hands, at []geom.Point) { h.press(at...) },
}

// secondByHand drops its notch so many mm before the end of the seam.
func secondByHand(before float64) []func(hands, []geom.Point) {
	return []func(hands, []geom.Point){
		func(h hands, at []geom.Point) { h.press(at...); h.pick("role", "lace edge") },
		func(h hands, at []geom.Point) {
			h.press(at...)
			h.pick("left", step.Lit(before).String())
			require.True(h.t, h.tool.Key(tool.Key{Name: tool.Choose}))
			require.Contains(h.t, h.tool.Hint(), "left to the end")
		},
		func(h hands, at []geom.Point) { h.press(at...) },
	}
}

// Who does as the lessons tell has the garment of who lets them be done.
func TestDoneByHandAndDoneForMeAreTheSameGarment(t *testing.T) {
	mine, done := tern(t, nil), tern(t, nil)
	byHand(t, mine, First(), firstByHand)
	byHand(t, mine, Second(), secondByHand(notchBefore))
	for _, l := range Lessons() {
		w := Follow(done, l)
		for _, more := w.Current(); more; _, more = w.Current() {
			require.NoError(t, w.Do())
		}
	}
	for _, size := range []string{mine.Size(), "75C"} {
		require.NoError(t, mine.SetSize(size))
		require.NoError(t, done.SetSize(size))
		a, b := mine.Pattern(), done.Pattern()
		require.Len(t, a.Pieces, len(b.Pieces))
		for i := range b.Pieces {
			same(t, a.Piece(b.Pieces[i].Name), &b.Pieces[i])
		}
	}
}

// same checks that two pieces have the same edges, in shape, role and
// allowance, notches and marks.
func same(t *testing.T, a, b *pattern.Piece) {
	t.Helper()
	require.NotNil(t, a, b.Name)
	require.Len(t, a.Edges, len(b.Edges), b.Name)
	for _, e := range b.Edges {
		i := slices.IndexFunc(a.Edges, func(o pattern.Edge) bool { return o.Role == e.Role && o.Path.Start().Dist(e.Path.Start()) < 0.3 })
		require.GreaterOrEqual(t, i, 0, "%s of %s", e.Name, b.Name)
		mine := a.Edges[i]
		assert.InDelta(t, e.Allowance, mine.Allowance, 1e-9, "%s of %s", e.Name, b.Name)
		assert.InDelta(t, e.Length(), mine.Length(), 0.3, "%s of %s", e.Name, b.Name)
		for s := range 9 {
			part := float64(s) / 8
			assert.Less(t, e.Path.At(part*e.Length()).Dist(mine.Path.At(part*mine.Length())), 0.3, "%s of %s", e.Name, b.Name)
		}
	}
	assert.Len(t, a.Notches, len(b.Notches), b.Name)
	require.Len(t, a.Marks, len(b.Marks), b.Name)
	for i := range b.Marks {
		assert.Equal(t, b.Marks[i].Text, a.Marks[i].Text, b.Name)
	}
}

// A notch elsewhere than asked is told, and the act stays to be done.
func TestSecondLessonTakesOnlyANotchWhereItAsksForOne(t *testing.T) {
	for _, before := range []float64{3, 24, 60} {
		d := tern(t, nil)
		w := Follow(d, Second())
		require.NoError(t, w.Do())
		at2 := pattern.Spot{Piece: inner, Edge: vertical, Along: pattern.Along{From: pattern.End, MM: before}}
		require.NoError(t, d.Accept(&step.Walk{Seam: vertical, Drop: []step.Drop{{On: walk.A, Name: "mine", Spot: &at2}, {On: walk.B, Name: "mine", Spot: &at2}}}))
		require.Equal(t, 1, at(w), "%g mm before", before)
		require.Contains(t, In(w.Aside(), unit.Millimetres), "not between 5 mm and 16 mm")
		require.True(t, d.Undo())
		require.NotContains(t, w.Aside(), "not between")
		require.NoError(t, w.Do())
		require.Equal(t, 2, at(w))
	}
}

// A hem ruled straight that stays a hem does not count, until it is a lace edge.
func TestTheRuledHemMustBecomeALaceEdge(t *testing.T) {
	d := tern(t, nil)
	w := New(d)
	for range 3 {
		require.NoError(t, w.Do())
	}
	s := *First().Steps[3].Do(w.stages[len(w.stages)-1]).(*step.Straighten)
	s.Role, s.Allowance = "", nil
	require.NoError(t, d.Accept(&s))
	require.Equal(t, 3, at(w))
	require.Contains(t, w.Aside(), "12 mm of allowance")
	nought := step.Lit(0)
	require.NoError(t, d.Accept(&step.Allow{Piece: s.Piece, Edge: s.Name, Width: &nought, Role: pattern.LaceEdge}))
	require.Equal(t, 4, at(w))
	require.NotContains(t, w.Aside(), "allowance")
}

// At the end what is left to look at is told with the tool for it; true and
// level, done as told, take it away.
func TestWhatRemainsIsToldAndCanBeMended(t *testing.T) {
	d := tern(t, nil)
	require.Empty(t, Remains(d.Size(), d.Checks()))
	w := New(d)
	for range 7 {
		require.NoError(t, w.Do())
	}
	left := func() (n int) {
		for _, c := range d.Checks() {
			if c.Verdict != check.Holds {
				n++
			}
		}
		return n
	}
	told, was := Remains(d.Size(), d.Checks()), left()
	require.Len(t, told, was+1)
	require.Contains(t, told[0], fmt.Sprintf("%d things are yellow", was))
	for _, line := range told[1:] {
		require.NotContains(t, line, "red")
		require.NotContains(t, line, "Check ", "every check is called by what it looks at")
		require.NotContains(t, line, "see what the check says", line)
	}
	for _, r := range d.Document().Recipe.Replay(d.Document().Source) {
		source, _ := d.Document().Source.Size(r.Size.Label)
		require.InDelta(t, hemLength(source.Pattern), hemLength(r.Size.Pattern), 0.2, "as the end of the lesson says, in %s", r.Size.Label)
	}
	require.Contains(t, Onward(check.RunOn), "true")
	for _, end := range []pattern.EndName{pattern.End, pattern.Start} {
		for _, x := range tool.All(d) {
			if x.Name() == "true" {
				where := spots(d.Pattern(), pattern.AtEnd(band, sideSeam, end))
				hands{t, d, x}.press(where...)
				require.NotEmpty(t, x.Proposal(), x.Hint())
				require.NoError(t, d.Accept(x.Proposal()...))
			}
		}
	}
	require.Less(t, left(), was)
}

// A ruler that did not reach the other end leaves a hem in parts; the lesson
// says so and waits.
func TestLessonWaitsForTheWholeHem(t *testing.T) {
	d := tern(t, nil)
	w := New(d)
	for range 3 {
		require.NoError(t, w.Do())
	}
	s, ok := w.lesson.Steps[3].Do(w.stages[len(w.stages)-1]).(*step.Straighten)
	require.True(t, ok)
	half := *s
	half.Name, half.To = "half hem", pattern.Spot{Piece: s.Piece, Edge: s.Name, Along: pattern.Along{From: pattern.Start, Share: 0.5}}
	require.NoError(t, d.Accept(&half))
	require.Equal(t, 3, at(w))
	require.Contains(t, w.Aside(), "in parts")
	require.True(t, d.Undo())
	require.NotContains(t, w.Aside(), "in parts")
	require.NoError(t, d.Accept(s))
	require.Equal(t, 4, at(w))
}

// A lesson can be begun or gone on with only where there is something left to
// be done that can be.
func TestLessonIsOpenWhileSomethingOfItIsLeft(t *testing.T) {
	d := tern(t, nil)
	require.True(t, Open(d, First()))
	require.True(t, Open(d, Second()))
	w := New(d)
	for range 7 {
		require.NoError(t, w.Do())
	}
	require.False(t, Open(d, First()))
	require.True(t, Open(d, Second()))
	w = Follow(d, Second())
	for range 3 {
		require.NoError(t, w.Do())
	}
	require.False(t, Open(d, Second()))
}

// Figures that need not be exact are told in eighths to who reads inches, and
// what they allow there is allowed; all others as exactly as elsewhere.
func TestLessonsTellTheirFiguresInTheUnitChosen(t *testing.T) {
	text := Second().Steps[1].Text
	require.Contains(t, In(text, unit.Millimetres), "With about 10 mm left (5 mm to 16 mm will do)")
	require.Contains(t, In(text, unit.Centimetres), "With about 1 cm left (0.5 cm to 1.6 cm will do)")
	require.Contains(t, In(text, unit.InchFractions), "With about 3/8 in left (1/4 in to 5/8 in will do)")
	for _, eighths := range []float64{2, 3, 5} {
		require.True(t, wellPlaced(eighths*25.4/8))
	}
	for _, l := range Lessons() {
		for _, act := range l.Steps {
			for _, told := range []string{In(act.Text, unit.InchFractions), In(act.Keys, unit.InchFractions), In(l.End, unit.InchFractions)} {
				require.NotContains(t, told, " mm")
				require.NotContains(t, told, round)
			}
		}
	}
}
