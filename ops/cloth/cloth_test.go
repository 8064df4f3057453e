package cloth_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

// Worked example of a pull test: marks 250 mm apart, 310 mm under load,
// 256 mm after rest.
func TestPullTest(t *testing.T) {
	p := cloth.Pull{Before: 250, Under: 310, After: 256}
	require.NoError(t, p.Validate())
	require.InDelta(t, 24, p.Stretch(), 1e-12)
	growth, ok := p.Growth()
	require.True(t, ok)
	require.InDelta(t, 2.4, growth, 1e-12)
	recovery, ok := p.Recovery()
	require.True(t, ok)
	require.InDelta(t, 90, recovery, 1e-12)

	_, ok = cloth.Pull{Before: 100, Under: 130}.Recovery()
	require.False(t, ok, "not measured")
	_, ok = cloth.Pull{Before: 100, Under: 100, After: 100}.Recovery()
	require.False(t, ok, "nothing to go back")
}

// What goes back and what stays make up the stretch.
func TestGrowthAndRecoveryMakeUpTheStretch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before := rapid.Float64Range(10, 500).Draw(t, "before")
		under := before * rapid.Float64Range(1.01, 3).Draw(t, "stretch")
		p := cloth.Pull{Before: before, Under: under, After: before + (under-before)*rapid.Float64Range(0, 1).Draw(t, "left")}
		require.NoError(t, p.Validate())
		growth, _ := p.Growth()
		recovery, _ := p.Recovery()
		require.InDelta(t, p.Stretch(), growth+p.Stretch()*recovery/100, 1e-9)
	})
}

func TestWrongClothsAreRefused(t *testing.T) {
	lace := func(l cloth.Lace) cloth.Cloth { return cloth.Cloth{Name: "lace", Width: 200, Lace: &l} }
	for _, c := range []struct {
		is   cloth.Cloth
		says string
	}{
		{cloth.Cloth{Width: 100}, "no name"},
		{cloth.Cloth{Name: "net"}, "usable width"},
		{cloth.Cloth{Name: "net", Width: math.NaN()}, "usable width"},
		{cloth.Cloth{Name: "net", Width: 100, Thickness: -1}, "thickness"},
		{cloth.Cloth{Name: "net", Width: 100, Along: cloth.Pull{Before: 0, Under: 10}}, "pulled along"},
		{cloth.Cloth{Name: "net", Width: 100, Across: cloth.Pull{Before: 100, Under: 90}}, "pulled across"},
		{cloth.Cloth{Name: "net", Width: 100, Along: cloth.Pull{Before: 100, Under: 120, After: 130}}, "after rest"},
		{lace(cloth.Lace{Depth: 5}), "repeat"},
		{lace(cloth.Lace{Repeat: 90, Depth: 100, Both: true, Second: cloth.Mirrored}), "scallops"},
		{lace(cloth.Lace{Repeat: 90, Depth: 10, Both: true}), "second border"},
		{lace(cloth.Lace{Repeat: 90, Depth: 10, Second: cloth.Shifted}), "one border only"},
		{lace(cloth.Lace{Repeat: 90, Depth: 10, Both: true, Second: cloth.Mirrored, Shift: 5}), "shift"},
		{lace(cloth.Lace{Repeat: 90, Depth: 10, Both: true, Second: cloth.Shifted, Shift: 90}), "shift lies between"},
		{cloth.Cloth{Name: "both", Of: []string{"net"}}, "two or more"},
		{cloth.Cloth{Name: "both", Of: []string{"both", "net"}}, "of itself"},
		{cloth.Cloth{Name: "both", Width: 10, Of: []string{"a", "b"}}, "leave out its own"},
	} {
		require.ErrorContains(t, c.is.Validate(), c.says, "%+v", c.is)
	}
	require.InDelta(t, 200-24, lace(cloth.Lace{Repeat: 90, Depth: 12, Both: true, Second: cloth.Mirrored}).Usable(), 1e-12)
	require.InDelta(t, 200-12, lace(cloth.Lace{Repeat: 90, Depth: 12}).Usable(), 1e-12)
}

