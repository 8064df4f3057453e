package mat

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

func TestStripsMeetWithinTheirReach(t *testing.T) {
	s := strip{geom.Pt(0, 0), geom.Pt(1, 0), 10, 2}
	for _, c := range []struct {
		other strip
		hits  bool
	}{
		{strip{geom.Pt(0, 4.9), geom.Pt(1, 0), 10, 3}, true},
		{strip{geom.Pt(0, 5.1), geom.Pt(1, 0), 10, 3}, false},
		{strip{geom.Pt(24.9, 0), geom.Pt(1, 0), 10, 3}, true},
		{strip{geom.Pt(25.1, 0), geom.Pt(1, 0), 10, 3}, false},
		{strip{geom.Pt(0, 0), geom.Pt(0, 1), 50, 0}, true}, // across the middle
		{strip{mid: geom.Pt(11, 0), dir: geom.Pt(1, 0), r: 0.5}, true},
	} {
		assert.Equal(t, c.hits, s.hits(c.other), "%v", c.other)
		assert.Equal(t, c.hits, c.other.hits(s), "%v", c.other)
		assert.Equal(t, !c.hits, s.free([]strip{c.other}), "%v", c.other)
	}
}

// The middle of a taped frame's extent lies in the hollow of its wire line;
// the note that names the frame stands on its paper all the same.
func TestNoteThatNamesAPieceStandsOnIt(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	pieces := demo.TernInLace().Replay(run)[4].Size.Pattern.Pieces
	m, _, capture := shown(t, 1280, 800, 1)
	m.Lay(View{Pieces: pieces})
	frame := m.find("frame")
	require.NotNil(t, frame)
	out, err := frame.piece.Outline()
	require.NoError(t, err)
	middle := frame.pose.Apply(out.Bounds().Center())
	ring := out.Transform(frame.pose).Flatten(0.1)
	require.False(t, inside(ring, middle))

	m.Lay(View{Pieces: pieces, Overlay: tool.Overlay{Notes: []tool.Note{{At: middle, Text: "frame"}}}})
	at := m.overlay().Notes[0].At
	assert.True(t, inside(ring, at))
	capture()
	assert.True(t, m.floats.notes[0].within(m.onMat().onto(frame.pose).all(nil, frame.sewRing)), "the whole note")

	// A dot there is told of, though it is called like the piece.
	m.Lay(View{Pieces: pieces, Overlay: tool.Overlay{
		Dots:  []tool.Dot{{At: middle}},
		Notes: []tool.Note{{At: middle, Text: "frame"}},
	}})
	assert.Equal(t, middle, m.overlay().Notes[0].At)
}

// Whatever is selected in whatever size, names of edges meet nothing written.
func TestNamesOfASelectedPieceKeepClear(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	pieces := demo.TernInLace().Replay(run)[4].Size.Pattern.Pieces
	m, _, capture := shown(t, 1280, 800, 1)
	m.Lay(View{Pieces: pieces})
	capture()
	for _, scale := range []float64{0.8, 1.5, 4} {
		c := m.camera
		c.Scale = scale
		p := painter{brush: &brush{}, palette: m.palette, camera: c, px: 1}
		p.begin(1280, 800)
		for _, l := range m.still {
			on := p.onto(l.pose)
			l.flatten(on.scale())
			before := p.written(l, on)
			taken := before
			for i := range l.piece.Edges {
				was := taken
				taken = p.edgeName(l, &l.piece.Edges[i], on, false, "", taken)
				for _, s := range taken[len(was):] {
					assert.True(t, s.free(was), "%s of %s at %g", l.piece.Edges[i].Name, l.piece.Name, scale)
				}
			}
			if f := l.piece.Fold(); f != nil {
				if word, _ := p.foldWord(l, on); word.r > 0 {
					assert.Equal(t, before, p.edgeName(l, f, on, false, "", before), "the fold is named once")
				}
			}
		}
	}
}

// What is dragged stays in view: the measure beside it moves to another side
// where the mat ends.
func TestNotesKeepOffThePieceThatMoves(t *testing.T) {
	m, _, draw := shown(t, 800, 600, 1)
	p := tern(t)
	m.Lay(View{Pieces: p.Pieces})
	var sides []bool
	for _, to := range []geom.Point{geom.Pt(400, 300), geom.Pt(400, 60), geom.Pt(400, 560), geom.Pt(90, 300), geom.Pt(760, 300)} {
		pieces := append([]pattern.Piece(nil), p.Pieces...)
		var at geom.Point
		for i := range pieces {
			if pieces[i].Name == "inner cup" {
				o, err := pieces[i].Outline()
				require.NoError(t, err)
				at = m.camera.ToMat(fyne.NewPos(float32(to.X), float32(to.Y)))
				pieces[i].Pose = pieces[i].Pose.Then(geom.Shift(at.Sub(pieces[i].Pose.Apply(o.Bounds().Center()))))
			}
		}
		m.Lay(View{Pieces: pieces, Preview: map[string]bool{"inner cup": true}, Selection: tool.Selection{Piece: "inner cup"},
			Overlay: tool.Overlay{Notes: []tool.Note{{At: at, Text: "120.5 mm across, −33.2 mm up"}}}})
		draw()
		n := m.floats.notes[0]
		require.False(t, m.obstacles(m.onMat(), tool.Overlay{}).onMoving(n.strip), "at %v", to)
		require.True(t, n.mid.X-n.half > rulerWidth && n.mid.X+n.half < 800 && n.mid.Y-n.r > rulerWidth && n.mid.Y+n.r < 600, "at %v: %v", to, n.mid)
		sides = append(sides, n.mid.Y < to.Y)
	}
	require.NotEqual(t, sides[1], sides[2], "it changes sides")
}

