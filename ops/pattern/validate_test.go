package pattern

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/geom"
)

func TestAPlainPatternIsValid(t *testing.T) {
	require.NoError(t, twoPanels().Validate())
	require.NoError(t, Run{Name: "Panels", Sizes: []Size{{Label: "M", Pattern: twoPanels()}, {Label: "L", Pattern: twoPanels()}}}.Validate())
}

func TestValidateNamesWhatIsWrong(t *testing.T) {
	left := func(p *Pattern) *Piece { return &p.Pieces[0] }
	for _, c := range []struct {
		want  string
		spoil func(p *Pattern)
	}{
		{`the pattern has no piece`, func(p *Pattern) { p.Pieces = nil }},
		{`a piece has no name`, func(p *Pattern) { p.Pieces[1].Name = "" }},
		{`two of them are called piece "left"`, func(p *Pattern) { p.Pieces[1].Name = "left" }},
		{`blanks at its ends`, func(p *Pattern) { p.Pieces[1].Name = " right" }},
		{`cannot be shown`, func(p *Pattern) { p.Pieces[1].Name = "ri\tght" }},
		{`longer than 80`, func(p *Pattern) { p.Pieces[1].Name = strings.Repeat("ü", 81) }},
		{`501 pieces are more than the 500`, func(p *Pattern) { p.Pieces = make([]Piece, 501) }},
		{`piece "left": it has 1 edges`, func(p *Pattern) { left(p).Edges = left(p).Edges[:1] }},
		{`edge "hem" ends 100 mm from where "top" starts`, func(p *Pattern) {
			left(p).Edges = left(p).Edges[:3]
			left(p).Edges[1] = left(p).Edges[2]
			left(p).Edges[2] = Edge{Name: "x", Role: SeamEdge, Path: geom.Must(geom.Polyline(geom.Pt(0, 50), geom.Pt(0, 0)))}
			left(p).Edges[1].Path = geom.Must(geom.Polyline(geom.Pt(200, 0), geom.Pt(0, 50)))
		}},
		{`two of them are called edge "hem"`, func(p *Pattern) { left(p).Edges[1].Name = "hem" }},
		{`runs clockwise`, func(p *Pattern) {
			e := left(p).Edges
			e[0], e[1], e[2], e[3] = e[3], e[2], e[1], e[0]
			for i := range e {
				e[i].Path = e[i].Path.Reverse()
			}
		}},
		{`edge "hem": there is no role "frill"; there are "seam"`, func(p *Pattern) { left(p).Edges[0].Role = "frill" }},
		{`edge "hem": it has no path`, func(p *Pattern) { left(p).Edges[0].Path = geom.Path{} }},
		{`an allowance of -1 mm`, func(p *Pattern) { left(p).Edges[0].Allowance = -1 }},
		{`an allowance of NaN mm`, func(p *Pattern) { left(p).Edges[0].Allowance = math.NaN() }},
		{`an allowance of 201 mm`, func(p *Pattern) { left(p).Edges[0].Allowance = 201 }},
		{`on the fold and cannot have an allowance`, func(p *Pattern) { left(p).Edges[3].Role, left(p).Edges[3].Allowance = Fold, 5 }},
		{`a piece has one fold`, func(p *Pattern) { left(p).Edges[3].Role, left(p).Edges[1].Role = Fold, Fold }},
		{`must be one straight segment`, func(p *Pattern) {
			left(p).Edges[3].Role = Fold
			left(p).Edges[3].Path = geom.Must(geom.NewPath(geom.Curve(geom.Pt(0, 50), geom.Pt(5, 30), geom.Pt(5, 20), geom.Pt(0, 0))))
		}},
		{`there is no corner end "round"`, func(p *Pattern) { left(p).Edges[0].Corner.End = "round" }},
		{`must say of which edge`, func(p *Pattern) { left(p).Edges[0].Corner.End = Square }},
		{`not "beside"`, func(p *Pattern) { left(p).Edges[0].Corner = Corner{End: Square, Of: "beside"} }},
		{`notch "mid": there is no edge "x"`, func(p *Pattern) { left(p).Notches[0].Edge = "x" }},
		{`lies off edge "side", which is 50 mm long`, func(p *Pattern) { left(p).Notches[0].MM = 51 }},
		{`lies off edge "side"`, func(p *Pattern) { left(p).Notches[0].MM = math.NaN() }},
		{`held from "start" or "end", not "middle"`, func(p *Pattern) { left(p).Notches[0].From = "middle" }},
		{`two of them are called notch "low"`, func(p *Pattern) { left(p).Notches[0].Name = "low" }},
		{`inner line "guide" has no path`, func(p *Pattern) { left(p).Inner[0].Path = geom.Path{} }},
		{`inner line "guide": there is no kind "x"`, func(p *Pattern) { left(p).Inner[0].Kind = "x" }},
		{`a height above 0`, func(p *Pattern) { p.Pieces[1].Marks[0].Height = 0 }},
		{`a mark needs some text`, func(p *Pattern) { p.Pieces[1].Marks[0].Text = " " }},
		{`the arrow needs two different ends`, func(p *Pattern) { left(p).Arrow.To = left(p).Arrow.From }},
		{`the arrow: there is no kind ""`, func(p *Pattern) { left(p).Arrow.Kind = "" }},
		{`it is cut 0 times`, func(p *Pattern) { left(p).Cut.Count = 0 }},
		{`its pose on the mat is missing`, func(p *Pattern) { left(p).Pose = geom.Motion{} }},
		{`seam "join", second side: piece "right" has no edge "x"`, func(p *Pattern) { p.Seams[0].B[0].Edge = "x" }},
		{`seam "join", first side: there is no piece "x"`, func(p *Pattern) { p.Seams[0].A[0].Piece = "x" }},
		{`seam "join", first side: it names no edge`, func(p *Pattern) { p.Seams[0].A = nil }},
		{`shares of an edge lie between 0 and 1`, func(p *Pattern) { p.Seams[0].A[0].To = 1.5 }},
		{`has no length`, func(p *Pattern) { p.Seams[0].A[0].To = 0 }},
		{`the ease +Inf`, func(p *Pattern) { p.Seams[0].Ease = math.Inf(1) }},
		{`two of them are called seam "join"`, func(p *Pattern) { p.Seams[1].Name = "join" }},
		{`line "hem line": there is no kind ""`, func(p *Pattern) { p.Lines[0].Kind = "" }},
		{`line "hem line": it names no edge`, func(p *Pattern) { p.Lines[0].Parts = nil }},
		{`line "hem line": a count of -1`, func(p *Pattern) { p.Lines[0].Count = -1 }},
		{`figure "wire": NaN`, func(p *Pattern) { p.Figures = map[string]float64{"wire": math.NaN()} }},
	} {
		p := twoPanels()
		c.spoil(&p)
		assert.ErrorContains(t, p.Validate(), c.want)
	}
}

