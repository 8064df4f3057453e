package svg

import (
	"fmt"
	"math"
	"strings"

	"truemat/geom"
)

// mmPerPx is the CSS pixel: 96 to the inch.
const mmPerPx = 25.4 / 96

// pxPer holds the CSS units in px; a number alone is a px, or rather a unit
// of the coordinate system around it.
var pxPer = map[string]float64{
	"": 1, "px": 1, "in": 96, "cm": 96 / 2.54, "mm": 96 / 25.4,
	"Q": 96 / 101.6, "q": 96 / 101.6, "pt": 96.0 / 72, "pc": 16,
}

// measure splits a length into its number and its unit.
func measure(s string) (float64, string, error) {
	sc := &scanner{s: strings.TrimSpace(s)}
	v, err := sc.number()
	if err != nil {
		return 0, "", fmt.Errorf("%.20q is not a length", s)
	}
	return v, sc.s[sc.i:], nil
}

// axis says what a percentage is a percentage of.
type axis int

const (
	across axis = iota
	down
	diagonal
)

// viewport is the size, in its own units, of the nearest coordinate system.
type viewport struct{ w, h float64 }

func (v viewport) of(a axis) float64 {
	switch a {
	case across:
		return v.w
	case down:
		return v.h
	}
	return math.Hypot(v.w, v.h) / math.Sqrt2
}

// length reads a length in units of the coordinate system.
func (v viewport) length(s string, a axis) (float64, error) {
	n, unit, err := measure(s)
	if err != nil {
		return 0, err
	}
	if unit == "%" {
		ref := v.of(a)
		if ref <= 0 {
			return 0, fmt.Errorf("%s is a share of a size that the drawing does not state", s)
		}
		return n / 100 * ref, nil
	}
	px, ok := pxPer[unit]
	if !ok {
		return 0, fmt.Errorf("the unit %.12q of %.20q is not read; use mm, cm, in, pt, pc, Q or px", unit, s)
	}
	return n * px, nil
}

// box is a viewBox.
type box struct{ x, y, w, h float64 }

// viewBox returns the viewBox of an element, if it has one.
func viewBox(e *element) (box, bool, error) {
	s, ok := e.attr("viewBox")
	if !ok {
		return box{}, false, nil
	}
	v, err := numbers(s)
	if err != nil || len(v) != 4 || !(v[2] > 0 && v[3] > 0) {
		return box{}, false, fmt.Errorf("line %d: the viewBox %.40q is not four numbers with a width and height over 0", e.line, s)
	}
	return box{v[0], v[1], v[2], v[3]}, true, nil
}

// fit returns the map from a viewBox onto a viewport of w by h, after
// preserveAspectRatio (SVG 2, section 8.7).
func fit(b box, w, h float64, ratio string) (matrix, error) {
	sx, sy := w/b.w, h/b.h
	align, slice := "xMidYMid", false
	words := strings.Fields(ratio)
	if len(words) > 0 && words[0] == "defer" {
		words = words[1:]
	}
	if len(words) > 0 {
		align = words[0]
	}
	if len(words) > 1 {
		slice = words[1] == "slice"
		if !slice && words[1] != "meet" {
			return matrix{}, fmt.Errorf("preserveAspectRatio %.40q is not known", ratio)
		}
	}
	if align == "none" {
		return translation(-b.x, -b.y).then(matrix{a: sx, d: sy}), nil
	}
	s := math.Min(sx, sy)
	if slice {
		s = math.Max(sx, sy)
	}
	share := map[string]float64{"Min": 0, "Mid": 0.5, "Max": 1}
	if len(align) != 8 || align[0] != 'x' || align[4] != 'Y' {
		return matrix{}, fmt.Errorf("preserveAspectRatio %.40q is not known", ratio)
	}
	fx, okx := share[align[1:4]]
	fy, oky := share[align[5:]]
	if !okx || !oky {
		return matrix{}, fmt.Errorf("preserveAspectRatio %.40q is not known", ratio)
	}
	return translation(-b.x, -b.y).then(matrix{a: s, d: s}).then(translation(fx*(w-b.w*s), fy*(h-b.h*s))), nil
}

