package look

import (
	"fmt"
	"image/color"
	"maps"
	"slices"
	"sync"

	"fyne.io/fyne/v2"
	"github.com/tdewolff/canvas"
)

// icons are drawn on a field of 24 × 24 with a round pen; solid parts are
// filled. They show the things that lie on a sewing table.
var icons = map[string]struct{ pen, solid string }{
	// a hand laid flat, a thimble on its long finger
	"hand": {pen: "M7.2 13V8.6a1.4 1.4 0 0 1 2.8 0V11M10 10V5a1.45 1.45 0 0 1 2.9 0v5.5M12.9 10.5V6.6a1.4 1.4 0 0 1 2.8 0V11M15.7 11V8.9a1.35 1.35 0 0 1 2.7 0V15c0 3.6-2.1 6-5.3 6-2.7 0-4.3-1.3-5.4-3.5L5 13.9c-.8-1.7 1.1-2.8 2.2-1.3M10 7.4h2.9"},
	// a glass-headed pin in cloth, and the way the cloth turns about it
	"pin": {pen: "M14.6 9.4L5.2 18.8M10.8 20.6c4.8 0 8.6-2.3 9.9-6.2M20.9 17.4v-3.2h-3.2", solid: "M16.6 3.9a3.5 3.5 0 1 0 .01 0z"},
	// a roll of tape, its end torn
	"tape": {pen: "M10 4.2a6.6 6.6 0 1 0 .01 0zM10 8.2a2.6 2.6 0 1 0 .01 0zM10 17.4h11.2l-1.4 1.6 1.4 1.6H5.4"},
	// a ruler laid across
	"ruler": {pen: "M3.2 16.4L16.4 3.2l4.4 4.4L7.6 20.8zM7 12.6l1.8 1.8M9.9 9.7l2.6 2.6M12.8 6.8l1.8 1.8"},
	// a curve rule, spiralled at its head
	"smooth": {pen: "M4.6 20.4C3.6 11.6 8 3.6 14.6 3.6c3.6 0 6 2.4 5.8 5.4-.2 2.7-2.4 4.4-4.6 4.1-2-.3-3-2.2-2.2-3.7.6-1.1 2-1.4 2.8-.5M4.6 20.4c4.6-.6 4-8.6 9-7.9"},
	// an edge, and the strip of paper laid on to it
	"add": {pen: "M9 3.6c3.2 5.2 3.2 11.6 0 16.8H3.4V3.6zM13.6 3.6c3.2 5.2 3.2 11.6 0 16.8M17.9 12h4M19.9 10v4"},
	// a piece slashed from below and opened about its hinge
	"spread": {pen: "M11 5.4H4.4v14.4h3.4zM13 5.4h6.6v14.4h-3.4zM9.6 19.8h4.8", solid: "M12 3a1.3 1.3 0 1 0 .01 0z"},
	// an edge, and the handle that bends it
	"reshape": {pen: "M3.4 20.2C5.4 11.4 12 8 20.6 10.4M3.4 20.2L7 7.4M20.6 10.4l-7.4-4.6", solid: "M7.2 3.8a1.7 1.7 0 1 0 .01 0zM12 3.4a1.7 1.7 0 1 0 .01 0z"},
	// shears, open
	"shears": {pen: "M6 14.6a3 3 0 1 0 .01 0zM18 14.6a3 3 0 1 0 .01 0zM7.6 15L15.8 3.2M16.4 15L8.2 3.2", solid: "M12 8.2a1.1 1.1 0 1 0 .01 0z"},
	// a piece parted down the middle, a notch on either side of the gap
	"split": {pen: "M9.4 3.8C6 5.4 4 8.6 3.6 12.6c-.2 2.6.3 5 1.4 7.6h4.4c1.2-5 .2-9.8 0-16.4M14.4 3.8c3.6 1.8 5.6 4.8 6 8.8.2 2.6-.3 5-1.4 7.6h-4.6c-1.2-5-.2-9.8 0-16.4M9.8 12H7.4M14 12h2.4"},
	// a piece on the fold, its other half turning over
	"fold": {pen: "M11 3.6v16.8L4 17.2c-1-4-.8-7 .8-10.4zM14.6 4.8v2.4M14.6 10.2v2.4M14.6 15.6V18M18.6 6.4c2 3 2.2 7.4.6 11.2M17.2 15.9l1.8 1.9 2.4-1"},
	// a pencil, and its line across a piece
	"draw": {pen: "M20.4 6.4l-8.2 9-3.6 1.2.9-3.7 8.2-9a1.2 1.2 0 0 1 1.7-.1l.9.8a1.2 1.2 0 0 1 .1 1.8zM15.8 6l2.6 2.4M3 20.6c2.6-2.8 4.4.8 7.4-.6s4.8-2 7.6-.2"},
	// a piece that rolls along the edge of another
	"walk": {pen: "M2.8 20.6c5-4.6 13.4-4.6 18.4 0M12 17.1c-4.8-.9-7.6-4.3-7.2-9.4 5.2-1.4 9.9.6 11.4 5.2-.7 2.4-2 3.7-4.2 4.2zM14.6 3.6c3 .4 5.2 2.4 5.9 5.6M21.6 6.4l-1.1 3-2.9-1.4"},
	// two edges on either side of a seam, and the one line laid over them
	"true": {pen: "M12 3.4v2.2M12 8v2.2M12 17.4v3.2M3 8.2c4 5 6 6 9 6s5-1 9-6M6.4 17.2c2 1.2 3.6 1.6 5.6 1.6"},
	// the two edges of a seam between the same two lines
	"level": {pen: "M3 4.6h18M3 19.4h18M6.6 4.6c4 5 4 9.8 0 14.8M17.4 4.6c-4 5-4 9.8 0 14.8"},
	// a notch in the rim of a piece, the sew line beneath
	"notch": {pen: "M2.8 8.4h6.4L12 14l2.8-5.6h6.4M3.4 18.4h2.4M8.6 18.4H11M13.6 18.4H16M18.6 18.4h2"},
	// cut line and sew line, and what lies between
	"allowance": {pen: "M3.4 9.4C9 3.6 15 3.6 20.6 9.4M3.4 18.8l1.9-1.7M7.5 15.5l2.3-1M12.6 14.2l2.4.5M17.4 16l1.8 1.4M12 7.4v4.6M10.6 10.8l1.4 1.5 1.4-1.5"},
	// tailor's chalk, worn to a rim, and its stroke
	"chalk": {pen: "M12.6 3.6l7.8 7.4c.8.8.5 2-.5 2.3l-9.5 2.9c-1 .3-2-.6-1.8-1.6l1.7-10.1c.2-1.2 1.5-1.7 2.3-.9zM9 12.4l9.4-2.4M3 20.4c3-2.4 5 1.4 8 0s4-1.4 7 0"},
	// a tape measure, rolled
	"measure": {pen: "M3 13.4a6 4.4 0 1 1 12 0v3.8H21v3.4H9a6 4.6 0 0 1-6-4.6zM15 13.4c0 2.2-2.6 4-6 4M9 11.4a2.2 1.7 0 1 0 .01 0M12.4 20.4v-1.6M15.4 20.4v-2.2M18.4 20.4v-1.6"},
	// a thread that runs back, and one that runs on
	"undo": {pen: "M4 9.4h9.6a5.2 5.2 0 0 1 0 10.4H9M4 9.4l4.4-4.2M4 9.4l4.4 4.2"},
	"redo": {pen: "M20 9.4h-9.6a5.2 5.2 0 0 0 0 10.4H15M20 9.4l-4.4-4.2M20 9.4l-4.4 4.2"},
	// a piece between the corners of the mat
	"fit": {pen: "M3.4 8V3.4H8M16 3.4h4.6V8M20.6 16v4.6H16M8 20.6H3.4V16M8 15.6c-.6-4 1.6-7.4 8-7.6.6 5-1.6 7.4-8 7.6z"},
	// verdicts, told by their shapes: a round with a tick, a lozenge with a
	// stroke, a square with a cross, an open ring
	"holds":  {pen: "M12 3.6a8.4 8.4 0 1 0 .01 0zM8.2 12.4l2.7 2.7 5-5.6"},
	"look":   {pen: "M12 2.6l9.4 9.4-9.4 9.4L2.6 12zM12 7.8v5", solid: "M12 15.1a1.1 1.1 0 1 0 .01 0z"},
	"broken": {pen: "M4 4h16v16H4zM8.6 8.6l6.8 6.8M15.4 8.6l-6.8 6.8"},
	"behind": {pen: "M12 3.6a8.4 8.4 0 0 0 0 16.8M12 7.6V12l3 2M15.6 4.4l.6.3M19.4 8.2l.3.7M19.6 15.4l-.4.7"},
	"aside":  {pen: "M10 6l6 6-6 6"},
	"back":   {pen: "M14 6l-6 6 6 6"},
	// a slide of a gauge, which goes both ways
	"slide": {pen: "M3 12h18M7 8l-4 4 4 4M17 8l4 4-4 4"},
	// a group of tools that lies open, and one that is folded away
	"fold away":  {pen: "M5 9l7 7 7-7"},
	"unfold out": {pen: "M9 5l7 7-7 7"},
	// an envelope for patterns, open; a pattern folded to go in; a sheet of
	// paper, its corner turned; the way up
	"envelope": {pen: "M3.4 8.6L12 3.4l8.6 5.2M3.4 8.6v11.8h17.2V8.6M3.4 8.6L12 14.4l8.6-5.8"},
	"pattern":  {pen: "M5 3.4h14v17.2H5zM5 9.2h14M8.2 17.4c.4-3 2.6-5 7.6-5.2-.2 3.6-2.6 5.4-7.6 5.2z"},
	"sheet":    {pen: "M6 3.4h8.4L18.6 7.6v13H6zM14.4 3.4v4.2h4.2"},
	"up":       {pen: "M12 19.6V4.8M6.4 10.4L12 4.8l5.6 5.6"},
}

