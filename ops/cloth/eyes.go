package cloth

import (
	"fmt"

	"truemat/ops/pattern"
)

// Eyes are the columns of eyes of the hook-and-eye closure. Column 1 is the
// loosest; what the fastened closure adds to the hem is stated for the column
// that is worn, see [pattern.Fit].
type Eyes struct {
	Columns int     `json:"columns"`
	Spacing float64 `json:"spacing,omitempty"` // mm from a column to the next
	Worn    int     `json:"worn,omitempty"`    // the column it is worn in; 0 counts as 1
}

// mostColumns bounds the columns of eyes of one closure.
const mostColumns = 20

func (e Eyes) validate() error {
	switch {
	case e == Eyes{}:
		return nil
	case e.Columns < 1 || e.Columns > mostColumns:
		return wrong("eyes.columns", "the closure has %d columns of eyes; give between 1 and %d", e.Columns, mostColumns)
	case e.Columns > 1 && !(e.Spacing > 0 && e.Spacing <= longest):
		return wrong("eyes.spacing", "the columns of eyes are %g mm apart; measure from eye to eye along the closure", e.Spacing)
	case e.Columns == 1 && e.Spacing != 0:
		return wrong("eyes.spacing", "one column of eyes is %g mm apart from a next one that there is not; leave the spacing out", e.Spacing)
	case e.Worn < 0 || e.Worn > e.Columns:
		return wrong("eyes.worn", "it is worn in column %d of %d; column 1 is the loosest", e.Worn, e.Columns)
	}
	return nil
}

// InWear returns the column that the closure is worn in, from 1.
func (e Eyes) InWear() int { return max(e.Worn, 1) }

// Looser returns by how many mm the garment is longer in a column than in the
// one that is worn: (worn − column) · spacing.
func (e Eyes) Looser(column int) float64 { return float64(e.InWear()-column) * e.Spacing }

// fits refuses columns that do not find room on the closure.
func (e Eyes) fits(p pattern.Pattern) error {
	fastened := p.Figures[pattern.FigureFastened]
	if e.Columns == 0 || fastened == 0 {
		return nil
	}
	if left := fastened + e.Looser(e.Columns); left < 0 {
		return fmt.Errorf("the closure, worn in column %d, adds %g mm to the hem, and the tightest of its %d columns lies %g mm farther in; state a longer closure by \"truemat fit --closure\", or fewer columns", e.InWear(), fastened, e.Columns, fastened-left)
	}
	return nil
}