// side is the width or height of the drawing as stated in the file.
type side struct {
	mm   float64 // 0 when it has no physical unit
	n    float64 // the number, when it has none
	px   bool
	auto bool // missing or a percentage
}

func sideOf(root *element, name string) (side, error) {
	s, ok := root.attr(name)
	if !ok || strings.TrimSpace(s) == "auto" {
		return side{auto: true}, nil
	}
	n, unit, err := measure(s)
	if err != nil {
		return side{}, fmt.Errorf("line %d: the %s of the drawing: %w", root.line, name, err)
	}
	if unit == "%" {
		return side{auto: true}, nil
	}
	px, known := pxPer[unit]
	switch {
	case !known:
		return side{}, fmt.Errorf("line %d: the unit of the drawing's %s, %.20q, is not read; use mm, cm, in, pt, pc, Q or px", root.line, name, s)
	case !(n > 0):
		return side{}, fmt.Errorf("line %d: the drawing's %s is %.20q; it must be over 0", root.line, name, s)
	case unit == "":
		return side{n: n}, nil
	}
	return side{mm: n * px * mmPerPx, px: unit == "px"}, nil
}

// pageOf returns the map from the outermost coordinate system to mm, y up,
// and the size of that system. scale, when over 0, is the length of its unit
// in mm. Without it and without a physical size the map is of one mm a unit
// and the error is [ErrNoSize].
func pageOf(root *element, scale float64) (matrix, viewport, []string, error) {
	flip := matrix{a: 1, d: -1}
	none := func(err error) (matrix, viewport, []string, error) { return flip, viewport{}, nil, err }
	for _, name := range []string{"transform", "transform-origin"} {
		if v := strings.TrimSpace(root.get(name)); v != "" && v != "none" {
			return none(fmt.Errorf("line %d: the outermost svg has a %s, so its size is in doubt; move the transform to a group inside it", root.line, name))
		}
	}
	b, boxed, err := viewBox(root)
	if err != nil {
		return none(err)
	}
	w, err := sideOf(root, "width")
	if err != nil {
		return none(err)
	}
	h, err := sideOf(root, "height")
	if err != nil {
		return none(err)
	}
	view := viewport{b.w, b.h}
	if !boxed {
		view = viewport{w.n + w.mm/mmPerPx, h.n + h.mm/mmPerPx}
	}
	if scale > 0 {
		return matrix{a: scale, d: -scale}, view, nil, nil
	}
	var notes []string
	if w.px || h.px {
		notes = append(notes, "the drawing states its size in px, taken as 96 to the inch; not every drawing program writes them so: measure a line you know")
	}
	toMM := matrix{a: mmPerPx, d: mmPerPx}
	switch {
	case w.mm == 0 && h.mm == 0:
		return flip, view, nil, fmt.Errorf("line %d: %w", root.line, ErrNoSize)
	case boxed && (w.auto || h.auto):
		// The missing side follows the viewBox.
		s := w.mm / b.w
		if w.auto {
			s = h.mm / b.h
		}
		toMM = translation(-b.x, -b.y).then(matrix{a: s, d: s})
	case w.mm > 0 != (h.mm > 0) && !w.auto && !h.auto:
		return flip, view, nil, fmt.Errorf("line %d: only one of width and height has a unit: %w", root.line, ErrNoSize)
	case boxed:
		if toMM, err = fit(b, w.mm, h.mm, root.get("preserveAspectRatio")); err != nil {
			return none(fmt.Errorf("line %d: %w", root.line, err))
		}
		if math.Abs(toMM.a-toMM.d) > 1e-6*math.Abs(toMM.a) {
			notes = append(notes, "the drawing is stretched unevenly onto its page (preserveAspectRatio is none)")
		}
	}
	page := toMM.then(flip)
	if p := page.apply(geom.Pt(b.x, b.y)); page.flat() || !p.Finite() {
		return none(fmt.Errorf("line %d: the drawing's size and viewBox give no usable scale", root.line))
	}
	return page, view, notes, nil
}
