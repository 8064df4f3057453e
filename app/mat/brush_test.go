package mat

import (
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"truemat/geom"
)

var white = color.NRGBA{255, 255, 255, 255}

// painted sums the coverage of an image, in pixels.
func painted(b *brush) float64 {
	sum := 0
	for i := 3; i < len(b.img.Pix); i += 4 {
		sum += int(b.img.Pix[i])
	}
	return float64(sum) / 255
}

func TestFillCoversTheAreaOfItsOutline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var b brush
		b.begin(100, 80)
		b.clear()
		at := func(name string) geom.Point {
			return geom.Pt(rapid.Float64Range(0, 100).Draw(t, name+"x"), rapid.Float64Range(0, 80).Draw(t, name+"y"))
		}
		tri := []geom.Point{at("a"), at("b"), at("c")}
		b.fill(tri, white)
		area := math.Abs(tri[1].Sub(tri[0]).Cross(tri[2].Sub(tri[0]))) / 2
		assert.InDelta(t, area, painted(&b), 1.5, "rounding of the pixels at the rim alone")
	})
}

func TestFillIsCutAtTheRim(t *testing.T) {
	var b brush
	b.begin(50, 40)
	b.clear()
	b.fill([]geom.Point{geom.Pt(-1e6, -1e6), geom.Pt(1e6, -1e6), geom.Pt(1e6, 1e6), geom.Pt(-1e6, 1e6)}, white)
	assert.Equal(t, 2000.0, painted(&b))
	b.clear()
	b.fill([]geom.Point{geom.Pt(-100, 10), geom.Pt(25, 10), geom.Pt(25, 300), geom.Pt(-100, 300)}, white)
	assert.Equal(t, 750.0, painted(&b))
}

func TestLineHasItsWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var b brush
		b.begin(200, 200)
		b.clear()
		turn := geom.Angle(rapid.Float64Range(0, 6.28).Draw(t, "turn"))
		width := rapid.Float64Range(1, 8).Draw(t, "width")
		half := turn.Unit().Mul(70)
		mid := geom.Pt(100.3, 99.6)
		b.line([]geom.Point{mid.Sub(half), mid, mid.Add(half)}, pen{width: width, color: white})
		want := 140*width + math.Pi*width*width/4 // with round ends
		assert.InDelta(t, want, painted(&b), 0.06*want+4)
	})
}

func TestDashesAndFarLines(t *testing.T) {
	var b brush
	b.begin(300, 20)
	b.clear()
	far := []geom.Point{geom.Pt(-1e7, 10), geom.Pt(1e7, 10)}
	b.line(far, pen{width: 2, color: white, dash: []float64{10, 20}})
	share := painted(&b) / 600
	assert.InDelta(t, 0.4, share, 0.06, "a third, and the round ends")
	b.clear()
	b.line([]geom.Point{geom.Pt(-50, -50), geom.Pt(400, -60)}, pen{width: 3, color: white})
	assert.Zero(t, painted(&b))
	b.line([]geom.Point{geom.Pt(20, 10), geom.Pt(20, 10)}, pen{width: 6, color: white, dash: []float64{2, 2}})
	assert.InDelta(t, 28, painted(&b), 3, "a line of no length is a dot")
}

func TestSmallerImageIsReused(t *testing.T) {
	var b brush
	b.begin(100, 100)
	first := &b.img.Pix[0]
	b.begin(60, 30)
	assert.Same(t, first, &b.img.Pix[0])
	assert.Equal(t, 240, b.img.Stride)
	b.begin(10, 300)
	assert.Same(t, first, &b.img.Pix[0])
	b.rect(-5, -5, 500, 500, white)
	assert.Equal(t, 3000.0, painted(&b))
}

func TestWritingHasWidthAndInk(t *testing.T) {
	assert.Greater(t, textWidth("cradle", 12, true), textWidth("band", 12, true))
	var b brush
	b.begin(200, 40)
	b.clear()
	b.write("0 ½ äß €", geom.Pt(100, 20), 16, false, white)
	assert.Greater(t, painted(&b), 100.0)
}
