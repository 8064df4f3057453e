package window

import (
	"image/color"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"truemat/geom"
	"truemat/ops/pattern"
)

// Measures in units of what is drawn within a piece that was found.
const (
	foundNotch = 9 // from the sew line inwards, and outwards where nothing is cut outside it
	foundHead  = 8 // of an arrow
	foundTwin  = 4 // between the strokes of a double notch
)

// arrowNames says what an arrow shows.
var arrowNames = map[pattern.ArrowKind]string{pattern.Grain: "grain", pattern.MostStretch: "greatest stretch", pattern.LeastStretch: "least stretch"}

// arrowFound tells whether the arrow of a piece was drawn, and where it was put
// when it was not.
func arrowFound(a pattern.Arrow, drawn bool) string {
	if drawn {
		return "an arrow for the " + arrowNames[a.Kind]
	}
	upright := ""
	if math.Abs(a.To.X-a.From.X) < 1e-6 {
		upright = "upright "
	}
	return "no arrow drawn: one for the " + arrowNames[a.Kind] + " was put " + upright + "where there is most room"
}

// foundLine is a line drawn in the picture of what was found, in mm.
type foundLine struct {
	pts  []geom.Point
	wide float64 // units
	ink  color.NRGBA
}

func (pc foundPiece) hasArrow() bool { return pc.Arrow.From.Dist(pc.Arrow.To) > geom.Coincident }

// marks are the inner lines, the notches and the arrow of a piece.
func (f *foundBoard) marks(pc foundPiece) (out []foundLine) {
	ink := f.w.palette
	for _, in := range pc.Inner {
		out = append(out, foundLine{in.Path.Transform(pc.Pose).Flatten(foundFlat), 1, ink.Faint})
	}
	for _, n := range pc.Notches {
		e := pc.Edge(n.Edge)
		if e == nil {
			continue
		}
		path := e.Path.Transform(pc.Pose)
		beyond := foundNotch / f.k
		if pc.cut != nil {
			beyond = e.Allowance
		}
		at := []float64{n.At(path.Length())}
		if n.Double {
			at = []float64{at[0] - foundTwin/2/f.k, at[0] + foundTwin/2/f.k}
		}
		for _, s := range at {
			s = min(max(s, 0), path.Length())
			p, in := path.At(s), path.TangentAt(s).Perp()
			out = append(out, foundLine{[]geom.Point{p.Add(in.Mul(foundNotch / f.k)), p.Sub(in.Mul(beyond))}, 2, ink.Text})
		}
	}
	if pc.hasArrow() {
		from, to := pc.Pose.Apply(pc.Arrow.From), pc.Pose.Apply(pc.Arrow.To)
		out = append(out, foundLine{[]geom.Point{from, to}, 1.5, ink.Text})
		head := min(foundHead/f.k, from.Dist(to)/3)
		for _, end := range [][2]geom.Point{{from, to}, {to, from}} {
			back := end[1].Sub(end[0]).Unit().Mul(head)
			side := back.Perp().Mul(0.4)
			out = append(out, foundLine{[]geom.Point{end[0].Add(back).Add(side), end[0], end[0].Add(back).Sub(side)}, 1.5, ink.Text})
		}
	}
	return out
}

// marked is the room that notches and arrows take.
func (f *foundBoard) marked() (taken []area) {
	const apart, half = 6, 3 // units
	for _, pc := range f.pieces {
		pc.Inner = nil // which may be written over
		for _, line := range f.marks(pc) {
			for i := range len(line.pts) - 1 {
				a, b := line.pts[i], line.pts[i+1]
				n := math.Ceil(a.Dist(b) * f.k / apart)
				for j := 0.0; j <= n; j++ {
					at := f.position(a.Lerp(b, j/max(n, 1)))
					taken = append(taken, area{fyne.NewPos(at.X-half, at.Y-half), fyne.NewSize(2*half, 2*half)})
				}
			}
		}
	}
	return taken
}

// besideArrow are places for a word beside the arrow of a piece.
func (f *foundBoard) besideArrow(pc foundPiece, word string) (places []geom.Point) {
	from, to := pc.Pose.Apply(pc.Arrow.From), pc.Pose.Apply(pc.Arrow.To)
	across := to.Sub(from).Unit().Perp()
	wide := float64(fyne.MeasureText(word, normal, fyne.TextStyle{Bold: true}).Width)
	off := across.Mul((12 + math.Abs(across.X)*wide/2) / f.k)
	for _, share := range []float64{0.5, 0.75, 0.25, 1, 0} {
		at := from.Lerp(to, share)
		places = append(places, at.Sub(off), at.Add(off))
	}
	return places
}

// within are those of the places at which a word lies inside a piece.
func (f *foundBoard) within(pc foundPiece, word string, places []geom.Point) (in []geom.Point) {
	size := fyne.MeasureText(word, normal, fyne.TextStyle{Bold: true})
	half := geom.Pt(float64(size.Width)/2/f.k, float64(size.Height)/2/f.k)
	for _, p := range places {
		outside := func(side geom.Point) bool { return !pc.outline.Contains(p.Add(side)) }
		if !slices.ContainsFunc([]geom.Point{half, half.Mul(-1), geom.Pt(half.X, -half.Y), geom.Pt(-half.X, half.Y)}, outside) {
			in = append(in, p)
		}
	}
	return in
}
