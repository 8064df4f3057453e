package tool

import (
	"fmt"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// lining is how a piece is lined.
type lining struct {
	name   string
	pull   float64 // mm, of all finished edges
	turned float64 // mm of allowance on them
	cloth  string
	sewn   bool
	edge   string             // whose own fields are shown
	other  map[string]bool    // edges that are finished or not, other than their role says
	in     map[string]float64 // mm by which single edges lie further inside
}

const (
	edgeFinished = "finished, no turn-back"
	edgeSewn     = "as on the piece"
)

func (f *Fold) liningName(pc *pattern.Piece) string {
	if f.lining.name != "" {
		return f.lining.name
	}
	return freePiece(f.pattern(), pc.Name+" lining")
}

// lined returns the edges that can be told apart: all but the fold.
func lined(pc *pattern.Piece) []string {
	var out []string
	for i := range pc.Edges {
		if pc.Edges[i].Role != pattern.Fold {
			out = append(out, pc.Edges[i].Name)
		}
	}
	return out
}

// linedEdge returns the edge whose own fields are shown, at first one that is
// finished.
func (f *Fold) linedEdge(pc *pattern.Piece) string {
	all := lined(pc)
	if slices.Contains(all, f.lining.edge) {
		return f.lining.edge
	}
	for _, name := range all {
		if f.isFinished(pc, name) {
			return name
		}
	}
	if len(all) == 0 {
		return ""
	}
	return all[0]
}

func (f *Fold) isFinished(pc *pattern.Piece, edge string) bool {
	if v, ok := f.lining.other[edge]; ok {
		return v
	}
	e := pc.Edge(edge)
	return e != nil && step.FinishedRole(e.Role)
}

// finished returns the finished edges, and whether their roles say so alone.
func (f *Fold) finished(pc *pattern.Piece) (names []string, byRole bool) {
	byRole = true
	for _, name := range lined(pc) {
		is := f.isFinished(pc, name)
		if is {
			names = append(names, name)
		}
		byRole = byRole && is == step.FinishedRole(pc.Edge(name).Role)
	}
	return names, byRole
}

func (f *Fold) lineIt(pc *pattern.Piece) *step.LineIt {
	l := f.lining
	out := &step.LineIt{Piece: pc.Name, Name: f.liningName(pc), Cloth: l.cloth, Sewn: l.sewn}
	names, byRole := f.finished(pc)
	if !byRole {
		out.Finished = names
	}
	if l.pull > 0 && len(names) > 0 {
		in := step.Lit(l.pull)
		out.PullIn = &in
	}
	if l.turned > 0 && len(names) > 0 {
		width := step.Lit(l.turned)
		out.Allowance = &width
	}
	for _, name := range lined(pc) {
		if v := l.in[name]; v > 0 {
			if out.Shrink == nil {
				out.Shrink = map[string]step.Number{}
			}
			out.Shrink[name] = step.Lit(v)
		}
	}
	return out
}

func (f *Fold) liningHint(pc *pattern.Piece) string {
	names, _ := f.finished(pc)
	told := "no edge is finished"
	if len(names) > 0 {
		told = stretch{edges: names}.words() + " without turn-back"
		if f.lining.turned > 0 {
			told = fmt.Sprintf("%s with an allowance of %s", stretch{edges: names}.words(), unit.MM(f.lining.turned))
		}
	}
	return fmt.Sprintf("Enter lays %q beside %s, %s; press an edge to say what becomes of it.", f.liningName(pc), pc.Name, told)
}

// pressLined chooses an edge of the piece that is lined.
func (f *Fold) pressLined(e Event) bool {
	pc := f.chosen()
	if pc == nil || f.doing(pc) != doLine {
		return false
	}
	pt, ok := Point(f.pattern(), e.At, e.Reach, Ask{Kind: OnEdge, Only: f.piece})
	if ok = ok && slices.Contains(lined(pc), pt.Edge); ok {
		f.lining.edge = pt.Edge
	}
	return ok
}

// nextLined goes on to the next edge of the outline, or back.
func (f *Fold) nextLined(pc *pattern.Piece, on bool) bool {
	all := lined(pc)
	if len(all) == 0 {
		return false
	}
	i := slices.Index(all, f.linedEdge(pc)) + len(all) - 1
	if on {
		i += 2
	}
	f.lining.edge = all[i%len(all)]
	return true
}

// liningFields are the name, what holds for all finished edges, and what one
// edge has of its own.
func (f *Fold) liningFields(pc *pattern.Piece) []Field {
	l := f.lining
	sewn := sewnFree
	if l.sewn {
		sewn = sewnIn
	}
	cloth := l.cloth
	if cloth == "" {
		cloth = pc.Cut.Cloth
	}
	out := []Field{
		{Name: "name", Label: "Called", Text: f.liningName(pc)},
		{Name: "cloth", Label: "Cloth", Text: cloth},
		{Name: "sewn", Label: "Sewn", Text: sewn, Options: []string{sewnFree, sewnIn}},
	}
	if names, _ := f.finished(pc); len(names) > 0 {
		out = append(out,
			Field{Name: "pull", Label: "Finished edges pulled in by", Text: written(f.table, l.pull)},
			Field{Name: "turned", Label: "Their allowance", Text: written(f.table, l.turned)})
	}
	if edge := f.linedEdge(pc); edge != "" {
		how := edgeSewn
		if f.isFinished(pc, edge) {
			how = edgeFinished
		}
		out = append(out,
			Field{Name: "edge", Label: "Edge", Text: edge, Options: lined(pc)},
			Field{Name: "finished", Label: "is", Text: how, Options: []string{edgeFinished, edgeSewn}},
			Field{Name: "in", Label: "and smaller by", Text: written(f.table, l.in[edge])})
	}
	return out
}

func (f *Fold) setLining(pc *pattern.Piece, field, text string) error {
	l := &f.lining
	edge := f.linedEdge(pc)
	var err error
	switch field {
	case "pull":
		l.pull, err = f.width(text, l.pull, pattern.MaxAllowance)
	case "turned":
		l.turned, err = f.width(text, l.turned, pattern.MaxAllowance)
	case "sewn":
		if text, err = picked(text, []string{sewnFree, sewnIn}); err == nil {
			l.sewn = text == sewnIn
		}
	case "cloth":
		if text, err = typedName(text); err == nil {
			l.cloth = text
		}
	case "edge":
		if text, err = picked(text, lined(pc)); err == nil {
			l.edge = text
		}
	case "finished":
		if text, err = picked(text, []string{edgeFinished, edgeSewn}); err == nil {
			err = f.setFinished(pc, edge, text == edgeFinished)
		}
	case "in":
		v := 0.0
		if v, err = f.width(text, l.in[edge], pattern.MaxAllowance); err == nil {
			l.edge, l.in = edge, with(l.in, edge, v)
		}
	}
	return err
}

// setFinished says whether an edge is finished; one at least stays so where
// any is by its role, since a step that names none goes by their roles.
func (f *Fold) setFinished(pc *pattern.Piece, edge string, is bool) error {
	was := f.lining.other
	f.lining.edge, f.lining.other = edge, with(was, edge, is)
	if names, byRole := f.finished(pc); len(names) == 0 && !byRole {
		f.lining.other = was
		return fmt.Errorf("%s is the last finished edge of %s and stays it; say another one is finished first, or set its allowance afterwards", edge, pc.Name)
	}
	return nil
}

// with returns a map with one more entry, and leaves the one given as it is.
func with[V any](m map[string]V, key string, v V) map[string]V {
	out := map[string]V{key: v}
	for k, old := range m {
		if k != key {
			out[k] = old
		}
	}
	return out
}

// showLining shows the lining where it will lie in the piece, and the edge
// whose own fields are shown.
func (f *Fold) showLining(o *Overlay, pc *pattern.Piece, res step.Result) {
	made := res.Size.Pattern.Piece(f.liningName(pc))
	if made == nil {
		return
	}
	if out, err := made.Outline(); err == nil {
		o.Strokes = append(o.Strokes, Stroke{out.Transform(pc.Pose), Guide})
	}
	e := pc.Edge(f.linedEdge(pc))
	if e == nil {
		return
	}
	at := e.Path.At(e.Length() / 2)
	o.Strokes = append(o.Strokes, Stroke{e.Path.Transform(pc.Pose), Pointed})
	if is := made.Edge(e.Name); is != nil {
		if near := is.Path.Nearest(at); near.Dist > samePlace {
			foot := is.Path.At(near.S)
			if line, err := geom.Polyline(pc.Pose.Apply(at), pc.Pose.Apply(foot)); err == nil {
				o.Strokes = append(o.Strokes, Stroke{line, Good})
			}
			o.Notes = append(o.Notes, Note{pc.Pose.Apply(foot), "in by " + unit.MM(near.Dist)})
		}
	}
}
