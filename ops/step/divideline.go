package step

import (
	"fmt"
	"slices"

	"truemat/ops/pattern"
)

// divideLine divides a line, which now runs over the new edge, where a seam
// across it was shortened: the new edge meets the seam at another place than
// the edge that the line went on over, so the two no longer run on into each
// other. The new edge keeps the line's name; what lies beyond is called as the
// partner's rest says.
func (c *CutOff) divideLine(out *Output, name string, shorts []shortened) {
	p := &out.Pattern
	at := slices.IndexFunc(p.Lines, func(l pattern.Line) bool { return l.Name == name })
	if at < 0 {
		return
	}
	l := p.Lines[at]
	i := slices.IndexFunc(l.Parts, func(pt pattern.Part) bool { return pt.Piece == c.Piece && pt.Edge == c.Name })
	from, to := 0, len(l.Parts)
	if i > 0 && besideRest(*p, shorts, l.Parts[i-1]) {
		from = i
	}
	if i+1 < len(l.Parts) && besideRest(*p, shorts, l.Parts[i+1]) {
		to = i + 1
	}
	for _, rest := range [][]pattern.Part{l.Parts[:from], l.Parts[to:]} {
		if len(rest) == 0 {
			continue
		}
		first := c.Partner.Line
		if first == "" {
			first = name + " rest"
		}
		free := first
		for n := 2; p.Line(free) != nil; n++ {
			free = fmt.Sprintf("%s %d", first, n)
		}
		p.Lines = append(p.Lines, pattern.Line{Name: free, Kind: l.Kind, Parts: slices.Clone(rest), Count: l.Count})
		out.Notes = append(out.Notes, fmt.Sprintf("Once sewn, %s no longer runs on into %s: it is measured by itself, as %q.", partWords(rest), partWords(p.Lines[at].Parts[from:to]), free))
	}
	p.Lines[at].Parts = slices.Clone(l.Parts[from:to])
}

// besideRest reports whether an edge lies beside one that is no longer sewn.
func besideRest(p pattern.Pattern, shorts []shortened, pt pattern.Part) bool {
	pc := p.Piece(pt.Piece)
	i := pc.EdgeIndex(pt.Edge)
	for _, k := range []int{pc.Prev(i), pc.Next(i)} {
		for _, s := range shorts {
			if slices.Contains(s.rests, released{pc.Name, pc.Edges[k].Name}) {
				return true
			}
		}
	}
	return false
}