func TestWrongGoodsAreRefused(t *testing.T) {
	net := cloth.Cloth{Name: "net", Width: 100}
	elastic := cloth.Elastic{Name: "hem", Line: "hem", Width: 12, PutOn: cloth.Turned}
	with := func(change func(*cloth.Elastic)) cloth.Goods {
		e := elastic
		change(&e)
		return cloth.Goods{Elastics: []cloth.Elastic{e}}
	}
	for _, c := range []struct {
		is   cloth.Goods
		says string
	}{
		{cloth.Goods{Cloths: []cloth.Cloth{net, net}}, "two cloths"},
		{cloth.Goods{Cloths: []cloth.Cloth{net, {Name: "both", Of: []string{"net", "tulle"}}}}, `no cloth "tulle"`},
		{cloth.Goods{Made: []cloth.Made{{Piece: "band", Cloths: []string{"net"}}}}, "describe it first"},
		{cloth.Goods{Cloths: []cloth.Cloth{net}, Made: []cloth.Made{{Piece: "band"}}}, "no layer"},
		{cloth.Goods{Cloths: []cloth.Cloth{net}, Made: []cloth.Made{{Piece: "band", Cloths: []string{"net"}}, {Piece: "band", Cloths: []string{"net"}}}}, "made twice"},
		{with(func(e *cloth.Elastic) { e.Name = " " }), "no name"},
		{with(func(e *cloth.Elastic) { e.Width = 0 }), "width"},
		{with(func(e *cloth.Elastic) { e.PutOn = "glued" }), "put on"},
		{with(func(e *cloth.Elastic) { e.Overlap = -1 }), "overlap"},
		{with(func(e *cloth.Elastic) { e.Stretches = []cloth.Reduced{{Pieces: []string{"band"}, Percent: -5}} }), "between 0 and 50"},
		{with(func(e *cloth.Elastic) { e.Stretches = []cloth.Reduced{{Percent: 5}} }), "names no piece"},
		{cloth.Goods{Notions: cloth.Notions{Sewing: []cloth.Sewing{{Class: "999"}}}}, "ratio"},
		{cloth.Goods{Notions: cloth.Notions{Straps: cloth.Straps{Count: 2}}}, "straps"},
	} {
		require.ErrorContains(t, c.is.Validate(), c.says, "%+v", c.is)
	}
}

// Cloths handled as one stretch as little as the firmest of them.
func TestLayersHandledAsOneStretchLeast(t *testing.T) {
	g := demo.Goods()
	require.NoError(t, g.Validate())
	backed, ok := g.Cloth("heron lace on sheer tricot")
	require.True(t, ok)
	along, across := g.Stretch(backed)
	require.InDelta(t, 3, along, 1e-9)
	require.InDelta(t, 6, across, 1e-9)
	require.InDelta(t, 0.55, g.Thickness(backed), 1e-12)
}

// Mohr's circle: along the axis the axial stretch, across it the cross
// stretch, at 45° their mean; two directions at right angles add up to the
// same everywhere.
func TestStretchInADirection(t *testing.T) {
	l := cloth.Lain{Axis: 40, Cross: 10, Towards: 30 * geom.Degree}
	require.InDelta(t, 40, l.In(30*geom.Degree), 1e-12)
	require.InDelta(t, 10, l.In(120*geom.Degree), 1e-12)
	require.InDelta(t, 25, l.In(75*geom.Degree), 1e-12)
	rapid.Check(t, func(t *rapid.T) {
		a := geom.Angle(rapid.Float64Range(0, 180).Draw(t, "degrees")) * geom.Degree
		require.InDelta(t, 50, l.In(a)+l.In(a+90*geom.Degree), 1e-9)
	})
}

func TestAReductionWornIsAStrain(t *testing.T) {
	require.InDelta(t, 0, cloth.Strain(0), 1e-12)
	require.InDelta(t, 25, cloth.Strain(20), 1e-12)
	require.InDelta(t, 100.0/9, cloth.Strain(10), 1e-12)
}

