package desk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/ops/step"
)

func TestChangeGoesToAllSizesOrToTheOneShown(t *testing.T) {
	d := tern(t)
	labels := d.Document().Source.Labels()
	require.NoError(t, d.SetSize(labels[3]))
	width := step.Lit(20)
	wide := func(label string) bool {
		require.NoError(t, d.SetSize(label))
		p := d.Pattern()
		_, e := p.Edge("band", "hem")
		return e.Allowance == 20
	}
	before := bytesOf(t, d)
	d.SetOnly(true)
	require.NoError(t, d.Accept(&step.Allow{Piece: "band", Edge: "hem", Width: &width}))
	for i, l := range labels {
		require.Equal(t, i == 3, wide(l), l)
	}
	id := d.Document().Recipe[0].ID
	require.Equal(t, []string{labels[3]}, d.Document().Recipe[0].Sizes)

	require.NoError(t, d.SetSizes(id))
	for _, l := range labels {
		require.True(t, wide(l), l)
	}
	require.ErrorContains(t, d.SetSizes(id, "12Z"), "12Z")
	require.Error(t, d.SetSizes("none"))
	d.Undo()
	d.Undo()
	require.Equal(t, before, bytesOf(t, d))

	d.SetOnly(false)
	require.NoError(t, d.Accept(&step.Allow{Piece: "band", Edge: "hem", Width: &width}))
	for _, l := range labels {
		require.True(t, wide(l), l)
	}
}

func TestPushForOneSizeLeavesTheMoveOfAllSizesAlone(t *testing.T) {
	d := tern(t)
	require.NoError(t, d.Accept(move("band", 1, 0)))
	d.SetOnly(true)
	require.NoError(t, d.Accept(move("band", 2, 0)))
	require.Len(t, d.Document().Recipe, 2)
	require.Empty(t, d.Document().Recipe[0].Sizes)
}

func TestRehearsalShowsWhatAnEditWouldMakeAndKeepsNothing(t *testing.T) {
	d := inLace(t)
	require.NoError(t, d.SetSize("75C"))
	before := bytesOf(t, d)
	version := d.history.Version()
	rehearse, err := d.Rehearse("share-out")
	require.NoError(t, err)
	e := entry(t, d, "share-out")
	next, err := e.WithNumber([]string{"amount"}, step.Lit(9))
	require.NoError(t, err)
	shown := rehearse(next)
	require.Equal(t, before, bytesOf(t, d))
	require.Equal(t, version, d.history.Version())
	require.NotEqual(t, d.Pattern(), shown.Size.Pattern)
	require.NoError(t, d.Replace(next))
	require.Equal(t, d.Pattern(), shown.Size.Pattern)
	_, err = d.Rehearse("none")
	require.Error(t, err)
}

func BenchmarkRehearse(b *testing.B) {
	d := inLace(b)
	rehearse, err := d.Rehearse("hem-off-bridge")
	if err != nil {
		rehearse, err = d.Rehearse(d.Document().Recipe[0].ID)
	}
	require.NoError(b, err)
	e := d.Document().Recipe[0]
	for b.Loop() {
		rehearse(e)
	}
}
