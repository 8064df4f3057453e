package store

import "slices"

// History is a list of documents through which one can go back and forth
// without limit. It is a value: its methods return a new one.
type History struct {
	versions []Document
	at       int
}

// NewHistory returns the history that starts with d.
func NewHistory(d Document) History { return History{versions: []Document{d}} }

// Unfolded returns the history in which the steps of d were taken one by one,
// at its end: undo leads down to the source without steps.
func Unfolded(d Document) History {
	var h History
	for i := range d.Recipe {
		before := d
		before.Recipe = slices.Clone(d.Recipe[:i])
		h.versions = append(h.versions, before)
	}
	return History{append(h.versions, d), len(d.Recipe)}
}

// Current returns the document as it is now.
func (h History) Current() Document { return h.versions[h.at] }

// Version returns how many changes led to the current document.
func (h History) Version() int { return h.at }

// Ahead returns how many changes that were taken back can be taken up again.
func (h History) Ahead() int { return len(h.versions) - 1 - h.at }

// Do adds a changed document; what was taken back before is forgotten.
func (h History) Do(d Document) History {
	return History{append(slices.Clone(h.versions[:h.at+1]), d), h.at + 1}
}

// Undo goes back to the document before; false when there is none.
func (h History) Undo() (History, bool) {
	if h.at == 0 {
		return h, false
	}
	return History{h.versions, h.at - 1}, true
}

// Redo goes to the document that Undo left; false when there is none.
func (h History) Redo() (History, bool) {
	if h.Ahead() == 0 {
		return h, false
	}
	return History{h.versions, h.at + 1}, true
}