func TestSizesMustShareTheirNames(t *testing.T) {
	for want, spoil := range map[string]func(p *Pattern){
		`the pieces "left", "right", but size L has "left", "back"`: func(p *Pattern) {
			*p = Pattern{Pieces: p.Pieces}
			p.Pieces[1].Name = "back"
		},
		`the edges of left "hem", "side"`: func(p *Pattern) {
			*p = Pattern{Pieces: p.Pieces}
			p.Pieces[0].Edges[2].Name = "x"
			p.Pieces[0].Notches = nil
		},
		`the seams "join", "centre", "over", but size L`: func(p *Pattern) { p.Seams = p.Seams[:2] },
		`the lines "hem line", but size L has none`:      func(p *Pattern) { p.Lines = nil },
	} {
		other := twoPanels()
		spoil(&other)
		err := Run{Sizes: []Size{{Label: "M", Pattern: twoPanels()}, {Label: "L", Pattern: other}}}.Validate()
		assert.ErrorContains(t, err, want)
	}
	assert.ErrorContains(t, Run{}.Validate(), "no size")
	assert.ErrorContains(t, Run{Sizes: []Size{{Label: "M", Pattern: twoPanels()}, {Label: "M", Pattern: twoPanels()}}}.Validate(), `called size "M"`)
	many := Run{}
	for i := range 201 {
		many.Sizes = append(many.Sizes, Size{Label: fmt.Sprint(i), Pattern: twoPanels()})
	}
	assert.ErrorContains(t, many.Validate(), "201 sizes")
}
