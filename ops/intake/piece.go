package intake

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"truemat/geom"
	"truemat/ops/pattern"
)

// piece makes a piece of what was drawn of it.
func (b *bringer) piece(m material, spec *pieceSpec, size string) (pattern.Piece, error) {
	pc := pattern.Piece{Name: m.name, Cut: pattern.Cut{Count: 1}, Pose: geom.Identity()}
	did := Brought{Size: size, Piece: m.name}
	flip := geom.Identity()
	if spec != nil {
		pc.Cut = spec.cut
		if spec.right {
			flip, _ = geom.Mirror(geom.Pt(0, 0), geom.Pt(0, 1))
			for i := range m.strokes {
				m.strokes[i].path = m.strokes[i].path.Transform(flip)
			}
		}
	}
	o, err := outlineOf(m)
	if err != nil {
		return pc, err
	}
	did.Gap, did.Bits = o.gap, o.bits
	box := o.path.Bounds()
	width, drawnCut := b.drawn()
	if drawnCut && !(width > 0) && spec == nil {
		return pc, errors.New("of a cut line the allowance must be stated; type how far inside it the sew line runs")
	}
	var sew geom.Path
	did.Inside, sew = inside(o)
	divide, bothDrawn := o.path, drawnCut && spec == nil && did.Inside > 0 && sew.Closed()
	if bothDrawn {
		if divide, o.rest, err = sewDrawn(sew, o.rest); err != nil {
			return pc, err
		}
	}
	cut, err := cutEdges(divide, b.corner(spec), spec, size, func(p place) geom.Point {
		if p.share {
			return geom.Pt(box.Min.X+p.x*box.Width(), box.Max.Y-p.y*box.Height())
		}
		return flip.Apply(b.d.Place(p.x, p.y))
	}, func(c *cutUp) error { return b.divide(c, m.name, box) })
	if err != nil {
		return pc, err
	}
	paths, names, err := cut.named(spec, size)
	if err != nil {
		return pc, err
	}
	edges, err := dress(paths, names, spec, width)
	if err != nil {
		return pc, err
	}
	if err := b.say(edges, &cut, m.name, box); err != nil {
		return pc, err
	}
	if len(b.c.sizes) > 1 {
		// Ids differ from size to size; only names given by a person count.
		for i := range o.rest {
			o.rest[i].name = o.rest[i].given
		}
	}
	marks, rest := notchesOf(o.path, edges, o.rest)
	pc.Edges = edges
	switch {
	case bothDrawn:
		for i := range pc.Edges {
			pc.Edges[i].Allowance = drawnWidth(pc.Edges[i].Path, o.path)
		}
		did.Drawn = true
		did.CutError, did.Apart = apartBy(&pc, o.path)
		b.note("piece %q: the line inside its outline was taken for its sew line, the allowances are what lies between the two", m.name)
	case drawnCut:
		if pc.Edges, did.CutError, err = pattern.SewEdges(edges); err != nil {
			return pc, fmt.Errorf("no sew line fits inside the drawn cut line: %w", err)
		}
		did.Drawn = true
		_, did.Apart = apartBy(&pc, o.path)
	}
	if did.CutError > poorFit {
		b.note("%s: the drawn cut line is not the one that its allowances make; look at their widths and at how its corners end", of(size, m.name))
	}
	var off float64
	if drawnCut && !bothDrawn {
		pc.Notches, off = carried(marks, pc.Edges)
	} else {
		for _, k := range marks {
			pc.Notches = append(pc.Notches, pattern.Notch{Edge: names[k.edge], Along: pattern.Along{From: pattern.Start, MM: k.s}, Double: k.double})
		}
	}
	if off > notchTouch {
		b.note("%s: a notch lies in the corner of two allowances, up to %.1f mm from where its sew line is; see whether it is where you mean it", of(size, m.name), off)
	}
	if err := nameNotches(pc.Notches, marks, spec); err != nil {
		return pc, err
	}
	if err := b.addNotches(&pc, spec); err != nil {
		return pc, err
	}
	rest, did.Arrow = b.arrow(&pc, spec, rest, o.path)
	if spec != nil && spec.arrow.along != "" && pc.Arrow.Kind == "" {
		return pc, fmt.Errorf("there is no line %q for its arrow; its lines are %s", spec.arrow.along, quoted(strokeNames(rest)))
	}
	b.inner(&pc, rest, box, size)
	did.Notches, did.Inner = len(pc.Notches), len(pc.Inner)
	b.res.Pieces = append(b.res.Pieces, did)
	if o.bits > 0 {
		b.note("%s: %d short straight bits of its outline stand for curves; smooth curves within %g mm of their ends were put in their place", of(size, m.name), o.bits, flatFit)
	}
	if did.Gap > geom.Coincident {
		b.note("%s: gaps of up to %.3f mm in its outline were closed", of(size, m.name), did.Gap)
	}
	return pc, nil
}

// of names a piece in a size, which is left out where there is only one.
func of(size, piece string) string {
	if size == OneSize {
		return fmt.Sprintf("piece %q", piece)
	}
	return fmt.Sprintf("size %s, piece %q", size, piece)
}

