package mat

import (
	"math"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/unit"
)

func TestCameraGoesThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Camera{rapid.Float64Range(minScale, maxScale).Draw(t, "scale"),
			geom.Pt(rapid.Float64Range(-5000, 5000).Draw(t, "x"), rapid.Float64Range(-5000, 5000).Draw(t, "y"))}
		at := fyne.NewPos(float32(rapid.IntRange(0, 4000).Draw(t, "px")), float32(rapid.IntRange(0, 2000).Draw(t, "py")))
		back := c.ToScreen(c.ToMat(at))
		assert.InDelta(t, at.X, back.X, 1e-3)
		assert.InDelta(t, at.Y, back.Y, 1e-3)

		k := rapid.Float64Range(0.001, 500).Draw(t, "zoom")
		z := c.Zoomed(k, at)
		assert.InDelta(t, c.ToMat(at).X, z.ToMat(at).X, 1e-6)
		assert.InDelta(t, c.ToMat(at).Y, z.ToMat(at).Y, 1e-6)
		assert.True(t, z.Scale >= minScale && z.Scale <= maxScale)

		p := geom.Pt(rapid.Float64Range(-300, 300).Draw(t, "mx"), rapid.Float64Range(-300, 300).Draw(t, "my"))
		pose := geom.Turn(geom.Angle(rapid.Float64Range(-3, 3).Draw(t, "turn")), geom.Pt(10, 20))
		got, want := c.onto(pose, 1.5, 7, 9).apply(p), c.ToScreen(pose.Apply(p))
		assert.InDelta(t, float64(want.X)*1.5-7, got.X, 0.05)
		assert.InDelta(t, float64(want.Y)*1.5-9, got.Y, 0.05)
	})
}

func TestPointerTellsMillimetres(t *testing.T) {
	m, events, _ := shown(t, 800, 600, 1)
	for _, scale := range []float64{0.1, 1, 3.7, 40} {
		m.SetCamera(Camera{scale, geom.Pt(-50, 300)})
		*events = nil
		down := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary, Modifier: fyne.KeyModifierShift}
		down.Position = fyne.NewPos(100, 200)
		m.MouseDown(down)
		m.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(140, 160)}, Dragged: fyne.NewDelta(1, 1)})
		up := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
		up.Position = fyne.NewPos(150, 150)
		m.MouseUp(up)
		m.DragEnd()
		require.Len(t, *events, 3, "one press, one drag, one release")
		for i, want := range []struct {
			act  tool.Act
			x, y float64
		}{{tool.Press, 100, 200}, {tool.Drag, 140, 160}, {tool.Release, 150, 150}} {
			e := (*events)[i]
			assert.Equal(t, want.act, e.Act)
			assert.InDelta(t, -50+want.x/scale, e.At.X, 1e-9)
			assert.InDelta(t, 300-want.y/scale, e.At.Y, 1e-9)
			assert.InDelta(t, 8/scale, e.Reach, 1e-12)
			assert.Equal(t, i == 0, e.Shift)
		}
		m.pointer.pressed = time.Time{}
	}
}

func TestTwoQuickPressesAreDouble(t *testing.T) {
	m, events, _ := shown(t, 800, 600, 1)
	now := time.Unix(1000, 0)
	m.pointer.now = func() time.Time { return now }
	click := func(x float32) {
		e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
		e.Position = fyne.NewPos(x, 100)
		m.MouseDown(e)
		m.MouseUp(e)
	}
	for _, c := range []struct {
		wait time.Duration
		x    float32
		want tool.Act
	}{{0, 100, tool.Press}, {200 * time.Millisecond, 102, tool.Double}, {200 * time.Millisecond, 102, tool.Press},
		{500 * time.Millisecond, 102, tool.Press}, {100 * time.Millisecond, 140, tool.Press}} {
		now = now.Add(c.wait)
		*events = nil
		click(c.x)
		require.Len(t, *events, 2)
		assert.Equal(t, c.want, (*events)[0].Act)
		assert.Equal(t, tool.Release, (*events)[1].Act)
	}
}

