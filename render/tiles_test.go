package render

import (
	"bytes"
	"fmt"
	"image"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

func samplePrint(p Paper) Print {
	return Print{Pattern: "Sample", Sizes: []SizePieces{{"75C", sample()}}, Paper: p}
}

func tiled(t testing.TB, doc Print) []byte {
	t.Helper()
	var buf bytes.Buffer
	require.NoError(t, Tile(&buf, doc))
	return buf.Bytes()
}

func TestPapers(t *testing.T) {
	for text, want := range map[string][2]float64{
		"a4": {210, 297}, "A3": {297, 420}, "a0": {841, 1189}, "letter": {215.9, 279.4},
		"both": {210, 279.4}, "900x2000": {900, 2000}, "610.5 x 914mm": {610.5, 914},
	} {
		p, err := ParsePaper(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, [2]float64{p.Width, p.Height}, text)
	}
	for _, text := range []string{"", "a5x", "x", "0x0", "-3x200", "NaNx200", "1e9x200", "20x20"} {
		_, err := ParsePaper(text)
		assert.Error(t, err, "%q", text)
	}
}

func TestPaperSmallerThanItsMargins(t *testing.T) {
	for _, doc := range []Print{
		{Paper: Paper{"slip", 60, 100}},
		{Paper: A4, Margin: 110},
		{Paper: A4, Margin: -2},
		{Paper: A4, Overlap: 100},
		{Paper: A4, Overlap: 1},
		{Paper: A4, Margin: math.NaN()},
		{},
	} {
		doc.Sizes = []SizePieces{{"75C", sample()}}
		_, err := PlanTiles(doc)
		assert.Error(t, err, "%+v", doc.Paper)
		assert.Error(t, Tile(io.Discard, doc))
	}
	_, err := PlanTiles(Print{Paper: A4})
	assert.ErrorContains(t, err, "no size")
	_, err = PlanTiles(Print{Paper: A4, Sizes: []SizePieces{{Label: "75C"}}})
	assert.ErrorContains(t, err, "no piece")
}

func TestPageSizesAreThoseOfThePaper(t *testing.T) {
	need(t, "qpdf", "pdfinfo")
	for _, p := range []Paper{A4, Letter, Both, A3, A0, {"roll", 610, 914}} {
		doc := samplePrint(p)
		file := saved(t, tiled(t, doc), "tiles.pdf")
		output(t, "qpdf", "--check", file)
		plan, err := PlanTiles(doc)
		require.NoError(t, err)
		sizes := pageSizes(t, file)
		assert.Len(t, sizes, plan.Pages(), p.Name)
		for _, s := range sizes {
			assert.InDelta(t, plan.Paper.Width, s[0], 0.005, p.Name)
			assert.InDelta(t, plan.Paper.Height, s[1], 0.005, p.Name)
		}
		assert.InDelta(t, p.Width*p.Height, plan.Paper.Width*plan.Paper.Height, 1e-9, "upright or lying")
	}
}

func TestTestSquaresMeasured(t *testing.T) {
	need(t, "pdftoppm")
	for _, p := range []Paper{A4, Letter, {"large", 450, 450}} {
		file := saved(t, tiled(t, samplePrint(p)), "tiles.pdf")
		img := rasterized(t, file, "1", "300", "-x", "0", "-y", "0", "-W", "3600", "-H", "3600")
		found := map[int]int{}
		for _, run := range darkRuns(img) {
			mm := float64(run) / 300 * 25.4
			for _, side := range []float64{100, 101.6} {
				// From outside to outside of a line 0.2 mm wide; ± 1 pixel.
				if math.Abs(mm-side-0.2) <= 25.4/300 {
					found[int(side*10)]++
				}
			}
		}
		assert.GreaterOrEqual(t, found[1000], 2, "%s: upper and lower side of the 100 mm square", p.Name)
		assert.GreaterOrEqual(t, found[1016], 2, "%s: upper and lower side of the 4 in square", p.Name)
	}
}

// darkRuns returns the lengths in pixels of the level lines over 80 mm at 300
// dots an inch.
func darkRuns(img *image.Gray) []int {
	var runs []int
	b := img.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		n := 0
		for x := b.Min.X; x < b.Max.X; x++ {
			if img.GrayAt(x, y).Y < 128 {
				n++
				continue
			}
			if n > 945 {
				runs = append(runs, n)
			}
			n = 0
		}
	}
	return runs
}