// The pen on the field of 24 × 24: that of a tool or act, and the broader one
// of the signs that are shown small.
const (
	toolPen = 1.7
	signPen = 2.4
)

var small = map[string]bool{"holds": true, "look": true, "broken": true, "behind": true, "aside": true, "back": true, "slide": true, "fold away": true, "unfold out": true}

// outlines are the icons as closed outlines, since the toolkit draws a stroke
// of an SVG equally wide at every size.
var outlines = sync.OnceValue(func() map[string]string {
	drawn := map[string]string{}
	for name, d := range icons {
		width := toolPen
		if small[name] {
			width = signPen
		}
		line := canvas.MustParseSVGPath(d.pen) // part of the program, and tested
		drawn[name] = line.Stroke(width, canvas.RoundCap, canvas.RoundJoin, 0.01).ToSVG()
	}
	return drawn
})

// Icon returns a drawn icon in a colour: a tool of the tray, an act such as
// undo or fit, or the sign of a verdict. A name that there is none for gives
// the hand.
func Icon(name string, c color.NRGBA) fyne.Resource {
	drawn := name
	if _, ok := icons[name]; !ok {
		drawn = "hand"
	}
	ink := fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B)
	s := `<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24" viewBox="0 0 24 24">`
	for _, d := range []string{outlines()[drawn], icons[drawn].solid} {
		if d != "" {
			s += `<path d="` + d + `" fill="` + ink + `"/>`
		}
	}
	return fyne.NewStaticResource(name+ink+".svg", []byte(s+`</svg>`))
}

// Icons lists the names of the drawn icons in alphabetical order.
func Icons() []string { return slices.Sorted(maps.Keys(icons)) }
