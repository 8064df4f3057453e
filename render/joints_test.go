package render

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/unit"
)

// ternOn plans a size of the Tern on a paper, pieces on the fold whole.
func ternOn(t *testing.T, size string, paper Paper) (Print, Plan) {
	t.Helper()
	run, err := demo.Tern()
	require.NoError(t, err)
	for _, s := range run.Sizes {
		if s.Label == size {
			doc := Print{Pattern: "Tern", Sizes: []SizePieces{{Label: size, Pieces: s.Pattern.Pieces}}, Paper: paper, FoldWhole: true}
			plan, err := PlanTiles(doc)
			require.NoError(t, err)
			return doc, plan
		}
	}
	t.Fatalf("no size %s", size)
	return Print{}, Plan{}
}

// crossed reports whether a cut line lies on both sides of a glue line, within
// its two pages.
func crossed(t *testing.T, doc Print, p Plan, j Joint) bool {
	t.Helper()
	outlines, err := p.cutOutlines(doc)
	require.NoError(t, err)
	a, b, _ := p.glueLine(j)
	for _, cuts := range outlines {
		for _, c := range cuts {
			if len(geom.Cross(c, polyline(a, b)).Crossings) > 0 {
				return true
			}
		}
	}
	return false
}

// What need be glued is where a cut line crosses a glue line, worked out by
// another way; where none does a print says that there is nothing to glue.
func TestOnlyJointsThatAPieceRunsOverAreGlued(t *testing.T) {
	loose, glued, none := 0, 0, 0
	for _, paper := range []Paper{A4, Letter} {
		for _, size := range []string{"65C", "75C", "80E"} {
			doc, plan := ternOn(t, size, paper)
			for i, j := range plan.Joints {
				require.Equal(t, !crossed(t, doc, plan, j), j.Loose, "%s on %s, joint %d", size, paper.Name, i)
				require.Equal(t, j.Loose, j.Letter == "")
				marks := plan.joint(j, j.First)
				if j.Loose {
					loose++
					require.Len(t, marks.Figures, 1, "the dotted line without almonds")
				} else {
					glued++
					require.Greater(t, len(marks.Figures), 1)
				}
			}
			said := plan.gluing(unit.Millimetres)
			if plan.Glued() == 0 {
				none++
				assert.Equal(t, "Nothing to glue", said.head)
				for i := range plan.Tiles {
					assert.Empty(t, plan.joints(i).Figures, "a dotted line to trim at, though nothing is glued")
					for k := range i {
						assert.False(t, plan.Printed(i).Grow(-1e-6).Overlaps(plan.Printed(k)), "pages %d and %d share a strip", k, i)
					}
				}
				assert.NotContains(t, plan.advice(doc, "", "", 100)[1].text, "gluing")
			} else {
				assert.Equal(t, "Glue the pages", said.head)
			}
		}
	}
	require.Positive(t, loose)
	require.Positive(t, glued)
	require.Positive(t, none)
}

// A joint is checked by what is there to be measured: the almonds, which are
// drawn as long as is told, and how far glued edges lie apart where a page has
// two.
func TestAJointIsCheckedByWhatCanBeMeasured(t *testing.T) {
	doc, two := ternOn(t, "65C", A4)
	require.Equal(t, 1, two.Glued())
	said := two.gluing(unit.Millimetres).text
	require.Contains(t, said, "every almond is 22 mm long from tip to tip: where it is not")
	require.NotContains(t, said, "glued edge")
	require.Contains(t, two.gluing(unit.InchFractions).text, "0.866 in (about 7/8 in) long")
	almond := two.joint(two.Joints[0], 0).Figures[1].Path.Bounds()
	require.InDelta(t, 22, max(almond.Width(), almond.Height()), 1e-9)

	doc.Paper = Paper{"small", 90, 80}
	many, err := PlanTiles(doc)
	require.NoError(t, err)
	require.True(t, many.between(false) && many.between(true))
	require.Contains(t, many.gluing(unit.Millimetres).text, "from one glued edge to the next it is "+unit.Format(many.grid.dx, unit.Millimetres)+" across and "+unit.Format(many.grid.dy, unit.Millimetres)+" down:")
	require.InDelta(t, many.grid.dx, many.Tiles[1].Area.Min.X-many.Tiles[0].Area.Min.X, 1e-9)
}

// The words on the strips are not crossed by lines, nor lie on almonds, where
// the strip has a place for them.
func TestWordsOnStripsAreNotCrossed(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	words := 0
	for _, r := range demo.TernInLace().Replay(run)[:4] {
		for _, paper := range []Paper{A4, Letter} {
			doc := Print{Pattern: "Tern", Sizes: []SizePieces{{Label: r.Size.Label, Pieces: r.Size.Pattern.Pieces}}, Paper: paper, FoldWhole: true}
			plan, err := PlanTiles(doc)
			require.NoError(t, err)
			d, err := newDrawn(doc, plan)
			require.NoError(t, err)
			for _, j := range d.plan.Joints {
				if j.Loose {
					continue // nothing lies there
				}
				for _, w := range j.words {
					require.NotEmpty(t, w.text)
					words++
					q := w.label(j.Upper).quad(0.2)
					assert.Zero(t, d.ink.in(geom.BoxOf(q[:]...)), "%q, %s on %s", w.text, r.Size.Label, paper.Name)
				}
			}
		}
	}
	require.Greater(t, words, 10)
}

// An inch print tells the nearest fraction beside what is none.
func TestInchesOfAPrintHaveTheNearestFractionBeside(t *testing.T) {
	assert.Equal(t, "0.472 in (about 15/32 in)", amount(12, unit.InchFractions))
	assert.Equal(t, "1/4 in", amount(6.35, unit.InchFractions))
	assert.Equal(t, "12 mm", amount(12, unit.Millimetres))
	pc := shapeEdge{name: "hem", role: "hem", allowance: 12}
	assert.Equal(t, []string{"hem 0.472 in (about 15/32 in)", "hem about 15/32 in", "hem"}, edgeTexts(pc, 6.35, unit.InchFractions))
}

// Names on the map lie inside the outlines where there is room.
func TestNamesOnTheMapLieInTheirPieces(t *testing.T) {
	for _, size := range []string{"65C", "75C", "80E"} {
		doc, plan := ternOn(t, size, A4)
		l := plan.pageMap(doc, geom.Box{Max: geom.Pt(92, 90)})
		var outlines []geom.Path
		for _, f := range l.Figures[len(plan.Tiles):] {
			outlines = append(outlines, f.Path)
		}
		for _, label := range l.Labels {
			if label.Bold {
				continue // the number of a page
			}
			q := label.quad(0.1)
			inside := false
			for _, o := range outlines {
				all := true
				for _, c := range q {
					all = all && o.Contains(c)
				}
				inside = inside || all
			}
			assert.True(t, inside, "%s of %s", strings.TrimSpace(label.Text), size)
		}
	}
}