// Wherever the view was shoved, the name of the edge that is selected shows
// whole while the edge shows, clear of the rulers.
func TestNameOfASelectedEdgeShowsWhole(t *testing.T) {
	m, _, draw := shown(t, 600, 400, 1)
	p := tern(t)
	band := p.Piece("band")
	for i := range band.Edges {
		e := &band.Edges[i]
		m.Lay(View{Pieces: p.Pieces, Selection: tool.Selection{Piece: "band", Edge: e.Name}})
		mid := band.Pose.Apply(e.Path.At(e.Length() / 2))
		for _, at := range []geom.Point{geom.Pt(30, 200), geom.Pt(590, 200), geom.Pt(300, 30), geom.Pt(300, 390), geom.Pt(300, 200)} {
			now := m.camera.ToScreen(mid)
			m.camera = m.camera.Panned(at.X-float64(now.X), at.Y-float64(now.Y))
			m.redraw()
			draw()
			require.NotEmpty(t, m.floats.labels)
			in := m.floats.labels[0].takes()
			assert.GreaterOrEqual(t, in.Min.X, float64(rulerWidth), "%s at %v", e.Name, at)
			assert.GreaterOrEqual(t, in.Min.Y, float64(rulerWidth), "%s at %v", e.Name, at)
			assert.LessOrEqual(t, in.Max.X, 600.0, "%s at %v", e.Name, at)
			assert.LessOrEqual(t, in.Max.Y, 400.0, "%s at %v", e.Name, at)
		}
	}
}

// In a low view, with places of a lesson and what a tool tells, the name of the edge
// that is selected is clear of them and of what hides the lowest part of the mat.
func TestNameOfASelectedEdgeKeepsClearInALowView(t *testing.T) {
	const high, hidden = 215, 30
	m, _, draw := shown(t, 320, high, 1)
	p := tern(t)
	m.Lay(View{Pieces: p.Pieces})
	m.Fit()
	m.Cover(hidden)
	named := 0
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		for k := range pc.Edges {
			e := &pc.Edges[k]
			start, end := pc.Pose.Apply(e.Path.Start()), pc.Pose.Apply(e.Path.End())
			m.Lay(View{Pieces: p.Pieces, Selection: tool.Selection{Piece: pc.Name, Edge: e.Name}, Unit: unit.InchFractions, Overlay: tool.Overlay{
				Signs: []tool.Sign{{At: start, Text: "1"}, {At: end, Text: "2"}},
				Notes: []tool.Note{{At: end, Text: "longer by 0.135 in"}},
			}})
			draw()
			if len(m.floats.labels) == 0 {
				continue // told in a note
			}
			named++
			label, in := m.floats.labels[0], m.floats.labels[0].takes()
			assert.LessOrEqual(t, in.Max.Y, float64(high-hidden), "%s of %s", e.Name, pc.Name)
			for _, f := range m.floats.signs {
				assert.False(t, label.hits(f.ground(1)), "%s of %s on sign %s", e.Name, pc.Name, f.text)
			}
			for _, n := range m.floats.notes {
				assert.False(t, label.hits(n.strip), "%s of %s on the note", e.Name, pc.Name)
			}
		}
	}
	require.Greater(t, named, 10)
}

// The name of the edge that is selected stands beside that edge rather than on
// the far side of its piece, and off other pieces while there is room, with
// places told of where it would stand best.
func TestNameOfASelectedEdgeStandsBesideIt(t *testing.T) {
	m, _, draw := shown(t, 960, 560, 1)
	p := tern(t)
	for _, piece := range []string{"lower outer cup", "upper outer cup"} {
		pc := p.Piece(piece)
		seam := pc.Edge("cross seam")
		at := func(e *pattern.Edge, share float64) geom.Point { return pc.Pose.Apply(e.Path.At(share * e.Length())) }
		var dots []tool.Dot
		for _, q := range []geom.Point{at(seam, 0.3), at(pc.Edge("wire"), 0.5), at(seam, 0.3).Lerp(at(pc.Edge("wire"), 0.5), 0.5)} {
			dots = append(dots, tool.Dot{At: q, Style: tool.Handle})
		}
		m.Lay(View{Pieces: p.Pieces, Selection: tool.Selection{Piece: piece, Edge: "cross seam"}, Overlay: tool.Overlay{Dots: dots}})
		draw()
		require.NotEmpty(t, m.floats.labels)
		s := m.floats.labels[0]
		onto := m.onMat().onto(geom.Identity())
		far := func(e *pattern.Edge) float64 {
			least := math.Inf(1)
			a, b := s.ends()
			for i := range 41 {
				least = min(least, distance(onto.apply(at(e, float64(i)/40)), a, b))
			}
			return least
		}
		for i := range pc.Edges {
			if e := &pc.Edges[i]; e != seam {
				assert.Less(t, far(seam), far(e), "%s of %s", e.Name, piece)
			}
		}
		assert.Less(t, far(seam), 60.0)
		for i := range p.Pieces {
			l := m.find(p.Pieces[i].Name)
			l.flatten(m.onMat().onto(l.pose).scale())
			if l.piece.Name != piece {
				assert.False(t, s.onto(m.onMat().onto(l.pose).all(nil, l.rim())), l.piece.Name)
			}
		}
	}
}
