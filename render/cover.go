package render

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/unit"
)

// coverOnSheet is the size of the cover in mm where it shares a large sheet
// with the pieces.
var coverOnSheet = geom.Pt(190, 262)

const (
	coverGap    = 8.0 // between columns, in mm
	coverText   = 2.0 // height of capitals
	narrowText  = 55.0
	squareLabel = 2.0
)

// spacing is how close the things of a cover stand.
type spacing struct {
	gap   float64 // below a square, in mm
	line  float64 // from baseline to baseline, in mm
	apart float64 // between paragraphs, in lines
}

// spacings are the ways in which a cover is laid out, of which the first is taken
// that needs the fewest pages.
var spacings = []spacing{
	{gap: coverGap, line: 3.9, apart: 0.9},
	{gap: 6, line: 3.6, apart: 0.7},
	{gap: 5, line: 3.4, apart: 0.5},
}

// paragraph is a heading with text.
type paragraph struct{ head, text string }

// coverPages draws the pages that come before the tiles, each width × height
// mm with its origin at the lower left: two test squares, in them the map of
// the pages and the legend, and what to know. The flow is simple: the squares
// take the first columns with room, the text fills what is left.
func coverPages(doc Print, plan Plan, width, height float64) []Layer {
	var best []Layer
	for _, s := range spacings {
		if pages := spacedPages(doc, plan, newFlow(width, height, s)); best == nil || len(pages) < len(best) {
			best = pages
		}
		if len(best) == 1 {
			break
		}
	}
	return best
}

func spacedPages(doc Print, plan Plan, f *flow) []Layer {
	width, height := f.width, f.height
	f.head(doc.headed(), doc.heads(plan)...)
	mm, in := 100.0, 4*unit.Inch
	if width < in || height < in+f.headHeight {
		mm, in = 50, 2*unit.Inch
	}
	if width < in || height < in+f.headHeight {
		mm, in = 20, unit.Inch
	}
	mmText, inText := squareText(mm, doc.Units), fmt.Sprintf("%[1]g\u00a0in × %[1]g\u00a0in", in/unit.Inch)
	f.square(mm, mmText, func(b geom.Box) Layer { return plan.pageMap(doc, b) })
	f.square(in, inText, func(b geom.Box) Layer { return legend(b, len(doc.Sizes) > 1, doc.hasDart()) })
	f.emptiestFirst()
	for _, p := range plan.advice(doc, mmText, inText, mm) {
		f.paragraph(p)
	}
	return f.pages
}

// squareText is what stands in the metric test square: cm and mm for whom works
// in cm.
func squareText(side float64, units unit.System) string {
	if units == unit.Centimetres {
		return fmt.Sprintf("%[1]g\u00a0cm × %[1]g\u00a0cm (%[2]g\u00a0mm)", side/10, side)
	}
	return fmt.Sprintf("%[1]g\u00a0mm × %[1]g\u00a0mm", side)
}