func TestTextCanBeSearched(t *testing.T) {
	need(t, "pdftotext", "pdffonts")
	doc := samplePrint(A4)
	file := saved(t, tiled(t, doc), "tiles.pdf")
	plan, err := PlanTiles(doc)
	require.NoError(t, err)
	text := output(t, "pdftotext", "-layout", file, "-")
	for _, want := range []string{
		"Sample · size 75C", "100 mm × 100 mm", "4 in × 4 in", "Nothing to glue", "Underwires", "Spray adhesive", "Blades",
		"ALTERED", "bridge", "cradle", "band", "inner cup", "wire line", "lace edge", "hem 12 mm",
		fmt.Sprintf("page %d of %d", plan.Tiles[0].Number, plan.Pages()), "row 1 · column 1",
	} {
		assert.Contains(t, text, want)
	}
	assert.Regexp(t, `utf8go +CID TrueType +Identity-H +yes`, output(t, "pdffonts", file), "the typeface is embedded")
}

func TestSamePrintSameBytes(t *testing.T) {
	doc := samplePrint(A4)
	doc.Sizes = append(doc.Sizes, SizePieces{"75D", grown(sample())})
	assert.True(t, bytes.Equal(tiled(t, doc), tiled(t, doc)))
}

func TestSizesAreLayers(t *testing.T) {
	need(t, "qpdf")
	doc := samplePrint(A4)
	doc.Sizes = append(doc.Sizes, SizePieces{"75D", grown(sample())})
	file := saved(t, tiled(t, doc), "tiles.pdf")
	output(t, "qpdf", "--check", file)
	plain := filepath.Join(t.TempDir(), "plain.pdf")
	output(t, "qpdf", "--qdf", "--object-streams=disable", file, plain)
	data, err := os.ReadFile(plain)
	require.NoError(t, err)
	assert.Equal(t, 2, bytes.Count(data, []byte("/Type /OCG")), "two layers")
	plan, err := PlanTiles(doc)
	require.NoError(t, err)
	assert.Equal(t, len(plan.Tiles), bytes.Count(data, []byte("/OC /OC0 BDC")))
	assert.Equal(t, len(plan.Tiles), bytes.Count(data, []byte("/OC /OC1 BDC")))
	assert.Equal(t, 2*len(plan.Tiles), bytes.Count(data, []byte("EMC")))
	assert.NotContains(t, string(tiled(t, samplePrint(A4))), "/OCG", "one size needs no layer")
}

