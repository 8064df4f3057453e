package command

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/demo"
	"truemat/ops/store"
)

func altered(t *testing.T) string {
	doc := filepath.Join(t.TempDir(), "tern.truemat")
	fine(t, "demo", "--out", doc, "--altered")
	return doc
}

func read(t *testing.T, text string, into any) {
	t.Helper()
	require.NoError(t, json.Unmarshal([]byte(text), into))
}

func TestClothTellsStretchChecksAndWhatToBuy(t *testing.T) {
	doc := altered(t)
	var got struct {
		Cloths []struct {
			Name  string
			Along struct {
				Stretch float64 `json:"stretch_percent"`
			}
		}
		Sizes []struct {
			Size    string
			Checks  []struct{ ID, Verdict string }
			Buy     []struct{ What string }
			Closing struct {
				Nearest int `json:"nearest_column"`
				Columns []struct {
					Girth     float64 `json:"girth_mm"`
					Reduction float64 `json:"reduction_percent"`
					Strain    float64 `json:"strain_percent"`
				}
			}
		}
	}
	read(t, fine(t, "cloth", doc, "--all", "--json"), &got)
	require.Len(t, got.Sizes, 12)
	require.Equal(t, "power net", got.Cloths[1].Name)
	require.InDelta(t, 40, got.Cloths[1].Along.Stretch, 1e-9)
	for _, s := range got.Sizes {
		require.NotEmpty(t, s.Checks, s.Size)
		require.NotEmpty(t, s.Buy, s.Size)
		require.Len(t, s.Closing.Columns, 3, s.Size)
		require.Equal(t, 1, s.Closing.Nearest, s.Size)
		for i, c := range s.Closing.Columns {
			require.InDelta(t, s.Closing.Columns[0].Girth-19*float64(i), c.Girth, 1e-9)
			require.InDelta(t, c.Reduction/(1-c.Reduction/100), c.Strain, 1e-9)
		}
		for _, c := range s.Checks {
			require.NotEqual(t, "broken", c.Verdict, c.ID)
		}
	}
	require.Contains(t, fine(t, "cloth", doc), "cut hem elastic")
}

// The file that the README shows is taken as it stands.
func TestGoodsOfTheReadmeAreTaken(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	shown := regexp.MustCompile("(?s)```json\n(.*?)```").FindSubmatch(readme)
	require.NotNil(t, shown)
	doc := altered(t)
	file := filepath.Join(filepath.Dir(doc), "goods.json")
	require.NoError(t, os.WriteFile(file, shown[1], 0o644))
	code, out, errOut := run("cloth", doc, "--take", file, "--out", doc, "--json")
	require.Equal(t, Fine, code, "%s%s", out, errOut)
	var got struct {
		Cloths []struct {
			Along struct {
				Stretch  float64 `json:"stretch_percent"`
				Growth   float64 `json:"growth_percent"`
				Recovery float64 `json:"recovery_percent"`
			}
		}
	}
	read(t, out, &got)
	require.InDelta(t, 24, got.Cloths[0].Along.Stretch, 1e-9)
	require.InDelta(t, 2.4, got.Cloths[0].Along.Growth, 1e-9)
	require.InDelta(t, 90, got.Cloths[0].Along.Recovery, 1e-9)
	require.Contains(t, fine(t, "lace", doc), "frame (whole)")
	require.Contains(t, fine(t, "sewing", doc), "1. Sew \"side seam\"")
}

func TestLaceCuttingAndSewingAreToldAndDrawn(t *testing.T) {
	doc := altered(t)
	dir := filepath.Dir(doc)
	var plan struct {
		Length float64 `json:"length_mm"`
		Placed []struct {
			Piece, Hand string
			Border      int
		}
	}
	read(t, fine(t, "lace", doc, "--json", "--out", filepath.Join(dir, "plan.svg")), &plan)
	require.Len(t, plan.Placed, 3, "the frame whole, and two inner cups")
	require.Greater(t, plan.Length, 250.0)
	var cut struct {
		Cut    []struct{ Cloth, Piece string }
		Length float64 `json:"length_mm"`
	}
	read(t, fine(t, "cutting", doc, "--json", "--cloth", "power net", "--out", filepath.Join(dir, "net.pdf")), &cut)
	require.NotEmpty(t, cut.Cut)
	require.Greater(t, cut.Length, 50.0)
	var sewing struct {
		Acts []struct{ ID string }
		Bulk []struct{ Seam string }
	}
	read(t, fine(t, "sewing", doc, "--json"), &sewing)
	require.NotEmpty(t, sewing.Acts)
	require.NotEmpty(t, sewing.Bulk)
	fine(t, "sheet", doc, "--size", "75C", "--paper", "letter", "--out", filepath.Join(dir, "sheet.pdf"))
	for _, name := range []string{"plan.svg", "net.pdf", "sheet.pdf"} {
		info, err := os.Stat(filepath.Join(dir, name))
		require.NoError(t, err)
		require.Greater(t, info.Size(), int64(1000))
	}
}

