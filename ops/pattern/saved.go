package pattern

import "encoding/json"

// AsSaved returns the run as reading its file gives it. A path that was moved
// or reversed knows its lengths from before, which can differ from those found
// anew in the last digit; so a run that is drafted or brought in is taken as it
// will be saved, or its steps would not give the same bytes after a reading.
func (r Run) AsSaved() (Run, error) {
	b, err := json.Marshal(r)
	if err != nil {
		return Run{}, err
	}
	var saved Run
	return saved, json.Unmarshal(b, &saved)
}