// TestTilesPutTogether prints in tiles and on one sheet, puts the rasters of
// the tiles together along the glue lines and compares the black lines.
func TestTilesPutTogether(t *testing.T) {
	need(t, "pdftoppm")
	const dpi, scale = "150", 150 / 25.4
	doc := samplePrint(Paper{"small", 140, 110})
	doc.FoldWhole = true
	plan, err := PlanTiles(doc)
	require.NoError(t, err)
	require.Greater(t, len(plan.Joints), 4)
	file := saved(t, tiled(t, doc), "tiles.pdf")

	common, sizes, err := plan.drawn(doc)
	require.NoError(t, err)
	sheet := sceneOf(sizes[0].with(common))
	var buf bytes.Buffer
	require.NoError(t, WritePDF(&buf, "", sheet))
	whole := rasterized(t, saved(t, buf.Bytes(), "sheet.pdf"), "1", dpi)

	// at returns the pixel of a picture whose upper left corner is corner.
	at := func(img image.Image, p, corner geom.Point) (int, int) {
		d := p.Sub(corner)
		return int(math.Floor(d.X * scale)), int(math.Floor(-d.Y * scale))
	}
	// Lines thinner than two pixels are black or dark grey, as they fall on the
	// pixels: what is black here must be dark there.
	const blackest, darkest = 0x50, 0xa0
	black := func(img *image.Gray, x, y, reach int) bool {
		limit := uint8(blackest)
		if reach > 0 {
			limit = darkest
		}
		for dy := -reach; dy <= reach; dy++ {
			for dx := -reach; dx <= reach; dx++ {
				if q := image.Pt(x+dx, y+dy); q.In(img.Bounds()) && img.GrayAt(q.X, q.Y).Y < limit {
					return true
				}
			}
		}
		return false
	}
	sheetCorner := geom.Pt(sheet.Box.Min.X-sheetMargin, sheet.Box.Max.Y+sheetMargin)
	lines, missing, extra := 0, 0, 0
	seen := map[image.Point]bool{}
	for _, tile := range plan.Tiles {
		img := rasterized(t, file, fmt.Sprint(tile.Number), dpi)
		corner := geom.Pt(tile.Area.Min.X-plan.grid.margin, tile.Area.Max.Y+plan.grid.margin)
		kept := plan.grid.kept(tile.Row, tile.Col, plan.Rows, plan.Cols)
		for y := kept.Min.Y; y < kept.Max.Y; y += 1 / scale {
			for x := kept.Min.X; x < kept.Max.X; x += 1 / scale {
				p := geom.Pt(x, y)
				tx, ty := at(img, p, corner)
				sx, sy := at(whole, p, sheetCorner)
				onTile, onSheet := black(img, tx, ty, 0), black(whole, sx, sy, 0)
				if onSheet {
					lines++
					seen[image.Pt(sx, sy)] = true
					if !black(img, tx, ty, 1) {
						missing++
					}
				}
				if onTile && !black(whole, sx, sy, 1) {
					extra++
				}
			}
		}
	}
	assert.Greater(t, lines, 10000)
	assert.Zero(t, missing, "of the sheet's lines within a pixel on the tiles")
	// The page's own grey writing may darken the grey rim of a line.
	assert.LessOrEqual(t, extra, lines/5000, "black pixels on tiles that the sheet lacks")
	lost := 0
	for y := range whole.Bounds().Dy() {
		for x := range whole.Bounds().Dx() {
			if black(whole, x, y, 0) && !near(seen, x, y) {
				lost++
			}
		}
	}
	assert.Zero(t, lost, "every line of the sheet is on some tile")
}

func near(seen map[image.Point]bool, x, y int) bool {
	for dy := -1; dy <= 1; dy++ {
		for dx := -1; dx <= 1; dx++ {
			if seen[image.Pt(x+dx, y+dy)] {
				return true
			}
		}
	}
	return false
}

func TestJoiningMarksMeet(t *testing.T) {
	plan, err := PlanTiles(samplePrint(Paper{"small", 140, 110}))
	require.NoError(t, err)
	used := map[string]bool{}
	for _, j := range plan.Joints {
		assert.False(t, used[j.Letter], "letter %s is used once", j.Letter)
		used[j.Letter] = true
		a, b := plan.joint(j, j.First), plan.joint(j, j.Second)
		assert.Equal(t, a.Figures, b.Figures, "the marks are the same on both pages")
		strip := plan.Tiles[j.First].Area
		other := plan.Tiles[j.Second].Area
		for _, f := range a.Figures[:1] { // the glue line
			for _, p := range []geom.Point{f.Path.Start(), f.Path.End()} {
				assert.True(t, strip.Grow(1e-9).Contains(p) && other.Grow(1e-9).Contains(p), "it lies on both pages")
			}
		}
		both := 0
		for _, l := range a.Labels {
			if l.Text == j.Letter {
				both++
			}
		}
		assert.Equal(t, 4, both, "two almonds with a letter on each half")
	}
	assert.Equal(t, []string{"A", "H", "J", "N", "P", "Z", "AA", "AB"}, []string{letters(0), letters(7), letters(8), letters(12), letters(13), letters(23), letters(24), letters(25)})
}

func TestOverlapAndMarginAreAsAsked(t *testing.T) {
	doc := samplePrint(A4)
	doc.Margin = NoMargin
	bare, err := PlanTiles(doc)
	require.NoError(t, err)
	assert.InDelta(t, bare.Paper.Width, bare.Tiles[0].Area.Width(), 1e-9)

	doc.Margin, doc.Overlap = 12, 20
	plan, err := PlanTiles(doc)
	require.NoError(t, err)
	require.NotEmpty(t, plan.Joints)
	for _, tl := range plan.Tiles {
		assert.InDelta(t, plan.Paper.Width-24, tl.Area.Width(), 1e-9)
		assert.InDelta(t, plan.Paper.Height-24, tl.Area.Height(), 1e-9)
	}
	for _, j := range plan.Joints {
		a, b := plan.Tiles[j.First].Area, plan.Tiles[j.Second].Area
		if j.Upper {
			assert.InDelta(t, 20, b.Max.Y-a.Min.Y, 1e-9)
		} else {
			assert.InDelta(t, 20, a.Max.X-b.Min.X, 1e-9)
		}
	}
}

