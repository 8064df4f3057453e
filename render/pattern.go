package render

import (
	"encoding/json"
	"fmt"
	"slices"

	"truemat/geom"
	"truemat/ops/cloth/border"
	"truemat/ops/pattern"
)

// ghostLayer names the layer of the pieces as they were.
const ghostLayer = "ghost"

// PatternScene draws the pieces of a pattern as they lie on the mat, below
// them the ghosts that the options name. An error names the piece that cannot
// be drawn.
func PatternScene(p pattern.Pattern, opt Options) (Scene, error) {
	var layers []Layer
	if len(opt.Ghost) > 0 {
		g, err := ghosts(opt.Ghost)
		if err != nil {
			return Scene{}, err
		}
		layers = append(layers, g)
	}
	for _, pc := range p.Pieces {
		l, err := onePiece(pc, pc.Pose, opt)
		if err != nil {
			return Scene{}, err
		}
		if !opt.FoldWhole {
			if err := tell(&l, pc); err != nil {
				return Scene{}, err
			}
		}
		layers = append(layers, l)
	}
	s := sceneOf(layers...)
	if !opt.FoldWhole {
		told, err := json.Marshal(pattern.ToldPattern{Name: opt.Pattern, Size: opt.Size, Seams: p.Seams, Lines: p.Lines, Figures: p.Figures})
		if err != nil {
			return Scene{}, err
		}
		s.Told = string(told)
	}
	return s, nil
}

// tell adds to the drawing of a piece what it takes to bring it back in: its
// words, and without a pen those of its lines that are not drawn as they are.
func tell(l *Layer, pc pattern.Piece) error {
	t, err := pattern.Tell(pc)
	if err != nil {
		return fmt.Errorf("piece %s: %w", pc.Name, err)
	}
	words, err := json.Marshal(t)
	if err != nil {
		return fmt.Errorf("piece %s: %w", pc.Name, err)
	}
	l.Told = string(words)
	has := func(kind Kind, name string) bool {
		return slices.ContainsFunc(l.Figures, func(f Figure) bool { return f.Kind == kind && f.Name == name })
	}
	for _, e := range pc.Edges {
		if !has(SewLine, e.Name) {
			l.Figures = append(l.Figures, Figure{Kind: SewLine, Name: e.Name, Path: turnOver(e.Path, pc.Pose)})
		}
	}
	for _, in := range pc.Inner {
		if !has(InnerLine, in.Name) {
			l.Figures = append(l.Figures, Figure{Kind: InnerLine, Name: in.Name, Path: in.Path.Transform(pc.Pose)})
		}
	}
	if a := pc.Arrow; a.From.Dist(a.To) > 0 {
		l.Figures = append(l.Figures, Figure{Kind: ArrowLine, Name: string(a.Kind), Path: polyline(pc.Pose.Apply(a.From), pc.Pose.Apply(a.To))})
	}
	return nil
}

func ghosts(pieces []pattern.Piece) (Layer, error) {
	l := Layer{Name: ghostLayer}
	for _, pc := range pieces {
		s, err := shapeOf(pc, pc.Pose)
		if err != nil {
			return Layer{}, err
		}
		l.Figures = append(l.Figures, Figure{Kind: GhostLine, Path: s.cut, Pen: ghostPen})
		for _, e := range s.edges {
			if e.beside() {
				l.Figures = append(l.Figures, Figure{Kind: GhostLine, Path: e.path, Pen: Pen{Width: ghostPen.Width, Color: ghostPen.Color, Dash: sewPen.Dash}})
			}
		}
	}
	return l, nil
}

// SizePieces are the pieces of a pattern in one size.
type SizePieces struct {
	Label  string
	Pieces []pattern.Piece
}

// NestScene draws several sizes on each other, every piece in its own place:
// pieces on a fold lie fold on fold, others middle on middle, unless the
// options name what of a piece lies on itself. Neighbours that would overlap so
// are laid apart. Layers are the
// sizes in their order and, last, what they have in common. Sizes differ by
// dashes and by labels on their cut lines, not by colour alone.
func NestScene(sizes []SizePieces, opt Options) (Scene, error) {
	nests, err := nestPieces(sizes, opt.On)
	if err != nil {
		return Scene{}, err
	}
	if len(sizes) > 1 {
		if err := apart(nests, opt.FoldWhole); err != nil {
			return Scene{}, err
		}
	}
	layers := make([]Layer, len(sizes)+1)
	for i, s := range sizes {
		layers[i].Name = "size " + s.Label
	}
	layers[len(sizes)].Name = commonLayer
	for _, n := range nests {
		drawn, err := n.draw(n.pose, opt, nil)
		if err != nil {
			return Scene{}, err
		}
		for i := range layers {
			layers[i] = layers[i].with(drawn[i])
		}
	}
	return sceneOf(layers...), nil
}

// with returns the layer with another's figures and labels added.
func (l Layer) with(o Layer) Layer {
	l.Figures = append(l.Figures, o.Figures...)
	l.Labels = append(l.Labels, o.Labels...)
	return l
}

// nest is a piece in all the sizes that have it.
type nest struct {
	name  string
	pose  geom.Motion // of the first size, on the mat
	base  geom.Motion // what lays the first size upright on a sheet
	sizes []int       // indices into the sizes asked for
	total int         // sizes asked for
	each  []pattern.Piece
	moves []geom.Motion // what brings each onto the first
	label []string
	laces [][]border.Plan
}

// commonLayer names the layer of what all sizes have in common.
const commonLayer = "all sizes"
