package window

import (
	"encoding/json"
	"fmt"
	"strconv"

	"fyne.io/fyne/v2/container"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// stretch is the edge along which a number of a step tells a place, as it is
// where the step begins.
type stretch struct {
	edge   string
	from   string  // what the edge meets where it is counted from, in words
	length float64 // mm, in the size shown
	share  bool    // the number is a part of the length
}

// stretchOf returns the edge along which the number at a path of the step at
// place i lies; false when the number is no place along an edge alone.
func (c *column) stretchOf(i int, e step.Entry, path []string) (stretch, bool) {
	last := path[len(path)-1]
	if len(path) < 2 || last != "mm" && last != "share" {
		return stretch{}, false
	}
	b, err := json.Marshal(e)
	var within any
	if err != nil || json.Unmarshal(b, &within) != nil {
		return stretch{}, false
	}
	named := map[string]string{}
	var place map[string]any
	for k := 0; k < len(path); k++ {
		switch at := within.(type) {
		case map[string]any:
			place = at
			for _, key := range []string{"piece", "edge", "then"} {
				if s, ok := at[key].(string); ok {
					named[key] = s
				}
			}
			within = at[path[k]]
		case []any:
			n, err := strconv.Atoi(path[k])
			if err != nil || n < 0 || n >= len(at) {
				return stretch{}, false
			}
			within = at[n]
		default:
			return stretch{}, false
		}
	}
	if other := map[string]string{"mm": "share", "share": "mm"}[last]; place[other] != nil || place["crosses"] != nil || place["notch"] != nil {
		return stretch{}, false
	}
	if path[0] == "to" && named["then"] != "" {
		named["edge"] = named["then"]
	}
	pc, edge := c.w.desk.Before(i).Edge(named["piece"], named["edge"])
	if edge == nil || edge.Length() <= 0 {
		return stretch{}, false
	}
	end := pattern.Start
	if place["from"] == string(pattern.End) {
		end = pattern.End
	}
	s := stretch{edge: edge.Name, from: pc.Meets(edge.Name, end), length: edge.Length(), share: last == "share"}
	if s.from == "" {
		s.from = "its " + string(end)
	}
	return s, true
}

// words name a place as the tools do: "Place on wire, from cradle top".
func (s stretch) words(path []string) string {
	head := map[string]string{"at": "Place on", "from": "Starts on", "to": "Ends on"}[path[0]]
	if len(path) > 2 || head == "" {
		head = label(path[:len(path)-1]) + ": place on"
	}
	return head + " " + s.edge + ", from " + s.from
}

// placeRow shows a place along an edge as a length, as its tool does, and below
// it what part of the edge that is when that is kept.
func (c *column) placeRow(id, path, name string, more *touch, s stretch, v float64, with func(float64) (step.Entry, error)) {
	if !s.share {
		c.dialRow(id, path, name, more, lengths, v, with)
		return
	}
	told := container.New(stack{})
	tell := func(v float64) {
		told.RemoveAll()
		told.Add(text(shortened(fmt.Sprintf("%.4g %% of %s, kept in every size", 100*v, s.edge), columnInner, small), small, false, c.w.palette.Faint))
		told.Refresh()
	}
	tell(v)
	c.dialRow(id, path, name, more, lengths, v*s.length, func(mm float64) (step.Entry, error) {
		tell(mm / s.length)
		return with(mm / s.length)
	})
	c.add(told)
}
