package render

import (
	"bytes"
	"errors"
	"fmt"
	"image/color"
	"io"
	"math"
	"strconv"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"truemat/assets"
	"truemat/geom"
	"truemat/ops/unit"
)

// pointsPerMM is the PDF's unit: 72 points to the inch.
const pointsPerMM = 72 / unit.Inch

// maxPageSide is the longest side of a page in mm that a PDF can have
// without a unit of its own (14,400 points).
const maxPageSide = 14400 / pointsPerMM

// pdfFile is a PDF being written. Lines are written with four decimals of a
// point, a tenth of a thousandth of a millimetre.
type pdfFile struct {
	doc    *fpdf.Fpdf
	height float64 // of the page, in mm
	ops    []byte  // operators not yet handed to doc
	pen    Pen     // as set on the page
	fill   color.NRGBA
}

// newPDF starts a file. It carries no time and no name of its maker: the same
// drawing always gives the same bytes.
func newPDF(title string) *pdfFile {
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: 210, Ht: 297}})
	doc.SetCatalogSort(true)
	never := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	doc.SetCreationDate(never)
	doc.SetModificationDate(never)
	doc.SetProducer("Truemat", true)
	doc.SetTitle(title, true)
	doc.SetLang("en")
	doc.SetMargins(0, 0, 0)
	doc.SetAutoPageBreak(false, 0)
	doc.AddUTF8FontFromBytes(assets.FontFamily, "", assets.FontRegular())
	doc.AddUTF8FontFromBytes(assets.FontFamily, "B", assets.FontBold())
	return &pdfFile{doc: doc}
}

// page starts a page of that size in mm.
func (p *pdfFile) page(width, height float64) {
	p.flush()
	orientation, size := "P", fpdf.SizeType{Wd: width, Ht: height}
	if width > height {
		orientation, size = "L", fpdf.SizeType{Wd: height, Ht: width}
	}
	p.doc.AddPageFormat(orientation, size)
	p.height = height
	p.pen, p.fill = Pen{}, color.NRGBA{}
	p.op("1 j\n")
}

// layer adds a switchable layer.
func (p *pdfFile) layer(name string) int { return p.doc.AddLayer(name, true) }

// in draws on a layer what draw draws.
func (p *pdfFile) in(layer int, draw func()) {
	p.flush()
	p.doc.BeginLayer(layer)
	draw()
	p.flush()
	p.doc.EndLayer()
}

// clipped draws only inside box, in mm from the page's lower left corner.
func (p *pdfFile) clipped(box geom.Box, draw func()) {
	pen, fill := p.pen, p.fill
	p.op("q\n")
	p.numbers(box.Min.X, box.Min.Y, box.Width(), box.Height())
	p.op("re W n\n")
	draw()
	p.op("Q\n")
	p.pen, p.fill = pen, fill
}

// draw draws a layer, its coordinates moved by shift onto the page.
func (p *pdfFile) draw(l Layer, shift geom.Point) {
	for _, f := range l.Figures {
		p.figure(f, shift)
	}
	for _, t := range l.Labels {
		p.label(t, shift)
	}
}

// drawIn is draw without what lies wholly outside clip, in the layer's
// coordinates.
func (p *pdfFile) drawIn(l boxed, shift geom.Point, clip geom.Box) { p.draw(l.in(clip), shift) }

func (p *pdfFile) figure(f Figure, shift geom.Point) {
	stroke, fill := f.Pen.Width > 0, f.Fill.A > 0
	if f.Path.Empty() || !stroke && !fill {
		return
	}
	if stroke {
		p.setPen(f.Pen)
	}
	if fill && f.Fill != p.fill {
		p.fill = f.Fill
		p.rgb(f.Fill, "rg\n")
	}
	p.path(f.Path, shift)
	switch {
	case stroke && fill:
		p.op("B\n")
	case fill:
		p.op("f\n")
	default:
		p.op("S\n")
	}
}

func (p *pdfFile) path(path geom.Path, shift geom.Point) {
	at := func(q geom.Point) { p.numbers(q.X+shift.X, q.Y+shift.Y) }
	at(path.Start())
	p.op("m\n")
	for i := range path.Len() {
		c := path.Seg(i)
		if c.IsStraight() {
			at(c.P[3])
			p.op("l\n")
			continue
		}
		at(c.P[1])
		at(c.P[2])
		at(c.P[3])
		p.op("c\n")
	}
	if path.Closed() {
		p.op("h\n")
	}
}