func TestLengthsAreSoldInWholeUnits(t *testing.T) {
	require.InDelta(t, 700, cloth.Sold(601, cloth.SoldMetric), 1e-9)
	require.InDelta(t, 600, cloth.Sold(600, cloth.SoldMetric), 1e-9)
	require.InDelta(t, 914.4, cloth.Sold(914.4, cloth.SoldYard), 1e-9)
	require.InDelta(t, 114.3, cloth.Sold(1, cloth.SoldYard), 1e-9)
}

// altered returns the Tern in lace, in every size.
func altered(t *testing.T) []pattern.Pattern {
	run, err := demo.Tern()
	require.NoError(t, err)
	var out []pattern.Pattern
	for _, r := range demo.TernInLace().Replay(run) {
		require.False(t, r.Behind())
		out = append(out, r.Size.Pattern)
	}
	return out
}

func TestElasticIsCutShorterThanItsLine(t *testing.T) {
	for _, p := range altered(t) {
		g := demo.Goods()
		require.NoError(t, g.Fits(p))
		cut, err := g.Elastics[0].Cut(p)
		require.NoError(t, err)
		hem := p.Line("hem")
		want := 20.0
		for _, pt := range hem.Parts {
			r := 0.97
			if pt.Piece == "band" {
				r = 0.88
			}
			want += 2 * p.PartLength(pt) * r
		}
		require.InDelta(t, want, cut.Length, 1e-9)
		require.InDelta(t, 2*p.Length(hem.Parts), cut.Run, 1e-9)
		require.Len(t, cut.Parts, 2, "frame and band")
	}
}

func TestGoodsThatSpeakOfWhatIsNotThereAreRefused(t *testing.T) {
	p := altered(t)[0]
	require.ErrorContains(t, cloth.Goods{Made: []cloth.Made{{Piece: "wing"}}}.Fits(p), `"wing"`)
	require.ErrorContains(t, cloth.Goods{Elastics: []cloth.Elastic{{Name: "e", Line: "waist"}}}.Fits(p), `"waist"`)
	_, err := cloth.Goods{Elastics: []cloth.Elastic{{Name: "e", Line: "waist"}}}.ShoppingList(p)
	require.ErrorContains(t, err, `"waist"`)
}

func TestShoppingList(t *testing.T) {
	p := altered(t)[0]
	list, err := demo.Goods().ShoppingList(p)
	require.NoError(t, err)
	cut, err := demo.Goods().Elastics[0].Cut(p)
	require.NoError(t, err)
	require.InDelta(t, cut.Length, list[0].Length, 1e-9)
	seams := 0.0
	for _, s := range p.Seams {
		a, b := p.SeamLengths(s)
		seams += 2 * max(a, b)
	}
	for _, w := range list {
		if w.What == "thread for stitch 301" {
			require.InDelta(t, seams*2*2.5*1.15, w.Length, 1e-6)
			return
		}
	}
	require.Fail(t, "no thread", "%+v", list)
}

// What is bought of a cloth leaves some to spare, however near to a length that
// is sold the pieces come.
func TestClothIsBoughtWithSomeToSpare(t *testing.T) {
	for _, mm := range []float64{60, 70, 71, 99, 100, 571, 884.3, 900} {
		for _, sold := range []float64{cloth.SoldMetric, cloth.SoldYard} {
			require.GreaterOrEqual(t, cloth.Sold(mm+cloth.Spare, sold)-mm, cloth.Spare-1e-6)
		}
	}
	require.Equal(t, "10 cm or 1/8 yd", cloth.Buy(70))
	require.Equal(t, "20 cm or 1/4 yd", cloth.Buy(99), "not 10 cm, a mm more than the pieces take")
	w := cloth.OfCloth("net", 99)
	require.Equal(t, "20 cm", w.Metric)
	require.InDelta(t, 99, w.Length, 0, "what the pieces take")
}
