package mat

import (
	"fmt"
	"math"
	"testing"

	"fyne.io/fyne/v2"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/pattern"
)

// forty is a mat full of pieces, the last of which is being altered.
func forty(t testing.TB) View {
	p := tern(t)
	v := View{Preview: map[string]bool{"piece 39": true}}
	for i := range 40 {
		pc := p.Pieces[i%len(p.Pieces)].Clone()
		pc.Name = fmt.Sprint("piece ", i)
		c := pc.Edges[0].Path.Start()
		at := geom.Pt(float64(i%8)*220, -float64(i/8)*210)
		pc.Pose = geom.Shift(at.Sub(c))
		v.Pieces = append(v.Pieces, pc)
	}
	v.Ghost = []pattern.Piece{v.Pieces[39]}
	return v
}

// benchMat is a mat of 1920×1080 whose rasters are drawn by hand: only the
// picture work counts.
func benchMat(b *testing.B) (*Mat, View) {
	m, _, _ := shown(b, 1920, 1080, 1)
	v := forty(b)
	m.Lay(v)
	m.base.Generator(1920, 1080)
	return m, v
}

func BenchmarkFullRedraw(b *testing.B) {
	m, _ := benchMat(b)
	for b.Loop() {
		m.base.Generator(1920, 1080)
		m.top.Generator(1898, 22)
		m.left.Generator(22, 1058)
	}
}

func BenchmarkFullRedrawZooming(b *testing.B) {
	m, _ := benchMat(b)
	i := 0
	for b.Loop() {
		m.setCamera(m.camera.Zoomed(0.8*math.Exp2(float64(i%50)/10), fyne.NewPos(900, 500)))
		m.base.Generator(1920, 1080)
		m.top.Generator(1898, 22)
		m.left.Generator(22, 1058)
		i++
	}
}

func BenchmarkDragFrameMoved(b *testing.B) {
	m, v := benchMat(b)
	i := 0
	for b.Loop() {
		i++
		v.Pieces[39].Pose = v.Pieces[39].Pose.Then(geom.Turn(geom.Angle(1-2*(i/40%2))*geom.Degree/4, geom.Pt(1500, -800)))
		m.Lay(v)
		m.moving.Generator(int(m.moving.Size().Width), int(m.moving.Size().Height))
	}
}

// Notes and signs go along with the piece.
func BenchmarkDragFrameTold(b *testing.B) {
	m, v := benchMat(b)
	i := 0
	for b.Loop() {
		i++
		v.Pieces[39].Pose = v.Pieces[39].Pose.Then(geom.Turn(geom.Angle(1-2*(i/40%2))*geom.Degree/4, geom.Pt(1500, -800)))
		at := v.Pieces[39].Pose.Apply(v.Pieces[39].Edges[0].Path.Start())
		v.Selection = tool.Selection{Piece: "piece 39"}
		v.Overlay = tool.Overlay{
			Dots:  []tool.Dot{{At: at, Style: tool.Handle}},
			Notes: []tool.Note{{At: at, Text: fmt.Sprintf("turned %d°", i%90)}, {At: at, Text: "gap 25 mm"}, {At: at.Add(geom.Pt(30, 0)), Text: "hem +3 mm"}},
			Signs: []tool.Sign{{At: at.Add(geom.Pt(0, 40)), Text: "1"}},
		}
		m.Lay(v)
		m.moving.Generator(int(m.moving.Size().Width), int(m.moving.Size().Height))
		m.over.Generator(int(m.over.Size().Width), int(m.over.Size().Height))
	}
}

// The altered piece has another shape in every frame.
func BenchmarkDragFrameReshaped(b *testing.B) {
	m, v := benchMat(b)
	i := 0
	for b.Loop() {
		i++
		pc := v.Pieces[39].Clone()
		pc.Edges[0].Allowance = 5 + float64(i%40)/10
		v.Pieces[39] = pc
		m.Lay(v)
		m.moving.Generator(int(m.moving.Size().Width), int(m.moving.Size().Height))
	}
}

func BenchmarkOverlay(b *testing.B) {
	m, _ := benchMat(b)
	m.Lay(busy(b))
	b.Logf("%v", m.over.Size())
	for b.Loop() {
		m.over.Generator(int(m.over.Size().Width), int(m.over.Size().Height))
	}
}
