package cloth

import (
	"strings"

	"truemat/ops/pattern"
)

// Lack is what a list to shop from leaves out because it is not described.
type Lack struct {
	Of   LackOf
	Text string // a sentence
}

// LackOf says where what is lacking is described.
type LackOf string

// Where it is described.
const (
	LackLayers LackOf = "layers" // what pieces are cut from
	LackExtras LackOf = "extras" // elastic, straps, closure, thread
	LackWires  LackOf = "wires"  // the wires of each size
)

// Lacking returns what a garment of the pattern may want besides what is
// described: pieces of no cloth, lines without an elastic, straps, thread, wires,
// the closure.
func (g Goods) Lacking(p pattern.Pattern) []Lack {
	var out []Lack
	none := func(of LackOf, names []string, said string) {
		if last := len(names) - 1; last >= 0 {
			all := names[last]
			if last > 0 {
				all = strings.Join(names[:last], ", ") + " and " + all
			}
			out = append(out, Lack{of, said + all + "."})
		}
	}
	none(LackLayers, g.Clothless(p), "No cloth is said for ")
	var bare []string
	wired, elastic := false, map[string]bool{}
	for _, e := range g.Elastics {
		elastic[e.Line] = true
	}
	for _, l := range p.Lines {
		if l.Kind == pattern.LineWire {
			wired = true
		} else if !elastic[l.Name] {
			bare = append(bare, l.Name)
		}
	}
	none(LackExtras, bare, "No elastic is described along ")
	var notions []string
	if g.Notions.Straps.Count == 0 {
		notions = append(notions, "straps")
	}
	if len(g.Notions.Sewing) == 0 {
		notions = append(notions, "thread")
	}
	none(LackExtras, notions, "Nothing is said of ")
	if wired && !(p.Figures[pattern.FigureWire] > 0) {
		out = append(out, Lack{LackWires, "No wire is stated for this size."})
	}
	return out
}

// Clothless names the pieces of which no cloth is said.
func (g Goods) Clothless(p pattern.Pattern) []string {
	var out []string
	for _, pc := range p.Pieces {
		if len(g.Layers(pc.Name)) == 0 {
			out = append(out, pc.Name)
		}
	}
	return out
}
