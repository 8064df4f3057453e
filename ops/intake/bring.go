package intake

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/intake/svg"
	"truemat/ops/pattern"
)

// Options are what the maker says when bringing a drawing in. The zero value
// leaves everything to the drawing and its companion, over which what is set
// here has the last word.
type Options struct {
	// Size says how large the drawing is when it does not say so itself.
	Size svg.Options
	// Allowance in mm, when over 0, says that the drawn lines are cut lines
	// with this allowance on every edge that has none of its own.
	Allowance float64
	// WidthAlone takes Allowance for a width only: what the drawn lines are is
	// as Drawn, the drawing or its companion say, sew lines where nothing does.
	WidthAlone bool
	// Corner is the least turn at which the outline is divided into edges;
	// 0 means 15 degrees.
	Corner geom.Angle
	// Name names the pattern when the companion does not.
	Name string
	// Drawn says which line the outermost one is; AsSaid leaves it to the
	// companion, or to the drawing where that says what its lines are.
	Drawn Drawn
	// Divisions are told in this order; a drawing that says itself what its edges
	// are takes none.
	Divisions []Division
	// Said is of edges, the last word on each; Names are what pieces are to be
	// called, by what the drawing or the companion calls them.
	Said  []Said
	Names map[string]string
}

// Drawn says which line of a piece was drawn outermost.
type Drawn int

// What the outermost line can be. A cut line needs an allowance, in the
// options or in the companion.
const (
	AsSaid Drawn = iota
	SewLine
	CutLine
)

// Result is a pattern brought in and what is to be known about it.
type Result struct {
	Run pattern.Run
	// Pieces has an entry for each piece in each size.
	Pieces []Brought
	// LeftOut lists what of the drawing was not used, with the reason.
	LeftOut []svg.LeftOut
	// Notes are sentences for the maker.
	Notes []string
	// Origin is where the origin of the mat of the first size lies in the
	// drawing, in mm, y up.
	Origin geom.Point
	// Stated is true when the companion says which line was drawn outermost.
	Stated bool
}

// Brought says how a piece came in.
type Brought struct {
	Size, Piece string
	// As is what the drawing or the companion calls the piece.
	As string
	// Gap is the widest gap in mm that was closed in its outline.
	Gap float64
	// Drawn is true when its cut line was drawn; then CutError is the
	// greatest distance in mm between the drawn cut line and the one computed
	// from the sew line found.
	Drawn    bool
	CutError float64
	// Apart is where that is, on the mat of its size with the origin of that in
	// the drawing added.
	Apart geom.Point
	// Told is true when the drawing itself said what the lines of the piece are.
	Told bool
	// Inside is how far within the outline, in mm, a second line runs
	// along most of it; 0 when none does. The outline is likely a cut line then.
	Inside float64
	// Bits is the number of short straight bits replaced by curves.
	Bits    int
	Notches int
	Inner   int
	// Arrow is true when its arrow was drawn; else it was put where there is
	// most room, upright unless a companion says at which angle.
	Arrow bool
}

// OneSize is the label of the size of a drawing whose companion names none.
const OneSize = pattern.OneSize

// Bring reads an SVG drawing and makes a pattern of it. The companion may be
// nil. An error says what is wrong, where, and how to mend it; nothing is
// brought in then.
func Bring(r io.Reader, c *Companion, opt Options) (Result, error) {
	return BringContext(context.Background(), r, c, opt)
}

// BringContext is Bring that gives up before the next piece once the context is
// done, with its error.
func BringContext(ctx context.Context, r io.Reader, c *Companion, opt Options) (Result, error) {
	if c == nil {
		c = &Companion{}
	}
	if !(opt.Allowance >= 0 && opt.Allowance <= pattern.MaxAllowance) {
		return Result{}, fmt.Errorf("an allowance of %g mm is not between 0 and %d", opt.Allowance, pattern.MaxAllowance)
	}
	if opt.Size == (svg.Options{}) {
		opt.Size = c.size
	}
	d, err := svg.Read(r, opt.Size)
	if err != nil {
		return Result{}, err
	}
	d.Nodes = ignoring(d.Nodes, c.ignore)
	b := &bringer{ctx: ctx, c: c, opt: opt, d: d, called: map[[2]string]string{}}
	b.res.LeftOut = d.LeftOut
	b.res.Notes = append(b.res.Notes, d.Notes...)
	if len(d.Labels) > 0 {
		b.note(writingUnused+": %s", quoted(labelTexts(d.Labels)))
	}
	if err := b.run(); err != nil {
		if ctx.Err() != nil {
			return Result{}, ctx.Err()
		}
		return Result{}, b.explain(err)
	}
	return b.res, nil
}

// writingUnused begins the note on writing.
const writingUnused = "the writing on the drawing is no part of the pieces"