func TestTheOrderOfSewingIsMovedAndKept(t *testing.T) {
	doc := altered(t)
	kept := filepath.Join(filepath.Dir(doc), "kept.truemat")
	type sewing struct {
		Acts []struct {
			ID       string
			Sentence string
			Under    []struct{ What string }
			Inside   *struct{ Turns []struct{ Piece string } }
		}
		Bulk []struct {
			Over    bool
			Section *struct {
				AsCut []struct {
					Thickness float64 `json:"thickness_mm"`
				} `json:"as_cut"`
			}
			Thickness float64 `json:"thickness_mm"`
		}
	}
	var was, is sewing
	read(t, fine(t, "sewing", doc, "--json"), &was)
	require.Equal(t, "join side seam", was.Acts[0].ID)
	require.NotEmpty(t, was.Acts[0].Under)
	require.NotEmpty(t, was.Acts[0].Inside.Turns)
	for _, b := range was.Bulk {
		require.Equal(t, b.Over, b.Section != nil)
		if b.Over {
			require.InDelta(t, b.Thickness, b.Section.AsCut[0].Thickness, 1e-9)
		}
	}
	code, _, errOut := run("sewing", doc, "--move", "join side seam=3", "--keep", kept)
	require.Equal(t, Fine, code, errOut)
	read(t, fine(t, "sewing", kept, "--json"), &is)
	require.Equal(t, "join side seam", is.Acts[2].ID)
	fine(t, "sewing", doc, "--out", filepath.Join(filepath.Dir(doc), "thick.svg"), "--worn", filepath.Join(filepath.Dir(doc), "worn.png"))
	require.FileExists(t, filepath.Join(filepath.Dir(doc), "worn.png"))
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"--move", "join wire seam=1"}, "must come after"},
		{[]string{"--move", "join wire seam"}, "join side seam=3"},
		{[]string{"--move", "join waist seam=1"}, "no act"},
		{[]string{"--keep", kept}, "--move"},
		{[]string{"--limit", "40", "--out", "x.svg"}, "nothing to draw"},
	} {
		code, _, errOut := run(append([]string{"sewing", doc}, c.args...)...)
		require.Equal(t, Nothing, code, c.args)
		require.Contains(t, errOut, c.says, c.args)
	}
}

