package window

import (
	"slices"

	"truemat/ops/pattern"
)

// spots lists the ends and notches of the piece of a spot, or the ends of its
// edges for a joint, which names an end; nothing when it is neither.
func (f *picker) spots(m map[string]any) (words []string, values []any) {
	name := f.pieceOf(m)
	_, edge := m["edge"].(string)
	_, notch := m["notch"].(string)
	_, joint := m["end"].(string)
	_, from := m["from"].(float64)
	pc := f.pattern.Piece(name)
	if pc == nil || !edge && !notch || from {
		return nil, nil // a stretch of an edge has its ends as shares
	}
	for k := range m {
		if !slices.Contains(spotKeys, k) {
			return nil, nil
		}
	}
	key := "from"
	if joint {
		key = "end"
	}
	can := func(said string, value map[string]any) {
		if _, named := m["piece"]; named {
			value["piece"] = name
		}
		words, values = append(words, said+where(f.pattern, name)), append(values, value)
	}
	for i := range pc.Edges {
		for _, end := range []string{"start", "end"} {
			said := end + " of " + pc.Edges[i].Name
			if meets := pc.Meets(pc.Edges[i].Name, pattern.EndName(end)); meets != "" {
				said = pc.Edges[i].Name + " at the " + meets
			}
			can(said, map[string]any{"edge": pc.Edges[i].Name, key: end})
		}
	}
	if joint {
		return words, values
	}
	for i := range pc.Notches {
		can(pattern.NotchWords(pc.Notches[i].Name), map[string]any{"notch": pc.Notches[i].Name})
	}
	for i := range pc.Edges {
		can("along "+pc.Edges[i].Name+", from its middle", map[string]any{"edge": pc.Edges[i].Name, "share": 0.5})
	}
	return words, values
}

// spotKeys are what spots and joints are written with.
var spotKeys = []string{"piece", "edge", "notch", "from", "mm", "share", "end", "crosses"}

// pieceOf is the piece of a part of a step, that of the step when it names none.
func (f *picker) pieceOf(m map[string]any) string {
	if name, ok := m["piece"].(string); ok {
		return name
	}
	return f.piece
}

// where tells the piece, when there is more than one.
func where(p pattern.Pattern, piece string) string {
	if len(p.Pieces) < 2 {
		return ""
	}
	return ", " + piece
}

// joints lists the ends of all edges.
func (f *picker) joints() (words []string, values []any) {
	for i := range f.pattern.Pieces {
		pc := &f.pattern.Pieces[i]
		if len(pc.Edges) > 0 {
			w, v := f.spots(map[string]any{"piece": pc.Name, "edge": pc.Edges[0].Name, "end": "start"})
			words, values = append(words, w...), append(values, v...)
		}
	}
	return words, values
}
