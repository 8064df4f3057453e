package window

import (
	"fmt"
	"image"
	"slices"
	"strings"

	"truemat/app/look"
	"truemat/geom"
	"truemat/ops/intake"
	"truemat/ops/pattern"
	"truemat/ops/unit"
	"truemat/render"
)

// taken says in a sentence what the outer lines are taken for.
func (b *bringing) taken() string {
	cut := slices.ContainsFunc(b.res.Pieces, func(p intake.Brought) bool { return p.Drawn })
	told := slices.ContainsFunc(b.res.Pieces, func(p intake.Brought) bool { return p.Told })
	nothing := " Nothing is said of the edges yet: each is a seam without a partner until you press it on the mat and say beside it what it is, or the text file does."
	if b.companion != "" {
		nothing = ""
	}
	switch {
	case told:
		return "The drawing says itself which lines are sew lines, what their allowances are and how the pieces are sewn."
	case cut && b.allowance == "":
		return "The outer lines are taken for cut lines; the sew lines lie inside them by the companion's allowances."
	case cut:
		return "The outer lines are taken for cut lines; the sew lines lie " + b.wide() + " inside them." + nothing
	case b.allowance != "":
		return "The outer lines are taken for sew lines; the cut lines lie " + b.wide() + " outside them." + nothing
	}
	return "The outer lines are taken for sew lines, without an allowance unless the companion states one." + nothing
}

// wide is the allowance as it was understood.
func (b *bringing) wide() string {
	mm, err := b.w.read(b.allowance)
	if err != nil {
		return b.allowance
	}
	return unit.Exact(mm, b.w.unit)
}

// offerCut says of pieces with a second line inside their outline that the
// outer one may be the cut line, and offers to take it so.
func (b *bringing) offerCut() {
	var names []string
	var far []float64
	for _, p := range b.res.Pieces {
		if p.Inside > 0 && !p.Drawn && !slices.Contains(names, p.Piece) {
			names, far = append(names, p.Piece), append(far, p.Inside)
		}
	}
	if len(names) == 0 {
		return
	}
	slices.Sort(far)
	width := unit.Exact(far[len(far)/2], b.w.unit)
	b.found.Add(para(fmt.Sprintf("A second line runs some %s inside the outline of %s. The outer line is likely the cut line there, and this its allowance.", width, strings.Join(names, ", ")), foundWide, normal, true, b.w.palette.Look))
	b.found.Add(b.w.button("The outer line is the cut line, "+width, false, func() {
		b.outer, b.allowance = intake.CutLine, width
		b.which.set(outerWords[b.outer])
		b.width.set(width)
		b.look()
	}))
}

// foundDots is the resolution of the picture of what was found, in dots per inch.
const foundDots = 72

// foundPicture draws the first size of what was found, with a dot at each corner.
func foundPicture(run pattern.Run) (image.Image, error) {
	p := run.Sizes[0].Pattern
	scene, err := render.PatternScene(p, render.Options{Pattern: run.Name, Size: run.Sizes[0].Label})
	if err != nil {
		return nil, err
	}
	dot := max(scene.Box.Width(), scene.Box.Height()) / 150
	corners := render.Layer{Name: "corners"}
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		for _, e := range pc.Edges {
			corners.Figures = append(corners.Figures, cornerDot(pc.Pose.Apply(e.Path.Start()), dot))
		}
	}
	scene.Layers = append(scene.Layers, corners)
	scene.Box = scene.Box.Grow(dot)
	dots := min(foundDots, 25.4*1600/max(scene.Box.Width(), scene.Box.Height(), 1))
	return render.Picture(scene, dots)
}

// cornerDot is a filled lozenge.
func cornerDot(at geom.Point, r float64) render.Figure {
	c := []geom.Point{at.Add(geom.Pt(r, 0)), at.Add(geom.Pt(0, r)), at.Add(geom.Pt(-r, 0)), at.Add(geom.Pt(0, -r))}
	var segs []geom.Cubic
	for i := range c {
		segs = append(segs, geom.Straight(c[i], c[(i+1)%len(c)]))
	}
	path, err := geom.NewClosed(segs...)
	if err != nil {
		return render.Figure{}
	}
	return render.Figure{Kind: render.Furniture, Path: path, Fill: look.Light.Accent}
}