func TestPanAndZoomKeepWhatIsUnderThePointer(t *testing.T) {
	m, events, _ := shown(t, 800, 600, 1)
	m.SetCamera(Camera{2, geom.Pt(0, 0)})
	at := fyne.NewPos(333, 222)
	under := m.camera.ToMat(at)
	same := func(pos fyne.Position) {
		t.Helper()
		assert.InDelta(t, under.X, m.camera.ToMat(pos).X, 1e-3)
		assert.InDelta(t, under.Y, m.camera.ToMat(pos).Y, 1e-3)
	}
	scroll := func(dx, dy float32) {
		m.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: at}, Scrolled: fyne.NewDelta(dx, dy)})
	}
	scroll(0, 25)
	assert.InDelta(t, 2*zoomStep, m.camera.Scale, 1e-12)
	same(at)
	scroll(0, -1e9)
	same(at)

	scale := m.camera.Scale
	scroll(3, 4) // two fingers
	same(at.AddXY(6, 8))
	under = m.camera.ToMat(at)
	m.KeyDown(&fyne.KeyEvent{Name: desktop.KeyControlLeft})
	scroll(0, 4)
	m.KeyUp(&fyne.KeyEvent{Name: desktop.KeyControlLeft})
	same(at)
	assert.Greater(t, m.camera.Scale, scale)

	*events = nil
	for _, space := range []bool{false, true} {
		under = m.camera.ToMat(at)
		e := &desktop.MouseEvent{Button: desktop.MouseButtonTertiary}
		if space {
			m.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
			e.Button = desktop.MouseButtonPrimary
		}
		e.Position = at
		m.MouseDown(e)
		to := fyne.NewPos(400, 100)
		m.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: to}})
		same(to)
		e.Position = to
		m.MouseUp(e)
		m.KeyUp(&fyne.KeyEvent{Name: fyne.KeySpace})
	}
	assert.Empty(t, *events, "a pan is no business of a tool")
}

func TestSpaceIsAKeyUnlessItPans(t *testing.T) {
	m, _, _ := shown(t, 800, 600, 1)
	var keys []fyne.KeyName
	m.OnKey = func(e *fyne.KeyEvent) { keys = append(keys, e.Name) }
	space := &fyne.KeyEvent{Name: fyne.KeySpace}
	m.KeyDown(space)
	m.TypedKey(space)
	assert.Empty(t, keys)
	m.KeyUp(space)
	assert.Equal(t, []fyne.KeyName{fyne.KeySpace}, keys)
	m.TypedKey(space)
	assert.Len(t, keys, 2, "typed without being held")
}

func TestFitShowsAllAndRealSizeIsReal(t *testing.T) {
	m, _, _ := shown(t, 800, 600, 1)
	p := tern(t)
	m.Lay(View{Pieces: p.Pieces})
	for _, l := range m.still {
		b := l.bounds()
		for _, q := range []geom.Point{b.Min, b.Max} {
			pos := m.camera.ToScreen(q)
			assert.True(t, pos.X > rulerWidth && pos.X < 800 && pos.Y > rulerWidth && pos.Y < 600, "%s at %v", l.piece.Name, pos)
		}
	}
	before := m.camera
	m.Resize(fyne.NewSize(1600, 1200))
	assert.Greater(t, m.camera.Scale, 1.5*before.Scale, "fitted again to the new size")
	m.Pan(10, 0)
	before = m.camera
	m.Resize(fyne.NewSize(800, 600))
	assert.Equal(t, before.Scale, m.camera.Scale, "the maker's own view is kept")
	assert.Equal(t, before.ToMat(fyne.NewPos(800, 600)), m.camera.ToMat(fyne.NewPos(400, 300)), "what was in the middle stays there")
	m.FitBox(geom.BoxOf(geom.Pt(10, 10), geom.Pt(20, 12)))
	mid := m.camera.ToScreen(geom.Pt(15, 11))
	assert.InDelta(t, (800+rulerWidth)/2, mid.X, 0.01)
	m.SetPixelsPerMM(4.25)
	m.RealSize()
	assert.InDelta(t, 4.25, m.camera.Scale, 1e-12)
	m.SetPixelsPerMM(math.NaN())
	m.RealSize()
	assert.InDelta(t, 4.25, m.camera.Scale, 1e-12)
}

