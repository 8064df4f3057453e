package render

import (
	"errors"
	"fmt"
	"io"

	"truemat/geom"
)

// sheetMargin is the white around a scene drawn on one sheet, in mm.
const sheetMargin = 10

// sheetSize returns the size in mm of the sheet that a scene is drawn on.
func sheetSize(s Scene) (width, height float64, err error) {
	if s.Box.Empty() {
		return 0, 0, errors.New("there is nothing to draw")
	}
	return s.Box.Width() + 2*sheetMargin, s.Box.Height() + 2*sheetMargin, nil
}

// WritePDF draws a scene as one page at true size, 10 mm of white around it.
func WritePDF(w io.Writer, title string, s Scene) error {
	width, height, err := sheetSize(s)
	if err != nil {
		return err
	}
	if width > maxPageSide || height > maxPageSide {
		return fmt.Errorf("the drawing is %.0f × %.0f mm, and a PDF page can be %.0f mm at most; print it in tiles instead", width, height, maxPageSide)
	}
	p := newPDF(title)
	p.page(width, height)
	for _, l := range s.Layers {
		p.draw(l, geom.Pt(sheetMargin, sheetMargin).Sub(s.Box.Min))
	}
	return p.finish(w)
}
