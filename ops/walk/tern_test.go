package walk_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/demo"
	"truemat/ops/pattern"
	. "truemat/ops/walk"
)

func tern(t *testing.T) pattern.Pattern {
	t.Helper()
	run, err := demo.Tern()
	require.NoError(t, err)
	return run.Sizes[0].Pattern
}

func TestTheCupIsWalkedAlongTheWireLineOfTheFrame(t *testing.T) {
	p := tern(t)
	w, err := Seam(p, "wire seam", Way{})
	require.NoError(t, err)
	assert.Equal(t, "bridge", w.Base())
	pieces, _ := w.Laid()
	assert.Equal(t, []string{"bridge", "cradle"}, pieces)
	var rolled []string
	for s := 0.0; s <= w.A.Length; s++ {
		c := w.At(s, 1)
		if !slices.Contains(rolled, c.Rolling) {
			rolled = append(rolled, c.Rolling)
		}
		require.InDelta(t, 0, c.Difference, 1e-6)
	}
	assert.Equal(t, []string{"inner cup", "lower outer cup", "upper outer cup"}, rolled)

	got := w.Table()
	require.Len(t, got.Rows, 4)
	assert.Empty(t, got.Unmatched)
	var names []string
	for _, r := range got.Rows {
		names = append(names, r.From+"–"+r.To)
		assert.InDelta(t, 0, r.Difference, 1e-6)
	}
	assert.Equal(t, []string{"start–bridge end", "bridge end–bottom", "bottom–side", "side–end"}, names)

	back, err := Seam(p, "wire seam", Way{From: pattern.End})
	require.NoError(t, err)
	rows := back.Table().Rows
	slices.Reverse(rows)
	for i, r := range rows {
		assert.InDelta(t, got.Rows[i].A, r.A, 1e-9)
		assert.Equal(t, got.Rows[i].From, r.To)
	}
}

func TestAWalkFromChosenNotches(t *testing.T) {
	p := tern(t)
	a, b := pattern.AtNotch("inner cup", "below apex"), pattern.AtNotch("lower outer cup", "below apex")
	w, err := Seam(p, "vertical seam", Way{StartA: &a, StartB: &b})
	require.NoError(t, err)
	rows := w.Table().Rows
	require.Len(t, rows, 2)
	assert.Equal(t, "below apex", rows[0].From)
	assert.Equal(t, "above apex", rows[0].To)
	back, err := Seam(p, "vertical seam", Way{From: pattern.End, StartA: &a, StartB: &b})
	require.NoError(t, err)
	whole, err := Seam(p, "vertical seam", Way{})
	require.NoError(t, err)
	assert.InDelta(t, whole.A.Length, w.A.Length+back.A.Length, 1e-9)
	assert.InDelta(t, whole.Pairs[0].A, back.A.Length, 1e-9)
}

func TestEaseBetweenNotchesIsTakenInThere(t *testing.T) {
	p := tern(t)
	s := p.Seam("vertical seam")
	s.Ease = 2
	s.Stretches = []pattern.Stretch{{
		From: pattern.NotchName{Piece: "inner cup", Notch: "below apex"},
		To:   pattern.NotchName{Piece: "inner cup", Notch: "above apex"},
		Ease: 2,
	}}
	require.NoError(t, p.Validate())
	for _, from := range []pattern.EndName{pattern.Start, pattern.End} {
		w, err := Seam(p, "vertical seam", Way{From: from})
		require.NoError(t, err)
		rows := w.Table().Rows
		require.Len(t, rows, 3)
		assert.InDeltaSlice(t, []float64{0, 2, 0}, []float64{rows[0].Ease, rows[1].Ease, rows[2].Ease}, 1e-9)
		middle := (w.Pairs[0].A + w.Pairs[1].A) / 2
		c := w.At(middle, 1)
		assert.InDelta(t, 1, c.Ease, 1e-9)
		assert.InDelta(t, middle-1, c.B, 1e-9)
	}
}

