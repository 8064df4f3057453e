package render

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"image/color"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/pattern"
)

func TestTypefaceMeasures(t *testing.T) {
	l := Label{Text: "H", Height: 10, At: geom.Pt(5, 7)}
	b := geom.NoBox()
	for _, c := range l.outlines() {
		for _, s := range c {
			b = b.Union(s.Bounds())
		}
	}
	assert.InDelta(t, 7, b.Min.Y, 0.01, "letters stand on the baseline")
	assert.InDelta(t, 17, b.Max.Y, 0.01, "capitals are as tall as asked")
	assert.InDelta(t, 4*TextWidth("H", 3, false), TextWidth("HHHH", 3, false), 1e-12)
	assert.Greater(t, TextWidth("wire", 3, true), TextWidth("wire", 3, false))
	assert.Equal(t, "a b□c", writable("a\tb\U0001F9F5c", false))

	l = Label{Text: "wire line", Height: 3, Angle: 40 * geom.Degree, Anchor: Middle, At: geom.Pt(20, 30)}
	q := l.quad(0)
	area := polygon(q[:]...)
	for _, c := range l.outlines() {
		for _, s := range c {
			assert.Less(t, outsideBy(area, s.Start()), 0.05, "a label's area holds its letters")
		}
	}
	mid := q[0].Lerp(q[1], 0.5).Sub(l.At)
	assert.InDelta(t, 0, mid.Dot(l.Angle.Unit()), 1e-9, "it is centred")
}

func outsideBy(area geom.Path, p geom.Point) float64 {
	if area.Contains(p) {
		return 0
	}
	return area.Nearest(p).Dist
}

func TestSVGIsWellFormedAndAtTrueSize(t *testing.T) {
	s, err := PatternScene(pattern.Pattern{Pieces: append(sample(), sample()[3])}, Options{Pattern: "Sample", Size: "75C"})
	require.NoError(t, err)
	var a, b bytes.Buffer
	require.NoError(t, WriteSVG(&a, `Sample <"&'>`, s))
	require.NoError(t, WriteSVG(&b, `Sample <"&'>`, s))
	assert.Equal(t, a.Bytes(), b.Bytes())

	ids, classes := map[string]int{}, map[string]int{}
	var root xml.StartElement
	dec := xml.NewDecoder(&a)
	for {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		if e, ok := tok.(xml.StartElement); ok {
			if e.Name.Local == "svg" {
				root = e
			}
			for _, at := range e.Attr {
				switch at.Name.Local {
				case "id":
					ids[at.Value]++
				case "class":
					classes[at.Value]++
				}
			}
		}
	}
	attr := func(name string) string {
		for _, at := range root.Attr {
			if at.Name.Local == name {
				return at.Value
			}
		}
		return ""
	}
	assert.Equal(t, svgNumber(s.Box.Width()+20)+"mm", attr("width"))
	assert.Equal(t, fmt.Sprintf("0 0 %s %s", svgNumber(s.Box.Width()+20), svgNumber(s.Box.Height()+20)), attr("viewBox"))
	assert.Len(t, ids, 5)
	for id, n := range ids {
		assert.Equal(t, 1, n, "id %s", id)
	}
	assert.Contains(t, ids, "inner-cup")
	assert.Contains(t, ids, "inner-cup-2")
	assert.Equal(t, 5, classes["cut-line"])
}

func TestPictureIsAtTrueSize(t *testing.T) {
	// A square of 100 mm whose line is 0.5 mm wide.
	sq := Layer{Figures: []Figure{{Path: rectangle(geom.Box{Max: geom.Pt(100, 100)}), Pen: cutPen}}}
	var buf bytes.Buffer
	require.NoError(t, WritePNG(&buf, sceneOf(sq), 254)) // 10 pixels a mm
	img, err := png.Decode(&buf)
	require.NoError(t, err)
	assert.Equal(t, 1205, img.Bounds().Dx(), "100.5 mm of drawing and 10 mm of white on each side")
	dark := func(x, y int) bool { return grayAt(img.At(x, y)) < 128 }
	var xs []int
	for x := range img.Bounds().Dx() {
		if dark(x, 600) {
			xs = append(xs, x)
		}
	}
	assert.Equal(t, []int{100, 101, 102, 103, 104, 1100, 1101, 1102, 1103, 1104}, xs)

	for _, dpi := range []float64{0, -3, math.NaN(), 1e6, 0.01} {
		assert.Error(t, WritePNG(io.Discard, sceneOf(sq), dpi), "%g dpi", dpi)
	}
	assert.Error(t, WritePNG(io.Discard, Scene{Box: geom.NoBox()}, 100))
}

func grayAt(c color.Color) uint8 { return color.GrayModel.Convert(c).(color.Gray).Y }

