package window

import (
	"image"
	"image/color"
	"image/png"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The pictures are compared with those kept in testdata, in coarser colours to
// be small. TRUEMAT_GOLDEN=1 writes them anew: look at them before keeping
// them.
func TestWindowLooksAsItDidWhenItWasLookedAt(t *testing.T) {
	for _, s := range Scenes() {
		img, err := s.Picture(func() fyne.App { return test.NewTempApp(t) })
		require.NoError(t, err, s.Name)
		require.Equal(t, image.Pt(int(s.width*s.scale), int(s.height*s.scale)), img.Bounds().Size(), s.Name)
		path := filepath.Join("testdata", s.Name+".png")
		if os.Getenv("TRUEMAT_GOLDEN") != "" {
			writePNG(t, path, coarse(img))
		}
		want := readPNG(t, path)
		require.Equal(t, want.Bounds(), img.Bounds(), s.Name)
		if share := differing(want, img); !assert.LessOrEqual(t, share, 0.0005, "share of the pixels of %s that differ", s.Name) {
			if dir := os.Getenv("TRUEMAT_PICTURES"); dir != "" {
				writePNG(t, filepath.Join(dir, s.Name+".png"), img)
			}
		}
	}
}

// The shears have more to ask than a line holds: all of it shows, apart from
// the buttons, and the mat stays where it was.
func TestManyFieldsStandInLinesAboveTheTray(t *testing.T) {
	w := open(t, true)
	for range 2 {
		w.undo()
	}
	before := w.mat.Size()
	require.NoError(t, (&sitting{Window: w}).cuttingOff())
	require.True(t, w.prompt.acts.Visible())
	require.Greater(t, len(w.prompt.fields.Objects), 6)
	rows := map[float32]bool{}
	acts := w.prompt.acts.Position().X
	for _, f := range w.prompt.fields.Objects {
		require.Less(t, w.prompt.fields.Position().X+f.Position().X+f.Size().Width, acts)
		rows[f.Position().Y] = true
	}
	require.Greater(t, len(rows), 1)
	require.Equal(t, before, w.mat.Size())

	w.prompt.set("allowance", "wide")
	require.Contains(t, w.prompt.wrong.Text, "wide")
	require.LessOrEqual(t, w.prompt.wrong.Position().X+w.prompt.wrong.MinSize().Width, float32(1280))
	w.abandon()
	w.choose(0)
	require.InDelta(t, rowHeight, w.prompt.row.Size().Height, 0)
}

func TestPicturesAreWrittenToAFolder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new")
	require.NoError(t, os.WriteFile(dir, nil, 0o600))
	err := Pictures(func() fyne.App { return test.NewTempApp(t) }, dir, func(string) { t.Error("nothing is written") })
	require.ErrorContains(t, err, dir)
}

// The README's picture is the window as it now first opens; “truemat pictures”
// draws it.
func TestReadmeShowsTheWindowAsItIs(t *testing.T) {
	i := slices.IndexFunc(Scenes(), func(s Scene) bool { return s.Name == "first-start" })
	img, err := Scenes()[i].Picture(func() fyne.App { return test.NewTempApp(t) })
	require.NoError(t, err)
	require.LessOrEqual(t, differing(readPNG(t, "../../assets/window.png"), img), 0.0005, "share of the pixels that differ")
}

func readPNG(t *testing.T, path string) image.Image {
	t.Helper()
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	img, err := png.Decode(f)
	require.NoError(t, err)
	return img
}

func writePNG(t *testing.T, path string, img image.Image) {
	t.Helper()
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	f, err := os.Create(path)
	require.NoError(t, err)
	require.NoError(t, (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(f, img))
	require.NoError(t, f.Close())
}

// coarseness is the greatest error of a coarse colour, of 255.
const coarseness = 20

// coarse returns a picture of few colours, each off by coarseness at most: the
// commonest of a grid as they are, which makes large grounds exact.
func coarse(img image.Image) image.Image {
	b := img.Bounds()
	cell := func(c color.NRGBA) [3]uint8 {
		const w = coarseness
		return [3]uint8{c.R / w, c.G / w, c.B / w}
	}
	at := func(x, y int) color.NRGBA { return color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA) }
	count := map[color.NRGBA]int{}
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			count[at(x, y)]++
		}
	}
	best := map[[3]uint8]color.NRGBA{}
	for c, n := range count {
		was, ok := best[cell(c)]
		if !ok || n > count[was] || n == count[was] && darker(c, was) < 0 {
			best[cell(c)] = c
		}
	}
	out := image.NewNRGBA(b)
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			out.SetNRGBA(x, y, best[cell(at(x, y))])
		}
	}
	if len(best) > 256 {
		return out
	}
	var p color.Palette
	for _, c := range slices.SortedFunc(maps.Values(best), darker) {
		p = append(p, c)
	}
	few := image.NewPaletted(b, p)
	index := map[color.NRGBA]uint8{}
	for i, c := range p {
		index[c.(color.NRGBA)] = uint8(i)
	}
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			few.SetColorIndex(x, y, index[out.NRGBAAt(x, y)])
		}
	}
	return few
}

// darker gives colours an order.
func darker(a, b color.NRGBA) int {
	return slices.Compare([]uint8{a.R, a.G, a.B}, []uint8{b.R, b.G, b.B})
}

// differing returns the share of pixels whose colour differs by more than
// coarseness and the rounding of another processor explain.
func differing(a, b image.Image) float64 {
	far := func(x, y uint32) bool { return max(x, y)-min(x, y) > (coarseness+8)*257 }
	n, r := 0, a.Bounds()
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			r1, g1, b1, _ := a.At(x, y).RGBA()
			r2, g2, b2, _ := b.At(x, y).RGBA()
			if far(r1, r2) || far(g1, g2) || far(b1, b2) {
				n++
			}
		}
	}
	return float64(n) / float64(r.Dx()*r.Dy())
}
