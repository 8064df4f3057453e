package cloth

import (
	"fmt"
	"slices"
	"strings"

	"truemat/ops/pattern"
)

// Topstitch says that a seam is stitched once more from the right side, so
// that its allowances stay where they are pressed.
type Topstitch struct {
	Seam string `json:"seam"`
	// Class is the stitch by ISO 4915.
	Class string `json:"class"`
	// Away is how far in mm the first row lies from the seam, 0 on it; of a seam
	// pressed open a row lies on both sides.
	Away float64 `json:"away,omitempty"`
	Rows int     `json:"rows,omitempty"` // on each side; 0 counts as 1
	// Between is how far in mm the rows lie apart.
	Between float64 `json:"between,omitempty"`
	// Ratio is the length of thread that a length of stitch takes; the usual
	// one of the class when 0.
	Ratio float64 `json:"ratio,omitempty"`
}

// Farthest returns how far in mm the outermost row lies from the seam.
func (t Topstitch) Farthest() float64 { return t.Away + float64(max(t.Rows, 1)-1)*t.Between }

// Topstitched returns how a seam is topstitched.
func (g Goods) Topstitched(seam string) (Topstitch, bool) {
	i := slices.IndexFunc(g.Topstitch, func(t Topstitch) bool { return t.Seam == seam })
	if i < 0 {
		return Topstitch{}, false
	}
	return g.Topstitch[i], true
}

// stitchClass reports whether a text can be a stitch of ISO 4915: three digits,
// the first from 1 to 6.
func stitchClass(s string) bool {
	return len(s) == 3 && s[0] >= '1' && s[0] <= '6' && strings.Trim(s, "0123456789") == ""
}

func (t Topstitch) validate() error {
	fail := func(format string, a ...any) error {
		return fmt.Errorf("topstitching of %q: %w", t.Seam, fmt.Errorf(format, a...))
	}
	switch {
	case t.Seam == "":
		return fmt.Errorf("a topstitching names no seam")
	case !stitchClass(t.Class):
		return fail("%q is no stitch class of ISO 4915; give its three digits, such as %q for the lockstitch", t.Class, "301")
	case t.stitch().ratio() == 0:
		return fail("no usual length of thread is known for stitch class %q; give its \"ratio\", measured on a seam of your own", t.Class)
	case !(t.Ratio >= 0 && t.Ratio <= mostThread):
		return fail("it is said to take %g times its length in thread; a stitch takes between 1 and %d", t.Ratio, mostThread)
	case !(t.Away >= 0 && t.Away <= longest):
		return fail("it lies %g mm from the seam; give 0 or more", t.Away)
	case t.Rows < 0 || t.Rows > mostRows:
		return fail("it has %d rows; give between 1 and %d", t.Rows, mostRows)
	case t.Rows > 1 && !(t.Between > 0 && t.Between <= longest):
		return fail("its rows lie %g mm apart; give how far the needle moves over", t.Between)
	case t.Rows <= 1 && t.Between != 0:
		return fail("it has one row, and rows %g mm apart; leave that out or give the rows", t.Between)
	}
	return nil
}

// mostRows bounds the rows of one topstitching.
const mostRows = 20

func (t Topstitch) stitch() Sewing { return Sewing{Class: t.Class, Ratio: t.Ratio} }

// sewnRows returns how often the length of its seam is stitched.
func (t Topstitch) sewnRows(press pattern.Press) float64 {
	rows := float64(max(t.Rows, 1))
	if press == pattern.PressedOpen && t.Away > 0 {
		rows *= 2
	}
	return rows
}

// validateTopstitch refuses topstitchings that cannot be or that are said twice.
func (g Goods) validateTopstitch() error {
	seen := map[string]bool{}
	for _, t := range g.Topstitch {
		if err := t.validate(); err != nil {
			return err
		}
		if seen[t.Seam] {
			return fmt.Errorf("it is said twice how %q is topstitched; say it once", t.Seam)
		}
		seen[t.Seam] = true
	}
	return nil
}
