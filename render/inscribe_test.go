package render

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

func TestMarksStayInsideAndLeaveTheirPieceItsNameInEverySize(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	for _, r := range demo.TernInLace().Replay(run) {
		for _, pc := range r.Size.Pattern.Pieces {
			where := fmt.Sprintf("%s in %s", pc.Name, r.Size.Label)
			w, err := Inscribe(pc)
			require.NoError(t, err, where)
			require.Len(t, w.Marks, len(pc.Marks), where)
			outline, err := pc.Outline()
			require.NoError(t, err)
			for _, mk := range w.Marks {
				assert.GreaterOrEqual(t, mk.Height, 3.0, where)
				assert.LessOrEqual(t, mk.Height, mk.Asked, where)
				half := 0.0
				for _, l := range mk.Lines {
					half = max(half, TextWidth(l, mk.Height, true)/2)
				}
				u := geom.Pt(half, 0)
				if mk.Turned {
					u = geom.Pt(0, half)
				}
				assert.True(t, outline.Contains(mk.Mid.Add(u)) && outline.Contains(mk.Mid.Sub(u)), "the mark leaves %s", where)
				assert.False(t, w.Name.Empty(), "there is no place for the name of %s", where)
			}
		}
	}
}

func TestAMarkHasTheHeightAskedWhereItFits(t *testing.T) {
	pc := pattern.Piece{Name: "sheet", Cut: pattern.Cut{Count: 1}}
	corners := []geom.Point{{}, geom.Pt(300, 0), geom.Pt(300, 200), geom.Pt(0, 200)}
	for i, a := range corners {
		line, err := geom.NewPath(geom.Straight(a, corners[(i+1)%4]))
		require.NoError(t, err)
		pc.Edges = append(pc.Edges, pattern.Edge{Name: fmt.Sprint("edge ", i), Role: pattern.SeamEdge, Path: line, Allowance: 6})
	}
	pc.Marks = []pattern.Mark{{Text: "ALTERED", At: geom.Pt(150, 100), Height: 12}}
	w, err := Inscribe(pc)
	require.NoError(t, err)
	assert.Equal(t, 12.0, w.Marks[0].Height)
	assert.False(t, w.Marks[0].Smaller())
	assert.Less(t, w.Marks[0].Mid.Dist(geom.Pt(150, 100)), 2.0)

	pc.Marks[0].Height = 120
	w, err = Inscribe(pc)
	require.NoError(t, err)
	assert.True(t, w.Marks[0].Smaller())
	assert.Less(t, w.Marks[0].Height, 300/TextWidth("ALTERED", 1, true))
	assert.Greater(t, w.Marks[0].Height, 40.0)
	assert.Equal(t, w.Marks[0].Height, math.Round(2*w.Marks[0].Height)/2)

	whole := pc
	whole.Marks = []pattern.Mark{{Text: "ALTERED", At: geom.Pt(150, 100), Height: 4 * 25.4}}
	inches, err := Inscribe(whole)
	require.NoError(t, err)
	assert.True(t, inches.Marks[0].Smaller())
	assert.NotContains(t, unit.Tell(inches.Marks[0].Height, unit.InchFractions), "about", "asked in inches, made smaller by them")
	assert.InDelta(t, w.Marks[0].Height, inches.Marks[0].Height, 25.4/16)

	printed, err := PieceScene(pc, Options{})
	require.NoError(t, err)
	for _, l := range printed.Layers[0].Labels {
		if l.Text == "ALTERED" && l.Bold {
			assert.Equal(t, w.Marks[0].Height, l.Height, "print and mat write the mark alike")
		}
	}
}

// How tall a mark is written hangs on the piece, not on the spot that was pressed
// for it.
func TestAMarkIsAsTallWhereverItIsToStand(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	for _, pc := range run.Sizes[0].Pattern.Pieces {
		o, err := pc.Outline()
		require.NoError(t, err)
		b, tall := o.Bounds(), 0.0
		for i := range 36 {
			at := b.Min.Add(geom.Pt(b.Width()*float64(i%6+1)/7, b.Height()*float64(i/6+1)/7))
			if !o.Contains(at) {
				continue
			}
			pc.Marks = []pattern.Mark{{Text: "ALTERED", At: at, Height: 12}}
			w, err := Inscribe(pc)
			require.NoError(t, err)
			if tall == 0 {
				tall = w.Marks[0].Height
			}
			require.InDelta(t, tall, w.Marks[0].Height, 1e-9, "%s at %v", pc.Name, at)
		}
	}
}
