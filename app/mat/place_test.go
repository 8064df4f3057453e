package mat

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/pattern"
)

// A note stays on its side while what it tells of is drawn along, and goes to
// another only where it would hide something.
func TestNotesDoNotJumpWhileSomethingIsDragged(t *testing.T) {
	m, _, _ := shown(t, 960, 640, 1)
	p := tern(t)
	m.Lay(View{Pieces: p.Pieces})
	jumps, hidden := 0, 0
	var before geom.Point
	for i := range 200 {
		at := m.camera.ToMat(fyne.NewPos(100+4*float32(i), 500-1.5*float32(i)))
		m.Lay(View{Pieces: p.Pieces, Overlay: tool.Overlay{
			Dots:  []tool.Dot{{At: at, Style: tool.Handle}},
			Notes: []tool.Note{{At: at, Text: "turned 8.0° clockwise"}, {At: at, Text: "gap 25 mm"}},
		}})
		off := m.floats.notes[0].mid.Sub(m.floats.notes[0].of)
		if i > 0 && off.Dist(before) > 12 {
			jumps++
		}
		before = off
		hidden += len(m.Hides())
	}
	require.Zero(t, hidden)
	require.LessOrEqual(t, jumps, 12, "of 200 pictures")
	require.Positive(t, jumps, "it keeps off the names on its way")
}

// A sign stands for the spot that it numbers, wherever there was room for it.
func TestPressingASignPressesItsSpot(t *testing.T) {
	m, events, capture := shown(t, 960, 640, 2)
	p := tern(t)
	a, err := p.Find(pattern.AtEnd("bridge", "hem", pattern.End))
	require.NoError(t, err)
	b, err := p.Find(pattern.AtEnd("cradle", "hem", pattern.Start))
	require.NoError(t, err)
	m.Lay(View{Pieces: p.Pieces, Overlay: tool.Overlay{Signs: []tool.Sign{{At: a.Mat, Text: "1"}, {At: b.Mat, Text: "2"}}}})
	capture()
	require.Empty(t, m.Hides())
	sign := func(i int, off float32) *desktop.MouseEvent {
		at := m.floats.signs[i].mid.Mul(1 / m.px)
		pos := fyne.NewPos(float32(at.X)+off, float32(at.Y))
		return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: pos}, Button: desktop.MouseButtonPrimary}
	}
	m.MouseMoved(sign(1, 0))
	m.MouseDown(sign(0, 3))
	from := sign(0, 3).Position
	m.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: from.AddXY(-40, -60)}})
	m.MouseUp(sign(1, -4))
	m.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(500, 100)}})
	want := []geom.Point{b.Mat, a.Mat, a.Mat.Add(geom.Pt(-40, 60).Mul(1 / m.camera.Scale)), b.Mat, m.camera.ToMat(fyne.NewPos(500, 100))}
	require.Len(t, *events, len(want))
	for i, e := range *events {
		require.True(t, e.At.Near(want[i], 0.01), "%d: %v, not %v", i, e.At, want[i])
	}
}

// What is too wide for the mat is told in two lines, all of it in view.
func TestALongNoteIsBrokenInTwo(t *testing.T) {
	m, _, _ := shown(t, 240, 200, 1)
	text := "167.58 mm (167.18 mm across, 11.55 mm up)"
	m.Lay(View{Overlay: tool.Overlay{Notes: []tool.Note{{At: m.camera.ToMat(fyne.NewPos(120, 100)), Text: text}}}})
	n := m.floats.notes[0]
	require.Len(t, n.lines, 2)
	require.GreaterOrEqual(t, n.mid.X-n.half-n.r, float64(rulerWidth))
	require.LessOrEqual(t, n.mid.X+n.half+n.r, 240.0)
}

// Where all that is usual hides something, a note goes to any free place near.
func TestANoteFindsTheFreePlaceThereIs(t *testing.T) {
	o := &obstacles{px: 1, rim: geom.BoxOf(geom.Pt(0, 0), geom.Pt(400, 300)), box: geom.NoBox()}
	places := o.about(geom.Pt(200, 150), 40, 10, noteTries)
	for y := 0.0; y <= 300; y += 10 {
		if y < 48 || y > 92 {
			o.names = append(o.names, stripOf(geom.Pt(0, y), geom.Pt(400, y), 5))
		}
	}
	o.names = append(o.names, stripOf(geom.Pt(130, 0), geom.Pt(130, 300), 5), stripOf(geom.Pt(0, 70), geom.Pt(30, 70), 5))
	mid, now := o.stand(places, geom.Pt(200, 150), 40, 10, nil)
	require.False(t, (strip{mid, geom.Pt(1, 0), 30, 10}).meets(o.names), "%v", mid)
	again, _ := o.stand(o.about(geom.Pt(201, 150), 40, 10, noteTries), geom.Pt(201, 150), 40, 10, &now)
	require.InDelta(t, 1, again.Dist(mid), 1e-9)
}

