package cloth

// Pull is a pull test by hand: two marks on the relaxed cloth Before mm
// apart, Under mm apart under load, After mm apart when the cloth has rested
// without it. After is 0 when it was not measured.
type Pull struct {
	Before float64 `json:"before"`
	Under  float64 `json:"under"`
	After  float64 `json:"after,omitempty"`
}

// Stretch returns 100 (under − before) / before, in per cent (ASTM D2594;
// ISO 20932-1 calls it elongation).
func (p Pull) Stretch() float64 { return 100 * (p.Under - p.Before) / p.Before }

// Growth returns 100 (after − before) / before, in per cent: what remains
// when the load is gone (ASTM D2594). It is false when that was not measured.
func (p Pull) Growth() (float64, bool) {
	return 100 * (p.After - p.Before) / p.Before, p.After != 0
}

// Recovery returns 100 (under − after) / (under − before), in per cent: how
// much of the stretch goes back (ISO 20932-1). It is false when that was not
// measured, or when there was no stretch to go back.
func (p Pull) Recovery() (float64, bool) {
	return 100 * (p.Under - p.After) / (p.Under - p.Before), p.After != 0 && p.Under > p.Before
}

// Measured reports whether the test was made at all.
func (p Pull) Measured() bool { return p != Pull{} }

// Validate refuses a test that cannot have been measured; the error is a [Wrong].
func (p Pull) Validate() error {
	switch {
	case !(p.Before > 0 && p.Before <= longest):
		return wrong("before", "the marks must lie some way apart before the pull, not %g mm; 100 mm is usual", p.Before)
	case !(p.Under >= p.Before && p.Under <= longest):
		return wrong("under", "under load the marks lie %g mm apart, before it %g mm; a pulled cloth is no shorter", p.Under, p.Before)
	case p.After != 0 && !(p.After >= p.Before && p.After <= p.Under):
		return wrong("after", "after rest the marks lie %g mm apart, which is not between %g mm (before) and %g mm (under load); measure again, or leave it out", p.After, p.Before, p.Under)
	}
	return nil
}

// longest bounds every length, so that a slip of the pen is told from cloth.
const longest = 1e5
