package intake

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

// drawn writes the cut lines of a pattern as a drawing, coordinates with
// three decimals as drawing programs write them, with a stroke for each
// notch, and a companion that names each edge by a place on its cut line.
func drawn(t require.TestingT, p pattern.Pattern) (svg, text string) {
	var s, c strings.Builder
	s.WriteString(page)
	c.WriteString("drawn cut line\n")
	place := func(q geom.Point) string { return fmt.Sprintf("%.3f %.3f", q.X, -q.Y) }
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		cut, err := pc.CutLine()
		require.NoError(t, err)
		require.Empty(t, cut.SelfCrossings())
		fmt.Fprintf(&s, `<g id="%s"><path d="M%s`, pc.Name, place(cut.Start()))
		for _, seg := range cut.Segments() {
			if seg.IsStraight() {
				fmt.Fprintf(&s, " L%s", place(seg.End()))
			} else {
				fmt.Fprintf(&s, " C%s %s %s", place(seg.P[1]), place(seg.P[2]), place(seg.P[3]))
			}
		}
		s.WriteString(`Z"/>`)
		beside := func(e *pattern.Edge, at, out float64) geom.Point {
			return e.Path.At(at).Sub(e.Path.TangentAt(at).Perp().Mul(e.Allowance + out))
		}
		for _, n := range pc.Notches {
			e := pc.Edge(n.Edge)
			at := n.At(e.Length())
			fmt.Fprintf(&s, `<path d="M%s L%s"/>`, place(beside(e, at, 1)), place(beside(e, at, -3)))
		}
		s.WriteString("</g>\n")
		fmt.Fprintf(&c, "piece %q\n", pc.Name)
		for k := range pc.Edges {
			e := &pc.Edges[k]
			fmt.Fprintf(&c, "edge %q near %s role %s allow %.6fmm\n", e.Name, place(beside(e, e.Length()/2, 0)), e.Role, e.Allowance)
		}
	}
	return s.String() + "</svg>", c.String()
}

// plain reports whether the cut lines of a pattern tell all of its sew lines:
// no corner is so sharp that its mitre is cut off, and no allowance is wider
// than the radius of a hollow.
func plain(p pattern.Pattern) bool {
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		for k := range pc.Edges {
			e := &pc.Edges[k]
			if pc.JointAngle(k) < 35*geom.Degree {
				return false
			}
			for n := range 201 {
				if -e.Path.CurvatureAt(e.Length()*float64(n)/200)*e.Allowance > 0.8 {
					return false
				}
			}
		}
	}
	return true
}

// slack, in mm, allows for what a wide allowance hides of a curved edge beside
// a narrow one: there the sew line is run on straight.
const slack = 0.1

// A frame of which only the cut lines are drawn comes in with the sew lines,
// edges and notches from which they were made.
func TestDrawnCutLinesGiveBackTheirSewLines(t *testing.T) {
	frames := rapid.Custom(patterntest.Frame)
	compared := 0
	// The same frames every time, and some whose rounding to three decimals
	// leaves bends of a few hundredths of a millimetre at the ends of edges.
	seeds := []int{5537, 6655, 6972, 20350, 26722, 28034, 30472, 35764, 48786, 49203, 49899}
	for seed := range 500 {
		seeds = append(seeds, seed)
	}
	for _, seed := range seeds {
		want := frames.Example(seed)
		for i := range want.Pieces {
			for k := range want.Pieces[i].Edges { // no one draws less
				if e := &want.Pieces[i].Edges[k]; e.Role != pattern.Fold && e.Allowance < 2 {
					e.Allowance = 2
				}
			}
		}
		if !plain(want) {
			continue
		}
		svg, text := drawn(t, want)
		c, err := ReadCompanion(strings.NewReader(text))
		require.NoError(t, err)
		res, err := Bring(strings.NewReader(svg), c, Options{})
		require.NoError(t, err)
		got := res.Run.Sizes[0].Pattern
		for i := range want.Pieces {
			w, g := &want.Pieces[i], &got.Pieces[i]
			require.Len(t, g.Edges, len(w.Edges), w.Name)
			assert.InDelta(t, w.Area(), g.Area(), 2, w.Name)
			for k := range w.Edges {
				we := &w.Edges[k]
				ge := g.Edge(we.Name)
				require.NotNil(t, ge)
				assert.InDelta(t, we.Length(), ge.Length(), slack, "%s of %s", we.Name, w.Name)
			}
			require.Len(t, g.Notches, len(w.Notches), w.Name)
			for _, n := range w.Notches {
				at := n.At(w.Edge(n.Edge).Length())
				near := false
				for _, m := range g.Notches {
					near = near || m.Edge == n.Edge && m.MM > at-slack && m.MM < at+slack
				}
				assert.True(t, near, "%s of %s", n.Name, w.Name)
			}
			assert.Less(t, res.Pieces[i].CutError, 0.02, w.Name)
		}
		compared++
	}
	assert.Greater(t, compared, 200)
}
