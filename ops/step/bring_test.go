package step

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/pattern"
)

func drawnPieces(t *testing.T) (a, b pattern.Piece) {
	t.Helper()
	a, err := pattern.Plain{Name: "front", Width: 90, Height: 60, Allowance: 6, Fold: true}.Piece()
	require.NoError(t, err)
	b, err = pattern.Plain{Name: "back", Width: 70, Height: 60, Allowance: 6}.Piece()
	require.NoError(t, err)
	a.Pose = geom.Shift(geom.Pt(-20, 7))
	b.Pose = geom.Shift(geom.Pt(90, 7))
	return a, b
}

func TestPiecesOfADrawingLieBesideTheOthersInEverySize(t *testing.T) {
	front, back := drawnPieces(t)
	s := &Bring{From: "bodice.svg", Pieces: []Shape{shapeOf(t, front), shapeOf(t, back)}}
	require.Equal(t, "Bring in front and back from bodice.svg.", s.Sentence())
	run := squares()
	_, results, err := Recipe{}.Append(run, Entry{ID: "bring", Step: s})
	require.NoError(t, err)
	for i, r := range results {
		require.False(t, r.Behind(), r.Reason())
		p := r.Size.Pattern
		require.NoError(t, p.Validate())
		boxes := map[string]geom.Box{}
		for _, pc := range p.Pieces {
			o, err := pc.Outline()
			require.NoError(t, err)
			boxes[pc.Name] = o.Transform(pc.Pose).Bounds()
		}
		for _, old := range run.Sizes[i].Pattern.Pieces {
			for _, name := range []string{"front", "back"} {
				require.False(t, boxes[old.Name].Overlaps(boxes[name]), "%s is laid over %s", name, old.Name)
				require.Greater(t, boxes[name].Min.X, boxes[old.Name].Max.X)
			}
		}
		require.InDelta(t, 110, boxes["back"].Min.X-boxes["front"].Min.X, 1e-9, "they lie to each other as they did")
		require.InDelta(t, 90*60, p.Piece("front").Area(), 1e-9)
		require.Equal(t, front.Edges, p.Piece("front").Edges)
	}

	// The file keeps them to the last digit.
	b, err := json.Marshal(Entry{ID: "bring", Step: s})
	require.NoError(t, err)
	var e Entry
	require.NoError(t, json.Unmarshal(b, &e))
	again, err := json.Marshal(e)
	require.NoError(t, err)
	require.Equal(t, string(b), string(again))
}

func TestBringRefusesATakenNameAndWhatIsNoPiece(t *testing.T) {
	front, _ := drawnPieces(t)
	p := squares().Sizes[0].Pattern
	taken := front.Clone()
	taken.Name = p.Pieces[0].Name
	require.Contains(t, refused(t, p, &Bring{Pieces: []Shape{shapeOf(t, taken)}}), "there already is a piece")
	require.Contains(t, refused(t, p, &Bring{}), "nothing is to be brought in")
	require.Contains(t, refused(t, p, &Bring{Pieces: []Shape{shapeOf(t, front), shapeOf(t, front)}}), `there already is a piece "front"`)
	open := front.Clone()
	open.Edges = open.Edges[:3]
	require.Contains(t, refused(t, p, &Bring{Pieces: []Shape{shapeOf(t, open)}}), `the edges of "front" make no outline`)
	var s Bring
	require.Error(t, json.Unmarshal([]byte(`{"pieces":[{"name":"x","colour":"red"}]}`), &s))
}

func shapeOf(t *testing.T, pc pattern.Piece) Shape {
	t.Helper()
	s, err := NewShape(pc)
	require.NoError(t, err)
	return s
}