func TestLoneNotchesAreNamed(t *testing.T) {
	p := tern(t)
	pc := p.Piece("upper outer cup")
	pc.Notches = slices.DeleteFunc(pc.Notches, func(n pattern.Notch) bool { return n.Name == "above apex" })
	w, err := Seam(p, "vertical seam", Way{})
	require.NoError(t, err)
	lone := w.Unmatched()
	require.Len(t, lone, 1)
	assert.Equal(t, "above apex", lone[0].Notch)
	assert.Equal(t, A, lone[0].Side)
	assert.InDelta(t, lone[0].At, lone[0].Other, 1e-9)
	assert.True(t, lone[0].Double)
}

func TestWrongWalksAreRefused(t *testing.T) {
	p := tern(t)
	at := pattern.AtNotch("inner cup", "below apex")
	off := pattern.AtNotch("cradle", "bottom")
	none := pattern.AtNotch("inner cup", "nowhere")
	whole := pattern.Whole
	for _, c := range []struct {
		name string
		seam string
		own  *pattern.Seam
		way  Way
		want string
	}{
		{"unknown seam", "waist seam", nil, Way{}, `no seam "waist seam"; there are "bridge seam"`},
		{"unknown end", "cross seam", nil, Way{From: "middle"}, `not its "middle"`},
		{"unknown side", "cross seam", nil, Way{Rolls: "c"}, `not "c"`},
		{"a start on one side", "vertical seam", nil, Way{StartA: &at}, "needs a start on both sides"},
		{"a start off the seam", "vertical seam", nil, Way{StartA: &at, StartB: &off}, "is not on"},
		{"an unknown notch", "vertical seam", nil, Way{StartA: &none, StartB: &at}, `no notch "nowhere"; it has`},
		{"an edge along itself", "", &pattern.Seam{A: pattern.Side{whole("band", "hem")}, B: pattern.Side{whole("band", "hem").Backwards()}}, Way{}, "along itself"},
		{"a run with a gap", "", &pattern.Seam{A: pattern.Side{whole("band", "hem"), whole("band", "top")}, B: pattern.Side{whole("cradle", "top")}}, Way{}, "do not meet"},
		{"no such edge", "", &pattern.Seam{A: pattern.Side{whole("band", "him")}, B: pattern.Side{whole("cradle", "top")}}, Way{}, `no edge "him"`},
		{"no shared start", "", &pattern.Seam{A: pattern.Side{whole("band", "hem")}, B: pattern.Side{whole("cradle", "top")}}, Way{}, "has no shared start: no seam or line joins the start of hem of band to the start of top of cradle"},
		{"ease over the seam", "", &pattern.Seam{Name: "x", Ease: 500, A: pattern.Side{whole("band", "hem")}, B: pattern.Side{whole("cradle", "top")}}, Way{}, "more ease than"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var err error
			if c.own != nil {
				_, err = New(p, *c.own, c.way)
			} else {
				_, err = Seam(p, c.seam, c.way)
			}
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.want)
		})
	}
}

// Where three pieces meet, any two of them share a start, and so do those that
// a seam joins only over others.
func TestRunsShareAStartOverOtherSeams(t *testing.T) {
	p := tern(t)
	whole := pattern.Whole
	for _, c := range []struct {
		name string
		a, b pattern.Part
		ok   bool
	}{
		{"at the apex, across the joint of the other side", whole("inner cup", "vertical seam"), whole("upper outer cup", "cross seam"), false},
		{"hems at the side seam", whole("cradle", "hem").Backwards(), whole("band", "hem"), true},
		{"hems at their far ends", whole("cradle", "hem"), whole("band", "hem").Backwards(), false},
		{"upper edges at the side seam", whole("cradle", "top"), whole("band", "top").Backwards(), true},
		{"cup on frame at the centre front", whole("inner cup", "wire"), whole("bridge", "wire").Backwards(), true},
		{"cup on frame at the far end", whole("inner cup", "wire").Backwards(), whole("bridge", "wire").Backwards(), false},
	} {
		_, err := New(p, pattern.Seam{A: pattern.Side{c.a}, B: pattern.Side{c.b}}, Way{})
		require.Equal(t, c.ok, err == nil, "%s: %v", c.name, err)
	}
}