func (p *pdfFile) setPen(pen Pen) {
	if pen.Width != p.pen.Width {
		p.numbers(pen.Width)
		p.op("w\n")
	}
	if pen.Color != p.pen.Color || p.pen.Width == 0 {
		p.rgb(pen.Color, "RG\n")
	}
	if !sameDash(pen.Dash, p.pen.Dash) {
		p.op("[")
		p.numbers(pen.Dash...)
		p.op("] 0 d\n")
	}
	p.pen = pen
}

func sameDash(a, b []float64) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// label writes text that can be searched, turned and placed by a matrix.
func (p *pdfFile) label(l Label, shift geom.Point) {
	text := writable(l.Text, l.Bold)
	if text == "" {
		return
	}
	at := l.start().Add(shift)
	u := l.Angle.Unit()
	size := l.Height / faceOf(l.Bold).caps * pointsPerMM
	// The size is rounded to hundredths of a point; the matrix makes up for it.
	rounded := max(math.Round(size*100)/100, 0.01)
	k := size / rounded
	p.op("q\n")
	for _, v := range [4]float64{u.X * k, u.Y * k, -u.Y * k, u.X * k} {
		p.ops = append(strconv.AppendFloat(p.ops, v, 'f', 6, 64), ' ')
	}
	p.numbers(at.X, at.Y)
	p.op("cm\n")
	p.rgb(l.Color, "rg\n")
	p.flush()
	style := ""
	if l.Bold {
		style = "B"
	}
	p.doc.SetFont(assets.FontFamily, style, rounded)
	p.doc.Text(0, p.height, text)
	p.op("Q\n")
}

func (p *pdfFile) op(s string) { p.ops = append(p.ops, s...) }

// numbers writes millimetres as points.
func (p *pdfFile) numbers(mm ...float64) {
	for _, v := range mm {
		p.ops = append(strconv.AppendFloat(p.ops, v*pointsPerMM, 'f', 4, 64), ' ')
	}
}

func (p *pdfFile) rgb(c color.NRGBA, op string) {
	for _, v := range [3]uint8{c.R, c.G, c.B} {
		p.ops = append(strconv.AppendFloat(p.ops, float64(v)/255, 'f', 3, 64), ' ')
	}
	p.op(op)
}

func (p *pdfFile) flush() {
	if len(p.ops) > 0 {
		p.doc.RawWriteBuf(bytes.NewReader(p.ops))
		p.ops = p.ops[:0]
	}
}

// finish writes the file. The catalog asks the reader not to scale pages.
func (p *pdfFile) finish(w io.Writer) error {
	p.flush()
	var buf bytes.Buffer
	if err := p.doc.Output(&buf); err != nil {
		return fmt.Errorf("making the PDF: %w", err)
	}
	file, err := askForTrueSize(buf.Bytes())
	if err != nil {
		return err
	}
	if _, err := w.Write(file); err != nil {
		return fmt.Errorf("writing the PDF: %w", err)
	}
	return nil
}

const (
	catalogMark    = "/Type /Catalog\n"
	startMark      = "startxref\n"
	trueSizeWishes = "/ViewerPreferences <</PrintScaling /None /PickTrayByPDFSize true>>\n"
)

// askForTrueSize adds viewer preferences (PDF 1.7, 12.2) to the catalog,
// which is the last object, so that only the place of the cross-reference
// table moves.
func askForTrueSize(file []byte) ([]byte, error) {
	at := bytes.LastIndex(file, []byte(catalogMark))
	start := bytes.LastIndex(file, []byte(startMark))
	if at < 0 || start < at || !bytes.HasPrefix(file, []byte("%PDF-1.")) {
		return nil, errors.New("making the PDF: its catalog was not found")
	}
	at += len(catalogMark)
	start += len(startMark)
	end := start + bytes.IndexByte(file[start:], '\n')
	xref, err := strconv.Atoi(string(file[start:end]))
	if err != nil {
		return nil, fmt.Errorf("making the PDF: %w", err)
	}
	out := make([]byte, 0, len(file)+len(trueSizeWishes)+8)
	out = append(out, "%PDF-1.7"...)
	out = append(out, file[len("%PDF-1.7"):at]...)
	out = append(out, trueSizeWishes...)
	out = append(out, file[at:start]...)
	out = strconv.AppendInt(out, int64(xref+len(trueSizeWishes)), 10)
	return append(out, file[end:]...), nil
}