func TestOnlyWhatChangedIsDrawnAgain(t *testing.T) {
	m, _, _ := shown(t, 800, 600, 1)
	p := tern(t).Clone()
	m.Lay(View{Pieces: p.Pieces})
	before := m.still[0].shape
	m.Lay(View{Pieces: p.Clone().Pieces})
	assert.Same(t, before, m.still[0].shape, "an equal piece keeps its lines")
	assert.False(t, m.moving.Visible())

	v := View{Pieces: p.Clone().Pieces, Preview: map[string]bool{p.Pieces[0].Name: true}}
	v.Pieces[0].Pose = v.Pieces[0].Pose.Then(geom.Shift(geom.Pt(5, 5)))
	m.Lay(v)
	require.Len(t, m.live, 1)
	assert.Same(t, before, m.live[0].shape, "a moved piece too")
	assert.True(t, m.moving.Visible())
	assert.Less(t, m.moving.Size().Width, float32(400), "no larger than the piece")
}

func TestGridStandsApartAndRulersReadPlainly(t *testing.T) {
	for _, u := range []unit.System{unit.Millimetres, unit.Centimetres, unit.InchFractions} {
		for s := minScale; s <= maxScale; s *= 1.1 {
			minor, major := gridSteps(u, s)
			assert.GreaterOrEqual(t, minor*s, 9.0, "%s %g", u, s)
			assert.GreaterOrEqual(t, major*s, 44.0)
			_, rest := math.Modf(major/minor + 1e-9)
			assert.Less(t, rest, 1e-6, "major lines lie on minor ones")
		}
	}
	assert.Equal(t, "3 1/8", rulerText(25.4*3.125, unit.InchFractions))
	assert.Equal(t, "-1/4", rulerText(-25.4/4, unit.InchFractions))
	assert.Equal(t, "-12", rulerText(-120, unit.Centimetres))
	assert.Equal(t, "0.5", rulerText(5, unit.Centimetres))
	assert.Equal(t, "0", rulerText(math.Copysign(0, -1), unit.Millimetres))
}

// Contrast by WCAG 2.2: writing and lines against what they lie on.
func TestContrast(t *testing.T) {
	for _, p := range []Palette{Light(), Dark()} {
		for _, c := range [][2]colour{{p.Ink, p.Paper}, {p.Sew, p.Paper}, {p.Sew, p.Allowance}, {p.Cut, p.Allowance}, {p.Cut, p.Ground},
			{p.Accent, p.Paper}, {p.OnAccent, p.Accent}, {p.RulerInk, p.Ruler}, {p.NoteInk, p.Note}} {
			assert.GreaterOrEqual(t, contrast(c[0], c[1]), 4.5, "%v on %v", c[0], c[1])
		}
		for _, c := range [][2]colour{{p.Guide, p.Ground}, {p.Faint, p.Ground}, {p.Good, p.Paper}, {p.Poor, p.Ground}} {
			assert.GreaterOrEqual(t, contrast(c[0], c[1]), 3.0, "marks: %v on %v", c[0], c[1])
		}
	}
}

func contrast(a, b colour) float64 {
	light := func(c colour) float64 {
		lin := func(v uint8) float64 {
			x := float64(v) / 255
			if x <= 0.04045 {
				return x / 12.92
			}
			return math.Pow((x+0.055)/1.055, 2.4)
		}
		return 0.2126*lin(c.R) + 0.7152*lin(c.G) + 0.0722*lin(c.B)
	}
	x, y := light(a), light(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// The lines of the rulers stand where those of the grid do.
func TestRulersMeetTheGrid(t *testing.T) {
	for _, scale := range []float32{1, 1.5, 2} {
		m, _, capture := shown(t, 600, 400, scale)
		capture()
		m.SetCamera(Camera{1.3, geom.Pt(-103, 207)})
		img := capture()
		at := func(x, y int) colour {
			r, g, b, _ := img.At(x, y).RGBA()
			return colour{R: uint8(r >> 8), G: uint8(g >> 8), B: uint8(b >> 8), A: 255}
		}
		edge := int(rulerWidth * scale)
		p := Light()
		columns, rows := 0, 0
		for x := edge + 4; x < img.Bounds().Dx(); x++ {
			// Just within the ruler, and on a row of the mat between its lines.
			tick, line := at(x, edge-3) == p.RulerInk, at(x, edge+5) != p.Ground && at(x, edge+9) != p.Ground
			assert.Equal(t, tick, line, "column %d at scale %g", x, scale)
			if tick {
				columns++
			}
		}
		for y := edge + 4; y < img.Bounds().Dy(); y++ {
			if at(edge-3, y) == p.RulerInk {
				rows++
				assert.NotEqual(t, p.Ground, at(edge+5, y), "row %d at scale %g", y, scale)
			}
		}
		assert.Greater(t, columns, 30)
		assert.Greater(t, rows, 20)
	}
}