func labelTexts(labels []svg.Label) []string {
	out := make([]string, len(labels))
	for i, l := range labels {
		out[i] = l.Text
	}
	return out
}

// bringer holds a drawing on its way in.
type bringer struct {
	ctx context.Context
	c   *Companion
	opt Options
	d   svg.Drawing
	res Result

	shares map[*geom.Point]geom.Point // where places told are, by the places
	called map[[2]string]string       // what a piece, or an edge of one, is to be called
}

func (b *bringer) note(format string, args ...any) {
	b.res.Notes = append(b.res.Notes, fmt.Sprintf(format, args...))
}

// explain adds to an error what of the drawing could not be read, for this
// is often the cause.
func (b *bringer) explain(err error) error {
	var faults []string
	for _, l := range b.d.LeftOut {
		if l.Kind == "text" || strings.HasSuffix(l.Kind, "Gradient") {
			continue
		}
		if len(faults) == 5 {
			faults = append(faults, "…")
			break
		}
		faults = append(faults, l.String())
	}
	if len(faults) == 0 {
		return err
	}
	return fmt.Errorf("%w (not read of the drawing: %s)", err, strings.Join(faults, "; "))
}

func (b *bringer) run() error {
	empty := true
	b.d.Walk(func(n svg.Node, _ []svg.Node) bool {
		empty = empty && len(n.Paths) == 0
		return empty
	})
	if empty {
		return errors.New("the drawing has no lines that can be used")
	}
	if len(b.c.pieces) == 0 && (b.opt.Allowance == 0 || b.opt.WidthAlone) && b.opt.Drawn == AsSaid {
		if run, ok := b.own(); ok {
			return b.finish(run)
		}
	}
	sizes := b.c.sizes
	if len(sizes) == 0 {
		sizes = []sizeSpec{{label: OneSize}}
	}
	b.res.Stated = b.c.drawn != "" || b.c.allowed && b.c.allowance > 0
	run := pattern.Run{Name: tidyName(b.opt.Name), Fit: b.c.fit}
	if b.opt.Name == "" {
		run.Name = ""
	}
	if b.c.name != "" {
		run.Name = b.c.name
	}
	for i, s := range sizes {
		p, origin, err := b.size(s, len(sizes) > 1)
		if err != nil {
			return err
		}
		if i == 0 {
			b.res.Origin = origin
		}
		run.Sizes = append(run.Sizes, pattern.Size{Label: s.label, Band: s.band, Cup: s.cup, Wire: s.wire, Pattern: p})
	}
	if err := run.Validate(); err != nil {
		return err
	}
	b.compareNotches(run)
	return b.finish(run)
}

// finish gives the run its last names and takes it as it will be saved.
func (b *bringer) finish(run pattern.Run) error {
	run, err := b.name(run)
	if err != nil {
		return err
	}
	b.res.Run, err = run.AsSaved()
	return err
}

// size makes the pattern of one size, and tells where in the drawing the origin
// of its mat is.
func (b *bringer) size(s sizeSpec, several bool) (pattern.Pattern, geom.Point, error) {
	sc := scope{nodes: b.d.Nodes}
	if s.group != "" {
		n, err := sc.one(s.group)
		if err != nil {
			return pattern.Pattern{}, geom.Point{}, err
		}
		sc = scope{nodes: []svg.Node{n}, where: fmt.Sprintf(" in the group of size %q", s.label)}
		if len(n.Paths) == 0 {
			sc.nodes = n.Children
		}
	}
	in := ""
	if several {
		in = fmt.Sprintf("size %s, ", s.label)
	}
	materials, err := b.materials(sc, s.label)
	if err != nil {
		return pattern.Pattern{}, geom.Point{}, err
	}
	var p pattern.Pattern
	lower := geom.NoBox()
	for i, m := range materials {
		if err := b.ctx.Err(); err != nil {
			return p, geom.Point{}, err
		}
		var spec *pieceSpec
		if len(b.c.pieces) > 0 {
			spec = b.c.pieces[i]
		}
		pc, err := b.piece(m, spec, s.label)
		if err != nil {
			return p, geom.Point{}, fmt.Errorf("%spiece %q: %w", in, m.name, err)
		}
		o, err := pc.Outline()
		if err != nil {
			return p, geom.Point{}, fmt.Errorf("%spiece %q: %w", in, m.name, err)
		}
		lower = lower.Union(o.Bounds())
		p.Pieces = append(p.Pieces, pc)
	}
	// The lower left of all pieces of a size is the origin of its mat.
	for i := range p.Pieces {
		shift(&p.Pieces[i], geom.Shift(lower.Min.Mul(-1)))
	}
	return p, lower.Min, b.sew(&p, s.label)
}

