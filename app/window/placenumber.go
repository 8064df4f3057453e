package window

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// placed is a number of a step that says where something lies, shown as a
// length that is counted as in its tool, in the size shown.
type placed struct {
	name     rowName
	by, from float64 // the length in mm is the number times by, less from
	kept     string  // of what the number is a part that is kept; "" when it is the length itself
}

// placeOf returns how the number at a path of a step is shown on the pattern
// that the step meets; false when it tells no place, or one that is not there.
func placeOf(e step.Entry, p pattern.Pattern, path []string) (placed, bool) {
	s, ok := standingAt(e, path)
	if !ok {
		return placed{}, false
	}
	switch last := lastOf(path); {
	case last == "mm" || last == "share" || (last == "from" || last == "to") && len(path) > 1:
		return alongEdge(e, p, path, s)
	case last == "x" || last == "y":
		return onPiece(p, path, s)
	case last == "along" || last == "off":
		return besideWay(p, path, s)
	}
	return placed{}, false
}

// standing is what the JSON of a step says around a number: the innermost
// object that has it, and what names a piece and an edge on the way there.
type standing struct {
	object            map[string]any
	piece, edge, then string
}

func standingAt(e step.Entry, path []string) (s standing, ok bool) {
	b, err := json.Marshal(e)
	var within any
	if err != nil || json.Unmarshal(b, &within) != nil {
		return s, false
	}
	for _, key := range path {
		switch at := within.(type) {
		case map[string]any:
			s.object = at
			for k, to := range map[string]*string{"piece": &s.piece, "edge": &s.edge, "then": &s.then} {
				if named, ok := at[k].(string); ok && named != "" {
					*to = named
				}
			}
			if several, ok := at["pieces"].([]any); ok && len(several) == 1 {
				s.piece, _ = several[0].(string)
			}
			within = at[key]
		case []any:
			n, err := strconv.Atoi(key)
			if err != nil || n < 0 || n >= len(at) {
				return s, false
			}
			within = at[n]
		default:
			return s, false
		}
	}
	return s, s.object != nil
}

// alongEdge is a place along an edge, from what the edge meets there.
func alongEdge(e step.Entry, p pattern.Pattern, path []string, s standing) (placed, bool) {
	last := lastOf(path)
	if len(path) < 2 && e.Step.Kind() != "notch" {
		return placed{}, false
	}
	if other := map[string]string{"mm": "share", "share": "mm"}[last]; s.object[other] != nil || s.object["crosses"] != nil || s.object["notch"] != nil {
		return placed{}, false
	}
	if firstOf(path) == "to" && s.then != "" {
		s.edge = s.then
	}
	pc, edge := p.Edge(s.piece, s.edge)
	if edge == nil || edge.Length() <= 0 {
		return placed{}, false
	}
	end := pattern.Start
	if s.object["from"] == string(pattern.End) {
		end = pattern.End
	}
	head, known := map[string]string{"at": "Place on", "from": "Starts on", "to": "Ends on", "mm": "Place on", "share": "Place on"}[firstOf(path)]
	switch {
	case last == "from" || last == "to":
		head = label(path[:len(path)-1]) + map[string]string{"from": ": begins on", "to": ": ends on"}[last]
	case len(path) > 2 || !known:
		head = label(path[:len(path)-1]) + ": place on"
	}
	out := placed{name: rowName{whole: head + " " + edge.Name + ", from " + cmp.Or(pc.Meets(edge.Name, end), "its "+string(end))}, by: 1}
	if last != "mm" {
		out.by, out.kept = edge.Length(), edge.Name
	}
	return out, true
}

// onPiece is a place across or up a piece, from the left of it and from below.
func onPiece(p pattern.Pattern, path []string, s standing) (placed, bool) {
	pc, first := p.Piece(s.piece), firstOf(path)
	if pc == nil || first != "points" && first != "at" {
		return placed{}, false
	}
	outline, err := pc.Outline()
	if err != nil {
		return placed{}, false
	}
	box := outline.Bounds()
	least, size, what := box.Min.X, box.Width(), "width"
	from, short := "from the left of "+pc.Name, "From left"
	if lastOf(path) == "y" {
		least, size, what = box.Min.Y, box.Height(), "height"
		from, short = "from the lowest place of "+pc.Name, "From below"
	}
	if !(size > 0) {
		return placed{}, false
	}
	if first == "at" {
		return placed{name: rowName{"Writing, " + from, short}, by: 1, from: least}, true
	}
	return placed{name: rowName{label(path[:len(path)-1]) + ", " + from, short}, by: size, kept: "the " + what + " of " + pc.Name}, true
}

// besideWay is a hinge off the straight way between two spots.
func besideWay(p pattern.Pattern, path []string, s standing) (placed, bool) {
	var ends [2]pattern.Spot
	var at [2]geom.Point
	for i, key := range []string{"from", "to"} {
		b, err := json.Marshal(s.object[key])
		if err != nil || s.object[key] == nil || json.Unmarshal(b, &ends[i]) != nil {
			return placed{}, false
		}
		ends[i].Piece = cmp.Or(ends[i].Piece, s.piece)
		found, err := p.Find(ends[i])
		if err != nil {
			return placed{}, false
		}
		at[i] = found.Point
	}
	length := at[0].Dist(at[1])
	if !(length > 0) {
		return placed{}, false
	}
	told := func(s pattern.Spot) string { return step.Placed(s.String(), p) }
	head := label(slices.Clone(path[:len(path)-1]))
	name := rowName{fmt.Sprintf("%s: on the way from %s to %s", head, told(ends[0]), told(ends[1])), "On the way"}
	if lastOf(path) == "off" {
		name = rowName{head + ": left of that way (− is right)", "Left of it"}
	}
	return placed{name: name, by: length, kept: "that way"}, true
}

// placeRow shows a place as a length, as its tool does, and below it what part
// of what it is when that is kept.
func (c *column) placeRow(id, path string, more fyne.CanvasObject, p placed, v float64, with func(float64) (step.Entry, error)) {
	if p.kept == "" {
		c.dialRow(id, path, p.name, more, lengths, v*p.by-p.from, func(mm float64) (step.Entry, error) { return with((mm + p.from) / p.by) })
		return
	}
	part := func(v float64) []string {
		return []string{shortened(fmt.Sprintf("%.4g %% of %s, kept in every size", 100*v, p.kept), columnInner, small)}
	}
	now, at := v, id+" "+path
	c.dialRow(id, path, p.name, more, lengths, v*p.by, func(mm float64) (step.Entry, error) {
		now = mm / p.by
		return with(now)
	})
	c.retellIn(small, c.w.palette.Faint, part(v), func(r *rehearsal) []string {
		if r.at == at {
			return part(now)
		}
		return part(v)
	})
}