// TestEveryPieceLiesWholeOnThePages lays out odd pieces and checks that no
// two lie on each other and that every place of every cut line is printed.
func TestEveryPieceLiesWholeOnThePages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var pieces []pattern.Piece
		for i := range rapid.IntRange(1, 5).Draw(t, "pieces") {
			pc := patterntest.Blob(t)
			pc.Name = fmt.Sprint("piece ", i+1)
			if _, err := pc.CutLine(); err == nil {
				pieces = append(pieces, pc)
			}
		}
		if len(pieces) == 0 {
			t.Skip("no piece with a cut line")
		}
		w := rapid.Float64Range(90, 500).Draw(t, "width")
		h := rapid.Float64Range(90, 500).Draw(t, "height")
		doc := Print{Sizes: []SizePieces{{"1", pieces}}, Paper: Paper{"some", w, h}}
		plan, err := PlanTiles(doc)
		if err != nil {
			if strings.Contains(err.Error(), "pages") {
				t.Skip("too many pages")
			}
			t.Fatal(err)
		}
		cuts, err := plan.cutOutlines(doc)
		if err != nil {
			t.Fatal(err)
		}
		onPages := 0.0
		for i, c := range cuts {
			for _, q := range walkPoints(c[0], 2) {
				printed := false
				for _, tl := range plan.Tiles {
					printed = printed || plan.grid.kept(tl.Row, tl.Col, plan.Rows, plan.Cols).Grow(1e-6).Contains(q)
				}
				if !printed {
					t.Fatalf("%v of piece %d is on no page", q, i)
				}
				for k, o := range cuts {
					if k != i && o[0].Contains(q) {
						t.Fatalf("pieces %d and %d lie on each other", i, k)
					}
				}
			}
			onPages += math.Abs(c[0].Area())
			m := plan.Pieces[i].Move
			if m.Mirrors() {
				t.Fatal("a piece was mirrored")
			}
			d := m.Vector(pieces[i].Arrow.To.Sub(pieces[i].Arrow.From))
			if d.Norm() > 1 && math.Min(math.Abs(d.X), math.Abs(d.Y)) > 1e-6 {
				t.Fatalf("the arrow points to %v", d)
			}
		}
		if area := float64(len(plan.Tiles)) * w * h; area < onPages {
			t.Fatalf("%g mm² on pages of %g mm²", onPages, area)
		}
	})
}

func TestEmptyTilesAreSkipped(t *testing.T) {
	// An L whose arms are far longer than the paper.
	pts := []geom.Point{{X: 0, Y: 0}, {X: 500, Y: 0}, {X: 500, Y: 50}, {X: 50, Y: 50}, {X: 50, Y: 500}, {X: 0, Y: 500}}
	pc := pattern.Piece{Name: "L", Arrow: pattern.Arrow{Kind: pattern.Grain, From: geom.Pt(20, 20), To: geom.Pt(20, 60)}}
	for i, p := range pts {
		pc.Edges = append(pc.Edges, pattern.Edge{Name: fmt.Sprint("e", i), Role: pattern.SeamEdge, Path: geom.Must(geom.Polyline(p, pts[(i+1)%len(pts)]))})
	}
	plan, err := PlanTiles(Print{Sizes: []SizePieces{{"", []pattern.Piece{pc}}}, Paper: A4})
	require.NoError(t, err)
	assert.Less(t, len(plan.Tiles), plan.Rows*plan.Cols)
	for i, tl := range plan.Tiles {
		assert.Equal(t, plan.Covers+i+1, tl.Number)
	}
}

func TestLargePaperCarriesItsCover(t *testing.T) {
	plan, err := PlanTiles(samplePrint(A0))
	require.NoError(t, err)
	assert.Zero(t, plan.Covers)
	assert.Equal(t, 1, plan.Pages())
}

