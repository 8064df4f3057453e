package svg

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSizeOfTheDrawing(t *testing.T) {
	cases := []struct {
		attrs string
		want  float64 // of a line 30 units long
	}{
		{`width="100mm" height="100mm" viewBox="0 0 100 100"`, 30},
		{`width="10cm" height="10cm" viewBox="7 -9 200 200"`, 15},
		{`width="1in" height="1in" viewBox="0 0 10 10"`, 76.2},
		{`width="72pt" height="72pt" viewBox="0 0 10 10"`, 76.2},
		{`width="6pc" height="6pc" viewBox="0 0 10 10"`, 76.2},
		{`width="96px" height="96px" viewBox="0 0 10 10"`, 76.2},
		{`width="101.6Q" height="101.6Q" viewBox="0 0 10 10"`, 76.2},
		{`width="200mm" height="100mm" viewBox="0 0 100 100"`, 30},
		{`width="200mm" height="100mm" viewBox="0 0 100 100" preserveAspectRatio="none"`, 60},
		{`width="200mm" height="100mm" viewBox="0 0 100 100" preserveAspectRatio="xMidYMid slice"`, 60},
		{`width="200mm" viewBox="0 0 100 100"`, 60},
		{`height="50mm" width="100%" viewBox="0 0 100 100"`, 15},
		{`width="200mm" height="100mm"`, 30 * 25.4 / 96},
	}
	for _, c := range cases {
		d, err := Read(strings.NewReader(`<svg `+c.attrs+`><path id="p" d="M10 10h30"/></svg>`), Options{})
		require.NoError(t, err, c.attrs)
		n, _ := d.Find("p")
		assert.InDelta(t, c.want, n.Length(), 1e-9, c.attrs)
	}
}

func TestADrawingWithoutSizeNeedsAKnownLength(t *testing.T) {
	for _, attrs := range []string{``, `viewBox="0 0 9 9"`, `width="100" height="100"`, `width="100%" height="100%" viewBox="0 0 9 9"`} {
		in := `<svg ` + attrs + `><g id="g"><path id="p" d="M10 10h30"/><circle id="c" r="9"/></g></svg>`
		_, err := Read(strings.NewReader(in), Options{})
		require.ErrorIs(t, err, ErrNoSize, attrs)

		d, err := Read(strings.NewReader(in), Options{Scale: 2})
		require.NoError(t, err)
		n, _ := d.Find("p")
		assert.InDelta(t, 60, n.Length(), 1e-9)

		d, err = Read(strings.NewReader(in), Options{Known: Known{"p", 45}})
		require.NoError(t, err)
		n, _ = d.Find("c")
		assert.InDelta(t, 1.5*2*3.14159265358979*9, n.Length(), 5e-4)
	}
}

func TestAKnownLengthCorrectsAWrongSize(t *testing.T) {
	in := `<svg width="100mm" height="100mm" viewBox="0 0 100 100"><path id="p" d="M10 10h30"/></svg>`
	d, err := Read(strings.NewReader(in), Options{Known: Known{"p", 33}})
	require.NoError(t, err)
	assert.InDelta(t, 33, d.Nodes[0].Length(), 1e-9)
	assert.Contains(t, strings.Join(d.Notes, ""), "30.00 mm long")

	d, err = Read(strings.NewReader(strings.ReplaceAll(in, "mm", "px")), Options{})
	require.NoError(t, err)
	assert.Contains(t, strings.Join(d.Notes, ""), "96 to the inch")
}

func TestBadOptions(t *testing.T) {
	in := `<svg><g id="g"><path id="p" d="M10 10h30"/></g></svg>`
	for _, c := range []struct {
		opt  Options
		want string
	}{
		{Options{Scale: -1}, "scale"},
		{Options{Scale: 1, Known: Known{"p", 3}}, "not both"},
		{Options{Known: Known{"p", 0}}, "over 0"},
		{Options{Known: Known{"", 5}}, "name"},
		{Options{Known: Known{"q", 5}}, `no shape "q"`},
		{Options{Known: Known{"g", 5}}, "group"},
	} {
		_, err := Read(strings.NewReader(in), c.opt)
		assert.ErrorContains(t, err, c.want)
	}
}