func TestWrongGoodsAreRefusedAndNothingIsWritten(t *testing.T) {
	doc := altered(t)
	before, err := os.ReadFile(doc)
	require.NoError(t, err)
	plain := filepath.Join(filepath.Dir(doc), "plain.truemat")
	fine(t, "demo", "--out", plain)
	for text, says := range map[string]string{
		`{`:                             "help cloth",
		`{"sheets": []}`:                "sheets",
		`{"cloths": [{"name": "net"}]}`: "width",
		`{"cloths": [{"name": "l", "width": 100, "lace": {"repeat": 0, "depth": 5}}]}`:                                                      "repeat",
		`{"cloths": [{"name": "net", "width": 9}], "made": [{"piece": "band"}]}`:                                                            "no layer",
		`{"cloths": [{"name": "net", "width": 9}], "made": [{"piece": "wing", "cloths": ["net"]}]}`:                                         "wing",
		`{"cloths": [{"name": "net", "width": 9}], "order": ["join wire seam", "join cross seam"]}`:                                         "cannot come before",
		`{"elastics": [{"name": "e", "line": "hem", "width": 10, "put_on": "turned", "stretches": [{"pieces": ["band"], "percent": -3}]}]}`: "between 0",
		`{"cloths": [{"name": "l", "width": 60, "lace": {"repeat": 96, "depth": 11}}], "made": [{"piece": "frame", "cloths": ["l"]}]}`:      "wider lace",
	} {
		file := filepath.Join(filepath.Dir(doc), "goods.json")
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
		code, _, errOut := run("cloth", doc, "--take", file, "--out", doc)
		require.Equal(t, Nothing, code, text)
		require.Contains(t, errOut, says, text)
	}
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"cloth", plain}, "--take"},
		{[]string{"cloth", doc, "--take", "goods.json"}, "--out"},
		{[]string{"lace", plain}, "no lace"},
		{[]string{"lace", doc, "--lace", "gull lace"}, "gull lace"},
		{[]string{"lace", doc, "--out", "plan.doc"}, ".svg"},
		{[]string{"cutting", doc, "--cloth", "heron lace"}, "is a lace"},
		{[]string{"cutting", doc, "--out", "x.svg"}, "--cloth is missing"},
		{[]string{"sewing", doc, "--limit", "0"}, "thickness"},
		{[]string{"sheet", doc}, "--out"},
		{[]string{"sheet", doc, "--out", "x.pdf", "--size", "99Z"}, "99Z"},
		{[]string{"sheet", doc, "--out", "x.pdf", "--paper", "napkin"}, "napkin"},
		{[]string{"sheet", doc, "--out", "x.pdf", "--without", "poem"}, "poem"},
	} {
		code, _, errOut := run(c.args...)
		require.Equal(t, Nothing, code, c.args)
		require.Contains(t, errOut, c.says, c.args)
	}
	after, err := os.ReadFile(doc)
	require.NoError(t, err)
	require.Equal(t, before, after)
}

// Plans come as a page at a small scale, and the border on the tiles of a print.
func TestPlansArePrintedOnAPageAndTheBorderOnTheTiles(t *testing.T) {
	doc := altered(t)
	dir := filepath.Dir(doc)
	fine(t, "lace", doc, "--size", "75C", "--paper", "a4", "--out", filepath.Join(dir, "lace.pdf"))
	fine(t, "cutting", doc, "--size", "75C", "--cloth", "sheer tricot", "--paper", "letter", "--out", filepath.Join(dir, "tricot.pdf"))
	fine(t, "print", doc, "--size", "75C", "--border", "--whole", "--out", filepath.Join(dir, "border.pdf"))
	fine(t, "print", doc, "--size", "75C", "--whole", "--out", filepath.Join(dir, "bare.pdf"))
	size := func(name string) int64 {
		info, err := os.Stat(filepath.Join(dir, name))
		require.NoError(t, err)
		return info.Size()
	}
	require.Greater(t, size("border.pdf"), size("bare.pdf"))
	require.Greater(t, size("lace.pdf"), int64(1000))
	require.Greater(t, size("tricot.pdf"), int64(1000))

	plain := filepath.Join(dir, "plain.truemat")
	fine(t, "demo", "--out", plain)
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"print", plain, "--border", "--out", filepath.Join(dir, "x.pdf")}, "no border to draw"},
		{[]string{"lace", doc, "--paper", "a4", "--out", "plan.svg"}, ".pdf"},
		{[]string{"lace", doc, "--paper", "a4"}, ".pdf"},
		{[]string{"lace", doc, "--paper", "napkin", "--out", "plan.pdf"}, "napkin"},
		{[]string{"cutting", doc, "--paper", "60x60", "--cloth", "power net", "--out", "plan.pdf"}, "too small"},
	} {
		code, _, errOut := run(c.args...)
		require.Equal(t, Nothing, code, c.args)
		require.Contains(t, errOut, c.says, c.args)
	}
}

