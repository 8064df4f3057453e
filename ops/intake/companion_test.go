package intake

import (
	"go/doc/comment"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/pattern"
)

func companion(t testing.TB, text string) *Companion {
	t.Helper()
	c, err := ReadCompanion(strings.NewReader(text))
	require.NoError(t, err)
	return c
}

// The example in the package comment is read as it stands.
func TestTheDocumentedCompanionIsRead(t *testing.T) {
	src, err := os.ReadFile("doc.go")
	require.NoError(t, err)
	var text strings.Builder
	for line := range strings.SplitSeq(string(src), "\n") {
		if strings.HasPrefix(line, "//") {
			text.WriteString(strings.TrimPrefix(strings.TrimPrefix(line, "//"), " ") + "\n")
		}
	}
	var p comment.Parser
	for _, block := range p.Parse(text.String()).Content {
		code, ok := block.(*comment.Code)
		if !ok {
			continue
		}
		c := companion(t, code.Text)
		assert.Equal(t, "Heron frame", c.name)
		assert.InDelta(t, 6.35, c.allowance, 1e-12)
		assert.Equal(t, []string{"34", "36"}, c.labels())
		require.Len(t, c.pieces, 1)
		b := c.pieces[0]
		assert.True(t, b.right)
		assert.Equal(t, pattern.Cut{Count: 1, Layers: 2, Cloth: "stable net"}, b.cut)
		assert.Equal(t, []string{"fold", "hem", "seam", "wire", "top"}, b.order.names)
		require.Len(t, b.joints, 3)
		assert.True(t, b.joints[1].at.share)
		assert.InDelta(t, 0.95, b.joints[1].at.y, 1e-12)
		assert.Equal(t, pattern.FoldsBack, b.meets[0].end)
		assert.InDelta(t, 2, c.seams[0].seam.Ease, 1e-12)
		assert.Equal(t, 2, c.lines[0].it.Count)
		return
	}
	t.Fatal("the package comment has no example")
}

func TestSeamsOfSeveralParts(t *testing.T) {
	c := companion(t, `piece a
piece b
seam s: e of a, f of a reversed from 1/4 to 75% = "g h" of b mirrored`)
	s := c.seams[0].seam
	assert.Equal(t, pattern.Side{{Piece: "a", Edge: "e", To: 1}, {Piece: "a", Edge: "f", From: 0.75, To: 0.25}}, s.A)
	assert.Equal(t, pattern.Side{{Piece: "b", Edge: "g h", Mirrored: true, From: 1}}, s.B)
}