// summary says what the print consists of.
func (p Plan) summary(doc Print) string {
	pieces := counted(len(p.Pieces), "piece")
	on := fmt.Sprintf("%d pages of %s, %s × %s", len(p.Tiles), p.Paper.Name, counted(p.Rows, "row"), counted(p.Cols, "column"))
	if len(p.Tiles) == 1 {
		on = "one page of " + p.Paper.Name
	}
	if p.cover == nil {
		on += ", behind this one"
	}
	if len(doc.Sizes) > 1 {
		pieces += fmt.Sprintf(" in %d sizes", len(doc.Sizes))
	}
	return pieces + " on " + on
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// advice is what to know, in the order in which it is needed.
func (p Plan) advice(doc Print, mmText, inText string, side float64) []paragraph {
	right, wrong := fmt.Sprintf("%.0f", side), fmt.Sprintf("%.1f\u00a0mm", side*0.97)
	if doc.Units == unit.Centimetres {
		right, wrong = fmt.Sprintf("%g", side/10), fmt.Sprintf("%.2f\u00a0cm", side*0.097)
	}
	again := " and again after gluing"
	if p.Glued() == 0 {
		again = ""
	}
	texts := []paragraph{
		{"Print at true size", "Choose 100\u00a0% or “actual size” when printing, never “fit to page”. Print this page first and measure it before the others."},
		{"Measure before cutting", fmt.Sprintf("Measure both squares across and down with a rigid ruler: %s, and %s. Measure after printing%s.", mmText, inText, again)},
		{"When they measure wrong", fmt.Sprintf("Do not cut. Off by the same share both ways: the page was scaled. Set the scale to 100 × %s ÷ measured (%s measured: %.1f\u00a0%%) and print this page again. Off one way only: the printer pulls the paper; try another tray or way of laying the paper in, or another printer.", right, wrong, 100/0.97)},
	}
	if len(doc.Sizes) > 1 {
		texts = append(texts, paragraph{"Choose your size", "Every size is a layer with its own dashes and its label on the cut line. Switch off the sizes that you do not want in your reader's list of layers before you print, or follow the label of yours when you cut."})
	}
	if len(p.Joints) > 0 {
		texts = append(texts, p.gluing(cmp.Or(doc.Units, unit.Millimetres)))
	}
	if len(doc.Laces) > 0 {
		texts = append(texts, paragraph{"The border of the lace", "The scalloped line along a lace edge shows how the border of the lace lies there, at true size: the dotted line is the valley line, through the innermost points between two scallops. Lay the paper so that the points of the lace lie on those of the line; turned over for the other hand, they mirror each other."})
	}
	return append(texts,
		paragraph{"Underwires", "A wire must lie in its line without force. A wire line that was altered can make a wire press. For choosing, fitting and cutting wires the maker's instructions and a professional fitter go first; stop wearing what presses, pricks or numbs."},
		paragraph{"Spray adhesive", "Use it in fresh air, away from flames and sparks, as its label says. A glue stick or tape does as well."},
		paragraph{"Blades", "Cut away from your fingers, on a mat, and close rotary cutters and knives as soon as you put them down."},
	)
}

// flow fills pages of columns from the upper left.
type flow struct {
	spacing
	width, height float64
	headHeight    float64
	columns       []flowColumn // of the page being filled
	at            int          // the column that text goes to
	pages         []Layer
}

type flowColumn struct{ x, width, y float64 } // y is the upper end of what is free

func newFlow(width, height float64, s spacing) *flow {
	f := &flow{spacing: s, width: width, height: height}
	f.page(height)
	return f
}

// page starts a page whose columns begin below top. Columns are as wide as a
// square; what is left over is a column of its own when text can stand in it.
func (f *flow) page(top float64) {
	f.pages = append(f.pages, Layer{Name: "cover"})
	f.columns, f.at = nil, 0
	wide := 4 * unit.Inch
	n := max(int((f.width+coverGap)/(wide+coverGap)), 1)
	rest := f.width - float64(n)*(wide+coverGap)
	if n == 1 && f.width < wide || rest < narrowText {
		wide = (f.width - float64(n-1)*coverGap) / float64(n)
	}
	for i := range n {
		f.columns = append(f.columns, flowColumn{x: float64(i) * (wide + coverGap), width: wide, y: top})
	}
	if rest >= narrowText {
		f.columns = append(f.columns, flowColumn{x: f.width - rest, width: rest, y: top})
	}
}

func (f *flow) add(l Layer) {
	last := &f.pages[len(f.pages)-1]
	*last = last.with(l)
}

// headLine is told below the title of a cover.
type headLine struct {
	text string
	bold bool
}

// head writes the title over all columns.
func (f *flow) head(title string, texts ...headLine) {
	h := narrowed(title, 6, coverText, true, f.width)
	y := f.height + h*(1.5-1-ascent)
	for _, line := range wrap(title, h, true, f.width) {
		y -= h * 1.5
		f.add(Layer{Labels: []Label{{Text: line, At: geom.Pt(0, y), Height: h, Color: black, Bold: true}}})
	}
	for _, text := range texts {
		for _, line := range wrap(text.text, 2.4, text.bold, f.width) {
			y -= 5
			f.add(Layer{Labels: []Label{{Text: line, At: geom.Pt(0, y), Height: 2.4, Color: black, Bold: text.bold}}})
		}
	}
	y -= 5
	f.headHeight = f.height - y
	for i := range f.columns {
		f.columns[i].y = y
	}
}

// square draws a test square of that side into the first column with room,
// and into it, 6 mm off its sides, what inside draws.
func (f *flow) square(side float64, text string, inside func(geom.Box) Layer) {
	const line = 0.2
	fits := func(c flowColumn) bool { return c.width >= side && c.y-side >= 0 }
	k := 0
	for k < len(f.columns) && !fits(f.columns[k]) {
		k++
	}
	if k == len(f.columns) {
		f.page(f.height)
		k = 0
	}
	c := &f.columns[k]
	text = strings.ReplaceAll(text, unbroken, " ")
	b := geom.Box{Min: geom.Pt(c.x, c.y-side), Max: geom.Pt(c.x+side, c.y)}
	f.add(Layer{
		Figures: []Figure{{Kind: TestSquare, Path: rectangle(b), Pen: Pen{Width: line, Color: black}}},
		Labels:  []Label{{Text: text, At: geom.Pt(b.Center().X, b.Min.Y+1.6), Height: narrowed(text, squareLabel, 1, true, side-2), Anchor: Middle, Color: black, Bold: true}},
	})
	in := b.Grow(-4)
	in.Min.Y = b.Min.Y + 6
	f.add(inside(in))
	c.y -= side + f.gap
}

// emptiestFirst lets text begin in the column with the most room.
func (f *flow) emptiestFirst() {
	slices.SortStableFunc(f.columns, func(a, b flowColumn) int { return cmp.Compare(b.y, a.y) })
}

// paragraph writes text into the first column from the current one on that
// has room for it, over to a new page when none has.
func (f *flow) paragraph(p paragraph) {
	for tries := 0; tries < 2; tries++ {
		for ; f.at < len(f.columns); f.at++ {
			c := &f.columns[f.at]
			lines := wrap(p.text, coverText, false, c.width)
			need := float64(len(lines)+1) * f.line
			if c.y < need && !(tries > 0 && f.at == len(f.columns)-1) {
				continue
			}
			y := c.y - coverText*1.15
			l := Layer{Labels: []Label{{Text: p.head, At: geom.Pt(c.x, y), Height: coverText * 1.15, Color: black, Bold: true}}}
			for _, line := range lines {
				y -= f.line
				l.Labels = append(l.Labels, Label{Text: line, At: geom.Pt(c.x, y), Height: coverText, Color: black})
			}
			f.add(l)
			c.y = y - f.line*f.apart
			return
		}
		f.page(f.height)
	}
}

// narrowed returns the greatest height of capitals, at most tall and not under
// least, at which text is no wider than width.
func narrowed(text string, tall, least float64, bold bool, width float64) float64 {
	return max(min(tall, width/TextWidth(text, 1, bold)), least)
}

// unbroken stands for a blank at which wrap does not break.
const unbroken = "\u00a0"

// wrap breaks text into lines of at most width mm; a longer word stands alone.
func wrap(text string, height float64, bold bool, width float64) []string {
	var lines []string
	line := ""
	for _, w := range strings.Split(unit.Kept(text), " ") {
		longer := joined(" ", line, w)
		if line != "" && TextWidth(longer, height, bold) > width {
			lines = append(lines, line)
			longer = w
		}
		line = longer
	}
	if line != "" {
		lines = append(lines, line)
	}
	for i := range lines {
		lines[i] = strings.ReplaceAll(lines[i], unbroken, " ")
	}
	return lines
}
