package window

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/cloth"
	"truemat/ops/demo"
)

func notionsOf(t *testing.T, g cloth.Goods) *Window {
	t.Helper()
	w := open(t, true)
	require.NoError(t, w.desk.SetGoods(g))
	w.clothPage()
	w.clothTo("Elastic, notions")
	return w
}

// A new elastic comes with what is usual for its line, is cut to a length that
// follows what is typed, and is one change.
func TestAnElasticIsDescribedWithUsualReductions(t *testing.T) {
	g := demo.Goods()
	g.Elastics, g.Notions.Sewing = nil, nil
	w := notionsOf(t, g)
	before := w.written(t)
	w.act(t, "Add an elastic")
	f := w.elastics[""]
	require.NotNil(t, f)
	require.Equal(t, "hem", f.line)
	require.Equal(t, cloth.BehindLace, f.putOn, "the hem lies on a border")
	require.Equal(t, "3 %", f.said("cut.frame"))
	require.Equal(t, "12 %", f.said("cut.band"))
	f.keep()
	require.Contains(t, told(f.below["width"]), "measure it across")
	f.fill("width", "3/8 in")
	f.fill("cut.band", "10")
	p := w.desk.Pattern()
	run := 0.0
	for _, pt := range p.Line("hem").Parts {
		r := 0.97
		if pt.Piece == "band" {
			r = 0.9
		}
		run += 2 * p.PartLength(pt) * r
	}
	require.Contains(t, told(f.cut), "cut "+f.size(run+20)+" for ")
	require.Equal(t, before, w.written(t))
	w.act(t, "act Keep it")
	e := w.desk.Goods().Elastics[0]
	require.InDelta(t, 9.525, e.Width, 1e-9)
	require.Equal(t, []cloth.Reduced{{Pieces: []string{"frame"}, Percent: 3}, {Pieces: []string{"band"}, Percent: 10}}, e.Stretches)
	w.undo()
	require.Equal(t, before, w.written(t))
}

func TestAnElasticRunsOnSomePiecesOfItsLine(t *testing.T) {
	w := notionsOf(t, demo.Goods())
	f := w.elasticFormOf("hem elastic")
	f.lay()
	require.False(t, f.changed())
	f.fill("cut.band", "none")
	require.True(t, f.changed())
	f.keep()
	e := w.desk.Goods().Elastics[0]
	require.Equal(t, []string{"frame"}, e.On)
	require.Len(t, e.Stretches, 1)
	f = w.elasticFormOf("hem elastic")
	f.lay()
	require.Equal(t, "none", f.said("cut.band"))
	require.False(t, f.changed())
	before := w.written(t)
	f.fill("cut.frame", "None")
	f.keep()
	require.Contains(t, told(f.below["cut.frame"])+told(f.below["cut.band"]), "run nowhere")
	require.Equal(t, before, w.written(t))
}

func TestWrongElasticsAreToldBesideTheirField(t *testing.T) {
	w := notionsOf(t, demo.Goods())
	before := w.written(t)
	for name, c := range map[string][2]string{
		"width":     {"0", "measure it across"},
		"loops":     {"-1", "give 0"},
		"overlap":   {"-20", "0 or more"},
		"cut.band":  {"-5 %", "between 0 and 50"},
		"cut.frame": {"three", "no number"},
		"name":      {"", "no name"},
	} {
		f := w.elasticFormOf("hem elastic")
		f.lay()
		f.fill(name, c[0])
		f.keep()
		require.Contains(t, told(f.below[name]), c[1], name)
		require.Equal(t, before, w.written(t))
		f.putBack()
	}
}

// How an elastic is put on decides what allowance it wants, told at once.
func TestTheWayAnElasticIsPutOnIsJudgedWhileItIsChosen(t *testing.T) {
	w := notionsOf(t, demo.Goods())
	f := w.elastics["hem elastic"]
	require.Contains(t, told(f.suits), "which takes none")
	require.Contains(t, told(f.picture), "hangs 11 mm")
	f.putOn = cloth.Turned
	f.look()
	require.Contains(t, told(f.suits), "set the allowance to 10 mm")
	require.Contains(t, told(f.picture), "allowance 10 mm turned to the inside")
}

func TestStrapsClosureAndThreadAreStated(t *testing.T) {
	w := notionsOf(t, demo.Goods())
	before := w.written(t)
	w.elastic = notionsTab
	w.cloths.again()
	f := w.noting
	require.False(t, f.changed())
	f.fill("straps.length", "17 in")
	f.fill("waste", "20 %")
	f.fill("sewing.0.ratio", "3")
	w.act(t, "Add a stitch")
	f.fill("sewing.2.rows", "1")
	f.keep()
	n := w.desk.Goods().Notions
	require.InDelta(t, 431.8, n.Straps.Length, 1e-9)
	require.InDelta(t, 20, n.Waste, 1e-12)
	require.InDelta(t, 3, n.Sewing[0].Ratio, 1e-12)
	require.Equal(t, "301", n.Sewing[2].Class)
	w.undo()
	require.Equal(t, before, w.written(t))

	for name, c := range map[string][3]string{
		"channel_ends":   {"channel_ends", "-2", "give 0 or more"},
		"straps.count":   {"straps", "-2", "above 0"},
		"straps.width":   {"straps.width", "thin", "not a length"},
		"eyes.columns":   {"eyes.columns", "30", "between 1 and 20"},
		"eyes.worn":      {"eyes.worn", "1.5", "whole number"},
		"waste":          {"waste", "150", "between 0 and 100"},
		"sewing.0.rows":  {"sewing.0.rows", "-1", "1 or more"},
		"sewing.1.ratio": {"sewing.1.ratio", "900", "between 1 and"},
	} {
		f := w.noting
		f.fill(name, c[1])
		f.keep()
		require.Contains(t, told(f.below[c[0]]), c[2], name)
		require.Equal(t, before, w.written(t))
		f.putBack()
	}
}