func TestCompanionErrorsNameTheLine(t *testing.T) {
	cases := []struct{ text, want string }{
		{"\nnonsense 3", `line 2: no statement starts with "nonsense"; there are piece, allowance`},
		{"edge hem", "belongs to a piece"},
		{`pattern "x`, "quotation mark"},
		{"pattern", "name is missing"},
		{"pattern a b", "one word too many"},
		{"drawn outline", "there are cut, sew"},
		{"allowance wide", "not a length"},
		{"allowance 5m", "unit"},
		{"allowance 300mm", "between 0 and 200"},
		{"corners 200", "between 0 and 180"},
		{"corners x", "usable number"},
		{"corners NaN", "usable number"},
		{"size S\nsize S", "line 2: size \"S\" is there twice"},
		{"size S at x", "in, band, cup, wire"},
		{"wire a", "length along the wire is missing"},
		{"wire a 200mm play", "play at the start"},
		{"wire a 200mm play 5mm wide", "not a length"},
		{"wire a 200mm play 5mm 5mm 5mm", "is not understood here"},
		{"wire a 200mm\nwire a 205mm", "line 2: wire \"a\" is there twice"},
		{"fit reduction 9", "in per cent"},
		{"fit tight", "reduction, closure"},
		{"figure wire 3mm in Q", `no size "Q"`},
		{"ignore", "missing"},
		{"piece a\npiece a", "twice"},
		{"piece a\nrole hem", "no statement"},
		{"piece a\n cut 0", "whole number"},
		{"piece a\n cut 1 twice", "pair, layers, cloth"},
		{"piece a\n hand up", "left, right"},
		{"piece a\n arrow bias 3", "grain, greatest-stretch, least-stretch"},
		{"piece a\n arrow grain", "missing"},
		{"piece a\n edges from somewhere: a b", "bottom, bottom-left"},
		{"piece a\n edges from top-left a b", `":" is wanted`},
		{"piece a\n edges from top-left: a a", "twice"},
		{"piece a\n edges from top-left:", "missing"},
		{"piece a\n edges from top: a b\n edges from top: a b", "already"},
		{"piece a\n edge e role skirt", "there are seam"},
		{"piece a\n edge e near 5", "missing"},
		{"piece a\n edge e near 5 5%", "two percentages"},
		{"piece a\n edge e near x y", "coordinate"},
		{"piece a\n edge e near 1 1 in Q", `no size "Q"`},
		{"piece a\n edge e wide", "near, role, allow, free"},
		{"piece a\n corner e f: round", "runs-on"},
		{"piece a\n corner e f: square", "refers to is missing"},
		{"piece a\n corner e f: square g", `refers to "e" or "f"`},
		{"piece a\n notch n on e at far", "not a length"},
		{"piece a\n notch n on e at 5mm from middle", "start, end"},
		{"piece a\n joint 5 5", `"near" is wanted`},
		{"piece a\nseam s: e of a", `"=" is missing`},
		{"piece a\nseam s: e = f of a", `"of" is wanted`},
		{"piece a\nseam s: e of a from 2 to 3 = e of a", "share"},
		{"piece a\nline l zigzag: e of a", "wire-line, hem"},
		{"piece a\nline l hem: e of a backwards", "mirrored, reversed"},
		{"seam s: e of a = f of b", "names no piece"},
		{"pattern a\x00b", "not a text file"},
		{"# " + strings.Repeat("x", maxLine), "longer than"},
		{strings.Repeat("# x\n", maxCompanion/4+1), "longer than"},
	}
	for _, c := range cases {
		_, err := ReadCompanion(strings.NewReader(c.text))
		assert.ErrorContains(t, err, c.want, "%.60q", c.text)
	}
}

func FuzzReadCompanion(f *testing.F) {
	irregular, err := os.ReadFile(testdata + "/irregular.txt")
	require.NoError(f, err)
	f.Add(string(irregular))
	f.Add("piece a\n edges clockwise from near 1 2 in S, 3% 4%: a b\n corner a b: square a\nsize S")
	f.Add("pattern \"a: b\" # c\nseam x: a of b,c of d=e of f ease 1/8\"")
	f.Fuzz(func(t *testing.T, text string) {
		c, err := ReadCompanion(strings.NewReader(text))
		if err != nil {
			assert.NotEmpty(t, err.Error())
			return
		}
		// Whatever is read is applied without harm.
		_, _ = Bring(strings.NewReader(`<svg width="9mm" height="9mm"><g id="a"><path d="M0 0h20v20h-20z"/></g></svg>`), c, Options{})
	})
}

func TestCompanionStatesWiresAndFit(t *testing.T) {
	c, err := ReadCompanion(strings.NewReader(`size S wire short
size M wire "the long one"
wire short 200mm play 6mm
wire "the long one" 8in play 5mm 7mm
fit reduction 9.5% closure 50mm`))
	require.NoError(t, err)
	require.Equal(t, pattern.Fit{
		Wires:     []pattern.Wire{{Name: "short", Length: 200, PlayStart: 6, PlayEnd: 6}, {Name: "the long one", Length: 203.2, PlayStart: 5, PlayEnd: 7}},
		Reduction: 9.5, Closure: 50,
	}, c.fit)
	require.Equal(t, "short", c.sizes[0].wire)
	require.Equal(t, "the long one", c.sizes[1].wire)
}