// What the document keeps as laid by hand is told, and refused when it
// overlaps.
func TestPlansByHandAreTold(t *testing.T) {
	doc := altered(t)
	dir := filepath.Dir(doc)
	goods := demo.Goods().WithPlaces("heron lace", "75C", []cloth.Place{{Piece: "inner cup", Second: true, At: 480}})
	goods = goods.WithPins("power net", "75C", []cloth.Pin{{Piece: "band", Layer: 1, At: geom.Pt(400, 300)}})
	take := func(g cloth.Goods) {
		b, err := json.Marshal(g)
		require.NoError(t, err)
		file := filepath.Join(dir, "goods.json")
		require.NoError(t, os.WriteFile(file, b, 0o644))
		code, _, errOut := run("cloth", doc, "--take", file, "--out", doc)
		require.NotEqual(t, Nothing, code, errOut)
	}
	take(goods)
	type plan struct {
		Length float64 `json:"length_mm"`
		Placed []struct {
			Piece  string
			ByHand bool `json:"by_hand"`
		}
	}
	var by, other plan
	read(t, fine(t, "lace", doc, "--size", "75C", "--json"), &by)
	read(t, fine(t, "lace", doc, "--size", "80C", "--json"), &other)
	hands := 0
	for _, o := range by.Placed {
		if o.ByHand {
			hands++
			require.Equal(t, "inner cup", o.Piece)
		}
	}
	require.Equal(t, 1, hands)
	for _, o := range other.Placed {
		require.False(t, o.ByHand)
	}
	require.Contains(t, fine(t, "lace", doc, "--size", "75C"), "around what is laid by hand")
	var cut struct {
		Length float64 `json:"length_mm"`
		Placed []struct {
			Along  float64 `json:"along_mm"`
			ByHand bool    `json:"by_hand"`
		}
	}
	read(t, fine(t, "cutting", doc, "--size", "75C", "--cloth", "power net", "--json"), &cut)
	require.True(t, cut.Placed[0].ByHand)
	require.Greater(t, cut.Length, 400.0)

	take(goods.WithPlaces("heron lace", "75C", []cloth.Place{{Piece: "inner cup", At: 96}, {Piece: "inner cup", Mirrored: true, At: 96}}))
	code, _, errOut := run("lace", doc, "--size", "75C")
	require.Equal(t, Nothing, code)
	require.Contains(t, errOut, "over each other")
}

// A cloth that nothing is cut from has no layout to tell or draw.
func TestAClothThatNothingIsCutFromHasNoLayout(t *testing.T) {
	doc := altered(t)
	dir := filepath.Dir(doc)
	file := filepath.Join(dir, "goods.json")
	require.NoError(t, os.WriteFile(file, []byte(`{"cloths": [{"name": "spare net", "width": 1500}]}`), 0o644))
	code, _, errOut := run("cloth", doc, "--take", file, "--out", doc)
	require.Equal(t, Fine, code, errOut)
	for _, more := range [][]string{nil, {"--out", filepath.Join(dir, "net.svg")}, {"--out", filepath.Join(dir, "net.pdf"), "--paper", "a4"}, {"--json"}} {
		code, out, errOut := run(append([]string{"cutting", doc, "--cloth", "spare net"}, more...)...)
		require.Equal(t, Nothing, code, more)
		require.Empty(t, out)
		require.Contains(t, errOut, `no piece is cut from "spare net"; say which are under Layers`)
	}
}

// What is drawn names the layers that are stated, like the cutting list.
func TestDrawingsNameTheClothsOfTheCuttingList(t *testing.T) {
	doc := altered(t)
	drawing := filepath.Join(filepath.Dir(doc), "tern.svg")
	drawn := func() string {
		fine(t, "draw", doc, "--out", drawing)
		b, err := os.ReadFile(drawing)
		require.NoError(t, err)
		return string(b)
	}
	require.Contains(t, drawn(), "power net")
	require.NotContains(t, drawn(), "tulle")
	require.NotContains(t, fine(t, "cutting", doc), "tulle")

	fine(t, "demo", "--out", doc)
	require.Contains(t, drawn(), "stretch tulle")
	_, out, errOut := run("cutting", doc)
	require.Contains(t, out, "stretch tulle")
	require.Contains(t, errOut, "no cloth is described yet (the pieces only name firm tulle, stretch tulle and cup cloth)")
	code, _, errOut := run("cloth", doc)
	require.Equal(t, Nothing, code)
	require.Contains(t, errOut, "no cloth is described yet (the pieces only name firm tulle, stretch tulle and cup cloth)")
}

// What is bought has the cloth and lace, as long as their plans say.
func TestWhatIsBoughtHasClothAndLace(t *testing.T) {
	doc := altered(t)
	var lace, net struct {
		Length float64 `json:"length_mm"`
	}
	read(t, fine(t, "lace", doc, "--json"), &lace)
	read(t, fine(t, "cutting", doc, "--cloth", "power net", "--json"), &net)
	var got struct {
		Sizes []struct{ Buy []cloth.Wanted }
	}
	read(t, fine(t, "cloth", doc, "--json"), &got)
	bought := map[string]float64{}
	for _, b := range got.Sizes[0].Buy {
		bought[b.What] = b.Length
	}
	require.InDelta(t, lace.Length, bought["heron lace, 230 mm wide"], 1e-9)
	require.InDelta(t, net.Length, bought["power net, 1500 mm wide"], 1e-9)
	require.Regexp(t, `heron lace, 230 mm wide \(the pieces take 293 mm\) +40 cm +or 3/8 yd`, fine(t, "cloth", doc))
}

