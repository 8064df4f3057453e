package cloth

import (
	"fmt"

	"truemat/ops/unit"
)

// plausible is the thickness in mm up to which lace, tulle and knits for bras
// lie; foam is thicker. Common practice, without a published source.
const plausible = 3.0

// Doubts returns what can be about a cloth but is seldom meant, as questions,
// one for each field at most. They hinder nothing.
func (c Cloth) Doubts() []Wrong {
	if len(c.Of) > 0 || !(c.Thickness > plausible && c.Thickness <= thickest) {
		return nil
	}
	return []Wrong{{"thickness", fmt.Errorf("is it really %s thick? Lace, tulle and knits are thinner than %g mm (common practice); a tag that says %s is in mm already. Foam may be as thick: then leave it",
		unit.MM(c.Thickness), plausible, unit.MM(c.Thickness/10))}}
}
