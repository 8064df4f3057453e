package step

import "errors"

// mendable is a refusal of which each step knows its own way out.
type mendable struct{ why, remedy string }

// Error tells why, and the way out.
func (r mendable) Error() string { return r.why + "; " + r.remedy }

// advised gives a refusal the way out that fits the step; other errors stay as
// they are. It comes before the error is wrapped.
func advised(err error, remedy string) error {
	var r mendable
	if errors.As(err, &r) {
		return mendable{r.why, remedy}
	}
	return err
}