// A direction that nobody pulled has no number.
func TestADirectionThatWasNotPulledHasNoNumber(t *testing.T) {
	doc := altered(t)
	file := filepath.Join(filepath.Dir(doc), "goods.json")
	require.NoError(t, os.WriteFile(file, []byte(`{"cloths": [{"name": "net", "width": 1500, "along": {"before": 100, "under": 140}}]}`), 0o644))
	code, out, errOut := run("cloth", doc, "--take", file, "--out", doc)
	require.Equal(t, Fine, code, errOut)
	require.Regexp(t, `40 % +not pulled`, out)
	var got struct {
		Cloths []struct{ Along, Across map[string]float64 }
	}
	read(t, fine(t, "cloth", doc, "--json"), &got)
	require.InDelta(t, 40, got.Cloths[0].Along["stretch_percent"], 1e-9)
	require.NotContains(t, got.Cloths[0].Across, "stretch_percent")
}

// A name of the wrong kind of cloth is answered with where it belongs.
func TestAClothOfTheWrongKindIsSentToItsCommand(t *testing.T) {
	doc := altered(t)
	for _, c := range []struct{ command, flag, name, says string }{
		{"cutting", "--cloth", "heron lace", `"heron lace" is a lace; lay it out by "truemat lace --lace"`},
		{"lace", "--lace", "power net", `"power net" is no lace; lay it out by "truemat cutting --cloth"`},
		{"cutting", "--cloth", "silk", `there is no cloth "silk"; there are "`},
		{"lace", "--lace", "silk", `there is no lace "silk"; there are "heron lace"`},
	} {
		code, _, errOut := run(c.command, doc, c.flag, c.name)
		require.Equal(t, Nothing, code)
		require.Contains(t, errOut, c.says)
		require.NotContains(t, errOut, "[")
	}
	file := filepath.Join(filepath.Dir(doc), "goods.json")
	require.NoError(t, os.WriteFile(file, []byte(`{"cloths": [{"name": "net", "width": "wide"}]}`), 0o644))
	_, _, errOut := run("cloth", doc, "--take", file, "--out", doc)
	require.Contains(t, errOut, `the width of cloth "net" is a text, and a number belongs there`)
}

// Without a name every plain cloth is laid out, as it is by its name.
func TestEveryPlainClothIsLaidOut(t *testing.T) {
	doc := altered(t)
	type laid struct {
		Cloth  string
		Length float64 `json:"length_mm"`
		Placed []any   `json:"placed"`
	}
	var all struct{ Laid []laid }
	read(t, fine(t, "cutting", doc, "--json"), &all)
	require.NotEmpty(t, all.Laid)
	for _, l := range all.Laid {
		var one laid
		read(t, fine(t, "cutting", doc, "--cloth", l.Cloth, "--json"), &one)
		require.Equal(t, l, one)
		require.Contains(t, fine(t, "cutting", doc), l.Cloth+" laid out: ")
	}
}

// A piece that is cut from the lace and has no edge for its border is told wherever
// the length to buy is.
func TestAPieceWithoutALaceEdgeIsToldOfTheLace(t *testing.T) {
	doc := altered(t)
	g, err := demo.Goods().WithLayers("upper outer cup", "heron lace")
	require.NoError(t, err)
	d, err := store.Load(doc)
	require.NoError(t, err)
	d, err = d.SetGoods(g)
	require.NoError(t, err)
	require.NoError(t, store.Save(doc, d))
	const lacks = `upper outer cup is cut from "heron lace" too, but not laid on its border`
	_, out, _ := run("lace", doc, "--size", "75C")
	require.Contains(t, out, lacks)
	_, out, _ = run("lace", doc, "--size", "75C", "--json")
	require.Contains(t, out, `"without"`)
	_, out, _ = run("cloth", doc, "--size", "75C")
	require.Contains(t, out, lacks)
}