// A sign beside a piece that moved does not fly far off once the piece lies still.
func TestASignIsNotTakenForAnotherPlaceOnceNothingMoves(t *testing.T) {
	c := geom.Pt(300, 200)
	o := &obstacles{px: 1, rim: geom.BoxOf(geom.Pt(0, 0), geom.Pt(640, 400)), box: geom.BoxOf(geom.Pt(250, 150), geom.Pt(350, 250)), over: onMoving}
	o.moving, o.movings = [][]geom.Point{{geom.Pt(150, 100), geom.Pt(450, 100), geom.Pt(450, 250), geom.Pt(150, 250)}}, []geom.Box{geom.BoxOf(geom.Pt(150, 100), geom.Pt(450, 250))}
	outside, was := o.stand(o.about(c, 0, 0, signTries), c, signHalf, signHalf, nil)
	require.Greater(t, outside.Y, 250.0)
	o.moving, o.movings, o.box = nil, nil, geom.NoBox()
	mid, now := o.stand(o.about(c, 0, 0, signTries), c, signHalf, signHalf, &was)
	require.Less(t, mid.Dist(c), 50.0)
	again, _ := o.stand(o.about(c, 0, 0, signTries), c, signHalf, signHalf, &now)
	require.Equal(t, mid, again)
}

func TestANoteIsNotBrokenWithinAMeasure(t *testing.T) {
	require.Equal(t, []string{"130.85 mm, up to 0.82 mm", "inside the old edge"}, twoLines("130.85 mm, up to 0.82 mm inside the old edge"))
	require.Equal(t, []string{"a measure of", "12 3/8 in and"}, twoLines("a measure of 12 3/8 in and"))
}

// A note stands on the free mat rather than on the paper of a piece at rest, and
// its thread beside pieces rather than over them.
func TestANoteKeepsOffThePaperOfPiecesAtRest(t *testing.T) {
	m, _, _ := shown(t, 960, 640, 1)
	p := tern(t)
	m.Lay(View{Pieces: p.Pieces})
	for _, pc := range p.Pieces {
		for _, e := range pc.Edges {
			if e.Allowance == 0 || e.Role == pattern.Fold {
				continue
			}
			at := pc.Pose.Apply(e.Path.At(e.Length() / 2))
			m.Lay(View{Pieces: p.Pieces}) // it stands nowhere yet
			m.Lay(View{Pieces: p.Pieces, Overlay: tool.Overlay{Notes: []tool.Note{{At: at, Text: "13.085 cm, up to 0.082 cm"}}}})
			n := m.floats.notes[0]
			o := m.obstacles(m.onMat(), tool.Overlay{})
			o.still = m.lettering.sheets
			taken := o.cost(n.strip, n.of, 1e9)
			places := o.about(n.of, n.half+n.r, n.r, noteTries)
			for _, at := range places[:len(places)-anywhere] {
				s := strip{o.within(at, n.half+n.r, n.r), geom.Pt(1, 0), n.half, n.r}
				require.LessOrEqual(t, taken, o.cost(s, n.of, 1e9)+1e-6, "%s of %s", e.Name, pc.Name)
			}
		}
	}

	o := obstacles{px: 1, still: []sheet{{[]geom.Point{geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 100), geom.Pt(0, 100)}, geom.BoxOf(geom.Pt(0, 0), geom.Pt(100, 100))}}}
	note := func(x, y float64) strip { return strip{geom.Pt(x, y), geom.Pt(1, 0), 10, 5} }
	require.Zero(t, o.onStill(note(50, -20), geom.Pt(50, 0)), "on the mat, its thread too")
	require.InDelta(t, across, o.onStill(note(50, 120), geom.Pt(50, 0)), across/threadDots+1e-9, "over the piece")
	require.GreaterOrEqual(t, o.onStill(note(50, 50), geom.Pt(50, 0)), float64(onPaper))
}
