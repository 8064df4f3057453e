package command

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// contents returns every file below dir with what it holds.
func contents(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := os.ReadFile(path)
		all[path] = string(b)
		return err
	}))
	return all
}

func TestWrongInputIsRefusedAndChangesNothing(t *testing.T) {
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	write := func(name, text string) string {
		require.NoError(t, os.WriteFile(in(name), []byte(text), 0o644))
		return in(name)
	}
	doc := in("tern.truemat")
	fine(t, "demo", "--out", doc)
	good, err := os.ReadFile(doc)
	require.NoError(t, err)
	swap := func(old, new string) string {
		require.Contains(t, string(good), old)
		return strings.Replace(string(good), old, new, 1)
	}
	svg := func(body string) string {
		return `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="200mm" viewBox="0 0 200 200">` + body + `</svg>`
	}
	out := in("tern.truemat") // a good file that must stay as it is
	step := func(name, text string) []string {
		return []string{"alter", doc, "--steps", write(name+".json", text), "--out", out}
	}
	bring := func(name, text string) []string {
		return []string{"bring", write(name+".svg", text), "--out", out}
	}
	for _, c := range []struct {
		name string
		args []string
		want string
	}{
		{"unknown command", []string{"sew"}, `no command "sew"`},
		{"unknown flag", []string{"measure", doc, "--colour"}, "colour"},
		{"no file named", []string{"measure"}, "FILE is missing"},
		{"two files", []string{"measure", doc, doc}, "one FILE"},
		{"no output named", []string{"draw", doc}, "--out is missing"},
		{"missing file", []string{"measure", in("none.truemat")}, "there is no file"},
		{"unknown size", []string{"measure", doc, "--size", "12Z"}, "there is no size \"12Z\""},
		{"a size twice", []string{"print", doc, "--size", "75C,75C", "--out", in("x.pdf")}, "twice"},
		{"walk without a seam", []string{"walk", doc}, "--seam is missing"},
		{"walk of an unknown seam", []string{"walk", doc, "--seam", "waist"}, `no seam "waist"; there are "bridge seam"`},
		{"walk from the middle", []string{"walk", doc, "--seam", "cross seam", "--from", "middle"}, `not its "middle"`},
		{"size and all", []string{"check", doc, "--size", "75C", "--all"}, "exclude each other"},
		{"broken JSON", []string{"check", write("cut.truemat", string(good[:5000]))}, "line "},
		{"NaN", []string{"check", write("nan.truemat", swap(`"allowance": 6.35`, `"allowance": NaN`))}, "line "},
		{"newer version", []string{"check", write("new.truemat", swap(`"version": 1`, `"version": 2`))}, "newer"},
		{"other JSON", []string{"check", write("other.truemat", `{"a":1}`)}, "not a Truemat document"},

		{"not SVG", bring("text", "hello"), "text.svg"},
		{"other XML", bring("html", "<html></html>"), "html.svg"},
		{"no outline", bring("open", svg(`<path d="M0 0 L50 0 L50 50"/>`)), "open.svg"},
		{"self-crossing outline", bring("bow", svg(`<path d="M10 10 L100 100 L100 10 L40 90 Z"/>`)), "cross"},
		{"NaN in a drawing", bring("nan", svg(`<path d="M10 10 L NaN 100 L100 10 Z"/>`)), "nan.svg"},
		{"entity bomb", bring("bomb", `<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]>`+svg(`<text>&b;</text>`)), "bomb.svg"},
		{"deep nesting", bring("deep", svg(strings.Repeat("<g>", 5000)+strings.Repeat("</g>", 5000))), "deep"},
		{"no size", bring("unsized", `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><rect width="5" height="5"/></svg>`), "how large"},
		{"missing companion", append(bring("fine", svg(`<rect x="10" y="10" width="50" height="50"/>`)), "--with", in("none.txt")), "there is no file"},
		{"junk allowance", append(bring("fine", svg(`<rect x="10" y="10" width="50" height="50"/>`)), "--allowance", "wide"), "--allowance"},
		{"too wide an allowance", append(bring("fine", svg(`<rect x="10" y="10" width="50" height="50"/>`)), "--allowance", "40mm"), "fine.svg"},

		{"steps are no list", step("a", `{"id":"a"}`), "line 1"},
		{"steps are empty", step("b", `[]`), "no step"},
		{"unknown step", step("c", `[{"id":"a","do":"fly"}]`), `no step "fly"`},
		{"unknown field", step("d", `[{"id":"a","do":"allow","piece":"band","edge":"hem","wide":3}]`), "wide"},
		{"unknown piece", step("e", `[{"id":"a","do":"allow","piece":"sleeve","edge":"hem","width":3}]`), `"sleeve"`},
		{"unknown spot", step("f", `[{"id":"a","do":"turn","piece":"cradle","pin":{"piece":"cradle","notch":"nowhere"},"by":3,"direction":"ccw"}]`), "nowhere"},
		{"turn out of reach", step("g", `[{"id":"a","do":"turn","piece":"cradle","pin":{"piece":"cradle","edge":"hem","from":"start"},"direction":"cw","until":{"spot":{"piece":"cradle","edge":"hem","from":"end"},"datum":{"y":5000}}}]`), "mm"},
		{"tape without a common end", step("h", `[{"id":"a","do":"tape","name":"frame","a":{"piece":"bridge","edge":"cradle seam","end":"end"},"b":{"piece":"cradle","edge":"bridge seam","end":"start"}}]`), "lay cradle against bridge first"},
		{"walk without a shared end", step("j", `[{"id":"a","do":"walk","a":[{"piece":"band","edge":"hem"}],"b":[{"piece":"inner cup","edge":"neckline"}],"drop":[{"on":"a","name":"x","mm":40}]}]`), `to the start of neckline of inner cup, nor do they lie on each other on the mat; sew the two edges together first`},
		{"spread line that misses the hinge", step("k", `[{"id":"a","do":"spread","piece":"lower outer cup","slashes":[{"from":{"edge":"wire","share":0.5}}],"hinge":{"from":{"edge":"wire","share":0.5},"to":{"edge":"cross seam","share":0.5},"along":1.5},"amount":4}]`), `the slash from the middle of wire of lower outer cup misses its hinge, which lies 20.05 mm outside lower outer cup; lay the hinge inside the piece`},
		{"spread about a hinge of another piece", step("l", `[{"id":"a","do":"spread","piece":"lower outer cup","slashes":[{"from":{"edge":"wire","share":0.5}}],"hinge":{"spot":{"piece":"band","edge":"hem","from":"end"}},"amount":4}]`), `the end of hem of band does not lie on piece "lower outer cup", which is altered; choose a place on lower outer cup`},
		{"cut that leaves the piece twice", step("m", `[{"id":"a","do":"cut-off","piece":"cradle","from":{"piece":"cradle","edge":"side seam","share":0.99},"to":{"piece":"cradle","edge":"bridge seam","share":0.02},"keep":"right","name":"x","role":"lace-edge"}]`), `across wire 24.18 mm from its start, then across wire 119.15 mm from its start; there paper would have to be added; straighten that run instead, choose other spots`},
		{"ease larger than the seam", step("n", `[{"id":"a","do":"walk","seam":"side seam","ease":200}]`), `200 mm of ease cannot be sewn in: the sides of seam "side seam" are 86 mm and 86 mm long there; state less`},
		{"spot beyond its edge", step("o", `[{"id":"a","do":"cut-off","piece":"inner cup","from":{"piece":"inner cup","edge":"wire","mm":300},"to":{"piece":"inner cup","notch":"above apex"},"keep":"right","name":"x","role":"lace-edge"}]`), `300 mm lies off wire of inner cup, which is 86.03 mm long; choose a place on it`},
		{"figure of no step", step("i", `[{"id":"a","do":"allow","piece":"band","edge":"hem","width":{"figure":"tape.overlap"}}]`), `step "tape" (step a), whose figure is asked for, is no earlier step`},

		{"no such paper", []string{"print", doc, "--paper", "a9", "--out", in("x.pdf")}, "a9"},
		{"paper smaller than its margins", []string{"print", doc, "--paper", "60x60", "--margin", "30mm", "--out", in("x.pdf")}, "margin"},
		{"no overlap", []string{"print", doc, "--overlap", "0", "--out", in("x.pdf")}, "cannot be glued"},
		{"junk margin", []string{"print", doc, "--margin", "wide", "--out", in("x.pdf")}, "--margin"},
		{"unknown piece to print", []string{"print", doc, "--piece", "sleeve", "--out", in("x.pdf")}, "sleeve"},
		{"print over a document", []string{"print", doc, "--out", out}, ".pdf"},
		{"pattern over a drawing", append(bring("mine", svg(`<rect x="10" y="10" width="50" height="50"/>`))[:2], "--out", in("mine.svg")), "not a pattern"},
		{"pattern over its steps", []string{"alter", doc, "--steps", write("own.json", `[{"id":"a","do":"move","piece":"band","dx":1,"dy":0}]`), "--out", in("own.json")}, "not a pattern"},
		{"unknown ending", []string{"draw", doc, "--out", in("x.gif")}, "x.gif"},
		{"no such folder", []string{"draw", doc, "--out", in("no/such/x.svg")}, "no/such"},
		{"output is a folder", []string{"demo", "--out", dir}, "not an ordinary file"},
		{"junk dots", []string{"draw", doc, "--dpi", "0", "--out", in("x.png")}, "dots"},
		{"far too many dots", []string{"draw", doc, "--dpi", "1e6", "--out", in("x.png")}, "dots"},
	} {
		t.Run(c.name, func(t *testing.T) {
			before := contents(t, dir)
			code, _, errOut := run(c.args...)
			require.Equal(t, Nothing, code, "%s", errOut)
			require.Contains(t, errOut, c.want)
			require.Contains(t, errOut, "truemat ")
			require.Equal(t, before, contents(t, dir), "nothing changed")
		})
	}
}

func TestFullDiskLeavesEverythingAsItWas(t *testing.T) {
	if _, err := os.Stat("/dev/full"); err != nil {
		t.Skip("no /dev/full here")
	}
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	require.NoError(t, err)
	defer full.Close()
	doc := filepath.Join(t.TempDir(), "a.truemat")
	fine(t, "demo", "--out", doc)
	var said strings.Builder
	require.Equal(t, Nothing, Run([]string{"measure", doc, "--json"}, full, &said), "machine output that cannot be written is an error")
	require.Contains(t, said.String(), "truemat measure:")
	said.Reset()
	require.Equal(t, Nothing, Run([]string{"measure", doc}, full, &said), "and so is a list to read")
	require.Contains(t, said.String(), "truemat measure:")
}