func TestGoldenPictures(t *testing.T) {
	nested, err := NestScene([]SizePieces{{"75C", sample()[3:]}, {"75D", grown(sample())[3:]}}, Options{Pattern: "Sample"})
	require.NoError(t, err)
	scenes := map[string]Scene{"nested cup": nested}
	for _, pc := range sample() {
		s, err := PieceScene(pc, Options{Pattern: "Sample", Size: "75C"})
		require.NoError(t, err)
		scenes[pc.Name] = s
	}
	for name, s := range scenes {
		img, err := Picture(s, 60)
		require.NoError(t, err)
		path := filepath.Join("testdata", strings.ReplaceAll(name, " ", "-")+".png")
		if os.Getenv("UPDATE_GOLDEN") != "" {
			var buf bytes.Buffer
			require.NoError(t, png.Encode(&buf, img))
			require.NoError(t, os.WriteFile(path, buf.Bytes(), 0o644))
			continue
		}
		data, err := os.ReadFile(path)
		require.NoError(t, err, "UPDATE_GOLDEN=1 draws it")
		want, err := png.Decode(bytes.NewReader(data))
		require.NoError(t, err)
		require.Equal(t, want.Bounds(), img.Bounds(), name)
		differ := 0
		for y := range want.Bounds().Dy() {
			for x := range want.Bounds().Dx() {
				if d := int(grayAt(want.At(x, y))) - int(grayAt(img.At(x, y))); d < -40 || d > 40 {
					differ++
				}
			}
		}
		assert.Zero(t, differ, "%s differs from %s", name, path)
	}
}

func TestSheetIsTrueOverAMetre(t *testing.T) {
	need(t, "qpdf", "pdfinfo")
	line := Layer{Figures: []Figure{{Path: polyline(geom.Pt(3.3, 1), geom.Pt(1003.3, 1)), Pen: Pen{Width: 0.5, Color: black}}}}
	var buf bytes.Buffer
	require.NoError(t, WritePDF(&buf, "A metre", sceneOf(line)))
	file := saved(t, buf.Bytes(), "metre.pdf")
	output(t, "qpdf", "--check", file)
	plain := filepath.Join(t.TempDir(), "plain.pdf")
	output(t, "qpdf", "--qdf", "--object-streams=disable", file, plain)
	data, err := os.ReadFile(plain)
	require.NoError(t, err)
	m := regexp.MustCompile(`([\d.]+) ([\d.]+) m\n([\d.]+) ([\d.]+) l\nS`).FindSubmatch(data)
	require.NotNil(t, m)
	at := func(i int) float64 {
		v, err := strconv.ParseFloat(string(m[i]), 64)
		require.NoError(t, err)
		return v / 72 * 25.4
	}
	assert.InDelta(t, 1000, at(3)-at(1), 1e-4, "a metre is a metre")
	assert.Equal(t, at(2), at(4))
	assert.InDelta(t, 1020.5, pageSizes(t, file)[0][0], 0.01)
	assert.Contains(t, string(data), "/PrintScaling /None")

	assert.Error(t, WritePDF(io.Discard, "", Scene{Box: geom.NoBox()}))
	long := Layer{Figures: []Figure{{Path: polyline(geom.Pt(0, 0), geom.Pt(6000, 0)), Pen: cutPen}}}
	assert.ErrorContains(t, WritePDF(io.Discard, "", sceneOf(long)), "tiles")
}

// pageSizes returns the widths and heights of a PDF's pages in mm.
func pageSizes(t *testing.T, file string) [][2]float64 {
	var sizes [][2]float64
	for _, m := range regexp.MustCompile(`size:\s+([\d.]+) x ([\d.]+) pts`).FindAllStringSubmatch(output(t, "pdfinfo", "-f", "1", "-l", "999", file), -1) {
		w, _ := strconv.ParseFloat(m[1], 64)
		h, _ := strconv.ParseFloat(m[2], 64)
		sizes = append(sizes, [2]float64{w / 72 * 25.4, h / 72 * 25.4})
	}
	require.NotEmpty(t, sizes)
	return sizes
}

var errFull = errors.New("the disk is full")

// fullDisk takes some bytes, then fails.
type fullDisk struct{ room int }

func (d *fullDisk) Write(b []byte) (int, error) {
	if len(b) > d.room {
		return d.room, errFull
	}
	d.room -= len(b)
	return len(b), nil
}

func TestFailingWritersAreReported(t *testing.T) {
	s, err := PieceScene(cup(), Options{})
	require.NoError(t, err)
	for _, room := range []int{0, 100} {
		assert.ErrorIs(t, WriteSVG(&fullDisk{room}, "", s), errFull)
		assert.ErrorIs(t, WritePNG(&fullDisk{room}, s, 100), errFull)
		assert.ErrorIs(t, WritePDF(&fullDisk{room}, "", s), errFull)
		assert.ErrorIs(t, Tile(&fullDisk{room}, Print{Sizes: []SizePieces{{"", sample()}}, Paper: A4}), errFull)
	}
}