func TestCoversStayOnTheirPages(t *testing.T) {
	for _, p := range []Paper{A4, A4.Turned(), Letter, Letter.Turned(), Both, A3, A0, {"small", 90, 130}, {"small", 130, 90}, {"smallest", 82, 82}} {
		doc := samplePrint(p)
		doc.Pattern = "A pattern with quite a long name that goes on"
		plan, err := PlanTiles(doc)
		require.NoError(t, err, p.Name)
		w, h := plan.grid.width, plan.grid.height
		if plan.cover != nil {
			w, h = coverOnSheet.X, coverOnSheet.Y
		}
		area := geom.Box{Max: geom.Pt(w, h)}.Grow(0.2)
		squares := 0
		pages := coverPages(doc, plan, w, h)
		for _, c := range pages {
			for _, f := range c.Figures {
				b := figureBox(f)
				assert.True(t, area.Contains(b.Min) && area.Contains(b.Max), "%v: a %s leaves the page", p, f.Kind)
				if f.Kind == TestSquare {
					squares++
					assert.InDelta(t, f.Path.Bounds().Width(), f.Path.Bounds().Height(), 1e-9)
				}
			}
			for i, l := range c.Labels {
				b := labelBox(l)
				assert.True(t, area.Contains(b.Min) && area.Contains(b.Max), "%v: %q leaves the page", p, l.Text)
				for _, o := range c.Labels[:i] {
					if l.Height >= coverText && o.Height >= coverText {
						assert.False(t, labelBox(o).Grow(-0.3).Overlaps(b.Grow(-0.3)), "%v: %q lies on %q", p, l.Text, o.Text)
					}
				}
			}
		}
		assert.Equal(t, 2, squares)
		assert.Equal(t, plan.Covers > 0, plan.cover == nil)
	}
}

// twelve is two frames and cups in two sizes side by side: 12 pieces.
func twelve() []pattern.Piece {
	var all []pattern.Piece
	for i := range 3 {
		for _, pc := range sample() {
			pc.Name = fmt.Sprint(pc.Name, " ", i+1)
			all = append(all, pc)
		}
	}
	return all
}

func BenchmarkTile(b *testing.B) {
	doc := Print{Pattern: "Sample", Sizes: []SizePieces{{"75C", twelve()}}, Paper: Paper{"small", 85, 105}}
	plan, err := PlanTiles(doc)
	require.NoError(b, err)
	for b.Loop() {
		if err := Tile(io.Discard, doc); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(plan.Tiles)), "tiles")
}

func BenchmarkPlanTiles(b *testing.B) {
	doc := Print{Pattern: "Sample", Sizes: []SizePieces{{"75C", twelve()}}, Paper: Paper{"small", 85, 105}}
	for b.Loop() {
		if _, err := PlanTiles(doc); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPieceScene(b *testing.B) {
	pc := sample()[1]
	for b.Loop() {
		if _, err := PieceScene(pc, Options{Pattern: "Sample", Size: "75C"}); err != nil {
			b.Fatal(err)
		}
	}
}

// Joining marks lie off what is drawn where the glue line leaves them room, and
// on both pages at the same place.
func TestJoiningMarksKeepClearOfWhatIsDrawn(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	r := demo.TernInLace().Replay(run)[0]
	doc := Print{Pattern: "Tern", Sizes: []SizePieces{{Label: r.Size.Label, Pieces: r.Size.Pattern.Pieces}}, Paper: Letter}
	plan, err := PlanTiles(doc)
	require.NoError(t, err)
	d, err := newDrawn(doc, plan)
	require.NoError(t, err)
	before, after := plan.Joints, d.plan.Joints
	require.NotEmpty(t, after)
	covered := func(j Joint, k int) float64 {
		a, b, over := plan.glueLine(j)
		c, along := a.Lerp(b, j.at[k]), b.Sub(a).Unit().Mul(almondWidth)
		return d.ink.in(geom.BoxOf(c.Add(over.Mul(almondLength)).Add(along), c.Sub(over.Mul(almondLength)).Sub(along)))
	}
	was := 0.0
	for i := range after {
		for k := range after[i].at {
			was += covered(before[i], k)
			assert.Less(t, covered(after[i], k), 5.0, "joint %s covers no more than the end of a line", after[i].Letter)
		}
		assert.Greater(t, after[i].at[1]-after[i].at[0], 0.1)
	}
	assert.Greater(t, was, 10.0, "where they lie otherwise something is drawn")
}