func TestWrongFilesAreRefused(t *testing.T) {
	cases := []struct{ name, in, want string }{
		{"empty", "", "empty"},
		{"blank", " \n", "empty"},
		{"text", "hello", "not an SVG"},
		{"binary", "\x00\x01\x02", "not an SVG"},
		{"compressed", "\x1f\x8b\x08", "compressed"},
		{"other XML", "\n<html></html>", "line 2: not an SVG drawing: it starts with <html>"},
		{"other namespace", `<svg xmlns="urn:x"/>`, "not an SVG"},
		{"only a comment", "<!-- x -->", "no <svg>"},
		{"cut short", "<svg>\n<g>", "line 2"},
		{"crossed tags", "<svg><g></svg>", "line 1"},
		{"unknown entity", "<svg>\n<text>&lol;</text></svg>", "line 2"},
		{"entities", `<!DOCTYPE svg [<!ENTITY a "x"><!ENTITY b "&a;&a;">]><svg><text>&b;</text></svg>`, "entities"},
		{"encoding", `<?xml version="1.0" encoding="EBCDIC"?><svg/>`, "encoding"},
		{"viewBox", `<svg width="5mm" height="5mm" viewBox="0 0 0 0"/>`, "viewBox"},
		{"viewBox of words", `<svg width="5mm" height="5mm" viewBox="a b c d"/>`, "viewBox"},
		{"unit", `<svg width="5em" height="5em"/>`, "unit"},
		{"zero width", `<svg width="0mm" height="5mm"/>`, "over 0"},
		{"width of words", `<svg width="wide" height="5mm"/>`, "not a length"},
		{"one unit", `<svg width="5" height="5mm"/>`, "only one"},
		{"root transform", `<svg width="5mm" height="5mm" transform="scale(2)"/>`, "outermost"},
		{"aspect", `<svg width="5mm" height="5mm" viewBox="0 0 1 1" preserveAspectRatio="x"/>`, "preserveAspectRatio"},
		{"deep", strings.Repeat("<svg>", 200), "nested more than"},
		{"many", "<svg>" + strings.Repeat("<g/>", MaxElements), "more than 200000 elements"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := Read(strings.NewReader(c.in), Options{})
			assert.ErrorContains(t, err, c.want)
		})
	}
}

func TestDoctypeAndLatin1AreFine(t *testing.T) {
	in := "<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?><!DOCTYPE svg PUBLIC \"-//W3C//DTD SVG 1.1//EN\" \"http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd\">" +
		"<svg width=\"5mm\" height=\"5mm\"><path id=\"B\xfcgel\" d=\"M0 0h5\"/></svg>"
	d, err := Read(strings.NewReader(in), Options{})
	require.NoError(t, err)
	_, ok := d.Find("Bügel")
	assert.True(t, ok)
}

// Copies of copies: ten levels of ten would be 10^10 lines.
func TestUseBombIsRefused(t *testing.T) {
	var b strings.Builder
	b.WriteString(`<svg width="5mm" height="5mm"><path id="a0" d="M0 0h5"/>`)
	for i := 1; i <= 10; i++ {
		b.WriteString("<g id=\"a" + string(rune('0'+i)) + "\">" + strings.Repeat("<use href=\"#a"+string(rune('0'+i-1))+"\"/>", 10) + "</g>")
	}
	b.WriteString("</svg>")
	_, err := Read(strings.NewReader(b.String()), Options{})
	assert.ErrorContains(t, err, "copies")
}

func TestTooManySegments(t *testing.T) {
	in := `<svg width="5mm" height="5mm"><path d="M0 0` + strings.Repeat("h1h-1", MaxSegments/2+1) + `"/></svg>`
	_, err := Read(strings.NewReader(in), Options{})
	assert.ErrorContains(t, err, "segments")
}

// The public shape and path drawings of the resvg test suite are read in
// place, in the folder named by TRUEMAT_DATA.
func TestPublicDrawings(t *testing.T) {
	dir := os.Getenv("TRUEMAT_DATA")
	if dir == "" {
		t.Skip("TRUEMAT_DATA names no folder with public drawings: their reading is not tested")
	}
	files, err := filepath.Glob(filepath.Join(dir, "svg", "*", "*.svg"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	read := func(t *testing.T, file string) Drawing {
		in, err := os.ReadFile(file)
		require.NoError(t, err)
		// They are screen drawings: 200 units square, one taken as one mm.
		d, err := Read(strings.NewReader(string(in)), Options{Scale: 1})
		require.NoError(t, err)
		return d
	}
	for _, f := range files {
		name := filepath.Join(filepath.Base(filepath.Dir(f)), filepath.Base(f))
		t.Run(name, func(t *testing.T) {
			d := read(t, f)
			frame, ok := d.Find("frame")
			if ok {
				assert.InDelta(t, 198, frame.Paths[0].Bounds().Width(), 1e-9)
			}
			want, known := publicLengths[name]
			require.True(t, known, "a drawing that this test does not know yet")
			// The drawing under test is the last one that is not the frame.
			last := -1.0
			d.Walk(func(n Node, _ []Node) bool {
				if len(n.Paths) > 0 && n.ID != "frame" {
					last = n.Length()
				}
				return true
			})
			reason := ""
			for _, l := range d.LeftOut {
				if l.Kind != "text" {
					reason = l.Reason
					last = 0
					for _, p := range l.Before {
						last += p.Length()
					}
				}
			}
			assert.Equal(t, want.refused, reason != "", reason)
			assert.InDelta(t, want.length, last, 1e-3)
		})
	}
}