func (b *bringer) corner(spec *pieceSpec) geom.Angle {
	switch {
	case spec != nil && spec.corners > 0:
		return spec.corners
	case b.opt.Corner > 0:
		return b.opt.Corner
	case b.c.corners > 0:
		return b.c.corners
	}
	return defaultCorner
}

// drawn returns the allowance of edges without one of their own and whether
// the drawn lines are cut lines.
func (b *bringer) drawn() (width float64, cut bool) {
	width, cut = b.c.allowance, b.c.allowed && b.c.allowance > 0
	switch b.c.drawn {
	case "cut":
		cut = true
	case "sew":
		cut = false
	}
	if b.opt.Allowance > 0 {
		width, cut = b.opt.Allowance, cut || !b.opt.WidthAlone
	}
	switch b.opt.Drawn {
	case SewLine:
		cut = false
	case CutLine:
		cut = true
	}
	return width, cut
}

// addNotches adds the notches that only the companion names.
func (b *bringer) addNotches(pc *pattern.Piece, spec *pieceSpec) error {
	if spec == nil {
		return nil
	}
	for _, n := range spec.notches {
		if pc.Notch(n.it.Name) != nil {
			return fmt.Errorf("companion line %d: notch %q is there already", n.line, n.it.Name)
		}
		if pc.Edge(n.it.Edge) == nil {
			return fmt.Errorf("companion line %d: there is no edge %q; there are %s", n.line, n.it.Edge, quoted(edgeNames(pc)))
		}
		pc.Notches = append(pc.Notches, n.it)
	}
	return nil
}

func edgeNames(pc *pattern.Piece) []string {
	names := make([]string, len(pc.Edges))
	for i, e := range pc.Edges {
		names[i] = e.Name
	}
	return names
}

func strokeNames(strokes []stroke) []string {
	var names []string
	for _, s := range strokes {
		if s.name != "" && !slices.Contains(names, s.name) {
			names = append(names, s.name)
		}
	}
	return names
}

// arrow sets the piece's arrow and returns the strokes that do not draw it, and
// whether any does. A straight line within the outline that is called arrow or
// grain is taken for it; without one it stands where the piece has most room.
func (b *bringer) arrow(pc *pattern.Piece, spec *pieceSpec, rest []stroke, outline geom.Path) (others []stroke, drawn bool) {
	want := arrowSpec{kind: pattern.Grain, degrees: 90}
	if spec != nil && spec.arrow.given {
		want = spec.arrow
	} else if name := calledArrow(rest, outline); name != "" {
		want.along = name
	}
	if want.along == "" {
		at, room := roomiest(outline)
		half := geom.Angle(want.degrees * math.Pi / 180).Unit().Mul(arrowShare * room)
		pc.Arrow = pattern.Arrow{Kind: want.kind, From: at.Sub(half), To: at.Add(half)}
		return rest, false
	}
	longest, keep := geom.Path{}, []stroke(nil)
	for _, s := range rest {
		switch {
		case !slices.Contains(s.names, want.along):
			keep = append(keep, s)
		case longest.Empty() || s.path.Start().Dist(s.path.End()) > longest.Start().Dist(longest.End()):
			longest = s.path
		}
	}
	if longest.Empty() || longest.Start().Dist(longest.End()) < 1 {
		return rest, false
	}
	pc.Arrow = pattern.Arrow{Kind: want.kind, From: longest.Start(), To: longest.End()}
	return keep, true
}

// inner takes the lines that are left as inner lines; what lies outside the
// piece is noted and left out.
func (b *bringer) inner(pc *pattern.Piece, rest []stroke, box geom.Box, size string) {
	seen := map[string]bool{}
	for _, s := range rest {
		if !box.Grow(strayWithin).Overlaps(s.path.Bounds()) {
			b.note("%s: the line %q lies outside the piece and was left out", of(size, pc.Name), s.name)
			continue
		}
		base := tidyName(s.name)
		if s.name == "" {
			base = "line"
		}
		name := base
		for k := 2; seen[name]; k++ {
			name = fmt.Sprintf("%s %d", base, k)
		}
		seen[name] = true
		pc.Inner = append(pc.Inner, pattern.Inner{Name: name, Kind: pattern.Drawn, Path: s.path})
	}
}

// shift moves all of a piece in its own coordinates.
func shift(pc *pattern.Piece, m geom.Motion) {
	for i := range pc.Edges {
		pc.Edges[i].Path = pc.Edges[i].Path.Transform(m)
	}
	for i := range pc.Inner {
		pc.Inner[i].Path = pc.Inner[i].Path.Transform(m)
	}
	pc.Arrow.From, pc.Arrow.To = m.Apply(pc.Arrow.From), m.Apply(pc.Arrow.To)
}

// tidyName makes a name that can be shown, typed and told apart.
func tidyName(s string) string {
	s = strings.Join(strings.FieldsFunc(strings.ToValidUTF8(s, ""), func(r rune) bool {
		return unicode.IsSpace(r) || unicode.IsControl(r)
	}), " ")
	if r := []rune(s); len(r) > 70 {
		s = strings.TrimSpace(string(r[:70]))
	}
	if s == "" {
		return "piece"
	}
	return s
}