// materials finds what was drawn of each piece.
func (b *bringer) materials(sc scope, size string) ([]material, error) {
	if len(b.c.pieces) == 0 {
		ms, err := b.guess(sc.nodes)
		if err != nil {
			return nil, err
		}
		if len(ms) == 0 {
			return nil, fmt.Errorf("the drawing has no closed outline%s: the ends of an outline's lines must meet within %g mm", sc.where, chainGap)
		}
		uniqueNames(ms)
		return ms, nil
	}
	var ms []material
	taken := map[int]string{}
	for _, spec := range b.c.pieces {
		name := spec.name
		for _, want := range []string{"", size} {
			for _, f := range spec.from {
				if f.size == want {
					name = f.name
				}
			}
		}
		n, err := sc.one(name)
		if err != nil {
			return nil, fmt.Errorf("companion line %d: piece %q: %w", spec.line, spec.name, err)
		}
		if other, ok := taken[n.Serial]; ok {
			return nil, fmt.Errorf("companion line %d: pieces %q and %q are drawn by the same group or shape, %q", spec.line, other, spec.name, n.Name())
		}
		taken[n.Serial] = spec.name
		ms = append(ms, material{spec.name, gather(n)})
	}
	for _, n := range sc.nodes {
		if taken[n.Serial] == "" && !holdsTaken(n, taken) && !b.isSizeGroup(n) {
			b.note("%q is not mentioned in the companion and was left out", n.Name())
		}
	}
	return ms, nil
}

// holdsTaken reports whether something in the node was taken for a piece.
func holdsTaken(n svg.Node, taken map[int]string) bool {
	return slices.ContainsFunc(n.Children, func(c svg.Node) bool { return taken[c.Serial] != "" || holdsTaken(c, taken) })
}

func (b *bringer) isSizeGroup(n svg.Node) bool {
	return slices.ContainsFunc(b.c.sizes, func(s sizeSpec) bool { return s.group != "" && n.Named(s.group) })
}

// poorFit is the distance in mm between the drawn and the computed cut line
// from which the maker is told: about the width of a pencil line.
const poorFit = 0.5

// sew adds the seams, lines and figures that the companion names.
func (b *bringer) sew(p *pattern.Pattern, size string) error {
	known := func(line int, parts []pattern.Part) error {
		for _, pt := range parts {
			pc, e := p.Edge(pt.Piece, pt.Edge)
			switch {
			case pc == nil:
				names := make([]string, len(p.Pieces))
				for i, pc := range p.Pieces {
					names[i] = pc.Name
				}
				return fmt.Errorf("companion line %d: there is no piece %q; there are %s", line, pt.Piece, quoted(names))
			case e == nil:
				return fmt.Errorf("companion line %d: piece %q has no edge %q; it has %s", line, pt.Piece, pt.Edge, quoted(edgeNames(pc)))
			}
		}
		return nil
	}
	for _, s := range b.c.seams {
		for _, side := range []pattern.Side{s.seam.A, s.seam.B} {
			if err := known(s.line, side); err != nil {
				return err
			}
			for _, pt := range side {
				_, e := p.Edge(pt.Piece, pt.Edge)
				e.Free = b.saysFree(pt)
			}
		}
		seam := s.seam
		seam.A, seam.B = slices.Clone(seam.A), slices.Clone(seam.B)
		p.Seams = append(p.Seams, seam)
	}
	for _, l := range b.c.lines {
		if err := known(l.line, l.it.Parts); err != nil {
			return err
		}
		line := l.it
		line.Parts = slices.Clone(line.Parts)
		p.Lines = append(p.Lines, line)
	}
	for _, f := range b.c.figures {
		if f.size == "" || f.size == size {
			if p.Figures == nil {
				p.Figures = map[string]float64{}
			}
			p.Figures[f.name] = f.mm
		}
	}
	return nil
}

// saysFree reports whether the companion itself calls an edge free.
func (b *bringer) saysFree(pt pattern.Part) bool {
	for _, p := range b.c.pieces {
		for _, e := range p.edges {
			if p.name == pt.Piece && e.name == pt.Edge {
				return e.free
			}
		}
	}
	return false
}

// compareNotches notes where the sizes have different notches, for a recipe
// that refers to one would not apply in all of them.
func (b *bringer) compareNotches(run pattern.Run) {
	names := func(pc pattern.Piece) []string {
		out := make([]string, len(pc.Notches))
		for i, n := range pc.Notches {
			out[i] = n.Name + " on " + n.Edge
		}
		return out
	}
	first := run.Sizes[0]
	for _, s := range run.Sizes[1:] {
		for i, pc := range s.Pattern.Pieces {
			if a, c := names(first.Pattern.Pieces[i]), names(pc); !slices.Equal(a, c) {
				b.note("piece %q has the notches %s in size %s but %s in size %s", pc.Name, quoted(a), first.Label, quoted(c), s.Label)
			}
		}
	}
}
