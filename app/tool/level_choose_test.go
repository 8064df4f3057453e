package tool_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// What was added to one side at one end is added to the other side at that end:
// then nothing else goes wrong.
func TestLevelGoesOnAtTheEndThatWasAltered(t *testing.T) {
	for _, c := range []struct {
		piece, edge, seam string
		end               pattern.EndName
		bend, where       string
	}{
		{"upper outer cup", "vertical seam", "vertical seam", pattern.Start, "a", "at the neckline"},
		{"inner cup", "vertical seam", "vertical seam", pattern.End, "both", "at the neckline"}, // nearer together are its notches
		{"cradle", "side seam", "side seam", pattern.Start, "b", "at the hem"},
		{"cradle", "side seam", "side seam", pattern.End, "b", "at the top"},
	} {
		d := tern(t, 0)
		require.NoError(t, d.Accept(&step.Add{EdgeEnd: step.EdgeEnd{Piece: c.piece, Edge: c.edge, End: c.end}, Amount: step.Lit(5.5)}))
		before := d.Checks()
		tl := tool.NewLevel(d)
		require.NoError(t, tl.Set("seam", c.seam))
		s := tl.Proposal()[0].(*step.Level)
		assert.Equal(t, c.bend, s.Bend, c)
		assert.Contains(t, field(t, tl, "ends").Text, c.where)
		assert.NotContains(t, tl.Hint(), "put wrong")
		accept(t, d, tl)
		isLevel(t, d, c.seam)
		require.NoError(t, d.SetSize(d.Document().Source.Labels()[0]))
		for _, is := range d.Checks() {
			if is.Verdict == check.Broken {
				assert.True(t, slices.ContainsFunc(before, func(was check.Check) bool {
					return was.ID == is.ID && was.Seam == is.Seam && was.Verdict == check.Broken
				}), is.Text)
			}
		}
	}
}

// What another choice would put wrong is told before it is accepted.
func TestLevelTellsWhatItWouldPutWrong(t *testing.T) {
	d := tern(t, 0)
	require.NoError(t, d.Accept(&step.Add{EdgeEnd: step.EdgeEnd{Piece: "upper outer cup", Edge: "vertical seam", End: pattern.Start}, Amount: step.Lit(5.5)}))
	tl := tool.NewLevel(d)
	require.NoError(t, tl.Set("seam", "vertical seam"))
	f := field(t, tl, "ends")
	for _, o := range f.Options {
		assert.NotRegexp(t, `\b(start|end) moves`, o)
	}
	require.NoError(t, tl.Set("bend", "both sides"))
	i := slices.Index(f.Options, "moves at the wire, along the seam")
	require.GreaterOrEqual(t, i, 0, "%q", f.Options)
	require.NoError(t, tl.Set("ends", f.Options[i]))
	assert.Contains(t, tl.Hint(), "It would put wrong: Vertical seam: of its 2 notches one misses that of the other side by ")
	assert.Contains(t, notes(tl), "mm at the wire")
}

// The side is proposed that lets a lace edge lie; what tilts one is told before it
// is accepted.
func TestLevelLetsALaceEdgeLie(t *testing.T) {
	d := tern(t, 11)
	p := d.Pattern()
	a, b := p.SeamLengths(*p.Seam("side seam"))
	require.Greater(t, math.Abs(a-b), 0.05, "what the sharing out left")
	tl := tool.NewLevel(d)
	require.NoError(t, tl.Set("seam", "side seam"))
	assert.NotContains(t, tl.Hint(), "tilts")
	hem := p.Piece("frame").Edge("hem").Path.String()
	res, err := d.Try(tl.Proposal()...)
	require.NoError(t, err)
	assert.Equal(t, hem, res.Size.Pattern.Piece("frame").Edge("hem").Path.String())

	require.NoError(t, tl.Set("bend", "frame"))
	i := slices.Index(field(t, tl, "ends").Options, "moves at the hem, along the seam")
	require.GreaterOrEqual(t, i, 0)
	require.NoError(t, tl.Set("ends", field(t, tl, "ends").Options[i]))
	assert.Regexp(t, `It tilts hem of frame, a lace edge, by 0\.\d+°, to 0\.\d+° off square at the fold\.`, tl.Hint())
}

// What was given to a line is not taken back by levelling the seam beside it.
func TestLevelTakesNothingBackOfALine(t *testing.T) {
	for _, piece := range []string{"cradle", "band"} {
		for edge, line := range map[string]string{"hem": "hem", "top": "underarm"} {
			for _, size := range []string{"65C", "75C", "80E"} {
				d := tern(t, 0)
				require.NoError(t, d.SetSize(size))
				end := pattern.End
				if d.Pattern().Piece(piece).Meets(edge, end) != "side seam" {
					end = pattern.Start
				}
				require.Equal(t, "side seam", d.Pattern().Piece(piece).Meets(edge, end))
				require.NoError(t, d.Accept(&step.Add{EdgeEnd: step.EdgeEnd{Piece: piece, Edge: edge, End: end}, Amount: step.Lit(6.35)}))
				length := func(p pattern.Pattern) float64 { return p.Length(p.Line(line).Parts) }
				given := length(d.Pattern())
				tl := tool.NewLevel(d)
				require.NoError(t, tl.Set("seam", "side seam"))
				if len(tl.Proposal()) == 0 {
					continue // it is level
				}
				res, err := d.Try(tl.Proposal()...)
				require.NoError(t, err)
				assert.InDelta(t, given, length(res.Size.Pattern), 1, "%s of %s in %s", edge, piece, size)
			}
		}
	}
}
